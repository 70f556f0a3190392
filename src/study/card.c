/* A server's season before a match, and her card. */
#include "card.h"

#include "study/cards.h"
#include "study/entries.h"

struct cards *cards_new(const struct checked *match, struct arena *a) {
    struct cards *c = arena_alloc(a, 1, sizeof *c);
    c->arena = a;
    c->match = match;
    c->people = pool_new(POOL_SERVERS, a);
    c->progress = progress_new(a);
    c->aimed = aimed_new(a);
    progress_add(c->progress, match);
    aimed_add(c->aimed, match);
    return c;
}

/* ---- the season before ------------------------------------------------------ */

static struct card_past *past_of(struct cards *c, const struct checked *file, unsigned shirt) {
    size_t person = (size_t)pool_person(c->people, pool_key(file, OURS, shirt));
    while (c->past_n <= person) {
        c->pasts = arena_grow(c->arena, c->pasts, c->past_n, &c->past_room, sizeof *c->pasts);
        c->pasts[c->past_n++] = arena_alloc(c->arena, 1, sizeof **c->pasts);
    }
    return c->pasts[person];
}

/* Below 0 for a file before the match, above for one behind it; 0 if that can't
 * be told. */
static int order(const struct match *file, const struct match *match) {
    int day = date_order(file->date, match->date);
    if (day || !file->timed || !match->timed)
        return day;
    return (file->minute > match->minute) - (file->minute < match->minute);
}

static void add_marks(struct card_past *past, const struct played *p) {
    for (unsigned m = 0; m < MARK_N; m++) {
        struct rate *of = p->said.marks >> m & 1 ? past->with : past->without;
        if (!(p->observed & mark_phase((enum mark)m)))
            continue;
        of[m].n++;
        of[m].x += played_error(p);
    }
}

static void add_serve(struct cards *c, const struct checked *file, const struct played *p) {
    struct card_past *past = past_of(c, file, p->charged);
    if (past->in_match != c->files) {
        past->in_match = c->files;
        past->matches++;
    }
    tally_add(&past->counts, p);
    routine_add(&past->routine, file, p, c->arena);
    if (played_shows_technique(p))
        add_marks(past, p);
}

static void add_match(struct cards *c, const struct checked *file) {
    for (size_t i = 0; i < file->played_n; i++) {
        const struct played *p = &file->played[i];
        if (played_counts(p) && p->side == OURS && p->charged != SHIRT_NONE)
            add_serve(c, file, p);
    }
}

void cards_add(struct cards *c, const struct checked *file) {
    if (!file->match->occasion || order(file->match, c->match->match) > 0)
        return;
    c->files++;
    progress_add(c->progress, file);
    aimed_add(c->aimed, file);
    if (!file->match->practice && order(file->match, c->match->match) < 0)
        add_match(c, file);
}

/* ---- her misses ------------------------------------------------------------- */

static void add_margin(struct card_margin *m, int cm) {
    m->low_cm = m->n == 0 || cm < m->low_cm ? cm : m->low_cm;
    m->high_cm = m->n == 0 || cm > m->high_cm ? cm : m->high_cm;
    m->n++;
}

/* As written behind the outcome, or from the place. */
static void add_how_far(struct card_misses *m, const struct played *p) {
    const struct serve *v = &p->said;
    bool margin = v->has & HAS_MARGIN;
    if (v->outcome == OUTCOME_NET && margin)
        add_margin(&m->under, -v->margin_cm);
    if (v->outcome == OUTCOME_LONG && margin)
        add_margin(&m->past, v->margin_cm);
    else if (v->outcome == OUTCOME_LONG && v->landing.kind == PLACE_XD)
        add_margin(&m->past, v->landing.d_cm - GEO_HALF_CM);
}

static void add_miss(struct card_misses *m, const struct played *p) {
    uint32_t marks = 0;
    add_how_far(m, p);
    if (!played_shows_technique(p))
        return;
    for (unsigned k = 0; k < MARK_N; k++)
        if (p->said.marks >> k & 1 && p->observed & mark_phase((enum mark)k)) {
            m->marked[k]++;
            marks |= 1u << k;
        }
    m->observed_n += p->observed != 0;
    m->plain_n += p->observed != 0 && marks == 0;
}

/* ---- her focus -------------------------------------------------------------- */

static void find_focus(const struct cards *c, const struct person *key, struct arena *a,
                       struct card_focus *out) {
    for (size_t i = 0; i < progress_people(c->progress) && !out->chosen; i++) {
        if (!pool_same_person(progress_person(c->progress, i), key))
            continue;
        out->chosen = progress_focus(c->progress, i, &out->progress);
        if (out->chosen)
            out->drilled = progress_drilled(c->progress, i, &out->progress, a);
    }
}

static void take_focus(const struct cards *c, const struct person *key,
                       const struct card_past *past, const struct drill_book *drills,
                       struct arena *a, struct card_focus *out) {
    find_focus(c, key, a, out);
    if (!out->chosen)
        return;
    const struct word_info *w = word_info(out->progress.treats);
    out->drill = drill_find(drills, out->progress.drill);
    if (w->class != WORD_MARK || !past)
        return;
    out->with = past->with[w->value];
    out->without = past->without[w->value];
}

/* ---- the card --------------------------------------------------------------- */

static const struct card_past *find_past(const struct cards *c, const struct person *key) {
    for (size_t i = 0; i < c->past_n; i++)
        if (pool_same_person(&c->people->people[i], key))
            return c->pasts[i];
    return NULL;
}

static void take_past(const struct card_past *past, struct card *out) {
    if (!past)
        return;
    out->before = past->counts;
    out->matches_before = past->matches;
}

static void take_today(const struct checked *match, struct card *out, struct routine *routine,
                       struct arena *a) {
    for (size_t i = 0; i < match->played_n; i++) {
        const struct played *p = &match->played[i];
        if (!card_has(out, p))
            continue;
        routine_add(routine, match, p, a);
        if (played_error(p))
            add_miss(&out->misses, p);
    }
}

bool card_has(const struct card *c, const struct played *p) {
    return played_counts(p) && p->side == OURS && p->charged == c->who.shirt;
}

void card_of(const struct cards *c, const struct server *who, const struct drill_book *drills,
             struct arena *a, struct card *out) {
    struct routine *today = arena_alloc(a, 1, sizeof *today);
    const struct person key = pool_key(c->match, OURS, who->shirt);
    const struct card_past *past = find_past(c, &key);
    *out = (struct card){.who = *who};
    take_past(past, out);
    take_today(c->match, out, today, a);
    routine_take(who->player, today, past ? &past->routine : NULL, out);
    take_focus(c, &key, past, drills, a, &out->focus);
    card_take_reach(c, &key, &out->reach);
    card_take_aim(c, &key, &out->focus, a, &out->aim);
}

double card_in_as_many(struct rate r, unsigned n) {
    return r.n ? rate_frac(r) * n : 0;
}
