/* What a coach may choose a focus from: at most three rows a server, each with
 * its counts, what was tested, what it costs and a drill. */
#include "page/draw.h"

#include <math.h>

static const double head_mm = 6.5, rule_mm = 8.1, row_mm = 4.1, server_mm = 5.4, note_mm = 3.5;
static const double no_mm = 4.5, label_mm = 7.5, label_wide_mm = 47;
static const double missed_mm = 65, with_mm = 77, without_mm = 90, times_mm = 141, cost_mm = 152;
static const double drill_mm = 154.5;
static const struct log_scale scale = {93, 117, 0.5, 16};

enum { DIGITS = 100 };

/* The table while it is drawn. */
struct choice {
    struct draw *d;
    const struct advice *advice;
    page_turn *turn;
    double y_mm;
};

/* ---- words ------------------------------------------------------------------- */

static const char *went(enum faults_miss k) {
    static const char *const words[FAULTS_MISSES] = {
        [FAULTS_NET] = WORDS("into the net"),
        [FAULTS_LONG] = WORDS("long"),
        [FAULTS_ARM_SIDE] = WORDS("wide on the arm side"),
        [FAULTS_ACROSS] = WORDS("wide across the body"),
        [FAULTS_FOOT] = WORDS("foot faults"),
    };
    return words[k];
}

/* Only the staff reads of nerves. */
static struct str mark_name(const struct draw *d, enum mark m, bool lefthanded) {
    const char *words = page_mark_seen(faults_mark_of(m, lefthanded));
    return page_say(d, words ? words : WORDS("nerves showed"));
}

static struct str focus_name(const struct draw *d, const struct advice_server *a) {
    const struct word_info *word = word_info(a->focus.treats);
    if (word->class == WORD_MARK)
        return mark_name(d, (enum mark)word->value, a->who->lefthanded);
    return word->word;
}

static struct str label(const struct choice *c, const struct advice_server *a,
                        const struct advice_priority *p) {
    struct str way = page_say(c->d, went(p->miss));
    if (p->evidence != ADVICE_COUNTED && p->evidence != ADVICE_TESTED)
        return way;
    struct str mark = mark_name(c->d, p->mark, a->who->lefthanded);
    return str_printf(c->d->arena, "%.*s · %.*s", STR_ARG(way), STR_ARG(mark));
}

static struct str tenths(const struct draw *d, double x) {
    return page_decimal(d, (int)lround(x * 10) * 10, 1);
}

/* ---- rows -------------------------------------------------------------------- */

static void heads(struct choice *c) {
    struct draw *d = c->d;
    double y = c->y_mm + head_mm;
    page_words(d, label_mm, y, TYPE_NOTE, page_say(d, "candidate"));
    page_column(d, missed_mm, 12, y, page_say(d, "missed"));
    page_column(d, with_mm, 11.5, y, page_say(d, "with it"));
    page_column(d, without_mm, 12.5, y, page_say(d, "without"));
    if (c->advice->tests.n > 0)
        page_ratio_labels(d, &scale, y);
    page_column(d, times_mm, 22, y, page_say(d, "times as often"));
    page_column(d, cost_mm, 10.5, y, page_say(d, "points"));
    page_words(d, drill_mm, y, TYPE_NOTE, page_say(d, "drill"));
    page_rule(d, 0, PAGE_WIDE_MM, c->y_mm + rule_mm, RULE_HEAD_PT);
    c->y_mm += rule_mm;
}

static void cost_and_drill(struct choice *c, struct advice_cost cost,
                           const struct drill_recipe *drill) {
    struct draw *d = c->d;
    if (cost.has_points)
        page_right(d, cost_mm, c->y_mm, TYPE_TABLE,
                   page_decimal(d, (int)lround(cost.points_n * DIGITS), 2));
    if (drill)
        page_words(d, drill_mm, c->y_mm, TYPE_NOTE,
                   page_cut(d, drill->name, TYPE_NOTE, PAGE_WIDE_MM - drill_mm));
}

static void tested(struct choice *c, const struct advice_priority *p) {
    struct type bold = {TYPE_NOTE_PT, FACE_BOLD, INK_BLACK};
    page_ratio_grid(c->d, &scale, c->y_mm - row_mm + 1, c->y_mm + 1);
    page_ratio(c->d, &scale, c->y_mm - 1.1, p->risk);
    page_right(c->d, times_mm, c->y_mm, bold, page_ratio_words(c->d, p->risk));
}

static void misses_row(struct choice *c, const struct advice_server *a,
                       const struct advice_priority *p) {
    struct draw *d = c->d;
    bool marked = p->evidence == ADVICE_COUNTED || p->evidence == ADVICE_TESTED;
    page_words(d, label_mm, c->y_mm, TYPE_TABLE,
               page_cut(d, label(c, a, p), TYPE_TABLE, label_wide_mm));
    page_right(d, missed_mm, c->y_mm, TYPE_TABLE, page_fraction(d, p->missed));
    if (marked) {
        page_right(d, with_mm, c->y_mm, TYPE_TABLE, page_fraction(d, twoway_with(p->table)));
        page_right(d, without_mm, c->y_mm, TYPE_TABLE, page_fraction(d, twoway_without(p->table)));
    }
    if (p->evidence == ADVICE_TESTED)
        tested(c, p);
    else
        page_right(d, times_mm, c->y_mm, TYPE_NOTE,
                   p->evidence == ADVICE_NONE_FOUND ? page_say(d, "no mark goes with it")
                   : marked                         ? page_say(d, "not tested")
                                                    : page_say(d, "no mark seen"));
}

static void aim_row(struct choice *c, const struct advice_priority *p) {
    struct draw *d = c->d;
    const struct advice_aim *aim = &p->aim;
    struct str words = page_sayf(
        d, "aim at x %.*s, d %.*s: %.*s of 100 rallies more (at least %.*s), by %u aimed serves",
        STR_ARG(tenths(d, aim->best.x)), STR_ARG(tenths(d, aim->best.d)),
        STR_ARG(tenths(d, 100 * aim->gain_frac)), STR_ARG(tenths(d, 100 * aim->sure_frac)),
        aim->aimed_n);
    page_words(d, label_mm, c->y_mm, TYPE_TABLE,
               page_cut(d, words, TYPE_TABLE, times_mm - label_mm));
}

static struct str focus_words(struct choice *c, const struct advice_server *a) {
    const struct progress_split *s = &a->focus.in_matches;
    struct draw *d = c->d;
    return page_sayf(d, "focus since %.*s: %.*s; in matches %.*s before, %.*s since",
                     STR_ARG(page_day(d, a->focus.since)), STR_ARG(focus_name(d, a)),
                     STR_ARG(page_fraction(d, s->before)), STR_ARG(page_fraction(d, s->after)));
}

static void focus_row(struct choice *c, const struct advice_server *a) {
    struct draw *d = c->d;
    struct str drill = a->focus.drill;
    page_words(d, label_mm, c->y_mm, TYPE_TABLE,
               page_cut(d, focus_words(c, a), TYPE_TABLE, cost_mm - label_mm));
    page_words(d, drill_mm, c->y_mm, TYPE_NOTE,
               page_cut(d, drill, TYPE_NOTE, PAGE_WIDE_MM - drill_mm));
}

static void priority_row(struct choice *c, const struct advice_server *a,
                         const struct advice_priority *p) {
    switch (p->way) {
    case ADVICE_MISSES: misses_row(c, a, p); break;
    case ADVICE_AIM: aim_row(c, p); break;
    }
    cost_and_drill(c, p->cost, p->drill);
}

static void server_head(struct choice *c, const struct advice_server *a) {
    struct draw *d = c->d;
    const struct counts *n = &a->who->counts;
    struct str name = d->facts->no_names ? STR_NONE : a->who->name;
    struct str counts = page_say_n(d, n->serves, "%u serve, missed %u", "%u serves, missed %u",
                                   n->serves, n->missed);
    page_right(d, no_mm, c->y_mm, TYPE_TABLE_BOLD, page_number(d, a->who->shirt));
    double wide = page_words(d, label_mm, c->y_mm, TYPE_TABLE_BOLD,
                             page_cut(d, name, TYPE_TABLE_BOLD, label_wide_mm));
    page_words(d, label_mm + wide + (wide > 0 ? 2 : 0), c->y_mm, TYPE_TABLE, counts);
}

static void server_block(struct choice *c, const struct advice_server *a) {
    double need = server_mm + row_mm * (a->n + a->has_focus) + 2;
    if (c->y_mm + need > BODY_END_MM - c->d->push_mm) {
        page_rule(c->d, 0, PAGE_WIDE_MM, c->y_mm + 1.6, RULE_TABLE_PT);
        c->y_mm = c->turn(c->d);
        heads(c);
    }
    c->y_mm += server_mm;
    server_head(c, a);
    if (a->has_focus) {
        c->y_mm += row_mm;
        focus_row(c, a);
    }
    for (unsigned i = 0; i < a->n; i++) {
        c->y_mm += row_mm;
        priority_row(c, a, &a->at[i]);
    }
}

/* ---- the section ------------------------------------------------------------- */

static bool serves_in(const struct tally *t, const struct faults_server *who) {
    for (size_t i = 0; t && i < t->server_n[OURS]; i++)
        if (t->servers[OURS][i].shirt == who->shirt)
            return true;
    return !t;
}

static void add_shirt(struct buf *b, unsigned shirt) {
    buf_printf(b, "%s%u", b->n > 0 ? ", " : "", shirt);
}

static struct str how(const struct choice *c) {
    struct draw *d = c->d;
    unsigned season_n = rate_say_from_n(SAY_SEASON);
    struct str tested =
        c->advice->tests.n == 0
            ? page_sayf(d, "Marks are tested from %u serves on: none was.", season_n)
            : page_sayf(d, "Marks are tested from %u serves on; bold holds with all %zu tests "
                           "adjusted together.",
                        season_n, c->advice->tests.n);
    return page_sayf(
        d, "Missed in this way: of all her serves; with the mark and without it, of those where it "
           "was looked for. Points: what these misses cost in a set. %.*s A mark that goes with a "
           "miss need not be its reason: the scorer saw the miss before writing. The coach chooses.",
        STR_ARG(tested));
}

static struct str basis(const struct choice *c) {
    const struct faults *f = c->advice->faults;
    if (f->incomplete || c->d->facts->season_left_out)
        return page_say_n(c->d, f->matches, "INCOMPLETE: from %u match, with parts unread",
                          "INCOMPLETE: from %u matches, with parts unread", f->matches);
    return page_say_n(c->d, f->matches, "from %u match", "from %u matches", f->matches);
}

double page_candidates(struct draw *d, const struct advice *advice, const struct tally *today,
                       double y_mm, page_turn *turn) {
    struct choice c = {d, advice, turn, y_mm};
    struct buf few;
    buf_init(&few, d->arena);
    page_section(d, 0, PAGE_WIDE_MM, y_mm, page_say(d, "What to choose a focus from"), basis(&c));
    heads(&c);
    for (size_t i = 0; i < advice->faults->server_n; i++) {
        struct advice_server a = advice_server(advice, i);
        if (!serves_in(today, a.who))
            continue;
        if (a.n + a.has_focus > 0)
            server_block(&c, &a);
        else
            add_shirt(&few, a.who->shirt);
    }
    page_rule(d, 0, PAGE_WIDE_MM, c.y_mm + 1.6, RULE_TABLE_PT);
    c.y_mm = page_note(d, 0, c.y_mm + 1.6 + note_mm, PAGE_WIDE_MM, how(&c));
    if (few.n == 0)
        return c.y_mm;
    return page_note(d, 0, c.y_mm + note_mm, PAGE_WIDE_MM,
                     page_sayf(d, "Nothing to choose by counts, or under %u serves: %.*s.",
                               rate_say_from_n(SAY_COMPARISON), STR_ARG(buf_str(&few))));
}
