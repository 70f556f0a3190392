/* The Illinois form of false position: M. Dowell, P. Jarratt, BIT 11 (1971)
 * 168-174, from memory. It keeps the root between two places, as halving does,
 * and needs about seven flights where halving needs thirty. */
#include "root.h"

#include <math.h>

enum { ROUNDS_MOST = 100 };

/* Far below what any angle or speed is known to. */
static const double close_enough = 1e-9;

double root_between(root_function *f, const void *of, double low, double high) {
    double f_low = f(of, low), f_high = f(of, high), x = high;

    for (int i = 0; i < ROUNDS_MOST && high - low > close_enough; i++) {
        bool was_low = x == low;
        x = (low * f_high - high * f_low) / (f_high - f_low);
        double fx = f(of, x);
        if (fabs(fx) < close_enough)
            break;
        if (fx < 0) {
            low = x, f_low = fx;
            f_high = was_low && i ? f_high / 2 : f_high;
        } else {
            high = x, f_high = fx;
            f_low = !was_low && i ? f_low / 2 : f_low;
        }
    }
    return x;
}

bool root_first(root_function *f, const void *of, double from, double most, double step,
                double *out) {
    double low = from;

    if (f(of, low) > 0)
        return false;
    for (double high = from + step; high <= most; low = high, high += step)
        if (f(of, high) >= 0) {
            *out = root_between(f, of, low, high);
            return true;
        }
    return false;
}
