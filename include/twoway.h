/* A table of two by two: serves with and without a mark, in error or not. Or
 * with any other two groups of serves and any other event. How large the
 * difference is, how easily chance makes it, and both for many tables. Nothing
 * here says why: a mark goes with an error, it never causes it. */
#ifndef NINEMETRE_TWOWAY_H
#define NINEMETRE_TWOWAY_H

#include "arena.h"
#include "rate.h"

struct twoway {
    unsigned a, b; /* with the mark: event, none */
    unsigned c, d; /* without */
};

/* x of n with and without the mark; x <= n. */
struct twoway twoway_of(struct rate with, struct rate without);

struct rate twoway_with(struct twoway t);
struct rate twoway_without(struct twoway t);

/* True when no margin is 0; else there is nothing to compare. */
bool twoway_compares(struct twoway t);

/* True when a report may test it: at least so many marked serves and events, our
 * own choice. That there must be a season's serves as well is rate_may_say's. */
enum { TWOWAY_FEWEST = 5 };
bool twoway_may_test(struct twoway t);

/* ---- one table ------------------------------------------------------------ */

/* How many times as often the event comes with the mark, with the score
 * interval of P. A. R. Koopman, Biometrics 40 (1984) 513-517, 95 %. */
struct twoway_risk {
    bool bounded; /* false: no event without the mark, so that only `low` is there */
    double ratio, low, high;
};

/* Needs twoway_compares(t). */
struct twoway_risk twoway_risk(struct twoway t);

/* R. A. Fisher's exact test. One-sided: so many events with the mark, or more.
 * Two-sided: every table no likelier than this one. The mid-p values count this
 * table by half; they are the ones to show, since Fisher's are far from their
 * nominal size at the counts of a season. Needs twoway_compares(t). */
struct twoway_exact {
    double one_sided, two_sided;
    double one_sided_mid, two_sided_mid;
};

struct twoway_exact twoway_exact(struct twoway t);

/* How many serves on either side let four of five such tests see a difference
 * of two true rates, at 5 %, two-sided: the normal approximation of J. L. Fleiss,
 * Statistical Methods for Rates and Proportions, 2nd ed. 1981 (from memory), without
 * correction. False when that is more than anybody serves, such as for equal
 * rates. */
enum { TWOWAY_SERVES_MOST = 100000 };

bool twoway_serves_to_tell(double one_frac, double other_frac, unsigned *out);

/* ---- many tables ---------------------------------------------------------- */

/* Adjusts the p values of all tests of a report together: Y. Benjamini, Y.
 * Hochberg, J. R. Stat. Soc. B 57 (1995) 289-300. adjusted[i] belongs to p[i]. */
void twoway_adjust(const double *p, size_t n, double *adjusted, struct arena *a);

/* An adjusted value up to this is a finding; our own choice. */
#define TWOWAY_FINDING_P .10

/* Several tables, one a server or a type of serve, without adding them up: N.
 * Mantel, W. Haenszel, J. Natl. Cancer Inst. 22 (1959) 719-748. */
struct twoway_pooled {
    bool odds_bounded, risk_bounded; /* false: infinite, and not there */
    double odds_ratio, risk_ratio;
    double chi_square, p;                     /* one degree of freedom */
    double corrected_chi_square, corrected_p; /* for continuity */
};

/* False, and nothing written, when none of the tables compares anything. */
bool twoway_pool(const struct twoway *tables, size_t n, struct twoway_pooled *out);

#endif
