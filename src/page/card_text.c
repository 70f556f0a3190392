/* The card as a message: the same words without the pictures. */
#include "page/card_parts.h"

static void line(struct buf *b, struct str words) {
    buf_add(b, words);
    buf_char(b, '\n');
}

/* A head and what belongs to it; nothing without that. */
static void headed(const struct draw *d, struct buf *b, const char *head, struct str words) {
    if (words.n > 0)
        buf_printf(b, "%.*s: %.*s\n", STR_ARG(page_say(d, head)), STR_ARG(words));
}

static struct str together(const struct draw *d, struct str a, struct str b) {
    return str_trim(str_printf(d->arena, "%.*s %.*s", STR_ARG(a), STR_ARG(b)));
}

static void numbers(const struct draw *d, struct buf *b, const struct card *c) {
    struct card_count rows[CARD_COUNTS];
    card_counts(c, rows);
    for (unsigned i = 0; i < CARD_COUNTS; i++) {
        const struct card_count *r = &rows[i];
        if (r->part && r->today.x + r->before.x == 0)
            continue;
        struct str said = card_of_n(d, r->today);
        if (c->matches_before > 0)
            said = page_sayf(d, "%.*s; season before %.*s", STR_ARG(said),
                             STR_ARG(card_of_n(d, r->before)));
        buf_printf(b, "%s%.*s: %.*s\n", r->part ? "– " : "", STR_ARG(page_say(d, r->label)),
                   STR_ARG(said));
    }
}

static void focus(const struct draw *d, struct buf *b, const struct card *c) {
    const struct drill_recipe *drill = c->focus.drill;
    if (!c->focus.chosen)
        return;
    if (drill)
        headed(d, b, WORDS("How"), page_drill_said(d, drill, drill->setup));
    headed(d, b, WORDS("Goal"), card_goal(d, c));
    line(b, together(d, card_drilled(d, c), card_since(d, c)));
}

struct str page_card_text(const struct card *c, const struct tally *t,
                          const struct page_facts *facts, struct arena *a) {
    struct draw d = {.tally = t, .facts = facts, .arena = a};
    struct str incomplete = page_incomplete(&d);
    struct buf b;
    buf_init(&b, a);
    line(&b, str_trim(str_printf(a, "%u %.*s", c->who.shirt, STR_ARG(card_name(&d, c)))));
    line(&b, page_title(&d));
    if (incomplete.n > 0)
        line(&b, incomplete);
    line(&b, STR_NONE);
    headed(&d, &b, WORDS("Going well"),
           together(&d, card_strength(&d, c), card_strength_more(&d, c)));
    headed(&d, &b, WORDS("Your one thing"), together(&d, card_cue(&d, c), card_cue_more(&d, c)));
    line(&b, STR_NONE);
    numbers(&d, &b, c);
    headed(&d, &b, WORDS("Your misses"), card_misses(&d, c));
    line(&b, STR_NONE);
    focus(&d, &b, c);
    headed(&d, &b, WORDS("Look at the video"),
           together(&d, card_times(&d, c), card_question(&d, c)));
    if (c->reach.known)
        headed(&d, &b, WORDS("Where you hit the ball"), card_reach(&d, c));
    headed(&d, &b, WORDS("Where to aim"), card_aim_words(&d, c));
    line(&b, STR_NONE);
    line(&b, card_caution(&d));
    return buf_str(&b);
}
