/* Two texts side by side: where their lines differ. */
#ifndef NINEMETRE_COMPARE_H
#define NINEMETRE_COMPARE_H

#include "cmd/cmd.h"

struct lines {
    struct str *at;
    size_t n, room;
};

/* The lines of a text, each with its end. */
struct lines compare_lines(struct str s, struct arena *a);

/* Lines from `old_ix` of one text stand for lines from `new_ix` of the other. */
struct change {
    size_t old_ix, old_n, new_ix, new_n;
};

struct compare {
    struct arena *arena;
    struct lines old, new; /* each line with its end */
    struct change *changes;
    size_t change_n, change_room;
};

void compare_init(struct compare *c, struct str old, struct str new, struct arena *a);

#endif
