/* Agreement beyond chance against published values.
 * C68: J. Cohen, Psychol. Bull. 70 (1968) 213-220. F81: J. L. Fleiss,
 * Statistical Methods for Rates and Proportions, 2nd ed. 1981, table 13.1.
 * FCE: table of J. L. Fleiss, J. Cohen, B. S. Everitt, Psychol. Bull. 72 (1969)
 * 323-327, as R package psych holds it; its kappas and errors are our own
 * computation. FC: A. R. Feinstein, D. V. Cicchetti, J. Clin. Epidemiol. 43
 * (1990) 543-549; AC1 of these tables is our own computation by the formula of
 * K. L. Gwet, Br. J. Math. Stat. Psychol. 61 (2008) 29-48. Digits beyond the
 * printed ones were computed by two programs of our own. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdlib.h>

#include "agree.h"
#include "kit/lifelike.h"

static const unsigned c68[3][3] = {{88, 14, 18}, {10, 40, 10}, {2, 6, 12}};
static const unsigned f81[3][3] = {{75, 1, 4}, {5, 4, 1}, {0, 0, 10}};
static const unsigned fce[3][3] = {{106, 10, 4}, {22, 28, 10}, {2, 12, 6}};

static struct agree_table three(const unsigned n[3][3]) {
    struct agree_table t = {.k = 3};
    for (unsigned i = 0; i < 3; i++)
        for (unsigned j = 0; j < 3; j++)
            t.n[i][j] = n[i][j];
    return t;
}

static struct agree_table two(unsigned a, unsigned b, unsigned c, unsigned d) {
    return (struct agree_table){.k = 2, .n = {{a, b}, {c, d}}};
}

static void near(double got, double expected, double tolerance, const char *what) {
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: %.7f, not %.7f", what, got, expected);
}

static struct kappa nominal(const struct agree_table *t) {
    struct agree_weights w = agree_nominal();
    struct kappa k = agree_kappa(t, &w);
    assert_true(k.defined);
    return k;
}

/* C68 weighs disagreement: 0 1 3 / 1 0 6 / 3 6 0. One minus a sixth of that is
 * the weight of agreement. */
static void cohen(void **state) {
    static const double apart[3][3] = {{0, 1, 3}, {1, 0, 6}, {3, 6, 0}};
    struct agree_table t = three(c68);
    struct agree_weights w = {{{0}}};
    (void)state;
    for (unsigned i = 0; i < 3; i++)
        for (unsigned j = 0; j < 3; j++)
            w.w[i][j] = 1 - apart[i][j] / 6;
    near(nominal(&t).kappa, .492, 5e-4, "C68 kappa");
    near(nominal(&t).kappa, .491525, 5e-7, "C68 kappa, own digits");
    near(agree_kappa(&t, &w).kappa, .348, 5e-4, "C68 weighted kappa");
    near(agree_kappa(&t, &w).kappa, .347826, 5e-7, "C68 weighted kappa, own digits");
}

static void fleiss(void **state) {
    struct agree_table t = three(f81);
    struct kappa k = nominal(&t);
    (void)state;
    near(k.kappa, .68, 5e-3, "F81 kappa");
    near(k.se_chance, .076, 5e-4, "F81 error without agreement");
    near(k.se, .087, 1e-3, "F81 error"); /* .0877 is printed cut off */
    near(k.kappa, .676471, 5e-7, "F81 kappa, own digits");
    near(k.se_chance, .076187, 5e-7, "F81 error without agreement, own digits");
    near(k.se, .087703, 5e-7, "F81 error, own digits");
}

/* FCE's weights of agreement: 1 0 4/9 / 0 1 2/3 / 4/9 2/3 1. The
 * values below were computed from .4444 and .6667, as the table prints them. */
static void fleiss_cohen_everitt(void **state) {
    struct agree_table t = three(fce);
    struct agree_weights w = {{{1, 0, .4444}, {0, 1, .6667}, {.4444, .6667, 1}}};
    struct kappa k = nominal(&t), weighted = agree_kappa(&t, &w);
    (void)state;
    near(k.kappa, .428571, 5e-7, "FCE kappa");
    near(k.se, .053711, 5e-7, "FCE error");
    near(k.se_chance, .055512, 5e-7, "FCE error without agreement");
    near(weighted.kappa, .507070, 5e-6, "FCE weighted kappa");
    near(weighted.se, .056994, 5e-6, "FCE weighted error");
    near(weighted.se_chance, .065336, 5e-6, "FCE weighted error without agreement");
}

/* Two tables with the same agreement of 85 of 100. */
static void feinstein_cicchetti(void **state) {
    struct agree_table even = two(40, 9, 6, 45), rare = two(80, 10, 5, 5);
    (void)state;
    assert_int_equal(agree_rate(&even).x, 85);
    assert_int_equal(agree_rate(&rare).x, 85);
    near(nominal(&even).kappa, .70, 5e-3, "FC even kappa");
    near(nominal(&rare).kappa, .32, 5e-3, "FC rare kappa");
    near(nominal(&even).kappa, .699519, 5e-7, "FC even kappa, own digits");
    near(nominal(&rare).kappa, .318182, 5e-7, "FC rare kappa, own digits");
    near(agree_ac1(&even), .7007, 5e-5, "FC even AC1");
    near(agree_ac1(&rare), .8080, 5e-5, "FC rare AC1");
}

/* With two answers quadratic weights are none. */
static void quadratic(void **state) {
    struct agree_table t = two(40, 9, 6, 45);
    struct agree_weights two_answers = agree_quadratic(2), four = agree_quadratic(4);
    (void)state;
    near(agree_kappa(&t, &two_answers).kappa, nominal(&t).kappa, 1e-12, "two answers");
    near(four.w[0][3], 0, 1e-12, "farthest apart");
    near(four.w[0][1], 1 - 1 / 9.0, 1e-12, "next to each other");
    near(four.w[3][1], 1 - 4 / 9.0, 1e-12, "two apart");
}

/* Both always say the same one thing: no kappa. All agreed on two: it is 1,
 * and the error of 0 is no interval. */
static void ends(void **state) {
    struct agree_table one = two(50, 0, 0, 0), all = two(30, 0, 0, 20), none = two(0, 0, 0, 0);
    struct agree_weights w = agree_nominal();
    struct interval i;
    (void)state;
    assert_false(agree_kappa(&one, &w).defined);
    assert_false(agree_kappa(&none, &w).defined);
    assert_false(agree_interval(agree_kappa(&one, &w), &i));
    near(nominal(&all).kappa, 1, 1e-12, "all agreed");
    assert_false(agree_interval(nominal(&all), &i));
    struct agree_table f = three(f81);
    assert_true(agree_interval(nominal(&f), &i));
    near(i.low, .676471 - 1.959964 * .087703, 1e-5, "low");
    near(i.high, .676471 + 1.959964 * .087703, 1e-5, "high");
}

/* ---- pairs --------------------------------------------------------------- */

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

static int finish(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

static const struct checked *notes(struct str bytes) {
    struct diags d;
    struct text t;
    diags_init(&d, arena);
    text_take(&t, STR("test"), bytes, arena, &d);
    const struct checked *c = check_text(&t, CHECK_KEEP, arena, &d);
    assert_int_equal(d.errors, 0);
    return c;
}

static struct agree agreed(const struct checked *a, const struct checked *b) {
    struct agree g;
    assert_int_equal(agree_of(a, b, arena, &g), AGREE_FITS);
    assert_int_equal(g.pair_n + g.alone_n[0], a->played_n);
    assert_int_equal(g.pair_n + g.alone_n[1], b->played_n);
    return g;
}

#define HEAD "notation 1\nmatch 2026-10-03\nteam H \"Herons\" women\nteam G \"Foxes\"\nset 1 H\n"

/* The second scorer was late: the serves of the same score are paired. */
static void late(void **state) {
    (void)state;
    struct agree g = agreed(notes(STR(HEAD "7 ace\n7 ace\n7 ace\n7 net\nG3 net\n")),
                            notes(STR(HEAD "gap 2-0 H\n7 ace\n7 net\nG3 net\n")));
    assert_int_equal(g.pair_n, 3);
    assert_int_equal(g.alone_n[0], 2);
    assert_int_equal(g.alone[0][0], 0);
    assert_int_equal(g.alone[0][1], 1);
    assert_int_equal(agree_rate(&g.field[FIELD_OUTCOME].table).x, 3);
}

/* A replay that one of them left out has the score of the serve behind it. */
static void replay(void **state) {
    (void)state;
    struct agree g = agreed(notes(STR(HEAD "7 ace\n7 replay\n7 net\nG3 net\n")),
                            notes(STR(HEAD "7 ace\n7 net\nG3 net\n")));
    assert_int_equal(g.pair_n, 3);
    assert_int_equal(g.alone_n[0], 1);
    assert_int_equal(g.alone_n[1], 0);
}

static void fields(void **state) {
    (void)state;
    struct agree g = agreed(
        notes(STR(HEAD "observe toss\n7 td ace 5\n7 in2 6 won\n7 td net\nG3 net\n8 net\n")),
        notes(STR(HEAD "observe toss hit\n7 ace d5\n7 td in1 1 won\n7 td hw long\nG in3\n9 ace\n")));
    assert_int_equal(g.pair_n, 5);
    assert_int_equal(g.server_n, 4);
    assert_int_equal(g.server_same_n, 3);
    assert_false(agree_other_server(&g, g.pairs[3]));
    assert_true(agree_other_server(&g, g.pairs[4]));
    const struct agree_facts *f = g.field;
    assert_int_equal(f[FIELD_OUTCOME].table.n[OUTCOME_ACE][OUTCOME_ACE], 1);
    assert_int_equal(f[FIELD_OUTCOME].table.n[OUTCOME_IN][OUTCOME_IN], 1);
    assert_int_equal(f[FIELD_OUTCOME].table.n[OUTCOME_NET][OUTCOME_LONG], 1);
    assert_int_equal(f[FIELD_OUTCOME].table.n[OUTCOME_NET][OUTCOME_IN], 1);
    assert_int_equal(f[FIELD_OUTCOME].table.n[OUTCOME_NET][OUTCOME_ACE], 1);
    assert_int_equal(f[FIELD_PASS].table.n[0][0], 1);
    assert_int_equal(f[FIELD_PASS].table.n[2][1], 1);
    assert_int_equal(agree_rate(&f[FIELD_PASS].table).n, 2);
    assert_int_equal(f[FIELD_PASS].one_n, 2);
    assert_int_equal(f[FIELD_ZONE].table.n[4][4], 1);
    assert_int_equal(f[FIELD_ZONE].table.n[5][0], 1);
    assert_int_equal(f[FIELD_MARK + MARK_td].table.n[1][0], 1);
    assert_int_equal(f[FIELD_MARK + MARK_td].table.n[0][1], 1);
    assert_int_equal(f[FIELD_MARK + MARK_td].table.n[1][1], 1);
    assert_int_equal(agree_rate(&f[FIELD_MARK + MARK_hw].table).n, 0);
    assert_int_equal(f[FIELD_MARK + MARK_hw].one_n, 4);
}

/* The other team's scorer calls the other team ours. */
static void turned(void **state) {
    (void)state;
    struct agree g = agreed(
        notes(STR(HEAD "7 ace\n7 net\nG3 net\n")),
        notes(STR("notation 1\nmatch 2026-10-03\nteam F \"Foxes\"\nteam H \"Herons\"\nset 1 H\n"
                  "H7 ace\nH7 net\n3 net\n")));
    assert_int_equal(g.pair_n, 3);
    assert_int_equal(agree_rate(&g.field[FIELD_OUTCOME].table).x, 3);
}

static void no_fit(void **state) {
    struct agree g;
    const struct checked *a = notes(STR(HEAD "7 ace\n"));
    (void)state;
    assert_int_equal(
        agree_of(a,
                 notes(STR("notation 1\nmatch 2026-10-04\nteam H \"Herons\"\nteam G \"Foxes\"\n")),
                 arena, &g),
        AGREE_OTHER_DAY);
    assert_int_equal(
        agree_of(a,
                 notes(STR("notation 1\nmatch 2026-10-03\nteam H \"Herons\"\nteam L \"Larks\"\n")),
                 arena, &g),
        AGREE_OTHER_TEAMS);
    assert_int_equal(
        agree_of(a, notes(STR("notation 1\npractice 2026-10-03\nteam H \"Herons\"\n")), arena, &g),
        AGREE_NO_MATCH);
}

/* A record agrees with itself: every serve paired with itself. */
static void with_itself(void **state) {
    (void)state;
    for (uint64_t seed = 1; seed <= 20; seed++) {
        struct life_team ours;
        struct buf b;
        arena_reset(arena);
        buf_init(&b, arena);
        life_team_draw(&ours, 'H', seed);
        life_match(&b, &ours, (struct life_style){.detail = LIFE_USUAL, .whole = true,
                                                  .ours_only = seed % 5 == 4}, 3, seed);
        const struct checked *c = notes(buf_str(&b));
        struct agree g = agreed(c, c);
        assert_int_equal(g.pair_n, c->played_n);
        for (size_t i = 0; i < g.pair_n; i++)
            assert_int_equal(g.pairs[i].a, g.pairs[i].b);
        for (unsigned f = 0; f < FIELD_N; f++)
            assert_int_equal(agree_rate(&g.field[f].table).x, agree_rate(&g.field[f].table).n);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cohen),
        cmocka_unit_test(fleiss),
        cmocka_unit_test(fleiss_cohen_everitt),
        cmocka_unit_test(feinstein_cicchetti),
        cmocka_unit_test(quadratic),
        cmocka_unit_test(ends),
        cmocka_unit_test(late),
        cmocka_unit_test(replay),
        cmocka_unit_test(fields),
        cmocka_unit_test(turned),
        cmocka_unit_test(no_fit),
        cmocka_unit_test(with_itself),
    };
    return cmocka_run_group_tests(tests, begin, finish);
}
