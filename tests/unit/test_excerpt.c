/* The excerpt of a message: carets by cells, cuts around the caret. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "cmd/excerpt.h"

enum { WIDTH = 100 };

static struct excerpt excerpt_of(struct arena *a, const char *line, size_t at, size_t n) {
    struct place p = {STR("a.9m"), str_of(line), 7, (unsigned)at, (unsigned)n};
    struct excerpt e;

    excerpt_init(&e, p, WIDTH, a);
    excerpt_under(&e, at, n);
    return e;
}

static size_t letter_n(struct str s, size_t at) {
    unsigned code_point;
    size_t n = str_code_point(s, at, &code_point);

    return n ? n : 1;
}

/* The part of what is shown that stands above the caret. */
static struct str above(const struct excerpt *e) {
    struct str s = e->shown;
    size_t from = 0, to;

    while (from < s.n && str_cells(str_part(s, 0, from), 0) < e->caret_cell)
        from += letter_n(s, from);
    for (to = from; to < s.n && str_cells(str_part(s, from, to - from), 0) < e->caret_n;)
        to += letter_n(s, to);
    return str_part(s, from, to - from);
}

static void assert_str(struct str got, const char *expected) {
    assert_int_equal(got.n, strlen(expected));
    assert_memory_equal(got.at, expected, got.n);
}

static void short_lines_are_whole(void **state) {
    struct arena *a = arena_new(cmd_no_memory);
    struct excerpt e = excerpt_of(a, "7 m4/3 td nett", 10, 4);

    (void)state;
    assert_str(e.shown, "7 m4/3 td nett");
    assert_int_equal(e.caret_cell, 10);
    assert_int_equal(e.caret_n, 4);
    arena_free(a);
}

static void something_missing_has_one_caret(void **state) {
    struct arena *a = arena_new(cmd_no_memory);
    struct excerpt e = excerpt_of(a, "7", 1, 0);

    (void)state;
    assert_int_equal(e.caret_cell, 1);
    assert_int_equal(e.caret_n, 1);
    e = excerpt_of(a, "", 0, 0);
    assert_int_equal(e.caret_cell, 0);
    assert_int_equal(e.caret_n, 1);
    arena_free(a);
}

static void tabs_and_wide_letters_move_the_caret(void **state) {
    struct arena *a = arena_new(cmd_no_memory);
    struct excerpt e = excerpt_of(a, "7\tm4/3\tnett", 7, 4);

    (void)state;
    assert_str(e.shown, "7       m4/3    nett");
    assert_int_equal(e.caret_cell, 16);
    e = excerpt_of(a, "\xE6\xB8\xAC\xE8\xA9\xA6 nett", 7, 4); /* two letters of two cells */
    assert_int_equal(e.caret_cell, 5);
    e = excerpt_of(a, "\xE6\xB8\xAC", 0, 3);
    assert_int_equal(e.caret_n, 2);
    arena_free(a);
}

static void escapes_are_counted_as_shown(void **state) {
    struct arena *a = arena_new(cmd_no_memory);
    struct excerpt e = excerpt_of(a, "S\xF8ren", 1, 1);

    (void)state;
    assert_str(e.shown, "S<F8>ren");
    assert_int_equal(e.caret_cell, 1);
    assert_int_equal(e.caret_n, 4);
    e = excerpt_of(a, "7\xC2\xA0net", 1, 2);
    assert_str(e.shown, "7\xC2\xB7net");
    assert_true(e.caret_dot);
    e = excerpt_of(a, "\x1b[2J", 0, 1);
    assert_str(e.shown, "<1B>[2J");
    arena_free(a);
}

/* Wherever the caret is in a line of whatever length, its word is shown whole,
 * right above it, and the line is never too wide. */
static void a_cut_line_keeps_its_word(void **state) {
    struct arena *a = arena_new(cmd_no_memory);

    (void)state;
    for (size_t length = 60; length < 400; length += 7)
        for (size_t at = 0; at + 4 <= length; at++) {
            char line[400];
            struct excerpt e;

            memset(line, 'x', length);
            memcpy(line + at, "nett", 4);
            line[length] = '\0';
            e = excerpt_of(a, line, at, 4);
            assert_true(e.margin + 3 + str_cells(e.shown, 0) <= WIDTH);
            assert_str(above(&e), "nett");
            arena_reset(a);
        }
    arena_free(a);
}

static void a_cut_line_of_wide_letters_keeps_its_word(void **state) {
    struct arena *a = arena_new(cmd_no_memory);

    (void)state;
    for (size_t before = 0; before < 120; before++) {
        struct buf b;
        struct excerpt e;

        buf_init(&b, a);
        for (size_t i = 0; i < before; i++)
            buf_add(&b, STR("\xE6\xB8\xAC"));
        buf_add(&b, STR("nett"));
        for (size_t i = 0; i < 120; i++)
            buf_add(&b, STR("\xE8\xA9\xA6"));
        buf_char(&b, '\0');
        e = excerpt_of(a, b.at, 3 * before, 4);
        assert_true(e.margin + 3 + str_cells(e.shown, 0) <= WIDTH);
        assert_str(above(&e), "nett");
        arena_reset(a);
    }
    arena_free(a);
}

static void a_line_of_any_length_is_looked_at_in_part(void **state) {
    enum { LENGTH = 3000000 };
    struct arena *a = arena_new(cmd_no_memory);
    char *line = malloc(LENGTH + 1);
    struct excerpt e;

    (void)state;
    assert_non_null(line);
    memset(line, 'x', LENGTH);
    memcpy(line + LENGTH / 2, "nett", 4);
    line[LENGTH] = '\0';
    e = excerpt_of(a, line, LENGTH / 2, 4);
    assert_str(above(&e), "nett");
    assert_true(arena_bytes(a) < 1024 * 1024);
    free(line);
    arena_free(a);
}

/* A place beyond the line is a bug elsewhere; the message must still come out. */
static void a_place_beyond_the_line_is_its_end(void **state) {
    struct arena *a = arena_new(cmd_no_memory);
    struct excerpt e = excerpt_of(a, "7 net", 50, 3);

    (void)state;
    assert_int_equal(e.caret_cell, 5);
    assert_int_equal(e.caret_n, 1);
    arena_free(a);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(short_lines_are_whole),
        cmocka_unit_test(something_missing_has_one_caret),
        cmocka_unit_test(tabs_and_wide_letters_move_the_caret),
        cmocka_unit_test(escapes_are_counted_as_shown),
        cmocka_unit_test(a_cut_line_keeps_its_word),
        cmocka_unit_test(a_cut_line_of_wide_letters_keeps_its_word),
        cmocka_unit_test(a_line_of_any_length_is_looked_at_in_part),
        cmocka_unit_test(a_place_beyond_the_line_is_its_end),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
