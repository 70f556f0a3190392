/* The best aim at any target: a grid, then uphill from its peaks. One start is
 * not enough: where two places are about as good, the grid may favour the wrong
 * one. */
#include "aim.h"

#include <assert.h>
#include <gsl/gsl_multimin.h>
#include <math.h>

enum { CLIMB_STEPS = 200 };

/* Peaks below this share of the highest are not climbed. */
static const double worth_climbing = .9;

/* A climb has ended when its triangle is so small, in steps of the grid. */
static const double triangle_least = 1e-6;

struct grid {
    double *value;
    int nx, nd;
    double best;
};

static double at(const struct grid *g, int i, int j) {
    return g->value[j * g->nx + i];
}

static struct grid grid_of(const struct aim_target *t, struct arena *a) {
    struct grid g = {.nx = (int)ceil((t->x1 - t->x0) / t->step) + 1,
                     .nd = (int)ceil((t->d1 - t->d0) / t->step) + 1};
    g.value = arena_alloc(a, (size_t)(g.nx * g.nd), sizeof *g.value);
    for (int j = 0; j < g.nd; j++)
        for (int i = 0; i < g.nx; i++) {
            double v = t->value(t->facts, t->x0 + i * t->step, t->d0 + j * t->step);
            g.value[j * g.nx + i] = v;
            g.best = fmax(g.best, v);
        }
    return g;
}

/* Of equal neighbours the first is the peak. */
static bool is_peak(const struct grid *g, int i, int j) {
    double v = at(g, i, j);
    for (int y = j - 1; y <= j + 1; y++)
        for (int x = i - 1; x <= i + 1; x++) {
            if (x < 0 || y < 0 || x >= g->nx || y >= g->nd || (x == i && y == j))
                continue;
            bool earlier = y < j || (y == j && x < i);
            if (at(g, x, y) > v || (earlier && at(g, x, y) >= v))
                return false;
        }
    return true;
}

static double downhill(const gsl_vector *place, void *target) {
    const struct aim_target *t = target;
    return -t->value(t->facts, gsl_vector_get(place, 0), gsl_vector_get(place, 1));
}

static struct aim_best climb(struct aim_target t, double x, double d) {
    double from[2] = {x, d}, stride[2] = {t.step / 2, t.step / 2};
    gsl_vector_view start = gsl_vector_view_array(from, 2);
    gsl_vector_view strides = gsl_vector_view_array(stride, 2);
    gsl_multimin_function f = {.f = downhill, .n = 2, .params = &t};
    gsl_multimin_fminimizer *m =
        gsl_multimin_fminimizer_alloc(gsl_multimin_fminimizer_nmsimplex2, 2);
    gsl_multimin_fminimizer_set(m, &f, &start.vector, &strides.vector);
    for (int i = 0; i < CLIMB_STEPS; i++) {
        if (gsl_multimin_fminimizer_size(m) <= triangle_least * t.step)
            break;
        gsl_multimin_fminimizer_iterate(m);
    }
    struct aim_best best = {gsl_vector_get(m->x, 0), gsl_vector_get(m->x, 1), -m->fval};
    gsl_multimin_fminimizer_free(m);
    return best;
}

struct aim_best aim_search(const struct aim_target *t, struct arena *a) {
    struct grid g = grid_of(t, a);
    struct aim_best best = {.value = -1};
    for (int j = 0; j < g.nd; j++)
        for (int i = 0; i < g.nx; i++) {
            if (at(&g, i, j) < worth_climbing * g.best || !is_peak(&g, i, j))
                continue;
            struct aim_best top = climb(*t, t->x0 + i * t->step, t->d0 + j * t->step);
            if (top.value > best.value)
                best = top;
        }
    assert(best.value >= 0);
    return best;
}
