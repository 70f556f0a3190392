/* A match as checked facts, out of a seed, for tests of tallies and pages. All
 * people and teams are invented; the shares are set by hand and nobody may
 * quote them. The facts are built directly, so that a test can ask for what no
 * notes would hold: eighteen servers, five long sets, no places at all. */
#ifndef NINEMETRE_TESTS_SCENE_H
#define NINEMETRE_TESTS_SCENE_H

#include "check.h"

struct scene {
    uint64_t seed;
    unsigned servers;            /* of ours, up to 18 */
    unsigned sets;               /* 0 to 5; ours wins the last */
    unsigned set_points;         /* 25; more makes long sets */
    unsigned place_per_mille;    /* serves with metres */
    unsigned zone_per_mille;     /* of the others, with a zone */
    unsigned start_per_mille;    /* serves with a start */
    unsigned phases;             /* observed, of our serves */
    unsigned mark_per_mille;     /* of them with each of the marks */
    bool ours_only;
    const char *long_name;       /* of our first server and our team, or NULL */
};

/* Four sets, ten servers, most places recorded. */
struct scene scene_usual(void);

const struct checked *scene_play(struct scene scene, struct arena *a);

/* A practice: a ring of tosses, one drill aimed at the last metre of zone 5 and
 * one without an aim, for `servers` players with `each` serves in each drill. */
const struct checked *scene_practice(unsigned servers, unsigned each, struct arena *a);

/* One serve of ours, without a set, for small counts. */
struct played scene_serve(enum outcome outcome, unsigned shirt);

/* A match that holds exactly these serves, in one set without an end. */
const struct checked *scene_of(struct played *serves, size_t n, struct arena *a);

#endif
