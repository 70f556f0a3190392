/* What the files of `9m flight` share. */
#ifndef NINEMETRE_FLOWN_H
#define NINEMETRE_FLOWN_H

#include "cmd/cmd.h"
#include "depth.h"
#include "solve.h"
#include "toss.h"
#include "window.h"

/* A contact that gives nothing away (common practice, no source): metres past the
 * end line, with which one further back is compared. */
#define FLOWN_FORWARD_M 0.5

/* What was asked. */
struct flown_wish {
    enum flight_preset model;
    double net_m;
    bool known[DEPTH_MEASURE_N]; /* given, not taken as usual or as none */
    bool typed;                  /* with --type, which is `type` */
    enum depth_kind type;
    struct flight_serve serve;   /* angle and azimuth count when with_angle, with_aim */
    bool with_angle, with_aim, with_toss;
    struct geo_spot start, aim;  /* with_aim; the start is where the ball is hit */
    bool with_time, with_over;   /* what stands in for the speed, or for the spin */
    double time_s, over_m;
    double toss_m;               /* with_toss: its apex */
};

/* The answers, each under every model. */
enum figure {
    FIGURE_SPEED_KMH, FIGURE_SPIN_REV_S, FIGURE_ANGLE_DEG,
    FIGURE_OVER_TAPE_M, FIGURE_APEX_M, FIGURE_LANDING_X_M, FIGURE_LANDING_D_M, FIGURE_LANDING_S,
    FIGURE_RECEIVER_S, FIGURE_RECEIVER_M, FIGURE_RECEIVER_KMH, FIGURE_LATER_S,
    FIGURE_NET_DEG, FIGURE_OUT_DEG, FIGURE_WIDTH_DEG, FIGURE_IN_1DEG_FRAC, FIGURE_IN_2DEG_FRAC,
    FIGURE_NET_M_PER_DEG, FIGURE_M_PER_DEG, FIGURE_M_PER_KMH, FIGURE_M_PER_REV_S,
    FIGURE_N
};

/* Under one model. */
struct flown {
    struct window window;        /* of the serve, whatever its angle */
    enum solve_status status;    /* of the way to its angle, speed or spin */
    bool flies;                  /* there is such a serve */
    bool has[FIGURE_N];
    double of[FIGURE_N];
};

struct flown_all {
    struct flown by[FLIGHT_PRESET_N]; /* classic only if it is the model asked for */
    enum flight_preset model;
};

void flown_of(struct flown_all *out, const struct flown_wish *w);

/* A figure under the model asked for, and the least and the most of all that have
 * it. False if the model asked for has none. */
struct flown_band {
    double value, low, high;
};

bool flown_band(const struct flown_all *all, enum figure figure, struct flown_band *out);

/* True if there is such a serve under some model of the band but not under all. */
bool flown_unsure(const struct flown_all *all);

/* True of a serve without any spin. */
bool flown_wobbles(const struct flown_wish *w, const struct flown_all *all);

/* The direction of the aim, in degrees to the right of straight ahead, and the
 * room to either side line at its depth. */
struct flown_sides {
    double direction_deg, left_deg, right_deg;
    double wide_frac;            /* goes wide, when the direction strays by 2 degrees */
};

struct flown_sides flown_sides(const struct flown_wish *w);

/* The drag coefficient that speed, spin and time tell; false if none. */
bool flown_drag(const struct flown_wish *w, double *out);

void flown_text(const struct flown_wish *w, const struct flown_all *all);
void flown_json(const struct flown_wish *w, const struct flown_all *all);

#endif
