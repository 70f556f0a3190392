/* Whether a plan was followed, and what it brought. */
#include "scout.h"

/* A zone is the whole zone, by its metres too; a seam as the table by place has it. */
static bool at_plan(const struct spot *plan, const struct spot *ball) {
    if (plan->kind == PLACE_ZONE || plan->kind == PLACE_DEEP)
        return (ball->kind == PLACE_ZONE || ball->kind == PLACE_DEEP || ball->kind == PLACE_XD) &&
               spot_zone(*ball) == plan->zone;
    return scout_place(*plan) == scout_place(*ball);
}

static void add_ball(struct scout_plan *s, const struct played *p) {
    bool person = s->plan.by != SHIRT_NONE;
    bool known = person ? p->said.by != SHIRT_NONE : p->said.landing.kind != 0;
    bool kept = person ? p->said.by == s->plan.by : at_plan(&s->plan.spot, &p->said.landing);
    struct rate *broke = kept ? &s->broke : &s->broke_elsewhere;

    s->in_play++;
    if (!known)
        return;
    s->as_planned.n++;
    s->as_planned.x += kept;
    broke->n++;
    broke->x += played_broke(p);
}

/* The set of the first serve behind the line; behind the last serve its set. */
static unsigned set_of(const struct checked *c, uint32_t line) {
    size_t i = 0;

    while (i + 1 < c->played_n && c->played[i].line < line)
        i++;
    return c->played_n && c->played[i].set ? c->sets[c->played[i].set - 1].number : 0;
}

struct scout_plan *scout_plans(const struct checked *c, size_t *n, struct arena *a) {
    struct scout_plan *plans = arena_alloc(a, c->plan_n + 1, sizeof *plans);

    *n = c->plan_n;
    for (size_t i = 0; i < c->plan_n; i++) {
        plans[i].plan = c->plans[i];
        plans[i].set = set_of(c, c->plans[i].line);
    }
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];

        if (p->plan && p->side == OURS && scout_reached(p))
            add_ball(&plans[p->plan - 1], p);
    }
    return plans;
}

struct scout_plan scout_plans_sum(const struct scout_plan *plans, size_t n) {
    struct scout_plan sum = {.plan = {.by = SHIRT_NONE}};

    for (size_t i = 0; i < n; i++) {
        sum.in_play += plans[i].in_play;
        sum.as_planned = rate_sum(sum.as_planned, plans[i].as_planned);
        sum.broke = rate_sum(sum.broke, plans[i].broke);
        sum.broke_elsewhere = rate_sum(sum.broke_elsewhere, plans[i].broke_elsewhere);
    }
    return sum;
}

enum scout_verdict scout_verdict(const struct scout_plan *sum, double *difference_frac,
                                 struct interval *interval) {
    struct rate a = sum->broke, b = sum->broke_elsewhere;
    enum say say = rate_may_say(a.n < b.n ? a.n : b.n);

    if (say < SAY_INTERVAL || !rate_difference(a, b, interval))
        return SCOUT_FEW;
    *difference_frac = rate_frac(a) - rate_frac(b);
    if (say < SAY_COMPARISON || (interval->low <= 0 && interval->high >= 0))
        return SCOUT_OPEN;
    return *difference_frac > 0 ? SCOUT_MORE : SCOUT_LESS;
}
