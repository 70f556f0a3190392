/* Sets, and the scores that the notes state. A set is won by the first team with
 * 25 points and two ahead, the deciding one with 15 (FIVB 6.2, 6.3.2; other rules
 * have other numbers); one without enough players gives the other team the points
 * that it lacks (6.4.3). A stated score that does not follow from the lines is told
 * and taken over. */
#include "check/play.h"
#include "notation.h"

static struct set_result *result(struct play *p) {
    return &p->out->sets[p->out->set_n - 1];
}

/* Who serves first; SIDE_NONE leaves it to the first serve. */
void play_first(struct play *p, enum side first) {
    struct set_state *s = &p->set;
    s->first = s->serving = s->turn_side = first;
    s->turn_open = first != SIDE_NONE;
    s->turn_server = s->turn_wrong = SHIRT_NONE;
    for (unsigned side = 0; side < SIDE_N; side++)
        s->orders[side].started = false;
    if (first != SIDE_NONE)
        order_start(&s->orders[first]);
}

static void begin_set(struct play *p, unsigned number, enum side first, uint32_t line) {
    struct checked *out = p->out;
    const struct profile *rules = &p->match->profile;
    struct set_state *s = &p->set;
    unsigned needed = rules->sets_to_win;
    *s = (struct set_state){.open = true, .number = number, .line = line, .first = first,
                            .serving = first, .known = {true, true}, .turn_side = SIDE_NONE,
                            .turn_server = SHIRT_NONE, .turn_wrong = SHIRT_NONE};
    s->decider = out->set_n + 2 == 2 * needed; /* the last set there can be */
    s->goal = s->decider ? rules->decider_points : rules->set_points;
    for (unsigned side = 0; side < SIDE_N; side++) {
        struct order *o = &s->orders[side];
        o->told_due = o->told_shirt = SHIRT_NONE;
        for (unsigned i = 0; i < 6; i++)
            o->shirts[i] = o->instead[i] = SHIRT_NONE;
    }
    play_first(p, first);
    s->known[OURS] = first != SIDE_NONE || !p->match->ours_only;
    p->any_set = true;
    p->lines_lost = false;
    p->same_side = SIDE_NONE;
    out->sets[out->set_n++] = (struct set_result){.number = number, .first = first,
                                                  .known = {true, true}, .from = out->played_n,
                                                  .to = out->played_n};
}

/* Writes down how the set stands; a set that was won counts for its winner. */
static void close_set(struct play *p, bool ended) {
    struct set_state *s = &p->set;
    struct set_result *r = result(p);
    play_close_turn(p);
    r->first = s->first;
    r->to = p->out->played_n;
    r->ended = ended;
    for (unsigned side = 0; side < SIDE_N; side++) {
        r->points[side] = s->points[side];
        r->known[side] = s->known[side];
    }
    if (ended && s->points[OURS] != s->points[THEIRS])
        p->out->sets_won[s->points[OURS] > s->points[THEIRS] ? OURS : THEIRS]++;
    p->last_first = s->first_open ? SIDE_NONE : s->first;
    p->plan = 0;
    s->open = false;
    play_hand_on(p);
}

/* Notes that stop where the set may have been won: is it over? */
static void tell_unfinished(struct play *p) {
    const struct set_state *s = &p->set;
    bool could_end = s->over;
    for (enum side w = OURS; w < SIDE_N && s->pending && s->known[OURS] && s->known[THEIRS]; w++)
        could_end |= play_wins_next(p, w);
    if (could_end && !s->doubt && s->last_serve_line)
        diags_add(p->diags, W_UNFINISHED, syn_line_place(p->syn, s->last_serve_line), s->number);
}

void play_finish(struct play *p) {
    if (!p->set.open)
        return;
    tell_unfinished(p);
    close_set(p, p->set.over);
}

static bool match_over(const struct play *p) {
    unsigned needed = p->match->profile.sets_to_win;
    return p->out->sets_won[OURS] >= needed || p->out->sets_won[THEIRS] >= needed;
}

static void tell_outside(struct play *p, const struct stmt *st) {
    struct place where = syn_word(p->syn, st, 0);
    struct str what = st->kind == STMT_SERVE ? STR("a serve") : play_spelt(where);
    const char *when = p->any_set
                           ? str_printf(p->arena, "after the end of set %u", p->set.number).at
                           : "before the first set";
    struct diag *d = diags_add(p->diags, E_OUTSIDE_SET, where, STR_ARG(what), when);
    if (d && st->kind != STMT_END)
        d->likely = str_printf(p->arena, "\"set %u\" is missing above", p->out->set_n + 1);
}

bool play_in_set(struct play *p, const struct stmt *st) {
    if (p->set.open)
        return true;
    if (!p->lines_lost)
        tell_outside(p, st);
    if (p->out->set_n == SETS_MAX) {
        p->lines_lost = true;    /* told once; a tenth set can't be */
        return false;
    }
    begin_set(p, p->out->set_n + 1, SIDE_NONE, st->line);
    p->set.doubt = true;
    return true;
}

static void check_number(struct play *p, const struct stmt *st) {
    unsigned number = st->as.set.number, next = p->out->set_n + 1;
    if (match_over(p) && !p->lines_lost && !p->sets_unsure)
        diags_add(p->diags, E_MATCH_OVER, syn_word(p->syn, st, 1), number, p->out->sets_won[OURS],
                  p->out->sets_won[THEIRS]);
    else if (number != next && !p->lines_lost)
        diags_add(p->diags, E_SET_NUMBER, syn_word(p->syn, st, 1), number, next);
}

void play_set(struct play *p, const struct stmt *st) {
    struct set_state *s = &p->set;
    bool doubled = s->open && !s->any_serve && s->rally == 0 && st->as.set.number == s->number;
    if (doubled && !p->lines_lost) {
        diags_add(p->diags, E_SET_NUMBER, syn_word(p->syn, st, 1), s->number, s->number + 1);
        return;
    }
    if (s->open) {
        if (!p->lines_lost) {
            struct diag *d = diags_add(p->diags, E_NOT_ENDED, syn_word(p->syn, st, 0),
                                       st->as.set.number, s->number);
            if (s->pending && !p->match->ours_only)
                play_decide(p, s->points[OURS] > s->points[THEIRS] ? OURS : THEIRS, st->line);
            if (d && s->over)
                d->likely = str_printf(p->arena, "\"end %u-%u\" is missing above",
                                       s->points[OURS], s->points[THEIRS]);
        }
        close_set(p, s->over);
    }
    if (p->out->set_n == SETS_MAX)
        return;
    enum side first = st->as.set.letter ? play_side(p, st, st->as.set.letter, 2) : SIDE_NONE;
    enum side last_first = p->last_first;
    bool doubt = p->lines_lost || s->doubt;
    check_number(p, st);
    begin_set(p, st->as.set.number, first, st->line);
    if (s->decider)
        return;
    if (first != SIDE_NONE && first == last_first && !doubt) {
        diags_add(p->diags, E_FIRST_SERVE, syn_word(p->syn, st, 2), STR_ARG(play_name(p, first)),
                  st->as.set.number);
        play_first(p, SIDE_NONE); /* the first server tells */
        s->known[OURS] = !p->match->ours_only;
        s->doubt = s->first_open = true;
    }
    if (first == SIDE_NONE && p->match->ours_only && last_first != SIDE_NONE) {
        enum side turn = play_other(last_first);
        play_first(p, turn);
        s->known[OURS] = true;
    }
}

/* From here on the stated score holds. */
static void take_score(struct play *p, const unsigned points[SIDE_N], uint32_t line) {
    struct set_state *s = &p->set;
    for (unsigned side = 0; side < SIDE_N; side++) {
        s->points[side] = s->agreed[side] = points[side];
        s->known[side] = true;
    }
    s->agreed_line = line;
    s->doubt = false;
    play_see_if_over(p, line);
}

/* Who won the last rally, if that makes the sum what is said; else SIDE_NONE. */
static enum side winner_to(const unsigned sum[SIDE_N], const unsigned said[SIDE_N]) {
    for (enum side w = OURS; w < SIDE_N; w++)
        if (said[w] == sum[w] + 1 && said[play_other(w)] == sum[play_other(w)])
            return w;
    return SIDE_NONE;
}

/* Both teams recorded: the rally that waits is decided by the score. It stays
 * open if a score above did not agree, and by the lines the other team won it. */
static bool agrees_both(struct play *p, const unsigned said[SIDE_N], uint32_t line) {
    struct set_state *s = &p->set;
    if (!s->pending)
        return said[OURS] == s->points[OURS] && said[THEIRS] == s->points[THEIRS];
    enum side winner = winner_to(s->points, said);
    if (winner == SIDE_NONE)
        return false;
    if (s->parted && winner_to(s->by_lines, said) == play_other(winner))
        return true;
    play_decide(p, winner, line);
    s->told_by_line = line;
    return true;
}

/* Only ours recorded: our points follow from our serves, and between two of
 * our turns the side-out may be in the score already or not. */
static bool agrees_ours(struct play *p, const unsigned said[SIDE_N], uint32_t line) {
    struct set_state *s = &p->set;
    unsigned a = said[OURS], b = said[THEIRS];
    if (!s->known[OURS])
        return true;
    if (s->pending && !s->known[THEIRS] && a == s->points[OURS] + 1) {
        s->pending = false;
        s->unclear = true;
        s->points[OURS] = a;
        return b >= s->points[THEIRS];
    }
    if (s->pending) {
        bool won = a == s->points[OURS] + 1 && b == s->points[THEIRS];
        bool lost = (a == s->points[OURS] || a == s->points[OURS] + 1) && b > s->points[THEIRS];
        if (!won && !lost)
            return false;
        play_decide(p, won ? OURS : THEIRS, line);
    }
    bool exact = s->known[THEIRS] && s->serving == OURS;
    if (b < s->points[THEIRS] || (exact && b != s->points[THEIRS]))
        return false;
    if (s->serving == THEIRS && a == s->points[OURS] + 1)
        play_award(p, OURS, line);
    return a == s->points[OURS];
}

/* After a score that was told not to agree: the lines may have been right. */
static bool agrees_by_lines(struct play *p, const unsigned said[SIDE_N], uint32_t line) {
    struct set_state *s = &p->set;
    bool any = p->match->ours_only; /* their points are not known, a side-out may be in ours */
    unsigned more = said[OURS] - s->by_lines[OURS];
    if (any)
        return more == 0 || (more == 1 && (s->pending || s->serving == THEIRS));
    enum side winner = winner_to(s->by_lines, said);
    if (s->pending && winner != SIDE_NONE)
        play_decide(p, winner, line);
    else if (s->pending)
        return false;
    return said[OURS] == s->by_lines[OURS] && said[THEIRS] == s->by_lines[THEIRS];
}

static void tell_score(struct play *p, const struct stmt *st, bool end) {
    struct set_state *s = &p->set;
    const unsigned *said = st->as.score.points;
    struct str sum = str_printf(p->arena, "%u-%u", s->points[OURS], s->points[THEIRS]);
    if (s->pending)
        sum = str_printf(p->arena, "%u-%u or %u-%u", s->points[OURS] + 1, s->points[THEIRS],
                         s->points[OURS], s->points[THEIRS] + 1);
    if (!s->known[THEIRS])
        sum = str_printf(p->arena, "%u for us", s->points[OURS]);
    struct place where = syn_place(p->syn, st, T_PAIR);
    struct diag *d = end ? diags_add(p->diags, E_END_SCORE, where, said[OURS], said[THEIRS], sum.at)
                         : diags_add(p->diags, E_SCORE, where, said[OURS], said[THEIRS], sum.at);
    if (!d)
        return;
    uint32_t since = s->agreed_line ? s->agreed_line : s->line;
    diag_see(d, syn_line_place(p->syn, since),
             str_printf(p->arena, "agreed %u-%u; since then %.*s %u, %.*s %u", s->agreed[OURS],
                        s->agreed[THEIRS], STR_ARG(play_name(p, OURS)),
                        s->points[OURS] - s->agreed[OURS], STR_ARG(play_name(p, THEIRS)),
                        s->points[THEIRS] - s->agreed[THEIRS]));
    play_see_twin(p, d, st->line);
    d->done = str_printf(p->arena, "%u-%u is taken from here on", said[OURS], said[THEIRS]);
}

/* Where the lines and the score part, who won the last rally is not sure: the
 * next server tells. */
static void lose_rally(struct play *p) {
    struct set_state *s = &p->set;
    s->parted_pending = s->pending;
    s->pending = false;
    if (p->match->ours_only) {
        s->unclear = s->serving == OURS;
        return;
    }
    s->serving = SIDE_NONE;
    s->turn_server = s->turn_wrong = SHIRT_NONE;
    order_doubt(&s->orders[OURS]);
    order_doubt(&s->orders[THEIRS]);
}

/* Holds the stated score against the lines and takes it over. False if it did
 * not agree, which has been told. */
static bool settle_score(struct play *p, const struct stmt *st, bool end) {
    struct set_state *s = &p->set;
    bool agrees = p->match->ours_only ? agrees_ours(p, st->as.score.points, st->line)
                                      : agrees_both(p, st->as.score.points, st->line);
    bool by_lines = !agrees && s->parted && agrees_by_lines(p, st->as.score.points, st->line);
    bool told = !agrees && !s->doubt && !by_lines;
    s->first_open |= told;
    if (told) {
        tell_score(p, st, end);
        for (unsigned side = 0; side < SIDE_N; side++)
            s->by_lines[side] = s->points[side];
    }
    s->parted = told;
    if (s->pending || !agrees)
        lose_rally(p);
    take_score(p, st->as.score.points, st->line);
    /* Between two turns of ours the side-out may be in the score, or not. */
    s->doubt = !agrees && p->match->ours_only && s->serving == THEIRS;
    return !told;
}

void play_score(struct play *p, const struct stmt *st) {
    if (play_in_set(p, st))
        (void)settle_score(p, st, false);
}

/* A bare `end`: the leader won the last rally. False if it can't be judged. */
static bool settle_bare(struct play *p, const struct stmt *st) {
    struct set_state *s = &p->set;
    if (p->match->ours_only) {
        diags_add(p->diags, E_END_BARE, syn_word(p->syn, st, 0));
        return false;
    }
    if (s->pending)
        play_decide(p, s->points[OURS] > s->points[THEIRS] ? OURS : THEIRS, st->line);
    return !s->doubt;
}

void play_end(struct play *p, const struct stmt *st) {
    struct set_state *s = &p->set;
    if (!s->open && p->any_set && !p->lines_lost) {
        tell_outside(p, st);     /* a doubled `end` ends nothing */
        return;
    }
    if (!play_in_set(p, st))
        return;
    bool won = s->over;
    unsigned points[SIDE_N] = {s->points[OURS], s->points[THEIRS]};
    bool judged = st->as.score.said ? settle_score(p, st, true) : settle_bare(p, st);
    p->sets_unsure |= !judged && !won;
    if (!judged && won && st->as.score.said)
        take_score(p, points, st->line); /* the lines end a set; the `end` is the slip */
    if (judged && !s->over)
        diags_add(p->diags, E_END_EARLY, syn_word(p->syn, st, st->as.score.said ? 1 : 0),
                  s->points[OURS], s->points[THEIRS], s->goal, p->match->profile.lead);
    close_set(p, true);
}

void play_gap(struct play *p, const struct stmt *st) {
    enum side side = play_side(p, st, st->as.score.letter, 2);
    struct set_state *s = &p->set;
    if (!play_in_set(p, st) || side == SIDE_NONE)
        return;
    p->out->incomplete = true;
    play_close_turn(p);
    s->pending = false;
    s->any_serve = true;
    s->serving = s->turn_side = side;
    s->turn_server = s->turn_wrong = SHIRT_NONE;
    s->turn_open = true;
    s->turn_serves = 0;
    for (unsigned i = 0; i < SIDE_N; i++) {
        s->orders[i].lost = s->orders[i].started = true;
        s->run[i] = 0;
    }
    take_score(p, st->as.score.points, st->line);
}

void play_forfeit(struct play *p, const struct stmt *st) {
    enum side side = play_side(p, st, st->as.letter, 1);
    struct set_state *s = &p->set;
    if (!play_in_set(p, st) || side == SIDE_NONE)
        return;
    (void)play_undecided(p);
    unsigned least = s->points[side] + p->match->profile.lead;
    unsigned points[SIDE_N] = {s->points[OURS], s->points[THEIRS]};
    points[play_other(side)] = least > s->goal ? least : s->goal;
    bool known = s->known[side]; /* with only ours recorded the `end` tells the rest */
    take_score(p, points, st->line);
    s->known[OURS] = s->known[THEIRS] = known;
}
