/* Her focus: how, the goal and why at the left, what came of it at the right. */
#include "page/card_parts.h"

#include <math.h>

static const double left_wide_mm = 84, right_mm = 95, right_wide_mm = 82;
static const double first_mm = 7, lead_mm = 3.85, paragraph_mm = 1.4;

/* ---- left ------------------------------------------------------------------------- */

/* A paragraph that begins with a bold word; gives the baseline behind it. */
static double paragraph(struct draw *d, double y_mm, struct str head, struct str words) {
    if (words.n == 0)
        return y_mm;
    double wide = page_words(d, 0, y_mm, TYPE_TABLE_BOLD, head);
    y_mm = page_wrapped(d, 0, wide + 1.2, y_mm, left_wide_mm, lead_mm, TYPE_TABLE, words, NULL);
    return y_mm + lead_mm + paragraph_mm;
}

static double put_drill(const struct leaf *l, double y_mm) {
    struct draw *d = l->draw;
    const struct drill_recipe *drill = l->card->focus.drill;
    if (drill && l->fit->setup)
        y_mm = paragraph(d, y_mm, page_say(d, "How."),
                         page_drill_said(d, drill, drill->setup));
    y_mm = paragraph(d, y_mm, page_say(d, "Goal."), card_goal(d, l->card));
    if (l->fit->why)
        y_mm = paragraph(d, y_mm, page_say(d, "Why."), card_why(d, l->card));
    return y_mm - lead_mm - paragraph_mm;
}

/* ---- the tries ---------------------------------------------------------------------- */

enum { DAYS_MOST = 7 };

static const double plot_mm = 101, plot_wide_mm = 46, plot_high_mm = 12, dot_mm = 0.95,
                    label_gap_mm = 3.4, beside_mm = 158;

/* A share of hits, upwards. */
static double plot_y(double bottom_mm, double frac) {
    return bottom_mm - frac * plot_high_mm;
}

static void put_scale(const struct leaf *l, double bottom_mm) {
    struct draw *d = l->draw;
    struct rate goal = l->card->focus.progress.goal;
    unsigned full = goal.n ? goal.n : 100;
    for (unsigned i = 0; i <= 2; i++) {
        double y = plot_y(bottom_mm, i / 2.0);
        page_line(d, plot_mm, y, plot_mm + plot_wide_mm, y, i ? RULE_GRID_PT : RULE_HEAD_PT,
                  i ? INK_GRID : INK_BLACK);
        if (i != 1 || full % 2 == 0)
            page_right(d, plot_mm - 1.2, y + 0.9, TYPE_NOTE, page_number(d, full * i / 2));
    }
    if (goal.n == 0)
        return;
    double y = plot_y(bottom_mm, rate_frac(goal));
    page_dashed(d, plot_mm, y, plot_mm + plot_wide_mm, y, RULE_TABLE_PT, INK_BLACK, 1.0, 0.7);
    page_words(d, plot_mm + plot_wide_mm + 1, y + 0.9, TYPE_NOTE,
               page_cut(d, page_sayf(d, "goal %u", goal.x), TYPE_NOTE,
                        beside_mm + 19 - plot_mm - plot_wide_mm - 1));
}

/* On white, since lines of the scale may pass behind it. */
static void put_hits(struct draw *d, double x_mm, double y_mm, struct str hits) {
    double half_mm = page_width(d, hits, TYPE_NOTE) / 2 + 0.3;
    page_add(d, (struct page_item){.kind = PAGE_BOX,
                                   .x_mm = x_mm - half_mm,
                                   .y_mm = y_mm - 2.2 + d->push_mm,
                                   .x2_mm = x_mm + half_mm,
                                   .y2_mm = y_mm + 0.4 + d->push_mm,
                                   .ink = INK_NONE,
                                   .fill = INK_WHITE});
    page_centred(d, x_mm, y_mm, TYPE_NOTE, hits);
}

/* The counts stand above dots that met the goal, else below, clear of its line. */
static void put_day(const struct leaf *l, const struct progress_day *day, double x_mm,
                    double bottom_mm) {
    struct draw *d = l->draw;
    struct rate goal = l->card->focus.progress.goal;
    double y = plot_y(bottom_mm, rate_frac(day->hits));
    bool above = y + 4 > bottom_mm || (goal.n && y <= plot_y(bottom_mm, rate_frac(goal)));
    /* TRANSLATORS: month, day of a short date, such as "%2$d.%1$d." */
    const char *form = lang_say(d->facts->lang, WORDS("%1$02d-%2$02d"));
    page_circle(d, x_mm, y, dot_mm, 0, INK_NONE, INK_OURS);
    put_hits(d, x_mm, y + (above ? -1.8 : 3.8), page_fraction(d, day->hits));
    page_centred(d, x_mm, bottom_mm + label_gap_mm, TYPE_NOTE,
                 str_printf(d->arena, form, day->date.month, day->date.day));
}

/* Gives where words may begin. */
static double put_tries(const struct leaf *l, double y_mm) {
    const struct progress_series *days = &l->card->focus.drilled;
    double bottom = y_mm + plot_high_mm;
    unsigned n = days->n < DAYS_MOST ? (unsigned)days->n : DAYS_MOST;
    if (n == 0 || !l->fit->tries)
        return y_mm;
    put_scale(l, bottom);
    for (unsigned i = 0; i < n; i++)
        put_day(l, &days->days[days->n - n + i], plot_mm + (i + 0.5) * plot_wide_mm / n, bottom);
    return bottom + label_gap_mm + 4.6;
}

static double put_words(const struct leaf *l, double y_mm) {
    struct draw *d = l->draw;
    struct str words = str_trim(str_printf(d->arena, "%.*s %.*s",
                                           STR_ARG(card_drilled(d, l->card)),
                                           STR_ARG(card_since(d, l->card))));
    return page_wrapped(d, right_mm, 0, y_mm, right_wide_mm, lead_mm, TYPE_TABLE, words, NULL);
}

/* ---- the section -------------------------------------------------------------------- */

double card_focus(const struct leaf *l, double y_mm) {
    struct draw *d = l->draw;
    const struct card_focus *f = &l->card->focus;
    if (!f->chosen) {
        page_section(d, 0, PAGE_WIDE_MM, y_mm, page_say(d, "Your focus"), STR_NONE);
        return page_wrapped(d, 0, 0, y_mm + first_mm, PAGE_WIDE_MM, lead_mm, TYPE_TABLE,
                            page_say(d, "No focus chosen yet: talk to your coach."), NULL);
    }
    struct str drill = f->drill ? page_drill_title(d, f->drill) : f->progress.drill;
    page_section(d, 0, PAGE_WIDE_MM, y_mm,
                 page_cut(d, page_sayf(d, "Your focus: %.*s", STR_ARG(drill)), TYPE_HEAD, 110),
                 page_sayf(d, "chosen with your coach on %.*s",
                           STR_ARG(page_day(d, f->progress.since))));
    double left = put_drill(l, y_mm + first_mm);
    double right = put_words(l, put_tries(l, y_mm + first_mm));
    return fmax(left, right);
}
