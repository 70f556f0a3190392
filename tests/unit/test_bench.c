/* The bench card and what it rests on. The counts were done by hand; the misses
 * allowed are our own computation by the formula of bench.h. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>

#include "kit/boxes.h"
#include "kit/in_arena.h"
#include "kit/leaf.h"
#include "kit/lifelike.h"
#include "kit/longer.h"
#include "kit/print.h"
#include "kit/scene.h"

static const struct checked *notes(struct arena *a, struct str all) {
    struct diags d;
    struct text *t = arena_alloc(a, 1, sizeof *t);
    diags_init(&d, a);
    text_take(t, STR("test"), all, a, &d);
    const struct checked *c = check_text(t, CHECK_KEEP, a, &d);
    assert_int_equal(d.errors, 0);
    return c;
}

static const struct checked *match(struct arena *a, const char *lines) {
    return notes(a, str_printf(a,
                               "notation 1\nmatch 2026-10-03\nteam H \"Herons\" women\n"
                               "team G \"Foxes\" women\nplayer H7 \"Mira\" topspin\n"
                               "player H8 \"Ana\" float\nplayer H9 \"Ida\" float\nplayer H3 \"Eva\" float\nset 1 H\n%s",
                               lines));
}

static struct str said(struct rate r, struct arena *a) {
    return str_printf(a, "%u/%u", r.x, r.n);
}

#define rate_is(rate, expected, a) assert_string_equal(said(rate, a).at, expected)

/* 7 wins two and loses the third; in another match she wins none. 8 comes in cold
 * and misses, after a replay, which is no attempt. */
static void counts_of_turns_and_ways(void **state) {
    struct bench *b = bench_new(STR("Herons"), *state);
    bench_add(b, match(*state, "7 ace\n. go in1 won\n. go net\nG1 net\nsub H 8 for 9\n8 replay\n"
                               ". long\nG2 net\n3 ace\n. net\n"));
    bench_add(b, match(*state, "7 safe float in3 lost\n"));
    bench_add(b, notes(*state, STR("notation 1\npractice 2026-10-04\nteam H \"Herons\" women\n"
                                   "7 ace\n")));
    bench_settle(b);
    assert_int_equal(b->matches, 2);
    assert_int_equal(b->server_n, 3);
    const struct bench_server *seven = &b->servers[1], *eight = &b->servers[2];
    assert_int_equal(b->servers[0].who.shirt, 3);
    rate_is(b->servers[0].turns, "1/1", *state);
    assert_string_equal(seven->who.name.at, "Mira");
    rate_is(seven->turns, "2/2", *state);
    assert_int_equal(seven->all.serves, 4);
    assert_int_equal(seven->go.serves, 2);
    assert_int_equal(seven->go.missed, 1);
    assert_int_equal(bench_type(seven), TYPE_TOPSPIN);
    assert_int_equal(bench_go_type(seven), TYPE_TOPSPIN);
    assert_int_equal(bench_go_type(eight), TYPE_NONE);
    rate_is(eight->cold, "1/1", *state);
    rate_is(eight->turns, "0/1", *state);
    assert_int_equal(b->safe.serves, 1);
    assert_int_equal(b->go[TYPE_TOPSPIN].serves, 2);
}

/* Rallies of one way: so many won of so many in play, and misses. */
static void add_way(struct played *all, unsigned *n, enum intent way, unsigned won, unsigned in_play,
                    unsigned missed) {
    for (unsigned i = 0; i < in_play + missed; i++) {
        struct played *p = &all[(*n)++];
        *p = scene_serve(i < in_play ? OUTCOME_IN2 : OUTCOME_NET, 7);
        p->said.intent = (uint8_t)way;
        p->won = i < won ? RALLY_WON : RALLY_LOST;
        p->type = TYPE_TOPSPIN;
    }
}

static const struct {
    unsigned safe_won, safe_in, safe_missed, go_won, go_in, go_missed;
    enum bench_pays pays;
    unsigned may_miss;
    bool told_apart;
} ways[] = {
    {10, 38, 2, 12, 24, 6, BENCH_PAYS, 10, false}, /* 1 - .25 / .5 */
    {16, 38, 2, 15, 30, 0, BENCH_PAYS, 4, false},  /* 1 - .4 / .5: a whole number */
    {30, 90, 10, 40, 50, 0, BENCH_PAYS, 12, true}, /* 1 - .3 / .8 = .625 */
    {20, 38, 2, 10, 25, 5, BENCH_NEVER, 0, false}, /* .5 of all against .4 in play */
    {20, 40, 0, 15, 30, 0, BENCH_PAYS, 0, false},  /* equal, if it never misses */
    {20, 40, 0, 0, 30, 0, BENCH_NEVER, 0, true},
    {10, 28, 1, 20, 30, 10, BENCH_UNKNOWN, 0, false},
    {10, 28, 5, 15, 19, 10, BENCH_UNKNOWN, 0, false},
    {10, 28, 5, 0, 0, 30, BENCH_UNKNOWN, 0, false},
};

static void misses_that_a_go_serve_may_have(void **state) {
    for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
        struct played all[400];
        unsigned n = 0;
        struct bench *b = bench_new(STR("x"), *state);
        add_way(all, &n, INTENT_SAFE, ways[i].safe_won, ways[i].safe_in, ways[i].safe_missed);
        add_way(all, &n, INTENT_GO, ways[i].go_won, ways[i].go_in, ways[i].go_missed);
        bench_add(b, scene_of(all, n, *state));
        struct bench_go go = bench_go(b, TYPE_TOPSPIN);
        if (go.pays != ways[i].pays || go.may_miss != ways[i].may_miss ||
            (go.pays != BENCH_UNKNOWN && go.told_apart != ways[i].told_apart))
            fail_msg("row %zu: %d, %u of 20, apart %d", i, (int)go.pays, go.may_miss,
                     go.told_apart);
        assert_int_equal(bench_go(b, TYPE_FLOAT).pays, BENCH_UNKNOWN);
    }
}

/* ---- many matches ---------------------------------------------------------- */

static struct bench *season(unsigned matches, bool ours_only, const char *team, struct arena *a) {
    struct life_style style = {.detail = LIFE_RICH, .rare = true, .whole = true,
                               .ours_only = ours_only};
    struct bench *b = bench_new(str_of(team), a);
    for (unsigned k = 0; k < matches; k++) {
        struct life_team life;
        struct buf text;
        buf_init(&text, a);
        life_team_draw(&life, 'H', 1 + k / 8); /* others after eight matches */
        life_match(&text, &life, style, k + 1, 40 + k);
        bench_add(b, notes(a, buf_str(&text)));
    }
    bench_settle(b);
    return b;
}

static void servers_add_up(void **state) {
    struct life_style style = {.detail = LIFE_RICH, .rare = true, .whole = true};
    for (unsigned k = 0; k < 12; k++) {
        struct life_team life;
        struct buf text;
        unsigned points = 0, turns = 0, serves = 0, missed = 0;
        struct bench *b = bench_new(STR("x"), *state);
        buf_init(&text, *state);
        life_team_draw(&life, 'H', k + 1);
        struct life_totals written = life_match(&text, &life, style, k + 1, k + 1);
        bench_add(b, notes(*state, buf_str(&text)));
        for (size_t i = 0; i < b->server_n; i++) {
            serves += b->servers[i].all.serves;
            missed += b->servers[i].all.missed;
            points += b->servers[i].turns.x;
            turns += b->servers[i].turns.n;
        }
        assert_int_equal(serves, written.attempts[0]);
        assert_int_equal(missed, written.errors[0]);
        assert_true(turns > 0 && points < serves && points <= serves - missed);
    }
}

/* ---- the card ---------------------------------------------------------------- */

static struct str row_of(const struct page *p, unsigned shirt, struct arena *a) {
    const char *label = str_printf(a, "%u", shirt).at;
    return leaf_row(p, 9 - leaf_width(NULL, str_of(label), FACE_BOLD, 18), 178, label, a);
}

static void numbers_are_the_studys(void **state) {
    struct page_facts facts = leaf_facts();
    struct played all[400];
    unsigned n = 0;
    struct bench *b = bench_new(STR("Herons"), *state);
    add_way(all, &n, INTENT_SAFE, 10, 38, 2);
    add_way(all, &n, INTENT_GO, 12, 24, 6);
    add_way(all, &n, INTENT_NONE, 10, 10, 2);
    for (unsigned i = 0; i < n; i++)
        all[i].turn_serve = (uint8_t)(1 + i % 2);
    bench_add(b, scene_of(all, n, *state));
    const struct page *p = &page_bench(b, &facts, &leaf_font, *state)->at[0];
    /* 32 points of 41 turns; 10 missed of 82; 6 of 30. */
    assert_string_equal(row_of(p, 7, *state).at,
                        "7 Mira Havelin jump topspin 7.8 32/41 2 10/82 4 10 –");
    facts.no_names = true;
    p = &page_bench(b, &facts, &leaf_font, *state)->at[0];
    assert_string_equal(row_of(p, 7, *state).at, "7 jump topspin 7.8 32/41 2 10/82 4 10 –");
    assert_true(leaf_holds(p, "jump topspin: go won 12 of 30 rallies, put in won 10 of 40; not yet"));
}

static void small_numbers_are_counts(void **state) {
    struct page_facts facts = leaf_facts();
    struct played all[9];
    struct bench *b = bench_new(STR("Herons"), *state);
    for (unsigned i = 0; i < 9; i++)
        all[i] = scene_serve(OUTCOME_NET, 7);
    all[0].said.intent = INTENT_GO;
    all[1].cold = true;
    for (unsigned i = 0; i < 9; i++)
        all[i].won = RALLY_LOST;
    bench_add(b, scene_of(all, 9, *state));
    const struct page *p = &page_bench(b, &facts, &leaf_font, *state)->at[0];
    assert_string_equal(row_of(p, 7, *state).at, "7 Mira Havelin 0/9 9/9 1/1 – 1/1");
}

static void nothing_overlaps(void **state) {
    struct pdf *pdf = print_open(*state);
    struct page_font font = pdf_font(pdf);
    struct longer longer;
    longer_init(&longer, *state);
    for (unsigned k = 0; k < 10; k++) {
        struct bench *b = season(1 + 4 * k, k % 3 == 0,
                                 "Wilhelmina Theodora van den Oudekerk-Montgomery zu Hohenfeld",
                                 *state);
        struct page_facts facts = leaf_facts();
        char what[40];
        facts.lang = k % 2 ? &longer.lang : NULL;
        facts.left_out = k % 4 == 1;
        snprintf(what, sizeof what, "%u matches", 1 + 4 * k);
        for (size_t i = 0; i < b->server_n && k > 4; i++) {
            b->servers[i].who.name = b->team;
            b->servers[i].turns = (struct rate){1234, 1111};
        }
        const struct pages *pages = page_bench(b, &facts, &font, *state);
        assert_int_equal(pages->n, (b->server_n + 26) / 27);
        for (size_t i = 0; i < pages->n; i++)
            boxes_apart(&pages->at[i], &font, what);
    }
    pdf_free(pdf);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(counts_of_turns_and_ways),
        TEST(misses_that_a_go_serve_may_have),
        TEST(servers_add_up),
        TEST(numbers_are_the_studys),
        TEST(small_numbers_are_counts),
        TEST(nothing_overlaps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
