/* Points: who gets one, what it moves on, and points taken back. */
#include "check/play.h"

enum { LONG_RUN_SERVES = 16 };   /* common practice, no source */

void play_close_turn(struct play *p) {
    struct set_state *s = &p->set;
    if (s->turn_open && s->turn_serves >= LONG_RUN_SERVES && s->turn_server != SHIRT_NONE)
        diags_add(p->diags, W_LONG_RUN, syn_line_place(p->syn, s->last_serve_line),
                  s->turn_server, s->turn_serves, s->turn_from, s->last_serve_line);
    s->turn_open = false;
}

void play_rotate(struct order *o) {
    o->at = o->started ? (o->at + 1) % 6 : 1;
    o->started = true;
}

void play_begin_turn(struct set_state *s, enum side side) {
    s->turn_side = side;
    s->turn_server = s->turn_wrong = SHIRT_NONE;
    s->turn_open = true;
    s->turn_serves = 0;
    s->run[side] = 0;
    s->retosses = 0;
}

void play_see_if_over(struct play *p, uint32_t line) {
    struct set_state *s = &p->set;
    unsigned a = s->points[OURS], b = s->points[THEIRS], most = a > b ? a : b;
    unsigned lead = a > b ? a - b : b - a;
    bool over = s->known[OURS] && s->known[THEIRS] && most >= s->goal &&
                lead >= p->match->profile.lead;
    if (over && !s->over)
        s->over_line = line;
    s->over = over;
}

void play_award(struct play *p, enum side side, uint32_t line) {
    struct set_state *s = &p->set;
    if (s->serving == side) {
        s->run_rows[side][s->run[side]++ % RUN_KEPT] = p->award_ix;
    } else {
        play_close_turn(p);
        play_rotate(&s->orders[side]);
        play_begin_turn(s, side);
        s->serving = side;
    }
    s->points[side]++;
    s->by_lines[side]++;
    play_see_if_over(p, line);
}

void play_mark(struct play *p, enum side winner) {
    if (p->now_ix == NOT_KEPT)
        return;
    struct played *row = &p->out->played[p->now_ix];
    row->won = row->side == winner ? RALLY_WON : RALLY_LOST;
}

void play_decide(struct play *p, enum side winner, uint32_t line) {
    p->set.pending = false;
    play_mark(p, winner);
    p->award_ix = p->now_ix;
    play_award(p, winner, line);
    p->award_ix = NOT_KEPT;
}

bool play_undecided(struct play *p) {
    if (!p->set.pending)
        return false;
    struct place where = syn_line_place(p->syn, p->set.last_serve_line);
    if (!p->set.doubt && !p->set.pending_quiet) {
        struct diag *d = diags_add(p->diags, E_UNDECIDED, where);
        if (d)
            d->expected = STR("won or lost behind the outcome, from the server's side");
    }
    p->set.pending = false;
    p->set.doubt = true;
    return true;
}

void play_see_twin(struct play *p, struct diag *d, uint32_t line) {
    struct set_state *s = &p->set;
    uint32_t from = s->agreed_line ? s->agreed_line : s->line, twin = 0;
    if (!d || !from)
        return;
    struct str above = STR_NONE;
    for (uint32_t k = from; k < line; k++) {
        struct str text = str_trim(syn_line_place(p->syn, k).text);
        bool equal = text.n && text.at[0] != '#' && str_eq(text, above);
        if (equal && twin)
            return;
        twin = equal ? k : twin;
        above = text;
    }
    if (twin)
        diag_see(d, syn_line_place(p->syn, twin), STR("says the same as the line above"));
}

void play_tell_over(struct play *p, const struct stmt *st, bool quiet) {
    struct set_state *s = &p->set;
    if (!s->over)
        return;
    if (!quiet && !s->doubt && !s->parted) {
        struct diag *d = diags_add(p->diags, E_SET_OVER, syn_word(p->syn, st, 0), s->points[OURS],
                                   s->points[THEIRS], s->over_line);
        play_see_twin(p, d, st->line);
        if (d)
            d->likely = STR("\"end\" and \"set\" are missing, or a point above is one too many");
    }
    s->doubt = true;
    s->over = false;
}

void play_point(struct play *p, const struct stmt *st) {
    enum side side = play_side(p, st, st->as.point.letter, 1);
    if (side == SIDE_NONE || !play_in_set(p, st))
        return;
    (void)play_undecided(p);
    play_tell_over(p, st, false);
    play_award(p, side, st->line);
}

/* The side's last `n` points are taken back; of those that a serve won, the
 * serve is marked. */
static void mark_cancelled(struct play *p, enum side side, unsigned n) {
    struct set_state *s = &p->set;
    for (unsigned k = 0; k < n; k++) {
        size_t ix = s->run_rows[side][(s->run[side] - 1 - k) % RUN_KEPT];
        if (ix != NOT_KEPT)
            p->out->played[ix].cancelled = true;
    }
}

void play_cancel(struct play *p, const struct stmt *st) {
    enum side side = play_side(p, st, st->as.points.letter, 1);
    if (side == SIDE_NONE || !play_in_set(p, st))
        return;
    struct set_state *s = &p->set;
    unsigned n = st->as.points.n;
    (void)play_undecided(p);
    if (n > s->run[side]) {
        if (!s->doubt)
            diags_add(p->diags, E_CANCEL, syn_word(p->syn, st, 2), STR_ARG(play_name(p, side)),
                      s->run[side], n);
        s->doubt = true;
        return;
    }
    mark_cancelled(p, side, n);
    order_cancel(p, side, n);
    s->points[side] -= n;
    s->run[side] -= n;
    s->taken_back = true;
    if (s->agreed[side] > s->points[side])
        s->agreed[side] = s->points[side];
    play_see_if_over(p, st->line);
}
