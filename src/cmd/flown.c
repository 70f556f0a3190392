/* The answers of `9m flight`: one serve under each model. */
#include <math.h>

#include "cmd/flown.h"
#include "stat.h"

/* Above the angle that clears the tape, where a serve can't be long and so has no
 * middle of a window (our choice). */
static const double above_net_deg = 2;
static const double wide_sd_deg = 2;

/* ---- the serve ------------------------------------------------------------ */

static struct solve_given measures_of(const struct flown_wish *w, const struct flight_model *m) {
    struct solve_given g = {.height_m = w->serve.height_m, .x_m = w->serve.x_m, .y_m = w->serve.y_m};
    bool speed = w->known[DEPTH_SPEED_MS] || !w->with_time;
    bool spin = w->known[DEPTH_SPIN_REV_S] || !(w->with_over || (speed && w->with_time));

    flight_from_spot(w->aim, &g.landing_x_m, &g.landing_y_m);
    if (!speed || !spin)
        g.net_m = w->net_m;
    g.known[SOLVE_SPEED_MS] = speed;
    g.measure[SOLVE_SPEED_MS] = w->serve.speed_ms;
    g.known[SOLVE_SPIN_REV_S] = spin;
    g.measure[SOLVE_SPIN_REV_S] = w->serve.topspin_rev_s;
    /* With all three the time tells the drag and is not needed for the serve. */
    g.known[SOLVE_TIME_S] = w->with_time && !(speed && spin);
    g.measure[SOLVE_TIME_S] = w->time_s;
    g.known[SOLVE_NET_Z_M] = w->with_over;
    g.measure[SOLVE_NET_Z_M] = w->net_m + w->over_m + m->radius_m;
    return g;
}

/* Changes the serve's angle, speed and spin as far as they are not given. False if
 * there is none. */
static bool find_serve(struct flown *f, const struct flown_wish *w, const struct flight_model *m,
                       struct flight_serve *s) {
    struct flight flight;

    f->status = SOLVE_FOUND;
    if (w->with_aim && !w->with_angle) {
        struct solve_given g = measures_of(w, m);
        f->status = solve_serve(m, &g, s, &flight);
    }
    if (f->status != SOLVE_FOUND)
        return false;
    f->window = window_of(m, *s, w->net_m);
    if (w->with_aim || w->with_angle)
        return true;
    switch (f->window.state) {
    case WINDOW_OPEN: s->angle_deg = window_middle_deg(&f->window); return true;
    case WINDOW_NEVER_LONG: s->angle_deg = f->window.net_deg + above_net_deg; return true;
    case WINDOW_NONE:
    case WINDOW_NO_REACH: break;
    }
    return false;
}

/* ---- its figures ---------------------------------------------------------- */

static void set(struct flown *f, enum figure figure, double value) {
    f->has[figure] = true;
    f->of[figure] = value;
}

static void set_window(struct flown *f) {
    const struct window *w = &f->window;

    if (w->state == WINDOW_NO_REACH)
        return;
    set(f, FIGURE_NET_DEG, w->net_deg);
    if (w->state == WINDOW_NEVER_LONG)
        return;
    set(f, FIGURE_OUT_DEG, w->out_deg);
    set(f, FIGURE_WIDTH_DEG, w->out_deg - w->net_deg);
}

static void set_receiver(struct flown *f, const struct flight_model *m,
                         const struct flight_serve *s) {
    struct flight_point p;

    if (!flight_to_x(m, s, WINDOW_RECEIVER_X_M, &p) || p.z_m < m->radius_m)
        return;
    set(f, FIGURE_RECEIVER_S, p.t_s);
    set(f, FIGURE_RECEIVER_M, p.z_m);
    set(f, FIGURE_RECEIVER_KMH, 3.6 * flight_speed_ms(&p));
}

static void set_flight(struct flown *f, const struct flight_model *m,
                       const struct flight_serve *s, double net_m) {
    struct flight flight = flight_run(m, s);
    struct geo_spot landing = flight_spot(flight.floor.x_m, flight.floor.y_m);

    set(f, FIGURE_ANGLE_DEG, s->angle_deg);
    if (flight.crosses)
        set(f, FIGURE_OVER_TAPE_M, flight.net.z_m - m->radius_m - net_m);
    set(f, FIGURE_APEX_M, flight.apex.z_m);
    set(f, FIGURE_LANDING_X_M, landing.x_m);
    set(f, FIGURE_LANDING_D_M, landing.d_m);
    set(f, FIGURE_LANDING_S, flight.floor.t_s);
    set_receiver(f, m, s);
}

/* What a contact further back gives away: the same speed, to the same receiver. */
static void set_later(struct flown *f, const struct flight_model *m, struct flight_serve s) {
    struct window_reception behind, forward;

    if (s.x_m >= FLOWN_FORWARD_M ||
        !window_reception(m, s, WINDOW_RECEIVER_X_M, WINDOW_RECEIVER_Z_M, &behind))
        return;
    s.x_m = FLOWN_FORWARD_M;
    if (window_reception(m, s, WINDOW_RECEIVER_X_M, WINDOW_RECEIVER_Z_M, &forward))
        set(f, FIGURE_LATER_S, behind.hands.t_s - forward.hands.t_s);
}

static void set_slips(struct flown *f, const struct flight_model *m,
                      const struct flight_serve *s) {
    struct window_shifts by = window_shifts(m, *s);

    set(f, FIGURE_IN_1DEG_FRAC, window_in_frac(&f->window, s->angle_deg, 1));
    set(f, FIGURE_IN_2DEG_FRAC, window_in_frac(&f->window, s->angle_deg, 2));
    set(f, FIGURE_NET_M_PER_DEG, by.net_m_per_deg);
    set(f, FIGURE_M_PER_DEG, by.floor_m_per_deg);
    set(f, FIGURE_M_PER_KMH, by.floor_m_per_ms / 3.6);
    set(f, FIGURE_M_PER_REV_S, by.floor_m_per_rev_s);
}

void flown_of(struct flown_all *out, const struct flown_wish *w) {
    *out = (struct flown_all){.model = w->model};
    for (unsigned i = 0; i < FLIGHT_PRESET_N; i++) {
        const struct flight_model *m = flight_model(i);
        struct flown *f = &out->by[i];
        struct flight_serve s = w->serve;

        if (i == FLIGHT_CLASSIC && w->model != FLIGHT_CLASSIC)
            continue;
        f->flies = find_serve(f, w, m, &s);
        if (f->status != SOLVE_FOUND)
            continue;
        set(f, FIGURE_SPEED_KMH, 3.6 * s.speed_ms);
        set(f, FIGURE_SPIN_REV_S, s.topspin_rev_s);
        set_window(f);
        if (!f->flies)
            continue;
        set_flight(f, m, &s, w->net_m);
        set_slips(f, m, &s);
        set_later(f, m, s);
    }
}

/* ---- bands ---------------------------------------------------------------- */

bool flown_band(const struct flown_all *all, enum figure figure, struct flown_band *out) {
    const struct flown *asked = &all->by[all->model];

    if (!asked->has[figure])
        return false;
    out->value = out->low = out->high = asked->of[figure];
    for (unsigned i = 0; i < FLIGHT_PRESET_N; i++)
        if (all->by[i].has[figure]) {
            out->low = fmin(out->low, all->by[i].of[figure]);
            out->high = fmax(out->high, all->by[i].of[figure]);
        }
    return true;
}

bool flown_unsure(const struct flown_all *all) {
    unsigned fly = 0, asked = 0;

    for (unsigned i = 0; i < FLIGHT_PRESET_N; i++) {
        if (i == FLIGHT_CLASSIC && all->model != FLIGHT_CLASSIC)
            continue;
        asked++;
        fly += all->by[i].flies;
    }
    return fly > 0 && fly < asked;
}

bool flown_wobbles(const struct flown_wish *w, const struct flown_all *all) {
    return w->serve.sidespin_rev_s == 0 && all->by[all->model].of[FIGURE_SPIN_REV_S] == 0;
}

/* ---- sideways, and the drag ------------------------------------------------ */

struct flown_sides flown_sides(const struct flown_wish *w) {
    struct geo_window lines = geo_window(w->start, w->aim.d_m, 0);
    double direction_deg = geo_angle_deg(w->start, w->aim);
    struct flown_sides out = {.direction_deg = direction_deg,
                              .left_deg = direction_deg - lines.left_deg,
                              .right_deg = lines.right_deg - direction_deg};

    out.wide_frac = stat_normal_cdf(-out.left_deg / wide_sd_deg) +
                    stat_normal_cdf(-out.right_deg / wide_sd_deg);
    return out;
}

bool flown_drag(const struct flown_wish *w, double *out) {
    const struct flight_model *m = flight_model(w->model);
    struct solve_given g = measures_of(w, m);

    if (!w->with_time || !w->with_aim || !g.known[SOLVE_SPEED_MS] || !g.known[SOLVE_SPIN_REV_S])
        return false;
    return solve_drag(m, &g, out) == SOLVE_FOUND;
}
