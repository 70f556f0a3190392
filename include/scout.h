/* Whom a team lets receive, and what its receivers did with the serves that
 * reached them, over many checked files. People are shirts here: no name of
 * theirs is kept. Whether a plan for a set was followed, and what it brought,
 * is judged by the serves that reached them too: one that missed tells neither
 * receiver nor place. Counts only; what may be said of them stands in rate.h. */
#ifndef NINEMETRE_SCOUT_H
#define NINEMETRE_SCOUT_H

#include "rate.h"
#include "tally.h"

/* A ball counts in one of these. A seam reaches half a metre to each side of the
 * bound between two zones (our own choice), or is written as such. */
enum scout_place {
    SCOUT_5, SCOUT_SEAM_56, SCOUT_6, SCOUT_SEAM_16, SCOUT_1,
    SCOUT_FRONT,                 /* zones 4, 3 and 2, and their seams */
    SCOUT_NOT_WRITTEN,
    SCOUT_PLACES
};

enum scout_place scout_place(struct spot s);

/* A serve that reached the receivers: an attempt, and no error of the server. */
bool scout_reached(const struct played *p);

/* ---- plans ----------------------------------------------------------------- */

/* One plan line of a match. */
struct scout_plan {
    struct serve_plan plan;
    unsigned set;                /* its number; 0 if it stands in none */
    unsigned in_play;            /* serves of ours under it that reached them */
    struct rate as_planned;      /* of those whose receiver, or place, is written */
    struct rate broke, broke_elsewhere; /* as planned; the others of those known */
};

/* All plans of the file, in its order; *n of them. A plan for a zone is kept by a
 * ball that was played anywhere in it, so that `plan d5` is judged as `plan 5`:
 * a receiver takes a ball before it lands. */
struct scout_plan *scout_plans(const struct checked *c, size_t *n, struct arena *a);

/* All of them together; `plan` and `set` say nothing. */
struct scout_plan scout_plans_sum(const struct scout_plan *plans, size_t n);

/* What the two shares of passes broken tell. */
enum scout_verdict { SCOUT_FEW, SCOUT_OPEN, SCOUT_MORE, SCOUT_LESS };

/* SCOUT_FEW below ten balls on a side, and nothing written; else the difference,
 * as planned less elsewhere, with its interval. More or less is said from thirty
 * balls on a side on, where the interval holds no 0. */
enum scout_verdict scout_verdict(const struct scout_plan *sum, double *difference_frac,
                                 struct interval *interval);

/* ---- receivers --------------------------------------------------------------- */

struct scout {
    struct arena *arena;
    struct str team;             /* the receiving one; NFC */
    struct str *servers;         /* teams whose serves it received, as they came */
    size_t server_n, server_room;
    unsigned matches;
    struct date first, last;     /* of these; year 0: none is dated */
    struct counts all;
    struct counts of_shirt[SHIRT_MAX + 1], no_shirt;
    struct counts at[SCOUT_PLACES];
    unsigned played[SCOUT_PLACES][SHIRT_MAX + 1]; /* balls that a shirt played there */
    struct scout_plan *plans;    /* of the latest match that has any */
    size_t plan_n;
    struct date planned_on;
};

struct scout *scout_new(struct str team, struct arena *a);

/* Adds a match in which the team received on this side. */
void scout_add(struct scout *s, const struct checked *c, enum side receives);

struct scout_receiver {
    unsigned shirt;
    struct counts counts;
};

/* Who received a ball, most balls first, then by shirt; gives how many. */
size_t scout_receivers(const struct scout *s, struct scout_receiver out[SHIRT_MAX + 1]);

/* Who played balls there, most first; `counts.serves` is how many. */
size_t scout_stands(const struct scout *s, enum scout_place where,
                    struct scout_receiver out[SHIRT_MAX + 1]);

#endif
