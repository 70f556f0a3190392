/* One drill: each server's serves in order, with counts, and where they fell. */
#include "page/practice.h"

#include <assert.h>
#include <math.h>

static const double head_mm = 2.5, row_mm = 4.5;
static const double name_wide_mm = 31;
static const double strip_mm = 41, gap_mm = 2.0, mark_a_mm = 2.0;
static const struct court court_at = {.scale_mm = 4.4, .a_mm = 2.3, .far_m = 2.2, .side_m = 1.8};
static const double hatch_mm = 1.2;
static const double court_key_mm = 66;
/* Below the last row. */
static const double note_room_mm = 8, last_room_mm = 7;
/* More serves of one server than STRIP_MOST stand as counts only, so that a row
 * always fits on a page. */
enum { STRIP = 20, STRIP_GAP = 10, STRIP_MOST = 400, SHIRTS = SHIRT_NONE + 1, MANY_PLACES = 60 };

/* Where the columns stand; those with a last time stand closer. */
struct columns {
    double pitch_mm, target_mm, court_mm, last_mm;
    struct scale share;
};

static const struct columns alone = {4.0, 132, 147.3, 0, {152, 174.5, 1.0}};
static const struct columns beside_last = {3.1, 120, 135.3, 150.6, {156, 174.5, 1.0}};

struct series {
    unsigned drill;
    struct drilled_series served; /* into the court, beside the last time */
    const struct columns *at;
    bool aimed; /* some serve has a target that is an area */
    unsigned serves[SHIRTS], in[SHIRTS], hit[SHIRTS], known[SHIRTS];
    unsigned servers, all_serves, all_in, all_hit, all_known, places;
    unsigned marks[PAGE_MARK_N]; /* as the strips show them */
};

static bool belongs(const struct series *s, const struct played *p) {
    return played_counts(p) && p->side == OURS && p->drill == s->drill;
}

static enum page_mark strip_mark(const struct checked *c, const struct played *p) {
    enum page_mark m = page_mark_of(p);
    if (m != MARK_FLOOR)
        return m;
    switch (page_target_of(c, p)) {
    case TARGET_BESIDE:
        return MARK_BESIDE;
    case TARGET_UNKNOWN:
        return MARK_PLAY;
    case TARGET_NONE:
    case TARGET_HIT:
        break;
    }
    return MARK_FLOOR;
}

static void count(const struct checked *c, struct series *s) {
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!belongs(s, p))
            continue;
        unsigned n = tally_times(p), in = played_error(p) ? 0 : n;
        enum target t = page_target_of(c, p);
        unsigned hit = t == TARGET_HIT ? n : 0,
                 known = t == TARGET_HIT || t == TARGET_BESIDE ? n : 0;
        s->aimed = s->aimed || t != TARGET_NONE;
        s->servers += s->serves[p->server] == 0;
        s->serves[p->server] += n, s->all_serves += n;
        s->in[p->server] += in, s->all_in += in;
        s->hit[p->server] += hit, s->all_hit += hit;
        s->known[p->server] += known, s->all_known += known;
        s->places += p->said.landing.kind == PLACE_XD ? n : 0;
        enum page_mark m = strip_mark(c, p);
        assert(m < PAGE_MARK_N);
        s->marks[m] += n;
    }
}

/* Without any drill they need no other name. */
static struct str name_of(struct draw *d, unsigned drill) {
    if (drill > 0)
        return page_drill_name(d, drill);
    return d->tally->checked->drill_n > 0 ? page_say(d, "Serves outside a drill")
                                          : page_say(d, "Serves");
}

/* In the order of the strips' worth; `aimed` says which have two meanings. */
static const struct key {
    enum page_mark mark;
    const char *aimed, *plain;
} keys[] = {
    {MARK_FLOOR, WORDS("in the target"), WORDS("in the court")},
    {MARK_BESIDE, WORDS("in the court, beside it"), WORDS("beside")},
    {MARK_ACE_FLOOR, WORDS("ace, untouched"), WORDS("ace, untouched")},
    {MARK_ACE_PLAYED, WORDS("ace, touched"), WORDS("ace, touched")},
    {MARK_BROKE, WORDS("passed 1 or straight back"), WORDS("passed 1 or straight back")},
    {MARK_PLAY, WORDS("in the court, where not known"), WORDS("in play")},
    {MARK_NET, WORDS("net"), WORDS("net")},
    {MARK_LONG, WORDS("long"), WORDS("long")},
    {MARK_RIGHT, WORDS("wide right"), WORDS("wide right")},
    {MARK_LEFT, WORDS("wide left"), WORDS("wide left")},
    {MARK_OBJECT, WORDS("antenna, ceiling, team-mate"), WORDS("antenna, ceiling, team-mate")},
    {MARK_FAULT, WORDS("fault"), WORDS("fault")},
};

enum { KEYS = sizeof keys / sizeof *keys };

static struct str key_words(const struct draw *d, const struct series *s, unsigned i) {
    return page_say(d, s->aimed ? keys[i].aimed : keys[i].plain);
}

/* The marks that occur in the strips, right-aligned; gives where they begin. */
static double draw_key(struct draw *d, const struct series *s, double y_mm, bool draw) {
    double x = PAGE_WIDE_MM;
    for (unsigned i = KEYS; i-- > 0;) {
        if (s->marks[keys[i].mark] == 0)
            continue;
        x -= page_width(d, key_words(d, s, i), TYPE_NOTE);
        if (draw) {
            page_words(d, x, y_mm, TYPE_NOTE, key_words(d, s, i));
            page_put(d, x - 2, y_mm - 0.9, mark_a_mm, keys[i].mark, NULL);
        }
        x -= 6;
    }
    return x + 3;
}

static double strip_x(const struct series *s, unsigned column) {
    return strip_mm + column * s->at->pitch_mm + (column >= STRIP_GAP ? gap_mm : 0);
}

/* Section head, and the table's head; gives the y of the first grid line. */
static void heads(struct flow *f, const struct series *s) {
    struct draw *d = f->draw;
    struct str name = page_cut(d, name_of(d, s->drill), TYPE_HEAD, PAGE_WIDE_MM);
    double end = page_words(d, 0, f->y_mm, TYPE_HEAD, name);
    if (draw_key(d, s, 0, false) < end + 3)
        f->y_mm += 4.2;
    draw_key(d, s, f->y_mm, true);
    page_rule(d, 0, PAGE_WIDE_MM, f->y_mm + head_mm, RULE_TABLE_PT);
    double y = f->y_mm + head_mm + 3.8;
    page_flow_who_heads(d, y);
    for (unsigned i = 0; i < STRIP; i += i == 0 ? 4 : 5)
        page_centred(d, strip_x(s, i), y, TYPE_NOTE, page_number(d, i + 1));
    if (s->aimed)
        page_column(d, s->at->target_mm, 10, y, page_say(d, "target"));
    page_column(d, s->at->court_mm, 12, y, page_say(d, "in court"));
    if (s->at->last_mm > 0)
        page_column(d, s->at->last_mm, 12, y, page_say(d, "last"));
    for (unsigned i = 0; i <= 2; i++)
        page_centred(d, page_scale_x(&s->at->share, i * 0.5), y, TYPE_NOTE, page_number(d, i * 50));
    page_rule(d, 0, PAGE_WIDE_MM, y + 1.4, RULE_HEAD_PT);
    f->y_mm = y + 1.0;
}

/* Drawn row by row, each part before the dot that lies over it. */
static void grid(struct draw *d, const struct series *s, double y_mm, double y2_mm) {
    for (unsigned i = 0; i <= 2; i++) {
        double x = page_scale_x(&s->at->share, i * 0.5);
        page_line(d, x, y_mm, x, y2_mm, RULE_GRID_PT, INK_GRID);
    }
}

/* Her serves in order; a line of notes with xN gives N marks. The marks carry
 * their serve once each. */
static void strip(struct draw *d, const struct series *s, unsigned shirt, double y_mm) {
    const struct checked *c = d->tally->checked;
    unsigned at = 0;
    if (s->serves[shirt] > STRIP_MOST) {
        page_words(d, strip_mm - 1, y_mm, TYPE_NOTE,
                   page_sayf(d, "counts only, for more than %d serves", STRIP_MOST));
        return;
    }
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!belongs(s, p) || p->server != shirt)
            continue;
        for (unsigned k = 0; k < tally_times(p); k++, at++)
            page_put(d, strip_x(s, at % STRIP), y_mm - 1.1 + at / STRIP * row_mm, mark_a_mm,
                     strip_mark(c, p), p);
    }
}

static void shares(struct draw *d, const struct series *s, double y_mm, struct type type,
                   struct rate hit, struct rate in, struct rate last) {
    const struct columns *at = s->at;
    if (s->aimed)
        page_right(d, at->target_mm, y_mm, type, page_fraction(d, hit));
    page_right(d, at->court_mm, y_mm, type, page_fraction(d, in));
    if (at->last_mm > 0)
        page_right(d, at->last_mm, y_mm, type, page_fraction(d, last));
    page_rate(d, &at->share, y_mm - 1.1, s->aimed ? hit : in, DOT_OURS);
}

static struct rate last_of(const struct series *s, unsigned shirt) {
    for (size_t i = 0; i < s->served.n; i++)
        if (s->served.rows[i].shirt == shirt)
            return s->served.rows[i].last;
    return (struct rate){0, 0};
}

static unsigned lines_of(const struct series *s, unsigned shirt) {
    return s->serves[shirt] > STRIP_MOST ? 1 : (s->serves[shirt] + STRIP - 1) / STRIP;
}

static void server_row(struct flow *f, const struct series *s, unsigned shirt) {
    struct draw *d = f->draw;
    f->y_mm += row_mm;
    page_flow_who(d, OURS, shirt, name_wide_mm, f->y_mm);
    strip(d, s, shirt, f->y_mm);
    shares(d, s, f->y_mm, TYPE_TABLE, (struct rate){s->hit[shirt], s->known[shirt]},
           (struct rate){s->in[shirt], s->serves[shirt]}, last_of(s, shirt));
    f->y_mm += (lines_of(s, shirt) - 1) * row_mm;
}

/* One server is her own sum. */
static void total(struct flow *f, const struct series *s) {
    struct draw *d = f->draw;
    if (s->servers == 1) {
        page_rule(d, 0, PAGE_WIDE_MM, f->y_mm += 1.6, RULE_TABLE_PT);
        return;
    }
    page_rule(d, 0, PAGE_WIDE_MM, f->y_mm + 1.6, RULE_HEAD_PT);
    f->y_mm += 5.6;
    page_words(d, PAGE_FLOW_NAME_MM, f->y_mm, TYPE_TABLE_BOLD, page_say(d, "together"));
    shares(d, s, f->y_mm, TYPE_TABLE_BOLD, (struct rate){s->all_hit, s->all_known},
           (struct rate){s->all_in, s->all_serves}, s->served.all.last);
    page_rule(d, 0, PAGE_WIDE_MM, f->y_mm + 1.9, RULE_TABLE_PT);
    f->y_mm += 1.9;
}

/* Of serves into the court, in a drill with a target too. */
static void last_time(struct flow *f, const struct series *s) {
    struct draw *d = f->draw;
    struct str words = page_last_time(d, &s->served);
    if (words.n == 0)
        return;
    if (s->aimed)
        words = str_printf(d->arena, "%.*s %.*s", STR_ARG(words),
                           STR_ARG(page_say(d, "Last: serves into the court, whatever the "
                                               "target.")));
    page_flow_room(f, last_room_mm);
    f->y_mm = page_note(d, 0, f->y_mm + 3.3, PAGE_WIDE_MM, words);
}

/* Once a page for each of its two wordings. */
static void note(struct flow *f, const struct series *s) {
    struct draw *d = f->draw;
    unsigned bit = s->aimed ? 2 : 1;
    if (f->noted & bit)
        return;
    f->noted |= bit;
    f->y_mm = page_note(
        d, 0, f->y_mm + 3.3, PAGE_WIDE_MM,
        s->aimed ? page_say(d, "In order of serving. Right: share in the target, with 95 % interval, of "
                         "the serves for which it is known; from 10 on.")
                 : page_say(d, "In order of serving. Right: share in the court, with 95 % interval; from "
                         "10 serves on."));
}

/* ---- the court ---------------------------------------------------------------------- */

static bool wanted(const struct played *p, const void *context) {
    return belongs(context, p);
}

/* The target, outlined and hatched. Each line x + y = const is cut at the box. */
static void hatch(struct draw *d, const struct court *c, const struct area *a) {
    double left = page_court_x(c, a->x2_m), right = page_court_x(c, a->x_m);
    double top = page_court_y(c, a->d2_m), bottom = page_court_y(c, a->d_m);
    double step = hatch_mm * sqrt(2);
    for (double sum = left + top + step; sum < right + bottom; sum += step)
        page_line(d, fmax(left, sum - bottom), fmin(bottom, sum - left), fmin(right, sum - top),
                  fmax(top, sum - right), RULE_GRID_PT, INK_GRID);
    page_line(d, left, top, left, bottom, RULE_GRID_PT, INK_NOTE);
    page_line(d, right, top, right, bottom, RULE_GRID_PT, INK_NOTE);
    page_line(d, left, bottom, right, bottom, RULE_GRID_PT, INK_NOTE);
}

/* The one target of the whole drill, if it is the same for every serve. */
static bool one_target(const struct checked *c, const struct series *s, struct area *out,
                       struct spot *aim) {
    bool found = false;
    for (size_t i = 0; i < c->played_n; i++) {
        if (!belongs(s, &c->played[i]))
            continue;
        struct spot this = played_aim(c, &c->played[i]);
        if (found && (this.kind != aim->kind || this.zone != aim->zone || this.seam != aim->seam))
            return false;
        *aim = this;
        found = true;
    }
    return found && page_target_area(aim, out);
}

/* The key of the court with its counts: they add up to the drill's serves. */
static void court_key(struct draw *d, const struct series *s, double x_mm, double y_mm) {
    for (unsigned i = 0; i < KEYS; i++) {
        if (s->marks[keys[i].mark] == 0)
            continue;
        page_put(d, x_mm + 1.5, y_mm - 1.1, mark_a_mm, keys[i].mark, NULL);
        page_words(d, x_mm + 5, y_mm, TYPE_TABLE,
                   page_cut(d, key_words(d, s, i), TYPE_TABLE, 50));
        page_right(d, x_mm + 62, y_mm, TYPE_TABLE, page_number(d, s->marks[keys[i].mark]));
        y_mm += 4.15;
    }
    page_rule(d, x_mm, x_mm + 62, y_mm - 2.65, RULE_HEAD_PT);
    page_words(d, x_mm + 5, y_mm + 1, TYPE_TABLE_BOLD, page_say(d, "all"));
    page_right(d, x_mm + 62, y_mm + 1, TYPE_TABLE_BOLD, page_number(d, s->all_serves));
    if (s->aimed)
        page_note(
            d, x_mm, y_mm + 6, PAGE_WIDE_MM - x_mm,
            page_say(d, "On the court a ball beside the target is drawn as large as one in it."));
}

static void where_they_fell(struct flow *f, const struct series *s) {
    struct draw *d = f->draw;
    struct court c = court_at;
    struct area area;
    struct spot aim;
    if (s->places == 0)
        return;
    f->y_mm += PAGE_FLOW_BELOW_MM;
    page_flow_room(f, 58);
    double wide = page_words(d, 0, f->y_mm, TYPE_HEAD, page_say(d, "Where they landed"));
    page_words(d, wide + 6, f->y_mm, TYPE_NOTE,
               page_sayf(d, "place recorded for %u of %u serves", s->places, s->all_serves));
    c.a_mm = s->places > MANY_PLACES ? 1.7 : 2.3;
    c.centre_mm = 4.5 * c.scale_mm + c.side_m * c.scale_mm;
    c.net_mm = f->y_mm + 4 + (9 + c.far_m) * c.scale_mm;
    double y = f->y_mm + 8;
    if (one_target(d->tally->checked, s, &area, &aim)) {
        hatch(d, &c, &area);
        page_words(d, court_key_mm, y, TYPE_TEXT,
                   page_sayf(d, "Target: %.*s.", STR_ARG(page_target_words(d, &aim))));
        y += 6;
    }
    page_court_lines(d, &c);
    unsigned beyond = page_court_marks(d, &c, wanted, s);
    court_key(d, s, court_key_mm, y);
    if (beyond > 0)
        page_words(d, court_key_mm, c.net_mm, TYPE_NOTE,
                   page_sayf(d, "%u further out than drawn, at the edge.", beyond));
    f->y_mm = c.net_mm + 4;
}

void page_practice_series(struct flow *f, unsigned drill) {
    const struct checked *c = f->draw->tally->checked;
    struct series *s = arena_alloc(f->draw->arena, 1, sizeof *s);
    s->drill = drill;
    count(c, s);
    if (s->all_serves == 0)
        return;
    if (drill > 0)
        s->served = drilled_serves(c, f->season, drill, f->draw->arena);
    s->at = s->served.before.n > 0 ? &beside_last : &alone;
    double below = note_room_mm + (s->served.before.n > 0 ? last_room_mm : 0);
    page_flow_room(f, 11 + 4 * row_mm);
    heads(f, s);
    for (unsigned shirt = 0; shirt < SHIRTS; shirt++) {
        if (s->serves[shirt] == 0)
            continue;
        if (f->y_mm + (lines_of(s, shirt) + 1) * row_mm + below + f->draw->push_mm > BODY_END_MM) {
            page_flow_room(f, BODY_END_MM);
            heads(f, s);
        }
        grid(f->draw, s, f->y_mm + 0.4, f->y_mm + 0.4 + lines_of(s, shirt) * row_mm);
        server_row(f, s, shirt);
    }
    grid(f->draw, s, f->y_mm + 0.4, f->y_mm + 1.6);
    total(f, s);
    note(f, s);
    last_time(f, s);
    where_they_fell(f, s);
    f->y_mm += PAGE_FLOW_BELOW_MM;
}
