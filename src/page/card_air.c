/* Where she hits the ball, and where to aim. */
#include "page/card_parts.h"

#include <math.h>

static const double lead_mm = 3.85, half_wide_mm = 86;

/* ---- side view: x forward from her end line, z up, both to one scale --------------- */

static const double scale_mm = 4.3, behind_m = 2.2, shown_m = 20, receiver_m = 1.9;
enum { PIECES = 24 };

/* Where the floor lies, and the frame of the flight on paper. */
static double side_x(double x_m) {
    return (x_m + behind_m) * scale_mm;
}

static double side_y(double floor_mm, double z_m) {
    return floor_mm - z_m * scale_mm;
}

static void put_flight(struct draw *d, double floor_mm, const struct flight_serve *s,
                       double line_pt, enum page_ink ink, bool dashed) {
    const struct flight_model *m = flight_model(FLIGHT_DEFAULT);
    double x = s->x_m, z = s->height_m;
    for (unsigned i = 1; i <= PIECES; i++) {
        struct flight_point to;
        double x2 = s->x_m + (WINDOW_RECEIVER_X_M - s->x_m) * i / PIECES;
        if (!flight_to_x(m, s, x2, &to))
            return;
        page_dashed(d, side_x(x), side_y(floor_mm, z), side_x(x2), side_y(floor_mm, to.z_m),
                    line_pt, ink, dashed ? 1.0 : 0, dashed ? 0.7 : 0);
        x = x2;
        z = to.z_m;
    }
}

static void put_hall(const struct leaf *l, double floor_mm) {
    struct draw *d = l->draw;
    page_rule(d, 0, shown_m * scale_mm, floor_mm, RULE_TABLE_PT);
    page_line(d, side_x(0), floor_mm, side_x(0), floor_mm + 1.2, RULE_TABLE_PT, INK_BLACK);
    page_line(d, side_x(FLIGHT_NET_X_M), floor_mm, side_x(FLIGHT_NET_X_M),
              side_y(floor_mm, l->card->reach.net_m), 1.3, INK_BLACK);
    page_dashed(d, side_x(WINDOW_RECEIVER_X_M), floor_mm, side_x(WINDOW_RECEIVER_X_M),
                side_y(floor_mm, receiver_m), RULE_HEAD_PT, INK_BLACK, 1.0, 0.7);
    double y = floor_mm + 4.2;
    page_words(d, side_x(0) - 1.5, y, TYPE_NOTE, page_cut(d, page_say(d, "end line"), TYPE_NOTE, 24));
    page_centred(d, side_x(FLIGHT_NET_X_M), y, TYPE_NOTE,
                 page_cut(d, page_say(d, "net"), TYPE_NOTE, 20));
    page_right(d, half_wide_mm, y, TYPE_NOTE, page_cut(d, page_say(d, "receiver"), TYPE_NOTE, 24));
}

static void put_hits(const struct leaf *l, double floor_mm) {
    struct draw *d = l->draw;
    const struct card_reach *r = &l->card->reach;
    put_flight(d, floor_mm, &r->serve, 0.9, INK_BLACK, false);
    put_flight(d, floor_mm, &r->nearer, 0.9, INK_OURS, true);
    page_circle(d, side_x(r->serve.x_m), side_y(floor_mm, r->serve.height_m), 0.9, 0.6, INK_BLACK,
                INK_BLACK);
    page_circle(d, side_x(r->nearer.x_m), side_y(floor_mm, r->nearer.height_m), 0.9, 0.9,
                INK_OURS, INK_WHITE);
}

/* As high as the higher of the two flights. */
static double top_m(const struct card_reach *r) {
    const struct flight_model *m = flight_model(FLIGHT_DEFAULT);
    return fmax(flight_run(m, &r->serve).apex.z_m, flight_run(m, &r->nearer).apex.z_m);
}

double card_side_view(const struct leaf *l, double y_mm) {
    struct draw *d = l->draw;
    page_section(d, 0, half_wide_mm, y_mm, page_say(d, "Where you hit the ball"),
                 l->fit->side_view ? page_say(d, "side view to scale") : STR_NONE);
    y_mm += 2.5;
    if (l->fit->side_view) {
        double floor = y_mm + 2.5 + top_m(&l->card->reach) * scale_mm;
        put_hall(l, floor);
        put_hits(l, floor);
        y_mm = floor + 4.6;
    }
    return page_wrapped(d, 0, 0, y_mm + 4.4, half_wide_mm, lead_mm, TYPE_TABLE,
                        card_reach(d, l->card), NULL);
}

/* ---- where to aim ------------------------------------------------------------------- */

static const double aim_scale_mm = 2.8, cross_mm = 1.5;
enum { OVAL = 36 };

/* Half of her serves come down inside: the ellipse of a normal scatter at which
 * chi-square with two degrees of freedom is at its median, 2 ln 2. */
static void put_oval(struct draw *d, const struct court *c, const struct card_aim *a) {
    const struct scatter *s = &a->scatter;
    double r = sqrt(2 * log(2)), x = 0, y = 0;
    for (unsigned i = 0; i <= OVAL; i++) {
        double angle = 2 * acos(-1) * i / OVAL, u = cos(angle), v = sin(angle);
        double x_m = a->x_m + s->x_m + r * s->sd_x_m * u;
        double d_m = a->d_m + s->d_m + r * s->sd_d_m * (s->rho * u + sqrt(1 - s->rho * s->rho) * v);
        double x2 = page_court_x(c, x_m), y2 = page_court_y(c, d_m);
        if (i > 0)
            page_line(d, x, y, x2, y2, 0.9, INK_OURS);
        x = x2;
        y = y2;
    }
}

static void put_cross(struct draw *d, const struct court *c, const struct card_aim *a) {
    double x = page_court_x(c, a->x_m), y = page_court_y(c, a->d_m);
    page_line(d, x - cross_mm, y, x + cross_mm, y, 1.2, INK_OURS);
    page_line(d, x, y - cross_mm, x, y + cross_mm, 1.2, INK_OURS);
}

/* Gives where the court ends at the right, and in *y_mm below. */
static double put_aim(const struct leaf *l, double x_mm, double *y_mm) {
    struct court c = {.scale_mm = aim_scale_mm, .far_m = 1.2, .side_m = 0.6, .a_mm = 1.7};
    c.centre_mm = x_mm + (4.5 + 1.1) * c.scale_mm;
    c.net_mm = *y_mm + 2.5 + (9 + c.far_m) * c.scale_mm;
    page_court_lines(l->draw, &c);
    put_oval(l->draw, &c, &l->card->aim);
    put_cross(l->draw, &c, &l->card->aim);
    *y_mm = c.net_mm;
    return page_court_x(&c, -1.4);
}

static struct str rests_on(const struct draw *d, const struct card_aim *a) {
    if (a->say == SAY_AIM_OWN_CAUTION)
        return page_sayf(d, "from %u aimed serves: a rough guide", a->aimed_n);
    return page_sayf(d, "from %u aimed serves", a->aimed_n);
}

double card_aim_court(const struct leaf *l, double x_mm, double y_mm) {
    struct draw *d = l->draw;
    const struct card_aim *a = &l->card->aim;
    bool own = a->say != SAY_AIM_GENERAL;
    bool court = own && l->fit->aim_court;
    double end = court && x_mm <= 0 ? half_wide_mm : PAGE_WIDE_MM;
    double below = y_mm + 2.5, words_x = x_mm;
    page_section(d, x_mm, end, y_mm, page_say(d, "Where to aim"),
                 own ? rests_on(d, a) : STR_NONE);
    if (court)
        words_x = put_aim(l, x_mm, &below) + 2;
    double y = page_wrapped(d, words_x, 0, y_mm + 7, end - words_x, lead_mm, TYPE_TABLE,
                            court ? card_aim(d, l->card) : card_aim_words(d, l->card),
                            NULL);
    return fmax(y, below);
}
