#include "toss.h"

#include <math.h>

#include "stat.h"

static const double pi = 3.14159265358979323846;

static double fall_s(double metres, double gravity_ms2) {
    return sqrt(2 * fmax(metres, 0) / gravity_ms2);
}

static double fall_with_drag_ms(const struct flight_model *m, const struct toss *t) {
    struct flight_serve dropped = {.height_m = t->apex_m};
    struct flight_point hit;

    return flight_down_to_z(m, &dropped, t->contact_m, &hit) ? -hit.vz_ms : 0;
}

enum toss_status toss_of(const struct flight_model *m, const struct toss *t,
                         struct toss_facts *out) {
    double g = m->gravity_ms2, rise_m = t->apex_m - t->contact_m;

    if (t->apex_m <= t->release_m)
        return TOSS_NOT_OVER_RELEASE;
    if (rise_m <= 0)
        return TOSS_NOT_OVER_CONTACT;
    *out = (struct toss_facts){
        .rise_m = rise_m,
        .up_s = fall_s(t->apex_m - t->release_m, g),
        .down_s = fall_s(rise_m, g),
        .fall_drag_ms = fall_with_drag_ms(m, t),
        .slot_s = fall_s(rise_m + TOSS_SLOT_M, g) - fall_s(rise_m - TOSS_SLOT_M, g),
    };
    out->fall_ms = g * out->down_s;
    out->height_sd_m = out->fall_drag_ms * TOSS_BEST_SD_S;
    out->shift_m_per_deg = g * out->up_s * (out->up_s + out->down_s) * tan(pi / 180);
    return TOSS_FOUND;
}

double toss_in_slot_frac(const struct toss_facts *f, double sd_s) {
    return 2 * stat_normal_cdf(f->slot_s / 2 / sd_s) - 1;
}
