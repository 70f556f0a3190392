/* The scouting page, read back from its list of words: its numbers are the
 * study's, and nothing overlaps where there is much to say or nothing. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>

#include "kit/boxes.h"
#include "kit/dice.h"
#include "kit/in_arena.h"
#include "kit/leaf.h"
#include "kit/longer.h"
#include "kit/print.h"
#include "kit/scene.h"

static const char long_name[] = "Wilhelmina Theodora van den Oudekerk-Montgomery zu Hohenfeld";

/* What a season may be like. */
struct wild {
    unsigned seed, matches, shirts, plans;
    unsigned by_per_cent;        /* of balls with a receiver */
    unsigned zone_per_mille;
    const char *team;
};

static const struct checked *match(const struct wild *w, unsigned k, struct arena *a) {
    struct scene scene = scene_usual();
    struct dice dice = {w->seed * 100 + k};
    scene.seed = w->seed * 100 + k;
    scene.zone_per_mille = w->zone_per_mille;
    scene.place_per_mille = w->zone_per_mille / 2;
    struct checked *c = arena_alloc(a, 1, sizeof *c);
    *c = *scene_play(scene, a);
    for (size_t i = 0; i < c->played_n; i++) {
        struct played *p = &c->played[i];
        p->said.by = dice_in(&dice, 10 * w->by_per_cent) ? (uint8_t)(1 + dice_below(&dice, w->shirts))
                                                          : SHIRT_NONE;
        p->plan = p->side == OURS && w->plans ? 1 + (uint32_t)i % w->plans : 0;
    }
    c->plans = arena_alloc(a, w->plans + 1, sizeof *c->plans);
    c->plan_n = w->plans;
    for (unsigned i = 0; i < w->plans; i++)
        c->plans[i] = i % 2 ? (struct serve_plan){SHIRT_NONE, {PLACE_DEEP_SEAM, 5, 6, 0, 0}, i}
                            : (struct serve_plan){(uint8_t)(1 + i), {0}, i};
    return c;
}

static struct scout *season(const struct wild *w, struct arena *a) {
    struct scout *s = scout_new(w->team ? str_of(w->team) : STR("Granite Foxes"), a);
    for (unsigned k = 0; k < w->matches; k++)
        scout_add(s, match(w, k, a), THEIRS);
    return s;
}

static struct str counts_said(struct arena *a, const char *label, const struct counts *c) {
    return str_printf(a, "%s %u %u %u %u %u %u %u/%u", label, c->serves, c->by[OUTCOME_ACE],
                      c->by[OUTCOME_OVER], c->by[OUTCOME_IN1], c->by[OUTCOME_IN2],
                      c->by[OUTCOME_IN3], c->broke, c->serves);
}

static void same(struct str found, struct str wanted) {
    if (!str_eq(found, wanted))
        fail_msg("the page has \"%.*s\", the study \"%.*s\"", STR_ARG(found), STR_ARG(wanted));
}

/* Shirts end at 6 mm. */
static double shirt_x(const char *label) {
    return 6 - leaf_width(NULL, str_of(label), FACE_BOLD, 8.5);
}

static void numbers_are_the_studys(void **state) {
    struct page_facts facts = leaf_facts();
    for (unsigned k = 1; k <= 20; k++) {
        struct wild w = {k, 1 + k % 4, 8, 3, 70, 700, NULL};
        struct scout *s = season(&w, *state);
        const struct page *p = &page_scout(s, &facts, &leaf_font, *state)->at[0];
        struct scout_receiver r[SHIRT_MAX + 1];
        struct scout_plan sum = scout_plans_sum(s->plans, s->plan_n);
        for (size_t i = 0, n = scout_receivers(s, r); i < n; i++) {
            const char *label = str_printf(*state, "%u", r[i].shirt).at;
            same(leaf_row(p, shirt_x(label), 90, label, *state),
                 counts_said(*state, label, &r[i].counts));
        }
        same(leaf_row(p, 0, 90, "all", *state), counts_said(*state, "all", &s->all));
        same(leaf_row(p, 95, 140, "seam 5-6", *state),
             str_printf(*state, "seam 5-6 %u %u/%u", s->at[SCOUT_SEAM_56].serves,
                        s->at[SCOUT_SEAM_56].broke, s->at[SCOUT_SEAM_56].serves));
        same(leaf_row(p, 95, 140, "all", *state),
             str_printf(*state, "all %u %u/%u", s->all.serves, s->all.broke, s->all.serves));
        assert_true(leaf_has(p, str_printf(*state, "%u/%u", sum.as_planned.x, sum.as_planned.n).at));
    }
}

/* Of many receivers the last rows hold the others, so that all adds up. */
static void few_balls_share_a_row(void **state) {
    struct page_facts facts = leaf_facts();
    struct wild w = {1, 1, 18, 0, 80, 700, NULL};
    struct scout *s = season(&w, *state);
    const struct page *p = &page_scout(s, &facts, &leaf_font, *state)->at[0];
    struct scout_receiver r[SHIRT_MAX + 1];
    size_t n = scout_receivers(s, r), own = 0;
    struct counts others = {0};
    while (own < 7 && r[own].counts.serves >= 10)
        own++;
    for (size_t i = own; i < n; i++)
        tally_merge(&others, &r[i].counts);
    const char *label = str_printf(*state, "%zu others", n - own).at;
    same(leaf_row(p, 0, 90, label, *state), counts_said(*state, label, &others));
    assert_true(leaf_holds(p, "No plan was written down."));
}

static void small_numbers_are_counts(void **state) {
    struct page_facts facts = leaf_facts();
    struct scout *s = scout_new(STR("Foxes"), *state);
    struct played one = scene_serve(OUTCOME_IN1, 7);
    one.said.by = 4;
    scout_add(s, scene_of(&one, 1, *state), THEIRS);
    const struct page *p = &page_scout(s, &facts, &leaf_font, *state)->at[0];
    same(leaf_row(p, shirt_x("4"), 178, "4", *state), STR("4 1 0 0 1 0 0 1/1 too few to say"));
    assert_true(leaf_has(p, "Where the balls were played was not written down."));
    for (size_t i = 0; i < p->n; i++)
        assert_true(p->items[i].kind != PAGE_CIRCLE);
}

static void nothing_overlaps(void **state) {
    struct pdf *pdf = print_open(*state);
    struct page_font font = pdf_font(pdf);
    struct longer longer;
    longer_init(&longer, *state);
    for (unsigned k = 0; k < 120; k++) {
        struct wild w = {k + 1, k % 5 == 4 ? 40 : 1 + k % 3, 1 + k % 20, k % 14,
                         k % 6 * 20, k % 4 * 300, k % 2 ? long_name : NULL};
        struct page_facts facts = leaf_facts();
        struct scout *s = season(&w, *state);
        char what[40];
        facts.left_out = k % 7 == 0;
        facts.lang = k % 3 ? &longer.lang : NULL;
        snprintf(what, sizeof what, "season %u", k);
        const struct pages *pages = page_scout(s, &facts, &font, *state);
        for (size_t i = 0; i < pages->n; i++)
            boxes_apart(&pages->at[i], &font, what);
        assert_true(pages->n <= 2);
    }
    pdf_free(pdf);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(numbers_are_the_studys),
        TEST(few_balls_share_a_row),
        TEST(small_numbers_are_counts),
        TEST(nothing_overlaps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
