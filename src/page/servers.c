/* The table of servers: most serves first, equal ones by shirt, so that the
 * page ranks nobody. Under ten serves there are counts and no dot. */
#include "page/first.h"

#include <math.h>

static const double section_mm = 9, usual_row_mm = 4.3, tight_row_mm = 3.8, least_row_mm = 3.2;
static const double data_y_mm = 242.2, gap_mm = 1.5;
static const double no_mm = 4.5, name_mm = 7.5, name_wide_mm = 37;
static const double serves_mm = 53.5, broke_mm = 63, aces_mm = 71.5, missed_mm = 82.6, won_mm = 90.5;
static const double table_end_mm = 92;
static const struct scale broke_scale = {97, 133, 0.75}, missed_scale = {140, 175, 0.75};

enum { USUAL_ROWS = 10 };

/* Where the table would end if each finding took two lines. */
static double end_of(const struct draw *d, const struct first *f, double row) {
    double findings = f->finding_n > 0 ? 13.6 + 9.7 * f->finding_n - 5.4 : 13.6;
    return (f->compact ? 122.1 : 129.4) + d->push_mm + findings + section_mm + 10.6 +
           row * f->row_n + gap_mm + 7.4 + (f->compact ? 0 : 3.5);
}

struct first page_first_plan(struct draw *d) {
    struct first f = {.row_mm = usual_row_mm};
    f.row_n = page_rows(d->tally, f.rows, &f.others_n);
    f.compact = f.row_n > USUAL_ROWS;
    f.row_mm = f.compact ? tight_row_mm : usual_row_mm;
    f.finding_n = study_findings(&d->tally->side[OURS], d->tally->situation, f.findings,
                                 &f.looked_n);
    while (f.finding_n > 1 && end_of(d, &f, least_row_mm) > data_y_mm - 3.2)
        f.finding_n--;
    return f;
}

static void heads(struct draw *d, double y_mm) {
    page_section(d, 0, PAGE_WIDE_MM, y_mm, page_say(d, "Servers"),
                 page_say(d, "most serves first · under 10 serves: counts only"));
    page_words(d, broke_scale.x_mm - 1, y_mm + 6.2, TYPE_NOTE, page_say(d, "broke their pass, %"));
    page_words(d, missed_scale.x_mm - 1, y_mm + 6.2, TYPE_NOTE, page_say(d, "missed, %"));
    y_mm += 9.6;
    page_words(d, 0, y_mm, TYPE_NOTE, page_say(d, "no."));
    if (!d->facts->no_names)
        page_words(d, name_mm, y_mm, TYPE_NOTE, page_say(d, "name"));
    page_column(d, serves_mm, 10, y_mm, page_say(d, "serves"));
    page_column(d, broke_mm, 8.7, y_mm, page_say(d, "broke"));
    page_column(d, aces_mm, 8, y_mm, page_say(d, "aces"));
    page_column(d, missed_mm, 10.3, y_mm, page_say(d, "missed"));
    page_column(d, won_mm, 7.5, y_mm, page_say(d, "won"));
    page_rule(d, 0, table_end_mm, y_mm + 1.5, RULE_HEAD_PT);
    page_rule(d, broke_scale.x_mm, broke_scale.end_mm + 1, y_mm + 1.5, RULE_HEAD_PT);
    page_rule(d, missed_scale.x_mm, PAGE_WIDE_MM, y_mm + 1.5, RULE_HEAD_PT);
}

static void count_row(struct draw *d, double y_mm, const struct counts *c, bool bold) {
    page_count(d, serves_mm, y_mm, bold, c->serves);
    page_count(d, broke_mm, y_mm, bold, c->broke);
    page_count(d, aces_mm, y_mm, bold, c->by[OUTCOME_ACE]);
    page_count(d, missed_mm, y_mm, bold, c->missed);
    page_count(d, won_mm, y_mm, bold, c->won);
}

static void rates(struct draw *d, double y_mm, const struct counts *c) {
    struct rate broke = page_first_rate(c, c->broke), missed = page_first_rate(c, c->missed);
    if (rate_may_say(c->serves) >= SAY_INTERVAL) {
        page_rate(d, &broke_scale, y_mm - 1.1, broke, DOT_OURS);
        page_rate(d, &missed_scale, y_mm - 1.1, missed, DOT_OURS);
        return;
    }
    page_words(d, broke_scale.x_mm, y_mm, TYPE_NOTE, page_fraction(d, broke));
    page_words(d, missed_scale.x_mm, y_mm, TYPE_NOTE, page_fraction(d, missed));
}

static bool pooled(const struct first *f, unsigned row) {
    return f->others_n > 0 && row == f->row_n - 1;
}

/* Enough serves for a dot: such rows form the upper block. */
static bool dotted(const struct first *f, unsigned row) {
    return rate_may_say(f->rows[row].counts.serves) >= SAY_INTERVAL && !pooled(f, row) &&
           f->rows[row].shirt != SHIRT_NONE;
}

static void server_row(struct draw *d, const struct first *f, unsigned row, double y_mm) {
    const struct server *s = &f->rows[row];
    page_row_name(d, s, pooled(f, row) ? f->others_n : 0, no_mm, name_mm, name_wide_mm, y_mm);
    count_row(d, y_mm, &s->counts, false);
    if (dotted(f, row) || rate_may_say(s->counts.serves) < SAY_INTERVAL)
        rates(d, y_mm, &s->counts);
}

/* The grid, and the team's rate as a dashed line, beside the upper block and
 * under its dots. */
static void plots(struct draw *d, double y_mm, double y2_mm, double label_mm) {
    const struct counts *c = &d->tally->side[OURS];
    const struct scale *scales[] = {&broke_scale, &missed_scale};
    unsigned x[] = {c->broke, c->missed};
    for (unsigned i = 0; i < 2; i++) {
        double team = page_scale_x(scales[i], rate_frac(page_first_rate(c, x[i])));
        page_grid(d, scales[i], 0.25, y_mm, y2_mm, label_mm);
        if (y2_mm > y_mm && team <= scales[i]->end_mm)
            page_dashed(d, team, y_mm, team, y2_mm, RULE_TABLE_PT, INK_BLACK, 1.0, 0.7);
    }
}

static void draw_data(struct draw *d) {
    struct type type = {TYPE_NOTE_PT, FACE_REGULAR, INK_BLACK};
    struct str data = page_data(d);
    double up = page_width(d, data, type) > PAGE_WIDE_MM ? 3.2 : 0;
    page_wrapped(d, 0, 0, data_y_mm - up - d->push_mm, PAGE_WIDE_MM, 3.2, type, data, NULL);
}

static double total_row(struct draw *d, double y_mm) {
    const struct counts *c = &d->tally->side[OURS];
    page_rule(d, 0, PAGE_WIDE_MM, y_mm + 1.6, RULE_HEAD_PT);
    y_mm += 5.5;
    page_words(d, name_mm, y_mm, TYPE_TABLE_BOLD, page_say(d, "team"));
    count_row(d, y_mm, c, true);
    rates(d, y_mm, c);
    page_rule(d, 0, PAGE_WIDE_MM, y_mm + 1.9, RULE_TABLE_PT);
    return y_mm + 1.9;
}

void page_first_servers(struct draw *d, const struct first *f, double y_mm) {
    draw_data(d);
    if (f->row_n == 0)
        return;
    y_mm += section_mm;
    heads(d, y_mm);
    double label = y_mm + 9.6, top = y_mm + 11.1, y = y_mm + 10.6;
    double left = data_y_mm - d->push_mm - 3.2 - (y + gap_mm + 7.4 + (f->compact ? 0 : 3.5));
    double row = fmax(fmin(f->row_mm, left / f->row_n), least_row_mm);
    unsigned i = 0, upper = 0;
    while (upper < f->row_n && dotted(f, upper))
        upper++;
    plots(d, top, upper > 0 ? y + row * upper + 1 : top, label);
    for (; i < upper; i++)
        server_row(d, f, i, y += row);
    if (i > 0 && i < f->row_n)
        y += gap_mm;
    for (; i < f->row_n; i++)
        server_row(d, f, i, y += row);
    y = total_row(d, y);
    if (f->compact)
        return;
    struct str chance =
        page_say(d, "Broke counts aces too. Dashed: team. An example of chance: ten equal servers "
                    "who miss 14 in 100 show 2 to 29 % in 14 serves each.");
    bool room = page_width(d, chance, TYPE_NOTE) <= PAGE_WIDE_MM;
    page_words(d, 0, y + 3.4, TYPE_NOTE,
               room && f->row_n > 0 && dotted(f, 0) ? chance
                                                     : page_say(d, "Broke counts the aces too."));
}
