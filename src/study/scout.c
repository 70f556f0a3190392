/* Receivers by shirt and by place, over many files. */
#include "scout.h"

#include <stdlib.h>

#include "geometry.h"
#include "pool.h"
#include "progress.h"

enum { SEAM_HALF_CM = 50 };

static enum scout_place zone_place(unsigned zone) {
    switch (zone) {
    case 5:
        return SCOUT_5;
    case 6:
        return SCOUT_6;
    case 1:
        return SCOUT_1;
    }
    return zone ? SCOUT_FRONT : SCOUT_NOT_WRITTEN;
}

static enum scout_place seam_place(unsigned zone, unsigned other) {
    enum scout_place a = zone_place(zone), b = zone_place(other);

    if ((a == SCOUT_5 && b == SCOUT_6) || (a == SCOUT_6 && b == SCOUT_5))
        return SCOUT_SEAM_56;
    if ((a == SCOUT_1 && b == SCOUT_6) || (a == SCOUT_6 && b == SCOUT_1))
        return SCOUT_SEAM_16;
    return SCOUT_FRONT;
}

static enum scout_place metre_place(struct spot s) {
    enum scout_place zone = zone_place(spot_zone(s));

    if (zone == SCOUT_FRONT)
        return zone;
    if (abs(s.x_cm - GEO_THIRD_CM) <= SEAM_HALF_CM)
        return SCOUT_SEAM_56;
    if (abs(s.x_cm - 2 * GEO_THIRD_CM) <= SEAM_HALF_CM)
        return SCOUT_SEAM_16;
    return zone;
}

enum scout_place scout_place(struct spot s) {
    switch (s.kind) {
    case PLACE_XD:
        return metre_place(s);
    case PLACE_SEAM:
    case PLACE_DEEP_SEAM:
        return seam_place(s.zone, s.seam);
    }
    return zone_place(s.zone);
}

bool scout_reached(const struct played *p) {
    return played_counts(p) && !played_error(p);
}

struct scout *scout_new(struct str team, struct arena *a) {
    struct scout *s = arena_alloc(a, 1, sizeof *s);

    s->arena = a;
    s->team = str_copy(a, team);
    return s;
}

static void add_server(struct scout *s, struct str team) {
    for (size_t i = 0; i < s->server_n; i++)
        if (str_eq(s->servers[i], team))
            return;
    s->servers = arena_grow(s->arena, s->servers, s->server_n, &s->server_room,
                            sizeof *s->servers);
    s->servers[s->server_n++] = str_copy(s->arena, team);
}

static void add_ball(struct scout *s, const struct played *p) {
    enum scout_place at = scout_place(p->said.landing);

    tally_add(&s->all, p);
    tally_add(&s->at[at], p);
    if (p->said.by > SHIRT_MAX) {
        tally_add(&s->no_shirt, p);
        return;
    }
    tally_add(&s->of_shirt[p->said.by], p);
    s->played[at][p->said.by]++;
}

/* Plans are those of the team that stands first; of two matches on one day the
 * one read last counts as the later. */
static void add_plans(struct scout *s, const struct checked *c) {
    if (c->plan_n == 0 ||
        (s->plan_n > 0 && date_order(c->match->date, s->planned_on) < 0))
        return;
    s->plans = scout_plans(c, &s->plan_n, s->arena);
    s->planned_on = c->match->date;
}

void scout_add(struct scout *s, const struct checked *c, enum side receives) {
    enum side serves = receives == OURS ? THEIRS : OURS;

    s->matches++;
    progress_date_span(&s->first, &s->last, c->match->date);
    add_server(s, pool_key(c, serves, SHIRT_NONE).team);
    for (size_t i = 0; i < c->played_n; i++)
        if (c->played[i].side == serves && scout_reached(&c->played[i]))
            add_ball(s, &c->played[i]);
    if (receives == THEIRS)
        add_plans(s, c);
}

static int most_balls(const void *left, const void *right) {
    const struct scout_receiver *a = left, *b = right;

    if (a->counts.serves != b->counts.serves)
        return a->counts.serves > b->counts.serves ? -1 : 1;
    return a->shirt < b->shirt ? -1 : a->shirt > b->shirt;
}

size_t scout_receivers(const struct scout *s, struct scout_receiver out[SHIRT_MAX + 1]) {
    size_t n = 0;

    for (unsigned shirt = 0; shirt <= SHIRT_MAX; shirt++)
        if (s->of_shirt[shirt].serves)
            out[n++] = (struct scout_receiver){shirt, s->of_shirt[shirt]};
    qsort(out, n, sizeof *out, most_balls);
    return n;
}

size_t scout_stands(const struct scout *s, enum scout_place where,
                    struct scout_receiver out[SHIRT_MAX + 1]) {
    size_t n = 0;

    for (unsigned shirt = 0; shirt <= SHIRT_MAX; shirt++)
        if (s->played[where][shirt])
            out[n++] = (struct scout_receiver){shirt, {.serves = s->played[where][shirt]}};
    qsort(out, n, sizeof *out, most_balls);
    return n;
}
