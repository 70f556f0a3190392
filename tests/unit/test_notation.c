/* The notation on one page: no word of the tables is missing on it, and what it
 * shows as lines the program takes. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "kit/in_arena.h"
#include "kit/leaf.h"
#include "token.h"

static const struct page *sheet(struct arena *a) {
    struct page_facts *facts = arena_alloc(a, 1, sizeof *facts);
    return &page_notation(facts, &leaf_font, a)->at[0];
}

static bool is_bold(const struct page_item *item) {
    return item->kind == PAGE_WORDS && item->face == FACE_BOLD;
}

static bool letter(struct str s, size_t i) {
    return i < s.n && isalnum((unsigned char)s.at[i]);
}

/* In bold, as a word of its own or with a number or margin behind it. */
static bool typed(const struct page *p, struct str word) {
    for (size_t i = 0; i < p->n; i++) {
        struct str s = p->items[i].words;
        for (size_t k = 0; is_bold(&p->items[i]) && k + word.n <= s.n; k++)
            if (memcmp(s.at + k, word.at, word.n) == 0 && (k == 0 || !letter(s, k - 1)) &&
                !letter(s, k + word.n))
                return true;
    }
    return false;
}

/* Words that nobody types in these forms, or that the page says otherwise. */
static bool left_out(const struct word_info *w) {
    return w->class == WORD_SHAPE || w->id == W_score || w->id == W_both || w->id == W_ours ||
           w->id == W_extra || w->id == W_men || w->id == W_lefthanded ||
           w->class == WORD_PHASE || w->id == W_lost;
}

static void every_word_is_there(void **state) {
    const struct page *p = sheet(*state);
    for (unsigned i = 0; i < W_N; i++) {
        const struct word_info *w = word_info((enum word_id)i);
        if (!left_out(w) && !typed(p, w->word))
            fail_msg("\"%.*s\" is not on the page", STR_ARG(w->word));
    }
}

/* The large words of one height, as one line of notes. */
static void add_line(struct buf *b, const struct page *p, double y_mm, double from_mm,
                     double to_mm) {
    for (size_t i = 0; i < p->n; i++) {
        const struct page_item *item = &p->items[i];
        if (is_bold(item) && item->type_pt > 13 && item->y_mm > y_mm - 0.1 &&
            item->y_mm < y_mm + 0.1 && item->x_mm >= from_mm && item->x_mm < to_mm)
            buf_printf(b, "%.*s ", STR_ARG(item->words));
    }
    buf_char(b, '\n');
}

static double x_of(const struct page *p, const char *words) {
    for (size_t i = 0; i < p->n; i++)
        if (p->items[i].kind == PAGE_WORDS && str_is(p->items[i].words, words))
            return p->items[i].x_mm;
    fail_msg("\"%s\" is not on the page", words);
    return 0;
}

static void its_lines_are_legal(void **state) {
    const struct page *p = sheet(*state);
    double next = x_of(p, "next line");
    struct buf b;
    struct text t;
    struct diags d;
    buf_init(&b, *state);
    buf_add(&b, STR("notation 1\nmatch 2026-10-03\nteam H \"Herons\"\nteam G \"Foxes\"\nset 1 H\n"));
    add_line(&b, p, 22, 0, next);
    add_line(&b, p, 22, next, 1000);
    add_line(&b, p, 35.5, 0, 1000);
    diags_init(&d, *state);
    text_take(&t, STR("sheet.9m"), buf_str(&b), *state, &d);
    const struct checked *c = check_text(&t, CHECK_KEEP, *state, &d);
    assert_int_equal(d.errors, 0);
    assert_int_equal(c->played_n, 3);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(every_word_is_there),
        TEST(its_lines_are_legal),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
