/* Intervals against published values. N98a: R. G. Newcombe, Stat. Med. 17
 * (1998) 857-872, table I, method 3. N98b: the same, 873-890, table II, method
 * 10. FLL: M. W. Fagerland, S. Lydersen, P. Laake, Stat. Methods Med. Res. 24
 * (2015) 224-254. "own" values have no published source: they were computed by
 * two programs of our own that share no code. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>

#include "rate.h"

static void wilson_is(unsigned x, unsigned n, double low, double high, double tolerance) {
    struct interval i = rate_wilson((struct rate){x, n});
    if (fabs(i.low - low) > tolerance || fabs(i.high - high) > tolerance)
        fail_msg("Wilson %u/%u: %.5f %.5f, not %.5f %.5f", x, n, i.low, i.high, low, high);
}

static void wilson_published(void **state) {
    (void)state;
    wilson_is(81, 263, .2553, .3662, 5e-5); /* N98a */
    wilson_is(0, 20, 0, .1611, 5e-5);       /* N98a */
    wilson_is(0, 5, 0, .4345, 5e-5);        /* own, like the rest */
    wilson_is(1, 6, .0301, .5635, 5e-5);
    wilson_is(2, 10, .0567, .5098, 5e-5);
    wilson_is(3, 20, .0524, .3604, 5e-5);
    wilson_is(8, 80, .0515, .1851, 5e-5);
    wilson_is(5, 5, .5655, 1, 5e-5);
    wilson_is(2, 14, .040, .399, 5e-4);
}

/* By hand: halves are exact in the counts, and go up. */
static void percent_halves_go_up(void **state) {
    (void)state;
    assert_true(rate_percent((struct rate){1, 40}) == 3);
    assert_true(rate_percent((struct rate){5, 40}) == 13);
    assert_true(rate_percent((struct rate){2, 43}) == 5);
    assert_true(rate_percent((struct rate){0, 7}) == 0);
    assert_true(rate_percent((struct rate){4294967295u, 4294967295u}) == 100);
}

/* At the ends the limits are exact, whatever the rounding of the formula. */
static void wilson_ends(void **state) {
    (void)state;
    for (unsigned n = 1; n < 400; n++) {
        assert_true(rate_wilson((struct rate){0, n}).low == 0);
        assert_true(rate_wilson((struct rate){n, n}).high == 1);
    }
    struct interval none = rate_wilson((struct rate){0, 0});
    assert_true(none.low == 0 && none.high == 1);
}

static void difference_is(unsigned x1, unsigned n1, unsigned x2, unsigned n2, double low,
                          double high, double tolerance) {
    struct interval i;
    assert_true(rate_difference((struct rate){x1, n1}, (struct rate){x2, n2}, &i));
    if (fabs(i.low - low) > tolerance || fabs(i.high - high) > tolerance)
        fail_msg("Newcombe %u/%u - %u/%u: %.5f %.5f, not %.5f %.5f", x1, n1, x2, n2, i.low, i.high,
                 low, high);
}

static void newcombe_published(void **state) {
    (void)state;
    difference_is(56, 70, 48, 80, .0524, .3339, 5e-5); /* N98b, like the next five */
    difference_is(6, 7, 2, 7, .0582, .8062, 5e-5);
    difference_is(0, 10, 0, 20, -.1611, .2775, 5e-5);
    difference_is(0, 10, 0, 10, -.2775, .2775, 5e-5);
    difference_is(10, 10, 0, 20, .6791, 1, 5e-5);
    difference_is(10, 10, 0, 10, .6075, 1, 5e-5);
    difference_is(7, 34, 1, 34, .019, .34, 5e-4); /* FLL */
    difference_is(7, 34, 1, 34, .018921, .340369, 5e-7); /* own, like the next */
    difference_is(5, 9, 2, 21, .112375, .725058, 5e-7);
}

/* a - b is b - a turned round. */
static void newcombe_turned(void **state) {
    (void)state;
    for (unsigned x = 0; x <= 15; x++) {
        struct interval i, j;
        struct rate a = {x, 15}, b = {4, 31};
        assert_true(rate_difference(a, b, &i) && rate_difference(b, a, &j));
        assert_true(fabs(i.low + j.high) < 1e-12 && fabs(i.high + j.low) < 1e-12);
        double d = rate_frac(a) - rate_frac(b);
        assert_true(i.low <= d && d <= i.high);
    }
}

static void no_difference_of_nothing(void **state) {
    (void)state;
    struct interval i = {7, 8};
    assert_false(rate_difference((struct rate){0, 0}, (struct rate){1, 2}, &i));
    assert_false(rate_difference((struct rate){1, 2}, (struct rate){0, 0}, &i));
    assert_true(i.low == 7 && i.high == 8);
}

/* What may be said from how many serves on: our own choice. */
static void may_say(void **state) {
    static const struct {
        unsigned n;
        enum say say;
    } rows[] = {
        {0, SAY_NOTHING},     {1, SAY_COUNT},       {9, SAY_COUNT},
        {10, SAY_INTERVAL},   {29, SAY_INTERVAL},   {30, SAY_COMPARISON},
        {149, SAY_COMPARISON}, {150, SAY_SEASON},   {4000000000, SAY_SEASON},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_int_equal(rate_may_say(rows[i].n), rows[i].say);
    for (enum say say = SAY_COUNT; say < SAY_N; say++) {
        assert_int_equal(rate_may_say(rate_say_from_n(say)), say);
        assert_int_equal(rate_may_say(rate_say_from_n(say) - 1), say - 1);
    }
}

static void may_aim(void **state) {
    (void)state;
    assert_int_equal(rate_may_aim(150, 29), SAY_AIM_GENERAL);
    assert_int_equal(rate_may_aim(149, 100), SAY_AIM_GENERAL);
    assert_int_equal(rate_may_aim(150, 30), SAY_AIM_OWN_CAUTION);
    assert_int_equal(rate_may_aim(150, 99), SAY_AIM_OWN_CAUTION);
    assert_int_equal(rate_may_aim(150, 100), SAY_AIM_OWN);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(may_say),                  cmocka_unit_test(may_aim),
        cmocka_unit_test(wilson_published),         cmocka_unit_test(wilson_ends),
        cmocka_unit_test(percent_halves_go_up),
        cmocka_unit_test(newcombe_published),       cmocka_unit_test(newcombe_turned),
        cmocka_unit_test(no_difference_of_nothing),
    };
    return cmocka_run_group_tests_name("rate", tests, NULL, NULL);
}
