/* Statements other than serves in words. The lines of teams, sets and drills begin
 * with the word that they are written with: git-setup has git look for it. */
#include "cmd/aloud.h"

static void team(struct aloud *a, char letter) {
    enum side side = match_side(a->match, letter);

    if (side < (enum side)a->match->team_n && a->match->teams[side].name.n)
        buf_add(a->out, a->match->teams[side].name);
    else
        buf_printf(a->out, "team %c", letter);
}

static void occasion(struct buf *b, const char *what, const struct stmt *st) {
    struct date d = st->as.occasion.date;

    buf_printf(b, "%s of %04d-%02d-%02d", what, d.year, d.month, d.day);
    if (st->as.occasion.timed)
        buf_printf(b, " %02u:%02u", st->as.occasion.minute / 60, st->as.occasion.minute % 60);
    if (st->as.occasion.title.n)
        buf_printf(b, ": %.*s", STR_ARG(st->as.occasion.title));
}

static void team_line(struct buf *b, const struct stmt *st) {
    buf_printf(b, "Team %c: %.*s", st->as.team.letter, STR_ARG(st->as.team.name));
    if (st->as.team.net)
        buf_printf(b, ", %s", st->as.team.net == 'w' ? "women" : "men");
}

static void player(struct buf *b, const struct stmt *st) {
    buf_printf(b, "Player %c%u: %.*s", st->as.player.letter, st->as.player.shirt,
               STR_ARG(st->as.player.name));
    aloud_routine(b, &st->as.player.routine);
    if (st->as.player.lefthanded)
        buf_printf(b, ", %s", word_info(W_lefthanded)->meaning);
}

static void people(struct aloud *a, char letter, const uint8_t *shirts, unsigned n) {
    for (unsigned i = 0; i < n; i++) {
        buf_add(a->out, i ? STR(", ") : STR(" "));
        aloud_person(a, letter, shirts[i]);
    }
}

static void observe(struct buf *b, unsigned phases) {
    static const char *const names[] = {"toss", "approach", "jump", "hit", "nerve"};
    const char *between = " ";

    buf_add(b, STR("Observed:"));
    if (phases == PHASE_ALL || phases == 0) {
        buf_printf(b, " %s", phases ? "every phase" : "no phase");
        return;
    }
    for (unsigned i = 0; i < sizeof names / sizeof *names; i++)
        if (phases & 1u << i) {
            buf_printf(b, "%s%s", between, names[i]);
            between = ", ";
        }
}

static void focus(struct aloud *a, const struct stmt *st) {
    buf_add(a->out, STR("Focus of "));
    aloud_person(a, st->as.focus.letter, st->as.focus.shirt);
    buf_printf(a->out, ": %s; drill \"%.*s\"", word_info(st->as.focus.treats)->meaning,
               STR_ARG(st->as.focus.drill));
    if (st->as.focus.tries)
        buf_printf(a->out, "; goal %u of %u", st->as.focus.hits, st->as.focus.tries);
}

static void plan(struct buf *b, const struct stmt *st) {
    buf_add(b, STR("Plan: serve at "));
    if (st->as.plan.by != SHIRT_NONE)
        buf_printf(b, "their %u", st->as.plan.by);
    else
        aloud_spot(b, st->as.plan.spot);
}

static void set(struct aloud *a, const struct stmt *st) {
    buf_printf(a->out, "Set %u", st->as.set.number);
    if (!st->as.set.letter)
        return;
    buf_add(a->out, STR(": first serve by "));
    team(a, st->as.set.letter);
}

static void score(struct aloud *a, const char *what, const struct stmt *st) {
    buf_add(a->out, str_of(what));
    if (st->as.score.said)
        buf_printf(a->out, " %u-%u", st->as.score.points[0], st->as.score.points[1]);
    if (!st->as.score.letter)
        return;
    buf_add(a->out, STR(", next serve by "));
    team(a, st->as.score.letter);
}

static void sub(struct aloud *a, const struct stmt *st) {
    buf_add(a->out, STR("In comes "));
    aloud_person(a, st->as.sub.letter, st->as.sub.in);
    buf_add(a->out, STR(" for "));
    aloud_person(a, st->as.sub.letter, st->as.sub.out);
    if (st->as.sub.extra)
        buf_printf(a->out, ", %s", word_info(W_extra)->meaning);
}

static void of_team(struct aloud *a, const char *what, char letter) {
    buf_add(a->out, str_of(what));
    team(a, letter);
}

static void points(struct aloud *a, const struct stmt *st, const char *what) {
    buf_printf(a->out, "%u point%s %s ", st->as.points.n, st->as.points.n == 1 ? "" : "s", what);
    team(a, st->as.points.letter);
}

static void drill(struct buf *b, const struct stmt *st) {
    buf_printf(b, "Drill \"%.*s\"", STR_ARG(st->as.drill.name));
    if (!st->as.drill.aim.kind)
        return;
    buf_add(b, STR(", aimed at "));
    aloud_spot(b, st->as.drill.aim);
}

static void of_person(struct aloud *a, const char *what, char letter, unsigned shirt) {
    buf_add(a->out, str_of(what));
    aloud_person(a, letter, shirt);
}

static void toss(struct aloud *a, const struct stmt *st) {
    of_person(a, "Tosses of ", st->as.toss.letter, st->as.toss.shirt);
    buf_printf(a->out, ": %u of %u in the ring", st->as.toss.hits, st->as.toss.n);
    for (unsigned i = 0; i < st->as.toss.miss_n; i++) {
        buf_printf(a->out, "; %u with ", st->as.toss.misses[i].n);
        aloud_meaning(a->out, WORD_MARK, st->as.toss.misses[i].mark);
    }
}

static void text(struct buf *b, const char *what, struct str said) {
    buf_printf(b, "%s%.*s", what, STR_ARG(said));
}

static void length(struct buf *b, const char *what, int cm, const char *behind) {
    buf_add(b, str_of(what));
    aloud_decimal(b, cm);
    buf_add(b, str_of(behind));
}

static void libero(struct aloud *a, const struct stmt *st) {
    buf_add(a->out, STR("Libero:"));
    people(a, st->as.libero.letter, st->as.libero.shirts, st->as.libero.n);
}

static void rule(struct buf *b, const struct stmt *st) {
    buf_printf(b, "Own rule: %.*s %.*s", STR_ARG(st->as.rule.name), STR_ARG(st->as.rule.word));
}

static void record(struct buf *b, const struct stmt *st) {
    buf_printf(b, "Recorded: %s", word_info(st->as.ours_only ? W_ours : W_both)->meaning);
}

static void short_word(struct buf *b, const struct stmt *st) {
    buf_printf(b, "Shorthand: %.*s for%.*s", STR_ARG(st->as.short_word->word),
               STR_ARG(st->as.short_word->fields));
}

static void lineup(struct aloud *a, const struct stmt *st) {
    of_team(a, "Line-up of ", st->as.lineup.letter);
    buf_add(a->out, STR(", zones 1 to 6:"));
    people(a, st->as.lineup.letter, st->as.lineup.shirts, 6);
}

static void point(struct aloud *a, const struct stmt *st) {
    of_team(a, "A point without a serve for ", st->as.point.letter);
    if (st->as.point.why.n)
        text(a->out, ": ", st->as.point.why);
}

static void forfeit(struct aloud *a, const struct stmt *st) {
    team(a, st->as.letter);
    buf_add(a->out, STR(" cannot go on"));
}

static void tries(struct aloud *a, const struct stmt *st) {
    of_person(a, "Tries of ", st->as.tries.letter, st->as.tries.shirt);
    buf_printf(a->out, ": %u of %u", st->as.tries.hits, st->as.tries.n);
}

static void jumps(struct aloud *a, const struct stmt *st) {
    of_person(a, "Jump serves of ", st->as.tries.letter, st->as.tries.shirt);
    buf_printf(a->out, " not written one by one: %u", st->as.tries.n);
}

void aloud_statement(struct aloud *a, const struct stmt *st) {
    struct buf *b = a->out;

    switch (st->kind) {
    case STMT_NONE:
    case STMT_UNREAD: break;
    case STMT_SERVE: aloud_serve(a, &st->as.serve); break;
    case STMT_NOTATION: buf_printf(b, "Notation %u", st->as.version); break;
    case STMT_MATCH: occasion(b, "Match", st); break;
    case STMT_PRACTICE: occasion(b, "Practice", st); break;
    case STMT_VENUE: text(b, "Venue: ", st->as.text); break;
    case STMT_SCORER: text(b, "Scorer: ", st->as.text); break;
    case STMT_NOTE: text(b, "Note: ", st->as.text); break;
    case STMT_SQUAD: text(b, "People and rules from ", st->as.text); break;
    case STMT_TEAM: team_line(b, st); break;
    case STMT_PLAYER: player(b, st); break;
    case STMT_LIBERO: libero(a, st); break;
    case STMT_RULES: text(b, "Rules: ", st->as.rule.name); break;
    case STMT_RULE: rule(b, st); break;
    case STMT_NETHEIGHT: length(b, "Net: ", st->as.net_cm, " m"); break;
    case STMT_RECORD: record(b, st); break;
    case STMT_OBSERVE: observe(b, st->as.phases); break;
    case STMT_SHORT: short_word(b, st); break;
    case STMT_FOCUS: focus(a, st); break;
    case STMT_PLAN: plan(b, st); break;
    case STMT_SET: set(a, st); break;
    case STMT_END: score(a, "End of the set", st); break;
    case STMT_LINEUP: lineup(a, st); break;
    case STMT_SUB: sub(a, st); break;
    case STMT_TIMEOUT: of_team(a, "Time-out of ", st->as.letter); break;
    case STMT_SCORE: score(a, "Score", st); break;
    case STMT_POINT: point(a, st); break;
    case STMT_CANCEL: points(a, st, "taken back from"); break;
    case STMT_GAP: score(a, "Lines are missing here; score", st); break;
    case STMT_TURN: points(a, st, "in an unwritten turn of"); break;
    case STMT_FORFEIT: forfeit(a, st); break;
    case STMT_DRILL: drill(b, st); break;
    case STMT_RING: length(b, "Ring: ", st->as.ring_cm, " m wide"); break;
    case STMT_TOSS: toss(a, st); break;
    case STMT_TRIES: tries(a, st); break;
    case STMT_JUMPS: jumps(a, st); break;
    }
}
