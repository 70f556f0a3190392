/* Tables of a settled pool. */
#include "pool.h"

#include <assert.h>
#include <stdlib.h>

bool pool_is_error(enum outcome o) {
    return o >= OUTCOME_NET && o <= OUTCOME_SCREEN;
}

/* The definitions of check.h, for an outcome as tally_outcome gives it: an
 * overlap that makes an ace stands under OUTCOME_ACE already. */
static void add_way(struct counts *c, const struct pooled *way) {
    enum outcome o = (enum outcome)way->outcome;
    c->serves += way->n;
    c->by[o] += way->n;
    if (o == OUTCOME_ACE || o == OUTCOME_OVER || o == OUTCOME_IN1)
        c->broke += way->n;
    if (pool_is_error(o))
        c->missed += way->n;
    if (way->rally == RALLY_WON)
        c->won += way->n;
    if (way->rally != RALLY_NONE)
        c->decided += way->n;
}

static bool wanted(const struct pooled *way, enum pool_kind kind) {
    switch (kind) {
    case POOL_MATCH:
        return way->set > 0;
    case POOL_PRACTICE:
        return way->set == 0;
    case POOL_BOTH:
        break;
    }
    return true;
}

struct counts pool_counts(const struct pool *p, const struct pool_team *team,
                          enum pool_kind kind) {
    struct counts c = {0};
    for (size_t i = team->pooled_from; i < team->pooled_to; i++)
        if (wanted(&p->pooled[i], kind))
            add_way(&c, &p->pooled[i]);
    return c;
}

/* The row that a serve stands in; false: in none. Situations are apart, since
 * a serve can stand in several. */
static bool row_key(const struct pooled *way, enum cut cut, int32_t *key) {
    switch (cut) {
    case CUT_SERVER:
        *key = way->server;
        return true;
    case CUT_ERROR:
        *key = way->outcome;
        return pool_is_error((enum outcome)way->outcome);
    case CUT_START:
        *key = way->third;
        return true;
    case CUT_AIM:
        *key = way->aim;
        return true;
    case CUT_ZONE:
        *key = way->zone;
        return !pool_is_error((enum outcome)way->outcome);
    case CUT_RECEIVER:
        *key = way->receiver;
        return !pool_is_error((enum outcome)way->outcome);
    case CUT_SET:
        *key = way->set;
        return true;
    case CUT_ROTATION:
        *key = way->rotation;
        return true;
    case CUT_TYPE:
        *key = way->type;
        return true;
    case CUT_SITUATION:
    case CUT_N:
        break;
    }
    return false;
}

/* Rows under construction. `row_of` is the pool's: a place for every key, and
 * for PERSON_NONE in front. */
struct making {
    struct arena *arena;
    struct cut_table table;
    size_t room;
    uint32_t *row_of;            /* index + 1 of the row; 0: none */
};

static struct counts *row_at(struct making *m, int32_t key) {
    uint32_t *at = &m->row_of[key + 1];
    if (!*at) {
        struct cut_table *t = &m->table;
        t->rows = arena_grow(m->arena, t->rows, t->n, &m->room, sizeof *t->rows);
        t->rows[t->n++] = (struct cut_row){.key = key};
        *at = (uint32_t)t->n;
    }
    return &m->table.rows[*at - 1].counts;
}

static void add_situations(struct making *m, const struct pooled *way) {
    for (int32_t s = 0; s < SITUATION_N; s++)
        if (way->situations & 1u << s)
            add_way(row_at(m, s), way);
}

/* What is not recorded comes last; then as the facts are numbered. */
static int by_key(const void *left, const void *right) {
    const struct cut_row *a = left, *b = right;
    return (a->key > b->key) - (a->key < b->key);
}

/* Rows rank nobody: who served, or received, most comes first; equal ones by
 * team, shirt and name. */
static int by_serves(const void *left, const void *right) {
    const struct cut_row *a = left, *b = right;
    if (a->counts.serves != b->counts.serves)
        return a->counts.serves > b->counts.serves ? -1 : 1;
    return by_key(left, right);
}

/* Key 0 is "not recorded" but for people, outcomes and situations. */
static bool is_unknown(const struct pool *p, enum cut cut, int32_t key) {
    switch (cut) {
    case CUT_SERVER:
        return p->people[key].shirt == SHIRT_NONE;
    case CUT_RECEIVER:
        return key == PERSON_NONE;
    case CUT_START:
    case CUT_AIM:
    case CUT_ZONE:
    case CUT_ROTATION:
    case CUT_TYPE:
        return key == 0;
    case CUT_ERROR:
    case CUT_SET:
    case CUT_SITUATION:
    case CUT_N:
        break;
    }
    return false;
}

/* Moves the rows of what is not recorded to the end; the others keep their order. */
static void unknown_last(const struct pool *p, enum cut cut, struct cut_table *t,
                         struct arena *a) {
    struct cut_row *out = arena_alloc(a, t->n + 1, sizeof *out);
    size_t n = 0;
    for (int last = 0; last < 2; last++)
        for (size_t i = 0; i < t->n; i++)
            if (is_unknown(p, cut, t->rows[i].key) == (last == 1))
                out[n++] = t->rows[i];
    assert(n == t->n);
    t->rows = out;
}

struct cut_table pool_table(const struct pool *p, const struct pool_team *team, enum cut cut,
                            enum pool_kind kind, struct arena *a) {
    struct making m = {.arena = a, .row_of = p->row_of};
    int32_t key;
    for (size_t i = team->pooled_from; i < team->pooled_to; i++) {
        const struct pooled *way = &p->pooled[i];
        if (!wanted(way, kind))
            continue;
        if (cut == CUT_SITUATION)
            add_situations(&m, way);
        else if (row_key(way, cut, &key))
            add_way(row_at(&m, key), way);
    }
    for (size_t i = 0; i < m.table.n; i++)
        m.row_of[m.table.rows[i].key + 1] = 0;
    if (m.table.n)
        qsort(m.table.rows, m.table.n, sizeof *m.table.rows,
              cut == CUT_SERVER || cut == CUT_RECEIVER || cut == CUT_ERROR ? by_serves : by_key);
    unknown_last(p, cut, &m.table, a);
    return m.table;
}
