/* What changed in the facts, in words. */
#include "cmd/diff.h"

/* The line of a change that tells where it is: as it was, or else as it is. */
static const struct noted_line *line_of(const struct changed_line *c, unsigned *state) {
    *state = c->before ? BEFORE : AFTER;
    return c->before ? c->before : c->after;
}

static void add_score(struct buf *b, const struct played *p) {
    buf_printf(b, "%u-%u", p->before[OURS], p->before[THEIRS]);
}

/* "set 2, 12-9: 7 Mira Havelin: ", as far as it is known. */
static void add_place(struct buf *b, const struct diff *d, const struct changed_line *c) {
    unsigned state;
    const struct noted_line *l = line_of(c, &state);
    const struct diff_state *s = &d->state[state];
    const struct played *p = diff_played(s, l);
    const struct player *who = p ? diff_player(s, p) : NULL;

    if (p && l->set && p->score_known) {
        buf_printf(b, "set %u, ", l->set);
        add_score(b, p);
    } else {
        buf_add(b, noted_place(l, d->arena));
    }
    buf_add(b, STR(": "));
    if (l->kind != STMT_SERVE || !c->before || !c->after)
        return;
    buf_add(b, str_part(l->says, 0, noted_server(l).n));
    if (who && who->name.n)
        buf_printf(b, " %.*s", STR_ARG(who->name));
    buf_add(b, STR(": "));
}

static void add_word(struct buf *b, const struct changed_word *w) {
    if (w->server)
        buf_add(b, STR("server "));
    if (!w->before.n)
        buf_printf(b, "%.*s added", STR_ARG(w->after));
    else if (!w->after.n)
        buf_printf(b, "%.*s taken out", STR_ARG(w->before));
    else
        buf_printf(b, "%.*s -> %.*s", STR_ARG(w->before), STR_ARG(w->after));
}

static void add_change(struct buf *b, const struct diff *d, const struct changed_line *c) {
    struct changed_word words[2 * NOTED_WORDS_MAX];
    size_t n;

    if (!c->before || !c->after) {
        const struct noted_line *l = c->before ? c->before : c->after;

        buf_printf(b, "%s: %.*s", c->before ? "taken out" : "added", STR_ARG(l->says));
        return;
    }
    n = changed_words(c, words, d->arena);
    for (size_t i = 0; i < n; i++) {
        if (i)
            buf_add(b, STR(", "));
        add_word(b, &words[i]);
    }
}

static void add_lines(struct buf *b, const struct diff *d, const struct changed_line *c) {
    const struct noted_line *lines[STATES] = {c->before, c->after};
    const char *between = " (";

    for (unsigned i = 0; i < STATES; i++) {
        if (!lines[i])
            continue;
        buf_printf(b, "%s%s:%u", between, d->state[i].path, lines[i]->number);
        between = ", ";
    }
    buf_char(b, ')');
}

static void put(const struct diff *d, const struct buf *b) {
    struct buf safe;

    buf_init(&safe, d->arena);
    cmd_safe(&safe, buf_str(b), 0);
    printf("%.*s\n", STR_ARG(buf_str(&safe)));
}

static void put_change(const struct diff *d, const struct changed_line *c) {
    struct buf b;

    buf_init(&b, d->arena);
    add_place(&b, d, c);
    add_change(&b, d, c);
    add_lines(&b, d, c);
    put(d, &b);
}

/* "7 Mira Havelin", "G3", "H in all". */
static void add_whose(struct buf *b, const struct diff *d, const struct diff_tally *t) {
    const struct match *m = d->state[AFTER].checked->match;
    char letter = t->side < m->team_n ? m->teams[t->side].letter : '?';

    if (t->all)
        buf_printf(b, "%c in all", letter);
    else if (t->shirt == SHIRT_NONE)
        buf_printf(b, "%c, shirt not seen", letter);
    else if (t->side == OURS)
        buf_printf(b, "%u", t->shirt);
    else
        buf_printf(b, "%c%u", letter, t->shirt);
    if (t->player && t->player->name.n)
        buf_printf(b, " %.*s", STR_ARG(t->player->name));
}

static void put_tally(const struct diff *d, const struct diff_tally *t) {
    const char *between = ": ";
    struct buf b;

    buf_init(&b, d->arena);
    add_whose(&b, d, t);
    for (unsigned i = 0; i < DIFF_COUNTS; i++) {
        unsigned before = diff_count(&t->of[BEFORE], i), after = diff_count(&t->of[AFTER], i);

        if (before == after)
            continue;
        buf_printf(&b, "%s%s %u -> %u", between, diff_count_name(i), before, after);
        between = ", ";
    }
    put(d, &b);
}

void diff_text(const struct diff *d) {
    for (unsigned i = 0; i < STATES; i++)
        if (!d->state[i].path) {
            struct buf b;

            buf_init(&b, d->arena);
            buf_printf(&b, "%s: %s", d->state[STATES - 1 - i].path,
                       i == BEFORE ? "added" : "taken out");
            put(d, &b);
            return;
        }
    for (size_t i = 0; i < d->changed.n; i++)
        put_change(d, &d->changed.at[i]);
    for (size_t i = 0; i < d->tally_n; i++)
        put_tally(d, &d->tallies[i]);
}
