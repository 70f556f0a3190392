/* Gathers the matches and practices of a team. */
#include <stdlib.h>

#include "study/season_parts.h"

struct season *season_new(struct arena *a) {
    struct season *s = arena_alloc(a, 1, sizeof *s);
    *s = (struct season){.arena = a, .people = pool_new(POOL_SERVERS, a)};
    return s;
}

/* ---- adding ---------------------------------------------------------------- */

static int32_t person_of(struct season *s, const struct checked *c, unsigned shirt) {
    int32_t person = pool_person(s->people, pool_key(c, OURS, shirt));
    while (s->person_n <= (size_t)person) {
        s->of_person = arena_grow(s->arena, s->of_person, s->person_n, &s->person_room,
                                  sizeof *s->of_person);
        s->of_person[s->person_n++] = (struct season_person){.run = 0};
    }
    return person;
}

bool season_is_jump(const struct played *p) {
    bool hit = p->said.outcome != OUTCOME_DROP && p->said.outcome != OUTCOME_CLOCK;
    return hit && (p->type == TYPE_TOPSPIN || p->type == TYPE_JUMPFLOAT || p->type == TYPE_HYBRID);
}

/* Those of one file are added up. */
static void add_jumps(struct season *s, struct date day, int32_t person, unsigned n) {
    struct season_person *who = &s->of_person[person];
    if (who->jumps == 0) {
        s->jumps = arena_grow(s->arena, s->jumps, s->jumps_n, &s->jumps_room, sizeof *s->jumps);
        s->jumps[s->jumps_n++] =
            (struct season_jumps){person, season_week_of(day), season_iso_week(day), 0};
        who->jumps = s->jumps_n;
    }
    s->jumps[who->jumps - 1].n += n;
}

/* Where her next serve of this match goes. */
static struct season_run *run_of(struct season *s, int32_t person) {
    struct season_person *who = &s->of_person[person];
    struct season_run *last = who->run > 0 ? &s->runs[who->run - 1] : NULL;
    if (last && last->n < SEASON_RUN_MOST)
        return last;
    struct season_run next = {.person = person,
                              .match = (uint32_t)s->match_n,
                              .part = last ? (uint16_t)(last->part + 1) : 0};
    s->runs = arena_grow(s->arena, s->runs, s->run_n, &s->run_room, sizeof *s->runs);
    s->runs[s->run_n++] = next;
    who->run = s->run_n;
    return &s->runs[s->run_n - 1];
}

/* A serve of a match counts as hers and keeps its place in the order served. */
static void add_hers(struct season *s, const struct checked *c, const struct played *p) {
    int32_t person = person_of(s, c, p->charged);
    if (season_is_jump(p))
        add_jumps(s, c->match->date, person, tally_times(p));
    if (c->match->practice)
        return;
    tally_add(&s->people->of_person[person][POOL_MATCH], p);
    s->of_person[person].type_n[p->type]++;
    struct season_run *run = run_of(s, person);
    run->missed |= (uint32_t)played_error(p) << run->n++;
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

/* Those with a serve or a jump in the file have runs or jumps behind these. */
static void forget_file(struct season *s, size_t first_run, size_t first_jumps) {
    for (size_t i = first_run; i < s->run_n; i++)
        s->of_person[s->runs[i].person].run = 0;
    for (size_t i = first_jumps; i < s->jumps_n; i++)
        s->of_person[s->jumps[i].person].jumps = 0;
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
    size_t first_run = s->run_n, first_jumps = s->jumps_n;
    if (!of->occasion)
        return;
    add_played(s, c, &m);
    for (size_t i = 0; i < c->tries_n; i++)
        if (c->tries[i].side == OURS && c->tries[i].kind == STMT_JUMPS)
            add_jumps(s, of->date, person_of(s, c, c->tries[i].shirt), c->tries[i].n);
    forget_file(s, first_run, first_jumps);
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

static unsigned minute_of(const struct season_match *m) {
    return m->timed ? m->minute : 0;
}

/* One without a time stands at the beginning of its day; then as the files have it. */
static int by_date(const void *left, const void *right) {
    const struct season_match *a = left, *b = right;
    int day = date_order(a->date, b->date);
    if (day)
        return day;
    if (minute_of(a) != minute_of(b))
        return minute_of(a) < minute_of(b) ? -1 : 1;
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
    const struct season_run *a = left, *b = right;
    if (a->person != b->person)
        return a->person < b->person ? -1 : 1;
    if (a->match != b->match)
        return a->match < b->match ? -1 : 1;
    return a->part - b->part;
}

static int by_week(const void *left, const void *right) {
    const struct season_jumps *a = left, *b = right;
    if (a->person != b->person)
        return a->person < b->person ? -1 : 1;
    return a->week < b->week ? -1 : a->week > b->week;
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

/* Serves are of people and of matches as read: now of both as sorted. */
static void sort_runs(struct season *s, const int32_t *server_of, const uint32_t *match_of) {
    for (size_t i = 0; i < s->run_n; i++) {
        s->runs[i].person = server_of[s->runs[i].person];
        s->runs[i].match = match_of[s->runs[i].match];
    }
    if (s->run_n > 0)
        qsort(s->runs, s->run_n, sizeof *s->runs, by_server);
}

/* Of each server and week one. */
static void sort_jumps(struct season *s, const int32_t *server_of) {
    size_t kept = 0;
    for (size_t i = 0; i < s->jumps_n; i++) {
        struct season_jumps *j = &s->jumps[i];
        j->person = server_of[j->person];
        s->servers[j->person].jumps_n += j->n;
        if (i == 0 || j->week < s->first_week)
            s->first_week = j->week;
    }
    if (s->jumps_n > 0)
        qsort(s->jumps, s->jumps_n, sizeof *s->jumps, by_week);
    for (size_t i = 0; i < s->jumps_n; i++) {
        if (kept > 0 && by_week(&s->jumps[kept - 1], &s->jumps[i]) == 0)
            s->jumps[kept - 1].n += s->jumps[i].n;
        else
            s->jumps[kept++] = s->jumps[i];
    }
    s->jumps_n = kept;
}

static enum serve_type type_of(const struct season *s, const struct season_server *server) {
    size_t person = (size_t)(server->who - s->people->people);
    const unsigned *n = s->of_person[person].type_n;
    unsigned most = TYPE_NONE;
    for (unsigned t = TYPE_NONE + 1; t <= TYPE_UNDERHAND; t++)
        if (n[t] > (most ? n[most] : 0))
            most = t;
    return (enum serve_type)most;
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
    sort_runs(s, server_of, match_of);
    sort_jumps(s, server_of);
    for (size_t i = 0; i < s->server_n; i++)
        s->servers[i].type = type_of(s, &s->servers[i]);
}

/* ---- asking ------------------------------------------------------------------ */

bool season_clash(const struct season_match *a, const struct season_match *b) {
    return date_order(a->date, b->date) == 0 &&
           !(a->timed && b->timed && a->minute != b->minute);
}

/* The first of the sorted runs that does not come before (server, match). */
static size_t run_at(const struct season *s, size_t server, size_t match) {
    struct season_run wanted = {.person = (int32_t)server, .match = (uint32_t)match};
    size_t low = 0, high = s->run_n;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (by_server(&s->runs[middle], &wanted) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

void season_runs_of(const struct season *s, size_t server, size_t *from, size_t *to) {
    *from = run_at(s, server, 0);
    *to = run_at(s, server + 1, 0);
}

static unsigned bits_of(uint32_t set) {
    unsigned n = 0;
    for (; set; set &= set - 1)
        n++;
    return n;
}

struct rate season_missed(const struct season *s, size_t server, size_t from, size_t to) {
    size_t first = run_at(s, server, from), end = run_at(s, server, to);
    struct rate r = {0, 0};
    for (size_t i = first; i < end; i++)
        r = rate_sum(r, (struct rate){bits_of(s->runs[i].missed), s->runs[i].n});
    return r;
}

unsigned season_jumps(const struct season *s, size_t server, unsigned week) {
    struct season_jumps wanted = {.person = (int32_t)server, .week = s->first_week + (int)week};
    const struct season_jumps *found =
        s->jumps_n ? bsearch(&wanted, s->jumps, s->jumps_n, sizeof *s->jumps, by_week) : NULL;
    return found ? found->n : 0;
}

size_t season_match_from(const struct season *s, struct date day) {
    size_t m = 0;
    while (m < s->match_n && date_order(s->matches[m].date, day) < 0)
        m++;
    return m;
}

struct progress_split season_split(const struct season *s, size_t server, struct date day) {
    size_t from = season_match_from(s, day);
    return (struct progress_split){season_missed(s, server, 0, from),
                                   season_missed(s, server, from, s->match_n)};
}
