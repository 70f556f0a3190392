/* Player cards over small invented notes, counted by hand; and pages over lifelike
 * seasons, whose numbers must be those of the tally. */
#include "card.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "kit/boxes.h"
#include "kit/leaf.h"
#include "kit/lifelike.h"
#include "kit/longer.h"
#include "kit/scene.h"
#include "page/card_parts.h"
#include "pdf.h"

static struct arena *arena;

static void out_of_memory(size_t wanted) {
    (void)wanted;
    abort();
}

static int begin(void **state) {
    (void)state;
    arena = arena_new(out_of_memory);
    return 0;
}

static int finish(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

static const struct checked *read_notes(struct str notes, struct arena *a) {
    struct diags *d = arena_alloc(a, 1, sizeof *d);
    struct text *t = arena_alloc(a, 1, sizeof *t);
    diags_init(d, a);
    text_take(t, STR("test"), notes, a, d);
    const struct checked *c = check_text(t, CHECK_KEEP, a, d);
    if (d->errors)
        fail_msg("%.*s: %.*s", STR_ARG(notes), STR_ARG(d->at[0].text));
    return c;
}

static struct str file(const char *head, const char *rest) {
    return str_printf(arena,
                      "notation 1\n%s\nteam H \"Herons\" women\nteam G \"Foxes\"\n"
                      "player H7 \"Mira Havelin\" topspin m4/3 t5.6\nplayer H9 \"Zofia Brązel\"\n"
                      "player H10 \"A\"\nplayer H11 \"B\"\nplayer H12 \"C\"\nplayer H14 \"D\"\n%s",
                      head, rest);
}

static const struct checked *match(const char *head, const char *rest) {
    return read_notes(file(head, rest), arena);
}

/* Adds notes whose memory is gone afterwards. */
static void add(struct cards *c, const char *head, const char *rest) {
    struct arena *of_file = arena_new(out_of_memory);
    cards_add(c, read_notes(file(head, rest), of_file));
    arena_free(of_file);
}

static struct drill_book *drills(void) {
    struct drill_book *b = arena_alloc(arena, 1, sizeof *b);
    drill_book_init(b, arena);
    return b;
}

static const struct server *server(const struct tally *t, unsigned shirt) {
    for (size_t i = 0; i < t->server_n[OURS]; i++)
        if (t->servers[OURS][i].shirt == shirt)
            return &t->servers[OURS][i];
    fail_msg("no server %u", shirt);
    return NULL;
}

static struct card card(const struct cards *c, const struct checked *today, unsigned shirt) {
    struct card out;
    card_of(c, server(tally_of(today, arena), shirt), drills(), arena, &out);
    return out;
}

static void rate_is(struct rate r, unsigned x, unsigned n) {
    assert_int_equal(r.x, x);
    assert_int_equal(r.n, n);
}

/* Two turns of 7, and between them those of the five others. */
static const char today_notes[] =
    "observe toss approach\nset 1 H\n"
    "7 t5.4 in2 won\n7 td net-0.2\nG3 net\n9 in1 won\n. as long+0.5\nG5 net\n10 net\n"
    "G6 net\n11 net\nG8 net\n12 net\nG9 net\n14 net\nG10 net\n"
    "7 r4/3 t5.8 ace\n7 as td long+1.2\n";

/* ---- the season before ----------------------------------------------------------- */

static void season_before(void **state) {
    (void)state;
    const struct checked *today = match("match 2026-10-10 18:00", today_notes);
    struct cards *c = cards_new(today, arena);
    static const char *const three = "set 1 H\n7 ace\n7 in1 won\n7 net\n";
    add(c, "match 2026-10-03", three);
    add(c, "match 2026-10-10 10:00", three);  /* earlier that day */
    add(c, "match 2026-10-10 20:00", three);  /* later */
    add(c, "match 2026-10-10", three);        /* no telling */
    add(c, "match 2026-10-17", three);
    add(c, "practice 2026-10-06", "7 in x9\n");
    struct card of = card(c, today, 7);
    assert_int_equal(of.who.counts.serves, 4);
    assert_int_equal(of.matches_before, 2);
    assert_int_equal(of.before.serves, 6);
    assert_int_equal(of.before.broke, 4);
    assert_int_equal(of.before.missed, 2);
    of = card(c, today, 9);
    assert_int_equal(of.matches_before, 0);
    assert_int_equal(of.before.serves, 0);
}

static void in_as_many(void **state) {
    (void)state;
    assert_true(fabs(card_in_as_many((struct rate){24, 158}, 15) - 24 * 15 / 158.0) < 1e-12);
    assert_true(fabs(card_in_as_many((struct rate){0, 0}, 15)) < 1e-12);
}

/* ---- her routine, her misses ------------------------------------------------------ */

static void routine(void **state) {
    (void)state;
    const struct checked *today = match("match 2026-10-10", today_notes);
    struct cards *c = cards_new(today, arena);
    add(c, "match 2026-10-03", "set 1 H\n7 m4/2 ace\n7 m3/3 in1 won\n7 net\n");
    struct card of = card(c, today, 7);
    const struct card_habit *start = &of.habits[CARD_START], *steps = &of.habits[CARD_STEPS];
    assert_true(start->is_said);
    assert_int_equal(start->said, THIRD_MIDDLE);
    rate_is(start->today.done, 3, 4);
    rate_is(of.habits[CARD_PACES].today.done, 4, 4);
    rate_is(of.habits[CARD_PACES].before.done, 2, 3);
    rate_is(steps->today.done, 3, 4); /* `as` says that one was another */
    rate_is(steps->before.done, 2, 3);
    assert_int_equal(of.toss.today.n, 2);
    assert_true(fabs(of.toss.said_m - 5.6) < 1e-9 && fabs(of.toss.today.low_m - 5.4) < 1e-9 &&
                fabs(of.toss.today.high_m - 5.8) < 1e-9);
    assert_false(of.toss.today.has_spread);
}

/* Without a routine: what was done most often. */
static void usual(void **state) {
    (void)state;
    const struct checked *today =
        match("match 2026-10-10", "set 1 H\n9 l3 ace\n9 l3 ace\n9 m2 ace\n9 ace\n");
    struct card of = card(cards_new(today, arena), today, 9);
    assert_false(of.habits[CARD_PACES].is_said);
    assert_int_equal(of.habits[CARD_PACES].today.usual, 3);
    rate_is(of.habits[CARD_PACES].today.done, 2, 3);
    assert_int_equal(of.habits[CARD_START].today.usual, THIRD_LEFT);
    assert_int_equal(of.habits[CARD_STEPS].today.done.n, 0);
}

static void misses(void **state) {
    (void)state;
    const struct checked *today = match("match 2026-10-10", today_notes);
    struct card of = card(cards_new(today, arena), today, 7);
    assert_int_equal(of.misses.marked[MARK_td], 2);
    assert_int_equal(of.misses.marked[MARK_as], 1);
    assert_int_equal(of.misses.observed_n, 2);
    assert_int_equal(of.misses.plain_n, 0);
    assert_int_equal(of.misses.under.n, 1);
    assert_int_equal(of.misses.under.low_cm, 20);
    assert_int_equal(of.misses.past.n, 1);
    assert_int_equal(of.misses.past.high_cm, 120);
}

/* ---- her focus --------------------------------------------------------------------- */

static void focus(void **state) {
    (void)state;
    const struct checked *today = match("match 2026-10-10", today_notes);
    struct cards *c = cards_new(today, arena);
    add(c, "match 2026-10-03", "observe toss\nset 1 H\n7 ace\n7 td in1 won\n7 td net\n");
    add(c, "practice 2026-10-06",
        "focus 7 td \"Ring toss\" 14/20\ndrill \"Ring toss\"\ntoss 7 6/10\ntoss 7 5/10\n");
    add(c, "practice 2026-10-08",
        "focus 7 td \"Ring toss\" 14/20\ndrill \"Ring toss\"\ntoss 7 8/10\n");
    add(c, "practice 2026-10-13", "focus 7 tu \"Height gate\"\n"); /* later: not known yet */
    struct card_focus f = card(c, today, 7).focus;
    assert_true(f.chosen);
    assert_int_equal(f.progress.treats, W_td);
    assert_true(f.drill && str_is(f.drill->name, "Ring toss"));
    assert_int_equal(f.drilled.n, 2);
    rate_is(f.drilled.days[0].hits, 11, 20);
    rate_is(f.drilled.days[1].hits, 8, 10);
    rate_is(f.with, 1, 2);
    rate_is(f.without, 0, 1);
    assert_false(card(c, today, 9).focus.chosen);
}

/* ---- where she hits ------------------------------------------------------------------ */

/* A metre and a half nearer to the net is a way so much shorter, and takes less
 * time by what a ball of 12 to 30 m/s needs for it (our own bounds). */
static void reach(void **state) {
    (void)state;
    static const char four[] = "set 1 H\n7 v80 c-1.0 in1 won\n7 v80 c-1.1 in1 won\n"
                               "7 v80 c-0.9 in1 won\n7 v80 c-1.0 in1 won\n";
    const struct checked *today = match("match 2026-10-10", four);
    struct cards *c = cards_new(today, arena);
    assert_false(card(c, today, 7).reach.known);
    add(c, "practice 2026-10-06", "7 v80 c-1.0 in\n");
    struct card_reach r = card(c, today, 7).reach;
    assert_true(r.known && r.jumps);
    assert_int_equal(r.n, 5);
    assert_true(fabs(r.contact_m + 1.0) < 1e-9);
    double shorter_m = r.at.hands.path_m - r.nearer_at.hands.path_m;
    double sooner_s = r.at.hands.t_s - r.nearer_at.hands.t_s;
    assert_true(shorter_m > 1.3 && shorter_m < 1.9);
    assert_true(sooner_s > shorter_m / 30 && sooner_s < shorter_m / 12);
}

/* ---- where to aim -------------------------------------------------------------------- */

enum { DAYS = 24 };

static struct str life_day(const struct life_team *team, unsigned day, uint64_t seed) {
    struct life_style style = {.detail = LIFE_RICH, .whole = true};
    struct buf b;
    buf_init(&b, arena);
    if (day % 3 == 2)
        life_practice(&b, team, 150, style, day, seed + day);
    else
        life_match(&b, team, style, day, seed + day);
    return buf_str(&b);
}

/* The cards of a lifelike season's last match; it has `days` files before it. */
static struct cards *life_cards(const struct life_team *team, unsigned days, uint64_t seed,
                                const struct checked **today) {
    *today = read_notes(life_day(team, days % 3 == 2 ? days + 1 : days, seed), arena);
    struct cards *c = cards_new(*today, arena);
    for (unsigned day = 0; day < days; day++) {
        struct arena *of_file = arena_new(out_of_memory);
        cards_add(c, read_notes(life_day(team, day, seed), of_file));
        arena_free(of_file);
    }
    return c;
}

static void aim(void **state) {
    (void)state;
    struct life_team team;
    const struct checked *today;
    unsigned own = 0;
    life_team_draw(&team, 'H', 5);
    struct cards *c = life_cards(&team, DAYS, 500, &today);
    const struct tally *t = tally_of(today, arena);
    for (size_t i = 0; i < t->server_n[OURS]; i++) {
        struct card of;
        card_of(c, &t->servers[OURS][i], drills(), arena, &of);
        if (of.aim.say == SAY_AIM_GENERAL)
            continue;
        own++;
        assert_true(of.aim.aimed_n >= 30);
        assert_true(of.aim.x_m > 0 && of.aim.x_m < 9 && of.aim.d_m > 0 && of.aim.d_m < 9);
        assert_true(of.aim.in_frac > 0 && of.aim.in_frac <= 1);
    }
    assert_true(own > 0);
    c = life_cards(&team, 1, 500, &today);
    t = tally_of(today, arena);
    struct card few;
    card_of(c, &t->servers[OURS][0], drills(), arena, &few);
    assert_int_equal(few.aim.say, SAY_AIM_GENERAL);
}

/* A cue against the net, and the aim of the same card. */
static void net_and_aim(void **state) {
    (void)state;
    struct life_team team;
    const struct checked *today;
    unsigned moved = 0;
    life_team_draw(&team, 'H', 5);
    struct cards *c = life_cards(&team, DAYS, 500, &today);
    const struct tally *t = tally_of(today, arena);
    for (size_t i = 0; i < t->server_n[OURS]; i++) {
        struct card before, after;
        const struct server *s = &t->servers[OURS][i];
        card_of(c, s, drills(), arena, &before);
        struct str notes = str_printf(
            arena, "notation 1\npractice 2026-09-02\nteam H \"%s\" women\nplayer H%u \"%.*s\"\n"
                   "focus %u net \"Clear the rope\"\n",
            team.name, s->shirt, STR_ARG(s->player->name), s->shirt);
        struct cards *with = life_cards(&team, DAYS, 500, &today);
        cards_add(with, read_notes(notes, arena));
        card_of(with, s, drills(), arena, &after);
        if (after.aim.say == SAY_AIM_GENERAL || !after.focus.chosen ||
            after.focus.progress.treats != W_net)
            continue;
        assert_true(after.aim.d_m >= before.aim.d_m - 1e-6);
        moved++;
    }
    assert_true(moved > 0);
}

/* ---- the page ------------------------------------------------------------------------- */

static const struct pages *page_of(const struct card *c, const struct checked *today) {
    struct page_facts *facts = arena_alloc(arena, 1, sizeof *facts);
    *facts = leaf_facts();
    return page_card(c, tally_of(today, arena), facts, &leaf_font, arena);
}

static void row_is(const struct page *p, double x_mm, const char *label, const char *expected) {
    struct str row = leaf_row(p, x_mm, 90, label, arena);
    assert_string_equal(str_c(arena, row), expected);
}

static void numbers_are_the_tallys(void **state) {
    (void)state;
    struct life_team team;
    const struct checked *today;
    life_team_draw(&team, 'H', 6);
    struct cards *c = life_cards(&team, 6, 900, &today);
    const struct tally *t = tally_of(today, arena);
    for (size_t i = 0; i < t->server_n[OURS]; i++) {
        struct card of;
        card_of(c, &t->servers[OURS][i], drills(), arena, &of);
        const struct counts *n = &of.who.counts;
        const struct page *p = &page_of(&of, today)->at[0];
        struct str row = leaf_row(p, 0, 50, "Missed", arena);
        assert_string_equal(str_c(arena, row),
                            str_printf(arena, "Missed %u of %u", n->missed, n->serves).at);
        row = leaf_row(p, 0, 50, "Broke their pass", arena);
        assert_string_equal(
            str_c(arena, row),
            str_printf(arena, "Broke their pass %u of %u", n->broke, n->serves).at);
    }
}

static void small_card(void **state) {
    (void)state;
    const struct checked *today = match("match 2026-10-10", today_notes);
    struct cards *c = cards_new(today, arena);
    add(c, "match 2026-10-03", "set 1 H\n7 ace\n7 in1 won\n7 net\n");
    struct card of = card(c, today, 7);
    const struct pages *pages = page_of(&of, today);
    const struct page *p = &pages->at[0];
    assert_int_equal(pages->n, 1);
    row_is(p, 0, "Broke their pass", "Broke their pass 1 of 4 2 of 3");
    row_is(p, 3.5, "aces", "aces 1 of 4 1 of 3");
    row_is(p, 0, "Missed", "Missed 2 of 4 1 of 3");
    row_is(p, 3.5, "in the net", "in the net 1 of 4 1 of 3");
    row_is(p, 3.5, "long", "long 1 of 4 0 of 3");
    assert_false(leaf_has(p, "wide"));
    row_is(p, 0, "start", "start middle 3 of 4 3 of 3");
    row_is(p, 0, "toss", "toss 5.6 m 5.4 to 5.8 m –");
    assert_true(leaf_has(p, "Mira Havelin"));
    assert_true(leaf_has(p, "No focus chosen yet."));
    assert_true(leaf_holds(p, "Jump serves load shoulder and knee."));
}

/* Each of her serves stands in the strip once, and the key adds up to them. */
static void every_mark_is_a_serve(void **state) {
    (void)state;
    const struct checked *today = scene_play(scene_usual(), arena);
    const struct tally *t = tally_of(today, arena);
    struct cards *c = cards_new(today, arena);
    for (size_t i = 0; i < t->server_n[OURS]; i++) {
        struct card of;
        card_of(c, &t->servers[OURS][i], drills(), arena, &of);
        const struct page *p = &page_of(&of, today)->at[0];
        for (size_t k = 0; k < today->played_n; k++) {
            unsigned strip = 0;
            for (size_t j = 0; j < p->n; j++)
                strip += p->items[j].kind == PAGE_MARK && p->items[j].serve == &today->played[k] &&
                         fabs(p->items[j].size_mm - 3.0) < 0.01;
            assert_int_equal(strip, card_has(&of, &today->played[k]));
        }
    }
}

/* Nerves, intents and names of marks never stand on a card. */
static void what_no_card_says(void **state) {
    (void)state;
    static const char notes[] = "focus 7 nn \"Ritual\"\nobserve all\nset 1 H\n"
                                "7 go nn ace\n7 safe nn nr long\nG3 net\n9 ace\n9 long\n";
    static const char *const never[] = {"nerve", "Nerve", "nn", "Safe", "intent", "Brązel", "%"};
    const struct checked *today = match("match 2026-10-10", notes);
    struct card of = card(cards_new(today, arena), today, 7);
    const struct page *p = &page_of(&of, today)->at[0];
    assert_true(leaf_has(p, "Take your time."));
    for (size_t i = 0; i < sizeof never / sizeof *never; i++)
        if (leaf_holds(p, never[i]))
            fail_msg("the card says \"%s\"", never[i]);
}

/* Every mark has a cue and a question, and words but for nerves. */
static void cues(void **state) {
    (void)state;
    for (unsigned m = 0; m < MARK_N; m++) {
        enum word_id w = (enum word_id)(W_td + m);
        assert_non_null(page_cue(w));
        assert_non_null(page_cue_question(w));
        assert_true((page_cue_seen(w) != NULL) == (m != MARK_nn));
    }
}

static void no_names(void **state) {
    (void)state;
    const struct checked *today = match("match 2026-10-10", today_notes);
    const struct tally *t = tally_of(today, arena);
    struct card of = card(cards_new(today, arena), today, 7);
    struct page_facts facts = leaf_facts();
    facts.no_names = true;
    const struct page *p = &page_card(&of, t, &facts, &leaf_font, arena)->at[0];
    assert_false(leaf_holds(p, "Havelin"));
    assert_true(leaf_has(p, "7"));
    struct str text = page_card_text(&of, t, &facts, arena);
    assert_true(str_starts(text, STR("7\n")));
}

/* ---- no words lie over others ----------------------------------------------------------- */

static struct pdf *document(void) {
    struct pdf *p = pdf_new(arena);
    assert_int_equal(pdf_add_font(p, FACE_REGULAR,
                                  "/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf",
                                  0),
                     PDF_WRITTEN);
    assert_int_equal(pdf_add_font(p, FACE_BOLD,
                                  "/usr/share/fonts/truetype/liberation/LiberationSans-Bold.ttf",
                                  0),
                     PDF_WRITTEN);
    return p;
}

static void check_page(struct pdf *pdf, const struct card *c, const struct checked *today,
                       const struct lang *lang, const char *what) {
    struct page_facts facts = leaf_facts();
    struct page_font font = pdf_font(pdf);
    facts.lang = lang;
    const struct pages *pages = page_card(c, tally_of(today, arena), &facts, &font, arena);
    assert_int_equal(pages->n, 1);
    boxes_apart(&pages->at[0], &font, what);
    boxes_clear_of_marks(&pages->at[0], &font, what);
}

static void check_cards(struct pdf *pdf, const struct cards *c, const struct checked *today,
                        uint64_t seed) {
    struct longer longer;
    longer_init(&longer, arena);
    const struct tally *t = tally_of(today, arena);
    for (size_t i = 0; i < t->server_n[OURS]; i++) {
        struct card of;
        if (t->servers[OURS][i].shirt == SHIRT_NONE)
            continue;
        card_of(c, &t->servers[OURS][i], drills(), arena, &of);
        struct str what = str_printf(arena, "seed %u, shirt %u", (unsigned)seed, of.who.shirt);
        check_page(pdf, &of, today, NULL, what.at);
        check_page(pdf, &of, today, &longer.lang, str_printf(arena, "%s, longer", what.at).at);
    }
}

static void seasons_do_not_overlap(void **state) {
    (void)state;
    struct pdf *pdf = document();
    for (uint64_t seed = 1; seed <= 6; seed++) {
        struct life_team team;
        const struct checked *today;
        life_team_draw(&team, 'H', seed);
        struct cards *c = life_cards(&team, 4 + (unsigned)seed % 5 * 4, seed * 1000, &today);
        check_cards(pdf, c, today, seed);
    }
    pdf_free(pdf);
}

static void scenes_do_not_overlap(void **state) {
    (void)state;
    static const unsigned place_per_mille[] = {0, 1000, 500};
    struct pdf *pdf = document();
    for (unsigned seed = 1; seed <= 9; seed++) {
        struct scene scene = scene_usual();
        scene.seed = seed;
        scene.servers = seed % 3 == 0 ? 18 : 6;
        scene.sets = 1 + seed % 5;
        scene.place_per_mille = place_per_mille[seed % 3];
        scene.long_name =
            seed % 2 ? "Wilhelmina Theodora van den Oudekerk-Montgomery zu Hohenfeld" : NULL;
        const struct checked *today = scene_play(scene, arena);
        check_cards(pdf, cards_new(today, arena), today, seed);
    }
    pdf_free(pdf);
}

/* One server with very many serves. */
static void many_serves(void **state) {
    (void)state;
    struct pdf *pdf = document();
    for (unsigned n = 30; n <= 240; n += 70) {
        struct scene scene = scene_usual();
        struct checked *today = (struct checked *)(uintptr_t)scene_play(scene, arena);
        for (size_t i = 0, k = 0; i < today->played_n; i++)
            if (today->played[i].side == OURS && k++ < n)
                today->played[i].charged = today->played[i].server = 7;
        check_cards(pdf, cards_new(today, arena), today, n);
    }
    pdf_free(pdf);
}

#define TEST(f) cmocka_unit_test_setup_teardown(f, begin, finish)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(season_before),  TEST(in_as_many),     TEST(routine),
        TEST(usual),          TEST(misses),         TEST(focus),
        TEST(reach),          TEST(aim),            TEST(net_and_aim),
        TEST(small_card),     TEST(numbers_are_the_tallys),
        TEST(every_mark_is_a_serve),                TEST(what_no_card_says),
        TEST(cues), TEST(no_names),       TEST(seasons_do_not_overlap),
        TEST(scenes_do_not_overlap),                TEST(many_serves),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
