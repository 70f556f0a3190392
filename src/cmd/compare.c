/* Differences by lines. The texts compared here are two states of one file
 * that a mend or the canonical spelling has changed in places, so lines are
 * brought together again by looking a little ahead. That is linear, and any
 * such alignment gives a correct difference; the shortest is not needed. */
#include "cmd/compare.h"

enum { AHEAD_MAX = 16, CONTEXT_LINES = 3 };

static void add_line(struct lines *l, struct str line, struct arena *a) {
    l->at = arena_grow(a, l->at, l->n, &l->room, sizeof *l->at);
    l->at[l->n++] = line;
}

struct lines compare_lines(struct str s, struct arena *a) {
    struct lines l = {.at = NULL};
    size_t from = 0;

    for (size_t i = 0; i < s.n; i++)
        if (s.at[i] == '\n' || i + 1 == s.n) {
            add_line(&l, str_part(s, from, i + 1 - from), a);
            from = i + 1;
        }
    return l;
}

static bool meet(const struct compare *c, size_t old_ix, size_t new_ix) {
    return old_ix < c->old.n && new_ix < c->new.n &&str_eq(c->old.at[old_ix], c->new.at[new_ix]);
}

/* From a place where the lines differ to the nearest where they agree. */
static void skip_changed(const struct compare *c, struct change *change) {
    for (size_t ahead = 1; ahead <= AHEAD_MAX; ahead++)
        for (size_t i = 0; i <= ahead; i++)
            if (meet(c, change->old_ix + i, change->new_ix + ahead - i)) {
                change->old_n = i;
                change->new_n = ahead - i;
                return;
            }
    change->old_n = change->old_ix < c->old.n;
    change->new_n = change->new_ix < c->new.n;
}

/* Changes that touch are one. */
static void add_change(struct compare *c, struct change change) {
    struct change *last = c->change_n ? &c->changes[c->change_n - 1] : NULL;

    if (last && last->old_ix + last->old_n == change.old_ix &&
        last->new_ix + last->new_n == change.new_ix) {
        last->old_n += change.old_n;
        last->new_n += change.new_n;
        return;
    }
    c->changes = arena_grow(c->arena, c->changes, c->change_n, &c->change_room, sizeof *c->changes);
    c->changes[c->change_n++] = change;
}

void compare_init(struct compare *c, struct str old, struct str new, struct arena *a) {
    struct change at = {0, 0, 0, 0};

    *c = (struct compare){.arena = a, .old = compare_lines(old, a), .new = compare_lines(new, a)};
    while (at.old_ix < c->old.n || at.new_ix < c->new.n) {
        at.old_n = at.new_n = 1;
        if (!meet(c, at.old_ix, at.new_ix)) {
            skip_changed(c, &at);
            add_change(c, at);
        }
        at.old_ix += at.old_n;
        at.new_ix += at.new_n;
    }
}

/* Where a difference goes, and how. */
struct output {
    FILE *to;
    bool color, escape;
    struct arena *arena;
};

static void put_line(const struct output *o, char sign, struct str line) {
    bool ended = str_ends(line, STR("\n"));
    struct str text = str_part(line, 0, line.n - ended);
    const char *paint = !o->color || sign == ' ' ? "" : sign == '-' ? "\33[31m" : "\33[32m";
    struct buf b;

    if (o->escape) {
        buf_init(&b, o->arena);
        cmd_safe(&b, text, 1);
        text = buf_str(&b);
    }
    fprintf(o->to, "%s%c", paint, sign);
    fwrite(text.n ? text.at : "", 1, text.n, o->to);
    fprintf(o->to, "%s\n%s", *paint ? "\33[0m" : "", ended ? "" : "\\ No newline at end of file\n");
}

static void put_lines(const struct output *o, char sign, const struct lines *l, size_t from,
                      size_t to) {
    for (size_t i = from; i < to; i++)
        put_line(o, sign, l->at[i]);
}

/* POSIX diff -u: a range without lines names the line before it. */
static void put_range(const struct output *o, char sign, size_t from, size_t n) {
    if (n == 1)
        fprintf(o->to, " %c%zu", sign, from + 1);
    else
        fprintf(o->to, " %c%zu,%zu", sign, n ? from + 1 : from, n);
}

/* The changes from `first` to before `last`, which stand near each other. */
static void put_hunk(const struct output *o, const struct compare *c, size_t first, size_t last) {
    const struct change *head = &c->changes[first], *tail = &c->changes[last - 1];
    size_t lead = head->old_ix < CONTEXT_LINES ? head->old_ix : CONTEXT_LINES;
    size_t end = tail->old_ix + tail->old_n, left = c->old.n - end;
    size_t trail = left < CONTEXT_LINES ? left : CONTEXT_LINES;
    size_t old_ix = head->old_ix - lead;

    fputs("@@", o->to);
    put_range(o, '-', old_ix, end + trail - old_ix);
    put_range(o, '+', head->new_ix - lead,
              tail->new_ix + tail->new_n + trail - head->new_ix + lead);
    fputs(" @@\n", o->to);
    for (size_t i = first; i < last; i++) {
        const struct change *change = &c->changes[i];

        put_lines(o, ' ', &c->old, old_ix, change->old_ix);
        old_ix = change->old_ix + change->old_n;
        put_lines(o, '-', &c->old, change->old_ix, old_ix);
        put_lines(o, '+', &c->new, change->new_ix, change->new_ix + change->new_n);
    }
    put_lines(o, ' ', &c->old, old_ix, end + trail);
}

static size_t hunk_end(const struct compare *c, size_t first) {
    size_t last = first + 1;

    while (last < c->change_n &&
           c->changes[last].old_ix - c->changes[last - 1].old_ix - c->changes[last - 1].old_n <=
               2 * CONTEXT_LINES)
        last++;
    return last;
}

void cmd_compare(FILE *to, bool color, const char *name, struct str old, struct str new,
                 struct arena *a) {
    struct output o = {to, color, color, a};
    struct compare c;
    struct buf shown; /* a line end in a name would end the head */

    if (str_eq(old, new))
        return;
    compare_init(&c, old, new, a);
    buf_init(&shown, a);
    cmd_safe(&shown, str_of(name), 4);
    fprintf(to, "--- %.*s\n+++ %.*s\n", STR_ARG(buf_str(&shown)), STR_ARG(buf_str(&shown)));
    for (size_t i = 0; i < c.change_n; i = hunk_end(&c, i))
        put_hunk(&o, &c, i, hunk_end(&c, i));
}
