/* The bench card of a folder: the team of ours whose match is the latest. */
#include "bench.h"
#include "cmd/sheet.h"
#include "progress.h"

struct gathered {
    struct arena *arena;
    struct bench **teams;
    size_t team_n, team_room;
};

static struct bench *team_of(struct gathered *g, struct str name) {
    for (size_t i = 0; i < g->team_n; i++)
        if (str_eq(g->teams[i]->team, name))
            return g->teams[i];
    g->teams = arena_grow(g->arena, g->teams, g->team_n, &g->team_room, sizeof *g->teams);
    return g->teams[g->team_n++] = bench_new(name, g->arena);
}

static void take(void *into, const struct checked *c, struct str name, struct arena *a) {
    (void)name;
    (void)a;
    if (c->match->occasion && !c->match->practice)
        bench_add(team_of(into, pool_key(c, OURS, SHIRT_NONE).team), c);
}

/* NULL when nobody served. */
static struct bench *latest(const struct gathered *g) {
    struct bench *last = NULL;

    for (size_t i = 0; i < g->team_n; i++)
        if (g->teams[i]->server_n > 0 &&
            (!last || date_order(g->teams[i]->last, last->last) > 0))
            last = g->teams[i];
    for (size_t i = 0; last && i < g->team_n; i++)
        if (g->teams[i] != last)
            cmd_say("the card is for %.*s, whose match is the latest; %.*s has matches there too",
                    STR_ARG(last->team), STR_ARG(g->teams[i]->team));
    return last;
}

static bool covered(struct sheet *s, const struct bench *b, const char *folder) {
    struct str place = str_of(folder);
    bool good = cmd_press_covers(&s->press, b->team, place);

    for (size_t i = 0; i < b->server_n && !s->facts.no_names; i++)
        good &= cmd_press_covers(&s->press, b->servers[i].who.name, place);
    return good;
}

const struct pages *sheet_bench(struct sheet *s, const struct page_font *font,
                                const char *folder) {
    struct gathered g = {.arena = s->arena};
    struct bench *b;

    s->facts.left_out = sheet_read(s, folder, s->partial_data, &g, take);
    if (s->status != CMD_CLEAN && !s->partial_data) {
        cmd_stopped("card", s->status);
        return NULL;
    }
    b = latest(&g);
    if (!b) {
        cmd_say("%s holds no serve of ours in a match", folder);
        s->status = cmd_worse(s->status, CMD_FINDINGS);
        return NULL;
    }
    bench_settle(b);
    if (!covered(s, b, folder)) {
        s->status = CMD_FAILED;
        return NULL;
    }
    return page_bench(b, &s->facts, font, s->arena);
}
