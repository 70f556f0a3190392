/* Serves. */
#include "check/play.h"
#include "notation.h"

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
    if (!p->match->ours_only && !quiet && letter_slipped(p, st, side, shirt, !known)) {
        side = play_other(side);
        known = true;
    }
    settle_first(p, st, side, quiet);
    bool told_twice = !known && shirt <= SHIRT_MAX && p->shirts_told[side][shirt] > 1;
    uint8_t sure = known ? shirt : SHIRT_NONE;
    if (!known)
        p->set.doubt |= p->match->ours_only || order_has(&p->set.orders[play_other(side)], shirt);
    if (p->match->ours_only)
        settle_ours(p, st, told_twice ? shirt : sure);
    else
        settle_both(p, st, side, sure, quiet || p->set.last_told);
    play_tell_over(p, st, quiet);
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
