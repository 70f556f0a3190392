/* What must hold of advice whatever was played: counts that another room has
 * counted too, and what may be said of so many serves. Over seasons that a
 * generator with rules of its own has written. TAP. */
#include "advice.h"
#include "kit/lifelike.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { SEASONS = 40, MATCHES_MOST = 12 };

struct season {
    struct advice advice;
    const struct pool *pool;
};

static struct arena *arena;

static void no_memory(size_t wanted_bytes) {
    (void)wanted_bytes;
    abort();
}

static const struct checked *match(const struct life_team *ours, unsigned day, uint64_t seed) {
    struct life_style style = {.detail = LIFE_RICH, .whole = true, .rare = seed % 4 == 0};
    struct buf b;
    struct text t;
    struct diags d;

    buf_init(&b, arena);
    life_match(&b, ours, style, day, seed * 100 + day);
    diags_init(&d, arena);
    text_take(&t, STR("random"), buf_str(&b), arena, &d);
    const struct checked *c = check_text(&t, CHECK_KEEP, arena, &d);
    return d.errors ? NULL : c;
}

static struct season season(uint64_t seed) {
    struct season s;
    struct life_team ours;
    struct advice_of of = advice_of(arena);
    struct pool *pool = pool_new(POOL_SERVERS, arena);
    struct drill_book *book = arena_alloc(arena, 1, sizeof *book);

    life_team_draw(&ours, 'H', seed);
    for (unsigned day = 1; day <= 1 + seed % MATCHES_MOST; day++) {
        const struct checked *c = match(&ours, day, seed);
        if (!c)
            continue;
        advice_add(&of, c);
        pool_add(pool, c);
    }
    pool_settle(pool);
    drill_book_init(book, arena);
    advice_init(&s.advice, &of, book, arena);
    s.pool = pool;
    return s;
}

/* Serves, misses and broken passes of each server are those of the tally. */
static bool counts_agree(const struct season *s) {
    const struct faults *f = s->advice.faults;
    for (size_t i = 0; i < f->server_n; i++) {
        const struct faults_server *who = &f->servers[i];
        for (size_t k = 0; k < s->pool->person_n; k++) {
            const struct person *p = &s->pool->people[k];
            const struct counts *c = &s->pool->of_person[k][POOL_MATCH];
            if (!p->ours || p->shirt != who->shirt || !str_eq(p->name, who->name))
                continue;
            if (c->serves != who->counts.serves || c->missed != who->counts.missed ||
                c->broke != who->counts.broke)
                return false;
        }
    }
    return true;
}

/* No kind of miss is counted that was none, and none twice. */
static bool misses_fit(const struct season *s) {
    const struct faults *f = s->advice.faults;
    for (size_t i = 0; i < f->server_n; i++) {
        unsigned sum = 0;
        for (unsigned k = 0; k < FAULTS_MISSES; k++)
            sum += f->servers[i].missed[k];
        if (sum > f->servers[i].counts.missed)
            return false;
        for (unsigned m = 0; m < MARK_N; m++)
            for (unsigned k = 0; k < FAULTS_MISSES; k++) {
                struct twoway t = faults_table(&f->servers[i], (enum mark)m, (enum faults_miss)k);
                if (t.a + t.c > f->servers[i].missed[k] ||
                    t.a + t.b + t.c + t.d > f->servers[i].counts.serves)
                    return false;
            }
    }
    return true;
}

static bool may_be_said(const struct advice_server *a, const struct advice_priority *p) {
    unsigned tested = p->table.a + p->table.b + p->table.c + p->table.d;
    if (a->say < SAY_COMPARISON || (p->cost.has_set && a->say < SAY_SEASON))
        return false;
    if (p->way == ADVICE_AIM)
        return p->aim.say != SAY_AIM_GENERAL && p->aim.sure_frac >= .01;
    if (p->evidence == ADVICE_COUNTED)
        return rate_may_say(tested) < SAY_SEASON;
    return p->evidence != ADVICE_TESTED ||
           (rate_may_say(tested) == SAY_SEASON && p->adjusted <= TWOWAY_FINDING_P);
}

static bool servers_fit(const struct season *s) {
    for (size_t i = 0; i < s->advice.faults->server_n; i++) {
        struct advice_server a = advice_server(&s->advice, i);
        if (a.n + a.has_focus > ADVICE_MAX)
            return false;
        for (unsigned k = 0; k < a.n; k++)
            if (!may_be_said(&a, &a.at[k]) || a.at[k].cost.points_n < a.at[k].cost.sure_n ||
                (k > 0 && a.at[k].cost.sure_n > a.at[k - 1].cost.sure_n))
                return false;
    }
    return true;
}

static bool team_fits(const struct season *s) {
    struct advice_team team = advice_team(&s->advice);
    if (team.n > ADVICE_MAX || (team.say < SAY_COMPARISON && team.n > 0))
        return false;
    for (unsigned i = 0; i < team.n; i++)
        if (fabs(team.at[i].cost.sure_n) > fabs(team.at[i].cost.points_n) + 1e-12 ||
            (team.at[i].kind == ADVICE_FAULT && !faults_found(&team.at[i].fault)))
            return false;
    return true;
}

static const struct {
    const char *what;
    bool (*holds)(const struct season *s);
} rules[] = {
    {"counts of servers are those of the tally", counts_agree},
    {"kinds of misses fit into all misses", misses_fit},
    {"servers get what may be said of so many serves", servers_fit},
    {"a team gets what stands out, the surest first", team_fits},
};

enum { RULES = sizeof rules / sizeof *rules };

int main(void) {
    uint64_t broken[RULES] = {0};
    unsigned failed = 0;

    arena = arena_new(no_memory);
    for (uint64_t seed = 1; seed <= SEASONS; seed++) {
        arena_reset(arena);
        struct season s = season(seed);
        for (unsigned i = 0; i < RULES; i++)
            if (!broken[i] && !rules[i].holds(&s))
                broken[i] = seed;
    }
    for (unsigned i = 0; i < RULES; i++) {
        if (broken[i])
            printf("# broken with seed %" PRIu64 "\n", broken[i]);
        printf("%sok %u - %s\n", broken[i] ? "not " : "", i + 1, rules[i].what);
        failed += broken[i] != 0;
    }
    printf("1..%d\n", RULES);
    arena_free(arena);
    return failed != 0;
}
