/* Counts of many files, kept by the way of serving. */
#include "pool.h"

#include <stdlib.h>
#include <string.h>

enum { SLOTS_FIRST = 256 };

static void slots_clear(struct pool *p, size_t n) {
    p->slots = arena_alloc(p->arena, n, sizeof *p->slots);
    p->slot_n = n;
    for (size_t i = 0; i < n; i++)
        p->slots[i] = PERSON_NONE;
}

struct pool *pool_new(struct arena *a) {
    struct pool *p = arena_alloc(a, 1, sizeof *p);
    p->arena = a;
    slots_clear(p, SLOTS_FIRST);
    return p;
}

/* ---- people ---------------------------------------------------------------- */

/* FNV-1a, 32 bits (draft-eastlake-fnv). */
static uint32_t hash_more(uint32_t hash, struct str s) {
    for (size_t i = 0; i < s.n; i++)
        hash = (hash ^ (unsigned char)s.at[i]) * 16777619u;
    return hash;
}

static uint32_t hash_of(const struct person *key) {
    uint32_t hash = hash_more(2166136261u, key->team);
    return hash_more((hash ^ key->shirt) * 16777619u, key->name);
}

static bool same_person(const struct person *a, const struct person *b) {
    return a->shirt == b->shirt && str_eq(a->team, b->team) && str_eq(a->name, b->name);
}

/* The slot that holds the person, or the empty one where she belongs. */
static size_t slot_of(const struct pool *p, const struct person *key) {
    size_t at = hash_of(key) & (p->slot_n - 1);
    while (p->slots[at] != PERSON_NONE && !same_person(&p->people[p->slots[at]], key))
        at = (at + 1) & (p->slot_n - 1);
    return at;
}

static void slots_fill(struct pool *p, size_t slot_n) {
    slots_clear(p, slot_n);
    for (size_t i = 0; i < p->person_n; i++)
        p->slots[slot_of(p, &p->people[i])] = (int32_t)i;
}

int32_t pool_person(struct pool *p, struct person key) {
    if (2 * (p->person_n + 1) > p->slot_n)
        slots_fill(p, 2 * p->slot_n);
    size_t at = slot_of(p, &key);
    if (p->slots[at] != PERSON_NONE) {
        p->people[p->slots[at]].ours |= key.ours;
        return p->slots[at];
    }
    p->people = arena_grow(p->arena, p->people, p->person_n, &p->person_room, sizeof *p->people);
    key.team = str_copy(p->arena, key.team);
    key.name = str_copy(p->arena, key.name);
    p->people[p->person_n] = key;
    p->slots[at] = (int32_t)p->person_n;
    return (int32_t)p->person_n++;
}

/* ---- serves ---------------------------------------------------------------- */

static bool has_room(const struct pool *p, uint64_t more) {
    return more <= POOL_SERVES_MOST - p->serves;
}

bool pool_put(struct pool *p, struct pooled way) {
    if (!has_room(p, way.n))
        return false;
    p->pooled = arena_grow(p->arena, p->pooled, p->pooled_n, &p->pooled_room, sizeof *p->pooled);
    p->pooled[p->pooled_n++] = way;
    p->serves += way.n;
    if (way.set == 0)
        p->practice_serves += way.n;
    return true;
}

/* People of one file as found so far, by side and shirt. */
struct found {
    int32_t at[SIDE_N][SHIRT_NONE + 1];
};

/* A team that the notes give no name goes by its letter. */
static struct str team_key(const struct team *t) {
    return t->name.n ? t->name : (struct str){&t->letter, 1};
}

static int32_t person_of(struct pool *p, const struct checked *c, struct found *f, unsigned side,
                         unsigned shirt) {
    int32_t *at = &f->at[side][shirt];
    if (*at != PERSON_NONE)
        return *at;
    const struct team *team = &c->match->teams[side];
    const struct player *player = shirt == SHIRT_NONE ? NULL : team_find(team, shirt);
    *at = pool_person(p, (struct person){.team = team_key(team),
                                         .name = player ? player->name : STR_NONE,
                                         .shirt = (uint8_t)shirt,
                                         .ours = side == OURS});
    return *at;
}

static uint8_t zone_row(struct spot s) {
    if (s.kind == PLACE_SEAM || s.kind == PLACE_DEEP_SEAM)
        return ZONE_SEAM;
    return s.kind ? (uint8_t)spot_zone(s) : ZONE_UNKNOWN;
}

/* In a practice a serve is aimed where its drill says, unless it says so itself. */
static uint8_t aim_row(const struct checked *c, const struct played *s) {
    if (!s->said.aim.kind && s->drill)
        return zone_row(c->drills[s->drill - 1].aim);
    return zone_row(s->said.aim);
}

static uint8_t situations_of(const struct checked *c, const struct played *s) {
    unsigned set = 0;
    for (unsigned i = 0; i < SITUATION_N; i++)
        if (tally_situation(c, s, (enum situation)i))
            set |= 1u << i;
    return (uint8_t)set;
}

/* Where an error came down is no zone of a receiver. */
static struct pooled way_of(const struct checked *c, const struct played *s) {
    return (struct pooled){
        .receiver = PERSON_NONE,
        .n = tally_times(s),
        .outcome = (uint8_t)tally_outcome(s),
        .rally = s->won,
        .third = (uint8_t)tally_third(s),
        .aim = aim_row(c, s),
        .zone = played_error(s) ? ZONE_UNKNOWN : zone_row(s->said.landing),
        .set = s->set,
        .rotation = s->rotation,
        .type = s->type,
        .situations = situations_of(c, s),
    };
}

bool pool_add(struct pool *p, const struct checked *c) {
    struct found f;
    memset(&f, 0xFF, sizeof f); /* PERSON_NONE in every byte */
    p->matches += c->match->occasion && !c->match->practice;
    p->practices += c->match->occasion && c->match->practice;
    p->incomplete += c->incomplete;
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *s = &c->played[i];
        if (!played_counts(s) || s->side >= SIDE_N)
            continue;
        struct pooled way = way_of(c, s);
        unsigned other = s->side == OURS ? THEIRS : OURS;
        way.server = person_of(p, c, &f, s->side, s->charged);
        if (s->said.by != SHIRT_NONE && other < c->match->team_n)
            way.receiver = person_of(p, c, &f, other, s->said.by);
        if (!pool_put(p, way))
            return false;
    }
    return true;
}

bool pool_merge(struct pool *p, const struct pool *more) {
    if (!has_room(p, more->serves))
        return false;
    int32_t *now = arena_alloc(p->arena, more->person_n + 1, sizeof *now);
    for (size_t i = 0; i < more->person_n; i++)
        now[i] = pool_person(p, more->people[i]);
    for (size_t i = 0; i < more->pooled_n; i++) {
        struct pooled way = more->pooled[i];
        way.server = now[way.server];
        if (way.receiver != PERSON_NONE)
            way.receiver = now[way.receiver];
        (void)pool_put(p, way);
    }
    p->matches += more->matches;
    p->practices += more->practices;
    p->incomplete += more->incomplete;
    return true;
}

/* ---- one order --------------------------------------------------------------- */

static int compare_str(struct str a, struct str b) {
    size_t n = a.n < b.n ? a.n : b.n;
    int bytes = n ? memcmp(a.at, b.at, n) : 0;
    return bytes ? bytes : (a.n > b.n) - (a.n < b.n);
}

/* A person and the index she had. */
struct sorted {
    struct person person;
    int32_t was;
};

static int by_person(const void *left, const void *right) {
    const struct person *a = &((const struct sorted *)left)->person;
    const struct person *b = &((const struct sorted *)right)->person;
    int team = compare_str(a->team, b->team);
    if (team)
        return team;
    if (a->shirt != b->shirt)
        return a->shirt < b->shirt ? -1 : 1;
    return compare_str(a->name, b->name);
}

/* Fills now[was], the new index of each. */
static void sort_people(struct pool *p, int32_t *now) {
    struct sorted *order = arena_alloc(p->arena, p->person_n + 1, sizeof *order);
    for (size_t i = 0; i < p->person_n; i++)
        order[i] = (struct sorted){p->people[i], (int32_t)i};
    qsort(order, p->person_n, sizeof *order, by_person);
    for (size_t i = 0; i < p->person_n; i++) {
        p->people[i] = order[i].person;
        now[order[i].was] = (int32_t)i;
    }
    slots_fill(p, p->slot_n);
}

/* first[i] becomes where the serves of person i begin. */
static void find_first(const struct pool *p, size_t *first) {
    for (size_t i = 0; i < p->pooled_n; i++)
        first[p->pooled[i].server + 1]++;
    for (size_t i = 0; i < p->person_n; i++)
        first[i + 1] += first[i];
}

/* Counting sort: a pass over the serves, however many people there are. */
static void sort_serves(struct pool *p, size_t *first) {
    struct pooled *out = arena_alloc(p->arena, p->pooled_n + 1, sizeof *out);
    find_first(p, first);
    for (size_t i = 0; i < p->pooled_n; i++)
        out[first[p->pooled[i].server]++] = p->pooled[i];
    for (size_t i = p->person_n; i > 0; i--)
        first[i] = first[i - 1];
    first[0] = 0;
    p->pooled = out;
    p->pooled_room = p->pooled_n + 1;
}

static int ours_first(const void *left, const void *right) {
    const struct pool_team *a = left, *b = right;
    if (a->ours != b->ours)
        return a->ours ? -1 : 1;
    return compare_str(a->name, b->name);
}

static void find_teams(struct pool *p, const size_t *first) {
    p->teams = arena_alloc(p->arena, p->person_n + 1, sizeof *p->teams);
    p->team_n = 0;
    for (size_t i = 0; i < p->person_n; i++) {
        struct pool_team *t = p->team_n ? &p->teams[p->team_n - 1] : NULL;
        if (!t || !str_eq(t->name, p->people[i].team)) {
            t = &p->teams[p->team_n++];
            *t = (struct pool_team){
                .name = p->people[i].team, .person_from = i, .pooled_from = first[i]};
        }
        t->person_to = i + 1;
        t->pooled_to = first[i + 1];
        t->ours |= p->people[i].ours;
    }
    qsort(p->teams, p->team_n, sizeof *p->teams, ours_first);
}

void pool_settle(struct pool *p) {
    int32_t *now = arena_alloc(p->arena, p->person_n + 1, sizeof *now);
    size_t *first = arena_alloc(p->arena, p->person_n + 2, sizeof *first);
    sort_people(p, now);
    for (size_t i = 0; i < p->pooled_n; i++) {
        struct pooled *way = &p->pooled[i];
        way->server = now[way->server];
        if (way->receiver != PERSON_NONE)
            way->receiver = now[way->receiver];
    }
    sort_serves(p, first);
    find_teams(p, first);
    p->row_of = arena_alloc(p->arena, p->person_n + UINT8_MAX + 2, sizeof *p->row_of);
}

static int by_way(const void *left, const void *right) {
    const struct pooled *a = left, *b = right;
    const int differences[] = {
        a->receiver - b->receiver, a->outcome - b->outcome, a->rally - b->rally,
        a->third - b->third,       a->aim - b->aim,         a->zone - b->zone,
        a->set - b->set,           a->rotation - b->rotation, a->type - b->type,
        a->situations - b->situations,
    };
    for (size_t i = 0; i < sizeof differences / sizeof *differences; i++)
        if (differences[i])
            return differences[i];
    return 0;
}

void pool_join(struct pool *p) {
    size_t kept_n = 0;
    for (size_t from = 0, to = 0; from < p->pooled_n; from = to) {
        while (to < p->pooled_n && p->pooled[to].server == p->pooled[from].server)
            to++;
        qsort(p->pooled + from, to - from, sizeof *p->pooled, by_way);
        for (size_t i = from; i < to; i++) {
            if (i > from && by_way(&p->pooled[kept_n - 1], &p->pooled[i]) == 0)
                p->pooled[kept_n - 1].n += p->pooled[i].n;
            else
                p->pooled[kept_n++] = p->pooled[i];
        }
    }
    p->pooled_n = kept_n;
    size_t *first = arena_alloc(p->arena, p->person_n + 2, sizeof *first);
    find_first(p, first);
    find_teams(p, first);
}
