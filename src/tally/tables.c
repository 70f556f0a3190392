/* Tables of a settled pool. */
#include "pool.h"

#include <assert.h>
#include <stdlib.h>

void pool_count(struct counts *c, const struct pooled *way) {
    tally_count(c, (enum outcome)way->outcome, (enum rally)way->rally, way->n);
}

static bool wanted(unsigned set, enum pool_kind kind) {
    switch (kind) {
    case POOL_MATCH:
        return set > 0;
    case POOL_PRACTICE:
        return set == 0;
    case POOL_BOTH:
        break;
    }
    return true;
}

static struct counts of_person(const struct pool *p, size_t person, enum pool_kind kind) {
    if (kind != POOL_BOTH)
        return p->of_person[person][kind];
    struct counts c = p->of_person[person][POOL_MATCH];
    tally_merge(&c, &p->of_person[person][POOL_PRACTICE]);
    return c;
}

struct counts pool_counts(const struct pool *p, const struct pool_team *team,
                          enum pool_kind kind) {
    struct counts c = {0};
    for (size_t i = team->person_from; i < team->person_to; i++) {
        struct counts one = of_person(p, i, kind);
        tally_merge(&c, &one);
    }
    return c;
}

/* The row that a serve stands in; false: in none. Servers are added up already,
 * and a serve can stand in several situations: both are apart. */
static bool row_key(const struct pooled *way, enum cut cut, int32_t *key) {
    switch (cut) {
    case CUT_ERROR:
        *key = (int32_t)way->outcome;
        return tally_is_error((enum outcome)way->outcome);
    case CUT_START:
        *key = (int32_t)way->third;
        return true;
    case CUT_AIM:
        *key = (int32_t)way->aim;
        return true;
    case CUT_ZONE:
        *key = (int32_t)way->zone;
        return !tally_is_error((enum outcome)way->outcome);
    case CUT_RECEIVER:
        *key = way->receiver;
        return !tally_is_error((enum outcome)way->outcome);
    case CUT_SET:
        *key = (int32_t)way->set;
        return true;
    case CUT_ROTATION:
        *key = (int32_t)way->rotation;
        return true;
    case CUT_TYPE:
        *key = (int32_t)way->type;
        return true;
    case CUT_SERVER:
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
            pool_count(row_at(m, s), way);
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

static void add_serves(struct making *m, const struct pool *p, const struct pool_team *team,
                       enum cut cut, enum pool_kind kind) {
    int32_t key;
    assert(p->pooled);
    for (size_t i = team->pooled_from; i < team->pooled_to; i++) {
        const struct pooled *way = &p->pooled[i];
        if (!wanted(way->set, kind))
            continue;
        if (cut == CUT_SITUATION)
            add_situations(m, way);
        else if (row_key(way, cut, &key))
            pool_count(row_at(m, key), way);
    }
    for (size_t i = 0; i < m->table.n; i++)
        m->row_of[m->table.rows[i].key + 1] = 0;
}

static void add_servers(struct making *m, const struct pool *p, const struct pool_team *team,
                        enum pool_kind kind) {
    struct cut_table *t = &m->table;
    t->rows = arena_alloc(m->arena, team->person_to - team->person_from, sizeof *t->rows);
    for (size_t i = team->person_from; i < team->person_to; i++) {
        struct counts c = of_person(p, i, kind);
        if (c.serves)
            t->rows[t->n++] = (struct cut_row){(int32_t)i, c};
    }
}

struct cut_table pool_table(const struct pool *p, const struct pool_team *team, enum cut cut,
                            enum pool_kind kind, struct arena *a) {
    struct making m = {.arena = a, .row_of = p->row_of};
    if (cut == CUT_SERVER)
        add_servers(&m, p, team, kind);
    else
        add_serves(&m, p, team, cut, kind);
    if (m.table.n)
        qsort(m.table.rows, m.table.n, sizeof *m.table.rows,
              cut == CUT_SERVER || cut == CUT_RECEIVER || cut == CUT_ERROR ? by_serves : by_key);
    unknown_last(p, cut, &m.table, a);
    return m.table;
}
