/* Angles and lengths on the court. All follow from the measures of the FIVB
 * Official Volleyball Rules 2025-2028 (1.1, 1.3, 1.4.2, 2.1, 3.1, 8.4.4) and
 * are our own computation, made by two programs. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>

#include "geometry.h"

static const double ball_m = 0.105042; /* of a circumference of 66 cm */

static void near(double got, double expected, double tolerance, const char *what) {
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: %.6f, not %.6f", what, got, expected);
}

/* From the left the start is counted here, as the rows below are: x = 9 - left. */
static struct geo_spot start(double left_m, double past_m) {
    return geo_contact(9 - left_m, past_m);
}

/* Directions that reach the far end line, and that cross the net as a point. */
static void windows(void **state) {
    static const struct {
        double left_m, past_m, d_m, left_deg, right_deg, width_deg;
    } rows[] = {
        {4.5, 0, 9, -14.0362, 14.0362, 28.0725}, {0, 0, 9, 0, 26.5651, 26.5651},
        {1.5, 0, 9, -4.7636, 22.6199, 27.3835},  {4.5, -1, 9, -13.3245, 13.3245, 26.6491},
        {0, -1, 9, 0, 25.3462, 25.3462},         {1.5, -1, 9, -4.5140, 21.5410, 26.0550},
        {4.5, 0, 0, -26.5651, 26.5651, 53.1301}, {0, 0, 0, 0, 45, 45},
        {1.5, 0, 0, -9.4623, 39.8056, 49.2679},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct geo_window w = geo_window(start(rows[i].left_m, rows[i].past_m), rows[i].d_m, 0);
        near(w.left_deg, rows[i].left_deg, 6e-5, "left");
        near(w.right_deg, rows[i].right_deg, 6e-5, "right");
        near(geo_width_deg(w), rows[i].width_deg, 6e-5, "width");
    }
    near(geo_width_deg(geo_window(start(4.5, 0), 9, 0)) * acos(-1) / 180, .4900, 5e-5, "radians");
}

/* 8.4.4, 10.1.1: the whole ball between the antennas. From a corner it has to
 * turn in a little; elsewhere the far corners are the narrower ones. */
static void crossing(void **state) {
    (void)state;
    near(geo_window(start(0, 0), 0, ball_m).left_deg, .6687, 5e-5, "turn in");
    near(geo_width_deg(geo_serve_window(start(0, 0), ball_m)), 25.8964, 5e-5, "corner");
    near(geo_width_deg(geo_serve_window(start(9, 0), ball_m)), 25.8964, 5e-5, "other corner");
    near(geo_width_deg(geo_serve_window(start(1.5, 0), ball_m)), 27.3835, 5e-5, "1.5 m");
    near(geo_width_deg(geo_serve_window(start(4.5, 0), ball_m)), 28.0725, 6e-5, "middle");
    struct geo_spot at_net[] = {{ball_m, 0}, {9 - ball_m, 0}};
    near(at_net[0].x_m, .1050, 5e-5, "crossing space, right");
    near(at_net[1].x_m, 8.8950, 5e-5, "crossing space, left");
    near(geo_angle_deg(start(4.5, 0), at_net[0]),
         geo_window(start(4.5, 0), 0, ball_m).right_deg, 1e-9, "its edge");
    near(geo_angle_deg(start(4.5, 0), at_net[1]),
         geo_window(start(4.5, 0), 0, ball_m).left_deg, 1e-9, "its edge");
}

static void lengths(void **state) {
    static const struct {
        double across_m, m;
    } receiver[] = {{0, 16}, {1.5, 16.0702}, {4.5, 16.6208}, {7.5, 17.6706}, {9, 18.3576}};
    (void)state;
    near(geo_distance_m(start(0, 0), (struct geo_spot){0, 9}), 20.1246, 5e-5, "diagonal");
    near(geo_distance_m((struct geo_spot){9, 0}, (struct geo_spot){0, 9}), 12.7279, 5e-5, "half");
    for (size_t i = 0; i < sizeof receiver / sizeof *receiver; i++)
        near(geo_distance_m(start(0, 0), (struct geo_spot){9 - receiver[i].across_m, 7}),
             receiver[i].m, 5e-5, "to a receiver 7 m from the net");
}

/* A contact 1 m behind the end line against one 0.5 m inside. */
static void longer(void **state) {
    static const struct {
        double d_m, across_m, ratio;
    } rows[] = {
        {9, 0, 1.0857}, {9, 4.5, 1.0806}, {9, 9, 1.0684}, /* to the far end line */
        {7, 0, 1.0968}, {7, 4.5, 1.0896}, {7, 9, 1.0732}, /* to a receiver */
        {0, 0, 1.1765}, {0, 4.5, 1.1402}, {0, 9, 1.0868}, /* to the net */
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        near(geo_longer(start(0, -1), start(0, .5),
                        (struct geo_spot){9 - rows[i].across_m, rows[i].d_m}),
             rows[i].ratio, 5e-5, "ratio");
}

/* 3.1: 65 to 67 cm round. 2.1.1: nets of 2.43 and 2.24 m. */
static void balls_and_heights(void **state) {
    (void)state;
    near(geo_ball_m(GEO_BALL_LEAST_MM / 1000.0), .103451, 5e-7, "least radius");
    near(geo_ball_m(GEO_BALL_MOST_MM / 1000.0), .106634, 5e-7, "greatest radius");
    near(geo_ball_m(.66), ball_m, 5e-7, "66 cm");
    near(geo_degree_m(18), .3142, 5e-5, "a degree over 18 m");
    near(geo_degree_m(16), .2793, 5e-5, "a degree over 16 m");
    near(geo_straight_m(-9, 9, 2.43, ball_m), 4.9650, 6e-5, "men");
    near(geo_straight_m(-9, 9, 2.24, ball_m), 4.5850, 6e-5, "women");
}

/* Room to the near and the far side line for a landing at d 8. The table has
 * one decimal. */
static void room(void **state) {
    static const struct {
        double side_m;
        struct {
            double past_m, near_deg, far_deg;
        } at[3];
    } rows[] = {
        {4.5, {{-1, 14.0, 14.0}, {0, 14.8, 14.8}, {1, 15.7, 15.7}}},
        {2.5, {{-1, 7.9, 19.9}, {0, 8.4, 20.9}, {1, 8.9, 22.1}}},
        {1.5, {{-1, 4.8, 22.6}, {0, 5.0, 23.8}, {1, 5.4, 25.1}}},
        {0.5, {{-1, 1.6, 25.3}, {0, 1.7, 26.6}, {1, 1.8, 28.0}}},
        {0.1, {{-1, 0.3, 26.3}, {0, 0.3, 27.6}, {1, 0.4, 29.1}}},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (size_t k = 0; k < 3; k++) {
            struct geo_window w = geo_window(start(rows[i].side_m, rows[i].at[k].past_m), 8, 0);
            near(-w.left_deg, rows[i].at[k].near_deg, .0501, "near");
            near(w.right_deg, rows[i].at[k].far_deg, .0501, "far");
        }
}

/* Per cent wide when aimed straight ahead, for lengths of 17 m and a scatter of
 * 1, 2 and 3 degrees. */
static void wide(void **state) {
    static const struct {
        double inside_m, room_deg, percent[3];
    } rows[] = {
        {0.25, 0.84, {20, 34, 39}}, {0.50, 1.68, {5, 20, 29}}, {1.00, 3.37, {0, 5, 13}},
        {1.50, 5.04, {0, 1, 5}},    {2.00, 6.71, {0, 0, 1}},   {3.00, 10.01, {0, 0, 0}},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        near(-geo_window(start(rows[i].inside_m, 0), 8, 0).left_deg, rows[i].room_deg, .0051,
             "room");
        for (unsigned sd = 1; sd <= 3; sd++)
            near(100 * geo_wide_angle_frac(rows[i].inside_m, 17, sd), rows[i].percent[sd - 1],
                 .501, "wide");
    }
}

/* The upper tail of the normal distribution at 0, 1 and 1.959964 (statistical
 * tables): half of all balls aimed at the line are wide. */
static void wide_by_metres(void **state) {
    (void)state;
    near(geo_wide_frac(0, .7), .5, 1e-12, "on the line");
    near(geo_wide_frac(.7, .7), .158655, 5e-7, "one sd");
    near(geo_wide_frac(1.959964, 1), .025, 5e-8, "2.5 %");
    near(geo_wide_frac(-.7, .7), .841345, 5e-7, "aimed outside");
}

/* 1.3.2, 8.3: the lines belong to the court, so their outer edges are 0. */
static void margins(void **state) {
    (void)state;
    struct geo_margins m = geo_margins((struct geo_spot){-.3, 9.5});
    near(m.right_m, .3, 1e-12, "right");
    near(m.left_m, -9.3, 1e-12, "left");
    near(m.end_m, .5, 1e-12, "end");
    m = geo_margins((struct geo_spot){9, 9});
    near(m.left_m, 0, 1e-12, "on the left line");
    near(m.end_m, 0, 1e-12, "on the end line");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(windows), cmocka_unit_test(crossing),
        cmocka_unit_test(lengths), cmocka_unit_test(longer),
        cmocka_unit_test(balls_and_heights), cmocka_unit_test(room),
        cmocka_unit_test(wide),    cmocka_unit_test(wide_by_metres),
        cmocka_unit_test(margins),
    };
    return cmocka_run_group_tests_name("geometry", tests, NULL, NULL);
}
