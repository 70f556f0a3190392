/* Where a team played the balls that reached it: a court, a table, and who
 * stands where. */
#include "page/scouting.h"

#include <math.h>

static const double metre_mm = 7.4, court_centre_mm = 41, court_wide_mm = 82, right_mm = 95;
static const double balls_mm = 121, broke_mm = 137.5, plot_mm = 143.5, plot_end_mm = 175;
static const double row_mm = 4.15, stands_mm = 113, seam_half_mm = 7.5;
enum { STANDS_MAX = 4 };

static const char *const labels[SCOUT_PLACES] = {
    [SCOUT_5] = "5",     [SCOUT_SEAM_56] = WORDS("seam 5-6"),
    [SCOUT_6] = "6",     [SCOUT_SEAM_16] = WORDS("seam 1-6"),
    [SCOUT_1] = "1",     [SCOUT_FRONT] = "4, 3, 2",
    [SCOUT_NOT_WRITTEN] = WORDS("not written"),
};

/* ---- the court ---------------------------------------------------------------------- */

/* Where the middle of each place lies, in metres of the notation. */
static const struct {
    double x_m, d_m;
} middles[SCOUT_NOT_WRITTEN] = {
    [SCOUT_5] = {1.5, 6}, [SCOUT_SEAM_56] = {3, 7.9}, [SCOUT_6] = {4.5, 6},
    [SCOUT_SEAM_16] = {6, 7.9}, [SCOUT_1] = {7.5, 6}, [SCOUT_FRONT] = {4.5, 1.5},
};

static void bracket(struct draw *d, double x_mm, double y_mm, double y2_mm, double foot_mm) {
    page_line(d, x_mm, y_mm, x_mm, y2_mm, 0.5, INK_BLACK);
    page_line(d, x_mm, y_mm, x_mm + foot_mm, y_mm, 0.5, INK_BLACK);
    page_line(d, x_mm, y2_mm, x_mm + foot_mm, y2_mm, 0.5, INK_BLACK);
}

/* A seam lies on the bound of two zones, so that its counts stand in brackets. */
static void seam(struct draw *d, double x_mm, double y_mm, enum scout_place at,
                 const struct counts *c) {
    struct str words = page_sayf(d, "%u of %u", c->broke, c->serves);
    struct str name = page_cut(d, page_say(d, labels[at]), TYPE_NOTE, 2 * seam_half_mm - 1);
    page_add(d, (struct page_item){.kind = PAGE_BOX,
                                   .x_mm = x_mm - seam_half_mm,
                                   .y_mm = y_mm - 3.6 + d->push_mm,
                                   .x2_mm = x_mm + seam_half_mm,
                                   .y2_mm = y_mm + 4.4 + d->push_mm,
                                   .fill = INK_WHITE});
    bracket(d, x_mm - seam_half_mm, y_mm - 3.6, y_mm + 4.4, 0.8);
    bracket(d, x_mm + seam_half_mm, y_mm - 3.6, y_mm + 4.4, -0.8);
    page_centred(d, x_mm, y_mm, TYPE_TABLE_BOLD,
                 page_cut(d, words, TYPE_TABLE_BOLD, 2 * seam_half_mm - 1));
    page_centred(d, x_mm, y_mm + 3.3, TYPE_NOTE, name);
}

static void zone(struct draw *d, double x_mm, double y_mm, const struct counts *c) {
    struct type large = {TYPE_TITLE_PT, FACE_BOLD, INK_BLACK};
    page_centred(d, x_mm, y_mm, large, page_number(d, c->broke));
    page_centred(d, x_mm, y_mm + 4.6, TYPE_TABLE, page_sayf(d, "of %u", c->serves));
}

static void front(struct draw *d, double x_mm, double y_mm, const struct counts *c) {
    page_centred(d, x_mm, y_mm, TYPE_TABLE_BOLD, page_sayf(d, "%u of %u", c->broke, c->serves));
    page_centred(d, x_mm, y_mm + 3.8, TYPE_NOTE, page_say(d, "zones 4, 3, 2 together"));
}

static void counts_at(struct draw *d, const struct court *c, const struct scout *s,
                      enum scout_place at) {
    double x = page_court_x(c, middles[at].x_m), y = page_court_y(c, middles[at].d_m);
    if (at == SCOUT_FRONT)
        front(d, x, y, &s->at[at]);
    else if (at == SCOUT_SEAM_56 || at == SCOUT_SEAM_16)
        seam(d, x, y, at, &s->at[at]);
    else
        zone(d, x, y, &s->at[at]);
}

static double court(struct draw *d, const struct scout *s, double y_mm) {
    struct court c = {.centre_mm = court_centre_mm,
                      .net_mm = y_mm + 6 + 9 * metre_mm,
                      .scale_mm = metre_mm,
                      .side_m = 0.8};
    double y = page_wrapped(d, 0, page_width(d, page_say(d, "By zone and seam"), TYPE_HEAD) + 4, y_mm,
                            court_wide_mm, 3.2, TYPE_NOTE,
                            page_say(d, "broke of all that came there"), NULL);
    c.net_mm += y - y_mm;
    page_court_lines(d, &c);
    for (unsigned i = 0; i < SCOUT_NOT_WRITTEN; i++)
        counts_at(d, &c, s, (enum scout_place)i);
    page_centred(d, court_centre_mm, c.net_mm + 4.6, TYPE_NOTE,
                 page_cut(d, page_say(d, "net; the server is below"), TYPE_NOTE, court_wide_mm));
    return page_note(d, 0, c.net_mm + 9.2, court_wide_mm,
                     page_sayf(d, "Where they played it, or an ace fell. Not written: %u of %u.",
                               s->at[SCOUT_NOT_WRITTEN].serves, s->all.serves));
}

/* ---- the tables --------------------------------------------------------------------- */

static void row(struct draw *d, const struct scale *scale, double y_mm, struct str label,
                const struct counts *c, bool total) {
    struct type type = total ? TYPE_TABLE_BOLD : TYPE_TABLE;
    page_words(d, right_mm, y_mm, type, page_cut(d, label, type, balls_mm - right_mm - 7));
    page_count(d, balls_mm, y_mm, total, c->serves);
    page_right(d, broke_mm, y_mm, type, page_fraction(d, page_scout_broke(c)));
    page_rate(d, scale, y_mm - 1.1, page_scout_broke(c), DOT_THEIRS);
}

static double table(struct draw *d, const struct scout *s, double y_mm) {
    struct scale scale = {plot_mm, plot_end_mm, page_scout_end(s->at, SCOUT_PLACES)};
    double top = y_mm + 5.6, end = top + 0.3 + row_mm * SCOUT_PLACES + 1.5;
    page_rule(d, right_mm, PAGE_WIDE_MM, y_mm, RULE_TABLE_PT);
    page_words(d, right_mm, top - 1.6, TYPE_NOTE, page_say(d, "zone"));
    page_column(d, balls_mm, 12, top - 1.6, page_say(d, "balls"));
    page_column(d, broke_mm, 13, top - 1.6, page_say(d, "broke"));
    page_grid(d, &scale, 0.25, top, end, top - 1.6);
    page_scout_reference(d, &scale, s, top, end);
    page_rule(d, right_mm, PAGE_WIDE_MM, top, RULE_HEAD_PT);
    y_mm = top + 0.3;
    for (unsigned i = 0; i < SCOUT_PLACES; i++)
        row(d, &scale, y_mm += row_mm, page_say(d, labels[i]), &s->at[i], false);
    page_rule(d, right_mm, PAGE_WIDE_MM, end, RULE_HEAD_PT);
    row(d, &scale, y_mm += 5.2, page_say(d, "all"), &s->all, true);
    page_rule(d, right_mm, PAGE_WIDE_MM, y_mm + 1.9, RULE_TABLE_PT);
    return page_note(d, right_mm, y_mm + 5.4, PAGE_WIDE_MM - right_mm,
                     page_say(d, "Seam: half a metre to each side of the bound, or written as "
                                 "5-6, 1-6. Each ball counts in one row. 10 balls and more have "
                                 "a dot."));
}

/* "11 (45), 4 (6)"; of many shirts the last ones together. */
static struct str who(struct draw *d, const struct scout *s, enum scout_place at) {
    struct scout_receiver all[SHIRT_MAX + 1];
    size_t n = scout_stands(s, at, all), own = n <= STANDS_MAX ? n : STANDS_MAX - 1;
    unsigned others = 0;
    struct buf b;
    buf_init(&b, d->arena);
    for (size_t i = 0; i < own; i++)
        buf_printf(&b, "%s%u (%u)", i ? ", " : "", all[i].shirt, all[i].counts.serves);
    for (size_t i = own; i < n; i++)
        others += all[i].counts.serves;
    if (others > 0)
        buf_printf(&b, ", %.*s", STR_ARG(page_sayf(d, "others (%u)", others)));
    return n > 0 ? buf_str(&b) : STR("–");
}

static double stands(struct draw *d, const struct scout *s, double y_mm) {
    page_section(d, right_mm, PAGE_WIDE_MM, y_mm, page_say(d, "Who stands where"), STR_NONE);
    page_words(d, right_mm, y_mm + 6.5, TYPE_NOTE,
               page_cut(d, page_say(d, "zone"), TYPE_NOTE, stands_mm - right_mm - 2));
    page_words(d, stands_mm, y_mm + 6.5, TYPE_NOTE,
               page_cut(d, page_say(d, "shirts that played it (balls)"), TYPE_NOTE,
                        PAGE_WIDE_MM - stands_mm));
    page_rule(d, right_mm, PAGE_WIDE_MM, y_mm + 8.1, RULE_HEAD_PT);
    y_mm += 8.4;
    for (unsigned i = 0; i < SCOUT_FRONT; i++) {
        y_mm += row_mm;
        page_words(d, right_mm, y_mm, TYPE_TABLE,
                   page_cut(d, page_say(d, labels[i]), TYPE_TABLE, stands_mm - right_mm - 2));
        page_words(d, stands_mm, y_mm, TYPE_TABLE,
                   page_cut(d, who(d, s, (enum scout_place)i), TYPE_TABLE,
                            PAGE_WIDE_MM - stands_mm));
    }
    page_rule(d, right_mm, PAGE_WIDE_MM, y_mm + 1.7, RULE_TABLE_PT);
    return y_mm + 1.7;
}

double page_scout_places(struct draw *d, const struct scout *s, double y_mm) {
    page_words(d, 0, y_mm, TYPE_HEAD, page_say(d, "By zone and seam"));
    if (s->at[SCOUT_NOT_WRITTEN].serves == s->all.serves)
        return page_note(d, 0, y_mm + 5, PAGE_WIDE_MM,
                         page_say(d, "Where the balls were played was not written down."));
    double left = court(d, s, y_mm);
    double right = table(d, s, y_mm - 2.5);
    return fmax(left, stands(d, s, right + 7.5));
}
