/* Lifelike notes out of a seed: whole matches and practices in canonical
 * spelling, played by the rules (service order, side-outs, sets to 25 and 15
 * by two, best of five, substitutions, time-outs). Benchmarks, fuzz seeds and
 * property tests are fed from here. The shares of aces and errors are meant to
 * look like a club's (common practice, no source); nobody may quote them.
 * This file spells the notation out for itself, on purpose: it takes nothing
 * from grammar/, so that it can disagree with it. */
#ifndef NINEMETRE_TESTS_LIFELIKE_H
#define NINEMETRE_TESTS_LIFELIKE_H

#include "dice.h"
#include "str.h"

enum life_detail { LIFE_BARE, LIFE_USUAL, LIFE_RICH };

struct life_style {
    enum life_detail detail;   /* how much a line says */
    bool ours_only;            /* record ours */
    bool rare;                 /* also cancel, gap, forfeit, turn, order */
    bool whole;                /* players stand in the file itself, no squad line */
};

enum life_type { LIFE_TOPSPIN, LIFE_JUMPFLOAT, LIFE_FLOAT, LIFE_TYPES };

enum { LIFE_PLAYERS = 12, LIFE_COURT = 6 };

struct life_player {
    const char *first, *last;
    unsigned shirt;
    enum life_type type;
    char third;                    /* r m l */
    unsigned paces, steps;
    int toss_cm;
    unsigned ace, error;           /* per mille of her serves */
    unsigned habit;                /* her usual fault, an index of life_marks */
    bool lefthanded;
};

/* players[LIFE_PLAYERS] is the libero. */
struct life_team {
    char letter;
    const char *name;
    struct life_player players[LIFE_PLAYERS + 1];
};

/* A team of invented people; `letter` picks the club. */
void life_team_draw(struct life_team *t, char letter, uint64_t seed);

/* Its squad file. */
void life_squad(struct buf *out, const struct life_team *t);

/* What was written, counted here and not by the program under test: lines of
 * serves, and of each team its attempts, aces (an overlap is one), errors and
 * serves that broke the pass (ace, over, in1); the sets' points, ours first. */
struct life_totals {
    unsigned written;
    unsigned attempts[2], aces[2], errors[2], broke[2];
    unsigned set_n, points[5][2], sets_won[2];
};

/* A whole match on day `day` of the season. */
struct life_totals life_match(struct buf *out, const struct life_team *ours, struct life_style style,
                    unsigned day, uint64_t seed);

/* A practice with at least `serve_n` lines of serves. */
unsigned life_practice(struct buf *out, const struct life_team *ours, unsigned serve_n,
                       struct life_style style, unsigned day, uint64_t seed);

#endif
