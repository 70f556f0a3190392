/* Each player's focus: its drill and goal, what was hit today, since it was
 * written down and before. */
#include "faults.h"
#include "page/practice.h"

static const double head_mm = 8.7, rule_mm = 1.4, row_mm = 4.3, note_mm = 3.5, note_lead_mm = 3.3;
static const double name_wide_mm = 24, mark_mm = 33, mark_wide_mm = 30, drill_mm = 64;
static const double drill_wide_mm = 26, goal_mm = 100, today_mm = 111, then_mm = 123;
static const double before_mm = 133, seen_mm = 146, since_mm = 162, met_mm = 177;

static void heads(struct flow *f) {
    struct draw *d = f->draw;
    double y = f->y_mm + head_mm;
    page_section(d, 0, PAGE_WIDE_MM, f->y_mm, page_say(d, "What each works on"),
                 page_say(d, "tosses and tries of the focus’s drill"));
    page_flow_who_heads(d, y);
    page_words(d, mark_mm, y, TYPE_NOTE, page_say(d, "focus"));
    page_words(d, drill_mm, y, TYPE_NOTE, page_say(d, "drill"));
    page_column(d, goal_mm, 9, y, page_say(d, "goal"));
    page_column(d, today_mm, 9.5, y, page_say(d, "today"));
    page_column(d, then_mm, 10, y, page_say(d, "since then"));
    page_column(d, before_mm, 9, y, page_say(d, "before"));
    page_column(d, seen_mm, 11.5, y, page_say(d, "seen in serves"));
    page_column(d, since_mm, 13, y, page_say(d, "focus since"));
    page_column(d, met_mm, 13, y, page_say(d, "goal first met"));
    page_rule(d, 0, PAGE_WIDE_MM, y + rule_mm, RULE_HEAD_PT);
    f->y_mm = y + 1;
}

/* The mark by her arm, or the kind of miss. Nerves stay on the staff's pages. */
static struct str treated(struct draw *d, const struct drilled_focus *w) {
    const struct word_info *word = word_info(w->focus.treats);
    if (word->class != WORD_MARK)
        return word->word;
    const char *seen =
        page_mark_seen(faults_mark_of((enum mark)word->value, w->who->lefthanded));
    return seen ? page_say(d, seen) : STR("–");
}

static struct str day_or_none(struct draw *d, bool known, struct date on) {
    return known ? page_day(d, on) : STR("–");
}

/* At practice, since then. */
static struct rate seen(const struct drilled_focus *w) {
    const struct word_info *word = word_info(w->focus.treats);
    bool nerves = word->class == WORD_MARK && !page_mark_seen((enum mark)word->value);
    return nerves ? (struct rate){0, 0} : w->focus.in_practices.after;
}

static void row(struct draw *d, const struct drilled_focus *w, double y_mm) {
    const struct progress_focus *p = &w->focus;
    page_flow_who(d, OURS, w->who->shirt, name_wide_mm, y_mm);
    page_words(d, mark_mm, y_mm, TYPE_TABLE,
               page_cut(d, treated(d, w), TYPE_TABLE, mark_wide_mm));
    page_words(d, drill_mm, y_mm, TYPE_TABLE, page_cut(d, p->drill, TYPE_TABLE, drill_wide_mm));
    page_right(d, goal_mm, y_mm, TYPE_TABLE, page_fraction(d, p->goal));
    page_right(d, today_mm, y_mm, TYPE_TABLE, page_fraction(d, w->today));
    page_right(d, then_mm, y_mm, TYPE_TABLE, page_fraction(d, p->drilled.after));
    page_right(d, before_mm, y_mm, TYPE_TABLE, page_fraction(d, p->drilled.before));
    page_right(d, seen_mm, y_mm, TYPE_TABLE, page_fraction(d, seen(w)));
    page_right(d, since_mm, y_mm, TYPE_NOTE, page_day(d, p->since));
    page_right(d, met_mm, y_mm, TYPE_NOTE, day_or_none(d, p->met, p->met_on));
}

/* A note that may stand on the next page. */
static void note(struct flow *f, struct str words) {
    page_flow_room(f, note_mm + note_lead_mm);
    f->y_mm = page_note(f->draw, 0, f->y_mm + note_lead_mm, PAGE_WIDE_MM, words);
}

static void difference(struct flow *f, const struct drilled_focus *w) {
    const struct progress_split *s = &w->focus.drilled;
    struct draw *d = f->draw;
    struct interval i;
    if (w->focus.mixed || !progress_compares(&w->focus, *s) ||
        !rate_difference(s->after, s->before, &i))
        return;
    note(f, page_sayf(d, "Number %u since then: %.*s in 100 (95 %% interval %.*s to %.*s).",
                      w->who->shirt,
                      STR_ARG(page_signed(d, rate_frac(s->after) - rate_frac(s->before))),
                      STR_ARG(page_signed(d, i.low)), STR_ARG(page_signed(d, i.high))));
}

static bool is_mixed(const struct drilled_focus *w) {
    return w->focus.mixed && w->focus.drilled.before.n > 0;
}

static void notes(struct flow *f, const struct drilled_focuses *all) {
    struct draw *d = f->draw;
    bool mixed = false;
    note(f, page_say(d, "Since then: all days from the one on which the focus was written down. Seen "
                        "in serves: at practice since then, of those in which it was looked for."));
    for (size_t i = 0; i < all->n; i++) {
        difference(f, &all->at[i]);
        mixed = mixed || is_mixed(&all->at[i]);
    }
    if (mixed)
        note(f, page_say(d, "Where tosses and tries, or rings of several widths, are added up, "
                            "before and since are no comparison."));
}

void page_practice_focus(struct flow *f) {
    struct draw *d = f->draw;
    struct drilled_focuses all = drilled_focuses(d->tally->checked, f->season, d->arena);
    if (all.n == 0)
        return;
    page_flow_room(f, 12 + 4 * row_mm);
    heads(f);
    for (size_t i = 0; i < all.n; i++) {
        if (page_flow_row(f, row_mm))
            heads(f);
        row(d, &all.at[i], f->y_mm += row_mm);
    }
    page_rule(d, 0, PAGE_WIDE_MM, f->y_mm += 1.7, RULE_TABLE_PT);
    notes(f, &all);
    f->y_mm += PAGE_FLOW_BELOW_MM;
}
