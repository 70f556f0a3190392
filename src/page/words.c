/* Names of people, teams and the occasion. */
#include "page/draw.h"

#define DOT_BETWEEN " \xC2\xB7 "

struct str page_team(const struct draw *d, enum side s) {
    const struct match *m = d->tally->checked->match;
    if (s < m->team_n && m->teams[s].name.n > 0)
        return m->teams[s].name;
    if (s < m->team_n && m->teams[s].letter)
        return str_printf(d->arena, "team %c", m->teams[s].letter);
    return s == OURS ? STR("our team") : STR("the other team");
}

struct str page_server(const struct draw *d, const struct server *s) {
    if (s->shirt == SHIRT_NONE)
        return STR("shirt not seen");
    if (!d->facts->no_names && s->player && s->player->name.n > 0)
        return s->player->name;
    return STR_NONE;
}

struct str page_date(const struct draw *d) {
    struct date on = d->tally->checked->match->date;
    if (on.year == 0) /* its line was not read: partial data */
        return STR("no date");
    return str_printf(d->arena, "%04d-%02d-%02d", on.year, on.month, on.day);
}

/* "Harbour Herons v Granite Foxes · 2026-12-05 · Harbour League, round 2" */
struct str page_title(const struct draw *d) {
    const struct match *m = d->tally->checked->match;
    struct buf b;
    buf_init(&b, d->arena);
    buf_add(&b, page_team(d, OURS));
    if (m->practice)
        buf_add(&b, STR(DOT_BETWEEN "practice "));
    else {
        buf_add(&b, STR(" v "));
        buf_add(&b, page_team(d, THEIRS));
        buf_add(&b, STR(DOT_BETWEEN));
    }
    buf_add(&b, page_date(d));
    if (m->title.n > 0) {
        buf_add(&b, STR(DOT_BETWEEN));
        buf_add(&b, m->title);
    }
    return buf_str(&b);
}

static void add_net(struct buf *b, const struct match *m) {
    char net = m->teams[OURS].net;
    if (net)
        buf_printf(b, DOT_BETWEEN "%s", net == 'w' ? "women" : "men");
    if (m->net_cm > 0)
        buf_printf(b, "%snet %d.%02d m", net ? ", " : DOT_BETWEEN, m->net_cm / 100,
                   m->net_cm % 100);
}

struct str page_occasion(const struct draw *d) {
    const struct match *m = d->tally->checked->match;
    struct buf b;
    buf_init(&b, d->arena);
    buf_add(&b, page_date(d));
    if (m->timed)
        buf_printf(&b, " %02u:%02u", m->minute / 60, m->minute % 60);
    if (m->title.n > 0) {
        buf_add(&b, STR(DOT_BETWEEN));
        buf_add(&b, m->title);
    }
    if (m->venue.n > 0) {
        buf_add(&b, STR(DOT_BETWEEN));
        buf_add(&b, m->venue);
    }
    add_net(&b, m);
    return buf_str(&b);
}

static void add_phases(struct buf *b, unsigned phases) {
    static const char *const names[] = {"toss", "approach", "jump", "hit"};
    bool first = true;
    for (unsigned i = 0; i < sizeof names / sizeof *names; i++) {
        if (!(phases & (1u << i)))
            continue;
        buf_printf(b, "%s%s", first ? "; technique observed: " : ", ", names[i]);
        first = false;
    }
    if (first)
        buf_add(b, STR("; technique not observed"));
    buf_char(b, '.');
}

static const char *plural(unsigned n) {
    return n == 1 ? "" : "s";
}

/* What the figures rest on. Nerves are for the coach's pages: not named. */
struct str page_data(const struct draw *d) {
    const struct tally *t = d->tally;
    const struct page_facts *f = d->facts;
    unsigned all = t->side[OURS].serves + t->side[THEIRS].serves;
    struct buf b;
    buf_init(&b, d->arena);
    buf_printf(&b, "Data: %u serve%s read, %u error%s, %u warning%s; ", all, plural(all), f->errors,
               plural(f->errors), f->warnings, plural(f->warnings));
    buf_printf(&b, "%u line%s marked for review; ", f->reviews, plural(f->reviews));
    buf_printf(&b, "place not recorded for %u of our %u serve%s", t->known[OURS][KNOWN_NOT],
               t->side[OURS].serves, plural(t->side[OURS].serves));
    add_phases(&b, t->checked->phases);
    return buf_str(&b);
}
