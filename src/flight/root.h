/* Where a function of one number passes 0, upward. */
#ifndef NINEMETRE_FLIGHT_ROOT_H
#define NINEMETRE_FLIGHT_ROOT_H

#include <stdbool.h>

typedef double root_function(const void *of, double x);

/* Between `low`, where f is below 0 (or 0), and `high`, where it is not. */
double root_between(root_function *f, const void *of, double low, double high);

/* The first step from `from` to `most` within which f comes up to 0, and the
 * place in it. False if it stays below. */
bool root_first(root_function *f, const void *of, double from, double most, double step,
                double *out);

#endif
