/* Three states of a file made one. The lines of the base that both sides still
 * have, changed or not, are merged one by one; between two of these lies what was
 * added or taken out, and is looked at as a whole. */
#include "change/parts.h"

/* The base's lines in each side, and a run of lines of all three. */
struct merging {
    struct merge *merge;
    size_t *mate[MERGE_SIDES];   /* as noted_align gives them; of the base unused */
};

struct chunk {
    struct merge_lines of[MERGE_SIDES];
};

static const struct noted_line *lines(const struct merge *m, unsigned side,
                                      struct merge_lines of) {
    return m->side[side]->lines + of.from;
}

static struct merge_item *add_item(struct merge *m) {
    m->items = arena_grow(m->arena, m->items, m->item_n, &m->item_room, sizeof *m->items);
    m->items[m->item_n] = (struct merge_item){.conflict = false};
    return &m->items[m->item_n++];
}

static void add_conflict(struct merge *m, const struct chunk *c) {
    struct merge_item *item = add_item(m);
    item->conflict = true;
    for (unsigned side = 0; side < MERGE_SIDES; side++)
        item->of[side] = c->of[side];
    m->conflict_n++;
}

/* Lines of one side as they stand. */
static void take(struct merge *m, unsigned side, struct merge_lines of) {
    for (size_t i = 0; i < of.n; i++) {
        const struct noted_line *l = &m->side[side]->lines[of.from + i];
        struct merge_item *item = add_item(m);
        item->text = l->raw;
        item->open = l->open;
        item->of[side] = (struct merge_lines){of.from + i, 1};
    }
}

/* ---- one line ------------------------------------------------------------- */

/* Whose spelling stands: of the side that changed it, if one did. */
static const struct noted_line *spelling(const struct noted_line *base,
                                         const struct noted_line *ours,
                                         const struct noted_line *theirs) {
    if (noted_equal(ours, theirs)) {
        if (str_eq(ours->raw, theirs->raw) || (base && str_eq(theirs->raw, base->raw)))
            return ours;
        return base && str_eq(ours->raw, base->raw) ? theirs : NULL;
    }
    if (base && noted_equal(ours, base))
        return theirs;
    return base && noted_equal(theirs, base) ? ours : NULL;
}

/* A line that both sides have. */
static void merge_line(struct merge *m, const struct chunk *c) {
    const struct noted_line *base = c->of[MERGE_BASE].n ? lines(m, MERGE_BASE, c->of[MERGE_BASE])
                                                        : NULL;
    const struct noted_line *ours = lines(m, MERGE_OURS, c->of[MERGE_OURS]);
    const struct noted_line *theirs = lines(m, MERGE_THEIRS, c->of[MERGE_THEIRS]);
    const struct noted_line *one = spelling(base, ours, theirs);
    struct str joined = STR_NONE;
    if (!one && !noted_join(base, ours, theirs, m->side[MERGE_OURS], &joined, m->arena)) {
        add_conflict(m, c);
        return;
    }
    struct merge_item *item = add_item(m);
    item->joined = !one;
    item->text = one ? one->raw : joined;
    item->open = base && ours->open == base->open ? theirs->open : ours->open;
    for (unsigned side = 0; side < MERGE_SIDES; side++)
        item->of[side] = c->of[side];
}

/* ---- what was added or taken out ------------------------------------------- */

static bool same_lines(const struct merge *m, const struct chunk *c, unsigned a, unsigned b) {
    const struct noted_line *la = lines(m, a, c->of[a]), *lb = lines(m, b, c->of[b]);
    if (c->of[a].n != c->of[b].n)
        return false;
    for (size_t i = 0; i < c->of[a].n; i++)
        if (!noted_equal(&la[i], &lb[i]))
            return false;
    return true;
}

/* Lines that both added between two that they have in common. */
static void merge_gap(struct merge *m, const struct chunk *c) {
    const struct merge_lines *ours = &c->of[MERGE_OURS], *theirs = &c->of[MERGE_THEIRS];
    struct merge_order order = merge_both(lines(m, MERGE_OURS, *ours), ours->n,
                                          lines(m, MERGE_THEIRS, *theirs), theirs->n,
                                          m->side[MERGE_OURS]->practice);
    if (!order.fits) {
        add_conflict(m, c);
        return;
    }
    for (unsigned part = 0; part < 2; part++)
        for (unsigned turn = 0; turn < 2; turn++) {
            unsigned side = (turn == 1) == order.theirs_first[part] ? MERGE_OURS : MERGE_THEIRS;
            size_t here_n = order.here_n[side];
            struct merge_lines of = c->of[side];
            take(m, side, part == 0 ? (struct merge_lines){of.from, here_n}
                                    : (struct merge_lines){of.from + here_n, of.n - here_n});
        }
}

/* Both added lines: those that are the same stand there once. */
static void merge_added(struct merge *m, const struct chunk *c) {
    struct merge_lines ours = c->of[MERGE_OURS], theirs = c->of[MERGE_THEIRS];
    size_t *mate = noted_align(lines(m, MERGE_OURS, ours), ours.n,
                               lines(m, MERGE_THEIRS, theirs), theirs.n, true,
                               m->arena);
    size_t from = 0, their_from = 0;
    for (size_t i = 0; i <= ours.n; i++) {
        size_t to = i == ours.n ? theirs.n : mate[i] - 1;
        if (i < ours.n && !mate[i])
            continue;
        struct chunk gap = {{[MERGE_BASE] = {c->of[MERGE_BASE].from, 0},
                             [MERGE_OURS] = {ours.from + from, i - from},
                             [MERGE_THEIRS] = {theirs.from + their_from, to - their_from}}};
        merge_gap(m, &gap);
        if (i == ours.n)
            break;
        gap.of[MERGE_OURS] = (struct merge_lines){ours.from + i, 1};
        gap.of[MERGE_THEIRS] = (struct merge_lines){theirs.from + to, 1};
        merge_line(m, &gap);
        from = i + 1;
        their_from = to + 1;
    }
}

/* How many lines of the chunk a side has that the base has not. */
static size_t added_n(const struct merging *g, const struct chunk *c, unsigned side) {
    struct merge_lines base = c->of[MERGE_BASE];
    size_t kept = 0;
    for (size_t i = base.from; i < base.from + base.n; i++)
        kept += g->mate[side][i] != 0;
    return c->of[side].n - kept;
}

/* A `.` that means another server since the line above it was corrected is no
 * edit of its own. */
static bool is_kept(const struct noted_line *base, const struct noted_line *l) {
    return noted_equal(base, l) || (base->same && str_eq(base->raw, l->raw));
}

static bool has_changed(const struct merging *g, const struct chunk *c, unsigned side) {
    const struct merge *m = g->merge;
    struct merge_lines base = c->of[MERGE_BASE];
    for (size_t i = base.from; i < base.from + base.n; i++) {
        size_t mate = g->mate[side][i];
        if (mate && !is_kept(&m->side[MERGE_BASE]->lines[i], &m->side[side]->lines[mate - 1]))
            return true;
    }
    return false;
}

static bool from_base(const struct merging *g, const struct chunk *c, unsigned side, size_t ix) {
    struct merge_lines base = c->of[MERGE_BASE];
    for (size_t i = base.from; i < base.from + base.n; i++)
        if (g->mate[side][i] == ix + 1)
            return true;
    return false;
}

/* A note on a serve that the other side took out. */
static bool note_loses_serve(const struct merging *g, const struct chunk *c, unsigned side,
                             size_t ix) {
    const struct noted_line *l = &g->merge->side[side]->lines[ix];
    return l->kind == STMT_NOTE && l->below > c->of[side].from &&
           from_base(g, c, side, l->below - 1);
}

/* One side, or neither, added lines; each line of the base was taken out by one
 * side at least, so only what was added is left. */
static bool merge_taken_out(struct merging *g, const struct chunk *c, unsigned side) {
    struct merge_lines of = c->of[side];
    if (has_changed(g, c, MERGE_OURS) || has_changed(g, c, MERGE_THEIRS))
        return false;
    for (size_t i = of.from; i < of.from + of.n; i++)
        if (!from_base(g, c, side, i) && note_loses_serve(g, c, side, i))
            return false;
    for (size_t i = of.from; i < of.from + of.n; i++)
        if (!from_base(g, c, side, i))
            take(g->merge, side, (struct merge_lines){i, 1});
    return true;
}

static void merge_chunk(struct merging *g, const struct chunk *c) {
    struct merge *m = g->merge;
    size_t ours = added_n(g, c, MERGE_OURS), theirs = added_n(g, c, MERGE_THEIRS);
    bool only_added = ours == c->of[MERGE_OURS].n && theirs == c->of[MERGE_THEIRS].n;
    if (same_lines(m, c, MERGE_OURS, MERGE_BASE))
        take(m, MERGE_THEIRS, c->of[MERGE_THEIRS]);
    else if (same_lines(m, c, MERGE_THEIRS, MERGE_BASE))
        take(m, MERGE_OURS, c->of[MERGE_OURS]);
    else if (ours && theirs && only_added)
        merge_added(m, c);
    else if ((ours && theirs) || !merge_taken_out(g, c, theirs ? MERGE_THEIRS : MERGE_OURS))
        add_conflict(m, c);
}

/* ---- the whole ------------------------------------------------------------- */

static struct merge_lines up_to(size_t from, size_t to) {
    return (struct merge_lines){from, to - from};
}

/* The chunk from where the last ended to the next line that both have. */
static struct chunk next_chunk(const struct merging *g, const size_t from[MERGE_SIDES]) {
    struct chunk c;
    size_t i = from[MERGE_BASE], n = g->merge->side[MERGE_BASE]->n;
    while (i < n && !(g->mate[MERGE_OURS][i] && g->mate[MERGE_THEIRS][i]))
        i++;
    c.of[MERGE_BASE] = up_to(from[MERGE_BASE], i);
    for (unsigned side = MERGE_OURS; side < MERGE_SIDES; side++)
        c.of[side] = up_to(from[side], i < n ? g->mate[side][i] - 1 : g->merge->side[side]->n);
    return c;
}

static void merge_all(struct merging *g) {
    size_t from[MERGE_SIDES] = {0};
    for (;;) {
        struct chunk c = next_chunk(g, from);
        bool last = c.of[MERGE_BASE].from + c.of[MERGE_BASE].n == g->merge->side[MERGE_BASE]->n;
        merge_chunk(g, &c);
        if (last)
            return;
        for (unsigned side = 0; side < MERGE_SIDES; side++) {
            c.of[side] = (struct merge_lines){c.of[side].from + c.of[side].n, 1};
            from[side] = c.of[side].from + 1;
        }
        merge_line(g->merge, &c);
    }
}

void merge_of(struct merge *m, const struct noted *base, const struct noted *ours,
              const struct noted *theirs, struct arena *a) {
    struct merging g = {.merge = m};
    bool bom = base->text->bom;
    *m = (struct merge){.arena = a, .side = {base, ours, theirs}};
    m->bom = ours->text->bom == bom ? theirs->text->bom : ours->text->bom;
    for (unsigned side = MERGE_OURS; side < MERGE_SIDES; side++)
        g.mate[side] = noted_align(base->lines, base->n, m->side[side]->lines, m->side[side]->n,
                                   false, a);
    merge_all(&g);
    merge_lean(m);
}
