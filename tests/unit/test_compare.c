/* Differences by lines, and mends. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "cmd/compare.h"

/* SplitMix64 (Steele, Lea, Flood 2014): the same numbers on every run. */
static uint64_t next(uint64_t *seed) {
    uint64_t z = *seed += 0x9E3779B97F4A7C15u;

    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

/* Few different lines, so that false meetings are likely. */
static struct str random_text(uint64_t *seed, struct arena *a) {
    struct buf b;
    size_t n = next(seed) % 40;

    buf_init(&b, a);
    for (size_t i = 0; i < n; i++)
        buf_printf(&b, "%c\n", (char)('a' + next(seed) % 4));
    if (next(seed) % 3 == 0)
        buf_add(&b, STR("open"));
    return buf_str(&b);
}

static void assert_same_lines(const struct compare *c, size_t *old_ix, size_t *new_ix, size_t n) {
    for (size_t i = 0; i < n; i++)
        assert_true(str_eq(c->old.at[(*old_ix)++], c->new.at[(*new_ix)++]));
}

/* What lies between the changes is the same in both texts, and nothing is left
 * over: so the difference turns the one into the other. */
static void changes_lead_from_one_text_to_the_other(void **state) {
    struct arena *a = arena_new(cmd_no_memory);
    uint64_t seed = 20261003;

    (void)state;
    for (int run = 0; run < 5000; run++) {
        struct compare c;
        size_t old_ix = 0, new_ix = 0;

        compare_init(&c, random_text(&seed, a), random_text(&seed, a), a);
        for (size_t i = 0; i < c.change_n; i++) {
            const struct change *change = &c.changes[i];

            assert_same_lines(&c, &old_ix, &new_ix, change->old_ix - old_ix);
            assert_int_equal(new_ix, change->new_ix);
            assert_true(change->old_n + change->new_n > 0);
            old_ix += change->old_n;
            new_ix += change->new_n;
        }
        assert_same_lines(&c, &old_ix, &new_ix, c.old.n - old_ix);
        assert_int_equal(old_ix, c.old.n);
        assert_int_equal(new_ix, c.new.n);
        arena_reset(a);
    }
    arena_free(a);
}

static void equal_texts_have_no_change(void **state) {
    struct arena *a = arena_new(cmd_no_memory);
    struct compare c;

    (void)state;
    compare_init(&c, STR("a\nb\n"), STR("a\nb\n"), a);
    assert_int_equal(c.change_n, 0);
    compare_init(&c, STR(""), STR(""), a);
    assert_int_equal(c.change_n, 0);
    arena_free(a);
}

/* A text of several lines with mends put in by hand. */
struct mending {
    struct arena *arena;
    struct text text;
    struct diags diags;
};

static struct mending mending_of(const char *bytes) {
    struct mending m = {.arena = arena_new(cmd_no_memory)};

    diags_init(&m.diags, m.arena);
    text_take(&m.text, STR("a.9m"), str_of(bytes), m.arena, &m.diags);
    diags_init(&m.diags, m.arena);
    return m;
}

static struct diag *add(struct mending *m, unsigned line, unsigned at, unsigned n,
                        const char *new) {
    struct place p = {m->text.name, text_line(&m->text, line), line, at, n};
    struct diag *d = diags_add(&m->diags, E_TWICE, p, "it");

    diag_edit(d, line, at, n, str_of(new));
    d->safe = true;
    return d;
}

static void assert_mended(struct mending *m, const char *expected, size_t expected_n) {
    size_t n;
    struct str got = cmd_mend(&m->text, &m->diags, m->arena, &n);

    assert_int_equal(n, expected_n);
    assert_int_equal(got.n, strlen(expected));
    assert_memory_equal(got.at, expected, got.n);
    arena_free(m->arena);
}

static void mends_replace_insert_and_delete(void **state) {
    struct mending m = mending_of("7 nett\n7net\r\n7 xx ace\n");

    (void)state;
    add(&m, 3, 2, 3, "");
    add(&m, 1, 2, 4, "net");
    add(&m, 2, 1, 0, " ");
    assert_mended(&m, "7 net\n7 net\r\n7 ace\n", 3);
}

static void mends_that_touch_wait(void **state) {
    struct mending m = mending_of("7 nett\n");

    (void)state;
    add(&m, 1, 2, 4, "net");
    add(&m, 1, 3, 1, "E");
    add(&m, 1, 6, 0, " 5"); /* right behind the first */
    assert_mended(&m, "7 net\n", 1);
}

static void a_mend_is_whole_or_none(void **state) {
    struct mending m = mending_of("7 nett\n7 nett\n");
    struct diag *d;

    (void)state;
    add(&m, 2, 2, 4, "net");
    d = add(&m, 1, 2, 4, "net");
    diag_edit(d, 2, 2, 1, STR("N")); /* clashes with the first */
    assert_mended(&m, "7 nett\n7 net\n", 1);
}

static void only_safe_mends_of_this_file_are_made(void **state) {
    struct mending m = mending_of("7 nett\n7 nett\n7 nett\n");

    (void)state;
    add(&m, 1, 2, 4, "net")->safe = false;
    add(&m, 2, 2, 4, "net")->place.file = STR("squad.9m");
    add(&m, 9, 0, 0, "x"); /* no such line */
    assert_mended(&m, "7 nett\n7 nett\n7 nett\n", 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(changes_lead_from_one_text_to_the_other),
        cmocka_unit_test(equal_texts_have_no_change),
        cmocka_unit_test(mends_replace_insert_and_delete),
        cmocka_unit_test(mends_that_touch_wait),
        cmocka_unit_test(a_mend_is_whole_or_none),
        cmocka_unit_test(only_safe_mends_of_this_file_are_made),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
