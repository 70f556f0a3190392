/* Tables: numbers without the locale, batches that are joined again, pseudonyms. */
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

/* What comes of some batches, the first with the head and the last with the end. */
static struct str joined(const struct export_style *style, const struct checked *c,
                         unsigned batches, struct arena *a) {
    struct export *e = export_new(style, a);
    struct export_batch *b = export_batch_new(e, a);
    struct buf all;
    buf_init(&all, a);
    export_begin(b);
    for (unsigned i = 0; i < batches; i++) {
        size_t from = c->played_n * i / batches, to = c->played_n * (i + 1) / batches;
        buf_add(&all, export_take(b));
        assert_int_equal(export_bytes(b), 0);
        export_serves(b, c, c->played + from, to - from, STR("scene.9m"), a);
    }
    assert_true(export_end(b, false));
    buf_add(&all, export_take(b));
    export_free(e);
    return buf_str(&all);
}

static const struct export_style csv = {.form = EXPORT_CSV, .separator = ',', .decimal = '.'};
static const struct export_style json = {.form = EXPORT_JSON, .version = {"0", 1}};
static const struct export_style jsonl = {.form = EXPORT_JSONL};

/* Nothing to tell is a table all the same. */
static void empty(void **state) {
    struct str table = joined(&csv, NULL, 0, *state);
    assert_true(str_starts(table, STR("file,line,date,")));
    assert_true(str_ends(table, STR(",video_s,review,team_name\r\n")));
    assert_true(str_is(joined(&json, NULL, 0, *state),
                       "{\"schema\":2,\"program\":\"9m\",\"version\":\"0\","
                       "\"table\":\"serves\",\"rows\":[\n],\"incomplete\":false}\n"));
    assert_int_equal(joined(&jsonl, NULL, 0, *state).n, 0);
}

/* As many rows as there are attempts, one line each. */
static void rows(void **state) {
    const struct checked *c = scene_play(scene_usual(), *state);
    struct str table = joined(&csv, c, 1, *state);
    size_t attempts = 0, lines = 0;
    for (size_t i = 0; i < c->played_n; i++)
        attempts += c->played[i].said.outcome != OUTCOME_REPLAY &&
                    c->played[i].said.outcome != OUTCOME_RETOSS;
    for (size_t i = 0; i < table.n; i++)
        lines += table.at[i] == '\n';
    assert_true(attempts > 100);
    assert_int_equal(lines, attempts + 1);
}

/* However the rows are parted, the bytes are the same. */
static void batches(void **state) {
    static const struct export_style *const styles[] = {&csv, &json, &jsonl};
    const struct checked *c = scene_play(scene_usual(), *state);
    for (size_t i = 0; i < sizeof styles / sizeof *styles; i++) {
        struct str whole_table = joined(styles[i], c, 1, *state);
        assert_true(whole_table.n > 10000);
        for (unsigned n = 2; n < 400; n = n * 5 / 2)
            assert_true(str_eq(joined(styles[i], c, n, *state), whole_table));
    }
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
        cmocka_unit_test_setup_teardown(empty, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(rows, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(batches, open_arena, close_arena),
        cmocka_unit_test_setup_teardown(pseudonyms, open_arena, close_arena),
    };
    return cmocka_run_group_tests_name("export", tests, NULL, NULL);
}
