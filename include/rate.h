/* Rates of small counts and what may be said of them. A rate is always a pair
 * of counts; its interval follows E. B. Wilson, and the difference of two
 * rates follows R. G. Newcombe (1998). All intervals are 95 %, two-sided;
 * shares are fractions from 0 to 1. */
#ifndef NINEMETRE_RATE_H
#define NINEMETRE_RATE_H

#include <stdbool.h>

/* The 97.5 % point of the standard normal distribution. */
#define RATE_Z 1.959963984540054

/* x of n. */
struct rate {
    unsigned x, n;
};

struct interval {
    double low, high;
};

/* What may be said of a number, by the serves behind it; each with all that is
 * said of fewer. The counts are our own choice, and all output obeys them:
 * Wilson's interval of 2 errors in 14 serves is 4 to 40 %, and to tell 10 from
 * 20 % takes some 200 serves on either side. */
enum say {
    SAY_NOTHING,    /* no serve: no rate, no interval */
    SAY_COUNT,      /* the fraction: no percent, no arrow, no rank */
    SAY_INTERVAL,   /* the rate with its interval, not yet better or worse */
    SAY_COMPARISON, /* a difference with its interval, never a cause */
    SAY_SEASON,     /* faults tested, a trend, where to aim */
    SAY_N
};

enum say rate_may_say(unsigned serves_n);

/* The fewest serves of which so much may be said. */
unsigned rate_say_from_n(enum say say);

/* Whose scatter may advise where to aim: a server's own only over a season, and
 * by the serves for which her aim was written down. */
enum say_aim {
    SAY_AIM_GENERAL,     /* what holds for anybody */
    SAY_AIM_OWN_CAUTION, /* her own, said to be uncertain */
    SAY_AIM_OWN
};

enum say_aim rate_may_aim(unsigned serves_n, unsigned aimed_n);

/* x / n; needs n > 0. */
double rate_frac(struct rate r);

/* The same in whole percents, for all that is shown: a half goes up (1/40 is 3 %), where
 * printf would take the even neighbour. Needs n > 0. */
double rate_percent(struct rate r);

/* Both together. */
struct rate rate_sum(struct rate a, struct rate b);

/* Wilson's score interval; (0, 1) when n is 0. */
struct interval rate_wilson(struct rate r);

/* Newcombe's hybrid score interval of a - b (his method 10). False, and
 * nothing written, when either n is 0. */
bool rate_difference(struct rate a, struct rate b, struct interval *out);

#endif
