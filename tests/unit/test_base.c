/* Views of text and the list of messages. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdlib.h>
#include <string.h>

#include "diag.h"
#include "slots.h"

static struct arena *arena;

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

static unsigned slips(const char *a, const char *b) {
    return str_slips(str_of(a), str_of(b), 3);
}

/* A wrong, a lost, an added letter and two exchanged ones count one each; the
 * pairs kitten/sitting = 3 and ca/abc = 3 (restricted) are textbook examples. */
static void slips_are_counted(void **state) {
    (void)state;
    assert_int_equal(slips("net", "net"), 0);
    assert_int_equal(slips("net", "nett"), 1);
    assert_int_equal(slips("net", "nt"), 1);
    assert_int_equal(slips("net", "nat"), 1);
    assert_int_equal(slips("net", "nte"), 1);
    assert_int_equal(slips("NET", "net"), 0);
    assert_int_equal(slips("kitten", "sitting"), 3);
    assert_int_equal(slips("ca", "abc"), 3);
    assert_int_equal(str_slips(STR("long"), STR("retoss"), 2), 3);
}

static void parts_are_taken(void **state) {
    (void)state;
    struct str rest = STR("a\0\0b"), part = STR("as it was");
    assert_true(str_take(&rest, '\0', &part));
    assert_true(str_is(part, "a"));
    assert_true(str_take(&rest, '\0', &part));
    assert_int_equal(part.n, 0);
    assert_false(str_take(&rest, '\0', &part)); /* the last has no end */
    assert_true(str_is(rest, "b"));
    rest = STR_NONE;
    assert_false(str_take(&rest, '\0', &part));
}

static void lines_are_taken(void **state) {
    struct str rest = STR("one\n\nlast"), line;
    (void)state;
    assert_true(str_take_line(&rest, &line) && str_is(line, "one"));
    assert_true(str_take_line(&rest, &line) && str_is(line, ""));
    assert_true(str_take_line(&rest, &line) && str_is(line, "last"));
    assert_false(str_take_line(&rest, &line));
    rest = STR("one\n");
    assert_true(str_take_line(&rest, &line) && str_is(line, "one"));
    assert_false(str_take_line(&rest, &line)); /* no empty line behind the last feed */
}

static void blanks_are_trimmed(void **state) {
    (void)state;
    assert_true(str_is(str_trim(STR(" \t a b\t\r")), "a b"));
    assert_true(str_is(str_trim_end(STR(" \t a b\t\r")), " \t a b"));
    assert_true(str_is(str_trim(STR(" \t\r")), ""));
    assert_true(str_is(str_trim_end(STR_NONE), ""));
}

static void folders_of_paths(void **state) {
    static const char *const rows[][2] = {
        {"a.9m", ""}, {"x/a.9m", "x/"}, {"/x/y/a.9m", "/x/y/"}, {"/a.9m", "/"}, {"", ""}, {"x/", "x/"},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_true(str_is(str_folder(str_of(rows[i][0])), rows[i][1]));
}

/* Tabs go to multiples of eight, wide letters take two cells, accents that
 * stand apart none. */
static void cells_of_a_terminal(void **state) {
    (void)state;
    assert_int_equal(str_cells(STR("net"), 0), 3);
    assert_int_equal(str_cells(STR("\tnet"), 0), 11);
    assert_int_equal(str_cells(STR("7\tnet"), 0), 11);
    assert_int_equal(str_cells(STR("\t"), 5), 3);
    assert_int_equal(str_cells(STR("\346\270\254"), 0), 2);   /* U+6E2C */
    assert_int_equal(str_cells(STR("e\314\201"), 0), 1);      /* e, U+0301 */
    assert_int_equal(str_cells(STR("\370"), 0), 1);           /* no UTF-8 */
}

static void letters_are_counted(void **state) {
    (void)state;
    assert_int_equal(str_chars(STR("Br\304\205zel")), 6);
    assert_int_equal(str_utf16(STR("Br\304\205zel")), 6);
    assert_int_equal(str_utf16(STR("\360\237\230\200")), 2);  /* U+1F600 */
}

/* The quick look must agree with the full one: e + U+0301 is made one letter,
 * what is one letter already stays, Greek signs that NFC replaces are. */
static void names_are_nfc(void **state) {
    (void)state;
    assert_true(str_is(str_nfc(arena, STR("Rene\314\201e")), "Ren\303\251e"));
    struct str whole = STR("Th\341\272\243o V\305\251-Lam");
    assert_ptr_equal(str_nfc(arena, whole).at, whole.at);
    assert_true(str_is(str_nfc(arena, STR("\341\275\261")), "\316\254")); /* U+1F71 */
}

static struct place at_line(unsigned line, const char *text) {
    return (struct place){STR("a.9m"), str_of(text), line, 0, 1};
}

static void messages_are_in_order(void **state) {
    (void)state;
    struct diags d;
    diags_init(&d, arena);
    for (unsigned line = 40; line > 0; line--)
        diags_add(&d, E_ZONE, at_line(line % 7 + 1, "7 in2 8"), (int)line);
    diags_sort(&d);
    for (size_t i = 1; i < d.n; i++) {
        assert_true(d.at[i - 1].place.line <= d.at[i].place.line);
        if (d.at[i - 1].place.line == d.at[i].place.line)
            assert_true(atoi(d.at[i - 1].text.at + strlen("there is no zone ")) >
                        atoi(d.at[i].text.at + strlen("there is no zone ")));
    }
    assert_int_equal(d.errors, 40);
}

/* A warning is silenced by its code and a reason, in the comment; an error never. */
static void a_warning_is_silenced_with_a_reason(void **state) {
    (void)state;
    static const struct {
        enum diag_id id;
        const char *line;
        unsigned told;
    } cases[] = {{W_UNLIKELY, "7 v125 in2  # ok W521 radar gun", 0},
                 {W_UNLIKELY, "7 v125 in2  # ok W521", 1},
                 {W_UNLIKELY, "7 v125 in2  # ok W450 long run", 1},
                 {W_UNLIKELY, "note \"# ok W521 no comment\"", 1},
                 {E_IMPOSSIBLE, "7 v999 in2  # ok E520 radar gun", 1}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct diags d;
        diags_init(&d, arena);
        diags_add(&d, cases[i].id, at_line(1, cases[i].line), "a speed of", "125 km/h");
        assert_int_equal(d.n, cases[i].told);
    }
}

static void messages_are_taken_back(void **state) {
    (void)state;
    struct diags d;
    diags_init(&d, arena);
    diags_add(&d, E_ZONE, at_line(1, ""), 7);
    struct diags before = d;
    diags_add(&d, E_ZONE, at_line(2, ""), 8);
    diags_add(&d, R_REVIEW, at_line(2, ""));
    diags_add(&d, E_ZONE, at_line(2, ""), 9);
    diags_keep_first(&d, 1);
    assert_int_equal(d.n, 3);
    assert_int_equal(d.errors, 2);
    assert_int_equal(d.reviews, 1);
    diags_withdraw(&d, E_ZONE, 1);
    assert_int_equal(d.errors, 1);
    assert_int_equal(d.at[0].place.line, 2);
    d = before;
    diags_restore(&d, &before);
    assert_int_equal(d.n, 1);
}

/* Beyond the limit messages are counted and not kept. */
static void a_flood_is_counted(void **state) {
    (void)state;
    struct diags d;
    diags_init(&d, arena);
    for (int i = 0; i < DIAGS_MAX + 5; i++)
        diags_add(&d, E_ZONE, at_line(1, ""), i);
    assert_int_equal(d.n, DIAGS_MAX);
    assert_int_equal(d.errors, DIAGS_MAX + 5);
}

static bool same_number(const void *numbers, uint32_t ix, const void *key) {
    return ((const unsigned *)numbers)[ix] == *(const unsigned *)key;
}

/* Many with the same hash, and enough to widen the table several times. */
static void what_was_added_is_found(void **state) {
    enum { MANY = 2000 };
    struct slots s = {.n = 0};
    unsigned numbers[MANY];
    (void)state;
    for (unsigned i = 0; i < MANY; i++) {
        numbers[i] = 3 * i;
        assert_int_equal(slots_find(&s, numbers[i] / 30, same_number, numbers, &numbers[i]),
                         SLOTS_NONE);
        slots_add(&s, numbers[i] / 30, i, arena);
    }
    for (unsigned n = 0; n < 3 * MANY; n++)
        assert_int_equal(slots_find(&s, n / 30, same_number, numbers, &n),
                         n % 3 ? SLOTS_NONE : n / 3);
}

static void hashes_of_texts_differ(void **state) {
    static const char *const texts[] = {"", "a", "aa", "abcdefgh", "abcdefghi", "abcdefgi"};
    enum { N = sizeof texts / sizeof *texts };
    (void)state;
    for (size_t i = 0; i < N; i++)
        for (size_t k = 0; k < N; k++)
            assert_int_equal(slots_hash_str(0, str_of(texts[i])) ==
                                 slots_hash_str(0, str_of(texts[k])),
                             i == k);
}

#define BASE(test) cmocka_unit_test_setup_teardown(test, begin, finish)

int main(void) {
    const struct CMUnitTest tests[] = {
        BASE(slips_are_counted), BASE(parts_are_taken), BASE(lines_are_taken), BASE(blanks_are_trimmed),
        BASE(folders_of_paths), BASE(cells_of_a_terminal),
        BASE(letters_are_counted), BASE(names_are_nfc),
        BASE(messages_are_in_order), BASE(a_warning_is_silenced_with_a_reason),
        BASE(messages_are_taken_back), BASE(a_flood_is_counted),
        BASE(what_was_added_is_found), BASE(hashes_of_texts_differ),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
