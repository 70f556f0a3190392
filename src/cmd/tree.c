/* Finds the files of a tree. Each is found once, where it lies: a link within the tree
 * counts only where it leads to what would not be found otherwise, and none is followed
 * out of the tree, so that nobody else's files are read or written by a link. */
#define _DEFAULT_SOURCE 1        /* d_type: the kind of an entry without asking for it */
#include <dirent.h>
#include <errno.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "cmd/cmd.h"

enum { DEPTH_MAX = 64, LEFT_SHOWN_MAX = 10 };

struct seen {
    dev_t device;
    ino_t inode;
};

struct entry {
    const char *name;
    unsigned char type; /* DT_ value; DT_UNKNOWN where the file system tells none */
};

struct entries {
    struct arena *arena;
    struct entry *at;
    size_t n, room;
};

struct walk {
    struct cmd_paths *paths;
    const char *root;    /* the operand, and where it lies */
    char real[PATH_MAX];
    bool behind_link;    /* what is found may be found once more */
    struct seen *seen;   /* by a link */
    size_t seen_n, seen_room;
    size_t left_n;       /* links and files that were left out */
    enum cmd_status status;
};

static void failed(struct walk *w, const char *path, const char *why) {
    cmd_say("%s: %s", path, why);
    w->status = CMD_FAILED;
}

static bool left_out(struct walk *w) {
    return ++w->left_n <= LEFT_SHOWN_MAX;
}

void cmd_add_path(struct cmd_paths *p, const char *path) {
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

static void add_entry(struct entries *e, const struct dirent *d) {
    e->at = arena_grow(e->arena, e->at, e->n, &e->room, sizeof *e->at);
    e->at[e->n++] = (struct entry){str_c(e->arena, str_of(d->d_name)), d->d_type};
}

static int by_name(const void *a, const void *b) {
    return strcmp(((const struct entry *)a)->name, ((const struct entry *)b)->name);
}

/* What is in a directory and not hidden, by the bytes of the names: the same
 * order on every machine. */
static bool read_entries(struct entries *entries, const char *path) {
    DIR *dir = opendir(path);
    struct dirent *entry;
    bool good;

    if (!dir)
        return false;
    errno = 0;
    while ((entry = readdir(dir)))
        if (entry->d_name[0] != '.')
            add_entry(entries, entry);
    good = errno == 0;
    closedir(dir);
    if (entries->n)
        qsort(entries->at, entries->n, sizeof *entries->at, by_name);
    return good;
}

static void walk(struct walk *w, const char *path, int depth);

static bool wanted(const struct cmd_paths *paths, struct str name) {
    return str_ends(name, STR(".9m")) || (paths->drills && cmd_is_drills(name));
}

static void take_file(struct walk *w, const char *path) {
    struct stat st;

    if (!w->behind_link || stat(path, &st) != 0 || first_time(w, &st))
        cmd_add_path(w->paths, path);
}

static void enter(struct walk *w, const char *path, int depth) {
    if (depth == DEPTH_MAX)
        failed(w, path, "too many directories within each other");
    else
        walk(w, path, depth + 1);
}

static void enter_by_link(struct walk *w, const char *path, int depth) {
    bool before = w->behind_link;

    w->behind_link = true;
    enter(w, path, depth);
    w->behind_link = before;
}

/* What of a real path lies below the operand; NULL if it does not. */
static const char *below_root(const struct walk *w, const char *real) {
    size_t n = strcmp(w->real, "/") == 0 ? 0 : strlen(w->real);

    return strncmp(real, w->real, n) == 0 && (!real[n] || real[n] == '/') ? real + n : NULL;
}

/* Whether the walk comes there without the link. */
static bool found_anyway(const struct walk *w, const char *below, bool directory) {
    return !strstr(below, "/.") && (directory || wanted(w->paths, str_of(below)));
}

/* A link that leads nowhere matters only if it would have been read. */
static void follow(struct walk *w, const char *path, bool notes, int depth) {
    char real[PATH_MAX];
    const char *below;
    struct stat st;

    if (!realpath(path, real) || stat(real, &st) != 0) {
        if (notes)
            failed(w, path, strerror(errno));
        return;
    }
    if (!S_ISDIR(st.st_mode) && !notes)
        return;
    below = below_root(w, real);
    if (!below && left_out(w))
        cmd_say("%s: a link that leads out of %s, not followed", path, w->root);
    if (!below || found_anyway(w, below, S_ISDIR(st.st_mode)) || !first_time(w, &st))
        return;
    if (S_ISDIR(st.st_mode))
        enter_by_link(w, path, depth);
    else if (S_ISREG(st.st_mode))
        cmd_add_path(w->paths, path);
}

static unsigned char kind_of(const char *path, unsigned char told) {
    struct stat st;

    return told != DT_UNKNOWN || lstat(path, &st) != 0 ? told : (unsigned char)IFTODT(st.st_mode);
}

static void visit(struct walk *w, const char *path, unsigned char type, int depth) {
    bool notes = wanted(w->paths, str_of(path));

    switch (kind_of(path, type)) {
    case DT_REG:
        if (notes)
            take_file(w, path);
        break;
    case DT_DIR:
        enter(w, path, depth);
        break;
    case DT_LNK:
        follow(w, path, notes, depth);
        break;
    default: /* a pipe, a socket, a device: it might never end */
        if (notes && left_out(w))
            cmd_say("%s: no file that lies on the disk, not read", path);
    }
}

static const char *joined(struct arena *a, const char *folder, const char *name) {
    return str_printf(a, "%s%s%s", folder, str_ends(str_of(folder), STR("/")) ? "" : "/", name).at;
}

static void walk(struct walk *w, const char *path, int depth) {
    struct entries entries = {.arena = w->paths->arena};

    if (!read_entries(&entries, path)) {
        failed(w, path, strerror(errno));
        return;
    }
    for (size_t i = 0; i < entries.n; i++) {
        const struct entry *e = &entries.at[i];

        visit(w, joined(entries.arena, path, e->name), e->type, depth);
    }
}

bool cmd_list(struct cmd_paths *paths, const char *directory, const char *ending) {
    struct entries entries = {.arena = paths->arena};

    if (!read_entries(&entries, directory))
        return false;
    for (size_t i = 0; i < entries.n; i++)
        if (str_ends(str_of(entries.at[i].name), str_of(ending)))
            cmd_add_path(paths, joined(paths->arena, directory, entries.at[i].name));
    return true;
}

/* An operand that is no directory is handed on as it is: whoever reads it says
 * what is wrong with it. */
static void find(struct walk *w, const char *path) {
    struct stat st;
    size_t before = w->paths->n;

    if (strcmp(path, "-") == 0 || stat(path, &st) != 0 || !S_ISDIR(st.st_mode)) {
        cmd_add_path(w->paths, path);
        return;
    }
    w->root = path;
    w->seen_n = w->left_n = 0;
    if (!realpath(path, w->real)) {
        failed(w, path, strerror(errno));
        return;
    }
    walk(w, path, 0);
    if (w->left_n > LEFT_SHOWN_MAX)
        cmd_say("%s: and %zu more left out", path, w->left_n - LEFT_SHOWN_MAX);
    if (w->paths->n == before && w->status == CMD_CLEAN)
        failed(w, path, "no .9m file in this directory");
}

enum cmd_status cmd_find(struct cmd_paths *paths, const struct cmd_run *run) {
    struct walk w = {.paths = paths, .status = CMD_CLEAN};

    for (size_t i = 0; i < run->operand_n; i++)
        find(&w, run->operands[i]);
    return w.status;
}

enum cmd_status cmd_find_in(struct cmd_paths *paths, const char *path) {
    struct walk w = {.paths = paths, .status = CMD_CLEAN};

    find(&w, path);
    return w.status;
}
