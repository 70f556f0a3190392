/* Findings of one match. A situation is named when the 95 % interval of its
 * difference from all other serves leaves out zero (Newcombe's method 10); a
 * kind of miss when its own interval lies above a half. */
#include "study.h"

enum { LEAST_SEEN = 5 }; /* fewer of either: too few to say */

unsigned study_missed(const struct counts *c, enum miss m) {
    switch (m) {
    case MISS_NET:
        return c->by[OUTCOME_NET];
    case MISS_LONG:
        return c->by[OUTCOME_LONG];
    case MISS_WIDE:
        return c->by[OUTCOME_LEFT] + c->by[OUTCOME_RIGHT];
    case MISS_FAULT:
        return c->missed - study_missed(c, MISS_NET) - study_missed(c, MISS_LONG) -
               study_missed(c, MISS_WIDE);
    case MISS_N:
        break;
    }
    return 0;
}

/* Keeps the three that lie farthest off; of equal ones the earlier. */
static unsigned keep(struct finding out[FINDINGS_MAX], unsigned n, struct finding f) {
    unsigned at = n;
    while (at > 0 && out[at - 1].off < f.off)
        at--;
    if (at == FINDINGS_MAX)
        return n;
    unsigned last = n < FINDINGS_MAX ? n : FINDINGS_MAX - 1;
    for (unsigned i = last; i > at; i--)
        out[i] = out[i - 1];
    out[at] = f;
    return last + 1;
}

/* True when the interval of the difference leaves out zero. */
static bool stands_out(struct finding *f) {
    struct interval between;
    if (!rate_difference(f->here, f->rest, &between))
        return false;
    f->off = between.low > 0 ? between.low : -between.high;
    return between.low > 0 || between.high < 0;
}

static bool situation_finding(const struct counts *all, const struct counts *here,
                              enum situation s, enum finding_kind kind, struct finding *f) {
    bool missed = kind == FINDING_MISSED;
    unsigned x = missed ? here->missed : here->broke;
    unsigned all_x = missed ? all->missed : all->broke;
    *f = (struct finding){
        .kind = kind,
        .situation = s,
        .here = {x, here->serves},
        .rest = {all_x - x, all->serves - here->serves},
        .net_n = here->by[OUTCOME_NET],
    };
    return stands_out(f);
}

/* The first serve of a turn is not compared: every later one had to be earned
 * by a won rally, so that good servers alone would make a difference. */
static bool looked_at(const struct counts *all, const struct counts *here, enum situation s) {
    if (s == SITUATION_FIRST)
        return false;
    return here->serves >= LEAST_SEEN && all->serves - here->serves >= LEAST_SEEN;
}

static bool error_finding(const struct counts *all, enum miss m, struct finding *f) {
    struct rate share = {study_missed(all, m), all->missed};
    *f = (struct finding){.kind = FINDING_ERROR,
                          .miss = m,
                          .here = share,
                          .rest = {all->missed - share.x, all->missed}};
    f->off = rate_wilson(share).low - 0.5;
    return f->off > 0;
}

unsigned study_findings(const struct counts *all, const struct counts situation[SITUATION_N],
                        struct finding out[FINDINGS_MAX], unsigned *looked) {
    unsigned n = 0;
    struct finding f;
    *looked = 0;
    for (unsigned s = 0; s < SITUATION_N; s++) {
        if (!looked_at(all, &situation[s], (enum situation)s))
            continue;
        *looked += 2;
        if (situation_finding(all, &situation[s], (enum situation)s, FINDING_MISSED, &f))
            n = keep(out, n, f);
        if (situation_finding(all, &situation[s], (enum situation)s, FINDING_BROKE, &f))
            n = keep(out, n, f);
    }
    if (all->missed < LEAST_SEEN)
        return n;
    for (unsigned m = 0; m < MISS_FAULT; m++) {
        *looked += 1;
        if (error_finding(all, (enum miss)m, &f))
            n = keep(out, n, f);
    }
    return n;
}
