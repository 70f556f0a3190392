/* The files that advice rests on: read one by one, kept by team. */
#include <string.h>
#include <unistd.h>

#include "cmd/advise.h"
#include "cmd/source.h"

/* A team that the notes give no name goes by its letter. */
static struct advise_team *team_of(struct advise *v, const struct checked *c) {
    struct str name = pool_key(c, OURS, SHIRT_NONE).team;
    struct advise_team *t = advise_find_team(v, name);

    if (t)
        return t;
    v->teams = arena_grow(v->arena, v->teams, v->team_n, &v->team_room, sizeof *v->teams);
    t = &v->teams[v->team_n++];
    *t = (struct advise_team){str_copy(v->arena, name), advice_of(v->arena)};
    return t;
}

struct advise_team *advise_find_team(const struct advise *v, struct str name) {
    for (size_t i = 0; i < v->team_n; i++)
        if (str_eq(v->teams[i].name, name))
            return &v->teams[i];
    return NULL;
}

static void take(void *into, const struct checked *c, struct str name, struct arena *a) {
    struct advise *v = into;
    bool later = v->until && date_order(c->match->date, *v->until) > 0;

    (void)name;
    (void)a;
    if (c->match->occasion && !later)
        advice_add(&team_of(v, c)->of, c);
}

/* The drills that lie beside the notes; of a path that is not there the search for
 * notes has told. */
static enum cmd_status read_drills(struct advise *v, const char *path) {
    return access(path, F_OK) == 0 ? cmd_drills(&v->drills, path, v->run->color_err) : CMD_CLEAN;
}

static enum cmd_status read_notes(struct advise *v, enum cmd_status found, bool partial_data) {
    struct cmd_many many = {.run = v->run,
                            .found = found,
                            .partial_data = partial_data,
                            .into = v,
                            .take = take};
    enum cmd_status status = cmd_each_file(&many, &v->paths);

    v->incomplete = many.left_out;
    return status;
}

enum cmd_status advise_read(struct advise *v, bool partial_data) {
    enum cmd_status status = cmd_find_days(&v->paths, v->run, &v->span);

    drill_book_init(&v->drills, v->arena);
    status = read_notes(v, status, partial_data);
    for (size_t i = 0; i < v->run->operand_n; i++)
        status = cmd_worse(status, read_drills(v, v->run->operands[i]));
    return status;
}

/* ---- of one team, up to a match or practice --------------------------------- */

static bool was_read(const struct advise *v, const char *path) {
    for (size_t i = 0; i < v->paths.n; i++)
        if (cmd_same_file(v->paths.at[i], path))
            return true;
    return false;
}

enum cmd_status advise_season(const struct cmd_run *run, const char *directory, bool partial_data,
                              const struct checked *own, const char *path, struct advice *out,
                              struct arena *a) {
    struct advise v = {.run = run,
                       .arena = a,
                       .server = SHIRT_NONE,
                       .until = &own->match->date,
                       .paths.arena = a};
    struct str name = pool_key(own, OURS, SHIRT_NONE).team;
    struct drill_book *drills = arena_alloc(a, 1, sizeof *drills);
    enum cmd_status status;

    drill_book_init(&v.drills, a);
    status = read_notes(&v, cmd_find_in(&v.paths, directory), partial_data);
    status = cmd_worse(status, read_drills(&v, directory));
    if (status != CMD_CLEAN && !partial_data)
        return status;
    if (!advise_find_team(&v, name)) {
        cmd_say("%s holds no notes of %.*s up to this day", directory, STR_ARG(name));
        return cmd_worse(status, CMD_FINDINGS);
    }
    if (strcmp(path, "-") != 0 && !was_read(&v, path))
        advice_add(&advise_find_team(&v, name)->of, own);
    *drills = v.drills;
    advice_init(out, &advise_find_team(&v, name)->of, drills, a);
    return status;
}
