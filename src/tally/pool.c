/* Counts of many files, kept by the way of serving. */
#include "pool.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "tally/rows.h"

static void forget_file(struct pool *p) {
    memset(p->in_file, 0xFF, sizeof p->in_file); /* PERSON_NONE in every byte */
}

struct pool *pool_new(enum pool_keeps keeps, struct arena *a) {
    struct pool *p = arena_alloc(a, 1, sizeof *p);
    p->keeps = keeps;
    p->arena = a;
    p->last = &p->chunks;
    forget_file(p);
    return p;
}

/* ---- people ---------------------------------------------------------------- */

static bool goes_by_name(const struct person *p) {
    return p->name.n > 0 && !p->by_shirt;
}

static uint64_t hash_of(const struct person *key) {
    uint64_t shirt = goes_by_name(key) ? SHIRT_NONE : key->shirt;
    return slots_hash_str(slots_hash_str(shirt, key->team), key->name);
}

bool pool_same_person(const struct person *a, const struct person *b) {
    return goes_by_name(a) == goes_by_name(b) && (goes_by_name(a) || a->shirt == b->shirt) &&
           str_eq(a->team, b->team) && str_eq(a->name, b->name);
}

static bool same_person(const void *people, uint32_t ix, const void *key) {
    return pool_same_person((const struct person *)people + ix, key);
}

/* Of one day the higher number, so that the order of files changes nothing. */
static void take_latest_shirt(struct person *p, const struct person *key) {
    int day = date_order(key->shirt_on, p->shirt_on);
    if (day < 0 || (day == 0 && key->shirt <= p->shirt))
        return;
    p->shirt = key->shirt;
    p->shirt_on = key->shirt_on;
}

static int32_t new_person(struct pool *p, struct person key) {
    p->people = arena_grow(p->arena, p->people, p->person_n, &p->person_room, sizeof *p->people);
    p->of_person = arena_grow(p->arena, p->of_person, p->person_n, &p->of_person_room,
                              sizeof *p->of_person);
    key.team = str_copy(p->arena, key.team);
    key.name = str_copy(p->arena, key.name);
    key.group = rows_group(p, key.team);
    p->people[p->person_n] = key;
    return (int32_t)p->person_n++;
}

int32_t pool_person(struct pool *p, struct person key) {
    uint64_t hash = hash_of(&key);
    uint32_t at = slots_find(&p->slots, hash, same_person, p->people, &key);
    if (at == SLOTS_NONE) {
        at = (uint32_t)new_person(p, key);
        slots_add(&p->slots, hash, at, p->arena);
    }
    p->people[at].ours |= key.ours;
    take_latest_shirt(&p->people[at], &key);
    return (int32_t)at;
}

int32_t pool_find(const struct pool *p, const struct person *key) {
    uint32_t at = slots_find(&p->slots, hash_of(key), same_person, p->people, key);
    return at == SLOTS_NONE ? PERSON_NONE : (int32_t)at;
}

/* ---- serves ---------------------------------------------------------------- */

static bool has_room(const struct pool *p, uint64_t more) {
    return more <= POOL_SERVES_MOST - p->serves;
}

static struct pool_chunk *chunk_with_room(struct pool *p) {
    struct pool_chunk *c = *p->last;
    if (c && c->n == POOL_CHUNK) {
        p->last = &c->next;
        c = NULL;
    }
    if (!c)
        c = *p->last = arena_alloc(p->arena, 1, sizeof *c);
    return c;
}

static void keep_way(struct pool *p, struct pooled way) {
    struct pool_chunk *c = chunk_with_room(p);
    c->at[c->n++] = way;
    p->pooled_n++;
}

static void keep(struct pool *p, const struct pooled *way) {
    if (p->keeps == POOL_TABLES)
        rows_add(p, way);
    else if (p->keeps == POOL_WAYS)
        keep_way(p, *way);
}

/* Counts how many there are; false, and nothing counted, when that is too many. */
static bool take_number(struct pool *p, enum pool_kind kind, unsigned n) {
    if (!has_room(p, n))
        return false;
    p->serves += n;
    if (kind == POOL_PRACTICE)
        p->practice_serves += n;
    return true;
}

bool pool_put(struct pool *p, struct pooled way) {
    enum pool_kind kind = way.set ? POOL_MATCH : POOL_PRACTICE;
    if (!take_number(p, kind, way.n))
        return false;
    pool_count(&p->of_person[way.server][kind], &way);
    keep(p, &way);
    return true;
}

/* A team that the notes give no name goes by its letter. */
static struct str team_key(const struct team *t) {
    return t->name.n ? t->name : (struct str){&t->letter, 1};
}

struct person pool_team_key(const struct match *m, enum side side) {
    return (struct person){
        .team = team_key(&m->teams[side]), .shirt = SHIRT_NONE, .ours = side == OURS};
}

static bool stands_twice(const struct team *t, const struct player *who) {
    for (size_t i = 0; i < t->player_n; i++)
        if (&t->players[i] != who && str_eq(t->players[i].name, who->name))
            return true;
    return false;
}

struct person pool_key(const struct checked *c, enum side side, unsigned shirt) {
    const struct team *team = &c->match->teams[side];
    const struct player *player = shirt == SHIRT_NONE ? NULL : team_find(team, shirt);
    return (struct person){
        .team = team_key(team),
        .name = player ? player->name : STR_NONE,
        .shirt = (uint8_t)shirt,
        .shirt_on = c->match->date,
        .by_shirt = player && player->name.n > 0 && stands_twice(team, player),
        .ours = side == OURS,
    };
}

static int32_t person_of(struct pool *p, const struct checked *c, unsigned side, unsigned shirt) {
    int32_t *at = &p->in_file[side][shirt];
    if (*at == PERSON_NONE)
        *at = pool_person(p, pool_key(c, (enum side)side, shirt));
    return *at;
}

static unsigned zone_row(struct spot s) {
    if (s.kind == PLACE_SEAM || s.kind == PLACE_DEEP_SEAM)
        return ZONE_SEAM;
    return s.kind ? spot_zone(s) : ZONE_UNKNOWN;
}

static unsigned situations_of(const struct checked *c, const struct played *s) {
    unsigned set = 0;
    for (unsigned i = 0; i < SITUATION_N && !c->match->practice; i++)
        if (tally_situation(c, s, (enum situation)i))
            set |= 1u << i;
    return set;
}

/* Where an error came down is no zone of a receiver. */
static struct pooled way_of(struct pool *p, const struct checked *c, const struct played *s,
                            int32_t server) {
    enum outcome o = tally_outcome(s);
    unsigned other = s->side == OURS ? THEIRS : OURS;
    bool received = s->said.by != SHIRT_NONE && other < c->match->team_n;
    return (struct pooled){
        .server = server,
        .receiver = received ? person_of(p, c, other, s->said.by) : PERSON_NONE,
        .n = tally_times(s),
        .outcome = o & 31u,
        .rally = s->won & 3u,
        .third = tally_third(s) & 3u,
        .aim = zone_row(played_aim(c, s)) & 7u,
        .zone = (tally_is_error(o) ? ZONE_UNKNOWN : zone_row(s->said.landing)) & 7u,
        .set = s->set & 15u,
        .rotation = s->rotation & 7u,
        .type = s->type & 7u,
        .situations = situations_of(c, s) & 31u,
    };
}

/* The widths of struct pooled. */
static_assert(OUTCOME_N <= 32 && ZONE_N <= 8 && SETS_MAX < 16 && SITUATION_N <= 5 &&
                  TYPE_UNDERHAND < 8 && THIRD_LEFT < 4 && RALLY_LOST < 4,
              "struct pooled is too narrow");

bool pool_take(struct pool *p, const struct checked *c, const struct played *serves, size_t n) {
    enum pool_kind kind = c->match->practice ? POOL_PRACTICE : POOL_MATCH;
    for (size_t i = 0; i < n; i++) {
        const struct played *s = &serves[i];
        if (!played_counts(s) || s->side >= SIDE_N)
            continue;
        if (!take_number(p, kind, tally_times(s)))
            return false;
        int32_t server = person_of(p, c, s->side, s->charged);
        tally_add(&p->of_person[server][kind], s);
        if (p->keeps == POOL_SERVERS)
            continue;
        struct pooled way = way_of(p, c, s, server);
        keep(p, &way);
    }
    return true;
}

void pool_end(struct pool *p, const struct checked *c) {
    p->matches += c->match->occasion && !c->match->practice;
    p->practices += c->match->occasion && c->match->practice;
    p->incomplete += c->incomplete;
    forget_file(p);
}

bool pool_add(struct pool *p, const struct checked *c) {
    bool good = pool_take(p, c, c->played, c->played_n);
    pool_end(p, c);
    return good;
}

void pool_file(struct pool *p, struct pool_file file) {
    p->files = arena_grow(p->arena, p->files, p->file_n, &p->file_room, sizeof *p->files);
    file.sum = str_copy(p->arena, file.sum);
    file.name = str_copy(p->arena, file.name);
    p->files[p->file_n++] = file;
}

/* With people as they are numbered now. */
static struct pooled renamed(const struct pooled *was, const int32_t *now) {
    struct pooled way = *was;
    way.server = now[way.server];
    if (way.receiver != PERSON_NONE)
        way.receiver = now[way.receiver];
    return way;
}

bool pool_merge(struct pool *p, const struct pool *more) {
    assert(p->keeps == more->keeps);
    if (!has_room(p, more->serves))
        return false;
    int32_t *now = arena_alloc(p->arena, more->person_n + 1, sizeof *now);
    for (size_t i = 0; i < more->person_n; i++)
        now[i] = pool_person(p, more->people[i]);
    for (size_t i = 0; i < more->person_n; i++)
        for (unsigned k = 0; k < POOL_BOTH; k++)
            tally_merge(&p->of_person[now[i]][k], &more->of_person[i][k]);
    for (const struct pool_chunk *c = more->chunks; c; c = c->next)
        for (size_t i = 0; i < c->n; i++)
            keep_way(p, renamed(&c->at[i], now));
    rows_merge(p, more, now);
    for (size_t i = 0; i < more->file_n; i++)
        pool_file(p, more->files[i]);
    p->serves += more->serves;
    p->practice_serves += more->practice_serves;
    p->matches += more->matches;
    p->practices += more->practices;
    p->incomplete += more->incomplete;
    return true;
}

/* ---- one order --------------------------------------------------------------- */

/* A person and the index she had. */
struct sorted {
    struct person person;
    int32_t was;
};

static int by_person(const void *left, const void *right) {
    const struct person *a = &((const struct sorted *)left)->person;
    const struct person *b = &((const struct sorted *)right)->person;
    int team = str_order(a->team, b->team);
    if (team)
        return team;
    if (a->shirt != b->shirt)
        return a->shirt < b->shirt ? -1 : 1;
    int name = str_order(a->name, b->name);
    return name ? name : a->by_shirt - b->by_shirt;
}

static void sort_people(struct pool *p) {
    struct sorted *order = arena_alloc(p->arena, p->person_n + 1, sizeof *order);
    struct counts(*counts)[POOL_BOTH] = arena_alloc(p->arena, p->person_n + 1, sizeof *counts);
    p->now = arena_alloc(p->arena, p->person_n + 1, sizeof *p->now);
    for (size_t i = 0; i < p->person_n; i++)
        order[i] = (struct sorted){p->people[i], (int32_t)i};
    qsort(order, p->person_n, sizeof *order, by_person);
    for (size_t i = 0; i < p->person_n; i++) {
        p->people[i] = order[i].person;
        p->now[order[i].was] = (int32_t)i;
        memcpy(counts[i], p->of_person[order[i].was], sizeof counts[i]);
    }
    p->of_person = counts;
}

static int ours_first(const void *left, const void *right) {
    const struct pool_team *a = left, *b = right;
    if (a->ours != b->ours)
        return a->ours ? -1 : 1;
    return str_order(a->name, b->name);
}

static void find_teams(struct pool *p) {
    p->teams = arena_alloc(p->arena, p->person_n + 1, sizeof *p->teams);
    for (size_t i = 0; i < p->person_n; i++) {
        struct pool_team *t = p->team_n ? &p->teams[p->team_n - 1] : NULL;
        if (!t || !str_eq(t->name, p->people[i].team)) {
            t = &p->teams[p->team_n++];
            *t = (struct pool_team){
                .name = p->people[i].team, .person_from = i, .group = p->people[i].group};
        }
        t->person_to = i + 1;
        t->ours |= p->people[i].ours;
    }
    qsort(p->teams, p->team_n, sizeof *p->teams, ours_first);
}

static int by_sum(const void *left, const void *right) {
    const struct pool_file *a = left, *b = right;
    int sum = str_order(a->sum, b->sum);
    return sum ? sum : str_order(a->name, b->name);
}

static void sort_files(struct pool *p) {
    if (p->file_n)
        qsort(p->files, p->file_n, sizeof *p->files, by_sum);
}

const struct pool_file *pool_twice(const struct pool *p) {
    for (size_t i = 1; i < p->file_n; i++)
        if (p->files[i - 1].part != p->files[i].part &&
            str_eq(p->files[i - 1].sum, p->files[i].sum))
            return &p->files[i - 1];
    return NULL;
}

void pool_settle(struct pool *p) {
    sort_people(p);
    sort_files(p);
    find_teams(p);
    rows_settle(p, p->now);
}

/* ---- the serves in order ------------------------------------------------------ */

/* Where the serves of each person begin in p->pooled, and where the last end. */
static size_t *find_first(const struct pool *p) {
    size_t *first = arena_alloc(p->arena, p->person_n + 2, sizeof *first);
    for (size_t i = 0; i < p->pooled_n; i++)
        first[p->pooled[i].server + 1]++;
    for (size_t i = 0; i < p->person_n; i++)
        first[i + 1] += first[i];
    return first;
}

/* Counting sort: a pass over the serves, however many people there are. */
void pool_sort(struct pool *p) {
    size_t n = 0;
    assert(p->keeps == POOL_WAYS);
    p->pooled = arena_alloc(p->arena, p->pooled_n + 1, sizeof *p->pooled);
    for (const struct pool_chunk *c = p->chunks; c; c = c->next)
        for (size_t i = 0; i < c->n; i++)
            p->pooled[n++] = renamed(&c->at[i], p->now);
    size_t *next = find_first(p);
    struct pooled *out = arena_alloc(p->arena, p->pooled_n + 1, sizeof *out);
    for (size_t i = 0; i < p->pooled_n; i++)
        out[next[p->pooled[i].server]++] = p->pooled[i];
    p->pooled = out;
}

static int by_way(const void *left, const void *right) {
    const struct pooled *a = left, *b = right;
    const int differences[] = {
        a->receiver - b->receiver, (int)a->outcome - (int)b->outcome,
        (int)a->rally - (int)b->rally, (int)a->third - (int)b->third,
        (int)a->aim - (int)b->aim, (int)a->zone - (int)b->zone,
        (int)a->set - (int)b->set, (int)a->rotation - (int)b->rotation,
        (int)a->type - (int)b->type, (int)a->situations - (int)b->situations,
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
}
