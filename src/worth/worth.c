/* Exact chances of a set and a match. A rally won keeps or takes the serve, so
 * the score and who serves are all there is to know. From one point short each
 * on, a set without a cap repeats itself; there the sum has a closed form. */
#include "worth.h"

#include <assert.h>
#include <math.h>

static double clamped(double frac) {
    return fmin(fmax(frac, 1e-6), 1 - 1e-6);
}

static struct worth_serve guarded(struct worth_serve p) {
    return (struct worth_serve){clamped(p.us_frac), clamped(p.them_frac)};
}

static struct worth_set mixed(struct worth_set a, double a_frac, struct worth_set b) {
    double b_frac = 1 - a_frac;
    return (struct worth_set){
        .won_frac = a_frac * a.won_frac + b_frac * b.won_frac,
        .level_frac = a_frac * a.level_frac + b_frac * b.level_frac,
        .rallies_n = a_frac * a.rallies_n + b_frac * b.rallies_n,
        .served_n = a_frac * a.served_n + b_frac * b.served_n,
    };
}

/* ---- one set ------------------------------------------------------------- */

/* From a level score, two rallies end the set or make it level again. `us` and
 * `them` are what a value gains in them, when we serve and when they do. */
static double from_level(struct worth_serve p, double us, double them, enum worth_side serves) {
    double pa = p.us_frac, pb = p.them_frac, qa = 1 - pa, qb = 1 - pb;
    double d = (1 - qa * qb) * (1 - qa * qb) - pa * qa * pb * qb;
    if (serves == WORTH_US)
        return (us * (1 - qa * qb) + them * pa * qa) / d;
    return (them * (1 - qa * qb) + us * pb * qb) / d;
}

static struct worth_set level(struct worth_serve p, enum worth_side serves) {
    double pa = p.us_frac, qb = 1 - p.them_frac;
    return (struct worth_set){
        .won_frac = from_level(p, pa * pa, pa * qb, serves),
        .level_frac = 1,
        .rallies_n = from_level(p, 2, 2, serves),
        .served_n = from_level(p, 1 + pa, qb, serves),
    };
}

static bool ended(struct worth_rules rules, unsigned i, unsigned j) {
    unsigned more = i > j ? i : j, less = i > j ? j : i;
    return (more >= rules.points && more - less >= 2) || (rules.cap && more >= rules.cap);
}

/* One of them serves at i-j; then it stands there as `up` (our point) or as
 * `down` (theirs), with the winner of the rally serving. */
static struct worth_set at_score(struct worth_serve p, struct worth_rules rules, unsigned i,
                                 unsigned j, enum worth_side serves, struct worth_set up,
                                 struct worth_set down) {
    bool is_level = i == j && i + 1 == rules.points;
    if (ended(rules, i, j))
        return (struct worth_set){.won_frac = i > j};
    if (is_level && !rules.cap)
        return level(p, serves);
    struct worth_set out = mixed(up, serves == WORTH_US ? p.us_frac : 1 - p.them_frac, down);
    out.rallies_n += 1;
    out.served_n += serves == WORTH_US;
    if (is_level)
        out.level_frac = 1;
    return out;
}

/* Without a cap, 27-26 is as good as 24-23. */
static struct worth_score reduced(struct worth_rules rules, struct worth_score s) {
    unsigned more = s.us > s.them ? s.us : s.them, less = s.us > s.them ? s.them : s.us;
    if (rules.cap || more - less > 1 || more < rules.points)
        return s;
    unsigned over = more + 1 - rules.points;
    return (struct worth_score){s.us - over, s.them - over, s.serves};
}

/* Row by row from the end of the set: `row` holds the scores of i + 1 points
 * of ours until those of i take their places. */
struct worth_set worth_set(struct worth_serve p, struct worth_rules rules,
                           struct worth_score from) {
    struct worth_set row[2][WORTH_POINTS_MAX + 2] = {{{0}}};
    unsigned last = rules.cap ? rules.cap : rules.points;
    assert(rules.points >= 1 && last >= rules.points && last <= WORTH_POINTS_MAX);
    if (ended(rules, from.us, from.them))
        return (struct worth_set){.won_frac = from.us > from.them};
    from = reduced(rules, from);
    p = guarded(p);
    for (unsigned i = last + 1; i-- > from.us;)
        for (unsigned j = last + 1; j-- > from.them;) {
            struct worth_set up = row[WORTH_US][j], down = row[WORTH_THEM][j + 1];
            for (enum worth_side s = WORTH_US; s <= WORTH_THEM; s++)
                row[s][j] = at_score(p, rules, i, j, s, up, down);
        }
    return row[from.serves][from.them];
}

struct worth_set worth_set_mean(struct worth_serve p, struct worth_rules rules) {
    return mixed(worth_set(p, rules, (struct worth_score){0, 0, WORTH_US}), .5,
                 worth_set(p, rules, (struct worth_score){0, 0, WORTH_THEM}));
}

double worth_importance(struct worth_serve p, struct worth_rules rules, struct worth_score at) {
    struct worth_score up = {at.us + 1, at.them, WORTH_US}, down = {at.us, at.them + 1, WORTH_THEM};
    if (ended(rules, at.us, at.them))
        return 0;
    return worth_set(p, rules, up).won_frac - worth_set(p, rules, down).won_frac;
}

/* ---- a match ------------------------------------------------------------- */

/* Chances of one set, by who serves first; the decider begins with a toss. */
struct sets {
    unsigned to_win;
    double set[2], decider;
};

static double from_sets(const struct sets *m, unsigned us, unsigned them, enum worth_side first) {
    enum worth_side then = first == WORTH_US ? WORTH_THEM : WORTH_US;
    bool decides = us + 1 == m->to_win && them + 1 == m->to_win;
    double chance = decides ? m->decider : m->set[first];
    if (us == m->to_win || them == m->to_win)
        return us > them;
    return chance * from_sets(m, us + 1, them, then) +
           (1 - chance) * from_sets(m, us, them + 1, then);
}

double worth_match(struct worth_serve p, const struct worth_match *m) {
    struct sets sets = {m->to_win, {0}, worth_set_mean(p, m->decider).won_frac};
    for (enum worth_side s = WORTH_US; s <= WORTH_THEM; s++)
        sets.set[s] = worth_set(p, m->set, (struct worth_score){0, 0, s}).won_frac;
    return (from_sets(&sets, 0, 0, WORTH_US) + from_sets(&sets, 0, 0, WORTH_THEM)) / 2;
}

struct worth_gain worth_gain(struct worth_serve p, const struct worth_match *m, double plus_frac) {
    struct worth_serve then = {clamped(p.us_frac + plus_frac), p.them_frac};
    return (struct worth_gain){
        worth_set_mean(then, m->set).won_frac - worth_set_mean(p, m->set).won_frac,
        worth_match(then, m) - worth_match(p, m),
    };
}

bool worth_break_even(double won_frac, double harder_frac, double *out) {
    if (harder_frac <= 0 || won_frac > harder_frac)
        return false;
    *out = 1 - won_frac / harder_frac;
    return true;
}
