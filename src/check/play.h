/* The order of play: sets, rallies, turns, rotation, score. Private to the
 * check room. The state says what must come next; each statement is held
 * against it and moves it on. A slip is told once: what it puts in doubt is
 * taken from the notes without a word until a score, an `end` or a `set`
 * settles it again. */
#ifndef NINEMETRE_CHECK_PLAY_H
#define NINEMETRE_CHECK_PLAY_H

#include "check.h"

#define NOT_KEPT SIZE_MAX

/* A server was told out of order. Where her points are taken back it was known
 * that she was, and what was made of her line is undone. */
struct wrong_server {
    uint32_t line;               /* where it was told; 0: no message stands */
    unsigned errors;             /* with that one */
    unsigned run;                /* points of the turn before her */
    unsigned at;                 /* the slot of who was due */
    bool turn_given;             /* the other team seemed to have had a turn */
    int given[SIDE_N];           /* points for the lines that seemed to be missing */
    size_t lost_row;             /* the serve that they seemed to have lost, or NOT_KEPT */
};

enum { SLOT_NONE = 6 };

/* A team's service order. Slots 0 to 5 are the starters of zones 1 to 6: the
 * next server is the next slot, since zone 2 rotates into zone 1. */
struct order {
    uint8_t shirts[6];           /* SHIRT_NONE: not known yet */
    uint32_t lines[6];           /* where each was learnt */
    uint32_t lineup_line;        /* 0: none was written */
    unsigned at;                 /* slot of who serves now, or served last */
    bool started;                /* `at` holds */
    bool lost;                   /* after a gap: the next server tells the slot */
    unsigned off;                /* by how many slots the last server was wrong */
    uint64_t cold[2];            /* shirts that came in and have not served yet */
    uint8_t instead[6];          /* a shirt told out of order that may hold the place */
    bool sub_told;               /* a `sub` was told to be wrong: who came in is open */
    uint8_t told_due, told_shirt; /* exchanged once: her turn for the other's is no news */
    uint8_t libero_place;        /* slot + 1 in which the libero serves; 0 none yet */
    uint32_t found_line;         /* where it found itself after it was lost */
};

/* Who may come in for whom in this set. A group is a starter and those who have
 * stood in her place; `left` tells that she has been out and come back. */
struct bench {
    uint8_t group[SHIRT_MAX + 1];    /* 0: has not played, or never left */
    uint8_t starter[SHIRT_MAX + 1];  /* of each group, by its number */
    uint8_t groups;
    uint64_t back[2];                /* starters who have come back */
    uint64_t played[2];              /* substitutes who have gone out again */
    uint32_t line[SHIRT_MAX + 1];    /* of a shirt's last substitution; 0 none */
    uint64_t in[2], out[2];          /* who came in by it, and who went out */
};

/* No set has a longer run of points: one ends when a team leads by two. */
enum { RUN_KEPT = 64 };

struct set_state {
    /* The set and its score. */
    bool open, decider, any_serve, over;
    unsigned number, goal;       /* goal: points that win it */
    uint32_t line, over_line;
    enum side first, serving;    /* SIDE_NONE: not known */
    unsigned points[SIDE_N];
    bool known[SIDE_N];          /* else at least so many */
    uint16_t rally;
    unsigned timeouts[SIDE_N];
    bool after_timeout;

    /* People. */
    struct order orders[SIDE_N];
    struct bench benches[SIDE_N];
    unsigned subs[SIDE_N];

    /* The turn: who serves, and whose rally waits for the next line to tell. */
    enum side turn_side;
    uint8_t turn_server;
    uint8_t turn_wrong;          /* a shirt in her place that was told already */
    bool turn_open;
    unsigned turn_serves;
    uint32_t turn_from, last_serve_line;
    bool pending, pending_quiet; /* quiet: its line was not read, and was told */
    uint32_t told_by_line;       /* the score that decided the last rally */
    uint8_t retosses;            /* since the last hit, or in the turn, by the rules */
    unsigned run[SIDE_N];        /* points of the present or last turn, for cancel, */
    size_t run_rows[SIDE_N][RUN_KEPT]; /* and the serves that won them, or NOT_KEPT */
    bool taken_back;             /* points of the turn, by the line before */

    /* What a message left open. */
    bool doubt;                  /* score and server may be wrong already */
    bool last_told;              /* the serve before had its message: what follows from
                                    it is no second slip */
    struct wrong_server wrong[SIDE_N];
    bool first_open;             /* who served first */
    unsigned agreed[SIDE_N];     /* the last score that agreed with the lines */
    uint32_t agreed_line;
    bool parted;                 /* a score was told not to agree: `by_lines` is what */
    unsigned by_lines[SIDE_N];   /* the lines say instead, in case the score was wrong, */
    bool parted_pending;         /* and the rally before it is still open there */
    bool unclear;                /* record ours: the score holds one point more, won on
                                    serve or by a side-out that is in it already */
};

/* What one slip in the head may raise in every line is one message. */
struct told {
    uint32_t line;               /* where it stands */
    uint32_t lines_n;            /* lines that it concerns */
};

struct play {
    struct arena *arena;
    struct diags *diags;
    struct reading *reading;
    const struct match *match;
    struct syn *syn;
    unsigned options;
    struct checked *out;
    const struct check_taker *taker; /* or NULL */
    const struct check_chooser *chooser; /* NULL: by the options */
    size_t row_n, row_room;      /* of out->played: all serves, or those to be handed on */
    size_t drill_room, tries_room, plan_room, note_room;
    uint32_t plan;               /* in force, from 1 */
    struct set_state set;
    enum side last_first;        /* who served first in the set before */
    bool any_set;
    bool lines_lost;             /* an unread line may have been `set` or `end` */
    uint32_t serve_line;         /* of the last serve, 0: none yet */
    unsigned theirs_told;        /* serves of theirs with record ours: the second shows
                                    that all are written, and the play can't be judged */
    bool sets_unsure;            /* a set's `end` was told: who won it is open */
    uint64_t gone[SIDE_N][2];    /* replaced exceptionally: not to come back */
    uint64_t strangers[SIDE_N][2]; /* told not to be on court: a `sub` may be missing */
    struct told letters_told[26]; /* unknown letters and shirts */
    struct told shirts_told[SIDE_N][SHIRT_MAX + 1];
    uint32_t video_s, video_line;
    unsigned phases;             /* observed now */
    int ring_cm;
    /* The server of `.`. */
    uint8_t same_shirt;
    enum side same_side;
    uint32_t same_replaced_line;
    size_t award_ix;             /* the serve behind the point being given, or NOT_KEPT */
    size_t now_ix;               /* where it is kept, or NOT_KEPT */
};

struct str play_spelt(struct place p);

/* A side's letter, for messages. */
struct str play_name(const struct play *p, enum side side);

/* The team of the letter in word `k`; tells if there is none. */
enum side play_side(struct play *p, const struct stmt *st, char letter, unsigned k);

/* True if the message was told in a line above, which then names this one too. */
bool play_told(struct play *p, struct told *told, enum diag_id id, const struct stmt *st);

/* Sets. */
void play_set(struct play *p, const struct stmt *st);
void play_end(struct play *p, const struct stmt *st);
void play_score(struct play *p, const struct stmt *st);
void play_gap(struct play *p, const struct stmt *st);
void play_forfeit(struct play *p, const struct stmt *st);
void play_finish(struct play *p);

/* Who serves first; SIDE_NONE leaves it to the first serve. */
void play_first(struct play *p, enum side first);

/* Play outside of a set is told once; then a set is taken as open. False only
 * if there can be no further set. */
bool play_in_set(struct play *p, const struct stmt *st);

/* Serves. */
void play_serve(struct play *p, const struct stmt *st, bool quiet);

/* Who won the rally that waited, as the server of the next line tells: with the
 * serves of both teams, and with only ours. SHIRT_NONE: the line does not tell. */
void settle_first(struct play *p, const struct stmt *st, enum side side, uint8_t shirt,
                  bool quiet);
void settle_both(struct play *p, const struct stmt *st, enum side side, uint8_t shirt, bool quiet);
void settle_ours(struct play *p, const struct stmt *st, uint8_t shirt);
void play_turn(struct play *p, const struct stmt *st);

/* Points without a serve, and points taken back. */
void play_point(struct play *p, const struct stmt *st);
void play_cancel(struct play *p, const struct stmt *st);

/* A set of shirts, a bit each. */
static inline bool shirts_hold(const uint64_t set[2], uint8_t shirt) {
    return shirt <= SHIRT_MAX && set[shirt / 64] >> (shirt % 64) & 1;
}

static inline void shirts_add(uint64_t set[2], uint8_t shirt) {
    set[shirt / 64] |= UINT64_C(1) << (shirt % 64);
}

static inline void shirts_drop(uint64_t set[2], uint8_t shirt) {
    set[shirt / 64] &= ~(UINT64_C(1) << (shirt % 64));
}

static inline enum side play_other(enum side side) {
    return side == OURS ? THEIRS : OURS;
}

/* Whether the next point wins the set for this side, by the points as they stand. */
static inline bool play_wins_next(const struct play *p, enum side side) {
    const struct set_state *s = &p->set;
    unsigned points = s->points[side] + 1;
    return points >= s->goal &&
           points >= s->points[play_other(side)] + p->match->profile.lead;
}

/* Notes whether the score has won the set; `line` did it. */
void play_see_if_over(struct play *p, uint32_t line);

/* A side gets the serve: its next player comes to zone 1, her turn begins. */
void play_rotate(struct order *o);
void play_begin_turn(struct set_state *s, enum side side);

/* A point for `side`; a side-out rotates. */
void play_award(struct play *p, enum side side, uint32_t line);

/* Fills the row of a serve, which is all 0 before; `counts` if it is an attempt. */
void play_derive(struct play *p, struct played *r, const struct stmt *st, enum side side,
                 uint8_t shirt, bool counts);

/* The serves so far can't change any more: they go to whoever takes them. */
void play_hand_on(struct play *p);

/* The rally that waited is decided. */
void play_decide(struct play *p, enum side winner, uint32_t line);

/* Writes the winner of the last rally into its row. */
void play_mark(struct play *p, enum side winner);

/* A point too many: of two equal lines since the last agreed score one may be
 * written twice. Points the message to the second, if there is just one such. */
void play_see_twin(struct play *p, struct diag *d, uint32_t line);

/* A rally after the set was won is told. */
void play_tell_over(struct play *p, const struct stmt *st, bool quiet);

/* True if a rally still waits; tells that it needs won or lost. */
bool play_undecided(struct play *p);

/* A turn has ended or its set has: a very long one is remarked upon. */
void play_close_turn(struct play *p);

/* Substitutions by the rules; a breach is told and played all the same. */
void bench_sub(struct play *p, const struct stmt *st, enum side side);

/* What this substitution makes of the two on court. */
void bench_note(struct bench *b, const struct stmt *st);

/* Points a message to the shirt's last substitution; false if there was none. */
bool bench_see(struct play *p, struct diag *d, enum side side, uint8_t shirt);

/* Service order and people on court. */
void order_start(struct order *o);

/* Line-ups, substitutions, time-outs. */
void court_lineup(struct play *p, const struct stmt *st);
void court_sub(struct play *p, const struct stmt *st);
void court_timeout(struct play *p, const struct stmt *st);

/* Notes that the line's message is about a server out of order, before whom the
 * turn had `run` points. */
struct wrong_server *order_told(struct play *p, enum side side, uint32_t line, unsigned run);

/* Points of the turn are taken back. */
void order_cancel(struct play *p, enum side side, unsigned points);

/* Who serves if the next rally is this side's; SHIRT_NONE: not known. */
uint8_t order_due(const struct play *p, enum side side);

/* The shirt's place in the order, as far as it is known; else SLOT_NONE. */
unsigned order_slot(const struct order *o, uint8_t shirt);

/* The line with another server, as a guess. */
struct str play_with_server(struct play *p, struct place server, enum side side, unsigned shirt);

/* The shirt of ours that `l3` may be, 13 with a letter for the 1, where no team
 * has the letter; SHIRT_NONE: none. */
uint8_t letter_as_digit(const struct serve *v);

/* Whether the serve is the other team's by its shirt, which is told, if the line
 * has not had its message (`told`). */
bool letter_slipped(struct play *p, const struct stmt *st, enum side side, uint8_t shirt,
                    bool told);

/* Holds the server against the order; quiet: without a message. Gives the shirt
 * that serves as far as can be told, for a `.` behind. */
uint8_t order_serve(struct play *p, const struct stmt *st, enum side side, uint8_t shirt,
                    bool quiet);

/* Whether the shirt may be the next server after the present one. */
bool order_is_next(const struct order *o, uint8_t shirt);

/* Whether the shirt can be on court, as far as the line-up tells. One who can't
 * is told once: after that the place is hers. */
bool court_holds(struct play *p, enum side side, uint8_t shirt);

/* A rally went astray: a learnt order waits for the next server to find itself. */
void order_doubt(struct order *o);

/* A second toss where the rules have none, or one too many. */
void serve_retoss(struct play *p, const struct stmt *st);

/* Shirts, places and measures of one line. */
bool people_shirt(struct play *p, const struct stmt *st, enum side side, uint8_t shirt, int code);
bool people_may_serve(struct play *p, const struct stmt *st, enum side side, uint8_t shirt);
void people_receiver(struct play *p, const struct stmt *st, enum side receivers);
void place_check(struct play *p, const struct stmt *st);
void measure_check(struct play *p, const struct stmt *st, const struct serve *v);
void measure_routines(struct play *p);
void marks_check(struct play *p, const struct stmt *st);

#endif
