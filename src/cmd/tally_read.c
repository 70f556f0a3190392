/* Reads and counts the files of `9m tally`. Each thread has an arena, squads and a
 * pool of its own. Sums don't depend on order, and what is wrong is told in the order
 * of the files: so the number of threads changes no byte of the output. */
#include "cmd/crew.h"
#include "cmd/source.h"
#include "cmd/tally.h"
#include "cmd/told.h"

enum { BAD_SHOWN_MAX = 20 }; /* files whose messages are shown; the others are counted */

/* What the threads share. It is of the one whose turn it is. */
struct counting {
    struct crew crew;
    size_t bad_n; /* files with errors, or that can't be read */
    bool unread;
    bool files; /* pools are to know which files they count */
    struct cmd_show show;
    struct told told;
};

struct counter {
    struct counting *all;
    struct arena *arena; /* of one file */
    struct arena *kept;  /* of the pool; NULL: the caller's */
    struct squads *squads;
    struct pool *pool;
    struct across *across;
    bool too_many;
};

/* ---- one file ---------------------------------------------------------------- */

static void show_errors(struct counting *all, const struct text *t, const struct diags *d,
                        const struct checked *c) {
    struct diags fresh = *d;

    if (++all->bad_n > BAD_SHOWN_MAX)
        return;
    told_drop(&all->told, c, &fresh);
    cmd_show(&all->show, &fresh);
    cmd_show_summary(&all->show, t->name, d, c, NULL);
}

static void count(void *counter, const struct checked *c, const struct played *serves, size_t n) {
    struct counter *k = counter;

    k->too_many = k->too_many || !pool_take(k->pool, c, serves, n);
}

static void tell_unread(struct crew_member *m, const char *path, const char *why) {
    struct counting *all = ((struct counter *)m->own)->all;

    crew_turn(m);
    all->unread = true;
    if (++all->bad_n <= BAD_SHOWN_MAX)
        cmd_say("%s: %s", path, why);
}

/* Serves are counted while their file is checked: after an error nothing of the
 * pool is shown, unless the wish was to go on without the lines that have errors. */
static void count_text(struct crew_member *m, const struct text *t, struct diags *d) {
    struct counter *k = m->own;
    struct check_taker taker = {count, k};
    const struct checked *c = check_text_to(&taker, t, k->squads, k->arena, d);

    pool_end(k->pool, c);
    across_add(k->across, t, c, d);
    if (k->all->files && c->match->occasion) /* a squad may stand in every part */
        pool_file(k->pool, (struct pool_file){.sum = cmd_sum(t, k->arena),
                                              .name = cmd_base_name(t->name.at)});
    if (!d->errors)
        return;
    crew_turn(m);
    show_errors(k->all, t, d, c);
}

static void count_file(struct crew_member *m, const char *path) {
    struct counter *k = m->own;
    struct text text;
    struct diags diags;
    const char *why;

    diags_init(&diags, k->arena);
    why = cmd_why_unread(&text, path, k->arena, &diags);
    if (why)
        tell_unread(m, path, why);
    else
        count_text(m, &text, &diags);
    arena_reset(k->arena);
    squads_tidy(k->squads);
}

/* ---- the whole --------------------------------------------------------------- */

/* The first one counts into `pool`, where all is added up. */
static struct counter *counters_new(struct counting *all, struct pool *pool) {
    struct counter *k = arena_alloc(pool->arena, all->crew.n, sizeof *k);

    for (unsigned i = 0; i < all->crew.n; i++) {
        k[i].all = all;
        k[i].arena = arena_new(cmd_no_memory);
        k[i].kept = i ? arena_new(cmd_no_memory) : NULL;
        k[i].squads = squads_new(cmd_no_memory);
        k[i].pool = i ? pool_new(pool->keeps, k[i].kept) : pool;
        k[i].across = across_new(k[i].pool->arena);
        all->crew.members[i].own = &k[i];
    }
    return k;
}

static void counters_free(struct counter *k, unsigned n) {
    for (unsigned i = 0; i < n; i++) {
        arena_free(k[i].arena);
        squads_free(k[i].squads);
        arena_free(k[i].kept);
    }
}

static bool add_up(struct counter *k, unsigned n, struct pool *pool) {
    bool good = true;

    for (unsigned i = 0; i < n; i++)
        good = !k[i].too_many && (i == 0 || pool_merge(pool, k[i].pool)) && good;
    if (!good)
        cmd_say("more than %d serves are too many for one table", POOL_SERVES_MOST);
    return good;
}

static void tell_rest(const struct counting *all) {
    size_t more = all->bad_n > BAD_SHOWN_MAX ? all->bad_n - BAD_SHOWN_MAX : 0;

    if (more)
        cmd_say("and %zu more file%s with errors; 9m check shows %s", more, more == 1 ? "" : "s",
                more == 1 ? "it" : "them");
}

static void tell_twice(struct counting *all, struct counter *k, unsigned n) {
    for (unsigned i = 1; i < n; i++)
        across_merge(k[0].across, k[i].across);
    cmd_tell_across(&all->show, k[0].across, false, k[0].pool->arena);
}

enum cmd_status tally_read(const struct reading_wish *wish, struct pool *pool, bool *stop) {
    struct counting all = {.told.arena = pool->arena, .files = wish->files};
    struct counter *counters;
    enum cmd_status status;
    bool added;

    cmd_show_init(&all.show, stderr, wish->run->color_err);
    crew_init(&all.crew, wish->run, wish->threads, count_file);
    all.crew.span = wish->span;
    counters = counters_new(&all, pool);
    status = crew_work(&all.crew);
    tell_rest(&all);
    tell_twice(&all, counters, wish->threads);
    added = add_up(counters, wish->threads, pool);
    if (all.bad_n)
        status = cmd_worse(status, CMD_FINDINGS);
    if (all.unread || !added)
        status = CMD_FAILED;
    *stop = !added || (status != CMD_CLEAN && !wish->partial_data);
    if (*stop && added)
        cmd_stopped("figures", status);
    counters_free(counters, wish->threads);
    return status;
}
