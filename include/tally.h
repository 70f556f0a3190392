/* Counts of checked serves. Every number stands beside the one it is out of,
 * and nothing is divided here. The room takes checked facts only, so that
 * figures can't come from notes with errors. */
#ifndef NINEMETRE_TALLY_H
#define NINEMETRE_TALLY_H

#include "check.h"

/* `by` adds up to `serves`. A serve with `overlap` that counts as an ace
 * (rule 12.7 and the definitions of check.h) stands under OUTCOME_ACE. */
struct counts {
    unsigned serves;
    unsigned by[OUTCOME_N];
    unsigned broke;              /* aces, balls straight back, passes of 1 */
    unsigned missed;
    unsigned won, decided;       /* rallies won, of those whose winner is known */
};

/* How many serves the line stands for: 1, or in a practice its xN. */
unsigned tally_times(const struct played *p);

/* True for the outcomes that are errors of the server. */
bool tally_is_error(enum outcome o);

/* Adds n serves that count as the outcome (tally_outcome) and ended so. */
void tally_count(struct counts *c, enum outcome o, enum rally won, unsigned n);

/* Adds one serve as often as its line says; a serve that is no attempt, or was
 * cancelled, adds nothing. */
void tally_add(struct counts *c, const struct played *p);

/* Adds the counts of another part. Order does not matter. */
void tally_merge(struct counts *c, const struct counts *more);

/* What the serve counts as: its outcome, or OUTCOME_ACE. */
enum outcome tally_outcome(const struct played *p);

/* Served into the court: aces, balls in play, straight back. */
unsigned tally_in_court(const struct counts *c);

/* How well the place is known: metres, a zone (or a seam, or the third of the
 * net or the service zone), nothing. A foot fault's place is the start. */
enum known { KNOWN_PLACE, KNOWN_ZONE, KNOWN_NOT, KNOWN_N };

enum known tally_known(const struct played *p);

/* The third of the service zone she started from, as written or of her routine. */
enum third tally_third(const struct played *p);

/* Situations of a match in which a serve may differ from the others. */
enum situation {
    SITUATION_COLD,              /* first serve after coming in as a substitute */
    SITUATION_TIMEOUT,           /* first serve after a time-out */
    SITUATION_FIRST,             /* first serve of a turn */
    SITUATION_LATE,              /* a side has so many points as tally_late_from says */
    SITUATION_SET_POINT,         /* either side would win the set by this rally */
    SITUATION_N
};

/* False too when the score it depends on is not known. */
bool tally_situation(const struct checked *c, const struct played *p, enum situation s);

/* From how many points of a side on a set is late: 20 of 25, 10 of 15. */
unsigned tally_late_from(const struct profile *rules, bool decider);

/* Whether the set of this index, from 1, is the deciding one. */
bool tally_decides(const struct checked *c, unsigned set);

/* Rows of the table by zone; a place gives its zone. */
enum { ZONE_UNKNOWN, ZONE_SEAM = 7, ZONE_N };

/* One server of one side. Errors by `order` are charged to the player due. */
struct server {
    uint8_t shirt;               /* SHIRT_NONE: shirt not seen */
    const struct player *player; /* NULL if the team does not name her */
    struct counts counts;
    unsigned known[KNOWN_N];     /* add up to counts.serves */
};

struct tally {
    const struct checked *checked;
    struct counts side[SIDE_N];
    struct counts set[SETS_MAX][SIDE_N];
    struct counts situation[SITUATION_N];   /* ours */
    struct counts in_zone[ZONE_N];          /* ours, served into the court */
    struct counts from_third[THIRD_LEFT + 1]; /* ours; THIRD_NONE: not recorded */
    unsigned known[SIDE_N][KNOWN_N];
    struct server *servers[SIDE_N];         /* most serves first, then by shirt */
    size_t server_n[SIDE_N];
};

/* Counts a whole file. The tally lives as long as the arena. */
const struct tally *tally_of(const struct checked *c, struct arena *a);

#endif
