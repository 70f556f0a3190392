/* Which facts changed from one state of a file to another. */
#include "changed.h"

#include "change/parts.h"

/* The lines of both while they are compared. */
struct comparison {
    struct changed *out;
    const struct noted *before, *after;
    size_t *mate;                /* as noted_align gives it */
    bool *taken;                 /* lines of `after` that have a mate */
    struct arena *arena;
};

static bool is_fact(const struct noted_line *l) {
    return l->kind != STMT_NONE && l->kind != STMT_SHORT;
}

static void add(struct comparison *c, const struct noted_line *before,
                const struct noted_line *after) {
    struct changed *out = c->out;
    if (!is_fact(before ? before : after))
        return;
    out->at = arena_grow(c->arena, out->at, out->n, &out->room, sizeof *out->at);
    out->at[out->n++] = (struct changed_line){before, after};
}

/* Declarations say the same in any order: what is about the same is one. */
static void pair_declarations(struct comparison *c) {
    for (size_t i = 0; i < c->before->n; i++)
        for (size_t j = 0; j < c->after->n && !c->mate[i]; j++) {
            const struct noted_line *a = &c->before->lines[i], *b = &c->after->lines[j];
            if (c->taken[j] || !noted_declares(a) || a->kind != b->kind ||
                !str_eq(a->about, b->about))
                continue;
            c->mate[i] = j + 1;
            c->taken[j] = true;
        }
}

/* What stands in `after` alone, up to the line `to`. */
static size_t add_new(struct comparison *c, size_t from, size_t to) {
    for (; from < to; from++)
        if (!c->taken[from])
            add(c, NULL, &c->after->lines[from]);
    return from;
}

static void list(struct comparison *c) {
    size_t from = 0;
    for (size_t i = 0; i < c->before->n; i++) {
        const struct noted_line *before = &c->before->lines[i];
        size_t mate = c->mate[i];
        if (mate > from)
            from = add_new(c, from, mate - 1);
        if (!mate)
            add(c, before, NULL);
        else if (!noted_says(before, &c->after->lines[mate - 1]))
            add(c, before, &c->after->lines[mate - 1]);
    }
    add_new(c, from, c->after->n);
}

void changed_of(struct changed *out, const struct noted *before, const struct noted *after,
                struct arena *a) {
    struct comparison c = {.out = out, .before = before, .after = after, .arena = a};
    *out = (struct changed){.at = NULL};
    c.mate = noted_align(before->lines, before->n, after->lines, after->n, false, a);
    c.taken = arena_alloc(a, after->n + 1, sizeof *c.taken);
    for (size_t i = 0; i < before->n; i++)
        if (c.mate[i])
            c.taken[c.mate[i] - 1] = true;
    pair_declarations(&c);
    list(&c);
}

/* ---- words ---------------------------------------------------------------- */

static struct str word_that_tells(const struct noted_word *words, size_t n, unsigned tells) {
    for (size_t i = 0; i < n; i++)
        if (words[i].tells == tells)
            return words[i].word;
    return STR_NONE;
}

size_t changed_words(const struct changed_line *l, struct changed_word out[2 * NOTED_WORDS_MAX],
                     struct arena *a) {
    struct noted_word before[NOTED_WORDS_MAX], after[NOTED_WORDS_MAX];
    size_t before_n = noted_words(l->before, before, a), after_n = noted_words(l->after, after, a);
    size_t n = 0;
    bool serve = l->before->kind == STMT_SERVE && l->after->kind == STMT_SERVE;
    if (l->before->kind != l->after->kind) {
        out[0] = (struct changed_word){false, l->before->says, l->after->says};
        return 1;
    }
    for (size_t i = 0; i < before_n; i++) {
        struct str now = word_that_tells(after, after_n, before[i].tells);
        if (!str_eq(before[i].word, now))
            out[n++] = (struct changed_word){serve && i == 0, before[i].word, now};
    }
    for (size_t i = 0; i < after_n; i++)
        if (!word_that_tells(before, before_n, after[i].tells).n)
            out[n++] = (struct changed_word){false, STR_NONE, after[i].word};
    return n;
}
