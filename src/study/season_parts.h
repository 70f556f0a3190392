/* What the files of a season share; private to this room. */
#ifndef NINEMETRE_STUDY_SEASON_PARTS_H
#define NINEMETRE_STUDY_SEASON_PARTS_H

#include "season.h"

/* Some serves of one server in one match, in the order served: a season has
 * millions, and of each it only matters whether it missed. */
enum { SEASON_RUN_MOST = 32 };

struct season_run {
    int32_t person;              /* index of people; from season_settle of servers */
    uint32_t match;              /* as read; from season_settle as sorted */
    uint32_t missed;             /* 1 << i: the i-th of them */
    uint16_t part;               /* which run of hers in the match */
    uint16_t n;
};

/* Jump serves of a person in a file; from season_settle in a week. */
struct season_jumps {
    int32_t person;              /* as above */
    int week;                    /* season_week_of */
    unsigned iso;                /* its number in the year */
    unsigned n;
};

/* What is gathered of a person. */
struct season_person {
    unsigned type_n[TYPE_UNDERHAND + 1]; /* of her serves in matches */
    size_t run;                  /* of the file that is being added: her last run + 1, */
    size_t jumps;                /* and her jump serves + 1; 0: none */
};

/* Weeks in a row, counted from long ago. */
int season_week_of(struct date d);

/* Her serves in season.runs. */
void season_runs_of(const struct season *s, size_t server, size_t *from, size_t *to);

#endif
