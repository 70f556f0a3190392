/* What our serve did to their reception, by receiver and by zone, and where the
 * points of both teams came from. A receiver is a shirt: no name of theirs. */
#include "page/draw.h"

#include <stdlib.h>

#define EN_DASH "–"

static const double tables_y_mm = 19.5, section_mm = 9.5;
static const double half_mm = 86, right_mm = 91, row_mm = 4.15;
static const double count_mm[] = {25, 33.5, 42, 47.5, 53, 58.5}, broke_mm = 69, label_wide_mm = 19;
static const struct scale broke_scale = {72, 85, 1.0};
enum { RECEIVERS_MAX = 9, FEW_BALLS = 10 };

/* Balls of ours that came to one receiver, or into one zone. */
struct row {
    unsigned shirt;
    struct str label;
    struct counts counts;
};

static const enum outcome shown[] = {OUTCOME_ACE, OUTCOME_OVER, OUTCOME_IN1, OUTCOME_IN2,
                                     OUTCOME_IN3};

static void head(struct draw *d, double x_mm, double y_mm, const char *title, const char *first) {
    static const char *const names[] = {WORDS("balls"), WORDS("ace"), WORDS("over"), "1", "2", "3"};
    page_section(d, x_mm, x_mm + half_mm, y_mm, page_say(d, title), STR_NONE);
    page_words(d, x_mm, y_mm + 6.5, TYPE_NOTE, page_say(d, first));
    for (unsigned i = 0; i < sizeof names / sizeof *names; i++)
        page_column(d, x_mm + count_mm[i], 8.3, y_mm + 6.5, page_say(d, names[i]));
    page_column(d, x_mm + broke_mm, 10, y_mm + 6.5, page_say(d, "broke"));
    page_words(d, x_mm + broke_scale.x_mm, y_mm + 6.5, TYPE_NOTE, STR("0"));
    page_right(d, x_mm + half_mm, y_mm + 6.5, TYPE_NOTE, STR("100 %"));
    page_rule(d, x_mm, x_mm + half_mm, y_mm + 8.1, RULE_HEAD_PT);
}

static void counts_row(struct draw *d, double x_mm, double y_mm, const struct counts *c,
                       bool bold) {
    struct scale scale = broke_scale;
    struct rate broke = {c->broke, c->serves};
    scale.x_mm += x_mm;
    scale.end_mm += x_mm;
    page_count(d, x_mm + count_mm[0], y_mm, bold, c->serves);
    for (unsigned i = 0; i < sizeof shown / sizeof *shown; i++)
        page_count(d, x_mm + count_mm[i + 1], y_mm, bold, c->by[shown[i]]);
    page_right(d, x_mm + broke_mm, y_mm, bold ? TYPE_TABLE_BOLD : TYPE_TABLE,
               page_fraction(d, broke));
    page_rate(d, &scale, y_mm - 1.1, broke, DOT_OURS);
}

/* Rows and their sum; gives where the table ends. */
static double rows_and_sum(struct draw *d, double x_mm, double y_mm, const struct row *rows,
                           size_t n) {
    struct counts all = {0};
    y_mm += 8.1 + 0.2;
    for (size_t i = 0; i < n; i++) {
        y_mm += row_mm;
        page_words(d, x_mm, y_mm, TYPE_TABLE,
                   page_cut(d, rows[i].label, TYPE_TABLE, label_wide_mm));
        counts_row(d, x_mm, y_mm, &rows[i].counts, false);
        tally_merge(&all, &rows[i].counts);
    }
    page_rule(d, x_mm, x_mm + half_mm, y_mm + 1.5, RULE_HEAD_PT);
    y_mm += 5.2;
    page_words(d, x_mm, y_mm, TYPE_TABLE_BOLD, page_say(d, "all"));
    counts_row(d, x_mm, y_mm, &all, true);
    page_rule(d, x_mm, x_mm + half_mm, y_mm + 1.9, RULE_TABLE_PT);
    return y_mm + 1.9;
}

/* ---- receivers ---------------------------------------------------------------------- */

static bool reached_them(const struct played *p) {
    return played_counts(p) && p->side == OURS && !played_error(p);
}

static int most_balls(const void *left, const void *right) {
    const struct row *a = left, *b = right;
    bool last_a = a->shirt == SHIRT_NONE, last_b = b->shirt == SHIRT_NONE;
    if (last_a != last_b)
        return last_a ? 1 : -1;
    if (a->counts.serves != b->counts.serves)
        return a->counts.serves > b->counts.serves ? -1 : 1;
    return a->shirt < b->shirt ? -1 : a->shirt > b->shirt;
}

static size_t receivers(struct draw *d, struct row **out) {
    const struct checked *c = d->tally->checked;
    struct row *rows = NULL;
    size_t n = 0, room = 0, k;
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!reached_them(p))
            continue;
        for (k = 0; k < n && rows[k].shirt != p->said.by; k++)
            ;
        if (k == n) {
            rows = arena_grow(d->arena, rows, n, &room, sizeof *rows);
            rows[n++] = (struct row){.shirt = p->said.by};
        }
        tally_add(&rows[k].counts, p);
    }
    if (n > 1)
        qsort(rows, n, sizeof *rows, most_balls);
    for (k = 0; k < n; k++)
        rows[k].label =
            rows[k].shirt == SHIRT_NONE ? page_say(d, "not written") : page_number(d, rows[k].shirt);
    *out = rows;
    return n;
}

/* Of many receivers those with few balls share a row, before the row of balls
 * whose receiver is not written. */
static size_t join_few(struct draw *d, struct row *rows, size_t n) {
    size_t last = n > 0 && rows[n - 1].shirt == SHIRT_NONE ? n - 1 : n, keep = last, others;
    if (n <= RECEIVERS_MAX)
        return n;
    while (keep > 0 && (rows[keep - 1].counts.serves < FEW_BALLS || keep > RECEIVERS_MAX - 2))
        keep--;
    others = last - keep;
    for (size_t i = keep + 1; i < last; i++)
        tally_merge(&rows[keep].counts, &rows[i].counts);
    rows[keep].label = page_sayf(d, "%zu others", others);
    if (last < n)
        rows[keep + 1] = rows[last];
    return keep + 1 + (n - last);
}

static double by_receiver(struct draw *d, double y_mm) {
    struct row *rows;
    size_t n = receivers(d, &rows);
    head(d, 0, y_mm, WORDS("Their receivers"), WORDS("no."));
    n = join_few(d, rows, n);
    return rows_and_sum(d, 0, y_mm, rows, n);
}

static double by_zone(struct draw *d, double y_mm) {
    struct row rows[ZONE_N];
    size_t n = 0;
    static const unsigned order[ZONE_N] = {1, 6, 5, 2, 3, 4, ZONE_SEAM, ZONE_UNKNOWN};
    for (unsigned i = 0; i < ZONE_N; i++) {
        unsigned z = order[i];
        if (d->tally->in_zone[z].serves == 0)
            continue;
        rows[n++] = (struct row){.label = z == ZONE_UNKNOWN ? page_say(d, "not written")
                                          : z == ZONE_SEAM  ? page_say(d, "a seam")
                                                            : page_sayf(d, "zone %u", z),
                                 .counts = d->tally->in_zone[z]};
    }
    head(d, right_mm, y_mm, WORDS("Zones"), WORDS("zone"));
    return rows_and_sum(d, right_mm, y_mm, rows, n);
}

/* ---- where the points came from ------------------------------------------------------- */

enum source { SOURCE_ACE, SOURCE_MISS, SOURCE_ON_SERVE, SOURCE_OFF_SERVE, SOURCE_OTHER, SOURCE_N };

struct sources {
    unsigned n[SETS_MAX][SIDE_N][SOURCE_N];
    bool known[SETS_MAX]; /* the points of both sides are */
};

static void add_point(struct sources *all, const struct played *p) {
    enum side other = p->side == OURS ? THEIRS : OURS;
    unsigned(*set)[SOURCE_N] = all->n[p->set - 1];
    if (played_ace(p))
        set[p->side][SOURCE_ACE]++;
    else if (played_error(p))
        set[other][SOURCE_MISS]++;
    else if (p->won == RALLY_WON)
        set[p->side][SOURCE_ON_SERVE]++;
    else if (p->won == RALLY_LOST)
        set[other][SOURCE_OFF_SERVE]++;
}

/* What no written serve brought: a penalty, a line that is missing. */
static void add_others(struct sources *all, const struct checked *c) {
    for (unsigned k = 0; k < c->set_n; k++) {
        all->known[k] = c->sets[k].known[OURS] && c->sets[k].known[THEIRS];
        for (unsigned s = 0; s < SIDE_N && all->known[k]; s++) {
            unsigned sum = 0;
            for (unsigned i = 0; i < SOURCE_OTHER; i++)
                sum += all->n[k][s][i];
            if (c->sets[k].points[s] > sum)
                all->n[k][s][SOURCE_OTHER] = c->sets[k].points[s] - sum;
        }
    }
}

static struct sources sources_of(const struct checked *c) {
    struct sources all = {0};
    for (size_t i = 0; i < c->played_n; i++)
        if (played_counts(&c->played[i]) && c->played[i].set > 0)
            add_point(&all, &c->played[i]);
    add_others(&all, c);
    return all;
}

static double set_end_mm(unsigned ix) {
    return 68 + 12.0 * ix;
}

static void source_row(struct draw *d, const struct sources *all, enum side side, unsigned from,
                       unsigned to, const char *label, bool bold, double y_mm) {
    unsigned sum = 0, set_n = d->tally->checked->set_n;
    if (label)
        page_words(d, 0, y_mm, TYPE_TABLE,
                   page_cut(d, page_say(d, label), TYPE_TABLE, set_end_mm(0) - 7));
    for (unsigned k = 0; k < set_n; k++) {
        unsigned n = 0;
        for (unsigned i = from; i < to; i++)
            n += all->n[k][side][i];
        page_count(d, set_end_mm(k), y_mm, bold, n);
        sum += n;
    }
    page_count(d, set_end_mm(set_n) + 2, y_mm, bold, sum);
}

static double side_sources(struct draw *d, const struct sources *all, enum side side,
                           double y_mm) {
    static const char *const labels[SIDE_N][SOURCE_N] = {
        {WORDS("our aces"), WORDS("their missed serves"), WORDS("rallies won on our serve"),
         WORDS("rallies won on their serve"), WORDS("no serve written")},
        {WORDS("their aces"), WORDS("our missed serves"), WORDS("rallies won on their serve"),
         WORDS("rallies won on our serve"), WORDS("no serve written")},
    };
    double end = set_end_mm(d->tally->checked->set_n) + 2;
    page_words(d, 0, y_mm, TYPE_TABLE_BOLD,
               page_cut(d, page_team(d, side), TYPE_TABLE_BOLD, set_end_mm(0) - 8));
    source_row(d, all, side, 0, SOURCE_N, NULL, true, y_mm);
    for (unsigned i = 0; i < SOURCE_N; i++)
        source_row(d, all, side, i, i + 1, labels[side][i], false, y_mm += row_mm);
    page_rule(d, 0, end, y_mm + 1.7, RULE_TABLE_PT);
    return y_mm + 1.7;
}

static double points(struct draw *d, double y_mm) {
    const struct checked *c = d->tally->checked;
    struct sources all = sources_of(c);
    double end = set_end_mm(c->set_n) + 2;
    page_section(d, 0, end, y_mm, page_say(d, "Where the points came from"), STR_NONE);
    for (unsigned k = 0; k < c->set_n; k++)
        page_column(d, set_end_mm(k), 11, y_mm + 6.5,
                    page_sayf(d, "set %u%s", c->sets[k].number, all.known[k] ? "" : "*"));
    page_right(d, end, y_mm + 6.5, TYPE_NOTE, page_say(d, "all"));
    page_rule(d, 0, end, y_mm + 8.1, RULE_HEAD_PT);
    y_mm = side_sources(d, &all, OURS, y_mm + 12.4);
    y_mm = side_sources(d, &all, THEIRS, y_mm + 4.6);
    for (unsigned k = 0; k < c->set_n; k++)
        if (!all.known[k]) {
            page_words(d, 0, y_mm + 3.5, TYPE_NOTE,
                       page_say(d, "* The score is not known: points of the serves written."));
            return y_mm + 3.5;
        }
    return y_mm;
}

void page_reception(struct draw *d) {
    double left, right, y;
    page_begin(d, page_say(d, "Reception and points"));
    page_heading(d, page_say(d, "Their reception of our serve, and the points"), STR_NONE);
    left = by_receiver(d, tables_y_mm);
    right = by_zone(d, tables_y_mm);
    y = left > right ? left : right;
    y = page_note(d, 0, y + 3.5, PAGE_WIDE_MM,
                  page_say(d, "Balls that were no error of the server; those whose pass is not rated "
                         "count as balls only. Broke: ace, over or a pass of 1, with the 95 % "
                         "interval from 10 balls. A ball belongs to the zone where it was played, "
                         "an untouched one to where it fell."));
    if (d->tally->checked->set_n > 0 && !d->tally->checked->match->ours_only)
        points(d, y + section_mm);
}
