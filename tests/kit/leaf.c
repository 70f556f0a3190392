#include "kit/leaf.h"

#include <math.h>
#include <string.h>

#include "kit/scene.h"

/* Every letter half as wide as its size: wider than the real ones on average. */
double leaf_width(void *context, struct str words, enum page_face face, double type_pt) {
    (void)context;
    (void)face;
    return (double)str_chars(words) * 0.5 * type_pt * 25.4 / 72;
}

const struct page_font leaf_font = {leaf_width, NULL};

struct page_facts leaf_facts(void) {
    return (struct page_facts){.file = STR("herons-foxes.9m"),
                               .hash = STR("0123456789ab"),
                               .version = STR("1.0"),
                               .warnings = 2,
                               .reviews = 6};
}

const struct pages *leaf_pages(const struct checked *c, struct arena *a) {
    struct page_facts *f = arena_alloc(a, 1, sizeof *f);
    *f = leaf_facts();
    return page_report(tally_of(c, a), f, &leaf_font, a);
}

bool leaf_has(const struct page *p, const char *words) {
    for (size_t i = 0; i < p->n; i++)
        if (p->items[i].kind == PAGE_WORDS && str_is(p->items[i].words, words))
            return true;
    return false;
}

bool leaf_holds(const struct page *p, const char *part) {
    size_t n = strlen(part);
    for (size_t i = 0; i < p->n; i++)
        for (size_t k = 0; p->items[i].kind == PAGE_WORDS && k + n <= p->items[i].words.n; k++)
            if (memcmp(p->items[i].words.at + k, part, n) == 0)
                return true;
    return false;
}

static const struct page_item *labelled(const struct page *p, double x_mm, const char *label) {
    for (size_t i = 0; i < p->n; i++)
        if (p->items[i].kind == PAGE_WORDS && str_is(p->items[i].words, label) &&
            fabs(p->items[i].x_mm - x_mm) < 0.01)
            return &p->items[i];
    return NULL;
}

/* The words of the same height that stand next to the right. */
static const struct page_item *next_to(const struct page *p, const struct page_item *at,
                                       double end_mm) {
    const struct page_item *next = NULL;
    for (size_t i = 0; i < p->n; i++) {
        const struct page_item *k = &p->items[i];
        if (k->kind == PAGE_WORDS && fabs(k->y_mm - at->y_mm) < 0.01 && k->x_mm > at->x_mm &&
            k->x_mm < end_mm && (!next || k->x_mm < next->x_mm))
            next = k;
    }
    return next;
}

struct str leaf_row(const struct page *p, double x_mm, double end_mm, const char *label,
                    struct arena *a) {
    const struct page_item *at = labelled(p, x_mm, label);
    struct buf b;
    buf_init(&b, a);
    for (; at; at = next_to(p, at, end_mm))
        buf_printf(&b, "%s%.*s", b.n > 0 ? " " : "", STR_ARG(at->words));
    return buf_str(&b);
}

void leaf_fill(struct played *all, unsigned from, unsigned to, enum outcome o, enum side side) {
    for (unsigned i = from; i < to; i++) {
        all[i] = scene_serve(o, 7);
        all[i].side = (uint8_t)side;
        all[i].line = i + 1;
    }
}
