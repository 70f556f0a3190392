/* Chance for generators and property tests: the same seed gives the same
 * draws on every machine, so only integers are used. */
#ifndef NINEMETRE_TESTS_DICE_H
#define NINEMETRE_TESTS_DICE_H

#include <stdbool.h>
#include <stdint.h>

struct dice {
    uint64_t state;
};

/* The next 64 bits. */
uint64_t dice_next(struct dice *d);

/* 0 to n - 1; n > 0. */
unsigned dice_below(struct dice *d, unsigned n);

/* low to high, both included. */
int dice_between(struct dice *d, int low, int high);

/* True in `per_mille` of a thousand throws. */
bool dice_in(struct dice *d, unsigned per_mille);

/* Bell-shaped around `mean` with standard deviation `spread`. */
int dice_around(struct dice *d, int mean, int spread);

/* An index below n, each as often as its weight says. */
unsigned dice_pick(struct dice *d, const uint16_t *weights, unsigned n);

#endif
