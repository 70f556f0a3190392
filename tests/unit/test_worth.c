/* Chances of sets and matches. Tables for this model could not be read in any
 * publication, so what is checked from outside are its elementary ends: the
 * two-ahead game between equals, 1/(3 - 2p) for the server (a derivation of
 * 2016 on a public question-and-answer site for mathematics), and games whose
 * server does not matter, which are binomial. "own" values were computed by two
 * programs of our own that share no code with this one. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>

#include "kit/dice.h"
#include "worth.h"

static const struct worth_rules to_25 = {25, 0}, to_15 = {15, 0};
static const struct worth_match best_of_5 = {{25, 0}, {15, 0}, 3};

static void near(double got, double expected, double tolerance, const char *what) {
    if (!(fabs(got - expected) <= tolerance))
        fail_msg("%s: %.7f, not %.7f", what, got, expected);
}

static struct worth_set from(double us, double them, unsigned our_points, unsigned their_points,
                             enum worth_side serves) {
    return worth_set((struct worth_serve){us, them}, to_25,
                     (struct worth_score){our_points, their_points, serves});
}

/* ---- elementary ---------------------------------------------------------- */

static void level_of_equals(void **state) {
    static const double rows[][2] = {
        {.30, .416667}, {.40, .454545}, {.45, .476190}, {.50, .5}, {.60, .555556}};
    (void)state;
    for (unsigned i = 0; i < sizeof rows / sizeof *rows; i++) {
        double p = rows[i][0];
        near(from(p, p, 24, 24, WORTH_US).won_frac, rows[i][1], 1e-6, "server, derivation of 2016");
        near(from(p, p, 24, 24, WORTH_US).won_frac, 1 / (3 - 2 * p), 1e-12, "its form");
        near(from(p, p, 24, 24, WORTH_THEM).won_frac, 1 - 1 / (3 - 2 * p), 1e-12, "receiver");
    }
}

/* Coin tosses: 24-24 comes C(48, 24) / 2^48 of the time, and of two rallies
 * from there every other pair ends the set. */
static void fair_coin(void **state) {
    double ways = 1;
    (void)state;
    for (unsigned k = 1; k <= 24; k++)
        ways *= (24. + k) / (4. * k);
    near(from(.5, .5, 0, 0, WORTH_US).level_frac, ways, 1e-12, "24-24, elementary");
    near(ways, .114567, 5e-7, "24-24, elementary");
    near(from(.5, .5, 24, 24, WORTH_US).rallies_n, 4, 1e-12, "rallies from 24-24, elementary");
}

/* pa = r, pb = 1 - r: we win each rally with r, whoever serves. */
static void server_does_not_matter(void **state) {
    static const double rows[][2] = {{.52, .613052}, {.55, .764116}};
    (void)state;
    for (unsigned i = 0; i < 2; i++) {
        double r = rows[i][0], sum = 0, term = pow(r, 25);
        for (unsigned lost = 0; lost < 24; lost++) {
            sum += term;
            term *= (25. + lost) / (lost + 1) * (1 - r);
        }
        double ways = term / r; /* C(48, 24) r^24 (1 - r)^24 */
        sum += ways * r * r / (r * r + (1 - r) * (1 - r));
        for (enum worth_side s = WORTH_US; s <= WORTH_THEM; s++) {
            near(from(r, 1 - r, 0, 0, s).won_frac, sum, 1e-12, "negative binomial, elementary");
            near(from(r, 1 - r, 0, 0, s).won_frac, rows[i][1], 5e-7, "own");
        }
    }
}

/* With p = q two rallies make it level again with 1 - p, whoever serves: pq' +
 * q'q', where q' = 1 - p. A textbook exercise: .2025 after four rallies. */
static void level_with_equal_sides(void **state) {
    (void)state;
    near(from(.55, .55, 24, 24, WORTH_US).rallies_n, 2 / .55, 1e-12, "geometric series");
    near(pow(1 - 2 / from(.55, .55, 24, 24, WORTH_THEM).rallies_n, 2), .2025, 1e-12,
         "not over after four rallies, textbook exercise");
    near(from(.55, .45, 24, 24, WORTH_US).won_frac, .599010, 5e-7, "own");
    near(from(.55, .45, 24, 24, WORTH_THEM).won_frac, .599010, 5e-7, "own");
}

/* ---- the table ----------------------------------------------------------- */

/* Own values; gains are for one won rally more in a hundred of our serves. */
static const struct row {
    double us, them, we_first, they_first, rallies, level, to_15, match, plus_set, plus_match;
} rows[] = {
    {.30, .30, .4752, .5248, 47.02, .1746, .5000, .5000, .0318, .0571},
    {.35, .35, .4821, .5179, 46.38, .1560, .5000, .5000, .0304, .0544},
    {.40, .40, .4883, .5117, 45.81, .1403, .5000, .5000, .0294, .0527},
    {.45, .45, .4942, .5058, 45.27, .1266, .5000, .5000, .0288, .0517},
    {.35, .30, .6324, .6720, 46.42, .1542, .6218, .7590, .0277, .0404},
    {.40, .35, .6327, .6602, 45.84, .1387, .6166, .7500, .0270, .0401},
    {.45, .40, .6346, .6509, 45.29, .1253, .6132, .7441, .0266, .0398},
    {.40, .30, .7650, .7920, 45.39, .1202, .7279, .9153, .0213, .0186},
    {.50, .40, .7618, .7707, 44.30, .0994, .7157, .9031, .0214, .0201},
    {.50, .50, .5000, .5000, 44.73, .1146, .5000, .5000, .0286, .0512},
    {.55, .45, .7641, .7641, 43.74, .0900, .7133, .9009, .0216, .0205},
};

static void whole_table(void **state) {
    (void)state;
    for (unsigned i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct row *r = &rows[i];
        struct worth_serve p = {r->us, r->them};
        struct worth_set mean = worth_set_mean(p, to_25);
        struct worth_gain plus = worth_gain(p, &best_of_5, .01);
        near(from(r->us, r->them, 0, 0, WORTH_US).won_frac, r->we_first, 5e-5, "we serve first");
        near(from(r->us, r->them, 0, 0, WORTH_THEM).won_frac, r->they_first, 5e-5, "they do");
        near(mean.rallies_n, r->rallies, 5e-3, "rallies");
        near(mean.level_frac, r->level, 5e-5, "24-24");
        near(worth_set_mean(p, to_15).won_frac, r->to_15, 5e-5, "set to 15");
        near(worth_match(p, &best_of_5), r->match, 5e-5, "match");
        near(plus.set_frac, r->plus_set, 5e-5, "set gain");
        near(plus.match_frac, r->plus_match, 5e-5, "match gain");
    }
}

/* One more error in a hundred, all else equal: .01 w fewer won. Own. */
static void one_more_error(void **state) {
    static const struct {
        double p, error, set, match, sixth_set, sixth_match;
    } of[] = {{.40, .15, -.0139, -.0250, -.0023, -.0042},
              {.35, .12, -.0122, -.0218, -.0020, -.0036}};
    (void)state;
    for (unsigned i = 0; i < 2; i++) {
        struct worth_serve p = {of[i].p, of[i].p};
        double lost = .01 * of[i].p / (1 - of[i].error);
        struct worth_gain team = worth_gain(p, &best_of_5, -lost);
        struct worth_gain one = worth_gain(p, &best_of_5, -lost / 6);
        near(team.set_frac, of[i].set, 5e-5, "team, set");
        near(team.match_frac, of[i].match, 5e-5, "team, match");
        near(one.set_frac, of[i].sixth_set, 5e-5, "one of six, set");
        near(one.match_frac, of[i].sixth_match, 5e-5, "one of six, match");
    }
}

/* Half of the rallies between equals; own. */
static void serves_of_a_set(void **state) {
    static const double of[][2] = {{.35, 23.19}, {.40, 22.90}, {.45, 22.63}};
    (void)state;
    for (unsigned i = 0; i < 3; i++) {
        struct worth_set mean = worth_set_mean((struct worth_serve){of[i][0], of[i][0]}, to_25);
        near(mean.served_n, of[i][1], 5e-3, "serves");
        near(mean.served_n, mean.rallies_n / 2, 1e-9, "half");
    }
}

static void importance(void **state) {
    static const struct {
        unsigned us, them;
        double importance;
    } of[] = {{0, 0, .1166},   {10, 10, .1519}, {20, 15, .0564}, {20, 20, .2744},
              {23, 23, .4545}, {24, 23, .4545}, {24, 24, .4545}};
    struct worth_serve p = {.4, .4};
    (void)state;
    for (unsigned i = 0; i < sizeof of / sizeof *of; i++)
        near(worth_importance(p, to_25, (struct worth_score){of[i].us, of[i].them, WORTH_US}),
             of[i].importance, 5e-5, "own");
    near(worth_importance(p, to_25, (struct worth_score){25, 20, WORTH_US}), 0, 0, "set is over");
}

static void break_even(void **state) {
    static const double of[][4] = {
        {.08, .35, .40, .1950}, {.08, .35, .45, .2844}, {.10, .40, .45, .2000}, {.15, .40, .50, .3200}};
    double error;
    (void)state;
    for (unsigned i = 0; i < 4; i++) {
        assert_true(worth_break_even((1 - of[i][0]) * of[i][1], of[i][2], &error));
        near(error, of[i][3], 5e-5, "e' = 1 - (1 - e) w / w'");
    }
    assert_false(worth_break_even(.40, .35, &error));
    assert_false(worth_break_even(.40, 0, &error));
}

/* ---- rules, guards ------------------------------------------------------- */

static void later_scores(void **state) {
    struct worth_rules capped = {25, 26}, at_once = {25, 25};
    struct worth_serve p = {.45, .4};
    (void)state;
    near(from(.45, .4, 27, 26, WORTH_US).won_frac, from(.45, .4, 24, 23, WORTH_US).won_frac, 0,
         "27-26 is 24-23");
    near(from(.45, .4, 30, 30, WORTH_THEM).won_frac, from(.45, .4, 24, 24, WORTH_THEM).won_frac, 0,
         "30-30 is 24-24");
    near(from(.45, .4, 25, 23, WORTH_US).won_frac, 1, 0, "25-23");
    near(from(.45, .4, 28, 30, WORTH_US).won_frac, 0, 0, "28-30");
    near(worth_set(p, at_once, (struct worth_score){24, 24, WORTH_US}).won_frac, .45, 1e-12,
         "next point decides");
    /* 24-24, cap 26: two of two, or one of two and then the last one. */
    near(worth_set(p, capped, (struct worth_score){24, 24, WORTH_US}).won_frac,
         .45 * (.45 + .55 * .6) + .55 * .6 * .45, 1e-12, "cap of 26 by hand");
    near(worth_set(p, capped, (struct worth_score){26, 25, WORTH_US}).won_frac, 1, 0, "26-25, cap");
}

static void best_of_3(void **state) {
    struct worth_match m = {{25, 0}, {25, 0}, 2};
    struct worth_serve p = {.45, .4};
    double first = from(.45, .4, 0, 0, WORTH_US).won_frac;
    double second = from(.45, .4, 0, 0, WORTH_THEM).won_frac;
    double last = worth_set_mean(p, to_25).won_frac;
    (void)state;
    near(worth_match(p, &m), first * second + (first * (1 - second) + second * (1 - first)) * last,
         1e-12, "by hand");
}

static void bounds(void **state) {
    static const double ends[] = {0, 1};
    (void)state;
    for (unsigned i = 0; i < 4; i++) {
        struct worth_set s = worth_set_mean((struct worth_serve){ends[i & 1], ends[i >> 1]}, to_25);
        assert_true(s.won_frac >= 0 && s.won_frac <= 1 && isfinite(s.rallies_n));
    }
    near(worth_set_mean((struct worth_serve){1, 0}, to_25).won_frac, 1, 1e-4, "we win all");
    near(worth_set_mean((struct worth_serve){0, 1}, to_25).won_frac, 0, 1e-4, "we lose all");
}

/* ---- played out ---------------------------------------------------------- */

static bool play(struct dice *d, unsigned us_per_mille, unsigned them_per_mille, unsigned *rallies,
                 unsigned *served) {
    unsigned points[2] = {0, 0};
    enum worth_side serves = dice_below(d, 2) ? WORTH_US : WORTH_THEM;
    while ((points[0] < 25 && points[1] < 25) ||
           (points[0] < points[1] + 2 && points[1] < points[0] + 2)) {
        bool held = dice_in(d, serves == WORTH_US ? us_per_mille : them_per_mille);
        ++*rallies;
        *served += serves == WORTH_US;
        serves = held ? serves : serves == WORTH_US ? WORTH_THEM : WORTH_US;
        points[serves]++;
    }
    return points[WORTH_US] > points[WORTH_THEM];
}

/* Of 40 000 sets; the tolerances are four standard errors. */
static void simulated(void **state) {
    enum { SETS = 40000 };
    struct dice d = {7};
    unsigned won = 0, rallies = 0, served = 0;
    struct worth_set exact = worth_set_mean((struct worth_serve){.45, .40}, to_25);
    (void)state;
    for (unsigned i = 0; i < SETS; i++)
        won += play(&d, 450, 400, &rallies, &served);
    near((double)won / SETS, exact.won_frac, .0096, "won");
    near((double)rallies / SETS, exact.rallies_n, .1, "rallies");
    near((double)served / SETS, exact.served_n, .1, "our serves");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(level_of_equals), cmocka_unit_test(fair_coin),
        cmocka_unit_test(server_does_not_matter), cmocka_unit_test(level_with_equal_sides),
        cmocka_unit_test(whole_table), cmocka_unit_test(one_more_error),
        cmocka_unit_test(serves_of_a_set), cmocka_unit_test(importance),
        cmocka_unit_test(break_even), cmocka_unit_test(later_scores),
        cmocka_unit_test(best_of_3), cmocka_unit_test(bounds),
        cmocka_unit_test(simulated),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
