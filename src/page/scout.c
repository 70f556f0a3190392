/* One page on a team that receives: who passes, and how; for the staff. People
 * are shirts. */
#include "page/scouting.h"

static const double section_y_mm = 25.5, row_mm = 4.15, between_mm = 8;
static const double shirt_mm = 6, balls_mm = 26, broke_mm = 86, plot_mm = 94, plot_end_mm = 143;
static const double count_mm[] = {37, 47, 54.5, 62, 69.5};
static const double next_mm = 9, blank_mm = 11;
enum { RECEIVERS_MAX = 8, FEW_BALLS = 10, SETS = 5 };

/* A row of the receivers: a shirt, several, or no shirt. */
struct row {
    struct str label;
    struct counts counts;
    bool one;                    /* of one receiver, or of all: a share may be drawn */
    struct str why;              /* there is none */
};

struct rate page_scout_broke(const struct counts *c) {
    return (struct rate){c->broke, c->serves};
}

/* Up to 75 %, or the whole if a dot lies beyond. */
double page_scout_end(const struct counts *rows, size_t n) {
    for (size_t i = 0; i < n; i++) {
        struct rate r = page_scout_broke(&rows[i]);
        if (rate_may_say(r.n) >= SAY_INTERVAL && rate_frac(r) > 0.75)
            return 1.0;
    }
    return 0.75;
}

void page_scout_reference(struct draw *d, const struct scale *scale, const struct scout *s,
                          double y_mm, double y2_mm) {
    struct rate all = page_scout_broke(&s->all);
    if (rate_may_say(all.n) < SAY_INTERVAL)
        return;
    double x = page_scale_x(scale, rate_frac(all));
    page_dashed(d, x, y_mm, x, y2_mm, 0.8, INK_BLACK, 1.0, 0.7);
}

/* ---- receivers ---------------------------------------------------------------------- */

static size_t rows_of(struct draw *d, const struct scout *s, struct row rows[RECEIVERS_MAX + 2]) {
    struct scout_receiver all[SHIRT_MAX + 1];
    size_t all_n = scout_receivers(s, all), own = all_n, n = 0;
    if (all_n > RECEIVERS_MAX) {
        own = RECEIVERS_MAX - 1;
        while (own > 0 && all[own - 1].counts.serves < FEW_BALLS)
            own--;
    }
    for (; n < own; n++)
        rows[n] = (struct row){page_number(d, all[n].shirt), all[n].counts, true, STR_NONE};
    if (own < all_n) {
        rows[n] = (struct row){.label = page_sayf(d, "%zu others", all_n - own)};
        for (size_t i = own; i < all_n; i++)
            tally_merge(&rows[n].counts, &all[i].counts);
        n++;
    }
    if (s->no_shirt.serves > 0)
        rows[n++] = (struct row){STR("–"), s->no_shirt, false, page_say(d, "no shirt written")};
    return n;
}

static void heads(struct draw *d, const struct scale *scale, double y_mm, double end_mm) {
    static const char *const names[] = {WORDS("ace"), WORDS("over"), "1", "2", "3"};
    page_column(d, shirt_mm, shirt_mm, y_mm, page_say(d, "no."));
    page_column(d, balls_mm, 12, y_mm, page_say(d, "balls"));
    for (unsigned i = 0; i < 5; i++)
        page_column(d, count_mm[i], i < 2 ? 10.5 : 7.5, y_mm, page_say(d, names[i]));
    page_column(d, broke_mm, 14, y_mm, page_say(d, "broke"));
    page_column(d, PAGE_WIDE_MM, PAGE_WIDE_MM - plot_end_mm - 4, y_mm,
                page_say(d, "from 30 balls on"));
    page_grid(d, scale, 0.25, y_mm + 1.6, end_mm, y_mm);
}

/* The share in figures, or why there is none. */
static struct str share(struct draw *d, const struct row *r) {
    struct rate broke = page_scout_broke(&r->counts);
    struct interval in = rate_wilson(broke);
    if (!r->one)
        return r->why;
    if (rate_may_say(broke.n) < SAY_COMPARISON)
        return page_say(d, "too few to say");
    return page_sayf(d, "%.0f %% (%.0f to %.0f)", rate_percent(broke), 100 * in.low,
                     100 * in.high);
}

static void draw_row(struct draw *d, const struct scale *scale, double y_mm, const struct row *r,
                     bool total) {
    static const enum outcome shown[] = {OUTCOME_ACE, OUTCOME_OVER, OUTCOME_IN1, OUTCOME_IN2,
                                         OUTCOME_IN3};
    struct type type = total ? TYPE_TABLE_BOLD : TYPE_TABLE;
    struct type note = TYPE_NOTE;
    note.face = type.face;
    page_count(d, balls_mm, y_mm, total, r->counts.serves);
    for (unsigned i = 0; i < 5; i++)
        page_count(d, count_mm[i], y_mm, total, r->counts.by[shown[i]]);
    page_right(d, broke_mm, y_mm, type, page_fraction(d, page_scout_broke(&r->counts)));
    if (r->one)
        page_rate(d, scale, y_mm - 1.1, page_scout_broke(&r->counts), DOT_THEIRS);
    page_right(d, PAGE_WIDE_MM, y_mm, note,
               page_cut(d, share(d, r), note, PAGE_WIDE_MM - plot_end_mm - 4));
}

static double receivers(struct draw *d, const struct scout *s, double y_mm) {
    struct row rows[RECEIVERS_MAX + 2], all = {page_say(d, "all"), s->all, true, STR_NONE};
    struct counts shares[RECEIVERS_MAX + 2];
    size_t n = rows_of(d, s, rows);
    for (size_t i = 0; i < n; i++)
        shares[i] = rows[i].one ? rows[i].counts : (struct counts){0};
    struct scale scale = {plot_mm, plot_end_mm, page_scout_end(shares, n)};
    double top = y_mm + 8.1, end = top + 0.3 + row_mm * (double)n + 1.5;
    page_section(d, 0, PAGE_WIDE_MM, y_mm, page_say(d, "By receiver"),
                 page_say(d, "most balls first · share that broke the pass (ace, over, pass of 1), "
                             "with 95 % interval"));
    heads(d, &scale, top - 1.6, end);
    page_scout_reference(d, &scale, s, top, end);
    page_rule(d, 0, PAGE_WIDE_MM, top, RULE_HEAD_PT);
    y_mm = top + 0.3;
    for (size_t i = 0; i < n; i++) {
        y_mm += row_mm;
        if (rows[i].label.n > 3)
            page_words(d, 0, y_mm, TYPE_TABLE,
                       page_cut(d, rows[i].label, TYPE_TABLE, balls_mm - 7));
        else
            page_right(d, shirt_mm, y_mm, TYPE_TABLE_BOLD, rows[i].label);
        draw_row(d, &scale, y_mm, &rows[i], false);
    }
    page_rule(d, 0, PAGE_WIDE_MM, end, RULE_HEAD_PT);
    y_mm += 5.2;
    page_words(d, 0, y_mm, TYPE_TABLE_BOLD, page_cut(d, all.label, TYPE_TABLE_BOLD, balls_mm - 8));
    draw_row(d, &scale, y_mm, &all, true);
    page_rule(d, 0, PAGE_WIDE_MM, y_mm + 1.9, RULE_TABLE_PT);
    return page_note(d, 0, y_mm + 5.4, PAGE_WIDE_MM,
                     page_say(d, "Balls without a grade count as balls alone. Dashed: all. Where "
                                 "two bars overlap, the counts don’t tell the two apart; equal "
                                 "receivers would differ as well."));
}

/* ---- plans -------------------------------------------------------------------------- */

static void next_time(struct draw *d, double y_mm) {
    double wide = page_words(d, 0, y_mm, TYPE_HEAD, page_say(d, "Next time"));
    double each = (PAGE_WIDE_MM - wide - 4) / SETS;
    for (unsigned i = 0; i < SETS; i++) {
        double x = wide + 4 + i * each, end = x + each - 3;
        page_words(d, x, y_mm, TYPE_TABLE,
                   page_cut(d, page_sayf(d, "set %u", i + 1), TYPE_TABLE, each - blank_mm - 11));
        page_right(d, end - blank_mm - 1, y_mm, TYPE_TABLE, STR("plan"));
        page_line(d, end - blank_mm, y_mm + 0.8, end, y_mm + 0.8, 0.5, INK_BLACK);
    }
}

/* What the plans were, and blanks for those to come; on a page of their own
 * where they have no room. */
static void plans(struct draw *d, const struct scout *s, struct str name, double y_mm) {
    if (y_mm + page_plans_high(s->plan_n) + next_mm > BODY_END_MM) {
        page_begin(d, name);
        y_mm = 13;
    }
    struct str head = s->plan_n > 0 ? page_sayf(d, "Our plan on %.*s",
                                                STR_ARG(page_day(d, s->planned_on)))
                                    : page_say(d, "Our plan");
    next_time(d, page_plans(d, y_mm, head, s->plans, s->plan_n) + next_mm);
}

/* ---- the page ----------------------------------------------------------------------- */

static struct str matches(struct draw *d, const struct scout *s) {
    return page_say_n(d, s->matches, "%u match", "%u matches", s->matches);
}

/* "Harbour Herons on Granite Foxes · 3 matches, 2026-10-03 to 2026-12-05" */
static struct str title(struct draw *d, const struct scout *s) {
    struct str by = s->server_n == 1 ? s->servers[0] : page_sayf(d, "%zu teams", s->server_n);
    return str_printf(d->arena, "%.*s · %.*s, %.*s",
                      STR_ARG(page_sayf(d, "%.*s on %.*s", STR_ARG(by), STR_ARG(s->team))),
                      STR_ARG(matches(d, s)), STR_ARG(page_days(d, s->first, s->last)));
}

static struct str reached(struct draw *d, const struct scout *s) {
    return str_printf(d->arena, "%.*s · %.*s", STR_ARG(matches(d, s)),
                      STR_ARG(page_say_n(d, s->all.serves, "%u serve that reached them",
                                         "%u serves that reached them", s->all.serves)));
}

const struct pages *page_scout(const struct scout *s, const struct page_facts *facts,
                               const struct page_font *font, struct arena *a) {
    struct pages *pages = arena_alloc(a, 1, sizeof *pages);
    struct draw d = {.pages = pages, .font = font, .facts = facts, .arena = a};
    struct str name = page_say(&d, "Scouting page");
    pages->arena = a;
    pages->title = title(&d, s);
    page_begin(&d, name);
    page_heading(&d, page_sayf(&d, "%.*s: who passes, and how", STR_ARG(s->team)),
                 reached(&d, s));
    page_words(&d, 0, 18, TYPE_TEXT_BOLD, page_say(&d, "For the staff; not for the notice board."));
    double y = receivers(&d, s, section_y_mm);
    y = page_scout_places(&d, s, y + between_mm);
    plans(&d, s, name, y + between_mm);
    page_edges(&d, pages->title);
    return pages;
}
