/* Groups by focus, and a drill's example lines made into a form. */
#include "plan.h"

#include <string.h>

/* ---- groups --------------------------------------------------------------- */

static size_t collect(const struct progress *p, struct str team, struct plan_player *out) {
    size_t n = 0;
    for (size_t i = 0; i < progress_people(p); i++) {
        struct plan_player w = {.who = progress_person(p, i)};
        size_t k;
        if (!str_eq(w.who->team, team) || !progress_focus(p, i, &w.focus))
            continue;
        for (k = n++; k > 0 && out[k - 1].who->shirt > w.who->shirt; k--)
            out[k] = out[k - 1];
        out[k] = w;
    }
    return n;
}

static struct plan_group *group_of(struct plan *p, struct str drill,
                                   const struct drill_book *book, size_t most,
                                   struct arena *a) {
    struct plan_group *g = p->groups;
    while (g < p->groups + p->n && !str_same(g->drill, drill))
        g++;
    if (g < p->groups + p->n)
        return g;
    *g = (struct plan_group){.drill = drill,
                             .recipe = drill_find(book, drill),
                             .players = arena_alloc(a, most, sizeof *g->players)};
    p->jumps = p->jumps || (g->recipe && g->recipe->jumps != DRILL_JUMPS_NO);
    p->n++;
    return g;
}

struct plan plan_of(const struct progress *p, struct str team, const struct drill_book *book,
                    struct arena *a) {
    size_t people = progress_people(p);
    struct plan_player *all = arena_alloc(a, people + 1, sizeof *all);
    size_t n = collect(p, team, all);
    struct plan plan = {.groups = arena_alloc(a, n + 1, sizeof *plan.groups)};
    for (size_t i = 0; i < n; i++) {
        struct plan_group *g = group_of(&plan, all[i].focus.drill, book, n, a);
        g->players[g->n++] = all[i];
    }
    return plan;
}

bool plan_has(const struct plan *p, unsigned shirt) {
    for (size_t g = 0; g < p->n; g++)
        for (size_t i = 0; i < p->groups[g].n; i++)
            if (p->groups[g].players[i].who->shirt == shirt)
                return true;
    return false;
}

/* ---- lines ------------------------------------------------------------------ */

static bool opens(struct str line, const char *word) {
    size_t n = strlen(word);
    return line.n > n && memcmp(line.at, word, n) == 0 && line.at[n] == ' ';
}

static bool for_all(struct str line) {
    return opens(line, "drill") || opens(line, "observe") || opens(line, "ring");
}

/* The line without a remark behind it, at byte *at of the score; *at moves on. */
static struct str next_line(struct str score, size_t *at) {
    const char *end = memchr(score.at + *at, '\n', score.n - *at);
    size_t n = end ? (size_t)(end - score.at) - *at : score.n - *at;
    struct str line = str_part(score, *at, n);
    const char *remark = memchr(line.at, '#', line.n);
    *at += n + 1;
    return str_trim(remark ? str_part(line, 0, (size_t)(remark - line.at)) : line);
}

/* Line `ix` of those for all, or of those for one player. */
static struct str line_of(struct str score, size_t ix, bool all) {
    for (size_t at = 0; at < score.n;) {
        struct str line = next_line(score, &at);
        if (line.n > 0 && for_all(line) == all && ix-- == 0)
            return line;
    }
    return STR_NONE;
}

struct str plan_line(const struct plan_group *g, size_t ix, struct arena *a) {
    if (g->recipe)
        return line_of(g->recipe->score, ix, true);
    return ix == 0 ? str_printf(a, "drill \"%.*s\"", STR_ARG(g->drill)) : STR_NONE;
}

static bool digit(char c) {
    return c >= '0' && c <= '9';
}

static bool counts(struct str word) {
    return word.n > 1 && word.at[0] == 'x' && digit(word.at[1]);
}

unsigned plan_tries(const struct plan_group *g) {
    unsigned n = g->recipe ? g->recipe->goal_tries : 0;
    for (size_t i = 0; n == 0 && i < g->n; i++)
        n = g->players[i].focus.goal.n;
    return n;
}

/* The tries that the goal asks for; where it asks for none, those of the example. */
static void add_tries(struct buf *b, const struct plan_group *g, struct str example) {
    if (plan_tries(g))
        buf_printf(b, "_/%u", plan_tries(g));
    else
        buf_printf(b, "_%.*s", STR_ARG(example));
}

/* Adds one word of an example; false after the hits: how the others missed is
 * an example's own. */
static bool add_word(struct buf *b, const struct plan_group *g, struct str word, unsigned shirt) {
    const char *slash = memchr(word.at, '/', word.n);
    if (b->n > 0)
        buf_char(b, ' ');
    if (slash && digit(word.at[0])) {
        add_tries(b, g, str_part(word, (size_t)(slash - word.at), word.n));
        return false;
    }
    if (str_is(word, "7")) /* the shirt of every example */
        buf_printf(b, "%u", shirt);
    else
        buf_add(b, counts(word) ? STR("x_") : word);
    return true;
}

struct str plan_player_line(const struct plan_group *g, size_t ix, unsigned shirt,
                            struct arena *a) {
    struct str line = g->recipe ? line_of(g->recipe->score, ix, false)
                      : ix == 0 ? STR("tries 7 5/10")
                                : STR_NONE;
    struct buf b;
    buf_init(&b, a);
    for (size_t at = 0; at < line.n;) {
        const char *end = memchr(line.at + at, ' ', line.n - at);
        size_t n = end ? (size_t)(end - line.at) - at : line.n - at;
        if (n > 0 && !add_word(&b, g, str_part(line, at, n), shirt))
            break;
        at += n + 1;
    }
    return buf_str(&b);
}
