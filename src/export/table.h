/* What the files of the room share: a row of cells, whoever fills or writes it. */
#ifndef EXPORT_TABLE_H
#define EXPORT_TABLE_H

#include <sqlite3.h>

#include "export.h"
#include "tally.h"

enum column_kind {
    COLUMN_TEXT, COLUMN_DATE, COLUMN_WORD, COLUMN_WORDS, COLUMN_WHOLE, COLUMN_FLAG, COLUMN_DECIMAL
};

struct column {
    struct str name;
    enum column_kind kind;
};

enum {
#define SERVES(name, ...) SERVES_##name,
#define PRACTICE(name, ...)
#include "export/columns.def"
#undef SERVES
#undef PRACTICE
    SERVES_N
};

enum {
#define SERVES(name, ...)
#define PRACTICE(name, ...) PRACTICE_##name,
#include "export/columns.def"
#undef SERVES
#undef PRACTICE
    PRACTICE_N
};

/* What was not recorded is CELL_EMPTY, never 0. */
enum cell_kind { CELL_EMPTY, CELL_TEXT, CELL_WHOLE, CELL_HUNDREDTHS };

struct cell {
    enum cell_kind kind;
    int32_t number;
    struct str text;
};

enum { CELLS_MAX = SERVES_N, PHASE_SETS = PHASE_ALL + 1 };

/* What holds for all rows of one file; texts are made once. */
struct sheet {
    const struct checked *checked;
    const struct export *export;
    struct arena *arena;
    struct str file, date, kind;
    struct str letter[SIDE_N], team[SIDE_N]; /* the name or its pseudonym */
    struct str *names[SIDE_N];   /* by shirt, empty until asked for */
    bool *named[SIDE_N];
    struct str focus[SHIRT_MAX + 1];
    struct str *plans;
};

struct export {
    struct export_style style;
    struct arena *arena;
    const struct column *columns;
    size_t column_n;
    struct str table;            /* its name */
    struct str types[TYPE_UNDERHAND + 1];
    struct str outcomes[OUTCOME_N];
    struct str observed[PHASE_SETS];
    struct { struct str word; uint32_t bit; } marks[MARK_N]; /* by code */
    bool any;                    /* a row was taken away */
    sqlite3 *db;
    sqlite3_stmt *insert;
    bool failed;
};

struct export_batch {
    struct export *export;
    struct buf out;
};

static inline void cell_text(struct cell *c, struct str s) {
    if (s.n) {
        c->kind = CELL_TEXT;
        c->text = s;
    }
}

static inline void cell_whole(struct cell *c, int n) {
    c->kind = CELL_WHOLE;
    c->number = n;
}

static inline void cell_hundredths(struct cell *c, int n) {
    c->kind = CELL_HUNDREDTHS;
    c->number = n;
}

/* ---- rows (serves.c, practice.c, sheet.c) --------------------------------- */

void sheet_init(struct sheet *s, const struct export *e, const struct checked *c, struct str file,
                struct arena *a);

/* The player's name or pseudonym; empty if there is none. */
struct str sheet_name(struct sheet *s, unsigned side, unsigned shirt);

/* False if the serve has no row. The texts live as long as the row's arena. */
struct row {
    struct cell cells[CELLS_MAX];
    char marks[MARK_N * 3];
};

bool serves_row(struct row *row, struct sheet *s, const struct played *p);
void practice_rows(struct export_batch *b, struct sheet *s);

/* A pseudonym that needs the key to be told from another: `kind` parts the
 * people from the files. */
struct str pseudonym(const struct export *e, const char *kind, struct str name, struct arena *a);

/* ---- writers (numbers.c, csv.c, json.c, sqlite.c) ------------------------- */

/* The number without zeros behind the point; gives where it ends. */
char *put_whole(char *at, int n);
char *put_hundredths(char *at, int n, char decimal);
enum { NUMBER_MAX_BYTES = 16 };

void csv_begin(struct export_batch *b);
void csv_row(struct export_batch *b, const struct cell *cells);
void json_begin(struct export_batch *b);
void json_row(struct export_batch *b, const struct cell *cells);
void json_end(struct export_batch *b, bool incomplete);
void sqlite_begin(struct export *e);
void sqlite_row(struct export *e, const struct cell *cells);
void sqlite_end(struct export *e, bool incomplete);

/* A row of whatever form. */
void export_row(struct export_batch *b, const struct cell *cells);

#endif
