/* The most probable scatter by EM. With the weights that each serve gives to the
 * places where it may have been, mean and spread follow in closed form; these
 * give new weights, and no step makes the serves and the prior less probable.
 * Mode under a normal-inverse-Wishart prior: A. Gelman and others, Bayesian Data
 * Analysis, 3rd ed. 2013, 3.6; the mode of mean and spread together has four more
 * in its divisor, for two dimensions. */
#include "scatter.h"

#include <assert.h>
#include <float.h>
#include <math.h>
#include <stdlib.h>

enum { STEPS_MOST = 2000 };

/* The fit has settled when a step changes less than this. */
static const double posterior_change = 1e-12; /* of its own size */
static const double scatter_change = 1e-8;    /* metres */

/* What a step may lose by rounding, of the size of the log posterior. */
static const double rounding = 1e-9;

static const double start_sd_m = 1.4142135623730951;

/* ---- priors ---------------------------------------------------------------- */

struct scatter_prior scatter_prior_aimed(void) {
    return (struct scatter_prior){.x_m = 0, .d_m = 0, .mean_weight = 1,
                                  .scale_xx_m2 = 9 * 1.0 * 1.0, .scale_dd_m2 = 9 * 1.3 * 1.3,
                                  .spread_weight = 5};
}

struct scatter_prior scatter_prior_court(void) {
    struct scatter_prior p = scatter_prior_aimed();
    p.x_m = 4.5;
    p.d_m = 7;
    return p;
}

/* ---- equal entries --------------------------------------------------------- */

static int by_value(double a, double b) {
    return (a > b) - (a < b);
}

static int by_what_is_known(const void *left, const void *right) {
    const struct scatter_seen *a = left, *b = right;
    int order = (a->net > b->net) - (a->net < b->net);
    if (!order)
        order = by_value(a->x0_m, b->x0_m);
    if (!order)
        order = by_value(a->x1_m, b->x1_m);
    if (!order)
        order = by_value(a->d0_m, b->d0_m);
    if (!order)
        order = by_value(a->d1_m, b->d1_m);
    return order ? order : by_value(a->tape_m, b->tape_m);
}

size_t scatter_join(struct scatter_seen *seen, size_t n) {
    size_t kept = 0;
    if (n)
        qsort(seen, n, sizeof *seen, by_what_is_known);
    for (size_t i = 0; i < n; i++)
        if (kept && by_what_is_known(&seen[kept - 1], &seen[i]) == 0)
            seen[kept - 1].n += seen[i].n;
        else
            seen[kept++] = seen[i];
    return kept;
}

/* ---- one step -------------------------------------------------------------- */

/* Sums over all serves: how many, where they are expected, and ln of how
 * probable they are. */
struct sums {
    double n, x, d, xx, xd, dd, ln_p;
};

static struct sums expected(const struct scatter *s, const struct scatter_seen *seen, size_t n,
                            double tau_m) {
    struct sums e = {0};
    for (size_t i = 0; i < n; i++) {
        struct scatter_part part = scatter_part(s, &seen[i], tau_m);
        double times = seen[i].n;
        e.n += times;
        e.x += times * part.x_m;
        e.d += times * part.d_m;
        e.xx += times * part.xx_m2;
        e.xd += times * part.xd_m2;
        e.dd += times * part.dd_m2;
        e.ln_p += times * log(fmax(part.p, DBL_MIN));
    }
    return e;
}

/* Sum of (a - mean_a)(b - mean_b), and the prior's part of the same. */
static double spread(double ab, double a, double b, double n, double mean_a, double mean_b) {
    return ab - mean_a * b - mean_b * a + n * mean_a * mean_b;
}

static struct scatter best_of(const struct sums *e, const struct scatter_prior *prior,
                              enum scatter_shape shape) {
    double k = prior->mean_weight, divisor = prior->spread_weight + e->n + 4;
    double x = (k * prior->x_m + e->x) / (k + e->n);
    double d = (k * prior->d_m + e->d) / (k + e->n);
    double off_x = x - prior->x_m, off_d = d - prior->d_m;
    double xx = prior->scale_xx_m2 + spread(e->xx, e->x, e->x, e->n, x, x) + k * off_x * off_x;
    double dd = prior->scale_dd_m2 + spread(e->dd, e->d, e->d, e->n, d, d) + k * off_d * off_d;
    double xd = spread(e->xd, e->x, e->d, e->n, x, d) + k * off_x * off_d;
    return (struct scatter){x, d, sqrt(xx / divisor), sqrt(dd / divisor),
                            shape == SCATTER_FREE ? xd / sqrt(xx * dd) : 0};
}

/* ln of the prior, but for a constant. */
static double ln_prior(const struct scatter *s, const struct scatter_prior *prior) {
    double free = 1 - s->rho * s->rho;
    double zx = (s->x_m - prior->x_m) / s->sd_x_m, zd = (s->d_m - prior->d_m) / s->sd_d_m;
    double far = (zx * zx - 2 * s->rho * zx * zd + zd * zd) / free;
    double trace = prior->scale_xx_m2 / (s->sd_x_m * s->sd_x_m * free) +
                   prior->scale_dd_m2 / (s->sd_d_m * s->sd_d_m * free);
    double ln_det = 2 * log(s->sd_x_m * s->sd_d_m) + log(free);
    return -((prior->spread_weight + 4) * ln_det + trace + prior->mean_weight * far) / 2;
}

/* ---- all steps ------------------------------------------------------------- */

static bool has_settled(const struct scatter *was, const struct scatter *is, double gain,
                        double posterior) {
    return gain <= posterior_change * fabs(posterior) &&
           fabs(is->x_m - was->x_m) < scatter_change && fabs(is->d_m - was->d_m) < scatter_change &&
           fabs(is->sd_x_m - was->sd_x_m) < scatter_change &&
           fabs(is->sd_d_m - was->sd_d_m) < scatter_change &&
           fabs(is->rho - was->rho) < scatter_change;
}

struct scatter_fit scatter_fit(const struct scatter_seen *seen, size_t n, double tau_m,
                               const struct scatter_prior *prior, enum scatter_shape shape) {
    struct scatter_fit fit = {{prior->x_m, prior->d_m, start_sd_m, start_sd_m, 0}, 0, 0, false};
    struct sums e = expected(&fit.scatter, seen, n, tau_m);
    fit.log_posterior = e.ln_p + ln_prior(&fit.scatter, prior);
    while (!fit.settled && fit.steps < STEPS_MOST) {
        struct scatter was = fit.scatter;
        double before = fit.log_posterior;
        fit.scatter = best_of(&e, prior, shape);
        e = expected(&fit.scatter, seen, n, tau_m);
        fit.log_posterior = e.ln_p + ln_prior(&fit.scatter, prior);
        assert(fit.log_posterior >= before - rounding * (1 + fabs(before)));
        fit.settled = has_settled(&was, &fit.scatter, fit.log_posterior - before,
                                  fit.log_posterior);
        fit.steps++;
    }
    return fit;
}
