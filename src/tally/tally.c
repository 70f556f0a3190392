/* One pass over the serves, into every cut that the pages show. */
#include "tally.h"

#include <stdlib.h>

enum { LATE_POINTS = 5 }; /* before the end of a set; our own choice */

enum outcome tally_outcome(const struct played *p) {
    return played_ace(p) ? OUTCOME_ACE : (enum outcome)p->said.outcome;
}

unsigned tally_times(const struct played *p) {
    return p->said.has & HAS_REPEAT ? p->said.repeat : 1;
}

bool tally_is_error(enum outcome o) {
    return o >= OUTCOME_NET && o <= OUTCOME_SCREEN;
}

/* Products, since no processor could guess these branches ahead. With an overlap that makes it an ace, an error is under OUTCOME_ACE already. */
void tally_count(struct counts *c, enum outcome o, enum rally won, unsigned n) {
    c->serves += n;
    c->by[o] += n;
    c->broke += n * (o == OUTCOME_ACE || o == OUTCOME_OVER || o == OUTCOME_IN1);
    c->missed += n * tally_is_error(o);
    c->won += n * (won == RALLY_WON);
    c->decided += n * (won != RALLY_NONE);
}

void tally_add(struct counts *c, const struct played *p) {
    if (played_counts(p))
        tally_count(c, tally_outcome(p), (enum rally)p->won, tally_times(p));
}

void tally_merge(struct counts *c, const struct counts *more) {
    c->serves += more->serves;
    for (unsigned i = 0; i < OUTCOME_N; i++)
        c->by[i] += more->by[i];
    c->broke += more->broke;
    c->missed += more->missed;
    c->won += more->won;
    c->decided += more->decided;
}

unsigned tally_in_court(const struct counts *c) {
    return c->serves - c->missed;
}

enum third tally_third(const struct played *p) {
    return (enum third)p->third;
}

enum known tally_known(const struct played *p) {
    if (tally_outcome(p) == OUTCOME_FOOT) {
        if (p->said.has & HAS_START_P)
            return KNOWN_PLACE;
        return tally_third(p) == THIRD_NONE ? KNOWN_NOT : KNOWN_ZONE;
    }
    if (p->said.landing.kind == PLACE_XD)
        return KNOWN_PLACE;
    return p->said.landing.kind ? KNOWN_ZONE : KNOWN_NOT;
}

bool tally_decides(const struct checked *c, unsigned set) {
    return set >= 1 && set <= c->set_n &&
           c->sets[set - 1].number == 2 * c->match->profile.sets_to_win - 1;
}

unsigned tally_late_from(const struct profile *rules, bool decider) {
    unsigned goal = decider ? rules->decider_points : rules->set_points;
    return goal > LATE_POINTS ? goal - LATE_POINTS : 0;
}

static bool is_late(const struct checked *c, const struct played *p) {
    unsigned from = tally_late_from(&c->match->profile, tally_decides(c, p->set));
    return p->before[OURS] >= from || p->before[THEIRS] >= from;
}

bool tally_situation(const struct checked *c, const struct played *p, enum situation s) {
    if (c->match->practice)
        return false;
    switch (s) {
    case SITUATION_COLD:
        return p->cold;
    case SITUATION_TIMEOUT:
        return p->after_timeout;
    case SITUATION_FIRST:
        return p->turn_serve == 1;
    case SITUATION_LATE:
        return p->score_known && is_late(c, p);
    case SITUATION_SET_POINT:
        return p->set_point != 0;
    case SITUATION_N:
        break;
    }
    return false;
}

static unsigned zone_row(const struct played *p) {
    unsigned kind = p->said.landing.kind;
    if (kind == PLACE_SEAM || kind == PLACE_DEEP_SEAM)
        return ZONE_SEAM;
    return kind ? spot_zone(p->said.landing) : ZONE_UNKNOWN;
}

/* The server's row, a new one if need be: a side has at most a hundred. */
static struct server *row_of(struct tally *t, enum side s, unsigned shirt, size_t *room,
                             struct arena *a) {
    for (size_t i = 0; i < t->server_n[s]; i++)
        if (t->servers[s][i].shirt == shirt)
            return &t->servers[s][i];
    t->servers[s] = arena_grow(a, t->servers[s], t->server_n[s], room, sizeof *t->servers[s]);
    struct server *row = &t->servers[s][t->server_n[s]++];
    *row = (struct server){.shirt = (uint8_t)shirt};
    if (shirt != SHIRT_NONE)
        row->player = team_find(&t->checked->match->teams[s], shirt);
    return row;
}

static void add_ours(struct tally *t, const struct played *p) {
    for (unsigned s = 0; s < SITUATION_N; s++)
        if (tally_situation(t->checked, p, (enum situation)s))
            tally_add(&t->situation[s], p);
    if (!played_error(p))
        tally_add(&t->in_zone[zone_row(p)], p);
    tally_add(&t->from_third[tally_third(p)], p);
}

static void add(struct tally *t, const struct played *p, size_t room[], struct arena *a) {
    enum side s = (enum side)p->side;
    tally_add(&t->side[s], p);
    if (p->set >= 1 && p->set <= SETS_MAX)
        tally_add(&t->set[p->set - 1][s], p);
    t->known[s][tally_known(p)] += tally_times(p);
    struct server *row = row_of(t, s, p->charged, &room[s], a);
    tally_add(&row->counts, p);
    row->known[tally_known(p)] += tally_times(p);
    if (s == OURS)
        add_ours(t, p);
}

/* Rows rank nobody: who served most comes first, equal ones by shirt. The
 * serves whose shirt was not seen come last. */
static int by_serves(const void *left, const void *right) {
    const struct server *a = left, *b = right;
    if ((a->shirt == SHIRT_NONE) != (b->shirt == SHIRT_NONE))
        return a->shirt == SHIRT_NONE ? 1 : -1;
    if (a->counts.serves != b->counts.serves)
        return a->counts.serves > b->counts.serves ? -1 : 1;
    return a->shirt < b->shirt ? -1 : a->shirt > b->shirt;
}

const struct tally *tally_of(const struct checked *c, struct arena *a) {
    struct tally *t = arena_alloc(a, 1, sizeof *t);
    size_t room[SIDE_N] = {0};
    t->checked = c;
    for (size_t i = 0; i < c->played_n; i++)
        if (played_counts(&c->played[i]) && c->played[i].side < SIDE_N)
            add(t, &c->played[i], room, a);
    for (unsigned s = 0; s < SIDE_N; s++)
        if (t->server_n[s] > 1)
            qsort(t->servers[s], t->server_n[s], sizeof *t->servers[s], by_serves);
    return t;
}
