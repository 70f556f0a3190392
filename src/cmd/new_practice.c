/* The lines of a new practice: a block for each drill of a focus. */
#include "cmd/new.h"
#include "plan.h"

static void take(void *into, const struct checked *c, struct str name, struct arena *a) {
    (void)name;
    (void)a;
    progress_add(into, c);
}

/* Reads what lies in the squad's folder. */
static enum cmd_status gather(const struct new_file *n, struct progress *p,
                              struct drill_book *drills) {
    const char *folder = cmd_folder(n->arena, n->squad);
    struct cmd_paths paths = {.arena = n->arena};
    struct cmd_many many = {.run = n->run, .partial_data = true, .into = p, .take = take};
    enum cmd_status status = cmd_drills(drills, folder, n->run->color_err);

    many.found = cmd_find_in(&paths, folder);
    return cmd_worse(status, cmd_each_file(&many, &paths));
}

/* "# 7 Mira Havelin: td, goal 14/20, so far 26/40 since 2026-10-06" */
static void add_player(struct buf *b, const struct plan_player *w) {
    const struct progress_focus *f = &w->focus;

    buf_printf(b, "# %u", w->who->shirt);
    if (w->who->name.n > 0)
        buf_printf(b, " %.*s", STR_ARG(w->who->name));
    buf_printf(b, ": %.*s", STR_ARG(word_info(f->treats)->word));
    if (f->goal.n > 0)
        buf_printf(b, ", goal %u/%u", f->goal.x, f->goal.n);
    if (f->drilled.after.n > 0)
        buf_printf(b, ", so far %u/%u", f->drilled.after.x, f->drilled.after.n);
    buf_printf(b, " since %04d-%02d-%02d\n", f->since.year, f->since.month, f->since.day);
}

static void add_group(const struct plan_group *g, struct buf *b, struct arena *a) {
    struct str line;

    buf_char(b, '\n');
    for (size_t ix = 0; (line = plan_line(g, ix, a)).n > 0; ix++)
        buf_printf(b, "%.*s\n", STR_ARG(line));
    for (size_t i = 0; i < g->n; i++) {
        unsigned shirt = g->players[i].who->shirt;

        add_player(b, &g->players[i]);
        for (size_t ix = 0; (line = plan_player_line(g, ix, shirt, a)).n > 0; ix++)
            buf_printf(b, "# %.*s\n", STR_ARG(line));
    }
}

static void add_others(const struct team *t, const struct plan *p, struct buf *b) {
    const char *join = "\n# Without a focus:";

    for (size_t i = 0; i < t->player_n; i++) {
        const struct player *player = &t->players[i];

        if (plan_has(p, player->shirt))
            continue;
        buf_printf(b, "%s %u", join, player->shirt);
        if (player->name.n > 0)
            buf_printf(b, " %.*s", STR_ARG(player->name));
        join = ",";
    }
    if (join[0] == ',')
        buf_char(b, '\n');
}

enum cmd_status new_practice(const struct new_file *n, struct buf *b) {
    struct progress *progress;
    struct drill_book drills;
    struct plan plan;
    enum cmd_status status;

    if (!n->ours) {
        buf_add(b, STR("\n# drill \"Ring toss\": opens a series; see 9m explain drills\n"));
        return CMD_CLEAN;
    }
    progress = progress_new(n->arena);
    drill_book_init(&drills, n->arena);
    status = gather(n, progress, &drills);
    plan = plan_of(progress, n->ours->match->teams[OURS].name, &drills, n->arena);
    for (size_t i = 0; i < plan.n; i++)
        add_group(&plan.groups[i], b, n->arena);
    add_others(&n->ours->match->teams[OURS], &plan, b);
    if (plan.jumps)
        buf_printf(b, "\n# %s\n# Jump serves not written one by one: jumps SHIRT COUNT\n",
                   drill_jump_caution());
    return status;
}
