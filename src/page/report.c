/* Which pages a report has, and in which order. */
#include "page/draw.h"

const struct pages *page_report(const struct tally *t, const struct page_facts *facts,
                                const struct page_font *font, struct arena *a) {
    struct pages *pages = arena_alloc(a, 1, sizeof *pages);
    struct draw d = {.pages = pages, .font = font, .tally = t, .facts = facts, .arena = a};
    pages->arena = a;
    if (t->checked->match->practice) {
        page_practice(&d);
    } else {
        page_first(&d);
        if (t->side[OURS].serves > 0) {
            page_courts(&d);
            page_errors(&d);
            page_reception(&d);
            page_staff(&d);
        }
    }
    pages->title = page_title(&d);
    page_edges(&d, pages->title);
    return pages;
}
