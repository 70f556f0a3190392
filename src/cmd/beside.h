/* The file that is written beside another and then takes its place: hidden, one
 * name for each path. It is locked while it is written, so that two runs take
 * turns, and what a killed run left behind is told from one that is in use: a
 * lock ends with its program. The next run that writes the same path removes it. */
#ifndef NINEMETRE_CMD_BESIDE_H
#define NINEMETRE_CMD_BESIDE_H

#include <signal.h>
#include <stdbool.h>
#include <sys/stat.h>

enum { BESIDE_PATH_MAX = 4096 };

struct beside {
    char name[BESIDE_PATH_MAX];
    int fd;
    sigset_t before; /* signals that were held back before this began */
};

/* Makes the file, empty; waits for another run that is writing the same path, ten
 * seconds at most. `old` is what will be replaced, or NULL. Signals that end the
 * program are held back from here to beside_close. False and errno when it can't;
 * EBUSY: b->name is held by another run, or nobody can tell. */
bool beside_open(struct beside *b, const char *path, const struct stat *old);

/* On the disk with the owner, if possible, and the mode of `old`. */
bool beside_finish(const struct beside *b, const struct stat *old);

/* Gives it the name `path`. */
bool beside_take_place(const struct beside *b, const char *path);

/* Removes it unless it has taken its place; errno stays. */
void beside_close(struct beside *b, bool placed);

/* Brings the names in the folder of `path` to the disk. */
bool beside_sync_folder(const char *path);

#endif
