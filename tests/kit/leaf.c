#include "kit/leaf.h"

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

void leaf_fill(struct played *all, unsigned from, unsigned to, enum outcome o, enum side side) {
    for (unsigned i = from; i < to; i++) {
        all[i] = scene_serve(o, 7);
        all[i].side = (uint8_t)side;
        all[i].line = i + 1;
    }
}
