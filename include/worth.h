/* What points on serve are worth in sets and matches. Two shares describe a
 * match: how many of the rallies that we serve we win, and how many of theirs
 * they win; each rally is taken as independent of the others. From these the
 * chances are exact, by recursion over the score. A model of this kind: M.
 * Ferrante, G. Fonseca, On the winning probabilities and mean durations of
 * volleyball, J. Quant. Anal. Sports 10 (2014), found adequate for four top
 * teams. The figures are for the shares of a season; of one match, or of one
 * player, they say nothing. All shares and chances are fractions, 0 to 1. */
#ifndef NINEMETRE_WORTH_H
#define NINEMETRE_WORTH_H

#include <stdbool.h>

enum worth_side { WORTH_US, WORTH_THEM };

/* Rallies won by the side that serves them. Values outside of 1e-6 to 1 - 1e-6
 * are taken as that bound: a set in which no server ever wins has no end. */
struct worth_serve {
    double us_frac, them_frac;
};

enum { WORTH_POINTS_MAX = 99 };

/* A set goes to `points`, two ahead; both values at most WORTH_POINTS_MAX. With
 * a cap, which is not below `points`, whoever has so many points has won. */
struct worth_rules {
    unsigned points;             /* at least 1 */
    unsigned cap;                /* 0: none */
};

struct worth_score {
    unsigned us, them;
    enum worth_side serves;
};

/* What may come from a score on. */
struct worth_set {
    double won_frac;             /* we win the set */
    double level_frac;           /* it comes to one point short of the end each: 24-24 */
    double rallies_n, served_n;  /* expected; those that we serve */
};

struct worth_set worth_set(struct worth_serve p, struct worth_rules rules,
                           struct worth_score from);

/* A whole set when a coin decides who serves first. */
struct worth_set worth_set_mean(struct worth_serve p, struct worth_rules rules);

/* How far the chance of the set lies apart after this rally won and lost (C.
 * Morris, The most important points in tennis, 1977); 0 when the set is over. */
double worth_importance(struct worth_serve p, struct worth_rules rules, struct worth_score at);

struct worth_match {
    struct worth_rules set, decider;
    unsigned to_win;             /* sets, at least 1: 3 in best of 5 */
};

/* We win the match. A toss decides who serves first in set 1 and in the decider;
 * between them it changes from set to set (FIVB 2025-2028, 7.1 and 12.1). */
double worth_match(struct worth_serve p, const struct worth_match *m);

struct worth_gain {
    double set_frac, match_frac;
};

/* What is gained when our share rises by `plus_frac` (lost: below 0). */
struct worth_gain worth_gain(struct worth_serve p, const struct worth_match *m, double plus_frac);

/* The share of errors up to which a harder serve pays: now we win `won_frac` of
 * all our serves, with the harder one `harder_frac` of those in play. False
 * when it does not pay even without an error. */
bool worth_break_even(double won_frac, double harder_frac, double *out);

#endif
