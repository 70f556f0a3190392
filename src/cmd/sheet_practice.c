/* The practice plan of a folder: who has which focus there. */
#include "cmd/sheet.h"
#include "plan.h"

/* What is kept of the files. */
struct gathered {
    struct arena *arena;
    struct progress *progress;
    struct team team;            /* ours, of the latest file with a match or practice */
    struct date of;
    struct str others;           /* another team of ours, if there is one */
};

static void keep_team(struct gathered *g, const struct team *t) {
    struct player *players = arena_alloc(g->arena, t->player_n + 1, sizeof *players);

    g->team = *t;
    g->team.name = str_copy(g->arena, t->name);
    g->team.players = players;
    for (size_t i = 0; i < t->player_n; i++) {
        players[i] = t->players[i];
        players[i].name = str_copy(g->arena, t->players[i].name);
    }
}

static void take(void *into, const struct checked *c, struct str name, struct arena *a) {
    struct gathered *g = into;
    const struct team *ours = &c->match->teams[OURS];

    (void)name;
    (void)a;
    progress_add(g->progress, c);
    if (!c->match->occasion)
        return;
    if (g->of.year && !str_eq(g->team.name, ours->name))
        g->others = str_copy(g->arena, g->team.name);
    if (date_order(g->of, c->match->date) <= 0) {
        keep_team(g, ours);
        g->of = c->match->date;
    }
}

static bool covered(struct sheet *s, const struct plan *plan, const char *folder) {
    struct str place = str_of(folder);
    bool good = true;

    for (size_t k = 0; k < plan->n; k++) {
        good &= cmd_press_covers(&s->press, plan->groups[k].drill, place);
        for (size_t i = 0; i < plan->groups[k].n; i++)
            good &= cmd_press_covers(&s->press, plan->groups[k].players[i].who->name, place);
    }
    return good;
}

const struct pages *sheet_practice(struct sheet *s, const struct page_font *font,
                                   const char *folder) {
    struct gathered *g = arena_alloc(s->arena, 1, sizeof *g);
    struct drill_book *book = arena_alloc(s->arena, 1, sizeof *book);
    struct plan *plan = arena_alloc(s->arena, 1, sizeof *plan);

    *g = (struct gathered){.arena = s->arena, .progress = progress_new(s->arena)};
    drill_book_init(book, s->arena);
    s->status = cmd_drills(book, folder, s->run->color_err);
    sheet_read(s, folder, true, g, take);
    if (!g->of.year) {
        cmd_say("%s holds no match and no practice", folder);
        s->status = cmd_worse(s->status, CMD_FINDINGS);
        return NULL;
    }
    if (g->others.n > 0)
        cmd_say("the plan is for %.*s, whose notes are the latest; %.*s has notes there too",
                STR_ARG(g->team.name), STR_ARG(g->others));
    *plan = plan_of(g->progress, g->team.name, book, s->arena);
    if (!covered(s, plan, folder) || !cmd_press_covers(&s->press, g->team.name, str_of(folder))) {
        s->status = CMD_FAILED;
        return NULL;
    }
    return page_practice_plan(plan, &g->team, &s->facts, font, s->arena);
}
