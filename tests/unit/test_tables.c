/* Numbers of the match report's tables, read back from the lists of words: each
 * is the tally's, and what belongs together adds up. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdlib.h>

#include "kit/in_arena.h"
#include "kit/leaf.h"
#include "kit/scene.h"

enum { SCENES = 24 };

static struct scene scene_of_number(unsigned k) {
    struct scene s = scene_usual();
    s.seed = 100 + k;
    s.servers = 6 + k % 12;
    s.sets = 1 + k % 5;
    s.ours_only = k % 6 == 5;
    return s;
}

static const struct page *page_named(const struct pages *pages, const char *name) {
    for (size_t i = 0; i < pages->n; i++)
        if (str_is(pages->at[i].name, name))
            return &pages->at[i];
    fail_msg("no page \"%s\"", name);
    return NULL;
}

static void assert_row(struct str found, struct str wanted) {
    if (!str_same(found, wanted))
        fail_msg("the page has \"%.*s\", the tally \"%.*s\"", STR_ARG(found), STR_ARG(wanted));
}

static struct str misses(const char *label, const struct counts *c, struct arena *a) {
    struct buf b;
    buf_init(&b, a);
    buf_printf(&b, "%s", label);
    for (unsigned m = 0; m < MISS_N; m++)
        buf_printf(&b, " %u", study_missed(c, (enum miss)m));
    if (c->serves == 0)
        buf_printf(&b, " \xE2\x80\x93");
    else
        buf_printf(&b, " %u/%u", c->missed, c->serves);
    return buf_str(&b);
}

static void misses_are_the_tallys(void **state) {
    static const char *const names[SITUATION_N] = {"cold substitute", "after a time-out",
                                                   "first of a turn", "from 20 points on",
                                                   "set point"};
    for (unsigned k = 0; k < SCENES; k++) {
        const struct checked *c = scene_play(scene_of_number(k), *state);
        const struct tally *t = tally_of(c, *state);
        const struct page *p = page_named(leaf_pages(c, *state), "Misses");
        for (unsigned s = 0; s < SITUATION_N; s++)
            assert_row(leaf_row(p, 99, 177, names[s], *state),
                       misses(names[s], &t->situation[s], *state));
        assert_row(leaf_row(p, 99, 177, "any serve", *state),
                   misses("any serve", &t->side[OURS], *state));
        assert_row(leaf_row(p, 7.5, 94.1, "team", *state), misses("team", &t->side[OURS], *state));
    }
}

/* The count in this column of a row, from 0 behind the label of `words` words. */
static unsigned column(struct str row, unsigned words, unsigned ix) {
    size_t at = 0;
    for (unsigned i = 0; i < words + ix; i++) {
        while (at < row.n && row.at[at] != ' ')
            at++;
        at++;
    }
    return at < row.n ? (unsigned)strtoul(row.at + at, NULL, 10) : 0;
}

/* ---- marks --------------------------------------------------------------------- */

/* Counted again from the serves: those with the mark, and missed with and without. */
static struct str mark_row(const struct checked *c, enum mark m, const char *label,
                           struct arena *a) {
    struct rate with = {0, 0}, without = {0, 0};
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        struct rate *r = p->said.marks >> m & 1 ? &with : &without;
        if (p->side != OURS || !played_counts(p) || !played_shows_technique(p))
            continue;
        r->n++;
        r->x += played_error(p);
    }
    return str_printf(a, "%s %u %u/%u %u/%u", label, with.n, with.x, with.n, without.x, without.n);
}

static void marks_are_counted(void **state) {
    static const struct {
        enum mark mark;
        const char *label;
    } rows[] = {{MARK_td, "toss too low"}, {MARK_tb, "tossed with a bent arm"},
                {MARK_je, "jumped early"}, {MARK_js, "short last step"}};
    unsigned found = 0;
    for (unsigned k = 0; k < SCENES; k++) {
        const struct checked *c = scene_play(scene_of_number(k), *state);
        const struct page *p = page_named(leaf_pages(c, *state), "Misses");
        for (unsigned i = 0; i < sizeof rows / sizeof *rows; i++) {
            struct str row = leaf_row(p, 0, 97, rows[i].label, *state);
            if (row.n == 0) /* not seen */
                continue;
            assert_row(row, mark_row(c, rows[i].mark, rows[i].label, *state));
            found++;
        }
    }
    assert_true(found > 2 * SCENES);
}

/* No phase observed, or none of its marks seen: a sentence and no table. */
static void marks_left_out(void **state) {
    struct scene s = scene_usual();
    s.mark_per_mille = 0;
    const struct page *p = page_named(leaf_pages(scene_play(s, *state), *state), "Misses");
    assert_true(leaf_has(p, "Observed: toss, jump. None of their marks was seen."));
    assert_false(leaf_has(p, "times as often"));
    s.phases = 0;
    p = page_named(leaf_pages(scene_play(s, *state), *state), "Misses");
    assert_true(leaf_has(p, "Technique was not observed in this match."));
    assert_false(leaf_has(p, "times as often"));
}

/* ---- page one -------------------------------------------------------------------- */

static struct str counts_row(const char *label, const struct counts *c, struct arena *a) {
    return str_printf(a, "%s %u %u %u %u %u", label, c->serves, c->broke, c->by[OUTCOME_ACE],
                      c->missed, c->won);
}

static bool is_own_row(const struct page *p, const struct server *s) {
    return s->player && leaf_has(p, s->player->name.at);
}

/* Rows by themselves, the row of the others, and the team: they add up. */
static void servers_add_up(void **state) {
    unsigned own = 0;
    for (unsigned k = 0; k < SCENES; k++) {
        const struct checked *c = scene_play(scene_of_number(k), *state);
        const struct tally *t = tally_of(c, *state);
        const struct page *p = page_named(leaf_pages(c, *state), "Serve report");
        struct counts sum = {0};
        for (size_t i = 0; i < t->server_n[OURS]; i++) {
            const struct server *s = &t->servers[OURS][i];
            tally_merge(&sum, &s->counts);
            if (!is_own_row(p, s))
                continue;
            assert_row(leaf_row(p, 7.5, 91, s->player->name.at, *state),
                       counts_row(s->player->name.at, &s->counts, *state));
            own++;
        }
        assert_row(leaf_row(p, 7.5, 91, "team", *state), counts_row("team", &sum, *state));
    }
    assert_true(own > 6 * SCENES);
}

static struct str fractions(const char *label, struct rate ours, struct rate theirs, bool both,
                            struct arena *a) {
    struct str row = str_printf(a, "%s %u/%u", label, ours.x, ours.n);
    return both ? str_printf(a, "%.*s %u/%u", STR_ARG(row), theirs.x, theirs.n) : row;
}

static void sides_are_the_tallys(void **state) {
    for (unsigned k = 0; k < SCENES; k++) {
        const struct checked *c = scene_play(scene_of_number(k), *state);
        const struct tally *t = tally_of(c, *state);
        const struct page *p = page_named(leaf_pages(c, *state), "Serve report");
        const struct counts *us = &t->side[OURS], *they = &t->side[THEIRS];
        bool both = !c->match->ours_only;
        assert_row(leaf_row(p, 0, 80, "Broke the pass", *state),
                   fractions("Broke the pass", (struct rate){us->broke, us->serves},
                             (struct rate){they->broke, they->serves}, both, *state));
        assert_row(leaf_row(p, 0, 80, "Missed", *state),
                   fractions("Missed", (struct rate){us->missed, us->serves},
                             (struct rate){they->missed, they->serves}, both, *state));
    }
}

/* A column a set, and their sum. */
static void sets_add_up(void **state) {
    for (unsigned k = 0; k < SCENES; k++) {
        const struct checked *c = scene_play(scene_of_number(k), *state);
        const struct tally *t = tally_of(c, *state);
        const struct page *p = page_named(leaf_pages(c, *state), "Serve report");
        struct str serves = leaf_row(p, 0, 90, "our serves", *state);
        struct str missed = leaf_row(p, 0, 90, "\xE2\x80\x93 missed", *state);
        unsigned sum = 0;
        for (unsigned i = 0; i < c->set_n; i++) {
            assert_int_equal(column(serves, 2, i), t->set[i][OURS].serves);
            assert_int_equal(column(missed, 2, i), t->set[i][OURS].missed);
            sum += column(serves, 2, i);
        }
        assert_int_equal(column(serves, 2, c->set_n), sum);
        assert_int_equal(sum, t->side[OURS].serves);
    }
}

/* ---- courts ------------------------------------------------------------------------ */

/* The table of marks: what is drawn at a place, in a zone, nowhere, is every serve. */
static void marks_of_the_court_add_up(void **state) {
    for (unsigned k = 0; k < SCENES; k++) {
        const struct checked *c = scene_play(scene_of_number(k), *state);
        const struct tally *t = tally_of(c, *state);
        const struct page *p = page_named(leaf_pages(c, *state), "Courts");
        struct str all = leaf_row(p, 90.5, 178, "all serves", *state);
        for (unsigned i = 0; i < KNOWN_N; i++)
            assert_int_equal(column(all, 2, i), t->known[OURS][i]);
        assert_int_equal(column(all, 2, KNOWN_N), t->side[OURS].serves);
    }
}

/* ---- reception and points --------------------------------------------------------- */

static void receivers_and_zones_add_up(void **state) {
    for (unsigned k = 0; k < SCENES; k++) {
        const struct checked *c = scene_play(scene_of_number(k), *state);
        const struct tally *t = tally_of(c, *state);
        const struct counts *ours = &t->side[OURS];
        const struct page *p = page_named(leaf_pages(c, *state), "Reception and points");
        struct str receivers = leaf_row(p, 0, 90, "all", *state);
        struct str zones = leaf_row(p, 91, 178, "all", *state);
        assert_int_equal(column(receivers, 1, 0), ours->serves - ours->missed);
        assert_int_equal(column(receivers, 1, 1), ours->by[OUTCOME_ACE]);
        assert_int_equal(column(receivers, 1, 2), ours->by[OUTCOME_OVER]);
        assert_int_equal(column(receivers, 1, 3), ours->by[OUTCOME_IN1]);
        assert_int_equal(column(receivers, 1, 6), ours->broke);
        assert_row(zones, receivers);
    }
}

/* Each point of a set has one source, so that the sums are the score. */
static void points_are_the_score(void **state) {
    for (unsigned k = 0; k < SCENES; k++) {
        const struct checked *c = scene_play(scene_of_number(k), *state);
        const struct tally *t = tally_of(c, *state);
        const struct page *p = page_named(leaf_pages(c, *state), "Reception and points");
        struct str aces = leaf_row(p, 0, 177, "our aces", *state);
        struct str faults = leaf_row(p, 0, 177, "our missed serves", *state);
        if (c->match->ours_only) {
            assert_int_equal(aces.n, 0);
            continue;
        }
        assert_int_equal(column(aces, 2, c->set_n), t->side[OURS].by[OUTCOME_ACE]);
        assert_int_equal(column(faults, 3, c->set_n), t->side[OURS].missed);
        for (unsigned s = 0; s < SIDE_N; s++) {
            const char *name = c->match->teams[s].name.at;
            struct str row = leaf_row(p, 0, 177, name, *state);
            for (unsigned i = 0; i < c->set_n; i++)
                assert_int_equal(column(row, 2, i), c->sets[i].points[s]);
        }
    }
}

static bool has_runs(const struct page *p) {
    return str_is(p->name, "Misses") || str_is(p->name, "Run of the sets");
}

/* A mark stands for one ace or miss; a set of points is as long as its points. */
static void runs_hold_aces_and_misses(void **state) {
    for (unsigned k = 0; k < SCENES; k++) {
        struct scene scene = scene_of_number(k);
        const struct checked *c = scene_play(scene, *state);
        const struct tally *t = tally_of(c, *state);
        const struct pages *pages = leaf_pages(c, *state);
        unsigned marks = 0, wanted = 0;
        for (size_t i = 0; i < pages->n; i++)
            for (size_t n = 0; has_runs(&pages->at[i]) && n < pages->at[i].n; n++)
                marks += pages->at[i].items[n].kind == PAGE_MARK;
        for (size_t i = 0; i < c->played_n; i++)
            wanted += c->played[i].score_known && !c->played[i].cancelled &&
                      (played_ace(&c->played[i]) || played_error(&c->played[i]));
        assert_int_equal(marks, wanted);
        assert_true(scene.ours_only || wanted == t->side[OURS].missed + t->side[THEIRS].missed +
                                                     t->side[OURS].by[OUTCOME_ACE] +
                                                     t->side[THEIRS].by[OUTCOME_ACE]);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(misses_are_the_tallys),
        TEST(servers_add_up),
        TEST(sides_are_the_tallys),
        TEST(sets_add_up),
        TEST(marks_of_the_court_add_up),
        TEST(marks_are_counted),
        TEST(marks_left_out),
        TEST(receivers_and_zones_add_up),
        TEST(points_are_the_score),
        TEST(runs_hold_aces_and_misses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
