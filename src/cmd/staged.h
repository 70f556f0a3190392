/* Notes as they are staged: what git's index holds, which may be neither the file in
 * the work tree nor the last commit. */
#ifndef NINEMETRE_CMD_STAGED_H
#define NINEMETRE_CMD_STAGED_H

#include "cmd/cmd.h"

struct staged;

/* NULL after a message when this is no work tree of git. Close it once it is open. */
struct staged *staged_open(struct arena *a);
void staged_close(struct staged *s);

/* Adds what is to be checked, by name: notes and drills that the next commit changes,
 * and notes that take a squad file which it changes or deletes. A file that is in
 * conflict is told and gives CMD_FINDINGS. */
enum cmd_status staged_find(struct staged *s, struct cmd_paths *paths);

/* Reads a file as text_read does, but as it is staged. A squad file that git is told
 * to ignore is read from the work tree: a club may keep names out of a repository
 * that others see. Several threads may ask. `from` is the struct staged. */
enum text_status staged_read(void *from, struct text *t, const char *path, struct arena *a,
                             struct diags *d);

#endif
