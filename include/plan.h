/* Who practises what: the players grouped by the drill of their focus, and the
 * lines of notes that each drill leads to, with blanks to fill in. */
#ifndef NINEMETRE_PLAN_H
#define NINEMETRE_PLAN_H

#include "drill.h"
#include "progress.h"

struct plan_player {
    const struct person *who;
    struct progress_focus focus;
};

struct plan_group {
    struct str drill;
    const struct drill_recipe *recipe; /* NULL: not in the book */
    struct plan_player *players; /* by shirt */
    size_t n;
};

struct plan {
    struct plan_group *groups;   /* by the lowest shirt of each */
    size_t n;
    bool jumps;                  /* some drill has jump serves, or may */
};

/* The players of one team that have a focus. */
struct plan plan_of(const struct progress *p, struct str team, const struct drill_book *book,
                    struct arena *a);

bool plan_has(const struct plan *p, unsigned shirt);

/* How many tries its goal is out of; 0: nobody has said. */
unsigned plan_tries(const struct plan_group *g);

/* Line `ix` of the notes that a group leads to, an empty view after the last:
 * those that hold for everybody (drill, ring, observe), and those of one player,
 * with her shirt and `_` for each number to fill in. */
struct str plan_line(const struct plan_group *g, size_t ix, struct arena *a);
struct str plan_player_line(const struct plan_group *g, size_t ix, unsigned shirt,
                            struct arena *a);

#endif
