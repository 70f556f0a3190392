#include "stat.h"

#include <assert.h>
#include <math.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>

#include "stat/bisect.h"

/* ---- continuous ----------------------------------------------------------- */

double stat_normal_cdf(double z) {
    return gsl_cdf_ugaussian_P(z);
}

double stat_normal_quantile(double p) {
    assert(p > 0 && p < 1);
    return gsl_cdf_ugaussian_Pinv(p);
}

double stat_chi_square_upper(double x, double df) {
    assert(x >= 0 && df > 0);
    return gsl_cdf_chisq_Q(x, df);
}

struct chi_square {
    double df, p;
};

static double chi_square_above(double x, const void *with) {
    const struct chi_square *c = with;
    return gsl_cdf_chisq_P(x, c->df) - c->p;
}

double stat_chi_square_quantile(double p, double df) {
    assert(p >= 0 && p < 1 && df > 0);
    struct chi_square c = {df, p};
    double high = df;
    while (gsl_cdf_chisq_P(high, df) < p)
        high *= 2;
    return bisect(0, high, chi_square_above, &c);
}

double stat_f_upper(double x, double df_above, double df_below) {
    assert(x >= 0 && df_above > 0 && df_below > 0);
    return gsl_cdf_fdist_Q(x, df_above, df_below);
}

double stat_beta_cdf(double x, double a, double b) {
    assert(x >= 0 && x <= 1 && a > 0 && b > 0);
    return gsl_cdf_beta_P(x, a, b);
}

struct beta {
    double a, b, p;
};

static double beta_above(double x, const void *with) {
    const struct beta *beta = with;
    return stat_beta_cdf(x, beta->a, beta->b) - beta->p;
}

/* gsl_cdf_beta_Pinv of GSL 2.7.1 is not used: of some limits, such as the upper
 * one of Jeffreys' interval for 5 of 281, it gives NaN. */
double stat_beta_quantile(double p, double a, double b) {
    assert(p >= 0 && p <= 1);
    struct beta beta = {a, b, p};
    return bisect(0, 1, beta_above, &beta);
}

struct interval stat_beta_middle(double share_frac, double a, double b) {
    double out = (1 - share_frac) / 2;
    return (struct interval){stat_beta_quantile(out, a, b), stat_beta_quantile(1 - out, a, b)};
}

/* ---- counts --------------------------------------------------------------- */

double stat_binomial_at_most(unsigned x, unsigned n, double p) {
    assert(p >= 0 && p <= 1);
    return gsl_cdf_binomial_P(x, p, n);
}

double stat_binomial_at_least(unsigned x, unsigned n, double p) {
    assert(p >= 0 && p <= 1);
    return x == 0 ? 1 : gsl_cdf_binomial_Q(x - 1, p, n);
}

double stat_binomial(unsigned x, unsigned n, double p) {
    assert(p >= 0 && p <= 1);
    return gsl_ran_binomial_pdf(x, p, n);
}

double stat_hypergeometric(unsigned x, unsigned first, unsigned second, unsigned drawn) {
    assert(drawn <= first + second);
    return gsl_ran_hypergeometric_pdf(x, first, second, drawn);
}

struct interval stat_jeffreys(struct rate r) {
    if (r.n == 0)
        return (struct interval){0, 1};
    struct interval i = stat_beta_middle(.95, r.x + .5, r.n - r.x + .5);
    if (r.x == 0)
        i.low = 0;
    if (r.x == r.n)
        i.high = 1;
    return i;
}
