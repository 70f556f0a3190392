/* Page one: did our serve win or lose us this match, and who serves how. It
 * may be read aloud to the team. */
#include "page/first.h"

#define EN_DASH "–"

static const double result_y_mm = 13, facts_y_mm = 18.2, contents_y_mm = 22.3, second_line_mm = 6;
static const double sets_y_mm = 25.8, sets_wide_mm = 86, label_gap_mm = 6.5;
static const double row_mm = 4.15, row_gap_mm = 1.3;
static const double answer_x_mm = 95, answer_y_mm = 29, answer_lead_mm = 5.5, text_lead_mm = 4.3;
static const double answer_last_mm = 62.5;

struct rate page_first_rate(const struct counts *c, unsigned x) {
    return (struct rate){x, c->serves};
}

struct rate page_first_won(const struct counts *c) {
    return (struct rate){c->won, c->decided};
}

bool page_first_has_theirs(const struct draw *d) {
    return !d->tally->checked->match->ours_only;
}

/* ---- result ------------------------------------------------------------------ */

static struct str side_result(struct draw *d, enum side s) {
    const struct checked *c = d->tally->checked;
    if (c->sets_won[OURS] + c->sets_won[THEIRS] == 0)
        return page_team(d, s);
    return str_printf(d->arena, "%.*s %u", STR_ARG(page_team(d, s)), c->sets_won[s]);
}

/* The last set has no end, and nobody has won the match yet. */
static bool open_set(const struct checked *c, unsigned ix) {
    unsigned most = c->sets_won[OURS] > c->sets_won[THEIRS] ? OURS : THEIRS;
    return ix + 1 == c->set_n && !c->sets[ix].ended &&
           c->sets_won[most] < c->match->profile.sets_to_win;
}

/* Lines that were not read may hold points: the result is none of the match. */
static bool partial(const struct draw *d) {
    return d->tally->checked->unread > 0 || d->facts->errors > 0;
}

static struct str result_note(const struct draw *d) {
    const struct checked *c = d->tally->checked;
    if (partial(d))
        return page_say(d, " (by the lines read)");
    return c->set_n > 0 && open_set(c, c->set_n - 1) ? page_say(d, " (not finished)") : STR_NONE;
}

/* 18 pt, 14 if that is too wide, and then two lines. */
static void draw_result(struct draw *d) {
    struct type small = {TYPE_ANSWER_PT, FACE_REGULAR, INK_BLACK};
    struct str note = result_note(d);
    double wide = PAGE_WIDE_MM - page_width(d, note, small);
    struct str ours = side_result(d, OURS), theirs = side_result(d, THEIRS);
    const struct checked *c = d->tally->checked;
    bool played = c->sets_won[OURS] + c->sets_won[THEIRS] > 0;
    struct str one =
        played ? str_printf(d->arena, "%.*s, %.*s", STR_ARG(ours), STR_ARG(theirs))
               : page_sayf(d, "%.*s v %.*s", STR_ARG(ours), STR_ARG(theirs));
    struct type type = {TYPE_RESULT_PT, FACE_BOLD, INK_BLACK};
    if (page_width(d, one, type) > wide)
        type.pt = TYPE_TITLE_PT;
    if (page_width(d, one, type) <= wide) {
        page_words(d, page_words(d, 0, result_y_mm, type, one), result_y_mm, small, note);
        return;
    }
    page_words(d, 0, result_y_mm, type, page_cut(d, ours, type, PAGE_WIDE_MM));
    d->push_mm += second_line_mm;
    double end = page_words(d, 0, result_y_mm, type, page_cut(d, theirs, type, wide));
    page_words(d, end, result_y_mm, small, note);
}

/* ---- sets -------------------------------------------------------------------- */

struct columns {
    unsigned n;
    double set_mm[SETS_MAX], all_mm;
};

/* Where the columns of up to four sets end, of five, of more. */
static struct columns columns_of(unsigned sets) {
    struct columns c = {.n = sets, .all_mm = 84};
    double first = sets <= 4 ? 41 : 38, step = sets <= 4 ? 10 : sets == 5 ? 9 : 38.0 / (sets - 1);
    for (unsigned i = 0; i < sets; i++)
        c.set_mm[i] = first + step * i;
    return c;
}

static void number_at(struct draw *d, double end_mm, double y_mm, bool known, bool bold,
                      unsigned n) {
    struct type type = bold ? TYPE_TABLE_BOLD : known && n > 0 ? TYPE_TABLE : TYPE_ZERO;
    page_right(d, end_mm, y_mm, type, known ? page_number(d, n) : STR(EN_DASH));
}

static void points_row(struct draw *d, const struct columns *c, double y_mm, enum side s) {
    const struct checked *facts = d->tally->checked;
    enum side other = s == OURS ? THEIRS : OURS;
    unsigned sum = 0;
    bool known = true;
    page_words(d, 0, y_mm, TYPE_TABLE,
               page_cut(d, page_team(d, s), TYPE_TABLE, c->set_mm[0] - label_gap_mm));
    for (unsigned i = 0; i < c->n; i++) {
        const struct set_result *set = &facts->sets[i];
        bool winner =
            set->ended && set->known[s] && set->known[other] && set->points[s] > set->points[other];
        number_at(d, c->set_mm[i], y_mm, set->known[s], winner, set->points[s]);
        known = known && set->known[s];
        sum += set->points[s];
    }
    number_at(d, c->all_mm, y_mm, known, false, sum);
}

typedef unsigned count_of(const struct counts *c);

static unsigned all_of(const struct counts *c) {
    return c->serves;
}
static unsigned broke_of(const struct counts *c) {
    return c->broke;
}
static unsigned missed_of(const struct counts *c) {
    return c->missed;
}
static unsigned won_of(const struct counts *c) {
    return c->won;
}

static void serves_row(struct draw *d, const struct columns *c, double y_mm, const char *label,
                       bool bold, count_of *count) {
    struct type type = bold ? TYPE_TABLE_BOLD : TYPE_TABLE;
    page_words(d, 0, y_mm, type, page_cut(d, page_say(d, label), type, c->set_mm[0] - label_gap_mm));
    for (unsigned i = 0; i < c->n; i++)
        number_at(d, c->set_mm[i], y_mm, true, bold, count(&d->tally->set[i][OURS]));
    number_at(d, c->all_mm, y_mm, true, bold, count(&d->tally->side[OURS]));
}

static void draw_sets(struct draw *d) {
    const struct checked *facts = d->tally->checked;
    struct columns c = columns_of(facts->set_n);
    double y = sets_y_mm;
    if (facts->set_n == 0)
        return;
    page_rule(d, 0, sets_wide_mm, y, RULE_TABLE_PT);
    page_words(d, 0, y + 4, TYPE_NOTE, page_say(d, "points"));
    for (unsigned i = 0; i < c.n; i++)
        page_column(d, c.set_mm[i], c.n > 5 ? 6 : 8.6, y + 4,
                    page_sayf(d, c.n > 5 ? "%u%s" : "set %u%s", facts->sets[i].number,
                              open_set(facts, i) ? "*" : ""));
    page_right(d, c.all_mm, y + 4, TYPE_NOTE, page_say(d, "all"));
    page_rule(d, 0, sets_wide_mm, y + 5.6, RULE_HEAD_PT);
    points_row(d, &c, y += 9.8, OURS);
    points_row(d, &c, y += row_mm, THEIRS);
    serves_row(d, &c, y += row_mm + row_gap_mm, WORDS("our serves"), false, all_of);
    serves_row(d, &c, y += row_mm, WORDS("– broke their pass"), true, broke_of);
    serves_row(d, &c, y += row_mm, WORDS("– missed"), false, missed_of);
    serves_row(d, &c, y += row_mm, WORDS("– won the rally"), false, won_of);
    page_rule(d, 0, sets_wide_mm, y + 2, RULE_TABLE_PT);
    if (open_set(facts, c.n - 1))
        page_words(d, 0, y + 5.2, TYPE_NOTE, page_say(d, "* not finished"));
}

/* ---- the answer ---------------------------------------------------------------- */

static struct str answer(struct draw *d) {
    const struct counts *ours = &d->tally->side[OURS], *theirs = &d->tally->side[THEIRS];
    if (ours->serves == 0)
        return page_say(d, "No serve of ours is written down.");
    struct str first =
        partial(d) ? page_say_n(d, ours->broke,
                                "In the lines read our serve broke their pass %u time in %u",
                                "In the lines read our serve broke their pass %u times in %u",
                                ours->broke, ours->serves)
                   : page_say_n(d, ours->broke, "Our serve broke their pass %u time in %u",
                                "Our serve broke their pass %u times in %u", ours->broke,
                                ours->serves);
    if (!page_first_has_theirs(d) || theirs->serves == 0)
        return str_printf(d->arena, "%.*s.", STR_ARG(first));
    return page_sayf(d, "%.*s; theirs broke ours %u in %u.", STR_ARG(first), theirs->broke,
                     theirs->serves);
}

/* What the numbers allow. */
static struct str how_sure(struct draw *d) {
    struct rate a = page_first_rate(&d->tally->side[OURS], d->tally->side[OURS].broke);
    struct rate b = page_first_rate(&d->tally->side[THEIRS], d->tally->side[THEIRS].broke);
    struct interval i;
    if (rate_may_say(a.n) < SAY_INTERVAL)
        return page_say(d, "Too few serves to say more than the counts.");
    if (!page_first_has_theirs(d) || b.n == 0) {
        i = rate_wilson(a);
        return page_sayf(d, "That is %.0f in 100, and lies between %.0f and %.0f.",
                          rate_percent(a), i.low * 100, i.high * 100);
    }
    if (rate_may_say(a.n) < SAY_COMPARISON || rate_may_say(b.n) < SAY_COMPARISON)
        return page_sayf(d, "Under %u serves on a side: too few to compare.",
                          rate_say_from_n(SAY_COMPARISON));
    rate_difference(a, b, &i);
    struct str sure = partial(d) ? page_say(d, "but lines are unread.")
                      : i.low > 0 || i.high < 0
                          ? page_say(d, "chance alone seldom makes so much in one match.")
                          : page_say(d, "one match can’t say whose serve is better.");
    return page_sayf(d, "That is %.0f and %.0f in 100. The difference of %.*s lies between %.*s "
                      "and %.*s: %.*s",
                      rate_percent(a), rate_percent(b),
                      STR_ARG(page_signed(d, rate_frac(a) - rate_frac(b))),
                      STR_ARG(page_signed(d, i.low)), STR_ARG(page_signed(d, i.high)),
                      STR_ARG(sure));
}

static struct str both(struct draw *d, const char *what, struct rate ours, struct rate theirs) {
    const char *said = lang_say(d->facts->lang, what);
    if (!page_first_has_theirs(d) || theirs.n == 0)
        return page_sayf(d, "%s: %u of %u.", said, ours.x, ours.n);
    return page_sayf(d, "%s: we %u of %u, they %u of %u.", said, ours.x, ours.n, theirs.x,
                     theirs.n);
}

static void draw_answer(struct draw *d) {
    const struct counts *ours = &d->tally->side[OURS], *theirs = &d->tally->side[THEIRS];
    double wide = PAGE_WIDE_MM - answer_x_mm;
    double y = page_wrapped(d, answer_x_mm, 0, answer_y_mm, wide, answer_lead_mm,
                            (struct type){TYPE_ANSWER_PT, FACE_BOLD, INK_BLACK}, answer(d), NULL);
    if (ours->serves == 0)
        return;
    y = page_wrapped(d, answer_x_mm, 0, y + 7, wide, text_lead_mm, TYPE_TEXT, how_sure(d), NULL);
    y += 6;
    if (y > answer_last_mm - text_lead_mm) /* the table below says it again */
        return;
    y = page_wrapped(d, answer_x_mm, 0, y, wide, text_lead_mm, TYPE_TEXT,
                     both(d, WORDS("Missed"), page_first_rate(ours, ours->missed),
                          page_first_rate(theirs, theirs->missed)),
                     NULL);
    if (ours->decided > 0 && y < answer_last_mm - text_lead_mm)
        page_wrapped(
            d, answer_x_mm, 0, y + text_lead_mm, wide, text_lead_mm, TYPE_TEXT,
            both(d, WORDS("Points won on serve"), page_first_won(ours), page_first_won(theirs)),
            NULL);
}

/* ---- the page ------------------------------------------------------------------ */

void page_first(struct draw *d) {
    page_begin(d, page_say(d, "Serve report"));
    draw_result(d);
    struct type small = {TYPE_TABLE_PT, FACE_REGULAR, INK_NOTE};
    page_words(d, 0, facts_y_mm, small, page_cut(d, page_occasion(d), small, PAGE_WIDE_MM));
    d->contents_mm = contents_y_mm + d->push_mm;
    draw_sets(d);
    draw_answer(d);
    if (d->tally->side[OURS].serves + d->tally->side[THEIRS].serves == 0)
        return;
    struct first f = page_first_plan(d);
    double y = page_first_compare(d, &f);
    y = page_first_findings(d, &f, y);
    page_first_servers(d, &f, y);
}
