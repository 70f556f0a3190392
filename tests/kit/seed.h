/* One slip in a whole match, of the kinds that scorers make, with the lines at
 * which a message about it would be right. The notation is spelt out here for
 * itself: nothing is taken from grammar/ or the rooms under test, but texts. */
#ifndef NINEMETRE_TESTS_SEED_H
#define NINEMETRE_TESTS_SEED_H

#include "kit/dice.h"
#include "str.h"

enum seed_group {
    SEED_LINE,                   /* one line shows it, by itself or among the others */
    SEED_LINES,                  /* lines missing, doubled or in another order */
    SEED_LEGAL                   /* what is left is legal: nothing may be said */
};

/* The notes cut into lines. */
struct seed_notes {
    struct str *lines;
    unsigned n;
    char ours, theirs;
};

/* The lines [from, to), from 0, with `by` in their place: whole lines, each
 * with its end, or nothing. */
struct seed_slip {
    unsigned from, to;
    struct str by;
    unsigned by_n;               /* lines in it */
    bool in_head;                /* a line of the head is left out */
    char letter;                 /* of a team whose shirts below may show it; 0 none */
    unsigned shirts[2];
};

enum { SEED_KINDS_MAX = 64 };

struct seed_kind {
    const char *name;
    enum seed_group group;
    /* The slip in line `i`, if it can have it there. */
    bool (*make)(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                 struct seed_slip *out);
};

extern const struct seed_kind seed_kinds[];
extern const unsigned seed_kind_n;

void seed_cut(struct seed_notes *s, struct str notes, struct arena *a);

/* A slip of the kind somewhere in the notes; false if no line can have it. */
bool seed_draw(const struct seed_notes *s, const struct seed_kind *kind, struct dice *d,
               struct arena *a, struct seed_slip *out);

/* The notes with it. */
struct str seed_spoil(const struct seed_notes *s, const struct seed_slip *slip, struct arena *a);

/* True if `line` of the spoilt notes (from 1) is where the slip stands: a line
 * put in; for lines left out those on both sides and the next serve, or the end
 * of the head; and the first line below that names a shirt which the slip concerns. */
bool seed_stands(const struct seed_notes *s, const struct seed_slip *slip, unsigned line);

/* The first stated score at or below the slip (from 1, in the spoilt notes), 0
 * if there is none: what no line between contradicts can show there only. */
unsigned seed_score_below(const struct seed_notes *s, const struct seed_slip *slip);

/* True if a score or an end is stated. */
bool seed_is_score(struct str line);

#endif
