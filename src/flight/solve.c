#include "solve.h"

#include <math.h>

#include "root.h"
#include "rough.h"

static const double pi = 3.14159265358979323846;
/* From such a time on a serve was a lob (our choice: flat ones take half of it). */
static const double lob_from_s = 2;
/* What a search may be off by when it has found a flight at all. */
static const double settled = 1e-5;

/* One candidate: a serve towards the landing, whose angle follows. */
struct candidate {
    struct flight_model model;
    struct flight_serve serve;
    double way_m;                /* from contact to landing, over the floor */
    bool lob;
    double wanted;               /* time or height at the net */
};

static void begin(struct candidate *c, const struct flight_model *m,
                  const struct solve_given *g) {
    double dx_m = g->landing_x_m - g->x_m, dy_m = g->landing_y_m - g->y_m;

    *c = (struct candidate){
        .model = *m,
        .serve = {.speed_ms = g->measure[SOLVE_SPEED_MS],
                  .azimuth_deg = atan2(dy_m, dx_m) * 180 / pi,
                  .topspin_rev_s = g->measure[SOLVE_SPIN_REV_S],
                  .height_m = g->height_m,
                  .x_m = g->x_m,
                  .y_m = g->y_m},
        .way_m = hypot(dx_m, dy_m),
    };
}

/* ---- the angle ------------------------------------------------------------ */

static double beyond(const void *of, double angle_deg) {
    const struct candidate *c = of;
    struct flight_serve s = c->serve;

    s.angle_deg = angle_deg;
    struct flight_point landing = flight_rough(&c->model, &s).floor;
    return hypot(landing.x_m - s.x_m, landing.y_m - s.y_m) - c->way_m;
}

/* The same from straight up: the first angle found is the lob's. */
static double beyond_from_above(const void *of, double down_deg) {
    return beyond(of, 90 - down_deg);
}

/* False if the serve can't go so far. */
static bool find_angle(struct candidate *c) {
    double straight_deg = atan2(c->model.radius_m - c->serve.height_m, c->way_m) * 180 / pi;
    double down_deg;

    if (!c->lob)
        return root_first(beyond, c, straight_deg, 75, 2, &c->serve.angle_deg);
    if (!root_first(beyond_from_above, c, 0, 90, 2, &down_deg))
        return false;
    c->serve.angle_deg = 90 - down_deg;
    return true;
}

/* ---- the other unknown ---------------------------------------------------- */

/* Each of these is below 0 where there is no such serve, so that a search goes
 * on; what it finds is looked at again. */
static const double no_serve = -1;

static double too_early(const void *of, double speed_ms) {
    struct candidate c = *(const struct candidate *)of;

    c.serve.speed_ms = speed_ms;
    if (!find_angle(&c))
        return no_serve;
    double late_s = flight_rough(&c.model, &c.serve).floor.t_s - c.wanted;
    return c.lob ? late_s : -late_s;
}

static double too_high(const void *of, double topspin_rev_s) {
    struct candidate c = *(const struct candidate *)of;

    c.serve.topspin_rev_s = topspin_rev_s;
    return find_angle(&c) ? flight_rough(&c.model, &c.serve).net.z_m - c.wanted : no_serve;
}

static double too_late(const void *of, double coefficient) {
    struct candidate c = *(const struct candidate *)of;

    c.model.drag.slow = c.model.drag.fast = coefficient;
    return find_angle(&c) ? flight_rough(&c.model, &c.serve).floor.t_s - c.wanted : no_serve;
}

static bool search(root_function *f, const struct candidate *c, struct flight_bounds b,
                   double step, double *out) {
    return root_first(f, c, b.least, b.most, step, out) && fabs(f(c, *out)) < settled;
}

/* ---- the doors ------------------------------------------------------------ */

static enum solve_status finish(struct candidate *c, const struct solve_given *g,
                                struct flight_serve *serve, struct flight *flight) {
    if (!find_angle(c) || !flight_holds(&c->serve))
        return SOLVE_NO_FLIGHT;
    *serve = c->serve;
    *flight = flight_run(&c->model, &c->serve);
    bool over = flight->crosses && flight->net.z_m >= g->net_m;
    return g->net_m > 0 && !over ? SOLVE_UNDER_TAPE : SOLVE_FOUND;
}

/* Which two are known, as bits. */
enum {
    SPEED = 1 << SOLVE_SPEED_MS,
    SPIN = 1 << SOLVE_SPIN_REV_S,
    TIME = 1 << SOLVE_TIME_S,
    NET = 1 << SOLVE_NET_Z_M
};

static unsigned known(const struct solve_given *g, unsigned *n) {
    unsigned bits = 0;

    *n = 0;
    for (unsigned i = 0; i < SOLVE_MEASURE_N; i++) {
        bits |= (unsigned)g->known[i] << i;
        *n += g->known[i];
    }
    return bits;
}

/* Finds the speed or the spin, where it is not known. */
static enum solve_status find_unknown(struct candidate *c, const struct solve_given *g) {
    unsigned n, bits = known(g, &n);
    bool there;

    if (n < 2)
        return SOLVE_TOO_LITTLE;
    if (n > 2)
        return SOLVE_TOO_MUCH;
    switch (bits) {
    case SPEED | SPIN: return SOLVE_FOUND;
    case SPEED | TIME: return SOLVE_ILL_POSED;
    case SPIN | TIME:
        c->wanted = g->measure[SOLVE_TIME_S];
        c->lob = c->wanted > lob_from_s;
        there = search(too_early, c, flight_speed_bounds_ms, 1, &c->serve.speed_ms);
        return there ? SOLVE_FOUND : SOLVE_NO_FLIGHT;
    case SPEED | NET:
        c->wanted = g->measure[SOLVE_NET_Z_M];
        there = search(too_high, c, flight_spin_bounds_rev_s, 1, &c->serve.topspin_rev_s);
        return there ? SOLVE_FOUND : SOLVE_NO_FLIGHT;
    }
    return SOLVE_NOT_STUDIED;
}

enum solve_status solve_serve(const struct flight_model *m, const struct solve_given *given,
                              struct flight_serve *serve, struct flight *flight) {
    struct candidate c;

    begin(&c, m, given);
    enum solve_status status = find_unknown(&c, given);
    return status == SOLVE_FOUND ? finish(&c, given, serve, flight) : status;
}

enum solve_status solve_lob(const struct flight_model *m, const struct solve_given *given,
                            struct flight_serve *serve, struct flight *flight) {
    struct candidate c;

    begin(&c, m, given);
    c.lob = true;
    return finish(&c, given, serve, flight);
}

enum solve_status solve_drag(const struct flight_model *m, const struct solve_given *given,
                             double *coefficient) {
    /* From none to more than any ball has. */
    static const struct flight_bounds coefficients = {0, 0.8};
    struct candidate c;

    begin(&c, m, given);
    c.wanted = given->measure[SOLVE_TIME_S];
    return search(too_late, &c, coefficients, 0.05, coefficient) ? SOLVE_FOUND : SOLVE_NO_FLIGHT;
}
