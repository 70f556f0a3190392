#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "cmd/cmd.h"

enum { DEPTH_MAX = 64 };

/* A directory is read once, however many links lead to it; so loops end. */
struct seen {
    dev_t device;
    ino_t inode;
};

struct walk {
    struct cmd_paths *paths;
    struct seen *seen;
    size_t seen_n, seen_room;
    enum cmd_status status;
};

static void failed(struct walk *w, const char *path, const char *why) {
    cmd_say("%s: %s", path, why);
    w->status = CMD_FAILED;
}

static void add_path(struct cmd_paths *p, const char *path) {
    if (p->sharing)
        pthread_mutex_lock(&p->sharing->lock);
    p->at = arena_grow(p->arena, p->at, p->n, &p->room, sizeof *p->at);
    p->at[p->n++] = path;
    if (!p->sharing)
        return;
    pthread_cond_signal(&p->sharing->more);
    pthread_mutex_unlock(&p->sharing->lock);
}

static bool first_time(struct walk *w, const struct stat *st) {
    for (size_t i = 0; i < w->seen_n; i++)
        if (w->seen[i].device == st->st_dev && w->seen[i].inode == st->st_ino)
            return false;
    w->seen = arena_grow(w->paths->arena, w->seen, w->seen_n, &w->seen_room, sizeof *w->seen);
    w->seen[w->seen_n++] = (struct seen){st->st_dev, st->st_ino};
    return true;
}

static int by_name(const void *a, const void *b) {
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* The names of a directory that are not hidden, by their bytes: the same order
 * on every machine. */
static bool read_names(struct cmd_paths *names, const char *path) {
    DIR *dir = opendir(path);
    struct dirent *entry;
    bool good;

    if (!dir)
        return false;
    errno = 0;
    while ((entry = readdir(dir)))
        if (entry->d_name[0] != '.')
            add_path(names, str_c(names->arena, str_of(entry->d_name)));
    good = errno == 0;
    closedir(dir);
    if (names->n)
        qsort(names->at, names->n, sizeof *names->at, by_name);
    return good;
}

static void walk(struct walk *w, const char *path, int depth);

/* A link that leads nowhere matters only if it would have been read. */
static void visit(struct walk *w, const char *path, int depth) {
    bool notes = str_ends(str_of(path), STR(".9m"));
    struct stat st;

    if (stat(path, &st) != 0) {
        if (notes)
            failed(w, path, strerror(errno));
    } else if (S_ISDIR(st.st_mode)) {
        if (depth == DEPTH_MAX)
            failed(w, path, "too many directories within each other");
        else if (first_time(w, &st))
            walk(w, path, depth + 1);
    } else if (notes && S_ISREG(st.st_mode)) {
        add_path(w->paths, path);
    }
}

static void walk(struct walk *w, const char *path, int depth) {
    struct cmd_paths names = {.arena = w->paths->arena};
    bool slash = str_ends(str_of(path), STR("/"));

    if (!read_names(&names, path)) {
        failed(w, path, strerror(errno));
        return;
    }
    for (size_t i = 0; i < names.n; i++)
        visit(w, str_printf(names.arena, "%s%s%s", path, slash ? "" : "/", names.at[i]).at, depth);
}

/* An operand that is no directory is handed on as it is: whoever reads it says
 * what is wrong with it. */
enum cmd_status cmd_find(struct cmd_paths *paths, const struct cmd_run *run) {
    struct walk w = {.paths = paths, .status = CMD_CLEAN};
    struct stat st;

    for (size_t i = 0; i < run->operand_n; i++) {
        const char *path = run->operands[i];
        size_t before = paths->n;

        if (strcmp(path, "-") == 0 || stat(path, &st) != 0 || !S_ISDIR(st.st_mode)) {
            add_path(paths, path);
            continue;
        }
        w.seen_n = 0;
        first_time(&w, &st);
        walk(&w, path, 0);
        if (paths->n == before && w.status == CMD_CLEAN)
            failed(&w, path, "no .9m file in this directory");
    }
    return w.status;
}
