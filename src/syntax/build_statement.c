/* The actions of the grammar for everything that is no serve. */
#include <string.h>

#include "syntax/build.h"
#include "syntax/fault.h"

static uint8_t shirt(struct syn *s, struct token t) {
    if (t.a > SHIRT_MAX)
        FAULT(s, E_SHIRT_RANGE, t, t.a);
    return (uint8_t)t.a;
}

void build_kind(struct syn *s, enum stmt_kind kind) {
    s->stmt.kind = kind;
}

void build_notation(struct syn *s, struct token t) {
    s->stmt.kind = STMT_NOTATION;
    s->stmt.as.version = (unsigned)t.a;
}

static int month_days(int year, int month) {
    static const unsigned char days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return days[month - 1] + (month == 2 && leap ? 1 : 0);
}

void build_date(struct syn *s, struct token t) {
    s->stmt.as.occasion.timed = false;
    s->stmt.as.occasion.title = STR_NONE;
    struct date d = {t.value, t.a, t.b};
    if (d.month < 1 || d.month > 12 || d.day < 1 || d.day > month_days(d.year, d.month))
        FAULT(s, E_DATE_NONE, t, STR_ARG(build_spelt(s, t)));
    s->stmt.as.occasion.date = d;
}

void build_day_time(struct syn *s, struct token t) {
    if (t.value || t.a > 23 || t.b > 59)
        FAULT(s, E_TIME_NONE, t, STR_ARG(build_spelt(s, t)), "a day ends at 23:59");
    s->stmt.as.occasion.timed = true;
    s->stmt.as.occasion.minute = (unsigned)(t.a * 60 + t.b);
}

void build_title(struct syn *s, struct token t) {
    s->stmt.as.occasion.title = build_name(s, t);
}

void build_text(struct syn *s, enum stmt_kind kind, struct token t) {
    s->stmt.kind = kind;
    s->stmt.as.text = kind == STMT_VENUE ? build_name(s, t) : build_unquote(s, t);
}

void build_team(struct syn *s, struct token letter, struct token name) {
    s->stmt.kind = STMT_TEAM;
    s->stmt.as.team.letter = (char)letter.a;
    s->stmt.as.team.net = 0;
    s->stmt.as.team.name = build_name(s, name);
}

void build_net(struct syn *s, struct token t) {
    s->stmt.as.team.net = (char)word_info(t.value)->value;
}

void build_player(struct syn *s, struct token person, struct token name) {
    s->stmt.kind = STMT_PLAYER;
    memset(&s->stmt.as.player, 0, sizeof s->stmt.as.player);
    s->stmt.as.player.routine.by = SHIRT_NONE;
    s->stmt.as.player.letter = (char)person.a;
    s->stmt.as.player.shirt = (uint8_t)person.b;
    s->stmt.as.player.name = build_name(s, name);
}

void build_lefthanded(struct syn *s, struct token t) {
    if (s->stmt.as.player.lefthanded)
        FAULT(s, E_TWICE, t, "the hand");
    s->stmt.as.player.lefthanded = true;
}

void build_libero(struct syn *s, struct token letter, struct token number) {
    s->stmt.kind = STMT_LIBERO;
    s->stmt.as.libero.letter = (char)letter.a;
    s->stmt.as.libero.shirts[0] = shirt(s, number);
    s->stmt.as.libero.n = 1;
}

void build_second(struct syn *s, struct token number) {
    s->stmt.as.libero.shirts[1] = shirt(s, number);
    s->stmt.as.libero.n = 2;
}

void build_rules(struct syn *s, struct token name) {
    s->stmt.kind = STMT_RULES;
    s->stmt.as.rule.name = build_spelt(s, name);
}

/* A value is a number, or a word such as yes. */
void build_rule(struct syn *s, struct token name, struct token value) {
    s->stmt.kind = STMT_RULE;
    s->stmt.as.rule.name = build_spelt(s, name);
    s->stmt.as.rule.word = build_spelt(s, value);
    s->stmt.as.rule.number = s->codes[2] == T_NUMBER;
    s->stmt.as.rule.value = s->stmt.as.rule.number ? value.a : 0;
}

void build_netheight(struct syn *s, struct token t) {
    s->stmt.kind = STMT_NETHEIGHT;
    s->stmt.as.net_cm = t.a;
}

void build_record(struct syn *s, struct token t) {
    s->stmt.kind = STMT_RECORD;
    s->stmt.as.ours_only = word_info(t.value)->value == 1;
}

void build_observe(struct syn *s, struct token t) {
    s->stmt.kind = STMT_OBSERVE;
    s->stmt.as.phases = word_info(t.value)->value;
}

void build_phase(struct syn *s, struct token t) {
    unsigned phase = word_info(t.value)->value;
    if (!phase || !s->stmt.as.phases)
        FAULT(s, E_PHASE_NONE, t, STR_ARG(build_spelt(s, t)));
    else if ((s->stmt.as.phases & phase) == phase)
        FAULT(s, E_TWICE, t, "this phase");
    s->stmt.as.phases |= phase;
}

void build_short(struct syn *s, struct token name) {
    struct str word = build_spelt(s, name);
    const struct word_info *known = word_find(word, ~WORD_CLASS(WORD_SHAPE));
    struct token shape;
    if (known)
        FAULT(s, E_SHORT_SHADOWS, name, STR_ARG(word));
    else if (tok_field(s->arena, word, &shape) != T_WORD)
        FAULT(s, E_SHORT_SHADOWS, name, STR_ARG(word));
    for (const struct short_word *other = s->shorts; other; other = other->next)
        if (str_same(other->word, word)) {
            struct diag *d = FAULT(s, E_SHORT_TWICE, name, STR_ARG(word));
            if (d)
                diag_see(d, other->place, STR("its first meaning"));
        }
    if (++s->short_n > SHORTS_MAX)
        FAULT(s, E_SHORT_MANY, name, SHORTS_MAX);
    struct short_word *made = arena_alloc(s->arena, 1, sizeof *made);
    made->word = word;
    made->place = build_place(s, name);
    s->short_open = made;
    s->short_room = 0;
    s->stmt.kind = STMT_SHORT;
    s->stmt.as.short_word = made;
}

/* The field's terminal is that of the token just shifted: the line's last but
 * for the one that the parser looks at. */
void build_short_field(struct syn *s, struct token t) {
    struct short_word *w = s->short_open;
    if (w->n == SHORT_FIELDS_MAX)
        FAULT(s, E_LEFT_OVER, t, STR_ARG(build_spelt(s, t)));
    if (s->bad)
        return;
    unsigned ix = s->token_n;
    while (ix > 0 && s->tokens[ix - 1].at != t.at)
        ix--;
    size_t room = s->short_room;
    w->codes = arena_grow(s->arena, w->codes, w->n, &s->short_room, 1);
    w->tokens = arena_grow(s->arena, w->tokens, w->n, &room, sizeof *w->tokens);
    w->codes[w->n] = ix ? s->codes[ix - 1] : 0;
    w->tokens[w->n++] = t;
    w->fields = str_printf(s->arena, "%.*s %.*s", STR_ARG(w->fields), STR_ARG(build_spelt(s, t)));
}

/* `toss`, `tries`, `jumps` and `focus` name a player first; the rule behind
 * puts letter and shirt where its statement has them. */
void build_who(struct syn *s, struct token t) {
    bool person = s->codes[1] == T_PERSON;
    s->who_letter = (char)(person ? t.a : 0);
    s->who_shirt = person ? (uint8_t)t.b : shirt(s, t);
}

void build_focus(struct syn *s, struct token treats, struct token drill) {
    s->stmt.kind = STMT_FOCUS;
    memset(&s->stmt.as.focus, 0, sizeof s->stmt.as.focus);
    s->stmt.as.focus.letter = s->who_letter;
    s->stmt.as.focus.shirt = s->who_shirt;
    s->stmt.as.focus.treats = (enum word_id)treats.value;
    s->stmt.as.focus.drill = build_name(s, drill);
}

static bool of(struct syn *s, struct token ratio) {
    if (ratio.b == 0 || ratio.a > ratio.b)
        FAULT(s, E_HITS_OF, ratio, ratio.a, ratio.b);
    return !s->bad;
}

void build_goal(struct syn *s, struct token t) {
    if (!of(s, t))
        return;
    s->stmt.as.focus.hits = (unsigned)t.a;
    s->stmt.as.focus.tries = (unsigned)t.b;
}

void build_plan_by(struct syn *s, struct token t) {
    s->stmt.kind = STMT_PLAN;
    s->stmt.as.plan.by = (uint8_t)t.a;
    s->stmt.as.plan.spot = (struct spot){0};
}

void build_set(struct syn *s, struct token number) {
    s->stmt.kind = STMT_SET;
    s->stmt.as.set.number = (unsigned)number.a;
    s->stmt.as.set.letter = 0;
}

void build_set_first(struct syn *s, struct token letter) {
    s->stmt.as.set.letter = (char)letter.a;
}

void build_end(struct syn *s) {
    s->stmt.kind = STMT_END;
    s->stmt.as.score.said = false;
    s->stmt.as.score.letter = 0;
}

void build_score(struct syn *s, enum stmt_kind kind, struct token pair) {
    s->stmt.kind = kind;
    s->stmt.as.score.said = true;
    s->stmt.as.score.points[0] = (unsigned)pair.a;
    s->stmt.as.score.points[1] = (unsigned)pair.b;
    s->stmt.as.score.letter = 0;
}

void build_gap(struct syn *s, struct token pair, struct token letter) {
    build_score(s, STMT_GAP, pair);
    s->stmt.as.score.letter = (char)letter.a;
}

void build_lineup(struct syn *s, struct token letter, const struct token shirts[6]) {
    s->stmt.kind = STMT_LINEUP;
    s->stmt.as.lineup.letter = (char)letter.a;
    for (unsigned i = 0; i < 6; i++) {
        s->stmt.as.lineup.shirts[i] = shirt(s, shirts[i]);
        for (unsigned j = 0; j < i; j++)
            if (shirts[i].a == shirts[j].a)
                FAULT(s, E_LINEUP_TWICE, shirts[i], shirts[i].a);
    }
}

void build_sub(struct syn *s, struct token letter, struct token in, struct token out) {
    s->stmt.kind = STMT_SUB;
    s->stmt.as.sub.letter = (char)letter.a;
    s->stmt.as.sub.in = shirt(s, in);
    s->stmt.as.sub.out = shirt(s, out);
    s->stmt.as.sub.extra = false;
    if (in.a == out.a)
        FAULT(s, E_SUB_SAME, out, out.a);
}

void build_extra(struct syn *s) {
    s->stmt.as.sub.extra = true;
}

void build_letter(struct syn *s, enum stmt_kind kind, struct token letter) {
    s->stmt.kind = kind;
    s->stmt.as.letter = (char)letter.a;
}

void build_point(struct syn *s, struct token letter) {
    s->stmt.kind = STMT_POINT;
    s->stmt.as.point.letter = (char)letter.a;
    s->stmt.as.point.why = STR_NONE;
}

void build_why(struct syn *s, struct token t) {
    s->stmt.as.point.why = build_unquote(s, t);
}

void build_points(struct syn *s, enum stmt_kind kind, struct token letter, struct token n) {
    s->stmt.kind = kind;
    s->stmt.as.points.letter = (char)letter.a;
    s->stmt.as.points.n = (unsigned)n.a;
}

void build_drill(struct syn *s, struct token name) {
    s->stmt.kind = STMT_DRILL;
    s->stmt.as.drill.name = build_name(s, name);
    s->stmt.as.drill.aim = (struct spot){0};
}

void build_ring(struct syn *s, struct token t) {
    s->stmt.kind = STMT_RING;
    s->stmt.as.ring_cm = t.a;
}

void build_toss(struct syn *s, struct token ratio) {
    s->stmt.kind = STMT_TOSS;
    memset(&s->stmt.as.toss, 0, sizeof s->stmt.as.toss);
    s->stmt.as.toss.letter = s->who_letter;
    s->stmt.as.toss.shirt = s->who_shirt;
    if (!of(s, ratio))
        return;
    s->stmt.as.toss.hits = (unsigned)ratio.a;
    s->stmt.as.toss.n = (unsigned)ratio.b;
}

void build_toss_miss(struct syn *s, struct token t) {
    enum mark m = (enum mark)word_info(t.value)->value;
    unsigned missed = (unsigned)t.a;
    for (unsigned i = 0; i < s->stmt.as.toss.miss_n; i++) {
        missed += s->stmt.as.toss.misses[i].n;
        if (s->stmt.as.toss.misses[i].mark == m)
            FAULT(s, E_TWICE, t, "this mark");
    }
    if (mark_phase(m) != PHASE_TOSS)
        FAULT(s, E_TOSS_MARK, t, STR_ARG(str_part(s->text->bytes, t.at, 2)));
    else if (missed > s->stmt.as.toss.n - s->stmt.as.toss.hits)
        FAULT(s, E_TOSS_MISSES, t, missed, s->stmt.as.toss.n - s->stmt.as.toss.hits);
    if (s->bad || s->stmt.as.toss.miss_n == TOSS_MISSES_MAX)
        return;
    s->stmt.as.toss.misses[s->stmt.as.toss.miss_n].mark = (uint8_t)m;
    s->stmt.as.toss.misses[s->stmt.as.toss.miss_n++].n = (uint8_t)t.a;
}

void build_tries(struct syn *s, struct token ratio) {
    s->stmt.kind = STMT_TRIES;
    s->stmt.as.tries.letter = s->who_letter;
    s->stmt.as.tries.shirt = s->who_shirt;
    if (!of(s, ratio))
        return;
    s->stmt.as.tries.hits = (unsigned)ratio.a;
    s->stmt.as.tries.n = (unsigned)ratio.b;
}

void build_jumps(struct syn *s, struct token n) {
    s->stmt.kind = STMT_JUMPS;
    s->stmt.as.tries.letter = s->who_letter;
    s->stmt.as.tries.shirt = s->who_shirt;
    s->stmt.as.tries.hits = 0;
    s->stmt.as.tries.n = (unsigned)n.a;
}
