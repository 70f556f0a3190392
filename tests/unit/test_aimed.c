/* From files of notes to advice for one server. What is expected was worked out
 * by hand from the notes below, but for the last test: there the serves are spread
 * as a known scatter would spread them, and the advice must be the one that
 * aim.h gives for that scatter (our own computation). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdlib.h>

#include "aimed.h"

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

#define SQUAD \
    "team H \"Herons\" women\nplayer H7 \"Mira\" topspin h2.95\nplayer H9 \"Zofia\" float\n" \
    "player H3 \"Elif\"\nplayer H10 \"Nora\"\nplayer H11 \"Ines\"\nplayer H12 \"Ana\"\n"
#define PRACTICE "notation 1\npractice 2026-10-06\n" SQUAD
#define MATCH "notation 1\nmatch 2026-10-03\n" SQUAD "team G \"Foxes\"\nset 1 H\n"

static void add(struct aimed *m, struct str bytes) {
    struct diags d;
    struct text t;
    diags_init(&d, arena);
    text_take(&t, STR("test"), bytes, arena, &d);
    const struct checked *c = check_text(&t, CHECK_KEEP, arena, &d);
    if (d.errors)
        fail_msg("line %u of the notes has an error", d.at[0].place.line);
    aimed_add(m, c);
}

static struct aimed *of(const char *a, const char *b) {
    struct aimed *m = aimed_new(arena);
    add(m, str_of(a));
    if (b)
        add(m, str_of(b));
    return m;
}

static size_t shirt(const struct aimed *m, unsigned number) {
    for (size_t i = 0; i < aimed_people(m); i++)
        if (aimed_person(m, i)->shirt == number)
            return i;
    fail_msg("no shirt %u", number);
    return 0;
}

static struct aimed_advice advice(const struct aimed *m, unsigned number, enum serve_type type) {
    struct aimed_advice out;
    aimed_advise(m, shirt(m, number), type, arena, &out);
    return out;
}

static void near(double got, double expected, double tolerance, const char *what) {
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: %.6f, not %.6f", what, got, expected);
}

/* ---- counts ------------------------------------------------------------------ */

/* Aims of lines and of drills count; a foot fault tells nothing of its place; a
 * replay is no attempt; a serve of another type and their serves are apart. */
static void counts(void **state) {
    struct aimed *m = of(MATCH "7 ad5 replay\n7 ad6 in2 6 won\n7 in1 won\n7 ad6 foot\nG3 net\n"
                               "9 in2 won\n9 net\nG4 net\n",
                         PRACTICE "7 in x3\ndrill \"Corner\" ad5\n7 in d5 x4\n7 net\n"
                                  "7 float net\n");
    struct aimed_counts by[AIMED_TYPES];
    (void)state;
    aimed_by_type(m, shirt(m, 7), by);
    assert_int_equal(by[TYPE_TOPSPIN].serves_n, 3 + 8);
    assert_int_equal(by[TYPE_TOPSPIN].practice_n, 8);
    assert_int_equal(by[TYPE_TOPSPIN].aimed_n, 1 + 5);
    assert_int_equal(by[TYPE_FLOAT].serves_n, 1);
    assert_int_equal(by[TYPE_FLOAT].aimed_n, 1);
    assert_int_equal(aimed_usual_type(m, shirt(m, 7)), TYPE_TOPSPIN);
    assert_int_equal(aimed_usual_type(m, shirt(m, 9)), TYPE_FLOAT);
    assert_int_equal(aimed_people(m), 2);
}

/* Her aims, the most used first, at the middle of what was aimed at. */
static void aims(void **state) {
    struct aimed *m =
        of(PRACTICE "7 ad6 in 6\n7 a5-6 net x3\n7 a2.0,8.5 long x2\n7 ad6 left\n", NULL);
    struct aimed_advice got = advice(m, 7, TYPE_TOPSPIN);
    (void)state;
    assert_int_equal(got.used_n, 3);
    assert_int_equal(got.used[0].n, 3);
    near(got.used[0].x_m, 3, 0, "x of 5-6");
    near(got.used[0].d_m, 6, 0, "d of 5-6");
    assert_int_equal(got.used[1].n, 2);
    near(got.used[1].x_m, 4.5, 0, "x of d6");
    near(got.used[1].d_m, 8.5, 0, "d of d6");
    assert_int_equal(got.aims[1].kind, PLACE_DEEP);
    near(got.used[2].x_m, 2, 0, "x in metres");
}

/* ---- the flight -------------------------------------------------------------- */

/* Measured on the lines, else in her routine, else usual for the type. */
static void measures(void **state) {
    struct aimed *m = of(PRACTICE "7 v72 in\n7 v90 in x2\n7 float v40 in\n", NULL);
    struct aimed_advice top = advice(m, 7, TYPE_TOPSPIN), flat = advice(m, 7, TYPE_FLOAT);
    (void)state;
    near(top.net_m, 2.24, 1e-12, "net");
    assert_true(top.measured[DEPTH_SPEED_MS] && top.measured[DEPTH_HEIGHT_M]);
    assert_false(top.measured[DEPTH_CONTACT_M] || top.measured[DEPTH_SPIN_REV_S]);
    near(top.depth.used[DEPTH_SPEED_MS], 84 / 3.6, 1e-9, "speed");
    near(top.depth.used[DEPTH_HEIGHT_M], 2.95, 1e-9, "height of her routine");
    near(flat.depth.used[DEPTH_SPEED_MS], 40 / 3.6, 1e-9, "speed of the other type");
    assert_false(flat.measured[DEPTH_HEIGHT_M]);
    near(flat.depth.used[DEPTH_HEIGHT_M], depth_usual(DEPTH_FLOAT, DEPTH_HEIGHT_M, 2.24).value, 0,
         "usual height");
}

/* ---- what can't be told ------------------------------------------------------ */

static void states(void **state) {
    static const char no_net[] =
        "notation 1\npractice 2026-10-06\nteam H \"Herons\"\nplayer H7 \"Mira\" float\n7 a5 in\n";
    (void)state;
    assert_int_equal(advice(of(PRACTICE "3 a5 in\n", NULL), 3, TYPE_NONE).state, AIMED_NO_TYPE);
    assert_int_equal(advice(of(no_net, NULL), 7, TYPE_FLOAT).state, AIMED_NO_NET);
    /* 40 km/h from 1 m above the floor, 7 m behind the line. */
    assert_int_equal(advice(of(PRACTICE "9 v40 h1.0 c-7.0 a5 net\n", NULL), 9, TYPE_FLOAT).state,
                     AIMED_NO_FLIGHT);
    /* 100 km/h without spin: all that clears the tape is long. */
    assert_int_equal(advice(of(PRACTICE "9 v100 h2.4 a5 net\n", NULL), 9, TYPE_FLOAT).state,
                     AIMED_NO_FLIGHT);
    assert_int_equal(advice(of(PRACTICE "7 in 5\n7 net\n", NULL), 7, TYPE_TOPSPIN).state,
                     AIMED_NO_AIMS);
    assert_int_equal(advice(of(PRACTICE "7 a5 in 5\n7 a5 net\n", NULL), 7, TYPE_TOPSPIN).state,
                     AIMED_NO_WORTH);
}

/* Without aims the picture of landings is left: eight in the last metre of 5. */
static void landing(void **state) {
    struct aimed *m = of(PRACTICE "7 in d5 x8\n7 foot\n9 in 1 x5\n", NULL);
    struct aimed_advice got = advice(m, 7, TYPE_TOPSPIN);
    (void)state;
    assert_int_equal(got.landed_n, 8);
    assert_true(got.landing.x_m > 1.5 && got.landing.x_m < 3);
    assert_true(got.landing.d_m > 8 && got.landing.d_m < 9);
    assert_int_equal(got.used_n, 0);
}

/* ---- worth ------------------------------------------------------------------- */

/* Sixteen rallies a match. Zone 6: 6 of 8 won; zone 5: 1 of 4; zone 1: 4 of 4, two
 * of them at the seam with 6, which has them too. An overlap, errors and a practice
 * tell nothing. */
#define RALLIES \
    MATCH "7 in2 6 won\n7 in2 6 won\n7 in1 6 won\n7 in1 1 won\n7 ace 1-6\n7 ace 1-6\n" \
          "7 net overlap\n7 in2 won\n7 in3 6 lost\nG3 net\n9 in1 5 won\n9 in3 5 lost\n" \
          "G4 net\n3 ace 1\n3 in3 5 lost\nG5 net\n10 in2 6 won\n10 in3 6 lost\nG6 net\n" \
          "11 in3 5 lost\nG7 net\n12 in1 6 won\n12 in1 6 won\n12 ad6 net\n"

static void worth(void **state) {
    struct aimed *m = of(RALLIES, RALLIES);
    (void)state;
    add(m, STR(PRACTICE "7 in 5 x9\n7 a5 in 5 x9\n"));
    struct aimed_advice got = advice(m, 7, TYPE_TOPSPIN);
    assert_int_equal(got.state, AIMED_ADVICE);
    assert_int_equal(got.rallies.x, 22);
    assert_int_equal(got.rallies.n, 32);
    assert_int_equal(got.worth[6].rate.x, 2 * 8);
    assert_int_equal(got.worth[6].rate.n, 2 * 10);
    assert_int_equal(got.worth[5].rate.x, 2 * 1);
    assert_int_equal(got.worth[5].rate.n, 2 * 4);
    assert_int_equal(got.worth[1].rate.x, 2 * 4);
    assert_int_equal(got.worth[1].rate.n, 2 * 4);
    assert_int_equal(got.worth[3].rate.n, 0);
    /* Fewer than 100 rallies: 30 of the common rate, with the seam twice, beside
     * each zone's own (shrink.h). */
    near(got.worth[1].frac, (8 + 30 * 26 / 36.0) / (8 + 30), 1e-9, "zone 1");
    near(got.worth[3].frac, 26 / 36.0, 1e-9, "a zone where nothing landed");
    assert_int_equal(got.answer.say, SAY_AIM_GENERAL);
}

/* ---- all of it --------------------------------------------------------------- */

/* 500 serves aimed at 2.0,7.6, on a grid of half a metre as the scatter has them,
 * and what fell into the net or out. */
static void put_spread(struct buf *b, const struct aim_court *c) {
    static const double inf = HUGE_VAL;
    struct scatter s = c->scatter;
    struct scatter_seen rest[4] = {{-inf, inf, -inf, inf, c->tape_m, 1, SCATTER_STOPPED},
                                   {0, 9, 9, inf, c->tape_m, 1, SCATTER_CROSSED},
                                   {9, inf, -inf, inf, c->tape_m, 1, SCATTER_CROSSED},
                                   {-inf, 0, -inf, inf, c->tape_m, 1, SCATTER_CROSSED}};
    static const char *const words[] = {"net", "long", "left", "right"};
    s.x_m += 2.0;
    s.d_m += 7.6;
    for (int i = 0; i < 18 * 18; i++) {
        double x = i % 18 / 2.0, d = i / 18 / 2.0;
        struct scatter_seen cell = {x, x + .5, d, d + .5, c->tape_m, 1, SCATTER_CROSSED};
        double n = round(500 * scatter_part(&s, &cell, c->tau_m).p);
        if (n > 0)
            buf_printf(b, "7 in %.2f,%.2f x%.0f\n", x + .25, d + .25, n);
    }
    for (int i = 0; i < 4; i++) {
        double n = round(500 * scatter_part(&s, &rest[i], c->tau_m).p);
        if (n > 0)
            buf_printf(b, "7 %s x%.0f\n", words[i], n);
    }
}

static void whole(void **state) {
    struct buf b;
    struct aimed *m = of(RALLIES, RALLIES);
    struct aimed_advice flight = advice(of(PRACTICE "7 in\n", NULL), 7, TYPE_TOPSPIN);
    struct aim_court c = {.tape_m = flight.depth.clear_m, .tau_m = flight.depth.spread_m,
                          .scatter = {.4, -.3, 1.1, 1.3, .2}};
    (void)state;
    buf_init(&b, arena);
    buf_add(&b, STR(PRACTICE "drill \"Corner\" a2.0,7.6\n"));
    put_spread(&b, &c);
    add(m, buf_str(&b));
    struct aimed_advice got = advice(m, 7, TYPE_TOPSPIN);
    const struct aim_case *is = &got.answer.by[AIM_AS_IT_IS];
    for (unsigned zone = 1; zone < AIM_ZONES; zone++)
        c.worth[zone] = got.worth[zone].frac;
    struct aim_best best = aim_at_court(&c, arena);
    assert_int_equal(got.answer.say, SAY_AIM_OWN);
    near(is->scatter.x_m, .4, .05, "bias across");
    near(is->scatter.d_m, -.3, .05, "bias in depth");
    near(is->scatter.sd_x_m, 1.1, .05, "scatter across");
    near(is->scatter.sd_d_m, 1.3, .05, "scatter in depth");
    near(is->scatter.rho, .2, .05, "correlation");
    near(is->best.x, best.x, .15, "x of the advice");
    near(is->best.d, best.d, .15, "d of the advice");
    near(is->best.value, best.value, .01, "its value");
    near(is->now, aim_value(&c, 2.0, 7.6), .01, "value now");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(counts), cmocka_unit_test(aims),    cmocka_unit_test(measures),
        cmocka_unit_test(states), cmocka_unit_test(landing), cmocka_unit_test(worth),
        cmocka_unit_test(whole),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
