/* Limits of a chart, the test for a trend and its line. The test: W. G. Cochran,
 * Biometrics 10 (1954) 417-451; P. Armitage, Biometrics 11 (1955) 375-386. */
#include "trend.h"

#include <assert.h>
#include <math.h>

#include "stat.h"
#include "twoway.h"

/* ---- limits ---------------------------------------------------------------- */

/* The upper tail of the standard normal distribution at 3, rounded, as charts
 * have it. */
static const double rare = .00135;

struct trend_limits trend_limits(unsigned n, double p) {
    struct trend_limits out = {.has_low = false};
    assert(p > 0 && p < 1);
    for (unsigned x = 0; x <= n && stat_binomial_at_most(x, n, p) <= rare; x++) {
        out.has_low = true;
        out.low = x;
    }
    for (unsigned x = n; x > 0 && stat_binomial_at_least(x, n, p) <= rare; x--) {
        out.has_high = true;
        out.high = x;
    }
    return out;
}

/* ---- before and after ------------------------------------------------------ */

bool trend_change(struct rate before, struct rate after, struct trend_change *out) {
    struct twoway t = twoway_of(after, before);
    if (!rate_difference(after, before, &out->difference))
        return false;
    out->has_mid_p = twoway_compares(t);
    if (out->has_mid_p)
        out->mid_p = twoway_exact(t).two_sided_mid;
    return true;
}

/* ---- the test -------------------------------------------------------------- */

static struct rate all_of(const struct trend_point *points, size_t n) {
    struct rate all = {0, 0};
    for (size_t i = 0; i < n; i++)
        all = rate_sum(all, points[i].rate);
    return all;
}

bool trend_enough(const struct trend_point *points, size_t n) {
    unsigned matches = 0;
    for (size_t i = 0; i < n; i++)
        matches += points[i].rate.n > 0;
    return matches >= TREND_MATCHES_MIN && all_of(points, n).n >= TREND_SERVES_MIN;
}

static bool at_one_time(const struct trend_point *points, size_t n) {
    const struct trend_point *first = NULL;
    for (size_t i = 0; i < n; i++) {
        if (points[i].rate.n == 0)
            continue;
        if (first && first->t != points[i].t)
            return false;
        first = &points[i];
    }
    return true;
}

/* The mean time of a serve; there is one at least. */
static double middle_of(const struct trend_point *points, size_t n) {
    double sum = 0;
    for (size_t i = 0; i < n; i++)
        sum += points[i].rate.n * points[i].t;
    return sum / all_of(points, n).n;
}

/* The variance of a serve's time. */
static double spread_about(double middle, const struct trend_point *points, size_t n) {
    double sum = 0;
    for (size_t i = 0; i < n; i++)
        sum += points[i].rate.n * (points[i].t - middle) * (points[i].t - middle);
    return sum / all_of(points, n).n;
}

bool trend_test(const struct trend_point *points, size_t n, struct trend_test *out) {
    struct rate all = all_of(points, n);
    double along = 0;
    if (all.x == 0 || all.x == all.n || at_one_time(points, n))
        return false;
    double p = rate_frac(all), middle = middle_of(points, n);
    for (size_t i = 0; i < n; i++)
        along += (points[i].t - middle) * (points[i].rate.x - points[i].rate.n * p);
    out->chi2 = along * along / (p * (1 - p) * spread_about(middle, points, n) * all.n);
    out->p = stat_chi_square_upper(out->chi2, 1);
    return true;
}

/* ---- the line -------------------------------------------------------------- */

static double logistic(double x) {
    return 1 / (1 + exp(-x));
}

double trend_line_frac(const struct trend_line *line, double t) {
    return logistic(line->intercept + line->slope * t);
}

/* A symmetric matrix of the two coefficients: [a b; b c]. */
struct matrix {
    double a, b, c;
};

static void add_square(struct matrix *m, double weight, double t) {
    m->a += weight;
    m->b += weight * t;
    m->c += weight * t * t;
}

/* False if too little is left to invert. */
static bool invert(struct matrix *m) {
    double det = m->a * m->c - m->b * m->b;
    if (!(det > 1e-12 * m->a * m->c))
        return false;
    *m = (struct matrix){m->c / det, -m->b / det, m->a / det};
    return true;
}

/* The line while it is sought, on a time of its own: from the mean, where the
 * two coefficients hardly depend on each other, in standard deviations, so that
 * neither is far from 1. */
struct search {
    double middle, unit;
    double height, slope;
    struct matrix covariance;    /* of the two */
};

static double time_of(const struct search *s, const struct trend_point *at) {
    return (at->t - s->middle) / s->unit;
}

static double frac_at(const struct search *s, const struct trend_point *at) {
    return logistic(s->height + s->slope * time_of(s, at));
}

/* The inverse of the information; false if that is lost, the line being too
 * steep. */
static bool find_covariance(struct search *s, const struct trend_point *points, size_t n) {
    struct matrix info = {0};
    for (size_t i = 0; i < n; i++) {
        double p = frac_at(s, &points[i]);
        add_square(&info, points[i].rate.n * p * (1 - p), time_of(s, &points[i]));
    }
    s->covariance = info;
    return invert(&s->covariance);
}

/* How much the line leans on a point; over all points it adds up to 2. */
static double leverage(const struct search *s, const struct trend_point *at) {
    const struct matrix *v = &s->covariance;
    double p = frac_at(s, at), t = time_of(s, at);
    return at->rate.n * p * (1 - p) * (v->a + 2 * t * v->b + t * t * v->c);
}

/* One step of Newton's method; its length, 2 at most, or infinite when the line
 * is too steep already. Under the penalty the leverage of a point joins its
 * serves, half of it missed. */
static double step(struct search *s, const struct trend_point *points, size_t n,
                   enum trend_penalty penalty) {
    double score = 0, score_slope = 0;
    struct matrix by = {0};
    for (size_t i = 0; i < n; i++) {
        double t = time_of(s, &points[i]), p = frac_at(s, &points[i]);
        double more = penalty == TREND_FIRTH ? leverage(s, &points[i]) : 0;
        double serves = points[i].rate.n + more, off = points[i].rate.x + more / 2 - serves * p;
        add_square(&by, serves * p * (1 - p), t);
        score += off;
        score_slope += off * t;
    }
    if (!invert(&by))
        return HUGE_VAL;
    double up = by.a * score + by.b * score_slope, steeper = by.b * score + by.c * score_slope;
    double length = fmax(fabs(up), fabs(steeper)), part = length > 2 ? 2 / length : 1;
    s->height += part * up;
    s->slope += part * steeper;
    return part * length;
}

/* The same line from t = 0. */
static struct trend_line line_of(const struct search *s) {
    const struct matrix *v = &s->covariance;
    double zero = -s->middle / s->unit;
    return (struct trend_line){
        .intercept = s->height + s->slope * zero,
        .slope = s->slope / s->unit,
        .intercept_se = sqrt(v->a + 2 * zero * v->b + zero * zero * v->c),
        .slope_se = sqrt(v->c) / s->unit,
    };
}

bool trend_line(const struct trend_point *points, size_t n, enum trend_penalty penalty,
                struct trend_line *out) {
    enum { STEPS_MOST = 200 };
    if (at_one_time(points, n))
        return false;
    double middle = middle_of(points, n);
    struct search s = {.middle = middle, .unit = sqrt(spread_about(middle, points, n))};
    for (unsigned i = 0; i < STEPS_MOST && find_covariance(&s, points, n); i++)
        if (step(&s, points, n, penalty) < 1e-10) {
            *out = line_of(&s);
            return true;
        }
    return false;
}
