/* Files of some days, or of the last matches: --from, --to and --last of all
 * commands that read many files. */
#ifndef NINEMETRE_CMD_SPAN_H
#define NINEMETRE_CMD_SPAN_H

#include "cmd/cmd.h"

/* For the table of options. */
#define CMD_FROM_OPTION \
    { "from", "DATE", "matches and practices from this day on, such as 2026-09-01", NULL, 0 }
#define CMD_TO_OPTION \
    { "to", "DATE", "up to this day, itself included", NULL, 0 }
#define CMD_LAST_OPTION \
    { "last", "N", "the last N matches, and the practices since the first of them", NULL, 0 }

struct cmd_span {
    struct date from, to;        /* both included; year 0: no bound */
    unsigned last;               /* 0: all */
    const char *team;            /* whose last matches, a word as for cmd_named; NULL: of
                                    each team whose notes they are */
};

/* Fills a span from those of the three options that the command has; false after
 * a message. */
bool cmd_span_take(struct cmd_span *s, const struct cmd_run *run);

/* True if one of the three options was given. */
bool cmd_span_is_bounded(const struct cmd_span *s);

/* A day as the notes have it; false if it is none. */
bool cmd_day(const char *given, struct date *out);

/* The day given to an option; false after a message. If it was not given, `out`
 * stays as it is. */
bool cmd_day_option(const struct cmd_run *run, const char *name, struct date *out);

/* Drops the paths of notes that lie outside of the span, for which the heads of all
 * are read. What has no day (a squad file, a head with errors) stays: whoever reads
 * it will say what is wrong. Gives CMD_FAILED after a message about a file of which
 * nothing can be read twice. */
enum cmd_status cmd_span_choose(const struct cmd_span *s, struct cmd_paths *paths);

/* cmd_find, then the choice; nobody sees a path before it. */
enum cmd_status cmd_find_days(struct cmd_paths *paths, const struct cmd_run *run,
                              const struct cmd_span *s);

#endif
