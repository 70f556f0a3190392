/* The Illinois form of false position: M. Dowell, P. Jarratt, BIT 11 (1971)
 * 168-174, from memory. It keeps the root between two places, as halving does,
 * and needs about seven flights where halving needs thirty. */
#include "root.h"

#include <math.h>

enum { ROUNDS_MOST = 100 };

/* Far below what any angle or speed is known to. */
static const double close_enough = 1e-9;

/* f is at most 0 at `low` and at least 0 at `high`. */
struct bracket {
    double low, f_low, high, f_high;
};

/* Whichever end stays twice counts half, lest it stay for ever. */
static double narrow(root_function *f, const void *of, struct bracket b) {
    double x = b.high;
    int moved = 0; /* the end that moved last: -1 low, 1 high */

    for (int i = 0; i < ROUNDS_MOST && b.high - b.low > close_enough; i++) {
        x = (b.low * b.f_high - b.high * b.f_low) / (b.f_high - b.f_low);
        double fx = f(of, x);
        if (fabs(fx) < close_enough)
            break;
        if (fx < 0) {
            b = (struct bracket){x, fx, b.high, moved < 0 ? b.f_high / 2 : b.f_high};
            moved = -1;
        } else {
            b = (struct bracket){b.low, moved > 0 ? b.f_low / 2 : b.f_low, x, fx};
            moved = 1;
        }
    }
    return x;
}

double root_between(root_function *f, const void *of, double low, double high) {
    return narrow(f, of, (struct bracket){low, f(of, low), high, f(of, high)});
}

bool root_first(root_function *f, const void *of, double from, double most, double step,
                double *out) {
    struct bracket b = {.low = from, .f_low = f(of, from)};

    for (b.high = from + step; b.f_low <= 0 && b.high <= most; b.high += step) {
        b.f_high = f(of, b.high);
        if (b.f_high >= 0) {
            *out = narrow(f, of, b);
            return true;
        }
        b.low = b.high;
        b.f_low = b.f_high;
    }
    return false;
}
