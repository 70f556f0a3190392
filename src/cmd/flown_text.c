/* `9m flight` as sentences. */
#include <math.h>
#include <string.h>

#include "cmd/flown.h"

enum { NUMBER_ROOM = 32 };

/* Without a minus before nothing but noughts. */
static void spell(char out[NUMBER_ROOM], double value, int decimals) {
    bool nought = fabs(value) < 0.5 * pow(10, -decimals);

    snprintf(out, NUMBER_ROOM, "%.*f", decimals, nought ? 0 : value);
}

/* "0.18 m (0.05 to 0.24)"; without a range where the models agree. */
static void put_band(struct flown_band b, int decimals, const char *unit) {
    char value[NUMBER_ROOM], low[NUMBER_ROOM], high[NUMBER_ROOM];

    spell(value, b.value, decimals);
    spell(low, b.low, decimals);
    spell(high, b.high, decimals);
    printf("%s%s", value, unit);
    if (strcmp(low, high) != 0)
        printf(" (%s to %s)", low, high);
}

/* Nothing for a figure that is not there. */
static void put(const struct flown_all *all, enum figure figure, int decimals, const char *unit) {
    struct flown_band b;

    if (flown_band(all, figure, &b))
        put_band(b, decimals, unit);
}

/* The same turned round: what is below 0 is told as a length of its own. */
static struct flown_band minus(struct flown_band b) {
    return (struct flown_band){-b.value, -b.high, -b.low};
}

/* "0.64 m (0.45 to 0.74) shorter". */
static void put_shift(const struct flown_all *all, enum figure figure) {
    struct flown_band b;

    if (!flown_band(all, figure, &b))
        return;
    put_band(b.value < 0 ? minus(b) : b, 2, " m");
    printf(b.value < 0 ? " shorter" : " further");
}

static const struct flown *asked(const struct flown_all *all) {
    return &all->by[all->model];
}

/* ---- what was asked ------------------------------------------------------- */

static void put_past(double past_m) {
    if (past_m == 0)
        printf("over the end line");
    else
        printf("%.2f m %s the end line", fabs(past_m), past_m < 0 ? "behind" : "past");
}

static void put_serve(const struct flown_wish *w, const struct flown_all *all) {
    double sidespin = w->serve.sidespin_rev_s;

    put(all, FIGURE_SPEED_KMH, 0, " km/h");
    printf(", ");
    put(all, FIGURE_SPIN_REV_S, 1, " turns of topspin");
    if (sidespin != 0)
        printf(" and %.1f to the %s", fabs(sidespin), sidespin > 0 ? "left" : "right");
    printf(" a second; hit %.2f m high, ", w->serve.height_m);
    put_past(w->serve.x_m);
    printf("; net %.2f m.\n", w->net_m);
}

static void put_usual(const struct flown_wish *w) {
    static const char *const names[] = {"speed", "topspin", "height", "contact"};

    for (unsigned i = 0; w->typed && i < DEPTH_MEASURE_N; i++)
        if (!w->known[i] && !(i == DEPTH_SPEED_MS && w->with_time) &&
            !(i == DEPTH_SPIN_REV_S && w->with_over))
            printf("The %s is a usual one: %s.\n", names[i],
                   depth_usual(w->type, i, w->net_m).source);
}

/* ---- its flight ----------------------------------------------------------- */

static const char *how_meant(const struct flown_wish *w, const struct window *window) {
    if (w->with_angle)
        return "";
    if (w->with_aim)
        return ", which brings it to its aim";
    return window->state == WINDOW_OPEN ? ", the middle of its window"
                                        : ", 2 above the least that clears the tape";
}

static void put_tape(const struct flown_all *all) {
    struct flown_band b;

    if (!flown_band(all, FIGURE_OVER_TAPE_M, &b)) {
        puts("  falls short of the net");
        return;
    }
    printf(b.value < 0 ? "  meets the net with its lower edge " : "  passes ");
    put_band(b.value < 0 ? minus(b) : b, 2, " m");
    puts(b.value < 0 ? " below the tape" : " above the tape");
}

static void put_landing(const struct flown_wish *w, const struct flown_all *all) {
    double past_m = asked(all)->of[FIGURE_LANDING_D_M] - GEO_HALF_CM / 100.0;

    printf("  lands ");
    put(all, FIGURE_LANDING_D_M, 2, " m");
    printf(" behind the net, %.2f m %s the end line,\n", fabs(past_m),
           past_m > 0 ? "past" : "before");
    if (w->with_aim || w->serve.sidespin_rev_s != 0) {
        printf("  ");
        put(all, FIGURE_LANDING_X_M, 2, " m");
        puts(" from the right side line,");
    }
    printf("  after ");
    put(all, FIGURE_LANDING_S, 2, " s");
    puts("");
}

static void put_receiver(const struct flown_all *all) {
    if (!asked(all)->has[FIGURE_RECEIVER_S])
        return;
    printf("  is 7 m behind the net after ");
    put(all, FIGURE_RECEIVER_S, 2, " s");
    printf(", ");
    put(all, FIGURE_RECEIVER_M, 2, " m");
    printf(" high,\n  at ");
    put(all, FIGURE_RECEIVER_KMH, 0, " km/h");
    puts("");
}

static void put_later(const struct flown_all *all) {
    if (!asked(all)->has[FIGURE_LATER_S])
        return;
    printf("Hit %.1f m past the end line, it would leave a receiver 7 m behind the net ",
           FLOWN_FORWARD_M);
    put(all, FIGURE_LATER_S, 2, " s");
    puts(" less.");
}

static void put_flight(const struct flown_wish *w, const struct flown_all *all) {
    printf("\nHit at ");
    put(all, FIGURE_ANGLE_DEG, 1, " degrees");
    printf("%s, it\n", how_meant(w, &asked(all)->window));
    put_tape(all);
    if (asked(all)->has[FIGURE_OVER_TAPE_M] && asked(all)->of[FIGURE_OVER_TAPE_M] >= 0) {
        put_receiver(all);
        put_landing(w, all);
        put_later(all);
    }
    if (flown_wobbles(w, all))
        printf("A ball without spin wobbles: up to %.2f m to any side of all this.\n",
               FLIGHT_WOBBLE_M);
}

/* ---- its room ------------------------------------------------------------- */

static void put_share(const struct flown_all *all, enum figure figure) {
    struct flown_band b;

    if (flown_band(all, figure, &b))
        put_band((struct flown_band){100 * b.value, 100 * b.low, 100 * b.high}, 0, "");
}

static void put_scatter(const struct flown_all *all) {
    if (!asked(all)->flies)
        return;
    printf("Of 100 that stray from %.1f by 1 degree ", asked(all)->of[FIGURE_ANGLE_DEG]);
    put_share(all, FIGURE_IN_1DEG_FRAC);
    printf(" are in, by 2 degrees ");
    put_share(all, FIGURE_IN_2DEG_FRAC);
    puts(".");
}

static void put_open(const struct flown_all *all) {
    printf("It is in from ");
    put(all, FIGURE_NET_DEG, 1, "");
    printf(" to ");
    put(all, FIGURE_OUT_DEG, 1, " degrees");
    printf(": ");
    put(all, FIGURE_WIDTH_DEG, 1, "");
    puts(" of room.");
}

static void put_none(const struct flown_all *all) {
    printf("No angle keeps it in: from ");
    put(all, FIGURE_OUT_DEG, 1, " degrees");
    printf(" on it is long,\nand the tape asks for ");
    put(all, FIGURE_NET_DEG, 1, "");
    puts(". Less speed, more topspin or a higher contact makes room.");
}

static void put_window(const struct flown_all *all) {
    puts("");
    switch (asked(all)->window.state) {
    case WINDOW_OPEN: put_open(all); break;
    case WINDOW_NEVER_LONG:
        printf("It clears the tape from ");
        put(all, FIGURE_NET_DEG, 1, " degrees");
        puts(" on and is too slow to be long.");
        break;
    case WINDOW_NONE: put_none(all); break;
    case WINDOW_NO_REACH: puts("No angle takes it over the net: it is too slow for that."); return;
    }
    put_scatter(all);
}

static void put_slips(const struct flown_all *all) {
    if (!asked(all)->flies)
        return;
    printf("\nOne degree more:  ");
    put(all, FIGURE_NET_M_PER_DEG, 2, " m");
    printf(" higher at the net, ");
    put_shift(all, FIGURE_M_PER_DEG);
    printf("\nOne km/h more:    ");
    put_shift(all, FIGURE_M_PER_KMH);
    printf("\nOne turn more:    ");
    put_shift(all, FIGURE_M_PER_REV_S);
    puts("");
}

static void put_sides(const struct flown_wish *w) {
    struct flown_sides s;

    if (!w->with_aim)
        return;
    s = flown_sides(w);
    if (fabs(s.direction_deg) < 0.05)
        printf("\nThe aim lies straight ahead");
    else
        printf("\nThe aim lies %.1f degrees to the %s of straight ahead", fabs(s.direction_deg),
               s.direction_deg < 0 ? "left" : "right");
    printf(", with %.1f degrees of room to the left\n"
           "side line and %.1f to the right. Of 100 that stray by 2 degrees, %.0f go wide.\n",
           s.left_deg, s.right_deg, 100 * s.wide_frac);
}

static void put_drag(const struct flown_wish *w) {
    double coefficient;

    if (flown_drag(w, &coefficient))
        printf("\nThe time of %.2f s fits a drag coefficient of %.2f (0.15 fast to 0.45 slow is usual;\n"
               "0.02 s more would be about 0.04 more).\n",
               w->time_s, coefficient);
}

static void put_toss(const struct flown_wish *w) {
    struct toss t = {TOSS_RELEASE_M, w->toss_m, w->serve.height_m};
    struct toss_facts f;

    if (!w->with_toss || toss_of(flight_model(w->model), &t, &f) != TOSS_FOUND)
        return;
    printf("\nA toss of %.1f m is %.2f s in the air and falls past the hand at %.1f m/s.\n"
           "It is within 5 cm of the contact for %.0f ms: with the best timing that was measured\n"
           "(7 ms), %.0f of 100 hits. A hit 10 ms late is %.0f cm lower; 1 degree of tilt moves\n"
           "the ball %.2f m.\n",
           w->toss_m, f.up_s + f.down_s, f.fall_drag_ms, 1000 * f.slot_s,
           100 * toss_in_slot_frac(&f, TOSS_BEST_SD_S), f.fall_drag_ms, f.shift_m_per_deg);
}

static void put_notes(const struct flown_all *all) {
    if (flown_unsure(all))
        puts("\nUnder some of the models there is no such serve at all.");
    puts("\nIn brackets: the least and the most under other readings of what was measured of the\n"
         "drag and the pull of spin (models low, high and heavy). 9m flight --help says more.");
}

void flown_text(const struct flown_wish *w, const struct flown_all *all) {
    put_serve(w, all);
    put_usual(w);
    if (asked(all)->flies)
        put_flight(w, all);
    put_window(all);
    put_slips(all);
    put_sides(w);
    put_drag(w);
    put_toss(w);
    put_notes(all);
}
