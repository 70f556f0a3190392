/* The toss: how long the ball is in the air, how fast it falls past the hand that
 * hits it, and what that leaves to the server's timing. Heights are those of the
 * ball's centre above the floor. */
#ifndef NINEMETRE_TOSS_H
#define NINEMETRE_TOSS_H

#include "flight.h"

/* Where the ball leaves the hand of a tall player with her arm stretched (our
 * choice). */
#define TOSS_RELEASE_M 1.9

/* The best timing of hits on a falling ball that was measured, as a standard
 * deviation (Front. Hum. Neurosci. 8 (2014) 342). */
#define TOSS_BEST_SD_S 0.007

/* The slot is where the centre is no further than this from its height at the
 * hit: half a radius (our choice). */
#define TOSS_SLOT_M 0.05

struct toss {
    double release_m, apex_m, contact_m;
};

struct toss_facts {
    double rise_m;               /* of the apex over the contact */
    double up_s, down_s;         /* to the apex, from there to the contact */
    double fall_ms;              /* at the contact, without drag */
    double fall_drag_ms;         /* and with it */
    double slot_s;               /* how long the ball falls through the slot */
    double height_sd_m;          /* of the contact, with the best timing */
    double shift_m_per_deg;      /* forward at the contact, for each degree of tilt */
};

enum toss_status {
    TOSS_FOUND,
    TOSS_NOT_OVER_CONTACT,       /* the apex is not above the contact */
    TOSS_NOT_OVER_RELEASE
};

enum toss_status toss_of(const struct flight_model *m, const struct toss *t,
                         struct toss_facts *out);

/* The share of hits within the slot, 0 to 1, with timing of this spread. */
double toss_in_slot_frac(const struct toss_facts *f, double sd_s);

#endif
