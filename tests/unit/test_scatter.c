/* Where serves come down. Closed forms name the formula. TM: R packages mvtnorm
 * and tmvtnorm, computed by us with them. All other numbers are our own
 * computation, by two programs that share no code: integrals by SciPy and by a
 * trivariate normal distribution in R, maxima by BFGS without EM.
 * The serves are invented; the truth they were drawn from is x 2.4, d 7.3. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "scatter.h"

#define ALL (-HUGE_VAL), HUGE_VAL

static const double pi = 3.14159265358979323846;

/* The tape of all checks. */
static const double tape_m = 5.5, tau_m = .9;

static void near(double got, double expected, double tolerance, const char *what) {
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: %.10f, not %.10f", what, got, expected);
}

/* ---- integrals ------------------------------------------------------------- */

/* P(x > 0, d > 0) = 1/4 + asin(rho) / 2 pi (W. F. Sheppard 1899, in any textbook). */
static void orthant(void **state) {
    static const double rho[] = {-.9, -.5, 0, .3, .5, .9, .99};
    (void)state;
    for (size_t i = 0; i < sizeof rho / sizeof *rho; i++) {
        struct scatter s = {0, 0, 1, 1, rho[i]};
        struct scatter_seen seen = {0, HUGE_VAL, 0, HUGE_VAL, 0, 1, SCATTER_ANY};
        near(scatter_part(&s, &seen, 1).p, .25 + asin(rho[i]) / (2 * pi), 1e-11, "orthant");
    }
}

static void rectangle(void **state) {
    struct scatter s = {.3, .4, 1, 2, .6};
    struct scatter_seen seen = {-1, 2, 0, 1.5, 0, 1, SCATTER_ANY};
    struct scatter_part part = scatter_part(&s, &seen, 1);
    (void)state;
    near(part.p, .2690406420, 5e-11, "TM rectangle");
    near(part.x_m, .42864176, 5e-9, "TM mean x");
    near(part.d_m, .73622382, 5e-9, "TM mean d");
    near(part.xx_m2, .65176072, 5e-9, "TM mean xx");
    near(part.xd_m2, .35517293, 5e-9, "TM mean xd");
    near(part.dd_m2, .72537767, 5e-9, "TM mean dd");
}

static const struct scatter truth = {2.4, 7.3, 1.1, 1.3, .2};

/* What lines of notes leave possible; p to so many digits as it was computed. */
struct row {
    const char *line;
    struct scatter_seen seen;
    double p, p_tolerance, x_m, d_m; /* x_m 0: not compared */
};

static const struct row rows[] = {
    {"5", {0, 3, 3, 9, 5.5, 1, SCATTER_CROSSED}, .5401686845, 5e-11, 0, 0},
    {"6", {3, 6, 3, 9, 5.5, 1, SCATTER_CROSSED}, .2257984348, 5e-11, 0, 0},
    {"1", {6, 9, 3, 9, 5.5, 1, SCATTER_CROSSED}, .0003669100, 5e-11, 0, 0},
    {"4", {0, 3, 0, 3, 5.5, 1, SCATTER_CROSSED}, 4.720e-7, 5e-11, 0, 0},
    {"net", {ALL, ALL, 5.5, 1, SCATTER_STOPPED}, .1274725822, 5e-11, 2.103881, 5.550205},
    {"long", {0, 9, 9, HUGE_VAL, 5.5, 1, SCATTER_CROSSED}, .0950177240, 5e-11, 2.806375, 9.610308},
    {"right", {-HUGE_VAL, 0, ALL, 5.5, 1, SCATTER_CROSSED}, .0111751322, 5e-11, -.380902, 7.056208},
    {"left", {9, HUGE_VAL, ALL, 5.5, 1, SCATTER_CROSSED}, 1.0e-9, 5e-11, 0, 0},
    {"d5", {0, 3, 8, 9, 5.5, 1, SCATTER_CROSSED}, .12741524, 5e-9, 2.003260, 8.435783},
    {"5-6", {2.25, 3.75, 3, 9, 5.5, 1, SCATTER_CROSSED}, .34762476, 5e-9, 2.911893, 7.367832},
    {"net-0.2", {ALL, ALL, 4.5, 1, SCATTER_AT}, .05259765, 5e-9, 2.079680, 5.407200},
    {"long+0.5", {0, 9, 9.5, 9.5, 5.5, 1, SCATTER_CROSSED}, .07292525, 5e-9, 2.788116, 9.5},
    {"ace", {0, 9, 0, 9, 5.5, 1, SCATTER_CROSSED}, .76633456, 5e-9, 2.439423, 7.308162},
};

static void lines(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct row *r = &rows[i];
        struct scatter_part part = scatter_part(&truth, &r->seen, tau_m);
        near(part.p, r->p, r->p_tolerance, r->line);
        if (r->x_m != 0) {
            near(part.x_m, r->x_m, 5e-7, r->line);
            near(part.d_m, r->d_m, 5e-7, r->line);
        }
    }
}

/* Every serve is in one of these, so they add up to 1. */
static void whole(void **state) {
    static const struct scatter_seen rest[] = {
        {3, 6, 0, 3, 5.5, 1, SCATTER_CROSSED}, {6, 9, 0, 3, 5.5, 1, SCATTER_CROSSED},
        {0, 9, -HUGE_VAL, 0, 5.5, 1, SCATTER_CROSSED}};
    double sum = 0;
    (void)state;
    for (size_t i = 0; i < 8; i++)
        sum += scatter_part(&truth, &rows[i].seen, tau_m).p;
    for (size_t i = 0; i < sizeof rest / sizeof *rest; i++)
        sum += scatter_part(&truth, &rest[i], tau_m).p;
    near(sum, 1, 1e-11, "all parts");
    /* The difference of two normal variables is normal. */
    near(scatter_part(&truth, &rows[4].seen, tau_m).p,
         erfc((7.3 - 5.5) / sqrt(2 * (1.69 + .81))) / 2, 1e-12, "net in closed form");
}

/* 60 standard deviations off: no probability, and a place all the same. */
static void too_far(void **state) {
    struct scatter s = {4.5, 7, .1, .1, 0};
    struct scatter_seen seen = {0, 3, 0, 1, 5.5, 1, SCATTER_CROSSED};
    struct scatter_part part = scatter_part(&s, &seen, tau_m);
    (void)state;
    assert_true(part.p == 0);
    near(part.x_m, 3, 0, "x of the nearest point");
    near(part.d_m, 1, 0, "d of the nearest point");
}

/* A prior without any weight: the serves alone. */
static const struct scatter_prior no_prior = {.x_m = 4.5, .d_m = 7, .spread_weight = -4};

/* ---- the fit --------------------------------------------------------------- */

enum { SEEN_MAX = 64 };

struct many {
    struct scatter_seen at[SEEN_MAX];
    size_t n;
};

static struct scatter_seen called(const char *line) {
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (strcmp(rows[i].line, line) == 0)
            return rows[i].seen;
    fail_msg("no row %s", line);
    return rows[0].seen;
}

static void put(struct many *m, const char *line, unsigned times) {
    struct scatter_seen s = called(line);
    for (unsigned i = 0; i < times; i++)
        m->at[m->n++] = s;
}

static void put_points(struct many *m, const double (*xd)[2], size_t n) {
    for (size_t i = 0; i < n; i++)
        m->at[m->n++] = (struct scatter_seen){xd[i][0], xd[i][0], xd[i][1], xd[i][1],
                                              tape_m, 1, SCATTER_CROSSED};
}

static void twelve(struct many *m) {
    static const double points[][2] = {{1.8, 8.1}, {2.9, 6.4}, {3.4, 7.7}};
    put_points(m, points, 3);
    put(m, "5", 1);
    put(m, "d5", 1);
    put(m, "6", 1);
    put(m, "5-6", 1);
    put(m, "net", 1);
    put(m, "net-0.2", 1);
    put(m, "long", 1);
    put(m, "long+0.5", 1);
    put(m, "right", 1);
}

static void zones_30(struct many *m) {
    put(m, "5", 13);
    put(m, "6", 7);
    put(m, "net", 7);
    put(m, "long", 3);
}

static void metres_30(struct many *m) {
    static const double points[20][2] = {
        {1.95, 7.38}, {3.72, 6.90}, {1.92, 8.05}, {3.10, 7.41}, {.90, 6.54},
        {3.28, 7.74}, {.39, 6.53},  {1.32, 7.85}, {1.37, 6.46}, {2.03, 5.36},
        {1.04, 8.07}, {2.98, 6.37}, {2.51, 6.85}, {.26, 7.08},  {2.89, 8.56},
        {1.85, 6.98}, {3.15, 8.64}, {4.86, 8.04}, {4.76, 6.88}, {3.87, 7.30}};
    put_points(m, points, 20);
    put(m, "net", 7);
    put(m, "long", 3);
}

static void last_metre(struct many *m) {
    put(m, "d5", 8);
}

static void all_net(struct many *m) {
    put(m, "net", 6);
}

static void nothing(struct many *m) {
    (void)m;
}

struct fit_row {
    const char *what;
    void (*fill)(struct many *m);
    bool prior;
    enum scatter_shape shape;
    struct scatter s;
    double log_posterior;        /* 0: not compared */
};

static const struct fit_row fits[] = {
    {"twelve lines", twelve, true, SCATTER_FREE,
     {2.550006, 7.574352, 1.281026, 1.429544, -.265038}, -39.640295},
    {"twelve lines, upright", twelve, true, SCATTER_UPRIGHT,
     {2.535361, 7.516287, 1.274394, 1.406668, 0}, -39.864261},
    {"30 by zone", zones_30, true, SCATTER_FREE,
     {2.753867, 6.913570, 1.067107, 1.514397, -.006798}, -51.477702},
    {"30 by zone, upright", zones_30, true, SCATTER_UPRIGHT,
     {2.752801, 6.913164, 1.067254, 1.514428, 0}, -51.477877},
    {"30 in metres", metres_30, true, SCATTER_FREE,
     {2.479926, 7.033093, 1.278933, 1.407876, .174648}, -94.842487},
    {"30 in metres without prior", metres_30, false, SCATTER_FREE,
     {2.323180, 7.018868, 1.379494, 1.477204, .403310}, -81.302397},
    {"d5 alone", last_metre, true, SCATTER_FREE,
     {2.069117, 8.325066, 1.083790, 1.024121, -.195422}, 0},
    {"net alone", all_net, true, SCATTER_FREE, {4.5, 4.105425, 1, 1.513155, 0}, 0},
    {"no serve", nothing, true, SCATTER_FREE, {4.5, 7, 1, 1.3, 0}, 0},
};

static void fit(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof fits / sizeof *fits; i++) {
        const struct fit_row *r = &fits[i];
        struct many m = {.n = 0};
        struct scatter_prior prior = r->prior ? scatter_prior_court() : no_prior;
        r->fill(&m);
        struct scatter_fit got = scatter_fit(m.at, m.n, tau_m, &prior, r->shape);
        assert_true(got.settled);
        near(got.scatter.x_m, r->s.x_m, 2e-6, r->what);
        near(got.scatter.d_m, r->s.d_m, 2e-6, r->what);
        near(got.scatter.sd_x_m, r->s.sd_x_m, 2e-6, r->what);
        near(got.scatter.sd_d_m, r->s.sd_d_m, 2e-6, r->what);
        near(got.scatter.rho, r->s.rho, 2e-6, r->what);
        if (r->log_posterior != 0)
            near(got.log_posterior, r->log_posterior, 2e-6, r->what);
    }
}

/* From the exact shares of a grid the truth comes back. */
static void exact_shares(void **state) {
    struct many m = {.n = 0};
    (void)state;
    for (int i = 0; i < 6; i++)
        for (int j = 0; j < 6; j++)
            m.at[m.n++] = (struct scatter_seen){1.5 * i, 1.5 * i + 1.5, 1.5 * j, 1.5 * j + 1.5,
                                                tape_m, 1, SCATTER_CROSSED};
    put(&m, "net", 1);
    put(&m, "long", 1);
    put(&m, "left", 1);
    put(&m, "right", 1);
    for (size_t i = 0; i < m.n; i++)
        m.at[i].n = 100 * scatter_part(&truth, &m.at[i], tau_m).p;
    struct scatter_fit got = scatter_fit(m.at, m.n, tau_m, &no_prior, SCATTER_FREE);
    near(got.scatter.x_m, truth.x_m, 1e-6, "x");
    near(got.scatter.d_m, truth.d_m, 1e-6, "d");
    near(got.scatter.sd_x_m, truth.sd_x_m, 1e-6, "spread of x");
    near(got.scatter.sd_d_m, truth.sd_d_m, 1e-6, "spread of d");
    near(got.scatter.rho, truth.rho, 1e-6, "correlation");
}

/* The tape decides much: the same zones with another one. */
static void other_tapes(void **state) {
    static const double tapes[] = {4.5, 5.5, 6.5}, d[] = {6.30, 6.91, 7.49};
    struct scatter_prior prior = scatter_prior_court();
    (void)state;
    for (int i = 0; i < 3; i++) {
        struct many m = {.n = 0};
        zones_30(&m);
        for (size_t k = 0; k < m.n; k++)
            m.at[k].tape_m = tapes[i];
        near(scatter_fit(m.at, m.n, tau_m, &prior, SCATTER_UPRIGHT).scatter.d_m, d[i], .005,
             "mean depth");
    }
}

/* Joined or not, and wherever the frame has its origin: the same. */
static void same_fit(void **state) {
    struct scatter_prior prior = scatter_prior_court();
    struct many m = {.n = 0};
    (void)state;
    metres_30(&m);
    struct scatter_fit one = scatter_fit(m.at, m.n, tau_m, &prior, SCATTER_FREE);
    size_t n = scatter_join(m.at, m.n);
    assert_int_equal(n, 22);
    for (size_t i = 0; i < n; i++) {
        m.at[i].x0_m -= 2;
        m.at[i].x1_m -= 2;
        m.at[i].d0_m -= 6;
        m.at[i].d1_m -= 6;
        m.at[i].tape_m -= 6;
    }
    prior.x_m -= 2;
    prior.d_m -= 6;
    struct scatter_fit two = scatter_fit(m.at, n, tau_m, &prior, SCATTER_FREE);
    near(two.scatter.x_m, one.scatter.x_m - 2, 1e-7, "x");
    near(two.scatter.d_m, one.scatter.d_m - 6, 1e-7, "d");
    near(two.scatter.sd_d_m, one.scatter.sd_d_m, 1e-7, "spread");
    near(two.scatter.rho, one.scatter.rho, 1e-7, "correlation");
    near(two.log_posterior, one.log_posterior, 1e-7, "log posterior");
    assert_int_equal(scatter_join(m.at, 0), 0);
}

/* ---- what zones can tell --------------------------------------------------- */

enum { PARAMETERS = 5 };

static struct scatter moved(struct scatter s, int parameter, double by) {
    double *p[PARAMETERS] = {&s.x_m, &s.d_m, &s.sd_x_m, &s.sd_d_m, &s.rho};
    *p[parameter] += by;
    return s;
}

/* Expected information of n serves told by these parts: the derivatives of each
 * part's probability, by differences. */
static void information(double out[PARAMETERS][PARAMETERS], const struct many *m, double n) {
    for (size_t k = 0; k < m->n; k++) {
        double slope[PARAMETERS], p = scatter_part(&truth, &m->at[k], tau_m).p;
        for (int i = 0; i < PARAMETERS; i++) {
            struct scatter up = moved(truth, i, 1e-4), down = moved(truth, i, -1e-4);
            slope[i] = (scatter_part(&up, &m->at[k], tau_m).p -
                        scatter_part(&down, &m->at[k], tau_m).p) / 2e-4;
        }
        for (int i = 0; i < PARAMETERS; i++)
            for (int j = 0; j < PARAMETERS; j++)
                out[i][j] += n * slope[i] * slope[j] / p;
    }
}

/* Gauss-Jordan on the first k rows, in place; the matrix is positive definite. */
static void invert(double a[PARAMETERS][PARAMETERS], int k) {
    for (int i = 0; i < k; i++) {
        double pivot = a[i][i];
        a[i][i] = 1;
        for (int j = 0; j < k; j++)
            a[i][j] /= pivot;
        for (int r = 0; r < k; r++) {
            double by = a[r][i];
            if (r == i)
                continue;
            a[r][i] = 0;
            for (int j = 0; j < k; j++)
                a[r][j] -= by * a[i][j];
        }
    }
}

/* The court in `across` times `deep` parts, with the outs and the net. */
static void cut_court(struct many *m, int across, const double *deep, int deep_n) {
    m->n = 0;
    for (int i = 0; i < across; i++)
        for (int j = 0; j + 1 < deep_n; j++)
            m->at[m->n++] = (struct scatter_seen){9.0 * i / across, 9.0 * (i + 1) / across,
                                                  deep[j], deep[j + 1], tape_m, 1,
                                                  SCATTER_CROSSED};
    put(m, "net", 1);
    put(m, "long", 1);
    put(m, "left", 1);
    put(m, "right", 1);
}

static void standard_errors(const char *what, const struct many *m, int k,
                            const double *expected, const double *tolerance) {
    double a[PARAMETERS][PARAMETERS] = {{0}};
    information(a, m, 30);
    invert(a, k);
    for (int i = 0; i < k; i++)
        near(sqrt(a[i][i]), expected[i], tolerance[i], what);
}

/* Asymptotic standard errors of x, d, their spreads and rho at 30 serves. Six
 * zones tell no correlation: hence SCATTER_UPRIGHT. */
static void what_zones_tell(void **state) {
    static const double six[] = {0, 3, 9}, with_deep[] = {0, 3, 8, 9};
    static const double grid[] = {0, 1.5, 3, 4.5, 6, 7.5, 9};
    static const double se_six[] = {1.31, .53, 6.7, .50, 47};
    static const double coarse[] = {.005, .005, .05, .005, .5};
    static const double se_fixed[] = {.29, .34, .27, .26}, se_deep[] = {.29, .29, .28, .26, .52};
    static const double se_grid[] = {.24, .26, .19, .23, .35};
    static const double fine[] = {.005, .005, .005, .005, .005};
    struct many m;
    (void)state;
    cut_court(&m, 3, six, 3);
    standard_errors("six zones", &m, 5, se_six, coarse);
    standard_errors("six zones, rho known", &m, 4, se_fixed, fine);
    cut_court(&m, 3, with_deep, 4);
    standard_errors("zones with the last metre", &m, 5, se_deep, fine);
    cut_court(&m, 6, grid, 7);
    standard_errors("a grid of 1.5 m", &m, 5, se_grid, fine);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(orthant),      cmocka_unit_test(rectangle),
        cmocka_unit_test(lines),        cmocka_unit_test(whole),
        cmocka_unit_test(too_far),      cmocka_unit_test(fit),
        cmocka_unit_test(exact_shares), cmocka_unit_test(other_tapes),
        cmocka_unit_test(same_fit),     cmocka_unit_test(what_zones_tell),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
