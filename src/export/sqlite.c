/* A database of one table and one row about it, made in a single transaction with
 * bound values. The file has no journal and is not waited for: should anything fail,
 * nobody will see it. */
#include "export/table.h"

static const char *type_of(enum column_kind kind) {
    switch (kind) {
    case COLUMN_TEXT:
    case COLUMN_DATE:
    case COLUMN_WORD:
    case COLUMN_WORDS: return "TEXT";
    case COLUMN_WHOLE:
    case COLUMN_FLAG: return "INTEGER";
    case COLUMN_DECIMAL: return "REAL";
    }
    return "TEXT";
}

static void run(struct export *e, const char *sql) {
    if (!e->failed && sqlite3_exec(e->db, sql, NULL, NULL, NULL) != SQLITE_OK)
        e->failed = true;
}

static void create(struct export *e) {
    struct buf b;
    buf_init(&b, e->arena);
    buf_printf(&b, "CREATE TABLE \"%.*s\" (", STR_ARG(e->table));
    for (size_t i = 0; i < e->column_n; i++)
        buf_printf(&b, "%s\n  \"%.*s\" %s", i ? "," : "", STR_ARG(e->columns[i].name),
                   type_of(e->columns[i].kind));
    buf_printf(&b, "\n)%c", '\0');
    run(e, buf_str(&b).at);
}

static void prepare(struct export *e) {
    struct buf b;
    buf_init(&b, e->arena);
    buf_printf(&b, "INSERT INTO \"%.*s\" VALUES (", STR_ARG(e->table));
    for (size_t i = 0; i < e->column_n; i++)
        buf_add(&b, i ? STR(",?") : STR("?"));
    buf_add(&b, STR(")"));
    if (!e->failed &&
        sqlite3_prepare_v2(e->db, buf_str(&b).at, (int)b.n, &e->insert, NULL) != SQLITE_OK)
        e->failed = true;
}

void sqlite_begin(struct export *e) {
    e->failed = sqlite3_open(e->style.database, &e->db) != SQLITE_OK;
    run(e, str_printf(e->arena,
                      "PRAGMA journal_mode = OFF; PRAGMA synchronous = OFF;"
                      "PRAGMA user_version = %d; BEGIN;"
                      "CREATE TABLE about (schema INTEGER, program TEXT, version TEXT, "
                      "incomplete INTEGER)",
                      EXPORT_SCHEMA).at);
    create(e);
    prepare(e);
}

static int bind(sqlite3_stmt *insert, int ix, const struct cell *c) {
    switch (c->kind) {
    case CELL_EMPTY: return sqlite3_bind_null(insert, ix);
    case CELL_TEXT:
        return sqlite3_bind_text(insert, ix, c->text.at, (int)c->text.n, SQLITE_STATIC);
    case CELL_WHOLE: return sqlite3_bind_int(insert, ix, c->number);
    case CELL_HUNDREDTHS: return sqlite3_bind_double(insert, ix, c->number / 100.0);
    }
    return SQLITE_MISUSE;
}

void sqlite_row(struct export *e, const struct cell *cells) {
    for (size_t i = 0; i < e->column_n && !e->failed; i++)
        e->failed = bind(e->insert, (int)i + 1, &cells[i]) != SQLITE_OK;
    if (e->failed)
        return;
    e->failed = sqlite3_step(e->insert) != SQLITE_DONE;
    sqlite3_reset(e->insert);
}

static void about(struct export *e, bool incomplete) {
    sqlite3_stmt *row = NULL;
    e->failed = e->failed || sqlite3_prepare_v2(e->db, "INSERT INTO about VALUES (?,'9m',?,?)", -1,
                                                &row, NULL) != SQLITE_OK;
    if (!e->failed) {
        sqlite3_bind_int(row, 1, EXPORT_SCHEMA);
        sqlite3_bind_text(row, 2, e->style.version.at, (int)e->style.version.n, SQLITE_STATIC);
        sqlite3_bind_int(row, 3, incomplete);
        e->failed = sqlite3_step(row) != SQLITE_DONE;
    }
    sqlite3_finalize(row);
}

void sqlite_end(struct export *e, bool incomplete) {
    about(e, incomplete);
    run(e, "COMMIT");
    sqlite3_finalize(e->insert);
    e->insert = NULL;
    e->failed = sqlite3_close(e->db) != SQLITE_OK || e->failed;
    e->db = NULL;
}
