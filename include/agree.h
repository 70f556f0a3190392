/* Two scorers, one match: which serves both wrote, where they differ, and how
 * far they agree beyond chance. Serves are paired without a look at what is to
 * be compared: outcome, place and marks play no part in it. Kappa is printed
 * as a number with its interval and never as a word. */
#ifndef NINEMETRE_AGREE_H
#define NINEMETRE_AGREE_H

#include "check.h"
#include "rate.h"

/* ---- agreement in a table ------------------------------------------------ */

enum { AGREE_MAX = OUTCOME_N };

/* n[i][j] serves that the first scorer put under i and the second under j. */
struct agree_table {
    unsigned k;
    unsigned n[AGREE_MAX][AGREE_MAX];
};

/* How much of an agreement each pair of answers is, 0 to 1. */
struct agree_weights {
    double w[AGREE_MAX][AGREE_MAX];
};

struct agree_weights agree_nominal(void);
struct agree_weights agree_quadratic(unsigned k);

struct kappa {
    bool defined;                /* false: both used one answer only, or no serve */
    double kappa;
    double se;                   /* of the estimate */
    double se_chance;            /* if there were no agreement beyond chance */
};

struct kappa agree_kappa(const struct agree_table *t, const struct agree_weights *w);

/* The 95 % interval, cut at -1 and 1. False without a kappa, and when the
 * standard error is 0, which says nothing of how sure the 1 is. */
bool agree_interval(struct kappa k, struct interval *out);

/* Gwet's AC1, for rare answers; k is 2 or more and the table not empty. */
double agree_ac1(const struct agree_table *t);

/* On the diagonal, of all. */
struct rate agree_rate(const struct agree_table *t);

/* ---- two files ----------------------------------------------------------- */

enum { AGREE_SET_MAX = 1000 };   /* serves of a set; the pairing is quadratic */

enum agree_fit {
    AGREE_FITS,
    AGREE_NO_MATCH,              /* one of them is no match */
    AGREE_OTHER_DAY,
    AGREE_OTHER_TEAMS,
    AGREE_TOO_LONG               /* a set with more than AGREE_SET_MAX serves */
};

/* A serve of the first file and one of the second, as indices into played[]. */
struct agree_pair {
    size_t a, b;
};

enum agree_field {
    FIELD_OUTCOME, FIELD_PASS, FIELD_ZONE,
    FIELD_MARK,                  /* and one for each mark */
    FIELD_N = FIELD_MARK + MARK_N
};

struct agree_facts {
    struct agree_table table;    /* serves where both say something */
    unsigned one_n;              /* where one of the two does */
};

struct agree {
    const struct checked *file[2];
    struct agree_pair *pairs;    /* in the order of the match */
    size_t pair_n;
    size_t *alone[2];            /* serves of one file only */
    size_t alone_n[2];
    unsigned server_same_n, server_n; /* pairs with both shirts seen */
    struct agree_facts field[FIELD_N];
};

/* Pairs the serves of two records of one match and counts. `out` is written
 * only if they fit. */
enum agree_fit agree_of(const struct checked *a, const struct checked *b, struct arena *arena,
                        struct agree *out);

/* What a serve says in a field, from 0; false if it says nothing. */
bool agree_answer(const struct played *p, unsigned field, unsigned *answer);

/* True if both say something in the field, and not the same. */
bool agree_differs(const struct agree *g, struct agree_pair pair, unsigned field);

/* True if both saw a shirt, and not the same. */
bool agree_other_server(const struct agree *g, struct agree_pair pair);

#endif
