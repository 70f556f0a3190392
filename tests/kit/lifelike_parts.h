/* What the parts of the generator share with each other only. */
#ifndef NINEMETRE_TESTS_LIFELIKE_PARTS_H
#define NINEMETRE_TESTS_LIFELIKE_PARTS_H

#include "lifelike.h"

enum life_outcome {
    LO_ACE, LO_IN3, LO_IN2, LO_IN1, LO_PLAY, LO_IN, LO_OVER,
    LO_NET, LO_LONG, LO_LEFT, LO_RIGHT,
    LO_ANTENNA, LO_CEILING, LO_MATE, LO_FOOT, LO_CLOCK, LO_DROP, LO_SCREEN, LO_ORDER,
    LO_OVERLAP, LO_REPLAY
};

/* A mark, its phase (index of life_phases) and the error it leads to. */
struct life_mark {
    const char *word;
    unsigned phase;
    enum life_outcome leads_to;
};

enum { LIFE_PHASES = 5, LIFE_MARKS = 25 };
extern const char *const life_phases[LIFE_PHASES];
extern const struct life_mark life_marks[LIFE_MARKS];

/* One serve to be written. Texts of server and receiver come from the caller. */
struct life_line {
    struct life_style style;
    const struct life_player *player;  /* NULL: an opponent, of whom less is seen */
    unsigned observed;                 /* bit set of phases */
    enum life_outcome outcome;
    const char *receiver;              /* "by11", or NULL */
    const char *rally;                 /* "won", "lost" or NULL */
    unsigned time_s;                   /* 0: none */
    unsigned repeat;                   /* 0 or 1: none */
    bool aimed;                        /* an aim may stand on the line */
};

bool life_outcome_error(enum life_outcome o);
bool life_outcome_in_play(enum life_outcome o);

/* What comes of a serve in a match. */
enum life_outcome life_outcome_draw(struct dice *d, const struct life_player *p);

/* The rest of a serve line behind the server, without line end. */
void life_line_put(struct buf *out, struct dice *d, const struct life_line *line);

/* `2026-09-01` plus `day` days. */
void life_date_put(struct buf *out, unsigned day);

/* The head of a file down to its players. */
void life_players_put(struct buf *out, const struct life_team *t);

/* A sentence a scorer might write. */
const char *life_remark(struct dice *d);

/* Hundredths with one or two decimals, as the canonical spelling has them. */
void life_hundredths_put(struct buf *out, int hundredths, bool sign);

#endif
