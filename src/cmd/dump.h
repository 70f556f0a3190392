/* What `9m dump` shares. */
#ifndef NINEMETRE_CMD_DUMP_H
#define NINEMETRE_CMD_DUMP_H

#include "cmd/cmd.h"

/* The report's pages as lists of words, lines and marks; with the advice of the
 * season's notes if `season` is not NULL. */
enum cmd_status dump_pages(const struct cmd_run *run, const struct checked *c, const char *season,
                           struct arena *a);

#endif
