/* The plan of a practice: groups by focus, and lines with blanks. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdlib.h>

#include "plan.h"
#include "kit/in_arena.h"

static void add(struct progress *p, const char *notes, struct arena *a) {
    struct text t;
    struct diags d;
    diags_init(&d, a);
    text_take(&t, STR("plan.9m"), str_of(notes), a, &d);
    const struct checked *c = check_text(&t, CHECK_KEEP, a, &d);
    assert_int_equal(d.errors, 0);
    progress_add(p, c);
}

static const char head[] = "notation 1\npractice 2026-10-06\nteam H \"Herons\"\n";

static struct plan plan_from(const char *lines, struct drill_book *book, struct arena *a) {
    struct progress *p = progress_new(a);
    add(p, str_c(a, str_printf(a, "%s%s", head, lines)), a);
    drill_book_init(book, a);
    return plan_of(p, STR("Herons"), book, a);
}

static void groups_by_drill(void **state) {
    struct drill_book book;
    struct plan plan = plan_from("focus 9 td \"Ring toss\" 14/20\nfocus 4 net \"Our own\"\n"
                                 "focus 7 tu \"ring toss\"\n",
                                 &book, *state);
    assert_int_equal(plan.n, 2);
    assert_true(str_is(plan.groups[0].drill, "Our own") && !plan.groups[0].recipe);
    assert_int_equal(plan.groups[1].n, 2);
    assert_int_equal(plan.groups[1].players[0].who->shirt, 7);
    assert_int_equal(plan.groups[1].players[1].who->shirt, 9);
    assert_true(plan.groups[1].recipe == drill_find(&book, STR("Ring toss")));
    assert_true(plan_has(&plan, 4) && !plan_has(&plan, 5));
    assert_false(plan.jumps);
}

static void lines_have_blanks(void **state) {
    struct drill_book book;
    struct plan plan = plan_from("focus 9 td \"Ring toss\"\nfocus 4 net \"Our own\"\n", &book, *state);
    const struct plan_group *own = &plan.groups[0], *ring = &plan.groups[1];
    assert_true(str_is(plan_line(ring, 0, *state), "drill \"Ring toss\""));
    assert_true(str_is(plan_line(ring, 1, *state), "ring 1.0"));
    assert_int_equal(plan_line(ring, 2, *state).n, 0);
    assert_true(str_is(plan_player_line(ring, 0, 9, *state), "toss 9 _/20"));
    assert_int_equal(plan_player_line(ring, 1, 9, *state).n, 0);
    assert_true(str_is(plan_line(own, 0, *state), "drill \"Our own\""));
    assert_true(str_is(plan_player_line(own, 0, 4, *state), "tries 4 _/10"));
}

/* With 3 in every blank the lines of each drill are notes without an error. */
static void filled_lines_are_legal(void **state) {
    struct drill_book book;
    drill_book_init(&book, *state);
    for (size_t k = 0; k < book.n; k++) {
        struct plan_group g = {.drill = book.at[k].name, .recipe = &book.at[k]};
        struct str line;
        struct buf b;
        struct text t;
        struct diags d;
        buf_init(&b, *state);
        buf_printf(&b, "%s", head);
        for (size_t ix = 0; (line = plan_line(&g, ix, *state)).n > 0; ix++)
            buf_printf(&b, "%.*s\n", STR_ARG(line));
        for (size_t ix = 0; (line = plan_player_line(&g, ix, 12, *state)).n > 0; ix++) {
            for (size_t i = 0; i < line.n; i++)
                buf_char(&b, line.at[i] == '_' ? '3' : line.at[i]);
            buf_char(&b, '\n');
        }
        diags_init(&d, *state);
        text_take(&t, book.at[k].name, buf_str(&b), *state, &d);
        check_text(&t, CHECK_KEEP, *state, &d);
        if (d.errors > 0)
            fail_msg("%.*s:\n%.*s", STR_ARG(book.at[k].name), STR_ARG(buf_str(&b)));
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(groups_by_drill),
        TEST(lines_have_blanks),
        TEST(filled_lines_are_legal),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
