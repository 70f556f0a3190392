/* Who is on court: line-ups, substitutions; and time-outs, which are counted like
 * these (FIVB 7.3, 15.1). */
#include "check/play.h"

#include <string.h>

#include "notation.h"

static bool all_known(const struct order *o) {
    return order_slot(o, SHIRT_NONE) == SLOT_NONE;
}

/* A shirt outside of the line-up may be the libero's, if it is not known who
 * that is. */
static bool may_be_libero(const struct team *t, uint8_t shirt) {
    bool any = false;
    for (size_t i = 0; i < t->player_n; i++) {
        if (t->players[i].libero && t->players[i].shirt == shirt)
            return true;
        any |= t->players[i].libero;
    }
    return !any && !t->declared;
}

bool court_holds(struct play *p, enum side side, uint8_t shirt) {
    struct order *o = &p->set.orders[side];
    bool open = !o->lineup_line || !all_known(o) || o->lost || o->sub_told || p->set.doubt;
    bool on = open || order_slot(o, shirt) != SLOT_NONE ||
              memchr(o->instead, shirt, sizeof o->instead) ||
              shirts_hold(p->strangers[side], shirt) ||
              may_be_libero(&p->match->teams[side], shirt);
    if (!on)
        shirts_add(p->strangers[side], shirt);
    return on;
}

void court_lineup(struct play *p, const struct stmt *st) {
    enum side side = play_side(p, st, st->as.lineup.letter, 1);
    if (side == SIDE_NONE || !play_in_set(p, st))
        return;
    struct order *o = &p->set.orders[side];
    uint8_t shirts[SLOT_NONE];
    for (unsigned i = 0; i < SLOT_NONE; i++) {
        uint8_t shirt = st->as.lineup.shirts[i];
        bool known = people_shirt(p, st, side, shirt, -(int)(2 + i));
        shirts[i] = known ? shirt : SHIRT_NONE; /* who serves there tells */
    }
    if (p->set.rally > 0) {
        if (!p->set.doubt)
            diags_add(p->diags, E_LINEUP_LATE, syn_word(p->syn, st, 0),
                      STR_ARG(play_name(p, side)));
        return;
    }
    o->lineup_line = st->line;
    for (unsigned i = 0; i < SLOT_NONE; i++) {
        o->shirts[i] = shirts[i];
        o->lines[i] = st->line;
    }
}

static void tell_not_on(struct play *p, const struct stmt *st, enum side side,
                        enum diag_id id, unsigned k, uint8_t shirt) {
    const struct order *o = &p->set.orders[side];
    if (p->set.doubt || o->lost || o->sub_told)
        return;
    struct diag *d = diags_add(p->diags, id, syn_word(p->syn, st, k), shirt);
    (void)(bench_see(p, d, side, st->as.sub.in) || bench_see(p, d, side, st->as.sub.out));
    if (o->lineup_line)
        diag_see(d, syn_line_place(p->syn, o->lineup_line), STR_NONE);
}

static void count_sub(struct play *p, const struct stmt *st, enum side side) {
    unsigned allowed = p->match->profile.substitutions;
    if (st->as.sub.extra || ++p->set.subs[side] <= allowed)
        return;
    if (p->set.subs[side] == allowed + 1)
        diags_add(p->diags, E_TOO_MANY_SUBS, syn_word(p->syn, st, 0), STR_ARG(play_name(p, side)),
                  p->set.subs[side], allowed);
}

/* Held against the line-up and the substitutions before. */
static void check_sub(struct play *p, const struct stmt *st, enum side side, unsigned slot) {
    const struct order *o = &p->set.orders[side];
    const struct bench *b = &p->set.benches[side];
    uint8_t in = st->as.sub.in, out = st->as.sub.out;
    if (order_slot(o, in) != SLOT_NONE || shirts_hold(b->in, in))
        tell_not_on(p, st, side, E_ON_ALREADY, 2, in);
    else if ((slot == SLOT_NONE && all_known(o)) || shirts_hold(b->out, out))
        tell_not_on(p, st, side, E_NOT_ON, 4, out);
    else
        bench_sub(p, st, side);
}

/* The slot of who goes out, or where she was told to stand. */
static unsigned slot_left(struct order *o, uint8_t in, uint8_t out) {
    unsigned slot = order_slot(o, out), held = order_slot(o, in);
    if (held != SLOT_NONE && o->instead[held] != SHIRT_NONE)
        o->shirts[held] = o->instead[held]; /* the line-up was told to be wrong there */
    for (unsigned i = 0; i < SLOT_NONE && slot == SLOT_NONE; i++)
        if (o->instead[i] == out)
            slot = i;
    return slot;
}

/* `sub H 14 for 3`: words 2 and 4 are the shirts. */
void court_sub(struct play *p, const struct stmt *st) {
    enum side side = play_side(p, st, st->as.sub.letter, 1);
    uint8_t in = st->as.sub.in, out = st->as.sub.out;
    if (side == SIDE_NONE || !play_in_set(p, st))
        return;
    struct set_state *s = &p->set;
    struct order *o = &s->orders[side];
    unsigned errors = p->diags->errors;
    bool known = people_shirt(p, st, side, in, -2) && people_shirt(p, st, side, out, -4);
    unsigned slot = known ? slot_left(o, in, out) : SLOT_NONE;
    if (known)
        check_sub(p, st, side, slot);
    if (!known || p->diags->errors > errors) {
        o->sub_told = true;
        return;
    }
    count_sub(p, st, side);
    bench_note(&s->benches[side], st);
    if (slot != SLOT_NONE)
        o->shirts[slot] = in;
    shirts_add(o->cold, in);
    if (s->turn_side == side && s->turn_server == out)
        s->turn_server = in;
    if (p->same_side == side && p->same_shirt == out)
        p->same_replaced_line = st->line;
}

void court_timeout(struct play *p, const struct stmt *st) {
    enum side side = play_side(p, st, st->as.letter, 1);
    if (side == SIDE_NONE || !play_in_set(p, st))
        return;
    unsigned allowed = p->match->profile.timeouts;
    p->set.after_timeout = true;
    if (++p->set.timeouts[side] == allowed + 1)
        diags_add(p->diags, E_TOO_MANY_TIMEOUTS, syn_word(p->syn, st, 0),
                  STR_ARG(play_name(p, side)), p->set.timeouts[side], allowed);
}
