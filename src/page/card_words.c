/* What a card says: plain words for one player, counts and no judgement. */
#include "page/card_parts.h"

#include <math.h>

struct str card_of_n(const struct draw *d, struct rate r) {
    return r.n ? page_sayf(d, "%u of %u", r.x, r.n) : STR("–");
}

struct str card_metres(const struct draw *d, double m) {
    return page_decimal(d, (int)lround(m * 10) * 10, 1);
}

struct str card_range(const struct draw *d, double low_m, double high_m) {
    struct str low = card_metres(d, low_m), high = card_metres(d, high_m);
    return str_eq(low, high) ? page_sayf(d, "%.*s m", STR_ARG(low))
                             : page_sayf(d, "%.*s to %.*s m", STR_ARG(low), STR_ARG(high));
}

struct str card_third(const struct draw *d, unsigned third) {
    static const char *const names[] = {NULL, WORDS("right"), WORDS("middle"), WORDS("left")};
    return third == THIRD_NONE ? STR("–") : page_say(d, names[third]);
}

struct str card_name(const struct draw *d, const struct card *c) {
    return page_server(d, &c->who);
}

/* ---- what goes well ----------------------------------------------------------- */

static bool always(const struct card *c, enum card_habit_kind kind) {
    const struct card_habit *h = &c->habits[kind];
    return h->is_said && h->today.done.n > 1 && h->today.done.x == h->today.done.n &&
           h->today.done.n == c->who.counts.serves;
}

static struct str habit_kept(const struct draw *d, const struct card *c) {
    unsigned n = c->who.counts.serves;
    if (always(c, CARD_START))
        return page_sayf(d, "All %u serves came from your own start.", n);
    if (always(c, CARD_PACES))
        return page_sayf(d, "All %u serves had your own paces.", n);
    if (always(c, CARD_STEPS))
        return page_sayf(d, "All %u serves had your own steps.", n);
    return STR_NONE;
}

struct str card_strength(const struct draw *d, const struct card *c) {
    const struct counts *n = &c->who.counts;
    struct str kept = habit_kept(d, c);
    if (n->broke > 0 && (3 * n->broke >= n->serves || n->broke >= n->missed))
        return n->serves == 1 ? page_say(d, "Your serve broke their pass.")
                              : page_say_n(d, n->serves, "%u of your %u serve broke their pass.",
                                           "%u of your %u serves broke their pass.", n->broke,
                                           n->serves);
    if (kept.n > 0)
        return kept;
    if (n->by[OUTCOME_NET] == 0 && n->serves > 1)
        return page_sayf(d, "None of your %u serves went into the net.", n->serves);
    return page_say_n(d, n->serves, "You served %u time.", "You served %u times.", n->serves);
}

struct str card_strength_more(const struct draw *d, const struct card *c) {
    const struct counts *n = &c->who.counts;
    struct str kept = habit_kept(d, c);
    struct buf b;
    buf_init(&b, d->arena);
    if (n->serves == 1 && n->by[OUTCOME_ACE] == 1)
        buf_add(&b, page_say(d, "It was an ace."));
    else if (n->by[OUTCOME_ACE] > 0)
        buf_add(&b, page_say_n(d, n->by[OUTCOME_ACE], "%u of them was an ace.", "%u of them were aces.",
                               n->by[OUTCOME_ACE]));
    if (kept.n > 0 && !str_eq(kept, card_strength(d, c)))
        buf_printf(&b, "%s%.*s", b.n ? " " : "", STR_ARG(kept));
    return buf_str(&b);
}

/* ---- her one thing ------------------------------------------------------------ */

struct str card_cue(const struct draw *d, const struct card *c) {
    const char *cue = c->focus.chosen ? page_cue(c->focus.progress.treats) : NULL;
    if (!c->focus.chosen)
        return page_say(d, "No focus chosen yet.");
    return cue ? page_say(d, cue) : c->focus.progress.drill;
}

struct str card_cue_more(const struct draw *d, const struct card *c) {
    if (!c->focus.chosen)
        return page_say(d, "Talk to your coach.");
    return page_sayf(d, "Your focus since %.*s: %.*s.",
                     STR_ARG(page_day(d, c->focus.progress.since)),
                     STR_ARG(c->focus.progress.drill));
}

/* ---- her misses --------------------------------------------------------------- */

static void listed(struct buf *b, struct str words, unsigned n) {
    if (n > 0)
        buf_printf(b, "%s%.*s %u", b->n ? ", " : "", STR_ARG(words), n);
}

/* "into the net 2, long 1" */
static struct str kinds(const struct draw *d, const struct counts *n) {
    static const enum word_id first[] = {W_net, W_long, W_left, W_right, W_foot, W_antenna,
                                         W_ceiling, W_clock, W_drop};
    unsigned named = 0;
    struct buf b;
    buf_init(&b, d->arena);
    for (size_t i = 0; i < sizeof first / sizeof *first; i++) {
        unsigned of = n->by[word_info(first[i])->value];
        listed(&b, page_say(d, page_cue_seen(first[i])), of);
        named += of;
    }
    listed(&b, page_say(d, "other"), n->missed - named);
    return buf_str(&b);
}

static struct str seen(const struct draw *d, const struct card_misses *m) {
    struct buf b;
    buf_init(&b, d->arena);
    for (unsigned k = 0; k < MARK_N; k++) {
        const char *words = page_cue_seen((enum word_id)(W_td + k));
        if (words)
            listed(&b, page_say(d, words), m->marked[k]);
    }
    listed(&b, page_say(d, "nothing"), m->plain_n);
    return buf_str(&b);
}

static void add_sentence(struct buf *b, struct str words) {
    buf_printf(b, "%s%.*s", b->n ? " " : "", STR_ARG(words));
}

static struct str range(const struct draw *d, const struct card_margin *m) {
    return card_range(d, m->low_cm / 100.0, m->high_cm / 100.0);
}

struct str card_misses(const struct draw *d, const struct card *c) {
    const struct card_misses *m = &c->misses;
    unsigned n = c->who.counts.missed;
    struct buf b;
    if (n == 0)
        return page_say(d, "None today.");
    buf_init(&b, d->arena);
    add_sentence(&b, page_say_n(d, n, "%u serve missed: %.*s.", "%u serves missed: %.*s.", n,
                                STR_ARG(kinds(d, &c->who.counts))));
    if (m->past.n > 0)
        add_sentence(&b, page_sayf(d, "Past the line by %.*s.", STR_ARG(range(d, &m->past))));
    if (m->under.n > 0)
        add_sentence(&b, page_sayf(d, "Under the tape by %.*s.", STR_ARG(range(d, &m->under))));
    struct str marks = seen(d, m);
    if (marks.n > 0)
        add_sentence(&b, page_sayf(d, "Seen with them: %.*s.", STR_ARG(marks)));
    return buf_str(&b);
}

/* ---- the video ---------------------------------------------------------------- */

enum { TIMES_MOST = 6 };

static bool shows_focus(const struct card *c, const struct played *p) {
    const struct word_info *w = word_info(c->focus.progress.treats);
    if (!c->focus.chosen || !card_has(c, p) || !(p->said.has & HAS_TIME))
        return false;
    return w->class == WORD_MARK ? p->said.marks >> w->value & 1 : p->said.outcome == w->value;
}

/* h:mm:ss, or mm:ss in the first hour. */
static struct str clock_time(const struct draw *d, unsigned s) {
    if (s < 3600)
        return str_printf(d->arena, "%u:%02u", s / 60, s % 60);
    return str_printf(d->arena, "%u:%02u:%02u", s / 3600, s / 60 % 60, s % 60);
}

struct str card_times(const struct draw *d, const struct card *c) {
    const struct checked *facts = d->tally->checked;
    unsigned n = 0;
    struct buf b;
    buf_init(&b, d->arena);
    for (size_t i = 0; i < facts->played_n && n < TIMES_MOST; i++)
        if (shows_focus(c, &facts->played[i]))
            buf_printf(&b, "%s%.*s", n++ ? ", " : "",
                       STR_ARG(clock_time(d, facts->played[i].said.time_s)));
    if (n > 0)
        buf_char(&b, ':');
    return buf_str(&b);
}

struct str card_question(const struct draw *d, const struct card *c) {
    const char *question =
        c->focus.chosen ? page_cue_question(c->focus.progress.treats) : NULL;
    return page_say(d, question ? question
                                : WORDS("does your toss come down in the same place each time?"));
}

/* ---- the air ------------------------------------------------------------------ */

static struct str behind_or_past(const struct draw *d, const struct card_reach *r) {
    struct str far = card_metres(d, fabs(r->contact_m));
    if (r->contact_m < -0.05)
        return page_sayf(d, "%u measured: you hit it %.*s m behind the end line.", r->n,
                         STR_ARG(far));
    if (r->contact_m > 0.05)
        return page_sayf(d, "%u measured: you hit it %.*s m past the end line.", r->n,
                         STR_ARG(far));
    return page_sayf(d, "%u measured: you hit it above the end line.", r->n);
}

/* Metres and milliseconds, to ten. */
static struct str given_away(const struct draw *d, const struct card_reach *r) {
    double shorter_m = r->at.hands.path_m - r->nearer_at.hands.path_m;
    int sooner_ms = (int)lround((r->at.hands.t_s - r->nearer_at.hands.t_s) * 100) * 10;
    if (shorter_m < 0.1 || sooner_ms < 10)
        return page_say(d, "So the receivers get no more time than they must.");
    if (r->jumps)
        return page_sayf(d,
                         "The same serve, hit half a metre past the line, flies %.*s m less and is "
                         "there %d ms sooner. Take off behind the line all the same.",
                         STR_ARG(card_metres(d, shorter_m)), sooner_ms);
    return page_sayf(d,
                     "The same serve, hit above the line, flies %.*s m less and is there %d ms "
                     "sooner. Your feet stay behind it.",
                     STR_ARG(card_metres(d, shorter_m)), sooner_ms);
}

struct str card_reach(const struct draw *d, const struct card *c) {
    struct buf b;
    buf_init(&b, d->arena);
    add_sentence(&b, behind_or_past(d, &c->reach));
    add_sentence(&b, given_away(d, &c->reach));
    return buf_str(&b);
}

/* Advice for anybody; never one that a cue against the net would contradict. */
static struct str general_aim(const struct draw *d, const struct card *c) {
    if (c->focus.chosen && c->focus.progress.treats == W_net)
        return page_say(d, "Choose one place before each serve, deep in their court: a deep aim "
                           "clears the net. Keep two metres from the side lines.");
    return page_say(d, "Choose one place before each serve, about two metres inside the lines: "
                       "every serve strays a little.");
}

static struct str own_aim(const struct draw *d, const struct card_aim *a) {
    struct str end = card_metres(d, 9 - a->d_m);
    if (a->x_m > 4.5)
        return page_sayf(d, "Aim %.*s m inside the end line and %.*s m inside the left side line.",
                         STR_ARG(end), STR_ARG(card_metres(d, 9 - a->x_m)));
    return page_sayf(d, "Aim %.*s m inside the end line and %.*s m inside the right side line.",
                     STR_ARG(end), STR_ARG(card_metres(d, a->x_m)));
}

/* What comes of the aim; and whether it is worth a change. */
static void add_outcome(const struct draw *d, struct buf *b, const struct card_aim *a) {
    add_sentence(b, page_sayf(d, "Aimed there, about %.0f in 100 land in the court; aimed at the "
                                 "last metre, about %.0f.",
                              a->in_frac * 100, a->last_in_frac * 100));
    if (!a->pays)
        add_sentence(b, page_say(d, "Your aims now are about as good."));
}

struct str card_aim(const struct draw *d, const struct card *c) {
    struct buf b;
    buf_init(&b, d->arena);
    add_sentence(&b, own_aim(d, &c->aim));
    add_sentence(&b, page_say(d, "Half of your serves then come down in the oval."));
    add_outcome(d, &b, &c->aim);
    return buf_str(&b);
}

struct str card_aim_words(const struct draw *d, const struct card *c) {
    struct buf b;
    if (c->aim.say == SAY_AIM_GENERAL)
        return general_aim(d, c);
    buf_init(&b, d->arena);
    add_sentence(&b, own_aim(d, &c->aim));
    add_outcome(d, &b, &c->aim);
    return buf_str(&b);
}

struct str card_caution(const struct draw *d) {
    return page_say(d, "Jump serves load shoulder and knee. With pain, or in a week with far more "
                       "jumps than usual: stop, tell your coach, see a doctor or physiotherapist. "
                       "Nobody knows a safe number. Do the drills as your coach says.");
}
