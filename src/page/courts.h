/* The parts of the courts page; private to the room. */
#ifndef NINEMETRE_PAGE_COURTS_H
#define NINEMETRE_PAGE_COURTS_H

#include "page/draw.h"

/* A zone as the notes write it. */
struct str page_zone_label(struct draw *d, const struct spot *s);

bool page_zone_same(const struct spot *a, const struct spot *b);

/* The zone number `ix` among those that the wanted serves are known to have
 * gone to; false when there are no more. */
bool page_zone_next(const struct draw *d, unsigned ix, court_wants *wants, const void *context,
                    struct spot *out);

/* True for one of our serves that is listed by its zone, not drawn at a place. */
bool page_zone_only(const struct played *p);

/* How many serves are known to have gone into each zone, as numbers in the
 * court that keep clear of its marks and words: the page's items from `from` on. */
void page_zone_counts(struct draw *d, const struct court *c, court_wants *wants,
                      const void *context, struct type type, size_t from);

/* The table of marks, by zone and by start, from x on. */
void page_courts_tables(struct draw *d, double x_mm, double y_mm);

/* Her starts in metres or thirds, under a line at y; false if none is known. */
bool page_starts(struct draw *d, const struct court *c, uint8_t shirt, double y_mm);

/* Small courts of the servers from `from` to before `to`, five a row. */
void page_courts_small(struct draw *d, double y_mm, size_t from, size_t to);

/* The same on pages of their own. */
void page_courts_small_pages(struct draw *d);

#endif
