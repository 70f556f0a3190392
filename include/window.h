/* How much room a serve has: the angles between the tape and the end line, what
 * a slip of angle, speed or spin does to the landing, and the time that is left
 * to a receiver. The room to the side lines is geometry.h's. Frame and units as in
 * flight.h. A ball counts as over the net when it clears the tape by its radius
 * (one that touches it and drops in is legal, too: FIVB Official Volleyball Rules
 * 2025-2028, 10.2), and as in when its centre lands on the end line or before. */
#ifndef NINEMETRE_WINDOW_H
#define NINEMETRE_WINDOW_H

#include "flight.h"

/* ---- up and down --------------------------------------------------------- */

enum window_state {
    WINDOW_OPEN,                 /* from net_deg to out_deg the serve is in */
    WINDOW_NEVER_LONG,           /* from net_deg on: too slow to be long */
    WINDOW_NONE,                 /* what clears the tape is long: out_deg < net_deg */
    WINDOW_NO_REACH              /* no angle clears the tape */
};

/* Launch angles. net_deg is set but for WINDOW_NO_REACH, out_deg when open or
 * none. Flat serves only: the upper end of WINDOW_NEVER_LONG, where the ball
 * goes up so steeply that it falls short again, is not looked for. */
struct window {
    enum window_state state;
    double net_deg, out_deg;
};

/* The window of a serve whose own angle does not matter, over a net of `net_m`.
 * The contact is in front of the net, topspin is 0 or more. */
struct window window_of(const struct flight_model *m, struct flight_serve s, double net_m);

/* The middle of an open window, in degrees. */
double window_middle_deg(const struct window *w);

/* The share of serves that go in, 0 to 1, when they are meant for `aim_deg` and
 * stray around it with a standard deviation of `sd_deg` (> 0; normal). */
double window_in_frac(const struct window *w, double aim_deg, double sd_deg);

/* What a little more does to the ball: metres at the net (up) and on the floor
 * (forward). */
struct window_shifts {
    double net_m_per_deg;
    double floor_m_per_deg, floor_m_per_ms, floor_m_per_rev_s;
};

struct window_shifts window_shifts(const struct flight_model *m, struct flight_serve s);

/* ---- the receiver -------------------------------------------------------- */

/* Receivers stand about 7 m behind the net (common practice, no source) and play
 * the ball at about 0.5 m (our choice). */
#define WINDOW_RECEIVER_X_M 16.0
#define WINDOW_RECEIVER_Z_M 0.5

struct window_reception {
    double angle_deg;
    struct flight_point net, hands;
};

/* The flat serve that comes down to `z_m` at `x_m` (straight ahead). False when
 * it can't get there. */
bool window_reception(const struct flight_model *m, struct flight_serve s, double x_m, double z_m,
                      struct window_reception *out);

#endif
