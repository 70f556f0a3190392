/* The distributions that the other doors of this room stand on, by the GNU
 * Scientific Library. Its error handler ends the program: every argument is
 * asserted here before it gets there. Probabilities are from 0 to 1; a `_cdf`
 * is P(X <= x), an `_upper` P(X > x), a `_quantile` the x below which `p` lies. */
#ifndef NINEMETRE_STAT_H
#define NINEMETRE_STAT_H

#include "rate.h"

/* ---- continuous ----------------------------------------------------------- */

double stat_normal_cdf(double z);
double stat_normal_quantile(double p); /* 0 < p < 1 */

/* `df` is above 0, and need not be whole. */
double stat_chi_square_upper(double x, double df);
double stat_chi_square_quantile(double p, double df); /* 0 <= p < 1 */
double stat_f_upper(double x, double df_above, double df_below);

/* a and b above 0, x and p from 0 to 1. */
double stat_beta_cdf(double x, double a, double b);
double stat_beta_quantile(double p, double a, double b);

/* The middle `share_frac` of Beta(a, b), with as much left out on either side. */
struct interval stat_beta_middle(double share_frac, double a, double b);

/* ---- counts --------------------------------------------------------------- */

/* x events or fewer, x or more, exactly x, of n with chance p each. */
double stat_binomial_at_most(unsigned x, unsigned n, double p);
double stat_binomial_at_least(unsigned x, unsigned n, double p);
double stat_binomial(unsigned x, unsigned n, double p);

/* That x of `drawn` are of the first kind, where `first` and `second` of each
 * kind lie in the urn; drawn <= first + second. */
double stat_hypergeometric(unsigned x, unsigned first, unsigned second, unsigned drawn);

/* Jeffreys' 95 % interval of a rate: the middle of Beta(x + 1/2, n - x + 1/2),
 * to 0 when x is 0 and to 1 when x is n; (0, 1) when n is 0. L. D. Brown, T. T.
 * Cai, A. DasGupta, Stat. Sci. 16 (2001) 101-133. For display there is Wilson's. */
struct interval stat_jeffreys(struct rate r);

#endif
