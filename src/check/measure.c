/* Measures: what cannot be, and what is unlikely. */
#include "check/play.h"
#include "notation.h"

#include <stdlib.h>

/* Hundredths. Outside of the first pair is impossible, outside of the second
 * unlikely. Published: speeds (a women's fastest of 118 km/h, men 109 +- 5:
 * Haeyrinen et al. 2011 and others), contact heights and places from common
 * practice, no source; the rest is assumed. */
static const struct range {
    const char *name, *unit;
    int least, most, low, high;
} ranges[MEASURE_N] = {
    [MEASURE_PACES] = {"a start of", "paces", 0, 2000, 0, 1000},
    [MEASURE_TOSS_M] = {"a toss of", "m", 100, 1300, 200, 900},
    [MEASURE_TAKEOFF_M] = {"a take-off at", "m", -700, 300, -250, 300},
    [MEASURE_CONTACT_M] = {"contact at", "m", -700, 400, -250, 200},
    [MEASURE_HEIGHT_M] = {"contact at a height of", "m", 80, 420, 170, 370},
    [MEASURE_SPEED_KMH] = {"a speed of", "km/h", 1500, 15000, 2500, 12000},
    [MEASURE_FLIGHT_S] = {"a flight of", "s", 20, 500, 40, 250},
    [MEASURE_WHISTLE_S] = {"whistle to hit in", "s", 0, 6000, 0, 6000},
};

static struct str number(struct play *p, int hundredths, const char *unit) {
    const char *sign = hundredths < 0 ? "-" : "";
    int whole = abs(hundredths) / 100, part = abs(hundredths) % 100;
    if (part == 0)
        return str_printf(p->arena, "%s%d %s", sign, whole, unit);
    return str_printf(p->arena, "%s%d.%02d %s", sign, whole, part, unit);
}

/* Where the k-th measure of the line stands; its letter tells it apart. */
static struct place place_of(struct play *p, const struct stmt *st, enum measure m) {
    static const char letters[MEASURE_N] = {'b', 't', 'j', 'c', 'h', 'v', 'f', 'w'};
    for (unsigned k = 1; k < 64; k++) {
        struct place w = syn_word(p->syn, st, k);
        struct token t;
        struct str spelt = play_spelt(w);
        if (w.n == 0 || w.at == 0)
            break;
        if ((spelt.at[0] | 0x20) == letters[m] &&
            tok_field(p->arena, spelt, &t) == T_MEASURE && t.value == m)
            return w;
    }
    return syn_word(p->syn, st, 0);
}

static void tell(struct play *p, enum diag_id id, struct place where, enum measure m, int value) {
    const struct range *r = &ranges[m];
    diags_add(p->diags, id, where, r->name, number(p, value, r->unit).at);
}

static void check_one(struct play *p, const struct stmt *st, const struct player *who,
                      enum measure m, int value) {
    const struct range *r = &ranges[m];
    bool impossible = value < r->least || value > r->most;
    if (!impossible && value >= r->low && value <= r->high)
        return;
    struct place where = st ? place_of(p, st, m) : who->place;
    tell(p, impossible ? E_IMPOSSIBLE : W_UNLIKELY, where, m, value);
}

static void check_all(struct play *p, const struct stmt *st, const struct player *who,
                      const struct serve *v) {
    for (unsigned m = 0; m < MEASURE_N; m++)
        if (v->has & ((uint32_t)HAS_MEASURE << m))
            check_one(p, st, who, (enum measure)m, v->measure[m]);
}

void measure_check(struct play *p, const struct stmt *st, const struct serve *v) {
    uint32_t takeoff = (uint32_t)HAS_MEASURE << MEASURE_TAKEOFF_M;
    if (!(v->has & ~(uint32_t)(HAS_MEASURE - 1)))
        return;
    check_all(p, st, NULL, v);
    if (v->has & takeoff && v->measure[MEASURE_TAKEOFF_M] > 0 && v->outcome != OUTCOME_FOOT)
        diags_add(p->diags, E_TAKEOFF, place_of(p, st, MEASURE_TAKEOFF_M));
    unsigned allowed_s = p->match->profile.service_s;
    if (v->has & (uint32_t)HAS_MEASURE << MEASURE_WHISTLE_S && v->outcome != OUTCOME_CLOCK &&
        !p->match->practice && v->measure[MEASURE_WHISTLE_S] > (int)allowed_s * 100)
        diags_add(p->diags, W_LATE, place_of(p, st, MEASURE_WHISTLE_S), allowed_s);
}

void measure_routines(struct play *p) {
    for (unsigned side = 0; side < p->match->team_n; side++) {
        const struct team *t = &p->match->teams[side];
        for (size_t i = 0; i < t->player_n; i++)
            check_all(p, NULL, &t->players[i], &t->players[i].routine);
    }
}
