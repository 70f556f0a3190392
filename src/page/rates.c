/* Dots of rates with their intervals. */
#include "page/draw.h"

#include <math.h>

static const double dot_radius_mm = 0.95, dot_line_pt = 0.9;
static const double end_mm = 1.1, end_pt = 0.6;

double page_scale_x(const struct scale *s, double frac) {
    return s->x_mm + frac / s->end_frac * (s->end_mm - s->x_mm);
}

static enum page_ink ink_of(enum dot dot) {
    switch (dot) {
    case DOT_OURS:
        return INK_OURS;
    case DOT_THEIRS:
        return INK_BLACK;
    case DOT_LAST:
        return INK_NOTE;
    }
    return INK_BLACK;
}

void page_dot(struct draw *d, double x_mm, double y_mm, enum dot dot) {
    enum page_ink ink = ink_of(dot);
    page_circle(d, x_mm, y_mm, dot_radius_mm, dot_line_pt, ink, dot == DOT_OURS ? ink : INK_WHITE);
}

/* A limit within the scale ends in a stroke, one beyond it in an open head that
 * points to where it lies: `back_mm` leads from its tip into the scale. */
static void end_stroke(struct draw *d, double x_mm, double y_mm, bool beyond, double back_mm,
                       enum page_ink ink) {
    double half = end_mm / 2;
    if (!beyond) {
        page_line(d, x_mm, y_mm - half, x_mm, y_mm + half, end_pt, ink);
        return;
    }
    page_line(d, x_mm + back_mm, y_mm - half, x_mm, y_mm, end_pt, ink);
    page_line(d, x_mm + back_mm, y_mm + half, x_mm, y_mm, end_pt, ink);
}

struct span {
    double low_mm, high_mm;
    bool below, above; /* a limit lies beyond the scale */
};

static void span_bar(struct draw *d, struct span s, double y_mm, enum page_ink ink) {
    page_line(d, s.low_mm, y_mm, s.high_mm, y_mm, dot_line_pt, ink);
    end_stroke(d, s.low_mm, y_mm, s.below, end_mm / 2, ink);
    end_stroke(d, s.high_mm, y_mm, s.above, -end_mm / 2, ink);
}

void page_rate(struct draw *d, const struct scale *s, double y_mm, struct rate r, enum dot dot) {
    if (rate_may_say(r.n) < SAY_INTERVAL)
        return;
    struct interval i = rate_wilson(r);
    enum page_ink ink = ink_of(dot);
    struct span span = {page_scale_x(s, fmin(i.low, s->end_frac)),
                        page_scale_x(s, fmin(i.high, s->end_frac)), false, i.high > s->end_frac};
    span_bar(d, span, y_mm, ink);
    if (rate_frac(r) <= s->end_frac)
        page_dot(d, page_scale_x(s, rate_frac(r)), y_mm, dot);
}

bool page_compares(struct rate a, struct rate b) {
    return rate_may_say(a.n) >= SAY_COMPARISON && rate_may_say(b.n) >= SAY_COMPARISON;
}

void page_difference(struct draw *d, const struct scale *s, double y_mm, struct rate a,
                     struct rate b) {
    struct interval i;
    double half = s->end_frac / 2;
    if (!page_compares(a, b) || !rate_difference(a, b, &i))
        return;
    double at = rate_frac(a) - rate_frac(b);
    struct span span = {page_scale_x(s, half + fmax(i.low, -half)),
                        page_scale_x(s, half + fmin(i.high, half)), i.low < -half, i.high > half};
    span_bar(d, span, y_mm, INK_BLACK);
    if (fabs(at) <= half)
        page_circle(d, page_scale_x(s, half + at), y_mm, dot_radius_mm, dot_line_pt, INK_BLACK,
                    INK_BLACK);
}

void page_grid(struct draw *d, const struct scale *s, double step_frac, double y_mm, double y2_mm,
               double label_mm) {
    for (unsigned i = 0; i * step_frac <= s->end_frac + 1e-9; i++) {
        double x = page_scale_x(s, i * step_frac);
        page_line(d, x, y_mm, x, y2_mm, RULE_GRID_PT, INK_GRID);
        struct str percent = str_printf(d->arena, "%.0f", i * step_frac * 100);
        if (x + 2 > PAGE_WIDE_MM - 1)
            page_right(d, PAGE_WIDE_MM, label_mm, TYPE_NOTE, percent);
        else
            page_centred(d, x, label_mm, TYPE_NOTE, percent);
    }
}

/* ---- ratios ---------------------------------------------------------------- */

static double ratio_x(const struct log_scale *s, double ratio) {
    double inside = fmax(s->low, fmin(s->high, ratio));
    return s->x_mm + (s->end_mm - s->x_mm) * log(inside / s->low) / log(s->high / s->low);
}

void page_ratio(struct draw *d, const struct log_scale *s, double y_mm, struct twoway_risk r) {
    double high = r.bounded ? r.high : HUGE_VAL;
    struct span span = {ratio_x(s, r.low), ratio_x(s, high), r.low < s->low, high > s->high};
    span_bar(d, span, y_mm, INK_BLACK);
    if (r.bounded && r.ratio >= s->low && r.ratio <= s->high)
        page_circle(d, ratio_x(s, r.ratio), y_mm, dot_radius_mm, dot_line_pt, INK_BLACK, INK_BLACK);
}

void page_ratio_grid(struct draw *d, const struct log_scale *s, double y_mm, double y2_mm) {
    for (double at = s->low; at <= s->high; at *= 2) {
        double x = ratio_x(s, at);
        bool one = fabs(at - 1) < 1e-9;
        page_line(d, x, y_mm, x, y2_mm, one ? RULE_TABLE_PT : RULE_GRID_PT,
                  one ? INK_BLACK : INK_GRID);
    }
}

void page_ratio_labels(struct draw *d, const struct log_scale *s, double y_mm) {
    for (double at = s->low; at <= s->high; at *= 2)
        page_centred(d, ratio_x(s, at), y_mm, TYPE_NOTE,
                     at < 0.3   ? STR("¼")
                     : at < 0.6 ? STR("½")
                                : str_printf(d->arena, "%.0f", at));
}

/* One digit behind the mark up to ten; nothing behind it from there on, and of 0. */
static struct str times(const struct draw *d, double ratio) {
    if (ratio <= 0 || ratio >= 9.95)
        return str_printf(d->arena, "%.0f", ratio);
    return page_decimal(d, (int)lround(ratio * 10) * 10, 1);
}

struct str page_ratio_words(const struct draw *d, struct twoway_risk r) {
    if (!r.bounded)
        return page_sayf(d, "at least %.*s", STR_ARG(times(d, r.low)));
    return page_sayf(d, "%.*s (%.*s to %.*s)", STR_ARG(times(d, r.ratio)),
                     STR_ARG(times(d, r.low)), STR_ARG(times(d, r.high)));
}
