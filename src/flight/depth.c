#include "depth.h"

#include <assert.h>

#include "window.h"

/* ---- usual values --------------------------------------------------------- */

#define MEMORY "from memory, no measurement could be read"
#define PRACTICE "common practice, no source"
#define FLOATS "middle of 50 to 80 km/h (university press summary of Hong, Asai, Weon 2019)"
#define BOYS "median of 172 boys of about 16 (Charles University, abstract)"
#define ASSUMED "assumed, no measurement was found"
#define NO_SPIN "a float does not spin"
#define BOTH(value, source) {{value, source}, {value, source}}

/* A net at least so high is a men's: between 2.24 and 2.43 m (FIVB Official
 * Volleyball Rules 2025-2028, 2.1.1). */
static const double mens_net_from_m = 2.335;

/* Over a women's net and over a men's. Where a source gives a range, its middle. */
static const struct depth_usual usual[DEPTH_KIND_N][DEPTH_MEASURE_N][2] = {
    [DEPTH_TOPSPIN] = {[DEPTH_SPEED_MS] = {{20, ASSUMED}, {22.2, BOYS}},
                       [DEPTH_SPIN_REV_S] = BOTH(6, MEMORY),
                       [DEPTH_HEIGHT_M] = {{2.95, MEMORY}, {3.4, MEMORY}},
                       [DEPTH_CONTACT_M] = BOTH(0.9, PRACTICE)},
    [DEPTH_JUMPFLOAT] = {[DEPTH_SPEED_MS] = BOTH(18, FLOATS),
                         [DEPTH_SPIN_REV_S] = BOTH(0, NO_SPIN),
                         [DEPTH_HEIGHT_M] = BOTH(2.8, MEMORY),
                         [DEPTH_CONTACT_M] = BOTH(0.25, PRACTICE)},
    [DEPTH_HYBRID] = {[DEPTH_SPEED_MS] = BOTH(20, ASSUMED),
                      [DEPTH_SPIN_REV_S] = BOTH(3, ASSUMED),
                      [DEPTH_HEIGHT_M] = {{2.95, ASSUMED}, {3.3, ASSUMED}},
                      [DEPTH_CONTACT_M] = BOTH(0.5, ASSUMED)},
    [DEPTH_FLOAT] = {[DEPTH_SPEED_MS] = BOTH(18, FLOATS),
                     [DEPTH_SPIN_REV_S] = BOTH(0, NO_SPIN),
                     [DEPTH_HEIGHT_M] = BOTH(2.45, MEMORY),
                     [DEPTH_CONTACT_M] = BOTH(-0.25, PRACTICE)},
    [DEPTH_OVERHAND] = {[DEPTH_SPEED_MS] = BOTH(18, ASSUMED),
                        [DEPTH_SPIN_REV_S] = BOTH(3, ASSUMED),
                        [DEPTH_HEIGHT_M] = BOTH(2.45, ASSUMED),
                        [DEPTH_CONTACT_M] = BOTH(-0.25, PRACTICE)},
    [DEPTH_UNDERHAND] = {[DEPTH_SPEED_MS] = BOTH(13, ASSUMED),
                         [DEPTH_SPIN_REV_S] = BOTH(0, ASSUMED),
                         [DEPTH_HEIGHT_M] = BOTH(1, ASSUMED),
                         [DEPTH_CONTACT_M] = BOTH(-0.25, ASSUMED)},
};

struct depth_usual depth_usual(enum depth_kind kind, enum depth_measure measure, double net_m) {
    assert(kind < DEPTH_KIND_N && measure < DEPTH_MEASURE_N);
    return usual[kind][measure][net_m >= mens_net_from_m];
}

/* ---- depths --------------------------------------------------------------- */

/* Shortness is that of a serve to the receivers' depth; a metre more or less
 * changes it by a twentieth (our choice). */
static const double landing_depth_m = 7.5;

/* How far short of its landing the ball is when it has come down to `z_m`. */
static bool short_of_landing(const struct flight_model *m, const struct flight_serve *s,
                             double z_m, double *out_m) {
    struct flight_point played;

    if (!flight_down_to_z(m, s, z_m, &played))
        return false;
    *out_m = flight_run(m, s).floor.x_m - played.x_m;
    return true;
}

static struct flight_serve serve_of(const double used[DEPTH_MEASURE_N]) {
    return (struct flight_serve){.speed_ms = used[DEPTH_SPEED_MS],
                                 .topspin_rev_s = used[DEPTH_SPIN_REV_S],
                                 .height_m = used[DEPTH_HEIGHT_M],
                                 .x_m = used[DEPTH_CONTACT_M]};
}

/* False if the ball never is so high. */
static bool take_shortness(const struct flight_model *m, struct flight_serve s,
                           struct depth *out) {
    struct window_reception landing;

    if (window_reception(m, s, FLIGHT_NET_X_M + landing_depth_m, m->radius_m, &landing))
        s.angle_deg = landing.angle_deg;
    return short_of_landing(m, &s, DEPTH_PLAYED_LOW_M, &out->short_low_m) &&
           short_of_landing(m, &s, DEPTH_PLAYED_HIGH_M, &out->short_high_m);
}

enum depth_status depth_of(const struct flight_model *m, const struct depth_given *given,
                           struct depth *out) {
    for (unsigned i = 0; i < DEPTH_MEASURE_N; i++)
        out->used[i] = given->known[i] ? given->measure[i]
                                       : depth_usual(given->kind, i, given->net_m).value;
    struct flight_serve s = serve_of(out->used);
    if (!flight_holds(&s))
        return DEPTH_OUTSIDE;
    struct window w = window_of(m, s, given->net_m);
    if (w.state == WINDOW_NO_REACH)
        return DEPTH_NO_REACH;
    s.angle_deg = w.net_deg;
    out->clear_m = flight_run(m, &s).floor.x_m - FLIGHT_NET_X_M;
    if (w.state == WINDOW_OPEN)
        s.angle_deg = window_middle_deg(&w);
    struct window_shifts by = window_shifts(m, s);
    out->spread_m = DEPTH_SPEED_SD_MS * by.floor_m_per_ms;
    out->net_per_landing = by.net_m_per_deg / by.floor_m_per_deg;
    return take_shortness(m, s, out) ? DEPTH_FOUND : DEPTH_OUTSIDE;
}
