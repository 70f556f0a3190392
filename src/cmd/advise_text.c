/* The advice in words for a coach. */
#include <math.h>

#include "cmd/advise.h"
#include "cmd/explain.h"
#include "cmd/tally.h"

enum { INDENT = 3, PERCENT = 100 };

/* One paragraph under way, and what was shown so far. */
struct saying {
    const struct advise *v;
    struct advice advice;
    struct buf b;
    bool reasons, jumps; /* shown: then the notes at the end say what they are */
    bool begun;          /* something stands above */
};

/* A blank line parts what follows from what stands above. */
static void part(struct saying *s) {
    if (s->begun)
        puts("");
    s->begun = true;
}

static void say(struct saying *s, int indent) {
    struct buf safe;

    buf_init(&safe, s->v->arena);
    cmd_safe(&safe, str_trim(buf_str(&s->b)), 0);
    buf_char(&safe, '\0');
    explain_paragraph(safe.at, indent);
    s->b.n = 0;
}

/* ---- numbers ------------------------------------------------------------- */

/* From ten on " (12%, 6-24)". */
static void add_share(struct buf *b, struct rate r) {
    struct interval i = rate_wilson(r);

    if (rate_may_say(r.n) >= SAY_INTERVAL)
        buf_printf(b, " (%.0f%%, %.0f-%.0f)", rate_percent(r), PERCENT * i.low,
                   PERCENT * i.high);
}

static void add_rate(struct buf *b, struct rate r) {
    if (r.n == 0) {
        buf_add(b, STR("none"));
        return;
    }
    buf_printf(b, "%u of %u", r.x, r.n);
    add_share(b, r);
}

/* All serves of somebody, and what became of them. */
static void add_counts(struct buf *b, const struct counts *c) {
    buf_printf(b, "%u serve%s", c->serves, c->serves == 1 ? "" : "s");
    if (c->serves == 0)
        return;
    buf_printf(b, "; broke their pass with %u", c->broke);
    add_share(b, (struct rate){c->broke, c->serves});
    buf_printf(b, ", missed %u", c->missed);
    add_share(b, (struct rate){c->missed, c->serves});
}

/* From what number on a difference is told stands in rate.h. */
static void add_difference(struct buf *b, struct rate one, struct rate other) {
    struct interval i;

    if (rate_may_say(one.n) < SAY_COMPARISON || rate_may_say(other.n) < SAY_COMPARISON ||
        !rate_difference(one, other, &i))
        return;
    buf_printf(b, " The difference is %+.0f in 100 (%+.0f to %+.0f).",
               PERCENT * (rate_frac(one) - rate_frac(other)), PERCENT * i.low, PERCENT * i.high);
}

static void add_cost(struct buf *b, struct advice_cost c) {
    if (!c.has_points)
        return;
    buf_printf(b, " Worth about %.2f points a set", fabs(c.points_n));
    if (c.has_set)
        buf_printf(b, ", or %.1f sets in 100", PERCENT * fabs(c.set_frac));
    buf_char(b, '.');
}

static void add_times(struct buf *b, struct twoway_risk risk) {
    if (risk.bounded)
        buf_printf(b, "%.1f times as often (%.1f to %.1f)", risk.ratio, risk.low, risk.high);
    else
        buf_printf(b, "at least %.1f times as often", risk.low);
}

static void add_p(struct buf *b, double p) {
    if (p < .001)
        buf_add(b, STR("; p below .001"));
    else
        buf_printf(b, "; p %.3f", p);
}

static void add_date(struct buf *b, struct date d) {
    buf_printf(b, "%04d-%02d-%02d", d.year, d.month, d.day);
}

/* ---- words --------------------------------------------------------------- */

static struct str word_of(enum word_id id) {
    return word_info(id)->word;
}

/* "toss down: too low (td)". Of a team, sides go by the hand and not by a word. */
static void add_mark(struct buf *b, enum mark m, bool of_team) {
    if (of_team && (m == MARK_tl || m == MARK_tr))
        buf_printf(b, "a toss %s", m == MARK_tr ? "to the arm side" : "across the head");
    else
        buf_printf(b, "%s (%.*s)", word_info((enum word_id)(W_td + m))->meaning,
                   STR_ARG(word_of((enum word_id)(W_td + m))));
}

static const char *went(enum faults_miss k) {
    switch (k) {
    case FAULTS_NET: return "into the net";
    case FAULTS_LONG: return "long";
    case FAULTS_ARM_SIDE: return "wide on the arm side";
    case FAULTS_ACROSS: return "wide across the body";
    case FAULTS_FOOT: return "foot faults";
    case FAULTS_MISSES: break;
    }
    return "";
}

/* What the trade looks at first; common practice, no source. */
static const char *look_at(enum faults_miss k) {
    switch (k) {
    case FAULTS_NET: return "where she meets the ball: too low, or too late after a low toss";
    case FAULTS_LONG: return "where the hand meets the ball: under it, or behind the shoulder";
    case FAULTS_ARM_SIDE: return "whether the toss drifts to the arm side";
    case FAULTS_ACROSS: return "whether the toss drifts across the head, or the trunk turns early";
    case FAULTS_FOOT: return "whether her start is paced out, and always the same";
    case FAULTS_MISSES: break;
    }
    return "";
}

static const char *missed_how(enum miss m) {
    static const char *const words[MISS_N] = {"into the net", "long", "wide", "as faults"};

    return words[m];
}

/* ---- the team ------------------------------------------------------------ */

static void add_situation(struct saying *s, enum situation where) {
    const struct profile *rules = &s->advice.faults->rules;

    switch (where) {
    case SITUATION_COLD: buf_add(&s->b, STR("Cold substitutes")); break;
    case SITUATION_TIMEOUT: buf_add(&s->b, STR("After a time-out we")); break;
    case SITUATION_FIRST: buf_add(&s->b, STR("With the first serve of a turn we")); break;
    case SITUATION_LATE:
        buf_printf(&s->b, "From %u points on (in the decider from %u) we",
                   tally_late_from(rules, false), tally_late_from(rules, true));
        break;
    case SITUATION_SET_POINT: buf_add(&s->b, STR("At set point of either side we")); break;
    case SITUATION_N: break;
    }
}

static void add_finding(struct saying *s, const struct finding *f) {
    if (f->kind == FINDING_ERROR) {
        buf_printf(&s->b, "Of our %u misses %u went %s.", f->here.n, f->here.x,
                   missed_how(f->miss));
        return;
    }
    add_situation(s, f->situation);
    buf_printf(&s->b, " %s ", f->kind == FINDING_MISSED ? "missed" : "broke their pass with");
    add_rate(&s->b, f->here);
    buf_add(&s->b, STR("; all other serves: "));
    add_rate(&s->b, f->rest);
    buf_char(&s->b, '.');
    add_difference(&s->b, f->here, f->rest);
}

static void add_fault(struct saying *s, const struct faults_test *t) {
    buf_add(&s->b, STR("Over all servers, "));
    add_mark(&s->b, t->mark, true);
    buf_printf(&s->b, " goes with serves that miss %s: ", went(t->miss));
    add_rate(&s->b, twoway_with(t->table));
    buf_add(&s->b, STR(" with it, "));
    add_rate(&s->b, twoway_without(t->table));
    buf_add(&s->b, STR(" without; server by server "));
    add_times(&s->b, t->risk);
    buf_char(&s->b, '.');
}

static void put_sentence(struct saying *s, unsigned number, const struct advice_sentence *a) {
    buf_printf(&s->b, "%u. ", number);
    switch (a->kind) {
    case ADVICE_FINDING: add_finding(s, &a->finding); break;
    case ADVICE_FAULT: add_fault(s, &a->fault); break;
    case ADVICE_MISS:
        buf_printf(&s->b, "Missed %s: ", missed_how(a->miss));
        add_rate(&s->b, a->missed);
        buf_char(&s->b, '.');
        break;
    }
    add_cost(&s->b, a->cost);
    say(s, 0);
}

static void put_looked(struct saying *s, const struct advice_team *team) {
    buf_printf(&s->b, "(%u comparisons, chance alone lets about one in 20 stand out", team->looked_n);
    if (s->advice.tests.n > 0)
        buf_printf(&s->b, "; %zu tests of marks, adjusted for their number", s->advice.tests.n);
    buf_add(&s->b, STR(")"));
    say(s, 0);
}

static void put_team(struct saying *s, struct str name) {
    const struct faults *f = s->advice.faults;
    struct advice_team team = advice_team(&s->advice);

    part(s);
    buf_printf(&s->b, "%.*s: %u match%s, ", STR_ARG(name), f->matches,
               f->matches == 1 ? "" : "es");
    add_counts(&s->b, &f->side[OURS]);
    if (f->incomplete || s->v->incomplete)
        buf_add(&s->b, STR("; INCOMPLETE"));
    say(s, 0);
    puts("");
    if (team.say < SAY_COMPARISON)
        printf("Under %u serves: too few to say what stands out.\n",
               rate_say_from_n(SAY_COMPARISON));
    else if (team.n == 0)
        puts("Nothing stands out at these numbers.");
    for (unsigned i = 0; i < team.n; i++)
        put_sentence(s, i + 1, &team.at[i]);
    if (team.looked_n > 0)
        put_looked(s, &team);
}

/* ---- a server's focus ---------------------------------------------------- */

static void add_before_after(struct buf *b, const char *what, const struct progress_focus *f,
                             struct progress_split split) {
    if (split.before.n + split.after.n == 0)
        return;
    buf_printf(b, " %s: ", what);
    add_rate(b, split.before);
    buf_add(b, STR(" before, "));
    add_rate(b, split.after);
    buf_add(b, STR(" since."));
    if (progress_compares(f, split))
        add_difference(b, split.after, split.before);
}

static bool may_jump(enum serve_type t) {
    return t == TYPE_NONE || t == TYPE_TOPSPIN || t == TYPE_JUMPFLOAT || t == TYPE_HYBRID;
}

static void add_drill(struct saying *s, const struct drill_recipe *r, enum serve_type type) {
    s->jumps = s->jumps || r->jumps == DRILL_JUMPS_YES ||
               (r->jumps == DRILL_JUMPS_MAYBE && may_jump(type));
    buf_printf(&s->b, "Drill: %.*s (%.*s). Goal: %.*s. How: 9m explain \"%.*s\"", STR_ARG(r->name),
               STR_ARG(r->purpose), STR_ARG(r->goal), STR_ARG(r->name));
}

static void put_focus(struct saying *s, const struct advice_server *a) {
    const struct progress_focus *f = &a->focus;
    struct str word = word_of(f->treats);

    buf_printf(&s->b, "1. Her focus since ");
    add_date(&s->b, f->since);
    buf_printf(&s->b, ": %s (%.*s), drill \"%.*s\"", word_info(f->treats)->meaning, STR_ARG(word),
               STR_ARG(f->drill));
    if (f->goal.n)
        buf_printf(&s->b, ", goal %u/%u", f->goal.x, f->goal.n);
    if (f->met) {
        buf_add(&s->b, STR(", met on "));
        add_date(&s->b, f->met_on);
    }
    buf_char(&s->b, '.');
    say(s, 0);
    add_before_after(&s->b, "The drill", f, f->drilled);
    add_before_after(&s->b, str_printf(s->v->arena, "%.*s in matches", STR_ARG(word)).at, f,
                     f->in_matches);
    add_before_after(&s->b, str_printf(s->v->arena, "%.*s at practice", STR_ARG(word)).at, f,
                     f->in_practices);
    add_before_after(&s->b, "Missed in matches", f, f->missed);
    if (s->b.n > 0)
        say(s, INDENT);
    if (a->focus_drill) {
        add_drill(s, a->focus_drill, a->type);
        say(s, INDENT);
    }
}

/* ---- a server's priorities ----------------------------------------------- */

static void add_tested(struct saying *s, const struct advice_priority *p) {
    buf_add(&s->b, STR("It goes with "));
    add_mark(&s->b, p->mark, false);
    buf_add(&s->b, STR(": "));
    add_rate(&s->b, twoway_with(p->table));
    buf_add(&s->b, STR(" with it, "));
    add_rate(&s->b, twoway_without(p->table));
    buf_add(&s->b, STR(" without, "));
    add_times(&s->b, p->risk);
    add_p(&s->b, p->adjusted);
    buf_printf(&s->b, ", adjusted for %zu tests.", s->advice.tests.n);
}

static void add_counted(struct saying *s, const struct advice_priority *p) {
    buf_add(&s->b, STR("Seen more often with "));
    add_mark(&s->b, p->mark, false);
    buf_printf(&s->b, ": %u of %u with it, %u of %u without. Not tested below %u serves.",
               twoway_with(p->table).x, twoway_with(p->table).n, twoway_without(p->table).x,
               twoway_without(p->table).n, rate_say_from_n(SAY_SEASON));
}

static void put_evidence(struct saying *s, const struct advice_priority *p) {
    switch (p->evidence) {
    case ADVICE_TESTED: add_tested(s, p); break;
    case ADVICE_COUNTED: add_counted(s, p); break;
    case ADVICE_NONE_FOUND: buf_add(&s->b, STR("No mark that was tested goes with it.")); break;
    case ADVICE_UNMARKED: break;
    }
    if (p->evidence == ADVICE_TESTED || p->evidence == ADVICE_COUNTED)
        buf_printf(&s->b, " Likely: %s", word_info((enum word_id)(W_td + p->mark))->help);
    else
        buf_printf(&s->b, "%sLook at %s.", s->b.n ? " " : "", look_at(p->miss));
    s->reasons = true;
    say(s, INDENT);
}

static void put_misses(struct saying *s, unsigned number, const struct advice_priority *p) {
    const char *head = p->miss == FAULTS_FOOT ? "Foot faults" : "Missed ";

    buf_printf(&s->b, "%u. %s%s: ", number, head, p->miss == FAULTS_FOOT ? "" : went(p->miss));
    add_rate(&s->b, p->missed);
    buf_char(&s->b, '.');
    add_cost(&s->b, p->cost);
    say(s, 0);
    put_evidence(s, p);
}

/* x runs to her left, d away from her. */
static void put_aim(struct saying *s, unsigned number, const struct advice_server *a,
                    const struct advice_priority *p) {
    const struct advice_aim *aim = &p->aim;
    struct str type = tally_type_word(aim->type);

    buf_printf(&s->b, "%u. Where she aims (%.*s): at a%.1f,%.1f some %.1f more of 100 rallies would "
               "be won than with her aims now (at least %.1f, by what the net may stop).", number,
               STR_ARG(type), aim->best.x, aim->best.d, PERCENT * aim->gain_frac,
               PERCENT * aim->sure_frac);
    add_cost(&s->b, p->cost);
    say(s, 0);
    buf_printf(&s->b, "By %u aimed serves: they come down %.1f m to the %s of the aim and %.1f m %s, "
               "on average.%s More: 9m aim --server %u", aim->aimed_n, fabs(aim->scatter.x_m),
               aim->scatter.x_m < 0 ? "right" : "left", fabs(aim->scatter.d_m),
               aim->scatter.d_m < 0 ? "short" : "too far",
               aim->say == SAY_AIM_OWN ? "" : " Under 100 this is a hint.", a->who->shirt);
    say(s, INDENT);
}

/* A drill that stands above already is named and no more. */
static bool drill_above(const struct advice_server *a, unsigned i) {
    bool above = a->has_focus && a->focus_drill == a->at[i].drill;

    for (unsigned k = 0; k < i; k++)
        above = above || a->at[k].drill == a->at[i].drill;
    return above;
}

static void put_priority(struct saying *s, const struct advice_server *a, unsigned i) {
    const struct advice_priority *p = &a->at[i];
    unsigned number = i + 1 + a->has_focus;

    switch (p->way) {
    case ADVICE_MISSES: put_misses(s, number, p); break;
    case ADVICE_AIM: put_aim(s, number, a, p); break;
    }
    if (!p->drill)
        return;
    if (drill_above(a, i))
        buf_printf(&s->b, "Drill: %.*s, as above.", STR_ARG(p->drill->name));
    else
        add_drill(s, p->drill, a->type);
    say(s, INDENT);
}

static void add_type(struct buf *b, enum serve_type type, struct rate won, struct rate missed) {
    buf_printf(b, "%.*s won ", STR_ARG(tally_type_word(type)));
    add_rate(b, won);
    buf_add(b, STR(" rallies and missed "));
    add_rate(b, missed);
}

/* Whether the serve that misses more is worth it. */
static void put_types(struct saying *s, const struct advice_types *t) {
    buf_add(&s->b, STR("Two serves: "));
    add_type(&s->b, t->harder, t->harder_won, t->harder_missed);
    buf_add(&s->b, STR("; "));
    add_type(&s->b, t->other, t->other_won, t->other_missed);
    buf_char(&s->b, '.');
    add_difference(&s->b, t->harder_won, t->other_won);
    if (t->difference.low <= 0 && t->difference.high >= 0)
        buf_add(&s->b, STR(" Not yet decidable which wins more."));
    if (t->has_break_even)
        buf_printf(&s->b, " As it wins in play, the %.*s pays up to %.0f misses in 100.",
                   STR_ARG(tally_type_word(t->harder)), PERCENT * t->break_even_frac);
    else
        buf_printf(&s->b, " As it wins in play, the %.*s would not pay even without a miss.",
                   STR_ARG(tally_type_word(t->harder)));
    say(s, 0);
}

/* Why there is no priority by counts. */
static void put_none(struct saying *s, const struct advice_server *a) {
    if (a->n > 0)
        return;
    if (a->say < SAY_COMPARISON)
        buf_printf(&s->b, "Under %u serves: too few for a priority by counts.",
                   rate_say_from_n(SAY_COMPARISON));
    else
        buf_printf(&s->b, "She missed in no %sway five times or more: nothing to choose by counts.",
                   a->has_focus ? "other " : "");
    say(s, 0);
}

static void put_server(struct saying *s, size_t server) {
    struct advice_server a = advice_server(&s->advice, server);

    part(s);
    buf_printf(&s->b, "%u%s%.*s: ", a.who->shirt, a.who->name.n ? " " : "", STR_ARG(a.who->name));
    add_counts(&s->b, &a.who->counts);
    say(s, 0);
    if (a.has_focus)
        put_focus(s, &a);
    for (unsigned i = 0; i < a.n; i++)
        put_priority(s, &a, i);
    put_none(s, &a);
    if (a.has_types)
        put_types(s, &a.types);
}

/* ---- the whole ----------------------------------------------------------- */

static void put_notes(struct saying *s) {
    if (s->reasons)
        buf_add(&s->b, STR("What is likely, and the drills, are common practice without a source: "
                           "look at the video. A mark that goes with a miss need not be its "
                           "reason, and a miss that was seen makes a mark more likely to be "
                           "written. The coach chooses. "));
    if (s->jumps)
        buf_printf(&s->b, "%s", drill_jump_caution());
    if (s->b.n == 0)
        return;
    part(s);
    say(s, 0);
}

void advise_text(const struct advise *v) {
    struct saying s = {.v = v};

    buf_init(&s.b, v->arena);
    for (size_t t = 0; t < v->team_n; t++) {
        const struct advise_team *team = &v->teams[t];

        if (!advise_shows_team(v, team))
            continue;
        advice_init(&s.advice, &team->of, &v->drills, v->arena);
        if (v->server == SHIRT_NONE)
            put_team(&s, team->name);
        for (size_t i = 0; i < team->of.faults->server_n; i++)
            if (advise_shows(v, &team->of.faults->servers[i]))
                put_server(&s, i);
    }
    put_notes(&s);
}
