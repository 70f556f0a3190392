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

struct export *export_new(const struct export_style *style, struct arena *a) {
    struct export *e = arena_alloc(a, 1, sizeof *e);
    bool serves = style->table == EXPORT_SERVES;
    e->style = *style;
    e->arena = a;
    e->columns = serves ? serves_columns : practice_columns;
    e->column_n = serves ? SERVES_N : PRACTICE_N;
    e->table = serves ? STR("serves") : STR("practice");
    take_words(e);
    take_phases(e);
    return e;
}

void export_free(struct export *e) {
    if (!e)
        return;
    sqlite3_finalize(e->insert);
    sqlite3_close(e->db);
}

struct export_batch *export_batch_new(struct export *e, struct arena *a) {
    struct export_batch *b = arena_alloc(a, 1, sizeof *b);
    b->export = e;
    buf_init(&b->out, a);
    return b;
}

void export_begin(struct export_batch *b) {
    switch (b->export->style.form) {
    case EXPORT_CSV: csv_begin(b); break;
    case EXPORT_JSON:
    case EXPORT_JSONL: json_begin(b); break;
    case EXPORT_SQLITE: sqlite_begin(b->export); break;
    }
}

void export_row(struct export_batch *b, const struct cell *cells) {
    switch (b->export->style.form) {
    case EXPORT_CSV: csv_row(b, cells); break;
    case EXPORT_JSON:
    case EXPORT_JSONL: json_row(b, cells); break;
    case EXPORT_SQLITE: sqlite_row(b->export, cells); break;
    }
}

void export_serves(struct export_batch *b, const struct checked *c, const struct played *serves,
                   size_t n, struct str file, struct arena *scratch) {
    struct sheet s;
    struct row row;
    if (b->export->style.table != EXPORT_SERVES)
        return;
    sheet_init(&s, b->export, c, file, scratch);
    for (size_t i = 0; i < n; i++)
        if (serves_row(&row, &s, &serves[i]))
            export_row(b, row.cells);
}

void export_lines(struct export_batch *b, const struct checked *c, struct str file,
                  struct arena *scratch) {
    struct sheet s;
    if (b->export->style.table != EXPORT_PRACTICE)
        return;
    sheet_init(&s, b->export, c, file, scratch);
    practice_rows(b, &s);
}

size_t export_bytes(const struct export_batch *b) {
    return b->out.n;
}

struct str export_take(struct export_batch *b) {
    struct export *e = b->export;
    struct str bytes = buf_str(&b->out);
    bool first = e->style.form == EXPORT_JSON && !e->any && str_starts(bytes, STR(",\n"));
    e->any = e->any || first;
    b->out.n = 0;
    return first ? str_part(bytes, 1, bytes.n) : bytes;
}

bool export_end(struct export_batch *b, bool incomplete) {
    if (b->export->style.form == EXPORT_SQLITE)
        sqlite_end(b->export, incomplete);
    else
        json_end(b, incomplete);
    return !b->export->failed;
}
