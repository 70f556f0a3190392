#include "stat/bisect.h"

double bisect(double low, double high, bisect_f *f, const void *with) {
    for (;;) {
        double middle = low + (high - low) / 2;
        if (middle <= low || middle >= high)
            return f(low, with) < 0 ? high : low;
        if (f(middle, with) < 0)
            low = middle;
        else
            high = middle;
    }
}
