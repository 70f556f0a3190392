/* From measures back to the serve. The digits are our own computation, two
 * programs, to a thousandth; I5 is the closed form without air. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>

#include "kit/dice.h"
#include "solve.h"

static void near(double got, double expected, double tolerance, const char *what) {
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: %.6f, not %.6f", what, got, expected);
}

static const struct flight_model *usual(void) {
    return flight_model(FLIGHT_DEFAULT);
}

static void know(struct solve_given *g, enum solve_measure which, double value) {
    g->known[which] = true;
    g->measure[which] = value;
}

static struct solve_given straight(double height_m, double x_m, double way_m) {
    return (struct solve_given){.height_m = height_m, .x_m = x_m, .landing_x_m = x_m + way_m};
}

static struct flight_serve solved(const struct flight_model *m, const struct solve_given *g,
                                  struct flight *f) {
    struct flight_serve s;
    assert_int_equal(solve_serve(m, g, &s, f), SOLVE_FOUND);
    return s;
}

/* A radar and an assumed spin. */
static void radar(void **state) {
    static const struct { double spin, angle_deg, net_z_m; } rows[] = {
        {5, .127, 2.494}, {6, .9236, 2.5553}, {7, 1.724, 2.617},
    };
    struct flight f;
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct solve_given g = {.height_m = 3.30, .x_m = .8, .y_m = -3, .landing_x_m = 16.5,
                                .landing_y_m = 2, .net_m = 2.24};
        know(&g, SOLVE_SPEED_MS, 27);
        know(&g, SOLVE_SPIN_REV_S, rows[i].spin);
        struct flight_serve s = solved(usual(), &g, &f);
        near(s.angle_deg, rows[i].angle_deg, 1e-3, "angle");
        near(f.net.z_m, rows[i].net_z_m, 1e-3, "height at the net");
        near(s.azimuth_deg, 17.6652, 1e-3, "direction");
        near(f.floor.x_m, 16.5, 1e-5, "landing");
        near(f.floor.y_m, 2, 1e-5, "landing");
        if (i != 1)
            continue;
        near(f.floor.t_s, .6805, 1e-3, "time");
        near(f.net.y_m, -.3885, 1e-3, "place at the net");
        near(flight_speed_ms(&f.floor), 23.41, .00501, "speed at the floor");
    }
}

/* A float from its time alone. */
static void timed(void **state) {
    static const struct { double time_s, speed_ms, angle_deg; } rows[] = {
        {1.12, 16.892, 10.198}, {1.14, 16.741, 10.812}, {1.10, 17.047, 9.596},
    };
    struct flight f;
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct solve_given g = straight(2.70, -.2, 15.4);
        know(&g, SOLVE_TIME_S, rows[i].time_s);
        know(&g, SOLVE_SPIN_REV_S, 0);
        struct flight_serve s = solved(usual(), &g, &f);
        near(s.speed_ms, rows[i].speed_ms, 1e-3, "speed");
        near(s.angle_deg, rows[i].angle_deg, 1e-3, "angle");
        if (i == 0)
            near(f.net.z_m, 2.652, 1e-3, "height at the net");
    }
}

/* Two serves of one speed land in one place. The longest range is 20.46 m. */
static void branches(void **state) {
    struct solve_given g = straight(2.6, 0, 15);
    struct flight_serve s;
    struct flight f;
    (void)state;
    know(&g, SOLVE_SPEED_MS, 17);
    know(&g, SOLVE_SPIN_REV_S, 0);
    s = solved(usual(), &g, &f);
    near(s.angle_deg, 9.160, 1e-3, "flat");
    near(f.floor.t_s, 1.067, 1e-3, "flat");
    assert_int_equal(solve_lob(usual(), &g, &s, &f), SOLVE_FOUND);
    near(s.angle_deg, 63.124, 1e-3, "lob");
    near(f.floor.t_s, 2.882, 1e-3, "lob");
    g.landing_x_m = 20.4;
    solved(usual(), &g, &f);
    g.landing_x_m = 20.5;
    assert_int_equal(solve_serve(usual(), &g, &s, &f), SOLVE_NO_FLIGHT);
}

/* Its time tells the lob from the flat serve. */
static void lob_by_time(void **state) {
    struct solve_given g = straight(2.6, 0, 15);
    struct flight f;
    (void)state;
    know(&g, SOLVE_TIME_S, 2.882);
    know(&g, SOLVE_SPIN_REV_S, 0);
    struct flight_serve s = solved(usual(), &g, &f);
    near(s.speed_ms, 17, .01, "speed");
    near(s.angle_deg, 63.124, .05, "angle");
}

/* Without air: vx = D/T, vz = (g T^2/2 - (h - r))/T. */
static void vacuum(void **state) {
    struct flight_model m = *usual();
    struct solve_given g = straight(2.70, 0, 15.4);
    struct flight f;
    (void)state;
    m.drag.slow = m.drag.fast = m.lift.slope = 0;
    know(&g, SOLVE_TIME_S, 1);
    know(&g, SOLVE_SPIN_REV_S, 0);
    struct flight_serve s = solved(&m, &g, &f);
    near(s.speed_ms, 15.57229, 1e-4, "speed");
    near(s.angle_deg, 8.53077, 1e-3, "angle");
    near(s.speed_ms * cos(s.angle_deg * 3.14159265358979 / 180), 15.4, 1e-4, "closed form");
}

/* Speed and the height at the net give the spin; 0.10 m are 1.6 turns. */
static void net_height(void **state) {
    struct solve_given g = {.height_m = 3.30, .x_m = .8, .y_m = -3, .landing_x_m = 16.5,
                            .landing_y_m = 2, .net_m = 2.24};
    struct flight f;
    (void)state;
    know(&g, SOLVE_SPEED_MS, 27);
    know(&g, SOLVE_NET_Z_M, 2.5553);
    near(solved(usual(), &g, &f).topspin_rev_s, 6, .01, "spin");
    know(&g, SOLVE_NET_Z_M, 2.6553);
    near(solved(usual(), &g, &f).topspin_rev_s, 7.6, .1, "spin, 0.10 m higher");
    know(&g, SOLVE_NET_Z_M, 2.0);
    struct flight_serve s;
    assert_int_equal(solve_serve(usual(), &g, &s, &f), SOLVE_NO_FLIGHT);
}

/* Speed, spin and time give the drag: 24 ms more are 0.05 more. */
static void drag(void **state) {
    static const double drags[] = {.20, .36, .45};
    double coefficient, time_s[2];
    (void)state;
    for (size_t i = 0; i < sizeof drags / sizeof *drags; i++) {
        struct flight_model m = *usual();
        struct solve_given g = straight(3.3, .8, 16.5);
        struct flight f;
        know(&g, SOLVE_SPEED_MS, 27);
        know(&g, SOLVE_SPIN_REV_S, 6);
        m.drag.slow = m.drag.fast = drags[i];
        solved(&m, &g, &f);
        know(&g, SOLVE_TIME_S, f.floor.t_s);
        assert_int_equal(solve_drag(usual(), &g, &coefficient), SOLVE_FOUND);
        near(coefficient, drags[i], 1e-3, "drag");
        if (i < 2)
            time_s[i] = f.floor.t_s;
    }
    near((time_s[1] - time_s[0]) / (.36 - .20) * .05, .024, .004, "time for 0.05");
}

static void refused(void **state) {
    static const struct { bool speed, spin, time, net; enum solve_status status; } rows[] = {
        {false, false, false, false, SOLVE_TOO_LITTLE},
        {true, false, false, false, SOLVE_TOO_LITTLE},
        {true, false, true, false, SOLVE_ILL_POSED},
        {true, true, true, false, SOLVE_TOO_MUCH},
        {false, false, true, true, SOLVE_NOT_STUDIED},
        {false, true, false, true, SOLVE_NOT_STUDIED},
    };
    struct flight_serve s;
    struct flight f;
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct solve_given g = straight(3, 0, 16);
        g.known[SOLVE_SPEED_MS] = rows[i].speed, g.measure[SOLVE_SPEED_MS] = 25;
        g.known[SOLVE_SPIN_REV_S] = rows[i].spin, g.measure[SOLVE_SPIN_REV_S] = 5;
        g.known[SOLVE_TIME_S] = rows[i].time, g.measure[SOLVE_TIME_S] = .7;
        g.known[SOLVE_NET_Z_M] = rows[i].net, g.measure[SOLVE_NET_Z_M] = 2.6;
        assert_int_equal(solve_serve(usual(), &g, &s, &f), rows[i].status);
    }
}

/* Why speed and time are refused: a turn a second more changes the time by about
 * a millisecond. */
static void ill_posed(void **state) {
    struct solve_given g = straight(3.3, .8, 15.7);
    struct flight f;
    double time_s[2];
    (void)state;
    know(&g, SOLVE_SPEED_MS, 27);
    for (int i = 0; i < 2; i++) {
        know(&g, SOLVE_SPIN_REV_S, 5.5 + i);
        solved(usual(), &g, &f);
        time_s[i] = f.floor.t_s;
    }
    near(time_s[1] - time_s[0], .0011, .0004, "time for a turn");
}

/* Measures that contradict each other; a flight out of all bounds. */
static void contradictions(void **state) {
    struct solve_given g = straight(2.6, 0, 11);
    struct flight_serve s;
    struct flight f;
    (void)state;
    g.net_m = 2.43;
    know(&g, SOLVE_SPEED_MS, 25);
    know(&g, SOLVE_SPIN_REV_S, 0);
    assert_int_equal(solve_serve(usual(), &g, &s, &f), SOLVE_UNDER_TAPE);
    assert_true(f.net.z_m < 2.43);
    g.known[SOLVE_SPEED_MS] = false;
    know(&g, SOLVE_TIME_S, .1);
    assert_int_equal(solve_serve(usual(), &g, &s, &f), SOLVE_NO_FLIGHT);
}

/* There and back: what flew is found again. */
static void round_trip(void **state) {
    struct dice d = {7};
    (void)state;
    for (int i = 0; i < 30; i++) {
        struct flight_serve s = {.speed_ms = dice_between(&d, 160, 320) / 10.0,
                                 .angle_deg = dice_between(&d, -10, 150) / 10.0,
                                 .azimuth_deg = dice_between(&d, -150, 150) / 10.0,
                                 .topspin_rev_s = dice_between(&d, 0, 80) / 10.0,
                                 .height_m = dice_between(&d, 230, 350) / 100.0,
                                 .x_m = dice_between(&d, -100, 150) / 100.0,
                                 .y_m = dice_between(&d, -400, 400) / 100.0};
        struct flight f = flight_run(usual(), &s), back;
        struct solve_given g = {.height_m = s.height_m, .x_m = s.x_m, .y_m = s.y_m,
                                .landing_x_m = f.floor.x_m, .landing_y_m = f.floor.y_m};
        know(&g, SOLVE_SPEED_MS, s.speed_ms);
        know(&g, SOLVE_SPIN_REV_S, s.topspin_rev_s);
        near(solved(usual(), &g, &back).angle_deg, s.angle_deg, 1e-3, "angle");
        g.known[SOLVE_SPEED_MS] = false;
        know(&g, SOLVE_TIME_S, f.floor.t_s);
        near(solved(usual(), &g, &back).speed_ms, s.speed_ms, 1e-2, "speed");
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(radar),
        cmocka_unit_test(timed),
        cmocka_unit_test(branches),
        cmocka_unit_test(lob_by_time),
        cmocka_unit_test(vacuum),
        cmocka_unit_test(net_height),
        cmocka_unit_test(drag),
        cmocka_unit_test(refused),
        cmocka_unit_test(ill_posed),
        cmocka_unit_test(contradictions),
        cmocka_unit_test(round_trip),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
