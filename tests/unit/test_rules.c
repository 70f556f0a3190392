/* The checker against the rule book. F25: FIVB Official Volleyball Rules
 * 2025-2028, by rule number. What the court looks like on paper (F25 1.1 to
 * 2.5) is tested in test_page.c. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdlib.h>
#include <string.h>

#include "check.h"

#define HEAD "notation 1\nmatch 2026-10-03\nteam H \"Herons\" women\nteam G \"Foxes\"\n"

static struct arena *arena;
static struct diags found;

static void no_memory(size_t wanted_bytes) {
    (void)wanted_bytes;
    abort();
}

static int begin(void **state) {
    (void)state;
    arena = arena_new(no_memory);
    return 0;
}

static int finish(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

static const struct checked *read_notes(const char *notes) {
    struct text t;
    diags_init(&found, arena);
    text_take(&t, STR("rules.9m"), str_of(notes), arena, &found);
    return check_text(&t, CHECK_KEEP, arena, &found);
}

static const struct checked *play(const char *lines) {
    return read_notes(str_printf(arena, HEAD "set 1 H\n%s", lines).at);
}

static void is_clean(const char *lines) {
    play(lines);
    if (found.n)
        print_error("%s\n%.*s\n", lines, STR_ARG(found.at[0].text));
    assert_int_equal(found.errors, 0);
}

static void raises(const char *lines, enum diag_id id) {
    play(lines);
    if (found.errors != 1 || found.at[0].id != id)
        print_error("%s\n", lines);
    assert_int_equal(found.errors, 1);
    assert_int_equal(found.at[0].id, id);
}

/* Points of the only set after the lines; a last undecided rally counts for
 * nobody yet. */
static void points_are(const char *lines, unsigned ours, unsigned theirs) {
    const struct checked *c = play(lines);
    assert_int_equal(found.errors, 0);
    assert_int_equal(c->sets[0].points[OURS], ours);
    assert_int_equal(c->sets[0].points[THEIRS], theirs);
}

/* A note belongs to the serve above it, whatever stands between. */
static void notes_of_serves(void **state) {
    (void)state;
    const struct checked *c =
        play("7 net\nnote \"wet ball\"\nG3 in2\ntimeout H\nnote \"late\"\nnote \"twice\"\n");
    assert_int_equal(found.errors, 0);
    assert_int_equal(c->note_n, 3);
    assert_true(str_is(c->notes[0].text, "wet ball") && str_is(c->notes[2].text, "twice"));
    assert_int_equal(c->notes[0].serve_line, c->played[0].line);
    assert_int_equal(c->notes[1].serve_line, c->played[1].line);
    assert_int_equal(c->notes[2].line, c->notes[1].line + 1);
    raises("note \"nothing served yet\"\n", E_NOTE_ALONE);
}

/* F25 8.3, 1.3.2: a ball on a line is in, and the lines lie inside the court,
 * so 0 and 9 m are in. 8.4.1: wholly outside is out. */
static void lines_belong_to_the_court(void **state) {
    (void)state;
    is_clean("7 ace 0.0,8.0\n7 ace 9.0,8.0\n7 ace 4.5,9.0\n7 ace 0.0,9.0\n");
    raises("7 ace -0.01,8.0\n", E_OUTSIDE);
    raises("7 ace 9.01,8.0\n", E_OUTSIDE);
    raises("7 ace 4.5,9.01\n", E_OUTSIDE);
    raises("7 long 4.5,9.0\n", E_INSIDE);
    raises("7 right 0.0,5.0\n", E_INSIDE);
    raises("7 left 9.0,5.0\n", E_INSIDE);
    is_clean("7 long 4.5,9.01\n");
    is_clean("7 right -0.01,5.0\n");
    is_clean("7 left 9.01,5.0\n");
}

/* Left and right are the server's: over the other line is another fault. */
static void sides_are_the_servers(void **state) {
    (void)state;
    raises("7 left -0.3,5.0\n", E_WRONG_LINE);
    raises("7 right 9.3,5.0\n", E_WRONG_LINE);
    raises("7 long 9.3,5.0\n", E_WRONG_LINE);
    is_clean("7 long 9.3,9.3\n");
}

/* F25 1.1: the free zone is at most 5 m beside and 6.5 m behind the court; a
 * ball that lands a metre further is still told as a place, not more. */
static void places_are_in_a_hall(void **state) {
    (void)state;
    is_clean("7 long 4.5,15.5\n");
    is_clean("7 right -5.0,5.0\n");
    raises("7 long 4.5,17.0\n", E_PLACE_FAR);
    raises("7 right -6.5,5.0\n", E_PLACE_FAR);
}

/* F25 1.1, 2.1.1: no ball lands beyond the hall, or hits the net below the floor.
 * The match has a women's net of 2.24 m. */
static void margins_are_in_a_hall(void **state) {
    (void)state;
    is_clean("7 long+7.5\n");
    is_clean("7 left+6.0\n");
    is_clean("7 net-2.24\n");
    raises("7 long+7.51\n", E_IMPOSSIBLE);
    raises("7 long+99.0\n", E_IMPOSSIBLE);
    raises("7 left+6.01\n", E_IMPOSSIBLE);
    raises("7 right+30.0\n", E_IMPOSSIBLE);
    raises("7 net-2.25\n", E_IMPOSSIBLE);
    raises("7 net-9.9\n", E_IMPOSSIBLE);
    raises("7 long+70.5 4.5,9.7\n", E_IMPOSSIBLE);
}

/* No source: what the marks mean. */
static void contrary_marks(void **state) {
    (void)state;
    raises("7 td tu net\n", E_CONTRARY);
    raises("7 tr in2 5\n7 tr go tl net\n", E_CONTRARY);
    raises("7 tn tf net\n", E_CONTRARY);
    raises("7 al as net\n", E_CONTRARY);
    raises("7 jl td je net\n", E_CONTRARY);
    assert_int_equal(found.at[0].place.at, 8);
    is_clean("7 td tl tn as aw an je js jb hb nn nr net\n");
}

/* A place where a receiver played the ball may lie outside of the court. */
static void played_outside(void **state) {
    (void)state;
    is_clean("7 in2 4.5,9.8 by4\n");
    is_clean("7 ace -0.5,8.0 by4\n");
}

/* F25 7.4.1: facing the net 4 3 2 stand from left to right before 5 6 1. x is
 * counted from the server's right side line, the receivers' left: common
 * practice, no source, divides the court into thirds. */
static void zones_of_places(void **state) {
    (void)state;
    static const struct {
        int16_t x_cm, d_cm;
        unsigned zone;
    } cases[] = {{150, 700, 5}, {450, 700, 6}, {750, 700, 1}, {150, 200, 4},
                 {450, 200, 3}, {750, 200, 2}, {0, 900, 5},   {900, 900, 1},
                 {299, 451, 5}, {300, 451, 6}, {600, 451, 6}, {601, 451, 1},
                 {450, 450, 3}, {450, 451, 6}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct spot s = {.kind = PLACE_XD, .x_cm = cases[i].x_cm, .d_cm = cases[i].d_cm};
        assert_int_equal(spot_zone(s), cases[i].zone);
    }
}

/* F25 7.4.1: which places are neighbours, so which seams there are. */
static void seams_are_between_neighbours(void **state) {
    (void)state;
    is_clean("7 ace 1-6\n7 ace 5-6\n7 ace 1-2\n7 ace 6-3\n7 ace 5-4\n7 ace 2-3\n7 ace 3-4\n");
    raises("7 ace 1-5\n", E_SEAM);
    raises("7 ace 2-4\n", E_SEAM);
    raises("7 ace 6-2\n", E_SEAM);
    is_clean("7 ace d1\n7 ace d5\n7 ace d6\n7 ace d1-6\n7 ace d5-6\n");
    raises("7 ace d2\n", E_DEEP);
    raises("7 ace d6-3\n", E_DEEP);
}

/* F25 1.4.2: the service zone is 9 m wide; 12.4.3: the server takes off behind
 * the end line, and may hit the ball over the court. */
static void service_zone_and_take_off(void **state) {
    (void)state;
    is_clean("7 p0.0 ace\n7 p9.0 ace\n");
    raises("7 p9.1 ace\n", E_START_OUTSIDE);
    is_clean("7 j-0.1 c+0.5 ace\n");
    raises("7 j+0.1 ace\n", E_TAKEOFF);
    is_clean("7 j+0.1 foot\n");
}

/* F25 2.1.1: 2.43 m for men, 2.24 m for women; a file may say another (2.1.1
 * leaves other heights to the federations). */
static void net_height(void **state) {
    (void)state;
    assert_int_equal(play("7 net\n")->match->net_cm, 224);
    assert_int_equal(read_notes("notation 1\nmatch 2026-10-03\nteam H \"Herons\" men\n"
                                "team G \"Foxes\"\n")->match->net_cm, 243);
    assert_int_equal(read_notes("notation 1\nmatch 2026-10-03\nteam H \"Herons\" men\n"
                                "team G \"Foxes\"\nnetheight 2.35\n")->match->net_cm, 235);
}

/* F25 12.2.2, 7.6.2: six servers in the order of the line-up, zones 1 to 6; the
 * other team rotates before it serves, so its starter of zone 2 comes first. */
static void service_order(void **state) {
    (void)state;
    is_clean("lineup H 1 2 3 4 5 6\nlineup G 11 12 13 14 15 16\n"
             "1 net\nG12 net\n2 net\nG13 net\n3 net\nG14 net\n4 net\nG15 net\n5 net\nG16 net\n"
             "6 net\nG11 net\n1 net\n");
    raises("lineup H 1 2 3 4 5 6\n2 net\n", E_OUT_OF_ORDER);
    raises("lineup G 11 12 13 14 15 16\n7 net\nG11 net\n", E_OUT_OF_ORDER);
}

/* F25 12.2.2.1: who wins the rally on serve serves on, without a rotation. */
static void server_serves_on(void **state) {
    (void)state;
    const struct checked *c = play("lineup H 1 2 3 4 5 6\n1 ace\n1 ace\n1 net\nG12 net\n2 ace\n");
    assert_int_equal(found.errors, 0);
    assert_int_equal(c->played[2].rotation, 1);
    assert_int_equal(c->played[4].rotation, 2);
    raises("lineup H 1 2 3 4 5 6\n1 ace\n2 ace\n", E_TURN_MISSING);
}

/* F25 12.1.1, 12.1.2: the teams take turns to serve first, but for the decider. */
static void first_serve_of_a_set(void **state) {
    (void)state;
    is_clean("gap 24-0 H\n7 ace\nend\nset 2 G\nG4 net\n");
    raises("gap 24-0 H\n7 ace\nend\nset 2 H\n7 ace\n", E_FIRST_SERVE);
    raises("gap 24-0 H\n7 ace\nend\nset 2\n7 ace\n", E_FIRST_SERVE);
    is_clean("gap 24-0 H\n7 ace\nend\nset 2 G\ngap 24-0 H\n7 ace\nend\nset 3 H\ngap 0-24 G\n"
             "G4 ace\nend\nset 4 G\ngap 0-24 G\nG4 ace\nend\nset 5 G\nG4 net\n");
}

/* F25 6.2, 6.3: 25 points and two ahead, the fifth set 15, three sets win. */
static void set_and_match(void **state) {
    (void)state;
    is_clean("gap 24-23 H\n7 ace\nend 25-23\n");
    raises("gap 24-24 H\n7 ace\nend 25-24\n", E_END_EARLY);
    is_clean("gap 25-24 H\n7 ace\nend 26-24\n");
    raises("gap 24-23 H\n7 ace\n7 ace\n", E_SET_OVER);
    const char *four = "gap 24-0 H\n7 ace\nend\nset 2 G\ngap 24-0 H\n7 ace\nend\nset 3 H\n"
                       "gap 0-24 G\nG4 ace\nend\nset 4 G\ngap 0-24 G\nG4 ace\nend\nset 5 H\n";
    is_clean(str_printf(arena, "%sgap 14-13 H\n7 ace\nend 15-13\n", four).at);
    raises(str_printf(arena, "%sgap 14-14 H\n7 ace\nend 15-14\n", four).at, E_END_EARLY);
}

/* F25 6.1.3, 8.4, 12.6: which serves are a point for which team. */
static void points_of_outcomes(void **state) {
    (void)state;
    static const char *const lost[] = {"net",  "long",  "left",  "right", "antenna", "ceiling",
                                       "mate", "foot",  "clock", "order", "drop",    "screen"};
    for (size_t i = 0; i < sizeof lost / sizeof *lost; i++)
        points_are(str_printf(arena, "7 %s\n", lost[i]).at, 0, 1);
    points_are("7 ace\n", 1, 0);
    points_are("7 in2 won\n", 1, 0);
    points_are("7 in2 lost\n", 0, 1);
    points_are("7 replay\n", 0, 0);
}

/* F25 7.5.2, 7.5.3, 12.7: the receivers' fault comes before a ball that goes
 * astray, but not before a fault at the hit. */
static void overlap_and_fault(void **state) {
    (void)state;
    points_are("7 overlap\n", 1, 0);
    points_are("7 in2 overlap\n", 1, 0);
    points_are("7 long overlap\n", 1, 0);
    points_are("7 foot overlap\n", 0, 1);
    points_are("7 clock overlap\n", 0, 1);
    points_are("7 drop overlap\n", 0, 1);
}

/* F25 21.3.1, 21.5: a penalty is a point and the serve; before the first serve
 * the team that gains it rotates, and its starter of zone 2 serves. */
static void point_without_a_serve(void **state) {
    (void)state;
    points_are("7 net\npoint H \"penalty\"\n", 1, 1);
    is_clean("lineup G 11 12 13 14 15 16\npoint G \"penalty\"\nG12 net\n");
    raises("lineup G 11 12 13 14 15 16\npoint G \"penalty\"\nG11 net\n", E_OUT_OF_ORDER);
}

/* F25 7.7.1, 7.7.2: a wrong server found late: the points since are cancelled,
 * the other team gets a point and the serve. */
static void wrong_server_found_late(void **state) {
    (void)state;
    const struct checked *c = play("lineup H 1 2 3 4 5 6\n2 ace\n2 ace\ncancel H 2\n2 order\n");
    assert_int_equal(found.errors, 0);
    assert_int_equal(c->sets[0].points[OURS], 0);
    assert_int_equal(c->sets[0].points[THEIRS], 1);
    assert_true(c->played[0].cancelled && c->played[1].cancelled);
    assert_int_equal(c->played[2].charged, 1);
}

/* F25 15.1: six substitutions and two time-outs a set. 4.1.1, 4.3.3: shirts. */
static void limits(void **state) {
    (void)state;
    is_clean("timeout H\ntimeout H\ntimeout G\ntimeout G\n");
    raises("timeout H\ntimeout H\ntimeout H\n", E_TOO_MANY_TIMEOUTS);
    is_clean("sub H 21 for 1\nsub H 22 for 2\nsub H 23 for 3\nsub H 24 for 4\nsub H 25 for 5\n"
             "sub H 26 for 6\nsub H 27 for 8 extra\n");
    raises("sub H 21 for 1\nsub H 22 for 2\nsub H 23 for 3\nsub H 24 for 4\nsub H 25 for 5\n"
           "sub H 26 for 6\nsub H 27 for 8\n", E_TOO_MANY_SUBS);
    raises("lineup H 1 2 3 4 5 5\n", E_LINEUP_TWICE);
}

#define RULE(test) cmocka_unit_test_setup_teardown(test, begin, finish)

int main(void) {
    const struct CMUnitTest tests[] = {
        RULE(notes_of_serves),
        RULE(lines_belong_to_the_court), RULE(sides_are_the_servers), RULE(places_are_in_a_hall),
        RULE(margins_are_in_a_hall), RULE(contrary_marks),
        RULE(played_outside), RULE(zones_of_places), RULE(seams_are_between_neighbours),
        RULE(service_zone_and_take_off), RULE(net_height), RULE(service_order),
        RULE(server_serves_on), RULE(first_serve_of_a_set), RULE(set_and_match),
        RULE(points_of_outcomes), RULE(overlap_and_fault), RULE(point_without_a_serve),
        RULE(wrong_server_found_late), RULE(limits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
