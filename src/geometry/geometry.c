/* Straight lines over a court; everything follows from the rule book's measures. */
#include "geometry.h"

#include <assert.h>
#include <math.h>

static const double pi = 3.14159265358979323846;
static const double width_m = GEO_WIDTH_CM / 100.0, half_m = GEO_HALF_CM / 100.0;

static double degrees(double radians) {
    return radians * 180 / pi;
}

struct geo_spot geo_contact(double x_m, double past_m) {
    return (struct geo_spot){x_m, past_m - half_m};
}

struct geo_margins geo_margins(struct geo_spot s) {
    return (struct geo_margins){s.d_m - half_m, s.x_m - width_m, -s.x_m};
}

double geo_distance_m(struct geo_spot from, struct geo_spot to) {
    return hypot(to.x_m - from.x_m, to.d_m - from.d_m);
}

double geo_longer(struct geo_spot back, struct geo_spot front, struct geo_spot to) {
    return geo_distance_m(back, to) / geo_distance_m(front, to);
}

double geo_angle_deg(struct geo_spot from, struct geo_spot to) {
    assert(to.d_m > from.d_m);
    return degrees(atan2(from.x_m - to.x_m, to.d_m - from.d_m));
}

struct geo_window geo_window(struct geo_spot from, double d_m, double inset_m) {
    struct geo_spot left = {width_m - inset_m, d_m}, right = {inset_m, d_m};
    return (struct geo_window){geo_angle_deg(from, left), geo_angle_deg(from, right)};
}

struct geo_window geo_serve_window(struct geo_spot from, double ball_m) {
    struct geo_window court = geo_window(from, half_m, 0), net = geo_window(from, 0, ball_m);
    return (struct geo_window){fmax(court.left_deg, net.left_deg),
                               fmin(court.right_deg, net.right_deg)};
}

double geo_width_deg(struct geo_window w) {
    return w.right_deg - w.left_deg;
}

double geo_ball_m(double circumference_m) {
    return circumference_m / (2 * pi);
}

double geo_degree_m(double length_m) {
    return length_m * tan(pi / 180);
}

double geo_straight_m(double from_d_m, double to_d_m, double net_m, double ball_m) {
    assert(from_d_m < 0 && to_d_m > 0);
    return ball_m + net_m * (to_d_m - from_d_m) / to_d_m;
}

double geo_wide_frac(double inside_m, double sd_m) {
    assert(sd_m > 0);
    return erfc(inside_m / sd_m / sqrt(2)) / 2;
}

double geo_wide_angle_frac(double inside_m, double length_m, double sd_deg) {
    return geo_wide_frac(degrees(atan2(inside_m, length_m)), sd_deg);
}
