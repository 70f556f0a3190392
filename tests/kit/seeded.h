/* What the program says to one seeded slip, and the same over many matches. */
#ifndef NINEMETRE_TESTS_SEEDED_H
#define NINEMETRE_TESTS_SEEDED_H

#include "kit/seed.h"

enum seeded {
    SEEDED_SILENT,               /* no error at all */
    SEEDED_RIGHT,                /* one error, where the slip stands */
    SEEDED_SCORE,                /* one error, at the first score below */
    SEEDED_ELSEWHERE,            /* one error, somewhere else */
    SEEDED_SEVERAL,
    SEEDED_N
};

struct seeded_count {
    unsigned tries, n[SEEDED_N];
    unsigned most;               /* messages of one file, warnings too */
    unsigned above_three;        /* files with more than three */
};

/* True if nothing is said to the notes as they are. */
bool seeded_silent(const struct seed_notes *s, struct arena *scratch);

/* How many errors the notes give, and messages in all. */
unsigned seeded_errors(struct str notes, struct arena *scratch, unsigned *messages);

/* What the notes with the slip give. */
enum seeded seeded_look(const struct seed_notes *s, const struct seed_slip *slip,
                        struct arena *scratch, unsigned *messages);

/* Random matches, the same for the same number: every third bare, usual or
 * rich, one in five of ours only, one in four with rare events. */
struct str seeded_match(unsigned number, struct arena *a);

/* One slip of each kind in each of the matches 1 to `match_n`, but those to
 * which something is said as they are; gives how many these are. */
unsigned seeded_measure(struct seeded_count counts[SEED_KINDS_MAX], unsigned match_n,
                        struct arena *of_match, struct arena *scratch);

/* The slip in as few lines as show the same; the lines that are left are in
 * `least`. The notes without the slip stay silent. */
void seeded_shrink(const struct seed_notes *s, const struct seed_slip *slip, enum seeded as,
                   struct arena *a, struct arena *scratch, struct seed_notes *least,
                   struct seed_slip *least_slip);

void seeded_add(struct seeded_count *sum, const struct seeded_count *more);

#endif
