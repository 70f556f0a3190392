/* A club's own drills: the files that end in .drills beside its notes. */
#include <errno.h>
#include <string.h>
#include <sys/stat.h>

#include "cmd/source.h"

bool cmd_is_drills(struct str path) {
    return str_ends(path, STR(DRILLS_ENDING));
}

const char *cmd_folder(struct arena *a, const char *path) {
    const char *slash = strrchr(path, '/');

    if (!slash)
        return ".";
    return slash == path ? "/" : str_c(a, (struct str){path, (size_t)(slash - path)});
}

/* The files that a path stands for; false after a message. */
static bool find(struct cmd_paths *paths, const char *path) {
    struct stat st;

    if (stat(path, &st) == 0 && !S_ISDIR(st.st_mode) && cmd_is_drills(str_of(path))) {
        cmd_add_path(paths, path);
        return true;
    }
    if (stat(path, &st) == 0 &&
        cmd_list(paths, S_ISDIR(st.st_mode) ? path : cmd_folder(paths->arena, path), DRILLS_ENDING))
        return true;
    cmd_say("%s: %s", path, strerror(errno));
    return false;
}

/* Notes that are given file by file often share their folder. */
static bool has_file(const struct drill_book *b, const char *path) {
    for (size_t i = 0; i < b->n; i++)
        if (b->at[i].own && cmd_same_file(str_c(b->arena, b->at[i].place.file), path))
            return true;
    return false;
}

enum cmd_status cmd_drills(struct drill_book *b, const char *path, bool color) {
    struct cmd_paths paths = {.arena = b->arena};
    struct cmd_show show;
    struct diags d;

    if (strcmp(path, "-") == 0) /* notes from a pipe lie in no folder */
        return CMD_CLEAN;
    if (!find(&paths, path))
        return CMD_FAILED;
    diags_init(&d, b->arena);
    for (size_t i = 0; i < paths.n; i++, d.order++) {
        struct text *t = arena_alloc(b->arena, 1, sizeof *t);

        if (has_file(b, paths.at[i]))
            continue;
        if (!cmd_read(t, paths.at[i], b->arena, &d))
            return CMD_FAILED;
        drill_read(b, t, &d);
    }
    check_drills(b, b->arena, &d);
    cmd_show_init(&show, stderr, color);
    cmd_show(&show, &d);
    return d.errors ? CMD_FINDINGS : CMD_CLEAN;
}
