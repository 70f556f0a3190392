/* One practice for the staff: goals that were reached, and jump serves. */
#include "drilled.h"
#include "season.h"

enum { SHIRTS = SHIRT_NONE + 1 };

/* ---- goals ------------------------------------------------------------------ */

static bool is_first(const struct checked *c, uint32_t drill) {
    for (uint32_t i = 1; i < drill; i++)
        if (str_same(c->drills[i - 1].name, c->drills[drill - 1].name))
            return false;
    return true;
}

/* What her focus says of the goal, and on how many days it was met. */
static bool take_focus(const struct checked *c, const struct progress *season,
                       struct drilled_goal *g, struct arena *a) {
    struct progress_focus f;
    size_t person;
    if (!progress_find(season, pool_key(c, OURS, g->shirt), &person) ||
        !progress_focus(season, person, &f) || f.goal.n == 0 ||
        !str_same(f.drill, c->drills[g->drill - 1].name))
        return false;
    struct progress_series s = progress_drilled(season, person, &f, a);
    g->focus = true;
    g->treats = f.treats;
    g->goal = f.goal;
    g->days.n = (unsigned)s.n;
    for (size_t i = 0; i < s.n; i++)
        g->days.x += progress_meets(s.days[i].hits, f.goal);
    return true;
}

static void take_drill(const struct checked *c, const struct drill_book *book,
                       struct drilled_goal *g) {
    const struct drill_recipe *r = !book ? NULL : drill_find(book, c->drills[g->drill - 1].name);
    if (r)
        g->goal = (struct rate){r->goal_hits, r->goal_tries};
}

/* What everybody hit in the drills of one name. */
static void add_done(const struct checked *c, uint32_t drill, struct rate done[SHIRTS]) {
    for (size_t i = 0; i < c->tries_n; i++) {
        const struct tries *t = &c->tries[i];
        if (t->side == OURS && t->kind != STMT_JUMPS && t->drill > 0 &&
            str_same(c->drills[t->drill - 1].name, c->drills[drill - 1].name))
            done[t->shirt] = rate_sum(done[t->shirt], (struct rate){t->hits, t->n});
    }
}

static bool shows(const struct checked *c, const struct played *p, const struct drilled_goal *g,
                  unsigned phase) {
    return p->side == OURS && p->charged == g->shirt && p->drill > 0 && played_counts(p) &&
           played_shows_technique(p) && (p->observed & phase) &&
           str_same(c->drills[p->drill - 1].name, c->drills[g->drill - 1].name);
}

/* A drill of serves alone: those without the mark that the focus is on. */
static void take_serves(const struct checked *c, struct drilled_goal *g) {
    const struct word_info *w = word_info(g->treats);
    if (!g->focus || w->class != WORD_MARK)
        return;
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!shows(c, p, g, mark_phase((enum mark)w->value)))
            continue;
        g->done.n += tally_times(p);
        g->done.x += p->said.marks >> w->value & 1 ? 0 : tally_times(p);
    }
    g->serves = g->done.n > 0;
}

static void add_goals(const struct checked *c, const struct progress *season,
                      const struct drill_book *book, uint32_t drill, struct drilled_goals *all,
                      struct arena *a) {
    struct rate done[SHIRTS] = {{0, 0}};
    add_done(c, drill, done);
    for (unsigned shirt = 0; shirt < SHIRT_NONE; shirt++) {
        struct drilled_goal g = {.drill = drill, .shirt = (uint8_t)shirt, .done = done[shirt]};
        if (!take_focus(c, season, &g, a))
            take_drill(c, book, &g);
        if (g.done.n == 0)
            take_serves(c, &g);
        if (g.done.n > 0 && g.goal.n > 0)
            all->at[all->n++] = g;
    }
}

struct drilled_goals drilled_goals(const struct checked *c, const struct progress *season,
                                   const struct drill_book *book, struct arena *a) {
    struct drilled_goals all = {
        .at = arena_alloc(a, c->tries_n + progress_people(season) + 1, sizeof *all.at)};
    for (uint32_t drill = 1; drill <= c->drill_n; drill++)
        if (is_first(c, drill))
            add_goals(c, season, book, drill, &all, a);
    return all;
}

/* ---- jump serves -------------------------------------------------------------- */

struct drilled_jumps drilled_jumps(const struct checked *c, struct arena *a) {
    struct drilled_jumper all[SHIRTS] = {{0, 0, 0}};
    struct drilled_jumps jumps = {.at = arena_alloc(a, SHIRTS, sizeof *jumps.at)};
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (p->side == OURS && played_counts(p) && season_is_jump(p))
            all[p->charged].served += tally_times(p);
    }
    for (size_t i = 0; i < c->tries_n; i++)
        if (c->tries[i].side == OURS && c->tries[i].kind == STMT_JUMPS)
            all[c->tries[i].shirt].counted += c->tries[i].n;
    for (unsigned shirt = 0; shirt < SHIRTS; shirt++) {
        all[shirt].shirt = (uint8_t)shirt;
        if (all[shirt].served + all[shirt].counted > 0)
            jumps.at[jumps.n++] = all[shirt];
    }
    return jumps;
}
