/* Rates of small counts and what may be said of them. A rate is always a pair
 * of counts; its interval follows E. B. Wilson, and the difference of two
 * rates follows R. G. Newcombe (1998). All intervals are 95 %, two-sided;
 * shares are fractions from 0 to 1. */
#ifndef NINEMETRE_RATE_H
#define NINEMETRE_RATE_H

#include <stdbool.h>

/* x of n. */
struct rate {
    unsigned x, n;
};

struct interval {
    double low, high;
};

/* The least counts at which a page may show more (statistics, section 0). */
enum {
    RATE_SHOW_INTERVAL_N = 10, /* below: the fraction and nothing else */
    RATE_SHOW_COMPARISON_N = 30
};

/* x / n; needs n > 0. */
double rate_frac(struct rate r);

/* Wilson's score interval; (0, 1) when n is 0. */
struct interval rate_wilson(struct rate r);

/* Newcombe's hybrid score interval of a - b (his method 10). False, and
 * nothing written, when either n is 0. */
bool rate_difference(struct rate a, struct rate b, struct interval *out);

#endif
