/* What the parts of the scouting page share; private to the room. */
#ifndef NINEMETRE_PAGE_SCOUTING_H
#define NINEMETRE_PAGE_SCOUTING_H

#include "page/draw.h"

struct rate page_scout_broke(const struct counts *c);

/* Where the scale of these shares ends. */
double page_scout_end(const struct counts *rows, size_t n);

/* The share of all balls as a dashed line, for the eye to compare with. */
void page_scout_reference(struct draw *d, const struct scale *scale, const struct scout *s,
                          double y_mm, double y2_mm);

/* A court with the counts of its zones, the same as a table, and who stands where;
 * gives where it ends. */
double page_scout_places(struct draw *d, const struct scout *s, double y_mm);

#endif
