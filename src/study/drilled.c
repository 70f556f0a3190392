/* One practice: its drills, tosses and tries beside the last time, and focuses. */
#include "drilled.h"

#include "faults.h"
#include "study/entries.h"

enum { SHIRTS = SHIRT_NONE + 1 };

/* ---- the drills ------------------------------------------------------------ */

static struct rate *counted_in(struct drilled_part *p, enum stmt_kind kind) {
    return kind == STMT_TOSS ? &p->tosses : kind == STMT_TRIES ? &p->tries : NULL;
}

static unsigned shirts_in(const bool seen[SHIRTS]) {
    unsigned n = 0;
    for (unsigned shirt = 0; shirt < SHIRT_NONE; shirt++)
        n += seen[shirt];
    return n;
}

static void add_tries(struct drilled_part *p, const struct tries *t, bool seen[SHIRTS]) {
    struct rate *sum = counted_in(p, t->kind);
    if (!sum || t->side != OURS)
        return;
    *sum = rate_sum(*sum, (struct rate){t->hits, t->n});
    seen[t->shirt] = true;
}

static void add_serve(struct drilled_part *p, const struct played *s, bool seen[SHIRTS]) {
    unsigned n = tally_times(s);
    if (!played_counts(s) || s->side != OURS)
        return;
    p->serves = rate_sum(p->serves, (struct rate){played_error(s) ? 0 : n, n});
    seen[s->server] = true;
}

static const uint32_t every_drill = UINT32_MAX;

static struct drilled_part part_of(const struct checked *c, uint32_t drill) {
    struct drilled_part p = {.drill = drill};
    bool seen[SHIRTS] = {false};
    for (size_t i = 0; i < c->tries_n; i++)
        if (drill == every_drill || c->tries[i].drill == drill)
            add_tries(&p, &c->tries[i], seen);
    for (size_t i = 0; i < c->played_n; i++)
        if (drill == every_drill || c->played[i].drill == drill)
            add_serve(&p, &c->played[i], seen);
    p.players = shirts_in(seen);
    return p;
}

struct drilled_parts drilled_parts(const struct checked *c, struct arena *a) {
    struct drilled_parts parts = {.at = arena_alloc(a, c->drill_n + 1, sizeof *parts.at),
                                  .all = part_of(c, every_drill)};
    for (uint32_t drill = 0; drill <= c->drill_n; drill++) {
        struct drilled_part p = part_of(c, drill);
        if (p.tosses.n + p.tries.n + p.serves.n > 0)
            parts.at[parts.n++] = p;
    }
    return parts;
}

/* ---- series ----------------------------------------------------------------- */

static struct str drill_name(const struct checked *c, uint32_t drill) {
    return drill ? c->drills[drill - 1].name : STR_NONE;
}

static bool same_series(const struct checked *c, const struct tries *a, const struct tries *b) {
    if (a->kind != b->kind || a->side != b->side)
        return false;
    if (a->kind == STMT_TOSS)
        return a->ring_cm == b->ring_cm;
    return a->kind == STMT_JUMPS || str_eq(drill_name(c, a->drill), drill_name(c, b->drill));
}

static bool opens(const struct checked *c, size_t i) {
    for (size_t j = 0; j < i; j++)
        if (same_series(c, &c->tries[j], &c->tries[i]))
            return false;
    return true;
}

static bool lefthanded(const struct checked *c, unsigned side, unsigned shirt) {
    const struct player *p =
        shirt == SHIRT_NONE ? NULL : team_find(&c->match->teams[side], shirt);
    return p && p->lefthanded;
}

static void add_line(const struct checked *c, struct drilled_row *row, const struct tries *t) {
    row->today = rate_sum(row->today, (struct rate){t->hits, t->n});
    for (unsigned i = 0; i < t->miss_n; i++) {
        enum mark m = (enum mark)t->misses[i].mark;
        row->misses[faults_mark_of(m, lefthanded(c, t->side, t->shirt))] += t->misses[i].n;
    }
}

/* What tells the entries of a series from others. */
struct key {
    enum progress_kind kind;
    int ring_cm;
    struct str drill;
};

static struct key key_of(const struct checked *c, const struct tries *t) {
    return (struct key){progress_kind_of(t), t->ring_cm, drill_name(c, t->drill)};
}

/* Whether the entry is of an earlier day of the series. */
static bool is_before(const struct checked *c, const struct entry *e, const struct key *k) {
    if (e->kind != k->kind || date_order(e->day.date, c->match->date) >= 0)
        return false;
    if (k->kind == PROGRESS_TOSSES)
        return e->day.ring_cm == k->ring_cm;
    return k->kind == PROGRESS_JUMPS || str_eq(e->day.drill, k->drill);
}

/* Of serves, those into the court. */
static struct rate hits_of(const struct entry *e) {
    const struct counts *n = &e->day.counts;
    return e->kind == PROGRESS_SERVES ? (struct rate){n->serves - n->missed, n->serves}
                                      : e->day.hits;
}

/* What she hit on the latest of the days before. */
static void find_last(const struct checked *c, const struct progress *p, const struct key *k,
                      struct drilled_row *row) {
    size_t person;
    if (row->shirt == SHIRT_NONE || !progress_find(p, pool_key(c, OURS, row->shirt), &person))
        return;
    for (size_t i = 0; i < p->entry_n; i++) {
        const struct entry *e = &p->entries[i];
        if (e->person != (int32_t)person || !is_before(c, e, k))
            continue;
        int order = row->last.n ? date_order(e->day.date, row->last_on) : 1;
        if (order > 0) {
            row->last = hits_of(e);
            row->last_on = e->day.date;
        } else if (order == 0) {
            row->last = rate_sum(row->last, hits_of(e));
        }
    }
}

static void add_row(struct drilled_series *s, const struct drilled_row *row) {
    s->rows[s->n++] = *row;
    s->all.today = rate_sum(s->all.today, row->today);
    s->all.last = rate_sum(s->all.last, row->last);
    for (unsigned m = 0; m < MARK_N; m++)
        s->all.misses[m] += row->misses[m];
    if (row->last.n == 0)
        return;
    if (s->before.n == 0 || date_order(row->last_on, s->from) < 0)
        s->from = row->last_on;
    if (s->before.n == 0 || date_order(row->last_on, s->to) > 0)
        s->to = row->last_on;
    s->again = rate_sum(s->again, row->today);
    s->before = rate_sum(s->before, row->last);
}

static struct drilled_series series_of(const struct checked *c, const struct progress *season,
                                       const struct tries *first, struct arena *a) {
    struct drilled_series s = {.first = first};
    struct key key = key_of(c, first);
    struct drilled_row *rows = arena_alloc(a, SHIRTS, sizeof *rows);
    for (size_t i = 0; i < c->tries_n; i++)
        if (same_series(c, &c->tries[i], first))
            add_line(c, &rows[c->tries[i].shirt], &c->tries[i]);
    s.rows = arena_alloc(a, SHIRTS, sizeof *s.rows);
    for (unsigned shirt = 0; shirt < SHIRTS; shirt++) {
        if (rows[shirt].today.n == 0)
            continue;
        rows[shirt].shirt = (uint8_t)shirt;
        if (first->side == OURS)
            find_last(c, season, &key, &rows[shirt]);
        add_row(&s, &rows[shirt]);
    }
    return s;
}

struct drilled_tries drilled_tries(const struct checked *c, const struct progress *season,
                                   struct arena *a) {
    struct drilled_tries all = {.at = arena_alloc(a, c->tries_n, sizeof *all.at)};
    for (size_t i = 0; i < c->tries_n; i++)
        if (opens(c, i))
            all.at[all.n++] = series_of(c, season, &c->tries[i], a);
    return all;
}

/* ---- serves ----------------------------------------------------------------- */

static bool is_repeated(const struct checked *c, uint32_t drill) {
    for (uint32_t i = 1; i <= c->drill_n; i++)
        if (i != drill && str_eq(drill_name(c, i), drill_name(c, drill)))
            return true;
    return false;
}

struct drilled_series drilled_serves(const struct checked *c, const struct progress *season,
                                     uint32_t drill, struct arena *a) {
    struct drilled_series s = {.rows = arena_alloc(a, SHIRTS, sizeof *s.rows)};
    struct drilled_row *rows = arena_alloc(a, SHIRTS, sizeof *rows);
    struct key key = {.kind = PROGRESS_SERVES, .drill = drill_name(c, drill)};
    bool repeated = is_repeated(c, drill);
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        unsigned n = tally_times(p);
        if (played_counts(p) && p->side == OURS && p->drill == drill)
            rows[p->server].today = rate_sum(rows[p->server].today,
                                             (struct rate){played_error(p) ? 0 : n, n});
    }
    for (unsigned shirt = 0; shirt < SHIRTS; shirt++) {
        if (rows[shirt].today.n == 0)
            continue;
        rows[shirt].shirt = (uint8_t)shirt;
        if (!repeated)
            find_last(c, season, &key, &rows[shirt]);
        add_row(&s, &rows[shirt]);
    }
    return s;
}

bool drilled_misses(const struct drilled_row *r) {
    for (unsigned m = 0; m < MARK_N; m++)
        if (r->misses[m] > 0)
            return true;
    return false;
}

/* ---- marks ------------------------------------------------------------------ */

/* Serves that show what is looked for. */
static bool shows(const struct played *p, uint32_t drill, unsigned phases) {
    return played_counts(p) && played_shows_technique(p) && p->side == OURS &&
           p->drill == drill && (p->observed & phases);
}

static struct drilled_seen mark_in(const struct checked *c, uint32_t drill, enum mark m,
                                   struct arena *a) {
    struct drilled_seen s = {drill, m, {0, 0}, arena_alloc(a, SHIRTS, sizeof *s.by)};
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!shows(p, drill, mark_phase(m)))
            continue;
        enum mark written = faults_mark_of(m, lefthanded(c, OURS, p->server));
        s.seen.n += tally_times(p);
        if (!(p->said.marks >> written & 1))
            continue;
        s.seen.x += tally_times(p);
        s.by[p->server] += tally_times(p);
    }
    return s;
}

static unsigned observed_in(const struct checked *c, uint32_t drill) {
    unsigned n = 0;
    for (size_t i = 0; i < c->played_n; i++)
        if (shows(&c->played[i], drill, PHASE_ALL))
            n += tally_times(&c->played[i]);
    return n;
}

static void add_drill(const struct checked *c, uint32_t drill, struct drilled_marks *all,
                      struct arena *a) {
    unsigned observed_n = observed_in(c, drill);
    size_t first = all->n;
    for (unsigned m = 0; m < MARK_N && observed_n > 0; m++) {
        struct drilled_seen s = mark_in(c, drill, (enum mark)m, a);
        if (s.seen.x > 0)
            all->at[all->n++] = s;
    }
    if (observed_n > 0 && all->n == first)
        all->at[all->n++] = (struct drilled_seen){drill, MARK_N, {0, observed_n}, NULL};
}

struct drilled_marks drilled_marks(const struct checked *c, struct arena *a) {
    struct drilled_marks all = {.at = arena_alloc(a, (c->drill_n + 1) * MARK_N, sizeof *all.at)};
    for (uint32_t drill = 0; drill <= c->drill_n; drill++)
        add_drill(c, drill, &all, a);
    return all;
}

/* ---- the focus -------------------------------------------------------------- */

static struct rate drilled_today(const struct checked *c, unsigned shirt, struct str drill) {
    struct rate sum = {0, 0};
    for (size_t i = 0; i < c->tries_n; i++) {
        const struct tries *t = &c->tries[i];
        if (t->side == OURS && t->shirt == shirt && t->kind != STMT_JUMPS &&
            str_same(drill_name(c, t->drill), drill))
            sum = rate_sum(sum, (struct rate){t->hits, t->n});
    }
    return sum;
}

struct drilled_focuses drilled_focuses(const struct checked *c, const struct progress *season,
                                       struct arena *a) {
    const struct team *team = &c->match->teams[OURS];
    struct drilled_focuses all = {.at = arena_alloc(a, team->player_n, sizeof *all.at)};
    for (unsigned shirt = 0; shirt <= SHIRT_MAX; shirt++) {
        struct drilled_focus f = {.who = team_find(team, shirt)};
        size_t person;
        if (!f.who || !progress_find(season, pool_key(c, OURS, shirt), &person) ||
            !progress_focus(season, person, &f.focus))
            continue;
        f.today = drilled_today(c, shirt, f.focus.drill);
        all.at[all.n++] = f;
    }
    return all;
}
