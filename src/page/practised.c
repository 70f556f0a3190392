/* Practice beside matches: how often each server missed in either. A receiver
 * stands in a match alone, so that nothing else can be compared. */
#include "page/draw.h"

static const double head_mm = 6.5, rule_mm = 8.1, row_mm = 4.1, note_mm = 3.5, last_mm = 8;
static const double no_mm = 4.5, name_mm = 7.5, name_wide_mm = 37;
static const double matches_mm = 66, practice_mm = 88, difference_mm = 126;

/* One server's misses in matches and at practice. */
struct practised {
    struct rate matches, practice;
};

static struct rate missed(const struct progress *p, size_t person, enum progress_kind kind,
                          struct arena *a) {
    struct progress_series s = progress_series(p, person, kind, a);
    struct rate sum = {0, 0};
    for (size_t i = 0; i < s.n; i++)
        sum = rate_sum(sum, (struct rate){s.days[i].counts.missed, s.days[i].counts.serves});
    return sum;
}

static struct practised practised_of(struct draw *d, const struct advice *season,
                                     const struct faults_server *who) {
    const struct progress *p = season->progress;
    struct practised out = {{0, 0}, {0, 0}};
    for (size_t i = 0; i < progress_people(p); i++) {
        const struct person *person = progress_person(p, i);
        if (!pool_same_person(person, who->person))
            continue;
        out.matches = missed(p, i, PROGRESS_MATCHES, d->arena);
        out.practice = missed(p, i, PROGRESS_SERVES, d->arena);
    }
    return out;
}

/* What may be said of the difference stands in rate.h. */
static struct str difference(const struct draw *d, struct practised p) {
    struct interval i;
    if (rate_may_say(p.matches.n) < SAY_COMPARISON || rate_may_say(p.practice.n) < SAY_COMPARISON ||
        !rate_difference(p.matches, p.practice, &i))
        return page_say(d, "too few to say");
    return page_sayf(d, "%.*s (%.*s to %.*s)",
                     STR_ARG(page_signed(d, rate_frac(p.matches) - rate_frac(p.practice))),
                     STR_ARG(page_signed(d, i.low)), STR_ARG(page_signed(d, i.high)));
}

static void row(struct draw *d, const struct faults_server *who, struct practised p, double y_mm) {
    struct str name = d->facts->no_names ? STR_NONE : who->name;
    page_right(d, no_mm, y_mm, TYPE_TABLE, page_number(d, who->shirt));
    page_words(d, name_mm, y_mm, TYPE_TABLE, page_cut(d, name, TYPE_TABLE, name_wide_mm));
    page_right(d, matches_mm, y_mm, TYPE_TABLE, page_fraction(d, p.matches));
    page_right(d, practice_mm, y_mm, TYPE_TABLE, page_fraction(d, p.practice));
    page_right(d, difference_mm, y_mm, TYPE_NOTE, difference(d, p));
}

static double heads(struct draw *d, double y_mm) {
    page_section(d, 0, difference_mm, y_mm, page_say(d, "Missed in matches and at practice"),
                 STR_NONE);
    page_column(d, matches_mm, 18, y_mm + head_mm, page_say(d, "in matches"));
    page_column(d, practice_mm, 20, y_mm + head_mm, page_say(d, "at practice"));
    page_column(d, difference_mm, 36, y_mm + head_mm, page_say(d, "difference in 100, 95 %"));
    page_rule(d, 0, difference_mm, y_mm + rule_mm, RULE_HEAD_PT);
    return y_mm + rule_mm + 0.2;
}

double page_practised(struct draw *d, const struct advice *season, double y_mm, page_turn *turn) {
    const struct faults *f = season->faults;
    double y = y_mm;
    unsigned n = 0;
    for (size_t i = 0; i < f->server_n; i++) {
        struct practised p = practised_of(d, season, &f->servers[i]);
        if (p.practice.n == 0)
            continue;
        if (n == 0)
            y = heads(d, y_mm);
        else if (y + row_mm + last_mm > BODY_END_MM - d->push_mm) {
            page_rule(d, 0, difference_mm, y + 1.6, RULE_TABLE_PT);
            y = heads(d, turn(d));
        }
        n++;
        row(d, &f->servers[i], p, y += row_mm);
    }
    if (n == 0)
        return page_note(d, 0, y_mm, PAGE_WIDE_MM,
                         page_say(d, "No practice of the season has a serve written down."));
    page_rule(d, 0, difference_mm, y + 1.6, RULE_TABLE_PT);
    return page_note(d, 0, y + 1.6 + note_mm, PAGE_WIDE_MM,
                     page_say(d, "A drill asks for another serve than a match does: a difference "
                                 "does not say that nerves make it."));
}
