/* Which counts moved from one state of a file to another. */
#include "cmd/diff.h"

unsigned diff_count(const struct counts *c, enum diff_count which) {
    const unsigned counts[DIFF_COUNTS] = {[DIFF_SERVES] = c->serves,
                                          [DIFF_ACES] = c->by[OUTCOME_ACE],
                                          [DIFF_ERRORS] = c->missed,
                                          [DIFF_WON] = c->won};

    return counts[which];
}

const char *diff_count_name(enum diff_count which) {
    static const char *const names[DIFF_COUNTS] = {[DIFF_SERVES] = "serves",
                                                   [DIFF_ACES] = "aces",
                                                   [DIFF_ERRORS] = "errors",
                                                   [DIFF_WON] = "won"};

    return names[which];
}

static bool has_moved(const struct diff_tally *t) {
    for (unsigned i = 0; i < DIFF_COUNTS; i++)
        if (diff_count(&t->of[BEFORE], i) != diff_count(&t->of[AFTER], i))
            return true;
    return false;
}

static void add(struct diff *d, const struct diff_tally *t) {
    if (!has_moved(t))
        return;
    d->tallies = arena_grow(d->arena, d->tallies, d->tally_n, &d->tally_room, sizeof *d->tallies);
    d->tallies[d->tally_n++] = *t;
}

static const struct server *server_of(const struct tally *t, enum side side, uint8_t shirt) {
    for (size_t i = 0; i < t->server_n[side]; i++)
        if (t->servers[side][i].shirt == shirt)
            return &t->servers[side][i];
    return NULL;
}

/* One server in both states; false if neither has her. */
static bool tally_server(const struct diff *d, enum side side, uint8_t shirt,
                         struct diff_tally *out) {
    bool any = false;

    *out = (struct diff_tally){.side = side, .shirt = shirt};
    for (unsigned i = 0; i < STATES; i++) {
        const struct server *s = server_of(d->state[i].tally, side, shirt);

        if (!s)
            continue;
        out->of[i] = s->counts;
        out->player = s->player;
        any = true;
    }
    return any;
}

static void side_tallies(struct diff *d, enum side side) {
    struct diff_tally t = {.side = side, .all = true, .shirt = SHIRT_NONE};

    for (unsigned i = 0; i < STATES; i++)
        t.of[i] = d->state[i].tally->side[side];
    add(d, &t);
    for (unsigned shirt = 0; shirt <= SHIRT_MAX + 1; shirt++)
        if (tally_server(d, side, shirt > SHIRT_MAX ? SHIRT_NONE : (uint8_t)shirt, &t))
            add(d, &t);
}

void diff_tallies(struct diff *d) {
    for (unsigned i = 0; i < STATES; i++)
        if (!d->state[i].tally)
            return;
    for (unsigned side = 0; side < SIDE_N; side++)
        side_tallies(d, (enum side)side);
}

const struct played *diff_played(const struct diff_state *s, const struct noted_line *l) {
    const struct checked *c = s->checked;
    size_t low = 0, high = c ? c->played_n : 0;

    while (low < high) {
        size_t middle = low + (high - low) / 2;

        if (c->played[middle].line < l->number)
            low = middle + 1;
        else
            high = middle;
    }
    return c && low < c->played_n && c->played[low].line == l->number ? &c->played[low] : NULL;
}

const struct player *diff_player(const struct diff_state *s, const struct played *p) {
    const struct match *m = s->checked->match;

    if (p->side >= m->team_n || p->server == SHIRT_NONE)
        return NULL;
    return team_find(&m->teams[p->side], p->server);
}
