/* The row of one serve, as it is kept. */
#include "check/play.h"

#include <string.h>

/* What holds for the player where her lines are silent. */
static const struct serve *routine_of(const struct play *p, enum side side, uint8_t shirt) {
    static const struct serve silent;
    const struct player *who =
        (unsigned)side < p->match->team_n ? team_find(&p->match->teams[side], shirt) : NULL;
    return who ? &who->routine : &silent;
}

static void derive(struct play *p, struct played *r, const struct stmt *st, enum side side,
                   uint8_t shirt) {
    const struct serve *v = &st->as.serve, *routine = routine_of(p, side, shirt);
    const struct serve *third = v->third || v->has & HAS_START_P ? v : routine;
    const struct serve *paces = v->has & HAS_PACES ? v : routine;
    const struct serve *steps = v->has & HAS_STEPS ? v : routine;
    r->said = *v;
    r->line = st->line;
    r->side = (uint8_t)side;
    r->server = r->charged = shirt;
    r->type = v->type ? v->type : routine->type;
    r->third = third->third;
    r->paces = paces->paces;
    r->steps = steps->steps;
    r->has_start = (uint8_t)((paces->has & HAS_PACES) | (steps->has & HAS_STEPS));
    r->observed = side == OURS ? (uint8_t)p->phases : 0;
    r->drill = (uint32_t)p->out->drill_n;
}

/* What this rally is in its set and turn. */
static void derive_rally(struct play *p, struct played *r, enum side side, uint8_t shirt,
                         bool counts) {
    struct set_state *s = &p->set;
    struct order *o = &s->orders[side];
    r->set = (uint8_t)p->out->set_n;
    r->rally = s->rally;
    r->before[OURS] = (uint16_t)s->points[OURS];
    r->before[THEIRS] = (uint16_t)s->points[THEIRS];
    r->before_known[OURS] = s->known[OURS];
    r->before_known[THEIRS] = s->known[THEIRS];
    r->score_known = s->known[OURS] && s->known[THEIRS];
    for (unsigned i = 0; i < SIDE_N; i++)
        if (r->score_known && play_wins_next(p, (enum side)i))
            r->set_point |= (uint8_t)(1u << i);
    r->plan = side == OURS ? p->plan : 0;
    r->turn_serve = (uint8_t)(s->turn_serves > 255 ? 255 : s->turn_serves);
    r->rotation = o->lost ? 0 : (uint8_t)(o->at + 1);
    r->after_timeout = s->after_timeout;
    s->after_timeout = s->after_timeout && !counts;
    if (r->said.outcome == OUTCOME_ORDER)
        r->charged = o->lost ? SHIRT_NONE : o->shirts[o->at];
    r->cold = shirts_hold(o->cold, shirt);
    if (r->cold && counts)
        shirts_drop(o->cold, shirt);
}

void play_derive(struct play *p, struct played *r, const struct stmt *st, enum side side,
                 uint8_t shirt, bool counts) {
    derive(p, r, st, side, shirt);
    if (!p->match->practice)
        derive_rally(p, r, side, shirt, counts);
}

void play_hand_on(struct play *p) {
    struct played *rows = p->out->played;
    if (!p->taker)
        return;
    if (p->row_n) {
        p->taker->take(p->taker->to, p->out, rows, p->row_n);
        memset(rows, 0, p->row_n * sizeof *rows);
    }
    p->row_n = 0;
    p->now_ix = NOT_KEPT;
}
