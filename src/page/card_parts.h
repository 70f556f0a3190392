/* The parts of a player's card; private to the room. */
#ifndef NINEMETRE_PAGE_CARD_PARTS_H
#define NINEMETRE_PAGE_CARD_PARTS_H

#include "card.h"
#include "page/draw.h"

/* How much room there is; tried in turn until the card is one page. */
struct card_fit {
    double gap_mm, row_mm;       /* before a section; of a table */
    double court_least_mm;       /* a metre of her court, smaller where that helps */
    bool setup, why, tries;      /* of her focus: set-up, reason, picture of its tries */
    bool reach;                  /* where she hits */
    bool side_view, aim_court;   /* where she hits and where to aim: the pictures */
};

/* A card while it is drawn. */
struct leaf {
    struct draw *draw;
    const struct card *card;
    const struct card_fit *fit;
};

/* ---- cues.c ----------------------------------------------------------------- */

/* NULL where there is none; `seen` is NULL for what no player is shown. */
const char *page_cue(enum word_id treats);
const char *page_cue_question(enum word_id treats);
const char *page_cue_seen(enum word_id treats);

/* ---- card_words.c: the sentences of the page and of the message -------------- */

struct str card_name(const struct draw *d, const struct card *c);

/* What went well: the first that holds; and what belongs to it, or nothing. */
struct str card_strength(const struct draw *d, const struct card *c);
struct str card_strength_more(const struct draw *d, const struct card *c);

struct str card_cue(const struct draw *d, const struct card *c);
struct str card_cue_more(const struct draw *d, const struct card *c);

struct str card_misses(const struct draw *d, const struct card *c);
/* The times of today's serves that show her focus; empty if none is written. */
struct str card_times(const struct draw *d, const struct card *c);
struct str card_question(const struct draw *d, const struct card *c);
struct str card_reach(const struct draw *d, const struct card *c);

/* Her own aim beside its picture; and any aim, where there is none. */
struct str card_aim(const struct draw *d, const struct card *c);
struct str card_aim_words(const struct draw *d, const struct card *c);
struct str card_caution(const struct draw *d);

/* "5 of 15"; an en dash for 0 of 0. */
struct str card_of_n(const struct draw *d, struct rate r);
struct str card_third(const struct draw *d, unsigned third);
struct str card_metres(const struct draw *d, double m);

/* "0.4 to 1.2 m", or one length if both are the same. */
struct str card_range(const struct draw *d, double low_m, double high_m);

/* ---- card_focus_words.c ------------------------------------------------------- */

struct str card_goal(const struct draw *d, const struct card *c);
struct str card_why(const struct draw *d, const struct card *c);
struct str card_drilled(const struct draw *d, const struct card *c);
struct str card_since(const struct draw *d, const struct card *c);

/* ---- parts of the page: each begins at y and gives where it ends --------------- */

double card_strip(const struct leaf *l, double y_mm);
double card_numbers(const struct leaf *l, double y_mm);
double card_routine(const struct leaf *l, double y_mm);
double card_court(const struct leaf *l, double y_mm, double scale_mm);
double card_miss_words(const struct leaf *l, double y_mm);
double card_focus(const struct leaf *l, double y_mm);
double card_side_view(const struct leaf *l, double y_mm);
double card_aim_court(const struct leaf *l, double x_mm, double y_mm);

/* The counts of the numbers, in their order; words and message share them. */
enum { CARD_COUNTS = 8 };
struct card_count {
    const char *label;
    bool part;                   /* of the row above; left out where it is 0 */
    struct rate today, before;
};
void card_counts(const struct card *c, struct card_count out[CARD_COUNTS]);

#endif
