/* Agreement of two scorers. Kappa: J. Cohen, Educ. Psychol. Meas. 20 (1960)
 * 37-46, weighted: Psychol. Bull. 70 (1968) 213-220; its standard errors: J. L.
 * Fleiss, J. Cohen, B. S. Everitt, Psychol. Bull. 72 (1969) 323-327. AC1: K. L.
 * Gwet, Br. J. Math. Stat. Psychol. 61 (2008) 29-48. */
#include "agree.h"

#include <assert.h>
#include <math.h>

struct agree_weights agree_nominal(void) {
    struct agree_weights w = {{{0}}};
    for (unsigned i = 0; i < AGREE_MAX; i++)
        w.w[i][i] = 1;
    return w;
}

struct agree_weights agree_quadratic(unsigned k) {
    struct agree_weights w = {{{0}}};
    assert(k > 1 && k <= AGREE_MAX);
    for (unsigned i = 0; i < k; i++)
        for (unsigned j = 0; j < k; j++) {
            double apart = ((double)i - j) / (k - 1);
            w.w[i][j] = 1 - apart * apart;
        }
    return w;
}

/* The table as shares, with its margins and the mean weight of each answer. */
struct shares {
    double n, p[AGREE_MAX][AGREE_MAX], row[AGREE_MAX], column[AGREE_MAX];
    double w_row[AGREE_MAX], w_column[AGREE_MAX];
};

static unsigned total(const struct agree_table *t) {
    unsigned n = 0;
    for (unsigned i = 0; i < t->k; i++)
        for (unsigned j = 0; j < t->k; j++)
            n += t->n[i][j];
    return n;
}

static void shares_of(struct shares *s, const struct agree_table *t) {
    *s = (struct shares){.n = total(t)};
    for (unsigned i = 0; i < t->k; i++)
        for (unsigned j = 0; j < t->k; j++) {
            double p = t->n[i][j] / s->n;
            s->p[i][j] = p;
            s->row[i] += p;
            s->column[j] += p;
        }
}

static void mean_weights(struct shares *s, unsigned k, const struct agree_weights *w) {
    for (unsigned i = 0; i < k; i++)
        for (unsigned j = 0; j < k; j++) {
            s->w_row[i] += s->column[j] * w->w[i][j];
            s->w_column[j] += s->row[i] * w->w[i][j];
        }
}

/* True if more than one answer was given by the two together. */
static bool varied(const struct agree_table *t) {
    unsigned used = 0;
    for (unsigned i = 0; i < t->k; i++) {
        bool any = false;
        for (unsigned j = 0; j < t->k; j++)
            any |= t->n[i][j] || t->n[j][i];
        used += any;
    }
    return used > 1;
}

struct kappa agree_kappa(const struct agree_table *t, const struct agree_weights *w) {
    struct kappa out = {.defined = false};
    struct shares s;
    double po = 0, pe = 0, of_table = 0, of_chance = 0;
    if (!varied(t))
        return out;
    shares_of(&s, t);
    mean_weights(&s, t->k, w);
    for (unsigned i = 0; i < t->k; i++)
        for (unsigned j = 0; j < t->k; j++) {
            po += w->w[i][j] * s.p[i][j];
            pe += w->w[i][j] * s.row[i] * s.column[j];
        }
    for (unsigned i = 0; i < t->k; i++)
        for (unsigned j = 0; j < t->k; j++) {
            double mean = s.w_row[i] + s.w_column[j];
            double d = w->w[i][j] * (1 - pe) - mean * (1 - po);
            double d0 = w->w[i][j] - mean;
            of_table += s.p[i][j] * d * d;
            of_chance += s.row[i] * s.column[j] * d0 * d0;
        }
    double middle = po * pe - 2 * pe + po;
    out.defined = true;
    out.kappa = (po - pe) / (1 - pe);
    /* A difference of equal numbers may come out a hair below 0. */
    out.se = sqrt(fmax(0, of_table - middle * middle) / s.n) / ((1 - pe) * (1 - pe));
    out.se_chance = sqrt(fmax(0, of_chance - pe * pe) / s.n) / (1 - pe);
    return out;
}

bool agree_interval(struct kappa k, struct interval *out) {
    if (!k.defined || k.se < 1e-7)
        return false;
    out->low = fmax(-1, k.kappa - RATE_Z * k.se);
    out->high = fmin(1, k.kappa + RATE_Z * k.se);
    return true;
}

struct rate agree_rate(const struct agree_table *t) {
    struct rate r = {0, total(t)};
    for (unsigned i = 0; i < t->k; i++)
        r.x += t->n[i][i];
    return r;
}

double agree_ac1(const struct agree_table *t) {
    struct shares s;
    double chance = 0, po = rate_frac(agree_rate(t));
    shares_of(&s, t);
    for (unsigned i = 0; i < t->k; i++) {
        double mean = (s.row[i] + s.column[i]) / 2;
        chance += mean * (1 - mean) / (t->k - 1);
    }
    return (po - chance) / (1 - chance);
}
