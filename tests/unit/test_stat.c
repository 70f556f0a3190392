/* Distributions and Jeffreys' interval. BCD: L. D. Brown, T. T. Cai, A.
 * DasGupta, Stat. Sci. 16 (2001) 101-133, table 5. "own" values have no
 * published source: they were computed by two programs of our own that share
 * no code. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>

#include "stat.h"

static void near(double got, double expected, double tolerance, const char *what) {
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: %.12g, not %.12g", what, got, expected);
}

static void jeffreys_is(unsigned x, unsigned n, double low, double high, double tolerance) {
    struct interval i = stat_jeffreys((struct rate){x, n});
    if (!(fabs(i.low - low) <= tolerance && fabs(i.high - high) <= tolerance))
        fail_msg("Jeffreys %u/%u: %.7f %.7f, not %.7f %.7f", x, n, i.low, i.high, low, high);
}

static void jeffreys_published(void **state) {
    (void)state;
    jeffreys_is(1, 10, .011, .381, 5e-4);       /* BCD */
    jeffreys_is(1, 10, .011012, .381315, 5e-7); /* own, like the rest */
    jeffreys_is(0, 5, 0, .3794, 5e-5);
    jeffreys_is(1, 6, .0186, .5581, 5e-5);
    jeffreys_is(2, 10, .0441, .5028, 5e-5);
    jeffreys_is(3, 20, .0441, .3486, 5e-5);
    jeffreys_is(8, 80, .0484, .1798, 5e-5);
    jeffreys_is(5, 5, .6206, 1, 5e-5);
}

/* Counts at which the library's own quantile gives NaN. */
static void jeffreys_where_the_library_fails(void **state) {
    static const struct rate at[] = {{5, 281}, {3, 298}, {7, 332}, {13, 366}, {0, 400}, {12, 400}};
    (void)state;
    near(stat_jeffreys(at[0]).high, .0385571, 5e-8, "5/281"); /* own */
    for (size_t k = 0; k < sizeof at / sizeof *at; k++) {
        double a = at[k].x + .5, b = at[k].n - at[k].x + .5, high = stat_jeffreys(at[k]).high;
        near(stat_beta_cdf(high, a, b), .975, 1e-12, "back from the upper limit");
        near(stat_jeffreys((struct rate){at[k].n - at[k].x, at[k].n}).low, 1 - high, 1e-12,
             "mirror image");
    }
}

/* At the ends the limits are exact, and every quantile leads back. */
static void jeffreys_everywhere(void **state) {
    (void)state;
    for (unsigned n = 1; n <= 150; n++)
        for (unsigned x = 0; x <= n; x++) {
            struct interval i = stat_jeffreys((struct rate){x, n});
            assert_true((i.low == 0) == (x == 0) && (i.high == 1) == (x == n));
            if (x > 0)
                near(stat_beta_cdf(i.low, x + .5, n - x + .5), .025, 1e-11, "lower limit");
            if (x < n)
                near(stat_beta_cdf(i.high, x + .5, n - x + .5), .975, 1e-11, "upper limit");
        }
    struct interval none = stat_jeffreys((struct rate){0, 0});
    assert_true(none.low == 0 && none.high == 1);
}

/* Exact coverage over p = .02, .022 ... .6: mean and least. All own. */
struct coverage {
    unsigned n;
    struct interval (*interval)(struct rate);
    double mean, least;
};

static double covered(const struct coverage *c, double p) {
    double sum = 0;
    for (unsigned x = 0; x <= c->n; x++) {
        struct interval i = c->interval((struct rate){x, c->n});
        if (i.low <= p && p <= i.high)
            sum += stat_binomial(x, c->n, p);
    }
    return sum;
}

static void coverage(void **state) {
    static const struct coverage rows[] = {
        {5, rate_wilson, .955, .833},  {5, stat_jeffreys, .953, .895},
        {10, rate_wilson, .955, .895}, {10, stat_jeffreys, .952, .868},
        {20, rate_wilson, .953, .906}, {20, stat_jeffreys, .950, .895},
        {30, rate_wilson, .953, .919}, {30, stat_jeffreys, .949, .889},
    };
    (void)state;
    for (size_t k = 0; k < sizeof rows / sizeof *rows; k++) {
        double sum = 0, least = 1;
        for (unsigned i = 0; i <= 290; i++) {
            double here = covered(&rows[k], .02 + .002 * i);
            sum += here;
            least = fmin(least, here);
        }
        near(sum / 291, rows[k].mean, 5e-4, "mean coverage");
        near(least, rows[k].least, 5e-4, "least coverage");
    }
}

/* ---- distributions -------------------------------------------------------- */

/* Table values of any textbook of statistics, to the digits usually printed. */
static void textbook(void **state) {
    (void)state;
    near(stat_normal_cdf(1.96), .9750, 5e-5, "normal");
    near(stat_normal_quantile(.975), 1.959963984540054, 1e-12, "normal quantile");
    near(stat_chi_square_upper(3.841, 1), .05, 5e-5, "chi-square 1");
    near(stat_chi_square_upper(9.210, 2), .01, 5e-5, "chi-square 2");
    near(stat_chi_square_quantile(.95, 1), 3.841, 5e-4, "chi-square quantile 1");
    near(stat_chi_square_quantile(.025, 9), 2.700, 5e-4, "chi-square quantile 9, low");
    near(stat_chi_square_quantile(.975, 9), 19.023, 5e-4, "chi-square quantile 9, high");
    near(stat_f_upper(4.26, 2, 9), .05, 5e-4, "F 2, 9");
}

/* Small whole-number cases by their definitions. */
static void definitions(void **state) {
    (void)state;
    near(stat_beta_cdf(.3, 1, 1), .3, 1e-15, "uniform");
    near(stat_beta_cdf(.3, 2, 1), .09, 1e-15, "greater of two");
    near(stat_beta_quantile(.25, 2, 1), .5, 1e-15, "greater of two, quantile");
    near(stat_binomial(2, 4, .5), 6 / 16.0, 1e-15, "binomial");
    near(stat_binomial_at_most(1, 4, .5), 5 / 16.0, 1e-15, "at most");
    near(stat_binomial_at_least(3, 4, .5), 5 / 16.0, 1e-15, "at least");
    near(stat_binomial_at_least(0, 4, .5), 1, 0, "at least none");
    near(stat_binomial_at_least(5, 4, .5), 0, 0, "more than all");
    near(stat_binomial_at_most(4, 4, .5), 1, 0, "at most all");
    near(stat_hypergeometric(3, 4, 4, 4), 16 / 70.0, 1e-15, "hypergeometric");
    near(stat_hypergeometric(5, 4, 4, 4), 0, 0, "more than there are");
    near(stat_hypergeometric(0, 4, 1, 3), 0, 0, "fewer than must be");
}

/* Ten equal servers, true error rate 14 %, 14 serves each: on average the best
 * shows 2.0 % and the worst 29.3 % (own). The mean of the least of ten is the
 * sum over x of the chance that all ten lie at x or above, from 1. */
static void ten_equal_servers(void **state) {
    double best = 0, worst = 0;
    (void)state;
    for (unsigned x = 1; x <= 14; x++) {
        best += pow(stat_binomial_at_least(x, 14, .14), 10);
        worst += 1 - pow(stat_binomial_at_most(x - 1, 14, .14), 10);
    }
    near(best / 14, .020, 5e-4, "best of ten");
    near(worst / 14, .293, 5e-4, "worst of ten");
}

/* The library ends the program at an argument or result that it dislikes, so
 * that reaching the end is the test. */
static void far_out(void **state) {
    static const double xs[] = {0, 1e-300, 1e-20, 1, 1e3, 1e6, 1e20, 1e300};
    (void)state;
    for (size_t i = 0; i < sizeof xs / sizeof *xs; i++) {
        assert_true(stat_chi_square_upper(xs[i], 1) >= 0);
        assert_true(stat_chi_square_upper(xs[i], 400) >= 0);
        assert_true(stat_f_upper(xs[i], 1, 5) >= 0);
        assert_true(stat_f_upper(xs[i], 3, 400) >= 0);
        assert_true(stat_normal_cdf(-xs[i]) >= 0);
        assert_true(stat_beta_cdf(fmin(xs[i], 1), .5, 1e6) >= 0);
        assert_true(stat_beta_cdf(fmin(xs[i], 1), 1e6, .5) >= 0);
        assert_true(stat_binomial_at_most(3, 1000000, fmin(xs[i], 1)) >= 0);
    }
    assert_true(stat_chi_square_quantile(0, 3) == 0);
    assert_true(stat_beta_quantile(0, 2, 3) == 0 && stat_beta_quantile(1, 2, 3) <= 1);
    assert_true(stat_hypergeometric(500000, 1000000, 1000000, 1000000) > 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(jeffreys_published),
        cmocka_unit_test(jeffreys_where_the_library_fails),
        cmocka_unit_test(jeffreys_everywhere),
        cmocka_unit_test(coverage),
        cmocka_unit_test(textbook),
        cmocka_unit_test(definitions),
        cmocka_unit_test(ten_equal_servers),
        cmocka_unit_test(far_out),
    };
    return cmocka_run_group_tests_name("stat", tests, NULL, NULL);
}
