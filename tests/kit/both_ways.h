/* A serve line has two ways to be read: as the sum of its words, and by the
 * grammar. They must give the same statement, the same places and the same
 * messages for any text. */
#ifndef NINEMETRE_TESTS_BOTH_WAYS_H
#define NINEMETRE_TESTS_BOTH_WAYS_H

#include "syntax.h"

struct both_ways {
    unsigned line;               /* of the first difference */
    const char *differs;         /* what differs there, NULL if nothing does */
    unsigned serves;             /* serve lines read */
};

/* Reads the text by the grammar alone and as usual, with `words` as the store of
 * words; everything made lies in `a`. */
struct both_ways both_ways(struct str text, struct syn_words *words, struct arena *a);

#endif
