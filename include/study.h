/* What a match's counts say, as data: which of them lie so far from the others
 * that a page should name them. The words are the page's. This room compares a
 * match with itself only, and never one server with another: a match can't
 * tell two servers apart. */
#ifndef NINEMETRE_STUDY_H
#define NINEMETRE_STUDY_H

#include "rate.h"
#include "tally.h"

enum finding_kind {
    FINDING_MISSED,              /* in one situation, against all other serves */
    FINDING_BROKE,               /* the same, for the passes broken */
    FINDING_ERROR                /* one kind of miss against all other kinds */
};

/* How our serves that missed are sorted for a finding. */
enum miss { MISS_NET, MISS_LONG, MISS_WIDE, MISS_FAULT, MISS_N };

struct finding {
    enum finding_kind kind;
    enum situation situation;    /* FINDING_MISSED, FINDING_BROKE */
    enum miss miss;              /* FINDING_ERROR: here = so many of all missed */
    struct rate here, rest;
    unsigned net_n;              /* FINDING_MISSED: of here.x, into the net */
    double off;                  /* how far the interval lies from "no difference" */
};

enum { FINDINGS_MAX = 3 };

/* At most three of one match or several, the farthest first; how many. `*looked`
 * counts the comparisons that were tried, for the honest note beside them. */
unsigned study_findings(const struct counts *all, const struct counts situation[SITUATION_N],
                        struct finding out[FINDINGS_MAX], unsigned *looked);

/* How many serves missed in this way. */
unsigned study_missed(const struct counts *c, enum miss m);

#endif
