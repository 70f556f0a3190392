/* Shrinkage. EM: batting of 18 players in their first 45 at bats, B. Efron, C.
 * Morris, Sci. Am. 236 (1977) 5, 119-127. BDA: rat tumours (R. E. Tarone 1982)
 * in A. Gelman et al., Bayesian Data Analysis, 3rd ed. (2013), 5.1. "own" values
 * have no published source: they were computed by one other program of our own. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>

#include "kit/dice.h"
#include "shrink.h"
#include "stat.h"

static void near(double got, double expected, double tolerance, const char *what) {
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: %.9g, not %.9g", what, got, expected);
}

/* A team of our own invention: errors of serves. */
static const struct rate team[] = {{0, 6},   {8, 80}, {3, 41}, {9, 52}, {2, 25},
                                   {14, 95}, {5, 33}, {1, 9},  {6, 60}, {4, 18}};
enum { TEAM_N = sizeof team / sizeof *team };

static const struct rate tumours[] = {
    {0, 20}, {0, 20}, {0, 20},  {0, 20},  {0, 20},  {0, 20},  {0, 20},  {0, 19},  {0, 19},
    {0, 19}, {0, 19}, {0, 18},  {0, 18},  {0, 17},  {1, 20},  {1, 20},  {1, 20},  {1, 20},
    {1, 19}, {1, 19}, {1, 18},  {1, 18},  {2, 25},  {2, 24},  {2, 23},  {2, 20},  {2, 20},
    {2, 20}, {2, 20}, {2, 20},  {2, 20},  {1, 10},  {5, 49},  {2, 19},  {5, 46},  {3, 27},
    {2, 17}, {7, 49}, {7, 47},  {3, 20},  {3, 20},  {2, 13},  {9, 48},  {10, 50}, {4, 20},
    {4, 20}, {4, 20}, {4, 20},  {4, 20},  {4, 20},  {4, 20},  {10, 48}, {4, 19},  {4, 19},
    {4, 19}, {5, 22}, {11, 46}, {12, 49}, {5, 20},  {5, 20},  {6, 23},  {5, 19},  {6, 22},
    {6, 20}, {6, 20}, {6, 20},  {16, 52}, {15, 46}, {15, 47}, {9, 24},  {4, 14},
};

static void fit_is(const struct rate *servers, size_t n, double a, double b, double tolerance,
                   const char *what) {
    struct shrink s;
    assert_true(shrink_fit(servers, n, &s));
    assert_true(s.fitted);
    near(s.a, a, tolerance, what);
    near(s.b, b, tolerance, what);
}

static void fits(void **state) {
    static const unsigned hits[] = {18, 17, 16, 15, 14, 14, 13, 12, 11,
                                    11, 10, 10, 10, 10, 10, 9,  8,  7};
    struct rate bats[18];
    (void)state;
    for (unsigned i = 0; i < 18; i++)
        bats[i] = (struct rate){hits[i], 45};
    fit_is(bats, 18, 22.01571, 60.37335, 6e-6, "own, also by R's optim, on EM's data");
    fit_is(tumours, 71, 2.498042, 14.971580, 2e-6, "own, on BDA's data");
    fit_is(team, TEAM_N, 9.8783, 66.5584, 5e-5, "own, a team");
}

static void estimate_is(struct rate r, double frac) {
    struct shrink s;
    assert_true(shrink_fit(team, TEAM_N, &s));
    near(shrink_one(&s, r).frac, frac, 5e-5, "estimate");
}

/* Six serves without an error don't outrank eighty with eight. All own. */
static void estimates(void **state) {
    struct shrink s;
    struct shrunk order[TEAM_N];
    size_t at[TEAM_N];
    (void)state;
    estimate_is((struct rate){0, 6}, .1198);
    estimate_is((struct rate){3, 41}, .1097);
    estimate_is((struct rate){8, 80}, .1143);
    estimate_is((struct rate){4, 18}, .1470);
    estimate_is((struct rate){9, 52}, .1470);
    assert_true(shrink_fit(team, TEAM_N, &s));
    near(shrink_one(&s, team[0]).between_80.low, .0765, 5e-5, "80 %, low");
    near(shrink_one(&s, team[0]).between_80.high, .1671, 5e-5, "80 %, high");
    shrink_rank(&s, team, TEAM_N, SHRINK_LOWEST_FIRST, order);
    for (size_t i = 0; i < TEAM_N; i++)
        at[order[i].ix] = i;
    assert_int_equal(order[0].ix, 2); /* 3 of 41 */
    assert_true(at[2] < at[1] && at[1] < at[0]);
}

/* BDA: a 1.4, b 8.6 from the 70 experiments before; then 4 of 14 has the mean
 * .223 (with the unrounded 1.35615 and 8.61506). */
static void posterior_published(void **state) {
    struct shrink before = {1.35615, 8.61506, true};
    (void)state;
    near(shrink_one(&before, (struct rate){4, 14}).frac, .223, 5e-4, "BDA");
}

/* The mean lies between the two, the interval around it. */
static void between(void **state) {
    struct shrink s;
    (void)state;
    assert_true(shrink_fit(team, TEAM_N, &s));
    double common = s.a / (s.a + s.b);
    for (size_t i = 0; i < TEAM_N; i++) {
        struct shrunk one = shrink_one(&s, team[i]);
        double raw = rate_frac(team[i]);
        assert_true(fmin(raw, common) < one.frac && one.frac < fmax(raw, common));
        assert_true(one.between_80.low < one.frac && one.frac < one.between_80.high);
    }
    near(shrink_one(&s, (struct rate){0, 0}).frac, common, 1e-15, "who never served");
}

/* ---- too few -------------------------------------------------------------- */

static void too_few(void **state) {
    static const struct rate three[] = {{10, 80}, {20, 90}, {6, 70}, {0, 0}};
    static const struct rate short_of_100[] = {{1, 25}, {2, 25}, {3, 25}, {6, 24}};
    static const struct rate enough[] = {{1, 25}, {2, 25}, {3, 25}, {6, 25}};
    static const struct rate faultless[] = {{0, 9}};
    static const struct rate nobody[] = {{0, 0}, {0, 0}};
    struct shrink s;
    (void)state;
    assert_true(shrink_fit(three, 4, &s) && !s.fitted);
    near(s.a, 30 * 36 / 240.0, 1e-12, "common rate");
    near(s.a + s.b, 30, 1e-12, "usual weight");
    assert_true(shrink_fit(short_of_100, 4, &s) && !s.fitted);
    assert_true(shrink_fit(enough, 4, &s) && s.fitted);
    assert_true(shrink_fit(faultless, 1, &s));
    near(s.a, 30 * .5 / 10, 1e-12, "nobody missed");
    assert_true(shrink_one(&s, faultless[0]).between_80.high < .2);
    assert_false(shrink_fit(nobody, 2, &s));
    assert_false(shrink_fit(nobody, 0, &s));
}

/* Half of 10, of 20 and of none shrink to the same half. */
static void ties(void **state) {
    static const struct rate even[] = {{0, 0}, {5, 10}, {10, 20}, {5, 10}};
    static const size_t expected[] = {2, 1, 3, 0};
    struct shrink s;
    struct shrunk order[4];
    (void)state;
    assert_true(shrink_fit(even, 4, &s));
    for (enum shrink_order o = SHRINK_LOWEST_FIRST; o <= SHRINK_HIGHEST_FIRST; o++) {
        shrink_rank(&s, even, 4, o, order);
        for (size_t i = 0; i < 4; i++)
            assert_int_equal(order[i].ix, expected[i]);
    }
}

/* ---- the best fit --------------------------------------------------------- */

static double log_beta(double a, double b) {
    return lgamma(a) + lgamma(b) - lgamma(a + b);
}

/* What shrink_fit maximises, written without its derivatives. */
static double objective(const struct rate *r, size_t n, double m, double w) {
    double a = m * w, b = (1 - m) * w, sum = log(m * (1 - m)) - pow(log(w / 30), 2) / 2;
    for (size_t i = 0; i < n; i++)
        sum += log_beta(a + r[i].x, b + r[i].n - r[i].x) - log_beta(a, b);
    return sum;
}

/* Of random teams, alike and unlike, no point of a grid is better. */
static void nothing_better(void **state) {
    struct dice dice = {20261};
    (void)state;
    for (unsigned t = 0; t < 60; t++) {
        struct rate r[12];
        size_t n = 4 + dice_below(&dice, 9);
        for (size_t i = 0; i < n; i++) {
            unsigned serves = 25 + dice_below(&dice, 100);
            unsigned per_mille = t % 3 ? dice_below(&dice, t % 3 * 400) : 150;
            r[i] = (struct rate){0, serves};
            for (unsigned s = 0; s < serves; s++)
                r[i].x += dice_in(&dice, per_mille);
        }
        struct shrink s;
        assert_true(shrink_fit(r, n, &s) && s.fitted);
        double best = objective(r, n, s.a / (s.a + s.b), s.a + s.b);
        for (double m = .01; m < 1; m += .01)
            for (double log_w = -3; log_w < 9; log_w += .1)
                assert_true(objective(r, n, m, exp(log_w)) <= best + 1e-9);
    }
}

/* Every serve missed, none, one server who is nothing like the rest: the search
 * has an end, and the library nothing to dislike. */
static void far_out(void **state) {
    static const struct rate none[] = {{0, 90}, {0, 50}, {0, 7}, {0, 1}};
    static const struct rate all[] = {{90, 90}, {50, 50}, {7, 7}, {1, 1}};
    static const struct rate unlike[] = {{0, 400}, {400, 400}, {0, 300}, {300, 300}};
    static const struct rate many[] = {
        {100000, 1000000}, {100100, 1000000}, {99900, 1000000}, {100050, 1000000}};
    struct shrink s;
    (void)state;
    assert_true(shrink_fit(none, 4, &s) && s.a > 0 && s.a < s.b / 50);
    assert_true(shrink_fit(all, 4, &s) && s.b > 0 && s.b < s.a / 50);
    assert_true(shrink_fit(unlike, 4, &s) && s.a + s.b < 3);
    assert_true(shrink_fit(many, 4, &s) && s.a + s.b > 100);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(fits),
        cmocka_unit_test(estimates),
        cmocka_unit_test(posterior_published),
        cmocka_unit_test(between),
        cmocka_unit_test(too_few),
        cmocka_unit_test(ties),
        cmocka_unit_test(far_out),
        cmocka_unit_test(nothing_better),
    };
    return cmocka_run_group_tests_name("shrink", tests, NULL, NULL);
}
