/* Tables of the season report: servers in one order with their kinds of miss,
 * kinds of serve, and the list of matches. */
#include "page/season_parts.h"

#include <math.h>

/* A table's head, drawn again when it goes on on another page. */
typedef void table_heads(struct season_draw *f, double y_mm);

/* Room for a row below y_mm; where there is none, the heads stand again. */
static void next_row(struct season_draw *f, table_heads *heads) {
    if (!page_season_room(f, SEASON_ROW_MM + 2)) {
        heads(f, f->y_mm);
        f->y_mm += 1.8;
    }
    f->y_mm += SEASON_ROW_MM;
}

static void end_table(struct season_draw *f) {
    page_rule(f->d, 0, PAGE_WIDE_MM, f->y_mm + 1.6, RULE_TABLE_PT);
    f->y_mm += 1.6;
}

/* ---- servers in one order --------------------------------------------------------- */

static const double missed_mm = 60, kind_mm[MISS_N] = {70, 79, 88, 97};
static const double name_wide_mm = 37, dot_mm = 0.95, stroke_mm = 1.4;
static const double order_mm = 104, order_end_mm = 172, step_frac = 0.2;

/* The shortest scale on which every bar ends. */
static struct scale order_scale(const struct season_draw *f) {
    const struct season_rank *r = &f->rank;
    struct scale s = {order_mm, order_end_mm, 2 * step_frac};
    for (size_t i = 0; i < r->n; i++)
        while (rate_may_say(r->at[i].rate.n) >= SAY_COMPARISON && s.end_frac < 1 &&
               fmax(r->at[i].between_80.high, rate_frac(r->at[i].rate)) > s.end_frac)
            s.end_frac += step_frac;
    return s;
}

static void order_heads(struct season_draw *f, double y_mm) {
    static const char *const kinds[MISS_N] = {WORDS("net"), WORDS("long"), WORDS("wide"),
                                              WORDS("fault")};
    struct draw *d = f->d;
    page_season_who_heads(d, y_mm);
    page_column(d, missed_mm, 14, y_mm, page_say(d, "missed"));
    for (unsigned k = 0; k < MISS_N; k++)
        page_column(d, kind_mm[k], 8.8, y_mm, page_say(d, kinds[k]));
    struct scale scale = order_scale(f);
    page_grid(d, &scale, step_frac, y_mm + 1.6, y_mm + 1.6, y_mm);
    page_rule(d, 0, PAGE_WIDE_MM, y_mm + 1.6, RULE_HEAD_PT);
}

/* The grid and the team's share behind one row, so that they end with the table;
 * three dashes a row meet those of the next. */
static void behind_row(struct season_draw *f, const struct scale *scale, double y_mm) {
    static const double dash_mm = 0.85;
    struct draw *d = f->d;
    const struct counts *c = &f->of->season->all;
    double top = y_mm - SEASON_ROW_MM + 1.2, end = y_mm + 1.2;
    for (unsigned i = 0; i * step_frac <= scale->end_frac + 1e-9; i++) {
        double x = page_scale_x(scale, step_frac * i);
        page_line(d, x, top, x, end, RULE_GRID_PT, INK_GRID);
    }
    double x = page_scale_x(scale, rate_frac((struct rate){c->missed, c->serves}));
    if (x <= scale->end_mm)
        page_dashed(d, x, top, x, end, RULE_TABLE_PT, INK_BLACK, dash_mm,
                    SEASON_ROW_MM / 3 - dash_mm);
}

static void counted(struct draw *d, const struct counts *c, bool bold, double y_mm) {
    page_right(d, missed_mm, y_mm, bold ? TYPE_TABLE_BOLD : TYPE_TABLE,
               page_fraction(d, (struct rate){c->missed, c->serves}));
    for (unsigned k = 0; k < MISS_N; k++)
        page_count(d, kind_mm[k], y_mm, bold, study_missed(c, (enum miss)k));
}

/* Dot and 80 % bar of the estimate, and a stroke for the plain share. */
static void estimate(struct draw *d, const struct scale *scale, const struct shrunk *e,
                     double y_mm) {
    double plain = page_scale_x(scale, rate_frac(e->rate));
    page_line(d, page_scale_x(scale, e->between_80.low), y_mm,
              page_scale_x(scale, e->between_80.high), y_mm, 0.9, INK_OURS);
    page_circle(d, page_scale_x(scale, e->frac), y_mm, dot_mm, 0.9, INK_OURS, INK_OURS);
    page_line(d, plain, y_mm - stroke_mm, plain, y_mm + stroke_mm, 1.2, INK_BLACK);
}

/* No order, and no dot in one, of less than may be compared. */
static bool may_rank(const struct season_server *s) {
    return rate_may_say(s->matches.serves) >= SAY_COMPARISON;
}

static void order_row(struct season_draw *f, const struct season_server *s) {
    next_row(f, order_heads);
    page_season_who(f->d, s->who, name_wide_mm, f->y_mm);
    counted(f->d, &s->matches, false, f->y_mm);
}

static unsigned ranked_rows(struct season_draw *f) {
    struct scale scale = order_scale(f);
    unsigned n = 0;
    for (size_t i = 0; i < f->rank.n; i++) {
        const struct shrunk *e = &f->rank.at[i];
        const struct season_server *s = &f->of->season->servers[e->ix];
        if (!may_rank(s))
            continue;
        order_row(f, s);
        behind_row(f, &scale, f->y_mm);
        estimate(f->d, &scale, e, f->y_mm - 1.1);
        n++;
    }
    return n;
}

/* The others, most serves first. */
static unsigned other_rows(struct season_draw *f) {
    const struct season *s = f->of->season;
    unsigned n = 0;
    for (size_t i = 0; i < s->server_n; i++) {
        if (s->servers[i].matches.serves == 0 || may_rank(&s->servers[i]))
            continue;
        if (n++ == 0)
            f->y_mm += 1.5;
        order_row(f, &s->servers[i]);
    }
    return n;
}

/* Serves without a server: the rows are short of the team's by so many. */
static void order_unseen(struct season_draw *f) {
    struct draw *d = f->d;
    const struct season *s = f->of->season;
    struct counts unseen = s->all;
    for (size_t i = 0; i < s->server_n; i++) {
        const struct counts *c = &s->servers[i].matches;
        unseen.serves -= c->serves;
        unseen.missed -= c->missed;
        for (unsigned o = 0; o < OUTCOME_N; o++)
            unseen.by[o] -= c->by[o];
    }
    if (unseen.serves == 0)
        return;
    next_row(f, order_heads);
    page_words(d, SEASON_NAME_MM, f->y_mm, TYPE_TABLE,
               page_cut(d, page_say(d, "shirt not seen"), TYPE_TABLE, name_wide_mm));
    counted(d, &unseen, false, f->y_mm);
}

static void order_total(struct season_draw *f) {
    struct draw *d = f->d;
    next_row(f, order_heads);
    page_rule(d, 0, kind_mm[MISS_N - 1] + 1, f->y_mm - 2.7, RULE_HEAD_PT);
    f->y_mm += 0.8;
    page_words(d, SEASON_NAME_MM, f->y_mm, TYPE_TABLE_BOLD, page_say(d, "team"));
    counted(d, &f->of->season->all, true, f->y_mm);
    end_table(f);
}

static struct str order_note(struct season_draw *f, unsigned others) {
    struct draw *d = f->d;
    struct str whom = f->rank.by_type
                          ? page_say(d, "Dot and bar: the share drawn towards those with the same "
                                        "kind of serve, the more so the fewer her serves, with its "
                                        "80 % interval.")
                          : page_say(d, "Dot and bar: the share drawn towards the team’s, the more "
                                        "so the fewer her serves, with its 80 % interval.");
    struct str rest = page_say(d, " Stroke: the plain share; dashed: the team. Servers whose bars "
                                  "overlap are not told apart.");
    struct str under = others > 0 ? page_sayf(d, " Under %u serves: no rank, most serves first.",
                                              rate_say_from_n(SAY_COMPARISON))
                                  : STR_NONE;
    return str_printf(d->arena, "%.*s%.*s%.*s", STR_ARG(whom), STR_ARG(rest), STR_ARG(under));
}

void page_season_order(struct season_draw *f) {
    struct draw *d = f->d;
    page_season_section(f, SEASON_RULE_MM + 5 * SEASON_ROW_MM,
                        page_say(d, "Servers in order of misses"),
                        page_say(d, "share that missed, in percent"));
    order_heads(f, f->y_mm + SEASON_HEADS_MM);
    f->y_mm += SEASON_RULE_MM + 0.2;
    unsigned ranked = ranked_rows(f), others = other_rows(f);
    order_unseen(f);
    order_total(f);
    page_season_note(f, ranked > 0 ? order_note(f, others)
                                   : page_sayf(d,
                                               "Under %u serves each: no order, most serves "
                                               "first.",
                                               rate_say_from_n(SAY_COMPARISON)));
}

/* ---- kinds of serve ------------------------------------------------------------------ */

static const double serves_mm = 47, broke_mm = 58, aces_mm = 68, gone_mm = 79, won_mm = 90;
static const struct scale miss_scale = {97, 132, 0.6}, won_scale = {140, 175, 0.6};

static void kinds_heads(struct season_draw *f, double y_mm) {
    struct draw *d = f->d;
    page_column(d, serves_mm, 13, y_mm, page_say(d, "serves"));
    page_column(d, broke_mm, 10, y_mm, page_say(d, "broke"));
    page_column(d, aces_mm, 9, y_mm, page_say(d, "aces"));
    page_column(d, gone_mm, 10, y_mm, page_say(d, "missed"));
    page_column(d, won_mm, 10, y_mm, page_say(d, "won"));
    page_rule(d, 0, PAGE_WIDE_MM, y_mm + 1.6, RULE_HEAD_PT);
}

static void kind_row(struct season_draw *f, struct str name, const struct counts *c) {
    struct draw *d = f->d;
    next_row(f, kinds_heads);
    page_words(d, 0, f->y_mm, TYPE_TABLE, page_cut(d, name, TYPE_TABLE, 33));
    page_count(d, serves_mm, f->y_mm, false, c->serves);
    page_count(d, broke_mm, f->y_mm, false, c->broke);
    page_count(d, aces_mm, f->y_mm, false, c->by[OUTCOME_ACE]);
    page_count(d, gone_mm, f->y_mm, false, c->missed);
    page_count(d, won_mm, f->y_mm, false, c->won);
    page_rate(d, &miss_scale, f->y_mm - 1.1, (struct rate){c->missed, c->serves}, DOT_OURS);
    page_rate(d, &won_scale, f->y_mm - 1.1, (struct rate){c->won, c->decided}, DOT_OURS);
}

void page_season_kinds(struct season_draw *f) {
    struct draw *d = f->d;
    const struct season *s = f->of->season;
    unsigned rows = 0;
    for (unsigned t = 0; t <= TYPE_UNDERHAND; t++)
        rows += s->of_type[t].serves > 0;
    if (rows == 0)
        return;
    double end = SEASON_RULE_MM + 1.8 + SEASON_ROW_MM * rows;
    page_season_section(
        f, end + 6, page_say(d, "By kind of serve"),
        page_say(d, "missed, and points won on serve, in percent with 95 % interval"));
    page_grid(d, &miss_scale, 0.2, f->y_mm + SEASON_RULE_MM, f->y_mm + end,
              f->y_mm + SEASON_HEADS_MM);
    page_grid(d, &won_scale, 0.2, f->y_mm + SEASON_RULE_MM, f->y_mm + end,
              f->y_mm + SEASON_HEADS_MM);
    kinds_heads(f, f->y_mm + SEASON_HEADS_MM);
    f->y_mm += SEASON_RULE_MM + 0.2;
    for (unsigned t = TYPE_TOPSPIN; t <= TYPE_UNDERHAND; t++)
        if (s->of_type[t].serves > 0)
            kind_row(f, page_type(d, (enum serve_type)t), &s->of_type[t]);
    if (s->of_type[TYPE_NONE].serves > 0)
        kind_row(f, page_say(d, "kind not said"), &s->of_type[TYPE_NONE]);
    end_table(f);
    page_season_note(f,
                     page_say(d, "Left plot: missed; right plot: points won on serve. Different "
                                 "people serve the kinds, so this does not tell which kind is the "
                                 "better one for anybody."));
}

/* ---- the matches ---------------------------------------------------------------------- */

static const double number_mm = 5, date_mm = 8, against_mm = 29, against_wide_mm = 48;
static const double match_mm[] = {90, 104, 116, 130, 145, 159};

static void matches_heads(struct season_draw *f, double y_mm) {
    struct draw *d = f->d;
    page_words(d, date_mm, y_mm, TYPE_NOTE, page_say(d, "date"));
    page_words(d, against_mm, y_mm, TYPE_NOTE,
               page_cut(d, page_say(d, "against"), TYPE_NOTE, against_wide_mm));
    page_column(d, match_mm[0], 12, y_mm, page_say(d, "serves"));
    page_column(d, match_mm[1], 12, y_mm, page_say(d, "broke"));
    page_column(d, match_mm[2], 11, y_mm, page_say(d, "missed"));
    page_column(d, match_mm[3], 12.5, y_mm, page_say(d, "won"));
    page_column(d, match_mm[4], 13.5, y_mm, page_say(d, "to review"));
    page_column(d, match_mm[5], 13.5, y_mm, page_say(d, "warnings"));
    page_column(d, PAGE_WIDE_MM, 16, y_mm, page_say(d, "notes"));
    page_rule(d, 0, PAGE_WIDE_MM, y_mm + 1.6, RULE_HEAD_PT);
}

static void match_row(struct season_draw *f, size_t ix) {
    struct draw *d = f->d;
    const struct season_match *m = &f->of->season->matches[ix];
    const struct counts *c = &m->counts;
    next_row(f, matches_heads);
    double y = f->y_mm;
    page_right(d, number_mm, y, TYPE_TABLE, page_number(d, (unsigned)ix + 1));
    page_words(d, date_mm, y, TYPE_TABLE, page_day(d, m->date));
    page_words(d, against_mm, y, TYPE_TABLE,
               page_cut(d, m->against.n > 0 ? m->against : page_say(d, "the other team"),
                        TYPE_TABLE, against_wide_mm));
    page_count(d, match_mm[0], y, false, c->serves);
    page_count(d, match_mm[1], y, false, c->broke);
    page_count(d, match_mm[2], y, false, c->missed);
    page_right(d, match_mm[3], y, TYPE_TABLE, page_fraction(d, (struct rate){c->won, c->decided}));
    page_count(d, match_mm[4], y, false, m->reviews);
    page_count(d, match_mm[5], y, false, m->warnings);
    if (m->incomplete)
        page_right(d, PAGE_WIDE_MM, y, TYPE_TABLE, page_cut(d, page_say(d, "gap"), TYPE_TABLE, 16));
}

void page_season_matches(struct season_draw *f) {
    struct draw *d = f->d;
    const struct season *s = f->of->season;
    page_season_section(f, SEASON_RULE_MM + 4 * SEASON_ROW_MM, page_say(d, "The matches"),
                        page_say(d, "won: rallies on our serve, of those whose winner is known"));
    matches_heads(f, f->y_mm + SEASON_HEADS_MM);
    f->y_mm += SEASON_RULE_MM + 0.2;
    for (size_t i = 0; i < s->match_n; i++)
        match_row(f, i);
    end_table(f);
}
