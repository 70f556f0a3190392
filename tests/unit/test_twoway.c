/* Tables of two by two against published values. F35: the tea tasting of R. A.
 * Fisher, The Design of Experiments (1935), its p as the documentation of R's
 * fisher.test prints it. F62: the twins of R. A. Fisher, Statistical Methods for
 * Research Workers, data in the same place. BH: Y. Benjamini, Y. Hochberg, J. R.
 * Stat. Soc. B 57 (1995) 289-300. SK: H. Sahai, A. Khurshid (1996), as the
 * documentation of SciPy quotes it. FLL: M. W. Fagerland, S. Lydersen, P. Laake,
 * Stat. Methods Med. Res. 24 (2015) 224-254. K84: P. A. R. Koopman, Biometrics
 * 40 (1984) 513-517. UCB: admissions of 1973 by department, as the documentation
 * of R's mantelhaen.test has them. "own" values have no published source: they
 * were computed by two programs of our own that share no code, or by the one
 * that is named so. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdlib.h>

#include "stat.h"
#include "twoway.h"

static void near(double got, double expected, double tolerance, const char *what) {
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: %.9g, not %.9g", what, got, expected);
}

static struct twoway of(unsigned x1, unsigned n1, unsigned x2, unsigned n2) {
    return twoway_of((struct rate){x1, n1}, (struct rate){x2, n2});
}

/* ---- Fisher's test -------------------------------------------------------- */

static void exact_published(void **state) {
    struct twoway_exact tea = twoway_exact((struct twoway){3, 1, 1, 3});
    struct twoway_exact all = twoway_exact((struct twoway){4, 0, 0, 4});
    struct twoway_exact twins = twoway_exact((struct twoway){10, 3, 2, 15});
    struct twoway_exact small = twoway_exact((struct twoway){5, 4, 2, 19});
    (void)state;
    near(tea.one_sided, .2429, 5e-5, "F35 one-sided");
    near(tea.two_sided, .4857, 5e-5, "F35 two-sided");
    near(tea.one_sided_mid, .1286, 5e-5, "own, one-sided mid-p");
    near(tea.two_sided_mid, .3714, 5e-5, "own, two-sided mid-p");
    near(all.one_sided, 1 / 70.0, 1e-14, "F35, all told apart");
    near(twins.one_sided, .0004652, 5e-8, "F62 one-sided");
    near(twins.two_sided, .0005367, 5e-8, "F62 two-sided");
    near(twins.two_sided_mid, .00031187, 5e-9, "own, F62 two-sided mid-p");
    near(small.two_sided, .0138815, 5e-8, "own, two-sided");
    near(small.two_sided_mid, .00738285, 5e-9, "own, two-sided mid-p");
}

/* Rows and columns exchanged, the table turned about: the same two-sided p. */
static void exact_turned(void **state) {
    (void)state;
    for (unsigned x1 = 0; x1 <= 12; x1++)
        for (unsigned x2 = 0; x2 <= 17; x2++) {
            struct twoway t = of(x1, 12, x2, 17), rows = of(x2, 17, x1, 12);
            struct twoway across = {t.a, t.c, t.b, t.d};
            if (!twoway_compares(t))
                continue;
            double p = twoway_exact(t).two_sided_mid;
            assert_true(p > 0 && p <= 1);
            near(twoway_exact(rows).two_sided_mid, p, 1e-12, "rows exchanged");
            near(twoway_exact(across).two_sided_mid, p, 1e-12, "across");
            near(twoway_exact(t).one_sided_mid + twoway_exact(rows).one_sided_mid, 1, 1e-12,
                 "the two sides together");
        }
}

/* How often the test says "p <= .05" when the event comes with chance p1 of n1
 * serves and p2 of n2. */
struct size {
    double exact, mid;
};

static struct size found(unsigned n1, double p1, unsigned n2, double p2) {
    struct size s = {0, 0};
    for (unsigned x1 = 0; x1 <= n1; x1++)
        for (unsigned x2 = 0; x2 <= n2; x2++) {
            struct twoway t = of(x1, n1, x2, n2);
            if (!twoway_compares(t))
                continue;
            double here = stat_binomial(x1, n1, p1) * stat_binomial(x2, n2, p2);
            struct twoway_exact e = twoway_exact(t);
            s.exact += e.two_sided <= .05 ? here : 0;
            s.mid += e.two_sided_mid <= .05 ? here : 0;
        }
    return s;
}

/* No difference: own. This is why the mid-p is shown. */
static void size_of_test(void **state) {
    static const struct {
        unsigned n1, n2;
        double p, exact, mid;
    } rows[] = {
        {4, 8, .1, .0016, .0242},   {4, 8, .2, .0051, .0445},   {10, 20, .1, .0126, .0164},
        {10, 20, .2, .0222, .0399}, {20, 40, .1, .0280, .0299}, {20, 40, .2, .0348, .0476},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct size s = found(rows[i].n1, rows[i].p, rows[i].n2, rows[i].p);
        near(s.exact, rows[i].exact, 5e-5, "size of Fisher's test");
        near(s.mid, rows[i].mid, 5e-5, "size of the mid-p test");
    }
}

/* A third of the serves marked, error rate 10 % without the mark: own. */
static void power_of_test(void **state) {
    static const struct {
        unsigned n;
        double at_30, at_50;
    } rows[] = {
        {20, .146, .460}, {30, .227, .629},  {60, .489, .922},
        {80, .606, .979}, {120, .769, .998}, {200, .934, 1.000},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        unsigned marked = (rows[i].n + 1) / 3;
        near(found(marked, .3, rows[i].n - marked, .1).mid, rows[i].at_30, 5e-4, "power, 30 %");
        near(found(marked, .5, rows[i].n - marked, .1).mid, rows[i].at_50, 5e-4, "power, 50 %");
    }
}

/* Serves on a side for a power of 80 %: own, also by R's power.prop.test. */
static void serves_to_tell(void **state) {
    static const struct {
        double one, other;
        unsigned n;
    } rows[] = {
        {.10, .20, 199}, {.15, .25, 250}, {.15, .20, 906}, {.35, .45, 376}, {.35, .40, 1471},
    };
    unsigned n = 7;
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_true(twoway_serves_to_tell(rows[i].one, rows[i].other, &n));
        assert_int_equal(n, rows[i].n);
        assert_true(twoway_serves_to_tell(rows[i].other, rows[i].one, &n));
        assert_int_equal(n, rows[i].n);
    }
    n = 7;
    assert_false(twoway_serves_to_tell(.3, .3, &n) || twoway_serves_to_tell(0, 0, &n) ||
                 twoway_serves_to_tell(.300, .301, &n));
    assert_int_equal(n, 7);
}

/* ---- relative risk -------------------------------------------------------- */

static void risk_is(struct twoway t, double ratio, double low, double high, double tolerance,
                    const char *what) {
    struct twoway_risk r = twoway_risk(t);
    assert_true(r.bounded);
    near(r.ratio, ratio, 5e-5, what);
    near(r.low, low, tolerance, what);
    near(r.high, high, tolerance * 10, what);
}

static void risk_published(void **state) {
    (void)state;
    near(twoway_risk(of(10, 75, 12, 225)).ratio, 2.5, 1e-12, "SK");
    risk_is(of(7, 34, 1, 34), 7, 1.21, 43, .05, "FLL");
    risk_is(of(7, 34, 1, 34), 7, 1.220853, 42.575718, 5e-7, "own, FLL's table");
    risk_is(of(36, 40, 16, 80), 4.5, 2.94, 7.15, 5e-3, "K84");
    risk_is(of(36, 40, 16, 80), 4.5, 2.939569, 7.152223, 5e-7, "own, K84's table");
    risk_is((struct twoway){5, 4, 2, 19}, 5.8333, 1.54772, 22.7858, 5e-6, "own");
}

/* No event on a side: one limit only. One program of our own. */
static void risk_ends(void **state) {
    struct twoway_risk none_with = twoway_risk(of(0, 6, 5, 14));
    struct twoway_risk none_without = twoway_risk(of(4, 6, 0, 14));
    (void)state;
    assert_true(none_with.bounded && none_with.ratio == 0 && none_with.low == 0);
    near(none_with.high, 1.2795, 5e-5, "0/6 : 5/14");
    assert_false(none_without.bounded);
    near(none_without.low, 2.8608, 5e-5, "4/6 : 0/14");
}

/* Turned about, the limits are the reciprocals; and every event with one of
 * the marks is no trouble. */
static void risk_turned(void **state) {
    (void)state;
    for (unsigned x1 = 1; x1 <= 11; x1++)
        for (unsigned x2 = 1; x2 < 17; x2++) {
            struct twoway_risk r = twoway_risk(of(x1, 11, x2, 17));
            struct twoway_risk turned = twoway_risk(of(x2, 17, x1, 11));
            assert_true(r.low < r.ratio && r.ratio < r.high);
            near(turned.low * r.high, 1, 1e-6, "turned, low");
            near(turned.high * r.low, 1, 1e-6, "turned, high");
        }
}

/* ---- what may be compared and tested -------------------------------------- */

static void margins(void **state) {
    (void)state;
    assert_false(twoway_compares((struct twoway){0, 0, 3, 4}));
    assert_false(twoway_compares((struct twoway){3, 4, 0, 0}));
    assert_false(twoway_compares((struct twoway){0, 3, 0, 4}));
    assert_false(twoway_compares((struct twoway){3, 0, 4, 0}));
    assert_true(twoway_compares((struct twoway){3, 0, 0, 4}));
}

/* Five marked serves and five events: our own choice. */
static void testable(void **state) {
    (void)state;
    assert_true(twoway_may_test((struct twoway){1, 4, 4, 100}));
    assert_false(twoway_may_test((struct twoway){1, 3, 4, 100}));
    assert_false(twoway_may_test((struct twoway){1, 4, 3, 100}));
    assert_false(twoway_may_test((struct twoway){5, 0, 5, 0}));
}

/* ---- many tables ---------------------------------------------------------- */

static void no_memory(size_t bytes) {
    (void)bytes;
    abort();
}

/* BH: at the level of .05 their procedure rejects four. The adjusted values are
 * those of R's p.adjust. */
static void adjusted(void **state) {
    static const double p[] = {.0001, .0004, .0019, .0095, .0201, .0278, .0298, .0344,
                               .0459, .3240, .4262, .5719, .6528, .7590, 1};
    static const double expected[] = {.0015,   .003,    .0095,   .035625, .0603,
                                      .063857, .063857, .0645,   .0765,   .486,
                                      .581182, .714875, .753231, .813214, 1};
    enum { N = sizeof p / sizeof *p };
    struct arena *a = arena_new(no_memory);
    double shuffled[N], q[N];
    unsigned rejected = 0, bonferroni = 0;
    (void)state;
    for (unsigned i = 0; i < N; i++)
        shuffled[i * 4 % N] = p[i];
    twoway_adjust(shuffled, N, q, a);
    for (unsigned i = 0; i < N; i++) {
        near(q[i * 4 % N], expected[i], 5e-7, "adjusted");
        rejected += q[i * 4 % N] <= .05;
        bonferroni += p[i] * N <= .05;
    }
    assert_int_equal(rejected, 4);
    assert_int_equal(bonferroni, 3);
    twoway_adjust(p, 0, q, a);
    arena_free(a);
}

static void pooled(void **state) {
    static const struct twoway ucb[] = {
        {512, 313, 89, 19},   {353, 207, 17, 8},  {120, 205, 202, 391},
        {138, 279, 131, 244}, {53, 138, 94, 299}, {22, 351, 24, 317},
    };
    struct twoway_pooled out;
    (void)state;
    assert_true(twoway_pool(ucb, 6, &out));
    assert_true(out.odds_bounded && out.risk_bounded);
    near(out.odds_ratio, .9046968, 5e-8, "UCB odds ratio");
    near(out.corrected_chi_square, 1.4269, 5e-5, "UCB chi-square, corrected");
    near(out.chi_square, 1.52461, 5e-6, "own, chi-square");
    near(out.risk_ratio, .944905, 5e-7, "own, risk ratio");
    near(out.corrected_p, stat_chi_square_upper(1.4269, 1), 5e-5, "its p");
}

/* A table without a comparison changes nothing; none with one gives nothing. */
static void pooled_ends(void **state) {
    static const struct twoway some[] = {{5, 4, 2, 19}, {0, 0, 3, 9}, {0, 7, 0, 9}};
    static const struct twoway no_event_without[] = {{3, 4, 0, 9}};
    static const struct twoway always_with[] = {{3, 0, 2, 9}};
    struct twoway_pooled one, all;
    (void)state;
    assert_true(twoway_pool(some, 1, &one) && twoway_pool(some, 3, &all));
    assert_true(one.odds_ratio == all.odds_ratio && one.chi_square == all.chi_square);
    near(one.odds_ratio, 5 * 19 / 8.0, 1e-12, "of one table");
    near(one.risk_ratio, 5 * 21 / 18.0, 1e-12, "of one table");
    assert_false(twoway_pool(some + 1, 2, &all));
    assert_false(twoway_pool(some, 0, &all));
    assert_true(twoway_pool(no_event_without, 1, &all));
    assert_false(all.odds_bounded || all.risk_bounded);
    assert_true(twoway_pool(always_with, 1, &all));
    assert_false(all.odds_bounded);
    assert_true(all.risk_bounded);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(exact_published), cmocka_unit_test(exact_turned),
        cmocka_unit_test(serves_to_tell),  cmocka_unit_test(size_of_test),
        cmocka_unit_test(power_of_test),   cmocka_unit_test(risk_published),
        cmocka_unit_test(risk_ends),       cmocka_unit_test(risk_turned),
        cmocka_unit_test(margins),         cmocka_unit_test(testable),
        cmocka_unit_test(adjusted),        cmocka_unit_test(pooled),
        cmocka_unit_test(pooled_ends),
    };
    return cmocka_run_group_tests_name("twoway", tests, NULL, NULL);
}
