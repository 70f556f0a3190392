#include "cmd/staged.h"

#include <errno.h>
#include <stdlib.h>

#include "cmd/git.h"

/* A file in the index. */
struct staged_file {
    struct str name;     /* its path from the folder in which we run */
    struct str object;   /* the name of its bytes */
    bool notes;          /* not drills */
    bool changed;        /* by the next commit */
    bool conflict;
};

struct staged {
    struct arena *arena;
    struct str up;               /* "../" for each folder below the top of the work tree */
    struct staged_file *files;   /* by name */
    size_t n, room;
    struct str *squads;          /* names of squad files that the next commit changes, and */
    size_t squad_n, squad_room;  /* of notes that it deletes: they may have been some */
    pthread_mutex_t lock;        /* held while an object is asked for */
    struct git_objects objects;
};

#define OURS_IN_TREE ":(top)*.9m", ":(top)*" DRILLS_ENDING

/* ---- what git knows ------------------------------------------------------ */

/* "." as a folder and "//" change no place. */
static struct str plain_path(struct arena *a, struct str path) {
    struct buf b;

    buf_init(&b, a);
    for (size_t i = 0; i < path.n; i++) {
        bool start = b.n == 0 || b.at[b.n - 1] == '/';

        if (start && str_starts(str_part(path, i, path.n), STR("./")))
            i++;
        else if (!start || path.at[i] != '/')
            buf_char(&b, path.at[i]);
    }
    return buf_str(&b);
}

/* As in a tree that is walked, hidden files and folders are left out. Git's patterns
 * match all that lies in a folder of such a name, too. */
static bool is_ours(struct str path) {
    for (size_t i = 0; i < path.n; i++)
        if (path.at[i] == '.' && (i == 0 || path.at[i - 1] == '/'))
            return false;
    return str_ends(path, STR(".9m")) || cmd_is_drills(path);
}

static struct str name_of(const struct staged *s, struct str path) {
    return str_printf(s->arena, "%.*s%.*s", STR_ARG(s->up), STR_ARG(path));
}

static int by_name(const void *a, const void *b) {
    return str_order(((const struct staged_file *)a)->name, ((const struct staged_file *)b)->name);
}

static struct staged_file *file_of(const struct staged *s, struct str name) {
    struct staged_file key = {.name = name};

    return s->n ? bsearch(&key, s->files, s->n, sizeof key, by_name) : NULL;
}

/* "100644 OBJECT 0", a TAB and the path. Links and submodules are no notes; of a file
 * in conflict there are several stages, of which one will do. */
static void add_file(struct staged *s, struct str entry) {
    struct str mode, object, stage;

    if (!str_take(&entry, ' ', &mode) || !str_take(&entry, ' ', &object) ||
        !str_take(&entry, '\t', &stage) || !str_starts(mode, STR("100")) || !is_ours(entry))
        return;
    entry = name_of(s, entry);
    if (s->n && str_eq(s->files[s->n - 1].name, entry))
        return;
    s->files = arena_grow(s->arena, s->files, s->n, &s->room, sizeof *s->files);
    s->files[s->n++] = (struct staged_file){.name = entry,
                                            .object = object,
                                            .notes = !cmd_is_drills(entry),
                                            .conflict = !str_is(stage, "0")};
}

static bool list_files(struct staged *s) {
    static const char *const argv[] = {"git", "ls-files", "--full-name", "-s", "-z", "--",
                                       OURS_IN_TREE, NULL};
    struct str rest, entry;

    if (git_run(argv, s->arena, &rest) != 0)
        return false;
    while (str_take(&rest, '\0', &entry))
        add_file(s, entry);
    if (s->n)
        qsort(s->files, s->n, sizeof *s->files, by_name);
    return true;
}

static void add_squad(struct staged *s, struct str name) {
    s->squads = arena_grow(s->arena, s->squads, s->squad_n, &s->squad_room, sizeof *s->squads);
    s->squads[s->squad_n++] = name;
}

static void mark_change(struct staged *s, struct str name) {
    struct staged_file *f = file_of(s, name);

    if (f)
        f->changed = true;
    else if (!cmd_is_drills(name))
        add_squad(s, name);
}

/* Status and path in turn; without renames one is a deletion and an addition. */
static bool list_changes(struct staged *s) {
    static const char *const argv[] = {"git",           "diff",         "--cached",
                                       "--name-status", "--no-renames", "--no-relative",
                                       "-z",            "--",           OURS_IN_TREE,
                                       NULL};
    struct str rest, status, path;

    if (git_run(argv, s->arena, &rest) != 0)
        return false;
    while (str_take(&rest, '\0', &status) && str_take(&rest, '\0', &path))
        if (is_ours(path))
            mark_change(s, name_of(s, path));
    return true;
}

static bool find_top(struct staged *s) {
    static const char *const argv[] = {"git", "rev-parse", "--is-inside-work-tree", "--show-cdup",
                                       NULL};
    struct str rest, inside;

    if (git_run(argv, s->arena, &rest) == 0 && str_take(&rest, '\n', &inside) &&
        str_is(inside, "true"))
        return str_take(&rest, '\n', &s->up);
    cmd_say("--staged needs the work tree of a git repository");
    return false;
}

struct staged *staged_open(struct arena *a) {
    struct staged *s = arena_alloc(a, 1, sizeof *s);

    s->arena = a;
    if (!find_top(s) || !list_files(s) || !list_changes(s) || !git_objects_open(&s->objects))
        return NULL;
    pthread_mutex_init(&s->lock, NULL);
    return s;
}

void staged_close(struct staged *s) {
    git_objects_close(&s->objects);
    pthread_mutex_destroy(&s->lock);
}

/* ---- reading ------------------------------------------------------------- */

static bool is_ignored(const char *path, struct arena *a) {
    const char *argv[] = {"git", "check-ignore", "-q", "--", path, NULL};
    struct str out;

    return git_run(argv, a, &out) == 0;
}

enum text_status staged_read(void *from, struct text *t, const char *path, struct arena *a,
                             struct diags *d) {
    struct staged *s = from;
    const struct staged_file *f = file_of(s, plain_path(a, str_of(path)));
    struct str bytes;
    bool good;

    if (!f && is_ignored(path, a))
        return text_read_ordinary(t, path, a, d);
    errno = ENOENT;
    if (!f)
        return TEXT_MISSING;
    pthread_mutex_lock(&s->lock);
    good = git_object(&s->objects, f->object, a, &bytes);
    pthread_mutex_unlock(&s->lock);
    if (!good)
        return TEXT_UNREADABLE;
    text_take(t, str_copy(a, str_of(path)), bytes, a, d);
    return TEXT_READ;
}

/* ---- what is to be checked ------------------------------------------------ */

/* A parser over the notes; NULL if they can't be read. */
static struct syn *open_notes(struct staged *s, const struct staged_file *f, struct arena *a) {
    struct text *t = arena_alloc(a, 1, sizeof *t);
    struct diags *dropped = arena_alloc(a, 1, sizeof *dropped);

    diags_init(dropped, a);
    if (staged_read(s, t, f->name.at, a, dropped) != TEXT_READ)
        return NULL;
    return syn_new(t, a, dropped);
}

static bool is_squad(struct staged *s, const struct staged_file *f, struct arena *a) {
    struct syn *syn = open_notes(s, f, a);

    for (const struct stmt *st; syn && (st = syn_next(syn)) && st->kind != STMT_SERVE;)
        if (st->kind == STMT_MATCH || st->kind == STMT_PRACTICE)
            return false;
    return true;
}

/* A squad file lies beside the notes that take it, or below. */
static bool could_take_a_change(const struct staged *s, const struct staged_file *f) {
    struct str folder = str_folder(f->name);

    for (size_t i = 0; i < s->squad_n; i++)
        if (str_starts(s->squads[i], folder))
            return true;
    return false;
}

static bool is_changed_squad(const struct staged *s, struct str name) {
    for (size_t i = 0; i < s->squad_n; i++)
        if (str_eq(s->squads[i], name))
            return true;
    return false;
}

static bool takes_a_change(struct staged *s, const struct staged_file *f, struct arena *a) {
    struct str folder = str_folder(f->name);
    struct syn *syn = open_notes(s, f, a);

    for (const struct stmt *st; syn && (st = syn_next(syn)) && st->kind != STMT_SERVE;) {
        struct str path = st->kind == STMT_SQUAD ? st->as.text : STR_NONE;

        path = str_printf(a, "%.*s%.*s", STR_ARG(folder), STR_ARG(path));
        if (st->kind == STMT_SQUAD && is_changed_squad(s, plain_path(a, path)))
            return true;
    }
    return false;
}

static void find_squads(struct staged *s, struct arena *scratch) {
    for (size_t i = 0; i < s->n; i++) {
        const struct staged_file *f = &s->files[i];

        if (f->changed && f->notes && is_squad(s, f, scratch))
            add_squad(s, f->name);
        arena_reset(scratch);
    }
}

static bool wanted(struct staged *s, const struct staged_file *f, struct arena *scratch) {
    bool takes = !f->changed && f->notes && could_take_a_change(s, f) &&
                 takes_a_change(s, f, scratch);

    arena_reset(scratch);
    return f->changed || takes;
}

enum cmd_status staged_find(struct staged *s, struct cmd_paths *paths) {
    struct arena *scratch = arena_new(cmd_no_memory);
    enum cmd_status status = CMD_CLEAN;

    find_squads(s, scratch);
    for (size_t i = 0; i < s->n; i++) {
        const struct staged_file *f = &s->files[i];

        if (f->conflict) {
            cmd_say("%.*s: a merge is not settled here; edit it, then git add it",
                    STR_ARG(f->name));
            status = CMD_FINDINGS;
        } else if (wanted(s, f, scratch)) {
            cmd_add_path(paths, f->name.at);
        }
    }
    arena_free(scratch);
    return status;
}
