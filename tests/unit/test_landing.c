/* What each line of notes leaves possible. The table is the notation's own; that
 * errors belong into it, and that a received ball was played before it landed, is
 * our own choice (no source). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdlib.h>

#include "landing.h"

#define ALL -HUGE_VAL, HUGE_VAL
#define HEAD "notation 1\nmatch 2026-10-03\nteam H \"Herons\" women\nteam G \"Foxes\"\nset 1 H\n"
#define PRACTICE "notation 1\npractice 2026-10-06\nteam H \"Herons\" women\n"

/* A tape at 6.5 m; the ball is 0.8 m short of its landing when 0.5 m up, 2.1 m
 * when 1.1 m up; 0.2 m at the net are one of landing. */
static const struct depth flight = {.clear_m = 6.5, .spread_m = .6, .net_per_landing = .2,
                                    .short_low_m = .8, .short_high_m = 2.1};

static struct arena *arena;

static void no_memory(size_t bytes) {
    (void)bytes;
    abort();
}

static int begin(void **state) {
    (void)state;
    arena = arena_new(no_memory);
    return 0;
}

static int end(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

static const struct checked *notes(const char *head, const char *line) {
    struct diags d;
    struct text t;
    diags_init(&d, arena);
    text_take(&t, STR("test"), str_printf(arena, "%s%s\n", head, line), arena, &d);
    const struct checked *c = check_text(&t, CHECK_KEEP, arena, &d);
    if (d.errors)
        fail_msg("%s: error", line);
    return c;
}

static void near(double got, double expected, const char *line, const char *what) {
    if (!(got == expected || fabs(got - expected) < 1e-12))
        fail_msg("%s: %s is %f, not %f", line, what, got, expected);
}

static void compare(struct scatter_seen got, const struct scatter_seen *want, const char *line) {
    near(got.x0_m, want->x0_m, line, "x from");
    near(got.x1_m, want->x1_m, line, "x to");
    near(got.d0_m, want->d0_m, line, "d from");
    near(got.d1_m, want->d1_m, line, "d to");
    near(got.tape_m, want->tape_m, line, "tape");
    near(got.n, want->n, line, "n");
    assert_int_equal(got.net, want->net);
}

static const struct row {
    const char *line;
    struct scatter_seen seen;
} rows[] = {
    /* On the floor. */
    {"7 ace 2.1,8.4", {2.1, 2.1, 8.4, 8.4, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 5", {0, 3, 3, 9, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 6", {3, 6, 3, 9, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 1", {6, 9, 3, 9, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 4", {0, 3, 0, 3, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 3", {3, 6, 0, 3, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 2", {6, 9, 0, 3, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace d5", {0, 3, 8, 9, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 5-6", {2.25, 3.75, 3, 9, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 1-6", {5.25, 6.75, 3, 9, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace d5-6", {2.25, 3.75, 8, 9, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 2-3", {5.25, 6.75, 0, 3, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 3-4", {2.25, 3.75, 0, 3, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 1-2", {6, 9, 2.25, 3.75, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 6-3", {3, 6, 2.25, 3.75, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 5-4", {0, 3, 2.25, 3.75, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace", {0, 9, 0, 9, 6.5, 1, SCATTER_CROSSED}},
    /* Received: between .8 and 2.1 m behind where it was played. */
    {"7 in2 5", {0, 3, 3.8, 11.1, 6.5, 1, SCATTER_CROSSED}},
    {"7 in1 d5 by4", {0, 3, 8.8, 11.1, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace 2.1,8.4 by4", {2.1, 2.1, 9.2, 10.5, 6.5, 1, SCATTER_CROSSED}},
    {"7 over 5-6", {2.25, 3.75, 3.8, 11.1, 6.5, 1, SCATTER_CROSSED}},
    {"7 in3 going", {0, 9, 0, HUGE_VAL, 6.5, 1, SCATTER_CROSSED}},
    {"7 play", {0, 9, 0, HUGE_VAL, 6.5, 1, SCATTER_CROSSED}},
    {"7 ace by4", {0, 9, 0, HUGE_VAL, 6.5, 1, SCATTER_CROSSED}},
    /* Errors, and an overlap behind one. */
    {"7 net", {ALL, ALL, 6.5, 1, SCATTER_STOPPED}},
    {"7 net 3", {ALL, ALL, 6.5, 1, SCATTER_STOPPED}},
    {"7 net-0.2", {ALL, ALL, 5.5, 1, SCATTER_AT}},
    {"7 net overlap", {ALL, ALL, 6.5, 1, SCATTER_STOPPED}},
    {"7 long", {0, 9, 9, HUGE_VAL, 6.5, 1, SCATTER_CROSSED}},
    {"7 long+0.5", {0, 9, 9.5, 9.5, 6.5, 1, SCATTER_CROSSED}},
    {"7 long 4.5,9.4", {4.5, 4.5, 9.4, 9.4, 6.5, 1, SCATTER_CROSSED}},
    {"7 left", {9, HUGE_VAL, ALL, 6.5, 1, SCATTER_CROSSED}},
    {"7 left+0.3", {9.3, 9.3, ALL, 6.5, 1, SCATTER_CROSSED}},
    {"7 right", {-HUGE_VAL, 0, ALL, 6.5, 1, SCATTER_CROSSED}},
    {"7 right+0.3", {-.3, -.3, ALL, 6.5, 1, SCATTER_CROSSED}},
};

static void lines(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct checked *c = notes(HEAD, rows[i].line);
        struct scatter_seen seen;
        assert_true(landing_seen(&c->played[0], &flight, &seen));
        compare(seen, &rows[i].seen, rows[i].line);
    }
}

static void left_out(void **state) {
    static const char *const said[] = {
        "7 foot", "7 clock", "7 drop", "7 screen", "7 antenna", "7 ceiling", "7 mate", "7 order",
        "7 overlap", "7 replay", "7 ace 5\ncancel H 1"};
    (void)state;
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        struct scatter_seen seen;
        assert_false(landing_seen(&notes(HEAD, said[i])->played[0], &flight, &seen));
    }
}

/* A practice: repeated serves, and aims of drills. */
static void practice(void **state) {
    static const struct scatter_seen long_of_4 = {0, 9, 9, HUGE_VAL, 6.5, 4, SCATTER_CROSSED};
    static const struct scatter_seen from_d6 = {-4.5, 4.5, .5, HUGE_VAL, -2, 4, SCATTER_CROSSED};
    static const struct scatter_seen in_from_spot = {-2, 7, -8.5, .5, -2, 1, SCATTER_CROSSED};
    const struct checked *c =
        notes(PRACTICE, "7 in 5\ndrill \"Last metre\" ad6\n7 long x4\n7 a2.0,8.5 in");
    struct scatter_seen seen;
    (void)state;
    assert_int_equal(played_aim(c, &c->played[0]).kind, 0);
    assert_true(landing_seen(&c->played[1], &flight, &seen));
    compare(seen, &long_of_4, "long x4");
    compare(landing_from(seen, played_aim(c, &c->played[1])), &from_d6, "long x4, aimed at d6");
    assert_true(landing_seen(&c->played[2], &flight, &seen));
    compare(landing_from(seen, played_aim(c, &c->played[2])), &in_from_spot, "own aim");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines),
        cmocka_unit_test(left_out),
        cmocka_unit_test(practice),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
