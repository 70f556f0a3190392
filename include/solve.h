/* The way back: from where a serve was hit, where it came down and two more
 * things that were measured, to its speed, spin and angle. What those two do not
 * settle is refused, with the reason: an answer that hangs on the last
 * millisecond is none. Sidespin is taken as 0: it can't be told from direction
 * without a second point of the flight. Frame and units as in flight.h. */
#ifndef NINEMETRE_SOLVE_H
#define NINEMETRE_SOLVE_H

#include "flight.h"

enum solve_measure {
    SOLVE_SPEED_MS,              /* of a radar, which reads the first metres */
    SOLVE_SPIN_REV_S,            /* assumed, mostly; a wrong turn is 0.8 degrees */
    SOLVE_TIME_S,                /* from the hit to the floor */
    SOLVE_NET_Z_M,               /* the centre's height at the net */
    SOLVE_MEASURE_N
};

struct solve_given {
    double height_m, x_m, y_m;   /* the contact */
    double landing_x_m, landing_y_m;
    double net_m;                /* height of the net; 0: nothing is asked of it */
    bool known[SOLVE_MEASURE_N];
    double measure[SOLVE_MEASURE_N];
};

enum solve_status {
    SOLVE_FOUND,
    SOLVE_TOO_LITTLE,            /* one measure only: a whole family of serves fits */
    SOLVE_TOO_MUCH,              /* more than two: leave one out */
    SOLVE_ILL_POSED,             /* speed and time: 5 ms or 0.2 m/s are 4 turns a second */
    SOLVE_NOT_STUDIED,           /* another pair: how good it would be was not worked out */
    SOLVE_NO_FLIGHT,             /* no serve within the bounds of flight.h does that */
    SOLVE_UNDER_TAPE             /* one does, but through the net: the measures contradict
                                    each other */
};

/* The serve and its flight. Of the flat serve and the lob that land in one place
 * the flat one is taken, but the lob when a time above 2 s is known. Written for
 * SOLVE_FOUND and SOLVE_UNDER_TAPE only. */
enum solve_status solve_serve(const struct flight_model *m, const struct solve_given *given,
                              struct flight_serve *serve, struct flight *flight);

/* The lob of a known speed and spin, for SOLVE_SPEED_MS and SOLVE_SPIN_REV_S. */
enum solve_status solve_lob(const struct flight_model *m, const struct solve_given *given,
                            struct flight_serve *serve, struct flight *flight);

/* What speed, spin and time together tell: one drag coefficient for the whole
 * flight (24 ms of time are 0.05). */
enum solve_status solve_drag(const struct flight_model *m, const struct solve_given *given,
                             double *coefficient);

#endif
