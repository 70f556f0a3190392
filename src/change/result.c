/* The text of a merge, and what it has against itself. */
#include "merge.h"

/* The text while it grows. */
struct result {
    const struct merge *merge;
    struct buf out;
    struct merge_map map;
    size_t item;                 /* that is being written */
    bool open;                   /* the line before has no line feed yet */
};

static void add_line(struct result *r, struct str line, bool open) {
    struct merge_map *map = &r->map;
    if (r->open)
        buf_char(&r->out, '\n');
    buf_add(&r->out, line);
    if (!open)
        buf_char(&r->out, '\n');
    r->open = open;
    map->item_of = arena_grow(r->merge->arena, map->item_of, map->n, &map->room,
                              sizeof *map->item_of);
    map->item_of[map->n++] = r->item;
}

/* Conflicts that follow each other are one, first all of ours. */
static void add_side(struct result *r, size_t from, size_t to, unsigned side) {
    for (r->item = from; r->item < to; r->item++) {
        struct merge_lines of = r->merge->items[r->item].of[side];
        for (size_t i = of.from; i < of.from + of.n; i++)
            add_line(r, r->merge->side[side]->lines[i].raw, false);
    }
    r->item = from;
}

static size_t conflict_end(const struct merge *m, size_t from) {
    while (from < m->item_n && m->items[from].conflict)
        from++;
    return from;
}

struct str merge_text(const struct merge *m, struct merge_map *map) {
    struct result r = {.merge = m};
    buf_init(&r.out, m->arena);
    if (m->bom)
        buf_add(&r.out, STR("\xEF\xBB\xBF"));
    for (size_t i = 0; i < m->item_n;) {
        size_t end = conflict_end(m, i);
        r.item = i;
        if (end == i) {
            add_line(&r, m->items[i].text, m->items[i].open);
            i++;
            continue;
        }
        add_line(&r, STR("<<<<<<< ours"), false);
        add_side(&r, i, end, MERGE_OURS);
        add_line(&r, STR("======="), false);
        add_side(&r, i, end, MERGE_THEIRS);
        add_line(&r, STR(">>>>>>> theirs"), false);
        i = end;
    }
    *map = r.map;
    return buf_str(&r.out);
}

/* ---- what it has against itself --------------------------------------------- */

static void check_side(const struct merge *m, struct str bytes, struct diags *d) {
    struct text *t = arena_alloc(m->arena, 1, sizeof *t);
    diags_init(d, m->arena);
    text_take(t, m->side[MERGE_OURS]->text->name, bytes, m->arena, d);
    check_text(t, 0, m->arena, d);
}

static bool is_error(const struct diag *d) {
    return diag_info(d->id)->severity == SEVERITY_ERROR;
}

/* The side has the same against one of these lines. */
static bool has_error(const struct diags *d, enum diag_id id, struct merge_lines of) {
    for (size_t i = 0; i < d->n; i++)
        if (d->at[i].id == id && d->at[i].place.line > of.from &&
            d->at[i].place.line <= of.from + of.n)
            return true;
    return false;
}

static bool is_old(const struct merge *m, const struct diags sides[MERGE_SIDES],
                   const struct diag *d, const struct merge_item *item) {
    for (unsigned side = MERGE_OURS; side < MERGE_SIDES; side++) {
        struct merge_lines of = item ? item->of[side]
                                     : (struct merge_lines){0, m->side[side]->n + 1};
        if (has_error(&sides[side], d->id, of))
            return true;
    }
    return false;
}

static bool part(struct merge *m, struct merge_item *item) {
    if (!item || !item->joined)
        return false;
    item->conflict = true;
    m->conflict_n++;
    return true;
}

/* The item that a message is about; NULL if it is about none. */
static struct merge_item *item_at(struct merge *m, const struct merge_map *map, unsigned line) {
    return line && line <= map->n ? &m->items[map->item_of[line - 1]] : NULL;
}

void merge_check(struct merge *m, struct diags *d) {
    struct diags sides[MERGE_SIDES], all;
    struct merge_map map;
    struct str file = m->side[MERGE_OURS]->text->name, result = merge_text(m, &map);
    bool whole = !m->conflict_n; /* else a score that is off says nothing */
    for (unsigned side = MERGE_OURS; side < MERGE_SIDES; side++)
        check_side(m, m->side[side]->text->bytes, &sides[side]);
    check_side(m, result, &all);
    for (size_t i = 0; i < all.n; i++) {
        const struct diag *one = &all.at[i];
        struct merge_item *item = item_at(m, &map, one->place.line);
        if (is_error(one) && str_eq(one->place.file, file) && !is_old(m, sides, one, item) &&
            !part(m, item) && whole)
            diags_join(d, &(struct diags){.at = &all.at[i], .n = 1});
    }
}
