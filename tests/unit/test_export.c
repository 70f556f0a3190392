/* Tables: numbers without the locale, pieces that are joined again, pseudonyms. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <limits.h>
#include <stdlib.h>
#include <string.h>

#include "export/table.h"
#include "kit/in_arena.h"
#include "kit/scene.h"

static void hundredths(void **state) {
    static const struct {
        int n;
        char decimal;
        const char *text;
    } cases[] = {
        {0, '.', "0"},       {5, '.', "0.05"},    {-5, '.', "-0.05"},    {10, '.', "0.1"},
        {-20, '.', "-0.2"},  {100, '.', "1"},     {250, ',', "2,5"},     {-25, ',', "-0,25"},
        {9500, '.', "95"},   {105, '.', "1.05"},  {32767, '.', "327.67"}, {-32768, '.', "-327.68"},
        {INT_MAX, '.', "21474836.47"}, {INT_MIN, '.', "-21474836.48"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char out[NUMBER_MAX_BYTES + 1] = "";
        char *end = put_hundredths(out, cases[i].n, cases[i].decimal);
        assert_true(end - out <= NUMBER_MAX_BYTES);
        *end = '\0';
        assert_string_equal(out, cases[i].text);
    }
}

static void whole(void **state) {
    static const struct {
        int n;
        const char *text;
    } cases[] = {{0, "0"}, {9, "9"}, {10, "10"}, {-1, "-1"}, {INT_MAX, "2147483647"},
                 {INT_MIN, "-2147483648"}};
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char out[NUMBER_MAX_BYTES + 1] = "";
        *put_whole(out, cases[i].n) = '\0';
        assert_string_equal(out, cases[i].text);
    }
}

/* A million texts, and one that is larger than a piece. */
static void pieces(void **state) {
    struct pieces p = {.arena = *state};
    size_t large_n = 3u << 20, n = 0, at = 0, lines = 0;
    char *large = arena_alloc(*state, large_n, 1);
    memset(large, 'x', large_n);
    for (unsigned i = 0; i < 500000; i++)
        pieces_add(&p, STR("seven\n"));
    pieces_add(&p, (struct str){large, large_n});
    for (unsigned i = 0; i < 500000; i++)
        pieces_add(&p, STR("seven\n"));
    pieces_end(&p);
    assert_true(p.n > 3);
    for (size_t i = 0; i < p.n; i++) {
        n += p.at[i].n;
        for (at = 0; at < p.at[i].n; at++)
            lines += p.at[i].at[at] == '\n';
    }
    assert_int_equal(n, 1000000 * 6 + large_n);
    assert_int_equal(lines, 1000000);
}

static struct str joined(struct export *e, struct arena *a) {
    struct buf b;
    size_t n;
    const struct str *parts;
    assert_true(export_end(e, false, &parts, &n));
    buf_init(&b, a);
    for (size_t i = 0; i < n; i++)
        buf_add(&b, parts[i]);
    return buf_str(&b);
}

/* Nothing to tell is a table all the same. */
static void empty(void **state) {
    struct export_style style = {.form = EXPORT_JSON, .separator = ',', .decimal = '.',
                                 .version = STR("0")};
    struct export *e = export_new(&style, *state);
    assert_true(str_is(joined(e, *state), "{\"schema\":1,\"program\":\"9m\",\"version\":\"0\","
                                          "\"table\":\"serves\",\"rows\":[\n],\"incomplete\":false}\n"));
    export_free(e);
    style.form = EXPORT_CSV;
    e = export_new(&style, *state);
    struct str csv = joined(e, *state);
    assert_true(str_starts(csv, STR("file,line,date,")));
    assert_true(str_ends(csv, STR(",video_s,review\r\n")));
    export_free(e);
    style.form = EXPORT_JSONL;
    e = export_new(&style, *state);
    assert_int_equal(joined(e, *state).n, 0);
    export_free(e);
}

/* As many rows as there are attempts, one line each. */
static void rows(void **state) {
    struct export_style style = {.form = EXPORT_CSV, .separator = ',', .decimal = '.'};
    const struct checked *c = scene_play(scene_usual(), *state);
    struct export *e = export_new(&style, *state);
    size_t attempts = 0, lines = 0;
    for (size_t i = 0; i < c->played_n; i++)
        attempts += c->played[i].said.outcome != OUTCOME_REPLAY &&
                    c->played[i].said.outcome != OUTCOME_RETOSS;
    export_add(e, c, STR("scene.9m"), *state);
    struct str csv = joined(e, *state);
    for (size_t i = 0; i < csv.n; i++)
        lines += csv.at[i] == '\n';
    assert_true(attempts > 100);
    assert_int_equal(lines, attempts + 1);
    export_free(e);
}

/* The digests come from Python 3.11's hmac, an implementation of RFC 2104 of
 * its own: hmac.new(key, b"player\0" + name, "sha256"). */
static void pseudonyms(void **state) {
    struct export e = {.style.key = STR("0123456789abcdef")};
    assert_true(str_is(pseudonym(&e, "player", STR("Mira"), *state), "player-df6542aef1f1"));
    assert_true(str_is(pseudonym(&e, "player", STR("In\xC3\xAAs"), *state), "player-601e9ec00e43"));
    assert_true(str_is(pseudonym(&e, "file", STR("Mira"), *state), "file-20ece6282578"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hundredths),
        cmocka_unit_test(whole),
        cmocka_unit_test_setup_teardown(pieces, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(empty, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(rows, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(pseudonyms, open_arena, close_arena),
    };
    return cmocka_run_group_tests_name("export", tests, NULL, NULL);
}
