/* What a reader of the pages must not miss or misread. F25: FIVB Official
 * Volleyball Rules 2025-2028, by rule number. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdlib.h>

#include "kit/in_arena.h"
#include "kit/leaf.h"
#include "kit/scene.h"

enum { COURTS_PAGE = 1 };

static bool is_start(const struct page_item *item) {
    return item->mark == MARK_START || item->mark == MARK_START_MISSED;
}

/* What stands in the cell of a server, four rows or fewer: marks of serves with
 * a zone only, or numbers. Cells are 36.75 by 43.4 from 0, 158.6 on. */
static unsigned zone_shown(struct arena *a, const struct page *p, size_t cell) {
    double x = (double)(cell % 5) * 36.75, y = 158.6 + (double)(cell / 5) * 43.4;
    unsigned n = 0;
    for (size_t i = 0; i < p->n; i++) {
        const struct page_item *item = &p->items[i];
        if (item->x_mm < x || item->x_mm > x + 36 || item->y_mm < y + 4 || item->y_mm > y + 43)
            continue;
        if (item->kind == PAGE_MARK && !is_start(item) && tally_known(item->serve) == KNOWN_ZONE)
            n++;
        if (item->kind == PAGE_WORDS && item->face == FACE_BOLD && item->type_pt > 7.2)
            n += (unsigned)atoi(str_c(a, item->words) + (item->words.at[0] == '('));
    }
    return n;
}

/* Nobody's serve with a zone only is left out, however many places she has. */
static void zones_of_every_server(void **state) {
    for (unsigned seed = 1; seed <= 60; seed++) {
        struct scene scene = scene_usual();
        scene.seed = seed;
        scene.servers = 6 + seed % 5;
        scene.sets = 2 + seed % 3;
        scene.place_per_mille = seed % 6 * 80;
        const struct checked *c = scene_play(scene, *state);
        const struct tally *t = tally_of(c, *state);
        const struct page *p = &leaf_pages(c, *state)->at[COURTS_PAGE];
        assert_true(t->server_n[OURS] <= 10);
        for (size_t i = 0; i < t->server_n[OURS]; i++) {
            unsigned foot = 0;
            for (size_t k = 0; k < c->played_n; k++)
                foot += played_counts(&c->played[k]) && c->played[k].side == OURS &&
                        c->played[k].charged == t->servers[OURS][i].shirt &&
                        tally_outcome(&c->played[k]) == OUTCOME_FOOT &&
                        tally_known(&c->played[k]) == KNOWN_ZONE;
            assert_int_equal(zone_shown(*state, p, i) + foot,
                             t->servers[OURS][i].known[KNOWN_ZONE]);
        }
    }
}

/* No grid line is drawn over a dot or an interval. */
static void grid_lies_under(const struct page *p) {
    for (size_t i = 0; i < p->n; i++) {
        const struct page_item *it = &p->items[i];
        double r = it->kind == PAGE_CIRCLE ? it->size_mm : 0;
        double left = it->x_mm - r, right = it->kind == PAGE_CIRCLE ? it->x_mm + r : it->x2_mm;
        if (it->kind != PAGE_CIRCLE && !(it->kind == PAGE_LINE && it->ink == INK_OURS))
            continue;
        for (size_t k = i + 1; k < p->n; k++) {
            const struct page_item *l = &p->items[k];
            if (l->kind == PAGE_LINE && l->ink == INK_GRID && l->x_mm > left && l->x_mm < right &&
                l->y_mm < it->y_mm + r && l->y2_mm > it->y_mm - r)
                fail_msg("a grid line lies over what is at %.1f %.1f", it->x_mm, it->y_mm);
        }
    }
}

static void grid_under_dots(void **state) {
    const struct pages *pages = leaf_pages(scene_play(scene_usual(), *state), *state);
    grid_lies_under(&pages->at[0]);
    pages = leaf_pages(scene_practice(12, 20, *state), *state);
    for (size_t i = 0; i < pages->n; i++)
        grid_lies_under(&pages->at[i]);
}

static void what_rates_are_out_of(void **state) {
    struct played all[40];
    leaf_fill(all, 0, 20, OUTCOME_IN3, OURS);
    leaf_fill(all, 20, 40, OUTCOME_IN3, THEIRS);
    for (unsigned i = 0; i < 40; i++)
        all[i].won = RALLY_WON;
    assert_true(leaf_holds(&leaf_pages(scene_of(all, 40, *state), *state)->at[0],
                           "All rates: of all serves."));
    all[30].won = RALLY_NONE;
    const struct page *p = &leaf_pages(scene_of(all, 40, *state), *state)->at[0];
    assert_false(leaf_holds(p, "All rates"));
    assert_true(leaf_holds(p, "points won: where the winner is known."));
}

/* A verdict only on a match that is over and was read to the end. */
static void result_of_an_open_match(void **state) {
    struct scene scene = scene_usual();
    scene.sets = 2;
    struct checked *c = arena_alloc(*state, 1, sizeof *c);
    *c = *scene_play(scene, *state);
    assert_false(leaf_holds(&leaf_pages(c, *state)->at[0], "not finished"));
    c->sets_won[OURS] = 1;
    c->sets_won[THEIRS] = 0;
    c->sets[1].ended = false;
    const struct page *p = &leaf_pages(c, *state)->at[0];
    assert_true(leaf_has(p, " (not finished)") && leaf_has(p, "* not finished"));
    assert_true(leaf_has(p, "set 1") && leaf_has(p, "set 2*"));
    /* F25 6.3.1: the match is won with three sets. */
    c->sets_won[OURS] = 3;
    assert_false(leaf_holds(&leaf_pages(c, *state)->at[0], "not finished"));
    c->unread = 2;
    c->incomplete = true;
    p = &leaf_pages(c, *state)->at[0];
    assert_true(leaf_has(p, " (by the lines read)"));
    assert_true(leaf_holds(p, "In the lines read our serve"));
    assert_false(leaf_holds(p, "chance alone seldom") || leaf_holds(p, "whose serve"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(zones_of_every_server),
        TEST(grid_under_dots),
        TEST(what_rates_are_out_of),
        TEST(result_of_an_open_match),
    };
    return cmocka_run_group_tests_name("reading", tests, NULL, NULL);
}
