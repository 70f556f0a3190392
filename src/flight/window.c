#include "window.h"

#include <math.h>

#include "root.h"
#include "rough.h"
#include "stat.h"

static const double pi = 3.14159265358979323846;

/* Scanned upward from the flattest angle: from 45 degrees down a lob would be
 * found first. */
static const double scan_step_deg = 2, steepest_deg = 75;

struct search {
    const struct flight_model *model;
    struct flight_serve serve;
    double net_m;                /* for over_tape */
    double x_m, z_m;             /* for past */
};

/* The angle of a straight line from the contact to a point further on: weight
 * and topspin only ever take the ball below it. */
static double straight_deg(const struct flight_serve *s, double x_m, double z_m) {
    double way_m = (x_m - s->x_m) / cos(s->azimuth_deg * pi / 180);

    return atan2(z_m - s->height_m, way_m) * 180 / pi;
}

static struct flight at_angle(const struct search *k, double angle_deg) {
    struct flight_serve s = k->serve;

    s.angle_deg = angle_deg;
    return flight_rough(k->model, &s);
}

/* How far the ball passes over the tape. One that lands before the net is the
 * lower, the shorter it falls. */
static double over_tape(const void *of, double angle_deg) {
    const struct search *k = of;
    struct flight f = at_angle(k, angle_deg);

    if (!f.crosses)
        return f.floor.x_m - FLIGHT_NET_X_M - k->net_m;
    return f.net.z_m - k->net_m - k->model->radius_m;
}

static double past_end(const void *of, double angle_deg) {
    return at_angle(of, angle_deg).floor.x_m - FLIGHT_END_X_M;
}

/* ---- up and down --------------------------------------------------------- */

struct window window_of(const struct flight_model *m, struct flight_serve s, double net_m) {
    struct window w = {.state = WINDOW_OPEN};
    struct search k = {.model = m, .serve = s, .net_m = net_m};
    double flattest = straight_deg(&s, FLIGHT_NET_X_M, net_m + m->radius_m);

    if (!root_first(over_tape, &k, flattest, steepest_deg, scan_step_deg, &w.net_deg)) {
        w.state = WINDOW_NO_REACH;
    } else if (past_end(&k, w.net_deg) > 0) {
        w.state = WINDOW_NONE;
        w.out_deg = root_between(past_end, &k, straight_deg(&s, FLIGHT_END_X_M, m->radius_m),
                                 w.net_deg);
    } else if (!root_first(past_end, &k, w.net_deg, steepest_deg, scan_step_deg, &w.out_deg)) {
        w.state = WINDOW_NEVER_LONG;
    }
    return w;
}

double window_middle_deg(const struct window *w) {
    return (w->net_deg + w->out_deg) / 2;
}

double window_in_frac(const struct window *w, double aim_deg, double sd_deg) {
    double net = stat_normal_cdf((w->net_deg - aim_deg) / sd_deg);

    switch (w->state) {
    case WINDOW_OPEN: return stat_normal_cdf((w->out_deg - aim_deg) / sd_deg) - net;
    case WINDOW_NEVER_LONG: return 1 - net;
    case WINDOW_NONE:
    case WINDOW_NO_REACH: break;
    }
    return 0;
}

/* Half a unit to either side. */
struct window_shifts window_shifts(const struct flight_model *m, struct flight_serve s) {
    struct window_shifts out;
    double *values[] = {&s.angle_deg, &s.speed_ms, &s.topspin_rev_s};
    double *shifts[] = {&out.floor_m_per_deg, &out.floor_m_per_ms, &out.floor_m_per_rev_s};

    for (int i = 0; i < 3; i++) {
        double value = *values[i];
        *values[i] = value - 0.5;
        struct flight less = flight_run(m, &s);
        *values[i] = value + 0.5;
        struct flight more = flight_run(m, &s);
        *values[i] = value;
        *shifts[i] = more.floor.x_m - less.floor.x_m;
        if (i == 0)
            out.net_m_per_deg = more.net.z_m - less.net.z_m;
    }
    return out;
}

/* ---- the receiver -------------------------------------------------------- */

static double past(const void *of, double angle_deg) {
    const struct search *k = of;
    struct flight_serve s = k->serve;
    struct flight_point p;

    s.angle_deg = angle_deg;
    return flight_down_to_z(k->model, &s, k->z_m, &p) ? p.x_m - k->x_m : s.x_m - k->x_m;
}

bool window_reception(const struct flight_model *m, struct flight_serve s, double x_m, double z_m,
                      struct window_reception *out) {
    struct search k = {.model = m, .serve = s, .x_m = x_m, .z_m = z_m};
    double flattest = straight_deg(&s, x_m, z_m);

    if (!root_first(past, &k, flattest, steepest_deg, scan_step_deg, &out->angle_deg))
        return false;
    s.angle_deg = out->angle_deg;
    out->net = flight_run(m, &s).net;
    return flight_down_to_z(m, &s, z_m, &out->hands);
}
