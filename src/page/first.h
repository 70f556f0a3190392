/* The parts of page one; private to the room. */
#ifndef NINEMETRE_PAGE_FIRST_H
#define NINEMETRE_PAGE_FIRST_H

#include "page/draw.h"

/* What must be known before the page is drawn: it holds up to 14 rows of
 * servers and three findings, and tightens to do so. */
struct first {
    struct server rows[PAGE_ROWS_MAX];
    unsigned row_n;
    unsigned others_n; /* servers that share the last row; 0: none do */
    struct finding findings[FINDINGS_MAX];
    unsigned finding_n, looked_n;
    bool compact;  /* more than ten rows */
    double row_mm; /* of the servers */
};

struct first page_first_plan(struct draw *d);

struct rate page_first_rate(const struct counts *c, unsigned x);
struct rate page_first_won(const struct counts *c);
bool page_first_has_theirs(const struct draw *d);

/* Each gives the y at which it ended. */
double page_first_compare(struct draw *d, const struct first *f);
double page_first_findings(struct draw *d, const struct first *f, double y_mm);
void page_first_servers(struct draw *d, const struct first *f, double y_mm);

#endif
