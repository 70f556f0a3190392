/* What the rooms of statistics, of aims and of worth say of random inputs, to be
 * worked out again by another program: tests/world/studies.R. One case a line: its
 * name, the inputs, the results, with tabs between the three and a blank before
 * each number. The same numbers on every run. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "kit/dice.h"
#include "scatter.h"
#include "shrink.h"
#include "stat.h"
#include "steady.h"
#include "trend.h"
#include "twoway.h"
#include "worth.h"

enum { CASES_EACH = 200, SERVERS_MOST = 12, TABLES_MOST = 6, TESTS_MOST = 40 };
enum { MATCHES_MOST = 20, VALUES_MOST = 40, GROUPS_MOST = 5 };

/* ---- lines ------------------------------------------------------------------ */

static void number(double x) {
    printf(" %.17g", x);
}

static void begin(const char *name) {
    printf("%s\t", name);
}

/* Behind the inputs. */
static void results(void) {
    putchar('\t');
}

static void end(void) {
    putchar('\n');
}

static void interval(struct interval i) {
    number(i.low);
    number(i.high);
}

/* ---- chance ----------------------------------------------------------------- */

/* Between 0 and 1, neither included. */
static double share(struct dice *d) {
    return (1 + dice_below(d, 999)) / 1000.0;
}

static struct rate rate(struct dice *d, unsigned most) {
    struct rate r = {.n = 1 + dice_below(d, most)};
    r.x = dice_below(d, r.n + 1);
    return r;
}

static struct rate input_rate(struct rate r) {
    number(r.x);
    number(r.n);
    return r;
}

/* A table that compares something. */
static struct twoway table(struct dice *d) {
    struct twoway t;
    do
        t = twoway_of(rate(d, 60), rate(d, 200));
    while (!twoway_compares(t));
    return t;
}

static void input_table(struct twoway t) {
    number(t.a);
    number(t.b);
    number(t.c);
    number(t.d);
}

/* ---- rates and distributions ------------------------------------------------ */

static void one_rate(struct dice *d) {
    struct rate r = rate(d, 400);
    begin("rate");
    input_rate(r);
    results();
    interval(rate_wilson(r));
    interval(stat_jeffreys(r));
    end();
}

static void difference(struct dice *d) {
    struct interval i;
    begin("difference");
    struct rate a = input_rate(rate(d, 60)), b = input_rate(rate(d, 300));
    results();
    rate_difference(a, b, &i);
    interval(i);
    end();
}

static void beta(struct dice *d) {
    double x = share(d), a = .05 + 100 * share(d) * share(d), b = .05 + 600 * share(d) * share(d);
    begin("beta");
    number(x);
    number(a);
    number(b);
    results();
    number(stat_beta_cdf(x, a, b));
    number(stat_beta_quantile(x, a, b));
    interval(stat_beta_middle(.8, a, b));
    end();
}

static void continuous(struct dice *d) {
    double p = share(d), x = 8 * share(d), df = 1 + dice_below(d, 60),
           below = 1 + dice_below(d, 99);
    begin("continuous");
    number(p);
    number(x);
    number(df);
    number(below);
    results();
    number(stat_normal_cdf(x - 4));
    number(stat_normal_quantile(p));
    number(stat_chi_square_upper(x * df / 2, df));
    number(stat_chi_square_quantile(p, df));
    number(stat_f_upper(x, df, below));
    end();
}

static void counts(struct dice *d) {
    struct rate r = rate(d, 150);
    double p = share(d);
    begin("counts");
    input_rate(r);
    number(p);
    results();
    number(stat_binomial(r.x, r.n, p));
    number(stat_binomial_at_most(r.x, r.n, p));
    number(stat_binomial_at_least(r.x, r.n, p));
    end();
}

/* ---- tables ----------------------------------------------------------------- */

static void exact(struct dice *d) {
    struct twoway t = table(d);
    struct twoway_exact e = twoway_exact(t);
    begin("exact");
    input_table(t);
    results();
    number(e.one_sided);
    number(e.two_sided);
    number(e.one_sided_mid);
    number(e.two_sided_mid);
    end();
}

/* A limit that is not there is a 0. */
static void risk(struct dice *d) {
    struct twoway t = table(d);
    struct twoway_risk r = twoway_risk(t);
    begin("risk");
    input_table(t);
    results();
    number(r.bounded);
    number(r.ratio);
    number(r.low);
    number(r.high);
    end();
}

static void no_memory(size_t bytes) {
    fprintf(stderr, "studies: no memory for %zu bytes\n", bytes);
    exit(3);
}

static void adjust(struct dice *d) {
    double p[TESTS_MOST], q[TESTS_MOST];
    size_t n = 1 + dice_below(d, TESTS_MOST);
    struct arena *a = arena_new(no_memory);
    begin("adjust");
    for (size_t i = 0; i < n; i++)
        number(p[i] = share(d) * share(d));
    results();
    twoway_adjust(p, n, q, a);
    for (size_t i = 0; i < n; i++)
        number(q[i]);
    end();
    arena_free(a);
}

static void pool(struct dice *d) {
    struct twoway t[TABLES_MOST];
    size_t n = 2 + dice_below(d, TABLES_MOST - 1);
    struct twoway_pooled out;
    begin("pool");
    for (size_t i = 0; i < n; i++)
        input_table(t[i] = table(d));
    results();
    twoway_pool(t, n, &out);
    number(out.odds_bounded ? out.odds_ratio : 0);
    number(out.risk_bounded ? out.risk_ratio : 0);
    number(out.chi_square);
    number(out.p);
    number(out.corrected_chi_square);
    end();
}

/* None is 0. */
static void tell(struct dice *d) {
    double one = share(d), other = share(d);
    unsigned n = 0;
    begin("tell");
    number(one);
    number(other);
    results();
    twoway_serves_to_tell(one, other, &n);
    number(n);
    end();
}

/* ---- servers ---------------------------------------------------------------- */

static void team(struct dice *d) {
    struct rate r[SERVERS_MOST];
    size_t n = SHRINK_LEAST_SERVERS_N + dice_below(d, SERVERS_MOST - SHRINK_LEAST_SERVERS_N + 1);
    unsigned spread = 1 + dice_below(d, 400);
    struct shrink s;
    begin("team");
    for (size_t i = 0; i < n; i++) {
        unsigned serves = i ? 1 + dice_below(d, 120) : SHRINK_LEAST_SERVES_N;
        unsigned per_mille = 50 + dice_below(d, spread);
        r[i] = (struct rate){0, serves};
        for (unsigned serve = 0; serve < serves; serve++)
            r[i].x += dice_in(d, per_mille);
        input_rate(r[i]);
    }
    results();
    shrink_fit(r, n, &s);
    for (size_t i = 0; i < n; i++) {
        struct shrunk one = shrink_one(&s, r[i]);
        number(one.frac);
        interval(one.between_80);
    }
    end();
}

/* ---- trend ------------------------------------------------------------------ */

/* A limit that is not there is a -1. */
static void limits(struct dice *d) {
    unsigned n = dice_below(d, 60);
    double p = share(d);
    struct trend_limits l = trend_limits(n, p);
    begin("limits");
    number(n);
    number(p);
    results();
    number(l.has_low ? (double)l.low : -1);
    number(l.has_high ? (double)l.high : -1);
    end();
}

static void cusum(struct dice *d) {
    enum trend_way way = dice_in(d, 500) ? TREND_WORSE : TREND_BETTER;
    double p0 = .05 + .3 * share(d), p1 = trend_changed(way, p0);
    struct arena *a = arena_new(no_memory);
    struct trend_cusum c = {.alarm = 0};
    begin("cusum");
    number(way == TREND_WORSE);
    number(p0);
    results();
    trend_cusum(way, p0, p1, a, &c);
    number(c.up);
    number(c.down);
    number(c.alarm);
    number(trend_serves_to_alarm(&c, p0, a));
    number(trend_serves_to_alarm(&c, p1, a));
    number(trend_alarm_within(&c, p0, 100));
    end();
    arena_free(a);
}

/* The matches of a season, some without a serve. */
static size_t season(struct dice *d, struct trend_point *points) {
    size_t n = 2 + dice_below(d, MATCHES_MOST - 1);
    unsigned from = 50 + dice_below(d, 400), to = 50 + dice_below(d, 400);
    for (size_t i = 0; i < n; i++) {
        unsigned per_mille = (unsigned)((from * (n - i) + to * i) / n);
        points[i] =
            (struct trend_point){(double)(3 * i + dice_below(d, 3)), {0, dice_below(d, 25)}};
        for (unsigned serve = 0; serve < points[i].rate.n; serve++)
            points[i].rate.x += dice_in(d, per_mille);
    }
    return n;
}

static void input_season(const struct trend_point *points, size_t n) {
    for (size_t i = 0; i < n; i++) {
        number(points[i].t);
        input_rate(points[i].rate);
    }
}

static void trend(struct dice *d) {
    struct trend_point points[MATCHES_MOST];
    struct trend_test t;
    size_t n;
    do
        n = season(d, points);
    while (!trend_test(points, n, &t));
    begin("trend");
    input_season(points, n);
    results();
    number(t.chi2);
    number(t.p);
    end();
}

static void line_by(struct dice *d, const char *name, enum trend_penalty penalty) {
    struct trend_point points[MATCHES_MOST];
    struct trend_line line;
    size_t n;
    do
        n = season(d, points);
    while (!trend_line(points, n, penalty, &line));
    begin(name);
    input_season(points, n);
    results();
    number(line.intercept);
    number(line.slope);
    number(line.intercept_se);
    number(line.slope_se);
    end();
}

static void line_plain(struct dice *d) {
    line_by(d, "plain line", TREND_PLAIN);
}

static void line_firth(struct dice *d) {
    line_by(d, "line", TREND_FIRTH);
}

/* ---- routine ---------------------------------------------------------------- */

static size_t some_values(struct dice *d, size_t least, double *values) {
    size_t n = least + dice_below(d, VALUES_MOST - (unsigned)least + 1);
    int spread = dice_between(d, 5, 60);
    for (size_t i = 0; i < n; i++)
        values[i] = dice_around(d, 300, spread) / 100.0;
    return n;
}

static void spread(struct dice *d) {
    double values[VALUES_MOST];
    size_t n = some_values(d, 2, values);
    struct steady_spread s;
    begin("spread");
    for (size_t i = 0; i < n; i++)
        number(values[i]);
    results();
    steady_spread(values, n, &s);
    number(s.mean);
    number(s.sd);
    interval(s.of_sd);
    end();
}

static void usual(struct dice *d) {
    unsigned values[VALUES_MOST];
    size_t n = 1 + dice_below(d, VALUES_MOST);
    struct steady_mode m;
    begin("usual");
    for (size_t i = 0; i < n; i++)
        number(values[i] = dice_below(d, 7));
    results();
    steady_mode(values, n, &m);
    number(m.usual);
    number(m.done.x);
    number(steady_as_said(values, n, 4).x);
    end();
}

static void scatter(struct dice *d) {
    struct steady_place places[VALUES_MOST], target = {4 * share(d), 9 * share(d)};
    size_t n = 1 + dice_below(d, VALUES_MOST);
    struct steady_scatter s;
    begin("scatter");
    number(target.x);
    number(target.y);
    for (size_t i = 0; i < n; i++) {
        number(places[i].x = 9 * share(d));
        number(places[i].y = 9 * share(d));
    }
    results();
    steady_scatter(places, n, target, &s);
    number(s.bias.x);
    number(s.bias.y);
    number(s.off);
    number(s.mean_radial_error);
    number(s.variable_error);
    end();
}

/* How many groups, how large each is, then all values. */
static void periods(struct dice *d) {
    double values[GROUPS_MOST][VALUES_MOST];
    struct steady_group groups[GROUPS_MOST];
    struct steady_test t;
    struct arena *a = arena_new(no_memory);
    size_t n = 2 + dice_below(d, GROUPS_MOST - 1);
    for (size_t i = 0; i < n; i++)
        groups[i] = (struct steady_group){values[i], some_values(d, 3, values[i])};
    begin("periods");
    number((double)n);
    for (size_t i = 0; i < n; i++)
        number((double)groups[i].n);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < groups[i].n; k++)
            number(values[i][k]);
    results();
    steady_test(groups, n, a, &t);
    number(t.f);
    number(t.p);
    end();
    arena_free(a);
}

/* ---- scatter of serves ------------------------------------------------------ */

static double between(struct dice *d, double low, double high) {
    return low + share(d) * (high - low);
}

/* Limits that may be equal or infinite. */
static void limits_of(struct dice *d, double low, double high, double *from, double *to) {
    double a = between(d, low, high), b = between(d, low, high);
    unsigned exact = dice_below(d, 4) == 0;
    *from = fmin(a, b);
    *to = exact ? *from : fmax(a, b);
    if (!exact && dice_below(d, 4) == 0)
        *from = -HUGE_VAL;
    if (!exact && dice_below(d, 4) == 0)
        *to = HUGE_VAL;
}

/* What a line leaves possible, of a serve that need not be a miracle. */
static struct scatter_part some_part(struct dice *d, struct scatter *s, struct scatter_seen *seen,
                                     double *tau_m) {
    struct scatter_part part;
    do {
        *s = (struct scatter){between(d, 0, 9), between(d, 4, 10), between(d, .3, 2.5),
                              between(d, .3, 2.5),
                              dice_below(d, 3) ? between(d, -.9, .9) : 0};
        limits_of(d, -1, 10, &seen->x0_m, &seen->x1_m);
        limits_of(d, 0, 11, &seen->d0_m, &seen->d1_m);
        seen->tape_m = between(d, 3, 9);
        seen->net = seen->d0_m == seen->d1_m ? SCATTER_ANY : (enum scatter_net)dice_below(d, 4);
        *tau_m = between(d, .2, 1.5);
        part = scatter_part(s, seen, *tau_m);
    } while (part.p < 1e-4);
    return part;
}

static void part(struct dice *d) {
    struct scatter s;
    struct scatter_seen seen;
    double tau_m;
    struct scatter_part got = some_part(d, &s, &seen, &tau_m);
    const double in[] = {s.x_m,      s.d_m,      s.sd_x_m,   s.sd_d_m,  s.rho, seen.x0_m,
                         seen.x1_m,  seen.d0_m,  seen.d1_m,  seen.net,  seen.tape_m, tau_m};
    begin("part");
    for (size_t i = 0; i < sizeof in / sizeof *in; i++)
        number(in[i]);
    results();
    number(got.p);
    number(got.x_m);
    number(got.d_m);
    number(got.xx_m2);
    number(got.xd_m2);
    number(got.dd_m2);
    end();
}

/* ---- sets and matches -------------------------------------------------------- */

static struct worth_serve serve_shares(struct dice *d) {
    return (struct worth_serve){between(d, .15, .8), between(d, .15, .8)};
}

static void set(struct dice *d) {
    struct worth_serve p = serve_shares(d);
    struct worth_rules rules = {.points = 2 + dice_below(d, 29)};
    if (dice_below(d, 3) == 0)
        rules.cap = rules.points + dice_below(d, 5);
    struct worth_score from = {dice_below(d, rules.points), dice_below(d, rules.points),
                               dice_below(d, 2) ? WORTH_THEM : WORTH_US};
    struct worth_set got = worth_set(p, rules, from);
    const double in[] = {p.us_frac, p.them_frac, rules.points, rules.cap,
                         from.us,   from.them,   from.serves};
    begin("set");
    for (size_t i = 0; i < sizeof in / sizeof *in; i++)
        number(in[i]);
    results();
    number(got.won_frac);
    number(got.level_frac);
    number(got.rallies_n);
    number(got.served_n);
    end();
}

static void match(struct dice *d) {
    struct worth_serve p = serve_shares(d);
    struct worth_match m = {{25, 0}, {15, 0}, 1 + dice_below(d, 3)};
    begin("match");
    number(p.us_frac);
    number(p.them_frac);
    number(m.to_win);
    results();
    number(worth_match(p, &m));
    end();
}

/* ---- all -------------------------------------------------------------------- */

static void (*const kinds[])(struct dice *d) = {
    one_rate,   difference, beta,   continuous, counts,  exact,   risk,
    adjust,     pool,       tell,   team,       limits,  cusum,   trend,
    line_plain, line_firth, spread, usual,      scatter, periods,
    part,       set,        match,
};

int main(void) {
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++) {
        struct dice d = {.state = k + 1};
        for (unsigned i = 0; i < CASES_EACH; i++)
            kinds[k](&d);
    }
    return fflush(stdout) == 0 ? 0 : 3;
}
