#include "tally/rows.h"

#include <assert.h>
#include <stdlib.h>

/* How many keys a table of facts has; 0: it is none. A set is numbered from 1, and a
 * practice has none. */
static const uint8_t keys_n[CUT_N] = {
    [CUT_ERROR] = OUTCOME_N,         [CUT_START] = THIRD_LEFT + 1,
    [CUT_AIM] = ZONE_N,              [CUT_ZONE] = ZONE_N,
    [CUT_SET] = SETS_MAX + 1,        [CUT_ROTATION] = 7,
    [CUT_SITUATION] = SITUATION_N,   [CUT_TYPE] = TYPE_UNDERHAND + 1,
};

enum {
    ROWS = OUTCOME_N + THIRD_LEFT + 1 + 2 * ZONE_N + SETS_MAX + 1 + 7 + SITUATION_N +
           TYPE_UNDERHAND + 1
};

/* Where the rows of a table begin. */
static size_t first_of(enum cut cut) {
    size_t first = 0;
    for (unsigned c = 0; c < cut; c++)
        first += keys_n[c];
    return first;
}

/* ---- teams ------------------------------------------------------------------- */

static bool same_team(const void *groups, uint32_t ix, const void *key) {
    return str_eq(((const struct pool_group *)groups)[ix].team, *(const struct str *)key);
}

uint32_t rows_group(struct pool *p, struct str team) {
    uint64_t hash = slots_hash_str(0, team);
    uint32_t ix = slots_find(&p->group_slots, hash, same_team, p->groups, &team);
    if (ix != SLOTS_NONE)
        return ix;
    ix = (uint32_t)p->group_n;
    p->groups = arena_grow(p->arena, p->groups, p->group_n, &p->group_room, sizeof *p->groups);
    p->groups[p->group_n++] = (struct pool_group){.team = team};
    slots_add(&p->group_slots, hash, ix, p->arena);
    return ix;
}

static struct counts *rows_for(struct pool *p, uint32_t group, unsigned kind) {
    struct counts **rows = &p->groups[group].rows[kind];
    if (!*rows)
        *rows = arena_alloc(p->arena, ROWS, sizeof **rows);
    return *rows;
}

/* ---- who received ------------------------------------------------------------ */

enum { RECEIVED_CHUNK = 4096 };

static struct pool_received *received_at(const struct pool *p, size_t ix) {
    return &p->received[ix / RECEIVED_CHUNK][ix % RECEIVED_CHUNK];
}

static bool same_received(const void *pool, uint32_t ix, const void *key) {
    const struct pool_received *a = received_at(pool, ix), *b = key;
    return a->group == b->group && a->receiver == b->receiver && a->kind == b->kind;
}

static struct pool_received *new_received(struct pool *p) {
    size_t chunk = p->received_n / RECEIVED_CHUNK;
    if (p->received_n % RECEIVED_CHUNK == 0) {
        p->received =
            arena_grow(p->arena, p->received, chunk, &p->received_room, sizeof *p->received);
        p->received[chunk] = arena_alloc(p->arena, RECEIVED_CHUNK, sizeof **p->received);
    }
    return received_at(p, p->received_n++);
}

static struct pool_received *received_by(struct pool *p, uint32_t group, int32_t receiver,
                                         enum pool_kind kind) {
    const struct pool_received key = {.group = group, .receiver = receiver, .kind = kind};
    uint64_t hash = slots_hash(slots_hash(group, kind), (uint64_t)(uint32_t)receiver);
    uint32_t ix = slots_find(&p->received_slots, hash, same_received, p, &key);
    if (ix != SLOTS_NONE)
        return received_at(p, ix);
    slots_add(&p->received_slots, hash, (uint32_t)p->received_n, p->arena);
    struct pool_received *r = new_received(p);
    *r = key;
    return r;
}

static_assert(OUTCOME_OVER < OUTCOME_NET, "serves in the court come before errors");

static void add_received(struct pool_received *r, const struct pooled *way) {
    r->by[way->outcome] += way->n;
    r->won += way->n * (way->rally == RALLY_WON);
    r->decided += way->n * (way->rally != RALLY_NONE);
}

static void merge_received(struct pool_received *r, const struct pool_received *more) {
    for (unsigned o = 0; o < OUTCOME_NET; o++)
        r->by[o] += more->by[o];
    r->won += more->won;
    r->decided += more->decided;
}

struct counts rows_counts(const struct pool_received *r) {
    struct counts c = {0};
    for (unsigned o = 0; o < OUTCOME_NET; o++)
        tally_count(&c, (enum outcome)o, RALLY_NONE, r->by[o]);
    c.won = r->won;
    c.decided = r->decided;
    return c;
}

/* ---- adding ------------------------------------------------------------------ */

/* A serve stands in one row of each table, but for errors and situations; where an
 * error came down is no zone of a receiver. */
void rows_add(struct pool *p, const struct pooled *way) {
    uint32_t group = p->people[way->server].group;
    enum pool_kind kind = way->set ? POOL_MATCH : POOL_PRACTICE;
    struct counts *row = rows_for(p, group, kind);
    bool error = tally_is_error((enum outcome)way->outcome);
    if (error)
        pool_count(&row[way->outcome], way);
    row += keys_n[CUT_ERROR];
    pool_count(&row[way->third], way);
    row += keys_n[CUT_START];
    pool_count(&row[way->aim], way);
    row += keys_n[CUT_AIM];
    if (!error)
        pool_count(&row[way->zone], way);
    row += keys_n[CUT_ZONE];
    pool_count(&row[way->set], way);
    row += keys_n[CUT_SET];
    pool_count(&row[way->rotation], way);
    row += keys_n[CUT_ROTATION];
    for (unsigned s = 0; s < SITUATION_N; s++)
        if (way->situations & 1u << s)
            pool_count(&row[s], way);
    row += keys_n[CUT_SITUATION];
    pool_count(&row[way->type], way);
    if (!error)
        add_received(received_by(p, group, way->receiver, kind), way);
}

static void merge_group(struct pool *p, const struct pool_group *more) {
    uint32_t group = rows_group(p, more->team);
    for (unsigned kind = 0; kind < POOL_BOTH; kind++) {
        if (!more->rows[kind])
            continue;
        struct counts *rows = rows_for(p, group, kind);
        for (size_t i = 0; i < ROWS; i++)
            tally_merge(&rows[i], &more->rows[kind][i]);
    }
}

void rows_merge(struct pool *p, const struct pool *more, const int32_t *now) {
    for (size_t i = 0; i < more->group_n; i++)
        merge_group(p, &more->groups[i]);
    for (size_t i = 0; i < more->received_n; i++) {
        const struct pool_received *r = received_at(more, i);
        int32_t receiver = r->receiver == PERSON_NONE ? PERSON_NONE : now[r->receiver];
        uint32_t group = rows_group(p, more->groups[r->group].team);
        merge_received(received_by(p, group, receiver, r->kind), r);
    }
}

/* ---- asking ------------------------------------------------------------------ */

static int by_group(const void *left, const void *right) {
    const struct pool_received *a = *(const struct pool_received *const *)left;
    const struct pool_received *b = *(const struct pool_received *const *)right;
    if (a->group != b->group)
        return a->group < b->group ? -1 : 1;
    if (a->receiver != b->receiver)
        return a->receiver < b->receiver ? -1 : 1;
    return (a->kind > b->kind) - (a->kind < b->kind);
}

void rows_settle(struct pool *p, const int32_t *now) {
    p->by_group = arena_alloc(p->arena, p->received_n + 1, sizeof *p->by_group);
    for (size_t i = 0; i < p->received_n; i++) {
        struct pool_received *r = received_at(p, i);
        if (r->receiver != PERSON_NONE)
            r->receiver = now[r->receiver];
        p->by_group[i] = r;
    }
    qsort(p->by_group, p->received_n, sizeof *p->by_group, by_group);
}

const struct counts *rows_of(const struct pool *p, uint32_t group, enum cut cut,
                             enum pool_kind kind, size_t *n) {
    const struct counts *rows = p->groups[group].rows[kind];
    *n = rows ? keys_n[cut] : 0;
    return rows ? rows + first_of(cut) : NULL;
}

/* The first that belongs to this group or a later one. */
static size_t received_from(const struct pool *p, uint32_t group) {
    size_t low = 0, high = p->received_n;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (p->by_group[middle]->group < group)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

const struct pool_received **rows_received(const struct pool *p, uint32_t group, size_t *n) {
    size_t from = received_from(p, group);
    *n = received_from(p, group + 1) - from;
    return p->by_group + from;
}
