#include "shrink.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include <gsl/gsl_sf_psi.h>

#include "stat.h"
#include "stat/bisect.h"

/* What a team's spread is worth, in serves, before anything is known of it: 30,
 * and between 10 and 90 in most teams. Our own choice. With six to twelve
 * servers the likelihood alone often runs off to "no spread at all". */
static const double usual_weight = 30;

/* The mean m and the weight w = a + b of the prior are searched as logit m and
 * log w, where the penalty log(m (1 - m)) - (log w - log 30)^2 / 2 is added to
 * the likelihood. */
struct fit {
    const struct rate *servers;
    size_t n;
    double mean, weight;
};

static double logistic(double x) {
    return 1 / (1 + exp(-x));
}

/* The slope of the log likelihood of all servers by a and by b. */
static void slopes(const struct fit *f, double *by_a, double *by_b) {
    double a = f->mean * f->weight, b = (1 - f->mean) * f->weight;
    double psi_a = gsl_sf_psi(a), psi_b = gsl_sf_psi(b), psi_w = gsl_sf_psi(f->weight);

    *by_a = *by_b = 0;
    for (size_t i = 0; i < f->n; i++) {
        struct rate r = f->servers[i];
        double all = gsl_sf_psi(f->weight + r.n) - psi_w;
        *by_a += gsl_sf_psi(a + r.x) - psi_a - all;
        *by_b += gsl_sf_psi(b + r.n - r.x) - psi_b - all;
    }
}

/* Below zero while the likeliest mean lies higher. */
static double mean_too_high(double logit_mean, const void *with) {
    struct fit f = *(const struct fit *)with;
    double by_a, by_b;

    f.mean = logistic(logit_mean);
    slopes(&f, &by_a, &by_b);
    return -(by_a - by_b) * f.weight * f.mean * (1 - f.mean) - (1 - 2 * f.mean);
}

static double likeliest_mean(const struct fit *f) {
    return logistic(bisect(-12, 12, mean_too_high, f));
}

/* The same of the weight, each with its likeliest mean. */
static double weight_too_high(double log_weight, const void *with) {
    struct fit f = *(const struct fit *)with;
    double by_a, by_b;

    f.weight = exp(log_weight);
    f.mean = likeliest_mean(&f);
    slopes(&f, &by_a, &by_b);
    return -(by_a * f.mean + by_b * (1 - f.mean)) * f.weight + log_weight - log(usual_weight);
}

/* The common rate at the usual weight. A team of which nobody missed, or
 * everybody always, has half a serve of either more: a rate of 0 would leave no
 * room for any other. */
static struct shrink usual(struct rate all) {
    double none_or_all = all.x == 0 || all.x == all.n ? .5 : 0;
    double mean = (all.x + none_or_all) / (all.n + 2 * none_or_all);

    return (struct shrink){mean * usual_weight, (1 - mean) * usual_weight, false};
}

bool shrink_fit(const struct rate *servers, size_t n, struct shrink *out) {
    struct rate all = {0, 0};
    struct fit f = {.servers = servers, .n = n};
    size_t serving = 0;

    for (size_t i = 0; i < n; i++) {
        assert(servers[i].x <= servers[i].n);
        all.x += servers[i].x;
        all.n += servers[i].n;
        serving += servers[i].n > 0;
    }
    if (all.n == 0)
        return false;
    *out = usual(all);
    if (serving < SHRINK_LEAST_SERVERS_N || all.n < SHRINK_LEAST_SERVES_N)
        return true;
    f.weight = exp(bisect(-12, 18, weight_too_high, &f));
    f.mean = likeliest_mean(&f);
    *out = (struct shrink){f.mean * f.weight, (1 - f.mean) * f.weight, true};
    return true;
}

struct shrunk shrink_one(const struct shrink *team, struct rate server) {
    double a = team->a + server.x, b = team->b + server.n - server.x;

    return (struct shrunk){
        .rate = server, .frac = a / (a + b), .between_80 = stat_beta_middle(.8, a, b)};
}

static int by_estimate(const void *left, const void *right) {
    const struct shrunk *a = left, *b = right;

    if (a->frac != b->frac)
        return a->frac < b->frac ? -1 : 1;
    if (a->rate.n != b->rate.n)
        return a->rate.n > b->rate.n ? -1 : 1;
    return (a->ix > b->ix) - (a->ix < b->ix);
}

static int by_estimate_down(const void *left, const void *right) {
    const struct shrunk *a = left, *b = right;

    return a->frac != b->frac ? by_estimate(right, left) : by_estimate(left, right);
}

void shrink_rank(const struct shrink *team, const struct rate *servers, size_t n,
                 enum shrink_order order, struct shrunk *out) {
    for (size_t i = 0; i < n; i++) {
        out[i] = shrink_one(team, servers[i]);
        out[i].ix = i;
    }
    qsort(out, n, sizeof *out, order == SHRINK_LOWEST_FIRST ? by_estimate : by_estimate_down);
}
