/* What misses cost a team. Private to the room. */
#ifndef NINEMETRE_STUDY_COST_H
#define NINEMETRE_STUDY_COST_H

#include "advice.h"

/* Fills won_known and won_frac. */
void cost_init(struct advice *a, struct arena *arena);

/* Of `n` more serves in the court over all matches, at least `sure_n` of them for
 * certain; each is won with chance won_frac. */
struct advice_cost cost_of(const struct advice *a, double n, double sure_n, double won_frac);

/* Of a count of misses: all of them, and as few as the interval allows. */
struct advice_cost cost_of_missed(const struct advice *a, const struct faults_server *who,
                                  struct rate missed);

/* Her two types with most serves, each with enough of them; false if there are not
 * two. */
bool cost_of_types(const struct faults_server *who, struct advice_types *out);

/* How many points more a broken pass wins than any other serve of ours; false
 * when either was never seen. */
bool cost_of_pass(const struct advice *a, double *more_frac);

#endif
