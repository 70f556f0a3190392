/* Jump serves by week: a plain bar each, and the caution. No ratio of weeks is
 * drawn: none is known to foretell an injury. */
#include "page/season_parts.h"

static const double pitch_x_mm = 61, pitch_y_mm = 22, wide_mm = 55, plot_x_mm = 8;
static const double plot_y_mm = 4.4, high_mm = 8.5, label_mm = 3.4, first_mm = 7.5;
static const double fill_frac = 0.74, zero_wide_mm = 2;
enum { ACROSS = 3, WEEKS_MOST = 53 };

/* The weeks that are drawn, and the scale of all bars. */
struct bars {
    struct season_weeks weeks;
    unsigned from, n; /* the latest, where there are too many */
    unsigned top;
};

/* Up to 10, 20, 40, 60, ...: the middle of the scale is a whole number too. */
static unsigned round_up(unsigned n) {
    return n <= 10 ? 10 : (n + 19) / 20 * 20;
}

static struct bars bars_of(const struct season *s) {
    struct bars b = {.weeks = season_weeks(s)};
    unsigned most = 0;
    b.n = b.weeks.n < WEEKS_MOST ? b.weeks.n : WEEKS_MOST;
    b.from = b.weeks.n - b.n;
    for (size_t i = 0; i < s->server_n; i++)
        for (unsigned w = b.from; w < b.weeks.n; w++) {
            unsigned n = season_jumps(s, i, w);
            most = n > most ? n : most;
        }
    b.top = round_up(most);
    return b;
}

static void axis(struct draw *d, const struct bars *b, double x_mm, double axis_mm) {
    for (unsigned k = 0; k <= 2; k++) {
        double y = axis_mm - high_mm * k / 2;
        page_line(d, x_mm + plot_x_mm, y, x_mm + wide_mm, y, k ? RULE_GRID_PT : RULE_HEAD_PT,
                  k ? INK_GRID : INK_BLACK);
        if (k > 0)
            page_right(d, x_mm + plot_x_mm - 1, y + 0.9, TYPE_NOTE, page_number(d, b->top * k / 2));
    }
    if (b->from == 0 && b->n > 1)
        page_words(d, x_mm + plot_x_mm, axis_mm + label_mm, TYPE_NOTE,
                   page_sayf(d, "week %u", b->weeks.first));
    page_right(d, x_mm + wide_mm, axis_mm + label_mm, TYPE_NOTE,
               b->n > 1 ? page_number(d, b->weeks.last) : page_sayf(d, "week %u", b->weeks.last));
}

/* One week; the highest is labelled, and a week without a jump serve is a 0. */
static void bar(struct draw *d, const struct bars *b, double left_mm, double axis_mm, unsigned ix,
                unsigned n, bool highest) {
    struct type faint = TYPE_NOTE, bold = {TYPE_NOTE_PT, FACE_BOLD, INK_BLACK};
    double step = (wide_mm - plot_x_mm) / b->n, wide = step < 8 ? step : 8;
    double middle = left_mm + (ix + 0.5) * step, half = wide * fill_frac / 2;
    double top = axis_mm - high_mm * n / b->top;
    faint.ink = INK_FAINT;
    if (n > 0)
        page_add(d, (struct page_item){.kind = PAGE_BOX,
                                       .x_mm = middle - half,
                                       .y_mm = top + d->push_mm,
                                       .x2_mm = middle + half,
                                       .y2_mm = axis_mm + d->push_mm,
                                       .fill = INK_NOTE});
    else if (step >= zero_wide_mm)
        page_centred(d, middle, axis_mm - 0.7, faint, STR("0"));
    if (highest)
        page_centred(d, middle, top - 0.7, bold, page_number(d, n));
}

static void panel(struct season_draw *f, const struct bars *b, size_t server, double x_mm) {
    struct draw *d = f->d;
    const struct season *s = f->of->season;
    const struct person *who = s->servers[server].who;
    double axis_mm = f->y_mm + plot_y_mm + high_mm;
    unsigned most = 0;
    page_words(d, x_mm, f->y_mm, TYPE_TABLE_BOLD, page_number(d, who->shirt));
    if (!d->facts->no_names)
        page_words(d, x_mm + plot_x_mm, f->y_mm, TYPE_TABLE,
                   page_cut(d, who->name, TYPE_TABLE, wide_mm - plot_x_mm));
    axis(d, b, x_mm, axis_mm);
    for (unsigned w = 0; w < b->n; w++) {
        unsigned n = season_jumps(s, server, b->from + w);
        most = n > most ? n : most;
    }
    for (unsigned w = 0, labelled = 0; w < b->n; w++) {
        unsigned n = season_jumps(s, server, b->from + w);
        bool highest = n == most && n > 0 && !labelled;
        labelled += highest;
        bar(d, b, x_mm + plot_x_mm, axis_mm, w, n, highest);
    }
}

void page_season_jump_weeks(struct season_draw *f) {
    struct draw *d = f->d;
    const struct season *s = f->of->season;
    struct bars b = bars_of(s);
    unsigned n = 0;
    if (b.n == 0)
        return;
    struct str head = page_say(d, "Jump serves a week"),
               note = page_say(d, "matches and practice · one bar a week, the same scale for all");
    for (size_t i = 0; i < s->server_n; i++) {
        if (s->servers[i].jumps_n == 0)
            continue;
        if (n == 0)
            page_season_section(f, first_mm + pitch_y_mm + 8, head, note);
        if (n % ACROSS == 0) {
            f->y_mm += n == 0 ? first_mm : pitch_y_mm;
            if (!page_season_room(f, pitch_y_mm)) {
                page_section(d, 0, PAGE_WIDE_MM, f->y_mm, head, note);
                f->y_mm += first_mm;
            }
        }
        panel(f, &b, i, n++ % ACROSS * pitch_x_mm);
    }
    f->y_mm += plot_y_mm + high_mm + label_mm;
    page_season_note(
        f, page_say(d, "Serves that were written down only, a small part of all jumps: "
                       "nobody knows a safe number. A jump serve loads shoulder and knee. "
                       "Ask about a week far above the usual ones; pain, or an unusual "
                       "week, goes to a medical professional."));
}
