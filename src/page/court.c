/* A court to scale and the serves on it. Rules and geometry: FIVB 2025-2028, 1
 * and 2. The free zone is drawn as deep as there is room, which the page says. */
#include "geometry.h"
#include "page/draw.h"

#include <math.h>
#include <stdlib.h>

/* In metres. */
static const double wide_m = GEO_WIDTH_CM / 100.0, half_m = GEO_HALF_CM / 100.0;
static const double line_m = GEO_LINE_CM / 100.0, attack_rear_m = GEO_ATTACK_CM / 100.0;
static const double dash_m = GEO_DASH_CM / 100.0, dash_gap_m = GEO_DASH_GAP_CM / 100.0;
static const double service_mark_m = GEO_SERVICE_MARK_CM / 100.0;
static const double service_gap_m = GEO_SERVICE_GAP_CM / 100.0;
static const double net_beyond_m = GEO_NET_BEYOND_CM / 100.0, post_m = GEO_POST_CM / 100.0;
static const double zone_m = GEO_THIRD_CM / 100.0;

/* On paper. */
static const double line_least_pt = 0.5, antenna_mm = 0.42, post_mm = 0.5;
static const double zone_on_mm = 0.5, zone_off_mm = 0.7, number_inset_mm = 0.9;
static const double net_small_pt = 1.0, net_large_pt = 1.3, large_scale_mm = 4;

double page_court_x(const struct court *c, double x_m) {
    return c->centre_mm + (wide_m / 2 - x_m) * c->scale_mm;
}

double page_court_y(const struct court *c, double d_m) {
    return c->net_mm - d_m * c->scale_mm;
}

static double line_pt(const struct court *c) {
    return fmax(line_m * c->scale_mm / 25.4 * 72, line_least_pt);
}

/* A line of the court whose outer edges lie at the given metres. */
static void across(struct draw *d, const struct court *c, double d_m) {
    page_line(d, page_court_x(c, wide_m), page_court_y(c, d_m), page_court_x(c, 0),
              page_court_y(c, d_m), line_pt(c), INK_BLACK);
}

static void along(struct draw *d, const struct court *c, double x_m, double from_m, double to_m) {
    page_line(d, page_court_x(c, x_m), page_court_y(c, from_m), page_court_x(c, x_m),
              page_court_y(c, to_m), line_pt(c), INK_BLACK);
}

/* Dashes beyond the side lines (1.3.4), and the marks that bound the service
 * zone (1.4.2), as far as the free zone is drawn. */
static void extensions(struct draw *d, const struct court *c, double d_m) {
    for (unsigned i = 0; i < GEO_DASHES; i++) {
        double from = dash_gap_m + i * (dash_m + dash_gap_m), to = from + dash_m;
        if (to > c->side_m)
            return;
        page_line(d, page_court_x(c, -from), page_court_y(c, d_m), page_court_x(c, -to),
                  page_court_y(c, d_m), line_pt(c), INK_BLACK);
        page_line(d, page_court_x(c, wide_m + from), page_court_y(c, d_m),
                  page_court_x(c, wide_m + to), page_court_y(c, d_m), line_pt(c), INK_BLACK);
    }
}

static void service_marks(struct draw *d, const struct court *c, double sign) {
    double from = sign * (half_m + service_gap_m);
    double to = sign * (half_m + service_gap_m + service_mark_m);
    along(d, c, line_m / 2, from, to);
    along(d, c, wide_m - line_m / 2, from, to);
}

static void zone_number(struct draw *d, const struct court *c, unsigned zone, double x_m,
                        double d_m) {
    struct type type = {TYPE_NOTE_PT, FACE_REGULAR, INK_FAINT};
    double cap_mm = 0.72 * TYPE_NOTE_PT / 72 * 25.4;
    page_words(d, page_court_x(c, x_m) + number_inset_mm,
               page_court_y(c, d_m) + number_inset_mm + cap_mm, type, page_number(d, zone));
}

/* Zones are no lines of the floor: dotted, and numbered in their far left
 * corner. On paper 1 6 5 stand far, 2 3 4 near. */
static void zones(struct draw *d, const struct court *c) {
    for (unsigned i = 1; i <= 2; i++) {
        page_dashed(d, page_court_x(c, i * zone_m), page_court_y(c, half_m),
                    page_court_x(c, i * zone_m), page_court_y(c, 0), RULE_GRID_PT, INK_GRID,
                    zone_on_mm, zone_off_mm);
        if (c->near_m > 0)
            page_dashed(d, page_court_x(c, i * zone_m), page_court_y(c, -half_m),
                        page_court_x(c, i * zone_m), page_court_y(c, -half_m - c->near_m),
                        RULE_GRID_PT, INK_GRID, zone_on_mm, zone_off_mm);
    }
    zone_number(d, c, 1, wide_m, half_m);
    zone_number(d, c, 6, 2 * zone_m, half_m);
    zone_number(d, c, 5, zone_m, half_m);
    zone_number(d, c, 2, wide_m, attack_rear_m);
    zone_number(d, c, 3, 2 * zone_m, attack_rear_m);
    zone_number(d, c, 4, zone_m, attack_rear_m);
}

static void net_and_posts(struct draw *d, const struct court *c) {
    double pt = c->scale_mm >= large_scale_mm ? net_large_pt : net_small_pt;
    page_line(d, page_court_x(c, wide_m + net_beyond_m), page_court_y(c, 0),
              page_court_x(c, -net_beyond_m), page_court_y(c, 0), pt, INK_BLACK);
    page_circle(d, page_court_x(c, 0), page_court_y(c, 0), antenna_mm, 0, INK_NONE, INK_BLACK);
    page_circle(d, page_court_x(c, wide_m), page_court_y(c, 0), antenna_mm, 0, INK_NONE, INK_BLACK);
    page_circle(d, page_court_x(c, -post_m), page_court_y(c, 0), post_mm, 0.6, INK_BLACK,
                INK_WHITE);
    page_circle(d, page_court_x(c, wide_m + post_m), page_court_y(c, 0), post_mm, 0.6, INK_BLACK,
                INK_WHITE);
}

void page_court_lines(struct draw *d, const struct court *c) {
    bool both = c->near_m > 0, large = c->scale_mm >= large_scale_mm;
    double near = both ? -half_m : 0;
    zones(d, c);
    along(d, c, line_m / 2, near, half_m);
    along(d, c, wide_m - line_m / 2, near, half_m);
    across(d, c, half_m - line_m / 2);
    across(d, c, attack_rear_m - line_m / 2);
    if (large)
        extensions(d, c, attack_rear_m - line_m / 2);
    if (c->far_m >= service_gap_m + service_mark_m)
        service_marks(d, c, 1);
    if (both) {
        across(d, c, -(half_m - line_m / 2));
        across(d, c, -(attack_rear_m - line_m / 2));
        extensions(d, c, -(attack_rear_m - line_m / 2));
        service_marks(d, c, -1);
    }
    net_and_posts(d, c);
}

/* ---- serves ---------------------------------------------------------------- */

struct placed {
    const struct played *serve;
    enum page_mark mark;
    double x_mm, y_mm;
    unsigned more_n; /* serves that this one hides, or stands for as xN */
};

static const double near_a = 0.88, step_a = 0.9, far_step_a = 1.8;

/* Where the serve is to stand; false when its place is not known. */
static bool place_of(const struct court *c, const struct played *p, struct placed *out) {
    double drop = c->net_mm + 0.75 * c->a_mm;
    *out = (struct placed){.serve = p, .mark = page_mark_of(p)};
    if (tally_outcome(p) == OUTCOME_FOOT) {
        double thirds_m[] = {4.5, 1.5, 4.5, 7.5};
        if (tally_known(p) == KNOWN_NOT || c->near_m <= 0)
            return false;
        out->x_mm = page_court_x(c, p->said.has & HAS_START_P ? p->said.start_p_cm / 100.0
                                                              : thirds_m[tally_third(p)]);
        out->y_mm = page_court_y(c, -half_m);
        return true;
    }
    const struct spot *at = &p->said.landing;
    if (at->kind == PLACE_XD) {
        out->x_mm = page_court_x(c, at->x_cm / 100.0);
        out->y_mm = out->mark == MARK_NET ? drop : page_court_y(c, at->d_cm / 100.0);
        return true;
    }
    if (out->mark != MARK_NET || at->kind != PLACE_ZONE)
        return false;
    out->x_mm = page_court_x(c, at->zone == 2 ? 7.5 : at->zone == 3 ? 4.5 : 1.5);
    out->y_mm = drop + 2 * c->a_mm;
    return at->zone >= 2 && at->zone <= 4;
}

/* Brings a place beyond the drawn free zone to its edge. */
static bool keep_inside(const struct court *c, struct placed *p) {
    double left = page_court_x(c, wide_m + c->side_m) + c->a_mm / 2;
    double right = page_court_x(c, -c->side_m) - c->a_mm / 2;
    double top = page_court_y(c, half_m + c->far_m) + c->a_mm / 2;
    double x = fmin(fmax(p->x_mm, left), right), y = fmax(p->y_mm, top);
    bool inside = fabs(x - p->x_mm) < 1e-9 && fabs(y - p->y_mm) < 1e-9;
    p->x_mm = x;
    p->y_mm = y;
    return inside;
}

static int rank(const struct placed *p) {
    if (p->serve && played_place(p->serve) == PLACE_FLOOR)
        return 0;
    return p->mark == MARK_ACE_PLAYED ? 1 : 2;
}

/* On the floor first, then aces, then by d and x, then by line: an order that
 * the notes alone decide. */
static int by_weight(const void *left, const void *right) {
    const struct placed *a = left, *b = right;
    if (rank(a) != rank(b))
        return rank(a) - rank(b);
    if (a->y_mm < b->y_mm || a->y_mm > b->y_mm)
        return a->y_mm > b->y_mm ? -1 : 1;
    if (a->x_mm < b->x_mm || a->x_mm > b->x_mm)
        return a->x_mm > b->x_mm ? -1 : 1;
    return a->serve->line < b->serve->line ? -1 : a->serve->line > b->serve->line;
}

static struct placed *hit(struct placed *all, size_t n, double x_mm, double y_mm, double a_mm) {
    for (size_t i = 0; i < n; i++)
        if (hypot(all[i].x_mm - x_mm, all[i].y_mm - y_mm) < near_a * a_mm)
            return &all[i];
    return NULL;
}

/* A ball that was in must not be moved out, nor one that was out, in. */
static bool same_side(const struct court *c, const struct placed *p, double x_mm, double y_mm) {
    double left = page_court_x(c, wide_m), right = page_court_x(c, 0),
           end = page_court_y(c, half_m);
    return (x_mm < left) == (p->x_mm < left) && (x_mm > right) == (p->x_mm > right) &&
           (y_mm < end) == (p->y_mm < end);
}

/* Moves mark n away from the earlier ones; where all is taken it stays under
 * the one that was there before. */
static void move_apart(const struct court *c, struct placed *all, size_t n) {
    static const double steps[][2] = {{0, 0},   {1, 0}, {-1, 0}, {0, -1}, {0, 1}, {1, -1},
                                      {-1, -1}, {1, 1}, {-1, 1}, {2, 0},  {-2, 0}};
    struct placed *p = &all[n];
    double a_mm = c->a_mm;
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++) {
        double unit = fabs(steps[i][0]) > 1 ? far_step_a / 2 : step_a;
        double x = p->x_mm + steps[i][0] * unit * a_mm, y = p->y_mm + steps[i][1] * unit * a_mm;
        if (!same_side(c, p, x, y) || hit(all, n, x, y, a_mm))
            continue;
        p->x_mm = x;
        p->y_mm = y;
        return;
    }
    struct placed *over = hit(all, n, p->x_mm, p->y_mm, a_mm);
    over->more_n += p->more_n + 1;
    p->more_n = 0;
}

static void draw_placed(struct draw *d, const struct court *c, const struct placed *p) {
    page_put(d, p->x_mm, p->y_mm, c->a_mm, p->mark, p->serve);
    if (p->more_n > 0)
        page_words(d, p->x_mm + 0.55 * c->a_mm, p->y_mm - 0.3 * c->a_mm,
                   (struct type){TYPE_EDGE_PT, FACE_BOLD, INK_BLACK},
                   page_number(d, p->more_n + 1));
}

unsigned page_court_marks(struct draw *d, const struct court *c, court_wants *wants,
                          const void *context) {
    const struct checked *facts = d->tally->checked;
    struct placed *all = NULL;
    size_t n = 0, room = 0;
    unsigned beyond = 0;
    for (size_t i = 0; i < facts->played_n; i++) {
        const struct played *p = &facts->played[i];
        struct placed at;
        if (!played_counts(p) || !wants(p, context) || !place_of(c, p, &at))
            continue;
        beyond += keep_inside(c, &at) ? 0 : tally_times(p);
        at.more_n = tally_times(p) - 1;
        all = arena_grow(d->arena, all, n, &room, sizeof *all);
        all[n++] = at;
    }
    if (n > 1)
        qsort(all, n, sizeof *all, by_weight);
    for (size_t i = 0; i < n; i++)
        move_apart(c, all, i);
    for (size_t i = n; i-- > 0;)
        draw_placed(d, c, &all[i]);
    return beyond;
}
