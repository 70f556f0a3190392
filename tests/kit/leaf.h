/* Pages of checked facts, and what is written on them. */
#ifndef NINEMETRE_TESTS_LEAF_H
#define NINEMETRE_TESTS_LEAF_H

#include "page.h"

/* Every letter half as wide as its size: wider than the real ones on average. */
double leaf_width(void *context, struct str words, enum page_face face, double type_pt);

extern const struct page_font leaf_font;

struct page_facts leaf_facts(void);
const struct pages *leaf_pages(const struct checked *c, struct arena *a);

/* Some words of the page are these, or hold this part. */
bool leaf_has(const struct page *p, const char *words);
bool leaf_holds(const struct page *p, const char *part);

/* The row of a table that begins with this label at x: its words from left to
 * right, one blank between them; empty if there is none. */
struct str leaf_row(const struct page *p, double x_mm, double end_mm, const char *label,
                    struct arena *a);

/* Serves of shirt 7 of one side with one outcome. */
void leaf_fill(struct played *all, unsigned from, unsigned to, enum outcome o, enum side side);

#endif
