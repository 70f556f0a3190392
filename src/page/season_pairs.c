/* Two shares of one server and their difference: before and after a day, since
 * her focus. */
#include "page/season_parts.h"

#include <math.h>

static const double name_wide_mm = 37, first_mm = 104, second_mm = 121, text_mm = 47;
static const double zero_mm = 143, words_wide_mm = 25;
static const double group_mm = 1.2, span_frac = 0.4, span_mm = 16, dot_mm = 0.95;

/* What a table of pairs compares. */
struct pairs {
    struct str first, second;
};

/* A share of the scale; the sign says whether it lies beyond. */
static double difference_x(double frac) {
    return zero_mm + fmax(-span_frac, fmin(span_frac, frac)) / span_frac * span_mm;
}

static void heads(struct draw *d, const struct pairs *p, struct str what, double y_mm) {
    page_season_who_heads(d, y_mm);
    page_words(d, text_mm, y_mm, TYPE_NOTE, page_cut(d, what, TYPE_NOTE, 42));
    page_column(d, first_mm, 15, y_mm, p->first);
    page_column(d, second_mm, 15.5, y_mm, p->second);
    for (int i = -1; i <= 1; i++)
        page_centred(d, difference_x(i * span_frac), y_mm, TYPE_NOTE,
                     page_signed(d, i * span_frac));
    page_column(d, PAGE_WIDE_MM, 15, y_mm, page_say(d, "in 100"));
    page_rule(d, 0, PAGE_WIDE_MM, y_mm + 1.6, RULE_HEAD_PT);
}

/* A stroke, or beyond the scale an open head that points there. */
static void limit(struct draw *d, double frac, double y_mm) {
    double x = difference_x(frac), half = 0.55;
    double back = fabs(frac) <= span_frac ? 0 : frac < 0 ? half : -half;
    page_line(d, x + back, y_mm - half, x, y_mm, 0.6, INK_BLACK);
    page_line(d, x + back, y_mm + half, x, y_mm, 0.6, INK_BLACK);
}

/* The second less the first, with its interval; only where `compares`. */
static void difference(struct draw *d, struct rate first, struct rate second, bool compares,
                       double y_mm) {
    struct interval i;
    double top = y_mm - SEASON_ROW_MM + 1.2;
    page_line(d, zero_mm, top, zero_mm, y_mm + 1.2, RULE_TABLE_PT, INK_BLACK);
    if (!compares || !rate_difference(second, first, &i)) {
        page_right(d, PAGE_WIDE_MM, y_mm, TYPE_NOTE,
                   page_cut(d, page_say(d, "not compared"), TYPE_NOTE, words_wide_mm));
        return;
    }
    double frac = rate_frac(second) - rate_frac(first), y = y_mm - 1.1;
    page_line(d, difference_x(i.low), y, difference_x(i.high), y, 0.9, INK_BLACK);
    limit(d, i.low, y);
    limit(d, i.high, y);
    if (fabs(frac) <= span_frac)
        page_circle(d, difference_x(frac), y, dot_mm, 0.9, INK_BLACK, INK_BLACK);
    page_right(d, PAGE_WIDE_MM, y_mm, TYPE_NOTE,
               page_sayf(d, "%.*s (%.*s to %.*s)", STR_ARG(page_signed(d, frac)),
                         STR_ARG(page_signed(d, i.low)), STR_ARG(page_signed(d, i.high))));
}

static void row(struct season_draw *f, const struct person *who, struct str what,
                struct progress_split s, bool compares) {
    struct draw *d = f->d;
    if (who)
        page_season_who(d, who, name_wide_mm, f->y_mm);
    page_words(d, text_mm, f->y_mm, TYPE_TABLE, page_cut(d, what, TYPE_TABLE, 42));
    page_right(d, first_mm, f->y_mm, TYPE_TABLE, page_fraction(d, s.before));
    page_right(d, second_mm, f->y_mm, TYPE_TABLE, page_fraction(d, s.after));
    difference(d, s.before, s.after, compares, f->y_mm);
}

/* Room for so many rows; the heads stand again on a new page. */
static void rows_room(struct season_draw *f, unsigned n, const struct pairs *p, struct str what) {
    if (!page_season_room(f, n * SEASON_ROW_MM + 2)) {
        heads(f->d, p, what, f->y_mm);
        f->y_mm += 1.8;
    }
}

static void begin(struct season_draw *f, struct str head, struct str note, const struct pairs *p,
                  struct str what) {
    page_season_section(f, SEASON_RULE_MM + 4 * SEASON_ROW_MM, head, note);
    heads(f->d, p, what, f->y_mm + SEASON_HEADS_MM);
    f->y_mm += SEASON_RULE_MM + 0.2;
}

static void end(struct season_draw *f) {
    page_rule(f->d, 0, PAGE_WIDE_MM, f->y_mm + 1.6, RULE_TABLE_PT);
    f->y_mm += 1.6;
}

/* ---- the day that was given -------------------------------------------------------- */

/* A comparison asks of a day that was given what it asks of a focus. */
static bool compares_since(const struct season *s, struct date day, struct progress_split split) {
    int days = progress_day_number(s->matches[s->match_n - 1].date) - progress_day_number(day);
    struct progress_focus since = {.days = days > 0 ? (unsigned)days : 0};
    return progress_compares(&since, split);
}

void page_season_splits(struct season_draw *f) {
    struct draw *d = f->d;
    const struct season *s = f->of->season;
    struct pairs p = {page_say(d, "before"), page_say(d, "from then on")};
    if (!f->of->split)
        return;
    begin(
        f,
        page_sayf(d, "Misses before %.*s and from then on", STR_ARG(page_day(d, f->of->split_on))),
        STR_NONE, &p, STR_NONE);
    for (size_t i = 0; i < s->server_n; i++) {
        struct progress_split split = season_split(s, i, f->of->split_on);
        if (split.before.n == 0 || split.after.n == 0)
            continue;
        rows_room(f, 1, &p, STR_NONE);
        f->y_mm += SEASON_ROW_MM;
        row(f, s->servers[i].who, STR_NONE, split, compares_since(s, f->of->split_on, split));
    }
    end(f);
    page_season_note(f,
                     page_sayf(d,
                               "A difference needs %u serves on either side and %u days. The day "
                               "must be chosen before anyone looks at the figures: one picked "
                               "from them shows a change where there is none.",
                               rate_say_from_n(SAY_COMPARISON), (unsigned)PROGRESS_DAYS_MIN));
}

/* ---- since the focus ---------------------------------------------------------------- */

static void focus_rows(struct season_draw *f, const struct person *who,
                       const struct progress_focus *x, const struct pairs *p) {
    struct draw *d = f->d;
    const struct word_info *w = word_info(x->treats);
    rows_room(f, 5, p, page_say(d, "focus"));
    f->y_mm += SEASON_ROW_MM + group_mm;
    page_season_who(d, who, name_wide_mm, f->y_mm);
    page_words(d, text_mm, f->y_mm, TYPE_TABLE,
               page_cut(d,
                        str_printf(d->arena, "%.*s: %.*s, “%.*s”", STR_ARG(page_day(d, x->since)),
                                   STR_ARG(w->word), STR_ARG(x->drill)),
                        TYPE_TABLE, PAGE_WIDE_MM - text_mm));
    f->y_mm += SEASON_ROW_MM;
    row(f, NULL, page_say(d, "missed, matches"), x->missed, progress_compares(x, x->missed));
    f->y_mm += SEASON_ROW_MM;
    row(f, NULL, page_sayf(d, "with %.*s, matches", STR_ARG(w->word)), x->in_matches,
        progress_compares(x, x->in_matches));
    f->y_mm += SEASON_ROW_MM;
    row(f, NULL,
        x->goal.n > 0
            ? page_sayf(d, "hits of the drill, goal %.*s", STR_ARG(page_fraction(d, x->goal)))
            : page_say(d, "hits of the drill"),
        x->drilled, !x->mixed && progress_compares(x, x->drilled));
}

void page_season_focuses(struct season_draw *f) {
    struct draw *d = f->d;
    const struct progress *from = f->of->advice->progress;
    struct pairs p = {page_say(d, "before"), page_say(d, "from then on")};
    bool any = false;
    for (size_t i = 0; i < progress_people(from); i++) {
        struct progress_focus x;
        if (!progress_focus(from, i, &x))
            continue;
        if (!any)
            begin(f, page_say(d, "Since the focus was written down"),
                  page_say(d, "the day itself belongs to what comes after"), &p,
                  page_say(d, "focus"));
        any = true;
        focus_rows(f, progress_person(from, i), &x, &p);
    }
    if (!any)
        return;
    end(f);
    page_season_note(f,
                     page_sayf(d,
                               "A difference needs %u on either side and %u days; tosses are not "
                               "compared with tries, nor rings of several widths.",
                               rate_say_from_n(SAY_COMPARISON), (unsigned)PROGRESS_DAYS_MIN));
}
