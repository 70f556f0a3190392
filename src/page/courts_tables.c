/* The tables beside the large court: they add up to the same serves. */
#include "page/courts.h"

#include <assert.h>

static const double wide_mm = 93, mark_a_mm = 2.3, end_mm = 147;
static const double usual_row_mm = 4.15, least_row_mm = 3.5;
enum { PLACES_FOR_ZONES = 10 };

/* What the three tables of this report hold. */
struct layout {
    unsigned counts[PAGE_MARK_N][KNOWN_N];
    bool zones, starts;
    double row_mm;
};

/* How wide the head of a column may be: the last gap is as wide as any. */
static double column_mm(const double ends_mm[]) {
    return ends_mm[3] - ends_mm[2] - 1;
}

/* Rule, heads, rule; gives the baseline of the row before the first. */
static double table_head(struct draw *d, double x_mm, double y_mm, const char *head,
                         const char *note, const char *first, const char *const names[],
                         const double ends_mm[], unsigned n) {
    page_section(d, x_mm, x_mm + wide_mm, y_mm, page_say(d, head),
                 note ? page_say(d, note) : STR_NONE);
    if (first)
        page_words(d, x_mm, y_mm + 6.5, TYPE_NOTE,
                   page_cut(d, page_say(d, first), TYPE_NOTE,
                            ends_mm[0] - page_width(d, page_say(d, names[0]), TYPE_NOTE) - 1.5));
    for (unsigned i = 0; i < n; i++)
        page_column(d, x_mm + ends_mm[i], column_mm(ends_mm), y_mm + 6.5, page_say(d, names[i]));
    page_rule(d, x_mm, x_mm + wide_mm, y_mm + 8.1, RULE_HEAD_PT);
    return y_mm + 7.2;
}

static double table_total(struct draw *d, double x_mm, double y_mm) {
    page_rule(d, x_mm, x_mm + wide_mm, y_mm + 1.5, RULE_HEAD_PT);
    return y_mm + 5;
}

/* ---- marks: the key of the court -------------------------------------------------- */

static const double mark_ends_mm[] = {63, 73, 83, 93};

/* A miss to the left shares the row of one to the right. */
static void mark_counts(const struct tally *t, unsigned counts[PAGE_MARK_N][KNOWN_N]) {
    const struct checked *c = t->checked;
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!played_counts(p) || p->side != OURS)
            continue;
        enum page_mark m = page_mark_of(p);
        assert(m < PAGE_MARK_N);
        counts[m == MARK_LEFT ? MARK_RIGHT : m][tally_known(p)]++;
    }
}

static void number_row(struct draw *d, double x_mm, double y_mm, const unsigned known[KNOWN_N],
                       bool bold) {
    unsigned all = known[KNOWN_PLACE] + known[KNOWN_ZONE] + known[KNOWN_NOT];
    unsigned shown[] = {known[KNOWN_PLACE], known[KNOWN_ZONE], known[KNOWN_NOT], all};
    for (unsigned i = 0; i < 4; i++)
        page_right(d, x_mm + mark_ends_mm[i], y_mm,
                   bold       ? TYPE_TABLE_BOLD
                   : shown[i] ? TYPE_TABLE
                              : TYPE_ZERO,
                   page_number(d, shown[i]));
}

static bool row_shown(const struct layout *plan, unsigned row) {
    const unsigned *known = plan->counts[page_mark_rows[row].mark];
    return page_mark_rows[row].always ||
           known[KNOWN_PLACE] + known[KNOWN_ZONE] + known[KNOWN_NOT] > 0;
}

static void key_mark(struct draw *d, double x_mm, double y_mm, enum page_mark mark) {
    double apart = mark == MARK_RIGHT ? 1.3 : 0;
    if (mark == MARK_RIGHT)
        page_put(d, x_mm - apart, y_mm, mark_a_mm, MARK_LEFT, NULL);
    page_put(d, x_mm + apart, y_mm, mark_a_mm, mark, NULL);
}

static double marks_table(struct draw *d, const struct layout *plan, double x_mm, double y_mm) {
    static const char *const names[] = {WORDS("place"), WORDS("zone"), WORDS("none"),
                                        WORDS("all")};
    const struct tally *t = d->tally;
    double y =
        table_head(d, x_mm, y_mm, WORDS("Marks"),
                   WORDS("solid: fell on the floor; open: where it was played"), NULL, names, mark_ends_mm, 4);
    for (unsigned i = 0; i < MARK_ROWS; i++) {
        if (!row_shown(plan, i))
            continue;
        y += plan->row_mm;
        key_mark(d, x_mm + 2.5, y - 1.1, page_mark_rows[i].mark);
        page_words(d, x_mm + 6.5, y, TYPE_TABLE,
                   page_cut(d, page_say(d, page_mark_rows[i].words), TYPE_TABLE, 50));
        number_row(d, x_mm, y, plan->counts[page_mark_rows[i].mark], false);
    }
    y = table_total(d, x_mm, y);
    page_words(d, x_mm + 6.5, y, TYPE_TABLE_BOLD, page_say(d, "all serves"));
    number_row(d, x_mm, y, t->known[OURS], true);
    page_rule(d, x_mm, x_mm + wide_mm, y + 1.8, RULE_TABLE_PT);
    return page_note(d, x_mm, y + 5, wide_mm, page_say(d, "Place: metres given; zone: zone only; none: nothing given."));
}

/* ---- by zone and by start: counts and fractions ------------------------------------- */

static const double count_ends_mm[] = {34, 56, 74, 93};

static struct rate of_all(const struct counts *c, unsigned x) {
    return (struct rate){x, c->serves};
}

static void fraction_row(struct draw *d, double x_mm, double y_mm, const char *label,
                         const struct counts *c, unsigned third, bool bold) {
    struct type type = bold ? TYPE_TABLE_BOLD : c->serves > 0 ? TYPE_TABLE : TYPE_ZERO;
    struct rate won = {c->won, c->decided};
    struct type name = bold ? TYPE_TABLE_BOLD : TYPE_TABLE;
    page_words(d, x_mm, y_mm, name,
               page_cut(d, page_say(d, label), name, count_ends_mm[0] - 6));
    page_right(d, x_mm + count_ends_mm[0], y_mm, type, page_number(d, c->serves));
    page_right(d, x_mm + count_ends_mm[1], y_mm, type, page_fraction(d, of_all(c, c->broke)));
    page_right(d, x_mm + count_ends_mm[2], y_mm, type, page_fraction(d, of_all(c, third)));
    page_right(d, x_mm + count_ends_mm[3], y_mm, type, page_fraction(d, won));
}

static double zones_table(struct draw *d, const struct layout *plan, double x_mm, double y_mm) {
    static const char *const names[] = {WORDS("serves"), WORDS("broke the pass"),
                                        WORDS("aces"), WORDS("rally won")};
    static const char *const back[] = {WORDS("5 back right"), WORDS("6 back middle"),
                                       WORDS("1 back left")};
    static const unsigned back_zone[] = {5, 6, 1}, front_zone[] = {4, 3, 2};
    const struct counts *in = d->tally->in_zone;
    struct counts front = {0}, all = {0};
    double y = table_head(d, x_mm, y_mm, WORDS("By zone of the receiving court"), NULL,
                          WORDS("zone, our view"),
                          names, count_ends_mm, 4);
    for (unsigned i = 0; i < 3; i++) {
        fraction_row(d, x_mm, y += plan->row_mm, back[i], &in[back_zone[i]],
                     in[back_zone[i]].by[OUTCOME_ACE], false);
        tally_merge(&front, &in[front_zone[i]]);
    }
    fraction_row(d, x_mm, y += plan->row_mm, WORDS("4, 3, 2 front"), &front, front.by[OUTCOME_ACE], false);
    if (in[ZONE_SEAM].serves > 0)
        fraction_row(d, x_mm, y += plan->row_mm, WORDS("between two zones"), &in[ZONE_SEAM],
                     in[ZONE_SEAM].by[OUTCOME_ACE], false);
    fraction_row(d, x_mm, y += plan->row_mm, WORDS("not recorded"), &in[ZONE_UNKNOWN],
                 in[ZONE_UNKNOWN].by[OUTCOME_ACE], false);
    for (unsigned i = 0; i < ZONE_N; i++)
        tally_merge(&all, &in[i]);
    y = table_total(d, x_mm, y);
    fraction_row(d, x_mm, y, WORDS("in the court"), &all, all.by[OUTCOME_ACE], true);
    page_rule(d, x_mm, x_mm + wide_mm, y + 1.8, RULE_TABLE_PT);
    return page_note(d, x_mm, y + 5, wide_mm, page_say(d, "Where the ball was played is short of where it would have landed."));
}

static double starts_table(struct draw *d, const struct layout *plan, double x_mm, double y_mm) {
    static const char *const names[] = {WORDS("serves"), WORDS("broke the pass"),
                                        WORDS("missed"), WORDS("rally won")};
    static const char *const thirds[] = {WORDS("not recorded"), WORDS("right third"),
                                         WORDS("middle third"), WORDS("left third")};
    static const enum third order[] = {THIRD_RIGHT, THIRD_MIDDLE, THIRD_LEFT, THIRD_NONE};
    const struct counts *from = d->tally->from_third, *all = &d->tally->side[OURS];
    double y = table_head(d, x_mm, y_mm, WORDS("By start"), NULL, WORDS("third of service zone"), names,
                          count_ends_mm, 4);
    for (unsigned i = 0; i < 4; i++)
        if (order[i] != THIRD_NONE || from[THIRD_NONE].serves > 0)
            fraction_row(d, x_mm, y += plan->row_mm, thirds[order[i]], &from[order[i]],
                         from[order[i]].missed, false);
    y = table_total(d, x_mm, y);
    fraction_row(d, x_mm, y, WORDS("all"), all, all->missed, true);
    page_rule(d, x_mm, x_mm + wide_mm, y + 1.8, RULE_TABLE_PT);
    return y + 1.8;
}

/* Enough serves with a place or zone for a table by zone, and any start at
 * all. The rows come closer together when there are many of them. */
static struct layout layout_of(const struct tally *t, double y_mm) {
    struct layout p = {.row_mm = usual_row_mm};
    unsigned rows = 0;
    double fixed = 7.2 + 5 + 5;
    mark_counts(t, p.counts);
    for (unsigned i = 0; i < MARK_ROWS; i++)
        rows += row_shown(&p, i);
    p.zones = t->known[OURS][KNOWN_PLACE] + t->known[OURS][KNOWN_ZONE] >= PLACES_FOR_ZONES;
    p.starts = t->from_third[THIRD_NONE].serves < t->side[OURS].serves;
    if (p.zones) {
        rows += t->in_zone[ZONE_SEAM].serves > 0 ? 6 : 5;
        fixed += 7 + 7.2 + 5 + 5;
    }
    if (p.starts) {
        rows += t->from_third[THIRD_NONE].serves > 0 ? 4 : 3;
        fixed += 7 + 7.2 + 5 + 1.8;
    }
    double row = (end_mm - y_mm - fixed) / rows;
    p.row_mm = row > usual_row_mm ? usual_row_mm : row < least_row_mm ? least_row_mm : row;
    return p;
}

void page_courts_tables(struct draw *d, double x_mm, double y_mm) {
    struct layout plan = layout_of(d->tally, y_mm);
    double y = marks_table(d, &plan, x_mm, y_mm);
    if (plan.zones)
        y = zones_table(d, &plan, x_mm, y + 7);
    if (plan.starts)
        starts_table(d, &plan, x_mm, y + 7);
    else
        page_words(d, x_mm, y + 4, TYPE_NOTE, page_say(d, "No start was recorded."));
}
