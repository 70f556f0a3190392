/* Drills: the program's own (common practice, no source) hold together, and a
 * club's are read with care. The form of the fields: RFC 5322, 2.2. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "drill.h"
#include "lang.h"

enum { MOST = 8 };

static struct arena *arena;
static struct drill_book book;
static struct diags found;

static void no_memory(size_t wanted_bytes) {
    (void)wanted_bytes;
    abort();
}

static int begin(void **state) {
    (void)state;
    arena = arena_new(no_memory);
    drill_book_init(&book, arena);
    diags_init(&found, arena);
    return 0;
}

static int finish(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

static unsigned take(const char *name, const char *drills) {
    struct text *t = arena_alloc(arena, 1, sizeof *t);
    text_take(t, str_of(name), str_of(drills), arena, &found);
    return drill_read(&book, t, &found);
}

static enum word_id word(const char *spelling) {
    const struct word_info *w =
        word_find(str_of(spelling), WORD_CLASS(WORD_MARK) | WORD_CLASS(WORD_OUTCOME) |
                                        WORD_CLASS(WORD_INTENT));
    assert_non_null(w);
    return w->id;
}

/* ---- the program's own -------------------------------------------------------- */

static void every_field_is_there(void **state) {
    (void)state;
    assert_int_equal(book.n, 30);
    for (size_t i = 0; i < book.n; i++) {
        const struct drill_recipe *r = &book.at[i];
        const struct str texts[] = {r->name,  r->purpose, r->setup, r->dose,
                                    r->score, r->goal,    r->next,  r->care};
        for (size_t k = 0; k < sizeof texts / sizeof *texts; k++)
            if (!texts[k].n)
                fail_msg("%.*s lacks text %zu", STR_ARG(r->name), k);
        assert_true(r->treat_n > 0);
        assert_false(r->own);
        assert_ptr_equal(drill_find(&book, r->name), r);
    }
    assert_null(drill_find(&book, STR("Ring tos")));
    assert_ptr_equal(drill_find(&book, STR("RING TOSS")), &book.at[0]);
}

static void is_treated(const struct word_info *w) {
    if (!drill_treating(&book, w->id, TYPE_NONE, NULL, 0))
        fail_msg("no drill treats %.*s", STR_ARG(w->word));
}

/* Every mark, and every outcome that is an error of the server. */
static void all_is_treated(void **state) {
    unsigned marks = 0, errors = 0;
    (void)state;
    for (unsigned id = 0; id < W_N; id++) {
        const struct word_info *w = word_info((enum word_id)id);
        struct played p = {.said.outcome = (uint8_t)w->value, .said.by = SHIRT_NONE};
        if (w->class == WORD_MARK) {
            is_treated(w);
            marks++;
        } else if (w->class == WORD_OUTCOME && played_error(&p)) {
            is_treated(w);
            errors++;
        }
    }
    assert_int_equal(marks, MARK_N);
    assert_int_equal(errors, 12); /* net long left right antenna ceiling mate foot clock order
                                     drop screen: "What is counted" of the reference */
}

static const char head[] = "notation 1\npractice 2026-10-06\nteam H \"Harbour Herons\" women\n";

/* What a drill tells to write is what the checker reads. */
static void scores_are_notes(void **state) {
    (void)state;
    for (size_t i = 0; i < book.n; i++) {
        const struct drill_recipe *r = &book.at[i];
        struct text t;
        struct diags d;
        diags_init(&d, arena);
        text_take(&t, STR("score"), str_printf(arena, "%s%.*s\n", head, STR_ARG(r->score)), arena,
                  &d);
        const struct checked *c = check_text(&t, CHECK_KEEP, arena, &d);
        if (d.n)
            fail_msg("%.*s: line %u: %.*s", STR_ARG(r->name), d.at[0].place.line,
                     STR_ARG(d.at[0].text));
        assert_true(c->drill_n > 0 && c->played_n + c->tries_n > 0);
    }
}

/* A mark in the lines of a drill is one of an observed phase, and where a drill
 * is for marks its lines show one of them, but where no ball is hit. */
static void scores_observe(void **state) {
    (void)state;
    for (size_t i = 0; i < book.n; i++) {
        struct text t;
        struct diags d;
        diags_init(&d, arena);
        text_take(&t, STR("score"),
                  str_printf(arena, "%s%.*s\n", head, STR_ARG(book.at[i].score)), arena, &d);
        const struct checked *c = check_text(&t, CHECK_KEEP, arena, &d);
        for (size_t k = 0; k < c->played_n; k++)
            for (unsigned m = 0; m < MARK_N; m++)
                if (c->played[k].said.marks & 1u << m &&
                    !(c->played[k].observed & mark_phase((enum mark)m)))
                    fail_msg("%.*s: a mark of no observed phase", STR_ARG(book.at[i].name));
    }
}

/* What pages show of them stands in every language (make words). */
static void in_every_language(void **state) {
    (void)state;
    for (unsigned k = 1; lang_codes[k]; k++) /* behind English */
        for (size_t i = 0; i < book.n; i++) {
            const struct drill_recipe *r = &book.at[i];
            const struct str shown[] = {r->name, r->setup, r->goal};
            for (unsigned n = 0; n < sizeof shown / sizeof *shown; n++) {
                const char *words = str_c(arena, shown[n]);
                if (lang_say(lang_of(str_of(lang_codes[k])), words) == words)
                    fail_msg("%s: \"%s\" is not translated", lang_codes[k], words);
            }
        }
}

static void goals(void **state) {
    static const struct {
        const char *name;
        unsigned hits, tries;
    } rows[] = {
        {"Ring toss", 14, 20},  {"Paced start", 9, 10},   {"Quiet float", 12, 16},
        {"Middle start", 19, 20}, {"Depth bands", 6, 12}, {"Twenty-three all", 0, 0},
        {"Order call", 0, 0},
    };
    unsigned counted = 0;
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct drill_recipe *r = drill_find(&book, str_of(rows[i].name));
        assert_non_null(r);
        assert_int_equal(r->goal_hits, rows[i].hits);
        assert_int_equal(r->goal_tries, rows[i].tries);
    }
    for (size_t i = 0; i < book.n; i++)
        counted += book.at[i].goal_tries > 0;
    assert_int_equal(counted, 28);
}

/* What comes first for each is our own choice. */
static void order_of_fit(void **state) {
    static const struct {
        const char *word;
        enum serve_type type;
        const char *names[3];
    } rows[] = {
        {"td", TYPE_NONE, {"Ring toss", "Height gate", "Wait for it"}},
        {"tu", TYPE_TOPSPIN, {"Height gate", "Ring toss", "Rescue serve"}},
        {"tu", TYPE_JUMPFLOAT, {"Small toss", "Height gate", "Ring toss"}},
        {"hw", TYPE_FLOAT, {NULL, NULL, NULL}},
        {"hp", TYPE_FLOAT, {"Quiet float", NULL, NULL}},
        {"je", TYPE_TOPSPIN, {"Wait for it", "High catch", NULL}},
        {"antenna", TYPE_NONE, {"Line with a margin", NULL, NULL}},
        {"safe", TYPE_NONE, {"Cold call", "Go or safe", NULL}},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct drill_recipe *out[MOST] = {NULL};
        size_t n = drill_treating(&book, word(rows[i].word), rows[i].type, out, MOST);
        for (size_t k = 0; k < 3 && rows[i].names[k]; k++) {
            assert_non_null(out[k]);
            assert_string_equal(str_c(arena, out[k]->name), rows[i].names[k]);
        }
        if (!rows[i].names[2])
            assert_int_equal(n, !!rows[i].names[0] + !!rows[i].names[1]);
        size_t all = drill_treating(&book, word(rows[i].word), rows[i].type, out, 1);
        assert_int_equal(all, n);
    }
}

/* ---- a club's own ------------------------------------------------------------- */

#define BOX "Drill: Box toss\nTreats: td tu\nJumps: no\nSet-up: A box on the floor.\n"

static void own_drills(void **state) {
    const struct drill_recipe *out[MOST];
    (void)state;
    unsigned lines = take("club.drills",
                          "# ours\n" BOX "Types: topspin float\nSCORE:\n drill \"Box toss\"\n"
                          "\ttries 7 8/10\nGoal: 8/10\n \nDrill: Ring toss\r\nTreats: tn\r\n"
                          "Jumps: maybe\r\nSet-up: A ring\r\n of 0.8 m.\r\n");
    assert_int_equal(found.n, 0);
    assert_int_equal(lines, 14);
    assert_int_equal(book.n, 31);
    const struct drill_recipe *box = drill_find(&book, STR("Box toss"));
    assert_string_equal(str_c(arena, box->score), "drill \"Box toss\"\ntries 7 8/10");
    assert_int_equal(box->goal_tries, 10);
    assert_true(box->own && drill_fits(box, TYPE_FLOAT) && !drill_fits(box, TYPE_HYBRID));
    assert_int_equal(box->place.line, 2);
    assert_int_equal(box->purpose.n, 0);
    /* The club's ring has the place of ours, and no longer treats td. */
    assert_true(book.at[0].own);
    assert_string_equal(str_c(arena, book.at[0].setup), "A ring of 0.8 m.");
    drill_treating(&book, word("td"), TYPE_NONE, out, MOST);
    assert_ptr_equal(out[0], box);
    assert_string_equal(str_c(arena, out[1]->name), "Height gate");
}

static void raises(const char *drills, enum diag_id id, unsigned line) {
    begin(NULL);
    take("club.drills", drills);
    if (found.n != 1 || found.at[0].id != id || found.at[0].place.line != line)
        print_error("%s\n", drills);
    assert_int_equal(found.n, 1);
    assert_int_equal(found.at[0].id, id);
    assert_int_equal(found.at[0].place.line, line);
    assert_null(drill_find(&book, STR("Box toss")));
    finish(NULL);
}

static void faults(void **state) {
    (void)state;
    raises(BOX "Gaol: 8/10\n", E_DRILL_FIELD, 5);
    raises(BOX ": 8/10\n", E_DRILL_LINE, 5);
    raises(" on the floor\n" BOX, E_DRILL_LINE, 1);
    raises(BOX "Goal: 14 of 20\n", E_DRILL_WORD, 5);
    raises(BOX "Goal: 14/20x\n", E_DRILL_WORD, 5);
    raises(BOX "Goal: 1400/2000\n", E_DRILL_WORD, 5);
    raises(BOX "Goal: 21/20\n", E_HITS_OF, 5);
    raises(BOX "Goal: 0/0\n", E_HITS_OF, 5);
    raises(BOX "Types: topspn\n", E_DRILL_WORD, 5);
    raises(BOX "Set-up: A chair.\n", E_DRILL_FIELD_TWICE, 5);
    raises("Drill: Box toss\nTreats: td\n hh\nJumps: no\nSet-up: x\n", E_DRILL_WORD, 3);
    raises("Drill: Box toss\nTreats: td\nJumps: perhaps\nSet-up: x\n", E_DRILL_WORD, 3);
    raises("\n\nDrill:\nTreats: td\nJumps: no\nSet-up: x\n", E_DRILL_LACKS, 3);
    raises("Treats: td\n", E_DRILL_LACKS, 1);
    raises("Drill: Box toss\nTreats:\nJumps: no\nSet-up:\n", E_DRILL_LACKS, 1);
    raises("Drill: Box toss\nTreats:\nJumps: no\nSet-up: x\n", E_DRILL_LACKS, 1);
    raises("Drill: Box toss\nTreats: td\nJumps:\nSet-up: x\n", E_DRILL_LACKS, 1);
}

/* The first of two stays, and the drills around a bad one are read. */
static void the_others_stay(void **state) {
    (void)state;
    take("club.drills", BOX "\nDrill: box toss\nTreats: tu\nJumps: no\nSet-up: x\n\n"
                            "Drill: Bad\n\nDrill: Good\nTreats: tu\nJumps: no\nSet-up: x\n");
    assert_int_equal(found.errors, 2);
    assert_int_equal(found.at[0].id, E_DRILL_TWICE);
    assert_int_equal(found.at[0].sees[0].place.line, 1);
    assert_string_equal(str_c(arena, drill_find(&book, STR("Box toss"))->setup),
                        "A box on the floor.");
    assert_non_null(drill_find(&book, STR("Good")));
    assert_null(drill_find(&book, STR("Bad")));
}

/* Bytes that are no text, and merges, have one message. */
static void unreadable(void **state) {
    struct text t;
    (void)state;
    text_take(&t, STR("club.drills"), STR("\xFF\xFE" "D\0r\0\n\0x\0"), arena, &found);
    assert_int_equal(drill_read(&book, &t, &found), 0);
    assert_int_equal(found.n, 1);
    assert_int_equal(found.at[0].id, E_UTF16);
    take("other.drills", "<<<<<<< ours\n" BOX "=======\nx\n>>>>>>> theirs\n");
    assert_int_equal(found.n, 2);
    assert_int_equal(found.at[1].id, E_MERGE);
}

static void a_hint_at_the_field(void **state) {
    (void)state;
    take("club.drills", BOX "Setup: x\n");
    assert_string_equal(str_c(arena, found.at[0].likely), "Set-up");
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, begin, finish)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(every_field_is_there), TEST(all_is_treated), TEST(scores_are_notes),
        TEST(scores_observe),       TEST(in_every_language), TEST(goals),          TEST(order_of_fit),
        TEST(own_drills),           cmocka_unit_test(faults), TEST(the_others_stay),
        TEST(unreadable),           TEST(a_hint_at_the_field),
    };
    return cmocka_run_group_tests_name("drill", tests, NULL, NULL);
}
