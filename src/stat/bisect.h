/* Where a rising function crosses zero. */
#ifndef NINEMETRE_BISECT_H
#define NINEMETRE_BISECT_H

/* A function of x, with whatever else it needs. */
typedef double bisect_f(double x, const void *with);

/* Halves the stretch until no number lies between its ends. If f is below zero
 * all along it is `high`, if above, `low`. */
double bisect(double low, double high, bisect_f *f, const void *with);

#endif
