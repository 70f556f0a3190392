/* The one alarm of a series of serves: a cumulative sum, and its run length
 * from the chain of its states 0 to alarm - 1. */
#include "trend.h"

#include <assert.h>
#include <math.h>

/* ---- the sum --------------------------------------------------------------- */

double trend_changed(enum trend_way way, double p0) {
    return way == TREND_WORSE ? 2 * p0 : p0 / 2;
}

/* The sum after a serve; `alarm` or more ends it. */
static unsigned after(const struct trend_cusum *c, unsigned sum, bool up) {
    if (up)
        return sum + c->up;
    return sum > c->down ? sum - c->down : 0;
}

bool trend_serve(const struct trend_cusum *c, unsigned *sum, bool missed) {
    *sum = after(c, *sum, missed == (c->way == TREND_WORSE));
    if (*sum < c->alarm)
        return false;
    *sum = 0;
    return true;
}

static double p_up(const struct trend_cusum *c, double p) {
    return c->way == TREND_WORSE ? p : 1 - p;
}

/* ---- run length ------------------------------------------------------------ */

/* States that may still be left, with the probability of each move, that of the
 * alarm, and the serves that a visit lasts. */
struct chain {
    unsigned n;
    double *move;                /* [from * n + to] */
    double *ends, *serves;
};

static struct chain chain_of(const struct trend_cusum *c, double p, struct arena *a) {
    struct chain h = {.n = c->alarm};
    h.move = arena_alloc(a, (size_t)h.n * h.n, sizeof *h.move);
    h.ends = arena_alloc(a, h.n, sizeof *h.ends);
    h.serves = arena_alloc(a, h.n, sizeof *h.serves);
    for (unsigned from = 0; from < h.n; from++) {
        unsigned up = after(c, from, true);
        if (up < h.n)
            h.move[from * h.n + up] += p_up(c, p);
        else
            h.ends[from] = p_up(c, p);
        h.move[from * h.n + after(c, from, false)] += 1 - p_up(c, p);
        h.serves[from] = 1;
    }
    return h;
}

/* Takes the last state out: whoever would go there goes on from it at once. A
 * stay in a state is written off against the ways out of it, so that nothing is
 * subtracted and no digit lost, however long the run (W. K. Grassmann, M. I.
 * Taksar, D. P. Heyman, Oper. Res. 33 (1985) 1107-1116). */
static void take_out(struct chain *h, unsigned last) {
    const double *out = &h->move[last * h->n];
    double leaves = h->ends[last];
    for (unsigned to = 0; to < last; to++)
        leaves += out[to];
    for (unsigned from = 0; from < last; from++) {
        double visits = h->move[from * h->n + last] / leaves;
        if (visits == 0)
            continue;
        for (unsigned to = 0; to < last; to++)
            h->move[from * h->n + to] += visits * out[to];
        h->ends[from] += visits * h->ends[last];
        h->serves[from] += visits * h->serves[last];
    }
}

double trend_serves_to_alarm(const struct trend_cusum *c, double p, struct arena *a) {
    assert(c->up && c->down && c->alarm && p > 0 && p < 1);
    struct chain h = chain_of(c, p, a);
    for (unsigned last = h.n - 1; last > 0; last--)
        take_out(&h, last);
    return h.serves[0] / h.ends[0];
}

double trend_alarm_within(const struct trend_cusum *c, double p, unsigned serves) {
    double now[TREND_ALARM_MOST] = {1}, ended = 0;
    assert(c->alarm <= TREND_ALARM_MOST);
    for (unsigned i = 0; i < serves; i++) {
        double next[TREND_ALARM_MOST] = {0};
        for (unsigned sum = 0; sum < c->alarm; sum++) {
            unsigned up = after(c, sum, true);
            *(up < c->alarm ? &next[up] : &ended) += now[sum] * p_up(c, p);
            next[after(c, sum, false)] += now[sum] * (1 - p_up(c, p));
        }
        for (unsigned sum = 0; sum < c->alarm; sum++)
            now[sum] = next[sum];
    }
    return ended;
}

/* ---- its numbers ----------------------------------------------------------- */

/* A miss moves the sum by `step` good serves: the log likelihoods of p1 and p0
 * in the nearest ratio of whole numbers. */
static bool steps_of(struct trend_cusum *c, double p0, double p1) {
    double step = round(fabs(log(p1 / p0) / log((1 - p1) / (1 - p0))));
    if (step < 1 || step > TREND_ALARM_MOST)
        return false;
    c->up = c->way == TREND_WORSE ? (unsigned)step : 1;
    c->down = c->way == TREND_WORSE ? 1 : (unsigned)step;
    return true;
}

static bool is_calm(struct trend_cusum *c, unsigned alarm, double p0, struct arena *a) {
    c->alarm = alarm;
    return trend_serves_to_alarm(c, p0, a) >= TREND_CALM_SERVES;
}

bool trend_cusum(enum trend_way way, double p0, double p1, struct arena *a,
                 struct trend_cusum *out) {
    struct trend_cusum c = {.way = way};
    unsigned restless = 0, calm = 1;
    bool inside = p0 > 0 && p0 < 1 && p1 > 0 && p1 < 1;
    if (!inside || p0 == p1 || (p1 > p0) != (way == TREND_WORSE) || !steps_of(&c, p0, p1))
        return false;
    while (!is_calm(&c, calm, p0, a)) {
        restless = calm;
        calm *= 2;
        if (calm > TREND_ALARM_MOST)
            return false;
    }
    while (calm - restless > 1) {
        unsigned middle = (restless + calm) / 2;
        *(is_calm(&c, middle, p0, a) ? &calm : &restless) = middle;
    }
    c.alarm = calm;
    *out = c;
    return true;
}
