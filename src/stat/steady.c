#include "steady.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "stat.h"

static double mean_of(const double *values, size_t n) {
    double sum = 0;
    for (size_t i = 0; i < n; i++)
        sum += values[i];
    return sum / (double)n;
}

static double squares_about(const double *values, size_t n, double centre) {
    double sum = 0;
    for (size_t i = 0; i < n; i++)
        sum += (values[i] - centre) * (values[i] - centre);
    return sum;
}

bool steady_spread(const double *values, size_t n, struct steady_spread *out) {
    if (n < 2)
        return false;
    double df = (double)n - 1;
    out->mean = mean_of(values, n);
    out->sd = sqrt(squares_about(values, n, out->mean) / df);
    out->of_sd.low = out->sd * sqrt(df / stat_chi_square_quantile(.975, df));
    out->of_sd.high = out->sd * sqrt(df / stat_chi_square_quantile(.025, df));
    return true;
}

struct rate steady_as_said(const unsigned *values, size_t n, unsigned said) {
    struct rate r = {0, (unsigned)n};
    for (size_t i = 0; i < n; i++)
        r.x += values[i] == said;
    return r;
}

bool steady_mode(const unsigned *values, size_t n, struct steady_mode *out) {
    if (n == 0)
        return false;
    *out = (struct steady_mode){values[0], steady_as_said(values, n, values[0])};
    for (size_t i = 1; i < n; i++) {
        struct rate r = steady_as_said(values, n, values[i]);
        if (r.x > out->done.x || (r.x == out->done.x && values[i] < out->usual))
            *out = (struct steady_mode){values[i], r};
    }
    return true;
}

bool steady_scatter(const struct steady_place *places, size_t n, struct steady_place target,
                    struct steady_scatter *out) {
    struct steady_scatter s = {.off = 0};
    double squares = 0;
    if (n == 0)
        return false;
    for (size_t i = 0; i < n; i++) {
        double x = places[i].x - target.x, y = places[i].y - target.y;
        s.bias.x += x / (double)n;
        s.bias.y += y / (double)n;
        s.mean_radial_error += hypot(x, y) / (double)n;
    }
    for (size_t i = 0; i < n; i++) {
        double d = hypot(places[i].x - target.x - s.bias.x, places[i].y - target.y - s.bias.y);
        squares += d * d;
    }
    s.off = hypot(s.bias.x, s.bias.y);
    s.variable_error = sqrt(squares / (double)n);
    *out = s;
    return true;
}

/* ---- spread of groups ------------------------------------------------------ */

static int by_value(const void *left, const void *right) {
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

static double median_of(const double *values, size_t n, struct arena *a) {
    double *sorted = arena_alloc(a, n, sizeof *sorted);
    memcpy(sorted, values, n * sizeof *sorted);
    qsort(sorted, n, sizeof *sorted, by_value);
    return n % 2 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
}

static struct steady_group distances(struct steady_group g, struct arena *a) {
    double *far = arena_alloc(a, g.n, sizeof *far), median = median_of(g.values, g.n, a);
    for (size_t i = 0; i < g.n; i++)
        far[i] = fabs(g.values[i] - median);
    return (struct steady_group){far, g.n};
}

/* Analysis of variance in one way, on the distances. What is left of equal
 * distances is rounding. */
bool steady_test(const struct steady_group *groups, size_t n, struct arena *a,
                 struct steady_test *out) {
    double sum = 0, between = 0, within = 0;
    size_t all = 0;
    struct steady_group *far = arena_alloc(a, n + 1, sizeof *far);
    for (size_t i = 0; i < n; i++) {
        if (groups[i].n == 0)
            return false;
        far[i] = distances(groups[i], a);
        all += far[i].n;
        sum += mean_of(far[i].values, far[i].n) * (double)far[i].n;
    }
    for (size_t i = 0; i < n; i++) {
        double mean = mean_of(far[i].values, far[i].n), off = mean - sum / (double)all;
        between += off * off * (double)far[i].n;
        within += squares_about(far[i].values, far[i].n, mean);
    }
    if (n < 2 || within <= 1e-24 * sum * sum)
        return false;
    out->df_above = (unsigned)n - 1;
    out->df_below = (unsigned)(all - n);
    out->f = between / out->df_above / (within / out->df_below);
    out->p = stat_f_upper(out->f, out->df_above, out->df_below);
    return true;
}
