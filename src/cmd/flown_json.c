/* `9m flight` as JSON. */
#include <jansson.h>

#include "cmd/flown.h"

enum { SCHEMA = 1 };

static const char *const figure_names[FIGURE_N] = {
    [FIGURE_SPEED_KMH] = "speed_kmh",
    [FIGURE_SPIN_REV_S] = "topspin_rev_s",
    [FIGURE_ANGLE_DEG] = "angle_deg",
    [FIGURE_OVER_TAPE_M] = "over_tape_m",
    [FIGURE_APEX_M] = "apex_m",
    [FIGURE_LANDING_X_M] = "landing_x_m",
    [FIGURE_LANDING_D_M] = "landing_d_m",
    [FIGURE_LANDING_S] = "landing_s",
    [FIGURE_RECEIVER_S] = "receiver_s",
    [FIGURE_RECEIVER_M] = "receiver_m",
    [FIGURE_RECEIVER_KMH] = "receiver_kmh",
    [FIGURE_LATER_S] = "receiver_later_s",
    [FIGURE_NET_DEG] = "window_net_deg",
    [FIGURE_OUT_DEG] = "window_out_deg",
    [FIGURE_WIDTH_DEG] = "window_width_deg",
    [FIGURE_IN_1DEG_FRAC] = "in_1deg_frac",
    [FIGURE_IN_2DEG_FRAC] = "in_2deg_frac",
    [FIGURE_NET_M_PER_DEG] = "net_m_per_deg",
    [FIGURE_M_PER_DEG] = "landing_m_per_deg",
    [FIGURE_M_PER_KMH] = "landing_m_per_kmh",
    [FIGURE_M_PER_REV_S] = "landing_m_per_rev_s",
};

static const char *window_word(enum window_state state) {
    switch (state) {
    case WINDOW_OPEN: return "open";
    case WINDOW_NEVER_LONG: return "never_long";
    case WINDOW_NONE: return "none";
    case WINDOW_NO_REACH: break;
    }
    return "no_reach";
}

static json_t *figures(const struct flown_all *all) {
    json_t *out = json_object();
    struct flown_band b;

    for (unsigned i = 0; i < FIGURE_N; i++)
        if (flown_band(all, i, &b))
            json_object_set_new(out, figure_names[i],
                                json_pack("{s:f, s:f, s:f}", "value", b.value, "low", b.low,
                                          "high", b.high));
    return out;
}

static json_t *given(const struct flown_wish *w) {
    json_t *out = json_pack("{s:f, s:f, s:f, s:f}", "height_m", w->serve.height_m, "contact_m",
                            w->serve.x_m, "sidespin_rev_s", w->serve.sidespin_rev_s, "net_m",
                            w->net_m);

    if (w->with_aim)
        json_object_set_new(out, "aim", json_pack("{s:f, s:f}", "x_m", w->aim.x_m, "d_m",
                                                  w->aim.d_m));
    if (w->with_aim)
        json_object_set_new(out, "start_x_m", json_real(w->start.x_m));
    return out;
}

/* What stands for a measure that was not given. */
static json_t *usual(const struct flown_wish *w) {
    static const char *const names[] = {"speed_kmh", "topspin_rev_s", "height_m", "contact_m"};
    json_t *out = json_object();

    for (unsigned i = 0; w->typed && i < DEPTH_MEASURE_N; i++)
        if (!w->known[i])
            json_object_set_new(out, names[i],
                                json_string(depth_usual(w->type, i, w->net_m).source));
    return out;
}

static json_t *sides(const struct flown_wish *w) {
    struct flown_sides s = flown_sides(w);

    return json_pack("{s:f, s:f, s:f, s:f}", "direction_deg", s.direction_deg, "room_left_deg",
                     s.left_deg, "room_right_deg", s.right_deg, "wide_2deg_frac", s.wide_frac);
}

static json_t *toss(const struct flown_wish *w) {
    struct toss t = {TOSS_RELEASE_M, w->toss_m, w->serve.height_m};
    struct toss_facts f;

    if (toss_of(flight_model(w->model), &t, &f) != TOSS_FOUND)
        return json_null();
    return json_pack("{s:f, s:f, s:f, s:f, s:f, s:f, s:f}", "apex_m", w->toss_m, "up_s", f.up_s,
                     "down_s", f.down_s, "fall_ms", f.fall_drag_ms, "slot_s", f.slot_s,
                     "in_slot_frac", toss_in_slot_frac(&f, TOSS_BEST_SD_S), "shift_m_per_deg",
                     f.shift_m_per_deg);
}

void flown_json(const struct flown_wish *w, const struct flown_all *all) {
    const struct flown *asked = &all->by[all->model];
    json_t *out = json_pack("{s:i, s:s, s:s, s:s, s:o, s:o, s:s, s:b, s:o}", "schema", SCHEMA,
                            "program", "9m", "version", NINEMETRE_VERSION, "model",
                            flight_preset_words[w->model], "given", given(w), "usual", usual(w),
                            "window", window_word(asked->window.state), "flies", asked->flies,
                            "figures", figures(all));
    double drag;

    if (w->with_aim)
        json_object_set_new(out, "sides", sides(w));
    if (flown_drag(w, &drag))
        json_object_set_new(out, "drag_coefficient", json_real(drag));
    if (w->with_toss)
        json_object_set_new(out, "toss", toss(w));
    if (flown_wobbles(w, all))
        json_object_set_new(out, "wobble_m", json_real(FLIGHT_WOBBLE_M));
    json_dumpf(out, stdout, JSON_INDENT(2) | JSON_REAL_PRECISION(6));
    putchar('\n');
    json_decref(out);
}
