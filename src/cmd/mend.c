#include <stdlib.h>

#include "cmd/cmd.h"

/* A replacement at a place of the whole text. */
struct piece {
    size_t from, to;
    struct str text;
};

struct mender {
    const struct text *text;
    struct arena *arena;
    size_t *starts; /* of each line */
    size_t start_n, start_room;
    unsigned char *taken; /* bits: bytes that a mend touches */
    struct piece *pieces;
    size_t piece_n, piece_room;
};

static void add_start(struct mender *m, size_t at) {
    m->starts = arena_grow(m->arena, m->starts, m->start_n, &m->start_room, sizeof *m->starts);
    m->starts[m->start_n++] = at;
}

static void mender_init(struct mender *m, const struct text *t, struct arena *a) {
    *m = (struct mender){.text = t, .arena = a};
    m->taken = arena_alloc(a, t->bytes.n / 8 + 1, 1);
    add_start(m, 0);
    for (size_t i = 0; i < t->bytes.n; i++)
        if (t->bytes.at[i] == '\n')
            add_start(m, i + 1);
}

/* Also the byte behind: two insertions at one place are a clash too. */
static bool clashes(const struct mender *m, size_t from, size_t to) {
    for (size_t i = from; i <= to; i++)
        if (m->taken[i / 8] & (1u << i % 8))
            return true;
    return false;
}

static void take(struct mender *m, struct piece p) {
    for (size_t i = p.from; i <= p.to; i++)
        m->taken[i / 8] |= (unsigned char)(1u << i % 8);
    m->pieces = arena_grow(m->arena, m->pieces, m->piece_n, &m->piece_room, sizeof *m->pieces);
    m->pieces[m->piece_n++] = p;
}

static bool locate(const struct mender *m, const struct edit *e, struct piece *out) {
    size_t end = m->text->bytes.n;

    if (!e->line || e->line > m->start_n)
        return false;
    out->from = m->starts[e->line - 1] + e->at;
    out->to = out->from + e->n;
    out->text = e->text;
    return out->from <= end && out->to <= end && !clashes(m, out->from, out->to);
}

/* A mend is made whole or not at all. */
static bool add_mend(struct mender *m, const struct diag *diag) {
    struct piece pieces[DIAG_EDITS];

    for (unsigned i = 0; i < diag->edit_n; i++)
        if (!locate(m, &diag->edits[i], &pieces[i]))
            return false;
    for (unsigned i = 0; i < diag->edit_n; i++)
        take(m, pieces[i]);
    return true;
}

static int by_start(const void *left, const void *right) {
    const struct piece *a = left, *b = right;

    return a->from < b->from ? -1 : a->from > b->from;
}

static struct str rebuild(const struct mender *m) {
    struct str old = m->text->bytes;
    struct buf b;
    size_t done = 0;

    buf_init(&b, m->arena);
    for (size_t i = 0; i < m->piece_n; i++) {
        buf_add(&b, str_part(old, done, m->pieces[i].from - done));
        buf_add(&b, m->pieces[i].text);
        done = m->pieces[i].to;
    }
    buf_add(&b, str_part(old, done, old.n));
    return buf_str(&b);
}

struct str cmd_mend(const struct text *t, const struct diags *d, struct arena *a,
                    size_t *mended_n) {
    struct mender m;

    *mended_n = 0;
    mender_init(&m, t, a);
    for (size_t i = 0; i < d->n; i++) {
        const struct diag *diag = &d->at[i];

        if (diag->safe && diag->edit_n && str_eq(diag->place.file, t->name))
            *mended_n += add_mend(&m, diag);
    }
    if (!*mended_n)
        return t->bytes;
    qsort(m.pieces, m.piece_n, sizeof *m.pieces, by_start);
    return rebuild(&m);
}

struct str cmd_with_bom(const struct text *t, struct str bytes, struct arena *a) {
    struct buf b;

    if (!t->bom)
        return bytes;
    buf_init(&b, a);
    buf_add(&b, STR("\xEF\xBB\xBF"));
    buf_add(&b, bytes);
    return buf_str(&b);
}
