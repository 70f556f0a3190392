/* The flight, step by step: the classical fourth-order Runge-Kutta method with a
 * fixed step. The last step before an event is shortened until it ends there. */
#include "rough.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double pi = 3.14159265358979323846;
/* Off by less than a thousandth of a millimetre, as the tests show; the long one
 * by less than a twentieth. */
static const double step_s = 0.005, rough_step_s = 0.020;
static const double longest_s = 30;

/* What is followed along the flight. */
enum { X, Y, Z, VX, VY, VZ, PATH, STATE_N };

/* A flight under way. */
struct motion {
    const struct flight_model *model;
    double pull;                 /* force of drag or lift over mass: pull C v^2 */
    double spin[3];              /* radians a second */
    double step_s;
    double t_s;
    double at[STATE_N];
};

static double radians(double deg) {
    return deg * pi / 180;
}

static void begin(struct motion *o, const struct flight_model *m, const struct flight_serve *s) {
    double up = radians(s->angle_deg), left = radians(s->azimuth_deg);
    double turn = 2 * pi * s->topspin_rev_s;

    *o = (struct motion){
        .model = m,
        .step_s = step_s,
        .pull = m->density_kgm3 * pi * m->radius_m * m->radius_m / (2 * m->mass_kg),
        .spin = {-turn * sin(left), turn * cos(left), 2 * pi * s->sidespin_rev_s},
        .at = {s->x_m, s->y_m, s->height_m, s->speed_ms * cos(up) * cos(left),
               s->speed_ms * cos(up) * sin(left), s->speed_ms * sin(up), 0},
    };
}

/* ---- forces -------------------------------------------------------------- */

static double length(const double v[3]) {
    return sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
}

static void cross(const double a[3], const double b[3], double out[3]) {
    out[0] = a[1] * b[2] - a[2] * b[1];
    out[1] = a[2] * b[0] - a[0] * b[2];
    out[2] = a[0] * b[1] - a[1] * b[0];
}

/* The force of spin is pull CL v^2 along spin x v, where CL is slope r |spin x v|
 * / v^2 or the cap. What is given back is to be multiplied by spin x v itself. */
static double lift(const struct motion *o, double speed, double spin_by_v) {
    const struct flight_lift *l = &o->model->lift;
    double free = l->slope * o->model->radius_m;

    if (spin_by_v * free <= l->cap * speed * speed)
        return o->pull * free;
    return o->pull * l->cap * speed * speed / spin_by_v;
}

/* How fast each of `at` changes. */
static void rates(const struct motion *o, const double at[STATE_N], double out[STATE_N]) {
    const struct flight_model *m = o->model;
    const double *v = at + VX;
    double speed = length(v), across[3];

    cross(o->spin, v, across);
    double drag = o->pull * speed *
                  flight_drag_at(&m->drag, 2 * m->radius_m * speed / m->viscosity_m2s);
    double turning = lift(o, speed, length(across));
    for (int i = 0; i < 3; i++) {
        out[X + i] = v[i];
        out[VX + i] = turning * across[i] - drag * v[i];
    }
    out[VZ] -= m->gravity_ms2;
    out[PATH] = speed;
}

/* ---- steps and events ---------------------------------------------------- */

static void moved(const double from[STATE_N], const double rate[STATE_N], double by,
                  double out[STATE_N]) {
    for (int i = 0; i < STATE_N; i++)
        out[i] = from[i] + by * rate[i];
}

/* Where the motion is `by_s` later. */
static void later(const struct motion *o, double by_s, double out[STATE_N]) {
    double k1[STATE_N], k2[STATE_N], k3[STATE_N], k4[STATE_N], at[STATE_N];

    rates(o, o->at, k1);
    moved(o->at, k1, by_s / 2, at);
    rates(o, at, k2);
    moved(o->at, k2, by_s / 2, at);
    rates(o, at, k3);
    moved(o->at, k3, by_s, at);
    rates(o, at, k4);
    for (int i = 0; i < STATE_N; i++)
        out[i] = o->at[i] + by_s / 6 * (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i]);
}

static void go(struct motion *o, const double to[STATE_N]) {
    memcpy(o->at, to, sizeof o->at);
    o->t_s += o->step_s;
}

static struct flight_point point(const struct motion *o, double by_s, const double at[STATE_N]) {
    return (struct flight_point){o->t_s + by_s, at[X],  at[Y],  at[Z],
                                 at[VX],        at[VY], at[VZ], at[PATH]};
}

/* The point within the coming step at which `at[which]` is `value`, by Newton's
 * method: each of the events is all but a straight line over so short a time. */
static struct flight_point settle(const struct motion *o, int which, double value) {
    double by_s = 0, at[STATE_N], rate[STATE_N];

    memcpy(at, o->at, sizeof at);
    for (int i = 0; i < 5 && fabs(at[which] - value) > 1e-13; i++) {
        rates(o, at, rate);
        by_s += (value - at[which]) / rate[which];
        later(o, by_s, at);
    }
    return point(o, by_s, at);
}

static struct flight run(struct motion *o) {
    struct flight f = {.apex = point(o, 0, o->at)};
    double next[STATE_N], floor_m = o->model->radius_m;
    bool landed = false;

    while (!landed && o->t_s < longest_s) {
        later(o, o->step_s, next);
        landed = next[Z] <= floor_m && next[VZ] < 0;
        if (landed)
            f.floor = settle(o, Z, floor_m);
        if (o->at[X] < FLIGHT_NET_X_M && next[X] >= FLIGHT_NET_X_M) {
            f.net = settle(o, X, FLIGHT_NET_X_M);
            f.crosses = !landed || f.net.t_s <= f.floor.t_s;
        }
        if (o->at[VZ] > 0 && next[VZ] <= 0)
            f.apex = settle(o, VZ, 0);
        go(o, next);
    }
    assert(landed);
    return f;
}

struct flight flight_run(const struct flight_model *m, const struct flight_serve *s) {
    struct motion o;

    begin(&o, m, s);
    return run(&o);
}

struct flight flight_rough(const struct flight_model *m, const struct flight_serve *s) {
    struct motion o;

    begin(&o, m, s);
    o.step_s = rough_step_s;
    return run(&o);
}

/* The first point at which `at[which]` passes `value`, upward (1) or downward (-1). */
static bool pass(const struct flight_model *m, const struct flight_serve *s, int which,
                 double value, int direction, struct flight_point *out) {
    struct motion o;
    double next[STATE_N];

    for (begin(&o, m, s); o.t_s < longest_s; go(&o, next)) {
        later(&o, o.step_s, next);
        if (direction * (o.at[which] - value) <= 0 && direction * (next[which] - value) > 0) {
            *out = settle(&o, which, value);
            return true;
        }
    }
    return false;
}

bool flight_to_x(const struct flight_model *m, const struct flight_serve *s, double x_m,
                 struct flight_point *out) {
    return pass(m, s, X, x_m, 1, out);
}

bool flight_down_to_z(const struct flight_model *m, const struct flight_serve *s, double z_m,
                      struct flight_point *out) {
    return pass(m, s, Z, z_m, -1, out);
}

double flight_speed_ms(const struct flight_point *p) {
    return length((const double[]){p->vx_ms, p->vy_ms, p->vz_ms});
}

/* ---- frames -------------------------------------------------------------- */

/* Of the court's width. */
static const double middle_m = GEO_WIDTH_CM / 200.0;

struct geo_spot flight_spot(double x_m, double y_m) {
    return (struct geo_spot){y_m + middle_m, x_m - FLIGHT_NET_X_M};
}

void flight_from_spot(struct geo_spot spot, double *x_m, double *y_m) {
    *x_m = spot.d_m + FLIGHT_NET_X_M;
    *y_m = spot.x_m - middle_m;
}
