/* From checked facts to one table in the wanted form. */
#include "export.h"

#include <stdlib.h>
#include <string.h>

#include "export/table.h"

#define NAME_AND_KIND(name, kind, ...) {{#name, sizeof #name - 1}, COLUMN_##kind},
#define NOTHING(...)

static const struct column serves_columns[] = {
#define SERVES NAME_AND_KIND
#define PRACTICE NOTHING
#include "export/columns.def"
#undef SERVES
#undef PRACTICE
};

static const struct column practice_columns[] = {
#define SERVES NOTHING
#define PRACTICE NAME_AND_KIND
#include "export/columns.def"
#undef SERVES
#undef PRACTICE
};

static int by_code(const void *left, const void *right) {
    const struct str *a = left, *b = right; /* first in their struct */
    return memcmp(a->at, b->at, a->n < b->n ? a->n : b->n);
}

/* The spellings stand in the table of words, once. */
static void take_words(struct export *e) {
    for (int id = 0; id < W_N; id++) {
        const struct word_info *w = word_info((enum word_id)id);
        if (w->class == WORD_TYPE)
            e->types[w->value] = w->word;
        else if (w->class == WORD_OUTCOME)
            e->outcomes[w->value] = w->word;
        else if (w->class == WORD_MARK) {
            e->marks[w->value].word = w->word;
            e->marks[w->value].bit = UINT32_C(1) << w->value;
        }
    }
    e->outcomes[OUTCOME_OVERLAP] = STR("overlap");
    qsort(e->marks, MARK_N, sizeof *e->marks, by_code);
}

static void take_phases(struct export *e) {
    static const char *const words[] = {"toss", "approach", "jump", "hit", "nerve"};
    for (unsigned set = 1; set < PHASE_SETS; set++) {
        struct buf b;
        buf_init(&b, e->arena);
        for (unsigned i = 0; i < sizeof words / sizeof *words; i++)
            if (set & 1u << i)
                buf_printf(&b, "%s%s", b.n ? " " : "", words[i]);
        e->observed[set] = buf_str(&b);
    }
}

static void begin(struct export *e) {
    switch (e->style.form) {
    case EXPORT_CSV: csv_begin(e); break;
    case EXPORT_JSON:
    case EXPORT_JSONL: json_begin(e); break;
    case EXPORT_SQLITE: sqlite_begin(e); break;
    }
}

struct export *export_new(const struct export_style *style, struct arena *a) {
    struct export *e = arena_alloc(a, 1, sizeof *e);
    bool serves = style->table == EXPORT_SERVES;
    e->style = *style;
    e->arena = e->pieces.arena = a;
    e->columns = serves ? serves_columns : practice_columns;
    e->column_n = serves ? SERVES_N : PRACTICE_N;
    e->table = serves ? STR("serves") : STR("practice");
    take_words(e);
    take_phases(e);
    begin(e);
    return e;
}

void export_free(struct export *e) {
    if (!e)
        return;
    sqlite3_finalize(e->insert);
    sqlite3_free(e->image);
    sqlite3_close(e->db);
}

void export_row(struct export *e, const struct cell *cells) {
    switch (e->style.form) {
    case EXPORT_CSV: csv_row(e, cells); break;
    case EXPORT_JSON:
    case EXPORT_JSONL: json_row(e, cells); break;
    case EXPORT_SQLITE: sqlite_row(e, cells); break;
    }
    e->row_n++;
}

void export_add(struct export *e, const struct checked *c, struct str file,
                struct arena *scratch) {
    struct sheet s;
    struct row row;
    sheet_init(&s, e, c, file, scratch);
    if (e->style.table == EXPORT_PRACTICE) {
        practice_rows(e, &s);
        return;
    }
    for (size_t i = 0; i < c->played_n; i++)
        if (serves_row(&row, &s, &c->played[i]))
            export_row(e, row.cells);
}

bool export_end(struct export *e, bool incomplete, const struct str **parts, size_t *n) {
    if (e->style.form == EXPORT_SQLITE) {
        sqlite_finish(e, incomplete);
    } else {
        json_end(e, incomplete);
        pieces_end(&e->pieces);
    }
    *parts = e->pieces.at;
    *n = e->pieces.n;
    return !e->failed;
}
