/* Checked facts as tables for other programs: one row a serve, or one row a
 * line that counts without serves, with all that was derived about it. CSV, JSON
 * and JSON lines are bytes in memory, taken away as they come; SQLite fills a file
 * that is there. What a column means stands in src/export/columns.def. */
#ifndef NINEMETRE_EXPORT_H
#define NINEMETRE_EXPORT_H

#include "check.h"

/* Numbers the set of columns; raised when one is added. */
enum { EXPORT_SCHEMA = 2 };

enum export_form { EXPORT_CSV, EXPORT_JSON, EXPORT_JSONL, EXPORT_SQLITE };
enum export_table { EXPORT_SERVES, EXPORT_PRACTICE };

/* A key below this is no secret. */
enum { EXPORT_KEY_MIN_BYTES = 16 };

struct export_style {
    enum export_form form;
    enum export_table table;
    char separator, decimal;     /* of CSV: ',' and '.' but for a spreadsheet */
    bool bom;
    struct str key;              /* pseudonyms in the place of names; empty: names */
    struct str version;          /* of the program, for JSON and SQLite */
    const char *database;        /* SQLite: an empty file */
};

/* A table under construction, in the arena; export_free gives back what lies
 * elsewhere. What fails is told by export_end. */
struct export *export_new(const struct export_style *style, struct arena *a);
void export_free(struct export *e);

/* Rows that were not taken away yet. Each thread may have such a batch, in an arena of
 * its own; into a database rows go at once, so there only one thread at a time may
 * add. `scratch` may be emptied after each call. */
struct export_batch;

struct export_batch *export_batch_new(struct export *e, struct arena *a);

/* What stands before all rows. */
void export_begin(struct export_batch *b);

/* Adds the rows of some serves of a file, if the table is one of serves. */
void export_serves(struct export_batch *b, const struct checked *c, const struct played *serves,
                   size_t n, struct str file, struct arena *scratch);

/* Adds the rows of its other lines, if the table is one of practice. */
void export_lines(struct export_batch *b, const struct checked *c, struct str file,
                  struct arena *scratch);

/* How much there is to be taken away. */
size_t export_bytes(const struct export_batch *b);

/* Empties the batch and gives what is to be written next; valid until the next
 * addition. Batches are taken in the order of their files, by one thread at a time. */
struct str export_take(struct export_batch *b);

/* Adds what stands behind all rows; `incomplete` says that lines or files were left
 * out. False when SQLite failed. */
bool export_end(struct export_batch *b, bool incomplete);

#endif
