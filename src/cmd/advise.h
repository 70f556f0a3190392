/* What the text and the JSON of `9m advise` share. */
#ifndef NINEMETRE_CMD_ADVISE_H
#define NINEMETRE_CMD_ADVISE_H

#include "advice.h"
#include "cmd/cmd.h"

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
    bool incomplete;
};

/* True if the team, the server, is to be shown. */
bool advise_shows_team(const struct advise *v, const struct advise_team *t);
bool advise_shows(const struct advise *v, const struct faults_server *s);

void advise_text(const struct advise *v);
void advise_json(const struct advise *v);

#endif
