/* The run of each set: our lead after each point, the points that a serve made
 * or gave by itself, and whose turn it was. A point is a cell, the same width
 * in all sets of a report, so that a longer set is a longer line. */
#include "page/draw.h"

#include <math.h>

static const double title_y_mm = 11.8, heads_gap_mm = 9;
static const double plot_mm = 22, label_mm = 20.5;
static const double most_cell_mm = 4, usual_point_mm = 0.72, least_point_mm = 0.45, most_lead_mm = 7;
static const double mark_a_mm = 2.0, mark_gap_mm = 1.7, mark_room_mm = 2.8;
static const double lane_mm = 3.9, score_mm = 3.4, between_mm = 1.6, most_between_mm = 7;
static const double ours_pt = 1.6, theirs_pt = 0.8, lead_pt = 0.9;
enum { LEAD_LINE = 5, SCORE_STEP = 10 };

/* What all sets of the page share. */
struct runs {
    double cell_mm;        /* along, a point */
    double point_mm;       /* up, a point of lead */
    double up_mm, down_mm; /* room above the zero line, and below it to the turns */
    double high_mm;        /* of a set */
};

static bool shown(const struct played *p) {
    return p->score_known && !p->cancelled;
}

static unsigned points_before(const struct played *p) {
    return (unsigned)p->before[OURS] + p->before[THEIRS];
}

static int lead_before(const struct played *p) {
    return p->before[OURS] - p->before[THEIRS];
}

static bool final_known(const struct set_result *s) {
    return s->known[OURS] && s->known[THEIRS];
}

/* How many points the set has, as far as they are known. */
static unsigned cells_of(const struct checked *c, const struct set_result *s) {
    unsigned n = final_known(s) ? s->points[OURS] + s->points[THEIRS] : 0;
    for (size_t i = s->from; i < s->to; i++)
        if (shown(&c->played[i]) && points_before(&c->played[i]) >= n)
            n = points_before(&c->played[i]) + 1;
    return n;
}

/* The largest lead of one side, and of the other; at least what the axis shows. */
struct leads {
    int up, down;
};

static void widen(struct leads *l, int lead) {
    l->up = lead > l->up ? lead : l->up;
    l->down = -lead > l->down ? -lead : l->down;
}

static struct leads leads_of(const struct checked *c) {
    struct leads l = {LEAD_LINE, LEAD_LINE};
    for (unsigned k = 0; k < c->set_n; k++) {
        const struct set_result *s = &c->sets[k];
        if (final_known(s))
            widen(&l, (int)s->points[OURS] - (int)s->points[THEIRS]);
        for (size_t i = s->from; i < s->to; i++)
            if (shown(&c->played[i]))
                widen(&l, lead_before(&c->played[i]));
    }
    return l;
}

/* Of the room that a set has: leads are drawn flatter to fit into it. */
static double point_of(struct leads l, double room_mm) {
    double usual = fmin(usual_point_mm, most_lead_mm / (l.up > l.down ? l.up : l.down));
    return fmin(usual, fmax(least_point_mm, room_mm / (l.up + l.down)));
}

static struct runs scale_of(const struct checked *c, double room_mm) {
    double lanes = (c->match->ours_only ? 1 : 2) * lane_mm + score_mm;
    unsigned longest = 1;
    struct leads l = leads_of(c);
    struct runs r;
    for (unsigned i = 0; i < c->set_n; i++) {
        unsigned n = cells_of(c, &c->sets[i]);
        longest = n > longest ? n : longest;
    }
    r.cell_mm = fmin((PAGE_WIDE_MM - plot_mm) / longest, most_cell_mm);
    r.point_mm = point_of(l, room_mm - 2 * mark_room_mm - lanes);
    r.up_mm = l.up * r.point_mm + mark_room_mm;
    r.down_mm = l.down * r.point_mm + mark_room_mm;
    r.high_mm = r.up_mm + r.down_mm + lanes;
    return r;
}

static double x_of(const struct runs *r, unsigned points) {
    return plot_mm + points * r->cell_mm;
}

/* ---- one set ---------------------------------------------------------------------- */

static void axis(struct draw *d, const struct runs *r, unsigned cells, double zero_mm) {
    static const char *const labels[] = {"+5", "0", "−5"};
    double end = x_of(r, cells);
    for (int i = 0; i < 3; i++) {
        double y = zero_mm + (i - 1) * LEAD_LINE * r->point_mm;
        if (i == 1)
            page_line(d, plot_mm, y, end, y, RULE_GRID_PT, INK_NOTE);
        else
            page_dashed(d, plot_mm, y, end, y, RULE_GRID_PT, INK_GRID, 0.5, 0.7);
        page_right(d, label_mm, y + 1, TYPE_NOTE, str_of(labels[i]));
    }
}

static void step(struct draw *d, const struct runs *r, double zero_mm, unsigned from, unsigned to,
                 int lead, int next) {
    double y = zero_mm - lead * r->point_mm, y2 = zero_mm - next * r->point_mm;
    page_line(d, x_of(r, from), y, x_of(r, to), y, lead_pt, INK_BLACK);
    if (lead != next)
        page_line(d, x_of(r, to), y, x_of(r, to), y2, lead_pt, INK_BLACK);
}

static void lead_line(struct draw *d, const struct runs *r, const struct set_result *s,
                      unsigned cells, double zero_mm) {
    const struct checked *c = d->tally->checked;
    unsigned at = 0;
    int lead = 0, last;
    for (size_t i = s->from; i < s->to; i++) {
        const struct played *p = &c->played[i];
        if (!shown(p) || points_before(p) <= at)
            continue;
        step(d, r, zero_mm, at, points_before(p), lead, lead_before(p));
        at = points_before(p);
        lead = lead_before(p);
    }
    last = final_known(s) ? (int)s->points[OURS] - (int)s->points[THEIRS] : lead;
    step(d, r, zero_mm, at, cells, lead, last);
}

/* Above the line a point that a serve made for us, below it one that it gave. */
static void point_marks(struct draw *d, const struct runs *r, const struct set_result *s,
                        double zero_mm) {
    const struct checked *c = d->tally->checked;
    for (size_t i = s->from; i < s->to; i++) {
        const struct played *p = &c->played[i];
        bool ace = played_ace(p), for_us = ace == (p->side == OURS);
        int lead = lead_before(p);
        if (!shown(p) || !played_counts(p) || (!ace && !played_error(p)))
            continue;
        lead += for_us ? 1 : 0;
        page_put(d, x_of(r, points_before(p)) + r->cell_mm / 2,
                 zero_mm - lead * r->point_mm + (for_us ? -mark_gap_mm : mark_gap_mm),
                 fmin(mark_a_mm, fmax(r->cell_mm, 1.4)), page_mark_of(p), p);
        if (p->side != OURS)
            d->page->items[d->page->n - 1].ink = INK_NOTE;
    }
}

static void timeouts(struct draw *d, const struct runs *r, const struct set_result *s,
                     double zero_mm, double end_mm) {
    const struct checked *c = d->tally->checked;
    for (size_t i = s->from; i < s->to; i++) {
        double x = x_of(r, points_before(&c->played[i]));
        if (shown(&c->played[i]) && c->played[i].after_timeout)
            page_dashed(d, x, zero_mm - r->up_mm + 1, x, end_mm, RULE_HEAD_PT, INK_NOTE, 0.3, 0.7);
    }
}

static bool same_turn(const struct played *a, const struct played *b) {
    return a->side == b->side && a->server == b->server && b->turn_serve > a->turn_serve;
}

/* A bar over the points of a turn and the shirt under it, where it has room. */
static void turn(struct draw *d, const struct runs *r, const struct played *first, unsigned to,
                 double y_mm, double *free_mm) {
    struct type type = {TYPE_NOTE_PT, first->cold ? FACE_BOLD : FACE_REGULAR, INK_BLACK};
    double x = x_of(r, points_before(first)), x2 = x_of(r, to);
    struct str shirt = first->server == SHIRT_NONE ? STR("?") : page_number(d, first->server);
    double wide = page_width(d, shirt, type), left = fmin((x + x2 - wide) / 2, PAGE_WIDE_MM - wide);
    page_line(d, x + 0.15, y_mm, x2 - 0.15, y_mm, first->side == OURS ? ours_pt : theirs_pt,
              first->side == OURS ? INK_OURS : INK_NOTE);
    if (left < *free_mm)
        return;
    page_words(d, left, y_mm + 3, type, shirt);
    *free_mm = left + wide + 0.6;
}

static void lane(struct draw *d, const struct runs *r, const struct set_result *s, enum side side,
                 double y_mm) {
    const struct checked *c = d->tally->checked;
    const struct played *first = NULL, *last = NULL;
    double free_mm = 0;
    page_right(d, label_mm, y_mm + 3, TYPE_NOTE, side == OURS ? page_say(d, "we") : page_say(d, "they"));
    for (size_t i = s->from; i < s->to; i++) {
        const struct played *p = &c->played[i];
        if (!shown(p) || p->side != side)
            continue;
        if (first && !same_turn(last, p)) {
            turn(d, r, first, points_before(last) + 1, y_mm, &free_mm);
            first = NULL;
        }
        first = first ? first : p;
        last = p;
    }
    if (first)
        turn(d, r, first, points_before(last) + 1, y_mm, &free_mm);
}

/* The score where one of the teams first has ten and twenty. */
static void scores(struct draw *d, const struct runs *r, const struct set_result *s, double y_mm) {
    const struct checked *c = d->tally->checked;
    struct type type = {TYPE_NOTE_PT, FACE_BOLD, INK_NOTE};
    unsigned next = SCORE_STEP;
    double free_mm = 0;
    for (size_t i = s->from; i < s->to; i++) {
        const struct played *p = &c->played[i];
        unsigned most = p->before[OURS] > p->before[THEIRS] ? p->before[OURS] : p->before[THEIRS];
        if (!shown(p) || most < next)
            continue;
        struct str score =
            str_printf(d->arena, "%u–%u", p->before[OURS], p->before[THEIRS]);
        double half = page_width(d, score, type) / 2;
        double middle = fmin(x_of(r, points_before(p)), PAGE_WIDE_MM - half);
        if (middle - half > free_mm)
            page_centred(d, middle, y_mm, type, score);
        free_mm = middle + half;
        next = most - most % SCORE_STEP + SCORE_STEP;
    }
}

static void set_label(struct draw *d, const struct set_result *s, double zero_mm) {
    page_words(d, 0, zero_mm - 1, TYPE_TABLE_BOLD, page_sayf(d, "Set %u", s->number));
    if (final_known(s))
        page_words(d, 0, zero_mm + 3, TYPE_TABLE,
                   str_printf(d->arena, "%u–%u%s", s->points[OURS], s->points[THEIRS],
                              s->ended ? "" : "*"));
}

static void one_set(struct draw *d, const struct runs *r, const struct set_result *s,
                    double y_mm) {
    unsigned cells = cells_of(d->tally->checked, s);
    double zero = y_mm + r->up_mm, lanes = zero + r->down_mm;
    bool theirs = !d->tally->checked->match->ours_only;
    set_label(d, s, zero);
    if (cells == 0) {
        page_words(d, plot_mm, zero + 1, TYPE_NOTE, page_say(d, "the score is not known"));
        return;
    }
    axis(d, r, cells, zero);
    timeouts(d, r, s, zero, lanes + (theirs ? 2 : 1) * lane_mm);
    lead_line(d, r, s, cells, zero);
    point_marks(d, r, s, zero);
    lane(d, r, s, OURS, lanes);
    if (theirs)
        lane(d, r, s, THEIRS, lanes + lane_mm);
    scores(d, r, s, lanes + (theirs ? 2 : 1) * lane_mm + 2.8);
}

/* ---- all sets ----------------------------------------------------------------------- */

static void heading(struct draw *d, double y_mm) {
    double wide = page_words(d, 0, y_mm, TYPE_HEAD, page_say(d, "Run of each set"));
    page_beside(d, wide, PAGE_WIDE_MM, y_mm,
               page_say(d, "line: our lead · above it: our aces, their misses · below: the "
                   "reverse · bars: turns, bold cold · dotted: time-out"));
}

void page_runs(struct draw *d, double y_mm) {
    const struct checked *c = d->tally->checked;
    double between = between_mm, end = BODY_END_MM - d->push_mm;
    if (c->set_n == 0)
        return;
    struct runs r = scale_of(c, (end - y_mm - heads_gap_mm) / c->set_n - between);
    if (y_mm + heads_gap_mm + c->set_n * (r.high_mm + between) > end + 0.01) {
        page_begin(d, page_say(d, "Run of the sets"));
        page_heading(d, page_say(d, "The run of the sets"), STR_NONE);
        y_mm = title_y_mm;
        double room = (end - y_mm - heads_gap_mm - 2) / c->set_n;
        r = scale_of(c, room);
        between = fmin(most_between_mm, room - r.high_mm);
    }
    y_mm += heads_gap_mm;
    heading(d, y_mm);
    for (unsigned i = 0; i < c->set_n; i++)
        one_set(d, &r, &c->sets[i], y_mm + 2 + i * (r.high_mm + between));
}
