/* Her focus in words: the goal, why it was chosen, what came of it. */
#include "page/card_parts.h"

static bool same_rate(struct rate a, unsigned x, unsigned n) {
    return a.x == x && a.n == n;
}

/* Codes of marks are no words for a player. */
static bool has_codes(struct str words) {
    while (words.n > 0) {
        size_t n = 0;
        while (n < words.n && words.at[n] != ' ' && words.at[n] != ',')
            n++;
        if (word_find(str_part(words, 0, n), WORD_CLASS(WORD_MARK)))
            return true;
        words = str_part(words, n + 1, words.n);
    }
    return false;
}

/* The goal of the notes; where it is the drill's own, in the drill's words. */
static struct str goal(const struct draw *d, const struct card *c) {
    struct rate set = c->focus.progress.goal;
    const struct drill_recipe *drill = c->focus.drill;
    bool own = drill && (set.n == 0 || same_rate(set, drill->goal_hits, drill->goal_tries));
    if (own && !has_codes(drill->goal))
        return str_printf(d->arena, "%.*s.", STR_ARG(page_drill_said(d, drill, drill->goal)));
    if (own && set.n == 0)
        set = (struct rate){drill->goal_hits, drill->goal_tries};
    return set.n ? page_sayf(d, "%u of %u.", set.x, set.n) : STR_NONE;
}

struct str card_goal(const struct draw *d, const struct card *c) {
    const struct progress_focus *f = &c->focus.progress;
    struct str words = goal(d, c);
    if (!f->met)
        return words;
    struct str met = page_sayf(d, "%u of %u first reached on %.*s.", f->goal.x, f->goal.n,
                               STR_ARG(page_day(d, f->met_on)));
    return str_printf(d->arena, "%.*s %.*s", STR_ARG(words), STR_ARG(met));
}

/* Fewer serves with the mark say nothing (our own choice). */
enum { LEAST_SEEN = 5 };

/* Only where the counts of before agree with the coach's choice. */
struct str card_why(const struct draw *d, const struct card *c) {
    struct rate with = c->focus.with, without = c->focus.without;
    if (!c->focus.chosen || !page_cue_seen(c->focus.progress.treats) || with.n < LEAST_SEEN ||
        without.n == 0 || rate_may_say(with.n + without.n) < SAY_COMPARISON ||
        rate_frac(with) <= rate_frac(without))
        return STR_NONE;
    return page_sayf(d, "Before today it was seen on %u of %u watched serves: %u of those %u "
                        "missed, and %u of the other %u.",
                     with.n, with.n + without.n, with.x, with.n, without.x, without.n);
}

struct str card_drilled(const struct draw *d, const struct card *c) {
    struct rate sum = c->focus.progress.drilled.after;
    if (sum.n == 0 && c->focus.progress.in_practices.after.n > 0)
        return STR_NONE;
    if (sum.n == 0)
        return page_say(d, "No tries of the drill are written down yet.");
    return page_sayf(d, "In all %u of %u.", sum.x, sum.n);
}

/* Where there is nothing on one side, the other stands alone. */
static struct str in_matches(const struct draw *d, struct str what, struct progress_split s) {
    if (s.before.n == 0)
        return page_sayf(d, "In matches since then, %.*s: %u of %u serves.", STR_ARG(what),
                         s.after.x, s.after.n);
    if (s.after.n == 0)
        return page_sayf(d, "In matches before that day, %.*s: %u of %u serves.", STR_ARG(what),
                         s.before.x, s.before.n);
    return page_sayf(d, "In matches, %.*s: %u of %u serves before that day, %u of %u since.",
                     STR_ARG(what), s.before.x, s.before.n, s.after.x, s.after.n);
}

struct str card_since(const struct draw *d, const struct card *c) {
    const struct progress_focus *f = &c->focus.progress;
    const char *seen = page_cue_seen(f->treats);
    struct buf b;
    buf_init(&b, d->arena);
    if (!seen)
        return STR_NONE;
    struct str what = page_say(d, seen);
    if (f->in_matches.before.n + f->in_matches.after.n > 0)
        buf_add(&b, in_matches(d, what, f->in_matches));
    if (f->in_practices.after.n > 0)
        buf_printf(&b, "%s%.*s", b.n ? " " : "",
                   STR_ARG(page_sayf(d, "At practice since then: %u of %u.",
                                     f->in_practices.after.x, f->in_practices.after.n)));
    return buf_str(&b);
}
