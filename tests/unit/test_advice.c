/* Advice as data. Which counts allow which claim is our own choice (rate.h);
 * so are the orders checked here. Costs are worked by hand beside each check. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "advice.h"
#include "kit/dice.h"
#include "kit/in_arena.h"
#include "kit/scene.h"
#include "worth.h"

enum { SERVES_MOST = 2000 };

static void near(double got, double expected, const char *what) {
    if (!(fabs(got - expected) <= 1e-9))
        fail_msg("%s: %.9f, not %.9f", what, got, expected);
}

/* ---- notes ----------------------------------------------------------------- */

/* One match of one set, under way. */
struct court {
    struct arena *arena;
    struct played at[SERVES_MOST];
    size_t n;
    struct advice_of of;
};

static struct court *court_new(struct arena *a) {
    struct court *c = arena_alloc(a, 1, sizeof *c);
    c->arena = a;
    c->of = advice_of(a);
    return c;
}

struct how {
    enum outcome outcome;
    unsigned marks;
    enum rally rally;
    enum serve_type type;
    enum side side;
    bool cold;
};

static void serve(struct court *c, unsigned times, unsigned shirt, struct how h) {
    for (unsigned i = 0; i < times; i++) {
        assert_true(c->n < SERVES_MOST);
        struct played *p = &c->at[c->n++];
        *p = scene_serve(h.outcome, shirt);
        p->said.marks = h.marks;
        p->observed = h.side == OURS ? PHASE_TOSS : 0;
        p->won = (uint8_t)h.rally;
        p->type = (uint8_t)h.type;
        p->side = (uint8_t)h.side;
        p->cold = h.cold;
    }
}

/* The table, with passes of 3 for all that is no miss. */
static void table(struct court *c, unsigned shirt, enum mark m, enum outcome o, struct twoway t) {
    serve(c, t.a, shirt, (struct how){.outcome = o, .marks = 1u << m, .rally = RALLY_LOST});
    serve(c, t.b, shirt,
          (struct how){.outcome = OUTCOME_IN3, .marks = 1u << m, .rally = RALLY_LOST});
    serve(c, t.c, shirt, (struct how){.outcome = o, .rally = RALLY_LOST});
    serve(c, t.d, shirt, (struct how){.outcome = OUTCOME_IN3, .rally = RALLY_WON});
}

static struct advice advise(struct court *c) {
    static const struct advice none;
    struct advice a = none;
    struct drill_book *book = arena_alloc(c->arena, 1, sizeof *book);
    c->of.faults = faults_new(c->arena);
    advice_add(&c->of, scene_of(c->at, c->n, c->arena));
    drill_book_init(book, c->arena);
    advice_init(&a, &c->of, book, c->arena);
    return a;
}

/* The only server, or the one with most serves. */
static struct advice_server first(struct court *c) {
    struct advice a = advise(c);
    return advice_server(&a, 0);
}

static const struct checked *notes(struct str bytes, struct arena *a) {
    struct diags d;
    struct text t;
    diags_init(&d, a);
    text_take(&t, STR("test"), bytes, a, &d);
    const struct checked *c = check_text(&t, CHECK_KEEP, a, &d);
    assert_int_equal(d.errors, 0);
    return c;
}

/* The player of the scene with this shirt, in a practice with a focus. */
static void focus_on(struct court *c, const char *what, const char *drill) {
    struct played one = scene_serve(OUTCOME_IN3, 7);
    const struct checked *scene = scene_of(&one, 1, c->arena);
    const struct team *us = &scene->match->teams[OURS];
    const struct player *who = team_find(us, 7);
    assert_non_null(who);
    progress_add(c->of.progress,
                 notes(str_printf(c->arena,
                                  "notation 1\npractice 2026-10-06\nteam H \"%.*s\"\n"
                                  "player H7 \"%.*s\"\nfocus 7 %s \"%s\" 14/20\n",
                                  STR_ARG(us->name), STR_ARG(who->name), what, drill),
                       c->arena));
}

/* ---- what it costs --------------------------------------------------------- */

/* Won: 20 of 60 passes of 3, 10 of 20 passes of 1, 10 aces: 40 of 90 in play.
 * Ten into the net, in one set: 10 * 40/90 points. */
static void cost_by_hand(void **state) {
    struct court *c = court_new(*state);
    double won;
    serve(c, 20, 7, (struct how){.outcome = OUTCOME_IN3, .rally = RALLY_WON});
    serve(c, 40, 7, (struct how){.outcome = OUTCOME_IN3, .rally = RALLY_LOST});
    serve(c, 10, 7, (struct how){.outcome = OUTCOME_IN1, .rally = RALLY_WON});
    serve(c, 10, 7, (struct how){.outcome = OUTCOME_IN1, .rally = RALLY_LOST});
    serve(c, 10, 7, (struct how){.outcome = OUTCOME_ACE, .rally = RALLY_WON});
    serve(c, 10, 7, (struct how){.outcome = OUTCOME_NET, .rally = RALLY_LOST});
    struct advice a = advise(c);
    assert_true(advice_in_play(&a, NULL, &won));
    near(won, 40. / 90, "in play");
    struct advice_team team = advice_team(&a);
    assert_int_equal(team.n, 1);
    assert_int_equal(team.at[0].kind, ADVICE_FINDING); /* all ten misses are of one kind */
    assert_int_equal(team.at[0].finding.kind, FINDING_ERROR);
    near(team.at[0].cost.points_n, 10 * 40. / 90, "points");
    double above_half = rate_wilson((struct rate){10, 10}).low - .5;
    near(team.at[0].cost.sure_n, 10 * above_half * 40 / 90, "sure");
    assert_false(team.at[0].cost.has_set); /* 100 serves are no season */
    struct advice_server s = advice_server(&a, 0);
    assert_int_equal(s.n, 1);
    near(s.at[0].cost.points_n, 10 * 40. / 90, "hers");
    near(s.at[0].cost.sure_n, rate_wilson((struct rate){10, 100}).low * 100 * 40 / 90, "hers");
}

/* Of 200 serves 80 are won, theirs half: 20 fewer misses win 20 * 80/180 more. */
static void sets_of_a_season(void **state) {
    struct court *c = court_new(*state);
    struct worth_match rules = {{25, 0}, {15, 0}, 3};
    serve(c, 80, 7, (struct how){.outcome = OUTCOME_IN3, .rally = RALLY_WON});
    serve(c, 100, 7, (struct how){.outcome = OUTCOME_IN3, .rally = RALLY_LOST});
    serve(c, 20, 7, (struct how){.outcome = OUTCOME_NET, .rally = RALLY_LOST});
    serve(c, 100, 3, (struct how){.outcome = OUTCOME_IN3, .rally = RALLY_WON, .side = THEIRS});
    serve(c, 49, 3, (struct how){.outcome = OUTCOME_IN3, .rally = RALLY_LOST, .side = THEIRS});
    struct advice a = advise(c);
    assert_false(advice_server(&a, 0).at[0].cost.has_set);
    serve(c, 51, 3, (struct how){.outcome = OUTCOME_IN3, .rally = RALLY_LOST, .side = THEIRS});
    a = advise(c);
    struct worth_gain gain = worth_gain((struct worth_serve){.40, .50}, &rules, 20 * 80. / 180 / 200);
    struct advice_server s = advice_server(&a, 0);
    assert_true(s.at[0].cost.has_set);
    near(s.at[0].cost.set_frac, gain.set_frac, "sets");
}

/* Without a serve in play, or without a rally whose winner is known, nothing
 * is said of points, and the counts stay. */
static void no_winner_known(void **state) {
    struct court *c = court_new(*state);
    double won;
    serve(c, 30, 7, (struct how){.outcome = OUTCOME_IN3});
    serve(c, 10, 7, (struct how){.outcome = OUTCOME_NET});
    struct advice a = advise(c);
    assert_false(advice_in_play(&a, NULL, &won));
    struct advice_server s = advice_server(&a, 0);
    assert_int_equal(s.n, 1);
    assert_false(s.at[0].cost.has_points);
    assert_int_equal(s.at[0].missed.x, 10);
}

/* ---- what may be said of so many serves ------------------------------------- */

/* Of a match's serves of one player no priority follows, whatever they were:
 * two errors in 14 may be 4 to 40 % (Wilson). */
static void nothing_of_one_match(void **state) {
    struct dice d = {29};
    for (unsigned round = 0; round < 200; round++) {
        struct court *c = court_new(*state);
        unsigned n = dice_below(&d, 30);
        for (unsigned i = 0; i < n; i++)
            serve(c, 1, 7,
                  (struct how){.outcome = dice_in(&d, 600) ? OUTCOME_NET : OUTCOME_IN3,
                               .marks = dice_in(&d, 500) ? 1u << MARK_td : 0,
                               .rally = RALLY_LOST});
        struct advice a = advise(c);
        assert_int_equal(a.tests.n, 0);
        assert_int_equal(advice_team(&a).n, 0);
        if (n == 0)
            continue;
        struct advice_server s = advice_server(&a, 0);
        assert_int_equal(s.n, 0);
        assert_int_equal(s.say, rate_may_say(n));
    }
}

/* Every low toss into the net and no other: below a season's serves that is
 * counted, not claimed. */
static void not_tested_before_a_season(void **state) {
    static const struct {
        struct twoway t;
        enum advice_evidence evidence;
    } rows[] = {{{10, 0, 0, 20}, ADVICE_COUNTED},  {{10, 0, 0, 139}, ADVICE_COUNTED},
                {{10, 0, 0, 140}, ADVICE_TESTED},  {{2, 18, 14, 116}, ADVICE_NONE_FOUND},
                {{2, 18, 14, 115}, ADVICE_UNMARKED}, {{4, 0, 5, 91}, ADVICE_UNMARKED}};
    for (unsigned i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct court *c = court_new(*state);
        table(c, 7, MARK_td, OUTCOME_NET, rows[i].t);
        struct advice_server s = first(c);
        assert_int_equal(s.n, 1);
        assert_int_equal(s.at[0].evidence, rows[i].evidence);
        if (rows[i].evidence == ADVICE_COUNTED || rows[i].evidence == ADVICE_TESTED)
            assert_int_equal(s.at[0].mark, MARK_td);
    }
}

static void few_of_a_kind(void **state) {
    struct court *c = court_new(*state);
    table(c, 7, MARK_td, OUTCOME_NET, (struct twoway){0, 0, 4, 96});
    assert_int_equal(first(c).n, 0);
    table(c, 7, MARK_td, OUTCOME_NET, (struct twoway){0, 0, 1, 0});
    assert_int_equal(first(c).n, 1);
}

/* ---- a server --------------------------------------------------------------- */

static void order_of_priorities(void **state) {
    struct court *c = court_new(*state);
    serve(c, 60, 7, (struct how){.outcome = OUTCOME_IN3, .rally = RALLY_WON});
    serve(c, 6, 7, (struct how){.outcome = OUTCOME_LONG});
    serve(c, 9, 7, (struct how){.outcome = OUTCOME_FOOT});
    serve(c, 7, 7, (struct how){.outcome = OUTCOME_RIGHT});
    serve(c, 12, 7, (struct how){.outcome = OUTCOME_NET});
    struct advice_server s = first(c);
    assert_int_equal(s.n, ADVICE_MAX);
    assert_int_equal(s.at[0].miss, FAULTS_NET);
    assert_int_equal(s.at[1].miss, FAULTS_FOOT);
    assert_int_equal(s.at[2].miss, FAULTS_ARM_SIDE);
    assert_true(s.at[0].cost.sure_n > s.at[1].cost.sure_n);
}

/* A left-hander's toss to the arm side is her tl, and what treats it is found. */
static void left_hander(void **state) {
    struct court *c = court_new(*state);
    table(c, 7, MARK_tl, OUTCOME_LEFT, (struct twoway){6, 6, 2, 60});
    const struct checked *match = scene_of(c->at, c->n, *state);
    struct drill_book book;
    struct advice a;
    for (size_t i = 0; i < match->match->teams[OURS].player_n; i++)
        match->match->teams[OURS].players[i].lefthanded = true;
    advice_add(&c->of, match);
    drill_book_init(&book, *state);
    advice_init(&a, &c->of, &book, *state);
    struct advice_server s = advice_server(&a, 0);
    assert_int_equal(s.n, 1);
    assert_int_equal(s.at[0].miss, FAULTS_ARM_SIDE);
    assert_int_equal(s.at[0].evidence, ADVICE_COUNTED);
    assert_int_equal(s.at[0].mark, MARK_tl);
    assert_non_null(s.at[0].drill);
}

static bool treats(const struct drill_recipe *r, enum word_id what) {
    for (size_t i = 0; r && i < r->treat_n; i++)
        if (r->treats[i] == what)
            return true;
    return false;
}

/* The mark's drill if there is one, else the miss's; one that fits her serve. */
static void drills(void **state) {
    struct court *c = court_new(*state);
    table(c, 7, MARK_td, OUTCOME_NET, (struct twoway){10, 4, 4, 40});
    assert_true(treats(first(c).at[0].drill, W_td));
    c = court_new(*state);
    table(c, 7, MARK_td, OUTCOME_NET, (struct twoway){0, 0, 10, 40});
    struct advice_server s = first(c);
    assert_int_equal(s.at[0].evidence, ADVICE_UNMARKED);
    assert_true(treats(s.at[0].drill, W_net));
    for (unsigned t = TYPE_TOPSPIN; t <= TYPE_UNDERHAND; t++) {
        c = court_new(*state);
        serve(c, 10, 7, (struct how){.outcome = OUTCOME_LONG, .type = (enum serve_type)t});
        serve(c, 40, 7, (struct how){.outcome = OUTCOME_IN3, .type = (enum serve_type)t});
        s = first(c);
        assert_int_equal(s.type, t);
        assert_true(!s.at[0].drill || drill_fits(s.at[0].drill, (enum serve_type)t));
    }
}

/* ---- where to aim ------------------------------------------------------------ */

/* Nobody touches it: where it comes down is where it lands. */
static void land(struct played *p, double x_m, double d_m) {
    enum outcome o = OUTCOME_ACE;
    if (d_m > 9)
        o = OUTCOME_LONG;
    if (x_m > 9 || x_m < 0)
        o = x_m < 0 ? OUTCOME_RIGHT : OUTCOME_LEFT;
    p->said.outcome = (uint8_t)o;
    p->said.landing = (struct spot){PLACE_XD, 0, 0, (int16_t)(100 * x_m), (int16_t)(100 * d_m)};
    p->won = o == OUTCOME_ACE ? RALLY_WON : RALLY_LOST;
}

/* Serves aimed half a metre from the side line and the end line, scattered by a
 * metre. */
static void at_the_corner(struct court *c, unsigned n, int left_cm, int far_cm) {
    struct dice d = {5};
    for (unsigned i = 0; i < n; i++) {
        serve(c, 1, 7, (struct how){.outcome = OUTCOME_ACE, .type = TYPE_FLOAT});
        struct played *p = &c->at[c->n - 1];
        p->said.aim = (struct spot){PLACE_XD, 0, 0, 850, 850};
        land(p, dice_around(&d, 850 + left_cm, 100) / 100.,
             dice_around(&d, 850 + far_cm, 100) / 100.);
    }
}

static const struct advice_priority *aim_in(const struct advice_server *s) {
    for (unsigned i = 0; i < s->n; i++)
        if (s->at[i].way == ADVICE_AIM)
            return &s->at[i];
    return NULL;
}

static void aims(void **state) {
    struct court *c = court_new(*state);
    at_the_corner(c, 149, 0, 0);
    struct advice_server few = first(c);
    assert_false(few.has_aim);
    c = court_new(*state);
    at_the_corner(c, 150, 0, 0);
    struct advice_server s = first(c);
    const struct advice_priority *p = aim_in(&s);
    assert_true(s.has_aim);
    assert_non_null(p);
    assert_true(p->aim.best.x > .5 && p->aim.best.x < 8 && p->aim.best.d < 8.5);
    assert_true(p->aim.gain_frac >= p->aim.sure_frac && p->aim.sure_frac >= .01);
    near(p->cost.points_n, p->aim.gain_frac * 150, "of one set");
    for (unsigned i = 1; i < s.n; i++)
        assert_true(s.at[i].cost.sure_n <= s.at[i - 1].cost.sure_n);
}

/* The drill is for the side on which they come down. */
static void drill_of_an_aim(void **state) {
    static const struct {
        int left_cm, far_cm;
        enum word_id treats;
    } rows[] = {{50, 0, W_left}, {-50, 0, W_right}, {0, 50, W_long}, {0, -50, W_net}};
    for (unsigned i = 0; i < 4; i++) {
        struct court *c = court_new(*state);
        at_the_corner(c, 150, rows[i].left_cm, rows[i].far_cm);
        struct advice_server s = first(c);
        const struct advice_priority *p = aim_in(&s);
        assert_non_null(p);
        assert_true(treats(p->drill, rows[i].treats));
    }
}

/* "Last metre" asks for an aim that her scatter may not allow: it is nobody's
 * first drill, and with it as a focus nothing is said of where to aim. */
static void no_last_metre_beside_an_aim(void **state) {
    struct court *c = court_new(*state);
    struct drill_book book;
    drill_book_init(&book, *state);
    assert_non_null(drill_find(&book, STR("Last metre")));
    for (unsigned what = 0; what < W_N; what++)
        for (unsigned type = TYPE_NONE; type <= TYPE_UNDERHAND; type++) {
            const struct drill_recipe *best = NULL;
            drill_treating(&book, (enum word_id)what, (enum serve_type)type, &best, 1);
            assert_true(!best || !str_is(best->name, "Last metre"));
        }
    at_the_corner(c, 150, 0, 0);
    focus_on(c, "net", "Last metre");
    struct advice_server s = first(c);
    assert_true(s.has_focus);
    assert_null(aim_in(&s));
}

/* ---- two types of serve ------------------------------------------------------- */

/* Topspin: 10 of 40 missed, 15 of the other 30 won; float: 2 missed, 12 of 38 won.
 * .375 against .30: it pays up to 1 - .30 / .50 = 40 misses in 100. */
static void two_types(void **state) {
    static const struct how topspin_won = {.outcome = OUTCOME_IN1, .rally = RALLY_WON,
                                           .type = TYPE_TOPSPIN};
    static const struct how topspin_lost = {.outcome = OUTCOME_IN3, .rally = RALLY_LOST,
                                            .type = TYPE_TOPSPIN};
    static const struct how topspin_missed = {.outcome = OUTCOME_NET, .rally = RALLY_LOST,
                                              .type = TYPE_TOPSPIN};
    static const struct how float_won = {.outcome = OUTCOME_IN1, .rally = RALLY_WON,
                                         .type = TYPE_FLOAT};
    static const struct how float_lost = {.outcome = OUTCOME_IN3, .rally = RALLY_LOST,
                                          .type = TYPE_FLOAT};
    static const struct how float_missed = {.outcome = OUTCOME_LONG, .rally = RALLY_LOST,
                                            .type = TYPE_FLOAT};
    struct court *c = court_new(*state);
    serve(c, 15, 7, topspin_won);
    serve(c, 15, 7, topspin_lost);
    serve(c, 10, 7, topspin_missed);
    serve(c, 12, 7, float_won);
    serve(c, 15, 7, float_lost);
    assert_false(first(c).has_types); /* 27 of the second are too few */
    serve(c, 11, 7, float_lost);
    serve(c, 2, 7, float_missed);
    serve(c, 30, 7, float_missed);
    for (size_t i = c->n - 30; i < c->n; i++)
        c->at[i].said.intent = INTENT_SAFE; /* belong to neither */
    struct advice_server s = first(c);
    assert_true(s.has_types);
    assert_int_equal(s.types.harder, TYPE_TOPSPIN);
    assert_int_equal(s.types.other, TYPE_FLOAT);
    assert_int_equal(s.types.other_won.n, 40);
    assert_true(s.types.difference.low < 0 && s.types.difference.high > 0);
    assert_true(s.types.has_break_even);
    near(s.types.break_even_frac, .40, "break-even");
    serve(c, 100, 7, float_won);
    assert_false(first(c).types.has_break_even); /* 112 of 140 won, above .50 */
}

/* ---- the focus --------------------------------------------------------------- */

static void focus_comes_first(void **state) {
    struct court *c = court_new(*state);
    serve(c, 60, 7, (struct how){.outcome = OUTCOME_IN3, .rally = RALLY_WON});
    serve(c, 6, 7, (struct how){.outcome = OUTCOME_LONG});
    serve(c, 7, 7, (struct how){.outcome = OUTCOME_RIGHT});
    serve(c, 9, 7, (struct how){.outcome = OUTCOME_FOOT});
    serve(c, 12, 7, (struct how){.outcome = OUTCOME_NET});
    focus_on(c, "td", "Ring toss");
    struct advice_server s = first(c);
    assert_true(s.has_focus);
    assert_int_equal(s.focus.treats, W_td);
    assert_non_null(s.focus_drill);
    assert_int_equal(s.n, ADVICE_MAX - 1);
    assert_int_equal(s.at[0].miss, FAULTS_NET);
    assert_int_equal(s.at[1].miss, FAULTS_FOOT);
}

static void focus_is_not_said_twice(void **state) {
    struct court *c = court_new(*state);
    table(c, 7, MARK_td, OUTCOME_NET, (struct twoway){10, 4, 4, 40});
    serve(c, 6, 7, (struct how){.outcome = OUTCOME_LONG});
    focus_on(c, "net", "Ring toss");
    struct advice_server s = first(c);
    assert_int_equal(s.n, 1);
    assert_int_equal(s.at[0].miss, FAULTS_LONG);
    focus_on(c, "td", "Ring toss");
    assert_int_equal(first(c).n, 1);
}

/* Her coach chose it, so it stands at any number of serves. */
static void focus_of_few_serves(void **state) {
    struct court *c = court_new(*state);
    serve(c, 8, 7, (struct how){.outcome = OUTCOME_NET});
    focus_on(c, "td", "Ring toss");
    struct advice_server s = first(c);
    assert_true(s.has_focus);
    assert_int_equal(s.n, 0);
}

static void focus_without_a_serve(void **state) {
    struct faults *f = faults_new(*state);
    const struct checked *c = notes(STR("notation 1\npractice 2026-10-06\nteam H \"Herons\"\n"
                                        "focus 7 td \"Ring toss\" 14/20\n"
                                        "drill \"Ring toss\"\n9 in\n"),
                                    *state);
    faults_add(f, c);
    assert_int_equal(f->server_n, 1);
    assert_int_equal(f->servers[0].shirt, 7);
    assert_int_equal(f->servers[0].counts.serves, 0);
}

/* ---- the team ---------------------------------------------------------------- */

static void order_of_sentences(void **state) {
    struct court *c = court_new(*state);
    for (unsigned shirt = 2; shirt < 8; shirt++) {
        table(c, shirt, MARK_td, OUTCOME_NET, (struct twoway){5, 10, 2, 40});
        serve(c, 3, shirt, (struct how){.outcome = OUTCOME_LONG});
        serve(c, 2, shirt, (struct how){.outcome = OUTCOME_NET, .cold = true});
    }
    struct advice a = advise(c);
    struct advice_team team = advice_team(&a);
    bool fault = false, cold = false;
    assert_int_equal(team.n, ADVICE_MAX);
    for (unsigned i = 0; i < team.n; i++) {
        assert_true(i == 0 ||
                    fabs(team.at[i].cost.sure_n) <= fabs(team.at[i - 1].cost.sure_n));
        assert_true(fabs(team.at[i].cost.sure_n) <= fabs(team.at[i].cost.points_n));
        fault |= team.at[i].kind == ADVICE_FAULT;
        cold |= team.at[i].kind == ADVICE_FINDING && team.at[i].finding.kind == FINDING_MISSED;
    }
    assert_true(fault);
    assert_true(cold);
}

/* What is better than the rest is a gain: its points are below 0. */
static void better_is_no_cost(void **state) {
    struct court *c = court_new(*state);
    serve(c, 40, 7, (struct how){.outcome = OUTCOME_IN1, .rally = RALLY_WON});
    serve(c, 60, 7, (struct how){.outcome = OUTCOME_IN3, .rally = RALLY_LOST});
    serve(c, 20, 7, (struct how){.outcome = OUTCOME_ACE, .rally = RALLY_WON, .cold = true});
    struct advice a = advise(c);
    struct advice_team team = advice_team(&a);
    assert_int_equal(team.n, 1);
    assert_int_equal(team.at[0].finding.kind, FINDING_BROKE);
    assert_true(team.at[0].cost.points_n < 0 && team.at[0].cost.sure_n < 0);
    near(team.at[0].cost.points_n, -(20 - 20 * .4), "all of them won, against 40 of 100");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cost_by_hand),
        cmocka_unit_test(sets_of_a_season),
        cmocka_unit_test(no_winner_known),
        cmocka_unit_test(nothing_of_one_match),
        cmocka_unit_test(not_tested_before_a_season),
        cmocka_unit_test(few_of_a_kind),
        cmocka_unit_test(order_of_priorities),
        cmocka_unit_test(left_hander),
        cmocka_unit_test(drills),
        cmocka_unit_test(aims),
        cmocka_unit_test(drill_of_an_aim),
        cmocka_unit_test(no_last_metre_beside_an_aim),
        cmocka_unit_test(two_types),
        cmocka_unit_test(focus_comes_first),
        cmocka_unit_test(focus_is_not_said_twice),
        cmocka_unit_test(focus_of_few_serves),
        cmocka_unit_test(focus_without_a_serve),
        cmocka_unit_test(order_of_sentences),
        cmocka_unit_test(better_is_no_cost),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
