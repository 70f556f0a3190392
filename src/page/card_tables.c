/* Her numbers, and her routine as said and as done. */
#include "page/card_parts.h"

#include <math.h>

static const double wide_mm = 86, rule_mm = 2.5, part_mm = 3.5, block_gap_mm = 1.2;
static const double today_mm = 47, before_mm = 67, as_many_mm = 86, column_mm = 18, head_line_mm = 3.2;
static const double said_mm = 38, did_mm = 62, said_wide_mm = 15, did_wide_mm = 22;

/* How much lower the heads of columns stand, so that the widest has its lines. */
static double head_room(const struct draw *d, struct str widest, double column) {
    return page_width(d, widest, TYPE_EDGE) > column ? head_line_mm : 0;
}

/* ---- her numbers --------------------------------------------------------------- */

static unsigned wide_misses(const struct counts *n) {
    return n->by[OUTCOME_LEFT] + n->by[OUTCOME_RIGHT];
}

static unsigned other_misses(const struct counts *n) {
    return n->missed - n->by[OUTCOME_NET] - n->by[OUTCOME_LONG] - wide_misses(n);
}

static struct card_count counted(const char *label, bool part, const struct card *c,
                                 unsigned today, unsigned before) {
    return (struct card_count){
        label, part, {today, c->who.counts.serves}, {before, c->before.serves}};
}

void card_counts(const struct card *c, struct card_count out[CARD_COUNTS]) {
    const struct counts *t = &c->who.counts, *b = &c->before;
    struct card_count *row = out;
    *row++ = counted(WORDS("Broke their pass"), false, c, t->broke, b->broke);
    *row++ = counted(WORDS("aces"), true, c, t->by[OUTCOME_ACE], b->by[OUTCOME_ACE]);
    *row++ = counted(WORDS("Missed"), false, c, t->missed, b->missed);
    *row++ = counted(WORDS("in the net"), true, c, t->by[OUTCOME_NET], b->by[OUTCOME_NET]);
    *row++ = counted(WORDS("long"), true, c, t->by[OUTCOME_LONG], b->by[OUTCOME_LONG]);
    *row++ = counted(WORDS("wide"), true, c, wide_misses(t), wide_misses(b));
    *row++ = counted(WORDS("other"), true, c, other_misses(t), other_misses(b));
    *row = (struct card_count){
        WORDS("Points won"), false, {t->won, t->decided}, {b->won, b->decided}};
}

/* The season turned into as many serves as today; of few serves it would be none. */
static bool as_many(const struct card *c) {
    return rate_may_say(c->who.counts.serves) >= SAY_INTERVAL &&
           rate_may_say(c->before.serves) >= SAY_COMPARISON;
}

static struct str about(const struct draw *d, double n) {
    if (n > 0 && n < 0.5)
        return page_say(d, "under 1");
    return page_sayf(d, "about %.0f", n);
}

/* The count as words, or as a fraction where these are too wide. */
static struct str fitting(const struct draw *d, struct rate r, struct type type, double room) {
    struct str words = card_of_n(d, r);
    return page_width(d, words, type) <= room ? words : page_fraction(d, r);
}

static void count_row(const struct leaf *l, const struct card_count *r, double y_mm) {
    struct draw *d = l->draw;
    struct type type = r->part ? TYPE_TABLE : TYPE_TABLE_BOLD;
    struct str today = card_of_n(d, r->today);
    double x = r->part ? part_mm : 0, room = today_mm - page_width(d, today, type) - 1.5 - x;
    page_words(d, x, y_mm, type, page_cut(d, page_say(d, r->label), type, room));
    page_right(d, today_mm, y_mm, r->today.x == 0 ? TYPE_ZERO : type, today);
    if (l->card->matches_before == 0)
        return;
    page_right(d, before_mm, y_mm, r->before.x == 0 ? TYPE_ZERO : TYPE_TABLE,
               fitting(d, r->before, TYPE_TABLE, before_mm - today_mm - 1.5));
    if (as_many(l->card) && r->before.n > 0)
        page_right(d, as_many_mm, y_mm, TYPE_TABLE,
                   page_cut(d, about(d, card_in_as_many(r->before, r->today.n)), TYPE_TABLE,
                            as_many_mm - before_mm - 1));
}

static double numbers_head(const struct leaf *l, double y_mm) {
    struct draw *d = l->draw;
    bool season = l->card->matches_before > 0, all = as_many(l->card);
    struct str before = season ? page_say(d, "season before") : STR_NONE;
    struct str many = all ? page_sayf(d, "that is, in %u", l->card->who.counts.serves) : STR_NONE;
    page_section(d, 0, wide_mm, y_mm, page_say(d, "Your numbers"), STR_NONE);
    y_mm += rule_mm + 3.9 + fmax(head_room(d, before, column_mm), head_room(d, many, column_mm));
    page_column(d, today_mm, column_mm, y_mm, page_say(d, "today"));
    page_column(d, before_mm, column_mm, y_mm, before);
    page_column(d, as_many_mm, column_mm, y_mm, many);
    page_rule(d, 0, wide_mm, y_mm + 1.5, RULE_HEAD_PT);
    return y_mm + 1.5;
}

static double numbers_note(const struct leaf *l, double y_mm) {
    struct draw *d = l->draw;
    const struct card *c = l->card;
    unsigned matches = c->matches_before, serves = c->who.counts.serves;
    if (matches == 0)
        return y_mm;
    struct str note =
        rate_may_say(serves) < SAY_COMPARISON
            ? page_say_n(d, matches, "Season: %u match. Today’s serves are too few to compare.",
                         "Season: %u matches. Today’s serves are too few to compare.", matches)
            : page_say_n(d, matches, "Season: %u match.", "Season: %u matches.", matches);
    return page_note(d, 0, y_mm + 3.6, wide_mm, note);
}

double card_numbers(const struct leaf *l, double y_mm) {
    struct card_count rows[CARD_COUNTS];
    card_counts(l->card, rows);
    y_mm = numbers_head(l, y_mm) + 0.2;
    for (unsigned i = 0; i < CARD_COUNTS; i++) {
        if (rows[i].part && rows[i].today.x + rows[i].before.x == 0)
            continue;
        y_mm += l->fit->row_mm + (i > 0 && !rows[i].part ? block_gap_mm : 0);
        count_row(l, &rows[i], y_mm);
    }
    page_rule(l->draw, 0, wide_mm, y_mm + 1.8, RULE_TABLE_PT);
    return numbers_note(l, y_mm + 1.8);
}

/* ---- her routine --------------------------------------------------------------- */

static struct str value(const struct draw *d, enum card_habit_kind kind, unsigned v) {
    return kind == CARD_START ? card_third(d, v) : page_number(d, v);
}

/* So often as said; or what is usual, and so often. */
static struct str did(const struct draw *d, const struct card_habit *h, enum card_habit_kind kind,
                      const struct card_done *done) {
    if (h->is_said || done->done.n == 0)
        return fitting(d, done->done, TYPE_TABLE, did_wide_mm);
    return page_sayf(d, "%.*s in %u of %u", STR_ARG(value(d, kind, done->usual)), done->done.x,
                     done->done.n);
}

static void cells(const struct leaf *l, double y_mm, const char *label, struct str said,
                  struct str today, struct str before) {
    struct draw *d = l->draw;
    page_words(d, 0, y_mm, TYPE_TABLE,
               page_cut(d, page_say(d, label), TYPE_TABLE, said_mm - said_wide_mm - 1));
    page_right(d, said_mm, y_mm, TYPE_TABLE, page_cut(d, said, TYPE_TABLE, said_wide_mm));
    page_right(d, did_mm, y_mm, TYPE_TABLE, page_cut(d, today, TYPE_TABLE, did_wide_mm));
    if (l->card->matches_before > 0)
        page_right(d, wide_mm, y_mm, TYPE_TABLE, page_cut(d, before, TYPE_TABLE, did_wide_mm));
}

static bool habit_known(const struct card_habit *h) {
    return h->is_said || h->today.done.n + h->before.done.n > 0;
}

static double habit_rows(const struct leaf *l, double y_mm) {
    static const char *const labels[CARD_HABITS] = {WORDS("start"), WORDS("paces back"),
                                                    WORDS("steps")};
    struct draw *d = l->draw;
    for (unsigned k = 0; k < CARD_HABITS; k++) {
        const struct card_habit *h = &l->card->habits[k];
        enum card_habit_kind kind = (enum card_habit_kind)k;
        if (!habit_known(h))
            continue;
        y_mm += l->fit->row_mm;
        cells(l, y_mm, labels[k], h->is_said ? value(d, kind, h->said) : STR("–"),
              did(d, h, kind, &h->today), did(d, h, kind, &h->before));
    }
    return y_mm;
}

static struct str height(const struct draw *d, const struct card_heights *h) {
    return h->n ? card_range(d, h->low_m, h->high_m) : STR("–");
}

static bool toss_known(const struct card_toss *t) {
    return t->is_said || t->today.n + t->before.n > 0;
}

static double toss_row(const struct leaf *l, double y_mm) {
    const struct card_toss *t = &l->card->toss;
    struct draw *d = l->draw;
    if (!toss_known(t))
        return y_mm;
    cells(l, y_mm + l->fit->row_mm, WORDS("toss"),
          t->is_said ? card_range(d, t->said_m, t->said_m) : STR("–"), height(d, &t->today),
          height(d, &t->before));
    return y_mm + l->fit->row_mm;
}

/* How steady her toss is, where enough were measured. */
static double steady_note(const struct leaf *l, double y_mm) {
    const struct card_toss *t = &l->card->toss;
    const struct card_heights *h = t->today.has_spread ? &t->today : &t->before;
    struct draw *d = l->draw;
    if (!h->has_spread)
        return y_mm;
    return page_note(d, 0, y_mm + 3.6, wide_mm,
                     page_sayf(d, "Of %u tosses measured most were within %.*s m of %.*s m.", h->n,
                               STR_ARG(page_decimal(d, (int)(h->spread.sd * 100 + 0.5), 2)),
                               STR_ARG(card_metres(d, h->spread.mean))));
}

static bool routine_known(const struct card *c) {
    bool known = toss_known(&c->toss);
    for (unsigned k = 0; k < CARD_HABITS; k++)
        known = known || habit_known(&c->habits[k]);
    return known;
}

double card_routine(const struct leaf *l, double y_mm) {
    struct draw *d = l->draw;
    if (!routine_known(l->card))
        return y_mm;
    y_mm += l->fit->gap_mm;
    page_section(d, 0, wide_mm, y_mm, page_say(d, "Your routine"), STR_NONE);
    struct str said = page_say(d, "you said"), today = page_say(d, "you did, today");
    y_mm += rule_mm + 3.9 + fmax(head_room(d, said, said_wide_mm), head_room(d, today, did_wide_mm));
    page_column(d, said_mm, said_wide_mm, y_mm, said);
    page_column(d, did_mm, did_wide_mm, y_mm, today);
    if (l->card->matches_before > 0)
        page_column(d, wide_mm, did_wide_mm, y_mm, page_say(d, "season before"));
    page_rule(d, 0, wide_mm, y_mm + 1.5, RULE_HEAD_PT);
    y_mm = toss_row(l, habit_rows(l, y_mm + 1.7));
    page_rule(d, 0, wide_mm, y_mm + 1.8, RULE_TABLE_PT);
    return steady_note(l, y_mm + 1.8);
}
