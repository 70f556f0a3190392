/* The flight of a serve: a ball as a point with weight, drag and the force of
 * its spin, from the hand to the floor of a hall. One frame for the whole room:
 * x forward from the server's end line (the net at 9, the far end line at 18,
 * x < 0 behind the line), y to the server's left of the middle (side lines at
 * -4.5 and 4.5), z up. All places are those of the ball's centre: on the floor
 * z is the radius. Angles in degrees, spin in turns a second.
 *
 * Holds for 8 to 38 m/s, 0 to 10 turns a second and flights below 3 s. A ball
 * without spin wobbles besides, which no equation here knows: see
 * FLIGHT_WOBBLE_M. */
#ifndef NINEMETRE_FLIGHT_H
#define NINEMETRE_FLIGHT_H

#include <stdbool.h>

#include "geometry.h"

#define FLIGHT_NET_X_M (GEO_HALF_CM / 100.0)
#define FLIGHT_END_X_M (2 * FLIGHT_NET_X_M)

/* How far a ball without spin may stray to any side: 0.78 N (80 gf, the side
 * force that T. Kurisawa, BAR report BR-6, 2002, gives for a ball that does not
 * spin) during the last 0.4 s move 0.27 kg by 0.23 m; our own computation. */
#define FLIGHT_WOBBLE_M 0.23

/* ---- what the flight rests on -------------------------------------------- */

/* The drag coefficient falls from `slow` to `fast` around one Reynolds number:
 * the crisis of a sphere's drag. Equal ends: a constant coefficient. */
struct flight_drag {
    double slow, fast;
    double crisis_re, width_re;
};

/* The coefficient of the force of spin: slope times spin parameter, capped. */
struct flight_lift {
    double slope, cap;
};

struct flight_model {
    double mass_kg, radius_m;
    double gravity_ms2;
    double density_kgm3;         /* of the air */
    double viscosity_m2s;        /* of the air, kinematic */
    struct flight_drag drag;
    struct flight_lift lift;
};

/* The sources disagree; each preset is one reading of them (see model.c). */
enum flight_preset {
    FLIGHT_DEFAULT,
    FLIGHT_CLASSIC,              /* constant drag, weak spin */
    FLIGHT_LOW,                  /* default, spin pulls less */
    FLIGHT_HIGH,                 /* default, spin pulls more */
    FLIGHT_HEAVY,                /* default, more drag at speed */
    FLIGHT_PRESET_N
};

const struct flight_model *flight_model(enum flight_preset preset);

/* "default", "classic" ..., and NULL behind the last. */
extern const char *const flight_preset_words[];

/* The drag coefficient at a Reynolds number. */
double flight_drag_at(const struct flight_drag *drag, double re);

/* ---- a flight ------------------------------------------------------------ */

struct flight_serve {
    double speed_ms;
    double angle_deg;            /* above the horizontal */
    double azimuth_deg;          /* to the left of straight ahead */
    double topspin_rev_s;        /* > 0 pushes down */
    double sidespin_rev_s;       /* > 0 curves to the left */
    double height_m;             /* of the contact */
    double x_m, y_m;             /* where the contact is */
};

/* The bounds within which the equations hold, and those of the contact. */
struct flight_bounds {
    double least, most;
};

extern const struct flight_bounds flight_speed_bounds_ms, flight_spin_bounds_rev_s,
    flight_height_bounds_m, flight_contact_bounds_m, flight_angle_bounds_deg;

/* True if all of the serve lies within them. */
bool flight_holds(const struct flight_serve *s);

struct flight_point {
    double t_s;
    double x_m, y_m, z_m;
    double vx_ms, vy_ms, vz_ms;
    double path_m;               /* length of the flight so far */
};

double flight_speed_ms(const struct flight_point *p);

struct flight {
    bool crosses;                /* comes to the plane of the net above the floor */
    struct flight_point net;     /* there; only if it crosses */
    struct flight_point apex;    /* the highest point: the contact, when hit downward */
    struct flight_point floor;
};

/* The flight to the floor. The ball must come down within half a minute: true
 * of whatever weighs something. */
struct flight flight_run(const struct flight_model *m, const struct flight_serve *s);

/* The first point at which the ball is as far forward as `x_m`, be it below the
 * floor. False when it never is. */
bool flight_to_x(const struct flight_model *m, const struct flight_serve *s, double x_m,
                 struct flight_point *out);

/* The point at which the ball comes down to a height, be it below the floor.
 * False when it starts below and never rises so far. */
bool flight_down_to_z(const struct flight_model *m, const struct flight_serve *s, double z_m,
                      struct flight_point *out);

/* ---- the frame of the notation ------------------------------------------- */

/* A place on the floor in the frame of geometry.h, and back. The notation's `c`
 * (contact past the end line) is x as it stands. */
struct geo_spot flight_spot(double x_m, double y_m);
void flight_from_spot(struct geo_spot spot, double *x_m, double *y_m);

#endif
