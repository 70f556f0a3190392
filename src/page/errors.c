/* How our serves missed: by server and by situation. Both tables add up to the
 * same misses. */
#include "page/draw.h"

static const double tables_y_mm = 19.5;
static const double usual_row_mm = 4.15, tight_row_mm = 3.7;
static const double left_wide_mm = 94, right_mm = 99, column_mm = 9.3, last_mm = 10.5;
enum { USUAL_ROWS = 10 };

/* Columns of a table, as distances from its left edge. */
struct columns {
    double x_mm, wide_mm;
    double kind_mm[MISS_N]; /* where the numbers of each kind end */
};

static const struct columns by_server = {0, left_wide_mm, {54, 63.5, 73, 82.5}};
static const struct columns by_situation = {right_mm, PAGE_WIDE_MM - right_mm, {38, 47.5, 57, 66.5}};

static void head(struct draw *d, const struct columns *c, const char *title, double y_mm) {
    static const char *const kinds[MISS_N] = {WORDS("net"), WORDS("long"), WORDS("wide"),
                                             WORDS("fault")};
    page_section(d, c->x_mm, c->x_mm + c->wide_mm, y_mm, page_say(d, title), STR_NONE);
    for (unsigned k = 0; k < MISS_N; k++)
        page_column(d, c->x_mm + c->kind_mm[k], column_mm, y_mm + 6.5, page_say(d, kinds[k]));
    page_column(d, c->x_mm + c->wide_mm, last_mm, y_mm + 6.5, page_say(d, "missed"));
    page_rule(d, c->x_mm, c->x_mm + c->wide_mm, y_mm + 8.1, RULE_HEAD_PT);
}

static void counts_row(struct draw *d, const struct columns *c, const struct counts *n, bool bold,
                       double y_mm) {
    for (unsigned k = 0; k < MISS_N; k++)
        page_count(d, c->x_mm + c->kind_mm[k], y_mm, bold, study_missed(n, (enum miss)k));
    page_right(d, c->x_mm + c->wide_mm, y_mm,
               bold            ? TYPE_TABLE_BOLD
               : n->missed > 0 ? TYPE_TABLE
                               : TYPE_ZERO,
               page_fraction(d, (struct rate){n->missed, n->serves}));
}

/* The row of all serves; gives where the table ends. */
static double total(struct draw *d, const struct columns *c, const char *label, double label_mm,
                    double y_mm) {
    page_rule(d, c->x_mm, c->x_mm + c->wide_mm, y_mm + 1.5, RULE_HEAD_PT);
    page_words(d, c->x_mm + label_mm, y_mm + 5.2, TYPE_TABLE_BOLD, page_say(d, label));
    counts_row(d, c, &d->tally->side[OURS], true, y_mm + 5.2);
    page_rule(d, c->x_mm, c->x_mm + c->wide_mm, y_mm + 7.1, RULE_TABLE_PT);
    return y_mm + 7.1;
}

static double servers(struct draw *d, double y_mm) {
    static const double no_mm = 4.5, name_mm = 7.5, name_wide_mm = 37;
    struct server rows[PAGE_ROWS_MAX];
    unsigned others_n, n = page_rows(d->tally, rows, &others_n);
    double row_mm = n > USUAL_ROWS ? tight_row_mm : usual_row_mm;
    head(d, &by_server, WORDS("How we missed, by server"), y_mm);
    page_words(d, 0, y_mm + 6.5, TYPE_NOTE, page_say(d, "no."));
    y_mm += 8.1 + 0.2;
    for (unsigned i = 0; i < n; i++) {
        y_mm += row_mm;
        page_row_name(d, &rows[i], i + 1 == n ? others_n : 0, no_mm, name_mm, name_wide_mm, y_mm);
        counts_row(d, &by_server, &rows[i].counts, false, y_mm);
    }
    return total(d, &by_server, WORDS("team"), name_mm, y_mm);
}

static struct str situation_name(struct draw *d, enum situation s) {
    static const char *const names[SITUATION_N] = {WORDS("cold substitute"),
                                                   WORDS("after a time-out"),
                                                   WORDS("first of a turn"), NULL,
                                                   WORDS("set point")};
    if (names[s])
        return page_say(d, names[s]);
    return page_sayf(d, "from %u points on",
                      tally_late_from(&d->tally->checked->match->profile, false));
}

static double situations(struct draw *d, double y_mm) {
    head(d, &by_situation, WORDS("By situation"), y_mm);
    y_mm += 8.1 + 0.2;
    for (unsigned s = 0; s < SITUATION_N; s++) {
        y_mm += usual_row_mm;
        page_words(d, right_mm, y_mm, TYPE_TABLE,
                   page_cut(d, situation_name(d, (enum situation)s), TYPE_TABLE, 31));
        counts_row(d, &by_situation, &d->tally->situation[s], false, y_mm);
    }
    y_mm = total(d, &by_situation, WORDS("any serve"), 0, y_mm);
    return page_note(d, right_mm, y_mm + 3.5, PAGE_WIDE_MM - right_mm,
                     page_say(d, "A serve can stand in several rows; the last counts each once. Cold: "
                            "the first serve after coming in. Wide: left and right. Fault: any "
                            "other miss, such as foot, 8 seconds, antenna."));
}

void page_errors(struct draw *d) {
    page_begin(d, page_say(d, "Misses"));
    page_heading(d, page_say(d, "Misses and the run of the sets"), STR_NONE);
    double left = servers(d, tables_y_mm), right = situations(d, tables_y_mm);
    page_runs(d, page_faults(d, left > right ? left : right));
}
