/* What one server may be told of her serve after a match, on the page that is
 * handed to her: her counts beside those of her season before, her routine as
 * said and as done, what her misses looked like, her focus, how far from the line
 * she hits and where to aim. Of nobody but herself, and nothing is tested. */
#ifndef NINEMETRE_CARD_H
#define NINEMETRE_CARD_H

#include "aimed.h"
#include "drill.h"
#include "progress.h"
#include "steady.h"
#include "tally.h"
#include "window.h"

struct cards;

/* The match must live as long as the cards. */
struct cards *cards_new(const struct checked *match, struct arena *a);

/* Adds a match or practice of the season, which may be forgotten afterwards; the
 * match itself is in already. What is later by day and hour is left out. Of
 * matches of the same day those are before this one that began earlier. */
void cards_add(struct cards *c, const struct checked *file);

/* ---- her routine ----------------------------------------------------------- */

enum card_habit_kind { CARD_START, CARD_PACES, CARD_STEPS, CARD_HABITS };

/* Of the serves of which it is known: so many as was said; without a routine,
 * so many as is usual. */
struct card_done {
    struct rate done;
    unsigned usual;
};

struct card_habit {
    bool is_said;
    unsigned said;               /* enum third, paces, steps */
    struct card_done today, before;
};

struct card_heights {
    unsigned n;                  /* measured; 0: the rest holds nothing */
    double low_m, high_m;
    bool has_spread;             /* from SAY_INTERVAL on */
    struct steady_spread spread;
};

struct card_toss {
    bool is_said;
    double said_m;
    struct card_heights today, before;
};

/* ---- her misses ------------------------------------------------------------ */

/* How far a kind of miss was off; centimetres. */
struct card_margin {
    unsigned n;                  /* known of so many */
    int low_cm, high_cm;
};

struct card_misses {
    unsigned marked[MARK_N];
    unsigned observed_n;         /* her technique was watched */
    unsigned plain_n;            /* of these, without any mark */
    struct card_margin under, past; /* under the tape, past the end line */
};

/* ---- where she hits -------------------------------------------------------- */

/* Fewer measures are chance (our own choice). */
enum { CARD_CONTACTS_LEAST = 5 };

/* Her usual serve, and the same hit nearer to the net: where a jump serve may be
 * hit, half a metre past the end line; at the line for a standing one (common
 * practice, no source). Both come to the receivers' hands (window.h). */
struct card_reach {
    bool known;                  /* measured, and a serve that flies so far */
    unsigned n;
    double contact_m;            /* mean, past the end line */
    bool jumps;
    double net_m;
    struct flight_serve serve, nearer;
    struct window_reception at, nearer_at;
};

/* ---- where to aim ---------------------------------------------------------- */

struct card_aim {
    enum say_aim say;            /* SAY_AIM_GENERAL: nothing below holds */
    unsigned aimed_n;
    double x_m, d_m;
    struct scatter scatter;      /* about the aim */
    bool pays;                   /* false: her aims now are about as good */
    double in_frac;              /* of serves aimed there */
    double last_d_m, last_in_frac; /* the same at the middle of the last metre */
};

/* ---- her focus ------------------------------------------------------------- */

struct card_focus {
    bool chosen;
    struct progress_focus progress;
    const struct drill_recipe *drill; /* NULL: not in the book */
    struct progress_series drilled;   /* since then, by day */
    struct rate with, without;   /* missed, by the mark, in matches before this one */
};

struct card {
    struct server who;           /* today */
    unsigned matches_before;     /* in which she served */
    struct counts before;
    struct card_habit habits[CARD_HABITS];
    struct card_toss toss;
    struct card_misses misses;
    struct card_focus focus;
    struct card_reach reach;
    struct card_aim aim;
};

/* The card of a server of ours; her serves of today are those of the tally. */
void card_of(const struct cards *c, const struct server *who, const struct drill_book *drills,
             struct arena *a, struct card *out);

/* True for one of her serves of today. */
bool card_has(const struct card *c, const struct played *p);

/* So many of `n` serves as the rate would give. */
double card_in_as_many(struct rate r, unsigned n);

#endif
