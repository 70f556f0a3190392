/* Marks of technique beside the misses of one match. It is too short to test
 * any: the page shows counts and how wide the interval of each ratio is. */
#include "page/draw.h"

#include "faults.h"

static const double section_mm = 9, head_mm = 6.5, rule_mm = 8.1, row_mm = 4.15, note_mm = 3.5;
static const double label_wide_mm = 40, seen_mm = 50, with_mm = 71, without_mm = 94;
static const struct log_scale scale = {98, 148, 0.25, 16};

/* The section while it is drawn. */
struct marks {
    struct faults_row rows[MARK_N];
    unsigned n;                  /* that were seen and may be shown */
    unsigned ratio_n, off_n;     /* ratios, and those whose interval lies off 1 */
};

static bool off_one(struct twoway_risk r) {
    return r.low > 1 || (r.bounded && r.high < 1);
}

static struct marks marks_of(struct draw *d) {
    struct faults *f = faults_new(d->arena);
    struct faults_row all[MARK_N];
    struct marks m = {.n = 0};
    faults_add(f, d->tally->checked);
    unsigned all_n = faults_rows(f, all, d->arena);
    for (unsigned i = 0; i < all_n; i++) {
        if (!page_mark_seen(all[i].mark))
            continue;
        m.rows[m.n++] = all[i];
        m.ratio_n += all[i].has_risk;
        m.off_n += all[i].has_risk && off_one(all[i].risk);
    }
    return m;
}

static void heads(struct draw *d, double y_mm) {
    page_words(d, 0, y_mm, TYPE_NOTE, page_say(d, "mark"));
    page_column(d, seen_mm, 9, y_mm, page_say(d, "seen"));
    page_column(d, with_mm, 20, y_mm, page_say(d, "missed with it"));
    page_column(d, without_mm, 22, y_mm, page_say(d, "missed without"));
    page_column(d, PAGE_WIDE_MM, 25, y_mm, page_say(d, "times as often"));
}

static void row(struct draw *d, const struct faults_row *r, double y_mm) {
    struct rate with = twoway_with(r->table), without = twoway_without(r->table);
    struct str name = page_say(d, page_mark_seen(r->mark));
    page_words(d, 0, y_mm, TYPE_TABLE, page_cut(d, name, TYPE_TABLE, label_wide_mm));
    page_count(d, seen_mm, y_mm, false, with.n);
    page_right(d, with_mm, y_mm, TYPE_TABLE, page_fraction(d, with));
    page_right(d, without_mm, y_mm, TYPE_TABLE, page_fraction(d, without));
    if (r->has_risk)
        page_ratio(d, &scale, y_mm - 1.1, r->risk);
    page_right(d, PAGE_WIDE_MM, y_mm, TYPE_NOTE,
               r->has_risk ? page_ratio_words(d, r->risk) : page_say(d, "too few to say"));
}

static double table(struct draw *d, const struct marks *m, double y_mm) {
    double top = y_mm + rule_mm, end = top + 0.2 + row_mm * m->n + 1.6;
    heads(d, y_mm + head_mm);
    page_rule(d, 0, PAGE_WIDE_MM, top, RULE_HEAD_PT);
    page_ratio_labels(d, &scale, y_mm + head_mm);
    page_ratio_grid(d, &scale, top, end);
    for (unsigned i = 0; i < m->n; i++)
        row(d, &m->rows[i], top + 0.2 + row_mm * (i + 1));
    page_rule(d, 0, PAGE_WIDE_MM, end, RULE_TABLE_PT);
    return end;
}

static bool seen(const struct marks *m, enum mark mark) {
    for (unsigned i = 0; i < m->n; i++)
        if (m->rows[i].mark == mark)
            return true;
    return false;
}

/* "Observed and not seen: toss too high, head down." */
static struct str not_seen(struct draw *d, const struct marks *m, unsigned phases) {
    struct buf b;
    buf_init(&b, d->arena);
    for (unsigned k = 0; k < MARK_N; k++) {
        const char *words = page_mark_seen((enum mark)k);
        if (!words || !(mark_phase((enum mark)k) & phases) || seen(m, (enum mark)k))
            continue;
        if (b.n > 0)
            buf_add(&b, STR(", "));
        buf_add(&b, page_say(d, words));
    }
    if (b.n == 0)
        return STR_NONE;
    return page_sayf(d, " Looked for and not seen: %.*s.", STR_ARG(buf_str(&b)));
}

static struct str off_words(struct draw *d, const struct marks *m) {
    if (m->ratio_n == 0)
        return STR_NONE;
    if (m->off_n == 0)
        return page_say(d, " No interval lies off 1: no mark is shown to go with misses here.");
    return page_say_n(d, m->off_n,
                      " %u of %u intervals lies off 1; chance alone puts one in 20 there.",
                      " %u of %u intervals lie off 1; chance alone puts one in 20 there.", m->off_n,
                      m->ratio_n);
}

static struct str note(struct draw *d, const struct marks *m) {
    struct str how = m->ratio_n == 0
                         ? page_sayf(d, "A mark needs to be seen %u times, among %u misses, before "
                                        "a ratio is drawn.",
                                     TWOWAY_FEWEST, TWOWAY_FEWEST)
                         : page_say(d, "Times as often: each server beside herself, all weighed "
                                       "together (Mantel and Haenszel), with 95 % interval.");
    struct str few = page_sayf(d, " One match tests nothing: that takes %u serves of a server.",
                               rate_say_from_n(SAY_SEASON));
    return str_printf(d->arena, "%.*s%.*s%.*s%.*s", STR_ARG(how), STR_ARG(off_words(d, m)),
                      STR_ARG(few), STR_ARG(not_seen(d, m, d->tally->checked->phases)));
}

/* Of how many of our serves some phase was observed. */
static unsigned observed_n(const struct checked *c) {
    unsigned n = 0;
    for (size_t i = 0; i < c->played_n; i++)
        n += c->played[i].side == OURS && played_counts(&c->played[i]) && c->played[i].observed;
    return n;
}

double page_faults(struct draw *d, double y_mm) {
    const struct checked *c = d->tally->checked;
    struct str phases = page_phases(d, c->phases);
    unsigned ours_n = d->tally->side[OURS].serves;
    struct marks m = marks_of(d);
    struct str head = page_say(d, "Marks of technique and misses");
    y_mm += section_mm;
    if (phases.n == 0 || m.n == 0) {
        page_section(d, 0, PAGE_WIDE_MM, y_mm, head, STR_NONE);
        return page_note(d, 0, y_mm + head_mm, PAGE_WIDE_MM,
                         phases.n == 0
                             ? page_say(d, "Technique was not observed in this match.")
                             : page_sayf(d, "Observed: %.*s. None of their marks was seen.", STR_ARG(phases)));
    }
    page_section(d, 0, PAGE_WIDE_MM, y_mm, head,
                 page_sayf(d, "observed: %.*s · in %u of our %u serves", STR_ARG(phases),
                           observed_n(c), ours_n));
    y_mm = table(d, &m, y_mm);
    return page_note(d, 0, y_mm + note_mm, PAGE_WIDE_MM, note(d, &m));
}
