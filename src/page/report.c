/* Which pages a report has, and in which order. */
#include "page/draw.h"

/* "2 Courts · 3 Misses": on page one, each a link to its page. */
static void contents(struct draw *d) {
    double x = 0;
    if (d->contents_mm <= 0 || d->pages->n < 2)
        return;
    d->page = &d->pages->at[0];
    d->push_mm = 0;
    for (size_t i = 1; i < d->pages->n; i++) {
        struct str name =
            str_printf(d->arena, "%zu %.*s", i + 1, STR_ARG(d->pages->at[i].name));
        if (x + page_width(d, name, TYPE_NOTE) > PAGE_WIDE_MM)
            return;
        x += page_words(d, x, d->contents_mm, TYPE_NOTE, name);
        d->page->items[d->page->n - 1].link = i + 1;
        x += i + 1 < d->pages->n ? page_words(d, x, d->contents_mm, TYPE_NOTE, STR("  ·  ")) : 0;
    }
}

const struct pages *page_report(const struct tally *t, const struct page_facts *facts,
                                const struct page_font *font, struct arena *a) {
    struct pages *pages = arena_alloc(a, 1, sizeof *pages);
    struct draw d = {.pages = pages, .font = font, .tally = t, .facts = facts, .arena = a};
    pages->arena = a;
    if (t->checked->match->practice) {
        page_practice(&d);
        page_staff_practice(&d);
    } else {
        page_first(&d);
        if (t->side[OURS].serves > 0) {
            page_courts(&d);
            page_errors(&d);
            page_reception(&d);
            page_staff(&d);
        }
    }
    contents(&d);
    pages->title = page_title(&d);
    page_edges(&d, pages->title);
    return pages;
}
