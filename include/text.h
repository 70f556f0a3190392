/* A file's bytes, checked once. This room knows about encodings, line ends and
 * characters that must not stand in notes; it knows nothing of the notation.
 * It reads files and never writes one. */
#ifndef NINEMETRE_TEXT_H
#define NINEMETRE_TEXT_H

#include "diag.h"

enum {
    TEXT_PADDING = 16,           /* NUL bytes behind the text, for the lexer */
    TEXT_LINE_MAX_BYTES = 4096,
    TEXT_FILE_MAX_MIB = 512
};

/* A line whose bytes have had their message. */
struct spoilt {
    unsigned line;
    bool skip;                   /* not to be read: of an unresolved merge, in UTF-16 */
    struct str mended;           /* with plain signs for look-alikes, or empty */
    size_t diag_ix;              /* its message in the list, if mended */
};

struct text {
    struct str name;             /* the path as given, for messages */
    struct str bytes;            /* without BOM, TEXT_PADDING NULs behind */
    struct spoilt *spoilt;       /* by rising line */
    size_t spoilt_n;
    bool bom;
    bool utf16;                  /* that was told, and no line of it is read */
};

enum text_status {
    TEXT_READ,
    TEXT_MISSING,                /* errno says why it can't be opened */
    TEXT_UNREADABLE,             /* a read failed, a directory; errno says why */
    TEXT_TOO_LARGE
};

/* Reads the file at `path` ("-" is standard input) into the arena and checks
 * its bytes; what is wrong with them goes to `d`. */
enum text_status text_read(struct text *t, const char *path, struct arena *a, struct diags *d);

/* The same, but nothing that is no ordinary file: a squad must not wait for a pipe. */
enum text_status text_read_ordinary(struct text *t, const char *path, struct arena *a,
                                    struct diags *d);

/* The same for bytes that are in memory already; they are copied. */
void text_take(struct text *t, struct str name, struct str bytes, struct arena *a,
               struct diags *d);

/* The line that holds byte `at`, without its end. `number` counts from 1. */
struct str text_line_at(const struct text *t, size_t at);

/* The place of `n` bytes from byte `at`, which lie in line `number`. */
struct place text_place(const struct text *t, unsigned number, size_t at, size_t n);

/* Line `number`, found by counting; empty beyond the last. */
struct str text_line(const struct text *t, unsigned number);

#endif
