/* Steadiness of a routine against published and computed values. "Own" values
 * have no published source: two programs of ours gave them. */
#include "steady.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "kit/near.h"

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

/* Diameters of gears, ten batches of ten: NIST/SEMATECH e-Handbook of
 * Statistical Methods, 1.3.5.8 and 1.3.5.10. */
static const double gears[10][10] = {
    {1.006, .996, .998, 1.000, .992, .993, 1.002, .999, .994, 1.000},
    {.998, 1.006, 1.000, 1.002, .997, .998, .996, 1.000, 1.006, .988},
    {.991, .987, .997, .999, .995, .994, 1.000, .999, .996, .996},
    {1.005, 1.002, .994, 1.000, .995, .994, .998, .996, 1.002, .996},
    {.998, .998, .982, .990, 1.002, .984, .996, .993, .980, .996},
    {1.009, 1.013, 1.009, .997, .988, 1.002, .995, .998, .981, .996},
    {.990, 1.004, .996, 1.001, .998, 1.000, 1.018, 1.010, .996, 1.002},
    {.998, 1.000, 1.006, 1.000, 1.002, .996, .998, .996, 1.002, 1.006},
    {1.002, .998, .996, .995, .996, 1.004, 1.004, .998, .999, .991},
    {.991, .995, .984, .994, .997, .997, .991, .998, 1.004, .997},
};

static void gears_sd(void **state) {
    (void)state;
    struct steady_spread s;
    assert_true(steady_spread(gears[0], 100, &s));
    assert_near(s.sd, .0062789, 5e-8);
    /* The page's test of a standard deviation of .1. */
    assert_near(99 * s.sd * s.sd / .01, .3903044, 5e-7);
    /* Own. */
    assert_near(s.sd, .00627890488, 5e-12);
}

/* SciPy's tests have 1.70591769; the page itself prints 1.705910. */
static void gears_brown_forsythe(void **state) {
    (void)state;
    struct steady_group groups[10];
    struct steady_test t;
    for (size_t i = 0; i < 10; i++)
        groups[i] = (struct steady_group){gears[i], 10};
    assert_true(steady_test(groups, 10, arena, &t));
    assert_near(t.f, 1.70591769, 5e-9);
    assert_int_equal(t.df_above, 9);
    assert_int_equal(t.df_below, 90);
}

/* By hand: distances 1 0 1 and 4 0 4, means 2/3 and 8/3, between 6, within
 * 2/3 + 32/3, so F = 6 / (34/3 / 4); p from the closed form of Student's t. */
static void two_groups(void **state) {
    (void)state;
    static const double before[] = {10, 12, 11}, after[] = {16, 20, 12};
    const struct steady_group groups[] = {{before, 3}, {after, 3}};
    struct steady_test t;
    assert_true(steady_test(groups, 2, arena, &t));
    assert_near(t.f, 36. / 17, 1e-12);
    double u = sqrt(t.f / (t.f + 4));
    assert_near(t.p, 1 - (u + u * (1 - u * u) / 2), 1e-12);
}

static void no_test(void **state) {
    (void)state;
    static const double same[] = {2, 2, 2}, apart[] = {1, 3}, some[] = {1, 2, 4};
    struct steady_test t;
    const struct steady_group flat[] = {{same, 3}, {apart, 2}};
    assert_false(steady_test(flat, 2, arena, &t));
    const struct steady_group empty[] = {{some, 3}, {some, 0}};
    assert_false(steady_test(empty, 2, arena, &t));
    assert_false(steady_test(empty, 1, arena, &t));
    assert_false(steady_test(NULL, 0, arena, &t));
}

/* Own. */
static void factors(void **state) {
    (void)state;
    static const struct { size_t n; double low, high; } rows[] = {
        {5, .599, 2.874},  {8, .661, 2.035},  {10, .688, 1.826},
        {15, .732, 1.577}, {20, .760, 1.461}, {30, .796, 1.344},
    };
    for (size_t i = 0; i < LEN(rows); i++) {
        double values[30];
        struct steady_spread s;
        for (size_t k = 0; k < rows[i].n; k++)
            values[k] = 3 + .1 * (double)(k * k % 7);
        assert_true(steady_spread(values, rows[i].n, &s));
        assert_near(s.of_sd.low / s.sd, rows[i].low, .0005);
        assert_near(s.of_sd.high / s.sd, rows[i].high, .0005);
    }
}

static void few_values(void **state) {
    (void)state;
    static const double values[] = {3, 3};
    struct steady_spread s;
    struct steady_mode m;
    assert_false(steady_spread(values, 1, &s));
    assert_true(steady_spread(values, 2, &s));
    assert_near(s.mean, 3, 0);
    assert_near(s.of_sd.high, 0, 0);
    assert_false(steady_mode(NULL, 0, &m));
    assert_int_equal(steady_as_said(NULL, 0, 4).n, 0);
}

static void paces(void **state) {
    (void)state;
    static const unsigned done[] = {5, 4, 3, 4, 5, 4, 4, 3};
    struct steady_mode m;
    assert_true(steady_mode(done, LEN(done), &m));
    assert_int_equal(m.usual, 4);
    assert_int_equal(m.done.x, 4);
    assert_int_equal(m.done.n, 8);
    assert_int_equal(steady_as_said(done, LEN(done), 3).x, 2);
    assert_int_equal(steady_as_said(done, LEN(done), 7).x, 0);
    /* Of two that are as frequent, the lower. */
    assert_true(steady_mode(done, 2, &m));
    assert_int_equal(m.usual, 4);
    assert_int_equal(m.done.x, 1);
}

/* Own. */
static void scatter(void **state) {
    (void)state;
    static const struct steady_place places[] = {
        {.2, .1}, {-.1, .3}, {.4, -.2}, {.1, .2}, {-.1, .1}};
    struct steady_place moved[LEN(places)];
    struct steady_scatter s;
    assert_true(steady_scatter(places, LEN(places), (struct steady_place){0, 0}, &s));
    assert_near(s.mean_radial_error, .270415, 5e-7);
    assert_near(s.off, .141421, 5e-7);
    assert_near(s.variable_error, .252982, 5e-7);
    assert_near(s.bias.x, .1, 1e-12);
    assert_near(s.bias.y, .1, 1e-12);
    /* A target that is moved with the places. */
    for (size_t i = 0; i < LEN(places); i++)
        moved[i] = (struct steady_place){places[i].x + 3, places[i].y - 5};
    assert_true(steady_scatter(moved, LEN(moved), (struct steady_place){3, -5}, &s));
    assert_near(s.mean_radial_error, .270415, 5e-7);
    assert_near(s.variable_error, .252982, 5e-7);
    assert_false(steady_scatter(NULL, 0, (struct steady_place){0, 0}, &s));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gears_sd),
        cmocka_unit_test(gears_brown_forsythe),
        cmocka_unit_test(two_groups),
        cmocka_unit_test(no_test),
        cmocka_unit_test(factors),
        cmocka_unit_test(few_values),
        cmocka_unit_test(paces),
        cmocka_unit_test(scatter),
    };
    return cmocka_run_group_tests(tests, begin, finish);
}
