#include "kit/boxes.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

struct box {
    double left, right, top, bottom;
};

/* Letters without their descenders: Liberation's capitals are 0.73 of the size
 * high. */
static struct box box_of(const struct page_font *font, const struct page_item *w) {
    double wide = font->width_mm(font->context, w->words, w->face, w->type_pt);
    return (struct box){w->x_mm + 0.1, w->x_mm + wide - 0.1, w->y_mm - 0.7 * w->type_pt * 25.4 / 72,
                        w->y_mm - 0.1};
}

/* The small count beside a mark that hides others may touch a zone's number:
 * a mark may too. */
static bool is_set(const struct page_item *item) {
    return item->kind == PAGE_WORDS && !(item->face == FACE_BOLD && item->type_pt < 7.2);
}

void boxes_apart(const struct page *page, const struct page_font *font, const char *what) {
    for (size_t i = 0; i < page->n; i++) {
        if (!is_set(&page->items[i]))
            continue;
        struct box a = box_of(font, &page->items[i]);
        if (a.left < 0 || a.right > 177 || a.bottom > 249)
            fail_msg("%s: \"%.*s\" leaves the block at %.1f %.1f", what,
                     STR_ARG(page->items[i].words), a.left, a.bottom);
        for (size_t k = 0; k < i; k++) {
            if (!is_set(&page->items[k]))
                continue;
            struct box b = box_of(font, &page->items[k]);
            if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
                fail_msg("%s: \"%.*s\" lies over \"%.*s\" at %.1f %.1f", what,
                         STR_ARG(page->items[i].words), STR_ARG(page->items[k].words), a.left,
                         a.bottom);
        }
    }
}

void boxes_clear_of_marks(const struct page *page, const struct page_font *font,
                             const char *what) {
    for (size_t i = 0; i < page->n; i++) {
        const struct page_item *m = &page->items[i];
        double half = m->size_mm / 2 - 0.1;
        if (m->kind != PAGE_MARK || !m->serve || m->mark == MARK_START ||
            m->mark == MARK_START_MISSED)
            continue;
        for (size_t k = 0; k < page->n; k++) {
            const struct page_item *w = &page->items[k];
            if (!is_set(w) || w->ink == INK_FAINT)
                continue;
            struct box b = box_of(font, w);
            if (m->x_mm - half < b.right && b.left < m->x_mm + half && m->y_mm - half < b.bottom &&
                b.top < m->y_mm + half)
                fail_msg("%s: a mark lies on \"%.*s\" at %.1f %.1f", what, STR_ARG(w->words),
                         b.left, b.bottom);
        }
    }
}
