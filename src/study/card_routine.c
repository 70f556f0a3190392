/* Her routine: what she says, and what she did. */
#include "study/cards.h"

#include <math.h>

/* ---- one serve --------------------------------------------------------------- */

/* Whether the habit of this serve is known, and its value. */
static bool did(const struct played *p, enum card_habit_kind kind, unsigned *value) {
    switch (kind) {
    case CARD_START:
        *value = tally_third(p);
        return *value != THIRD_NONE;
    case CARD_PACES:
        *value = p->paces;
        return p->has_start & HAS_PACES;
    case CARD_STEPS:
        *value = p->steps;
        return p->has_start & HAS_STEPS;
    case CARD_HABITS:
        break;
    }
    return false;
}

static bool says(const struct player *who, enum card_habit_kind kind, unsigned *value) {
    if (!who)
        return false;
    const struct serve *v = &who->routine;
    *value = kind == CARD_START ? v->third : kind == CARD_PACES ? v->paces : v->steps;
    return kind == CARD_START   ? v->third != THIRD_NONE
           : kind == CARD_PACES ? (v->has & HAS_PACES) != 0
                                : (v->has & HAS_STEPS) != 0;
}

/* The mark of a short or long approach says that the steps were others, even
 * where their number is not written. */
static bool other_steps(const struct played *p) {
    return p->said.marks & (1u << MARK_as | 1u << MARK_al) && !(p->said.has & HAS_STEPS);
}

static void add_value(struct values *v, unsigned value, struct arena *a) {
    v->at = arena_grow(a, v->at, v->n, &v->room, sizeof *v->at);
    v->at[v->n++] = value;
}

static void add_toss(struct routine *r, const struct played *p, struct arena *a) {
    struct measures *m = &r->toss_m;
    if (!(p->said.has & (uint32_t)HAS_MEASURE << MEASURE_TOSS_M))
        return;
    m->at = arena_grow(a, m->at, m->n, &m->room, sizeof *m->at);
    m->at[m->n++] = p->said.measure[MEASURE_TOSS_M] / 100.0;
}

void routine_add(struct routine *r, const struct checked *file, const struct played *p,
                 struct arena *a) {
    const struct player *who = team_find(&file->match->teams[OURS], p->server);
    add_toss(r, p, a);
    for (unsigned k = 0; k < CARD_HABITS; k++) {
        enum card_habit_kind kind = (enum card_habit_kind)k;
        unsigned value = 0, said = 0;
        if (!did(p, kind, &value))
            continue;
        bool denied = kind == CARD_STEPS && other_steps(p);
        r->as_said[k].n++;
        r->as_said[k].x += says(who, kind, &said) && value == said && !denied;
        if (!denied)
            add_value(&r->written[k], value, a);
    }
}

/* ---- all of them ------------------------------------------------------------- */

/* As said; where nothing was said, as usual. */
static struct card_done done(const struct routine *r, unsigned kind, bool is_said, unsigned said) {
    struct steady_mode mode;
    if (r && is_said)
        return (struct card_done){r->as_said[kind], said};
    if (!r || !steady_mode(r->written[kind].at, r->written[kind].n, &mode))
        return (struct card_done){{0, 0}, 0};
    return (struct card_done){mode.done, mode.usual};
}

static struct card_heights heights(const struct routine *r) {
    struct card_heights h = {.n = r ? (unsigned)r->toss_m.n : 0};
    for (unsigned i = 0; i < h.n; i++) {
        h.low_m = i ? fmin(h.low_m, r->toss_m.at[i]) : r->toss_m.at[i];
        h.high_m = i ? fmax(h.high_m, r->toss_m.at[i]) : r->toss_m.at[i];
    }
    h.has_spread = rate_may_say(h.n) >= SAY_INTERVAL &&
                   steady_spread(r->toss_m.at, r->toss_m.n, &h.spread);
    return h;
}

void routine_take(const struct player *who, const struct routine *today,
                  const struct routine *past, struct card *out) {
    for (unsigned k = 0; k < CARD_HABITS; k++) {
        struct card_habit *h = &out->habits[k];
        h->is_said = says(who, (enum card_habit_kind)k, &h->said);
        h->today = done(today, k, h->is_said, h->said);
        h->before = done(past, k, h->is_said, h->said);
    }
    out->toss.is_said =
        who && who->routine.has & (uint32_t)HAS_MEASURE << MEASURE_TOSS_M;
    out->toss.said_m = out->toss.is_said ? who->routine.measure[MEASURE_TOSS_M] / 100.0 : 0;
    out->toss.today = heights(today);
    out->toss.before = heights(past);
}
