/* Each row of the notation's outcomes as the set of places that it leaves. */
#include "landing.h"

#include <math.h>

#include "geometry.h"
#include "tally.h"

static const double width_m = GEO_WIDTH_CM / 100.0, half_m = GEO_HALF_CM / 100.0;
static const double last_m = 1, seam_half_m = .75;

struct aim_area landing_area(struct spot s) {
    if (s.kind == PLACE_XD)
        return (struct aim_area){s.x_cm / 100.0, s.x_cm / 100.0, s.d_cm / 100.0, s.d_cm / 100.0};
    struct aim_area area = aim_zone(s.zone);
    if (s.kind == PLACE_SEAM || s.kind == PLACE_DEEP_SEAM) {
        struct aim_area other = aim_zone(s.seam);
        double x = fmax(area.x0_m, other.x0_m), d = fmax(area.d0_m, other.d0_m);
        if (area.d0_m == other.d0_m)
            area.x0_m = x - seam_half_m, area.x1_m = x + seam_half_m;
        else
            area.d0_m = d - seam_half_m, area.d1_m = d + seam_half_m;
    }
    if (s.kind == PLACE_DEEP || s.kind == PLACE_DEEP_SEAM)
        area.d0_m = half_m - last_m;
    return area;
}

/* ---- outcomes ---------------------------------------------------------------- */

static struct scatter_seen crossed(double x0, double x1, double d0, double d1) {
    return (struct scatter_seen){.x0_m = x0, .x1_m = x1, .d0_m = d0, .d1_m = d1,
                                 .net = SCATTER_CROSSED};
}

static struct scatter_seen in_area(struct aim_area a) {
    return crossed(a.x0_m, a.x1_m, a.d0_m, a.d1_m);
}

/* An ace with a receiver was touched, too. */
static bool was_received(const struct serve *v) {
    return v->by != SHIRT_NONE || (v->outcome != OUTCOME_ACE && v->outcome != OUTCOME_IN);
}

/* In play or an ace. A received ball may have been going out: its depth has no
 * other end than where it was played. */
static struct scatter_seen in_court(const struct played *p, const struct depth *flight) {
    bool received = was_received(&p->said);
    if (!p->said.landing.kind)
        return crossed(0, width_m, 0, received ? HUGE_VAL : half_m);
    struct scatter_seen seen = in_area(landing_area(p->said.landing));
    if (received) {
        seen.d0_m += flight->short_low_m;
        seen.d1_m += flight->short_high_m;
    }
    return seen;
}

/* Its place along the net says nothing of the landing; how far below the tape it
 * hit does, unless a slow serve lands no farther for a higher flight. */
static struct scatter_seen into_net(const struct serve *v, const struct depth *flight) {
    bool tells = v->has & HAS_MARGIN && flight->net_per_landing > 0;
    return (struct scatter_seen){-HUGE_VAL, HUGE_VAL, -HUGE_VAL, HUGE_VAL, 0, 0,
                                 tells ? SCATTER_AT : SCATTER_STOPPED};
}

/* Over a line: in metres, or by so much, or just over it. */
static struct scatter_seen out(const struct serve *v) {
    bool known = v->has & HAS_MARGIN;
    double by = known ? v->margin_cm / 100.0 : 0;
    if (v->landing.kind == PLACE_XD)
        return in_area(landing_area(v->landing));
    if (v->outcome == OUTCOME_LONG)
        return crossed(0, width_m, half_m + by, known ? half_m + by : HUGE_VAL);
    if (v->outcome == OUTCOME_LEFT)
        return crossed(width_m + by, known ? width_m + by : HUGE_VAL, -HUGE_VAL, HUGE_VAL);
    return crossed(known ? -by : -HUGE_VAL, -by, -HUGE_VAL, HUGE_VAL);
}

static bool places(const struct played *p, const struct depth *flight,
                   struct scatter_seen *seen) {
    switch ((enum outcome)p->said.outcome) {
    case OUTCOME_ACE:
    case OUTCOME_IN3:
    case OUTCOME_IN2:
    case OUTCOME_IN1:
    case OUTCOME_PLAY:
    case OUTCOME_IN:
    case OUTCOME_OVER: *seen = in_court(p, flight); return true;
    case OUTCOME_NET: *seen = into_net(&p->said, flight); return true;
    case OUTCOME_LONG:
    case OUTCOME_LEFT:
    case OUTCOME_RIGHT: *seen = out(&p->said); return true;
    case OUTCOME_NONE:
    case OUTCOME_ANTENNA:
    case OUTCOME_CEILING:
    case OUTCOME_MATE:
    case OUTCOME_FOOT:
    case OUTCOME_CLOCK:
    case OUTCOME_ORDER:
    case OUTCOME_DROP:
    case OUTCOME_SCREEN:
    case OUTCOME_RETOSS:
    case OUTCOME_REPLAY:
    case OUTCOME_OVERLAP:
    case OUTCOME_N: break;
    }
    return false;
}

bool landing_seen(const struct played *p, const struct depth *flight,
                  struct scatter_seen *seen) {
    if (!played_counts(p) || !places(p, flight, seen))
        return false;
    seen->n = tally_times(p);
    seen->tape_m = flight->clear_m;
    if (seen->net == SCATTER_AT)
        seen->tape_m += p->said.margin_cm / 100.0 / flight->net_per_landing;
    return true;
}

struct scatter_seen landing_from(struct scatter_seen seen, struct spot aim) {
    struct aim_area a = landing_area(aim);
    double x = (a.x0_m + a.x1_m) / 2, d = (a.d0_m + a.d1_m) / 2;
    seen.x0_m -= x;
    seen.x1_m -= x;
    seen.d0_m -= d;
    seen.d1_m -= d;
    seen.tape_m -= d;
    return seen;
}
