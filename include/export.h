/* Checked facts as tables for other programs: one row a serve, or one row a
 * line that counts without serves, with all that was derived about it. The
 * room writes CSV, JSON, JSON lines and SQLite into memory and nothing else;
 * what a column means stands in src/export/columns.def. */
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
};

/* A table under construction, in the arena; export_free gives back what lies
 * elsewhere. What fails is told by export_end. */
struct export *export_new(const struct export_style *style, struct arena *a);
void export_free(struct export *e);

/* Adds the rows of one file. `scratch` may be emptied afterwards. */
void export_add(struct export *e, const struct checked *c, struct str file,
                struct arena *scratch);

/* Ends the table; `incomplete` says that lines or files were left out. Gives
 * its bytes in `*n` parts, which live until export_free; false when SQLite
 * fails. */
bool export_end(struct export *e, bool incomplete, const struct str **parts, size_t *n);

#endif
