/* Her focus in words: the goal, why it was chosen, what came of it. */
#include "page/card_parts.h"

static bool same_rate(struct rate a, unsigned x, unsigned n) {
    return a.x == x && a.n == n;
}

/* The goal of the notes; where it is the drill's own, in the drill's words. */
struct str card_goal(const struct draw *d, const struct card *c) {
    const struct progress_focus *f = &c->focus.progress;
    const struct drill_recipe *drill = c->focus.drill;
    bool own = drill && (f->goal.n == 0 || same_rate(f->goal, drill->goal_hits, drill->goal_tries));
    struct str goal = own ? drill->goal : f->goal.n ? card_of_n(d, f->goal) : STR_NONE;
    if (goal.n == 0 || !f->met)
        return goal.n ? str_printf(d->arena, "%.*s.", STR_ARG(goal)) : goal;
    return page_sayf(d, "%.*s. Reached on %.*s.", STR_ARG(goal), STR_ARG(page_day(d, f->met_on)));
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
