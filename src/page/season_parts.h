/* What the files of the season report share; private to it. */
#ifndef NINEMETRE_PAGE_SEASON_PARTS_H
#define NINEMETRE_PAGE_SEASON_PARTS_H

#include "page/draw.h"

/* Distances below the head of a section, and those of its rows. */
#define SEASON_HEADS_MM 6.5
#define SEASON_RULE_MM 8.1
#define SEASON_ROW_MM 4.15
#define SEASON_NOTE_MM 3.7
#define SEASON_TOP_MM 12.0 /* the head of the first section of a page */

/* The pages while they are drawn, from top to bottom. */
struct season_draw {
    struct draw *d;
    const struct page_season *of;
    page_turn *turn; /* how the next page begins */
    double y_mm; /* where the last thing ended */
    unsigned per; /* matches of one dot */
    const struct season_alarms *alarms; /* by server */
    struct season_rank rank;
};

/* ---- season.c: the flow of the pages ---------------------------------------- */

/* How a page of the season report begins. */
double page_season_turn(struct draw *d);

/* True if so much fits below; otherwise a new page begins. */
bool page_season_room(struct season_draw *f, double need_mm);

/* The head of a section over the whole width with at least so much below it;
 * y_mm is then its baseline. */
void page_season_section(struct season_draw *f, double need_mm, struct str head, struct str note);

/* A note over the whole width, below what is there. */
void page_season_note(struct season_draw *f, struct str words);

/* A shirt and, unless shirts alone are shown, a name. */
void page_season_who(struct draw *d, const struct person *who, double wide_mm, double y_mm);
#define SEASON_NAME_MM 7.5

/* "no." and "name" above them. */
void page_season_who_heads(struct draw *d, double y_mm);

/* "Havelin (7)", or "7" alone, within a sentence. */
struct str page_season_called(struct draw *d, const struct person *who);

/* ---- season_panels.c ------------------------------------------------------------ */

void page_season_team(struct season_draw *f);
void page_season_misses(struct season_draw *f);
void page_season_video(struct season_draw *f);

/* ---- season_tables.c ------------------------------------------------------------ */

void page_season_order(struct season_draw *f);
void page_season_kinds(struct season_draw *f);
void page_season_matches(struct season_draw *f);

/* ---- season_pairs.c: two shares and their difference ------------------------------ */

void page_season_splits(struct season_draw *f);
void page_season_focuses(struct season_draw *f);

/* ---- season_jumps.c --------------------------------------------------------------- */

void page_season_jump_weeks(struct season_draw *f);

/* ---- season_choice.c -------------------------------------------------------------- */

void page_season_choice(struct season_draw *f);

#endif
