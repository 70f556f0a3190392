/* Reads and counts the files of `9m tally`, by several threads. Each has an
 * arena, squads and a pool of its own; what they share lies behind one lock.
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
    const char *why;     /* it can't be read */
    struct arena *arena; /* holds the rest */
    struct text text;
    struct diags diags;
    const struct checked *checked;
};

struct reading {
    const struct cmd_paths *paths;
    bool partial_data;
    pthread_mutex_t lock;
    size_t next;                      /* first file that nobody has taken */
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

/* Gives the next files, [*from, *to). */
static bool take(struct reading *r, size_t *from, size_t *to) {
    pthread_mutex_lock(&r->lock);
    *from = r->next;
    *to = r->paths->n - *from < FILES_AT_ONCE ? r->paths->n : *from + FILES_AT_ONCE;
    r->next = *to;
    if (*from < *to)
        cmd_progress_tell(&r->progress, *from, r->paths->n);
    pthread_mutex_unlock(&r->lock);
    return *from < *to;
}

/* Keeps it if it is one of the first; gives the arena that is free now. */
static struct arena *keep_bad(struct reading *r, const struct bad *bad) {
    struct arena *free_now = NULL;
    size_t at;

    pthread_mutex_lock(&r->lock);
    r->bad_all_n++;
    r->unread = r->unread || bad->why;
    for (at = r->bad_n++; at > 0 && r->bad[at - 1].ix > bad->ix; at--)
        r->bad[at] = r->bad[at - 1];
    r->bad[at] = *bad;
    if (r->bad_n > BAD_SHOWN_MAX)
        free_now = r->bad[--r->bad_n].arena;
    pthread_mutex_unlock(&r->lock);
    return free_now ? free_now : arena_new(cmd_no_memory);
}

static void count_file(struct worker *w, size_t ix) {
    struct bad file = {.ix = ix, .arena = w->arena};

    diags_init(&file.diags, w->arena);
    errno = 0;
    file.why = cmd_unread(text_read(&file.text, w->shared->paths->at[ix], w->arena, &file.diags));
    if (!file.why)
        file.checked = check_text_of(&file.text, CHECK_KEEP, w->squads, w->arena, &file.diags);
    if (file.checked && (!file.diags.errors || w->shared->partial_data))
        w->too_many = w->too_many || !pool_add(w->pool, file.checked);
    if (file.why || file.diags.errors)
        w->arena = keep_bad(w->shared, &file);
    arena_reset(w->arena);
}

static void *work(void *worker) {
    struct worker *w = worker;
    size_t from, to;

    while (!w->too_many && take(w->shared, &from, &to))
        for (size_t ix = from; ix < to; ix++)
            count_file(w, ix);
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
        cmd_say("%s: %s", r->paths->at[bad->ix], bad->why);
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

/* The first one works here. Where a thread can't be had, fewer do the same. */
static void work_all(struct worker *all, unsigned n) {
    for (unsigned i = 1; i < n; i++)
        all[i].started = pthread_create(&all[i].thread, NULL, work, &all[i]) == 0;
    work(&all[0]);
    for (unsigned i = 1; i < n; i++)
        if (all[i].started)
            pthread_join(all[i].thread, NULL);
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

enum cmd_status tally_read(const struct reading_wish *wish, struct pool *pool, bool *stop) {
    struct arena *names = arena_new(cmd_no_memory);
    struct cmd_paths paths = {.arena = names};
    struct reading r = {.paths = &paths, .partial_data = wish->partial_data};
    enum cmd_status status = cmd_find(&paths, wish->run);
    unsigned n = wish->threads < paths.n ? wish->threads : paths.n ? (unsigned)paths.n : 1;
    struct worker *all = workers_new(&r, n, pool, names);
    bool added;

    pthread_mutex_init(&r.lock, NULL);
    cmd_progress_init(&r.progress);
    work_all(all, n);
    cmd_progress_clear(&r.progress);
    tell(&r, wish->run->color_err);
    added = add_up(all, n, pool);
    if (r.bad_all_n)
        status = cmd_worse(status, CMD_FINDINGS);
    if (r.unread || !added)
        status = CMD_FAILED;
    *stop = !added || (status != CMD_CLEAN && !wish->partial_data);
    for (size_t i = 0; i < r.bad_n; i++)
        arena_free(r.bad[i].arena);
    workers_free(all, n);
    pthread_mutex_destroy(&r.lock);
    arena_free(names);
    return status;
}
