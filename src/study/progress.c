/* Entries of many files, kept by person and day, and her series. */
#include "progress.h"

#include <stdlib.h>

#include "slots.h"
#include "study/entries.h"

struct progress *progress_new(struct arena *a) {
    struct progress *p = arena_alloc(a, 1, sizeof *p);
    p->arena = a;
    p->people = pool_new(POOL_SERVERS, a);
    return p;
}

size_t progress_people(const struct progress *p) {
    return p->people->person_n;
}

const struct person *progress_person(const struct progress *p, size_t person) {
    return &p->people->people[person];
}

bool progress_find(const struct progress *p, struct person key, size_t *person) {
    int32_t at = pool_find(p->people, &key);
    if (at == PERSON_NONE)
        return false;
    *person = (size_t)at;
    return true;
}

/* ---- adding ---------------------------------------------------------------- */

static bool same_entry(const void *entries, uint32_t ix, const void *key) {
    const struct entry *a = (const struct entry *)entries + ix, *b = key;
    return a->person == b->person && a->kind == b->kind &&
           date_order(a->day.date, b->day.date) == 0 &&
           progress_same_series(&a->day, &b->day);
}

static uint64_t hash_entry(const struct entry *e) {
    struct date d = e->day.date;
    uint64_t day = (uint64_t)d.year << 16 | (uint64_t)d.month << 8 | (uint64_t)d.day;
    uint64_t hash = slots_hash(slots_hash((uint64_t)e->person, e->kind), day);
    return slots_hash_str(slots_hash(hash, (uint64_t)e->day.ring_cm), e->day.drill);
}

/* The entry with this key, a new one if need be: several files of one day, and
 * several lines, are added up. */
static struct entry *entry_of(struct progress *p, const struct entry *key) {
    uint64_t hash = hash_entry(key);
    uint32_t ix = slots_find(&p->slots, hash, same_entry, p->entries, key);
    if (ix != SLOTS_NONE)
        return &p->entries[ix];
    p->entries = arena_grow(p->arena, p->entries, p->entry_n, &p->entry_room, sizeof *p->entries);
    slots_add(&p->slots, hash, (uint32_t)p->entry_n, p->arena);
    struct entry *e = &p->entries[p->entry_n++];
    *e = *key;
    e->day.drill = str_copy(p->arena, key->day.drill);
    return e;
}

static int32_t person_of(struct progress *p, const struct checked *c, unsigned shirt) {
    return pool_person(p->people, pool_key(c, OURS, shirt));
}

static struct str drill_of(const struct checked *c, uint32_t drill) {
    return drill ? c->drills[drill - 1].name : STR_NONE;
}

enum progress_kind progress_kind_of(const struct tries *t) {
    return t->kind == STMT_TOSS    ? PROGRESS_TOSSES
           : t->kind == STMT_TRIES ? PROGRESS_TRIES
                                   : PROGRESS_JUMPS;
}

static void add_tries(struct progress *p, const struct checked *c, const struct tries *t) {
    const struct entry key = {
        .person = person_of(p, c, t->shirt),
        .kind = progress_kind_of(t),
        .day = {.date = c->match->date, .ring_cm = t->ring_cm, .drill = drill_of(c, t->drill)}};
    struct entry *e = entry_of(p, &key);
    e->day.hits = rate_sum(e->day.hits, (struct rate){t->hits, t->n});
}

static void add_marks(struct entry *e, const struct played *s) {
    for (unsigned m = 0; m < MARK_N; m++) {
        if (!(s->observed & mark_phase((enum mark)m)))
            continue;
        e->marked[m].n += tally_times(s);
        if (s->said.marks >> m & 1)
            e->marked[m].x += tally_times(s);
    }
}

/* Those of a practice by drill. */
static void add_serves(struct progress *p, const struct checked *c) {
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *s = &c->played[i];
        if (!played_counts(s) || s->side != OURS || s->charged == SHIRT_NONE)
            continue;
        const struct entry key = {
            .person = person_of(p, c, s->charged),
            .kind = c->match->practice ? PROGRESS_SERVES : PROGRESS_MATCHES,
            .day = {.date = c->match->date, .drill = drill_of(c, s->drill)}};
        struct entry *e = entry_of(p, &key);
        tally_add(&e->day.counts, s);
        if (played_shows_technique(s))
            add_marks(e, s);
    }
}

static void add_focus(struct progress *p, const struct checked *c, const struct focus *f) {
    p->notes = arena_grow(p->arena, p->notes, p->note_n, &p->note_room, sizeof *p->notes);
    p->notes[p->note_n++] = (struct focus_note){
        .person = person_of(p, c, f->shirt),
        .date = c->match->date,
        .minute = c->match->timed ? c->match->minute : 0,
        .treats = f->treats,
        .drill = str_copy(p->arena, f->drill),
        .goal = {f->hits, f->tries},
    };
}

void progress_add(struct progress *p, const struct checked *c) {
    if (!c->match->occasion)
        return;
    add_serves(p, c);
    for (size_t i = 0; i < c->tries_n; i++)
        if (c->tries[i].side == OURS)
            add_tries(p, c, &c->tries[i]);
    for (size_t i = 0; i < c->match->focus_n; i++)
        if (c->match->focuses[i].side == OURS)
            add_focus(p, c, &c->match->focuses[i]);
}

/* ---- series ---------------------------------------------------------------- */

void progress_date_span(struct date *first, struct date *last, struct date day) {
    if (day.year == 0)
        return;
    if (first->year == 0 || date_order(day, *first) < 0)
        *first = day;
    if (last->year == 0 || date_order(day, *last) > 0)
        *last = day;
}

bool progress_same_series(const struct progress_day *a, const struct progress_day *b) {
    return a->ring_cm == b->ring_cm && str_eq(a->drill, b->drill);
}

static int by_series(const void *left, const void *right) {
    const struct progress_day *a = left, *b = right;
    if (a->ring_cm != b->ring_cm)
        return a->ring_cm < b->ring_cm ? -1 : 1;
    int drill = str_order(a->drill, b->drill);
    return drill ? drill : date_order(a->date, b->date);
}

/* The day as its series has it: tosses go by the ring, the others by the drill. */
static struct progress_day day_of(const struct entry *e) {
    struct progress_day day = e->day;
    if (e->kind != PROGRESS_TRIES && e->kind != PROGRESS_SERVES)
        day.drill = STR_NONE;
    if (e->kind != PROGRESS_TOSSES)
        day.ring_cm = 0;
    return day;
}

void progress_join_days(struct progress_series *s) {
    struct progress_day *days = s->days;
    size_t kept = 0;
    qsort(days, s->n, sizeof *days, by_series);
    for (size_t i = 0; i < s->n; i++) {
        if (kept == 0 || by_series(&days[kept - 1], &days[i]) != 0) {
            days[kept++] = days[i];
            continue;
        }
        days[kept - 1].hits = rate_sum(days[kept - 1].hits, days[i].hits);
        tally_merge(&days[kept - 1].counts, &days[i].counts);
    }
    s->n = kept;
}

struct progress_series progress_series(const struct progress *p, size_t person,
                                       enum progress_kind kind, struct arena *a) {
    struct progress_series s = {arena_alloc(a, p->entry_n + 1, sizeof *s.days), 0};
    for (size_t i = 0; i < p->entry_n; i++) {
        const struct entry *e = &p->entries[i];
        if (e->person == (int32_t)person && e->kind == kind)
            s.days[s.n++] = day_of(e);
    }
    progress_join_days(&s);
    return s;
}
