/* Practice beside matches, over many checked files: a player's series of tosses,
 * tries and serves by day, and the running totals before and after the day on
 * which the coach wrote down her focus. That day was chosen before anyone could
 * look, so it is the only one that totals are split at. Counts only; what may
 * be said of them stands in rate.h and, for before and after, here. */
#ifndef NINEMETRE_PROGRESS_H
#define NINEMETRE_PROGRESS_H

#include "pool.h"
#include "rate.h"

struct progress;

/* Nothing yet; it lives as long as the arena. */
struct progress *progress_new(struct arena *a);

/* Adds a whole file, which may be forgotten afterwards. Files come in any
 * order; of a match or a practice ours are added, of a squad file nobody. */
void progress_add(struct progress *p, const struct checked *c);

/* Those who have an entry, by index from 0. */
size_t progress_people(const struct progress *p);
const struct person *progress_person(const struct progress *p, size_t person);

/* The index of the person with this key (pool_key); false if she has no entry. */
bool progress_find(const struct progress *p, struct person key, size_t *person);

/* The first and the last day so far, one more seen; year 0: no day. */
void progress_date_span(struct date *first, struct date *last, struct date day);

/* The Julian day number, with which days are told apart by subtraction. */
int progress_day_number(struct date d);

/* ---- series -------------------------------------------------------------- */

enum progress_kind {
    PROGRESS_TOSSES,             /* into a ring: a series for each width */
    PROGRESS_TRIES,              /* that met what the drill asks: one for each drill */
    PROGRESS_SERVES,             /* of practices: one for each drill */
    PROGRESS_MATCHES,            /* serves of matches: one series */
    PROGRESS_JUMPS               /* written as a number: one series */
};

/* One day of a series. */
struct progress_day {
    struct date date;
    int ring_cm;                 /* tosses; 0: not said */
    struct str drill;            /* tries, serves of practices; empty outside of a drill */
    struct rate hits;            /* tosses and tries; of jumps, n alone */
    struct counts counts;        /* serves of practices and matches */
};

struct progress_series {
    struct progress_day *days;   /* by ring or drill, then by date */
    size_t n;
};

struct progress_series progress_series(const struct progress *p, size_t person,
                                       enum progress_kind kind, struct arena *a);

/* True if both days are of one series. */
bool progress_same_series(const struct progress_day *a, const struct progress_day *b);

/* ---- the focus ----------------------------------------------------------- */

/* The day itself belongs to `after`. */
struct progress_split {
    struct rate before, after;
};

struct progress_focus {
    enum word_id treats;         /* a mark or an outcome */
    struct str drill;
    struct rate goal;            /* n 0: none */
    struct date since;           /* the first file of those that name it, up to now */
    unsigned days;               /* from then to her last entry */
    struct progress_split drilled; /* tosses and tries of that drill */
    bool mixed;                  /* tosses with tries, or several widths of ring:
                                    before and after are no comparison */
    bool met;                    /* the goal, in one day's tosses or tries since then: */
    struct date met_on;
    /* Serves with the mark, of those whose phase was observed; or serves with
     * that outcome, of all. */
    struct progress_split in_matches, in_practices;
    struct progress_split missed, broke; /* of all her serves in matches */
};

/* Her latest focus; false, and nothing written, if she has none. */
bool progress_focus(const struct progress *p, size_t person, struct progress_focus *out);

/* True if so much done meets the goal: as many tries as it names, and its share of
 * hits. */
bool progress_meets(struct rate done, struct rate goal);

/* What she hit in the focus's drill by day, since it was written down. */
struct progress_series progress_drilled(const struct progress *p, size_t person,
                                        const struct progress_focus *f, struct arena *a);

/* A month: in less nothing is said of what changed (our choice, no source). */
enum { PROGRESS_DAYS_MIN = 30 };

/* True when the difference may be shown, with its interval: a month, and enough
 * on both sides. The counts may always be shown. */
bool progress_compares(const struct progress_focus *f, struct progress_split s);

#endif
