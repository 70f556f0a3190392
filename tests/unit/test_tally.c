/* Counts. AV: AVCA volleyball statistical guidelines; F25: FIVB Official
 * Volleyball Rules 2025-2028; where no source decides, the choice is marked as
 * the project's own. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdlib.h>

#include "kit/in_arena.h"
#include "kit/scene.h"
#include "study.h"

static struct counts counted(struct played p) {
    struct counts c = {0};
    tally_add(&c, &p);
    return c;
}

static void outcomes(void **state) {
    (void)state;
    for (unsigned o = OUTCOME_ACE; o <= OUTCOME_OVER; o++) {
        struct counts c = counted(scene_serve((enum outcome)o, 7));
        assert_int_equal(c.serves, 1);
        assert_int_equal(c.by[o], 1);
        assert_int_equal(c.missed, 0);
        /* broke their pass: an ace, straight back, a pass of 1 (own) */
        assert_int_equal(c.broke, o == OUTCOME_ACE || o == OUTCOME_OVER || o == OUTCOME_IN1);
    }
    for (unsigned o = OUTCOME_NET; o <= OUTCOME_SCREEN; o++) {
        /* AV and F25 12.6: foot fault, net, out, antenna, order; the rest own */
        struct counts c = counted(scene_serve((enum outcome)o, 7));
        assert_int_equal(c.serves, 1);
        assert_int_equal(c.missed, 1);
        assert_int_equal(c.broke, 0);
    }
}

/* F25 12.4.5, 17: a serve that is repeated is no attempt. */
static void no_attempt(void **state) {
    (void)state;
    assert_int_equal(counted(scene_serve(OUTCOME_REPLAY, 7)).serves, 0);
    assert_int_equal(counted(scene_serve(OUTCOME_RETOSS, 7)).serves, 0);
    struct played taken_back = scene_serve(OUTCOME_ACE, 7);
    taken_back.cancelled = true;
    assert_int_equal(counted(taken_back).serves, 0);
}

/* AV: receivers out of position give an ace. F25 12.7: not when the serve was
 * itself a fault at the hit. */
static void overlap(void **state) {
    (void)state;
    struct played p = scene_serve(OUTCOME_LONG, 7);
    p.said.overlap = true;
    struct counts c = counted(p);
    assert_int_equal(c.by[OUTCOME_ACE], 1);
    assert_int_equal(c.by[OUTCOME_LONG], 0);
    assert_int_equal(c.missed, 0);
    assert_int_equal(c.broke, 1);
    p.said.outcome = OUTCOME_FOOT;
    c = counted(p);
    assert_int_equal(c.by[OUTCOME_FOOT], 1);
    assert_int_equal(c.missed, 1);
}

static void rallies(void **state) {
    (void)state;
    struct played p = scene_serve(OUTCOME_IN2, 7);
    assert_int_equal(counted(p).decided, 0);
    p.won = RALLY_LOST;
    assert_int_equal(counted(p).decided, 1);
    assert_int_equal(counted(p).won, 0);
    p.won = RALLY_WON;
    assert_int_equal(counted(p).won, 1);
}

static void repeats(void **state) {
    (void)state;
    struct played p = scene_serve(OUTCOME_IN, 7);
    p.said.has |= HAS_REPEAT;
    p.said.repeat = 3;
    assert_int_equal(tally_times(&p), 3);
    assert_int_equal(counted(p).serves, 3);
    assert_int_equal(counted(p).by[OUTCOME_IN], 3);
}

/* AV: with the wrong server the error is charged to the player due. */
static void charged(void **state) {
    struct played p = scene_serve(OUTCOME_ORDER, 9);
    p.charged = 12;
    const struct tally *t = tally_of(scene_of(&p, 1, *state), *state);
    assert_int_equal(t->server_n[OURS], 1);
    assert_int_equal(t->servers[OURS][0].shirt, 12);
    assert_string_equal(str_c(*state, t->servers[OURS][0].player->name), "Ana Lindbro");
}

static void places(void **state) {
    (void)state;
    struct played p = scene_serve(OUTCOME_IN2, 7);
    assert_int_equal(tally_known(&p), KNOWN_NOT);
    p.said.landing = (struct spot){PLACE_ZONE, 6, 0, 0, 0};
    assert_int_equal(tally_known(&p), KNOWN_ZONE);
    p.said.landing = (struct spot){PLACE_XD, 0, 0, 450, 700};
    assert_int_equal(tally_known(&p), KNOWN_PLACE);
    p = scene_serve(OUTCOME_FOOT, 7);
    assert_int_equal(tally_known(&p), KNOWN_NOT);
    p.third = THIRD_LEFT;
    assert_int_equal(tally_known(&p), KNOWN_ZONE);
    p.said.has |= HAS_START_P;
    assert_int_equal(tally_known(&p), KNOWN_PLACE);
}

static const struct checked *notes(const char *text, struct arena *a) {
    struct diags d;
    struct text t;
    diags_init(&d, a);
    text_take(&t, STR("/nowhere/notes.9m"), str_of(text), a, &d);
    return check_text(&t, CHECK_KEEP, a, &d);
}

/* Thirds of the nine metres of F25 1.4.2, from the server's right; a bound
 * belongs to the middle (own). */
static void thirds(void **state) {
    static const enum third want[] = {THIRD_RIGHT, THIRD_RIGHT, THIRD_MIDDLE, THIRD_MIDDLE,
                                      THIRD_LEFT,  THIRD_LEFT,  THIRD_NONE};
    const struct checked *c = notes("notation 1\npractice 2026-10-03\nteam H \"Herons\"\n"
                                    "7 p0.0 in2\n7 p2.99 in2\n7 p3.0 in2\n7 p6.0 in2\n"
                                    "7 p6.01 in2\n7 p9.0 in2\n7 in2\n",
                                    *state);
    assert_int_equal(c->played_n, sizeof want / sizeof *want);
    for (size_t i = 0; i < c->played_n; i++)
        assert_int_equal(tally_third(&c->played[i]), want[i]);
}

/* F25 6.2, 6.3.2: 25 points or, in the fifth set, 15, and two ahead. Late: the
 * last five points (own). */
static void set_points(void **state) {
    static const struct {
        const char *rule; /* 1 set to win: that set is the deciding one */
        unsigned ours, theirs;
        bool point, late;
    } cases[] = {{"", 24, 23, true, true},      {"", 24, 24, false, true},
                 {"", 25, 24, true, true},      {"", 23, 20, false, true},
                 {"", 19, 19, false, false},    {"", 10, 20, false, true},
                 {"", 22, 24, true, true},
                 {"rule sets_to_win 1\n", 14, 12, true, true},
                 {"rule sets_to_win 1\n", 13, 12, false, true},
                 {"rule sets_to_win 1\n", 9, 9, false, false},
                 {"rule sets_to_win 1\n", 10, 9, false, true},
                 {"rule sets_to_win 1\n", 14, 14, false, true},
                 {"rule set_points 21\n", 15, 15, false, false},
                 {"rule set_points 21\n", 16, 15, false, true},
                 {"rule set_points 4\n", 0, 1, false, true},
                 {"rule set_points 4\n", 3, 1, true, true}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct str text =
            str_printf(*state,
                       "notation 1\nmatch 2026-10-03\nteam H \"Herons\"\nteam G \"Foxes\"\n"
                       "%sset 1 H\n0-0\ngap %u-%u H\n7 in2\n",
                       cases[i].rule, cases[i].ours, cases[i].theirs);
        const struct checked *c = notes(str_c(*state, text), *state);
        assert_int_equal(c->played_n, 1);
        struct played p = c->played[0];
        assert_int_equal(tally_situation(c, &p, SITUATION_SET_POINT), cases[i].point);
        assert_int_equal(tally_situation(c, &p, SITUATION_LATE), cases[i].late);
        p.score_known = false;
        assert_false(tally_situation(c, &p, SITUATION_LATE));
    }
}

/* The deciding set is known by its number as written, not by its place. */
static void the_fifth_set_alone(void **state) {
    const struct checked *c = notes("notation 1\nmatch 2026-10-03\nteam H \"Herons\"\n"
                                    "team G \"Foxes\"\nset 5 H\ngap 10-8 H\n7 in2\n",
                                    *state);
    assert_int_equal(c->played_n, 1);
    assert_true(tally_situation(c, &c->played[0], SITUATION_LATE));
}

/* Columns of sets are places, whatever number stands in the notes. */
static void one_number_twice(void **state) {
    const struct checked *c = notes("notation 1\nmatch 2026-10-03\nteam H \"Herons\"\n"
                                    "team G \"Foxes\"\nset 1 H\n7 ace\n7 ace\nset 1 H\n"
                                    "7 ace\n7 ace\n7 ace\n",
                                    *state);
    const struct tally *t = tally_of(c, *state);
    assert_int_equal(c->set_n, 2);
    assert_int_equal(t->set[0][OURS].serves, 2);
    assert_int_equal(t->set[1][OURS].serves, 3);
}

static unsigned sum_of(const struct counts *c) {
    unsigned sum = 0;
    for (unsigned o = 0; o < OUTCOME_N; o++)
        sum += c->by[o];
    return sum;
}

static void assert_same(const struct counts *a, const struct counts *b) {
    assert_memory_equal(a, b, sizeof *a);
}

/* Over many matches: each cut adds up to the whole, every serve is in one. */
static void adds_up(void **state) {
    for (unsigned seed = 1; seed <= 60; seed++) {
        struct scene scene = scene_usual();
        scene.seed = seed;
        scene.servers = 6 + seed % 13;
        scene.sets = 1 + seed % 5;
        const struct tally *t = tally_of(scene_play(scene, *state), *state);
        unsigned all = 0;
        for (unsigned s = 0; s < SIDE_N; s++) {
            struct counts sets = {0}, servers = {0};
            unsigned known = 0;
            for (unsigned i = 0; i < t->checked->set_n; i++)
                tally_merge(&sets, &t->set[i][s]);
            for (size_t i = 0; i < t->server_n[s]; i++) {
                const struct server *row = &t->servers[s][i];
                tally_merge(&servers, &row->counts);
                assert_int_equal(row->known[0] + row->known[1] + row->known[2], row->counts.serves);
                assert_true(i == 0 || row->counts.serves <= row[-1].counts.serves);
                for (unsigned k = 0; k < KNOWN_N; k++)
                    known += row->known[k];
            }
            assert_same(&sets, &t->side[s]);
            assert_same(&servers, &t->side[s]);
            assert_int_equal(sum_of(&t->side[s]), t->side[s].serves);
            assert_int_equal(known, t->side[s].serves);
            all += t->side[s].serves;
        }
        assert_int_equal(all, t->checked->played_n);
        struct counts zones = {0}, thirds_all = {0};
        for (unsigned z = 0; z < ZONE_N; z++)
            tally_merge(&zones, &t->in_zone[z]);
        for (unsigned third = 0; third <= THIRD_LEFT; third++)
            tally_merge(&thirds_all, &t->from_third[third]);
        assert_int_equal(zones.serves, tally_in_court(&t->side[OURS]));
        assert_same(&thirds_all, &t->side[OURS]);
    }
}

/* 3 of 6 cold serves missed, 13 of 87 others: the difference is .351, and
 * Newcombe's interval (worked by hand from Wilson's .188 .812 and .090 .239)
 * goes from .351 - sqrt(.312^2 + .090^2) = .026 upwards: it stands out. */
static void cold_serves_stand_out(void **state) {
    struct played all[93];
    struct finding found[FINDINGS_MAX];
    unsigned looked;
    for (unsigned i = 0; i < 93; i++) {
        bool cold = i < 6, missed = cold ? i < 3 : i < 19;
        all[i] = scene_serve(missed ? i % 2 ? OUTCOME_LONG : OUTCOME_NET : OUTCOME_IN2, 7);
        all[i].cold = cold;
    }
    const struct tally *t = tally_of(scene_of(all, 93, *state), *state);
    assert_int_equal(study_findings(&t->side[OURS], t->situation, found, &looked), 1);
    assert_int_equal(looked, 2 + 3);
    assert_int_equal(found[0].kind, FINDING_MISSED);
    assert_int_equal(found[0].situation, SITUATION_COLD);
    assert_int_equal(found[0].here.x, 3);
    assert_int_equal(found[0].rest.x, 13);
    assert_int_equal(found[0].rest.n, 87);
    assert_int_equal(found[0].net_n, 2);
    assert_true(found[0].off > .025 && found[0].off < .027);
    /* One cold miss less (2 of 6), and nothing does. */
    all[0].said.outcome = OUTCOME_IN2;
    t = tally_of(scene_of(all, 93, *state), *state);
    assert_int_equal(study_findings(&t->side[OURS], t->situation, found, &looked), 0);
}

/* 12 of 16 misses in the net: Wilson's lower limit is .505, above a half; 11
 * of 16 give .444 (both own). */
static void one_kind_of_miss(void **state) {
    struct played all[40];
    struct finding found[FINDINGS_MAX];
    unsigned looked;
    for (unsigned i = 0; i < 40; i++)
        all[i] = scene_serve(i < 12 ? OUTCOME_NET : i < 16 ? OUTCOME_LONG : OUTCOME_IN3, 7);
    const struct tally *t = tally_of(scene_of(all, 40, *state), *state);
    assert_int_equal(study_findings(&t->side[OURS], t->situation, found, &looked), 1);
    assert_int_equal(found[0].kind, FINDING_ERROR);
    assert_int_equal(found[0].miss, MISS_NET);
    assert_int_equal(found[0].here.x, 12);
    assert_int_equal(found[0].here.n, 16);
    all[0].said.outcome = OUTCOME_LONG;
    t = tally_of(scene_of(all, 40, *state), *state);
    assert_int_equal(study_findings(&t->side[OURS], t->situation, found, &looked), 0);
}

static void at_most_three(void **state) {
    for (unsigned seed = 1; seed < 300; seed++) {
        struct scene scene = scene_usual();
        struct finding found[FINDINGS_MAX];
        unsigned looked;
        scene.seed = seed;
        const struct tally *t = tally_of(scene_play(scene, *state), *state);
        unsigned n = study_findings(&t->side[OURS], t->situation, found, &looked);
        assert_true(n <= FINDINGS_MAX);
        for (unsigned i = 1; i < n; i++)
            assert_true(found[i].off <= found[i - 1].off);
        arena_reset(*state);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(outcomes),
        TEST(no_attempt),
        TEST(overlap),
        TEST(rallies),
        TEST(repeats),
        TEST(charged),
        TEST(places),
        TEST(thirds),
        TEST(adds_up),
        TEST(set_points),
        TEST(the_fifth_set_alone),
        TEST(one_number_twice),
        TEST(cold_serves_stand_out),
        TEST(one_kind_of_miss),
        TEST(at_most_three),
    };
    return cmocka_run_group_tests_name("tally", tests, NULL, NULL);
}
