/* Serves. */
#include "check/play.h"
#include "notation.h"

/* Whose serve the line is and which shirt. */
struct server {
    enum side side;
    uint8_t shirt;               /* SHIRT_NONE: not seen */
    bool known;                  /* else the squad lacks her, which is told: she may be anybody */
};

/* A letter that no team has: `l3` is 13, every other one is a slip for theirs,
 * since ours needs none. False with only ours recorded. */
static bool letter_unknown(struct play *p, const struct serve *v, struct server *who) {
    uint8_t shirt = letter_as_digit(v);
    if (shirt != SHIRT_NONE)
        *who = (struct server){OURS, shirt, true};
    else
        who->side = THEIRS;
    return shirt != SHIRT_NONE || !(p->match->practice || p->match->ours_only);
}

static bool server_named(struct play *p, const struct stmt *st, struct server *who) {
    const struct serve *v = &st->as.serve;
    *who = (struct server){.side = play_side(p, st, v->letter, 0), .known = true,
                           .shirt = v->form == SERVER_SHIRT ? v->shirt : SHIRT_NONE};
    if (who->side == SIDE_NONE && !letter_unknown(p, v, who))
        return false;
    who->known = who->shirt == SHIRT_NONE ||
                 (people_shirt(p, st, who->side, who->shirt, T_SERVER) &&
                  (p->match->practice || people_may_serve(p, st, who->side, who->shirt)));
    return true;
}

/* `.`: the same server again. */
static bool server_same(struct play *p, const struct stmt *st, bool quiet, struct server *who) {
    *who = (struct server){p->same_side, p->same_shirt, true};
    if (p->same_side == SIDE_NONE) {
        if (!quiet && !p->set.doubt)
            diags_add(p->diags, E_NOBODY_BEFORE, syn_word(p->syn, st, 0));
        return false;
    }
    if (p->same_replaced_line) {
        if (!quiet)
            diags_add(p->diags, E_SAME_REPLACED, syn_word(p->syn, st, 0), p->same_shirt,
                      p->same_replaced_line);
        who->shirt = SHIRT_NONE;
    }
    return true;
}

enum verdict { WINS, LOSES, OPEN, NOTHING };

/* What the outcome alone says of the rally, from the server's side. The
 * receivers' overlap comes before a fault of the ball, but not before a fault
 * at the hit (FIVB 12.6.1, 12.7). */
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
    out->played_n++;
    if (!p->taker && !(p->options & CHECK_KEEP))
        return;
    if (p->row_n == p->row_room)
        out->played = arena_grow(p->arena, out->played, p->row_n, &p->row_room, sizeof *out->played);
    p->now_ix = p->row_n++;
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
    /* Behind a line with a message the lines may be in another order: one slip. */
    if (p->video_line && v->time_s <= p->video_s && !p->set.last_told) {
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

/* False if the line does not tell who served. One server of theirs with only
 * ours recorded is most likely a slip of the letter. */
static bool find_server(struct play *p, const struct stmt *st, bool *quiet, struct server *who) {
    bool found = st->as.serve.form == SERVER_SAME ? server_same(p, st, *quiet, who)
                                                  : server_named(p, st, who);
    if (!found || p->match->practice)
        return found;
    if (p->match->ours_only && who->side == THEIRS) {
        told_theirs(p, st);
        *who = (struct server){OURS, who->shirt, false};
        *quiet = true;
    }
    if (!p->match->ours_only && !*quiet && letter_slipped(p, st, who->side, who->shirt, !who->known))
        *who = (struct server){play_other(who->side), who->shirt, true};
    return true;
}

/* Her team won the rally that waited, and it is her turn. Gives the shirt that
 * serves as far as can be told. */
static uint8_t take_turn(struct play *p, const struct stmt *st, const struct server *who,
                         bool quiet) {
    struct set_state *s = &p->set;
    uint8_t shirt = who->known ? who->shirt : SHIRT_NONE;
    settle_first(p, st, who->side, shirt, quiet);
    const struct order *other = &s->orders[play_other(who->side)];
    if (!who->known)             /* so it may have been theirs */
        s->doubt |= p->match->ours_only || order_slot(other, who->shirt) != SLOT_NONE;
    if (p->match->ours_only)
        settle_ours(p, st, shirt);
    else
        settle_both(p, st, who->side, shirt, quiet || s->last_told);
    s->taken_back = false;
    play_tell_over(p, st, quiet);
    if (!s->turn_serves)
        s->turn_from = st->line;
    bool wrong = !quiet && st->as.serve.outcome == OUTCOME_ORDER; /* and written as such */
    uint8_t serves_on = order_serve(p, st, who->side, wrong ? SHIRT_NONE : shirt, quiet);
    s->last_serve_line = st->line;
    return wrong ? shirt : serves_on;
}

/* What came of the serve. */
static void take_outcome(struct play *p, const struct stmt *st, const struct server *who,
                         bool quiet) {
    unsigned errors = p->diags->errors;
    if (!quiet && !practice_only(p, st))
        check_fields(p, st, who->side);
    bool contradicted = p->diags->errors > errors;
    if (!quiet)
        serve_retoss(p, st);
    keep(p, st, who->side, who->known ? who->shirt : SHIRT_NONE);
    /* The outcome may be the slip: the next server tells who won. */
    finish_rally(p, st, who->side, contradicted ? OPEN : decide_verdict(p, st, quiet));
    p->set.doubt |= contradicted;
    p->set.pending_quiet = quiet;
}

static void serve_in_match(struct play *p, const struct stmt *st, bool quiet) {
    struct server who;
    unsigned errors = p->diags->errors;
    if (!find_server(p, st, &quiet, &who)) {
        p->set.doubt = true;
        return;
    }
    uint8_t serves_on = take_turn(p, st, &who, quiet);
    take_outcome(p, st, &who, quiet);
    p->set.last_told = p->diags->errors > errors;
    p->same_side = who.side;
    p->same_shirt = serves_on;
    p->same_replaced_line = 0;
}

static void serve_in_practice(struct play *p, const struct stmt *st) {
    struct server who;
    bool quiet = false;
    if (!find_server(p, st, &quiet, &who))
        return;
    p->same_side = who.side;
    p->same_shirt = who.known ? who.shirt : SHIRT_NONE;
    check_fields(p, st, who.side);
    keep(p, st, who.side, p->same_shirt);
}

void play_serve(struct play *p, const struct stmt *st, bool quiet) {
    if (!p->match->practice && !play_in_set(p, st))
        return;
    p->serve_line = st->line;
    if (p->match->practice)
        serve_in_practice(p, st);
    else
        serve_in_match(p, st, quiet);
}
