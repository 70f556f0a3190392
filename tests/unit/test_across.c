/* What shows only across files. All notes are invented; where a warning begins and
 * ends is our own choice, as grammar/NOTATION.md says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>

#include "kit/in_arena.h"
#include "kit/several.h"

/* Short notes: MATCH(file, day, squad, against). */
#define MATCH(file, day, squad, against) \
    "# " file ".9m\nnotation 1\nmatch " day "\nteam H \"Herons\"\n" squad "team G \"" against "\"\n"
#define PLAYER(shirt, name) "player H" shirt " \"" name "\"\n"
#define PRACTICE(file, day, toss) \
    "# " file ".9m\nnotation 1\npractice " day "\nteam H \"Herons\"\nring 1.0\ntoss 7 " toss "\n"

static const struct row {
    const char *name, *notes, *told; /* file:line code, one behind the other */
} rows[] = {
    {"an accent, whatever the shirt",
     MATCH("a", "2026-10-03", PLAYER("7", "Rosa Klimov\303\241"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("17", "rosa Klimova"), "Larks"), "b.9m:4 W701"},
    {"an accent, a season later",
     MATCH("a", "2025-10-03", PLAYER("7", "Rosa Klimov\303\241"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("7", "Rosa Klimova"), "Larks"), "b.9m:4 W701"},
    {"composed and decomposed letters are one name",
     MATCH("a", "2026-10-03", PLAYER("7", "Klimov\303\241"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("7", "Klimova\314\201"), "Larks"), ""},
    {"a letter with a stroke, and one that is written with another sign",
     MATCH("a", "2026-10-03", PLAYER("7", "\305\201ucja d\342\200\231Ash"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("8", "Lucja d'Ash"), "Larks"), "b.9m:4 W701"},
    {"a letter lost", MATCH("a", "2026-10-03", PLAYER("7", "Mira Havelin"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("8", "Mira Haveln"), "Larks"), "b.9m:4 W701"},
    {"two letters swapped", MATCH("a", "2026-10-03", PLAYER("7", "Mira Havelin"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("8", "Mira Haevlin"), "Larks"), "b.9m:4 W701"},
    {"a Greek letter wrong",
     MATCH("a", "2026-10-03", PLAYER("7", "\316\225\316\273\317\200\316\257\316\264\316\261"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("7", "\316\225\316\273\317\200\316\257\316\273\316\261"), "Larks"),
     "b.9m:4 W701"},
    {"two letters wrong: another name, and the shirt has changed hands",
     MATCH("a", "2026-10-03", PLAYER("7", "Mira Havelin"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("7", "Mara Havelen"), "Larks"), "b.9m:4 W702"},
    {"Anna and Hanna with two shirts are two people",
     MATCH("a", "2026-10-03", PLAYER("7", "Anna Berg"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("8", "Hanna Berg"), "Larks"), ""},
    {"with one shirt they may be one",
     MATCH("a", "2026-10-03", PLAYER("7", "Anna Berg"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("7", "Hanna Berg"), "Larks"), "b.9m:4 W701"},
    {"a short name that differs within",
     MATCH("a", "2026-10-03", PLAYER("7", "Lina Berg"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("8", "Lena Berg"), "Larks"), ""},
    {"initials", MATCH("a", "2026-10-03", PLAYER("7", "A. Bergholm"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("7", "B. Bergholm"), "Larks"), "b.9m:4 W702"},
    {"numbers as names", MATCH("a", "2026-10-03", PLAYER("7", "Player 1"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("8", "Player 2"), "Larks"), ""},
    {"who stand in one squad are two people, here and elsewhere",
     MATCH("a", "2026-10-03", PLAYER("7", "Marie Quill") PLAYER("8", "Maria Quill"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("7", "Marie Quill"), "Larks")
     MATCH("c", "2026-10-17", PLAYER("8", "Maria Quill"), "Owls"), ""},
    {"one warning a pair, not one a file",
     MATCH("a", "2026-10-03", PLAYER("7", "Mira Havelin"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("7", "Mira Haveln"), "Larks")
     MATCH("c", "2026-10-17", PLAYER("7", "Mira Haveln"), "Owls")
     MATCH("d", "2026-10-24", PLAYER("7", "Mira Havelin"), "Finches"), "b.9m:4 W701"},
    {"the same name in another team",
     MATCH("a", "2026-10-03", PLAYER("7", "Mira Havelin"), "Foxes")
     "# b.9m\nnotation 1\nmatch 2026-10-10\nteam L \"Larks\"\nplayer L7 \"Mira Haveln\"\n"
     "team G \"Foxes\"\n", ""},
    {"quiet with a reason", MATCH("a", "2026-10-03", PLAYER("7", "Mira Havelin"), "Foxes")
     MATCH("b", "2026-10-10", "player H7 \"Mira Haveln\" # ok W701 her cousin\n", "Larks"), ""},
    {"a shirt that changes hands", MATCH("a", "2026-10-03", PLAYER("7", "Mira Havelin"), "Foxes")
     MATCH("b", "2027-02-10", PLAYER("7", "Tess Umino"), "Larks")
     MATCH("c", "2027-02-17", PLAYER("7", "Tess Umino"), "Owls"), "b.9m:4 W702"},
    {"a shirt that changes hands from one season to the next",
     MATCH("a", "2027-04-03", PLAYER("7", "Mira Havelin"), "Foxes")
     MATCH("b", "2027-09-10", PLAYER("7", "Tess Umino"), "Larks"), ""},
    {"seasons of folders", MATCH("2026/a", "2026-03-03", PLAYER("7", "Mira Havelin"), "Foxes")
     MATCH("2026/b", "2026-10-10", PLAYER("7", "Tess Umino"), "Larks"), "2026/b.9m:4 W702"},
    {"a player with a new shirt is no mistake",
     MATCH("a", "2026-10-03", PLAYER("7", "Mira Havelin"), "Foxes")
     MATCH("b", "2026-10-10", PLAYER("8", "Mira Havelin"), "Larks"), ""},
    {"a shirt without a name", MATCH("a", "2026-10-03", PLAYER("7", "Mira Havelin"), "Foxes")
     MATCH("b", "2026-10-10", "", "Larks") "set 1 H\n7 net\n", ""},
    {"a team's letter lost, in one file",
     MATCH("a", "2026-10-03", "", "Granite Foxes") MATCH("b", "2026-10-10", "", "Granit Foxes"),
     "b.9m:4 W704"},
    {"first and second teams, by number and by letter",
     MATCH("a", "2026-10-03", "", "Foxes 1") MATCH("b", "2026-10-10", "", "Foxes 2")
     MATCH("c", "2026-10-17", "", "Foxes A") MATCH("d", "2026-10-24", "", "Foxes B"), ""},
    {"one match twice, from either side",
     MATCH("a", "2026-10-03", "", "Foxes")
     "# b.9m\nnotation 1\nmatch 2026-10-03 18:30\nteam F \"Foxes\"\nteam H \"Herons\"\n",
     "b.9m:2 W705"},
    {"three times: each copy once",
     MATCH("a", "2026-10-03", "", "Foxes") MATCH("b", "2026-10-03", "", "Foxes")
     MATCH("c", "2026-10-03", "", "Foxes"), "b.9m:2 W705 c.9m:2 W705"},
    {"two matches of one day", MATCH("a", "2026-10-03 14:00", "", "Foxes")
     MATCH("b", "2026-10-03 18:00", "", "Foxes") MATCH("c", "2026-10-03 18:00", "", "Larks"), ""},
    {"one practice twice", PRACTICE("a", "2026-10-06", "3/5") PRACTICE("b", "2026-10-06", "3/5"),
     "b.9m:2 W705"},
    {"two practices of one day", PRACTICE("a", "2026-10-06", "3/5")
     PRACTICE("b", "2026-10-06", "4/5"), ""},
    {"a day in the name of the file", MATCH("x/2026-10-03-foxes", "2026-10-13", "", "Foxes")
     MATCH("2026-10-17", "2026-10-17", "", "Larks"), "x/2026-10-03-foxes.9m:2 W706"},
    {"the season of a folder: the year before, the turn of the year, the summer after",
     MATCH("s-2026-27/a", "2026-01-10", "", "Foxes") MATCH("s-2026-27/b", "2027-01-10", "", "Foxes")
     MATCH("s-2026-27/c", "2026-05-01", "", "Foxes") MATCH("s-2026-27/d", "2027-08-31", "", "Foxes")
     MATCH("s-2026-27/e", "2027-09-01", "", "Foxes"), "s-2026-27/a.9m:2 W707 s-2026-27/e.9m:2 W707"},
    {"the innermost folder; a month and other numbers are no season",
     MATCH("2024-2025/2026/a", "2026-10-03", "", "Foxes") MATCH("2025-10/b", "2026-10-04", "", "Foxes")
     MATCH("hall 12345/c", "2026-10-05", "", "Foxes"), ""},
    {"notes beside the seasons", MATCH("n/2026-27/a", "2026-10-03", "", "Foxes")
     MATCH("n/b", "2026-10-10", "", "Larks") MATCH("n/other/c", "2026-10-17", "", "Owls"),
     "n/b.9m:2 W708"},
};

static struct str told(const struct diags *d, struct arena *a) {
    struct buf b;
    buf_init(&b, a);
    for (size_t i = 0; i < d->n; i++) {
        char code[6];
        diag_code(diag_info(d->at[i].id), code);
        buf_printf(&b, "%s%.*s:%u %s", i ? " " : "", STR_ARG(d->at[i].place.file),
                   d->at[i].place.line, code);
    }
    return buf_str(&b);
}

/* In every order, in one collection or in two. */
static void each_row(void **state) {
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (unsigned way = 0; way < 4; way++) {
            struct diags d;
            several_check(rows[i].notes, way & 1, way & 2, *state, &d);
            struct str got = told(&d, *state);
            if (!str_is(got, rows[i].told))
                fail_msg("%s: \"%.*s\", not \"%s\"", rows[i].name, STR_ARG(got), rows[i].told);
        }
}

static void both_places(void **state) {
    struct diags d;
    several_check(MATCH("a", "2026-10-03", PLAYER("7", "Mira Havelin"), "Foxes")
                  MATCH("b", "2026-10-10", PLAYER("7", "Tess Umino"), "Larks"),
                  true, true, *state, &d);
    assert_int_equal(d.n, 1);
    assert_true(str_is(d.at[0].text, "shirt 7 of Herons is that of Tess Umino from 2026-10-10 on"));
    assert_int_equal(d.at[0].see_n, 1);
    assert_true(str_is(d.at[0].sees[0].place.file, "a.9m"));
    assert_int_equal(d.at[0].sees[0].place.line, 4);
    assert_true(str_is(d.at[0].sees[0].text, "Mira Havelin, 7, on 2026-10-03"));
}

/* More shirts than that are no accident: one warning takes the place of all. */
static void two_teams_of_one_name(void **state) {
    struct diags d;
    several_check(MATCH("a", "2026-10-03",
                        PLAYER("1", "Ana Tarn") PLAYER("2", "Rosa Moor") PLAYER("3", "Elif Quill")
                        PLAYER("4", "Yuna Paz"), "Foxes")
                  MATCH("b", "2026-10-10",
                        PLAYER("1", "Inga Lund") PLAYER("2", "Tess Umino") PLAYER("3", "Ioana Nagy")
                        PLAYER("4", "Nora Vale"), "Larks"),
                  false, false, *state, &d);
    assert_true(str_is(told(&d, *state), "b.9m:4 W703"));
    assert_true(str_is(d.at[0].text, "4 shirts of Herons change hands within the season"));
}

int main(void) {
    const struct CMUnitTest tests[] = {TEST(each_row), TEST(both_places),
                                       TEST(two_teams_of_one_name)};
    return cmocka_run_group_tests_name("across", tests, NULL, NULL);
}
