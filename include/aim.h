/* Where to aim: the place whose mean value, over all the places where the ball
 * then comes down, is the largest. R. Tibshirani, A. Price, J. Taylor, J. R. Stat.
 * Soc. A 174 (2011) 213-226, who did it for darts; here the target is the court
 * and the tape stands before it. */
#ifndef NINEMETRE_AIM_H
#define NINEMETRE_AIM_H

#include "arena.h"
#include "rate.h"
#include "scatter.h"

/* ---- the best aim at any target -------------------------------------------- */

/* What an aim is worth, and the part of the plane to look at first, on a grid;
 * lengths in any one unit. */
struct aim_target {
    double (*value)(const void *facts, double x, double d);
    const void *facts;
    double x0, x1, d0, d1, step;
};

struct aim_best {
    double x, d, value;
};

/* From every local maximum of the grid that comes within a tenth of the best, on
 * by the method of J. A. Nelder, R. Mead, Computer J. 7 (1965) 308-313. Values
 * are 0 or more. The arena is used while it looks. */
struct aim_best aim_search(const struct aim_target *target, struct arena *a);

/* ---- the court --------------------------------------------------------------- */

enum { AIM_ZONES = 7 };          /* by number, from 1 */

/* The floor of a zone; equal limits are a point. Zones are 3 m wide, 2 3 4 lie
 * before the attack line (common practice, no source: the rules number players). */
struct aim_area {
    double x0_m, x1_m, d0_m, d1_m;
};

struct aim_area aim_zone(unsigned zone);

struct aim_court {
    double worth[AIM_ZONES];     /* of a serve that lands there; net and outs: 0 */
    double tape_m, tau_m;        /* as in scatter.h */
    struct scatter scatter;      /* about the aim: x_m and d_m are the bias */
};

/* What a serve aimed at x, d is worth on average. */
double aim_value(const struct aim_court *court, double x_m, double d_m);

/* How many of them come down in the court. */
double aim_in_frac(const struct aim_court *court, double x_m, double d_m);

struct aim_best aim_at_court(const struct aim_court *court, struct arena *a);

/* ---- advice for one server --------------------------------------------------- */

/* An aim and how many serves had it. */
struct aim_used {
    double x_m, d_m;
    unsigned n;
};

struct aim_question {
    const struct scatter_seen *seen; /* of her aimed serves, relative to the aim */
    size_t seen_n;
    const struct aim_used *used;
    size_t used_n;
    unsigned serves_n;           /* all her serves of the kind, aimed or not */
    enum scatter_shape shape;
    double worth[AIM_ZONES];
    double tape_m, tau_m;        /* tape relative to the net */
};

/* By one place of the tape. */
struct aim_case {
    double tape_m;
    struct scatter scatter;      /* about the aim */
    struct aim_best best;
    double best_in_frac;
    double now, now_in_frac;     /* of the aims that she uses */
};

enum aim_shift { AIM_AS_IT_IS, AIM_NEARER, AIM_FARTHER, AIM_SHIFTS };

/* The tape is known to about so much, and everything depends on it. */
enum { AIM_SHIFT_CM = 50 };

struct aim_answer {
    enum say_aim say;            /* whose scatter the advice rests on */
    unsigned aimed_n;
    struct aim_case by[AIM_SHIFTS];
};

/* At least one serve is aimed. With SAY_AIM_GENERAL the scatter is the one
 * assumed of anybody (scatter_prior_aimed), and nothing of hers is in `best`. */
struct aim_answer aim_advise(const struct aim_question *q, struct arena *a);

/* What a serve aimed there is worth above those aimed as now: the least and the
 * most of it over the places of the tape. */
struct interval aim_gain(const struct aim_answer *answer);

/* Whether that is a reason to change her aim. */
bool aim_pays(const struct aim_answer *answer);

#endif
