/* Git, run as a command: the program links no library of it and reads none of its
 * files. */
#ifndef NINEMETRE_CMD_GIT_H
#define NINEMETRE_CMD_GIT_H

#include <stdio.h>
#include <sys/types.h>

#include "cmd/cmd.h"

enum { GIT_NOT_RUN = -1 };

/* Runs the command `argv` ("git", ..., NULL), found on the PATH, and gives its exit
 * code. What it printed is in `out`, a NUL behind it; what it says of errors goes to
 * standard error. GIT_NOT_RUN after a message when it could not be started or did not
 * end by itself. */
int git_run(const char *const argv[], struct arena *a, struct str *out);

/* A "git cat-file --batch" that runs until it is closed. */
struct git_objects {
    pid_t pid;
    FILE *asked, *told;
};

/* False after a message. */
bool git_objects_open(struct git_objects *g);
void git_objects_close(struct git_objects *g);

/* The bytes of the object with this name, as it is stored; false if there are none. */
bool git_object(struct git_objects *g, struct str name, struct arena *a, struct str *bytes);

#endif
