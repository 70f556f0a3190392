/* What the files of a season share; private to this room. */
#ifndef NINEMETRE_STUDY_SEASON_PARTS_H
#define NINEMETRE_STUDY_SEASON_PARTS_H

#include "season.h"

struct season_serve {
    int32_t person;              /* index of people; from season_settle of servers */
    uint32_t match;              /* as read; from season_settle as sorted */
    bool missed;
    uint8_t type;
};

struct season_jumps {
    int32_t person;              /* as above */
    int week;                    /* season_week_of */
    unsigned iso;                /* its number in the year */
    unsigned n;
};

/* Weeks in a row, counted from long ago. */
int season_week_of(struct date d);

/* Her serves in season.serves. */
void season_serves_of(const struct season *s, size_t server, size_t *from, size_t *to);

#endif
