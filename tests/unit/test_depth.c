/* Depths for the study of aims. All values are our own computation, two programs;
 * the window of a serve times its metres per degree gives the same depths. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "depth.h"
#include "window.h"

static void near(double got, double expected, double tolerance, const char *what) {
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: %.6f, not %.6f", what, got, expected);
}

static struct depth_given measured(double v_ms, double spin, double height_m, double contact_m,
                                   double net_m) {
    return (struct depth_given){.net_m = net_m,
                                .known = {true, true, true, true},
                                .measure = {v_ms, spin, height_m, contact_m}};
}

static struct depth found(struct depth_given g) {
    struct depth d;
    assert_int_equal(depth_of(flight_model(FLIGHT_DEFAULT), &g, &d), DEPTH_FOUND);
    return d;
}

static const struct {
    double v_ms, spin, height_m, contact_m, net_m;
    double clear_m, short_low_m, short_high_m, m_per_ms, m_per_deg;
} rows[] = {
    {18, 0, 3.0, .5, 2.43, 6.7, .74, 2.01, 1.37, .45},
    {25, 4, 3.3, .5, 2.43, 7.8, .95, 2.56, .59, .69},
    {25, 8, 3.3, .5, 2.43, 6.8, .81, 2.18, .57, .58},
    {30, 6, 3.5, 1, 2.43, 8.0, 1.00, 2.67, .39, .73},
    {20, 4, 2.8, .5, 2.24, 6.3, .78, 2.11, .95, .52},
};

static void depths(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct depth d = found(measured(rows[i].v_ms, rows[i].spin, rows[i].height_m,
                                        rows[i].contact_m, rows[i].net_m));
        near(d.clear_m, rows[i].clear_m, .0501, "shortest that clears");
        near(d.short_low_m, rows[i].short_low_m, .00501, "short at 0.5 m");
        near(d.short_high_m, rows[i].short_high_m, .00501, "short at 1.1 m");
        near(d.spread_m, .8 * rows[i].m_per_ms, .00801, "spread");
        near(d.net_per_landing, .145 / rows[i].m_per_deg, .0201, "net for landing");
    }
}

/* By hand: the serve that lands a little shorter than the depth is under the
 * tape, one that lands deeper is over it. */
static void clears(void **state) {
    const struct flight_model *m = flight_model(FLIGHT_DEFAULT);
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct flight_serve s = {.speed_ms = rows[i].v_ms, .topspin_rev_s = rows[i].spin,
                                 .height_m = rows[i].height_m, .x_m = rows[i].contact_m};
        double clear_m = found(measured(rows[i].v_ms, rows[i].spin, rows[i].height_m,
                                        rows[i].contact_m, rows[i].net_m)).clear_m;
        for (double over_m = -.01; over_m < .02; over_m += .02) {
            struct window_reception r;
            assert_true(window_reception(m, s, 9 + clear_m + over_m, m->radius_m, &r));
            assert_int_equal(r.net.z_m > rows[i].net_m + m->radius_m, over_m > 0);
        }
    }
}

/* What is not known is the usual; what is known is kept. */
static void usual(void **state) {
    (void)state;
    for (unsigned kind = 0; kind < DEPTH_KIND_N; kind++)
        for (double net_m = 2.24; net_m < 2.5; net_m += .19) {
            struct depth_given g = {.kind = kind, .net_m = net_m};
            struct depth d = found(g);
            assert_true(d.clear_m > 2 && d.clear_m < 9);
            assert_true(d.spread_m > 0 && d.net_per_landing > 0);
            assert_true(d.short_low_m > 0 && d.short_high_m > d.short_low_m);
            for (unsigned i = 0; i < DEPTH_MEASURE_N; i++) {
                struct depth_usual u = depth_usual(kind, i, net_m);
                assert_true(strlen(u.source) > 5);
                assert_true(d.used[i] == u.value);
            }
        }
    struct depth_given g = {.kind = DEPTH_FLOAT, .net_m = 2.24};
    g.known[DEPTH_SPEED_MS] = true;
    g.measure[DEPTH_SPEED_MS] = 16.5;
    struct depth d = found(g);
    assert_true(d.used[DEPTH_SPEED_MS] == 16.5);
    assert_true(d.used[DEPTH_HEIGHT_M] == depth_usual(DEPTH_FLOAT, DEPTH_HEIGHT_M, 2.24).value);
}

/* A men's net asks for the deeper serve. A serve too hard for its window has a
 * depth beyond the end line. */
static void nets(void **state) {
    (void)state;
    assert_true(found(measured(22, 4, 2.9, .5, 2.43)).clear_m >
                found(measured(22, 4, 2.9, .5, 2.24)).clear_m);
    assert_true(found(measured(30, 0, 3.0, 0, 2.43)).clear_m > 9);
}

static void refused(void **state) {
    const struct flight_model *m = flight_model(FLIGHT_DEFAULT);
    struct depth d;
    (void)state;
    struct depth_given slow = measured(9, 0, 2.2, 0, 2.43), fast = measured(50, 0, 3, 0, 2.43);
    assert_int_equal(depth_of(m, &slow, &d), DEPTH_NO_REACH);
    assert_int_equal(depth_of(m, &fast, &d), DEPTH_OUTSIDE);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(depths),
        cmocka_unit_test(clears),
        cmocka_unit_test(usual),
        cmocka_unit_test(nets),
        cmocka_unit_test(refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
