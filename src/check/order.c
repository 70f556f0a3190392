/* Service order, line-ups, substitutions, time-outs. */
#include "check/play.h"

#include <string.h>

#include "notation.h"

enum { SLOT_NONE = 6 };

void order_doubt(struct order *o) {
    o->lost = o->started && !o->lineup_line;
}

void order_start(struct order *o) {
    o->started = true;
    o->at = 0;
}

static unsigned slot_of(const struct order *o, uint8_t shirt) {
    for (unsigned i = 0; i < SLOT_NONE; i++)
        if (o->shirts[i] == shirt)
            return i;
    return SLOT_NONE;
}

static bool all_known(const struct order *o) {
    return slot_of(o, SHIRT_NONE) == SLOT_NONE;
}

bool order_has(const struct order *o, uint8_t shirt) {
    return slot_of(o, shirt) != SLOT_NONE;
}

static void learn(struct order *o, uint8_t shirt, uint32_t line) {
    o->shirts[o->at] = shirt;
    o->lines[o->at] = line;
}

/* After a gap the next server tells where the order stands; a server that was
 * never seen makes all that was learnt worthless. */
static void find_again(struct order *o, uint8_t shirt, uint32_t line) {
    unsigned slot = slot_of(o, shirt);
    o->lost = false;
    o->off = 0;
    o->found_line = line;
    if (slot != SLOT_NONE) {
        o->at = slot;
        return;
    }
    if (!o->lineup_line)
        for (unsigned i = 0; i < SLOT_NONE; i++)
            o->shirts[i] = SHIRT_NONE;
    learn(o, shirt, line);
}

static void see_order(struct play *p, struct diag *d, const struct order *o) {
    if (!d)
        return;
    if (o->lineup_line)
        diag_see(d, syn_line_place(p->syn, o->lineup_line), STR_NONE);
    else if (o->lines[o->at])
        diag_see(d, syn_line_place(p->syn, o->lines[o->at]), STR("served in this place before"));
}

struct str play_with_server(struct play *p, struct place server, enum side side, unsigned shirt) {
    struct str line = str_trim(server.text);
    size_t comment = 0;
    while (comment < line.n && line.at[comment] != '#')
        comment++;
    struct str rest = str_part(server.text, server.at + server.n, server.text.n);
    if (comment < line.n)
        rest = str_part(rest, 0, (size_t)(line.at + comment - rest.at));
    rest = str_trim(rest);
    bool ours = side == OURS;
    return str_printf(p->arena, "%.*s%u %.*s", ours ? 0 : 1, play_name(p, side).at, shirt,
                      STR_ARG(rest));
}

static void tell_order(struct play *p, const struct stmt *st, enum side side, uint8_t shirt,
                       uint8_t due) {
    struct order *o = &p->set.orders[side];
    struct place where = syn_word(p->syn, st, 0);
    struct diag *d = diags_add(p->diags, E_OUT_OF_ORDER, where, shirt, due);
    see_order(p, d, o);
    o->sub_told |= bench_see(p, d, side, shirt) || bench_see(p, d, side, due);
    if (d)
        d->likely = str_printf(p->arena, "%.*s, or a \"sub\" line is missing",
                               STR_ARG(play_with_server(p, where, side, due)));
}

static void tell_served_already(struct play *p, const struct stmt *st, enum side side,
                                uint8_t shirt, uint32_t line) {
    struct diag *d = diags_add(p->diags, E_SERVED_ALREADY, syn_word(p->syn, st, 0), shirt);
    if (line)
        diag_see(d, syn_line_place(p->syn, line), STR("her turn in this round"));
    p->set.orders[side].sub_told |= bench_see(p, d, side, shirt);
}

/* A shirt in a place that another holds. The same gap twice running is a shift
 * of the order (a turn is missing somewhere), told the first time. */
static void mismatch(struct play *p, const struct stmt *st, enum side side, uint8_t shirt,
                     bool quiet) {
    struct order *o = &p->set.orders[side];
    uint8_t due = o->shirts[o->at];
    unsigned slot = slot_of(o, shirt);
    unsigned off = slot == SLOT_NONE ? 0 : (slot + 6 - o->at) % 6;
    if (slot == SLOT_NONE &&
        (shirt == o->instead[o->at] || shirts_hold(p->strangers[side], shirt) || o->sub_told)) {
        learn(o, shirt, st->line);
        return;
    }
    if (quiet || (due == o->told_shirt && shirt == o->told_due))
        return;
    if (slot == SLOT_NONE)
        o->instead[o->at] = shirt;
    bool shifted = off && (off == o->off || p->set.doubt);
    if (shifted) {
        o->at = slot;
        o->off = 0;
        return;
    }
    o->off = off;
    if (p->set.doubt)
        return;
    o->told_due = due;
    o->told_shirt = shirt;
    if (due != SHIRT_NONE)
        tell_order(p, st, side, shirt, due);
    else
        tell_served_already(p, st, side, shirt, o->lines[slot]);
    (void)order_told(p, side, st->line, p->set.run[side]);
    o->instead[o->at] = shirt;
    p->set.doubt = true;         /* a missing line, or another team's, takes points with it */
}

/* Where the rules let the libero serve, it is in one place of the order, which
 * the player she stands for keeps. */
static bool libero_serves(struct play *p, const struct stmt *st, enum side side, uint8_t shirt) {
    struct order *o = &p->set.orders[side];
    const struct player *who = team_find(&p->match->teams[side], shirt);
    if (!who || !who->libero || o->lost)
        return false;
    if (o->libero_place && o->libero_place != o->at + 1 && !p->set.doubt)
        diags_add(p->diags, E_LIBERO_PLACE, syn_word(p->syn, st, 0), shirt);
    o->libero_place = (uint8_t)(o->at + 1);
    return true;
}

static void first_of_turn(struct play *p, const struct stmt *st, enum side side, uint8_t shirt,
                          bool quiet) {
    struct order *o = &p->set.orders[side];
    if (o->lost) {
        find_again(o, shirt, st->line);
        return;
    }
    uint8_t due = o->shirts[o->at];
    if (due == shirt)
        o->off = 0;
    else if (due == SHIRT_NONE && slot_of(o, shirt) == SLOT_NONE)
        learn(o, shirt, st->line);
    else
        mismatch(p, st, side, shirt, quiet);
}

struct wrong_server *order_told(struct play *p, enum side side, uint32_t line, unsigned run) {
    struct set_state *s = &p->set;
    struct wrong_server *w = &s->wrong[side];
    *w = (struct wrong_server){.line = line, .errors = p->diags->errors, .run = run,
                               .at = s->orders[side].at, .lost_row = NOT_KEPT};
    return w;
}

/* She was known to be wrong: no message, and no line was missing. */
static void undo_told(struct play *p, enum side side) {
    struct set_state *s = &p->set;
    struct wrong_server *w = &s->wrong[side];
    struct order *o = &s->orders[side], *other = &s->orders[play_other(side)];
    s->doubt &= p->diags->errors > w->errors; /* other slips leave it in doubt */
    diags_withdraw(p->diags, E_OUT_OF_ORDER, w->line);
    diags_withdraw(p->diags, E_SERVED_ALREADY, w->line);
    diags_withdraw(p->diags, E_TURN_MISSING, w->line);
    for (unsigned i = 0; i < SIDE_N; i++) {
        s->points[i] -= (unsigned)w->given[i];
        s->by_lines[i] -= (unsigned)w->given[i];
    }
    if (w->lost_row != NOT_KEPT)
        p->out->played[w->lost_row].won = RALLY_WON;
    if (w->turn_given)
        other->at = (other->at + 5) % 6;
    o->at = w->at;
    o->off = 0;
    o->told_due = o->told_shirt = SHIRT_NONE;
    w->line = 0;
}

void order_cancel(struct play *p, enum side side, unsigned points) {
    struct set_state *s = &p->set;
    struct order *o = &s->orders[side];
    struct wrong_server *w = &s->wrong[side];
    if (w->line && w->line >= s->turn_from && points + w->run >= s->run[side])
        undo_told(p, side);
    if (!o->lineup_line && o->lines[o->at] >= s->turn_from)
        o->shirts[o->at] = SHIRT_NONE;
    o->lost |= o->found_line >= s->turn_from; /* it was the wrong server that told */
}

uint8_t order_due(const struct play *p, enum side side) {
    const struct set_state *s = &p->set;
    const struct order *o = &s->orders[side];
    bool serving = s->turn_open && s->turn_side == side;
    if (serving && s->turn_server != SHIRT_NONE)
        return s->turn_server;
    if (o->lost)
        return SHIRT_NONE;
    return o->shirts[serving ? o->at : o->started ? (o->at + 1) % 6 : 1];
}

bool order_is_next(const struct order *o, uint8_t shirt) {
    unsigned next = (o->at + 1) % 6;
    if (!o->started || o->lost)
        return false;
    return o->shirts[next] == shirt ||
           (o->shirts[next] == SHIRT_NONE && slot_of(o, shirt) == SLOT_NONE);
}

static void tell_other_server(struct play *p, const struct stmt *st, enum side side,
                              uint8_t shirt) {
    struct set_state *s = &p->set;
    struct place where = syn_word(p->syn, st, 0);
    struct diag *d = diags_add(p->diags, E_OUT_OF_ORDER, where, shirt, s->turn_server);
    diag_see(d, syn_line_place(p->syn, s->last_serve_line), STR("the same turn"));
    (void)order_told(p, side, st->line, s->run[side]);
    if (d)
        d->likely = str_printf(p->arena, "%.*s, or a line is missing",
                               STR_ARG(play_with_server(p, where, side, s->turn_server)));
}

uint8_t order_serve(struct play *p, const struct stmt *st, enum side side, uint8_t shirt,
                    bool quiet) {
    struct set_state *s = &p->set;
    struct order *o = &s->orders[side];
    if (shirt == SHIRT_NONE || shirt == s->turn_server)
        return shirt;
    if (s->turn_server != SHIRT_NONE && o->sub_told && slot_of(o, shirt) == SLOT_NONE) {
        learn(o, shirt, st->line);
        return s->turn_server = shirt;
    }
    if (s->turn_server != SHIRT_NONE) {
        if (!quiet && !s->doubt && shirt != s->turn_wrong)
            tell_other_server(p, st, side, shirt);
        s->turn_wrong = shirt;
        return s->turn_server;
    }
    if (libero_serves(p, st, side, shirt))
        return s->turn_server = shirt;
    first_of_turn(p, st, side, shirt, quiet);
    uint8_t due = o->shirts[o->at];
    s->turn_server = due == SHIRT_NONE ? shirt : due;
    s->turn_wrong = shirt;
    return s->turn_server;
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

bool order_on_court(struct play *p, enum side side, uint8_t shirt) {
    struct order *o = &p->set.orders[side];
    bool open = !o->lineup_line || !all_known(o) || o->lost || o->sub_told || p->set.doubt;
    bool on = open || slot_of(o, shirt) != SLOT_NONE ||
              memchr(o->instead, shirt, sizeof o->instead) ||
              shirts_hold(p->strangers[side], shirt) ||
              may_be_libero(&p->match->teams[side], shirt);
    if (!on)
        shirts_add(p->strangers[side], shirt);
    return on;
}

void order_lineup(struct play *p, const struct stmt *st) {
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
    if (slot_of(o, in) != SLOT_NONE || shirts_hold(b->in, in))
        tell_not_on(p, st, side, E_ON_ALREADY, 2, in);
    else if ((slot == SLOT_NONE && all_known(o)) || shirts_hold(b->out, out))
        tell_not_on(p, st, side, E_NOT_ON, 4, out);
    else
        bench_sub(p, st, side);
}

/* The slot of who goes out, or where she was told to stand. */
static unsigned slot_left(struct order *o, uint8_t in, uint8_t out) {
    unsigned slot = slot_of(o, out), held = slot_of(o, in);
    if (held != SLOT_NONE && o->instead[held] != SHIRT_NONE)
        o->shirts[held] = o->instead[held]; /* the line-up was told to be wrong there */
    for (unsigned i = 0; i < SLOT_NONE && slot == SLOT_NONE; i++)
        if (o->instead[i] == out)
            slot = i;
    return slot;
}

/* `sub H 14 for 3`: words 2 and 4 are the shirts. */
void order_sub(struct play *p, const struct stmt *st) {
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

void order_timeout(struct play *p, const struct stmt *st) {
    enum side side = play_side(p, st, st->as.letter, 1);
    if (side == SIDE_NONE || !play_in_set(p, st))
        return;
    unsigned allowed = p->match->profile.timeouts;
    p->set.after_timeout = true;
    if (++p->set.timeouts[side] == allowed + 1)
        diags_add(p->diags, E_TOO_MANY_TIMEOUTS, syn_word(p->syn, st, 0),
                  STR_ARG(play_name(p, side)), p->set.timeouts[side], allowed);
}
