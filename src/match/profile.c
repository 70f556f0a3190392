/* Rule profiles: the numbers of the rule books as data. */
#include "match.h"

static const struct profile profiles[] = {
    {.name = "fivb",
     .source = "FIVB Official Volleyball Rules 2025-2028",
     .set_points = 25,           /* 6.2 */
     .decider_points = 15,       /* 6.3.2 */
     .lead = 2,                  /* 6.2 */
     .sets_to_win = 3,           /* 6.3.1 */
     .substitutions = 6,         /* 15.1 */
     .timeouts = 2,              /* 15.1 */
     .net_women_cm = 224,        /* 2.1.1 */
     .net_men_cm = 243,          /* 2.1.1 */
     .libero_serves = false,     /* 19.3.1.3 */
     .retoss = false},           /* 12.4.2 */
};

const struct profile *profile_find(struct str name) {
    for (size_t i = 0; i < sizeof profiles / sizeof *profiles; i++)
        if (str_same(name, str_of(profiles[i].name)))
            return &profiles[i];
    return NULL;
}
