/* Which line of one state of a file is which of another: an alignment (S. B.
 * Needleman, C. D. Wunsch, J. Mol. Biol. 48 (1970) 443-453) of what is left when
 * the lines that agree at the start are paired, and whole sets at the end. */
#include <string.h>

#include "change/parts.h"

/* How good a pair is. Two lines that are alike must never outweigh two that are
 * equal; a `set` or `drill` line carries all that stands below it. */
enum {
    NO_PAIR = 0,
    PAIR_BLANK = 1,
    PAIR_ALIKE_MAX = 12,
    PAIR_SAYS = 16,              /* but for the comment */
    PAIR_EQUAL = 24,
    PAIR_HEAD = 2000
};

enum { CELLS_MAX = 1 << 26 };

/* The two runs of lines that are left. */
struct stretch {
    const struct noted_line *a, *b;
    size_t n, m;
    bool in_place;
};

static struct str next_word(struct str *s) {
    struct str word = noted_word_at(*s, 0);
    *s = str_part(*s, word.n + 1, s->n);
    return word;
}

static bool has_word(struct str s, struct str word) {
    while (s.n)
        if (str_eq(next_word(&s), word))
            return true;
    return false;
}

static int shared_words(struct str a, struct str b) {
    int shared = 0;
    while (a.n)
        shared += has_word(b, next_word(&a));
    return shared;
}

static bool is_head(const struct noted_line *l) {
    return l->kind == STMT_SET || l->kind == STMT_DRILL;
}

/* A line that can't be read may be any that was corrected. */
static bool may_be_one(const struct noted_line *a, const struct noted_line *b) {
    if (a->kind == STMT_NONE || b->kind == STMT_NONE)
        return false;
    if (a->kind == STMT_UNREAD || b->kind == STMT_UNREAD)
        return !is_head(a) && !is_head(b);
    return a->kind == b->kind && str_eq(a->about, b->about);
}

static bool same_place(const struct noted_line *a, const struct noted_line *b) {
    return a->set == b->set && str_eq(a->drill, b->drill);
}

static int pair_worth(const struct stretch *s, size_t i, size_t j) {
    const struct noted_line *a = &s->a[i], *b = &s->b[j];
    if (s->in_place && !same_place(a, b))
        return NO_PAIR;
    if (noted_says(a, b)) {
        bool equal = str_eq(a->comment, b->comment);
        if (a->kind == STMT_NONE)
            return !equal ? NO_PAIR : a->comment.n ? PAIR_EQUAL : PAIR_BLANK;
        return is_head(a) ? PAIR_HEAD : equal ? PAIR_EQUAL : PAIR_SAYS;
    }
    if (!may_be_one(a, b))
        return NO_PAIR;
    if (is_head(a))
        return PAIR_HEAD;
    int worth = 2 * shared_words(a->says, b->says);
    return worth > PAIR_ALIKE_MAX ? PAIR_ALIKE_MAX : worth;
}

enum step { STEP_PAIR, STEP_A, STEP_B };

/* The best that can come of the lines from each pair on, the last row first,
 * with the step that begins it. So the trace goes forward and, where two ways
 * are as good, pairs what stands first: of equal lines the later ones are new. */
static unsigned char *steps_of(const struct stretch *s, struct arena *arena) {
    size_t wide = s->m + 1;
    unsigned char *steps = arena_alloc(arena, (s->n + 1) * wide, 1);
    int *below = arena_alloc(arena, wide, sizeof *below);
    int *row = arena_alloc(arena, wide, sizeof *row);
    memset(steps + s->n * wide, STEP_B, wide);
    for (size_t i = s->n; i-- > 0;) {
        row[s->m] = 0;
        steps[i * wide + s->m] = STEP_A;
        for (size_t j = s->m; j-- > 0;) {
            int worth = pair_worth(s, i, j);
            bool skip_a = below[j] >= row[j + 1];
            row[j] = skip_a ? below[j] : row[j + 1];
            steps[i * wide + j] = skip_a ? STEP_A : STEP_B;
            if (worth != NO_PAIR && below[j + 1] + worth >= row[j]) {
                row[j] = below[j + 1] + worth;
                steps[i * wide + j] = STEP_PAIR;
            }
        }
        int *swap = below;
        below = row;
        row = swap;
    }
    return steps;
}

static void trace(const struct stretch *s, size_t from_a, size_t from_b, size_t *mate,
                  struct arena *arena) {
    const unsigned char *steps = steps_of(s, arena);
    size_t i = 0, j = 0;
    while (i < s->n && j < s->m)
        switch ((enum step)steps[i * (s->m + 1) + j]) {
        case STEP_PAIR: mate[from_a + i++] = from_b + j++ + 1; break;
        case STEP_A: i++; break;
        case STEP_B: j++; break;
        }
}

/* How many lines at the end agree, from a `set` or `drill` line on: there is only
 * one of it, while a serve may be written twice, and which of them is the new one
 * is not for the end to say. */
static size_t equal_tail(const struct stretch *s) {
    size_t tail = 0;
    for (size_t k = 1; k <= s->n && k <= s->m; k++) {
        const struct noted_line *a = &s->a[s->n - k], *b = &s->b[s->m - k];
        if (!noted_equal(a, b))
            break;
        if (is_head(a))
            tail = k;
    }
    return tail;
}

size_t *noted_align(const struct noted_line *a, size_t n, const struct noted_line *b, size_t m,
                    bool in_place, struct arena *arena) {
    size_t *mate = arena_alloc(arena, n + 1, sizeof *mate), from = 0;
    for (; from < n && from < m && noted_equal(&a[from], &b[from]); from++)
        mate[from] = from + 1;
    struct stretch left = {a + from, b + from, n - from, m - from, in_place};
    for (size_t tail = equal_tail(&left); tail > 0; tail--)
        mate[from + --left.n] = from + left.m--;
    if (left.n && left.m && left.n <= CELLS_MAX / (left.m + 1))
        trace(&left, from, from, mate, arena);
    return mate;
}
