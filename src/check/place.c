/* Whether a landing fits its outcome. The lines belong to the court (FIVB 8.3,
 * 1.3.2), so a place on 0 or 9 is in. */
#include "check/play.h"
#include "geometry.h"
#include "notation.h"

#include <stdlib.h>

enum { MARGIN_SLACK_CM = 5 };

static enum place_kind place_of(const struct serve *v) {
    if (!v->landing.kind)
        return PLACE_NONE;
    switch ((enum outcome)v->outcome) {
    case OUTCOME_NET: return PLACE_NET;
    case OUTCOME_ACE:
    case OUTCOME_OVERLAP: return v->by == SHIRT_NONE ? PLACE_FLOOR : PLACE_PLAYED;
    case OUTCOME_IN:
    case OUTCOME_LONG:
    case OUTCOME_LEFT:
    case OUTCOME_RIGHT: return PLACE_FLOOR;
    case OUTCOME_IN3:
    case OUTCOME_IN2:
    case OUTCOME_IN1:
    case OUTCOME_PLAY:
    case OUTCOME_OVER: return PLACE_PLAYED;
    case OUTCOME_NONE:
    case OUTCOME_ANTENNA:
    case OUTCOME_CEILING:
    case OUTCOME_MATE:
    case OUTCOME_FOOT:
    case OUTCOME_CLOCK:
    case OUTCOME_ORDER:
    case OUTCOME_DROP:
    case OUTCOME_SCREEN:
    case OUTCOME_RETOSS:
    case OUTCOME_REPLAY:
    case OUTCOME_N: break;
    }
    return PLACE_NONE;
}

enum place_kind played_place(const struct played *r) {
    return place_of(&r->said);
}

/* Zones are thirds of the width; 1 6 5 lie behind d 4.5, 2 3 4 before it (common
 * practice, no source: the book gives the numbers to players, FIVB 7.4.1). */
unsigned spot_zone(struct spot s) {
    static const unsigned char back[3] = {5, 6, 1}, front[3] = {4, 3, 2};
    if (s.kind != PLACE_XD)
        return s.zone;
    unsigned third = s.x_cm < GEO_THIRD_CM ? 0 : s.x_cm <= 2 * GEO_THIRD_CM ? 1 : 2;
    return s.d_cm > GEO_HALF_CM / 2 ? back[third] : front[third];
}

static bool inside(struct spot s) {
    return s.kind != PLACE_XD ||
           (s.x_cm >= 0 && s.x_cm <= GEO_WIDTH_CM && s.d_cm >= 0 && s.d_cm <= GEO_HALF_CM);
}

static struct place landing_place(struct play *p, const struct stmt *st) {
    switch (st->as.serve.landing.kind) {
    case PLACE_ZONE: return syn_place(p->syn, st, T_NUMBER);
    case PLACE_SEAM: return syn_place(p->syn, st, T_PAIR);
    case PLACE_XD: return syn_place(p->syn, st, T_COORD);
    }
    return syn_place(p->syn, st, T_DEEP);
}

static struct place outcome_place(struct play *p, const struct stmt *st) {
    return syn_place(p->syn, st, st->as.serve.has & HAS_MARGIN ? T_MISS : T_OUTCOME);
}

static const char *landing_text(struct play *p, const struct stmt *st) {
    return str_c(p->arena, play_spelt(landing_place(p, st)));
}

static struct str outcome_word(enum outcome outcome) {
    for (int id = 0; id < W_N; id++) {
        const struct word_info *w = word_info((enum word_id)id);
        if (w->class == WORD_OUTCOME && w->value == (unsigned)outcome)
            return w->word;
    }
    return STR("overlap");
}

/* How far past its line an out lies, by its coordinates: positive is out. */
static int past_line_cm(enum outcome outcome, struct spot s) {
    if (outcome == OUTCOME_LONG)
        return s.d_cm - GEO_HALF_CM;
    return outcome == OUTCOME_LEFT ? s.x_cm - GEO_WIDTH_CM : -s.x_cm;
}

static const char *line_name(enum outcome outcome) {
    if (outcome == OUTCOME_LONG)
        return "end line";
    return outcome == OUTCOME_LEFT ? "left side line" : "right side line";
}

static void check_margin(struct play *p, const struct stmt *st, int past_cm) {
    const struct serve *v = &st->as.serve;
    if (!(v->has & HAS_MARGIN) || abs(v->margin_cm - past_cm) <= MARGIN_SLACK_CM)
        return;
    struct str said = str_printf(p->arena, "%d.%02d", v->margin_cm / 100, v->margin_cm % 100);
    struct str follows = str_printf(p->arena, "%d.%02d", past_cm / 100, past_cm % 100);
    diags_add(p->diags, E_MARGIN, outcome_place(p, st), STR_ARG(outcome_word(v->outcome)), said.at,
              landing_text(p, st), follows.at);
}

static void check_out(struct play *p, const struct stmt *st) {
    const struct serve *v = &st->as.serve;
    if (inside(v->landing)) {
        struct diag *d = diags_add(p->diags, E_INSIDE, landing_place(p, st), landing_text(p, st),
                                   STR_ARG(outcome_word(v->outcome)));
        if (d && v->landing.kind != PLACE_XD)
            d->hint = STR("an out has metres, such as 4.5,9.4, a margin, or no landing at all");
        return;
    }
    int past_cm = past_line_cm(v->outcome, v->landing);
    if (past_cm <= 0)
        diags_add(p->diags, E_WRONG_LINE, landing_place(p, st), landing_text(p, st),
                  line_name(v->outcome));
    else
        check_margin(p, st, past_cm);
}

static void check_net(struct play *p, const struct stmt *st) {
    struct spot s = st->as.serve.landing;
    bool zone = s.kind == PLACE_ZONE && s.zone >= 2 && s.zone <= 4;
    bool along = s.kind == PLACE_XD && s.d_cm == 0;
    if (!zone && !along)
        diags_add(p->diags, E_NET_PLACE, landing_place(p, st));
}

static void check_landing(struct play *p, const struct stmt *st) {
    const struct serve *v = &st->as.serve;
    if (!v->landing.kind)
        return;
    switch (place_of(v)) {
    case PLACE_NET: check_net(p, st); return;
    case PLACE_PLAYED: return;
    case PLACE_FLOOR:
        if (v->outcome == OUTCOME_LONG || v->outcome == OUTCOME_LEFT || v->outcome == OUTCOME_RIGHT)
            check_out(p, st);
        else if (!inside(v->landing))
            diags_add(p->diags, E_OUTSIDE, landing_place(p, st), landing_text(p, st),
                      STR_ARG(outcome_word(v->outcome)));
        return;
    case PLACE_NONE:
        diags_add(p->diags, E_NO_LANDING, landing_place(p, st), STR_ARG(outcome_word(v->outcome)));
        return;
    }
}

/* The most that a margin can be: to the end of the hall, or from the top of the
 * net to the floor. */
static int margin_most_cm(const struct match *m, enum outcome outcome) {
    if (outcome == OUTCOME_LONG)
        return GEO_HALL_BEHIND_CM;
    if (outcome == OUTCOME_NET)
        return m->net_cm ? m->net_cm : GEO_NET_MOST_CM;
    return GEO_HALL_SIDE_CM;
}

static void check_reach(struct play *p, const struct stmt *st) {
    const struct serve *v = &st->as.serve;
    int cm = abs(v->margin_cm);
    if (!(v->has & HAS_MARGIN) || cm <= margin_most_cm(p->match, v->outcome))
        return;
    struct str what = str_printf(p->arena, "%.*s by", STR_ARG(outcome_word(v->outcome)));
    diags_add(p->diags, E_IMPOSSIBLE, outcome_place(p, st), what.at,
              str_printf(p->arena, "%d.%02d m", cm / 100, cm % 100).at);
}

static bool was_played(const struct serve *v) {
    return v->outcome == OUTCOME_IN3 || v->outcome == OUTCOME_IN2 || v->outcome == OUTCOME_IN1 ||
           v->outcome == OUTCOME_PLAY || v->outcome == OUTCOME_OVER ||
           (v->outcome == OUTCOME_ACE && v->by != SHIRT_NONE);
}

void place_check(struct play *p, const struct stmt *st) {
    const struct serve *v = &st->as.serve;
    check_reach(p, st);
    check_landing(p, st);
    if (v->going && !was_played(v))
        diags_add(p->diags, E_GOING, syn_place(p->syn, st, T_GOING));
}
