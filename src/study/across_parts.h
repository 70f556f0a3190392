/* What the files of `across` share. */
#ifndef NINEMETRE_STUDY_ACROSS_PARTS_H
#define NINEMETRE_STUDY_ACROSS_PARTS_H

#include "across.h"
#include "slots.h"

/* The season that the name of a folder tells, in a path. */
struct across_folder {
    struct str name;             /* of the folder; empty: there is none */
    struct str parent;           /* the path of the folder that holds it */
    int year;                    /* in which the season begins */
    bool two_years;              /* 2026-27: it goes over the turn of the year */
};

struct across_player {
    struct str name;
    uint8_t shirt;
    struct place place;          /* her declaration */
};

/* Named players of a team, as some files of a season declare them; with nobody in
 * it, and season 0, the team itself in any file. */
struct across_roster {
    uint64_t hash;
    struct str team;
    int season;                  /* the year in which it began */
    struct across_player *players;
    size_t player_n;
    struct date since;           /* of the earliest file that has it, */
    struct str file;             /* and of that day the first by name */
    struct place place;          /* of the team in that file */
    size_t file_n;
};

/* Small, since a federation has many files. */
struct across_file {
    const char *path;
    const char *line_text;       /* of the line of its date */
    const struct across_roster *teams[SIDE_N]; /* NULL: none, or without a name */
    uint64_t digest;             /* of a practice's bytes */
    struct date date;
    uint32_t line;
    uint16_t at, n;              /* of the date in its line */
    uint16_t minute;             /* of the day */
    bool told : 1;               /* had messages of its own */
    bool dated : 1;              /* a match or a practice without an error: the rest
                                    is known */
    bool practice : 1, timed : 1;
    bool in_season : 1;          /* lies in the folder of one */
};

struct across {
    struct arena *arena;
    struct across_file *files;
    size_t file_n, file_room;
    struct across_roster **rosters;
    size_t roster_n, roster_room;
    struct slots slots;          /* of the rosters */
};

struct across_folder across_folder(const struct across_file *f);
struct place across_day(const struct across_file *f);

/* ---- judging ------------------------------------------------------------------ */

void across_judge_people(const struct across *x, struct diags *d);
void across_judge_teams(const struct across *x, struct diags *d);
void across_judge_days(const struct across *x, struct diags *d);
void across_judge_twice(const struct across *x, struct diags *d);

#endif
