/* Each row of src/base/diag.def carries the smallest notes that raise it and
 * the same notes mended. Both are run here: the first must raise its code and
 * no other, the second no error. So `9m explain` cannot show an example that
 * does not hold. Those of drills are drills, all others notes, of one
 * file or of several. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "drill.h"
#include "kit/several.h"

/* What stands above a fragment that is no whole file. */
static const char prologue[] = "notation 1\n"
                               "match 2026-10-03\n"
                               "team H \"Herons\" women\n"
                               "team G \"Foxes\"\n"
                               "set 1 H\n";

static void no_memory(size_t wanted_bytes) {
    fprintf(stderr, "no memory for %zu bytes\n", wanted_bytes);
    exit(3);
}

/* The codes from 600 on are of drills. */
static bool of_drills(const struct diag_info *info) {
    return info->number / 100 == 6;
}

static void check_club(const char *drills, struct arena *a, struct diags *d) {
    struct drill_book book;
    struct text t;
    diags_init(d, a);
    drill_book_init(&book, a);
    text_take(&t, STR("examples/club.drills"), str_of(drills), a, d);
    drill_read(&book, &t, d);
    check_drills(&book, a, d);
}

/* The table can hold no NUL byte and writes \0 for it. */
static struct str with_nuls(struct arena *a, const char *notes) {
    struct buf b;
    buf_init(&b, a);
    for (const char *c = notes; *c; c++) {
        bool nul = c[0] == '\\' && c[1] == '0';
        buf_char(&b, nul ? '\0' : *c);
        c += nul;
    }
    return buf_str(&b);
}

static void check_notes(const char *notes, struct arena *a, struct diags *d) {
    bool whole = strncmp(notes, "notation", 8) == 0 || strncmp(notes, "match", 5) == 0;
    struct buf all;
    struct text t;
    buf_init(&all, a);
    buf_add(&all, str_of(whole ? "" : prologue));
    buf_add(&all, with_nuls(a, notes));
    diags_init(d, a);
    text_take(&t, STR("examples/notes.9m"), buf_str(&all), a, d);
    check_text(&t, CHECK_KEEP, a, d);
}

static void check_example(const struct diag_info *info, const char *example, struct arena *a,
                          struct diags *d) {
    if (of_drills(info))
        check_club(example, a, d);
    else if (several_are(example))
        several_check(example, false, false, a, d);
    else
        check_notes(example, a, d);
}

static void show(const struct diags *d) {
    for (size_t i = 0; i < d->n; i++) {
        char code[6];
        diag_code(diag_info(d->at[i].id), code);
        print_error("line %u: %.*s [%s]\n", d->at[i].place.line, STR_ARG(d->at[i].text), code);
    }
}

static void raises_its_code(void **state) {
    const struct diag_info *info = *state;
    struct arena *a = arena_new(no_memory);
    struct diags d;
    check_example(info, info->bad, a, &d);
    size_t own = 0;
    for (size_t i = 0; i < d.n; i++)
        own += diag_info(d.at[i].id) == info;
    if (own == 0 || own != d.n) {
        print_error("%s\n", info->bad);
        show(&d);
    }
    assert_true(own > 0);
    assert_int_equal(own, d.n);
    arena_free(a);
}

static void is_mended(void **state) {
    const struct diag_info *info = *state;
    struct arena *a = arena_new(no_memory);
    struct diags d;
    check_example(info, info->good, a, &d);
    size_t own = 0;
    for (size_t i = 0; i < d.n; i++)
        own += diag_info(d.at[i].id) == info;
    if (d.errors > 0 || own > 0) {
        print_error("%s\n", info->good);
        show(&d);
    }
    assert_int_equal(d.errors, 0);
    assert_int_equal(own, 0);
    arena_free(a);
}

/* 203 stands for E203 or W203, never for both. */
static void numbers_are_used_once(void **state) {
    (void)state;
    for (int i = 0; i < DIAG_N; i++)
        for (int j = 0; j < i; j++)
            assert_int_not_equal(diag_info((enum diag_id)i)->number,
                                 diag_info((enum diag_id)j)->number);
}

static void codes_are_found_again(void **state) {
    (void)state;
    for (int i = 0; i < DIAG_N; i++) {
        char code[6];
        diag_code(diag_info((enum diag_id)i), code);
        assert_ptr_equal(diag_find(str_of(code)), diag_info((enum diag_id)i));
    }
    assert_null(diag_find(STR("E999")));
}

int main(void) {
    static struct CMUnitTest tests[2 * DIAG_N + 2];
    static char names[2 * DIAG_N][32];
    size_t n = 0;
    for (int i = 0; i < DIAG_N; i++) {
        const struct diag_info *info = diag_info((enum diag_id)i);
        char code[6];
        diag_code(info, code);
        /* Some need notes that are too long for the table: those have a case
         * in tests/cases, which tests/docs/codes looks after. */
        for (int good = info->bad[0] == '\0'; good < 2; good++, n++) {
            snprintf(names[n], sizeof names[n], "%s %s", code, good ? "mended" : "raised");
            tests[n] = (struct CMUnitTest){names[n], good ? is_mended : raises_its_code, NULL,
                                           NULL, (void *)(uintptr_t)info};
        }
    }
    tests[n++] = (struct CMUnitTest)cmocka_unit_test(numbers_are_used_once);
    tests[n++] = (struct CMUnitTest)cmocka_unit_test(codes_are_found_again);
    return _cmocka_run_group_tests("codes", tests, n, NULL, NULL);
}
