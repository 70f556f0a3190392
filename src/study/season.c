/* Gathers the matches and practices of a team. */
#include <stdlib.h>

#include "study/season_parts.h"

struct season *season_new(struct arena *a) {
    struct season *s = arena_alloc(a, 1, sizeof *s);
    *s = (struct season){.arena = a, .people = pool_new(true, a)};
    return s;
}

/* ---- adding ---------------------------------------------------------------- */

static int32_t person_of(struct season *s, const struct checked *c, unsigned shirt) {
    return pool_person(s->people, pool_key(c, OURS, shirt));
}

bool season_is_jump(const struct played *p) {
    bool hit = p->said.outcome != OUTCOME_DROP && p->said.outcome != OUTCOME_CLOCK;
    return hit && (p->type == TYPE_TOPSPIN || p->type == TYPE_JUMPFLOAT || p->type == TYPE_HYBRID);
}

static void add_jumps(struct season *s, const struct checked *c, unsigned shirt, unsigned n) {
    struct season_jumps *last = s->jumps_n > 0 ? &s->jumps[s->jumps_n - 1] : NULL;
    struct season_jumps more = {person_of(s, c, shirt), season_week_of(c->match->date),
                                season_iso_week(c->match->date), n};
    if (last && last->person == more.person && last->week == more.week) {
        last->n += n;
        return;
    }
    s->jumps = arena_grow(s->arena, s->jumps, s->jumps_n, &s->jumps_room, sizeof *s->jumps);
    s->jumps[s->jumps_n++] = more;
}

/* A serve of a match counts as hers and keeps its place in the order served. */
static void add_hers(struct season *s, const struct checked *c, const struct played *p) {
    if (season_is_jump(p))
        add_jumps(s, c, p->charged, tally_times(p));
    if (c->match->practice)
        return;
    int32_t person = person_of(s, c, p->charged);
    tally_add(&s->people->of_person[person][POOL_MATCH], p);
    s->serves = arena_grow(s->arena, s->serves, s->serve_n, &s->serve_room, sizeof *s->serves);
    s->serves[s->serve_n++] = (struct season_serve){
        .person = person,
        .match = (uint32_t)s->match_n,
        .missed = played_error(p),
        .type = p->type,
    };
}

static void add_played(struct season *s, const struct checked *c, struct season_match *m) {
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (p->side != OURS || !played_counts(p))
            continue;
        if (p->charged != SHIRT_NONE)
            add_hers(s, c, p);
        if (c->match->practice)
            continue;
        tally_add(&m->counts, p);
        tally_add(&s->of_type[p->type], p);
    }
    tally_merge(&s->all, &m->counts);
}

void season_add(struct season *s, const struct checked *c, struct str file, unsigned warnings) {
    const struct match *of = c->match;
    struct season_match m = {.date = of->date,
                             .timed = of->timed,
                             .minute = of->minute,
                             .reviews = c->review_n,
                             .warnings = warnings,
                             .incomplete = c->incomplete,
                             .read_as = (unsigned)s->match_n};
    if (!of->occasion)
        return;
    add_played(s, c, &m);
    for (size_t i = 0; i < c->tries_n; i++)
        if (c->tries[i].side == OURS && c->tries[i].kind == STMT_JUMPS)
            add_jumps(s, c, c->tries[i].shirt, c->tries[i].n);
    s->reviews += m.reviews;
    s->warnings += m.warnings;
    s->incomplete_n += m.incomplete;
    s->practice_n += of->practice;
    if (of->practice)
        return;
    m.file = str_copy(s->arena, file);
    m.against = str_copy(s->arena, of->teams[THEIRS].name);
    s->matches = arena_grow(s->arena, s->matches, s->match_n, &s->match_room, sizeof *s->matches);
    s->matches[s->match_n++] = m;
}

/* ---- sorting --------------------------------------------------------------- */

/* Of one day, one without a time comes where the files have it. */
static int by_date(const void *left, const void *right) {
    const struct season_match *a = left, *b = right;
    int day = progress_date_order(a->date, b->date);
    if (day)
        return day;
    if (a->timed && b->timed && a->minute != b->minute)
        return a->minute < b->minute ? -1 : 1;
    return a->read_as < b->read_as ? -1 : a->read_as > b->read_as;
}

static int by_serves(const void *left, const void *right) {
    const struct season_server *a = left, *b = right;
    if (a->matches.serves != b->matches.serves)
        return a->matches.serves > b->matches.serves ? -1 : 1;
    if (a->who->shirt != b->who->shirt)
        return a->who->shirt < b->who->shirt ? -1 : 1;
    return str_order(a->who->name, b->who->name);
}

static int by_server(const void *left, const void *right) {
    const struct season_serve *a = left, *b = right;
    if (a->person != b->person)
        return a->person < b->person ? -1 : 1;
    return a->match < b->match ? -1 : a->match > b->match;
}

static void make_servers(struct season *s) {
    const struct pool *p = s->people;
    s->servers = arena_alloc(s->arena, p->person_n + 1, sizeof *s->servers);
    s->server_n = p->person_n;
    for (size_t i = 0; i < p->person_n; i++)
        s->servers[i] = (struct season_server){
            .who = &p->people[i],
            .matches = p->of_person[i][POOL_MATCH],
        };
    qsort(s->servers, s->server_n, sizeof *s->servers, by_serves);
}

/* Serves are of people and of matches as read: now of both as sorted. A merge
 * keeps the order within a match, which qsort would not. */
static void sort_serves(struct season *s, const int32_t *server_of, const uint32_t *match_of) {
    size_t cells = s->server_n * s->match_n, at = 0;
    size_t *next = arena_alloc(s->arena, cells + 1, sizeof *next);
    struct season_serve *sorted = arena_alloc(s->arena, s->serve_n + 1, sizeof *sorted);
    for (size_t i = 0; i < s->serve_n; i++) {
        struct season_serve *v = &s->serves[i];
        v->person = server_of[v->person];
        v->match = match_of[v->match];
        next[(size_t)v->person * s->match_n + v->match]++;
    }
    for (size_t i = 0; i < cells; i++) {
        size_t n = next[i];
        next[i] = at;
        at += n;
    }
    for (size_t i = 0; i < s->serve_n; i++) {
        const struct season_serve *v = &s->serves[i];
        sorted[next[(size_t)v->person * s->match_n + v->match]++] = *v;
    }
    s->serves = sorted;
}

static void find_type(const struct season *s, size_t server) {
    unsigned n[TYPE_UNDERHAND + 1] = {0}, most = TYPE_NONE;
    size_t from, to;
    season_serves_of(s, server, &from, &to);
    for (size_t i = from; i < to; i++)
        n[s->serves[i].type]++;
    for (unsigned t = TYPE_NONE + 1; t <= TYPE_UNDERHAND; t++)
        if (n[t] > (most ? n[most] : 0))
            most = t;
    s->servers[server].type = (enum serve_type)most;
}

void season_settle(struct season *s) {
    int32_t *server_of = arena_alloc(s->arena, s->people->person_n + 1, sizeof *server_of);
    uint32_t *match_of = arena_alloc(s->arena, s->match_n + 1, sizeof *match_of);
    make_servers(s);
    if (s->match_n > 0)
        qsort(s->matches, s->match_n, sizeof *s->matches, by_date);
    for (size_t i = 0; i < s->server_n; i++)
        server_of[s->servers[i].who - s->people->people] = (int32_t)i;
    for (size_t i = 0; i < s->match_n; i++)
        match_of[s->matches[i].read_as] = (uint32_t)i;
    sort_serves(s, server_of, match_of);
    for (size_t i = 0; i < s->jumps_n; i++) {
        s->jumps[i].person = server_of[s->jumps[i].person];
        s->servers[s->jumps[i].person].jumps_n += s->jumps[i].n;
    }
    for (size_t i = 0; i < s->server_n; i++)
        find_type(s, i);
}

/* ---- asking ------------------------------------------------------------------ */

bool season_clash(const struct season_match *a, const struct season_match *b) {
    return progress_date_order(a->date, b->date) == 0 &&
           !(a->timed && b->timed && a->minute != b->minute);
}

/* The first of the sorted serves that does not come before (server, match). */
static size_t serve_at(const struct season *s, size_t server, size_t match) {
    struct season_serve wanted = {.person = (int32_t)server, .match = (uint32_t)match};
    size_t low = 0, high = s->serve_n;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (by_server(&s->serves[middle], &wanted) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

void season_serves_of(const struct season *s, size_t server, size_t *from, size_t *to) {
    *from = serve_at(s, server, 0);
    *to = serve_at(s, server + 1, 0);
}

struct rate season_missed(const struct season *s, size_t server, size_t from, size_t to) {
    size_t first = serve_at(s, server, from), end = serve_at(s, server, to);
    struct rate r = {0, (unsigned)(end - first)};
    for (size_t i = first; i < end; i++)
        r.x += s->serves[i].missed;
    return r;
}

size_t season_match_from(const struct season *s, struct date day) {
    size_t m = 0;
    while (m < s->match_n && progress_date_order(s->matches[m].date, day) < 0)
        m++;
    return m;
}

struct progress_split season_split(const struct season *s, size_t server, struct date day) {
    size_t from = season_match_from(s, day);
    return (struct progress_split){season_missed(s, server, 0, from),
                                   season_missed(s, server, from, s->match_n)};
}
