#include "dice.h"

/* SplitMix64: G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom
 * number generators", OOPSLA 2014; constants as in S. Vigna's public-domain
 * version of it (variant 13 of D. Stafford's mixing functions). */
uint64_t dice_next(struct dice *d) {
    uint64_t z = d->state += UINT64_C(0x9e3779b97f4a7c15);

    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

/* The high half times n: its bias, at most n / 2^32, does not matter here. */
unsigned dice_below(struct dice *d, unsigned n) {
    return (unsigned)(((dice_next(d) >> 32) * n) >> 32);
}

int dice_between(struct dice *d, int low, int high) {
    return low + (int)dice_below(d, (unsigned)(high - low + 1));
}

bool dice_in(struct dice *d, unsigned per_mille) {
    return dice_below(d, 1000) < per_mille;
}

/* Twelve throws of variance spread^2 / 12 each (Irwin-Hall). */
int dice_around(struct dice *d, int mean, int spread) {
    int sum = 0;

    for (int i = 0; i < 12; i++)
        sum += dice_between(d, 0, spread);
    return mean + sum - 6 * spread;
}

unsigned dice_pick(struct dice *d, const uint16_t *weights, unsigned n) {
    unsigned total = 0, at, i = 0;

    for (unsigned k = 0; k < n; k++)
        total += weights[k];
    at = dice_below(d, total);
    while (at >= weights[i])
        at -= weights[i++];
    return i;
}
