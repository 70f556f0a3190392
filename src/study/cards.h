/* What the files of a card share. */
#ifndef NINEMETRE_STUDY_CARDS_H
#define NINEMETRE_STUDY_CARDS_H

#include "card.h"

struct values {
    unsigned *at;
    size_t n, room;
};

struct measures {
    double *at;
    size_t n, room;
};

/* How she served, over one match or several. */
struct routine {
    struct rate as_said[CARD_HABITS];
    struct values written[CARD_HABITS];
    struct measures toss_m;
};

/* Her serves in matches before the one of the card. */
struct card_past {
    struct counts counts;
    unsigned matches;
    size_t in_match;             /* the last file that has her */
    struct routine routine;
    struct rate with[MARK_N], without[MARK_N]; /* missed; of those that could show it */
};

struct cards {
    struct arena *arena;
    const struct checked *match;
    size_t files;
    struct pool *people;         /* of people alone; no serve is counted there */
    struct card_past **pasts;    /* by index of people */
    size_t past_n, past_room;
    struct progress *progress;
    struct aimed *aimed;
};

/* ---- card_routine.c --------------------------------------------------------- */

/* One serve of a file. */
void routine_add(struct routine *r, const struct checked *file, const struct played *p,
                 struct arena *a);

/* `past` may be NULL, the player too. */
void routine_take(const struct player *who, const struct routine *today,
                  const struct routine *past, struct card *out);

/* ---- card_air.c ------------------------------------------------------------- */

/* Where she hits and where to aim; nothing is known of who never served. */
void card_take_reach(const struct cards *c, const struct person *key, struct card_reach *out);
void card_take_aim(const struct cards *c, const struct person *key, const struct card_focus *focus,
                   struct arena *a, struct card_aim *out);

#endif
