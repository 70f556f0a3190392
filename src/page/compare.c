/* "Our serve and theirs": every rate of both sides on one scale. */
#include "page/first.h"

#include <math.h>

static const double head_y_mm = 69, ours_mm = 60, theirs_mm = 76, table_end_mm = 84;
static const double plot_mm = 86, plot_end_mm = 175;
static const double row_mm = 4.9, compact_row_mm = 4.6, gap_mm = 1.5, pair_mm = 2.2;
static const double indent_mm = 3.5;
static const double scales[] = {0.55, 0.80, 1.0};

enum row {
    ROW_BROKE,
    ROW_ACES,
    ROW_POOR,
    ROW_MISSED,
    ROW_NET,
    ROW_LONG,
    ROW_WIDE,
    ROW_FAULT,
    ROW_WIDE_FAULT,
    ROW_WON,
    ROW_N
};

static const struct {
    const char *label;
    bool main; /* bold, at the margin, with a gap above */
} rows[ROW_N] = {
    [ROW_BROKE] = {WORDS("Broke the pass"), true},
    [ROW_ACES] = {WORDS("aces"), false},
    [ROW_POOR] = {WORDS("pass of 1, or ball straight back"), false},
    [ROW_MISSED] = {WORDS("Missed"), true},
    [ROW_NET] = {WORDS("into the net"), false},
    [ROW_LONG] = {WORDS("long"), false},
    [ROW_WIDE] = {WORDS("wide"), false},
    [ROW_FAULT] = {WORDS("foot fault, 8 seconds, other"), false},
    [ROW_WIDE_FAULT] = {WORDS("wide, foot fault, other"), false},
    [ROW_WON] = {WORDS("Points won on serve"), true},
};

static struct rate value(const struct counts *c, enum row row) {
    unsigned wide = study_missed(c, MISS_WIDE), fault = study_missed(c, MISS_FAULT);
    switch (row) {
    case ROW_BROKE:
        return page_first_rate(c, c->broke);
    case ROW_ACES:
        return page_first_rate(c, c->by[OUTCOME_ACE]);
    case ROW_POOR:
        return page_first_rate(c, c->broke - c->by[OUTCOME_ACE]);
    case ROW_MISSED:
        return page_first_rate(c, c->missed);
    case ROW_NET:
        return page_first_rate(c, study_missed(c, MISS_NET));
    case ROW_LONG:
        return page_first_rate(c, study_missed(c, MISS_LONG));
    case ROW_WIDE:
        return page_first_rate(c, wide);
    case ROW_FAULT:
        return page_first_rate(c, fault);
    case ROW_WIDE_FAULT:
        return page_first_rate(c, wide + fault);
    case ROW_WON:
        return page_first_won(c);
    case ROW_N:
        break;
    }
    return (struct rate){0, 0};
}

static bool shown(const struct first *f, enum row row) {
    if (row == ROW_WIDE || row == ROW_FAULT)
        return !f->compact;
    return row != ROW_WIDE_FAULT || f->compact;
}

/* The shortest scale on which every dot lies. */
static struct scale scale_of(const struct draw *d) {
    double most = 0;
    for (unsigned s = 0; s < SIDE_N; s++)
        for (unsigned r = 0; r < ROW_N; r++) {
            struct rate v = value(&d->tally->side[s], (enum row)r);
            if (rate_may_say(v.n) >= SAY_INTERVAL)
                most = fmax(most, rate_frac(v));
        }
    unsigned i = 0;
    while (i < 2 && most > scales[i])
        i++;
    return (struct scale){plot_mm, plot_end_mm, scales[i]};
}

static void draw_row(struct draw *d, const struct scale *scale, double y_mm, enum row row) {
    bool theirs = page_first_has_theirs(d);
    double indent = rows[row].main ? 0 : indent_mm;
    struct type type = rows[row].main ? TYPE_TABLE_BOLD : TYPE_TABLE;
    struct rate a = value(&d->tally->side[OURS], row), b = value(&d->tally->side[THEIRS], row);
    page_words(d, indent, y_mm, type, page_cut(d, page_say(d, rows[row].label), type,
                                               ours_mm - 9 - indent));
    page_right(d, ours_mm, y_mm, type, page_fraction(d, a));
    double middle = y_mm - 1.1;
    page_rate(d, scale, theirs ? middle - pair_mm / 2 : middle, a, DOT_OURS);
    if (!theirs)
        return;
    page_right(d, theirs_mm, y_mm, type, page_fraction(d, b));
    page_rate(d, scale, middle + pair_mm / 2, b, DOT_THEIRS);
}

static void draw_heads(struct draw *d, double y_mm) {
    bool theirs = page_first_has_theirs(d);
    page_section(
        d, 0, PAGE_WIDE_MM, y_mm,
        theirs ? page_say(d, "Our serve and theirs") : page_say(d, "Our serve"),
        page_say(d, "percent of serves, with 95 % interval · under 10 serves: counts only"));
    page_dot(d, ours_mm - 12.5, y_mm + 5.8, DOT_OURS);
    page_right(d, ours_mm, y_mm + 6.7, TYPE_NOTE, page_say(d, "ours"));
    if (theirs) {
        page_dot(d, theirs_mm - 12, y_mm + 5.8, DOT_THEIRS);
        page_right(d, theirs_mm, y_mm + 6.7, TYPE_NOTE, page_say(d, "theirs"));
    }
    page_rule(d, 0, table_end_mm, y_mm + 8.2, RULE_HEAD_PT);
    page_rule(d, plot_mm, PAGE_WIDE_MM, y_mm + 8.2, RULE_HEAD_PT);
}

static double height_of(const struct first *f) {
    double y = 13 - row_mm;
    for (unsigned r = 0; r < ROW_N; r++)
        if (shown(f, (enum row)r))
            y += (f->compact ? compact_row_mm : row_mm) + (r > 0 && rows[r].main ? gap_mm : 0);
    return y + 1.8;
}

/* What the rates are out of: points won on serve are known for some rallies only. */
static struct str out_of(const struct draw *d) {
    bool all = true;
    for (unsigned s = 0; s < SIDE_N; s++) {
        const struct counts *c = &d->tally->side[s];
        all = all && (c->decided == c->serves || (s == THEIRS && !page_first_has_theirs(d)));
    }
    return all ? page_say(d, "All rates: of all serves.")
               : page_say(d, "Rates: of all serves; points won: where the winner is known.");
}

double page_first_compare(struct draw *d, const struct first *f) {
    struct scale scale = scale_of(d);
    double y = head_y_mm, bottom = head_y_mm + height_of(f);
    draw_heads(d, y);
    page_grid(d, &scale, scale.end_frac > 0.6 ? 0.2 : 0.1, y + 8.2, bottom, y + 6.7);
    y += 13 - row_mm;
    for (unsigned r = 0; r < ROW_N; r++) {
        if (!shown(f, (enum row)r))
            continue;
        y += (f->compact ? compact_row_mm : row_mm) + (r > 0 && rows[r].main ? gap_mm : 0);
        draw_row(d, &scale, y, (enum row)r);
    }
    page_rule(d, 0, PAGE_WIDE_MM, bottom, RULE_TABLE_PT);
    page_words(d, 0, bottom + 3.4, TYPE_NOTE,
               page_sayf(d, "Broke the pass: an ace, a ball straight back, or a pass of 1 on the "
                          "0–3 scale. %.*s",
                          STR_ARG(out_of(d))));
    return bottom + 3.4;
}
