/* Trend of a share of serves over a season: misses or any other count of n,
 * match by match or serve by serve. Limits for the points of a chart, one alarm
 * (a cumulative sum), one test and one line. Run rules and limits at three
 * standard deviations are left out on purpose: at 6 to 30 serves a match they
 * alarm by chance, for one of ten servers nearly every month. Shares are
 * fractions from 0 to 1; serves of one match are taken as independent. */
#ifndef NINEMETRE_TREND_H
#define NINEMETRE_TREND_H

#include <stddef.h>

#include "arena.h"
#include "rate.h"

/* ---- points of a chart --------------------------------------------------- */

/* A match lies outside when its count is `low` or less, `high` or more. Exact
 * binomial limits, each of a probability of .00135 at most: that of a point
 * beyond three standard deviations where counts are normal. */
struct trend_limits {
    bool has_low, has_high;      /* false: no count is so rare at this n */
    unsigned low, high;
};

/* Limits of n serves at the share p, which lies between 0 and 1. */
struct trend_limits trend_limits(unsigned n, double p);

/* ---- the alarm ----------------------------------------------------------- */

enum trend_way { TREND_WORSE, TREND_BETTER };

/* The least expected number of serves to an alarm though nothing changed, and
 * the highest bound of a sum. */
enum { TREND_CALM_SERVES = 300, TREND_ALARM_MOST = 256 };

/* Bernoulli CUSUM: M. R. Reynolds, Z. G. Stoumbos, J. Qual. Technol. 31 (1999)
 * 87-108 (from memory). A sum rises by `up` and falls by `down`, never below 0;
 * where it reaches `alarm`, look at the video. It rises with a miss if the way
 * is worse, with a good serve if it is better. */
struct trend_cusum {
    enum trend_way way;
    unsigned up, down, alarm;
};

/* The share to be noticed: twice p0 or half of it (our choice, no source). */
double trend_changed(enum trend_way way, double p0);

/* The sum that tells p1 from p0, with the lowest alarm that leaves
 * TREND_CALM_SERVES. False, and nothing written, when there is none: a share
 * that is not inside of 0 to 1, p1 on the other side of p0, a share so large
 * that a step would be 0, or an alarm above TREND_ALARM_MOST. */
bool trend_cusum(enum trend_way way, double p0, double p1, struct arena *a,
                 struct trend_cusum *out);

/* Takes one serve; true if that is an alarm, and the sum is 0 again. The sum
 * begins at 0, and the caller sets it to 0 after a change of technique. */
bool trend_serve(const struct trend_cusum *c, unsigned *sum, bool missed);

/* Expected serves to the alarm from 0, at a true share p inside of 0 to 1. */
double trend_serves_to_alarm(const struct trend_cusum *c, double p, struct arena *a);

/* Probability of an alarm within so many serves. */
double trend_alarm_within(const struct trend_cusum *c, double p, unsigned serves);

/* ---- before and after ---------------------------------------------------- */

struct trend_change {
    struct interval difference;  /* after - before, Newcombe's */
    bool has_mid_p;              /* false: all of both, or none of either, are hits */
    double mid_p;                /* two-sided, after R. A. Fisher */
};

/* One day against another, or all before and all from a day on. A day that was
 * picked from the chart makes the p value worthless. False, and nothing written,
 * when one side has no serve. */
bool trend_change(struct rate before, struct rate after, struct trend_change *out);

/* ---- test and line ------------------------------------------------------- */

/* A match, or a week: when it was, and the count. */
struct trend_point {
    double t;                    /* matches or days since the first, say */
    struct rate rate;
};

/* Below this no line is shown; a test is a claim, and needs what rate_may_say
 * asks of SAY_SEASON as well (our choice, no source). */
enum { TREND_MATCHES_MIN = 6, TREND_SERVES_MIN = 60 };

/* Points without a serve are no matches. */
bool trend_enough(const struct trend_point *points, size_t n);

struct trend_test {
    double chi2;                 /* one degree of freedom */
    double p;
};

/* Cochran-Armitage test for a trend in t. False without one: all missed, none
 * missed, or all at one t. */
bool trend_test(const struct trend_point *points, size_t n, struct trend_test *out);

/* log(p / (1 - p)) = intercept + slope t */
struct trend_line {
    double intercept, slope;
    double intercept_se, slope_se;
};

/* The penalty of the likelihood, as a share of Firth's: 1 is D. Firth,
 * Biometrika 80 (1993) 27-38, finite for any counts; 0 the plain likelihood. */
enum trend_penalty { TREND_PLAIN, TREND_FIRTH };

/* False, and nothing written, when there is no line: all at one t, or a plain
 * likelihood without a maximum. */
bool trend_line(const struct trend_point *points, size_t n, enum trend_penalty penalty,
                struct trend_line *out);

/* The share on the line. */
double trend_line_frac(const struct trend_line *line, double t);

#endif
