/* The parts of the practice report; private to the room. */
#ifndef NINEMETRE_PAGE_PRACTICE_H
#define NINEMETRE_PAGE_PRACTICE_H

#include "drilled.h"
#include "page/draw.h"

/* A serve against what its drill asks for. A ball in the court whose place is
 * not known well enough is neither. */
enum target { TARGET_NONE, TARGET_HIT, TARGET_BESIDE, TARGET_UNKNOWN };

enum target page_target_of(const struct checked *c, const struct played *p);

/* An aim that is an area: "zone 5", "the last metre of zone 5", "the seam of
 * zones 5 and 6". */
struct str page_target_words(struct draw *d, const struct spot *aim);

/* The part of the court that is meant, in metres; false if it is one point. */
struct area {
    double x_m, x2_m, d_m, d2_m;
};

bool page_target_area(const struct spot *aim, struct area *out);

/* Where the next thing goes; a page is begun when it does not fit. */
struct flow {
    struct draw *draw;
    const struct progress *season; /* up to this practice, which it holds too */
    double y_mm;
    page_turn *turn;             /* how the next page begins */
    unsigned noted;              /* which notes stand on this page already: bits */
};

/* What the notes of the season say up to this practice, or those of it alone. */
const struct progress *page_practice_season(const struct draw *d);

/* Makes room for so much; true if a new page was begun for it. */
bool page_flow_room(struct flow *f, double need_mm);

/* The next row of a table: true if a new page was begun for it, with heads to come. */
bool page_flow_row(struct flow *f, double row_mm);

/* Between two sections. */
#define PAGE_FLOW_BELOW_MM 9.5

/* Shirt and name at the head of a row. */
void page_flow_who(struct draw *d, enum side side, unsigned shirt, double wide_mm, double y_mm);

/* The columns of a table begin so far from the left. */
#define PAGE_FLOW_NAME_MM 7.5
void page_flow_who_heads(struct draw *d, double y_mm);

/* The drills and what was done in each. */
void page_practice_drills(struct flow *f);

/* One drill's serves: series in order, counts, the court. Drill 0 holds the
 * serves outside a drill. */
void page_practice_series(struct flow *f, unsigned drill);

/* What may be said of a series beside the last time, as sentences; empty without
 * one. */
struct str page_last_time(struct draw *d, const struct drilled_series *s);

/* Lines that count without serves: tosses, tries, jumps. */
void page_practice_tries(struct flow *f);

/* The marks that were seen, by drill; and nerves, for the staff alone. */
void page_practice_marks(struct flow *f);
void page_practice_nerves(struct flow *f);
bool page_any_nerves(const struct draw *d);

/* Each player's focus. */
void page_practice_focus(struct flow *f);

#endif
