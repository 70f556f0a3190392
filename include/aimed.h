/* Where a server should aim, from many checked files. Her scatter comes from the
 * serves whose aim was written down, on their line or with their drill; what a
 * landing is worth from the rallies of her whole team; where the tape stands in
 * the way from the flight, never from the same notes. Types of serve are not
 * mixed, nor are places where a ball was played and places on the floor. */
#ifndef NINEMETRE_AIMED_H
#define NINEMETRE_AIMED_H

#include "aim.h"
#include "depth.h"
#include "pool.h"
#include "shrink.h"

struct aimed;

/* Nothing yet; it lives as long as the arena. */
struct aimed *aimed_new(struct arena *a);

/* Adds our serves of a whole file, which may be forgotten afterwards. */
void aimed_add(struct aimed *m, const struct checked *c);

/* Those who served, by index from 0. */
size_t aimed_people(const struct aimed *m);
const struct person *aimed_person(const struct aimed *m, size_t person);

enum { AIMED_TYPES = TYPE_UNDERHAND + 1 };

struct aimed_counts {
    unsigned serves_n;           /* that count as attempts */
    unsigned practice_n;         /* of these, at practice */
    unsigned aimed_n;            /* of these, with an aim and something known of the place */
};

/* By enum serve_type; TYPE_NONE where it is not recorded. */
void aimed_by_type(const struct aimed *m, size_t person, struct aimed_counts out[AIMED_TYPES]);

/* The type with most aimed serves; of equal ones that with most serves. */
enum serve_type aimed_usual_type(const struct aimed *m, size_t person);

/* How many of her serves of this type have the measure written down. */
unsigned aimed_measured(const struct aimed *m, size_t person, enum serve_type type,
                        enum measure measure);

enum aimed_state {
    AIMED_NO_TYPE,               /* it is not recorded: the flight can't be told */
    AIMED_NO_NET,                /* nor without the height of the net */
    AIMED_NO_FLIGHT,             /* by her measures no serve clears the net and comes in */
    AIMED_NO_AIMS,               /* none written down: `landing` alone */
    AIMED_NO_WORTH,              /* too few rallies whose zone and winner are known */
    AIMED_ADVICE                 /* see answer.say for whose scatter it rests on */
};

/* Fewer rallies don't tell what a landing is worth (our own choice). */
enum { AIMED_RALLIES_LEAST = 30 };

/* From so many serves with a place in metres a correlation is fitted; before that
 * it is taken as 0, since zones can't tell it (the number is our own choice). */
enum { AIMED_METRES_LEAST = 30 };

/* Each part holds from its state on, but for the landing. */
struct aimed_advice {
    enum aimed_state state;
    struct aimed_counts counts;
    double net_m;
    bool measured[DEPTH_MEASURE_N]; /* false: the usual value stands in depth.used */
    enum depth_status flight;
    struct depth depth;
    unsigned landed_n;           /* without aims: serves that tell something of their place */
    struct scatter landing;      /* of these; what she aimed at is in it */
    const struct spot *aims;     /* most used first; */
    const struct aim_used *used; /* the same in metres */
    size_t used_n;
    struct rate rallies;         /* of the team: won, of those with a zone */
    struct shrunk worth[AIM_ZONES]; /* won when the serve landed there; from 1 */
    struct aim_answer answer;
};

/* Net, measures and depth alone; AIMED_NO_AIMS if they are known. */
enum aimed_state aimed_flight(const struct aimed *m, size_t person, enum serve_type type,
                              struct aimed_advice *out);

void aimed_advise(const struct aimed *m, size_t person, enum serve_type type, struct arena *a,
                  struct aimed_advice *out);

#endif
