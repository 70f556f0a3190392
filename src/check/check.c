/* Reads a match or practice to its end and checks each statement in turn. */
#include "check.h"

#include "check/play.h"
#include "notation.h"

struct str play_spelt(struct place p) {
    return str_part(p.text, p.at, p.n);
}

struct str play_name(const struct play *p, enum side side) {
    if ((unsigned)side >= p->match->team_n)
        return STR("the other team");
    return (struct str){&p->match->teams[side].letter, 1};
}

enum { ALSO_MAX = 6 };           /* lines that are named with the first */

bool play_told(struct play *p, struct told *told, enum diag_id id, const struct stmt *st) {
    struct diag *d = told->line ? diags_find(p->diags, id, told->line) : NULL;
    told->lines_n++;
    if (!d) {
        told->line = st->line;
        return false;
    }
    if (d->done.n && told->lines_n == ALSO_MAX + 2)
        d->done = str_printf(p->arena, "%.*s and more", STR_ARG(d->done));
    else if (d->done.n && told->lines_n < ALSO_MAX + 2)
        d->done = str_printf(p->arena, "%.*s, %u", STR_ARG(d->done), st->line);
    else if (!d->done.n)
        d->done = str_printf(p->arena, "told once: also in line %u", st->line);
    return true;
}

enum side play_side(struct play *p, const struct stmt *st, char letter, unsigned k) {
    enum side side = match_side(p->match, letter);
    if (side != SIDE_NONE || p->match->header_unread ||
        play_told(p, &p->letters_told[(letter - 'A') % 26], E_NO_TEAM, st))
        return side;
    struct diag *d = diags_add(p->diags, E_NO_TEAM, syn_word(p->syn, st, k), letter);
    uint8_t digits = st->kind == STMT_SERVE ? letter_as_digit(&st->as.serve) : SHIRT_NONE;
    if (d && digits != SHIRT_NONE)
        d->likely = play_with_server(p, d->place, OURS, digits);
    return side;
}

/* Of a practice, which has no sets, so many serves are handed on together. */
enum { ROWS_MOST = 64 };

static void serve(struct play *p, const struct stmt *st) {
    play_serve(p, st, false);
    if (p->match->practice && p->row_n == ROWS_MOST)
        play_hand_on(p);
    if (p->out->drill_n)
        p->out->drills[p->out->drill_n - 1].to = p->out->played_n;
}

/* A line with a fault. Its server still tells who won the rally before; what no
 * play depends on is no loss. Every other line may have been any line. */
static void unread(struct play *p, const struct stmt *st) {
    bool aside = st->opens == T_NOTE || st->opens == T_PLAN || st->opens == T_OBSERVE ||
                 st->opens == T_TIMEOUT;
    if (p->match->practice || aside)
        return;
    if (st->has_server && p->set.open) {
        play_serve(p, st, true);
        return;
    }
    p->lines_lost = true;
    p->set.doubt = true;
    if (st->opens == 0 || st->opens == T_WORD)
        p->same_side = SIDE_NONE; /* who served there, a `.` below does not tell */
}

static void observe(struct play *p, const struct stmt *st) {
    p->phases = st->as.phases;
    p->out->phases |= st->as.phases;
}

static void note(struct play *p, const struct stmt *st) {
    struct checked *out = p->out;
    if (p->serve_line == 0) {
        diags_add(p->diags, E_NOTE_ALONE, syn_word(p->syn, st, 0));
        return;
    }
    if (!(p->options & CHECK_KEEP))
        return;
    out->notes = arena_grow(p->arena, out->notes, out->note_n, &p->note_room, sizeof *out->notes);
    out->notes[out->note_n++] = (struct serve_note){st->as.text, st->line, p->serve_line};
}

static void plan(struct play *p, const struct stmt *st) {
    struct checked *out = p->out;
    out->plans = arena_grow(p->arena, out->plans, out->plan_n, &p->plan_room, sizeof *out->plans);
    out->plans[out->plan_n++] = (struct serve_plan){st->as.plan.by, st->as.plan.spot, st->line};
    p->plan = (uint32_t)out->plan_n;
    if (st->as.plan.by != SHIRT_NONE && p->match->team_n == SIDE_N)
        (void)people_shirt(p, st, THEIRS, st->as.plan.by, T_BY);
}

static void drill(struct play *p, const struct stmt *st) {
    struct checked *out = p->out;
    out->drills = arena_grow(p->arena, out->drills, out->drill_n, &p->drill_room,
                             sizeof *out->drills);
    out->drills[out->drill_n++] = (struct drill){.name = st->as.drill.name,
                                                 .aim = st->as.drill.aim,
                                                 .line = st->line,
                                                 .from = out->played_n,
                                                 .to = out->played_n};
}

/* Wide enough for any ring on a hall's floor: assumed. */
enum { RING_MIN_CM = 10, RING_MAX_CM = 500 };

static void ring(struct play *p, const struct stmt *st) {
    if (st->as.ring_cm < RING_MIN_CM || st->as.ring_cm > RING_MAX_CM)
        diags_add(p->diags, E_IMPOSSIBLE, syn_word(p->syn, st, 1), "a ring of",
                  str_printf(p->arena, "%d.%02d m", st->as.ring_cm / 100, st->as.ring_cm % 100).at);
    p->ring_cm = st->as.ring_cm;
}

static void add_tries(struct play *p, const struct stmt *st, struct tries t, char letter) {
    enum side side = play_side(p, st, letter, 1);
    if (side == SIDE_NONE || !people_shirt(p, st, side, t.shirt, 0))
        return;
    struct checked *out = p->out;
    out->tries = arena_grow(p->arena, out->tries, out->tries_n, &p->tries_room,
                            sizeof *out->tries);
    t.kind = st->kind;
    t.side = (uint8_t)side;
    t.line = st->line;
    t.drill = (uint32_t)out->drill_n;
    out->tries[out->tries_n++] = t;
}

static void toss(struct play *p, const struct stmt *st) {
    struct tries t = {.shirt = st->as.toss.shirt, .hits = st->as.toss.hits, .n = st->as.toss.n,
                      .ring_cm = p->ring_cm, .miss_n = st->as.toss.miss_n};
    for (unsigned i = 0; i < t.miss_n; i++) {
        t.misses[i].mark = st->as.toss.misses[i].mark;
        t.misses[i].n = st->as.toss.misses[i].n;
    }
    add_tries(p, st, t, st->as.toss.letter);
}

static void tries(struct play *p, const struct stmt *st) {
    if (st->kind == STMT_TRIES && p->out->drill_n == 0)
        diags_add(p->diags, E_DRILL_MISSING, syn_word(p->syn, st, 0));
    add_tries(p, st,
              (struct tries){.shirt = st->as.tries.shirt, .hits = st->as.tries.hits,
                             .n = st->as.tries.n},
              st->as.tries.letter);
}

enum where { ANYWHERE, IN_MATCH, IN_PRACTICE };

/* One call a kind of statement, and where it may stand. */
static const struct rule {
    void (*check)(struct play *p, const struct stmt *st);
    enum where where;
} rules[STMT_JUMPS + 1] = {
    [STMT_UNREAD] = {unread, ANYWHERE},      [STMT_SERVE] = {serve, ANYWHERE},
    [STMT_NOTE] = {note, ANYWHERE},          [STMT_OBSERVE] = {observe, ANYWHERE},
    [STMT_PLAN] = {plan, ANYWHERE},          [STMT_SET] = {play_set, IN_MATCH},
    [STMT_END] = {play_end, IN_MATCH},       [STMT_LINEUP] = {court_lineup, IN_MATCH},
    [STMT_SUB] = {court_sub, IN_MATCH},      [STMT_TIMEOUT] = {court_timeout, IN_MATCH},
    [STMT_SCORE] = {play_score, IN_MATCH},   [STMT_POINT] = {play_point, IN_MATCH},
    [STMT_CANCEL] = {play_cancel, IN_MATCH}, [STMT_GAP] = {play_gap, IN_MATCH},
    [STMT_TURN] = {play_turn, IN_MATCH},     [STMT_FORFEIT] = {play_forfeit, IN_MATCH},
    [STMT_DRILL] = {drill, IN_PRACTICE},     [STMT_RING] = {ring, IN_PRACTICE},
    [STMT_TOSS] = {toss, IN_PRACTICE},       [STMT_TRIES] = {tries, IN_PRACTICE},
    [STMT_JUMPS] = {tries, IN_PRACTICE},
};

static void apply(struct play *p, const struct stmt *st) {
    const struct rule *r = &rules[st->kind];
    if (!r->check)
        return;
    enum where here = p->match->practice ? IN_PRACTICE : IN_MATCH;
    if (p->match->unsure || p->theirs_told > 1)
        return;
    if (r->where != ANYWHERE && r->where != here) {
        struct place w = syn_word(p->syn, st, 0);
        diags_add(p->diags, here == IN_MATCH ? E_PRACTICE_ONLY : E_MATCH_ONLY, w,
                  STR_ARG(play_spelt(w)));
        return;
    }
    bool told = st->mended || st->kind == STMT_UNREAD;
    if (told) {
        struct diags before = *p->diags;
        r->check(p, st);
        diags_restore(p->diags, &before);
    } else {
        size_t before = p->diags->n;
        r->check(p, st);
        if (p->diags->n > before + 1)
            diags_keep_first(p->diags, before);
    }
}

static struct play *play_new(const struct text *t, struct squads *squads, struct arena *a,
                             struct diags *d) {
    struct play *p = arena_alloc(a, 1, sizeof *p);
    p->arena = a;
    p->diags = d;
    p->reading = match_open(t, squads, a, d);
    p->match = match_of(p->reading);
    p->syn = match_syntax(p->reading);
    p->out = arena_alloc(a, 1, sizeof *p->out);
    p->out->match = p->match;
    p->same_shirt = SHIRT_NONE;
    p->same_side = SIDE_NONE;
    p->award_ix = p->now_ix = NOT_KEPT;
    p->last_first = SIDE_NONE;
    return p;
}

static const struct checked *play_through(struct play *p) {
    const struct stmt *st = match_next(p->reading);
    if (p->chooser && p->chooser->keeps(p->chooser->of, p->match))
        p->options |= CHECK_KEEP;
    for (; st; st = match_next(p->reading))
        apply(p, st);
    play_finish(p);
    play_hand_on(p);
    measure_routines(p);
    p->out->lines = syn_lines(p->syn);
    p->out->unread = syn_unread(p->syn);
    p->out->incomplete |= p->out->unread > 0;
    return p->out;
}

const struct checked *check_text(const struct text *t, unsigned options, struct arena *a,
                                 struct diags *d) {
    return check_text_of(t, options, NULL, a, d);
}

const struct checked *check_text_of(const struct text *t, unsigned options,
                                    struct squads *squads, struct arena *a, struct diags *d) {
    struct play *p = play_new(t, squads, a, d);
    p->options = options;
    return play_through(p);
}

const struct checked *check_text_if(const struct check_chooser *chooser, const struct text *t,
                                    struct squads *squads, struct arena *a, struct diags *d) {
    struct play *p = play_new(t, squads, a, d);
    p->chooser = chooser;
    return play_through(p);
}

const struct checked *check_text_to(const struct check_taker *taker, const struct text *t,
                                    struct squads *squads, struct arena *a, struct diags *d) {
    struct play *p = play_new(t, squads, a, d);
    p->taker = taker;
    (void)play_through(p);
    p->out->played = NULL;       /* they were handed on */
    return p->out;
}
