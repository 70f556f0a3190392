/* What a drill asks for, and whether a ball did it. */
#include "page/practice.h"

static const double zone_m = 3, half_m = 9, attack_m = 3, last_m = 1, seam_half_m = 0.5;

static bool is_deep(const struct spot *s) {
    return s->kind == PLACE_DEEP || s->kind == PLACE_DEEP_SEAM;
}

static double middle_x_m(unsigned zone) {
    return zone == 5 || zone == 4 ? 1.5 : zone == 6 || zone == 3 ? 4.5 : 7.5;
}

static bool is_front(unsigned zone) {
    return zone >= 2 && zone <= 4;
}

/* A seam reaches half a metre to each side of the bound (our own choice, no
 * source). The one between two rows, such as 1-2, runs along the attack line. */
bool page_target_area(const struct spot *aim, struct area *out) {
    if (aim->kind == 0 || aim->kind == PLACE_XD)
        return false;
    double x = middle_x_m(aim->zone), half = zone_m / 2;
    bool front = is_front(aim->zone);
    *out = (struct area){x - half, x + half, front ? 0 : attack_m, front ? attack_m : half_m};
    if (aim->seam && is_front(aim->seam) != front) {
        out->d_m = attack_m - seam_half_m;
        out->d2_m = attack_m + seam_half_m;
    } else if (aim->seam) {
        double bound = (x + middle_x_m(aim->seam)) / 2;
        out->x_m = bound - seam_half_m;
        out->x2_m = bound + seam_half_m;
    }
    if (is_deep(aim))
        out->d_m = half_m - last_m;
    return true;
}

static bool same_pair(const struct spot *a, const struct spot *b) {
    return (a->zone == b->zone && a->seam == b->seam) || (a->zone == b->seam && a->seam == b->zone);
}

/* A landing in words, against an aim in words. */
static enum target by_zone(const struct spot *aim, const struct spot *at) {
    bool shares = at->zone == aim->zone || (at->seam && at->seam == aim->zone) ||
                  (aim->seam && (at->zone == aim->seam || at->seam == aim->seam));
    if (!shares)
        return TARGET_BESIDE;
    if (!same_pair(aim, at))
        return TARGET_UNKNOWN;
    return is_deep(aim) && !is_deep(at) ? TARGET_UNKNOWN : TARGET_HIT;
}

enum target page_target_of(const struct checked *c, const struct played *p) {
    struct spot aim = played_aim(c, p);
    struct area area;
    if (!page_target_area(&aim, &area))
        return TARGET_NONE;
    if (played_error(p))
        return TARGET_BESIDE;
    const struct spot *at = &p->said.landing;
    if (at->kind == 0 || played_place(p) == PLACE_PLAYED)
        return TARGET_UNKNOWN;
    if (at->kind != PLACE_XD)
        return by_zone(&aim, at);
    double x = at->x_cm / 100.0, d = at->d_cm / 100.0;
    return x >= area.x_m && x <= area.x2_m && d >= area.d_m && d <= area.d2_m ? TARGET_HIT
                                                                              : TARGET_BESIDE;
}

struct str page_target_words(struct draw *d, const struct spot *aim) {
    if (aim->seam && is_deep(aim))
        return page_sayf(d, "the last metre of the seam of zones %u and %u", aim->zone, aim->seam);
    if (aim->seam)
        return page_sayf(d, "the seam of zones %u and %u", aim->zone, aim->seam);
    return is_deep(aim) ? page_sayf(d, "the last metre of zone %u", aim->zone)
                        : page_sayf(d, "zone %u", aim->zone);
}
