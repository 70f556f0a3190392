/* Serves, points, and who wins what. */
#include "check/play.h"
#include "notation.h"

enum { LONG_RUN_SERVES = 16 };   /* common practice, no source */

void play_close_turn(struct play *p) {
    struct set_state *s = &p->set;
    if (s->turn_open && s->turn_serves >= LONG_RUN_SERVES && s->turn_server != SHIRT_NONE)
        diags_add(p->diags, W_LONG_RUN, syn_line_place(p->syn, s->last_serve_line),
                  s->turn_server, s->turn_serves, s->turn_from, s->last_serve_line);
    s->turn_open = false;
}

static void rotate(struct order *o) {
    o->at = o->started ? (o->at + 1) % 6 : 1;
    o->started = true;
}

static void begin_turn(struct set_state *s, enum side side) {
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
        rotate(&s->orders[side]);
        begin_turn(s, side);
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

/* Whose serve the line is and which shirt; false if the line does not tell.
 * A shirt that the squad lacks has had its message: it could be anybody's. */
static bool resolve(struct play *p, const struct stmt *st, bool quiet, enum side *side,
                    uint8_t *shirt, bool *known) {
    const struct serve *v = &st->as.serve;
    *known = true;
    *side = p->same_side;
    *shirt = p->same_shirt;
    if (v->form != SERVER_SAME) {
        *side = play_side(p, st, v->letter, 0);
        *shirt = v->form == SERVER_SHIRT ? v->shirt : SHIRT_NONE;
        if (*side == SIDE_NONE)
            return false;
        *known = *shirt == SHIRT_NONE || (people_shirt(p, st, *side, *shirt, T_SERVER) &&
                                          (p->match->practice ||
                                           people_may_serve(p, st, *side, *shirt)));
        return true;
    }
    if (p->same_side == SIDE_NONE) {
        if (!quiet && !p->set.doubt)
            diags_add(p->diags, E_NOBODY_BEFORE, syn_word(p->syn, st, 0));
        return false;
    }
    if (p->same_replaced_line) {
        if (!quiet)
            diags_add(p->diags, E_SAME_REPLACED, syn_word(p->syn, st, 0), p->same_shirt,
                      p->same_replaced_line);
        *shirt = SHIRT_NONE;
    }
    return true;
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

/* Lines are missing: how many, the next score tells. */
static void lose_track(struct set_state *s) {
    s->doubt = true;
    order_doubt(&s->orders[OURS]);
    order_doubt(&s->orders[THEIRS]);
}

static void tell_turn_missing(struct play *p, const struct stmt *st, enum side side,
                              uint8_t shirt) {
    struct set_state *s = &p->set;
    struct str them = play_name(p, play_other(side));
    struct diag *d = diags_add(p->diags, E_TURN_MISSING, syn_word(p->syn, st, 0), shirt,
                               s->turn_server, STR_ARG(them));
    diag_see(d, syn_line_place(p->syn, s->last_serve_line), STR("the same team's turn"));
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
static void settle_both(struct play *p, const struct stmt *st, enum side side, uint8_t shirt,
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
        begin_turn(s, side);
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
    }
    s->doubt = true;
    s->serving = s->turn_side = OURS;
    s->turn_server = shirt;
    s->turn_open = true;
}

/* Only ours recorded: another server means that they had a turn between. */
static void settle_ours(struct play *p, const struct stmt *st, uint8_t shirt) {
    struct set_state *s = &p->set;
    /* A wrong server is taken to begin a turn: within one she would be right. */
    bool same = st->as.serve.outcome != OUTCOME_ORDER &&
                (shirt == SHIRT_NONE || s->turn_server == SHIRT_NONE || shirt == s->turn_server);
    bool in_order = st->as.serve.outcome != OUTCOME_ORDER && !s->orders[OURS].lost;
    if (s->unclear) {
        s->unclear = false;
        s->by_lines[OURS] += s->parted_pending;
        s->parted_pending = false;
        play_mark(p, same ? OURS : THEIRS);
        if (!same) {
            play_close_turn(p);
            rotate(&s->orders[OURS]);
            begin_turn(s, OURS);
        }
        return;
    }
    bool again = !s->pending && s->serving == THEIRS && s->known[THEIRS] && in_order &&
                 p->same_side == OURS && shirt == p->same_shirt && shirt != SHIRT_NONE;
    if (again && s->last_serve_line && s->orders[OURS].shirts[s->orders[OURS].at] == shirt) {
        serves_again(p, st, shirt);
        return;
    }
    if (s->pending)
        play_decide(p, same ? OURS : THEIRS, st->line);
    else if (s->serving == OURS && !same && in_order && order_is_next(&s->orders[OURS], shirt))
        lost_line(p, st, shirt, s->turn_server);
    if (s->serving != OURS) {
        s->known[THEIRS] = false;
        play_award(p, OURS, st->line);
    }
    struct order *o = &s->orders[OURS];
    uint8_t due = o->shirts[o->at];
    if (in_order && s->turn_server == SHIRT_NONE && due != SHIRT_NONE && shirt != SHIRT_NONE &&
        shirt != due && o->shirts[(o->at + 1) % 6] == shirt) {
        lost_line(p, st, shirt, due);
        play_award(p, OURS, st->line);
    }
}

/* The first serve of a set tells who began, if `set` did not. */
static void settle_first(struct play *p, const struct stmt *st, enum side side, bool quiet) {
    struct set_state *s = &p->set;
    bool first = !s->any_serve;
    s->any_serve = true;
    if (first && s->first == play_other(side) && s->serving == s->first && !p->match->ours_only) {
        if (!quiet && !s->doubt) {
            struct diag *d = diags_add(p->diags, E_WRONG_TEAM_FIRST, syn_word(p->syn, st, 0),
                                       STR_ARG(play_name(p, side)));
            diag_see(d, syn_line_place(p->syn, s->line), STR("says the other team"));
        }
        play_first(p, side);
        s->doubt = true;
    }
    if (!first || s->first != SIDE_NONE)
        return;
    if (!s->decider && p->last_first == side && !s->doubt)
        diags_add(p->diags, E_FIRST_SERVE, syn_word(p->syn, st, 0), STR_ARG(play_name(p, side)),
                  s->number);
    if (p->match->ours_only) {   /* our first serve tells nothing of theirs */
        s->orders[OURS].lost = s->orders[OURS].started = true;
        s->serving = OURS;
        begin_turn(s, OURS);
        return;
    }
    s->first = side;
    if (s->serving == SIDE_NONE && s->points[OURS] + s->points[THEIRS] == 0) {
        order_start(&s->orders[side]);
        s->serving = side;
        begin_turn(s, side);
    }
}

static void told_over(struct play *p, const struct stmt *st, bool quiet) {
    struct set_state *s = &p->set;
    if (!s->over)
        return;
    if (!quiet && !s->doubt && !s->parted) {
        struct diag *d = diags_add(p->diags, E_SET_OVER, syn_word(p->syn, st, 0), s->points[OURS],
                                   s->points[THEIRS], s->over_line);
        if (d)
            d->likely = STR("\"end\" and \"set\" are missing, or a point above is one too many");
    }
    s->doubt = true;
    s->over = false;
}

enum verdict { WINS, LOSES, OPEN, NOTHING };

/* What the outcome alone says of the rally, from the server's side. The
 * receivers' overlap comes before a fault of the ball, but not before a fault
 * at the hit (rules.md R54, R56). */
static enum verdict verdict_of(const struct serve *v) {
    switch ((enum outcome)v->outcome) {
    case OUTCOME_RETOSS:
    case OUTCOME_REPLAY: return NOTHING;
    case OUTCOME_FOOT:
    case OUTCOME_CLOCK:
    case OUTCOME_ORDER:
    case OUTCOME_DROP: return LOSES;
    case OUTCOME_ACE:
    case OUTCOME_OVERLAP: return WINS;
    case OUTCOME_NET:
    case OUTCOME_LONG:
    case OUTCOME_LEFT:
    case OUTCOME_RIGHT:
    case OUTCOME_ANTENNA:
    case OUTCOME_CEILING:
    case OUTCOME_MATE:
    case OUTCOME_SCREEN: return v->overlap ? WINS : LOSES;
    case OUTCOME_NONE:
    case OUTCOME_IN3:
    case OUTCOME_IN2:
    case OUTCOME_IN1:
    case OUTCOME_PLAY:
    case OUTCOME_IN:
    case OUTCOME_OVER:
    case OUTCOME_N: break;
    }
    return v->overlap ? WINS : OPEN;
}

static enum verdict decide_verdict(struct play *p, const struct stmt *st, bool quiet) {
    const struct serve *v = &st->as.serve;
    if (quiet)
        return OPEN;             /* a line that was not read tells the server only */
    enum verdict verdict = verdict_of(v);
    if (v->rally == RALLY_NONE)
        return verdict;
    enum verdict said = v->rally == RALLY_WON ? WINS : LOSES;
    if (verdict == OPEN)
        return said;
    if (verdict != said) {
        struct str outcome = play_spelt(syn_place(p->syn, st, T_OUTCOME));
        diags_add(p->diags, E_CONTRADICTS, syn_place(p->syn, st, T_RALLY),
                  said == WINS ? "won" : "lost", STR_ARG(outcome));
        p->set.doubt = true;
    }
    return verdict;
}

/* An unread line moves the turn on, but its serve is not known and not kept. */
static void keep(struct play *p, const struct stmt *st, enum side side, uint8_t shirt) {
    struct checked *out = p->out;
    struct set_state *s = &p->set;
    const struct serve *v = &st->as.serve;
    bool counts = v->outcome != OUTCOME_REPLAY && v->outcome != OUTCOME_RETOSS;
    s->rally = (uint16_t)(s->rally + counts);
    s->turn_serves += counts;
    p->now_ix = NOT_KEPT;
    if (st->kind == STMT_UNREAD)
        return;
    out->review_n += v->review;
    if (!(p->options & CHECK_KEEP)) {
        out->played_n++;
        return;
    }
    p->now_ix = out->played_n++;
    out->played = arena_grow(p->arena, out->played, p->now_ix, &p->played_room,
                             sizeof *out->played);
    play_derive(p, &out->played[p->now_ix], st, side, shirt, counts);
}

static void tell_review(struct play *p, const struct stmt *st) {
    if (st->as.serve.review)
        diags_add(p->diags, R_REVIEW, syn_place(p->syn, st, T_REVIEW));
}

static void video_time(struct play *p, const struct stmt *st) {
    const struct serve *v = &st->as.serve;
    if (!(v->has & HAS_TIME))
        return;
    if (p->video_line && v->time_s <= p->video_s) {
        struct place now = syn_place(p->syn, st, T_CLOCKTIME);
        struct place before = syn_line_word(p->syn, p->video_line, T_CLOCKTIME);
        struct diag *d = diags_add(p->diags, E_VIDEO_TIME, now,
                                   str_c(p->arena, play_spelt(now)),
                                   str_c(p->arena, play_spelt(before)));
        diag_see(d, before, STR("the time before"));
    }
    p->video_s = v->time_s;
    p->video_line = st->line;
}

void serve_retoss(struct play *p, const struct stmt *st) {
    struct set_state *s = &p->set;
    unsigned allowed = p->match->profile.retoss;
    if (st->as.serve.outcome != OUTCOME_RETOSS) {
        if (allowed == 1)
            s->retosses = 0;
        return;
    }
    if (!allowed)
        diags_add(p->diags, E_RETOSS, syn_place(p->syn, st, T_OUTCOME));
    else if (s->retosses++)
        diags_add(p->diags, E_RETOSS_AGAIN, syn_place(p->syn, st, T_OUTCOME),
                  allowed == 1 ? "service" : "turn");
}

static bool practice_only(struct play *p, const struct stmt *st) {
    const struct serve *v = &st->as.serve;
    int code = v->outcome == OUTCOME_IN ? T_OUTCOME : v->has & HAS_REPEAT ? T_REPEAT : 0;
    if (!code || p->match->practice)
        return false;
    struct place where = syn_place(p->syn, st, code);
    struct diag *d = diags_add(p->diags, E_PRACTICE_ONLY, where, STR_ARG(play_spelt(where)));
    if (d)
        d->expected = code == T_OUTCOME ? STR("the pass behind it: in3, in2, in1, or play")
                                        : STR("one line for each serve");
    return true;
}

static void check_fields(struct play *p, const struct stmt *st, enum side side) {
    place_check(p, st);
    measure_check(p, st, &st->as.serve);
    marks_check(p, st);
    people_receiver(p, st, play_other(side));
    video_time(p, st);
    tell_review(p, st);
}

static void serve_in_practice(struct play *p, const struct stmt *st, enum side side,
                              uint8_t shirt) {
    p->same_side = side;
    p->same_shirt = shirt;
    check_fields(p, st, side);
    keep(p, st, side, shirt);
}

static void finish_rally(struct play *p, const struct stmt *st, enum side side,
                         enum verdict verdict) {
    switch (verdict) {
    case WINS: play_decide(p, side, st->line); break;
    case LOSES: play_decide(p, play_other(side), st->line); break;
    case OPEN: p->set.pending = true; break;
    case NOTHING: break;
    }
}

static void told_theirs(struct play *p, const struct stmt *st) {
    struct place where = syn_word(p->syn, st, 0);
    if (!p->theirs_told++)
        diags_add(p->diags, E_OURS_ONLY, where, STR_ARG(play_name(p, THEIRS)));
}

void play_serve(struct play *p, const struct stmt *st, bool quiet) {
    enum side side;
    uint8_t shirt;
    bool match = !p->match->practice;
    if (match && !play_in_set(p, st))
        return;
    bool known;
    unsigned errors_before = p->diags->errors;
    p->any_serve = true;
    if (!resolve(p, st, quiet, &side, &shirt, &known)) {
        p->set.doubt = true;
        return;
    }
    if (!match) {
        serve_in_practice(p, st, side, known ? shirt : SHIRT_NONE);
        return;
    }
    if (p->match->ours_only && side == THEIRS) {
        told_theirs(p, st);
        side = OURS;             /* most likely a slip of the letter */
        known = false;
        quiet = true;
    }
    settle_first(p, st, side, quiet);
    bool told_twice = !known && shirt <= SHIRT_MAX && p->shirts_told[side][shirt] > 1;
    uint8_t sure = known ? shirt : SHIRT_NONE;
    p->set.doubt |= p->match->ours_only && !known;
    if (p->match->ours_only)
        settle_ours(p, st, told_twice ? shirt : sure);
    else
        settle_both(p, st, side, sure, quiet || p->set.last_told);
    told_over(p, st, quiet);
    if (!p->set.turn_serves)
        p->set.turn_from = st->line;
    bool in_order = quiet || st->as.serve.outcome != OUTCOME_ORDER;
    uint8_t serves_on = order_serve(p, st, side, in_order ? sure : SHIRT_NONE, quiet);
    p->set.last_serve_line = st->line;
    unsigned errors = p->diags->errors;
    if (!quiet && !practice_only(p, st))
        check_fields(p, st, side);
    bool contradicted = p->diags->errors > errors;
    if (!quiet)
        serve_retoss(p, st);
    keep(p, st, side, sure);
    finish_rally(p, st, side, decide_verdict(p, st, quiet));
    p->set.pending_quiet = quiet;
    p->set.doubt |= contradicted; /* the outcome may be the slip */
    p->set.last_told = p->diags->errors > errors_before;
    p->same_side = side;
    p->same_shirt = in_order ? serves_on : sure;
    p->same_replaced_line = 0;
}

void play_point(struct play *p, const struct stmt *st) {
    enum side side = play_side(p, st, st->as.point.letter, 1);
    if (side == SIDE_NONE || !play_in_set(p, st))
        return;
    (void)play_undecided(p);
    told_over(p, st, false);
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
    if (s->agreed[side] > s->points[side])
        s->agreed[side] = s->points[side];
    play_see_if_over(p, st->line);
}

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
