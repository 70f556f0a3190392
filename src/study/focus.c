/* Before and after the day on which a focus was written down. */
#include "progress.h"

#include "study/entries.h"

/* ---- which focus, and since when ------------------------------------------- */

static bool same_focus(const struct focus_note *a, const struct focus_note *b) {
    return a->treats == b->treats && str_same(a->drill, b->drill);
}

static bool is_later(const struct focus_note *a, const struct focus_note *b) {
    int day = date_order(a->date, b->date);
    return day > 0 || (day == 0 && a->minute > b->minute);
}

/* Her latest note. */
static const struct focus_note *latest(const struct progress *p, size_t person) {
    const struct focus_note *found = NULL;
    for (size_t i = 0; i < p->note_n; i++) {
        const struct focus_note *note = &p->notes[i];
        if (note->person == (int32_t)person && (!found || is_later(note, found)))
            found = note;
    }
    return found;
}

/* The day of her last note that has another focus; NULL if there is none. */
static const struct date *other_before(const struct progress *p, const struct focus_note *now) {
    const struct date *found = NULL;
    for (size_t i = 0; i < p->note_n; i++) {
        const struct focus_note *note = &p->notes[i];
        if (note->person == now->person && !same_focus(note, now) &&
            (!found || date_order(note->date, *found) > 0))
            found = &note->date;
    }
    return found;
}

/* The first day with this focus and no other one behind it. */
static struct date since(const struct progress *p, const struct focus_note *now) {
    const struct date *other = other_before(p, now);
    struct date first = now->date;
    for (size_t i = 0; i < p->note_n; i++) {
        const struct focus_note *note = &p->notes[i];
        if (note->person == now->person && same_focus(note, now) &&
            date_order(note->date, first) < 0 &&
            (!other || date_order(note->date, *other) > 0))
            first = note->date;
    }
    return first;
}

/* ---- days ------------------------------------------------------------------ */

/* H. F. Fliegel, T. C. Van Flandern, Commun. ACM 11 (1968) 657. */
int progress_day_number(struct date d) {
    int before_march = (d.month - 14) / 12;
    return (1461 * (d.year + 4800 + before_march)) / 4 +
           (367 * (d.month - 2 - 12 * before_march)) / 12 -
           (3 * ((d.year + 4900 + before_march) / 100)) / 4 + d.day - 32075;
}

static unsigned days_between(struct date from, struct date to) {
    return (unsigned)(progress_day_number(to) - progress_day_number(from));
}

/* ---- counts ---------------------------------------------------------------- */

static void split_add(struct progress_split *s, bool after, struct rate more) {
    struct rate *side = after ? &s->after : &s->before;
    *side = rate_sum(*side, more);
}

/* Serves that show what the focus treats. */
static struct rate treated(const struct entry *e, enum word_id treats) {
    const struct word_info *w = word_info(treats);
    if (w->class == WORD_MARK)
        return e->marked[w->value];
    return (struct rate){e->day.counts.by[w->value], e->day.counts.serves};
}

static void add_serves(struct progress_focus *f, const struct entry *e, bool after) {
    const struct counts *c = &e->day.counts;
    if (e->kind == PROGRESS_SERVES) {
        split_add(&f->in_practices, after, treated(e, f->treats));
        return;
    }
    split_add(&f->in_matches, after, treated(e, f->treats));
    split_add(&f->missed, after, (struct rate){c->missed, c->serves});
    split_add(&f->broke, after, (struct rate){c->broke, c->serves});
}

/* Tosses or tries of the drill. */
static bool of_drill(const struct progress_focus *f, const struct entry *e) {
    return (e->kind == PROGRESS_TOSSES || e->kind == PROGRESS_TRIES) &&
           str_same(e->day.drill, f->drill);
}

static void add_entry(struct progress_focus *f, const struct entry *e) {
    bool after = date_order(e->day.date, f->since) >= 0;
    if (after && days_between(f->since, e->day.date) > f->days)
        f->days = days_between(f->since, e->day.date);
    if (e->kind == PROGRESS_SERVES || e->kind == PROGRESS_MATCHES)
        add_serves(f, e, after);
    if (of_drill(f, e))
        split_add(&f->drilled, after, e->day.hits);
}

/* Whether the drill was done in more ways than one: tosses and tries, or tosses
 * into rings of several widths. */
static bool is_mixed(const struct progress *p, size_t person, const struct progress_focus *f) {
    const struct entry *first = NULL;
    for (size_t i = 0; i < p->entry_n; i++) {
        const struct entry *e = &p->entries[i];
        if (e->person != (int32_t)person || !of_drill(f, e))
            continue;
        if (first && (first->kind != e->kind || first->day.ring_cm != e->day.ring_cm))
            return true;
        first = e;
    }
    return false;
}

/* What she hit in the drill on that day. */
static struct rate drilled_on(const struct progress *p, size_t person,
                              const struct progress_focus *f, struct date day) {
    struct rate sum = {0, 0};
    for (size_t i = 0; i < p->entry_n; i++) {
        const struct entry *e = &p->entries[i];
        if (e->person == (int32_t)person && of_drill(f, e) &&
            date_order(e->day.date, day) == 0)
            sum = rate_sum(sum, e->day.hits);
    }
    return sum;
}

bool progress_meets(struct rate done, struct rate goal) {
    return goal.n && done.n >= goal.n &&
           (uint64_t)done.x * goal.n >= (uint64_t)goal.x * done.n;
}

static void find_met(struct progress_focus *f, const struct progress *p, size_t person) {
    for (size_t i = 0; i < p->entry_n; i++) {
        const struct entry *e = &p->entries[i];
        struct date day = e->day.date;
        bool sooner = !f->met || date_order(day, f->met_on) < 0;
        if (e->person == (int32_t)person && of_drill(f, e) && sooner &&
            date_order(day, f->since) >= 0 &&
            progress_meets(drilled_on(p, person, f, day), f->goal)) {
            f->met = true;
            f->met_on = day;
        }
    }
}

bool progress_focus(const struct progress *p, size_t person, struct progress_focus *out) {
    const struct focus_note *now = latest(p, person);
    if (!now)
        return false;
    *out = (struct progress_focus){.treats = now->treats, .drill = now->drill, .goal = now->goal};
    out->since = since(p, now);
    for (size_t i = 0; i < p->entry_n; i++)
        if (p->entries[i].person == (int32_t)person)
            add_entry(out, &p->entries[i]);
    out->mixed = is_mixed(p, person, out);
    find_met(out, p, person);
    return true;
}

struct progress_series progress_drilled(const struct progress *p, size_t person,
                                        const struct progress_focus *f, struct arena *a) {
    struct progress_series s = {arena_alloc(a, p->entry_n + 1, sizeof *s.days), 0};
    for (size_t i = 0; i < p->entry_n; i++) {
        const struct entry *e = &p->entries[i];
        if (e->person == (int32_t)person && of_drill(f, e) &&
            date_order(e->day.date, f->since) >= 0)
            s.days[s.n++] = (struct progress_day){.date = e->day.date, .hits = e->day.hits};
    }
    progress_join_days(&s);
    return s;
}

bool progress_compares(const struct progress_focus *f, struct progress_split s) {
    return f->days >= PROGRESS_DAYS_MIN && rate_may_say(s.before.n) >= SAY_COMPARISON &&
           rate_may_say(s.after.n) >= SAY_COMPARISON;
}
