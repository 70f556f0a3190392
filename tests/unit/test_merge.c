/* Merging line by line. What is a conflict and what is not is decided here: no
 * source tells. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "merge.h"

static const char match_head[] =
    "notation 1\nmatch 2026-10-03\nteam H \"Herons\"\nteam G \"Foxes\"\nset 1 H\n";
static const char practice_head[] = "notation 1\npractice 2026-10-06\nteam H \"Herons\"\n";
static const char squad_head[] = "notation 1\nteam H \"Herons\"\n";

static void no_memory(size_t wanted_bytes) {
    (void)wanted_bytes;
    abort();
}

struct row {
    const char *head, *base, *ours, *theirs;
    const char *result;          /* behind the head */
};

/* O, T: what stands between the marks. */
#define CONFLICT(O, T) "<<<<<<< ours\n" O "=======\n" T ">>>>>>> theirs\n"

static const struct noted *side(const struct row *row, const char *lines, bool plain,
                                struct arena *a) {
    struct text *t = arena_alloc(a, 1, sizeof *t);
    struct diags dropped;

    diags_init(&dropped, a);
    text_take(t, STR("test.9m"), str_printf(a, "%s%s", row->head, lines), a, &dropped);
    return noted_read(t, plain, a);
}

static void merge_row(struct merge *m, const struct row *row, bool plain, struct arena *a) {
    merge_of(m, side(row, row->base, plain, a), side(row, row->ours, plain, a),
             side(row, row->theirs, plain, a), a);
}

static void assert_row(const struct row *row, bool plain) {
    struct arena *a = arena_new(no_memory);
    struct merge m;
    struct merge_map map;
    struct diags d;

    merge_row(&m, row, plain, a);
    diags_init(&d, a);
    if (!plain)
        merge_check(&m, &d);
    const char *got = str_c(a, merge_text(&m, &map));
    assert_string_equal(got, str_c(a, str_printf(a, "%s%s", row->head, row->result)));
    assert_int_equal(m.conflict_n > 0, strstr(row->result, "<<<<<<<") != NULL);
    arena_free(a);
}

static void assert_rows(const struct row *rows, size_t n) {
    for (size_t i = 0; i < n; i++)
        assert_row(&rows[i], false);
}

#define ROWS(rows) assert_rows(rows, sizeof(rows) / sizeof *(rows))

static void words_of_both_in_one_line(void **state) {
    static const struct row rows[] = {
        {match_head, "7 net\n", "7 td net\n", "7 net 3\n", "7 td net 3\n"},
        {match_head, "7 in2\n", "7 ace\n", "7 in2 by11 18:42\n", "7 ace by11 18:42\n"},
        {match_head, "7 in2\n", "7 in1\n", "7 in2 5\n", "7 in1 5\n"},
        {match_head, "7 td net ?\n", "7 td long\n", "7 td je net ?\n", "7 td je long\n"},
        {match_head, "7 td net\n", "7 net\n", "7 td je net\n", "7 je net\n"},
        {match_head, "7 net\n", "9 net\n", "7 td net\n", "9 td net\n"},
        {match_head, "7 net\n", "7 net\n7 long\n", "7 td net\n", "7 td net\n7 long\n"},
        {match_head, "7 net\n", "7 net  # a\n", "7 net  # b\n", "7 net  # a # b\n"},
        {match_head, "7 net # a\n", "7 net\n", "7 td net # a\n", "7 td net\n"},
        {match_head, "7 net\n", "H7   NET\n", "7 net 3\n", "7 net 3\n"},
        {match_head, "7 net\n", "H7 net\n", "7  net\n", "7 net\n"},
        {squad_head, "player H7 \"Mira\" topspin\n", "player H7 \"Mira Havelin\" topspin\n",
         "player H7 \"Mira\" topspin m4/3 lefthanded\n",
         "player H7 \"Mira Havelin\" topspin m4/3 lefthanded\n"},
    };

    (void)state;
    ROWS(rows);
}

static void words_that_contradict(void **state) {
    static const struct row rows[] = {
        {match_head, "7 in2\n. net\n", "7 ace d1\n. net\n", "7 net\n. net\n",
         CONFLICT("7 ace d1\n", "7 net\n") ". net\n"},
        {match_head, "7 long\n", "7 long+0.5\n", "7 left\n",
         CONFLICT("7 long+0.5\n", "7 left\n")},
        {match_head, "7 m4 net\n", "7 p1.5 net\n", "7 m4 back3 net\n",
         CONFLICT("7 p1.5 net\n", "7 m4 back3 net\n")},
        /* the margin has lost its outcome */
        {match_head, "7 long\n", "7 ace\n", "7 long+0.5\n", CONFLICT("7 ace\n", "7 long+0.5\n")},
        /* where it was played is not where it fell, nor a place along the net */
        {match_head, "7 in2\n", "7 ace\n", "7 in2 5\n", CONFLICT("7 ace\n", "7 in2 5\n")},
        {match_head, "7 net\n", "7 ace\n", "7 net 3\n", CONFLICT("7 ace\n", "7 net 3\n")},
        /* found by the check alone: with `won` it was no net */
        {match_head, "7 in2\n", "7 net\n", "7 in2 won\n", CONFLICT("7 net\n", "7 in2 won\n")},
        {match_head, "7 in2\n", "7 long\n", "7 in2 5\n", CONFLICT("7 long\n", "7 in2 5\n")},
        {match_head, "7 net\n", "", "7 td net\n", CONFLICT("", "7 td net\n")},
        {match_head, "7 nett\n", "7 net\n", "7 nett 3\n", CONFLICT("7 net\n", "7 nett 3\n")},
        {match_head, "1-0\n", "2-0\n", "0-1\n", CONFLICT("2-0\n", "0-1\n")},
    };

    (void)state;
    ROWS(rows);
}

static void lines_of_both(void **state) {
    static const struct row rows[] = {
        {match_head, "7 ace\n", "7 ace\n. net\n", "7 ace\n. net\n", "7 ace\n. net\n"},
        {match_head, "7 ace\n", "7 ace\n. net\n", "7 ace\n7 net 3\nG3 net\n",
         "7 ace\n7 net 3\nG3 net\n"},
        {match_head, "7 ace\n", "7 ace\n7 net\n", "7 ace\nG3 ace\n",
         "7 ace\n" CONFLICT("7 net\n", "G3 ace\n")},
        {match_head, "7 ace\n", "7 ace\n. in2 won\n. net\n", "7 ace\n. in2 won\n. long\n",
         "7 ace\n. in2 won\n" CONFLICT(". net\n", ". long\n")},
        /* of two equal serves the later one is new */
        {match_head, "7 in1 won\n7 in2 won\nend\n",
         "7 td in1 won\n7 in2 won\n7 in2 won\nend\n", "7 in1 won\n7 in2 won\n7 ace\nend\n",
         "7 td in1 won\n7 in2 won\n" CONFLICT("7 in2 won\n", "7 ace\n") "end\n"},
        {match_head, "7 ace\n", "7 ace\n# ours\n", "7 ace\nnote \"theirs\"\n. net\n",
         "7 ace\n# ours\nnote \"theirs\"\n. net\n"},
        {match_head, "7 ace\n", "7 ace\ntimeout H\n", "7 ace\nsub H 9 for 3\n",
         "7 ace\n" CONFLICT("timeout H\n", "sub H 9 for 3\n")},
        {match_head, "7 ace\n7 net\n", "7 net\n", "7 ace\nnote \"low\"\n7 net\n",
         CONFLICT("", "7 ace\nnote \"low\"\n") "7 net\n"},
        {match_head, "end 25-0\n", "end 25-0\nset 3 H\n7 ace\n", "end 25-0\nset 2 G\nG3 ace\n",
         "end 25-0\nset 2 G\nG3 ace\nset 3 H\n7 ace\n"},
        {squad_head, "player H7 \"Mira\"\n", "player H7 \"Mira\"\nplayer H9 \"Ana\"\n",
         "player H7 \"Mira\"\nplayer H8 \"Eva\"\n",
         "player H7 \"Mira\"\nplayer H8 \"Eva\"\nplayer H9 \"Ana\"\n"},
        {squad_head, "", "player H9 \"Ana\"\n", "player H9 \"Eva\"\n",
         CONFLICT("player H9 \"Ana\"\n", "player H9 \"Eva\"\n")},
        {practice_head, "7 in d6\n", "7 in d6\n. long\n", "7 in d6\n12 in d6\n. net\n",
         "7 in d6\n. long\n12 in d6\n. net\n"},
        {practice_head, "toss 7 6/10\n", "toss 7 6/10\ntoss 9 4/10\n",
         "toss 7 6/10\ntoss 3 5/10\ndrill \"Rail\"\ntries 7 4/10\n",
         "toss 7 6/10\ntoss 3 5/10\ntoss 9 4/10\ndrill \"Rail\"\ntries 7 4/10\n"},
        {practice_head, "", "tries 7 4/10\n", "tries 7 5/10\n",
         CONFLICT("tries 7 4/10\n", "tries 7 5/10\n")},
    };

    (void)state;
    ROWS(rows);
}

/* `.` follows a server that is corrected, and is written out where another line
 * has come between. */
static void the_same_server(void **state) {
    static const struct row rows[] = {
        {match_head, "7 ace\n", "9 ace\n", "7 ace\n. net\n", "9 ace\n. net\n"},
        {match_head, "7 ace\n. net\n", "9 ace\n. net\n", "7 ace\n. td net\n", "9 ace\n. td net\n"},
        {match_head, "7 ace\n. net\n", "7 ace\n7 net\n", "9 ace\n. net\n", "9 ace\n. net\n"},
        {match_head, "7 ace\n7 net\n", "7 ace\n. net\n", "7 ace\nG3 replay\n7 net\n",
         "7 ace\nG3 replay\n7 net\n"},
        {match_head, "7 ace\n. ace\n. net\n", "7 ace\n. net\n", "7 ace\n9 ace\n. long\n. net\n",
         "7 ace\n" CONFLICT("", "9 ace\n. long\n") ". net\n"},
    };

    (void)state;
    ROWS(rows);
}

static void unread_and_plain_lines(void **state) {
    static const struct row drills = {"", "Drill: Rail\nTreats: td\n\nDrill: Last\nTreats: net\n",
                                      "Drill: Rail\nTreats: td tu\n\nDrill: Last\nTreats: net\n",
                                      "Drill: Rail\nTreats: td\n\nDrill: Last\nTreats: long\n",
                                      "Drill: Rail\nTreats: td tu\n\nDrill: Last\nTreats: long\n"};
    static const struct row rows[] = {
        {match_head, "7 nett\n7 ace\n", "7 net\n7 ace\n", "7 nett\n7 ace 5\n", "7 net\n7 ace 5\n"},
        {"", "", "notation 1\n", "notation 1\n", "notation 1\n"},
        {"", "", "a b c\n", "d e f\n", CONFLICT("a b c\n", "d e f\n")},
        {"", "<<<<<<< a\n7 net\n=======\n7 ace\n>>>>>>> b\n", "7 net\n",
         "<<<<<<< a\n7 net\n=======\n7 ace\n>>>>>>> b\n", "7 net\n"},
    };

    (void)state;
    ROWS(rows);
    assert_row(&drills, true);
}

/* What both sides together give, and neither alone. */
static void what_it_has_against_itself(void **state) {
    static const struct row score = {match_head, "7 ace\n. net\nG3 net\n",
                                     "7 ace\n. net\n1-1\nG3 net\n",
                                     "7 ace\n. ace\n. net\nG3 net\n",
                                     "7 ace\n. ace\n. net\n1-1\nG3 net\n"};
    static const struct row old = {match_head, "7 ace\n5-5\n. net\n", "7 ace\n5-5\n. td net\n",
                                   "7 ace\n5-5\n. net 3\n", "7 ace\n5-5\n. td net 3\n"};
    struct arena *a = arena_new(no_memory);
    struct merge m;
    struct diags d;

    (void)state;
    merge_row(&m, &score, false, a);
    diags_init(&d, a);
    merge_check(&m, &d);
    assert_int_equal(m.conflict_n, 0);
    assert_int_equal(d.errors, 1);
    assert_int_equal(d.at[0].id, E_SCORE);
    assert_int_equal(d.at[0].place.line, 9);
    merge_row(&m, &old, false, a);
    diags_init(&d, a);
    merge_check(&m, &d);
    assert_int_equal(d.errors, 0);
    arena_free(a);
    assert_row(&score, false);
    assert_row(&old, false);
}

static size_t twice(const char *base, const char *ours, const char *theirs, struct arena *a) {
    struct row row = {match_head, base, ours, theirs, NULL};
    struct merge m;
    size_t other;

    merge_row(&m, &row, false, a);
    assert_int_equal(m.conflict_n, 0);
    size_t one = merge_twice(&m, 0, &other);
    assert_true(one == m.item_n || other > one);
    return m.item_n - one;
}

static void one_rally_in_two_places(void **state) {
    struct arena *a = arena_new(no_memory);

    (void)state;
    assert_true(twice("7 in1 won\n7 in2 won\n", "7 in1 won\n7 ace\n7 in2 won\n",
                      "7 in1 won\n7 in2 won\n. ace\n", a));
    assert_false(twice("7 in1 won\n7 in2 won\n", "7 in1 won\n7 ace\n7 in2 won\n",
                       "7 in1 won\n7 in2 won\n. net\n", a));
    assert_false(twice("7 in1 won\n7 in2 won\n", "7 ace\n7 in1 won\n7 ace\n7 in2 won\n",
                       "7 in1 won\n7 in2 won\n", a));
    assert_false(twice("7 in1 won\n. in2 won\n. in3 won\n. play won\n",
                       "7 ace\n7 in1 won\n. in2 won\n. in3 won\n. play won\n",
                       "7 in1 won\n. in2 won\n. in3 won\n. play won\n. ace\n", a));
    arena_free(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_of_both_in_one_line),
        cmocka_unit_test(words_that_contradict),
        cmocka_unit_test(lines_of_both),
        cmocka_unit_test(the_same_server),
        cmocka_unit_test(unread_and_plain_lines),
        cmocka_unit_test(what_it_has_against_itself),
        cmocka_unit_test(one_rally_in_two_places),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
