/* Receivers, places and plans over small invented notes. The counts were done by
 * hand; the intervals are R. G. Newcombe's (Stat. Med. 17 (1998) 873-890). */
#include "scout.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "kit/in_arena.h"
#include "kit/lifelike.h"

static const struct checked *match(struct arena *a, const char *date, const char *rest) {
    struct diags d;
    struct text *t = arena_alloc(a, 1, sizeof *t);
    struct str notes = str_printf(a,
                                  "notation 1\nmatch %s\nteam H \"Herons\" women\n"
                                  "team G \"Foxes\" women\nset 1 H\n%s",
                                  date, rest);
    diags_init(&d, a);
    text_take(t, STR("test"), notes, a, &d);
    const struct checked *c = check_text(t, CHECK_KEEP, a, &d);
    assert_int_equal(d.errors, 0);
    return c;
}

static struct str said(struct rate r, struct arena *a) {
    return str_printf(a, "%u/%u", r.x, r.n);
}

#define rate_is(rate, expected, a) assert_string_equal(said(rate, a).at, expected)

/* ---- places ------------------------------------------------------------------ */

static const struct {
    struct spot spot;
    enum scout_place place;
} places[] = {
    {{0}, SCOUT_NOT_WRITTEN},
    {{PLACE_ZONE, 5, 0, 0, 0}, SCOUT_5},
    {{PLACE_DEEP, 6, 0, 0, 0}, SCOUT_6},
    {{PLACE_ZONE, 3, 0, 0, 0}, SCOUT_FRONT},
    {{PLACE_SEAM, 6, 5, 0, 0}, SCOUT_SEAM_56},
    {{PLACE_DEEP_SEAM, 1, 6, 0, 0}, SCOUT_SEAM_16},
    {{PLACE_SEAM, 3, 4, 0, 0}, SCOUT_FRONT},
    {{PLACE_SEAM, 4, 5, 0, 0}, SCOUT_FRONT},
    {{PLACE_XD, 0, 0, 240, 700}, SCOUT_5},
    {{PLACE_XD, 0, 0, 250, 700}, SCOUT_SEAM_56},
    {{PLACE_XD, 0, 0, 350, 700}, SCOUT_SEAM_56},
    {{PLACE_XD, 0, 0, 360, 700}, SCOUT_6},
    {{PLACE_XD, 0, 0, 550, 700}, SCOUT_SEAM_16},
    {{PLACE_XD, 0, 0, 660, 930}, SCOUT_1},
    {{PLACE_XD, 0, 0, 300, 440}, SCOUT_FRONT},
};

static void a_ball_has_one_place(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof places / sizeof *places; i++)
        if (scout_place(places[i].spot) != places[i].place)
            fail_msg("row %zu: place %d, not %d", i, (int)scout_place(places[i].spot),
                     (int)places[i].place);
}

/* ---- plans ------------------------------------------------------------------- */

/* Under by11: two by 11 (one broke), one by 4 (broke), one untold, one missed. Under
 * 5: zone 5 in three spellings (one broke), seam 5-6 and zone 1 elsewhere. */
static const char planned[] = "plan by11\n"
                              "7 in1 5 by11 won\n"
                              ". in3 5 by11 won\n"
                              ". over 6 by4 won\n"
                              ". play won\n"
                              ". net\n"
                              "G3 net\n"
                              "plan 5\n"
                              "8 in1 d5 won\n"
                              ". in2 2.8,7.0 won\n"
                              ". in2 5 won\n"
                              ". in1 5-6 won\n"
                              ". in3 1 won\n"
                              "plan by4\n";

static void plans_are_kept_by_whoever_received(void **state) {
    size_t n;
    const struct scout_plan *p = scout_plans(match(*state, "2026-10-03", planned), &n, *state);
    assert_int_equal(n, 3);
    assert_int_equal(p[0].set, 1);
    assert_int_equal(p[0].in_play, 4);
    rate_is(p[0].as_planned, "2/3", *state);
    rate_is(p[0].broke, "1/2", *state);
    rate_is(p[0].broke_elsewhere, "1/1", *state);
    assert_int_equal(p[1].in_play, 5);
    rate_is(p[1].as_planned, "3/5", *state);
    rate_is(p[1].broke, "1/3", *state);
    rate_is(p[1].broke_elsewhere, "1/2", *state);
    assert_int_equal(p[2].set, 1);
    assert_int_equal(p[2].in_play, 0);
    struct scout_plan sum = scout_plans_sum(p, n);
    assert_int_equal(sum.in_play, 9);
    rate_is(sum.as_planned, "5/8", *state);
}

/* A verdict needs balls on both sides, and an interval that leaves 0 out. Row (a)
 * of Newcombe's table II, 56/70 and 48/80: .0524 to .3339. */
static const struct {
    struct rate broke, elsewhere;
    enum scout_verdict verdict;
    double difference, low, high;
} verdicts[] = {
    {{0, 0}, {0, 0}, SCOUT_FEW, 0, 0, 0},
    {{5, 9}, {13, 43}, SCOUT_FEW, 0, 0, 0},
    {{56, 70}, {48, 80}, SCOUT_MORE, .2, .0524, .3339},
    {{48, 80}, {56, 70}, SCOUT_LESS, -.2, -.3339, -.0524},
    /* a large difference at few balls stays open (our own computation) */
    {{10, 10}, {0, 20}, SCOUT_OPEN, 1, .6791, 1},
};

static void verdicts_need_balls(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof verdicts / sizeof *verdicts; i++) {
        struct scout_plan sum = {.broke = verdicts[i].broke,
                                 .broke_elsewhere = verdicts[i].elsewhere};
        double difference = 0;
        struct interval in = {0, 0};
        assert_int_equal(scout_verdict(&sum, &difference, &in), verdicts[i].verdict);
        assert_float_equal(difference, verdicts[i].difference, 1e-6);
        assert_float_equal(in.low, verdicts[i].low, 5e-5);
        assert_float_equal(in.high, verdicts[i].high, 5e-5);
    }
}

/* ---- receivers --------------------------------------------------------------- */

static void receivers_add_up_over_matches(void **state) {
    struct scout *s = scout_new(STR("Foxes"), *state);
    struct scout_receiver r[SHIRT_MAX + 1];
    scout_add(s, match(*state, "2026-10-10", planned), THEIRS);
    scout_add(s, match(*state, "2026-10-03", "7 in2 5 by4 won\n. ace 3 by4\n. long\n"), THEIRS);
    assert_int_equal(s->matches, 2);
    assert_int_equal(s->first.day, 3);
    assert_int_equal(s->last.day, 10);
    assert_int_equal(s->server_n, 1);
    assert_int_equal(s->all.serves, 11);
    assert_int_equal(s->all.broke, 5);
    assert_int_equal(s->no_shirt.serves, 6);
    assert_int_equal(scout_receivers(s, r), 2);
    assert_int_equal(r[0].shirt, 4);
    assert_int_equal(r[0].counts.serves, 3);
    assert_int_equal(r[0].counts.broke, 2);
    assert_int_equal(r[1].shirt, 11);
    assert_int_equal(scout_stands(s, SCOUT_5, r), 2);
    assert_int_equal(r[0].shirt, 11);
    assert_int_equal(r[0].counts.serves, 2);
    assert_int_equal(s->plan_n, 3);
    assert_int_equal(s->planned_on.day, 10);
}

/* Of any match of theirs: when it stands first, those who serve are the others. */
static void a_team_that_stands_first_receives_theirs(void **state) {
    struct scout *s = scout_new(STR("Herons"), *state);
    scout_add(s, match(*state, "2026-10-03", "7 net\nG3 in1 5 by9 won\n. in3 6 by9\n"), OURS);
    assert_int_equal(s->all.serves, 2);
    assert_int_equal(s->of_shirt[9].broke, 1);
    assert_string_equal(s->servers[0].at, "Foxes");
    assert_int_equal(s->plan_n, 0);
}

/* Whatever the match: by shirt and by place the same balls, and those that were
 * counted while it was written. */
static void sums_agree(void **state) {
    struct life_style style = {.detail = LIFE_RICH, .rare = true, .whole = true};
    struct life_team team;
    for (unsigned seed = 1; seed <= 20; seed++) {
        struct buf notes;
        struct diags d;
        struct text t;
        struct counts shirts = {0}, at = {0};
        struct scout *s = scout_new(STR("x"), *state);
        struct scout_receiver r[SHIRT_MAX + 1];
        buf_init(&notes, *state);
        life_team_draw(&team, 'H', seed);
        struct life_totals written = life_match(&notes, &team, style, seed, seed);
        diags_init(&d, *state);
        text_take(&t, STR("test"), buf_str(&notes), *state, &d);
        scout_add(s, check_text(&t, CHECK_KEEP, *state, &d), THEIRS);
        for (size_t i = 0, n = scout_receivers(s, r); i < n; i++)
            tally_merge(&shirts, &r[i].counts);
        tally_merge(&shirts, &s->no_shirt);
        for (unsigned i = 0; i < SCOUT_PLACES; i++)
            tally_merge(&at, &s->at[i]);
        assert_memory_equal(&shirts, &s->all, sizeof shirts);
        assert_memory_equal(&at, &s->all, sizeof at);
        assert_int_equal(s->all.serves, written.attempts[OURS] - written.errors[OURS]);
        assert_int_equal(s->all.broke, written.broke[OURS]);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(a_ball_has_one_place),
        TEST(plans_are_kept_by_whoever_received),
        TEST(verdicts_need_balls),
        TEST(receivers_add_up_over_matches),
        TEST(a_team_that_stands_first_receives_theirs),
        TEST(sums_agree),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
