/* How steady a routine is: the spread of measures, how often the usual number
 * was done and how often what was said, the scatter about a target, and whether
 * two periods or more differ in spread. No entropy: it needs more serves than
 * there are. Units are those of the values given. */
#ifndef NINEMETRE_STEADY_H
#define NINEMETRE_STEADY_H

#include <stddef.h>

#include "arena.h"
#include "rate.h"

/* ---- measures: start, height of the toss, contact ------------------------ */

struct steady_spread {
    double mean, sd;             /* sd with n - 1 */
    struct interval of_sd;       /* 95 %, by the chi-square distribution */
};

/* False, and nothing written, below two values. */
bool steady_spread(const double *values, size_t n, struct steady_spread *out);

/* ---- counts: paces, steps ------------------------------------------------ */

struct steady_mode {
    unsigned usual;              /* the most frequent; the lowest of several */
    struct rate done;            /* so often, of all */
};

/* False, and nothing written, without a value. */
bool steady_mode(const unsigned *values, size_t n, struct steady_mode *out);

/* How many of the values are what was said. */
struct rate steady_as_said(const unsigned *values, size_t n, unsigned said);

/* ---- places: landings, tosses -------------------------------------------- */

struct steady_place {
    double x, y;
};

/* Measures of G. R. Hancock, M. S. Butler, M. G. Fischman, J. Motor Behav. 27
 * (1995) 241-250 (from memory). */
struct steady_scatter {
    struct steady_place bias;    /* of the mean, seen from the target */
    double off;                  /* length of the bias */
    double mean_radial_error;    /* mean distance from the target */
    double variable_error;       /* root mean square distance from the mean */
};

/* False, and nothing written, without a place. */
bool steady_scatter(const struct steady_place *places, size_t n, struct steady_place target,
                    struct steady_scatter *out);

/* ---- two periods or more ------------------------------------------------- */

struct steady_group {
    const double *values;
    size_t n;
};

struct steady_test {
    double f, p;
    unsigned df_above, df_below;
};

/* Whether the groups differ in spread, by distances from their medians: M. B.
 * Brown, A. B. Forsythe, J. Am. Stat. Assoc. 69 (1974) 364-367. False, and
 * nothing written, below two groups, with an empty one, or where the distances
 * do not vary inside of any group. */
bool steady_test(const struct steady_group *groups, size_t n, struct arena *a,
                 struct steady_test *out);

#endif
