/* What two states of a file of notes say differently: facts, not spellings.
 * Comments, blank lines, the order of declarations and a scorer's short words
 * are none. */
#ifndef NINEMETRE_CHANGED_H
#define NINEMETRE_CHANGED_H

#include "noted.h"

/* A line of each; NULL where only the other has it. */
struct changed_line {
    const struct noted_line *before, *after;
};

/* In the order of the files. */
struct changed {
    struct changed_line *at;
    size_t n, room;
};

void changed_of(struct changed *c, const struct noted *before, const struct noted *after,
                struct arena *a);

/* A word of a line that was changed, added (`before` is empty) or taken out. */
struct changed_word {
    bool server;                 /* who served */
    struct str before, after;
};

/* The words that differ in a line that both have. */
size_t changed_words(const struct changed_line *l, struct changed_word out[2 * NOTED_WORDS_MAX],
                     struct arena *a);

#endif
