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

bool trend_test(const struct trend_point *points, size_t n, struct trend_test *out) {
    struct rate all = all_of(points, n);
    double along = 0, spread = 0;
    if (all.x == 0 || all.x == all.n || at_one_time(points, n))
        return false;
    double p = rate_frac(all), middle = middle_of(points, n);
    for (size_t i = 0; i < n; i++) {
        double t = points[i].t - middle;
        along += t * (points[i].rate.x - points[i].rate.n * p);
        spread += t * t * points[i].rate.n;
    }
    out->chi2 = along * along / (p * (1 - p) * spread);
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

/* The line while it is sought: its height at the middle, where the two
 * coefficients hardly depend on each other, and their covariance [a b; b c]. */
struct search {
    double middle, height, slope;
    double a, b, c;
};

static double frac_at(const struct search *s, const struct trend_point *at) {
    return logistic(s->height + s->slope * (at->t - s->middle));
}

/* The weight of a point in the information. */
static double weight_at(const struct search *s, const struct trend_point *at) {
    double p = frac_at(s, at);
    return at->rate.n * p * (1 - p);
}

/* The covariance is the inverse of the information; false if that is lost, the
 * line being too steep. */
static bool find_covariance(struct search *s, const struct trend_point *points, size_t n) {
    double a = 0, b = 0, c = 0;
    for (size_t i = 0; i < n; i++) {
        double w = weight_at(s, &points[i]), t = points[i].t - s->middle;
        a += w;
        b += w * t;
        c += w * t * t;
    }
    double det = a * c - b * b;
    if (!(det > 1e-12 * a * c))
        return false;
    s->a = c / det;
    s->b = -b / det;
    s->c = a / det;
    return true;
}

/* One step of Newton's method, and how long it was. With the penalty each point
 * counts half of its leverage as a miss and half as a good serve. */
static double step(struct search *s, const struct trend_point *points, size_t n,
                   enum trend_penalty penalty) {
    double score = 0, score_slope = 0;
    for (size_t i = 0; i < n; i++) {
        double t = points[i].t - s->middle, p = frac_at(s, &points[i]);
        double leverage = weight_at(s, &points[i]) * (s->a + 2 * t * s->b + t * t * s->c);
        double off = points[i].rate.x - points[i].rate.n * p;
        if (penalty == TREND_FIRTH)
            off += leverage * (.5 - p);
        score += off;
        score_slope += off * t;
    }
    double up = fmax(-2, fmin(2, s->a * score + s->b * score_slope));
    double steeper = fmax(-2, fmin(2, s->b * score + s->c * score_slope));
    s->height += up;
    s->slope += steeper;
    return fmax(fabs(up), fabs(steeper));
}

/* The same line from t = 0. */
static struct trend_line line_of(const struct search *s) {
    double m = s->middle;
    return (struct trend_line){
        .intercept = s->height - s->slope * m,
        .slope = s->slope,
        .intercept_se = sqrt(s->a - 2 * m * s->b + m * m * s->c),
        .slope_se = sqrt(s->c),
    };
}

bool trend_line(const struct trend_point *points, size_t n, enum trend_penalty penalty,
                struct trend_line *out) {
    enum { STEPS_MOST = 200 };
    if (at_one_time(points, n))
        return false;
    struct search s = {.middle = middle_of(points, n)};
    for (unsigned i = 0; i < STEPS_MOST && find_covariance(&s, points, n); i++)
        if (step(&s, points, n, penalty) < 1e-10) {
            *out = line_of(&s);
            return true;
        }
    return false;
}
