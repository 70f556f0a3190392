#define _GNU_SOURCE 1            /* sched_getaffinity */
#include "cmd/crew.h"

#include <sched.h>
#include <stdint.h>
#include <sys/stat.h>

enum { ROUNDS_LEAST = 4 }; /* near the end each thread should still find some */

/* Some files that one thread reads. */
struct batch {
    size_t n;
    const char *paths[CREW_FILES_AT_ONCE];
};

static bool one_file(const struct cmd_run *run) {
    struct stat st;

    return run->operand_n == 1 && (stat(run->operands[0], &st) != 0 || !S_ISDIR(st.st_mode));
}

/* Those of this process: taskset, a batch system or a container may have set fewer
 * apart for it than the machine has. */
static unsigned processors(void) {
    cpu_set_t set;
    int n = sched_getaffinity(0, sizeof set, &set) == 0 ? CPU_COUNT(&set) : 1;

    return n > CREW_THREADS_MOST ? CREW_THREADS_MOST : (unsigned)n;
}

bool crew_threads(const struct cmd_run *run, const char *given, unsigned *threads) {
    if (given)
        return cmd_number("threads", given, CREW_THREADS_MOST, threads);
    *threads = one_file(run) ? 1 : processors();
    return true;
}

void crew_init(struct crew *c, const struct cmd_run *run, unsigned threads, crew_read *read) {
    *c = (struct crew){.run = run, .read = read, .n = threads};
    for (unsigned i = 0; i < c->n; i++)
        c->members[i] = (struct crew_member){.crew = c, .at = SIZE_MAX};
}

/* Files are taken in their order: who has none in hand will get later ones. */
static bool is_first(const struct crew_member *m) {
    const struct crew *c = m->crew;

    for (unsigned i = 0; i < c->n; i++)
        if (c->members[i].at < m->at)
            return false;
    return true;
}

void crew_turn(struct crew_member *m) {
    struct crew *c = m->crew;

    pthread_mutex_lock(&c->sharing.lock);
    while (!c->all_found || !is_first(m))
        pthread_cond_wait(&c->behind, &c->sharing.lock);
    c->telling = true;
    cmd_progress_clear(&c->progress);
    pthread_mutex_unlock(&c->sharing.lock);
}

bool crew_text(struct crew_member *m, struct text *t, const char *path, struct arena *a,
               struct diags *d) {
    const char *why;

    diags_init(d, a);
    why = cmd_why_unread(t, path, a, d);
    if (!why)
        return true;
    crew_turn(m);
    cmd_say("%s: %s", path, why);
    return false;
}

static void put_down(struct crew_member *m) {
    if (is_first(m))
        m->crew->telling = false;
    m->at = SIZE_MAX;
    pthread_cond_broadcast(&m->crew->behind);
}

/* How many files to take of those that are left. */
static size_t share(const struct crew *c) {
    size_t fair = (c->paths.n - c->next) / (c->n * ROUNDS_LEAST);

    return fair < 1 ? 1 : fair > CREW_FILES_AT_ONCE ? CREW_FILES_AT_ONCE : fair;
}

/* Gives the next files; waits for some unless all are found. */
static bool take(struct crew_member *m, struct batch *b) {
    struct crew *c = m->crew;
    size_t most;

    pthread_mutex_lock(&c->sharing.lock);
    put_down(m);
    while (c->next == c->paths.n && !c->all_found)
        pthread_cond_wait(&c->sharing.more, &c->sharing.lock);
    if (c->next < c->paths.n)
        m->at = c->next;
    most = share(c);
    for (b->n = 0; b->n < most && c->next < c->paths.n; b->n++)
        b->paths[b->n] = c->paths.at[c->next++];
    if (b->n && c->all_found && !c->telling)
        cmd_progress_tell(&c->progress, m->at, c->paths.n);
    pthread_mutex_unlock(&c->sharing.lock);
    return b->n > 0;
}

static void *work(void *member) {
    struct crew_member *m = member;
    struct batch b;

    while (take(m, &b)) {
        for (size_t i = 0; i < b.n; i++)
            m->crew->read(m, b.paths[i]);
        if (m->crew->done)
            m->crew->done(m);
    }
    return NULL;
}

static enum cmd_status find_all(struct crew *c) {
    enum cmd_status status = CMD_CLEAN;

    if (!c->found)
        status = c->span ? cmd_find_days(&c->paths, c->run, c->span)
                         : cmd_find(&c->paths, c->run);
    pthread_mutex_lock(&c->sharing.lock);
    c->all_found = true;
    pthread_cond_broadcast(&c->sharing.more);
    pthread_cond_broadcast(&c->behind);
    pthread_mutex_unlock(&c->sharing.lock);
    return status;
}

/* The first member works here, once it has found the files. Where a thread can't
 * be had, fewer do the same. */
enum cmd_status crew_work(struct crew *c) {
    struct arena *names = arena_new(cmd_no_memory);
    enum cmd_status status;

    if (c->found)
        c->paths = *c->found;
    c->paths.arena = names;
    c->paths.sharing = &c->sharing;
    pthread_mutex_init(&c->sharing.lock, NULL);
    pthread_cond_init(&c->sharing.more, NULL);
    pthread_cond_init(&c->behind, NULL);
    cmd_progress_init(&c->progress);
    for (unsigned i = 1; i < c->n; i++)
        c->members[i].started =
            pthread_create(&c->members[i].thread, NULL, work, &c->members[i]) == 0;
    status = find_all(c);
    work(&c->members[0]);
    for (unsigned i = 1; i < c->n; i++)
        if (c->members[i].started)
            pthread_join(c->members[i].thread, NULL);
    cmd_progress_clear(&c->progress);
    pthread_cond_destroy(&c->behind);
    pthread_cond_destroy(&c->sharing.more);
    pthread_mutex_destroy(&c->sharing.lock);
    arena_free(names);
    return status;
}
