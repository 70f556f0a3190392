/* "What stands out": at most three sentences. Each begins with who and the
 * count, then what to compare it with, also as counts; none of them blames. */
#include "page/first.h"

static const double section_mm = 7.6, first_mm = 6, between_mm = 5.4, lead_mm = 4.3;
static const double text_mm = 7;

/* Whole sentences, since languages order their words each in its own way. */
static const char *const missed_words[SITUATION_N] = {
    [SITUATION_COLD] = WORDS("Cold substitutes missed %u of %u."),
    [SITUATION_TIMEOUT] = WORDS("After a time-out we missed %u of %u."),
    [SITUATION_FIRST] = WORDS("With the first serve of a turn we missed %u of %u."),
    [SITUATION_LATE] = WORDS("From %3$u points on we missed %1$u of %2$u."),
    [SITUATION_SET_POINT] = WORDS("At set point we missed %u of %u."),
};
static const char *const broke_words[SITUATION_N] = {
    [SITUATION_COLD] = WORDS("Cold substitutes broke their pass with %u of %u."),
    [SITUATION_TIMEOUT] = WORDS("After a time-out we broke their pass with %u of %u."),
    [SITUATION_FIRST] = WORDS("With the first serve of a turn we broke their pass with %u of %u."),
    [SITUATION_LATE] = WORDS("From %3$u points on we broke their pass with %1$u of %2$u."),
    [SITUATION_SET_POINT] = WORDS("At set point we broke their pass with %u of %u."),
};
static const char *const error_words[MISS_FAULT] = {
    [MISS_NET] = WORDS("%u of our %u misses went into the net."),
    [MISS_LONG] = WORDS("%u of our %u misses were long."),
    [MISS_WIDE] = WORDS("%u of our %u misses were wide."),
};

static struct str first_words(struct draw *d, const struct finding *f) {
    unsigned late = tally_late_from(&d->tally->checked->match->profile, false);
    const char *words = f->kind == FINDING_ERROR    ? error_words[f->miss]
                        : f->kind == FINDING_MISSED ? missed_words[f->situation]
                                                    : broke_words[f->situation];
    return page_sayf(d, words, f->here.x, f->here.n, late);
}

static void add_cold(struct draw *d, struct buf *b, const struct finding *f) {
    if (f->net_n > 0) {
        buf_char(b, ' ');
        buf_add(b, page_sayf(d, "Into the net: %u of the %u.", f->net_n, f->here.x));
    }
    buf_char(b, ' ');
    buf_add(b, page_say(d, "How long had they moved before the call, and where did they aim?"));
}

static void add_other_misses(struct draw *d, struct buf *b, enum miss but) {
    static const char *const names[MISS_N] = {WORDS("%u into the net"), WORDS("%u long"),
                                              WORDS("%u wide"), WORDS("%u other")};
    struct buf others;
    buf_init(&others, d->arena);
    for (unsigned m = 0; m < MISS_N; m++) {
        unsigned n = study_missed(&d->tally->side[OURS], (enum miss)m);
        if (m == but || n == 0)
            continue;
        if (others.n > 0)
            buf_add(&others, STR(", "));
        buf_add(&others, page_sayf(d, names[m], n));
    }
    if (others.n > 0)
        buf_add(b, page_sayf(d, "The others: %.*s.", STR_ARG(buf_str(&others))));
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
    buf_add(&b, page_sayf(d, "All other serves: %u of %u.", f->rest.x, f->rest.n));
    if (f->situation == SITUATION_LATE && has_decider(d))
        buf_add(&b, page_sayf(d, " In the deciding set: from %u on.",
                              tally_late_from(&d->tally->checked->match->profile, true)));
    if (f->situation == SITUATION_SET_POINT)
        buf_add(&b, page_say(d, " Set point of either side."));
    if (f->situation == SITUATION_COLD && f->kind == FINDING_MISSED && f->here.x > 0)
        add_cold(d, &b, f);
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
    page_words(d, 0, y_mm, TYPE_HEAD, page_say(d, "What stands out"));
    if (f->looked_n > 0)
        page_right(d, PAGE_WIDE_MM, y_mm, TYPE_NOTE,
                   page_sayf(d, "this match only · %u comparisons, chance "
                              "alone lets about one in 20 stand out",
                              f->looked_n));
    y_mm += first_mm;
    if (f->finding_n == 0) {
        page_words(d, 0, y_mm, TYPE_TEXT, page_say(d, "Nothing stands out at these numbers."));
        return y_mm;
    }
    for (unsigned i = 0; i < f->finding_n; i++) {
        if (i > 0)
            y_mm += between_mm;
        y_mm = one_finding(d, &f->findings[i], i + 1, y_mm);
    }
    return y_mm;
}
