/* What a study of aims must know of a serve's flight: how deep the shortest serve
 * comes down that clears the tape, how much that wanders, and how far short of
 * its landing a ball is played. Depths are metres from the net, as the notation
 * writes them. */
#ifndef NINEMETRE_DEPTH_H
#define NINEMETRE_DEPTH_H

#include "flight.h"

/* Ways of serving, in the order of the notation's words. */
enum depth_kind {
    DEPTH_TOPSPIN, DEPTH_JUMPFLOAT, DEPTH_HYBRID, DEPTH_FLOAT, DEPTH_OVERHAND, DEPTH_UNDERHAND,
    DEPTH_KIND_N
};

enum depth_measure { DEPTH_SPEED_MS, DEPTH_SPIN_REV_S, DEPTH_HEIGHT_M, DEPTH_CONTACT_M,
                     DEPTH_MEASURE_N };

/* What is taken for a measure that nobody took. */
struct depth_usual {
    double value;
    const char *source;          /* "common practice, no source", or who measured it */
};

/* Men's and women's nets have values of their own where the sources tell. */
struct depth_usual depth_usual(enum depth_kind kind, enum depth_measure measure, double net_m);

struct depth_given {
    enum depth_kind kind;
    double net_m;
    bool known[DEPTH_MEASURE_N]; /* the usual value stands for the others */
    double measure[DEPTH_MEASURE_N];
};

/* Receivers play the ball between these heights of its centre (our choice). */
#define DEPTH_PLAYED_LOW_M 0.5
#define DEPTH_PLAYED_HIGH_M 1.1

/* How much the speed differs from serve to serve: a standard deviation (our
 * choice). */
#define DEPTH_SPEED_SD_MS 0.8

struct depth {
    double clear_m;              /* the shortest landing that clears the tape; above 9: all
                                    that clears it is long */
    double spread_m;             /* its standard deviation, from that of the speed */
    double net_per_landing;      /* metres gained at the net for a metre of landing */
    double short_low_m;          /* before its landing by so much the ball is at the lower */
    double short_high_m;         /* and at the upper of the two heights */
    double used[DEPTH_MEASURE_N]; /* known or usual */
};

enum depth_status {
    DEPTH_FOUND,
    DEPTH_OUTSIDE,               /* a measure is outside of what the flight holds for, or the
                                    serve too flat to be played at those heights */
    DEPTH_NO_REACH               /* no angle takes such a serve over the net */
};

/* Under a model. Spread and gain are those of the middle of the window where it
 * has one, else of the serve that just clears the tape; shortness is that of a
 * serve that lands 7.5 m behind the net, if it can fly so far, else of the same. */
enum depth_status depth_of(const struct flight_model *m, const struct depth_given *given,
                           struct depth *out);

#endif
