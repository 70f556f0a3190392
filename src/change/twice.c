/* A rally that both scorers had missed may have been put in two places. */
#include "change/parts.h"

enum { SERVES_NEAR = 2 };        /* how many serves may stand between the two */

/* The side that alone added the item, and its line; NULL if it was not one side. */
static const struct noted_line *added_by(const struct merge *m, const struct merge_item *item,
                                         unsigned *side) {
    size_t ours = item->of[MERGE_OURS].n, theirs = item->of[MERGE_THEIRS].n;
    if (item->conflict || item->of[MERGE_BASE].n || ours + theirs != 1)
        return NULL;
    *side = ours ? MERGE_OURS : MERGE_THEIRS;
    return &m->side[*side]->lines[item->of[*side].from];
}

static bool holds_serve(const struct merge *m, const struct merge_item *item) {
    for (unsigned side = MERGE_OURS; side < MERGE_SIDES; side++)
        for (size_t i = 0; i < item->of[side].n; i++)
            if (m->side[side]->lines[item->of[side].from + i].serves)
                return true;
    return false;
}

static size_t same_near(const struct merge *m, size_t at, const struct noted_line *l,
                        unsigned side) {
    size_t between = 0;
    for (size_t i = at + 1; i < m->item_n && between <= SERVES_NEAR; i++) {
        unsigned other_side;
        const struct noted_line *other = added_by(m, &m->items[i], &other_side);
        if (other && other_side != side && other->set == l->set && noted_says(other, l))
            return i;
        between += holds_serve(m, &m->items[i]);
    }
    return m->item_n;
}

size_t merge_twice(const struct merge *m, size_t from, size_t *other) {
    for (size_t i = from; i < m->item_n && !m->side[MERGE_OURS]->practice; i++) {
        unsigned side;
        const struct noted_line *l = added_by(m, &m->items[i], &side);
        if (!l || l->kind != STMT_SERVE)
            continue;
        *other = same_near(m, i, l, side);
        if (*other < m->item_n)
            return i;
    }
    return m->item_n;
}
