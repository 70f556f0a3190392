/* Trend over a season against published and computed values. */
#include "trend.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "kit/dice.h"
#include "kit/near.h"
#include "stat.h"

#define LEN(array) (sizeof(array) / sizeof *(array))

static struct arena *arena;

static void out_of_memory(size_t wanted) {
    (void)wanted;
    abort();
}

static int begin(void **state) {
    (void)state;
    arena = arena_new(out_of_memory);
    return 0;
}

static int finish(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

/* ---- limits ---------------------------------------------------------------- */

/* Our own computation, two programs. */
static void limits(void **state) {
    (void)state;
    static const struct { unsigned n, high; } rows[] = {{6, 5}, {12, 8}, {17, 9}, {30, 14}};
    for (size_t i = 0; i < LEN(rows); i++) {
        struct trend_limits l = trend_limits(rows[i].n, .183099);
        assert_true(l.has_high);
        assert_int_equal(l.high, rows[i].high);
        assert_false(l.has_low);
    }
}

/* Tails by hand: .5^9 = .00195 and .5^10 = .00098 lie on both sides of .00135;
 * a count of none can be rare too. */
static void limits_at_the_ends(void **state) {
    (void)state;
    struct trend_limits l = trend_limits(9, .5);
    assert_false(l.has_low || l.has_high);
    l = trend_limits(10, .5);
    assert_true(l.has_low && l.has_high);
    assert_int_equal(l.low, 0);
    assert_int_equal(l.high, 10);
    l = trend_limits(0, .5);
    assert_false(l.has_low || l.has_high);
}

/* ---- the alarm ------------------------------------------------------------- */

/* Expected serves and chances of an alarm: our own computation, two programs. */
static const struct cusum_row {
    enum trend_way way;
    double p0, p1;
    unsigned up, down, alarm;
    double calm, changed;
    double within[6];            /* 50, 100, 200 serves at p0; the same at p1 */
} cusums[] = {
    {TREND_WORSE, .10, .20, 6, 1, 22, 325.537, 41.239, {.109, .241, .450, .722, .950, .998}},
    {TREND_WORSE, .15, .30, 4, 1, 18, 302.848, 30.509, {.115, .256, .475, .864, .991, 1}},
    {TREND_WORSE, .20, .35, 3, 1, 17, 330.293, 35.633, {.097, .230, .442, .804, .982, 1}},
    {TREND_BETTER, .20, .10, 1, 6, 22, 309.061, 52.071, {0}},
    {TREND_BETTER, .15, .075, 1, 8, 29, 331.898, 65.509, {0}},
    {TREND_BETTER, .30, .15, 1, 4, 15, 336.362, 39.209, {0}},
};

static void cusum_numbers(void **state) {
    (void)state;
    for (size_t i = 0; i < LEN(cusums); i++) {
        const struct cusum_row *row = &cusums[i];
        struct trend_cusum c;
        assert_true(trend_cusum(row->way, row->p0, row->p1, arena, &c));
        assert_int_equal(c.up, row->up);
        assert_int_equal(c.down, row->down);
        assert_int_equal(c.alarm, row->alarm);
        assert_near(trend_serves_to_alarm(&c, row->p0, arena), row->calm, .0005);
        assert_near(trend_serves_to_alarm(&c, row->p1, arena), row->changed, .0005);
        for (unsigned k = 0; k < 6 && row->within[0] > 0; k++)
            assert_near(trend_alarm_within(&c, k < 3 ? row->p0 : row->p1, 50u << k % 3),
                                row->within[k], .0005);
        c.alarm--;
        assert_true(trend_serves_to_alarm(&c, row->p0, arena) < TREND_CALM_SERVES);
    }
}

/* Steps of one up and one down: the walk with a wall at 0, whose expected time
 * is h/(p-q) - q/(p-q)^2 (1 - (q/p)^h) (elementary). */
static void walk(void **state) {
    (void)state;
    for (unsigned h = 1; h <= 40; h++)
        for (unsigned k = 1; k < 10; k++) {
            double p = k * .1, q = 1 - p, d = p - q;
            double expected = fabs(d) < 1e-9 ? h * (h + 1.)
                                             : h / d - q / (d * d) * (1 - pow(q / p, h));
            struct trend_cusum c = {.way = TREND_WORSE, .up = 1, .down = 1, .alarm = h};
            double found = trend_serves_to_alarm(&c, p, arena);
            assert_near(found / expected, 1, 1e-9);
            if (h == 6 && k == 3)
                assert_near(found, 686.680, .0005);
        }
}

/* The shares are those of a sum of tails: the expected time is what is left
 * unended, added up over all serves. */
static void tails_add_up(void **state) {
    (void)state;
    struct trend_cusum c = {.way = TREND_BETTER, .up = 1, .down = 4, .alarm = 15};
    double sum = 0;
    for (unsigned n = 0; n < 2000; n++)
        sum += 1 - trend_alarm_within(&c, .15, n);
    assert_near(sum, trend_serves_to_alarm(&c, .15, arena), 1e-6);
}

static void no_cusum(void **state) {
    (void)state;
    struct trend_cusum c;
    assert_false(trend_cusum(TREND_WORSE, 0, .2, arena, &c));
    assert_false(trend_cusum(TREND_WORSE, .6, trend_changed(TREND_WORSE, .6), arena, &c));
    assert_false(trend_cusum(TREND_WORSE, .2, .1, arena, &c));
    assert_false(trend_cusum(TREND_BETTER, .1, .2, arena, &c));
    assert_false(trend_cusum(TREND_BETTER, .2, .2, arena, &c));
    /* A good serve would weigh more than a miss. */
    assert_false(trend_cusum(TREND_BETTER, .9, trend_changed(TREND_BETTER, .9), arena, &c));
    /* Steps beyond what a sum may hold. */
    assert_false(trend_cusum(TREND_WORSE, .001, .002, arena, &c));
}

/* By hand: up 3 with a miss, down 1 with a good serve, alarm at 8. */
static void serve_by_serve(void **state) {
    (void)state;
    static const struct { bool missed; unsigned sum; bool alarm; } serves[] = {
        {false, 0, false}, {true, 3, false}, {false, 2, false}, {true, 5, false},
        {true, 0, true},   {true, 3, false}, {true, 6, false},  {false, 5, false},
        {true, 0, true},   {false, 0, false},
    };
    struct trend_cusum worse = {.way = TREND_WORSE, .up = 3, .down = 1, .alarm = 8};
    struct trend_cusum better = {.way = TREND_BETTER, .up = 3, .down = 1, .alarm = 8};
    unsigned sum = 0, sum_better = 0;
    for (size_t i = 0; i < LEN(serves); i++) {
        assert_int_equal(trend_serve(&worse, &sum, serves[i].missed), serves[i].alarm);
        assert_int_equal(sum, serves[i].sum);
        assert_int_equal(trend_serve(&better, &sum_better, !serves[i].missed), serves[i].alarm);
        assert_int_equal(sum_better, serves[i].sum);
    }
}

/* ---- before and after ------------------------------------------------------ */

/* Tosses into a ring. Newcombe's interval and the mid-p value: our own
 * computation, two programs. */
static void ring(void **state) {
    (void)state;
    static const struct { struct rate before, after; double low, high, mid_p; } rows[] = {
        {{9, 20}, {14, 20}, -.052, .496, .1636},
        {{12, 20}, {16, 20}, -.082, .445, .2462},
        {{5, 10}, {8, 10}, -.107, .600, .2767},
    };
    for (size_t i = 0; i < LEN(rows); i++) {
        struct trend_change c;
        assert_true(trend_change(rows[i].before, rows[i].after, &c));
        assert_near(c.difference.low, rows[i].low, .0005);
        assert_near(c.difference.high, rows[i].high, .0005);
        assert_true(c.has_mid_p);
        assert_near(c.mid_p, rows[i].mid_p, .00005);
    }
}

static void no_change(void **state) {
    (void)state;
    struct trend_change c;
    assert_false(trend_change((struct rate){0, 0}, (struct rate){3, 9}, &c));
    assert_false(trend_change((struct rate){3, 9}, (struct rate){0, 0}, &c));
    assert_true(trend_change((struct rate){9, 9}, (struct rate){9, 9}, &c));
    assert_false(c.has_mid_p);
}

/* How often the mid-p value comes out at .05 or less, by the chances of all
 * pairs of counts of n. */
static double power(unsigned n, double p_before, double p_after) {
    double sum = 0;
    for (unsigned x = 0; x <= n; x++)
        for (unsigned y = 0; y <= n; y++) {
            struct trend_change c;
            assert_true(trend_change((struct rate){x, n}, (struct rate){y, n}, &c));
            if (c.has_mid_p && c.mid_p <= .05)
                sum += stat_binomial(x, n, p_before) * stat_binomial(y, n, p_after);
        }
    return sum;
}

/* Our own computation, two programs. */
static void power_of_change(void **state) {
    (void)state;
    static const struct { unsigned n; double before, after, power; } rows[] = {
        {30, .20, .10, .133}, {60, .20, .10, .282}, {30, .20, .15, .052}, {60, .20, .15, .083},
        {10, .60, .80, .089}, {20, .60, .80, .200}, {50, .60, .80, .544},
    };
    for (size_t i = 0; i < LEN(rows); i++)
        assert_near(power(rows[i].n, rows[i].before, rows[i].after), rows[i].power, .0005);
}

/* ---- test and line --------------------------------------------------------- */

/* J. L. Fleiss, Statistical Methods for Rates and Proportions, 2nd ed. 1981,
 * page 139: smokers among patients, which R's documentation prints too. */
static const struct trend_point smokers[] = {
    {1, {83, 86}}, {2, {90, 93}}, {3, {129, 136}}, {4, {70, 82}},
};

/* C. I. Bliss, Ann. Appl. Biol. 22 (1935) 134-167: beetles, as A. J. Dobson, An
 * Introduction to Generalized Linear Models, prints them. */
static const struct trend_point beetles[] = {
    {1.6907, {6, 59}},  {1.7242, {13, 60}}, {1.7552, {18, 62}}, {1.7842, {28, 56}},
    {1.8113, {52, 63}}, {1.8369, {53, 59}}, {1.8610, {61, 62}}, {1.8839, {60, 60}},
};

/* An invented season. */
static const struct trend_point season[] = {
    {0, {3, 9}},  {1, {4, 14}}, {2, {3, 11}}, {3, {1, 6}},  {4, {4, 17}},  {5, {2, 12}},
    {6, {2, 8}},  {7, {2, 15}}, {8, {1, 10}}, {9, {2, 13}}, {10, {1, 16}}, {11, {1, 11}},
};

static void test_for_trend(void **state) {
    (void)state;
    struct trend_test t;
    assert_true(trend_test(smokers, LEN(smokers), &t));
    assert_near(t.chi2, 8.2249, .00005);
    assert_near(t.p, .004132, .0000005);
    /* Our own computation, two programs. */
    assert_true(trend_test(season, LEN(season), &t));
    assert_near(t.chi2, 5.418602, .0000005);
    assert_near(t.p, .019923, .0000005);
}

static void no_test(void **state) {
    (void)state;
    struct trend_test t;
    static const struct trend_point rows[][2] = {
        {{0, {0, 9}}, {1, {0, 9}}},
        {{0, {9, 9}}, {1, {9, 9}}},
        {{.1, {2, 9}}, {.1, {5, 9}}},
        {{0, {0, 0}}, {1, {2, 9}}},
    };
    for (size_t i = 0; i < LEN(rows); i++)
        assert_false(trend_test(rows[i], 2, &t));
    assert_false(trend_test(NULL, 0, &t));
}

static double deviance(const struct trend_point *points, size_t n, const struct trend_line *line) {
    double sum = 0;
    for (size_t i = 0; i < n; i++) {
        double x = points[i].rate.x, all = points[i].rate.n;
        double p = trend_line_frac(line, points[i].t);
        sum += x > 0 ? 2 * x * log(x / (all * p)) : 0;
        sum += x < all ? 2 * (all - x) * log((all - x) / (all * (1 - p))) : 0;
    }
    return sum;
}

static void line_is(const struct trend_line *l, double intercept, double intercept_se,
                    double slope, double slope_se, double to) {
    assert_near(l->intercept, intercept, to);
    assert_near(l->intercept_se, intercept_se, to);
    assert_near(l->slope, slope, to);
    assert_near(l->slope_se, slope_se, to);
}

static void dobson(void **state) {
    (void)state;
    struct trend_line l;
    assert_true(trend_line(beetles, LEN(beetles), TREND_PLAIN, &l));
    line_is(&l, -60.72, 5.18, 34.27, 2.91, .005);
    assert_near(deviance(beetles, LEN(beetles), &l), 11.23, .005);
}

/* Our own computation, two programs. */
static void line_of_season(void **state) {
    (void)state;
    struct trend_line l;
    assert_true(trend_line(season, LEN(season), TREND_PLAIN, &l));
    line_is(&l, -.711614, .379614, -.151722, .066669, .0000005);
    assert_near(deviance(season, LEN(season), &l), 1.214316, .0000005);
    assert_true(trend_line(season, LEN(season), TREND_FIRTH, &l));
    line_is(&l, -.703559, .377744, -.147265, .065862, .0000005);
}

/* With two groups the penalty is half a serve in every cell (a property of the
 * method; the values are our own computation). */
static void firth_of_two(void **state) {
    (void)state;
    static const struct trend_point two[] = {{0, {0, 8}}, {1, {3, 9}}};
    struct trend_line l;
    assert_false(trend_line(two, 2, TREND_PLAIN, &l));
    assert_true(trend_line(two, 2, TREND_FIRTH, &l));
    assert_near(l.intercept, -2.833213, .0000005);
    assert_near(l.slope, 2.214174, .0000005);
    assert_near(trend_line_frac(&l, 0), .5 / 9, 1e-9);
    assert_near(trend_line_frac(&l, 1), 3.5 / 10, 1e-9);
}

/* Firth's line exists whatever the counts, if they are not all of one time:
 * all missed, none missed, a clean cut between two matches, days or weeks. */
static void firth_of_any(void **state) {
    (void)state;
    struct dice d = {.state = 1};
    for (unsigned i = 0; i < 20000; i++) {
        struct trend_point points[12];
        struct trend_line l;
        size_t n = 2 + dice_below(&d, 11);
        unsigned apart = 1 + dice_below(&d, 30), cut = dice_below(&d, 12);
        for (size_t k = 0; k < n; k++) {
            unsigned serves = 1 + dice_below(&d, 40);
            unsigned x = i % 2 ? dice_below(&d, serves + 1) : k < cut ? serves : 0;
            points[k] = (struct trend_point){(double)(k * apart), {x, serves}};
        }
        assert_true(trend_line(points, n, TREND_FIRTH, &l));
        assert_true(isfinite(l.intercept_se) && isfinite(l.slope_se));
    }
}

static void no_line(void **state) {
    (void)state;
    struct trend_line l;
    static const struct trend_point one_time[] = {{.1, {2, 9}}, {.1, {5, 9}}};
    assert_false(trend_line(one_time, 2, TREND_FIRTH, &l));
    assert_false(trend_line(NULL, 0, TREND_FIRTH, &l));
}

/* Six matches and sixty serves (our choice). */
static void enough(void **state) {
    (void)state;
    assert_true(trend_enough(season, LEN(season)));
    assert_false(trend_enough(season, 5));
    assert_true(trend_enough(season, 6));
    static const struct trend_point few[] = {{0, {0, 10}}, {1, {0, 10}}, {2, {0, 10}},
                                             {3, {0, 10}}, {4, {0, 10}}, {5, {0, 9}}};
    assert_false(trend_enough(few, 6));
    static const struct trend_point empty[] = {{0, {0, 20}}, {1, {0, 20}}, {2, {0, 0}},
                                               {3, {0, 20}}, {4, {0, 20}}, {5, {0, 20}}};
    assert_false(trend_enough(empty, 6));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(limits),
        cmocka_unit_test(limits_at_the_ends),
        cmocka_unit_test(cusum_numbers),
        cmocka_unit_test(walk),
        cmocka_unit_test(tails_add_up),
        cmocka_unit_test(no_cusum),
        cmocka_unit_test(serve_by_serve),
        cmocka_unit_test(ring),
        cmocka_unit_test(no_change),
        cmocka_unit_test(power_of_change),
        cmocka_unit_test(test_for_trend),
        cmocka_unit_test(no_test),
        cmocka_unit_test(dobson),
        cmocka_unit_test(line_of_season),
        cmocka_unit_test(firth_of_two),
        cmocka_unit_test(firth_of_any),
        cmocka_unit_test(no_line),
        cmocka_unit_test(enough),
    };
    return cmocka_run_group_tests(tests, begin, finish);
}
