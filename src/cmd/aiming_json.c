/* `9m aim` as JSON. */
#include <jansson.h>

#include "cmd/aiming.h"

enum { SCHEMA = 1 };

static const char *state_word(enum aimed_state state) {
    switch (state) {
    case AIMED_NO_TYPE: return "no_type";
    case AIMED_NO_NET: return "no_net";
    case AIMED_NO_FLIGHT: return "no_flight";
    case AIMED_NO_AIMS: return "no_aims";
    case AIMED_NO_WORTH: return "no_worth";
    case AIMED_ADVICE: break;
    }
    return "advice";
}

static const char *say_word(enum say_aim say) {
    switch (say) {
    case SAY_AIM_GENERAL: return "anybody";
    case SAY_AIM_OWN_CAUTION: return "own_hint";
    case SAY_AIM_OWN: break;
    }
    return "own";
}

static json_t *scatter(struct scatter s) {
    return json_pack("{s:f, s:f, s:f, s:f, s:f}", "x_m", s.x_m, "d_m", s.d_m, "sd_x_m", s.sd_x_m,
                     "sd_d_m", s.sd_d_m, "rho", s.rho);
}

static json_t *flight(const struct aimed_advice *v) {
    static const char *const names[DEPTH_MEASURE_N] = {
        [DEPTH_SPEED_MS] = "speed_ms", [DEPTH_SPIN_REV_S] = "topspin_rev_s",
        [DEPTH_HEIGHT_M] = "height_m", [DEPTH_CONTACT_M] = "contact_m"};
    json_t *out = json_pack("{s:f}", "net_m", v->net_m), *usual = json_array();

    for (int i = 0; i < DEPTH_MEASURE_N; i++) {
        json_object_set_new(out, names[i], json_real(v->depth.used[i]));
        if (!v->measured[i])
            json_array_append_new(usual, json_string(names[i]));
    }
    json_object_set_new(out, "usual", usual);
    if (v->state > AIMED_NO_FLIGHT) {
        json_object_set_new(out, "clear_m", json_real(v->depth.clear_m));
        json_object_set_new(out, "clear_sd_m", json_real(v->depth.spread_m));
    }
    return out;
}

static json_t *aims(const struct aiming *g) {
    const struct aimed_advice *v = &g->advice;
    json_t *out = json_array();

    for (size_t i = 0; i < v->used_n; i++) {
        struct buf b;

        buf_init(&b, g->arena);
        syn_print_spot(&b, v->aims[i]);
        json_array_append_new(out, json_pack("{s:s%, s:f, s:f, s:i}", "aim", b.at, b.n, "x_m",
                                             v->used[i].x_m, "d_m", v->used[i].d_m, "serves",
                                             (int)v->used[i].n));
    }
    return out;
}

static json_t *worth(const struct aimed_advice *v) {
    json_t *out = json_array();

    for (unsigned zone = 1; zone < AIM_ZONES; zone++) {
        struct shrunk w = v->worth[zone];

        json_array_append_new(out, json_pack("{s:i, s:i, s:i, s:f}", "zone", (int)zone, "won",
                                             (int)w.rate.x, "rallies", (int)w.rate.n, "worth_frac",
                                             w.frac));
    }
    return out;
}

/* What she does now is compared only where the scatter is hers. */
static json_t *one_case(const struct aim_answer *answer, enum aim_shift shift) {
    const struct aim_case *c = &answer->by[shift];
    json_t *out = json_pack("{s:f, s:o, s:f, s:f, s:f, s:f}", "clear_m", c->tape_m, "scatter",
                            scatter(c->scatter), "x_m", c->best.x, "d_m", c->best.d, "won_frac",
                            c->best.value, "in_frac", c->best_in_frac);

    if (answer->say != SAY_AIM_GENERAL) {
        json_object_set_new(out, "now_won_frac", json_real(c->now));
        json_object_set_new(out, "now_in_frac", json_real(c->now_in_frac));
    }
    return out;
}

static void put_advice(json_t *out, const struct aimed_advice *v) {
    json_object_set_new(out, "worth", worth(v));
    json_object_set_new(out, "scatter_of", json_string(say_word(v->answer.say)));
    json_object_set_new(out, "advice", one_case(&v->answer, AIM_AS_IT_IS));
    json_object_set_new(out, "nearer", one_case(&v->answer, AIM_NEARER));
    json_object_set_new(out, "farther", one_case(&v->answer, AIM_FARTHER));
}

static json_t *head(const struct aiming *g) {
    const struct aimed_advice *v = &g->advice;
    const struct person *p = aimed_person(g->aimed, g->person);
    struct str type = aiming_type(g->type);

    return json_pack("{s:i, s:s, s:s, s:i, s:s%, s:s%, s:s%, s:b, s:s, s:i, s:i, s:i}", "schema",
                     SCHEMA, "program", "9m", "version", NINEMETRE_VERSION, "server",
                     (int)p->shirt, "name", p->name.n ? p->name.at : "", p->name.n, "team",
                     p->team.n ? p->team.at : "", p->team.n, "type", type.n ? type.at : "", type.n,
                     "incomplete", g->incomplete, "state", state_word(v->state), "serves",
                     (int)v->counts.serves_n, "practice", (int)v->counts.practice_n, "aimed",
                     (int)v->counts.aimed_n);
}

void aiming_json(const struct aiming *g) {
    const struct aimed_advice *v = &g->advice;
    json_t *out = head(g);

    if (v->state >= AIMED_NO_FLIGHT)
        json_object_set_new(out, "flight", flight(v));
    if (v->state == AIMED_NO_AIMS && rate_may_say(v->landed_n) >= SAY_COMPARISON)
        json_object_set_new(out, "landing", scatter(v->landing));
    if (v->state > AIMED_NO_AIMS)
        json_object_set_new(out, "aims", aims(g));
    if (v->state == AIMED_ADVICE)
        put_advice(out, v);
    json_dumpf(out, stdout, JSON_INDENT(2) | JSON_REAL_PRECISION(6));
    putchar('\n');
    json_decref(out);
}
