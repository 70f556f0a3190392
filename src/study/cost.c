/* Worth of misses: what the serves would have won in the court, in points a set
 * and in sets. */
#include "study/cost.h"

#include "shrink.h"
#include "worth.h"

/* Served into the court, with a rally to be won or lost. */
static bool in_play(enum outcome o) {
    return (o >= OUTCOME_IN3 && o <= OUTCOME_IN1) || o == OUTCOME_PLAY || o == OUTCOME_OVER;
}

void cost_init(struct advice *a, struct arena *arena) {
    const struct faults *f = a->faults;
    struct rate *rates = arena_alloc(arena, f->server_n + 1, sizeof *rates);
    struct shrink team;
    for (unsigned o = 0; o < OUTCOME_N; o++) {
        for (size_t i = 0; i < f->server_n; i++)
            rates[i] = f->servers[i].won[o];
        a->won_known[o] = in_play((enum outcome)o) && shrink_fit(rates, f->server_n, &team);
        if (a->won_known[o])
            a->won_frac[o] = team.a / (team.a + team.b);
    }
}

bool advice_in_play(const struct advice *a, const struct faults_server *who, double *won_frac) {
    const struct counts *c = who ? &who->counts : &a->faults->side[OURS];
    double won = c->by[OUTCOME_ACE], n = c->by[OUTCOME_ACE];
    for (unsigned o = 0; o < OUTCOME_N; o++)
        if (a->won_known[o]) {
            won += c->by[o] * a->won_frac[o];
            n += c->by[o];
        }
    if (n == 0)
        return false;
    *won_frac = won / n;
    return true;
}

/* ---- points and sets ------------------------------------------------------- */

/* The shares of one match are too unsure for chances of sets. */
static bool serve_shares(const struct faults *f, struct worth_serve *p) {
    const struct counts *us = &f->side[OURS], *them = &f->side[THEIRS];
    if (rate_may_say(us->decided) < SAY_SEASON || rate_may_say(them->decided) < SAY_SEASON)
        return false;
    *p = (struct worth_serve){(double)us->won / us->decided, (double)them->won / them->decided};
    return true;
}

static struct worth_match rules_of(const struct profile *rules) {
    return (struct worth_match){
        .set = {.points = rules->set_points},
        .decider = {.points = rules->decider_points},
        .to_win = rules->sets_to_win,
    };
}

struct advice_cost cost_of(const struct advice *a, double n, double sure_n, double won_frac) {
    const struct faults *f = a->faults;
    struct advice_cost cost = {.has_points = f->sets > 0};
    struct worth_match match = rules_of(&f->rules);
    struct worth_serve p;
    if (!cost.has_points)
        return cost;
    cost.points_n = n * won_frac / f->sets;
    cost.sure_n = sure_n * won_frac / f->sets;
    cost.has_set = serve_shares(f, &p);
    if (cost.has_set)
        cost.set_frac = worth_gain(p, &match, n * won_frac / f->side[OURS].serves).set_frac;
    return cost;
}

struct advice_cost cost_of_missed(const struct advice *a, const struct faults_server *who,
                                  struct rate missed) {
    double frac;
    if (!advice_in_play(a, who, &frac))
        return (struct advice_cost){.has_points = false};
    return cost_of(a, missed.x, rate_wilson(missed).low * missed.n, frac);
}

bool cost_of_pass(const struct advice *a, double *more_frac) {
    const struct faults *f = a->faults;
    struct rate broke = {0, 0}, other = {0, 0};
    for (size_t i = 0; i < f->server_n; i++)
        for (unsigned o = OUTCOME_ACE; o <= OUTCOME_SCREEN; o++) {
            bool broken = o == OUTCOME_ACE || o == OUTCOME_OVER || o == OUTCOME_IN1;
            struct rate *sum = broken ? &broke : &other;
            *sum = rate_sum(*sum, f->servers[i].won[o]);
        }
    if (broke.n == 0 || other.n == 0)
        return false;
    *more_frac = rate_frac(broke) - rate_frac(other);
    return true;
}

/* ---- two types of serve ---------------------------------------------------- */

static unsigned decided(const struct faults_server *who, unsigned type) {
    return who->of_type[type].decided;
}

/* The type with most decided rallies, without `but`; TYPE_NONE if she has none. */
static enum serve_type most_served(const struct faults_server *who, enum serve_type but) {
    unsigned most = TYPE_NONE;
    for (unsigned t = TYPE_NONE + 1; t <= TYPE_UNDERHAND; t++)
        if (t != (unsigned)but && decided(who, t) > (most ? decided(who, most) : 0))
            most = t;
    return (enum serve_type)most;
}

static double missed_frac(const struct counts *c) {
    return (double)c->missed / c->serves;
}

bool cost_of_types(const struct faults_server *who, struct advice_types *out) {
    enum serve_type one = most_served(who, TYPE_NONE), two = most_served(who, one);
    if (two == TYPE_NONE || rate_may_say(decided(who, two)) < SAY_COMPARISON)
        return false;
    bool second = missed_frac(&who->of_type[two]) > missed_frac(&who->of_type[one]);
    enum serve_type harder = second ? two : one, other = second ? one : two;
    const struct counts *h = &who->of_type[harder], *o = &who->of_type[other];
    *out = (struct advice_types){.harder = harder,
                                 .other = other,
                                 .harder_won = {h->won, h->decided},
                                 .other_won = {o->won, o->decided},
                                 .harder_missed = {h->missed, h->serves},
                                 .other_missed = {o->missed, o->serves}};
    rate_difference(out->harder_won, out->other_won, &out->difference);
    if (h->decided > h->missed)
        out->has_break_even = worth_break_even(rate_frac(out->other_won),
                                               (double)h->won / (h->decided - h->missed),
                                               &out->break_even_frac);
    return true;
}
