/* What the room of statistics says of random inputs, to be worked out again by
 * another program: tests/world/studies.R. One case a line: its name, the inputs,
 * the results, with tabs between the three and a blank before each number. The
 * same numbers on every run. */
#include <stdio.h>
#include <stdlib.h>

#include "kit/dice.h"
#include "shrink.h"
#include "stat.h"
#include "twoway.h"

enum { CASES_EACH = 200, SERVERS_MOST = 12, TABLES_MOST = 6, TESTS_MOST = 40 };

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

/* ---- all -------------------------------------------------------------------- */

static void (*const kinds[])(struct dice *d) = {
    one_rate, difference, beta, continuous, counts, exact, risk, adjust, pool, team,
};

int main(void) {
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++) {
        struct dice d = {.state = k + 1};
        for (unsigned i = 0; i < CASES_EACH; i++)
            kinds[k](&d);
    }
    return fflush(stdout) == 0 ? 0 : 3;
}
