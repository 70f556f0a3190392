/* What an aim is worth on the court, and advice for one server. */
#include "aim.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "geometry.h"

static const double width_m = GEO_WIDTH_CM / 100.0, half_m = GEO_HALF_CM / 100.0,
                    third_m = GEO_THIRD_CM / 100.0, attack_m = GEO_ATTACK_CM / 100.0;

/* ---- the court --------------------------------------------------------------- */

/* Lines of three from the server's right, behind and before the attack line. */
static const struct { int third; bool front; } zones[AIM_ZONES] = {
    [1] = {2, false}, [6] = {1, false}, [5] = {0, false},
    [2] = {2, true},  [3] = {1, true},  [4] = {0, true},
};

struct aim_area aim_zone(unsigned zone) {
    assert(zone >= 1 && zone < AIM_ZONES);
    double x0 = third_m * zones[zone].third;
    return (struct aim_area){x0, x0 + third_m, zones[zone].front ? 0 : attack_m,
                             zones[zone].front ? attack_m : half_m};
}

/* A landing in the area of a ball that crossed the net. */
static struct scatter_seen landed_in(struct aim_area area, double tape_m) {
    return (struct scatter_seen){area.x0_m, area.x1_m, area.d0_m, area.d1_m, tape_m, 1,
                                 SCATTER_CROSSED};
}

static struct scatter aimed_at(const struct aim_court *c, double x_m, double d_m) {
    struct scatter s = c->scatter;
    s.x_m += x_m;
    s.d_m += d_m;
    return s;
}

double aim_value(const struct aim_court *c, double x_m, double d_m) {
    struct scatter s = aimed_at(c, x_m, d_m);
    double sum = 0;
    for (unsigned zone = 1; zone < AIM_ZONES; zone++) {
        struct scatter_seen seen = landed_in(aim_zone(zone), c->tape_m);
        sum += c->worth[zone] * scatter_part(&s, &seen, c->tau_m).p;
    }
    return sum;
}

double aim_in_frac(const struct aim_court *c, double x_m, double d_m) {
    struct scatter s = aimed_at(c, x_m, d_m);
    struct scatter_seen in = landed_in((struct aim_area){0, width_m, 0, half_m}, c->tape_m);
    return scatter_part(&s, &in, c->tau_m).p;
}

static double court_value(const void *court, double x_m, double d_m) {
    return aim_value(court, x_m, d_m);
}

/* The grid lies where the serves come down, and so her bias off it. */
struct aim_best aim_at_court(const struct aim_court *c, struct arena *a) {
    struct aim_target t = {court_value, c,
                           -c->scatter.x_m, width_m - c->scatter.x_m,
                           -c->scatter.d_m, half_m - c->scatter.d_m, 1};
    return aim_search(&t, a);
}

/* ---- advice ------------------------------------------------------------------ */

/* Everybody's scatter, or her own as it would be with the tape elsewhere. */
static struct scatter scatter_of(const struct aim_question *q, enum say_aim say, double shift_m,
                                 struct arena *a) {
    struct scatter_prior prior = scatter_prior_aimed();
    size_t n = say == SAY_AIM_GENERAL ? 0 : q->seen_n;
    struct scatter_seen *seen = arena_alloc(a, n + 1, sizeof *seen);
    for (size_t i = 0; i < n; i++) {
        seen[i] = q->seen[i];
        seen[i].tape_m += shift_m;
    }
    return scatter_fit(seen, n, q->tau_m, &prior, q->shape).scatter;
}

/* Means over the aims that she uses. */
static void add_now(struct aim_case *c, const struct aim_court *court,
                    const struct aim_question *q, unsigned aimed_n) {
    for (size_t i = 0; i < q->used_n; i++) {
        const struct aim_used *u = &q->used[i];
        double share = (double)u->n / aimed_n;
        c->now += share * aim_value(court, u->x_m, u->d_m);
        c->now_in_frac += share * aim_in_frac(court, u->x_m, u->d_m);
    }
}

static struct aim_case case_of(const struct aim_question *q, const struct aim_answer *answer,
                               double shift_m, struct arena *a) {
    struct aim_court court = {.tape_m = q->tape_m + shift_m, .tau_m = q->tau_m,
                              .scatter = scatter_of(q, answer->say, shift_m, a)};
    memcpy(court.worth, q->worth, sizeof court.worth);
    struct aim_case c = {.tape_m = court.tape_m, .scatter = court.scatter,
                         .best = aim_at_court(&court, a)};
    c.best_in_frac = aim_in_frac(&court, c.best.x, c.best.d);
    add_now(&c, &court, q, answer->aimed_n);
    return c;
}

struct aim_answer aim_advise(const struct aim_question *q, struct arena *a) {
    static const double shift_m[AIM_SHIFTS] = {
        [AIM_NEARER] = -AIM_SHIFT_CM / 100.0, [AIM_FARTHER] = AIM_SHIFT_CM / 100.0};
    struct aim_answer answer = {.aimed_n = 0};
    for (size_t i = 0; i < q->used_n; i++)
        answer.aimed_n += q->used[i].n;
    assert(answer.aimed_n > 0 && answer.aimed_n <= q->serves_n);
    answer.say = rate_may_aim(q->serves_n, answer.aimed_n);
    for (int i = 0; i < AIM_SHIFTS; i++)
        answer.by[i] = case_of(q, &answer, shift_m[i], a);
    return answer;
}

/* Advice from 30 serves of a known scatter loses .005 to .008 of a rally a serve
 * against the true best aim, from 100 about .002 (our own computation). */
static const double least_gain = .01;

struct interval aim_gain(const struct aim_answer *answer) {
    struct interval gain = {HUGE_VAL, -HUGE_VAL};
    for (int i = 0; i < AIM_SHIFTS; i++) {
        double here = answer->by[i].best.value - answer->by[i].now;
        gain.low = fmin(gain.low, here);
        gain.high = fmax(gain.high, here);
    }
    return gain;
}

bool aim_pays(const struct aim_answer *answer) {
    return aim_gain(answer).low >= least_gain;
}
