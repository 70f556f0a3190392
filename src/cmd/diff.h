/* Two states of a file, or of the files of two folders, while they are compared. */
#ifndef NINEMETRE_CMD_DIFF_H
#define NINEMETRE_CMD_DIFF_H

#include "changed.h"
#include "cmd/cmd.h"
#include "tally.h"

enum { BEFORE, AFTER, STATES };

struct diff_state {
    const char *path;            /* NULL: there is no such file */
    struct text text;
    const struct noted *noted;
    const struct checked *checked; /* NULL: nothing to check */
    unsigned errors;
    const struct tally *tally;   /* NULL: not to be counted */
};

/* Counts of one server, or of a side: shirt SHIRT_NONE and `all`. */
struct diff_tally {
    enum side side;
    uint8_t shirt;
    bool all;
    const struct player *player; /* NULL if no team names her */
    struct counts of[STATES];
};

struct diff {
    struct arena *arena;
    struct diff_state state[STATES];
    struct changed changed;
    struct diff_tally *tallies;  /* those that moved */
    size_t tally_n, tally_room;
};

/* What is told of a tally. */
enum diff_count { DIFF_SERVES, DIFF_ACES, DIFF_ERRORS, DIFF_WON, DIFF_COUNTS };

unsigned diff_count(const struct counts *c, enum diff_count which);
const char *diff_count_name(enum diff_count which);

/* Fills in what moved, if both can be counted. */
void diff_tallies(struct diff *d);

/* The serve of a line; NULL if it is none that was checked. */
const struct played *diff_played(const struct diff_state *s, const struct noted_line *l);

/* Who served it, if the squad names her. */
const struct player *diff_player(const struct diff_state *s, const struct played *p);

void diff_text(const struct diff *d);

/* A document under construction. */
struct diff_json;

struct diff_json *diff_json_new(struct arena *a);
void diff_json_add(struct diff_json *j, const struct diff *d);
void diff_json_end(struct diff_json *j);

#endif
