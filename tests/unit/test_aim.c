/* Where to aim. Darts: the target is the one that R. Tibshirani, A. Price, J.
 * Taylor, J. R. Stat. Soc. A 174 (2011) 213-226 optimise; measures in mm. All
 * values are our own computation by two programs, but for the mean of a random
 * dart, which the paper gives as 12.82 (second hand). Court: our own computation
 * by two programs, with invented worths. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "aim.h"
#include "kit/dice.h"

static struct arena *arena;

static void no_memory(size_t bytes) {
    (void)bytes;
    abort();
}

static int begin(void **state) {
    (void)state;
    arena = arena_new(no_memory);
    return 0;
}

static int end(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

static void near(double got, double expected, double tolerance, const char *what) {
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: %.6f, not %.6f", what, got, expected);
}

/* ---- darts ----------------------------------------------------------------- */

static const double pi = 3.14159265358979323846;

enum { RINGS = 6, SECTORS = 20 };

/* Double bull, single bull, single, treble, single, double. */
static const double edge_mm[RINGS + 1] = {0, 6.35, 15.9, 99, 107, 162, 170};
static const int times[RINGS] = {0, 0, 1, 3, 1, 2};
static const int clockwise[SECTORS] = {20, 1, 18, 4, 13, 6, 10, 15, 2, 17,
                                       3, 19, 7, 16, 8, 11, 14, 9, 12, 5};

static double score(int ring, int sector) {
    if (ring < 2)
        return ring ? 25 : 50;
    return times[ring] * clockwise[sector];
}

/* Gauss-Legendre, 8 points (Abramowitz, Stegun 1964, table 25.4). */
static const double node[4][2] = {{.1834346424956498, .3626837833783620},
                                  {.5255324099163290, .3137066458778873},
                                  {.7966664774136267, .2223810344533745},
                                  {.9602898564975363, .1012285362903763}};

/* A point of the rule and its weight, k from 0 to 7, on [a, b]. */
static double node_at(int k, double a, double b, double *weight) {
    *weight = node[k / 2][1] * (b - a) / 2;
    return (a + b) / 2 + (k % 2 ? 1 : -1) * node[k / 2][0] * (b - a) / 2;
}

struct darts {
    double sigma_mm;
    int only_ring;               /* its probability in place of the score; -1: the score */
};

/* Over a piece of a ring; 0 where it is too far off to matter. */
static double piece(const struct darts *g, double x, double y, double r0, double r1, double a0,
                    double a1) {
    double rm = (r0 + r1) / 2, am = (a0 + a1) / 2, s = g->sigma_mm, sum = 0, wr, wa;
    double size = (r1 - r0) / 2 + rm * (a1 - a0) / 2;
    if (hypot(rm * sin(am) - x, rm * cos(am) - y) > 8 * s + size)
        return 0;
    for (int i = 0; i < 8; i++)
        for (int j = 0; j < 8; j++) {
            double r = node_at(i, r0, r1, &wr), a = node_at(j, a0, a1, &wa);
            double dx = r * sin(a) - x, dy = r * cos(a) - y;
            sum += wr * wa * r * exp(-(dx * dx + dy * dy) / (2 * s * s));
        }
    return sum / (2 * pi * s * s);
}

/* A field of the board in pieces not much wider than the scatter. */
static double field(const struct darts *g, double x, double y, int ring, int sector) {
    double r0 = edge_mm[ring], r1 = edge_mm[ring + 1], arc = 2 * pi / SECTORS, sum = 0;
    int deep = (int)ceil((r1 - r0) / (2.5 * g->sigma_mm));
    int wide = (int)ceil(r1 * arc / (2.5 * g->sigma_mm));
    double dr = (r1 - r0) / deep, da = arc / wide;
    for (int i = 0; i < deep; i++)
        for (int j = 0; j < wide; j++)
            sum += piece(g, x, y, r0 + i * dr, r0 + (i + 1) * dr, (sector - .5) * arc + j * da,
                         (sector - .5) * arc + (j + 1) * da);
    return sum;
}

static double dart(const void *facts, double x, double y) {
    const struct darts *g = facts;
    double sum = 0;
    for (int ring = 0; ring < RINGS; ring++)
        for (int sector = 0; sector < SECTORS; sector++) {
            if (g->only_ring < 0)
                sum += score(ring, sector) * field(g, x, y, ring, sector);
            else if (ring == g->only_ring)
                sum += field(g, x, y, ring, sector);
        }
    return sum;
}

static struct aim_best best_dart(double sigma_mm) {
    struct darts g = {sigma_mm, -1};
    struct aim_target t = {dart, &g, -120, 120, -120, 120, fmin(2 * sigma_mm, 15)};
    return aim_search(&t, arena);
}

/* Best aim and its score, and the score of three fixed aims. */
static const struct dart_row {
    double sigma, x, y, best, t20, t19, bull;
} dart_rows[] = {
    {5, -.2, 102.9, 43.0165, 43.0112, 40.8664, 38.7466},
    {10, -.7, 103.2, 29.5283, 29.5000, 28.3978, 25.4684},
    {15, -1.6, 105.2, 21.7665, 21.6307, 21.4135, 18.8751},
    {16.4, -1.9, 106.1, 20.2932, 20.1211, 20.0872, 17.7427},
    {17, -35.1, -99.6, 19.7455, 19.5484, 19.5853, 17.3217},
    {26.9, -40.5, -98.0, 15.2992, 14.3614, 15.0936, 13.5273},
    {40, -53.3, -69.3, 13.5678, 12.1694, 13.0471, 12.3101},
    {64.6, -30.6, -12.7, 12.2072, 9.8818, 10.4615, 12.0101},
    {80, -16.5, -4.9, 11.2639, 8.7686, 9.1836, 11.1970},
    {100, -10.7, -2.8, 9.6521, 7.5250, 7.7911, 9.6262},
};

static void darts(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof dart_rows / sizeof *dart_rows; i++) {
        const struct dart_row *r = &dart_rows[i];
        struct darts g = {r->sigma, -1};
        struct aim_best best = best_dart(r->sigma);
        near(best.x, r->x, .06, "x of the best aim");
        near(best.d, r->y, .06, "y of the best aim");
        near(best.value, r->best, 6e-5, "its score");
        near(dart(&g, 0, 103), r->t20, 6e-5, "score at treble 20");
        near(dart(&g, 103 * sin(1.1 * pi), 103 * cos(1.1 * pi)), r->t19, 6e-5,
             "score at treble 19");
        near(dart(&g, 0, 0), r->bull, 6e-5, "score at the bull");
    }
}

/* The best aim leaves treble 20 at 16.907 mm. */
static void switch_over(void **state) {
    (void)state;
    assert_true(best_dart(16.905).d > 90);
    assert_true(best_dart(16.909).d < -90);
}

/* Mean over the board, by areas: 12.8242; the paper prints 12.82. */
static void random_dart(void **state) {
    double sum = 0;
    (void)state;
    for (int ring = 0; ring < RINGS; ring++)
        for (int sector = 0; sector < SECTORS; sector++)
            sum += score(ring, sector) / SECTORS *
                   (edge_mm[ring + 1] * edge_mm[ring + 1] - edge_mm[ring] * edge_mm[ring]);
    near(sum / (170.0 * 170), 12.82, .005, "random dart");
    near(sum / (170.0 * 170), 12.8242, 5e-5, "random dart, own digits");
}

/* From the bull, shares of the rings are closed: exp(-r0^2/2s^2) - exp(-r1^2/2s^2).
 * The printed digits are our own computation. */
static void rings(void **state) {
    static const double sigma[] = {26.9, 64.6};
    static const double shares[2][RINGS] = {
        {.027477, .132802, .838575, .000778, .000367, 0},
        {.004820, .025016, .661126, .055374, .210571, .011746}};
    (void)state;
    for (int i = 0; i < 2; i++)
        for (int ring = 0; ring < RINGS; ring++) {
            struct darts g = {sigma[i], ring};
            double s2 = 2 * sigma[i] * sigma[i];
            double closed = exp(-edge_mm[ring] * edge_mm[ring] / s2) -
                            exp(-edge_mm[ring + 1] * edge_mm[ring + 1] / s2);
            near(dart(&g, 0, 0), shares[i][ring], 6e-7, "ring");
            near(dart(&g, 0, 0), closed, 1e-9, "ring in closed form");
        }
}

/* ---- the court --------------------------------------------------------------- */

static struct aim_court court(double sd_x, double sd_d) {
    return (struct aim_court){.worth = {0, .44, .40, .42, .40, .42, .34},
                              .tape_m = 5.5, .tau_m = .9, .scatter = {0, 0, sd_x, sd_d, 0}};
}

static const struct court_row {
    double sd_x, sd_d, x, d, value, in_frac, deep_right, middle;
} court_rows[] = {
    {.4, .48, 7.421, 7.777, .431950, .9817, .371496, .315971},
    {.7, .84, 7.258, 7.469, .394955, .9051, .291072, .301688},
    {1.0, 1.20, 7.006, 7.331, .334101, .7881, .235022, .279349},
    {1.3, 1.56, 6.655, 7.261, .277013, .6784, .194510, .252640},
    {1.8, 2.16, 5.574, 7.205, .210791, .5473, .147298, .208549},
};

static void best_on_court(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof court_rows / sizeof *court_rows; i++) {
        const struct court_row *r = &court_rows[i];
        struct aim_court c = court(r->sd_x, r->sd_d);
        struct aim_best best = aim_at_court(&c, arena);
        near(best.x, r->x, 1e-3, "x");
        near(best.d, r->d, 1e-3, "d");
        near(best.value, r->value, 6e-7, "value");
        near(aim_in_frac(&c, best.x, best.d), r->in_frac, 6e-5, "in");
        near(aim_value(&c, 8, 8.5), r->deep_right, 6e-7, "value deep at the side");
        near(aim_value(&c, 4.5, 7), r->middle, 6e-7, "value in the middle");
    }
}

static void bias(void **state) {
    struct aim_court c = court(1.1, 1.3);
    (void)state;
    c.scatter.rho = .2;
    near(aim_value(&c, 2.4, 7.3), .30380397, 6e-9, "value");
    c.scatter.x_m = .4;
    c.scatter.d_m = -.3;
    struct aim_best best = aim_at_court(&c, arena);
    near(best.x, 6.5135, 1e-4, "x");
    near(best.d, 7.6077, 1e-4, "d");
    near(best.value, .316847, 6e-7, "value");
}

/* With every landing worth 1 the best depth keeps most serves in. */
static void most_in(void **state) {
    static const double tape[] = {3, 5.5, 7}, in[] = {.9624, .7766, .5171},
                        d[] = {6.226, 7.307, 7.903};
    (void)state;
    for (int i = 0; i < 3; i++) {
        struct aim_court c = {.worth = {0, 1, 1, 1, 1, 1, 1}, .tape_m = tape[i], .tau_m = .9,
                              .scatter = {0, 0, 1.3, 1.3, 0}};
        struct aim_best best = aim_at_court(&c, arena);
        near(best.value, in[i], 6e-5, "in");
        near(best.d, d[i], 2e-3, "depth");
        near(aim_in_frac(&c, best.x, best.d), best.value, 1e-9, "in, as one rectangle");
    }
}

/* ---- advice ------------------------------------------------------------------ */

enum { CELLS = 18 * 18 + 4 };

/* `n` serves aimed at the point, as a scatter would spread them over cells of half
 * a metre; relative to the aim. */
static void spread_out(struct scatter_seen *seen, const struct scatter *s, double x, double d,
                       double n) {
    size_t k = 0;
    for (int i = 0; i < 18; i++)
        for (int j = 0; j < 18; j++)
            seen[k++] = (struct scatter_seen){i / 2.0 - x, i / 2.0 + .5 - x, j / 2.0 - d,
                                              j / 2.0 + .5 - d, 5.5 - d, 1, SCATTER_CROSSED};
    seen[k++] = (struct scatter_seen){-HUGE_VAL, HUGE_VAL, -HUGE_VAL, HUGE_VAL, 5.5 - d, 1,
                                      SCATTER_STOPPED};
    seen[k++] = (struct scatter_seen){-x, 9 - x, 9 - d, HUGE_VAL, 5.5 - d, 1, SCATTER_CROSSED};
    seen[k++] = (struct scatter_seen){9 - x, HUGE_VAL, -HUGE_VAL, HUGE_VAL, 5.5 - d, 1,
                                      SCATTER_CROSSED};
    seen[k++] = (struct scatter_seen){-HUGE_VAL, -x, -HUGE_VAL, HUGE_VAL, 5.5 - d, 1,
                                      SCATTER_CROSSED};
    for (size_t i = 0; i < k; i++)
        seen[i].n = n * scatter_part(s, &seen[i], .9).p;
}

static struct aim_question question(const struct scatter_seen *seen, const struct aim_used *used,
                                    unsigned serves_n) {
    struct aim_court c = court(1, 1);
    struct aim_question q = {.seen = seen, .seen_n = CELLS, .used = used, .used_n = 1,
                             .serves_n = serves_n, .shape = SCATTER_FREE, .tape_m = 5.5,
                             .tau_m = .9};
    memcpy(q.worth, c.worth, sizeof q.worth);
    return q;
}

/* Fifty thousand serves leave nothing of the prior: the advice is the optimum of
 * the truth, and what she does now is worth what it is worth. */
static void own(void **state) {
    static struct scatter_seen seen[CELLS];
    static const struct scatter s = {.4, -.3, 1.1, 1.3, .2};
    struct aim_used used = {2.0, 7.6, 50000};
    (void)state;
    spread_out(seen, &s, 2.0, 7.6, 50000);
    struct aim_question q = question(seen, &used, 60000);
    struct aim_answer got = aim_advise(&q, arena);
    const struct aim_case *c = &got.by[AIM_AS_IT_IS];
    assert_int_equal(got.say, SAY_AIM_OWN);
    near(c->scatter.x_m, .4, 2e-3, "bias across");
    near(c->scatter.d_m, -.3, 2e-3, "bias in depth");
    near(c->best.x, 6.5135, .01, "x");
    near(c->best.d, 7.6077, .01, "d");
    near(c->best.value, .316847, 2e-4, "value");
    near(c->now, .30380397, 2e-4, "value now");
    near(c->now_in_frac, .76633456, 2e-4, "in the court now");
    assert_true(got.by[AIM_NEARER].tape_m == 5.0 && got.by[AIM_FARTHER].tape_m == 6.0);
    near(aim_gain(&got).low, .316847 - .30380397, 2e-4, "least gain, with the tape as it is");
    assert_true(aim_gain(&got).high > aim_gain(&got).low);
    assert_true(aim_pays(&got));
    assert_true(got.by[AIM_NEARER].best.d < c->best.d && c->best.d < got.by[AIM_FARTHER].best.d);
}

/* Below 30 aimed serves, or 150 in all, nothing of hers: anybody's scatter. */
static void how_sure(void **state) {
    static const struct { unsigned serves, aimed; enum say_aim say; } rows[] = {
        {1000, 29, SAY_AIM_GENERAL},     {149, 120, SAY_AIM_GENERAL},
        {150, 30, SAY_AIM_OWN_CAUTION},  {1000, 99, SAY_AIM_OWN_CAUTION},
        {150, 100, SAY_AIM_OWN},
    };
    static struct scatter_seen seen[CELLS];
    static const struct scatter wild = {1, -1, 2, 2, 0};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct aim_used used = {2.0, 7.6, rows[i].aimed};
        spread_out(seen, &wild, 2.0, 7.6, rows[i].aimed);
        struct aim_question q = question(seen, &used, rows[i].serves);
        struct aim_answer got = aim_advise(&q, arena);
        struct scatter s = got.by[AIM_FARTHER].scatter;
        assert_int_equal(got.say, rows[i].say);
        assert_int_equal(got.aimed_n, rows[i].aimed);
        if (got.say == SAY_AIM_GENERAL)
            assert_true(s.x_m == 0 && s.d_m == 0 && s.sd_x_m == 1 && s.sd_d_m == 1.3);
        else
            assert_true(s.x_m > .5 && s.sd_x_m > 1.5);
    }
}

/* ---- what the estimate costs ------------------------------------------------- */

/* What a scorer in zones, or with a tape measure, writes of a serve at x, d. */
static struct scatter_seen written(double x, double d, double u, bool metres) {
    struct scatter_seen in = {x, x, d, d, 5.5, 1, SCATTER_CROSSED};
    double third = 3 * floor(x / 3);
    if (u < 5.5)
        return (struct scatter_seen){-HUGE_VAL, HUGE_VAL, -HUGE_VAL, HUGE_VAL, 5.5, 1,
                                     SCATTER_STOPPED};
    if (x < 0 || x > 9)
        return (struct scatter_seen){x < 0 ? -HUGE_VAL : 9, x < 0 ? 0 : HUGE_VAL, -HUGE_VAL,
                                     HUGE_VAL, 5.5, 1, SCATTER_CROSSED};
    if (d > 9)
        return (struct scatter_seen){0, 9, 9, HUGE_VAL, 5.5, 1, SCATTER_CROSSED};
    return metres ? in : (struct scatter_seen){third, third + 3, d > 3 ? 3 : 0, d > 3 ? 9 : 3,
                                               5.5, 1, SCATTER_CROSSED};
}

static double bell(struct dice *d) {
    return dice_around(d, 0, 10000) / 10000.0;
}

/* n serves aimed at 2.4,7.3 without bias, as scattered in c, relative to the aim. */
static size_t serve(struct scatter_seen *seen, size_t n, const struct aim_court *c, bool metres,
                    struct dice *dice) {
    for (size_t i = 0; i < n; i++) {
        double a = bell(dice), b = bell(dice), rho = c->scatter.rho;
        double x = 2.4 + c->scatter.sd_x_m * (rho * a + sqrt(1 - rho * rho) * b);
        double d = 7.3 + c->scatter.sd_d_m * a;
        seen[i] = written(x, d, d + c->tau_m * bell(dice), metres);
        seen[i].x0_m -= 2.4;
        seen[i].x1_m -= 2.4;
        seen[i].d0_m -= 7.3;
        seen[i].d1_m -= 7.3;
        seen[i].tape_m -= 7.3;
    }
    return scatter_join(seen, n);
}

enum { REPEATS = 60, SERVES_MAX = 100 };

/* Mean value lost by aiming where the estimate says, against the best aim. */
static double mean_loss(const struct aim_court *truth, size_t n, bool metres, struct dice *dice) {
    struct scatter_prior prior = scatter_prior_aimed();
    struct scatter_seen seen[SERVES_MAX];
    double best = aim_at_court(truth, arena).value, sum = 0;
    for (int i = 0; i < REPEATS; i++) {
        size_t kinds = serve(seen, n, truth, metres, dice);
        struct aim_court guess = *truth;
        guess.scatter = scatter_fit(seen, kinds, truth->tau_m, &prior,
                                    metres ? SCATTER_FREE : SCATTER_UPRIGHT).scatter;
        struct aim_best at = aim_at_court(&guess, arena);
        sum += best - aim_value(truth, at.x, at.d);
    }
    return sum / REPEATS;
}

/* Our own computation, 60 repeats too. Its draws were others, so half of each mean
 * is allowed. */
static void estimate_costs(void **state) {
    static const struct { size_t n; bool metres; double loss; } costs[] = {
        {10, true, .0102}, {10, false, .0135}, {30, true, .0047},
        {30, false, .0080}, {100, true, .0016}, {100, false, .0022},
    };
    struct aim_court truth = court(1.1, 1.3);
    struct dice dice = {.state = 500};
    (void)state;
    truth.scatter.rho = .2;
    for (size_t i = 0; i < sizeof costs / sizeof *costs; i++) {
        double loss = mean_loss(&truth, costs[i].n, costs[i].metres, &dice);
        near(loss, costs[i].loss, .5 * costs[i].loss, "mean loss");
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(darts),         cmocka_unit_test(switch_over),
        cmocka_unit_test(random_dart),   cmocka_unit_test(rings),
        cmocka_unit_test(best_on_court), cmocka_unit_test(bias),
        cmocka_unit_test(most_in),       cmocka_unit_test(own),
        cmocka_unit_test(how_sure),      cmocka_unit_test(estimate_costs),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
