/* Her serves of today: in their order, and on the court. */
#include "page/card_parts.h"
#include "page/courts.h"

#include <math.h>

/* ---- the strip ------------------------------------------------------------------- */

static const double line_mm = 5.4, first_mm = 4.6, set_gap_mm = 5, label_gap_mm = 5.4;
static const double key_line_mm = 4.4, key_gap_mm = 6, rule_mm = 2.5;
static const struct strip {
    unsigned most;               /* serves that it holds */
    double pitch_mm, a_mm;
} strips[] = {{40, 7.3, 3.0}, {90, 4.2, 2.4}, {180, 2.8, 2.0}};

enum { STRIPS = sizeof strips / sizeof *strips };

/* Where the next mark stands. */
struct pen {
    const struct strip *strip;
    double x_mm, y_mm;
    unsigned set;
};

static void to_next_line(struct pen *p) {
    p->x_mm = 0;
    p->y_mm += line_mm;
}

/* "set 2" keeps its first mark. */
static void begin_set(struct draw *d, struct pen *p, unsigned set) {
    struct str label = page_sayf(d, "set %u", d->tally->checked->sets[set - 1].number);
    double wide = page_width(d, label, TYPE_NOTE);
    p->x_mm += p->set > 0 ? set_gap_mm - p->strip->pitch_mm / 2 : 0;
    if (p->x_mm + wide + label_gap_mm > PAGE_WIDE_MM)
        to_next_line(p);
    page_words(d, p->x_mm, p->y_mm + 0.9, TYPE_NOTE, label);
    p->x_mm += wide + label_gap_mm;
    p->set = set;
}

static void put_serve(struct draw *d, struct pen *p, const struct played *serve) {
    if (serve->set > 0 && serve->set != p->set)
        begin_set(d, p, serve->set);
    if (p->x_mm + p->strip->a_mm > PAGE_WIDE_MM) {
        to_next_line(p);
        p->x_mm = p->strip->a_mm;
    }
    page_put(d, p->x_mm, p->y_mm, p->strip->a_mm, page_mark_of(serve), serve);
    p->x_mm += p->strip->pitch_mm;
}

/* Gives the y of the last line; without a mark where there are too many. */
static double put_all(const struct leaf *l, double y_mm) {
    const struct checked *facts = l->draw->tally->checked;
    struct pen p = {.strip = strips, .y_mm = y_mm};
    while (p.strip < strips + STRIPS && l->card->who.counts.serves > p.strip->most)
        p.strip++;
    if (p.strip == strips + STRIPS) {
        page_words(l->draw, 0, y_mm + 0.9, TYPE_NOTE,
                   page_sayf(l->draw, "counts only, for more than %u serves",
                             strips[STRIPS - 1].most));
        return y_mm;
    }
    for (size_t i = 0; i < facts->played_n; i++)
        if (card_has(l->card, &facts->played[i]))
            put_serve(l->draw, &p, &facts->played[i]);
    return p.y_mm;
}

/* ---- its key --------------------------------------------------------------------- */

static const struct {
    enum page_mark mark;
    const char *words;
} keys[] = {
    {MARK_ACE_FLOOR, WORDS("ace, untouched")}, {MARK_ACE_PLAYED, WORDS("ace, touched")},
    {MARK_BROKE, WORDS("passed poorly")},      {MARK_PLAY, WORDS("in play")},
    {MARK_FLOOR, WORDS("in the court")},       {MARK_NET, WORDS("in the net")},
    {MARK_LONG, WORDS("long")},                {MARK_RIGHT, WORDS("wide right")},
    {MARK_LEFT, WORDS("wide left")},           {MARK_OBJECT, WORDS("antenna, ceiling")},
    {MARK_FAULT, WORDS("fault")},
};

static unsigned marked(const struct leaf *l, enum page_mark mark) {
    const struct checked *facts = l->draw->tally->checked;
    unsigned n = 0;
    for (size_t i = 0; i < facts->played_n; i++)
        n += card_has(l->card, &facts->played[i]) && page_mark_of(&facts->played[i]) == mark;
    return n;
}

/* Marks with their counts, which add up to her serves. */
static double put_key(const struct leaf *l, double y_mm) {
    struct draw *d = l->draw;
    double x = 0;
    for (unsigned i = 0; i < sizeof keys / sizeof *keys; i++) {
        unsigned n = marked(l, keys[i].mark);
        if (n == 0)
            continue;
        struct str words = str_printf(d->arena, "%.*s %u", STR_ARG(page_say(d, keys[i].words)), n);
        double wide = 3.6 + page_width(d, words, TYPE_TABLE);
        if (x > 0 && x + wide > PAGE_WIDE_MM) {
            x = 0;
            y_mm += key_line_mm;
        }
        page_put(d, x + 1.2, y_mm - 1.1, 2.4, keys[i].mark, NULL);
        page_words(d, x + 3.6, y_mm, TYPE_TABLE, words);
        x += wide + key_gap_mm;
    }
    return y_mm;
}

double card_strip(const struct leaf *l, double y_mm) {
    struct draw *d = l->draw;
    unsigned n = l->card->who.counts.serves;
    page_section(d, 0, PAGE_WIDE_MM, y_mm,
                 page_say_n(d, n, "Your %u serve", "Your %u serves in order", n),
                 page_say(d, "solid: it fell there · open: it was played there"));
    y_mm = put_all(l, y_mm + rule_mm + first_mm);
    page_rule(d, 0, PAGE_WIDE_MM, y_mm + 2.9, RULE_HEAD_PT);
    return put_key(l, y_mm + 7.2);
}

/* ---- the court ------------------------------------------------------------------- */

static const double court_x_mm = 95, court_end_mm = 177, words_lead_mm = 3.85;
static const double starts_below_mm = 3;

static bool is_hers(const struct played *p, const void *context) {
    return card_has(context, p);
}

/* A miss into a third of the net stands lower. */
static bool net_thirds(const struct leaf *l) {
    const struct checked *facts = l->draw->tally->checked;
    for (size_t i = 0; i < facts->played_n; i++) {
        const struct played *p = &facts->played[i];
        if (card_has(l->card, p) && page_mark_of(p) == MARK_NET && tally_known(p) == KNOWN_ZONE)
            return true;
    }
    return false;
}

static double put_starts(const struct leaf *l, const struct court *c, double y_mm) {
    struct draw *d = l->draw;
    if (!page_starts(d, c, l->card->who.shirt, y_mm))
        return y_mm;
    double side = page_court_x(c, 0) + 2;
    page_words(d, side, y_mm + 2, TYPE_NOTE,
               page_cut(d, page_say(d, "your starts"), TYPE_NOTE, court_end_mm - side));
    struct str thick = page_say(d, "thick: misses");
    double room = page_court_x(c, 9) - 2 - court_x_mm;
    thick = page_cut(d, thick, TYPE_NOTE, room);
    page_right(d, page_court_x(c, 9) - 2, y_mm + 2, TYPE_NOTE, thick);
    return y_mm + 3;
}

static double court_notes(const struct leaf *l, unsigned beyond, double y_mm) {
    struct draw *d = l->draw;
    const struct server *s = &l->card->who;
    if (s->known[KNOWN_ZONE] > 0)
        y_mm = page_note(d, court_x_mm, y_mm + 3.4, court_end_mm - court_x_mm,
                         page_say(d, "Numbers: serves of which the zone alone is written, (1) "
                                     "between two."));
    if (beyond > 0)
        y_mm = page_note(d, court_x_mm, y_mm + 3.4, court_end_mm - court_x_mm,
                         page_sayf(d, "%u further out than drawn, at the edge.", beyond));
    return y_mm;
}

static double put_court(const struct leaf *l, double y_mm, double scale_mm) {
    struct draw *d = l->draw;
    struct court c = {.centre_mm = (court_x_mm + court_end_mm) / 2,
                      .scale_mm = scale_mm,
                      .a_mm = fmin(2.4, scale_mm * 0.6),
                      .far_m = 2.0,
                      .side_m = 1.8};
    c.net_mm = y_mm + 3.5 + (9 + c.far_m) * c.scale_mm;
    size_t from = d->page->n;
    page_court_lines(d, &c);
    unsigned beyond = page_court_marks(d, &c, is_hers, l->card);
    page_zone_counts(d, &c, is_hers, l->card, TYPE_TABLE_BOLD, from);
    double y = put_starts(l, &c, c.net_mm + starts_below_mm + (net_thirds(l) ? 2 * c.a_mm : 0));
    return court_notes(l, beyond, y);
}

double card_court(const struct leaf *l, double y_mm, double scale_mm) {
    struct draw *d = l->draw;
    const struct server *s = &l->card->who;
    page_section(d, court_x_mm, court_end_mm, y_mm, page_say(d, "Your court today"),
                 page_sayf(d, "place written for %u of %u", s->known[KNOWN_PLACE],
                           s->counts.serves));
    if (s->known[KNOWN_NOT] == s->counts.serves)
        return page_note(d, court_x_mm, y_mm + 6.4, court_end_mm - court_x_mm,
                         page_say(d, "Where your serves came down is not written."));
    return put_court(l, y_mm, scale_mm);
}

double card_miss_words(const struct leaf *l, double y_mm) {
    struct draw *d = l->draw;
    page_section(d, court_x_mm, court_end_mm, y_mm, page_say(d, "What your misses look like"),
                 STR_NONE);
    return page_wrapped(d, court_x_mm, 0, y_mm + 6.8, court_end_mm - court_x_mm, words_lead_mm,
                        TYPE_TABLE, card_misses(d, l->card), NULL);
}
