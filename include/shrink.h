/* Rates of several servers seen together. A server with six serves knows less
 * of herself than her team does: her rate is drawn towards the team's, the more
 * so the fewer serves she has and the more alike the team serves. Each server's
 * rate is taken as drawn from one Beta(a, b), whose a and b come from the team
 * itself (empirical Bayes; see A. Gelman et al., Bayesian Data Analysis, 3rd ed.
 * 2013, 5.1 and 5.3).
 *
 * Only servers of one kind belong together: each type of serve by itself, as
 * soon as each has SHRINK_LEAST_SERVES_N. */
#ifndef NINEMETRE_SHRINK_H
#define NINEMETRE_SHRINK_H

#include <stddef.h>

#include "rate.h"

/* With fewer the team's spread can't be seen, and is taken as worth 30 serves
 * around the common rate. Our own choice. */
enum { SHRINK_LEAST_SERVERS_N = 4, SHRINK_LEAST_SERVES_N = 100 };

struct shrink {
    double a, b; /* the team's Beta; it weighs as much as a + b serves */
    bool fitted; /* false: too few, see above */
};

/* Fits a and b. False, and nothing written, when there is no serve at all. */
bool shrink_fit(const struct rate *servers, size_t n, struct shrink *out);

struct shrunk {
    struct rate rate;           /* what was seen, to be printed beside it */
    double frac;                /* the estimate */
    struct interval between_80; /* 80 % */
    size_t ix;                  /* of the server */
};

struct shrunk shrink_one(const struct shrink *team, struct rate server);

enum shrink_order { SHRINK_LOWEST_FIRST, SHRINK_HIGHEST_FIRST };

/* All servers, in the order of their estimates; of equal ones she with fewer
 * serves comes last. `out` has room for n. */
void shrink_rank(const struct shrink *team, const struct rate *servers, size_t n,
                 enum shrink_order order, struct shrunk *out);

#endif
