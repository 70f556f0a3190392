/* Reads and counts the files of `9m tally`, by several threads, which begin
 * while the files are still being found. Each has an arena, squads and a pool of
 * its own; what they share lies behind one lock.
 * Sums don't depend on order, and messages are shown in the order of the files
 * when all are read: so the number of threads changes no byte of the output. */
#include <errno.h>
#include <pthread.h>
#include <string.h>

#include "cmd/tally.h"

enum {
    FILES_AT_ONCE = 8, /* files of one folder often share a squad file */
    BAD_SHOWN_MAX = 20 /* whose messages are kept and shown; the others are counted */
};

/* A file with errors, or one that can't be read. */
struct bad {
    size_t ix;
    const char *path;
    const char *why;     /* it can't be read */
    struct arena *arena; /* holds the rest */
    struct text text;
    struct diags diags;
    const struct checked *checked;
};

struct reading {
    struct cmd_sharing sharing;
    struct cmd_paths paths;
    bool all_found;
    bool partial_data;
    size_t next;                       /* first file that nobody has taken */
    struct bad bad[BAD_SHOWN_MAX + 1]; /* the first ones, in the order of the files */
    size_t bad_n, bad_all_n;
    bool unread;
    struct cmd_progress progress;
};

struct worker {
    struct reading *shared;
    struct arena *arena; /* of one file */
    struct arena *kept;  /* of the pool; NULL: the caller's */
    struct squads *squads;
    struct pool *pool;
    bool too_many;
    pthread_t thread;
    bool started;
};

/* Some files that one thread reads. */
struct batch {
    size_t from, n;
    const char *paths[FILES_AT_ONCE];
};

/* Gives the next files; waits for some unless all are found. */
static bool take(struct reading *r, struct batch *b) {
    pthread_mutex_lock(&r->sharing.lock);
    while (r->next == r->paths.n && !r->all_found)
        pthread_cond_wait(&r->sharing.more, &r->sharing.lock);
    b->from = r->next;
    for (b->n = 0; b->n < FILES_AT_ONCE && r->next < r->paths.n; b->n++)
        b->paths[b->n] = r->paths.at[r->next++];
    if (b->n && r->all_found)
        cmd_progress_tell(&r->progress, b->from, r->paths.n);
    pthread_mutex_unlock(&r->sharing.lock);
    return b->n > 0;
}

static enum cmd_status find_all(struct reading *r, const struct cmd_run *run) {
    enum cmd_status status = cmd_find(&r->paths, run);

    pthread_mutex_lock(&r->sharing.lock);
    r->all_found = true;
    pthread_cond_broadcast(&r->sharing.more);
    pthread_mutex_unlock(&r->sharing.lock);
    return status;
}

/* Keeps it if it is one of the first; gives the arena that is free now. */
static struct arena *keep_bad(struct reading *r, const struct bad *bad) {
    struct arena *free_now = NULL;
    size_t at;

    pthread_mutex_lock(&r->sharing.lock);
    r->bad_all_n++;
    r->unread = r->unread || bad->why;
    for (at = r->bad_n++; at > 0 && r->bad[at - 1].ix > bad->ix; at--)
        r->bad[at] = r->bad[at - 1];
    r->bad[at] = *bad;
    if (r->bad_n > BAD_SHOWN_MAX)
        free_now = r->bad[--r->bad_n].arena;
    pthread_mutex_unlock(&r->sharing.lock);
    return free_now ? free_now : arena_new(cmd_no_memory);
}

static void count(void *worker, const struct checked *c, const struct played *serves, size_t n) {
    struct worker *w = worker;

    w->too_many = w->too_many || !pool_take(w->pool, c, serves, n);
}

/* Serves are counted while their file is checked: after an error nothing of the
 * pool is shown, unless the wish was to go on without the lines that have errors. */
static void count_file(struct worker *w, size_t ix, const char *path) {
    struct check_taker taker = {count, w};
    struct bad file = {.ix = ix, .path = path, .arena = w->arena};

    diags_init(&file.diags, w->arena);
    errno = 0;
    file.why = cmd_unread(text_read(&file.text, path, w->arena, &file.diags));
    if (!file.why)
        file.checked = check_text_to(&taker, &file.text, w->squads, w->arena, &file.diags);
    if (file.checked)
        pool_end(w->pool, file.checked);
    if (file.why || file.diags.errors)
        w->arena = keep_bad(w->shared, &file);
    arena_reset(w->arena);
}

static void *work(void *worker) {
    struct worker *w = worker;
    struct batch b;

    while (!w->too_many && take(w->shared, &b))
        for (size_t i = 0; i < b.n; i++)
            count_file(w, b.from + i, b.paths[i]);
    return NULL;
}

/* ---- what is wrong --------------------------------------------------------- */

/* A message of a squad file that an earlier file has brought already. */
static bool seen_before(const struct reading *r, const struct bad *bad, const struct diag *d) {
    if (!d->group)
        return false;
    for (const struct bad *b = r->bad; b < bad; b++)
        for (size_t i = 0; i < b->diags.n; i++) {
            const struct diag *other = &b->diags.at[i];

            if (other->id == d->id && other->place.line == d->place.line &&
                other->place.at == d->place.at && str_eq(other->place.file, d->place.file))
                return true;
        }
    return false;
}

static void show_bad(const struct reading *r, const struct bad *bad, struct cmd_show *how) {
    struct diags fresh = bad->diags;
    size_t n = 0;

    if (bad->why) {
        cmd_say("%s: %s", bad->path, bad->why);
        return;
    }
    fresh.at = arena_alloc(bad->arena, fresh.n + 1, sizeof *fresh.at);
    for (size_t i = 0; i < bad->diags.n; i++)
        if (!seen_before(r, bad, &bad->diags.at[i]))
            fresh.at[n++] = bad->diags.at[i];
    /* The list's own counts say no more than how many were not kept. */
    fresh.errors = (unsigned)(n + cmd_uncounted(&bad->diags));
    fresh.warnings = fresh.reviews = 0;
    fresh.n = n;
    cmd_show(how, &fresh);
    cmd_show_summary(how, bad->text.name, &bad->diags, bad->checked, NULL);
}

static void tell(const struct reading *r, bool color) {
    struct cmd_show how;

    cmd_show_init(&how, stderr, color);
    for (size_t i = 0; i < r->bad_n; i++)
        show_bad(r, &r->bad[i], &how);
    if (r->bad_all_n > r->bad_n)
        cmd_say("and %zu more files with errors; 9m check shows them", r->bad_all_n - r->bad_n);
    if (r->bad_all_n && !r->partial_data)
        cmd_say("no figures from notes with errors; --partial-data goes on without them");
}

/* ---- the whole --------------------------------------------------------------- */

/* The first one counts into `pool`, where all is added up. */
static struct worker *workers_new(struct reading *r, unsigned n, struct pool *pool,
                                  struct arena *a) {
    struct worker *all = arena_alloc(a, n, sizeof *all);

    for (unsigned i = 0; i < n; i++) {
        all[i].shared = r;
        all[i].arena = arena_new(cmd_no_memory);
        all[i].kept = i ? arena_new(cmd_no_memory) : NULL;
        all[i].squads = squads_new(cmd_no_memory);
        all[i].pool = i ? pool_new(pool->servers_only, all[i].kept) : pool;
    }
    return all;
}

/* The first one works here, once it has found the files. Where a thread can't
 * be had, fewer do the same. */
static enum cmd_status work_all(struct worker *all, unsigned n, const struct cmd_run *run) {
    enum cmd_status status;

    for (unsigned i = 1; i < n; i++)
        all[i].started = pthread_create(&all[i].thread, NULL, work, &all[i]) == 0;
    status = find_all(all[0].shared, run);
    work(&all[0]);
    for (unsigned i = 1; i < n; i++)
        if (all[i].started)
            pthread_join(all[i].thread, NULL);
    return status;
}

static bool add_up(struct worker *all, unsigned n, struct pool *pool) {
    bool good = true;

    for (unsigned i = 0; i < n; i++)
        good = !all[i].too_many && (i == 0 || pool_merge(pool, all[i].pool)) && good;
    if (!good)
        cmd_say("more than %d serves are too many for one table", POOL_SERVES_MOST);
    return good;
}

static void workers_free(struct worker *all, unsigned n) {
    for (unsigned i = 0; i < n; i++) {
        arena_free(all[i].arena);
        squads_free(all[i].squads);
        arena_free(all[i].kept);
    }
}

static void reading_init(struct reading *r, struct arena *a, bool partial_data) {
    *r = (struct reading){.paths = {.arena = a, .sharing = &r->sharing},
                          .partial_data = partial_data};
    pthread_mutex_init(&r->sharing.lock, NULL);
    pthread_cond_init(&r->sharing.more, NULL);
    cmd_progress_init(&r->progress);
}

static void reading_done(struct reading *r) {
    for (size_t i = 0; i < r->bad_n; i++)
        arena_free(r->bad[i].arena);
    pthread_cond_destroy(&r->sharing.more);
    pthread_mutex_destroy(&r->sharing.lock);
}

enum cmd_status tally_read(const struct reading_wish *wish, struct pool *pool, bool *stop) {
    struct arena *names = arena_new(cmd_no_memory);
    struct reading r;
    struct worker *all;
    enum cmd_status status;
    bool added;

    reading_init(&r, names, wish->partial_data);
    all = workers_new(&r, wish->threads, pool, pool->arena);
    status = work_all(all, wish->threads, wish->run);
    cmd_progress_clear(&r.progress);
    tell(&r, wish->run->color_err);
    added = add_up(all, wish->threads, pool);
    if (r.bad_all_n)
        status = cmd_worse(status, CMD_FINDINGS);
    if (r.unread || !added)
        status = CMD_FAILED;
    *stop = !added || (status != CMD_CLEAN && !wish->partial_data);
    reading_done(&r);
    workers_free(all, wish->threads);
    arena_free(names);
    return status;
}
