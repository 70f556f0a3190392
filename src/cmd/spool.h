/* Bytes of which it is not known yet whether they may be shown. Few lie in memory, more
 * in a file without a name (in TMPDIR, or else /tmp), so that nothing stays behind
 * however the run ends. */
#ifndef NINEMETRE_CMD_SPOOL_H
#define NINEMETRE_CMD_SPOOL_H

#include "cmd/cmd.h"

struct spool {
    char *held;
    size_t held_n;
    int fd;          /* of the file; -1: none so far */
    bool failed;     /* which was told */
};

void spool_init(struct spool *s, struct arena *a);

/* The file at once, under a name, for somebody else to fill and for the caller to
 * unlink. NULL, and says so, if there can't be one. */
const char *spool_named(struct spool *s, struct arena *a);

void spool_add(struct spool *s, struct str bytes);

/* Writes all of it as cmd_write does. */
bool spool_write(const struct spool *s, const char *path);

void spool_free(struct spool *s);

#endif
