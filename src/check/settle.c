/* Who won the rally before: the next server tells. The team that wins a rally
 * serves next (FIVB 6.1.3): the same player if it served before (12.2.2.1), else
 * it rotates and its next player serves (12.2.2.2). So with the serves of both
 * teams every line decides the one above it; with only ours another server means
 * that the other team had a turn between. What does not fit is told, and the
 * play goes on as if the likeliest mend had been made. */
#include "check/play.h"
#include "notation.h"

/* Lines are missing: how many, the next score tells. */
static void lose_track(struct set_state *s) {
    s->doubt = true;
    order_doubt(&s->orders[OURS]);
    order_doubt(&s->orders[THEIRS]);
}

static void tell_wrong_team(struct play *p, const struct stmt *st, enum side side) {
    struct set_state *s = &p->set;
    struct diag *d = diags_add(p->diags, E_WRONG_TEAM, syn_word(p->syn, st, 0),
                               STR_ARG(play_name(p, side)), STR_ARG(play_name(p, play_other(side))));
    if (!d || !s->last_serve_line)
        return;
    uint32_t shown = s->told_by_line > s->last_serve_line ? s->told_by_line : s->last_serve_line;
    diag_see(d, syn_line_place(p->syn, shown),
             str_printf(p->arena, "a point for %.*s", STR_ARG(play_name(p, play_other(side)))));
    d->likely = str_printf(p->arena, "a line is missing between %u and %u", s->last_serve_line,
                           st->line);
}

static void tell_turn_missing(struct play *p, const struct stmt *st, enum side side,
                              uint8_t shirt) {
    struct set_state *s = &p->set;
    struct str them = play_name(p, play_other(side));
    struct diag *d = diags_add(p->diags, E_TURN_MISSING, syn_word(p->syn, st, 0), shirt,
                               s->turn_server, STR_ARG(them));
    diag_see(d, syn_line_place(p->syn, s->last_serve_line), STR("the same team's turn"));
    struct wrong_server *w = order_told(p, side, st->line, 0);
    w->given[side] = !s->pending;
    w->given[play_other(side)] = 1;
    w->turn_given = true;
    w->lost_row = s->pending ? p->now_ix : NOT_KEPT;
    if (d)
        d->likely = str_printf(p->arena, "lines of %.*s are missing between %u and %u, or %u",
                               STR_ARG(them), s->last_serve_line, st->line, s->turn_server);
}

/* The next server of a team, while the one before may serve on: the other
 * team's turn is missing. A turn of one lost serve is the likeliest. */
static bool turn_missing(struct play *p, const struct stmt *st, enum side side, uint8_t shirt,
                         bool quiet) {
    struct set_state *s = &p->set;
    bool same_turn = s->turn_open && s->turn_side == side && s->turn_server != SHIRT_NONE;
    if (!same_turn || shirt == SHIRT_NONE || shirt == s->turn_server || shirt == s->turn_wrong ||
        st->as.serve.outcome == OUTCOME_ORDER || !order_is_next(&s->orders[side], shirt))
        return false;
    if (!quiet && !s->doubt)
        tell_turn_missing(p, st, side, shirt);
    if (s->pending)
        play_decide(p, play_other(side), st->line);
    else
        play_award(p, play_other(side), st->line);
    play_award(p, side, st->line);
    lose_track(s);
    return true;
}

/* Both teams recorded: who serves now won the rally that waited. A server of
 * the wrong team most often means that one lost rally was not written. */
void settle_both(struct play *p, const struct stmt *st, enum side side, uint8_t shirt,
                 bool quiet) {
    struct set_state *s = &p->set;
    if (turn_missing(p, st, side, shirt, quiet))
        return;
    if (s->pending) {
        play_decide(p, side, st->line);
    } else if (s->serving == SIDE_NONE) {
        s->by_lines[side] += s->parted_pending;
        s->parted_pending = false;
        s->serving = side;
        play_begin_turn(s, side);
        s->orders[side].lost = true;
        s->orders[side].started = true;
    } else if (s->serving != side) {
        if (!quiet && !s->doubt)
            tell_wrong_team(p, st, side);
        play_award(p, side, st->line);
        lose_track(s);
    }
}

/* The next of our servers comes too early: our lost serve is missing. */
static void lost_line(struct play *p, const struct stmt *st, uint8_t shirt, uint8_t due) {
    struct set_state *s = &p->set;
    if (!s->doubt) {
        struct diag *d = diags_add(p->diags, E_OUT_OF_ORDER, syn_word(p->syn, st, 0), shirt, due);
        if (s->last_serve_line)
            diag_see(d, syn_line_place(p->syn, s->last_serve_line), STR("the serve before"));
        if (d)
            d->likely = str_printf(p->arena, "a lost serve of %u is missing above", due);
        struct wrong_server *w = order_told(p, OURS, st->line, 0);
        w->given[OURS] = w->given[THEIRS] = 1;
    }
    play_award(p, THEIRS, st->line);
    lose_track(s);
}

/* Only ours recorded: she serves on, though the line before lost her the serve. */
static void serves_again(struct play *p, const struct stmt *st, uint8_t shirt) {
    struct set_state *s = &p->set;
    if (!s->doubt) {
        struct diag *d = diags_add(p->diags, E_SERVED_ALREADY, syn_word(p->syn, st, 0), shirt);
        diag_see(d, syn_line_place(p->syn, s->last_serve_line), STR("she lost the serve here"));
        struct wrong_server *w = order_told(p, OURS, st->line, s->run[OURS]);
        w->at = (w->at + 1) % 6; /* wrong, she stands for the next: a turn of theirs was between */
        w->given[OURS] = -1;
    }
    s->doubt = true;
    s->serving = s->turn_side = OURS;
    s->turn_server = shirt;
    s->turn_open = true;
}

/* Only ours recorded: she cannot be wrong in her own turn, so the points taken back
 * were of a turn behind it, and her last serve before them was lost. */
static void turn_was_new(struct play *p) {
    struct set_state *s = &p->set;
    size_t ix = s->run[OURS] ? s->run_rows[OURS][(s->run[OURS] - 1) % RUN_KEPT] : NOT_KEPT;
    if (ix != NOT_KEPT)
        p->out->played[ix].won = RALLY_LOST;
    s->known[THEIRS] = false;
    play_rotate(&s->orders[OURS]);
    play_begin_turn(s, OURS);
}

/* Only ours recorded: a score that did not agree left open whether the rally
 * before it was won; another server means that it was not. */
static void settle_unclear(struct play *p, bool same) {
    struct set_state *s = &p->set;
    s->unclear = false;
    s->by_lines[OURS] += s->parted_pending;
    s->parted_pending = false;
    play_mark(p, same ? OURS : THEIRS);
    if (same)
        return;
    play_close_turn(p);
    play_rotate(&s->orders[OURS]);
    play_begin_turn(s, OURS);
}

/* The server of the line before, which lost her the serve. */
static bool lost_and_serves(const struct play *p, uint8_t shirt) {
    const struct set_state *s = &p->set;
    const struct order *o = &s->orders[OURS];
    return !s->pending && s->serving == THEIRS && s->last_serve_line && shirt != SHIRT_NONE &&
           p->same_side == OURS && shirt == p->same_shirt && shirt == o->shirts[o->at];
}

/* The turn begins with the player behind who is due. One who came in by a
 * substitution tells nothing: that may be the slip. */
static bool turn_skipped(const struct play *p, uint8_t shirt) {
    const struct set_state *s = &p->set;
    const struct order *o = &s->orders[OURS];
    uint8_t due = o->shirts[o->at];
    return s->turn_server == SHIRT_NONE && due != SHIRT_NONE && shirt != SHIRT_NONE &&
           shirt != due && shirt == o->shirts[(o->at + 1) % 6] &&
           !shirts_hold(s->benches[OURS].in, shirt);
}

/* Only ours recorded. A server written as wrong is taken to begin a turn: within
 * one she would be right. */
void settle_ours(struct play *p, const struct stmt *st, uint8_t shirt) {
    struct set_state *s = &p->set;
    struct order *o = &s->orders[OURS];
    bool wrong = st->as.serve.outcome == OUTCOME_ORDER;
    bool same = !wrong && (shirt == SHIRT_NONE || s->turn_server == SHIRT_NONE ||
                           shirt == s->turn_server || shirt == s->turn_wrong);
    bool judged = !wrong && !o->lost;
    if (s->unclear) {
        settle_unclear(p, same);
        return;
    }
    if (judged && lost_and_serves(p, shirt)) {
        serves_again(p, st, shirt);
        return;
    }
    if (s->pending)
        play_decide(p, same ? OURS : THEIRS, st->line);
    else if (wrong && s->taken_back && shirt != SHIRT_NONE && shirt == o->shirts[o->at])
        turn_was_new(p);
    else if (judged && s->serving == OURS && !same && order_is_next(o, shirt))
        lost_line(p, st, shirt, s->turn_server);
    if (s->serving != OURS) {
        s->known[THEIRS] = false;
        play_award(p, OURS, st->line);
    }
    if (judged && turn_skipped(p, shirt)) {
        lost_line(p, st, shirt, o->shirts[o->at]);
        play_award(p, OURS, st->line);
    }
}

/* Who began, as the first server of the set tells; SIDE_NONE if she does not. With
 * only ours recorded she is our zone 1 if we did, else our zone 2. */
static enum side who_began(const struct play *p, const struct stmt *st, enum side side,
                           uint8_t shirt) {
    const struct order *o = &p->set.orders[OURS];
    if (!p->match->ours_only)
        return side;
    if (!o->lineup_line || shirt == SHIRT_NONE || st->as.serve.outcome == OUTCOME_ORDER)
        return SIDE_NONE;
    return shirt == o->shirts[0] ? OURS : shirt == o->shirts[1] ? THEIRS : SIDE_NONE;
}

static void tell_other_first(struct play *p, const struct stmt *st, enum side side) {
    struct diag *d = diags_add(p->diags, E_WRONG_TEAM_FIRST, syn_word(p->syn, st, 0),
                               STR_ARG(play_name(p, side)));
    diag_see(d, syn_line_place(p->syn, p->set.line), STR("says the other team"));
    if (p->match->ours_only)
        diag_see(d, syn_line_place(p->syn, p->set.orders[OURS].lineup_line),
                 STR("zone 1 serves first, or zone 2 after theirs"));
}

/* The first serve of a set: who began, if `set` did not say it or said it wrong.
 * Teams take turns to begin, but for the deciding set (FIVB 12.1.2). */
void settle_first(struct play *p, const struct stmt *st, enum side side, uint8_t shirt,
                  bool quiet) {
    struct set_state *s = &p->set;
    if (s->any_serve)
        return;
    s->any_serve = true;
    enum side began = who_began(p, st, side, shirt);
    if (began != SIDE_NONE && s->first == play_other(began) && s->serving == s->first) {
        if (!quiet && !s->doubt)
            tell_other_first(p, st, began);
        play_first(p, began);
        s->doubt = s->first_open = true;
    }
    if (s->first != SIDE_NONE)
        return;
    if (p->match->ours_only) {   /* our first serve tells nothing of theirs */
        s->orders[OURS].lost = s->orders[OURS].started = true;
        s->serving = OURS;
        play_begin_turn(s, OURS);
        return;
    }
    if (!s->decider && p->last_first == side && !s->doubt)
        diags_add(p->diags, E_FIRST_SERVE, syn_word(p->syn, st, 0), STR_ARG(play_name(p, side)),
                  s->number);
    s->first = side;
    if (s->serving == SIDE_NONE && s->points[OURS] + s->points[THEIRS] == 0) {
        order_start(&s->orders[side]);
        s->serving = side;
        play_begin_turn(s, side);
    }
}

/* `turn G 2`: theirs, two points and then lost. */
void play_turn(struct play *p, const struct stmt *st) {
    enum side side = play_side(p, st, st->as.points.letter, 1);
    struct set_state *s = &p->set;
    if (side == SIDE_NONE || !play_in_set(p, st))
        return;
    if (!p->match->ours_only || side == OURS) {
        diags_add(p->diags, E_TURN_BOTH, syn_word(p->syn, st, 0), STR_ARG(play_name(p, side)));
        return;
    }
    if (s->first == SIDE_NONE && !s->any_serve)
        s->first = s->serving = THEIRS;
    if (s->pending)
        play_decide(p, THEIRS, st->line);
    else if (s->serving == OURS && !s->doubt) {
        tell_wrong_team(p, st, THEIRS);
        s->doubt = true;
    }
    s->any_serve = true;
    s->serving = THEIRS;
    s->points[THEIRS] += st->as.points.n;
    play_award(p, OURS, st->line);
}
