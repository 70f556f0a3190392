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
    }
    return INK_BLACK;
}

void page_dot(struct draw *d, double x_mm, double y_mm, enum dot dot) {
    enum page_ink ink = ink_of(dot);
    page_circle(d, x_mm, y_mm, dot_radius_mm, dot_line_pt, ink, dot == DOT_OURS ? ink : INK_WHITE);
}

/* A limit within the scale ends in a stroke, one beyond it in an open head. */
static void end_stroke(struct draw *d, double x_mm, double y_mm, bool beyond, enum page_ink ink) {
    double half = end_mm / 2;
    if (!beyond) {
        page_line(d, x_mm, y_mm - half, x_mm, y_mm + half, end_pt, ink);
        return;
    }
    page_line(d, x_mm - half, y_mm - half, x_mm, y_mm, end_pt, ink);
    page_line(d, x_mm - half, y_mm + half, x_mm, y_mm, end_pt, ink);
}

void page_rate(struct draw *d, const struct scale *s, double y_mm, struct rate r, enum dot dot) {
    if (rate_may_say(r.n) < SAY_INTERVAL)
        return;
    struct interval i = rate_wilson(r);
    enum page_ink ink = ink_of(dot);
    double low = page_scale_x(s, fmin(i.low, s->end_frac)),
           high = page_scale_x(s, fmin(i.high, s->end_frac));
    page_line(d, low, y_mm, high, y_mm, dot_line_pt, ink);
    end_stroke(d, low, y_mm, false, ink);
    end_stroke(d, high, y_mm, i.high > s->end_frac, ink);
    if (rate_frac(r) <= s->end_frac)
        page_dot(d, page_scale_x(s, rate_frac(r)), y_mm, dot);
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
