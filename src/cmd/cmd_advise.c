/* What to work on next: sentences for a team, priorities for its servers. */
#include <string.h>

#include "cmd/advise.h"

enum { SERVER, TEAM, AS, PARTIAL };

static const char *const forms[] = {"text", "json", NULL};

static const struct cmd_option options[] = {
    {"server", "SHIRT", "this server of ours alone", NULL, 0},
    {"team", "NAME", "which team, where the files have several of ours", NULL, 0},
    {"as", "FORM", "text (if not said) or json", forms, 0},
    {"partial-data", NULL, "go on in spite of errors: lines that could not be read are\n"
     "left out, one with a single likely mend counts as mended", NULL, 0},
    CMD_FROM_OPTION,
    CMD_TO_OPTION,
    CMD_LAST_OPTION,
    {NULL, NULL, NULL, NULL, 0},
};

/* ---- who is meant -------------------------------------------------------- */

bool advise_shows_team(const struct advise *v, const struct advise_team *t) {
    return !v->only || v->only == t;
}

bool advise_shows(const struct advise *v, const struct faults_server *s) {
    return v->server == SHIRT_NONE || v->server == s->shirt;
}

static bool find_team(struct advise *v) {
    const char *name = v->run->given[TEAM];
    struct str *names = arena_alloc(v->arena, v->team_n + 1, sizeof *names);
    bool *meant = arena_alloc(v->arena, v->team_n + 1, sizeof *meant);

    for (size_t i = 0; i < v->team_n; i++)
        names[i] = v->teams[i].name;
    if (!name)
        return true;
    if (!cmd_one_team(names, v->team_n, name, meant, v->arena))
        return false;
    for (size_t i = 0; i < v->team_n; i++)
        if (meant[i])
            v->only = &v->teams[i];
    return true;
}

static bool has_server(const struct advise *v) {
    for (size_t t = 0; t < v->team_n; t++)
        for (size_t i = 0; i < v->teams[t].of.faults->server_n; i++)
            if (advise_shows_team(v, &v->teams[t]) &&
                advise_shows(v, &v->teams[t].of.faults->servers[i]))
                return true;
    if (v->server == SHIRT_NONE)
        cmd_say("no serve of ours in a match of what was read, and no focus");
    else
        cmd_say("no serve of our %u in a match of what was read, and no focus", v->server);
    return false;
}

/* ---- the command --------------------------------------------------------- */

static enum cmd_status show(struct advise *v) {
    if (!find_team(v))
        return CMD_USAGE;
    if (!has_server(v))
        return v->server == SHIRT_NONE ? CMD_FINDINGS : CMD_USAGE;
    if (v->run->given[AS] && strcmp(v->run->given[AS], "json") == 0)
        advise_json(v);
    else
        advise_text(v);
    return CMD_CLEAN;
}

static enum cmd_status advise_all(struct advise *v) {
    bool partial = v->run->given[PARTIAL] != NULL;
    enum cmd_status status = advise_read(v, partial);

    if (status == CMD_CLEAN || partial)
        return cmd_worse(status, show(v));
    return cmd_stopped("advice", status);
}

static enum cmd_status advise(const struct cmd_run *run) {
    struct advise v = {.run = run, .server = SHIRT_NONE};
    enum cmd_status status;

    if (run->given[SERVER] && !cmd_number("server", run->given[SERVER], SHIRT_MAX, &v.server))
        return CMD_USAGE;
    if (!cmd_span_take(&v.span, run))
        return CMD_USAGE;
    v.arena = arena_new(cmd_no_memory);
    v.paths.arena = v.arena;
    status = advise_all(&v);
    arena_free(v.arena);
    return status;
}

const struct cmd cmd_advise = {
    .name = "advise",
    .usage = "[OPTION...] PATH...",
    .summary = "what to work on next: the team, and each server",
    .about =
        "Reads matches and practices of our team and says what stands out, at most three\n"
        "things, and for each server at most three priorities with a drill: the focus that\n"
        "her coach wrote down (a line focus 7 td \"Ring toss\" 14/20) first, with the counts\n"
        "before and since, then the ways of missing that weigh most in points. What may be said\n"
        "goes by the serves behind it: below 30 there are counts only, and from 150 on the\n"
        "marks of technique are tested, all tests adjusted for their number. A mark that\n"
        "goes with a miss is a place to look at on video; no count tells a cause.\n"
        "This is for the coach, who chooses: nothing of it belongs on a player's card as it\n"
        "stands. Drills of the club's own are read beside the notes. Notes with errors give\n"
        "no advice.",
    .examples = "  9m advise season/\n"
                "  9m advise --server 7 season/\n"
                "  9m advise --as json season/ | jq '.teams[0].servers[].priorities'",
    .options = options,
    .operand = "a file, a directory or - for standard input",
    .operand_min = 1,
    .operand_max = SIZE_MAX,
    .run = advise,
};
