#include "twoway.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "stat.h"
#include "stat/bisect.h"


struct twoway twoway_of(struct rate with, struct rate without) {
    assert(with.x <= with.n && without.x <= without.n);
    return (struct twoway){with.x, with.n - with.x, without.x, without.n - without.x};
}

struct rate twoway_with(struct twoway t) {
    return (struct rate){t.a, t.a + t.b};
}

struct rate twoway_without(struct twoway t) {
    return (struct rate){t.c, t.c + t.d};
}

bool twoway_compares(struct twoway t) {
    return (t.a || t.b) && (t.c || t.d) && (t.a || t.c) && (t.b || t.d);
}

bool twoway_may_test(struct twoway t) {
    return twoway_compares(t) && t.a + t.b >= TWOWAY_FEWEST && t.a + t.c >= TWOWAY_FEWEST;
}

/* ---- relative risk -------------------------------------------------------- */

/* x1 of n1 with the mark, x2 of n2 without, and which end is looked for. */
struct koopman {
    double x1, n1, x2, n2;
    bool upper;
};

static double far_off(double x, double n, double p) {
    double off = x - n * p;
    return off == 0 ? 0 : off * off / (n * p * (1 - p));
}

/* Koopman's chi-square of a ratio, with the shares that are likeliest under it;
 * the quadratic's root is written without a difference of like numbers. */
static double koopman_chi_square(const struct koopman *k, double ratio) {
    double n = k->n1 + k->n2, m = k->x1 + k->x2;
    double b = k->n1 * ratio + k->x1 + k->n2 + k->x2 * ratio;
    double p2 = 2 * m / (b + sqrt(fmax(0, b * b - 4 * n * ratio * m)));
    double p1 = fmin(1, ratio * p2);
    return far_off(k->x1, k->n1, p1) + far_off(k->x2, k->n2, p2);
}

/* Rises on the side of the ratio on which it is used. */
static double past_limit(double log_ratio, const void *with) {
    const struct koopman *k = with;
    double past = koopman_chi_square(k, exp(log_ratio)) - RATE_Z * RATE_Z;
    return k->upper ? past : -past;
}

struct twoway_risk twoway_risk(struct twoway t) {
    static const double log_most = 25; /* far above any ratio of whole counts */
    struct rate with = twoway_with(t), without = twoway_without(t);
    struct koopman k = {.x1 = with.x, .n1 = with.n, .x2 = without.x, .n2 = without.n};
    struct twoway_risk out = {.bounded = without.x > 0};
    double log_low = -log_most, log_high = log_most;

    assert(twoway_compares(t));
    if (out.bounded)
        out.ratio = rate_frac(with) / rate_frac(without);
    if (with.x > 0 && out.bounded)
        log_low = log_high = log(out.ratio);
    if (with.x > 0)
        out.low = exp(bisect(-log_most, log_high, past_limit, &k));
    k.upper = true;
    if (out.bounded)
        out.high = exp(bisect(log_low, log_most, past_limit, &k));
    return out;
}

/* ---- Fisher's test -------------------------------------------------------- */

struct twoway_exact twoway_exact(struct twoway t) {
    /* Equal likelihoods may differ in their last digits. */
    static const double nearly = 1 + 1e-7;
    unsigned with = t.a + t.b, without = t.c + t.d, events = t.a + t.c;
    unsigned least = events > without ? events - without : 0;
    unsigned most = events < with ? events : with;
    double here = stat_hypergeometric(t.a, with, without, events);
    struct twoway_exact out = {0, 0, 0, 0};

    assert(twoway_compares(t));
    for (unsigned k = least; k <= most; k++) {
        double p = stat_hypergeometric(k, with, without, events);
        if (k >= t.a)
            out.one_sided += p;
        if (p <= here * nearly)
            out.two_sided += p;
    }
    out.one_sided = fmin(1, out.one_sided);
    out.two_sided = fmin(1, out.two_sided);
    out.one_sided_mid = out.one_sided - here / 2;
    out.two_sided_mid = out.two_sided - here / 2;
    return out;
}

bool twoway_serves_to_tell(double one_frac, double other_frac, unsigned *out) {
    double apart = one_frac - other_frac, mean = (one_frac + other_frac) / 2;
    double equal = sqrt(2 * mean * (1 - mean));
    double unequal = sqrt(one_frac * (1 - one_frac) + other_frac * (1 - other_frac));
    double n_root = RATE_Z * equal + stat_normal_quantile(.8) * unequal;

    if (n_root * n_root > TWOWAY_SERVES_MOST * apart * apart || apart == 0)
        return false;
    *out = (unsigned)ceil(n_root * n_root / (apart * apart));
    return true;
}

/* ---- many tables ---------------------------------------------------------- */

struct ranked {
    double p;
    size_t ix;
};

static int by_p(const void *left, const void *right) {
    const struct ranked *a = left, *b = right;
    return (a->p > b->p) - (a->p < b->p);
}

void twoway_adjust(const double *p, size_t n, double *adjusted, struct arena *a) {
    struct ranked *sorted = arena_alloc(a, n, sizeof *sorted);
    double least = 1;

    for (size_t i = 0; i < n; i++)
        sorted[i] = (struct ranked){p[i], i};
    qsort(sorted, n, sizeof *sorted, by_p);
    for (size_t rank = n; rank > 0; rank--) {
        least = fmin(least, sorted[rank - 1].p * (double)n / (double)rank);
        adjusted[sorted[rank - 1].ix] = least;
    }
}

/* What the tables add to the four sums of the ratios and to the test. */
struct sums {
    double odds, odds_below, risk, risk_below;
    double beyond; /* events with the mark, above what the margins expect */
    double variance;
};

static void add_table(struct sums *s, struct twoway t) {
    double a = t.a, b = t.b, c = t.c, d = t.d, n = a + b + c + d;

    if (!twoway_compares(t))
        return;
    s->odds += a * d / n;
    s->odds_below += b * c / n;
    s->risk += a * (c + d) / n;
    s->risk_below += c * (a + b) / n;
    s->beyond += a - (a + b) * (a + c) / n;
    s->variance += (a + b) * (c + d) * (a + c) * (b + d) / (n * n * (n - 1));
}

bool twoway_pool(const struct twoway *tables, size_t n, struct twoway_pooled *out) {
    struct sums s = {0};
    double beyond;

    for (size_t i = 0; i < n; i++)
        add_table(&s, tables[i]);
    if (s.variance == 0)
        return false;
    *out =
        (struct twoway_pooled){.odds_bounded = s.odds_below > 0, .risk_bounded = s.risk_below > 0};
    if (out->odds_bounded)
        out->odds_ratio = s.odds / s.odds_below;
    if (out->risk_bounded)
        out->risk_ratio = s.risk / s.risk_below;
    beyond = fmax(0, fabs(s.beyond) - .5);
    out->chi_square = s.beyond * s.beyond / s.variance;
    out->corrected_chi_square = beyond * beyond / s.variance;
    out->p = stat_chi_square_upper(out->chi_square, 1);
    out->corrected_p = stat_chi_square_upper(out->corrected_chi_square, 1);
    return true;
}
