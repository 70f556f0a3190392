/* A language that does not exist: every text 40 % longer, as a translation may
 * be. What a page does not clip in it, it clips in no language. */
#ifndef NINEMETRE_TESTS_LONGER_H
#define NINEMETRE_TESTS_LONGER_H

#include "lang.h"

/* The texts lie in the arena. */
struct longer {
    struct lang lang;            /* first, for `find` */
    struct arena *arena;
};

void longer_init(struct longer *l, struct arena *a);

#endif
