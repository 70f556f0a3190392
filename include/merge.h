/* Three states of one file made one: what two scorers changed since the state
 * that both began with. Lines are merged, not spellings: each change of either
 * side is taken, words of both sides in one line are joined, and what both added
 * stands there once. Where the two contradict each other nothing is chosen, and
 * nothing is ever put behind the other for want of an answer: two rallies in one
 * place are one rally seen twice, or a rally missing. */
#ifndef NINEMETRE_MERGE_H
#define NINEMETRE_MERGE_H

#include "check.h"
#include "noted.h"

enum { MERGE_BASE, MERGE_OURS, MERGE_THEIRS, MERGE_SIDES };

/* Lines of one state, from the `from`-th (from 0). */
struct merge_lines {
    size_t from, n;
};

/* A line of the result, or lines of both sides that contradict each other. */
struct merge_item {
    bool conflict;
    bool joined;                 /* words of both sides are in it */
    struct str text;             /* the line without its line feed, if no conflict */
    bool open;                   /* it had no line feed */
    struct merge_lines of[MERGE_SIDES]; /* what it was made of; the base may have none */
};

struct merge {
    struct arena *arena;
    const struct noted *side[MERGE_SIDES];
    struct merge_item *items;
    size_t item_n, item_room;
    bool bom;
    size_t conflict_n;
};

/* The sides live as long as the merge. */
void merge_of(struct merge *m, const struct noted *base, const struct noted *ours,
              const struct noted *theirs, struct arena *a);

/* Which item each line of the result comes from. */
struct merge_map {
    size_t *item_of;
    size_t n, room;
};

/* The result, with conflicts between marks: `<<<<<<< ours`, `=======` and
 * `>>>>>>> theirs`. */
struct str merge_text(const struct merge *m, struct merge_map *map);

/* Adds to `d` what the result has against itself and neither side has, as errors
 * of the file: two edits that go together line by line can still make a score that
 * can't be. Joined lines that are to blame become conflicts instead. */
void merge_check(struct merge *m, struct diags *d);

/* The next item from the `from`-th on that is a serve which one side added, while
 * the other added the same a rally or two away: one rally that both missed, or two.
 * `*other` gets the second. Gives item_n if there is none; practices are full of
 * equal serves, so there it never is one. */
size_t merge_twice(const struct merge *m, size_t from, size_t *other);

#endif
