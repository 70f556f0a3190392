/* What the text and the JSON of `9m advise` share. */
#ifndef NINEMETRE_CMD_ADVISE_H
#define NINEMETRE_CMD_ADVISE_H

#include "advice.h"
#include "cmd/span.h"

/* One team of ours, over all files that have it. */
struct advise_team {
    struct str name;
    struct advice_of of;
};

struct advise {
    const struct cmd_run *run;
    struct arena *arena;
    struct advise_team *teams;
    size_t team_n, team_room;
    struct drill_book drills;
    const struct advise_team *only; /* NULL: every team */
    unsigned server;             /* SHIRT_NONE: all */
    const struct date *until;    /* files of later days are left out; NULL: none are */
    struct cmd_span span;
    struct cmd_paths paths;      /* what was read */
    bool incomplete;
};

/* ---- reading (advise_read.c) --------------------------------------------- */

/* Reads the operands of the run, and the drills beside them. Says what is wrong. */
enum cmd_status advise_read(struct advise *v, bool partial_data);

/* What the season's notes advise the team of a match or practice, up to its day; if
 * its own file, `path`, is not one of them it is added, unless that is standard input,
 * of which nobody knows. Unless the status is clean, or with partial_data, `out` may be
 * used only if its faults are there. */
enum cmd_status advise_season(const struct cmd_run *run, const char *directory, bool partial_data,
                              const struct checked *own, const char *path, struct advice *out,
                              struct arena *a);

/* NULL if no file has it; the name is pool_key's. */
struct advise_team *advise_find_team(const struct advise *v, struct str name);

/* ---- showing ---------------------------------------------------------------- */

/* True if the team, the server, is to be shown. */
bool advise_shows_team(const struct advise *v, const struct advise_team *t);
bool advise_shows(const struct advise *v, const struct faults_server *s);

void advise_text(const struct advise *v);
void advise_json(const struct advise *v);

#endif
