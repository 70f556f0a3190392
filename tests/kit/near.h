/* assert_near(got, expected, tolerance): cmocka's own compares floats only.
 * To be included behind cmocka.h. */
#ifndef NINEMETRE_TESTS_NEAR_H
#define NINEMETRE_TESTS_NEAR_H

#include <math.h>

#define assert_near(got, expected, tolerance) \
    near_at((got), (expected), (tolerance), #got, __FILE__, __LINE__)

/* Not a number is near nothing. */
static inline void near_at(double got, double expected, double tolerance, const char *what,
                           const char *file, int line) {
    if (fabs(got - expected) <= tolerance)
        return;
    print_error("%s is %.12g, not %.12g (within %g)\n", what, got, expected, tolerance);
    _fail(file, line);
}

#endif
