/* Our plan for the sets of a match, whether it was followed, and what it brought. */
#include "page/draw.h"

static const double line_mm = 17, line_wide_mm = 30, row_mm = 4.15, wide_mm = 22;
static const double end_mm[] = {66, 85, 111, 141, PAGE_WIDE_MM};
enum { COLUMNS = 5, ROWS_MAX = 10 };

static void heads(struct draw *d, double y_mm) {
    static const char *const names[COLUMNS] = {WORDS("in play"), WORDS("known"),
                                               WORDS("as planned"), WORDS("broke, as planned"),
                                               WORDS("broke, elsewhere")};
    page_words(d, line_mm, y_mm, TYPE_NOTE,
               page_cut(d, page_say(d, "the line in the file"), TYPE_NOTE, line_wide_mm));
    for (unsigned i = 0; i < COLUMNS; i++)
        page_column(d, end_mm[i], i < 2 ? 17 : wide_mm, y_mm, page_say(d, names[i]));
    page_rule(d, 0, PAGE_WIDE_MM, y_mm + 1.6, RULE_HEAD_PT);
}

static void counts(struct draw *d, double y_mm, const struct scout_plan *p, bool bold) {
    struct type type = bold ? TYPE_TABLE_BOLD : TYPE_TABLE;
    page_count(d, end_mm[0], y_mm, bold, p->in_play);
    page_count(d, end_mm[1], y_mm, bold, p->as_planned.n);
    page_right(d, end_mm[2], y_mm, type, page_fraction(d, p->as_planned));
    page_right(d, end_mm[3], y_mm, type, page_fraction(d, p->broke));
    page_right(d, end_mm[4], y_mm, type, page_fraction(d, p->broke_elsewhere));
}

/* As it stands in the notes, in every language. */
static struct str line_of(struct draw *d, const struct serve_plan *p) {
    struct buf b;
    buf_init(&b, d->arena);
    buf_add(&b, STR("plan "));
    if (p->by != SHIRT_NONE)
        buf_printf(&b, "by%u", p->by);
    else
        syn_print_spot(&b, p->spot);
    return buf_str(&b);
}

static void row(struct draw *d, double y_mm, const struct scout_plan *p) {
    if (p->set > 0)
        page_words(d, 0, y_mm, TYPE_TABLE, page_sayf(d, "set %u", p->set));
    page_words(d, line_mm, y_mm, TYPE_TABLE, line_of(d, &p->plan));
    counts(d, y_mm, p, false);
}

static struct str said(struct draw *d, const struct scout_plan *sum) {
    double difference;
    struct interval i;
    enum scout_verdict verdict = scout_verdict(sum, &difference, &i);
    const char *words = NULL;
    switch (verdict) {
    case SCOUT_FEW:
        return page_say(d, "Too few balls to compare as planned with elsewhere.");
    case SCOUT_OPEN:
        words = WORDS("As planned less elsewhere: %.*s in 100 (%.*s to %.*s). Too wide to say "
                      "whether the plan paid.");
        break;
    case SCOUT_MORE:
        words = WORDS("As planned less elsewhere: %.*s in 100 (%.*s to %.*s). Balls as planned "
                      "broke more passes.");
        break;
    case SCOUT_LESS:
        words = WORDS("As planned less elsewhere: %.*s in 100 (%.*s to %.*s). Balls as planned "
                      "broke fewer passes.");
        break;
    }
    return str_printf(d->arena, lang_say(d->facts->lang, words),
                      STR_ARG(page_signed(d, difference)), STR_ARG(page_signed(d, i.low)),
                      STR_ARG(page_signed(d, i.high)));
}

double page_plans_high(size_t n) {
    return 8.3 + row_mm * (double)(n <= ROWS_MAX ? n : ROWS_MAX) + 5.2 + 5.4 + 3.2;
}

static double table(struct draw *d, double y_mm, const struct scout_plan *plans, size_t n) {
    struct scout_plan sum = scout_plans_sum(plans, n);
    size_t own = n <= ROWS_MAX ? n : ROWS_MAX - 1;
    heads(d, y_mm + 6.5);
    y_mm += 8.3;
    for (size_t i = 0; i < own; i++)
        row(d, y_mm += row_mm, &plans[i]);
    if (own < n) {
        struct scout_plan rest = scout_plans_sum(plans + own, n - own);
        page_words(d, line_mm, y_mm += row_mm, TYPE_TABLE,
                   page_cut(d, page_sayf(d, "%zu more lines", n - own), TYPE_TABLE, line_wide_mm));
        counts(d, y_mm, &rest, false);
    }
    page_rule(d, 0, PAGE_WIDE_MM, y_mm + 1.5, RULE_HEAD_PT);
    y_mm += 5.2;
    page_words(d, 0, y_mm, TYPE_TABLE_BOLD, page_say(d, "all"));
    counts(d, y_mm, &sum, true);
    page_rule(d, 0, PAGE_WIDE_MM, y_mm + 1.9, RULE_TABLE_PT);
    return page_note(d, 0, y_mm + 5.4, PAGE_WIDE_MM, said(d, &sum));
}

double page_plans(struct draw *d, double y_mm, struct str head, const struct scout_plan *plans,
                  size_t n) {
    page_section(d, 0, PAGE_WIDE_MM, y_mm, head,
                 n > 0 ? page_say(d, "known: receiver or place written; a serve that missed has "
                                     "neither and is not counted")
                       : STR_NONE);
    if (n > 0)
        return table(d, y_mm, plans, n);
    return page_note(d, 0, y_mm + 6.5, PAGE_WIDE_MM, page_say(d, "No plan was written down."));
}

double page_plan(struct draw *d, double y_mm) {
    size_t n;
    const struct scout_plan *plans = scout_plans(d->tally->checked, &n, d->arena);
    return page_plans(d, y_mm, page_say(d, "Our plan"), plans, n);
}
