/* The staff's pages, read back: each number is that of the advice, the progress
 * or the notes, and nothing of them stands on a page without names. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdlib.h>

#include "kit/in_arena.h"
#include "kit/leaf.h"
#include "kit/scene.h"

static const char staff[] = "For the staff";

static unsigned staff_pages(const struct pages *pages) {
    unsigned n = 0;
    for (size_t i = 0; i < pages->n; i++)
        n += str_is(pages->at[i].name, staff);
    return n;
}

static const struct page *first_staff_page(const struct pages *pages) {
    for (size_t i = 0; i < pages->n; i++)
        if (str_is(pages->at[i].name, staff))
            return &pages->at[i];
    fail_msg("no page for the staff");
    return NULL;
}

static const struct pages *report(const struct checked *c, const struct advice *season,
                                  bool no_names, struct arena *a) {
    struct page_facts *f = arena_alloc(a, 1, sizeof *f);
    *f = leaf_facts();
    f->season = season;
    f->no_names = no_names;
    return page_report(tally_of(c, a), f, &leaf_font, a);
}

/* A season of so many matches and one practice. */
static const struct advice *season_of(unsigned matches, struct arena *a) {
    struct advice *out = arena_alloc(a, 1, sizeof *out);
    struct advice_of of = advice_of(a);
    struct drill_book *drills = arena_alloc(a, 1, sizeof *drills);
    struct scene s = scene_usual();
    for (unsigned i = 0; i < matches; i++) {
        s.seed = 300 + i;
        advice_add(&of, scene_play(s, a));
    }
    advice_add(&of, scene_practice(8, 20, a));
    drill_book_init(drills, a);
    advice_init(out, &of, drills, a);
    return out;
}

/* Two serves marked `?`, and a note on the second and on a third. */
static struct checked *with_notes(struct arena *a) {
    struct checked *c = arena_alloc(a, 1, sizeof *c);
    *c = *scene_play(scene_usual(), a);
    c->notes = arena_alloc(a, 2, sizeof *c->notes);
    c->note_n = 2;
    c->notes[0] = (struct serve_note){STR("ran before the whistle"), 900, c->played[9].line};
    c->notes[1] = (struct serve_note){STR("net cord"), 901, c->played[20].line};
    c->played[4].said.review = c->played[9].said.review = true;
    c->played[4].said.has |= HAS_TIME;
    c->played[4].said.time_s = 3723;
    return c;
}

static void notes_and_reviews(void **state) {
    struct checked *c = with_notes(*state);
    const struct pages *pages = report(c, NULL, false, *state);
    const struct page *p = first_staff_page(pages);
    unsigned rows = 0;
    assert_int_equal(staff_pages(pages), 1);
    assert_true(leaf_has(p, "ran before the whistle") && leaf_has(p, "net cord"));
    for (size_t i = 0; i < p->n; i++)
        rows += p->items[i].kind == PAGE_WORDS && p->items[i].face == FACE_BOLD &&
                p->items[i].x_mm > 46.9 && p->items[i].x_mm < 47.1;
    assert_int_equal(rows, 3);
    /* the time stands once, beside the line and not in it */
    assert_true(leaf_has(p, "1:02:03"));
    struct str line =
        leaf_row(p, 10, 178, str_printf(*state, "1 · %u–%u", c->played[4].before[OURS],
                                        c->played[4].before[THEIRS]).at, *state);
    assert_true(str_ends(line, STR(" ?")));
}

/* No notes, no plan and no season: no page. Without names there is none at all. */
static void left_out(void **state) {
    const struct checked *plain = scene_play(scene_usual(), *state);
    assert_int_equal(staff_pages(report(plain, NULL, false, *state)), 0);
    assert_int_equal(staff_pages(report(with_notes(*state), NULL, false, *state)), 1);
    assert_int_equal(staff_pages(report(with_notes(*state), season_of(3, *state), true, *state)),
                     0);
}

/* ---- what to choose from -------------------------------------------------------- */

static bool on_staff_pages(const struct pages *pages, const char *words) {
    for (size_t i = 0; i < pages->n; i++)
        if (str_is(pages->at[i].name, staff) && leaf_has(&pages->at[i], words))
            return true;
    return false;
}

static void fraction_is_there(const struct pages *pages, struct rate r, struct arena *a) {
    struct str words = str_printf(a, "%u/%u", r.x, r.n);
    if (!on_staff_pages(pages, words.at))
        fail_msg("%s is on no page", words.at);
}

static bool serves_today(const struct checked *c, unsigned shirt) {
    for (size_t i = 0; i < c->played_n; i++)
        if (c->played[i].side == OURS && c->played[i].charged == shirt)
            return true;
    return false;
}

static void candidates_are_the_advices(void **state) {
    static const unsigned matches[] = {1, 4, 16};
    const struct checked *today = with_notes(*state);
    unsigned priorities = 0, with_mark = 0;
    for (unsigned k = 0; k < 3; k++) {
        const struct advice *season = season_of(matches[k], *state);
        const struct pages *pages = report(today, season, false, *state);
        for (size_t i = 0; i < season->faults->server_n; i++) {
            struct advice_server a = advice_server(season, i);
            for (unsigned n = 0; n < a.n && serves_today(today, a.who->shirt); n++) {
                const struct advice_priority *p = &a.at[n];
                priorities++;
                if (p->way != ADVICE_MISSES)
                    continue;
                fraction_is_there(pages, p->missed, *state);
                if (p->evidence != ADVICE_COUNTED && p->evidence != ADVICE_TESTED)
                    continue;
                fraction_is_there(pages, twoway_with(p->table), *state);
                fraction_is_there(pages, twoway_without(p->table), *state);
                with_mark++;
            }
        }
    }
    assert_true(priorities > 10 && with_mark > 3);
}

/* A mark that is tested has its ratio, with the interval of twoway.h. */
static void tested_mark(void **state) {
    const struct twoway t = {10, 20, 10, 110};
    struct played *serves = arena_alloc(*state, 150, sizeof *serves);
    for (unsigned i = 0; i < 150; i++) {
        serves[i] = scene_serve(i < 10 || (i >= 30 && i < 40) ? OUTCOME_NET : OUTCOME_IN3, 7);
        serves[i].said.marks = i < 30 ? 1u << MARK_td : 0;
        serves[i].observed = PHASE_TOSS;
        serves[i].line = i + 1;
    }
    const struct checked *c = scene_of(serves, 150, *state);
    struct advice season;
    struct advice_of of = advice_of(*state);
    struct drill_book drills;
    drill_book_init(&drills, *state);
    advice_add(&of, c);
    advice_init(&season, &of, &drills, *state);
    const struct page *p = first_staff_page(report(c, &season, false, *state));
    struct twoway_risk r = twoway_risk(t);
    assert_true(leaf_has(p, str_printf(*state, "%.1f (%.1f to %.1f)", r.ratio, r.low, r.high).at));
    assert_true(leaf_has(p, "10/30") && leaf_has(p, "10/120") && leaf_has(p, "20/150"));
    assert_true(leaf_has(p, "into the net · toss too low"));
}

static void practice_is_the_progress(void **state) {
    const struct advice *season = season_of(4, *state);
    const struct pages *pages = report(with_notes(*state), season, false, *state);
    const struct tally *t = tally_of(scene_practice(8, 20, *state), *state);
    for (size_t i = 0; i < t->server_n[OURS]; i++)
        fraction_is_there(pages,
                          (struct rate){t->servers[OURS][i].counts.missed,
                                        t->servers[OURS][i].counts.serves},
                          *state);
    for (size_t i = 0; i < season->faults->server_n; i++)
        if (season->faults->servers[i].shirt == 7)
            fraction_is_there(pages,
                              (struct rate){season->faults->servers[i].counts.missed,
                                            season->faults->servers[i].counts.serves},
                              *state);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(notes_and_reviews),
        TEST(left_out),
        TEST(candidates_are_the_advices),
        TEST(tested_mark),
        TEST(practice_is_the_progress),
    };
    return cmocka_run_group_tests_name("staff", tests, NULL, NULL);
}
