/* Tosses, tries and jumps: what each player hit today, beside the last time. */
#include "page/practice.h"

#include <math.h>

static const double head_mm = 6.3, rule_mm = 1.4, row_mm = 4.5, pair_row_mm = 5.6, note_mm = 3.5;
static const double pair_mm = 2.2, middle_mm = 1.1, jumps_wide_mm = 76;
static const double name_wide_mm = 33, head_wide_mm = 110;
static const double missed_mm = 55, ways_mm = 58;
enum { WAYS_MAX = 8 };

/* A series while it is drawn. */
struct table {
    const struct drilled_series *s;
    bool jumps;                  /* counts alone */
    bool last;                   /* somebody has a last time */
    bool compares;               /* some difference may be drawn */
    double wide_mm, today_mm, last_mm, row_mm;
    struct scale share, difference;
};

static struct table table_of(const struct drilled_series *s) {
    struct table t = {.s = s,
                      .jumps = s->first->kind == STMT_JUMPS,
                      .last = s->before.n > 0,
                      .today_mm = 57,
                      .last_mm = 74};
    t.compares = !t.jumps && page_compares(s->again, s->before);
    t.wide_mm = t.jumps ? jumps_wide_mm : PAGE_WIDE_MM;
    t.row_mm = t.last && !t.jumps ? pair_row_mm : row_mm;
    t.share = (struct scale){t.last ? 81 : 66, t.compares ? 127 : 174, 1.0};
    t.difference = (struct scale){141, 174, 1.0};
    return t;
}

/* ---- words ------------------------------------------------------------------- */

/* Metres with one decimal, or with two if they are needed. */
static struct str metres(struct draw *d, int cm) {
    return page_decimal(d, cm, cm % 10 ? 2 : 1);
}

static struct str what_was_done(struct draw *d, const struct tries *t) {
    const struct checked *c = d->tally->checked;
    struct str drill =
        t->drill > 0 && t->drill <= c->drill_n ? c->drills[t->drill - 1].name : STR_NONE;
    if (t->kind == STMT_JUMPS)
        return page_say(d, "Jump serves that are not written one by one");
    if (t->kind == STMT_TOSS && t->ring_cm > 0)
        return page_sayf(d, "Toss into the ring, %.*s m", STR_ARG(metres(d, t->ring_cm)));
    if (t->kind == STMT_TOSS)
        return page_say(d, "Toss into the ring");
    return drill.n > 0 ? drill : page_say(d, "Tries");
}

/* The other team's stand apart, under its name. */
static struct str name_of(struct draw *d, const struct tries *t) {
    struct str name = what_was_done(d, t);
    if (t->side == OURS)
        return name;
    struct str team = page_team(d, (enum side)t->side);
    return str_printf(d->arena, "%.*s: %.*s", STR_ARG(team), STR_ARG(name));
}

static void add_sentence(struct buf *b, struct str sentence) {
    if (b->n > 0 && sentence.n > 0)
        buf_add(b, STR(" "));
    buf_add(b, sentence);
}

static struct str last_days(struct draw *d, const struct drilled_series *s) {
    if (date_order(s->from, s->to) == 0)
        return page_sayf(d, "Last time: %.*s.", STR_ARG(page_day(d, s->to)));
    return page_sayf(d, "Last time: the latest day before of each, from %.*s to %.*s.",
                     STR_ARG(page_day(d, s->from)), STR_ARG(page_day(d, s->to)));
}

static struct str difference_words(struct draw *d, const struct drilled_series *s) {
    struct interval i;
    if (!rate_difference(s->again, s->before, &i))
        return STR_NONE;
    return page_sayf(d, "Difference, together: %.*s in 100 (95 %% interval %.*s to %.*s).",
                     STR_ARG(page_signed(d, rate_frac(s->again) - rate_frac(s->before))),
                     STR_ARG(page_signed(d, i.low)), STR_ARG(page_signed(d, i.high)));
}

/* Each interval leaves out 0 in 5 of 100 days on which nothing has changed. */
static struct str chance_words(struct draw *d, const struct drilled_series *s) {
    unsigned n = 0;
    for (size_t i = 0; i < s->n; i++)
        n += page_compares(s->rows[i].today, s->rows[i].last);
    if (n < 2)
        return STR_NONE;
    return page_sayf(d, "Of %u players who have not changed, chance puts the interval of one or more "
                        "beside 0 in %.0f of 100 practices.",
                     n, 100 * (1 - pow(0.95, n)));
}

struct str page_last_time(struct draw *d, const struct drilled_series *s) {
    struct buf b;
    buf_init(&b, d->arena);
    if (s->before.n == 0)
        return STR_NONE;
    add_sentence(&b, last_days(d, s));
    if (s->again.n != s->all.today.n)
        add_sentence(&b, page_sayf(d, "Of those who have a last time: %.*s today, %.*s then.",
                                   STR_ARG(page_fraction(d, s->again)),
                                   STR_ARG(page_fraction(d, s->before))));
    if (page_compares(s->again, s->before)) {
        add_sentence(&b, difference_words(d, s));
        add_sentence(&b, chance_words(d, s));
    }
    return buf_str(&b);
}

static struct str below(struct draw *d, const struct table *t) {
    struct buf b;
    buf_init(&b, d->arena);
    if (t->last)
        add_sentence(&b, t->jumps ? last_days(d, t->s) : page_last_time(d, t->s));
    if (t->last && !t->jumps)
        add_sentence(&b, page_sayf(d, "Below %u on either side no difference is drawn.",
                                   rate_say_from_n(SAY_COMPARISON)));
    if (t->jumps)
        add_sentence(&b, page_say(d, "A jump serve loads shoulder and knee. Nobody knows a safe "
                                     "number; pain, or a week with far more jumps than usual, is "
                                     "for a medical professional."));
    return buf_str(&b);
}

/* ---- today and last time -------------------------------------------------------- */

/* The mark of a dot in front of the head of its column. */
static void dotted_head(struct draw *d, double end_mm, double y_mm, enum dot dot,
                        struct str words) {
    double wide = page_width(d, words, TYPE_NOTE);
    page_right(d, end_mm, y_mm, TYPE_NOTE, words);
    page_dot(d, end_mm - wide - 2, y_mm - 0.9, dot);
}

static void column_heads(struct draw *d, const struct table *t, double y_mm) {
    if (!t->last) {
        page_right(d, t->today_mm, y_mm, TYPE_NOTE,
                   t->jumps ? page_say(d, "jumps") : page_say(d, "hits"));
        return;
    }
    if (t->jumps) {
        page_column(d, t->today_mm, 14, y_mm, page_say(d, "today"));
        page_column(d, t->last_mm, 15, y_mm, page_say(d, "last time"));
        return;
    }
    dotted_head(d, t->today_mm, y_mm, DOT_OURS, page_say(d, "today"));
    dotted_head(d, t->last_mm, y_mm, DOT_LAST, page_say(d, "last"));
}

static void scale_heads(struct draw *d, const struct table *t, double y_mm) {
    if (t->jumps)
        return;
    for (unsigned i = 0; i <= 4; i++)
        page_centred(d, page_scale_x(&t->share, i * 0.25), y_mm, TYPE_NOTE,
                     page_number(d, i * 25));
    for (unsigned i = 0; i <= 2 && t->compares; i++)
        page_centred(d, page_scale_x(&t->difference, i * 0.5), y_mm, TYPE_NOTE,
                     page_signed(d, i * 0.5 - 0.5));
}

static struct str beside(const struct draw *d, const struct table *t) {
    return t->compares ? page_say(d, "hits in 100; today less last time")
                       : page_say(d, "in 100, with 95 % interval; from 10 on");
}

static void heads(struct flow *f, const struct table *t) {
    struct draw *d = f->draw;
    double y = f->y_mm + head_mm;
    double wide = page_words(d, 0, f->y_mm, TYPE_HEAD,
                             page_cut(d, name_of(d, t->s->first), TYPE_HEAD, head_wide_mm));
    if (!t->jumps)
        page_beside(d, wide, PAGE_WIDE_MM, f->y_mm, beside(d, t));
    page_rule(d, 0, t->wide_mm, f->y_mm + 2.5, RULE_TABLE_PT);
    page_flow_who_heads(d, y);
    column_heads(d, t, y);
    scale_heads(d, t, y);
    page_rule(d, 0, t->wide_mm, y + rule_mm, RULE_HEAD_PT);
    f->y_mm = y + 1;
}

static void grid(struct draw *d, const struct table *t, double y_mm, double y2_mm) {
    for (unsigned i = 0; i <= 4 && !t->jumps; i++) {
        double x = page_scale_x(&t->share, i * 0.25);
        page_line(d, x, y_mm, x, y2_mm, RULE_GRID_PT, INK_GRID);
    }
    for (unsigned i = 0; i <= 2 && t->compares; i++) {
        double x = page_scale_x(&t->difference, i * 0.5);
        page_line(d, x, y_mm, x, y2_mm, i == 1 ? RULE_TABLE_PT : RULE_GRID_PT,
                  i == 1 ? INK_BLACK : INK_GRID);
    }
}

static void counts(struct draw *d, const struct table *t, const struct drilled_row *r,
                   struct type type, double y_mm) {
    page_right(d, t->today_mm, y_mm, type,
               t->jumps ? page_number(d, r->today.n) : page_fraction(d, r->today));
    if (t->last)
        page_right(d, t->last_mm, y_mm, type,
                   t->jumps && r->last.n > 0 ? page_number(d, r->last.n)
                                             : page_fraction(d, r->last));
}

static void shares(struct draw *d, const struct table *t, const struct drilled_row *r,
                   double y_mm) {
    double middle = y_mm - middle_mm, apart = t->last ? pair_mm / 2 : 0;
    if (t->jumps)
        return;
    page_rate(d, &t->share, middle - apart, r->today, DOT_OURS);
    page_rate(d, &t->share, middle + apart, r->last, DOT_LAST);
}

static void player_row(struct flow *f, const struct table *t, const struct drilled_row *r) {
    struct draw *d = f->draw;
    grid(d, t, f->y_mm + 0.4, f->y_mm + 0.4 + t->row_mm);
    f->y_mm += t->row_mm;
    double y = f->y_mm - (t->row_mm - row_mm) / 2;
    page_flow_who(d, (enum side)t->s->first->side, r->shirt, name_wide_mm, y);
    counts(d, t, r, TYPE_TABLE, y);
    shares(d, t, r, y);
    if (t->compares)
        page_difference(d, &t->difference, y - middle_mm, r->today, r->last);
}

/* One player is her own sum. */
static void total(struct flow *f, const struct table *t) {
    struct draw *d = f->draw;
    double high = t->row_mm + 1;
    if (t->s->n == 1) {
        grid(d, t, f->y_mm + 0.4, f->y_mm + 1.6);
        page_rule(d, 0, t->wide_mm, f->y_mm += 1.6, RULE_TABLE_PT);
        return;
    }
    grid(d, t, f->y_mm + 0.4, f->y_mm + 1.6 + high);
    page_rule(d, 0, t->wide_mm, f->y_mm + 1.6, RULE_HEAD_PT);
    double y = f->y_mm + 1.6 + high / 2 + middle_mm;
    page_words(d, PAGE_FLOW_NAME_MM, y, TYPE_TABLE_BOLD, page_say(d, "together"));
    counts(d, t, &t->s->all, TYPE_TABLE_BOLD, y);
    shares(d, t, &t->s->all, y);
    if (t->compares)
        page_difference(d, &t->difference, y - middle_mm, t->s->again, t->s->before);
    f->y_mm += 1.6 + high;
    page_rule(d, 0, t->wide_mm, f->y_mm, RULE_TABLE_PT);
}

static void note(struct flow *f, const struct table *t) {
    struct str words = below(f->draw, t);
    if (words.n > 0)
        f->y_mm = page_note(f->draw, 0, f->y_mm + note_mm, PAGE_WIDE_MM, words);
}

/* ---- how tosses missed ------------------------------------------------------------ */

/* The sides by her arm. */
static const struct way {
    enum mark mark;
    const char *words;
} ways[] = {
    {MARK_td, WORDS("too low")},         {MARK_tu, WORDS("too high")},
    {MARK_tr, WORDS("to the arm side")}, {MARK_tl, WORDS("across the head")},
    {MARK_tn, WORDS("over the head")},   {MARK_tf, WORDS("too far forward")},
    {MARK_tb, WORDS("with a bent arm")},
};

enum { WAYS = sizeof ways / sizeof *ways };

static unsigned ways_of(const struct drilled_row *all, const struct way *out[WAYS]) {
    unsigned n = 0;
    for (unsigned i = 0; i < WAYS; i++)
        if (all->misses[ways[i].mark] > 0)
            out[n++] = &ways[i];
    return n;
}

static unsigned not_said(const struct drilled_row *r) {
    unsigned n = r->today.n - r->today.x;
    for (unsigned m = 0; m < MARK_N; m++)
        n -= r->misses[m];
    return n;
}

static double way_mm(unsigned i, unsigned n) {
    double step = (PAGE_WIDE_MM - ways_mm) / (n + 1);
    return ways_mm + (i + 1) * (step > 22 ? 22 : step);
}

static void ways_row(struct draw *d, const struct drilled_row *r, const struct way *at[WAYS],
                     unsigned n, double y_mm, bool bold) {
    page_count(d, missed_mm, y_mm, bold, r->today.n - r->today.x);
    for (unsigned i = 0; i < n; i++)
        page_count(d, way_mm(i, n), y_mm, bold, r->misses[at[i]->mark]);
    page_count(d, way_mm(n, n), y_mm, bold, not_said(r));
}

static void ways_heads(struct flow *f, const struct way *at[WAYS], unsigned n) {
    struct draw *d = f->draw;
    double y = f->y_mm + head_mm + 2.4, wide = way_mm(1, n) - way_mm(0, n) - 2.5;
    page_section(d, 0, way_mm(n, n), f->y_mm, page_say(d, "How the tosses missed"), STR_NONE);
    page_flow_who_heads(d, y);
    page_column(d, missed_mm, 14, y, page_say(d, "missed"));
    for (unsigned i = 0; i < n; i++)
        page_column(d, way_mm(i, n), wide, y, page_say(d, at[i]->words));
    page_column(d, way_mm(n, n), wide, y, page_say(d, "not said"));
    page_rule(d, 0, way_mm(n, n), y + rule_mm, RULE_HEAD_PT);
    f->y_mm = y + 1;
}

static void how_they_missed(struct flow *f, const struct drilled_series *s) {
    const struct way *at[WAYS];
    struct draw *d = f->draw;
    unsigned n = ways_of(&s->all, at);
    f->y_mm += PAGE_FLOW_BELOW_MM;
    page_flow_room(f, 9 + 4 * row_mm);
    ways_heads(f, at, n);
    for (size_t i = 0; i < s->n; i++) {
        if (page_flow_row(f, row_mm))
            ways_heads(f, at, n);
        f->y_mm += row_mm;
        page_flow_who(d, (enum side)s->first->side, s->rows[i].shirt, name_wide_mm, f->y_mm);
        ways_row(d, &s->rows[i], at, n, f->y_mm, false);
    }
    if (s->n > 1) {
        page_rule(d, 0, way_mm(n, n), f->y_mm + 1.6, RULE_HEAD_PT);
        f->y_mm += 5.6;
        page_words(d, PAGE_FLOW_NAME_MM, f->y_mm, TYPE_TABLE_BOLD, page_say(d, "together"));
        ways_row(d, &s->all, at, n, f->y_mm, true);
    }
    page_rule(d, 0, way_mm(n, n), f->y_mm += 1.7, RULE_TABLE_PT);
}

/* ---- a series ----------------------------------------------------------------------- */

static void series(struct flow *f, const struct drilled_series *s) {
    struct table t = table_of(s);
    page_flow_room(f, 9 + 4 * t.row_mm);
    heads(f, &t);
    for (size_t i = 0; i < s->n; i++) {
        if (page_flow_row(f, t.row_mm))
            heads(f, &t);
        player_row(f, &t, &s->rows[i]);
    }
    total(f, &t);
    note(f, &t);
    if (drilled_misses(&s->all))
        how_they_missed(f, s);
    f->y_mm += PAGE_FLOW_BELOW_MM;
}

void page_practice_tries(struct flow *f) {
    struct drilled_tries all =
        drilled_tries(f->draw->tally->checked, f->season, f->draw->arena);
    for (size_t i = 0; i < all.n; i++)
        series(f, &all.at[i]);
}
