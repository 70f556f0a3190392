/* The numbers that the flight rests on, each with its source.
 *
 * Mass and radius: FIVB Official Volleyball Rules 2025-2028, 3.1 (260 to 280 g,
 * 65 to 67 cm around). Air: standard atmosphere at 20 degrees and sea level,
 * from memory.
 *
 * Drag: 0.15 behind the crisis as measured without spin (S. Hong, H. Ozaki, K.
 * Watanabe, T. Asai, Appl. Sci. 10 (2020) 3256: 0.13 to 0.17, critical Reynolds
 * numbers 2.6e5 to 3.4e5); 0.45 before it as for any smooth sphere, from memory.
 * Centre and width of the crisis are chosen by us so that the fall is over at
 * those critical numbers. `heavy` has 0.25 behind it, as an upper case.
 *
 * Spin: the weakest number of the model. 0.80 is chosen by us so that the fastest
 * serves that were measured are possible with 6 to 8 turns a second; 0.5 and 1.0
 * are its band. The cap is that of footballs, from memory. `classic` is the pair
 * 0.36 and 0.30 of D. Lithio and E. Webb (2006), as K. H. Fredly quotes it
 * (computational essay, University of Oslo, 2019); the one without the other
 * would forbid serves that were seen. */
#include "flight.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

#define BALL_AND_AIR                                                                               \
    .mass_kg = 0.270, .radius_m = 0.105, .gravity_ms2 = 9.81, .density_kgm3 = 1.204,               \
    .viscosity_m2s = 1.516e-5
#define CRISIS_TO(coefficient) .drag = {0.45, coefficient, 2.10e5, 0.18e5}

static const struct flight_model models[FLIGHT_PRESET_N] = {
    [FLIGHT_DEFAULT] = {BALL_AND_AIR, CRISIS_TO(0.15), .lift = {0.80, 0.30}},
    [FLIGHT_CLASSIC] = {BALL_AND_AIR, .drag = {0.36, 0.36, 2.10e5, 0.18e5},
                        .lift = {0.30, 0.30}},
    [FLIGHT_LOW] = {BALL_AND_AIR, CRISIS_TO(0.15), .lift = {0.50, 0.30}},
    [FLIGHT_HIGH] = {BALL_AND_AIR, CRISIS_TO(0.15), .lift = {1.00, 0.30}},
    [FLIGHT_HEAVY] = {BALL_AND_AIR, CRISIS_TO(0.25), .lift = {0.80, 0.30}},
};

const char *const flight_preset_words[] = {"default", "classic", "low", "high", "heavy", NULL};

const struct flight_model *flight_model(enum flight_preset preset) {
    assert(preset < FLIGHT_PRESET_N);
    return &models[preset];
}

double flight_drag_at(const struct flight_drag *drag, double re) {
    double past = (re - drag->crisis_re) / drag->width_re;

    return drag->fast + (drag->slow - drag->fast) / (1 + exp(past));
}

/* ---- bounds --------------------------------------------------------------- */

/* Outside of these speeds and spins nothing of the model was compared with a
 * measurement; height and contact are what the notation takes for possible. */
const struct flight_bounds flight_speed_bounds_ms = {8, 38};
const struct flight_bounds flight_spin_bounds_rev_s = {0, 10};
const struct flight_bounds flight_height_bounds_m = {0.8, 4.2};
const struct flight_bounds flight_contact_bounds_m = {-7, 4};
const struct flight_bounds flight_angle_bounds_deg = {-30, 75};

static bool within(struct flight_bounds b, double value) {
    return value >= b.least && value <= b.most;
}

bool flight_holds(const struct flight_serve *s) {
    return within(flight_speed_bounds_ms, s->speed_ms) &&
           within(flight_spin_bounds_rev_s, s->topspin_rev_s) &&
           within(flight_height_bounds_m, s->height_m) && within(flight_contact_bounds_m, s->x_m) &&
           within(flight_angle_bounds_deg, s->angle_deg);
}
