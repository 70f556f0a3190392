/* The court in plan, and serves that fly straight over it. One frame, that of
 * the notation: x in metres from the server's right side line, d from the net,
 * positive on the receivers' side, so that her own end line lies at d -9. Who
 * counts x from the left side line and y from the server's end line instead has
 * x = 9 - x', d = y' - 9. Measures: FIVB Official Volleyball Rules 2025-2028, by
 * rule; a measure of the court includes its lines (1.3.2). */
#ifndef NINEMETRE_GEOMETRY_H
#define NINEMETRE_GEOMETRY_H

#include <stdbool.h>

/* In centimetres, as notes are kept. */
enum {
    GEO_WIDTH_CM = 900,          /* 1.1 */
    GEO_HALF_CM = 900,           /* 1.1: from the net's axis to the end line */
    GEO_LINE_CM = 5,             /* 1.3.1 */
    GEO_ATTACK_CM = 300,         /* 1.3.4: its rear edge from the net's axis */
    GEO_DASH_CM = 15,            /* 1.3.4: the broken line beside the court */
    GEO_DASH_GAP_CM = 20,
    GEO_DASHES = 5,
    GEO_SERVICE_MARK_CM = 15,    /* 1.4.2 */
    GEO_SERVICE_GAP_CM = 20,
    GEO_NET_BEYOND_CM = 50,      /* 2.2: at most, beyond each side band */
    GEO_POST_CM = 100,           /* 2.5.1: at most, from the side line */
    GEO_HALL_SIDE_CM = 600,      /* 1.1: the largest free zone, and a metre */
    GEO_HALL_BEHIND_CM = 750,
    GEO_NET_MOST_CM = 243,       /* 2.1.1: the highest net */
    GEO_THIRD_CM = GEO_WIDTH_CM / 3, /* a zone's width: common practice, no source */
    GEO_BALL_LEAST_MM = 650,     /* 3.1: circumference */
    GEO_BALL_MOST_MM = 670
};

struct geo_spot {
    double x_m, d_m;
};

/* Angles from straight ahead, in degrees, to the server's right positive. */
struct geo_window {
    double left_deg, right_deg;
};

/* How far a spot lies past each line; negative is inside, 0 on its outer edge. */
struct geo_margins {
    double end_m, left_m, right_m;
};

/* Where a ball is hit, `past_m` beyond the server's end line (minus: behind). */
struct geo_spot geo_contact(double x_m, double past_m);

struct geo_margins geo_margins(struct geo_spot s);

/* Along the floor. */
double geo_distance_m(struct geo_spot from, struct geo_spot to);

/* How much longer the way to a spot is from `back` than from `front`, as a ratio. */
double geo_longer(struct geo_spot back, struct geo_spot front, struct geo_spot to);

/* The direction of a spot that lies ahead (to.d_m > from.d_m). */
double geo_angle_deg(struct geo_spot from, struct geo_spot to);

/* The directions that pass between the side lines at depth d_m ahead, both kept
 * at a distance of inset_m: the room to either side of straight ahead. */
struct geo_window geo_window(struct geo_spot from, double d_m, double inset_m);

/* The directions of straight serves that cross the net with the whole ball
 * between the antennas (8.4.4, 10.1.1) and reach the far end line inside. */
struct geo_window geo_serve_window(struct geo_spot from, double ball_m);

double geo_width_deg(struct geo_window w);

/* The radius of a ball from its circumference. */
double geo_ball_m(double circumference_m);

/* How far a degree moves the landing sideways over a length. */
double geo_degree_m(double length_m);

/* The height of contact from which a straight line, without gravity, clears a
 * net of this height with the whole ball and comes down at to_d_m. Contact and
 * landing lie on either side of the net. */
double geo_straight_m(double from_d_m, double to_d_m, double net_m, double ball_m);

/* The share of serves that go wide over a line when they are aimed inside_m
 * inside it and scatter normally, by metres across or by degrees over a length. */
double geo_wide_frac(double inside_m, double sd_m);
double geo_wide_angle_frac(double inside_m, double length_m, double sd_deg);

#endif
