/* Tables of a settled pool. */
#include <assert.h>
#include <stdlib.h>

#include "tally/rows.h"

void pool_count(struct counts *c, const struct pooled *way) {
    tally_count(c, (enum outcome)way->outcome, (enum rally)way->rally, way->n);
}

static void add_counts(struct counts *sum, const struct counts more[POOL_BOTH],
                       enum pool_kind kind) {
    for (unsigned k = 0; k < POOL_BOTH; k++)
        if (kind == POOL_BOTH || kind == k)
            tally_merge(sum, &more[k]);
}

struct counts pool_counts(const struct pool *p, const struct pool_team *team,
                          enum pool_kind kind) {
    struct counts c = {0};
    for (size_t i = team->person_from; i < team->person_to; i++)
        add_counts(&c, p->of_person[i], kind);
    return c;
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

static void put(struct cut_table *t, int32_t key, struct counts c) {
    if (c.serves)
        t->rows[t->n++] = (struct cut_row){key, c};
}

static void put_facts(struct cut_table *t, const struct pool *p, const struct pool_team *team,
                      enum cut cut, enum pool_kind kind, struct arena *a) {
    size_t n[POOL_BOTH];
    const struct counts *rows[POOL_BOTH];
    for (unsigned k = 0; k < POOL_BOTH; k++)
        rows[k] = rows_of(p, team->group, cut, (enum pool_kind)k, &n[k]);
    size_t most = n[POOL_MATCH] > n[POOL_PRACTICE] ? n[POOL_MATCH] : n[POOL_PRACTICE];
    t->rows = arena_alloc(a, most + 1, sizeof *t->rows);
    for (size_t key = 0; key < most; key++) {
        struct counts sum = {0};
        for (unsigned k = 0; k < POOL_BOTH; k++)
            if (rows[k] && (kind == POOL_BOTH || kind == k))
                tally_merge(&sum, &rows[k][key]);
        put(t, (int32_t)key, sum);
    }
}

static void put_receivers(struct cut_table *t, const struct pool *p,
                          const struct pool_team *team, enum pool_kind kind, struct arena *a) {
    size_t n;
    const struct pool_received **received = rows_received(p, team->group, &n);
    t->rows = arena_alloc(a, n + 1, sizeof *t->rows);
    for (size_t i = 0, to; i < n; i = to) {
        struct counts sum = {0};
        for (to = i; to < n && received[to]->receiver == received[i]->receiver; to++) {
            struct counts one = rows_counts(received[to]);
            if (kind == POOL_BOTH || kind == received[to]->kind)
                tally_merge(&sum, &one);
        }
        put(t, received[i]->receiver, sum);
    }
}

static void put_servers(struct cut_table *t, const struct pool *p, const struct pool_team *team,
                        enum pool_kind kind, struct arena *a) {
    t->rows = arena_alloc(a, team->person_to - team->person_from + 1, sizeof *t->rows);
    for (size_t i = team->person_from; i < team->person_to; i++) {
        struct counts sum = {0};
        add_counts(&sum, p->of_person[i], kind);
        put(t, (int32_t)i, sum);
    }
}

struct cut_table pool_table(const struct pool *p, const struct pool_team *team, enum cut cut,
                            enum pool_kind kind, struct arena *a) {
    struct cut_table t = {NULL, 0};
    assert(cut == CUT_SERVER || p->keeps == POOL_TABLES);
    if (cut == CUT_SERVER)
        put_servers(&t, p, team, kind, a);
    else if (cut == CUT_RECEIVER)
        put_receivers(&t, p, team, kind, a);
    else
        put_facts(&t, p, team, cut, kind, a);
    if (t.n)
        qsort(t.rows, t.n, sizeof *t.rows,
              cut == CUT_SERVER || cut == CUT_RECEIVER || cut == CUT_ERROR ? by_serves : by_key);
    unknown_last(p, cut, &t, a);
    return t;
}
