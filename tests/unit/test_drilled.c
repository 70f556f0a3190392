/* One practice over small invented notes. The counts were done by hand. */
#include "drilled.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

static void out_of_memory(size_t wanted) {
    (void)wanted;
    abort();
}

static int begin(void **state) {
    *state = arena_new(out_of_memory);
    return 0;
}

static int finish(void **state) {
    arena_free(*state);
    return 0;
}

#define SQUAD \
    "team H \"Herons\" women\nplayer H4 \"Ada\"\nplayer H6 \"Elif\"\nplayer H7 \"Mira\"\n" \
    "player H9 \"Zofia\" lefthanded\n"

static const struct checked *notes(struct arena *a, const char *date, const char *rest) {
    struct diags d;
    struct text t;
    diags_init(&d, a);
    text_take(&t, STR("test"),
              str_printf(a, "notation 1\npractice %s\n" SQUAD "%s", date, rest), a, &d);
    const struct checked *c = check_text(&t, CHECK_KEEP, a, &d);
    assert_int_equal(d.errors, 0);
    return c;
}

#define rate_is(rate, x_n, of_n) \
    (assert_int_equal((rate).x, x_n), assert_int_equal((rate).n, of_n))

/* ---- the drills ------------------------------------------------------------ */

static void parts(void **state) {
    const struct checked *c = notes(*state, "2026-10-13",
                                    "team G \"Foxes\"\n"
                                    "toss 4 3/5\n"
                                    "drill \"Ring\"\ntoss 7 6/10\ntoss G7 1/2\n7 in x3\n4 net x2\n"
                                    "G3 in\n9 replay\n"
                                    "drill \"Empty\"\n"
                                    "drill \"Gate\"\ntries 9 8/10\n. in\njumps 7 20\n");
    struct drilled_parts p = drilled_parts(c, *state);
    assert_int_equal(p.n, 3);
    assert_int_equal(p.at[0].drill, 0);
    assert_int_equal(p.at[0].players, 1);
    rate_is(p.at[0].tosses, 3, 5);
    assert_int_equal(p.at[1].drill, 1);
    assert_int_equal(p.at[1].players, 2);
    rate_is(p.at[1].tosses, 6, 10);
    rate_is(p.at[1].tries, 0, 0);
    rate_is(p.at[1].serves, 3, 5);
    assert_int_equal(p.at[2].drill, 3);
    rate_is(p.at[2].tries, 8, 10);
    rate_is(p.all.tosses, 9, 15);
    rate_is(p.all.serves, 4, 6);
    assert_int_equal(p.all.players, 3);
}

static void nothing(void **state) {
    const struct checked *c = notes(*state, "2026-10-13", "");
    struct progress *season = progress_new(*state);
    progress_add(season, c);
    assert_int_equal(drilled_parts(c, *state).n, 0);
    assert_int_equal(drilled_tries(c, season, *state).n, 0);
    assert_int_equal(drilled_marks(c, *state).n, 0);
    assert_int_equal(drilled_focuses(c, season, *state).n, 0);
}

/* ---- series ----------------------------------------------------------------- */

static struct progress *season_of(struct arena *a) {
    static const char *const days[][2] = {
        {"2026-10-06", "ring 1.0\ntoss 7 5/10\ntoss 7 6/10\ntoss 4 7/10\n"
                       "drill \"Gate\"\ntries 7 4/10\njumps 7 12\n"},
        {"2026-09-29", "ring 1.0\ntoss 7 1/10\ntoss 9 2/10\nring 0.8\ntoss 7 9/10\n"},
        {"2026-10-20", "ring 1.0\ntoss 7 10/10\n"}, /* later */
    };
    struct progress *season = progress_new(a);
    for (size_t i = 0; i < sizeof days / sizeof *days; i++)
        progress_add(season, notes(a, days[i][0], days[i][1]));
    return season;
}

static void beside_the_last_time(void **state) {
    const struct checked *c = notes(*state, "2026-10-13",
                                    "ring 1.0\ntoss 9 4/10\n"
                                    "drill \"Ring\"\ntoss 7 7/10\ntoss 7 8/10\n"
                                    "ring 1.2\ntoss 7 2/5\n"
                                    "drill \"Gate\"\ntries 4 5/10\ntries 7 6/10\njumps 7 20\n");
    struct progress *season = season_of(*state);
    progress_add(season, c);
    struct drilled_tries all = drilled_tries(c, season, *state);
    const struct drilled_series *ring = &all.at[0], *gate = &all.at[2], *jumps = &all.at[3];
    assert_int_equal(all.n, 4);
    assert_int_equal(ring->n, 2);
    assert_int_equal(ring->rows[0].shirt, 7);
    rate_is(ring->rows[0].today, 15, 20);
    rate_is(ring->rows[0].last, 11, 20); /* two lines of the day before; not the ring of 0.8 */
    assert_int_equal(ring->rows[0].last_on.month, 10);
    rate_is(ring->rows[1].last, 2, 10);
    assert_int_equal(ring->from.month, 9);
    assert_int_equal(ring->to.month, 10);
    rate_is(ring->all.today, 19, 30);
    rate_is(ring->all.last, 13, 30);
    rate_is(all.at[1].rows[0].last, 0, 0); /* never a ring of 1.2 before */
    rate_is(gate->all.today, 11, 20);
    rate_is(gate->again, 6, 10); /* 4 has no last time */
    rate_is(gate->before, 4, 10);
    rate_is(jumps->rows[0].today, 0, 20);
    rate_is(jumps->rows[0].last, 0, 12);
}

/* Theirs stand apart, and nobody compares them. */
static void of_the_other_team(void **state) {
    const struct checked *c = notes(*state, "2026-10-13",
                                    "team G \"Foxes\"\nring 1.0\ntoss 7 4/10\ntoss G7 5/10\n");
    struct drilled_tries all = drilled_tries(c, season_of(*state), *state);
    assert_int_equal(all.n, 2);
    rate_is(all.at[0].rows[0].last, 11, 20);
    assert_int_equal(all.at[1].first->side, THEIRS);
    rate_is(all.at[1].rows[0].last, 0, 0);
}

/* A left-hander's toss to the left goes to her arm side. */
static void ways_of_missing(void **state) {
    const struct checked *c =
        notes(*state, "2026-10-13", "toss 7 4/10 tl2 td3\ntoss 7 9/10 tl1\ntoss 9 5/10 tl2\n"
                                    "toss 4 5/10\n");
    struct drilled_tries all = drilled_tries(c, progress_new(*state), *state);
    const struct drilled_row *rows = all.at[0].rows;
    assert_false(drilled_misses(&rows[0]));
    assert_true(drilled_misses(&rows[1]));
    assert_int_equal(rows[1].misses[MARK_tl], 3);
    assert_int_equal(rows[1].misses[MARK_td], 3);
    assert_int_equal(rows[2].misses[MARK_tr], 2);
    assert_int_equal(rows[2].misses[MARK_tl], 0);
    assert_int_equal(all.at[0].all.misses[MARK_tl], 3);
}

/* ---- marks ------------------------------------------------------------------ */

static void marks_by_drill(void **state) {
    const struct checked *c = notes(*state, "2026-10-13",
                                    "drill \"One\"\nobserve toss jump\n7 td net x2\n7 in x3\n"
                                    "9 tl je long\n7 safe td in\n"
                                    "drill \"Two\"\nobserve toss\n4 in x4\n"
                                    "drill \"Three\"\nobserve none\n4 in\n");
    struct drilled_marks m = drilled_marks(c, *state);
    assert_int_equal(m.n, 4);
    assert_int_equal(m.at[0].mark, MARK_td);
    rate_is(m.at[0].seen, 2, 6); /* told to be put in: says nothing of technique */
    assert_int_equal(m.at[0].by[7], 2);
    assert_int_equal(m.at[1].mark, MARK_tr);
    assert_int_equal(m.at[1].by[9], 1);
    assert_int_equal(m.at[2].mark, MARK_je);
    rate_is(m.at[2].seen, 1, 6);
    assert_int_equal(m.at[3].drill, 2);
    assert_int_equal(m.at[3].mark, MARK_N);
    rate_is(m.at[3].seen, 0, 4);
}

/* ---- the focus -------------------------------------------------------------- */

static void focuses(void **state) {
    struct progress *season = season_of(*state);
    progress_add(season, notes(*state, "2026-10-07", "focus 9 je \"Wait\" 9/10\n"
                                                     "focus 7 td \"Ring\" 14/20\n"
                                                     "drill \"Ring\"\ntoss 7 9/20\n"));
    const struct checked *c =
        notes(*state, "2026-10-13", "focus 7 td \"Ring\" 14/20\ntoss 7 1/10\n"
                                    "drill \"Ring\"\ntoss 7 7/10\ntoss 7 8/10\ntoss 4 1/2\n");
    progress_add(season, c);
    struct drilled_focuses f = drilled_focuses(c, season, *state);
    assert_int_equal(f.n, 2);
    assert_int_equal(f.at[0].who->shirt, 7);
    assert_int_equal(f.at[0].focus.since.day, 7);
    rate_is(f.at[0].today, 15, 20);
    rate_is(f.at[0].focus.drilled.after, 24, 40);
    assert_true(f.at[0].focus.met);
    assert_int_equal(f.at[1].who->shirt, 9);
    rate_is(f.at[1].today, 0, 0);
}

/* ---- for the staff ------------------------------------------------------------ */

static void serves_beside_the_last_time(void **state) {
    struct progress *season = season_of(*state);
    progress_add(season, notes(*state, "2026-10-06",
                               "drill \"Deep\"\n7 in x7\n7 net x3\n4 long x2\n9 replay\n"
                               "drill \"Twice\"\n7 in x5\n"));
    progress_add(season, notes(*state, "2026-09-29", "drill \"Deep\"\n7 in x9\n9 in x3\n"));
    const struct checked *c = notes(*state, "2026-10-13",
                                    "team G \"Foxes\"\n"
                                    "drill \"Deep\"\n7 in x4\n7 net\n9 long\n6 in x2\nG7 in\n"
                                    "drill \"Twice\" a5\n7 in\ndrill \"Twice\" a1\n7 in\n");
    progress_add(season, c);
    struct drilled_series s = drilled_serves(c, season, 1, *state);
    assert_int_equal(s.n, 3);
    assert_int_equal(s.rows[0].shirt, 6);
    rate_is(s.rows[0].last, 0, 0);
    rate_is(s.rows[1].today, 4, 5);
    rate_is(s.rows[1].last, 7, 10); /* the latest day, not the one before it */
    rate_is(s.rows[2].today, 0, 1);
    rate_is(s.rows[2].last, 3, 3);
    rate_is(s.all.today, 6, 8);
    rate_is(s.again, 4, 6); /* without 6, who has no last time */
    rate_is(s.before, 10, 13);
    assert_int_equal(s.from.month, 9);
    assert_int_equal(s.to.month, 10);
    assert_int_equal(drilled_serves(c, season, 2, *state).before.n, 0);
}

static void goals(void **state) {
    struct drill_book book;
    struct progress *season = progress_new(*state);
    drill_book_init(&book, *state);
    progress_add(season, notes(*state, "2026-10-06", "focus 7 td \"Ring toss\" 12/20\n"
                                                     "drill \"Ring toss\"\ntoss 7 11/20\n"));
    const struct checked *c =
        notes(*state, "2026-10-13", "toss 9 1/10\n"
                                    "drill \"Ring toss\"\ntoss 7 6/10\ntoss 4 9/10\n7 in\n"
                                    "drill \"Ours alone\"\ntries 4 5/5\n"
                                    "drill \"ring toss\"\ntoss 7 7/10\njumps 7 20\n");
    progress_add(season, c);
    struct drilled_goals g = drilled_goals(c, season, &book, *state);
    assert_int_equal(g.n, 2); /* our own drill has no goal */
    assert_int_equal(g.at[0].shirt, 4);
    rate_is(g.at[0].done, 9, 10);
    rate_is(g.at[0].goal, 14, 20); /* the drill's own */
    rate_is(g.at[0].days, 0, 0);
    assert_false(g.at[0].focus || g.at[0].serves);
    assert_int_equal(g.at[1].drill, 1);
    rate_is(g.at[1].done, 13, 20);
    rate_is(g.at[1].goal, 12, 20); /* her focus's */
    rate_is(g.at[1].days, 1, 2);
    assert_true(progress_meets(g.at[1].done, g.at[1].goal));
    assert_false(progress_meets(g.at[0].done, g.at[0].goal)); /* too few tries */
    assert_int_equal(drilled_goals(c, season, NULL, *state).n, 1);
}

/* Of the serves of her focus's drill those without its mark; one told to be put in
 * and one that nobody looked at say nothing. */
static void goals_of_serves(void **state) {
    const struct checked *c = notes(*state, "2026-10-13",
                                    "focus 9 je \"Wait\" 9/10\nfocus 7 net \"Wait\" 9/10\n"
                                    "drill \"Wait\"\nobserve jump\n9 in x7\n9 je in x2\n"
                                    "9 safe in\n7 in x5\nobserve none\n9 in x4\n"
                                    "drill \"Other\"\nobserve jump\n9 in x3\n");
    struct progress *season = progress_new(*state);
    progress_add(season, c);
    struct drilled_goals g = drilled_goals(c, season, NULL, *state);
    assert_int_equal(g.n, 1); /* a miss is no mark */
    assert_true(g.at[0].serves && g.at[0].focus);
    assert_int_equal(g.at[0].treats, W_je);
    rate_is(g.at[0].done, 7, 9);
    rate_is(g.at[0].goal, 9, 10);
}

/* Not those that were not hit, and not the standing ones. */
static void jumps(void **state) {
    const struct checked *c = notes(*state, "2026-10-13",
                                    "team G \"Foxes\"\n"
                                    "7 topspin in x3\n7 float in x4\n7 topspin drop\n"
                                    "9 jumpfloat net x2\n4 in\nG1 topspin in\n"
                                    "jumps 7 20\njumps 6 12\njumps 7 5\n");
    struct drilled_jumps j = drilled_jumps(c, *state);
    assert_int_equal(j.n, 3);
    assert_int_equal(j.at[0].shirt, 6);
    assert_int_equal(j.at[0].served, 0);
    assert_int_equal(j.at[0].counted, 12);
    assert_int_equal(j.at[1].served, 3);
    assert_int_equal(j.at[1].counted, 25);
    assert_int_equal(j.at[2].served, 2);
}

#define TEST(f) cmocka_unit_test_setup_teardown(f, begin, finish)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(parts),
        TEST(nothing),
        TEST(beside_the_last_time),
        TEST(of_the_other_team),
        TEST(ways_of_missing),
        TEST(marks_by_drill),
        TEST(focuses),
        TEST(serves_beside_the_last_time),
        TEST(goals),
        TEST(goals_of_serves),
        TEST(jumps),
    };
    return cmocka_run_group_tests_name("drilled", tests, NULL, NULL);
}
