/* "What stands out": at most three sentences. Each begins with who and the
 * count, then what to compare it with, also as counts; none of them blames. */
#include "page/first.h"

static const double section_mm = 7.6, first_mm = 6, between_mm = 5.4, lead_mm = 4.3;
static const double text_mm = 7;

static const char *const who[SITUATION_N] = {
    [SITUATION_COLD] = "Cold substitutes",
    [SITUATION_TIMEOUT] = "After a time-out we",
    [SITUATION_FIRST] = "With the first serve of a turn we",
    [SITUATION_LATE] = "", /* with the points of the rules */
    [SITUATION_SET_POINT] = "At set point we",
};

static struct str first_words(struct draw *d, const struct finding *f) {
    static const char *const how[MISS_N] = {"went into the net", "were long", "were wide", ""};
    struct str where = str_of(who[f->situation]);
    if (f->situation == SITUATION_LATE)
        where = str_printf(d->arena, "From %u points on we",
                           tally_late_from(&d->tally->checked->match->profile, false));
    switch (f->kind) {
    case FINDING_MISSED:
        return str_printf(d->arena, "%.*s missed %u of %u.", STR_ARG(where), f->here.x,
                          f->here.n);
    case FINDING_BROKE:
        return str_printf(d->arena, "%.*s broke their pass with %u of %u.", STR_ARG(where),
                          f->here.x, f->here.n);
    case FINDING_ERROR:
        return str_printf(d->arena, "%u of our %u misses %s.", f->here.x, f->here.n, how[f->miss]);
    }
    return STR_NONE;
}

static void add_cold(struct buf *b, const struct finding *f) {
    if (f->net_n > 0)
        buf_printf(b, " Into the net: %u of the %u.", f->net_n, f->here.x);
    buf_add(b, STR(" How long had they moved before the call, and where did they aim?"));
}

static void add_other_misses(struct draw *d, struct buf *b, enum miss but) {
    static const char *const names[MISS_N] = {"into the net", "long", "wide", "other"};
    const char *join = "The others: ";
    for (unsigned m = 0; m < MISS_N; m++) {
        unsigned n = study_missed(&d->tally->side[OURS], (enum miss)m);
        if (m == but || n == 0)
            continue;
        buf_printf(b, "%s%u %s", join, n, names[m]);
        join = ", ";
    }
    if (b->n > 0)
        buf_char(b, '.');
}

static bool has_decider(const struct draw *d) {
    const struct checked *c = d->tally->checked;
    for (unsigned set = 1; set <= c->set_n; set++)
        if (tally_decides(c, set))
            return true;
    return false;
}

static struct str then(struct draw *d, const struct finding *f) {
    struct buf b;
    buf_init(&b, d->arena);
    if (f->kind == FINDING_ERROR) {
        add_other_misses(d, &b, f->miss);
        return buf_str(&b);
    }
    buf_printf(&b, "All other serves: %u of %u.", f->rest.x, f->rest.n);
    if (f->situation == SITUATION_LATE && has_decider(d))
        buf_printf(&b, " In the deciding set: from %u on.",
                   tally_late_from(&d->tally->checked->match->profile, true));
    if (f->situation == SITUATION_SET_POINT)
        buf_add(&b, STR(" Set point of either side."));
    if (f->situation == SITUATION_COLD && f->kind == FINDING_MISSED && f->here.x > 0)
        add_cold(&b, f);
    return buf_str(&b);
}

static double one_finding(struct draw *d, const struct finding *f, unsigned number, double y_mm) {
    double end, wide = PAGE_WIDE_MM - text_mm;
    page_words(d, 0, y_mm, (struct type){TYPE_ANSWER_PT, FACE_BOLD, INK_BLACK},
               page_number(d, number));
    y_mm =
        page_wrapped(d, text_mm, 0, y_mm, wide, lead_mm, TYPE_TEXT_BOLD, first_words(d, f), &end);
    return page_wrapped(d, text_mm, end + 1, y_mm, wide, lead_mm, TYPE_TEXT, then(d, f), NULL);
}

double page_first_findings(struct draw *d, const struct first *f, double y_mm) {
    if (d->tally->side[OURS].serves == 0)
        return y_mm;
    y_mm += section_mm;
    page_words(d, 0, y_mm, TYPE_HEAD, STR("What stands out"));
    if (f->looked_n > 0)
        page_right(d, PAGE_WIDE_MM, y_mm, TYPE_NOTE,
                   str_printf(d->arena,
                              "this match only \xC2\xB7 %u comparisons, chance "
                              "alone lets about one in 20 stand out",
                              f->looked_n));
    y_mm += first_mm;
    if (f->finding_n == 0) {
        page_words(d, 0, y_mm, TYPE_TEXT, STR("Nothing stands out at these numbers."));
        return y_mm;
    }
    for (unsigned i = 0; i < f->finding_n; i++) {
        if (i > 0)
            y_mm += between_mm;
        y_mm = one_finding(d, &f->findings[i], i + 1, y_mm);
    }
    return y_mm;
}
