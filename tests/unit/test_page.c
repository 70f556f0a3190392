/* The pages as lists of marks, lines and words. F25: FIVB Official Volleyball
 * Rules 2025-2028, by rule number. Lengths on paper follow from the scale that
 * the page states, 1 : 200, so that 1 m is 5 mm. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "kit/in_arena.h"
#include "kit/leaf.h"
#include "kit/scene.h"
#include "page.h"

enum { COURTS_PAGE = 1 };

static const double scale_mm = 5, centre_mm = 37.5, net_mm = 76;
static const double block_wide_mm = 177, block_high_mm = 249, frame_mm = 75;
static const double frame_end_mm = 143.5;
static const double large_a_mm = 2.3;

static double x_of(double x_m) {
    return centre_mm + (4.5 - x_m) * scale_mm;
}

static double y_of(double d_m) {
    return net_mm - d_m * scale_mm;
}

static bool near(double a, double b) {
    return fabs(a - b) < 1e-6;
}

/* ---- the court ------------------------------------------------------------------- */

static double line_mm(const struct page_item *item) {
    return item->line_pt * 25.4 / 72;
}

/* A black line along the court whose edges lie at these metres from the
 * server's right side line, between two depths. */
static bool line_along(const struct page *p, double edge_m, double edge2_m, double d_m,
                       double d2_m) {
    for (size_t i = 0; i < p->n; i++) {
        const struct page_item *l = &p->items[i];
        if (l->kind == PAGE_LINE && l->ink == INK_BLACK && l->on_mm <= 0 &&
            near(l->x_mm, l->x2_mm) && near(l->x_mm + line_mm(l) / 2, x_of(edge_m)) &&
            near(l->x_mm - line_mm(l) / 2, x_of(edge2_m)) &&
            near(fmax(l->y_mm, l->y2_mm), y_of(fmin(d_m, d2_m))) &&
            near(fmin(l->y_mm, l->y2_mm), y_of(fmax(d_m, d2_m))))
            return true;
    }
    return false;
}

/* The same across it, from x to x2. */
static bool line_across(const struct page *p, double edge_m, double edge2_m, double x_m,
                        double x2_m) {
    for (size_t i = 0; i < p->n; i++) {
        const struct page_item *l = &p->items[i];
        if (l->kind == PAGE_LINE && l->ink == INK_BLACK && l->on_mm <= 0 &&
            near(l->y_mm, l->y2_mm) && near(l->y_mm + line_mm(l) / 2, y_of(edge_m)) &&
            near(l->y_mm - line_mm(l) / 2, y_of(edge2_m)) &&
            near(fmax(l->x_mm, l->x2_mm), x_of(fmin(x_m, x2_m))) &&
            near(fmin(l->x_mm, l->x2_mm), x_of(fmax(x_m, x2_m))))
            return true;
    }
    return false;
}

static const struct page *courts(struct arena *a) {
    return &leaf_pages(scene_play(scene_usual(), a), a)->at[COURTS_PAGE];
}

/* F25 1.1: 18 m by 9 m. 1.3.1: lines 5 cm wide. 1.3.2: drawn inside. */
static void boundary_lines(void **state) {
    const struct page *p = courts(*state);
    assert_true(line_along(p, 0, 0.05, -9, 9));
    assert_true(line_along(p, 8.95, 9, -9, 9));
    assert_true(line_across(p, 8.95, 9, 0, 9));
    assert_true(line_across(p, -9, -8.95, 0, 9));
}

/* F25 1.3.4: the rear edge 3 m from the axis of the centre line. */
static void attack_lines(void **state) {
    const struct page *p = courts(*state);
    assert_true(line_across(p, 2.95, 3, 0, 9));
    assert_true(line_across(p, -3, -2.95, 0, 9));
}

/* F25 1.3.4: five dashes of 15 cm, 20 cm apart, 1.75 m in all. */
static void attack_line_dashes(void **state) {
    const struct page *p = courts(*state);
    for (int half = -1; half <= 1; half += 2) {
        double edge = half > 0 ? 2.95 : -3, edge2 = edge + 0.05;
        for (unsigned i = 0; i < 5; i++) {
            double from = 0.20 + 0.35 * i;
            assert_true(line_across(p, edge, edge2, -from, -from - 0.15));
            assert_true(line_across(p, edge, edge2, 9 + from, 9 + from + 0.15));
        }
        assert_true(near(0.20 + 0.35 * 4 + 0.15, 1.75));
        assert_false(line_across(p, edge, edge2, -0.20 - 0.35 * 5, -0.35 - 0.35 * 5));
    }
}

/* F25 1.4.2: marks of 15 cm, 20 cm behind the end line, within the 9 m. */
static void service_zone(void **state) {
    const struct page *p = courts(*state);
    assert_true(line_along(p, 0, 0.05, -9.20, -9.35));
    assert_true(line_along(p, 8.95, 9, -9.20, -9.35));
    assert_true(line_along(p, 0, 0.05, 9.20, 9.35));
    assert_true(line_along(p, 8.95, 9, 9.20, 9.35));
}

static bool circle_at(const struct page *p, double x_m, double d_m, enum page_ink fill) {
    for (size_t i = 0; i < p->n; i++)
        if (p->items[i].kind == PAGE_CIRCLE && near(p->items[i].x_mm, x_of(x_m)) &&
            near(p->items[i].y_mm, y_of(d_m)) && p->items[i].fill == fill)
            return true;
    return false;
}

/* F25 2.2: the net 9.50 to 10 m long, half a metre beyond each side band. 2.4:
 * antennas at the outer edges of the side bands. 2.5.1: posts 1 m outside. */
static void net_antennas_posts(void **state) {
    const struct page *p = courts(*state);
    bool net = false;
    for (size_t i = 0; i < p->n; i++) {
        const struct page_item *l = &p->items[i];
        net = net || (l->kind == PAGE_LINE && near(l->y_mm, net_mm) && near(l->y2_mm, net_mm) &&
                      near(l->x_mm, x_of(9.5)) && near(l->x2_mm, x_of(-0.5)));
    }
    assert_true(net);
    assert_true(circle_at(p, 0, 0, INK_BLACK) && circle_at(p, 9, 0, INK_BLACK));
    assert_true(circle_at(p, -1, 0, INK_WHITE) && circle_at(p, 10, 0, INK_WHITE));
}

/* F25 7.3.1: facing the net 4, 3, 2 stand left to right, and 5, 6, 1 behind.
 * From the server's side the receivers are seen from the front: 1 6 5 far. */
static void zone_numbers(void **state) {
    const struct page *p = courts(*state);
    static const struct {
        const char *zone;
        double x_m, d_m;
    } corners[] = {{"1", 9, 9}, {"6", 6, 9}, {"5", 3, 9}, {"2", 9, 3}, {"3", 6, 3}, {"4", 3, 3}};
    for (size_t k = 0; k < 6; k++) {
        bool found = false;
        for (size_t i = 0; i < p->n; i++) {
            const struct page_item *w = &p->items[i];
            found = found || (w->kind == PAGE_WORDS && w->ink == INK_FAINT &&
                              str_is(w->words, corners[k].zone) &&
                              near(w->x_mm, x_of(corners[k].x_m) + 0.9) &&
                              w->y_mm > y_of(corners[k].d_m) && w->y_mm < y_of(corners[k].d_m) + 4);
        }
        assert_true(found);
    }
}

/* ---- marks -------------------------------------------------------------------------- */

static bool is_start(const struct page_item *item) {
    return item->mark == MARK_START || item->mark == MARK_START_MISSED;
}

static bool on_large(const struct page_item *item) {
    return item->kind == PAGE_MARK && item->serve && item->x_mm < frame_mm &&
           item->y_mm < frame_end_mm && !is_start(item);
}

static const struct page_item *only_mark(const struct page *p) {
    const struct page_item *found = NULL;
    for (size_t i = 0; i < p->n; i++) {
        if (!on_large(&p->items[i]))
            continue;
        assert_null(found);
        found = &p->items[i];
    }
    assert_non_null(found);
    return found;
}

static void mark_is(struct arena *a, enum outcome o, unsigned by, int x_cm, int d_cm,
                    enum page_mark mark, double x_mm, double y_mm) {
    struct played p = scene_serve(o, 7);
    p.said.by = (uint8_t)by;
    p.said.landing = (struct spot){PLACE_XD, 0, 0, (int16_t)x_cm, (int16_t)d_cm};
    const struct pages *pages = leaf_pages(scene_of(&p, 1, a), a);
    const struct page_item *m = only_mark(&pages->at[COURTS_PAGE]);
    assert_int_equal(m->mark, mark);
    assert_true(near(m->x_mm, x_mm) && near(m->y_mm, y_mm));
    assert_ptr_equal(m->serve, &p);
}

/* X = centre + (4.5 - x) s, Y = net - d s: a ball to the server's right lies to
 * the right on paper. F25 8.3: on the outer edge of a line it is in, and stands
 * on it. */
static void places_to_scale(void **state) {
    mark_is(*state, OUTCOME_ACE, SHIRT_NONE, 210, 840, MARK_ACE_FLOOR, 37.5 + 2.4 * 5, 76 - 42);
    mark_is(*state, OUTCOME_ACE, 11, 210, 840, MARK_ACE_PLAYED, 49.5, 34);
    mark_is(*state, OUTCOME_IN3, 4, 450, 450, MARK_PLAY, 37.5, 53.5);
    mark_is(*state, OUTCOME_IN2, 4, 900, 900, MARK_PLAY, 15, 31);
    mark_is(*state, OUTCOME_PLAY, 4, 0, 0, MARK_PLAY, 60, 76);
    mark_is(*state, OUTCOME_IN1, 4, 600, 300, MARK_BROKE, 30, 61);
    mark_is(*state, OUTCOME_OVER, 4, 600, 300, MARK_BROKE, 30, 61);
    mark_is(*state, OUTCOME_LONG, SHIRT_NONE, 450, 950, MARK_LONG, 37.5, 28.5);
    mark_is(*state, OUTCOME_RIGHT, SHIRT_NONE, -40, 700, MARK_RIGHT, 62, 41);
    mark_is(*state, OUTCOME_LEFT, SHIRT_NONE, 940, 700, MARK_LEFT, 13, 41);
    /* Into the net: under it, where it was hit. */
    mark_is(*state, OUTCOME_NET, SHIRT_NONE, 150, 0, MARK_NET, 52.5, 76 + 0.75 * large_a_mm);
}

static void net_by_third(void **state) {
    static const struct {
        uint8_t zone;
        double x_m;
    } cases[] = {{2, 7.5}, {3, 4.5}, {4, 1.5}};
    for (size_t i = 0; i < 3; i++) {
        struct played p = scene_serve(OUTCOME_NET, 7);
        p.said.landing = (struct spot){PLACE_ZONE, cases[i].zone, 0, 0, 0};
        const struct pages *pages = leaf_pages(scene_of(&p, 1, *state), *state);
        const struct page_item *m = only_mark(&pages->at[COURTS_PAGE]);
        assert_true(near(m->x_mm, x_of(cases[i].x_m)));
        assert_true(near(m->y_mm, 76 + 2.75 * large_a_mm));
    }
}

static unsigned marks_of(const struct page *p, const struct played *serve) {
    unsigned n = 0;
    for (size_t i = 0; i < p->n; i++)
        n += on_large(&p->items[i]) && p->items[i].serve == serve;
    return n;
}

/* Every mark of the large court is one serve of ours, every serve of ours with
 * a place or a zone has one mark, and no other serve has any. */
static void marks_are_serves(void **state) {
    for (unsigned seed = 1; seed <= 40; seed++) {
        struct scene scene = scene_usual();
        scene.seed = seed;
        scene.place_per_mille = seed % 5 * 250;
        const struct checked *c = scene_play(scene, *state);
        const struct page *p = &leaf_pages(c, *state)->at[COURTS_PAGE];
        const struct tally *t = tally_of(c, *state);
        unsigned drawn = 0;
        for (size_t i = 0; i < c->played_n; i++) {
            const struct played *serve = &c->played[i];
            bool shown = serve->side == OURS && tally_known(serve) != KNOWN_NOT;
            unsigned n = marks_of(p, serve);
            assert_int_equal(n, shown);
            drawn += n;
        }
        assert_int_equal(drawn, t->known[OURS][KNOWN_PLACE] + t->known[OURS][KNOWN_ZONE]);
    }
}

/* Moving marks apart must not move a ball over a line of the court: what was
 * recorded inside stays inside. */
static void marks_keep_their_side(void **state) {
    for (unsigned seed = 1; seed <= 40; seed++) {
        struct scene scene = scene_usual();
        scene.seed = seed;
        scene.place_per_mille = 1000;
        const struct checked *c = scene_play(scene, *state);
        const struct page *p = &leaf_pages(c, *state)->at[COURTS_PAGE];
        for (size_t i = 0; i < p->n; i++) {
            const struct page_item *m = &p->items[i];
            if (!on_large(m) || m->mark == MARK_NET || m->mark == MARK_FAULT)
                continue;
            const struct spot *at = &m->serve->said.landing;
            assert_int_equal(m->x_mm > x_of(0), at->x_cm < 0);
            assert_int_equal(m->x_mm<x_of(9), at->x_cm> 900);
            assert_int_equal(m->y_mm<y_of(9), at->d_cm> 900);
        }
    }
}

/* Shapes carry the meaning, colour repeats it: an ace and a ball in play are
 * black, a miss is not; what fell on the floor is full, what was played open. */
static void shapes(void **state) {
    (void)state;
    for (unsigned m = 0; m < PAGE_MARK_N; m++) {
        unsigned n;
        const struct page_stroke *s = page_strokes((enum page_mark)m, &n);
        assert_true(n > 0);
        for (unsigned i = 0; i < n; i++) {
            assert_true(s[i].ink != INK_NONE || s[i].fill != INK_NONE);
            assert_true(s[i].point_n > 0 || s[i].radius_a > 0);
            for (unsigned k = 0; k < s[i].point_n; k++)
                assert_true(hypot(s[i].points[k][0], s[i].points[k][1]) < 0.7);
        }
        bool open = m == MARK_ACE_PLAYED || m == MARK_PLAY || m == MARK_BROKE || m == MARK_OBJECT;
        bool strokes = m == MARK_NET || m == MARK_START || m == MARK_START_MISSED;
        assert_int_equal(s[0].fill == INK_WHITE, open);
        assert_int_equal(s[0].fill == INK_NONE, strokes);
    }
}

/* ---- words --------------------------------------------------------------------------- */

/* 26 of 93 and 23 of 90: .2796 and .2556, difference .0240. Wilson's limits,
 * worked by hand, are .1985 .3783 and .1767 .3544, so that Newcombe's go from
 * .0240 - sqrt(.0811^2 + .0988^2) = -.104 to .0240 + sqrt(.0987^2 + .0789^2)
 * = .150. */
static void answer(void **state) {
    struct played all[183];
    leaf_fill(all, 0, 26, OUTCOME_IN1, OURS);
    leaf_fill(all, 26, 93, OUTCOME_IN3, OURS);
    leaf_fill(all, 93, 116, OUTCOME_OVER, THEIRS);
    leaf_fill(all, 116, 183, OUTCOME_IN3, THEIRS);
    const struct page *p = &leaf_pages(scene_of(all, 183, *state), *state)->at[0];
    assert_true(leaf_has(p, "26/93") && leaf_has(p, "23/90"));
    assert_true(leaf_holds(p, "Our serve broke their pass"));
    assert_true(leaf_holds(p, "That is 28 and 26 in 100."));
    assert_true(leaf_holds(p, "of +2 lies"));
    assert_true(leaf_holds(p, "\xE2\x88\x92"
                              "10 and +15"));
    assert_true(leaf_holds(p, "whose"));
}

/* Under 30 serves on a side nothing is compared in words, under 10 there is no
 * percent (the project's own bounds). */
static void small_numbers(void **state) {
    struct played all[60];
    leaf_fill(all, 0, 29, OUTCOME_IN1, OURS);
    leaf_fill(all, 29, 60, OUTCOME_IN3, THEIRS);
    const struct page *p = &leaf_pages(scene_of(all, 60, *state), *state)->at[0];
    assert_true(leaf_holds(p, "Under 30 serves on a side"));
    assert_false(leaf_holds(p, "better"));
    p = &leaf_pages(scene_of(all, 9, *state), *state)->at[0];
    assert_true(leaf_holds(p, "Too few serves"));
    for (size_t i = 0; i < p->n; i++)
        assert_true(p->items[i].kind != PAGE_CIRCLE || p->items[i].y_mm < 76); /* the key's dots */
}

static void nothing_of_ours(void **state) {
    struct played all[3];
    leaf_fill(all, 0, 3, OUTCOME_IN3, THEIRS);
    const struct pages *pages = leaf_pages(scene_of(all, 3, *state), *state);
    assert_int_equal(pages->n, 1);
    assert_true(leaf_holds(&pages->at[0], "No serve of ours"));
    assert_int_equal(leaf_pages(scene_of(NULL, 0, *state), *state)->n, 1);
}

static void places_not_recorded(void **state) {
    struct played all[12];
    leaf_fill(all, 0, 12, OUTCOME_IN3, OURS);
    const struct pages *pages = leaf_pages(scene_of(all, 12, *state), *state);
    const struct page *p = &pages->at[COURTS_PAGE];
    assert_true(leaf_has(p, "Place of the ball not recorded: 12 of 12."));
    assert_false(line_along(p, 0, 0.05, -9, 9));
    assert_false(leaf_has(p, "By zone of the receiving court"));
}

static void ours_only(void **state) {
    struct scene scene = scene_usual();
    scene.ours_only = true;
    const struct page *p = &leaf_pages(scene_play(scene, *state), *state)->at[0];
    assert_true(leaf_has(p, "Our serve"));
    assert_false(leaf_has(p, "theirs"));
    assert_false(leaf_holds(p, "theirs broke"));
    assert_false(leaf_holds(p, "they "));
}

static void incomplete(void **state) {
    struct checked *c = arena_alloc(*state, 1, sizeof *c);
    *c = *scene_play(scene_usual(), *state);
    c->unread = 3;
    c->incomplete = true;
    const struct pages *pages = leaf_pages(c, *state);
    for (size_t i = 0; i < pages->n; i++)
        assert_true(leaf_has(&pages->at[i], "INCOMPLETE: 3 lines unread"));
    c->unread = 0;
    c->incomplete = false;
    pages = leaf_pages(c, *state);
    for (size_t i = 0; i < pages->n; i++)
        assert_false(leaf_holds(&pages->at[i], "INCOMPLETE"));
}

static void without_names(void **state) {
    struct page_facts f = leaf_facts();
    f.no_names = true;
    const struct tally *t = tally_of(scene_play(scene_usual(), *state), *state);
    const struct pages *pages = page_report(t, &f, &leaf_font, *state);
    for (size_t i = 0; i < pages->n; i++) {
        assert_false(leaf_holds(&pages->at[i], "Havelin"));
        assert_false(leaf_holds(&pages->at[i], "Okoro"));
        assert_false(leaf_holds(&pages->at[i], "shirt") || leaf_has(&pages->at[i], "name"));
        assert_true(leaf_has(&pages->at[i], "7"));
    }
}

/* A row that has no room is never lost: its serves stand in a row of others. */
static void many_servers(void **state) {
    for (unsigned servers = 6; servers <= 18; servers++) {
        struct scene scene = scene_usual();
        scene.servers = servers;
        scene.sets = 5;
        const struct checked *c = scene_play(scene, *state);
        const struct tally *t = tally_of(c, *state);
        const struct page *p = &leaf_pages(c, *state)->at[0];
        unsigned listed = 0, sum = 0;
        for (size_t i = 0; i < p->n; i++) {
            const struct page_item *w = &p->items[i];
            /* the column of serves ends at 53.5, right of the names */
            bool count = w->kind == PAGE_WORDS && w->face == FACE_REGULAR && w->y_mm > 150 &&
                         near(w->x_mm + leaf_width(NULL, w->words, w->face, w->type_pt), 53.5) &&
                         w->words.n > 0 && w->words.at[0] >= '0' && w->words.at[0] <= '9';
            if (count) {
                listed++;
                sum += (unsigned)atoi(str_c(*state, w->words));
            }
        }
        assert_true(listed <= 14);
        assert_int_equal(sum, t->side[OURS].serves);
    }
}

/* ---- everything stays on the sheet ------------------------------------------------------ */

static void in_block(const struct page_item *item) {
    double right = item->x_mm, bottom = item->y_mm;
    if (item->kind == PAGE_WORDS)
        right += leaf_width(NULL, item->words, item->face, item->type_pt);
    if (item->kind == PAGE_LINE || item->kind == PAGE_BOX) {
        right = fmax(right, item->x2_mm);
        bottom = fmax(bottom, item->y2_mm);
    }
    if (item->x_mm < -0.01 || item->y_mm < 0 || right > block_wide_mm + 2 || bottom > block_high_mm)
        fail_msg("%.*s at %.1f %.1f to %.1f %.1f leaves the block", STR_ARG(item->words),
                 item->x_mm, item->y_mm, right, bottom);
}

/* Above the foot's rule, but for the foot itself. */
static void above_foot(const struct page *p) {
    for (size_t i = 0; i < p->n; i++)
        if (p->items[i].y_mm > 243.05 && p->items[i].y_mm < 245.1)
            fail_msg("\"%.*s\" at %.1f runs into the foot", STR_ARG(p->items[i].words),
                     p->items[i].y_mm);
}

static void nothing_leaves_the_block(void **state) {
    static const char long_name[] = "Wilhelmina Theodora van den Oudekerk-Montgomery von Hohenfeld";
    for (unsigned k = 0; k < 36; k++) {
        struct scene scene = scene_usual();
        scene.seed = k + 1;
        scene.servers = 6 + k % 13;
        scene.sets = k % 6;
        scene.set_points = k % 4 == 3 ? 34 : 25;
        scene.place_per_mille = k % 3 * 400;
        scene.ours_only = k % 7 == 0;
        scene.long_name = k % 2 ? long_name : NULL;
        const struct pages *pages = leaf_pages(scene_play(scene, *state), *state);
        for (size_t i = 0; i < pages->n; i++) {
            for (size_t n = 0; n < pages->at[i].n; n++)
                in_block(&pages->at[i].items[n]);
            above_foot(&pages->at[i]);
        }
    }
    for (unsigned each = 1; each < 64; each += 9) {
        const struct pages *pages = leaf_pages(scene_practice(6 + each % 12, each, *state), *state);
        for (size_t i = 0; i < pages->n; i++) {
            for (size_t n = 0; n < pages->at[i].n; n++)
                in_block(&pages->at[i].items[n]);
            above_foot(&pages->at[i]);
        }
    }
}

static void edges(void **state) {
    const struct pages *pages = leaf_pages(scene_play(scene_usual(), *state), *state);
    assert_true(pages->n == 5);
    assert_true(leaf_has(&pages->at[0], "page 1 of 5") && leaf_has(&pages->at[4], "page 5 of 5"));
    for (size_t i = 0; i < pages->n; i++) {
        assert_true(leaf_holds(&pages->at[i], "0123456789ab"));
        assert_true(leaf_holds(&pages->at[i], "notation 1"));
        assert_true(leaf_has(&pages->at[i], "herons-foxes.9m"));
        assert_true(leaf_holds(&pages->at[i], "2026-12-05"));
    }
}

/* Page one leads to each of the others by its name. */
static void page_one_leads_on(void **state) {
    const struct pages *pages = leaf_pages(scene_play(scene_usual(), *state), *state);
    size_t links = 0;
    for (size_t i = 0; i < pages->at[0].n; i++) {
        const struct page_item *w = &pages->at[0].items[i];
        if (w->link == 0)
            continue;
        assert_int_equal(w->link, ++links + 1);
        assert_true(str_ends(w->words, pages->at[w->link - 1].name));
    }
    assert_int_equal(links, pages->n - 1);
}

/* ---- practice ------------------------------------------------------------------------- */

static void practice(void **state) {
    const struct checked *c = scene_practice(8, 20, *state);
    const struct pages *pages = leaf_pages(c, *state);
    unsigned drawn[2] = {0}, tosses = 0, n = 0;
    for (size_t i = 0; i < pages->n; i++)
        for (size_t k = 0; k < pages->at[i].n; k++) {
            const struct page_item *item = &pages->at[i].items[k];
            if (item->kind == PAGE_MARK && item->serve && near(item->size_mm, 2.0))
                drawn[item->serve->drill - 1]++;
        }
    /* every serve once in a strip */
    assert_int_equal(drawn[0], 160);
    assert_int_equal(drawn[1], 160);
    for (size_t i = 0; i < c->tries_n; i++) {
        tosses += c->tries[i].hits;
        n += c->tries[i].n;
    }
    assert_true(leaf_has(&pages->at[0], str_c(*state, str_printf(*state, "%u/%u", tosses, n))));
    assert_true(leaf_has(&pages->at[0], "Toss into the ring, 1.0 m"));
    assert_true(leaf_holds(&pages->at[0], "the last metre of zone 5"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(boundary_lines),
        TEST(attack_lines),
        TEST(attack_line_dashes),
        TEST(service_zone),
        TEST(net_antennas_posts),
        TEST(zone_numbers),
        TEST(places_to_scale),
        TEST(net_by_third),
        TEST(marks_are_serves),
        TEST(marks_keep_their_side),
        TEST(shapes),
        TEST(answer),
        TEST(small_numbers),
        TEST(nothing_of_ours),
        TEST(places_not_recorded),
        TEST(ours_only),
        TEST(incomplete),
        TEST(without_names),
        TEST(many_servers),
        TEST(nothing_leaves_the_block),
        TEST(edges),
        TEST(page_one_leads_on),
        TEST(practice),
    };
    return cmocka_run_group_tests_name("page", tests, NULL, NULL);
}
