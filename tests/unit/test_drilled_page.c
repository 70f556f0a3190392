/* The practice report, read back: each number is that of the notes, added up by
 * hand, and nothing on it is for the staff alone. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdlib.h>
#include <string.h>

#include "kit/in_arena.h"
#include "kit/leaf.h"

static const struct checked *notes(struct arena *a, const char *date, const char *rest) {
    struct diags d;
    struct text t;
    diags_init(&d, a);
    text_take(&t, STR("test"),
              str_printf(a,
                         "notation 1\npractice %s\nteam H \"Herons\" women\n"
                         "team G \"Foxes\" women\nplayer H4 \"Ada\"\nplayer H7 \"Mira\"\n"
                         "player H9 \"Zofia\" lefthanded\nplayer G1 \"Nora\"\n%s",
                         date, rest),
              a, &d);
    const struct checked *c = check_text(&t, CHECK_KEEP, a, &d);
    assert_int_equal(d.errors, 0);
    return c;
}

static const char before[] = "focus 7 td \"Ring\" 14/20\n"
                             "drill \"Ring\"\nring 1.0\ntoss 7 20/40\ntoss 4 7/10\n";

static const char today[] =
    "focus 7 td \"Ring\" 14/20\nfocus 9 nn \"Calm\"\n"
    "drill \"Ring\"\nring 1.0\ntoss 7 30/40 td4 tl2\ntoss 9 6/10 tl3\n"
    "drill \"Gate\"\ntries 4 8/10\n"
    "drill \"After it\"\nobserve toss nerve\n7 in x3\n7 td net x2\n9 nn long\n9 tl in\n"
    "G1 in x2\nG1 net\njumps 7 20\n";

/* On the pages for everybody, or on the staff's. */
static bool stands_on(const struct pages *pages, bool staff, const char *part) {
    for (size_t i = 0; i < pages->n; i++)
        if (str_is(pages->at[i].name, "For the staff") == staff && leaf_holds(&pages->at[i], part))
            return true;
    return false;
}

static const struct pages *report(const struct checked *c, const struct progress *season,
                                  bool no_names, struct arena *a) {
    struct drill_book *book = arena_alloc(a, 1, sizeof *book);
    struct page_facts *f = arena_alloc(a, 1, sizeof *f);
    struct advice *advice = arena_alloc(a, 1, sizeof *advice);
    advice->progress = season;
    *f = leaf_facts();
    f->season = season ? advice : NULL;
    f->no_names = no_names;
    drill_book_init(book, a);
    f->drills = book;
    return page_report(tally_of(c, a), f, &leaf_font, a);
}

static const struct pages *with_season(struct arena *a, bool no_names) {
    const struct checked *c = notes(a, "2026-10-13", today);
    struct progress *season = progress_new(a);
    progress_add(season, notes(a, "2026-10-06", before));
    progress_add(season, c);
    return report(c, season, no_names, a);
}

/* The page on which a section with this head begins. */
static const struct page *with(const struct pages *pages, const char *head) {
    for (size_t i = 0; i < pages->n; i++)
        if (leaf_has(&pages->at[i], head))
            return &pages->at[i];
    fail_msg("no \"%s\"", head);
    return NULL;
}

/* All words of the pages in their order, since a note may break into lines. */
static bool somewhere(const struct pages *pages, const char *part) {
    struct buf b;
    buf_init(&b, pages->arena);
    for (size_t i = 0; i < pages->n; i++)
        for (size_t k = 0; k < pages->at[i].n; k++)
            if (pages->at[i].items[k].kind == PAGE_WORDS)
                buf_printf(&b, "%.*s ", STR_ARG(pages->at[i].items[k].words));
    buf_char(&b, '\0');
    return strstr(buf_str(&b).at, part);
}

#define row_is(page, from_mm, to_mm, label, expected) \
    assert_string_equal(leaf_row(page, from_mm, to_mm, label, *state).at, expected)

static void drills(void **state) {
    const struct page *p = with(with_season(*state, false), "What was done");
    row_is(p, 0, 140, "Ring", "Ring 2 36/50 – –");
    row_is(p, 0, 140, "Gate", "Gate 1 – 8/10 –");
    row_is(p, 0, 140, "After it", "After it 2 – – 4/7");
    row_is(p, 0, 140, "together", "together 3 36/50 8/10 4/7");
}

static void beside_the_last_time(void **state) {
    const struct pages *pages = with_season(*state, false);
    assert_true(leaf_has(with(pages, "Toss into the ring, 1.0 m"), "30/40"));
    assert_true(somewhere(pages, "Last time: 2026-10-06."));
    assert_true(somewhere(pages, "Of those who have a last time: 30/40 today, 20/40 then."));
    /* Newcombe's method 10 by our own computation, from Wilson's limits .598 to
     * .858 and .352 to .648 */
    assert_true(somewhere(pages, "Difference, together: +25 in 100 (95 % interval +4 to +43)."));
}

/* 1 − .95² = .0975: our own computation. */
static void chance_among_several(void **state) {
    struct progress *season = progress_new(*state);
    const struct checked *c = notes(*state, "2026-10-13", "toss 4 20/40\ntoss 7 20/40\n");
    progress_add(season, notes(*state, "2026-10-06", "toss 4 9/40\ntoss 7 20/40\n"));
    progress_add(season, c);
    assert_true(somewhere(report(c, season, false, *state),
                          "Of 2 players who have not changed, chance puts the interval of one or "
                          "more beside 0 in 10 of 100 practices."));
    assert_false(somewhere(with_season(*state, false), "chance puts"));
}

static void no_season(void **state) {
    const struct pages *pages = report(notes(*state, "2026-10-13", today), NULL, false, *state);
    assert_false(somewhere(pages, "Last time"));
    assert_false(somewhere(pages, "20/40"));
    row_is(with(pages, "What each works on"), 33, 162, "toss too low",
           "toss too low Ring 14/20 30/40 30/40 – 2/5 2026-10-13");
}

static void ways_of_missing(void **state) {
    const struct page *p = with(with_season(*state, false), "How the tosses missed");
    assert_true(leaf_has(p, "too low"));
    assert_true(leaf_has(p, "across the head"));
    assert_true(leaf_has(p, "to the arm side"));
    assert_false(leaf_has(p, "too far forward"));
}

static void focus(void **state) {
    const struct page *p = with(with_season(*state, false), "What each works on");
    row_is(p, 33, 177, "toss too low",
           "toss too low Ring 14/20 30/40 50/80 – 2/5 2026-10-06 2026-10-13");
    row_is(p, 64, 155, "Calm", "Calm – – – – – 2026-10-13");
}

static void marks(void **state) {
    const struct pages *pages = with_season(*state, false);
    const struct page *p = with(pages, "What was seen");
    row_is(p, 66, 177, "toss too low", "toss too low 2/7 7\u00A0(2)");
    row_is(p, 66, 177, "toss to the arm side", "toss to the arm side 1/7 9\u00A0(1)");
    assert_false(stands_on(pages, false, "nerves"));
}

static void the_other_team(void **state) {
    assert_true(somewhere(with_season(*state, false),
                          "Foxes served 3 times as well: 2 into the court, 1 missed."));
}

static void without_names(void **state) {
    const struct pages *pages = with_season(*state, true);
    assert_false(somewhere(pages, "Mira"));
    assert_false(somewhere(pages, "Zofia"));
}

static void jumps(void **state) {
    const struct pages *pages = with_season(*state, false);
    assert_true(leaf_has(with(pages, "Jump serves that are not written one by one"), "20"));
    assert_true(somewhere(pages, "medical professional"));
}

/* A number of jumps has no share, however many they were. */
static void jumps_are_no_rate(void **state) {
    struct progress *season = progress_new(*state);
    const struct checked *c = notes(*state, "2026-10-13", "jumps 7 40\n");
    progress_add(season, notes(*state, "2026-10-06", "jumps 7 35\n"));
    progress_add(season, c);
    const struct pages *pages = report(c, season, false, *state);
    for (size_t i = 0; i < pages->at[0].n; i++)
        assert_int_not_equal(pages->at[0].items[i].kind, PAGE_CIRCLE);
    assert_true(leaf_has(&pages->at[0], "35"));
}

/* Nothing but the other team's, and nothing at all. */
static void nothing(void **state) {
    const struct pages *none = report(notes(*state, "2026-10-13", ""), NULL, false, *state);
    const struct pages *theirs =
        report(notes(*state, "2026-10-13", "G1 in\n"), NULL, false, *state);
    assert_true(somewhere(none, "Nothing is written down for this practice yet."));
    assert_true(somewhere(theirs, "Foxes served 1 time as well: 1 into the court, 0 missed."));
    assert_false(somewhere(theirs, "What was done"));
}

/* Serves without a drill need no table of drills. */
static void no_drill(void **state) {
    const struct pages *pages =
        report(notes(*state, "2026-10-13", "7 in x3\n7 net\n4 in\n"), NULL, false, *state);
    assert_false(somewhere(pages, "What was done"));
    assert_true(leaf_has(with(pages, "Serves"), "4/5"));
}

/* ---- for the staff ------------------------------------------------------------------ */

static void goals_reached(void **state) {
    const struct page *p = with(with_season(*state, false), "Goals of the drills");
    assert_true(str_is(p->name, "For the staff"));
    row_is(p, 7.5, 177, "Mira", "Mira Ring 30/40 14/20 reached 1/2");
}

/* From the book, and too few tries for it. */
static void goal_of_the_drill(void **state) {
    const struct pages *pages = report(
        notes(*state, "2026-10-13", "drill \"Ring toss\"\ntoss 4 9/10\ntoss 7 12/20\n"), NULL,
        false, *state);
    const struct page *p = with(pages, "Goals of the drills");
    row_is(p, 7.5, 177, "Ada", "Ada Ring toss 9/10 14/20 fewer tries than it asks –");
    row_is(p, 7.5, 177, "Mira", "Mira Ring toss 12/20 14/20 not yet –");
    assert_false(somewhere(pages, "Since the focus was written down"));
}

static void since_each_focus(void **state) {
    const struct page *p = with(with_season(*state, false), "Since the focus was written down");
    row_is(p, 47, 103, "2026-10-06: td, “Ring”", "2026-10-06: td, “Ring”");
    assert_true(leaf_has(p, "50/80"));
}

static void jumps_by_player(void **state) {
    const struct page *p = with(with_season(*state, false), "Jump serves today");
    assert_true(str_is(p->name, "For the staff"));
    assert_true(leaf_holds(p, "medical professional"));
}

static void nerves_and_notes(void **state) {
    const struct pages *pages =
        report(notes(*state, "2026-10-13", "drill \"Last points\"\nobserve nerve\n9 nn long 1:02\n"
                                           "note \"asked to stop\"\n9 in x3 ?\n4 in\n"),
               NULL, false, *state);
    const struct page *p = with(pages, "Notes, and what to look at again");
    row_is(p, 66, 177, "nerves showed", "nerves showed 1/5 9\u00A0(1)");
    row_is(p, 10, 177, "Last points", "Last points 1:02 9 nn long");
    assert_true(leaf_has(p, "asked to stop") && leaf_has(p, "9 in x3 ?"));
    assert_false(stands_on(pages, false, "asked to stop"));
    assert_false(stands_on(pages, false, "nn"));
}

/* Without names, or without anything of it, there is no such page. */
static void no_staff_page(void **state) {
    const struct checked *plain = notes(*state, "2026-10-13", "4 float in x3\n");
    assert_false(stands_on(with_season(*state, true), true, ""));
    assert_false(stands_on(report(plain, NULL, false, *state), true, ""));
}

static void serves_last_time(void **state) {
    struct progress *season = progress_new(*state);
    const struct checked *c =
        notes(*state, "2026-10-13", "drill \"Deep\" ad6\n7 in d6 x20\n7 in 5 x10\n7 net x10\n4 in 6 x5\n");
    progress_add(season, notes(*state, "2026-10-06", "drill \"Deep\"\n7 in x20\n7 net x20\n"));
    progress_add(season, c);
    const struct pages *pages = report(c, season, false, *state);
    const struct page *p = with(pages, "Deep");
    row_is(p, 7.5, 177, "Mira", "Mira 20/40 30/40 20/40");
    assert_true(somewhere(pages, "Last time: 2026-10-06. Of those who have a last time: 30/40 "
                                 "today, 20/40 then. Difference, together: +25 in 100 (95 % "
                                 "interval +4 to +43). Last: serves into the court, whatever the "
                                 "target."));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(drills), TEST(beside_the_last_time), TEST(chance_among_several), TEST(no_season), TEST(ways_of_missing),
        TEST(focus),  TEST(marks),                TEST(the_other_team), TEST(without_names),
        TEST(jumps),  TEST(jumps_are_no_rate),    TEST(nothing),        TEST(no_drill),
        TEST(goals_reached), TEST(goal_of_the_drill), TEST(since_each_focus), TEST(jumps_by_player),
        TEST(nerves_and_notes), TEST(no_staff_page), TEST(serves_last_time),
    };
    return cmocka_run_group_tests_name("drilled_page", tests, NULL, NULL);
}
