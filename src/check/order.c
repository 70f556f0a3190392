/* The order of service. The starter of zone 1 serves first, or that of zone 2 if
 * the other team began; a team that wins the serve rotates, so that the next of
 * its six serves (FIVB 7.6.2, 12.2.2.2). A server out of order costs a point,
 * found when it may be (7.7.1). Without a line-up the order is learnt from the
 * first six servers. */
#include "check/play.h"

#include "notation.h"

void order_doubt(struct order *o) {
    o->lost = o->started && !o->lineup_line;
}

void order_start(struct order *o) {
    o->started = true;
    o->at = 0;
}

unsigned order_slot(const struct order *o, uint8_t shirt) {
    for (unsigned i = 0; i < SLOT_NONE; i++)
        if (o->shirts[i] == shirt)
            return i;
    return SLOT_NONE;
}

static void learn(struct order *o, uint8_t shirt, uint32_t line) {
    o->shirts[o->at] = shirt;
    o->lines[o->at] = line;
}

/* After a gap the next server tells where the order stands; a server that was
 * never seen makes all that was learnt worthless. */
static void find_again(struct order *o, uint8_t shirt, uint32_t line) {
    unsigned slot = order_slot(o, shirt);
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
    unsigned slot = order_slot(o, shirt);
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
    else if (due == SHIRT_NONE && order_slot(o, shirt) == SLOT_NONE)
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
    bool whole_turn = points == s->run[side]; /* else who began it was right */
    if (!o->lineup_line && whole_turn && o->lines[o->at] >= s->turn_from)
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
           (o->shirts[next] == SHIRT_NONE && order_slot(o, shirt) == SLOT_NONE);
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
    if (s->turn_server != SHIRT_NONE && o->sub_told && order_slot(o, shirt) == SLOT_NONE) {
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
