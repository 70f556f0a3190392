/* What changed in the facts from one state of notes to another. */
#include <string.h>
#include <sys/stat.h>

#include "cmd/diff.h"

enum { AS, NAME };

static const char *const forms[] = {"text", "json", NULL};

static const struct cmd_option options[] = {
    {"as", "FORM", "text (if not said) or json", forms, 0},
    {"name", "PATH", "what both files are called, where they have other names: their\n"
     "squad is looked for there", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

/* A run over one pair of files, or over many. */
struct diffing {
    const struct cmd_run *run;
    struct arena *arena; /* of one pair */
    struct diff_json *json; /* NULL: text */
    enum cmd_status status;
};

/* ---- one pair ------------------------------------------------------------ */

/* What can't be read of notes can't be compared: said, and no tally is made. */
static void check_state(struct diff_state *s, struct diffing *g, struct diags *d) {
    if (!s->text.bytes.n || cmd_is_drills(str_of(s->path)))
        return;
    s->checked = check_text(&s->text, CHECK_KEEP, g->arena, d);
    s->errors = d->errors;
    if (d->errors)
        cmd_say("%s: %u error%s: compared as far as it could be read, and not counted", s->path,
                d->errors, d->errors == 1 ? "" : "s");
    else if (s->checked->match->occasion)
        s->tally = tally_of(s->checked, g->arena);
}

static bool read_state(struct diff_state *s, struct diffing *g) {
    struct diags d;

    if (!s->path)
        return true;
    diags_init(&d, g->arena);
    if (!cmd_read(&s->text, s->path, g->arena, &d)) {
        g->status = CMD_FAILED;
        return false;
    }
    if (g->run->given[NAME])
        s->text.name = str_of(g->run->given[NAME]);
    check_state(s, g, &d);
    s->noted = noted_read(&s->text, cmd_is_drills(str_of(s->path)), g->arena);
    return true;
}

static void compare_states(struct diff *d) {
    if (!d->state[BEFORE].path || !d->state[AFTER].path)
        return;
    changed_of(&d->changed, d->state[BEFORE].noted, d->state[AFTER].noted, d->arena);
    diff_tallies(d);
}

/* NULL where there is no such file. */
static void compare(struct diffing *g, const char *before, const char *after) {
    struct diff d = {.arena = g->arena, .state = {{.path = before}, {.path = after}}};

    arena_reset(g->arena);
    if (!read_state(&d.state[BEFORE], g) || !read_state(&d.state[AFTER], g))
        return;
    compare_states(&d);
    if (before && after && !d.changed.n && !d.tally_n)
        return;
    g->status = cmd_worse(g->status, CMD_FINDINGS);
    if (g->json)
        diff_json_add(g->json, &d);
    else
        diff_text(&d);
}

/* ---- two folders --------------------------------------------------------- */

/* The path below its folder. */
static const char *below(const char *path, const char *folder) {
    const char *rest = path + strlen(folder);

    while (*rest == '/')
        rest++;
    return rest;
}

/* Both lists are sorted by name alike, but not by whole paths: so each file looks
 * for its own. */
static const char *same_name(const struct cmd_paths *in, const char *folder, const char *name) {
    for (size_t i = 0; i < in->n; i++)
        if (strcmp(below(in->at[i], folder), name) == 0)
            return in->at[i];
    return NULL;
}

static void compare_folders(struct diffing *g, struct arena *names) {
    char *const *folders = g->run->operands;
    struct cmd_paths files[STATES];

    for (unsigned i = 0; i < STATES; i++) {
        files[i] = (struct cmd_paths){.arena = names, .drills = true};
        g->status = cmd_worse(g->status, cmd_find_in(&files[i], folders[i]));
    }
    for (size_t i = 0; i < files[BEFORE].n; i++) {
        const char *before = files[BEFORE].at[i];

        compare(g, before, same_name(&files[AFTER], folders[AFTER], below(before, folders[BEFORE])));
    }
    for (size_t i = 0; i < files[AFTER].n; i++)
        if (!same_name(&files[BEFORE], folders[BEFORE], below(files[AFTER].at[i], folders[AFTER])))
            compare(g, NULL, files[AFTER].at[i]);
}

/* ---- the command --------------------------------------------------------- */

static bool is_folder(const char *path) {
    struct stat st;

    return stat(path, &st) == 0 && S_ISDIR(st.st_mode);
}

static enum cmd_status diff(const struct cmd_run *run) {
    char *const *paths = run->operands;
    struct diffing g = {.run = run};
    bool folders = is_folder(paths[BEFORE]);
    struct arena *names;

    if (folders != is_folder(paths[AFTER]))
        return cmd_misuse(run->cmd, "%s is a folder and %s is none",
                          paths[folders ? BEFORE : AFTER], paths[folders ? AFTER : BEFORE]);
    if (folders && run->given[NAME])
        return cmd_misuse(run->cmd, "--name is for two files; in folders each has its own");
    if (strcmp(paths[BEFORE], "-") == 0 && strcmp(paths[AFTER], "-") == 0)
        return cmd_misuse(run->cmd, "only one of the two can be standard input");
    names = arena_new(cmd_no_memory);
    g.arena = arena_new(cmd_no_memory);
    if (run->given[AS] && strcmp(run->given[AS], "json") == 0)
        g.json = diff_json_new(names);
    if (folders)
        compare_folders(&g, names);
    else
        compare(&g, paths[BEFORE], paths[AFTER]);
    if (g.json)
        diff_json_end(g.json);
    arena_free(g.arena);
    arena_free(names);
    return g.status;
}

const struct cmd cmd_diff = {
    .name = "diff",
    .usage = "[OPTION...] BEFORE AFTER",
    .summary = "what changed in the facts, not in the spelling",
    .about = "Compares two files of notes, or the files of the same names in two folders, by\n"
             "what their lines say: serves that were added, taken out or changed, people,\n"
             "dates, scores; then the counts that moved by it, of each team and each server.\n"
             "Spelling, comments, blank lines and short words are no facts. Notes with errors\n"
             "are compared as far as they can be read, and not counted.\n"
             "Exit code: 0 the same facts, 1 they differ, 2 wrong usage, 3 a file or the\n"
             "system.",
    .examples = "  9m diff bench.9m video.9m\n"
                "  9m diff last-week/ season/\n"
                "  git difftool -y -x '9m diff --name \"$BASE\"' HEAD~1",
    .options = options,
    .operand = "two files or two folders",
    .operand_min = 2,
    .operand_max = 2,
    .run = diff,
};
