/* The head of each file tells its day and its teams, before anything is counted. */
#include "cmd/span.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "pool.h"

enum { MATCHES_MOST = 1000000 };

/* ---- what is asked for ------------------------------------------------------ */

/* A day is one if the checker takes a file of that day. */
bool cmd_day(const char *given, struct date *out) {
    struct arena *a = arena_new(cmd_no_memory);
    struct str notes = str_printf(a, "notation 1\npractice %s\nteam A \"A\"\n", given);
    struct diags d;
    struct text t;
    bool good;

    diags_init(&d, a);
    text_take(&t, STR_NONE, notes, a, &d);
    *out = check_text(&t, 0, a, &d)->match->date;
    good = d.errors == 0 && strlen(given) == strlen("2026-10-24");
    arena_free(a);
    return good;
}

static const char *given_to(const struct cmd_run *run, const char *name) {
    for (size_t i = 0; run->cmd->options[i].name; i++)
        if (strcmp(run->cmd->options[i].name, name) == 0)
            return run->given[i];
    return NULL;
}

bool cmd_day_option(const struct cmd_run *run, const char *name, struct date *out) {
    const char *given = given_to(run, name);

    if (!given || cmd_day(given, out))
        return true;
    cmd_misuse(run->cmd, "--%s takes a day such as 2026-10-24, not \"%s\"", name, given);
    return false;
}

bool cmd_span_is_bounded(const struct cmd_span *s) {
    return s->from.year || s->to.year || s->last;
}

static bool reads_standard_input(const struct cmd_run *run) {
    for (size_t i = 0; i < run->operand_n; i++)
        if (strcmp(run->operands[i], "-") == 0)
            return true;
    return false;
}

bool cmd_span_take(struct cmd_span *s, const struct cmd_run *run) {
    const char *last = given_to(run, "last");

    *s = (struct cmd_span){.team = NULL};
    if (!cmd_day_option(run, "from", &s->from) || !cmd_day_option(run, "to", &s->to) ||
        (last && !cmd_number("last", last, MATCHES_MOST, &s->last)))
        return false;
    if (s->from.year && s->to.year && date_order(s->from, s->to) > 0)
        cmd_misuse(run->cmd, "--from lies after --to");
    else if (cmd_span_is_bounded(s) && reads_standard_input(run))
        cmd_misuse(run->cmd, "--from, --to and --last choose among files; "
                             "standard input is none");
    else
        return true;
    return false;
}

/* ---- the heads -------------------------------------------------------------- */

struct head {
    size_t at;                   /* which of the paths */
    bool dated, practice;
    struct date date;
    unsigned minute;             /* of the day; 0 where the notes have no time */
    struct str teams[SIDE_N];    /* empty: none */
    struct str team;             /* whose last matches it may be one of */
};

struct heads {
    struct arena *arena;         /* of all */
    struct head *at;
    size_t n;
    enum cmd_status status;
};

/* Nothing stands behind the head but what is said of the whole file. */
static bool is_of_head(const struct stmt *st) {
    return st->kind == STMT_OBSERVE || st->kind == STMT_PLAN || st->kind == STMT_NOTE;
}

static void fill_head(struct head *h, const struct match *of, struct arena *keep) {
    h->dated = of->occasion && of->date.year;
    h->practice = of->practice;
    h->date = of->date;
    h->minute = of->timed ? of->minute : 0;
    for (unsigned side = 0; side < of->team_n; side++)
        h->teams[side] = str_copy(keep, pool_team_key(of, (enum side)side).team);
    h->team = h->teams[OURS];
}

/* False after a message about what can be read only once. */
static bool read_head(struct head *h, const char *path, struct squads *squads,
                      struct arena *keep, struct arena *a) {
    struct reading *reading;
    const struct stmt *st;
    struct diags d;
    struct text t;

    diags_init(&d, a);
    errno = 0;
    if (text_read_ordinary(&t, path, a, &d) != TEXT_READ) {
        if (errno == EINVAL)
            cmd_say("%s: no ordinary file; --from, --to and --last can't choose it", path);
        return errno != EINVAL;
    }
    reading = match_open(&t, squads, a, &d);
    do
        st = match_next(reading);
    while (st && is_of_head(st));
    fill_head(h, match_of(reading), keep);
    return true;
}

static void read_heads(struct heads *heads, const struct cmd_paths *paths) {
    struct arena *a = arena_new(cmd_no_memory);
    struct squads *squads = squads_new(cmd_no_memory);

    heads->at = arena_alloc(heads->arena, paths->n + 1, sizeof *heads->at);
    for (size_t i = 0; i < paths->n; i++) {
        struct head h = {.at = i};

        if (read_head(&h, paths->at[i], squads, heads->arena, a))
            heads->at[heads->n++] = h;
        arena_reset(a);
        squads_tidy(squads);
    }
    if (heads->n < paths->n)
        heads->status = CMD_FAILED;
    squads_free(squads);
    arena_free(a);
}

/* ---- the choice --------------------------------------------------------------- */

static bool lies_within(const struct cmd_span *s, const struct head *h) {
    return !h->dated || ((!s->from.year || date_order(h->date, s->from) >= 0) &&
                         (!s->to.year || date_order(h->date, s->to) <= 0));
}

/* Keeps those that are wanted, in their order. */
static void keep_within(struct heads *heads, const struct cmd_span *s) {
    size_t n = 0;

    for (size_t i = 0; i < heads->n; i++)
        if (lies_within(s, &heads->at[i]))
            heads->at[n++] = heads->at[i];
    heads->n = n;
}

/* A team that was named may stand on either side. */
static void find_team(struct heads *heads, const char *word) {
    struct str *names = arena_alloc(heads->arena, SIDE_N * heads->n + 1, sizeof *names);
    bool *meant = arena_alloc(heads->arena, SIDE_N * heads->n + 1, sizeof *meant);

    for (size_t i = 0; i < heads->n; i++)
        memcpy(names + SIDE_N * i, heads->at[i].teams, sizeof heads->at[i].teams);
    cmd_named(names, SIDE_N * heads->n, word, meant);
    for (size_t i = 0; i < heads->n; i++) {
        struct head *h = &heads->at[i];

        h->team = meant[SIDE_N * i + OURS]     ? h->teams[OURS]
                  : meant[SIDE_N * i + THEIRS] ? h->teams[THEIRS]
                                               : STR_NONE;
    }
}

/* By team, matches before practices, the latest first. */
static int latest_first(const void *left, const void *right) {
    const struct head *a = left, *b = right;
    int team = str_order(a->team, b->team), day = date_order(b->date, a->date);

    if (team)
        return team;
    if (a->practice != b->practice)
        return a->practice ? 1 : -1;
    if (day)
        return day;
    if (a->minute != b->minute)
        return a->minute > b->minute ? -1 : 1;
    return a->at > b->at ? -1 : a->at < b->at;
}

static int as_found(const void *left, const void *right) {
    const struct head *a = left, *b = right;

    return a->at < b->at ? -1 : a->at > b->at;
}

/* The matches of one team that were met so far. */
struct met {
    struct str team;
    unsigned matches_n;
    struct date first;           /* the earliest of those that are kept; year 0: none */
};

/* Of each team the last matches, and the practices since the first of them. */
static bool is_of_last(struct met *m, const struct head *h, unsigned last) {
    if (!h->dated)
        return true;
    if (!str_eq(h->team, m->team))
        *m = (struct met){.team = h->team};
    if (h->practice)
        return h->team.n && date_order(h->date, m->first) >= 0;
    if (!h->team.n || ++m->matches_n > last)
        return false;
    m->first = h->date;
    return true;
}

static void keep_last(struct heads *heads, unsigned last) {
    struct met met = {.team = STR_NONE};
    size_t n = 0;

    qsort(heads->at, heads->n, sizeof *heads->at, latest_first);
    for (size_t i = 0; i < heads->n; i++)
        if (is_of_last(&met, &heads->at[i], last))
            heads->at[n++] = heads->at[i];
    heads->n = n;
    qsort(heads->at, heads->n, sizeof *heads->at, as_found);
}

enum cmd_status cmd_span_choose(const struct cmd_span *s, struct cmd_paths *paths) {
    struct heads heads = {.arena = paths->arena, .status = CMD_CLEAN};

    if (!cmd_span_is_bounded(s))
        return CMD_CLEAN;
    read_heads(&heads, paths);
    keep_within(&heads, s);
    if (s->team)
        find_team(&heads, s->team);
    if (s->last && heads.n)
        keep_last(&heads, s->last);
    for (size_t i = 0; i < heads.n; i++)
        paths->at[i] = paths->at[heads.at[i].at];
    paths->n = heads.n;
    return heads.status;
}

enum cmd_status cmd_find_days(struct cmd_paths *paths, const struct cmd_run *run,
                              const struct cmd_span *s) {
    struct cmd_paths all = {.arena = paths->arena, .drills = paths->drills};
    enum cmd_status status = cmd_find(&all, run);

    status = cmd_worse(status, cmd_span_choose(s, &all));
    for (size_t i = 0; i < all.n; i++)
        cmd_add_path(paths, all.at[i]);
    return status;
}
