/* The season of each server as the bench asks for it. */
#include "bench.h"

#include <math.h>
#include <stdlib.h>

#include "progress.h"
#include "worth.h"

struct bench *bench_new(struct str team, struct arena *a) {
    struct bench *b = arena_alloc(a, 1, sizeof *b);

    b->arena = a;
    b->team = str_copy(a, team);
    b->people = pool_new(true, a);
    return b;
}

static struct bench_server *server_of(struct bench *b, struct person who) {
    size_t i = (size_t)pool_person(b->people, who);

    if (i < b->server_n)
        return &b->servers[i];
    b->servers = arena_grow(b->arena, b->servers, b->server_n, &b->server_room,
                            sizeof *b->servers);
    b->servers[b->server_n] = (struct bench_server){.who = who};
    return &b->servers[b->server_n++];
}

static void add_serve(struct bench *b, struct bench_server *s, const struct played *p) {
    tally_add(&s->all, p);
    s->type_n[p->type]++;
    if (p->said.intent == INTENT_SAFE)
        tally_add(&b->safe, p);
    if (p->said.intent == INTENT_GO) {
        tally_add(&s->go, p);
        tally_add(&b->go[p->type], p);
        s->go_type_n[p->type]++;
    }
    if (p->cold) {
        s->cold.n++;
        s->cold.x += played_error(p);
    }
}

/* Points of the turn that begins with this serve: false when the winner of one of
 * its rallies is not known. */
static bool turn_points(const struct checked *c, size_t at, unsigned *points) {
    unsigned set = c->played[at].set;

    *points = 0;
    for (size_t i = at; i < c->played_n && c->played[i].set == set; i++) {
        const struct played *p = &c->played[i];

        if (!played_counts(p))
            continue;
        if (p->side != OURS || (i > at && p->turn_serve == 1))
            return true;
        if (p->won == RALLY_NONE)
            return false;
        *points += p->won == RALLY_WON;
    }
    return true;
}

static void add_turn(struct bench_server *s, const struct checked *c, size_t at) {
    unsigned points;

    if (c->played[at].turn_serve != 1 || !turn_points(c, at, &points))
        return;
    s->turns.x += points;
    s->turns.n++;
}

void bench_add(struct bench *b, const struct checked *c) {
    if (!c->match->occasion || c->match->practice)
        return;
    b->matches++;
    progress_date_span(&b->first, &b->last, c->match->date);
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];

        if (p->side != OURS || !played_counts(p))
            continue;
        struct bench_server *s = server_of(b, pool_key(c, OURS, p->charged));
        add_serve(b, s, p);
        add_turn(s, c, i);
    }
}

static int by_shirt(const void *left, const void *right) {
    const struct bench_server *a = left, *b = right;

    if (a->who.shirt != b->who.shirt)
        return a->who.shirt < b->who.shirt ? -1 : 1;
    return str_order(a->who.name, b->who.name);
}

void bench_settle(struct bench *b) {
    for (size_t i = 0; i < b->server_n; i++)
        b->servers[i].who = b->people->people[i];
    if (b->server_n > 1)
        qsort(b->servers, b->server_n, sizeof *b->servers, by_shirt);
}

static enum serve_type most(const unsigned n[BENCH_TYPES]) {
    unsigned best = TYPE_NONE;

    for (unsigned t = TYPE_NONE + 1; t < BENCH_TYPES; t++)
        if (n[t] > (best ? n[best] : 0))
            best = t;
    return (enum serve_type)best;
}

enum serve_type bench_type(const struct bench_server *s) {
    return most(s->type_n);
}

enum serve_type bench_go_type(const struct bench_server *s) {
    return most(s->go_type_n);
}

struct bench_go bench_go(const struct bench *b, enum serve_type type) {
    const struct counts *go = &b->go[type], *safe = &b->safe;
    struct bench_go out = {.won = {go->won, go->decided}, .safe_won = {safe->won, safe->decided}};
    struct interval difference;
    double in_play = (double)go->decided - go->missed, may;

    if (rate_may_say(go->decided) < SAY_COMPARISON || rate_may_say(safe->decided) < SAY_COMPARISON ||
        in_play <= 0)
        return out;
    rate_difference(out.won, out.safe_won, &difference);
    out.told_apart = difference.low > 0 || difference.high < 0;
    out.pays = go->won > 0 && worth_break_even(rate_frac(out.safe_won), go->won / in_play, &may)
                   ? BENCH_PAYS
                   : BENCH_NEVER;
    /* A share that is a whole number of twenty may lie just below it. */
    if (out.pays == BENCH_PAYS)
        out.may_miss = (unsigned)floor(BENCH_IN * may + 1e-9);
    return out;
}
