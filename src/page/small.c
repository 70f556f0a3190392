/* A small court for each server, in the order of page one. */
#include "page/courts.h"

#include <math.h>

static const double pitch_x_mm = 36.75, pitch_y_mm = 43.4, loose_y_mm = 47, cell_mm = 30,
                    name_wide_mm = 25;
static const double scale_mm = 2.5, free_m = 1.8, name_mm = 6;
static const double net_mm = 30.2, starts_below_mm = 3, starts_low_mm = 5.8;
static const double text_below_mm = 4.0, zones_wide_mm = 34, zone_line_mm = 2.7;
static const double mark_a_mm = 1.7;
enum { ROW = 5, ROWS_ON_PAGE = 5, PER_PAGE = ROW * ROWS_ON_PAGE };

struct who {
    uint8_t shirt;
};

static bool is_hers(const struct played *p, const void *context) {
    const struct who *who = context;
    return p->side == OURS && p->charged == who->shirt;
}

static bool hers(const struct played *p, struct who who) {
    return played_counts(p) && is_hers(p, &who);
}

bool page_starts(struct draw *d, const struct court *c, uint8_t shirt, double y) {
    struct who who = {shirt};
    static const double middle_m[] = {4.5, 1.5, 4.5, 7.5};
    const struct checked *facts = d->tally->checked;
    unsigned n[THIRD_LEFT + 1] = {0}, k[THIRD_LEFT + 1] = {0}, known = 0;
    for (size_t i = 0; i < facts->played_n; i++)
        if (hers(&facts->played[i], who)) {
            n[tally_third(&facts->played[i])]++;
            known += tally_third(&facts->played[i]) != THIRD_NONE;
        }
    if (known == 0)
        return false;
    page_line(d, page_court_x(c, 9), y, page_court_x(c, 0), y, RULE_HEAD_PT, INK_GRID);
    for (size_t i = 0; i < facts->played_n; i++) {
        const struct played *p = &facts->played[i];
        enum third t = tally_third(p);
        if (!hers(p, who) || t == THIRD_NONE)
            continue;
        double step = fmin(0.6, 6.8 / n[t]);
        double x = p->said.has & HAS_START_P
                       ? page_court_x(c, p->said.start_p_cm / 100.0)
                       : page_court_x(c, middle_m[t]) + step * (k[t]++ - (n[t] - 1) / 2.0);
        bool missed = played_error(p);
        page_put(d, x, y + (missed ? 1.1 : 0.7), mark_a_mm, missed ? MARK_START_MISSED : MARK_START,
                 p);
    }
    return true;
}

static bool zone_only(const struct played *p, struct who who) {
    return page_zone_only(p) && is_hers(p, &who);
}

/* Two lines under a court, filled from the left; the second one leaves room
 * for what stands at its right end. */
struct lines {
    double x_mm, y_mm, wide_mm[2];
    double at_mm;  /* of the present line */
    unsigned line; /* 2: there was no room */
    bool draw;
};

static bool take(struct lines *l, double wide_mm) {
    if (l->line < 2 && l->at_mm + wide_mm > l->wide_mm[l->line]) {
        l->line++;
        l->at_mm = 0;
    }
    return l->line < 2;
}

static double line_y(const struct lines *l) {
    return l->y_mm + l->line * zone_line_mm;
}

/* The label of a zone and its marks; a label keeps its first mark. */
static void zone_marks(struct draw *d, struct lines *l, struct who who, const struct spot *zone) {
    const struct checked *c = d->tally->checked;
    struct str label = page_zone_label(d, zone);
    double pitch = mark_a_mm * 1.09, wide = page_width(d, label, TYPE_NOTE) + 0.5;
    if (!take(l, wide + pitch))
        return;
    if (l->draw)
        page_words(d, l->x_mm + l->at_mm, line_y(l), TYPE_NOTE, label);
    l->at_mm += wide;
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!zone_only(p, who) || !page_zone_same(&p->said.landing, zone) || !take(l, pitch))
            continue;
        if (l->draw)
            page_put(d, l->x_mm + l->at_mm + mark_a_mm / 2, line_y(l) - 0.9, mark_a_mm,
                     page_mark_of(p), p);
        l->at_mm += pitch;
    }
    l->at_mm += 1;
}

/* The zones she is known to have hit, each with its marks. Gives how many lines
 * they take, 3 if there is no room; draws only if asked to. */
static unsigned zone_lines(struct draw *d, struct who who, struct lines l) {
    struct spot zone;
    for (unsigned i = 0; page_zone_next(d, i, is_hers, &who, &zone); i++)
        zone_marks(d, &l, who, &zone);
    return l.line + 1;
}

/* Starts stand lower if misses into a third of the net need the room. */
static double starts_y(const struct draw *d, const struct court *c, struct who who) {
    const struct checked *facts = d->tally->checked;
    for (size_t i = 0; i < facts->played_n; i++)
        if (hers(&facts->played[i], who) && page_mark_of(&facts->played[i]) == MARK_NET &&
            tally_known(&facts->played[i]) == KNOWN_ZONE)
            return c->net_mm + starts_low_mm;
    return c->net_mm + starts_below_mm;
}

/* What stands under a court: the zones with their marks on one line or two, and
 * "place 5 of 9". */
struct below {
    struct lines lines;
    struct str place;
    double place_mm; /* its baseline */
    bool listed;     /* else the zones are numbers in the court */
};

static struct str place_and_zone(const struct draw *d, const struct server *s) {
    unsigned place = s->known[KNOWN_PLACE], zone = s->known[KNOWN_ZONE], all = s->counts.serves;
    struct str words = page_sayf(d, "place %u, zone %u of %u", place, zone, all);
    if (page_width(d, words, TYPE_NOTE) <= cell_mm + 1)
        return words;
    return str_printf(d->arena, "%u + %u / %u", place, zone, all);
}

static struct below below_of(struct draw *d, const struct server *s, double x_mm, double y_mm,
                             bool low) {
    struct who who = {s->shirt};
    struct below b = {.place_mm = y_mm};
    b.place = page_sayf(d, "place %u of %u", s->known[KNOWN_PLACE], s->counts.serves);
    double left = cell_mm - page_width(d, b.place, TYPE_NOTE) - 1;
    b.lines = (struct lines){.x_mm = x_mm, .y_mm = y_mm, .wide_mm = {left, 0}};
    if (s->known[KNOWN_PLACE] > 0)
        b.listed = zone_lines(d, who, b.lines) == 1;
    if (s->known[KNOWN_PLACE] > 0 && !b.listed && !low) {
        b.lines.wide_mm[0] = fmin(zones_wide_mm, PAGE_WIDE_MM - x_mm);
        b.lines.wide_mm[1] = left;
        b.listed = zone_lines(d, who, b.lines) <= 2;
        b.place_mm += b.listed ? zone_line_mm : 0;
    }
    if (!b.listed)
        b.place = place_and_zone(d, s);
    return b;
}

static void draw_below(struct draw *d, const struct server *s, struct below *b) {
    struct who who = {s->shirt};
    b->lines.draw = true;
    if (b->listed)
        zone_lines(d, who, b->lines);
    page_right(d, b->lines.x_mm + cell_mm, b->place_mm, TYPE_NOTE, b->place);
}

static struct str counts_line(struct draw *d, const struct counts *c) {
    return page_sayf(d, "broke %u, missed %u of %u", c->broke, c->missed, c->serves);
}

static void draw_small(struct draw *d, const struct server *s, double x_mm, double y_mm) {
    struct who who = {s->shirt};
    if (s->shirt != SHIRT_NONE)
        page_words(d, x_mm, y_mm, TYPE_TABLE_BOLD, page_number(d, s->shirt));
    page_words(d, x_mm + name_mm, y_mm, TYPE_TABLE,
               page_cut(d, page_server(d, s), TYPE_TABLE, name_wide_mm));
    page_words(d, x_mm, y_mm + 3.3, TYPE_NOTE,
               page_cut(d, counts_line(d, &s->counts), TYPE_NOTE, cell_mm));
    if (s->known[KNOWN_NOT] == s->counts.serves) {
        page_note(d, x_mm, y_mm + 9, cell_mm,
                  page_sayf(d, "Place of the ball not recorded: %u of %u.", s->counts.serves,
                            s->counts.serves));
        return;
    }
    struct court c = {.centre_mm = x_mm + 15,
                      .net_mm = y_mm + net_mm,
                      .scale_mm = scale_mm,
                      .a_mm = mark_a_mm,
                      .far_m = free_m,
                      .side_m = free_m};
    double y = starts_y(d, &c, who);
    bool low = y > c.net_mm + starts_below_mm + 1;
    struct below below = below_of(d, s, x_mm, y + text_below_mm, low);
    size_t from = d->page->n;
    page_court_lines(d, &c);
    page_court_marks(d, &c, is_hers, &who);
    if (!below.listed)
        page_zone_counts(d, &c, is_hers, &who, TYPE_TABLE_BOLD, from);
    page_starts(d, &c, s->shirt, y);
    draw_below(d, s, &below);
}

void page_courts_small(struct draw *d, double y_mm, size_t from, size_t to) {
    bool full = to - from > PER_PAGE - ROW || y_mm > 100;
    double pitch = full ? pitch_y_mm : loose_y_mm;
    double wide = page_words(d, 0, y_mm, TYPE_HEAD, page_say(d, "Each server"));
    page_beside(
        d, wide, PAGE_WIDE_MM, y_mm,
        page_say(d, "1 : 400 · ticks: starts (thick: of misses) · numbers: zones, (2): a seam"));
    for (size_t i = from; i < to; i++) {
        size_t k = i - from;
        draw_small(d, &d->tally->servers[OURS][i], (double)(k % ROW) * pitch_x_mm,
                   y_mm + 5 + (double)(k / ROW) * pitch);
    }
}

void page_courts_small_pages(struct draw *d) {
    size_t n = d->tally->server_n[OURS];
    for (size_t from = 0; from < n; from += PER_PAGE) {
        page_begin(d, page_say(d, "Courts"));
        page_heading(d, page_say(d, "Where our serves went"), STR_NONE);
        page_courts_small(d, 22, from, from + PER_PAGE < n ? from + PER_PAGE : n);
    }
}
