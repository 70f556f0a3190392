/* Serves of many files, and from them advice where one server should aim. */
#include "aimed.h"

#include <string.h>

#include "geometry.h"
#include "landing.h"
#include "slots.h"

/* Serves of one person that tell the same of their place, as often as they occurred. */
struct fallen {
    uint32_t person, next;       /* hers with an index behind this one; SLOTS_NONE: none */
    uint32_t n;
    struct spot landing, aim;    /* the aim is its own or its drill's */
    int16_t margin_cm;
    uint8_t outcome, type;
    bool has_margin, received;
};

struct measured {
    uint32_t n;
    int64_t sum;                 /* hundredths of the measure's unit */
};

/* What is known of who serves. */
struct habits {
    struct serve routine;        /* of the last file that names her */
    int net_cm;                  /* of the last file that tells it; 0: none does */
    uint32_t team;               /* index of `worths` */
    uint32_t first, last;        /* of hers in `fallen` */
    unsigned serves_n[AIMED_TYPES], practice_n[AIMED_TYPES];
    struct measured measured[AIMED_TYPES][MEASURE_N];
};

/* Rallies of a team after serves whose zone was written, by zone. */
struct worth {
    struct rate rallies, zones[AIM_ZONES];
};

struct aimed {
    struct arena *arena;
    struct pool *people;         /* of people alone; no serve is counted there */
    struct habits *habits;       /* by index of people */
    size_t habit_n, habit_room;
    struct pool *teams;          /* the same of teams */
    struct worth *worths;        /* by index of teams */
    size_t worth_n, worth_room;
    struct fallen *fallen;       /* in the order served */
    size_t fallen_n, fallen_room;
    struct slots slots;          /* of fallen */
};

struct aimed *aimed_new(struct arena *a) {
    struct aimed *m = arena_alloc(a, 1, sizeof *m);
    m->arena = a;
    m->people = pool_new(POOL_SERVERS, a);
    m->teams = pool_new(POOL_SERVERS, a);
    return m;
}

size_t aimed_people(const struct aimed *m) {
    return m->people->person_n;
}

const struct person *aimed_person(const struct aimed *m, size_t person) {
    return &m->people->people[person];
}

/* ---- where it came down -------------------------------------------------------- */

static struct fallen fallen_of(const struct checked *c, const struct played *p, uint32_t person) {
    const struct serve *v = &p->said;
    bool has_margin = v->has & HAS_MARGIN;
    return (struct fallen){
        .person = person,
        .next = SLOTS_NONE,
        .landing = v->landing,
        .aim = played_aim(c, p),
        .margin_cm = has_margin ? v->margin_cm : 0,
        .outcome = v->outcome,
        .type = p->type,
        .has_margin = has_margin,
        .received = v->by != SHIRT_NONE,
    };
}

/* What landing_seen asks of a serve; how often it occurred is set apart. */
static bool fallen_seen(const struct fallen *f, const struct depth *flight,
                        struct scatter_seen *seen) {
    struct played p = {.said = {.has = f->has_margin ? HAS_MARGIN : 0,
                                .landing = f->landing,
                                .margin_cm = f->margin_cm,
                                .outcome = f->outcome,
                                .by = f->received ? 0 : SHIRT_NONE}};
    bool tells = landing_seen(&p, flight, seen);
    seen->n = f->n;
    return tells;
}

/* Whether the serve tells where it came down does not depend on the flight. */
static bool tells_place(const struct fallen *f) {
    static const struct depth any = {.net_per_landing = 1};
    struct scatter_seen seen;
    return fallen_seen(f, &any, &seen);
}

static bool same_spot(struct spot a, struct spot b) {
    return a.kind == b.kind && a.zone == b.zone && a.seam == b.seam && a.x_cm == b.x_cm &&
           a.d_cm == b.d_cm;
}

static bool same_fallen(const void *all, uint32_t ix, const void *key) {
    const struct fallen *a = (const struct fallen *)all + ix, *b = key;
    return a->person == b->person && a->outcome == b->outcome && a->type == b->type &&
           a->has_margin == b->has_margin && a->margin_cm == b->margin_cm &&
           a->received == b->received && same_spot(a->landing, b->landing) &&
           same_spot(a->aim, b->aim);
}

static uint64_t hash_spot(uint64_t hash, struct spot s) {
    return slots_hash(hash, (uint64_t)s.kind << 48 | (uint64_t)s.zone << 40 |
                                (uint64_t)s.seam << 32 | (uint64_t)(uint16_t)s.x_cm << 16 |
                                (uint16_t)s.d_cm);
}

static uint64_t hash_fallen(const struct fallen *f) {
    uint64_t rest = (uint64_t)f->outcome << 40 | (uint64_t)f->type << 32 |
                    (uint64_t)f->received << 17 | (uint64_t)f->has_margin << 16 |
                    (uint16_t)f->margin_cm;
    return hash_spot(hash_spot(slots_hash(f->person, rest), f->landing), f->aim);
}

static uint32_t new_fallen(struct aimed *m, struct fallen f) {
    struct habits *h = &m->habits[f.person];
    uint32_t ix = (uint32_t)m->fallen_n;
    m->fallen = arena_grow(m->arena, m->fallen, ix, &m->fallen_room, sizeof *m->fallen);
    m->fallen[m->fallen_n++] = f;
    *(h->first == SLOTS_NONE ? &h->first : &m->fallen[h->last].next) = ix;
    h->last = ix;
    return ix;
}

static void add_fallen(struct aimed *m, struct fallen f, unsigned times) {
    uint64_t hash = hash_fallen(&f);
    uint32_t ix = slots_find(&m->slots, hash, same_fallen, m->fallen, &f);
    if (ix == SLOTS_NONE) {
        if (!tells_place(&f))
            return;
        ix = new_fallen(m, f);
        slots_add(&m->slots, hash, ix, m->arena);
    }
    m->fallen[ix].n += times;
}

/* ---- what it was worth ----------------------------------------------------------- */

static void count_rally(struct rate *r, bool won) {
    r->n++;
    r->x += won;
}

/* A rally that the place of the serve decided, or may have: the receivers were
 * in position, and zone and winner are known. */
static bool tells_worth(const struct played *p) {
    enum place_kind place = played_place(p);
    return !p->said.overlap && !played_error(p) && p->won != RALLY_NONE &&
           (place == PLACE_FLOOR || place == PLACE_PLAYED);
}

/* The zone is the one that was written, so for a received ball where it was
 * played. A seam belongs to both of its zones. */
static void add_worth(struct worth *w, const struct played *p) {
    struct spot at = p->said.landing;
    bool won = p->won == RALLY_WON;
    count_rally(&w->rallies, won);
    count_rally(&w->zones[spot_zone(at)], won);
    if (at.kind == PLACE_SEAM || at.kind == PLACE_DEEP_SEAM)
        count_rally(&w->zones[at.seam], won);
}

/* ---- adding ---------------------------------------------------------------- */

static uint32_t team_of(struct aimed *m, const struct match *of) {
    uint32_t team = (uint32_t)pool_person(m->teams, pool_team_key(of, OURS));
    if (team == m->worth_n) {
        m->worths = arena_grow(m->arena, m->worths, team, &m->worth_room, sizeof *m->worths);
        m->worths[m->worth_n++] = (struct worth){.rallies = {0, 0}};
    }
    return team;
}

/* Who serves, and what this file knows of her. */
static uint32_t person_of(struct aimed *m, const struct checked *c, unsigned shirt) {
    uint32_t person = (uint32_t)pool_person(m->people, pool_key(c, OURS, shirt));
    const struct player *player =
        shirt == SHIRT_NONE ? NULL : team_find(&c->match->teams[OURS], shirt);
    if (person == m->habit_n) {
        m->habits =
            arena_grow(m->arena, m->habits, m->habit_n, &m->habit_room, sizeof *m->habits);
        m->habits[m->habit_n++] = (struct habits){
            .team = team_of(m, c->match), .first = SLOTS_NONE, .last = SLOTS_NONE};
    }
    if (player)
        m->habits[person].routine = player->routine;
    if (c->match->net_cm)
        m->habits[person].net_cm = c->match->net_cm;
    return person;
}

static bool has_measure(const struct serve *v, enum measure measure) {
    return v->has & (uint32_t)HAS_MEASURE << measure;
}

static void add_habit(struct habits *h, const struct checked *c, const struct played *p) {
    unsigned times = tally_times(p);
    h->serves_n[p->type] += times;
    if (c->match->practice)
        h->practice_n[p->type] += times;
    for (unsigned k = 0; k < MEASURE_N; k++) {
        struct measured *of = &h->measured[p->type][k];
        if (!has_measure(&p->said, (enum measure)k))
            continue;
        of->n += times;
        of->sum += (int64_t)p->said.measure[k] * times;
    }
}

void aimed_add(struct aimed *m, const struct checked *c) {
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!played_counts(p) || p->side != OURS)
            continue;
        uint32_t person = person_of(m, c, p->server);
        struct habits *h = &m->habits[person];
        add_habit(h, c, p);
        add_fallen(m, fallen_of(c, p, person), tally_times(p));
        if (!c->match->practice && tells_worth(p))
            add_worth(&m->worths[h->team], p);
    }
}

/* ---- counts ---------------------------------------------------------------- */

/* The next of hers from this index on with the type; SLOTS_NONE behind the last. */
static uint32_t of_type(const struct aimed *m, uint32_t ix, enum serve_type type) {
    while (ix != SLOTS_NONE && m->fallen[ix].type != type)
        ix = m->fallen[ix].next;
    return ix;
}

void aimed_by_type(const struct aimed *m, size_t person, struct aimed_counts out[AIMED_TYPES]) {
    const struct habits *h = &m->habits[person];
    for (unsigned t = 0; t < AIMED_TYPES; t++)
        out[t] = (struct aimed_counts){h->serves_n[t], h->practice_n[t], 0};
    for (uint32_t i = h->first; i != SLOTS_NONE; i = m->fallen[i].next)
        if (m->fallen[i].aim.kind)
            out[m->fallen[i].type].aimed_n += m->fallen[i].n;
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

unsigned aimed_measured(const struct aimed *m, size_t person, enum serve_type type,
                        enum measure measure) {
    return m->habits[person].measured[type][measure].n;
}

/* The mean of what was measured on her serves, else what her routine says. False
 * if neither says anything. */
static bool usual_measure(const struct aimed *m, size_t person, enum serve_type type,
                          enum measure measure, double *out) {
    const struct habits *h = &m->habits[person];
    const struct measured *of = &h->measured[type][measure];
    if (of->n > 0)
        *out = (double)of->sum / 100.0 / of->n;
    else if (h->routine.type == type && has_measure(&h->routine, measure))
        *out = h->routine.measure[measure] / 100.0;
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

static void find_worth(const struct aimed *m, size_t person, struct aimed_advice *out) {
    const struct worth *w = &m->worths[m->habits[person].team];
    struct shrink team;
    out->rallies = w->rallies;
    if (shrink_fit(w->zones + 1, AIM_ZONES - 1, &team))
        for (unsigned zone = 1; zone < AIM_ZONES; zone++)
            out->worth[zone] = shrink_one(&team, w->zones[zone]);
}

/* ---- her serves ------------------------------------------------------------ */

/* How many kinds of hers there are. */
static size_t kinds_n(const struct aimed *m, size_t person) {
    size_t n = 0;
    for (uint32_t i = m->habits[person].first; i != SLOTS_NONE; i = m->fallen[i].next)
        n++;
    return n;
}

/* All that tell of their place, in the frame of the court. */
static void find_landing(const struct aimed *m, size_t person, enum serve_type type,
                         struct aimed_advice *out, struct arena *a) {
    struct scatter_seen *seen = arena_alloc(a, kinds_n(m, person) + 1, sizeof *seen);
    struct scatter_prior prior = scatter_prior_court();
    size_t n = 0;
    for (uint32_t i = of_type(m, m->habits[person].first, type); i != SLOTS_NONE;
         i = of_type(m, m->fallen[i].next, type))
        if (fallen_seen(&m->fallen[i], &out->depth, &seen[n]))
            out->landed_n += (unsigned)seen[n++].n;
    n = scatter_join(seen, n);
    out->landing = scatter_fit(seen, n, out->depth.spread_m, &prior, SCATTER_UPRIGHT).scatter;
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
    size_t most = kinds_n(m, person) + 1;
    struct aims g = {.seen = arena_alloc(a, most, sizeof *g.seen),
                     .used = arena_alloc(a, most, sizeof *g.used),
                     .spots = arena_alloc(a, most, sizeof *g.spots)};
    for (uint32_t i = of_type(m, m->habits[person].first, type); i != SLOTS_NONE;
         i = of_type(m, m->fallen[i].next, type)) {
        const struct fallen *f = &m->fallen[i];
        struct scatter_seen seen;
        if (!f->aim.kind || !fallen_seen(f, depth, &seen))
            continue;
        g.metres_n += f->landing.kind == PLACE_XD ? f->n : 0;
        g.seen[g.seen_n++] = landing_from(seen, f->aim);
        add_aim(&g, f->aim, f->n);
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
