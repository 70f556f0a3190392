/* Probability and means of what is known of a serve: an integral over depth, in
 * which the part across the court is closed. */
#include "scatter.h"

#include <assert.h>
#include <math.h>

static const double root_2 = 1.4142135623730951;
static const double root_2pi = 2.5066282746310002;

/* Mass beyond so many standard deviations is left out. */
static const double reach = 9;

enum { NODES = 16 };

/* Gauss-Legendre, 16 points: those above 0 and their weights (M. Abramowitz, I.
 * Stegun, Handbook of Mathematical Functions, 1964, table 25.4). */
static const struct { double at, weight; } nodes[NODES / 2] = {
    {0.095012509837637441, 0.189450610455068502}, {0.281603550779258915, 0.182603415044923584},
    {0.458016777657227370, 0.169156519395002536}, {0.617876244402643771, 0.149595988816576736},
    {0.755404408355002999, 0.124628971255533877}, {0.865631202387831755, 0.095158511682492786},
    {0.944575023073232600, 0.062253523938647894}, {0.989400934991649939, 0.027152459411754096},
};

static double density(double z) {
    return exp(-z * z / 2) / root_2pi;
}

static double below(double z) {
    return erfc(-z / root_2) / 2;
}

/* Between two points, from the side where nothing cancels. */
static double between(double a, double b) {
    if (a > 0)
        return (erfc(a / root_2) - erfc(b / root_2)) / 2;
    return (erfc(-b / root_2) - erfc(-a / root_2)) / 2;
}

/* ---- across ---------------------------------------------------------------- */

/* Mass of a normal distribution inside limits, and its first two moments there
 * (not divided by it). */
struct moments {
    double p, x, xx;
};

static struct moments at_exactly(double x, double mean, double sd) {
    double p = density((x - mean) / sd) / sd;
    return (struct moments){p, p * x, p * x * x};
}

/* Moments of the truncated normal distribution: N. Johnson, S. Kotz, N.
 * Balakrishnan, Continuous Univariate Distributions 1, 2nd ed. 1994, 13.10.1. */
static struct moments inside(double x0, double x1, double mean, double sd) {
    double a = (x0 - mean) / sd, b = (x1 - mean) / sd;
    double p = between(a, b), at_a = density(a), at_b = density(b);
    double tail_a = at_a > 0 ? (x0 + mean) * at_a : 0;
    double tail_b = at_b > 0 ? (x1 + mean) * at_b : 0;
    return (struct moments){p, mean * p + sd * (at_a - at_b),
                            (mean * mean + sd * sd) * p + sd * (tail_a - tail_b)};
}

/* The line at depth d. */
static struct moments across(const struct scatter *s, const struct scatter_seen *seen, double d) {
    double mean = s->x_m + s->rho * s->sd_x_m / s->sd_d_m * (d - s->d_m);
    double sd = s->sd_x_m * sqrt(1 - s->rho * s->rho);
    return seen->x0_m == seen->x1_m ? at_exactly(seen->x0_m, mean, sd)
                                    : inside(seen->x0_m, seen->x1_m, mean, sd);
}

/* ---- in depth -------------------------------------------------------------- */

static double density_at(const struct scatter *s, double d) {
    return density((d - s->d_m) / s->sd_d_m) / s->sd_d_m;
}

/* How probable the net's answer is for a ball that would land at d. */
static double net_weight(const struct scatter_seen *seen, double d, double tau_m) {
    double z = (d - seen->tape_m) / tau_m;
    switch (seen->net) {
    case SCATTER_ANY: return 1;
    case SCATTER_CROSSED: return below(z);
    case SCATTER_STOPPED: return below(-z);
    case SCATTER_AT: return density(z) / tau_m;
    }
    return 1;
}

/* What is integrated. Without a correlation all lines across are the same. */
struct whole {
    const struct scatter *s;
    const struct scatter_seen *seen;
    double tau_m;
    struct moments same;
};

static struct whole whole_of(const struct scatter *s, const struct scatter_seen *seen,
                             double tau_m) {
    return (struct whole){s, seen, tau_m, across(s, seen, s->d_m)};
}

/* Adds the line across the court at depth d, sums undivided. */
static void add_line(struct scatter_part *sum, const struct whole *w, double d, double weight) {
    struct moments m = w->s->rho == 0 ? w->same : across(w->s, w->seen, d);
    sum->p += weight * m.p;
    sum->x_m += weight * m.x;
    sum->d_m += weight * m.p * d;
    sum->xx_m2 += weight * m.xx;
    sum->xd_m2 += weight * m.x * d;
    sum->dd_m2 += weight * m.p * d * d;
}

static void add_panel(struct scatter_part *sum, const struct whole *w, double middle,
                      double half) {
    for (int i = 0; i < NODES; i++) {
        int k = i / 2;
        double d = middle + (i % 2 ? half : -half) * nodes[k].at;
        double weight = half * nodes[k].weight * density_at(w->s, d);
        add_line(sum, w, d, weight * net_weight(w->seen, d, w->tau_m));
    }
}

static double nearest(double to, double low, double high) {
    return fmin(fmax(to, low), high);
}

/* Panels no wider than what changes fastest along d lets be: the scatter, the
 * tape, and with a correlation the edges that slant through. */
static double panel_width(const struct whole *w) {
    const struct scatter *s = w->s;
    double least = s->sd_d_m;
    if (w->seen->net != SCATTER_ANY)
        least = fmin(least, w->tau_m);
    if (s->rho != 0)
        least = fmin(least, s->sd_d_m * sqrt(1 - s->rho * s->rho) / fabs(s->rho));
    return 3 * least;
}

static void add_depths(struct scatter_part *sum, const struct whole *w) {
    double near = nearest(w->s->d_m, w->seen->d0_m, w->seen->d1_m);
    double from = fmax(w->seen->d0_m, near - reach * w->s->sd_d_m);
    double to = fmin(w->seen->d1_m, near + reach * w->s->sd_d_m);
    double panels = ceil((to - from) / panel_width(w));
    double half = (to - from) / panels / 2;
    for (double i = 0; i < panels; i++)
        add_panel(sum, w, from + (2 * i + 1) * half, half);
}

/* ---- both ------------------------------------------------------------------ */

static struct scatter_part divided(const struct scatter_part *sum) {
    return (struct scatter_part){sum->p,
                                 sum->x_m / sum->p, sum->d_m / sum->p,
                                 sum->xx_m2 / sum->p, sum->xd_m2 / sum->p, sum->dd_m2 / sum->p};
}

static struct scatter_part far_off(const struct scatter *s, const struct scatter_seen *seen) {
    double x = nearest(s->x_m, seen->x0_m, seen->x1_m);
    double d = nearest(s->d_m, seen->d0_m, seen->d1_m);
    return (struct scatter_part){0, x, d, x * x, x * d, d * d};
}

struct scatter_part scatter_part(const struct scatter *s, const struct scatter_seen *seen,
                                 double tau_m) {
    struct scatter_part sum = {0};
    assert(s->sd_x_m > 0 && s->sd_d_m > 0 && fabs(s->rho) < 1 && tau_m > 0);
    assert(seen->x0_m <= seen->x1_m && seen->d0_m <= seen->d1_m);
    struct whole w = whole_of(s, seen, tau_m);
    if (seen->d0_m == seen->d1_m)
        add_line(&sum, &w, seen->d0_m, density_at(s, seen->d0_m));
    else
        add_depths(&sum, &w);
    return sum.p > 0 ? divided(&sum) : far_off(s, seen);
}
