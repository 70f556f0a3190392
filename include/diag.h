/* Mistakes in the notes, as data. A room that finds one adds a struct diag to
 * the list and goes on; only src/cmd sorts, prints and counts them for the
 * exit code. Everything a code means stands in one table, src/base/diag.def.
 * A failure of the machine (a file that cannot be read) is no diagnostic but a
 * returned status. */
#ifndef NINEMETRE_DIAG_H
#define NINEMETRE_DIAG_H

#include <stdbool.h>

#include "arena.h"
#include "str.h"

/* error: the numbers can be wrong. warning: unlikely. review: the scorer's own
 * mark of doubt. */
enum severity { SEVERITY_ERROR, SEVERITY_WARNING, SEVERITY_REVIEW };

enum diag_id {
#define DIAG(number, id, ...) id,
#include "diag.def"
#undef DIAG
    DIAG_N
};

/* What a code means, for `9m explain`, hover and the manual. */
struct diag_info {
    unsigned number;        /* 203 of E203 or W203; never used twice */
    const char *name;       /* the identifier, for tests */
    enum severity severity;
    const char *format;     /* printf format of the message */
    const char *title;      /* what it is about, a few words */
    const char *why;        /* why it matters to the numbers */
    const char *bad;        /* smallest notes that raise it */
    const char *good;       /* the same, mended */
    const char *alike;      /* look-alikes, or "" */
    const char *rule;       /* the rule behind it, or "" */
};

/* The table's row of one id; of a code such as "E203", NULL if there is none. */
const struct diag_info *diag_info(enum diag_id id);
const struct diag_info *diag_find(struct str code);

/* "E203" into six bytes. */
void diag_code(const struct diag_info *info, char out[6]);

/* Some bytes of one line of one file. `at` and `n` count bytes; n may be 0
 * (something is missing there). `line` counts from 1, 0 for the file as a
 * whole. Columns for people are computed when the message is shown. */
struct place {
    struct str file;
    struct str text;        /* the whole line, without its end */
    unsigned line;
    unsigned at, n;
};

enum { DIAG_SEES = 2, DIAG_EDITS = 2 };

/* A second place that the message points to; line 0 if there is only text. */
struct see {
    struct place place;
    struct str text;
};

/* Replace `n` bytes from byte `at` of line `line` by `text`. A '\n' in the
 * text starts a new line. */
struct edit {
    unsigned line;
    unsigned at, n;
    struct str text;
};

struct diag {
    enum diag_id id;
    struct place place;
    struct str text;        /* the message, without code and place */
    struct str expected;    /* the rest may be empty: what may stand there */
    struct str attempt;     /* shown as `try`: a whole line that parses */
    struct str likely;      /* a guess in words */
    struct str done;        /* what the program did about it */
    struct str hint;
    struct str rule;
    struct see sees[DIAG_SEES];
    unsigned see_n;
    struct edit edits[DIAG_EDITS];  /* the mend behind `attempt` */
    unsigned edit_n;
    bool safe;              /* the mend keeps the meaning: --fix may do it */
    unsigned order, group;  /* of the file among those read, for sorting */
};

/* A growing list. `order` is given to each diag added, and so is `group`, which
 * parts the squad files of one file (1 and up, sorted first) from itself (0). Beyond DIAGS_MAX messages
 * (a file that is no notes at all) the rest is counted and not kept. */
enum { DIAGS_MAX = 10000 };

struct diags {
    struct arena *arena;
    struct diag *at;
    size_t n, room;
    unsigned errors, warnings, reviews;
    unsigned order, group;
};

void diags_init(struct diags *d, struct arena *a);

/* Adds a message made from the code's format and gives it, to be filled
 * further; it is valid until the next addition. NULL when it is not kept: the
 * list is full, or it is a warning that its line silences with a reason
 * ("# ok W450 long run, seen on video"), which is not counted either. The calls
 * below take NULL. */
struct diag *diags_add(struct diags *d, enum diag_id id, struct place where, ...);

/* Adds the messages of another list, as of this list's file and group. */
void diags_join(struct diags *d, const struct diags *from);

/* Takes back every message added since the copy `before` of the list was made:
 * the line has had its one message. */
void diags_restore(struct diags *d, const struct diags *before);

/* Of the messages from the `from`-th on keeps the first error and every review:
 * one line is one message. */
void diags_keep_first(struct diags *d, size_t from);

/* The last message with this id on this line; NULL if there is none. */
struct diag *diags_find(struct diags *d, enum diag_id id, unsigned line);

/* Takes back the last message with this id on this line, if there is one: a
 * later line has explained what looked like a slip. */
void diags_withdraw(struct diags *d, enum diag_id id, unsigned line);

/* Adds a second place. */
void diag_see(struct diag *diag, struct place where, struct str text);

/* Adds an edit to the mend. */
void diag_edit(struct diag *diag, unsigned line, unsigned at, unsigned n, struct str text);

/* Sorts by file, line and column; equal places keep their order. */
void diags_sort(struct diags *d);

/* Display column from 1 of byte `at` in `line`: tabs to 8, wide letters 2. */
unsigned place_column(struct place p);

#endif
