/* Serves of many files, and from them advice where one server should aim. */
#include "aimed.h"

#include <stdlib.h>
#include <string.h>

#include "geometry.h"
#include "landing.h"

struct served {
    struct played played;
    struct spot aim;             /* its own or its drill's */
    int32_t person;
    bool practice;
};

/* What else is known of who serves. */
struct habits {
    struct serve routine;        /* of the last file that names her */
    int net_cm;                  /* of the last file that tells it; 0: none does */
};

struct aimed {
    struct arena *arena;
    struct pool *people;         /* of people alone; no serve is counted there */
    struct habits *habits;       /* by index of people */
    size_t habit_n, habit_room;
    struct served *serves;
    size_t serve_n, serve_room;
};

struct aimed *aimed_new(struct arena *a) {
    struct aimed *m = arena_alloc(a, 1, sizeof *m);
    m->arena = a;
    m->people = pool_new(true, a);
    return m;
}

size_t aimed_people(const struct aimed *m) {
    return m->people->person_n;
}

const struct person *aimed_person(const struct aimed *m, size_t person) {
    return &m->people->people[person];
}

/* ---- adding ---------------------------------------------------------------- */

/* Who serves, and what this file knows of her. */
static int32_t person_of(struct aimed *m, const struct checked *c, unsigned shirt) {
    int32_t person = pool_person(m->people, pool_key(c, OURS, shirt));
    const struct player *player =
        shirt == SHIRT_NONE ? NULL : team_find(&c->match->teams[OURS], shirt);
    while (m->habit_n <= (size_t)person) {
        m->habits = arena_grow(m->arena, m->habits, m->habit_n, &m->habit_room, sizeof *m->habits);
        m->habits[m->habit_n++] = (struct habits){.net_cm = 0};
    }
    if (player)
        m->habits[person].routine = player->routine;
    if (c->match->net_cm)
        m->habits[person].net_cm = c->match->net_cm;
    return person;
}

void aimed_add(struct aimed *m, const struct checked *c) {
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!played_counts(p) || p->side != OURS)
            continue;
        m->serves = arena_grow(m->arena, m->serves, m->serve_n, &m->serve_room, sizeof *m->serves);
        m->serves[m->serve_n++] = (struct served){*p, played_aim(c, p),
                                                  person_of(m, c, p->server), c->match->practice};
    }
}

/* ---- counts ---------------------------------------------------------------- */

static bool is_hers(const struct served *s, size_t person, enum serve_type type) {
    return s->person == (int32_t)person && s->played.type == type;
}

/* Whether the serve tells where it came down does not depend on the flight. */
static bool tells_place(const struct served *s) {
    static const struct depth any = {.net_per_landing = 1};
    struct scatter_seen seen;
    return landing_seen(&s->played, &any, &seen);
}

void aimed_by_type(const struct aimed *m, size_t person, struct aimed_counts out[AIMED_TYPES]) {
    memset(out, 0, AIMED_TYPES * sizeof *out);
    for (size_t i = 0; i < m->serve_n; i++) {
        const struct served *s = &m->serves[i];
        struct aimed_counts *c = &out[s->played.type];
        unsigned n = tally_times(&s->played);
        if (s->person != (int32_t)person)
            continue;
        c->serves_n += n;
        c->practice_n += s->practice ? n : 0;
        c->aimed_n += s->aim.kind && tells_place(s) ? n : 0;
    }
}

enum serve_type aimed_usual_type(const struct aimed *m, size_t person) {
    struct aimed_counts by[AIMED_TYPES];
    unsigned best = TYPE_NONE;
    aimed_by_type(m, person, by);
    for (unsigned t = 0; t < AIMED_TYPES; t++)
        if (by[t].aimed_n > by[best].aimed_n ||
            (by[t].aimed_n == by[best].aimed_n && by[t].serves_n > by[best].serves_n))
            best = t;
    return (enum serve_type)best;
}

/* ---- the flight ------------------------------------------------------------ */

static bool has_measure(const struct serve *v, enum measure measure) {
    return v->has & (uint32_t)HAS_MEASURE << measure;
}

unsigned aimed_measured(const struct aimed *m, size_t person, enum serve_type type,
                        enum measure measure) {
    unsigned n = 0;
    for (size_t i = 0; i < m->serve_n; i++)
        if (is_hers(&m->serves[i], person, type) &&
            has_measure(&m->serves[i].played.said, measure))
            n += tally_times(&m->serves[i].played);
    return n;
}

/* The mean of what was measured on her serves, else what her routine says. False
 * if neither says anything. */
static bool usual_measure(const struct aimed *m, size_t person, enum serve_type type,
                          enum measure measure, double *out) {
    const struct serve *routine = &m->habits[person].routine;
    double sum = 0, n = 0;
    for (size_t i = 0; i < m->serve_n; i++) {
        const struct played *p = &m->serves[i].played;
        if (!is_hers(&m->serves[i], person, type) || !has_measure(&p->said, measure))
            continue;
        sum += p->said.measure[measure] / 100.0 * tally_times(p);
        n += tally_times(p);
    }
    if (n > 0)
        *out = sum / n;
    else if (routine->type == type && has_measure(routine, measure))
        *out = routine->measure[measure] / 100.0;
    else
        return false;
    return true;
}

static enum depth_status find_flight(const struct aimed *m, size_t person, enum serve_type type,
                                     struct aimed_advice *out) {
    static const struct { enum depth_measure of; enum measure from; double unit; } measures[] = {
        {DEPTH_SPEED_MS, MEASURE_SPEED_KMH, 1 / 3.6},
        {DEPTH_HEIGHT_M, MEASURE_HEIGHT_M, 1},
        {DEPTH_CONTACT_M, MEASURE_CONTACT_M, 1},
    };
    struct depth_given given = {.kind = (enum depth_kind)(type - TYPE_TOPSPIN),
                                .net_m = out->net_m};
    for (size_t i = 0; i < sizeof measures / sizeof *measures; i++) {
        enum depth_measure of = measures[i].of;
        given.known[of] = usual_measure(m, person, type, measures[i].from, &given.measure[of]);
        given.measure[of] *= measures[i].unit;
    }
    memcpy(out->measured, given.known, sizeof out->measured);
    return depth_of(flight_model(FLIGHT_DEFAULT), &given, &out->depth);
}

/* ---- what a landing is worth ----------------------------------------------- */

/* A rally that the place of the serve decided, or may have: the receivers were
 * in position, and zone and winner are known. */
static bool tells_worth(const struct served *s) {
    enum place_kind place = played_place(&s->played);
    return !s->practice && !s->played.said.overlap && !played_error(&s->played) &&
           s->played.won != RALLY_NONE && (place == PLACE_FLOOR || place == PLACE_PLAYED);
}

static void count_rally(struct rate *r, bool won) {
    r->n++;
    r->x += won;
}

/* The zone is the one that was written, so for a received ball where it was
 * played. A seam belongs to both of its zones. */
static void find_worth(const struct aimed *m, size_t person, struct aimed_advice *out) {
    struct rate zones[AIM_ZONES] = {{0, 0}};
    struct shrink team;
    for (size_t i = 0; i < m->serve_n; i++) {
        const struct served *s = &m->serves[i];
        bool won = s->played.won == RALLY_WON;
        struct spot at = s->played.said.landing;
        if (!tells_worth(s) || !str_eq(m->people->people[s->person].team,
                                       m->people->people[person].team))
            continue;
        count_rally(&out->rallies, won);
        count_rally(&zones[spot_zone(at)], won);
        if (at.kind == PLACE_SEAM || at.kind == PLACE_DEEP_SEAM)
            count_rally(&zones[at.seam], won);
    }
    if (shrink_fit(zones + 1, AIM_ZONES - 1, &team))
        for (unsigned zone = 1; zone < AIM_ZONES; zone++)
            out->worth[zone] = shrink_one(&team, zones[zone]);
}

/* ---- her serves ------------------------------------------------------------ */

/* All that tell of their place, in the frame of the court. */
static void find_landing(const struct aimed *m, size_t person, enum serve_type type,
                         struct aimed_advice *out, struct arena *a) {
    struct scatter_seen *seen = arena_alloc(a, m->serve_n + 1, sizeof *seen);
    struct scatter_prior prior = scatter_prior_court();
    size_t n = 0;
    for (size_t i = 0; i < m->serve_n; i++)
        if (is_hers(&m->serves[i], person, type) &&
            landing_seen(&m->serves[i].played, &out->depth, &seen[n]))
            out->landed_n += (unsigned)seen[n++].n;
    n = scatter_join(seen, n);
    out->landing = scatter_fit(seen, n, out->depth.spread_m, &prior, SCATTER_UPRIGHT).scatter;
}

static bool same_spot(struct spot a, struct spot b) {
    return a.kind == b.kind && a.zone == b.zone && a.seam == b.seam && a.x_cm == b.x_cm &&
           a.d_cm == b.d_cm;
}

/* Aims, each once, and what came of the serves that had one. */
struct aims {
    struct spot *spots;
    struct aim_used *used;
    size_t used_n;
    struct scatter_seen *seen;
    size_t seen_n;
    unsigned metres_n;           /* serves with a place in metres */
};

static void add_aim(struct aims *g, struct spot aim, unsigned times) {
    size_t i = 0;
    while (i < g->used_n && !same_spot(g->spots[i], aim))
        i++;
    if (i == g->used_n) {
        struct aim_area area = landing_area(aim);
        g->spots[i] = aim;
        g->used[i] = (struct aim_used){(area.x0_m + area.x1_m) / 2, (area.d0_m + area.d1_m) / 2, 0};
        g->used_n++;
    }
    g->used[i].n += times;
}

static void swap_aims(struct aims *g, size_t i, size_t k) {
    struct aim_used used = g->used[i];
    struct spot spot = g->spots[i];
    g->used[i] = g->used[k];
    g->spots[i] = g->spots[k];
    g->used[k] = used;
    g->spots[k] = spot;
}

/* The most used first, of equal ones the earlier; there are few. */
static void sort_aims(struct aims *g) {
    for (size_t i = 1; i < g->used_n; i++)
        for (size_t k = i; k > 0 && g->used[k].n > g->used[k - 1].n; k--)
            swap_aims(g, k, k - 1);
}

static struct aims find_aims(const struct aimed *m, size_t person, enum serve_type type,
                             const struct depth *depth, struct arena *a) {
    struct aims g = {.seen = arena_alloc(a, m->serve_n + 1, sizeof *g.seen),
                     .used = arena_alloc(a, m->serve_n + 1, sizeof *g.used),
                     .spots = arena_alloc(a, m->serve_n + 1, sizeof *g.spots)};
    for (size_t i = 0; i < m->serve_n; i++) {
        const struct served *s = &m->serves[i];
        struct scatter_seen seen;
        if (!is_hers(s, person, type) || !s->aim.kind || !landing_seen(&s->played, depth, &seen))
            continue;
        g.metres_n += s->played.said.landing.kind == PLACE_XD ? (unsigned)seen.n : 0;
        g.seen[g.seen_n++] = landing_from(seen, s->aim);
        add_aim(&g, s->aim, (unsigned)seen.n);
    }
    g.seen_n = scatter_join(g.seen, g.seen_n);
    sort_aims(&g);
    return g;
}

/* ---- advice ---------------------------------------------------------------- */

static struct aim_answer answer_of(const struct aims *g, const struct aimed_advice *facts,
                                   struct arena *a) {
    struct aim_question q = {
        .seen = g->seen, .seen_n = g->seen_n, .used = g->used, .used_n = g->used_n,
        .serves_n = facts->counts.serves_n,
        .shape = g->metres_n < AIMED_METRES_LEAST ? SCATTER_UPRIGHT : SCATTER_FREE,
        .tape_m = facts->depth.clear_m, .tau_m = facts->depth.spread_m};
    for (unsigned zone = 1; zone < AIM_ZONES; zone++)
        q.worth[zone] = facts->worth[zone].frac;
    return aim_advise(&q, a);
}

enum aimed_state aimed_flight(const struct aimed *m, size_t person, enum serve_type type,
                              struct aimed_advice *out) {
    *out = (struct aimed_advice){.net_m = m->habits[person].net_cm / 100.0};
    if (type == TYPE_NONE)
        return AIMED_NO_TYPE;
    if (out->net_m <= 0)
        return AIMED_NO_NET;
    out->flight = find_flight(m, person, type, out);
    return out->flight == DEPTH_FOUND && out->depth.clear_m < GEO_HALF_CM / 100.0
               ? AIMED_NO_AIMS
               : AIMED_NO_FLIGHT;
}

static enum aimed_state advise(const struct aimed *m, size_t person, enum serve_type type,
                               struct arena *a, struct aimed_advice *out) {
    struct aimed_counts by[AIMED_TYPES];
    enum aimed_state flight = aimed_flight(m, person, type, out);
    aimed_by_type(m, person, by);
    out->counts = by[type];
    if (flight != AIMED_NO_AIMS)
        return flight;
    struct aims g = find_aims(m, person, type, &out->depth, a);
    out->aims = g.spots;
    out->used = g.used;
    out->used_n = g.used_n;
    if (!g.used_n) {
        find_landing(m, person, type, out, a);
        return AIMED_NO_AIMS;
    }
    find_worth(m, person, out);
    if (out->rallies.n < AIMED_RALLIES_LEAST)
        return AIMED_NO_WORTH;
    out->answer = answer_of(&g, out, a);
    return AIMED_ADVICE;
}

void aimed_advise(const struct aimed *m, size_t person, enum serve_type type, struct arena *a,
                  struct aimed_advice *out) {
    out->state = advise(m, person, type, a, out);
}
