/* The practice report: what was counted, series by series, in the order of
 * the notes. Servers stand by shirt. */
#include "page/practice.h"

static const double first_y_mm = 20, below_mm = 9.5, row_mm = 4.5;
static const double no_mm = 4.5, name_mm = 7.5, name_wide_mm = 40, count_mm = 66;
static const struct scale share = {80, 160, 1.0};
enum { SHIRTS = SHIRT_NONE + 1 };

bool page_flow_room(struct flow *f, double need_mm) {
    if (f->y_mm + need_mm + f->draw->push_mm <= BODY_END_MM)
        return false;
    page_begin(f->draw, page_say(f->draw, "Practice report"));
    f->y_mm = BODY_TOP_MM + 5;
    return true;
}

/* ---- tosses, tries, jumps ----------------------------------------------------------- */

struct sums {
    unsigned hits[SHIRTS], n[SHIRTS], all_hits, all_n;
};

static bool same_group(const struct tries *a, const struct tries *b) {
    return a->kind == b->kind && a->side == b->side && a->drill == b->drill &&
           (a->kind != STMT_TOSS || a->ring_cm == b->ring_cm);
}

static bool opens_group(const struct checked *c, size_t i) {
    for (size_t j = 0; j < i; j++)
        if (same_group(&c->tries[j], &c->tries[i]))
            return false;
    return true;
}

static void add_up(const struct checked *c, size_t first, struct sums *s) {
    for (size_t i = first; i < c->tries_n; i++) {
        const struct tries *t = &c->tries[i];
        if (!same_group(t, &c->tries[first]))
            continue;
        s->hits[t->shirt] += t->hits;
        s->n[t->shirt] += t->n;
        s->all_hits += t->hits;
        s->all_n += t->n;
    }
}

/* Metres with one decimal, or with two if they are needed. */
static struct str metres(struct draw *d, int cm) {
    return page_decimal(d, cm, cm % 10 ? 2 : 1);
}

static struct str what_was_done(struct draw *d, const struct tries *t) {
    const struct checked *c = d->tally->checked;
    struct str drill =
        t->drill > 0 && t->drill <= c->drill_n ? c->drills[t->drill - 1].name : STR_NONE;
    if (t->kind == STMT_JUMPS)
        return page_say(d, "Jump serves that are not written one by one");
    if (t->kind == STMT_TOSS && t->ring_cm > 0)
        return page_sayf(d, "Toss into the ring, %.*s m",
                          STR_ARG(metres(d, t->ring_cm)));
    if (t->kind == STMT_TOSS)
        return page_say(d, "Toss into the ring");
    return drill.n > 0 ? drill : page_say(d, "Tries");
}

/* The other team's stand apart, under its name. */
static struct str group_name(struct draw *d, const struct tries *t) {
    struct str name = what_was_done(d, t);
    if (t->side == OURS)
        return name;
    struct str team = page_team(d, (enum side)t->side);
    return str_printf(d->arena, "%.*s: %.*s", STR_ARG(team), STR_ARG(name));
}

static void heads(struct flow *f, const struct tries *t) {
    struct draw *d = f->draw;
    bool jumps = t->kind == STMT_JUMPS;
    page_words(d, 0, f->y_mm, TYPE_HEAD, page_cut(d, group_name(d, t), TYPE_HEAD, 110));
    if (!jumps)
        page_right(d, PAGE_WIDE_MM, f->y_mm, TYPE_NOTE,
                   page_say(d, "in 100, with 95 % interval; from 10 on"));
    page_rule(d, 0, jumps ? count_mm + 4 : PAGE_WIDE_MM, f->y_mm + 2.5, RULE_TABLE_PT);
    double y = f->y_mm + 6.3;
    page_words(d, 0, y, TYPE_NOTE, page_say(d, "no."));
    if (!d->facts->no_names)
        page_words(d, name_mm, y, TYPE_NOTE, page_say(d, "name"));
    page_right(d, count_mm, y, TYPE_NOTE, jumps ? page_say(d, "jumps") : page_say(d, "hits"));
    if (!jumps)
        for (unsigned i = 0; i <= 4; i++)
            page_centred(d, page_scale_x(&share, i * 0.25), y, TYPE_NOTE, page_number(d, i * 25));
    page_rule(d, 0, jumps ? count_mm + 4 : PAGE_WIDE_MM, y + 1.4, RULE_HEAD_PT);
    f->y_mm = y + 1;
}

static void row(struct draw *d, double y_mm, struct str name, struct type type, bool jumps,
                struct rate r) {
    page_words(d, name_mm, y_mm, type, page_cut(d, name, type, name_wide_mm));
    page_right(d, count_mm, y_mm, type, jumps ? page_number(d, r.n) : page_fraction(d, r));
    if (!jumps)
        page_rate(d, &share, y_mm - 1.1, r, DOT_OURS);
}

static void grid(struct draw *d, bool jumps, double y_mm, double y2_mm) {
    for (unsigned i = 0; i <= 4 && !jumps; i++)
        page_line(d, page_scale_x(&share, i * 0.25), y_mm, page_scale_x(&share, i * 0.25), y2_mm,
                  RULE_GRID_PT, INK_GRID);
}

static void group(struct flow *f, size_t first) {
    struct draw *d = f->draw;
    const struct checked *c = d->tally->checked;
    const struct tries *t = &c->tries[first];
    bool jumps = t->kind == STMT_JUMPS;
    struct sums *s = arena_alloc(d->arena, 1, sizeof *s);
    add_up(c, first, s);
    page_flow_room(f, 9 + 4 * row_mm);
    heads(f, t);
    for (unsigned shirt = 0; shirt < SHIRTS; shirt++) {
        if (s->n[shirt] == 0)
            continue;
        if (f->y_mm + 2 * row_mm + d->push_mm > BODY_END_MM) {
            page_flow_room(f, BODY_END_MM);
            heads(f, t);
        }
        grid(d, jumps, f->y_mm + 0.4, f->y_mm + 0.4 + row_mm);
        struct server who = {
            .shirt = (uint8_t)shirt,
            .player = shirt == SHIRT_NONE ? NULL : team_find(&c->match->teams[t->side], shirt)};
        f->y_mm += row_mm;
        if (shirt != SHIRT_NONE)
            page_right(d, no_mm, f->y_mm, TYPE_TABLE, page_number(d, shirt));
        row(d, f->y_mm, page_server(d, &who), TYPE_TABLE, jumps,
            (struct rate){s->hits[shirt], s->n[shirt]});
    }
    grid(d, jumps, f->y_mm + 0.4, f->y_mm + 1.6);
    page_rule(d, 0, jumps ? count_mm + 4 : PAGE_WIDE_MM, f->y_mm + 1.6, RULE_HEAD_PT);
    f->y_mm += 5.6;
    row(d, f->y_mm, page_say(d, "together"), TYPE_TABLE_BOLD, jumps, (struct rate){s->all_hits, s->all_n});
    page_rule(d, 0, jumps ? count_mm + 4 : PAGE_WIDE_MM, f->y_mm + 1.9, RULE_TABLE_PT);
    f->y_mm += 1.9 + below_mm;
}

void page_practice_tries(struct flow *f) {
    const struct checked *c = f->draw->tally->checked;
    for (size_t i = 0; i < c->tries_n; i++)
        if (opens_group(c, i))
            group(f, i);
}

/* ---- the page ------------------------------------------------------------------------ */

static void add_counted(struct buf *b, struct str words) {
    buf_add(b, STR(" · "));
    buf_add(b, words);
}

static struct str summary(struct draw *d) {
    const struct checked *c = d->tally->checked;
    unsigned serves = d->tally->side[OURS].serves, drills = (unsigned)c->drill_n;
    unsigned tosses = 0, tries = 0;
    for (size_t i = 0; i < c->tries_n; i++) {
        if (c->tries[i].kind == STMT_TOSS)
            tosses += c->tries[i].n;
        if (c->tries[i].kind == STMT_TRIES)
            tries += c->tries[i].n;
    }
    struct buf b;
    buf_init(&b, d->arena);
    buf_add(&b, page_say_n(d, serves, "%u serve", "%u serves", serves));
    if (drills > 0)
        add_counted(&b, page_say_n(d, drills, "%u drill", "%u drills", drills));
    if (tosses > 0)
        add_counted(&b, page_say_n(d, tosses, "%u toss", "%u tosses", tosses));
    if (tries > 0)
        add_counted(&b, page_say_n(d, tries, "%u try", "%u tries", tries));
    return buf_str(&b);
}

void page_practice(struct draw *d) {
    const struct checked *c = d->tally->checked;
    struct flow f = {d, first_y_mm};
    page_begin(d, page_say(d, "Practice report"));
    page_heading(d, page_sayf(d, "Practice %.*s", STR_ARG(page_date(d))), summary(d));
    page_practice_tries(&f);
    for (unsigned drill = 0; drill <= c->drill_n; drill++)
        page_practice_series(&f, drill);
    if (c->played_n == 0 && c->tries_n == 0)
        page_words(d, 0, f.y_mm, TYPE_TEXT, page_say(d, "Nothing is written down for this practice yet."));
    page_flow_room(&f, 4);
    page_words(d, 0, BODY_END_MM - 0.8 - d->push_mm,
               (struct type){TYPE_NOTE_PT, FACE_REGULAR, INK_BLACK},
               page_sayf(d, "Data: %.*s.", STR_ARG(page_errors_said(d))));
}
