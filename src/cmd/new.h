/* A file of notes to start from. */
#ifndef NINEMETRE_CMD_NEW_H
#define NINEMETRE_CMD_NEW_H

#include "cmd/cmd.h"

struct new_file {
    const struct cmd_run *run;
    struct arena *arena;
    struct date date;
    const char *squad;           /* the path of the squad file, or NULL */
    struct str squad_name;       /* as the new file names it */
    const struct checked *ours;  /* the squad file as read, or NULL */
};

/* Adds the lines of a practice behind its head: the drills that the players'
 * focus lines name, each with its players, as remarks with blanks to fill in.
 * The focus lines are those of the files in the squad's folder. */
enum cmd_status new_practice(const struct new_file *n, struct buf *b);

#endif
