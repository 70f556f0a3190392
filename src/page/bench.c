/* The bench card: who goes in to serve, and go for it or put it in? For the
 * staff; no row is marked as the one to choose. */
#include "page/draw.h"

static const double head_mm = 21.5, rule_mm = 14.6, end_gap_mm = 2.6;
static const double no_mm = 9, name_mm = 13, name_wide_mm = 34, type_mm = 49, type_wide_mm = 21.5;
static const double points_mm = 81, points_of_mm = 84, missed_mm = 108, missed_of_mm = 111;
static const double go_mm = 138, may_mm = 156, group_gap_mm = 1.4, cut_mm = 122;
enum { GROUP = 5, LARGE_MAX = 10, ROWS_MAX = 27 };

/* Few rows stand wide and large, more of them closer. */
struct look {
    double row_mm;
    struct type shirt, name, number, count;
};

static struct look look_of(size_t rows) {
    bool large = rows <= LARGE_MAX;
    return (struct look){
        .row_mm = large ? 8.3 : 6.6,
        .shirt = {large ? TYPE_RESULT_PT : TYPE_TITLE_PT, FACE_BOLD, INK_BLACK},
        .name = {large ? TYPE_ANSWER_PT : TYPE_HEAD_PT, FACE_REGULAR, INK_BLACK},
        .number = {TYPE_TITLE_PT, FACE_BOLD, INK_BLACK},
        .count = {TYPE_TABLE_PT, FACE_REGULAR, INK_NOTE},
    };
}

static void heads(struct draw *d) {
    page_rule(d, 0, PAGE_WIDE_MM, rule_mm, RULE_TABLE_PT);
    page_column(d, no_mm, no_mm, head_mm, page_say(d, "no."));
    page_words(d, name_mm, head_mm, TYPE_NOTE,
               page_cut(d, page_say(d, "name"), TYPE_NOTE, name_wide_mm));
    page_words(d, type_mm, head_mm, TYPE_NOTE,
               page_cut(d, page_say(d, "kind of serve"), TYPE_NOTE, type_wide_mm));
    page_column(d, points_of_mm + 10, 20, head_mm, page_say(d, "points in 10 turns"));
    page_column(d, missed_of_mm + 10, 18, head_mm, page_say(d, "missed in 20"));
    page_column(d, go_mm, 13.5, head_mm, page_say(d, "go: missed in 20"));
    page_column(d, may_mm, 13.5, head_mm, page_say(d, "go: may miss in 20"));
    page_column(d, PAGE_WIDE_MM, 17, head_mm, page_say(d, "cold: missed"));
    page_rule(d, 0, PAGE_WIDE_MM, head_mm + 2.4, RULE_HEAD_PT);
}

/* ---- a row --------------------------------------------------------------------------- */

static void none(struct draw *d, double end_mm, double y_mm) {
    page_right(d, end_mm, y_mm, (struct type){TYPE_ANSWER_PT, FACE_REGULAR, INK_FAINT}, STR("–"));
}

/* So many of 20, rounded. */
static struct str in_twenty(const struct draw *d, struct rate r) {
    return page_number(d, (BENCH_IN * r.x + r.n / 2) / r.n);
}

static void points(struct draw *d, const struct look *look, double y_mm, struct rate turns) {
    if (rate_may_say(turns.n) >= SAY_INTERVAL)
        page_right(d, points_mm, y_mm, look->number,
                   page_decimal(d, (int)((1000 * turns.x + turns.n / 2) / turns.n), 1));
    page_words(d, points_of_mm, y_mm, look->count, page_fraction(d, turns));
}

static void missed(struct draw *d, const struct look *look, double y_mm, struct rate r) {
    if (rate_may_say(r.n) >= SAY_INTERVAL)
        page_right(d, missed_mm, y_mm, look->number, in_twenty(d, r));
    page_words(d, missed_of_mm, y_mm, look->count, page_fraction(d, r));
}

static void may_miss(struct draw *d, const struct look *look, double y_mm, struct bench_go go) {
    switch (go.pays) {
    case BENCH_UNKNOWN:
        none(d, may_mm, y_mm);
        return;
    case BENCH_NEVER:
        page_right(d, may_mm, y_mm, look->count,
                   page_cut(d, page_say(d, "none: see below"), look->count, 16));
        return;
    case BENCH_PAYS:
        page_right(d, may_mm, y_mm, look->number, page_number(d, go.may_miss));
    }
}

static void go_serves(struct draw *d, const struct look *look, double y_mm, const struct bench *b,
                      const struct bench_server *s) {
    struct rate r = {s->go.missed, s->go.serves};
    if (r.n == 0) {
        none(d, go_mm, y_mm);
        none(d, may_mm, y_mm);
        return;
    }
    if (rate_may_say(r.n) >= SAY_COMPARISON)
        page_right(d, go_mm, y_mm, look->number, in_twenty(d, r));
    else
        page_right(d, go_mm, y_mm, look->name, page_fraction(d, r));
    may_miss(d, look, y_mm, bench_go(b, bench_go_type(s)));
}

static void row(struct draw *d, const struct look *look, double y_mm, const struct bench *b,
                const struct bench_server *s) {
    struct str name = d->facts->no_names ? STR_NONE : s->who.name;
    struct rate missed_of = {s->all.missed, s->all.serves};
    struct type name_type = look->name;
    if (page_width(d, name, name_type) > name_wide_mm)
        name_type.pt = TYPE_HEAD_PT;
    if (s->who.shirt == SHIRT_NONE)
        name = page_say(d, "shirt not seen");
    else
        page_right(d, no_mm, y_mm, look->shirt, page_number(d, s->who.shirt));
    page_words(d, name_mm, y_mm, name_type, page_cut(d, name, name_type, name_wide_mm));
    page_words(d, type_mm, y_mm, TYPE_NOTE,
               page_cut(d, page_type(d, bench_type(s)), TYPE_NOTE, type_wide_mm));
    points(d, look, y_mm, s->turns);
    missed(d, look, y_mm, missed_of);
    go_serves(d, look, y_mm, b, s);
    if (s->cold.n > 0)
        page_right(d, PAGE_WIDE_MM, y_mm, look->number, page_fraction(d, s->cold));
    else
        none(d, PAGE_WIDE_MM, y_mm);
}

/* ---- below the rows -------------------------------------------------------------------- */

/* What the number of a type rests on, and whether the two ways can be told apart. */
static struct str about_type(struct draw *d, enum serve_type type, const struct bench_go *go) {
    struct str name = page_type(d, type);
    const char *words = WORDS("%.*s: go won %u of %u rallies, put in won %u of %u; not yet decidable "
                              "which wins more.");
    if (name.n == 0)
        name = page_say(d, "kind not said");
    if (go->told_apart)
        words = WORDS("%.*s: go won %u of %u rallies, put in won %u of %u.");
    if (go->pays == BENCH_NEVER)
        words = WORDS("%.*s: go won %u of %u rallies, put in won %u of %u; going for it would not "
                      "pay even without a miss.");
    return str_printf(d->arena, lang_say(d->facts->lang, words), STR_ARG(name), go->won.x,
                      go->won.n, go->safe_won.x, go->safe_won.n);
}

static double notes(struct draw *d, const struct bench *b, double y_mm) {
    bool any = false;
    y_mm = page_note(d, 0, y_mm, PAGE_WIDE_MM,
                     page_say(d, "By shirt; matches alone. Points in 10 turns: of turns whose every "
                                 "winner is known. Under 10 turns or serves there are counts, under "
                                 "30 go serves a fraction. –: none written."));
    for (unsigned t = 0; t < BENCH_TYPES; t++) {
        struct bench_go go = bench_go(b, (enum serve_type)t);
        if (go.pays == BENCH_UNKNOWN)
            continue;
        any = true;
        y_mm = page_note(d, 0, y_mm + 3.2, PAGE_WIDE_MM, about_type(d, (enum serve_type)t, &go));
    }
    if (any)
        return page_note(d, 0, y_mm + 3.2, PAGE_WIDE_MM,
                         page_say(d, "Go may miss so many until it wins no more than serves that "
                                     "were told to be put in (safe), all servers together; that is "
                                     "the same at any score."));
    return page_note(d, 0, y_mm + 3.2, PAGE_WIDE_MM,
                     page_say(d, "How many a go serve may miss is told from 30 go serves of a kind "
                                 "and 30 that were told to be put in (safe) on."));
}

static void cut_line(struct draw *d, double y_mm) {
    page_right(d, PAGE_WIDE_MM, y_mm - 1, TYPE_EDGE, page_say(d, "cut here"));
    page_dashed(d, 0, y_mm, PAGE_WIDE_MM, y_mm, 0.5, INK_NOTE, 1.4, 1.0);
}

/* The servers from `from` on; gives how many had room. */
static size_t card(struct draw *d, const struct bench *b, size_t from) {
    size_t left = b->server_n - from, n = left < ROWS_MAX ? left : ROWS_MAX;
    struct look look = look_of(b->server_n);
    double y = head_mm + 2.4;
    heads(d);
    for (size_t i = 0; i < n; i++) {
        y += look.row_mm + (i > 0 && i % GROUP == 0 ? group_gap_mm : 0);
        row(d, &look, y - 1.6, b, &b->servers[from + i]);
    }
    page_rule(d, 0, PAGE_WIDE_MM, y + end_gap_mm - 1.6, RULE_TABLE_PT);
    y = notes(d, b, y + end_gap_mm + 2.4) + 6;
    cut_line(d, y > cut_mm ? y : cut_mm);
    return n;
}

const struct pages *page_bench(const struct bench *b, const struct page_facts *facts,
                               const struct page_font *font, struct arena *a) {
    struct pages *pages = arena_alloc(a, 1, sizeof *pages);
    struct draw d = {.pages = pages, .font = font, .facts = facts, .arena = a};
    struct str matches = page_say_n(&d, b->matches, "from %u match", "from %u matches", b->matches);
    size_t from = 0;
    pages->arena = a;
    pages->title =
        str_printf(a, "%.*s · %.*s, %.*s", STR_ARG(b->team), STR_ARG(matches),
                   STR_ARG(page_days(&d, b->first, b->last)));
    do {
        page_begin(&d, page_say(&d, "Bench card"));
        page_heading(&d, page_say(&d, "Bench card: who goes in to serve?"),
                     page_sayf(&d, "for the staff · %.*s", STR_ARG(matches)));
        from += card(&d, b, from);
    } while (from < b->server_n);
    page_edges(&d, pages->title);
    return pages;
}
