/* `9m aim` as text. */
#include <math.h>

#include "cmd/aiming.h"
#include "geometry.h"

enum { AIMS_SHOWN_MAX = 6 };

static void put_label(const char *label) {
    printf("%-18s", label);
}

/* ---- her ------------------------------------------------------------------- */

static void put_head(const struct aiming *g) {
    const struct person *p = aimed_person(g->aimed, g->person);
    struct aimed_counts n = g->advice.counts;
    struct str type = aiming_type(g->type);
    struct buf name;

    buf_init(&name, g->arena);
    cmd_safe(&name, p->name, 0);
    if (g->incomplete)
        puts("INCOMPLETE: lines are missing or were not read.");
    printf("%u%s%.*s, %.*s: %u serve%s, %u of them at practice; %u aimed\n\n", p->shirt,
           p->name.n ? " " : "", STR_ARG(buf_str(&name)),
           STR_ARG(type.n ? type : STR("type not known")), n.serves_n, n.serves_n == 1 ? "" : "s",
           n.practice_n, n.aimed_n);
}

static void put_aims(const struct aiming *g) {
    const struct aimed_advice *v = &g->advice;
    struct buf b;

    buf_init(&b, g->arena);
    for (size_t i = 0; i < v->used_n && i < AIMS_SHOWN_MAX; i++) {
        buf_add(&b, i ? STR(", ") : STR(""));
        syn_print_spot(&b, v->aims[i]);
        buf_printf(&b, " (%u)", v->used[i].n);
    }
    if (v->used_n > AIMS_SHOWN_MAX)
        buf_printf(&b, " and %zu more", v->used_n - AIMS_SHOWN_MAX);
    put_label("she aims at");
    printf("%.*s\n", STR_ARG(buf_str(&b)));
}

/* x runs to her left, d away from her. */
static void put_scatter(struct scatter s) {
    put_label("comes down");
    printf("%.1f m to the %s of the aim and %.1f m %s, on average\n", fabs(s.x_m),
           s.x_m < 0 ? "right" : "left", fabs(s.d_m), s.d_m < 0 ? "short" : "too far");
    put_label("scatter");
    printf("%.1f m across, %.1f m in depth (standard deviations)\n", s.sd_x_m, s.sd_d_m);
}

static void put_landing(const struct aimed_advice *v) {
    if (rate_may_say(v->landed_n) < SAY_COMPARISON)
        return;
    put_label("comes down");
    printf("on average %.1f m from her right side line and %.1f m behind the net;\n",
           v->landing.x_m, v->landing.d_m);
    put_label("");
    printf("spread %.1f m across, %.1f m in depth, %u serves. What she aimed at is in\n"
           "%18sthat: it is no scatter, and gives no advice.\n",
           v->landing.sd_x_m, v->landing.sd_d_m, v->landed_n, "");
}

/* ---- the flight ------------------------------------------------------------ */

static const char *origin(const struct aimed_advice *v, enum depth_measure m) {
    return v->measured[m] ? "" : " (usual)";
}

static void put_serve(const struct aimed_advice *v) {
    const double *used = v->depth.used;

    printf("at %.0f km/h%s, %.0f rev/s of topspin%s, hit %.2f m high%s and\n",
           used[DEPTH_SPEED_MS] * 3.6, origin(v, DEPTH_SPEED_MS), used[DEPTH_SPIN_REV_S],
           origin(v, DEPTH_SPIN_REV_S), used[DEPTH_HEIGHT_M], origin(v, DEPTH_HEIGHT_M));
    put_label("");
    printf("%.1f m %s the end line%s, over a net of %.2f m\n", fabs(used[DEPTH_CONTACT_M]),
           used[DEPTH_CONTACT_M] < 0 ? "behind" : "past", origin(v, DEPTH_CONTACT_M), v->net_m);
}

static void put_tape(const struct aimed_advice *v) {
    put_label("the tape");
    printf("stops what would land less than %.1f m behind the net, give or take %.1f m,\n",
           v->depth.clear_m, v->depth.spread_m);
    put_label("");
    put_serve(v);
}

/* ---- the advice ------------------------------------------------------------ */

static const char *whose(enum say_aim say) {
    switch (say) {
    case SAY_AIM_GENERAL:
        return "General advice, for anyone who scatters 1.0 m across and 1.3 m in depth:\n"
               "her own scatter counts from 150 serves on, 30 of them aimed.";
    case SAY_AIM_OWN_CAUTION: return "From her own scatter; under 100 aimed serves it is a hint:";
    case SAY_AIM_OWN: break;
    }
    return "From her own scatter:";
}

/* "2.1 m inside the left side line" */
static void put_margin(double past_m, const char *line) {
    printf("%.1f m %s the %s", fabs(past_m), past_m > 0 ? "past" : "inside", line);
}

static void put_place(struct aim_best best) {
    struct geo_margins m = geo_margins((struct geo_spot){best.x, best.d});
    struct spot s = {.kind = PLACE_XD, .x_cm = (int16_t)lround(10 * best.x) * 10,
                     .d_cm = (int16_t)lround(10 * best.d) * 10};

    put_label("aim at");
    printf("a%.1f,%.1f: zone %u, ", best.x, best.d, spot_zone(s));
    if (m.left_m > m.right_m)
        put_margin(m.left_m, "left side line");
    else
        put_margin(m.right_m, "right side line");
    printf(", ");
    put_margin(m.end_m, "end line");
    puts("");
}

static void put_value(const char *label, double value, double in_frac) {
    put_label(label);
    printf("of 100 serves %.0f come in, and %.1f rallies are won\n", 100 * in_frac, 100 * value);
}

static double least(double a, double b, double c) {
    return fmin(a, fmin(b, c));
}

static double most(double a, double b, double c) {
    return fmax(a, fmax(b, c));
}

/* What the advice would be with the tape nearer or farther. */
static void put_range(const struct aim_answer *answer) {
    struct aim_best is = answer->by[AIM_AS_IT_IS].best, near = answer->by[AIM_NEARER].best,
                    far = answer->by[AIM_FARTHER].best;

    put_label("range");
    printf("x %.1f to %.1f, d %.1f to %.1f, with the tape's limit 0.5 m nearer or farther\n",
           least(is.x, near.x, far.x), most(is.x, near.x, far.x), least(is.d, near.d, far.d),
           most(is.d, near.d, far.d));
}

static void put_gain(const struct aim_answer *answer) {
    const struct aim_case *is = &answer->by[AIM_AS_IT_IS];
    struct interval range = aim_gain(answer);
    double gain = 100 * (is->best.value - is->now);

    put_label("gain");
    printf("%.1f rallies in 100 serves (%.1f to %.1f)\n", gain, 100 * range.low,
           100 * range.high);
    if (!aim_pays(answer))
        puts("\nThat may be less than one rally in a hundred: no reason to change her aim.");
}

static void put_advice(const struct aim_answer *answer) {
    const struct aim_case *is = &answer->by[AIM_AS_IT_IS];

    printf("\n%s\n\n", whose(answer->say));
    put_place(is->best);
    put_range(answer);
    if (answer->say == SAY_AIM_GENERAL)
        return;
    put_value("there", is->best.value, is->best_in_frac);
    put_value("as she aims now", is->now, is->now_in_frac);
    put_gain(answer);
}

/* ---- why there is none ----------------------------------------------------- */

static const char *why_no_flight(enum depth_status status) {
    switch (status) {
    case DEPTH_OUTSIDE: return "the flight can't be worked out";
    case DEPTH_NO_REACH: return "no serve of hers gets over the net";
    case DEPTH_FOUND: break;
    }
    return "all that clears the tape is long";
}

static void put_no_flight(const struct aimed_advice *v) {
    printf("No advice: by these measures %s. Look at v, h and c on\n"
           "her lines and in her routine:\n\n",
           why_no_flight(v->flight));
    put_label("her serve");
    put_serve(v);
}

static void put_no_worth(const struct aimed_advice *v) {
    printf("\nNo advice: what a landing is worth takes %d rallies of matches whose zone and\n"
           "winner are known, and here there %s %u.\n",
           AIMED_RALLIES_LEAST, v->rallies.n == 1 ? "is" : "are", v->rallies.n);
}

void aiming_text(const struct aiming *g) {
    const struct aimed_advice *v = &g->advice;

    put_head(g);
    switch (v->state) {
    case AIMED_NO_TYPE:
        puts("No advice without the type of her serve: write it in her line of the squad\n"
             "(player H7 \"...\" topspin) or with each serve (7 topspin net).");
        return;
    case AIMED_NO_NET:
        puts("No advice without the height of the net: write women or men behind the team's\n"
             "name, or netheight 2.24.");
        return;
    case AIMED_NO_FLIGHT: put_no_flight(v); return;
    case AIMED_NO_AIMS:
        puts("No advice without aims. Write them on the line (7 ad6 net) or with the drill\n"
             "(drill \"Corner\" a8.0,8.0).\n");
        put_landing(v);
        put_tape(v);
        return;
    case AIMED_NO_WORTH:
    case AIMED_ADVICE: break;
    }
    put_aims(g);
    if (v->state == AIMED_ADVICE && v->answer.say != SAY_AIM_GENERAL)
        put_scatter(v->answer.by[AIM_AS_IT_IS].scatter);
    put_tape(v);
    if (v->state == AIMED_ADVICE)
        put_advice(&v->answer);
    else
        put_no_worth(v);
}
