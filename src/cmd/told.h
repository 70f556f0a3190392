/* Messages of squad files that were told before. */
#ifndef NINEMETRE_CMD_TOLD_H
#define NINEMETRE_CMD_TOLD_H

#include "cmd/cmd.h"

struct told_one {
    struct str file;
    unsigned line, at;
    enum diag_id id;
};

struct told {
    struct arena *arena;
    struct told_one *list;
    size_t n, room;
};

/* A slip in a squad file is one slip, though every match that takes the file meets
 * it: it is told once, with the squad file or with the first match. Takes those out
 * of the messages of a file that were told with one before. */
void told_drop(struct told *t, const struct checked *c, struct diags *d);

#endif
