/* What one practice brought: how it was split over its drills, what was hit
 * beside the last time, how tosses missed, which marks were seen, and where each
 * player stands with her focus. Counts only; what may be said of them stands in
 * rate.h and progress.h. */
#ifndef NINEMETRE_DRILLED_H
#define NINEMETRE_DRILLED_H

#include "drill.h"
#include "progress.h"

/* ---- the drills ------------------------------------------------------------ */

/* What ours did in a drill. */
struct drilled_part {
    uint32_t drill;              /* from 1; 0: outside of any */
    unsigned players;            /* whose shirts were seen */
    struct rate tosses, tries;   /* those that hit */
    struct rate serves;          /* into the court */
};

/* In the order of the notes, without those in which nothing was counted. */
struct drilled_parts {
    struct drilled_part *at;
    size_t n;
    struct drilled_part all;
};

struct drilled_parts drilled_parts(const struct checked *c, struct arena *a);

/* ---- tosses, tries, jumps --------------------------------------------------- */

struct drilled_row {
    uint8_t shirt;               /* SHIRT_NONE: not seen */
    struct rate today;           /* of jumps, n alone */
    struct rate last;            /* on the latest earlier day; n 0: there is none */
    struct date last_on;
    unsigned misses[MARK_N];     /* tosses, by how they missed: a toss to the right is
                                    one to the arm side, whatever the hand */
};

/* The lines of one side that make one series, as progress.h tells them apart:
 * tosses by the ring, tries by the drill. */
struct drilled_series {
    const struct tries *first;   /* its kind, side, ring and drill; NULL: serves */
    struct drilled_row *rows;    /* by shirt */
    size_t n;
    struct drilled_row all;      /* without a day */
    struct rate again, before;   /* today's and the last of those who have both */
    struct date from, to;        /* the last days, if before.n is above 0 */
};

/* All of them in the order of the notes. Of `season`, the files so far, nothing
 * is taken but the earlier days of ours; it may hold this practice too. */
struct drilled_tries {
    struct drilled_series *at;
    size_t n;
};

struct drilled_tries drilled_tries(const struct checked *c, const struct progress *season,
                                   struct arena *a);

/* Our serves in a drill, from 1: those into the court, beside the last time on
 * which the drill of this name was served. A name that opens several series of the
 * practice has no last time: its serves of that day are one sum. */
struct drilled_series drilled_serves(const struct checked *c, const struct progress *season,
                                     uint32_t drill, struct arena *a);

/* True if some of her tosses that missed have a mark. */
bool drilled_misses(const struct drilled_row *r);

/* ---- marks ------------------------------------------------------------------ */

/* A mark that ours showed in a drill. */
struct drilled_seen {
    uint32_t drill;
    enum mark mark;              /* sides as above; MARK_N: they were looked for in vain */
    struct rate seen;            /* of the serves in which its phase was observed */
    unsigned *by;                /* the same by shirt, up to SHIRT_NONE */
};

struct drilled_marks {
    struct drilled_seen *at;     /* by drill, then in the order of the marks */
    size_t n;
};

struct drilled_marks drilled_marks(const struct checked *c, struct arena *a);

/* ---- the focus -------------------------------------------------------------- */

struct drilled_focus {
    const struct player *who;
    struct progress_focus focus;
    struct rate today;           /* tosses and tries of its drill */
};

struct drilled_focuses {
    struct drilled_focus *at;    /* by shirt */
    size_t n;
};

/* Of the team's players; `season` holds this practice too. */
struct drilled_focuses drilled_focuses(const struct checked *c, const struct progress *season,
                                       struct arena *a);

/* ---- goals and jumps, for the staff ------------------------------------------ */

/* What a player hit today beside the goal: that of her focus, if it names the
 * drill, else the drill's own. */
struct drilled_goal {
    uint32_t drill;              /* the first of its name */
    uint8_t shirt;
    struct rate done, goal;      /* tosses and tries */
    bool focus;                  /* the goal is that of her focus: */
    enum word_id treats;
    struct rate days;            /* that met it, of all since then with tosses or tries */
    bool serves;                 /* the drill had none today: done is of her serves that
                                    could show the focus's mark, those without it */
};

/* By drill and shirt, those with a goal alone. `season` holds this practice too;
 * without a book only goals of focuses are known. */
struct drilled_goals {
    struct drilled_goal *at;
    size_t n;
};

struct drilled_goals drilled_goals(const struct checked *c, const struct progress *season,
                                   const struct drill_book *book, struct arena *a);

/* A player's jump serves of the practice. */
struct drilled_jumper {
    uint8_t shirt;
    unsigned served, counted;    /* written one by one; as a number alone */
};

struct drilled_jumps {
    struct drilled_jumper *at;   /* by shirt */
    size_t n;
};

struct drilled_jumps drilled_jumps(const struct checked *c, struct arena *a);

#endif
