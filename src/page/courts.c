/* The courts page: where our serves went, in one picture and three tables that
 * add up to it. */
#include "page/courts.h"

#include <math.h>

static const double frame_y_mm = 16, frame_wide_mm = 75, frame_high_mm = 127.5;
static const struct court large = {.centre_mm = 37.5,
                                   .net_mm = 76,
                                   .scale_mm = 5,
                                   .a_mm = 2.3,
                                   .far_m = 3,
                                   .side_m = 3,
                                   .near_m = 4.5};
static const double zone_label_high_mm = 2.55;
static const double small_y_mm = 153.6;
static const double starts_first_m = 0.5, starts_step_m = 0.82, starts_last_m = 4.0;
static const double tick_down_mm = 1.7, tick_a_mm = 2.0, tick_step_mm = 0.75;
enum { USUAL_PACES = 4, PACES_MAX = 10, SERVERS_ON_PAGE = 10, SERVERS_IN_ROW = 5, TICKS_MAX = 36 };

static bool ours(const struct played *p, const void *context) {
    (void)context;
    return p->side == OURS;
}

/* ---- serves with a zone only, in our empty half --------------------------------- */

/* "5", "d5", "5-6": as the notes write it. */
struct str page_zone_label(struct draw *d, const struct spot *s) {
    bool deep = s->kind == PLACE_DEEP || s->kind == PLACE_DEEP_SEAM;
    if (s->seam)
        return str_printf(d->arena, "%s%u-%u", deep ? "d" : "", s->zone, s->seam);
    return str_printf(d->arena, "%s%u", deep ? "d" : "", s->zone);
}

bool page_zone_same(const struct spot *a, const struct spot *b) {
    return a->kind == b->kind && a->zone == b->zone && a->seam == b->seam;
}

/* True if the serve is listed by its zone: a miss into the net stands at the
 * net, a foot fault at the end line. */
bool page_zone_only(const struct played *p) {
    return played_counts(p) && p->side == OURS && tally_known(p) == KNOWN_ZONE &&
           page_mark_of(p) != MARK_NET && tally_outcome(p) != OUTCOME_FOOT;
}

/* Zones in the order of the court as drawn, then their last metres and seams. */
static unsigned zone_rank(const struct spot *s) {
    static const unsigned of_zone[] = {0, 0, 3, 4, 5, 2, 1};
    return of_zone[s->zone % 7] * 100 + s->seam * 10 + s->kind;
}

bool page_zone_next(const struct draw *d, unsigned ix, court_wants *wants, const void *context,
                    struct spot *out) {
    const struct checked *c = d->tally->checked;
    unsigned last = 0, next = 0;
    for (unsigned k = 0; k <= ix; k++, last = next) {
        next = 0;
        for (size_t i = 0; i < c->played_n; i++) {
            const struct played *p = &c->played[i];
            unsigned rank = page_zone_only(p) ? zone_rank(&p->said.landing) + 1 : 0;
            if (rank <= last || (next && rank >= next) || !wants(p, context))
                continue;
            next = rank;
            *out = p->said.landing;
        }
        if (next == 0)
            return false;
    }
    return true;
}

/* Left, middle or right third of the court as drawn. */
static unsigned column_of(unsigned zone) {
    return zone == 1 || zone == 2 ? 0 : zone == 6 || zone == 3 ? 1 : 2;
}

/* A page of zones in the making: marks of size a from y down. */
struct zones {
    double y_mm, a_mm;
    double high_mm[3];  /* taken in each column */
    double label_mm[3]; /* width of the widest label of each */
    bool draw;
};

static double zone_pitch(const struct zones *z) {
    return z->a_mm * 1.09;
}

/* The marks of one zone, in rows behind its label. */
static void zone_group(struct draw *d, struct zones *z, const struct spot *zone) {
    const struct checked *c = d->tally->checked;
    unsigned k = column_of(zone->zone), n = 0, wide_mm = 15;
    double pitch = zone_pitch(z), x = page_court_x(&large, 9) + wide_mm * k + z->label_mm[k] + 1.4;
    double y = z->y_mm + z->high_mm[k];
    unsigned per_row = (unsigned)((wide_mm - z->label_mm[k] - 1.6) / pitch);
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!page_zone_only(p) || !page_zone_same(&p->said.landing, zone))
            continue;
        if (z->draw)
            page_put(d, x + z->a_mm / 2 + n % per_row * pitch, y + n / per_row * pitch, z->a_mm,
                     page_mark_of(p), p);
        n++;
    }
    if (z->draw && n > 0)
        page_right(d, x - 0.4, y + 0.95, (struct type){TYPE_NOTE_PT, FACE_REGULAR, INK_FAINT},
                   page_zone_label(d, zone));
    if (n > 0)
        z->high_mm[k] += fmax((n + per_row - 1) / per_row * pitch, zone_label_high_mm);
}

/* Every zone that was written, each with its marks under its own third. Gives
 * the height of the longest column. */
static double zone_columns(struct draw *d, struct zones *z) {
    struct type type = {TYPE_NOTE_PT, FACE_REGULAR, INK_FAINT};
    struct spot zone;
    for (unsigned k = 0; k < 3; k++) {
        z->high_mm[k] = 0;
        z->label_mm[k] = 0;
    }
    for (unsigned i = 0; page_zone_next(d, i, ours, NULL, &zone); i++) {
        unsigned k = column_of(zone.zone);
        z->label_mm[k] = fmax(z->label_mm[k], page_width(d, page_zone_label(d, &zone), type));
    }
    for (unsigned i = 0; page_zone_next(d, i, ours, NULL, &zone); i++)
        zone_group(d, z, &zone);
    return fmax(fmax(z->high_mm[0], z->high_mm[1]), z->high_mm[2]);
}

static void draw_zone_only(struct draw *d) {
    const struct checked *c = d->tally->checked;
    unsigned n = 0;
    for (size_t i = 0; i < c->played_n; i++)
        n += page_zone_only(&c->played[i]);
    if (n == 0)
        return;
    struct zones z = {.a_mm = large.a_mm};
    double top = page_court_y(&large, -3), room = page_court_y(&large, -9) - top - 8.5;
    double high = zone_columns(d, &z);
    while (z.a_mm > 1.0 && high > room) {
        z.a_mm -= 0.1;
        high = zone_columns(d, &z);
    }
    double y = top + 5.5 + fmax(0, (room - high) / 3);
    page_centred(d, large.centre_mm, y, TYPE_NOTE,
                 page_sayf(d, "zone known, place not: %u", n));
    z.y_mm = y + 3.4;
    z.draw = true;
    zone_columns(d, &z);
}

/* ---- starts ---------------------------------------------------------------------- */

static bool known_start(const struct played *p) {
    return played_counts(p) && p->side == OURS && tally_third(p) != THIRD_NONE;
}

/* Row 0 holds the starts whose paces are not known. */
static unsigned paces_row(const struct played *p) {
    if (!(p->has_start & HAS_PACES))
        return 0;
    return p->paces < PACES_MAX ? (p->paces > 0 ? p->paces : 1u) : PACES_MAX;
}

struct tick {
    unsigned row;
    enum third third;
    bool missed, exact;
};

static struct tick tick_of(const struct played *p) {
    return (struct tick){paces_row(p), tally_third(p), played_error(p), p->said.has & HAS_START_P};
}

static bool same_tick(struct tick a, struct tick b) {
    return a.row == b.row && a.third == b.third && a.missed == b.missed && a.exact == b.exact;
}

static unsigned tick_count(const struct checked *c, struct tick wanted) {
    unsigned n = 0;
    for (size_t i = 0; i < c->played_n; i++)
        n += known_start(&c->played[i]) && same_tick(tick_of(&c->played[i]), wanted);
    return n;
}

static double middle_m(enum third t) {
    switch (t) {
    case THIRD_RIGHT:
        return 1.5;
    case THIRD_LEFT:
        return 7.5;
    case THIRD_MIDDLE:
    case THIRD_NONE:
        break;
    }
    return 4.5;
}

/* Starts in metres stand at their place; of those in thirds it is known only
 * which third, so they stand side by side in its middle. */
static void draw_ticks(struct draw *d, struct tick wanted, double y_mm) {
    const struct checked *c = d->tally->checked;
    unsigned n = tick_count(c, wanted), k = 0;
    double step = fmin(tick_step_mm * (wanted.missed ? 1.25 : 1), 13.0 / (n > 0 ? n : 1));
    double x = page_court_x(&large, middle_m(wanted.third)) - step * (n - 1.0) / 2;
    if (!wanted.exact && n > TICKS_MAX) {
        page_centred(d, page_court_x(&large, middle_m(wanted.third)), y_mm + 0.9, TYPE_NOTE,
                     wanted.missed ? page_sayf(d, "%u missed", n) : page_number(d, n));
        return;
    }
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!known_start(p) || !same_tick(tick_of(p), wanted))
            continue;
        double at =
            wanted.exact ? page_court_x(&large, p->said.start_p_cm / 100.0) : x + step * k++;
        page_put(d, at, y_mm, tick_a_mm, wanted.missed ? MARK_START_MISSED : MARK_START, p);
    }
}

static struct str paces_label(struct draw *d, unsigned row, unsigned highest) {
    if (row == 0)
        return highest == 0 ? page_say(d, "starts") : page_say(d, "not recorded");
    if (row == PACES_MAX)
        return page_sayf(d, "%u or more", row);
    return page_say_n(d, row, "%u pace", "%u paces", row);
}

static bool row_used(const struct checked *c, unsigned row) {
    for (size_t i = 0; i < c->played_n; i++)
        if (known_start(&c->played[i]) && paces_row(&c->played[i]) == row)
            return true;
    return false;
}

static void draw_starts(struct draw *d) {
    const struct checked *c = d->tally->checked;
    unsigned highest = 0;
    for (unsigned row = 1; row <= PACES_MAX; row++)
        if (row_used(c, row))
            highest = row;
    double step =
        highest <= USUAL_PACES ? starts_step_m : (starts_last_m - starts_first_m) / highest;
    for (unsigned row = 0; row <= highest; row++) {
        if (!row_used(c, row))
            continue;
        double y = page_court_y(&large, -9 - starts_first_m - step * row);
        page_words(d, 1, y + 0.9, TYPE_NOTE, paces_label(d, row, highest));
        for (unsigned third = THIRD_RIGHT; third <= THIRD_LEFT; third++)
            for (unsigned k = 0; k < 4; k++) {
                struct tick wanted = {row, (enum third)third, k & 1, k & 2};
                draw_ticks(d, wanted, y + (wanted.missed ? tick_down_mm : 0));
            }
    }
}

/* ---- the large court --------------------------------------------------------------- */

/* Misses into the net without a place are counted beside the post. */
static void draw_net_rest(struct draw *d) {
    const struct checked *c = d->tally->checked;
    unsigned n = 0;
    for (size_t i = 0; i < c->played_n; i++)
        n += c->played[i].side == OURS && played_counts(&c->played[i]) &&
             page_mark_of(&c->played[i]) == MARK_NET && tally_known(&c->played[i]) == KNOWN_NOT;
    if (n == 0)
        return;
    double y = large.net_mm + 3.6;
    page_put(d, 2.3, y, large.a_mm, MARK_NET, NULL);
    page_words(d, 1, y + 3.9, TYPE_NOTE,
               n == d->tally->side[OURS].by[OUTCOME_NET] ? page_sayf(d, "%u net,", n)
                                                         : page_sayf(d, "%u more,", n));
    page_words(d, 1, y + 7, TYPE_NOTE, page_say(d, "place not"));
    page_words(d, 1, y + 10.1, TYPE_NOTE, page_say(d, "recorded"));
}

static void draw_frame(struct draw *d) {
    page_add(d, (struct page_item){.kind = PAGE_BOX,
                                   .x_mm = 0,
                                   .y_mm = frame_y_mm + d->push_mm,
                                   .x2_mm = frame_wide_mm,
                                   .y2_mm = frame_y_mm + frame_high_mm + d->push_mm,
                                   .line_pt = RULE_GRID_PT,
                                   .ink = INK_GRID});
}

static void draw_large(struct draw *d) {
    size_t from = d->page->n;
    draw_frame(d);
    page_court_lines(d, &large);
    unsigned beyond = page_court_marks(d, &large, ours, NULL);
    if (d->tally->known[OURS][KNOWN_PLACE] == 0)
        page_zone_counts(d, &large, ours, NULL, (struct type){TYPE_TITLE_PT, FACE_BOLD, INK_BLACK},
                         from);
    draw_net_rest(d);
    draw_zone_only(d);
    draw_starts(d);
    double y = frame_y_mm + frame_high_mm + 3.4;
    y = page_note(d, 0, y, frame_wide_mm,
                  page_say(d, "Scale 1 : 200. Ticks: starts by paces; thick: of misses."));
    if (beyond > 0)
        page_note(d, 0, y + 3.2, frame_wide_mm,
                  page_sayf(d, "%u further out than drawn, at the edge.", beyond));
}

void page_courts(struct draw *d) {
    const struct tally *t = d->tally;
    unsigned known = t->known[OURS][KNOWN_PLACE] + t->known[OURS][KNOWN_ZONE];
    page_begin(d, page_say(d, "Courts"));
    page_heading(d, page_say(d, "Where our serves went"),
                 page_say(d, "seen from behind the server; our side at the bottom"));
    if (known > 0)
        draw_large(d);
    else
        page_words(d, 0, frame_y_mm + 4, TYPE_TEXT_BOLD,
                   page_sayf(d, "Place of the ball not recorded: %u of %u.",
                              t->known[OURS][KNOWN_NOT], t->side[OURS].serves));
    double x = known > 0 ? 84 : 0;
    page_courts_tables(d, x, known > 0 ? 17.6 : 28);
    if (known == 0)
        return;
    /* A page that was pushed down has room for one row. */
    if (t->server_n[OURS] <= (d->push_mm > 0 ? SERVERS_IN_ROW : SERVERS_ON_PAGE))
        page_courts_small(d, small_y_mm, 0, t->server_n[OURS]);
    else
        page_courts_small_pages(d);
}
