/* From a line of notes to what it tells of the place where the ball would have
 * come down. What a receiver touched was played before it landed, so her place
 * is not the ball's: it becomes a stretch behind it. Nothing is left out because
 * it missed. */
#ifndef NINEMETRE_LANDING_H
#define NINEMETRE_LANDING_H

#include "aim.h"
#include "check.h"
#include "depth.h"

/* False for a serve that tells nothing of its place: faults at the hit, antenna,
 * ceiling, a team-mate, an overlap alone, no attempt. */
bool landing_seen(const struct played *p, const struct depth *flight, struct scatter_seen *out);

/* The floor that a written place stands for; a seam is 1.5 m wide (our own choice). */
struct aim_area landing_area(struct spot s);

/* The same relative to the middle of the aim. */
struct scatter_seen landing_from(struct scatter_seen seen, struct spot aim);

#endif
