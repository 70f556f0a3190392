/* How far from the line she hits, and where to aim. */
#include "study/cards.h"

#include <math.h>

/* The middle of the last metre. */
static const double last_metre_d_m = 8.5;

/* False if she never served. */
static bool find_person(const struct aimed *m, const struct person *key, size_t *out) {
    for (*out = 0; *out < aimed_people(m); ++*out)
        if (pool_same_person(aimed_person(m, *out), key))
            return true;
    return false;
}

/* ---- where she hits ---------------------------------------------------------- */

/* The type of most measured contacts. */
static enum serve_type measured_type(const struct aimed *m, size_t person, unsigned *n) {
    enum serve_type best = TYPE_NONE;
    *n = 0;
    for (unsigned t = TYPE_TOPSPIN; t < AIMED_TYPES; t++) {
        unsigned of = aimed_measured(m, person, (enum serve_type)t, MEASURE_CONTACT_M);
        if (of <= *n)
            continue;
        *n = of;
        best = (enum serve_type)t;
    }
    return best;
}

static bool is_jump(enum serve_type t) {
    return t == TYPE_TOPSPIN || t == TYPE_JUMPFLOAT || t == TYPE_HYBRID;
}

/* The serve to the receivers' hands; false if it doesn't get there over the net. */
static bool arrives(struct flight_serve *s, double net_m, struct window_reception *at) {
    const struct flight_model *m = flight_model(FLIGHT_DEFAULT);
    if (!flight_holds(s) ||
        !window_reception(m, *s, WINDOW_RECEIVER_X_M, WINDOW_RECEIVER_Z_M, at))
        return false;
    s->angle_deg = at->angle_deg;
    return at->net.z_m > net_m + m->radius_m;
}

static void take_serves(const double used[DEPTH_MEASURE_N], struct card_reach *out) {
    out->contact_m = used[DEPTH_CONTACT_M];
    out->serve = (struct flight_serve){.speed_ms = used[DEPTH_SPEED_MS],
                                       .topspin_rev_s = used[DEPTH_SPIN_REV_S],
                                       .height_m = used[DEPTH_HEIGHT_M],
                                       .x_m = out->contact_m};
    out->nearer = out->serve;
    out->nearer.x_m = out->jumps ? 0.5 : 0;
    out->known = arrives(&out->serve, out->net_m, &out->at) &&
                 arrives(&out->nearer, out->net_m, &out->nearer_at);
}

void card_take_reach(const struct cards *c, const struct person *key, struct card_reach *out) {
    struct aimed_advice facts;
    size_t person;
    if (!find_person(c->aimed, key, &person))
        return;
    enum serve_type type = measured_type(c->aimed, person, &out->n);
    if (out->n < CARD_CONTACTS_LEAST ||
        aimed_flight(c->aimed, person, type, &facts) != AIMED_NO_AIMS)
        return;
    out->jumps = is_jump(type);
    out->net_m = facts.net_m;
    take_serves(facts.depth.used, out);
}

/* ---- where to aim ------------------------------------------------------------ */

/* Where her aimed serves come down on average. */
static double mean_landing_d_m(const struct aimed_advice *v, const struct scatter *about_aim) {
    double sum = 0, n = 0;
    for (size_t i = 0; i < v->used_n; i++) {
        sum += v->used[i].d_m * v->used[i].n;
        n += v->used[i].n;
    }
    return sum / n + about_aim->d_m;
}

/* A cue against the net, and an aim shorter than where her serves come down now,
 * would contradict each other. */
static double kept_deep(const struct aim_case *is, const struct card_focus *focus,
                        const struct aimed_advice *v) {
    bool net = focus->chosen && focus->progress.treats == W_net;
    return net ? fmax(is->best.d, mean_landing_d_m(v, &is->scatter)) : is->best.d;
}

static void take_advice(const struct aimed_advice *v, const struct card_focus *focus,
                        struct card_aim *out) {
    const struct aim_case *is = &v->answer.by[AIM_AS_IT_IS];
    struct aim_court court = {
        .tape_m = is->tape_m, .tau_m = v->depth.spread_m, .scatter = is->scatter};
    out->say = v->answer.say;
    out->aimed_n = v->answer.aimed_n;
    out->scatter = is->scatter;
    out->pays = aim_pays(&v->answer);
    out->x_m = is->best.x;
    out->d_m = kept_deep(is, focus, v);
    out->in_frac = aim_in_frac(&court, out->x_m, out->d_m);
    out->last_d_m = last_metre_d_m;
    out->last_in_frac = aim_in_frac(&court, out->x_m, last_metre_d_m);
}

void card_take_aim(const struct cards *c, const struct person *key, const struct card_focus *focus,
                   struct arena *a, struct card_aim *out) {
    struct aimed_counts by[AIMED_TYPES];
    struct aimed_advice v;
    size_t person;
    if (!find_person(c->aimed, key, &person))
        return;
    enum serve_type type = aimed_usual_type(c->aimed, person);
    aimed_by_type(c->aimed, person, by);
    if (rate_may_aim(by[type].serves_n, by[type].aimed_n) == SAY_AIM_GENERAL)
        return;
    aimed_advise(c->aimed, person, type, a, &v);
    if (v.state == AIMED_ADVICE)
        take_advice(&v, focus, out);
}
