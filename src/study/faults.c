/* Marks and misses of many matches, by server. */
#include "faults.h"

#include <math.h>
#include <stdlib.h>

struct faults *faults_new(struct arena *a) {
    struct faults *f = arena_alloc(a, 1, sizeof *f);
    f->arena = a;
    f->people = pool_new(true, a);
    return f;
}

/* ---- counting -------------------------------------------------------------- */

enum mark faults_mark_of(enum mark m, bool lefthanded) {
    if (lefthanded && m == MARK_tl)
        return MARK_tr;
    if (lefthanded && m == MARK_tr)
        return MARK_tl;
    return m;
}

/* FAULTS_MISSES for anything else. */
static enum faults_miss miss_of(const struct played *p, bool lefthanded) {
    if (!played_error(p))
        return FAULTS_MISSES;
    if (p->said.outcome == OUTCOME_NET)
        return FAULTS_NET;
    if (p->said.outcome == OUTCOME_LONG)
        return FAULTS_LONG;
    if (p->said.outcome == OUTCOME_FOOT)
        return FAULTS_FOOT;
    if (p->said.outcome == OUTCOME_LEFT)
        return lefthanded ? FAULTS_ARM_SIDE : FAULTS_ACROSS;
    if (p->said.outcome == OUTCOME_RIGHT)
        return lefthanded ? FAULTS_ACROSS : FAULTS_ARM_SIDE;
    return FAULTS_MISSES;
}

/* Her row, a new one if need be. */
static struct faults_server *row_of(struct faults *f, const struct checked *c, unsigned shirt) {
    const struct player *player = team_find(&c->match->teams[OURS], shirt);
    size_t i = (size_t)pool_person(f->people, pool_key(c, OURS, shirt));
    if (i == f->server_n) {
        f->servers = arena_grow(f->arena, f->servers, i, &f->server_room, sizeof *f->servers);
        f->servers[f->server_n++] = (struct faults_server){.shirt = (uint8_t)shirt};
    }
    f->servers[i].name = f->people->people[i].name;
    f->servers[i].shirt = f->people->people[i].shirt;
    f->servers[i].lefthanded = player && player->lefthanded;
    return &f->servers[i];
}

static void add_marks(struct faults_server *s, const struct played *p, enum faults_miss miss) {
    for (unsigned m = 0; m < MARK_N; m++) {
        struct faults_seen *seen = &s->seen[faults_mark_of((enum mark)m, s->lefthanded)];
        bool with = p->said.marks >> m & 1;
        if (!(p->observed & mark_phase((enum mark)m)))
            continue;
        *(with ? &seen->with_n : &seen->without_n) += 1;
        (with ? seen->with : seen->without)[FAULTS_ANY] += played_error(p);
        if (miss != FAULTS_MISSES)
            (with ? seen->with : seen->without)[miss]++;
    }
}

static void add_to_server(struct faults *f, const struct checked *c, const struct played *p) {
    struct faults_server *s = row_of(f, c, p->charged);
    enum faults_miss miss = miss_of(p, s->lefthanded);
    struct rate *won = &s->won[tally_outcome(p)];
    won->x += p->won == RALLY_WON;
    won->n += p->won != RALLY_NONE;
    tally_add(&s->counts, p);
    s->type_n[p->type]++;
    if (p->said.intent != INTENT_SAFE)
        tally_add(&s->of_type[p->type], p);
    if (miss != FAULTS_MISSES)
        s->missed[miss]++;
    if (played_shows_technique(p))
        add_marks(s, p, miss);
}

static void add_ours(struct faults *f, const struct checked *c, const struct played *p) {
    for (unsigned s = 0; s < SITUATION_N; s++)
        if (tally_situation(c, p, (enum situation)s))
            tally_add(&f->situation[s], p);
    if (p->charged != SHIRT_NONE)
        add_to_server(f, c, p);
}

void faults_add(struct faults *f, const struct checked *c) {
    if (!c->match->occasion)
        return;
    for (size_t i = 0; i < c->match->focus_n; i++)
        if (c->match->focuses[i].side == OURS)
            row_of(f, c, c->match->focuses[i].shirt);
    if (c->match->practice)
        return;
    f->matches++;
    f->sets += c->set_n;
    f->rules = c->match->profile;
    f->incomplete |= c->incomplete;
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!played_counts(p))
            continue;
        tally_add(&f->side[p->side], p);
        if (p->side == OURS)
            add_ours(f, c, p);
    }
}

static int by_serves(const void *left, const void *right) {
    const struct faults_server *a = left, *b = right;
    if (a->counts.serves != b->counts.serves)
        return a->counts.serves > b->counts.serves ? -1 : 1;
    return a->shirt != b->shirt ? a->shirt - b->shirt : str_order(a->name, b->name);
}

void faults_settle(struct faults *f) {
    for (size_t i = 0; i < f->server_n; i++)
        f->servers[i].person = &f->people->people[i];
    if (f->server_n > 0)
        qsort(f->servers, f->server_n, sizeof *f->servers, by_serves);
}

struct twoway faults_table(const struct faults_server *s, enum mark m, enum faults_miss k) {
    const struct faults_seen *seen = &s->seen[m];
    return twoway_of((struct rate){seen->with[k], seen->with_n},
                     (struct rate){seen->without[k], seen->without_n});
}

enum serve_type faults_type(const struct faults_server *s) {
    unsigned most = TYPE_NONE;
    for (unsigned t = TYPE_NONE + 1; t <= TYPE_UNDERHAND; t++)
        if (s->type_n[t] > (most ? s->type_n[most] : 0))
            most = t;
    return (enum serve_type)most;
}

/* ---- tests ----------------------------------------------------------------- */

static bool may_test(struct twoway t) {
    return rate_may_say(t.a + t.b + t.c + t.d) >= SAY_SEASON && twoway_may_test(t);
}

static bool test_server(const struct faults *f, struct faults_test *t) {
    t->table = faults_table(&f->servers[t->server], t->mark, t->miss);
    if (!may_test(t->table))
        return false;
    t->risk = twoway_risk(t->table);
    t->p = twoway_exact(t->table).two_sided_mid;
    return true;
}

/* The risk ratio of Mantel and Haenszel with the interval of S. Greenland, J. M.
 * Robins, Biometrics 41 (1985) 55-68 (from memory). False where either side has
 * no miss at all. */
static bool team_risk(const struct twoway *tables, size_t n, struct twoway_risk *out) {
    double with = 0, without = 0, spread = 0;
    for (size_t i = 0; i < n; i++) {
        double n1 = tables[i].a + tables[i].b, n0 = tables[i].c + tables[i].d, all = n1 + n0;
        if (all == 0)
            continue;
        with += tables[i].a * n0 / all;
        without += tables[i].c * n1 / all;
        spread += ((double)tables[i].a + tables[i].c) * n1 * n0 / (all * all) -
                  (double)tables[i].a * tables[i].c / all;
    }
    if (with == 0 || without == 0)
        return false;
    double ratio = with / without, half = RATE_Z * sqrt(spread / (with * without));
    *out = (struct twoway_risk){true, ratio, ratio * exp(-half), ratio * exp(half)};
    return true;
}

static void add_table(struct twoway *sum, struct twoway t) {
    sum->a += t.a;
    sum->b += t.b;
    sum->c += t.c;
    sum->d += t.d;
}

/* The tables of all servers, and the sum of those that compare anything: only
 * they weigh in the test. How many do. */
static size_t team_tables(const struct faults *f, struct faults_test *t, struct twoway *tables) {
    size_t compared = 0;
    for (size_t i = 0; i < f->server_n; i++) {
        tables[i] = faults_table(&f->servers[i], t->mark, t->miss);
        if (!twoway_compares(tables[i]))
            continue;
        compared++;
        add_table(&t->table, tables[i]);
    }
    return compared;
}

/* Only where at least two servers can be compared with themselves. */
static bool test_team(const struct faults *f, struct faults_test *t, struct twoway *tables) {
    struct twoway_pooled pooled;
    if (team_tables(f, t, tables) < 2 || !may_test(t->table) ||
        !twoway_pool(tables, f->server_n, &pooled))
        return false;
    t->p = pooled.p;
    return team_risk(tables, f->server_n, &t->risk);
}

static void test_all(const struct faults *f, size_t server, struct twoway *tables,
                     struct faults_tests *out) {
    for (unsigned m = 0; m < MARK_N; m++)
        for (unsigned k = 0; k < FAULTS_MISSES; k++) {
            struct faults_test t = {
                .server = server, .mark = (enum mark)m, .miss = (enum faults_miss)k};
            if (server == FAULTS_TEAM ? test_team(f, &t, tables) : test_server(f, &t))
                out->at[out->n++] = t;
        }
}

static void adjust(struct faults_tests *tests, struct arena *a) {
    double *p = arena_alloc(a, tests->n + 1, sizeof *p);
    double *adjusted = arena_alloc(a, tests->n + 1, sizeof *adjusted);
    for (size_t i = 0; i < tests->n; i++)
        p[i] = tests->at[i].p;
    twoway_adjust(p, tests->n, adjusted, a);
    for (size_t i = 0; i < tests->n; i++)
        tests->at[i].adjusted = adjusted[i];
}

struct faults_tests faults_tests(const struct faults *f, struct arena *a) {
    size_t most = (f->server_n + 1) * MARK_N * FAULTS_MISSES;
    struct faults_tests out = {arena_alloc(a, most, sizeof *out.at), 0};
    struct twoway *tables = arena_alloc(a, f->server_n + 1, sizeof *tables);
    for (size_t i = 0; i < f->server_n; i++)
        test_all(f, i, tables, &out);
    test_all(f, FAULTS_TEAM, tables, &out);
    adjust(&out, a);
    return out;
}

bool faults_found(const struct faults_test *t) {
    return t->adjusted <= TWOWAY_FINDING_P && (!t->risk.bounded || t->risk.ratio > 1);
}

/* ---- marks of few serves ---------------------------------------------------- */

static struct twoway of_all(const struct faults *f, enum mark m) {
    struct twoway sum = {0};
    for (size_t i = 0; i < f->server_n; i++)
        add_table(&sum, faults_table(&f->servers[i], m, FAULTS_ANY));
    return sum;
}

static bool row_risk(const struct faults *f, struct faults_row *row, struct twoway *tables) {
    struct faults_test of_compared = {.mark = row->mark, .miss = FAULTS_ANY};
    if (!twoway_may_test(row->table))
        return false;
    size_t compared = team_tables(f, &of_compared, tables);
    if (compared > 1 && team_risk(tables, f->server_n, &row->risk))
        return true;
    if (compared > 0)
        row->risk = twoway_risk(of_compared.table);
    return compared > 0;
}

static int by_seen(const void *left, const void *right) {
    const struct faults_row *a = left, *b = right;
    unsigned seen_a = twoway_with(a->table).n, seen_b = twoway_with(b->table).n;
    if (seen_a != seen_b)
        return seen_a > seen_b ? -1 : 1;
    return (int)a->mark - (int)b->mark;
}

unsigned faults_rows(const struct faults *f, struct faults_row out[MARK_N], struct arena *a) {
    struct twoway *tables = arena_alloc(a, f->server_n + 1, sizeof *tables);
    unsigned n = 0;
    for (unsigned m = 0; m < MARK_N; m++) {
        struct faults_row row = {.mark = (enum mark)m, .table = of_all(f, (enum mark)m)};
        if (twoway_with(row.table).n == 0)
            continue;
        row.has_risk = row_risk(f, &row, tables);
        out[n++] = row;
    }
    qsort(out, n, sizeof *out, by_seen);
    return n;
}
