/* The matches of one team in the order of their dates, and what each server did
 * in them: shares that missed by match, an alarm where they changed, the servers
 * in one order, jump serves by week. Practices add their jump serves and no
 * more. All serves are ours; one whose shirt was not seen counts for
 * the team alone. */
#ifndef NINEMETRE_SEASON_H
#define NINEMETRE_SEASON_H

#include "progress.h"
#include "shrink.h"
#include "trend.h"

struct season_match {
    struct date date;
    bool timed;
    unsigned minute;             /* of the day */
    struct str file, against;    /* the other team may have no name */
    struct counts counts;
    unsigned reviews, warnings;
    bool incomplete;             /* a gap, or lines that were not read */
    unsigned read_as;            /* which of the files it was; season_settle sorts them */
};

struct season_server {
    const struct person *who;
    enum serve_type type;        /* of most of her serves in matches */
    struct counts matches;
    unsigned jumps_n;            /* jump serves, written as serves or as a number */
};

struct season {
    struct arena *arena;
    struct pool *people;
    struct season_match *matches; /* by date, from season_settle */
    size_t match_n, match_room;
    unsigned practice_n;
    unsigned reviews, warnings, incomplete_n; /* of matches and practices */
    struct counts all;
    struct counts of_type[TYPE_UNDERHAND + 1];
    struct season_server *servers; /* most serves in matches first, then by shirt */
    size_t server_n;
    struct season_run *runs;     /* of serves in matches, by server and match */
    size_t run_n, run_room;
    struct season_jumps *jumps;  /* by server and week */
    size_t jumps_n, jumps_room;
    int first_week;              /* of the jumps */
    /* Of people, by their index: how many serves in matches were of which type, and
     * for the file that is being added the last of their runs and their jump serves. */
    struct season_person *of_person;
    size_t person_n, person_room;
};

/* Nothing yet; it lives as long as the arena. */
struct season *season_new(struct arena *a);

/* Adds a match or a practice, which may be forgotten afterwards. */
void season_add(struct season *s, const struct checked *c, struct str file, unsigned warnings);

/* Sorts matches and servers. Nothing can be added afterwards. */
void season_settle(struct season *s);

/* True when the order of two matches that follow each other is not known, or
 * they may be one match that is there twice: same day, and not two different
 * times. */
bool season_clash(const struct season_match *a, const struct season_match *b);

/* ---- by match -------------------------------------------------------------- */

/* Her serves that missed, of those in the matches `from` up to before `to`. */
struct rate season_missed(const struct season *s, size_t server, size_t from, size_t to);

/* Her serves that missed before the day and from it on. */
struct progress_split season_split(const struct season *s, size_t server, struct date day);

/* The first match on the day or later; match_n if there is none. */
size_t season_match_from(const struct season *s, struct date day);

/* ---- the alarm -------------------------------------------------------------- */

/* The sum of trend.h over her serves of the later matches. What it is measured
 * by are the earlier ones: her share in them, drawn towards the team's. */
struct season_alarm {
    enum trend_way way;
    size_t from, to;             /* matches: where the sum began to rise, and where
                                    it reached the alarm */
    struct rate before;          /* all her serves of the earlier matches */
    struct rate rise;            /* from there to the alarm */
};

/* The latest alarm each way. */
struct season_alarms {
    bool watched;                /* false: not a season's serves, or few earlier ones */
    unsigned n;
    struct season_alarm at[2];
};

/* Of each server; the later matches begin with `later`. */
struct season_alarms *season_alarms(const struct season *s, size_t later, struct arena *a);

/* ---- in one order ------------------------------------------------------------- */

struct season_rank {
    struct shrunk *at;           /* fewest misses first; ix is of the servers */
    size_t n;
    bool by_type;                /* each drawn towards those with her type of serve */
};

struct season_rank season_rank(const struct season *s, struct arena *a);

/* ---- jump serves ---------------------------------------------------------------- */

/* She is in the air as she hits it, or would have been. */
bool season_is_jump(const struct played *p);

/* Weeks begin on Mondays; the first is that of the first jump serve of anybody. */
struct season_weeks {
    unsigned n;                  /* 0: nobody has one */
    unsigned first, last;        /* numbers of ISO 8601 */
};

struct season_weeks season_weeks(const struct season *s);

/* Her jump serves in the week of this index. */
unsigned season_jumps(const struct season *s, size_t server, unsigned week);

/* The number of the week in its year, ISO 8601: week 1 holds the first Thursday. */
unsigned season_iso_week(struct date d);

#endif
