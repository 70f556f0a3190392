/* The table of words, grammar/words.def: what it says of each word must hold,
 * since `9m explain`, the reference and the suggestions are made from it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "syntax.h"

static void no_memory(size_t wanted_bytes) {
    fprintf(stderr, "no memory for %zu bytes\n", wanted_bytes);
    exit(3);
}

static bool holds_word(const char *line, struct str word) {
    size_t n = strlen(line);
    for (size_t i = 0; i + word.n <= n; i++)
        if (memcmp(line + i, word.at, word.n) == 0)
            return true;
    return false;
}

/* Its example is a line that parses, holds the word, and is written in the one
 * canonical spelling. */
static void example_holds(void **state) {
    const struct word_info *word = *state;
    struct arena *a = arena_new(no_memory);
    struct diags d;
    struct text t;
    struct buf printed;

    diags_init(&d, a);
    text_take(&t, STR("example"), str_printf(a, "%s\n", word->example), a, &d);
    struct syn *s = syn_new(&t, a, &d);
    const struct stmt *st = syn_next(s);
    assert_non_null(st);
    for (size_t i = 0; i < d.n; i++)
        print_error("%.*s\n", STR_ARG(d.at[i].text));
    assert_int_equal(d.n, 0);
    if (word->class != WORD_SHAPE)
        assert_true(holds_word(word->example, word->word));

    buf_init(&printed, a);
    syn_print(&printed, st, 'H');
    /* `fmt` writes a checkpoint without its word. */
    if (!str_is(word->word, "score"))
        assert_string_equal(str_c(a, buf_str(&printed)), word->example);
    else
        assert_string_equal(str_c(a, buf_str(&printed)), word->example + strlen("score "));
    arena_free(a);
}

static void is_found_by_its_spelling(void **state) {
    (void)state;
    for (int i = 0; i < W_N; i++) {
        const struct word_info *word = word_info((enum word_id)i);
        if (word->class == WORD_SHAPE)
            continue;
        assert_ptr_equal(word_find(word->word, WORD_CLASS(word->class)), word);
        char upper[32];
        assert_true(word->word.n < sizeof upper);
        for (size_t k = 0; k < word->word.n; k++) {
            char c = word->word.at[k];
            upper[k] = (char)(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
        }
        struct str shouted = {upper, word->word.n};
        assert_ptr_equal(word_find(shouted, WORD_CLASS(word->class)), word);
    }
    assert_null(word_find(STR("nett"), WORD_CLASS(WORD_OUTCOME)));
    assert_null(word_find(STR("net"), WORD_CLASS(WORD_MARK)));
}

/* The first letter of a mark is that of its phase. */
static void marks_begin_with_their_phase(void **state) {
    static const char letters[] = "tajhn";
    (void)state;
    for (int i = 0; i < W_N; i++) {
        const struct word_info *word = word_info((enum word_id)i);
        if (word->class != WORD_MARK)
            continue;
        assert_int_equal(word->word.n, 2);
        unsigned phase = mark_phase((enum mark)word->value);
        const char *letter = strchr(letters, word->word.at[0]);
        assert_non_null(letter);
        assert_int_equal(phase, 1u << (letter - letters));
    }
}

int main(void) {
    static struct CMUnitTest tests[W_N + 2];
    static char names[W_N][48];
    size_t n = 0;
    for (int i = 0; i < W_N; i++) {
        const struct word_info *word = word_info((enum word_id)i);
        snprintf(names[i], sizeof names[i], "example of %.*s", STR_ARG(word->word));
        tests[n++] = (struct CMUnitTest){names[i], example_holds, NULL, NULL,
                                         (void *)(uintptr_t)word};
    }
    tests[n++] = (struct CMUnitTest)cmocka_unit_test(is_found_by_its_spelling);
    tests[n++] = (struct CMUnitTest)cmocka_unit_test(marks_begin_with_their_phase);
    return cmocka_run_group_tests_name("words", tests, NULL, NULL);
}
