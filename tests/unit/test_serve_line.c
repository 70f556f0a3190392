/* Serve lines, read as the sum of their words and by the grammar: the two must
 * agree on every text. No published source: the grammar is the measure here. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <glob.h>

#include "kit/both_ways.h"
#include "kit/lifelike.h"
#include "kit/roughen.h"
#include "kit/slip.h"

enum { RANDOM_MATCHES = 30, SOUP_LINES = 30000, SOUP_WORDS_MOST = 9 };

static void no_memory(size_t bytes) {
    fprintf(stderr, "test_serve_line: no memory for %zu bytes\n", bytes);
    exit(3);
}

/* Twice with the same store: at first words are cut, then they are known. */
static unsigned agree(struct str text, struct syn_words *words) {
    struct arena *a = arena_new(no_memory);
    struct both_ways first = both_ways(text, words, a);
    struct both_ways again = both_ways(text, words, a);
    const struct both_ways *bad = first.differs ? &first : &again;
    if (bad->differs)
        fail_msg("%s differs in line %u of:\n%.*s", bad->differs, bad->line, STR_ARG(text));
    arena_free(a);
    return again.serves;
}

static struct str file_bytes(const char *path, struct arena *a) {
    struct buf b;
    char chunk[4096];
    FILE *f = fopen(path, "rb");
    assert_non_null(f);
    buf_init(&b, a);
    for (size_t n; (n = fread(chunk, 1, sizeof chunk, f)) > 0;)
        buf_add(&b, (struct str){chunk, n});
    fclose(f);
    return buf_str(&b);
}

static void in_files(void **state) {
    (void)state;
    struct arena *a = arena_new(no_memory);
    struct syn_words *words = syn_words_new(a);
    unsigned serves = 0;
    glob_t g;
    assert_int_equal(glob("examples/*/*.9m", 0, NULL, &g), 0);
    assert_int_equal(glob("tests/cases/*/*.9m", GLOB_APPEND, NULL, &g), 0);
    for (size_t i = 0; i < g.gl_pathc; i++)
        serves += agree(file_bytes(g.gl_pathv[i], a), words);
    globfree(&g);
    assert_true(serves > 100);
    arena_free(a);
}

/* As written, as another hand leaves it, and with slips of the keyboard. */
static void in_random_matches(void **state) {
    (void)state;
    unsigned serves = 0;
    for (unsigned seed = 1; seed <= RANDOM_MATCHES; seed++) {
        struct arena *a = arena_new(no_memory);
        struct syn_words *words = syn_words_new(a);
        struct dice d = {seed};
        struct life_team ours;
        struct life_style style = {(enum life_detail)(seed % 3), seed % 4 == 0, seed % 5 == 0, true};
        struct buf b;
        unsigned slips;
        buf_init(&b, a);
        life_team_draw(&ours, 'H', seed);
        if (seed % 2)
            (void)life_match(&b, &ours, style, seed, seed);
        else
            (void)life_practice(&b, &ours, 300, style, seed, seed);
        serves += agree(buf_str(&b), words);
        serves += agree(roughen(buf_str(&b), (unsigned)dice_below(&d, ROUGH_ALL + 1), 'H', &d, a),
                        words);
        serves += agree(slip_notes(buf_str(&b), 3, &d, a, &slips), words);
        arena_free(a);
    }
    assert_true(serves > 10000);
}

/* Words of every kind and shape, some of them wrong, in any order. */
static const char *const words_of_soup[] = {
#define WORD(id, word, ...) word,
#include "words.def"
#undef WORD
    "7", "12", ".", "H7", "c12", "G", "0", "99", "100", "07", "1-2", "25-23", "m", "r4", "l4/3",
    "M10/12", "m/3", "p1.5", "p9.9", "P4.5/2", "a5", "A1-6", "ad6", "ad5-6", "a2.0,8.5", "ad2",
    "1", "5", "6", "9", "d5", "d2", "D6", "d1-6", "d1-5", "6-1", "5-6", "1-3", "2.1,8.4",
    "-0.5,9.3", "99.0,8.0", "t6.2", "t0.1", "h3.05", "v88", "v999", "f0.95", "w6.5", "w99.99",
    "j-0.5", "j+0.4", "c-1.2", "back4", "back20", "long+0.5", "LEFT+1.25", "net-0.2", "net+0.2",
    "long-1.0", "by11", "by0", "BY7", "by100", "x3", "x999", "x0", "?", "??", "1:02", "1:02:11",
    "99:99", "0:61", "lo", "LO", "ho2", "#", "# seen", "#x", "\"a\"", "\"a b\"", "\"open", "=", ",",
    "in3,", "7net", "td1", "tn3", "\t", "", "in33", "jumpfloaty", "won", "lost", "1.5", "1.55",
    "ace\x01", "\x01", "net\xC2\xA0", "\xC3\xA9", "f\xC3\xBCnf",
};

static void put_soup(struct buf *b, struct dice *d) {
    unsigned n = dice_below(d, SOUP_WORDS_MOST + 1);
    for (unsigned i = 0; i < n; i++) {
        static const char *const servers[] = {"7", "12", "H7", ".", "G", "c9"};
        bool lead = i == 0 && !dice_in(d, 200);
        const char *word = lead ? servers[dice_below(d, 6)]
                                : words_of_soup[dice_below(d, sizeof words_of_soup /
                                                                  sizeof *words_of_soup)];
        buf_add(b, str_of(i && !dice_in(d, 30) ? dice_in(d, 40) ? "  " : " " : ""));
        buf_add(b, str_of(word));
    }
    buf_add(b, str_of(dice_in(d, 40) ? "\r\n" : dice_in(d, 40) ? " \n" : "\n"));
}

static void in_soup(void **state) {
    (void)state;
    struct dice d = {20261003};
    unsigned serves = 0;
    for (unsigned done = 0; done < SOUP_LINES; done += 200) {
        struct arena *a = arena_new(no_memory);
        struct buf b;
        buf_init(&b, a);
        buf_add(&b, STR("short lo = td je\nshort ho2 = d5\n"));
        for (unsigned i = 0; i < 200; i++)
            put_soup(&b, &d);
        serves += agree(buf_str(&b), syn_words_new(a));
        arena_free(a);
    }
    assert_true(serves > 1000);
}

/* What a short word means in one file must not be known in the next. */
static void short_words_stay_in_their_file(void **state) {
    (void)state;
    struct arena *a = arena_new(no_memory);
    struct syn_words *words = syn_words_new(a);
    assert_int_equal(agree(STR("short lo = td\n7 lo net\n7 lo net\n"), words), 2);
    assert_int_equal(agree(STR("7 lo net\n7 net\n"), words), 1);
    assert_int_equal(agree(STR("short lo = tu\n7 lo net\n"), words), 1);
    arena_free(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(in_files),
        cmocka_unit_test(in_random_matches),
        cmocka_unit_test(in_soup),
        cmocka_unit_test(short_words_stay_in_their_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
