/* Statements in their one canonical spelling. */
#include "syntax/build.h"

#include <stdlib.h>

static void word(struct buf *b, enum word_class class, unsigned value) {
    for (int id = 0; id < W_N; id++) {
        const struct word_info *w = word_info((enum word_id)id);
        if (w->class == class && w->value == value) {
            buf_char(b, ' ');
            buf_add(b, w->word);
            return;
        }
    }
}

/* Hundredths with one decimal at least, two if they are needed. */
static void decimal(struct buf *b, int hundredths) {
    int whole = abs(hundredths) / 100, part = abs(hundredths) % 100;
    if (hundredths < 0)
        buf_char(b, '-');
    if (part % 10)
        buf_printf(b, "%d.%02d", whole, part);
    else
        buf_printf(b, "%d.%d", whole, part / 10);
}

static void signed_decimal(struct buf *b, int hundredths) {
    if (hundredths >= 0)
        buf_char(b, '+');
    decimal(b, hundredths);
}

static void quoted(struct buf *b, struct str s) {
    buf_add(b, STR(" \""));
    for (size_t i = 0; i < s.n; i++) {
        if (s.at[i] == '"' || s.at[i] == '\\')
            buf_char(b, '\\');
        buf_char(b, s.at[i]);
    }
    buf_char(b, '"');
}

void syn_print_spot(struct buf *b, struct spot p) {
    switch (p.kind) {
    case PLACE_ZONE: buf_printf(b, "%u", p.zone); break;
    case PLACE_SEAM: buf_printf(b, "%u-%u", p.zone, p.seam); break;
    case PLACE_DEEP: buf_printf(b, "d%u", p.zone); break;
    case PLACE_DEEP_SEAM: buf_printf(b, "d%u-%u", p.zone, p.seam); break;
    case PLACE_XD:
        decimal(b, p.x_cm);
        buf_char(b, ',');
        decimal(b, p.d_cm);
        break;
    }
}

static void team_letter(struct buf *b, char letter) {
    buf_char(b, ' ');
    buf_char(b, letter);
}

static void server(struct buf *b, const struct serve *v, char ours) {
    bool left_out = v->letter == ours && v->form == SERVER_SHIRT;
    if (v->form == SERVER_SAME)
        buf_char(b, '.');
    if (v->letter && !left_out)
        buf_char(b, v->letter);
    if (v->form == SERVER_SHIRT)
        buf_printf(b, "%u", v->shirt);
}

static void start(struct buf *b, const struct serve *v) {
    bool back = v->has & ((uint32_t)HAS_MEASURE << MEASURE_PACES);
    if (v->has & HAS_START_P) {
        buf_add(b, STR(" p"));
        decimal(b, v->start_p_cm);
    } else if (v->third != THIRD_NONE) {
        buf_char(b, ' ');
        buf_char(b, "?rml"[v->third]);
        if (v->has & HAS_PACES && !back)
            buf_printf(b, "%u", v->paces);
    } else {
        return;
    }
    if (v->has & HAS_STEPS)
        buf_printf(b, "/%u", v->steps);
}

static void measures(struct buf *b, const struct serve *v) {
    static const char *const prefixes[MEASURE_N] = {"back", "t", "j", "c", "h", "v", "f", "w"};
    for (unsigned m = 0; m < MEASURE_N; m++) {
        if (!(v->has & ((uint32_t)HAS_MEASURE << m)))
            continue;
        buf_printf(b, " %s", prefixes[m]);
        if (m == MEASURE_PACES || (m == MEASURE_SPEED_KMH && v->measure[m] % 100 == 0))
            buf_printf(b, "%d", v->measure[m] / 100);
        else if (m == MEASURE_TAKEOFF_M || m == MEASURE_CONTACT_M)
            signed_decimal(b, v->measure[m]);
        else
            decimal(b, v->measure[m]);
    }
}

static void routine(struct buf *b, const struct serve *v) {
    if (v->type != TYPE_NONE)
        word(b, WORD_TYPE, v->type);
    start(b, v);
}

static void before_outcome(struct buf *b, const struct serve *v) {
    routine(b, v);
    if (v->aim.kind) {
        buf_add(b, STR(" a"));
        syn_print_spot(b, v->aim);
    }
    if (v->intent != INTENT_NONE)
        word(b, WORD_INTENT, v->intent);
    measures(b, v);
    for (unsigned m = 0; m < MARK_N; m++)
        if (v->marks & (1u << m))
            word(b, WORD_MARK, m);
}

static void video_time(struct buf *b, uint32_t time_s) {
    unsigned h = time_s / 3600, m = time_s / 60 % 60, s = time_s % 60;
    if (h)
        buf_printf(b, " %u:%02u:%02u", h, m, s);
    else
        buf_printf(b, " %u:%02u", m, s);
}

static void after_outcome(struct buf *b, const struct serve *v) {
    if (v->has & HAS_MARGIN)
        signed_decimal(b, v->margin_cm);
    if (v->going)
        buf_add(b, STR(" going"));
    if (v->overlap && v->outcome != OUTCOME_OVERLAP)
        buf_add(b, STR(" overlap"));
    if (v->landing.kind) {
        buf_char(b, ' ');
        syn_print_spot(b, v->landing);
    }
    if (v->by != SHIRT_NONE)
        buf_printf(b, " by%u", v->by);
    if (v->rally == RALLY_WON || v->rally == RALLY_LOST)
        buf_add(b, v->rally == RALLY_WON ? STR(" won") : STR(" lost"));
    if (v->has & HAS_TIME)
        video_time(b, v->time_s);
    if (v->has & HAS_REPEAT && v->repeat > 1)
        buf_printf(b, " x%u", v->repeat);
    if (v->review)
        buf_add(b, STR(" ?"));
}

static void serve(struct buf *b, const struct serve *v, char ours) {
    server(b, v, ours);
    before_outcome(b, v);
    if (v->outcome == OUTCOME_OVERLAP)
        buf_add(b, STR(" overlap"));
    else
        word(b, WORD_OUTCOME, v->outcome);
    after_outcome(b, v);
}

static void occasion(struct buf *b, const struct stmt *st) {
    struct date d = st->as.occasion.date;
    buf_printf(b, " %04d-%02d-%02d", d.year, d.month, d.day);
    if (st->as.occasion.timed)
        buf_printf(b, " %02u:%02u", st->as.occasion.minute / 60, st->as.occasion.minute % 60);
    if (st->as.occasion.title.n)
        quoted(b, st->as.occasion.title);
}

static void player(struct buf *b, const struct stmt *st) {
    buf_printf(b, " %c%u", st->as.player.letter, st->as.player.shirt);
    quoted(b, st->as.player.name);
    routine(b, &st->as.player.routine);
    measures(b, &st->as.player.routine);
    if (st->as.player.lefthanded)
        buf_add(b, STR(" lefthanded"));
}

static void phases(struct buf *b, unsigned set) {
    if (set == PHASE_ALL || set == 0) {
        word(b, WORD_PHASE, set);
        return;
    }
    for (unsigned phase = 1; phase <= PHASE_NERVE; phase <<= 1)
        if (set & phase)
            word(b, WORD_PHASE, phase);
}

static void who(struct buf *b, char letter, unsigned shirt, char ours) {
    buf_char(b, ' ');
    if (letter && letter != ours)
        buf_char(b, letter);
    buf_printf(b, "%u", shirt);
}

static void toss(struct buf *b, const struct stmt *st, char ours) {
    who(b, st->as.toss.letter, st->as.toss.shirt, ours);
    buf_printf(b, " %u/%u", st->as.toss.hits, st->as.toss.n);
    for (unsigned i = 0; i < st->as.toss.miss_n; i++) {
        word(b, WORD_MARK, st->as.toss.misses[i].mark);
        buf_printf(b, "%u", st->as.toss.misses[i].n);
    }
}

static void plan(struct buf *b, const struct stmt *st) {
    if (st->as.plan.by != SHIRT_NONE) {
        buf_printf(b, " by%u", st->as.plan.by);
        return;
    }
    buf_char(b, ' ');
    syn_print_spot(b, st->as.plan.spot);
}

static void focus(struct buf *b, const struct stmt *st, char ours) {
    who(b, st->as.focus.letter, st->as.focus.shirt, ours);
    buf_char(b, ' ');
    buf_add(b, word_info(st->as.focus.treats)->word);
    quoted(b, st->as.focus.drill);
    if (st->as.focus.tries)
        buf_printf(b, " %u/%u", st->as.focus.hits, st->as.focus.tries);
}

/* The kinds of statement and the words that open them stand in one order. */
static struct str keyword(enum stmt_kind kind) {
    _Static_assert((int)STMT_JUMPS - (int)STMT_NOTATION == (int)W_jumps - (int)W_notation,
                   "statements are listed alike in enum stmt_kind and words.def");
    return word_info((enum word_id)(W_notation + (kind - STMT_NOTATION)))->word;
}

static void team(struct buf *b, const struct stmt *st) {
    team_letter(b, st->as.team.letter);
    quoted(b, st->as.team.name);
    if (st->as.team.net)
        word(b, WORD_ARGUMENT, (unsigned)st->as.team.net);
}

static void shirts(struct buf *b, char letter, const uint8_t *shirts, unsigned n) {
    team_letter(b, letter);
    for (unsigned i = 0; i < n; i++)
        buf_printf(b, " %u", shirts[i]);
}

static void rule(struct buf *b, const struct stmt *st) {
    buf_printf(b, " %.*s %.*s", STR_ARG(st->as.rule.name), STR_ARG(st->as.rule.word));
}

static void length(struct buf *b, int cm) {
    buf_char(b, ' ');
    decimal(b, cm);
}

static void short_word(struct buf *b, const struct stmt *st) {
    buf_printf(b, " %.*s =%.*s", STR_ARG(st->as.short_word->word),
               STR_ARG(st->as.short_word->fields));
}

static void set(struct buf *b, const struct stmt *st) {
    buf_printf(b, " %u", st->as.set.number);
    if (st->as.set.letter)
        team_letter(b, st->as.set.letter);
}

static void score(struct buf *b, const struct stmt *st) {
    if (st->as.score.said)
        buf_printf(b, " %u-%u", st->as.score.points[0], st->as.score.points[1]);
    if (st->as.score.letter)
        team_letter(b, st->as.score.letter);
}

static void sub(struct buf *b, const struct stmt *st) {
    team_letter(b, st->as.sub.letter);
    buf_printf(b, " %u for %u%s", st->as.sub.in, st->as.sub.out, st->as.sub.extra ? " extra" : "");
}

static void point(struct buf *b, const struct stmt *st) {
    team_letter(b, st->as.point.letter);
    if (st->as.point.why.at)
        quoted(b, st->as.point.why);
}

static void points(struct buf *b, const struct stmt *st) {
    team_letter(b, st->as.points.letter);
    buf_printf(b, " %u", st->as.points.n);
}

static void drill(struct buf *b, const struct stmt *st) {
    quoted(b, st->as.drill.name);
    if (!st->as.drill.aim.kind)
        return;
    buf_add(b, STR(" a"));
    syn_print_spot(b, st->as.drill.aim);
}

static void tries(struct buf *b, const struct stmt *st, char ours) {
    who(b, st->as.tries.letter, st->as.tries.shirt, ours);
    buf_printf(b, " %u/%u", st->as.tries.hits, st->as.tries.n);
}

static void jumps(struct buf *b, const struct stmt *st, char ours) {
    who(b, st->as.tries.letter, st->as.tries.shirt, ours);
    buf_printf(b, " %u", st->as.tries.n);
}

/* What stands behind the statement's word. */
static void arguments(struct buf *b, const struct stmt *st, char ours) {
    switch (st->kind) {
    case STMT_NONE:
    case STMT_UNREAD:
    case STMT_SERVE: break;
    case STMT_NOTATION: buf_printf(b, " %u", st->as.version); break;
    case STMT_MATCH:
    case STMT_PRACTICE: occasion(b, st); break;
    case STMT_VENUE:
    case STMT_SCORER:
    case STMT_NOTE:
    case STMT_SQUAD: quoted(b, st->as.text); break;
    case STMT_TEAM: team(b, st); break;
    case STMT_PLAYER: player(b, st); break;
    case STMT_LIBERO:
        shirts(b, st->as.libero.letter, st->as.libero.shirts, st->as.libero.n);
        break;
    case STMT_RULES: buf_printf(b, " %.*s", STR_ARG(st->as.rule.name)); break;
    case STMT_RULE: rule(b, st); break;
    case STMT_NETHEIGHT: length(b, st->as.net_cm); break;
    case STMT_RECORD: buf_add(b, st->as.ours_only ? STR(" ours") : STR(" both")); break;
    case STMT_OBSERVE: phases(b, st->as.phases); break;
    case STMT_SHORT: short_word(b, st); break;
    case STMT_FOCUS: focus(b, st, ours); break;
    case STMT_PLAN: plan(b, st); break;
    case STMT_SET: set(b, st); break;
    case STMT_END:
    case STMT_SCORE:
    case STMT_GAP: score(b, st); break;
    case STMT_LINEUP: shirts(b, st->as.lineup.letter, st->as.lineup.shirts, 6); break;
    case STMT_SUB: sub(b, st); break;
    case STMT_TIMEOUT:
    case STMT_FORFEIT: team_letter(b, st->as.letter); break;
    case STMT_POINT: point(b, st); break;
    case STMT_CANCEL:
    case STMT_TURN: points(b, st); break;
    case STMT_DRILL: drill(b, st); break;
    case STMT_RING: length(b, st->as.ring_cm); break;
    case STMT_TOSS: toss(b, st, ours); break;
    case STMT_TRIES: tries(b, st, ours); break;
    case STMT_JUMPS: jumps(b, st, ours); break;
    }
}

void syn_print(struct buf *b, const struct stmt *st, char ours) {
    if (st->kind == STMT_SERVE)
        serve(b, &st->as.serve, ours);
    else if (st->kind == STMT_SCORE)
        buf_printf(b, "%u-%u", st->as.score.points[0], st->as.score.points[1]);
    else if (st->kind >= STMT_NOTATION) {
        buf_add(b, keyword(st->kind));
        arguments(b, st, ours);
    }
}
