/* What must hold of a merge and of a difference, whatever was edited: over random
 * matches and practices that a generator with rules of its own has written, with the edits
 * of two scorers that are known line by line. TAP. */
#include "change/parts.h"
#include "changed.h"
#include "kit/lifelike.h"
#include "kit/roughen.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>

enum { SEEDS = 120, LINES_MOST = 1000, APART = 3 };

/* What one scorer does to a line. */
enum change {
    EDIT_NONE, EDIT_REVIEW, EDIT_COMMENT, EDIT_NOTE, EDIT_OUTCOME, EDIT_TAKE_OUT, EDIT_ADD,
    EDIT_N
};

struct notes {
    struct str lines[LINES_MOST];
    size_t n;
};

struct edits {
    enum change of[LINES_MOST];
};

static struct arena *arena;

static void no_memory(size_t wanted_bytes) {
    (void)wanted_bytes;
    abort();
}

static struct str written(uint64_t seed) {
    struct life_team ours;
    struct life_style style = {.detail = (enum life_detail)(seed % 3), .whole = true,
                               .ours_only = seed % 5 == 0, .rare = seed % 4 == 0};
    struct buf b;

    buf_init(&b, arena);
    life_team_draw(&ours, 'H', seed);
    if (seed % 7 == 0)
        life_practice(&b, &ours, 60, style, 3, seed);
    else
        life_match(&b, &ours, style, 3, seed);
    return buf_str(&b);
}

static void cut(struct notes *notes, struct str text) {
    notes->n = 0;
    for (size_t i = 0, from = 0; i < text.n && notes->n < LINES_MOST; i++)
        if (text.at[i] == '\n') {
            notes->lines[notes->n++] = str_part(text, from, i - from);
            from = i + 1;
        }
}

static bool is_serve(struct str line) {
    return line.n > 2 && (line.at[0] == '.' || (line.at[0] >= '0' && line.at[0] <= '9')) &&
           !str_ends(line, STR("?")) && str_part(line, 0, line.n).at[line.n - 1] != '"' &&
           line.at[1] != '-' && line.at[2] != '-';
}

static bool has_comment(struct str line) {
    for (size_t i = 0; i < line.n; i++)
        if (line.at[i] == '#')
            return true;
    return false;
}

/* `who` makes what the two write differ. */
static void put_edited(struct buf *b, struct str line, enum change edit, unsigned who) {
    size_t server = 0;

    while (server < line.n && line.at[server] != ' ')
        server++;
    switch (edit) {
    case EDIT_NONE:
    case EDIT_N: buf_printf(b, "%.*s\n", STR_ARG(line)); break;
    case EDIT_REVIEW: buf_printf(b, "%.*s ?\n", STR_ARG(line)); break;
    case EDIT_COMMENT: buf_printf(b, "%.*s  # scorer %u\n", STR_ARG(line), who); break;
    case EDIT_NOTE: buf_printf(b, "%.*s\nnote \"scorer %u\"\n", STR_ARG(line), who); break;
    case EDIT_OUTCOME:
        buf_printf(b, "%.*s %s\n", STR_ARG(str_part(line, 0, server)), who ? "drop" : "clock");
        break;
    case EDIT_TAKE_OUT: break;
    case EDIT_ADD: buf_printf(b, "%.*s\n%u screen\n", STR_ARG(line), 90 + who); break;
    }
}

static struct str edited(const struct notes *notes, const struct edits *e, unsigned who) {
    struct buf b;

    buf_init(&b, arena);
    for (size_t i = 0; i < notes->n; i++)
        put_edited(&b, notes->lines[i], e->of[i], who);
    return buf_str(&b);
}

/* Edits of serves without a comment, at least so many lines from each other. */
static void draw(struct edits *e, const struct notes *notes, size_t apart, struct dice *d) {
    size_t last = 0;

    *e = (struct edits){{EDIT_NONE}};
    for (size_t i = 0; i < notes->n; i++) {
        if (!is_serve(notes->lines[i]) || has_comment(notes->lines[i]) || i < last + apart ||
            !dice_in(d, 120))
            continue;
        e->of[i] = (enum change)dice_between(d, EDIT_REVIEW, EDIT_ADD);
        last = i;
    }
}

/* The same edits, each made by one of the two. */
static void deal(const struct edits *all, struct edits of[2], size_t n, struct dice *d) {
    of[0] = of[1] = (struct edits){{EDIT_NONE}};
    for (size_t i = 0; i < n; i++)
        of[dice_below(d, 2)].of[i] = all->of[i];
}

static const struct noted *noted(struct str bytes) {
    struct text *t = arena_alloc(arena, 1, sizeof *t);
    struct diags dropped;

    diags_init(&dropped, arena);
    text_take(t, STR("random.9m"), bytes, arena, &dropped);
    return noted_read(t, false, arena);
}

static void merged(struct merge *m, struct str base, struct str ours, struct str theirs) {
    merge_of(m, noted(base), noted(ours), noted(theirs), arena);
}

static bool gives(struct str base, struct str ours, struct str theirs, struct str expected) {
    struct merge m;
    struct merge_map map;

    merged(&m, base, ours, theirs);
    return m.conflict_n == 0 && str_eq(merge_text(&m, &map), expected);
}

/* ---- properties ---------------------------------------------------------- */

struct look {
    struct notes notes;
    struct str base;
    struct dice dice;
};

/* What only one side did is the result, byte by byte: b, b, x; b, x, b; b, x, x. */
static bool one_side(struct look *l) {
    struct edits e;
    struct str x;

    draw(&e, &l->notes, 1, &l->dice);
    x = roughen(edited(&l->notes, &e, 0), dice_below(&l->dice, ROUGH_ALL + 1), 'H', &l->dice,
                arena);
    return gives(l->base, l->base, x, x) && gives(l->base, x, l->base, x) &&
           gives(l->base, x, x, x);
}

static bool other_rallies(struct look *l) {
    struct edits all, of[2];

    draw(&all, &l->notes, APART, &l->dice);
    deal(&all, of, l->notes.n, &l->dice);
    return gives(l->base, edited(&l->notes, &of[0], 0), edited(&l->notes, &of[1], 0),
                 edited(&l->notes, &all, 0));
}

/* Edits of both anywhere, often in one line or beside each other. */
static void draw_both(struct look *l, struct merge *m, struct str of[2]) {
    struct edits e;

    for (unsigned who = 0; who < 2; who++) {
        draw(&e, &l->notes, 1, &l->dice);
        of[who] = edited(&l->notes, &e, dice_below(&l->dice, 2));
    }
    merged(m, l->base, of[0], of[1]);
}

static bool symmetric(struct look *l) {
    struct merge m, turned;
    struct merge_map map;
    struct str of[2];

    draw_both(l, &m, of);
    merged(&turned, l->base, of[1], of[0]);
    return m.conflict_n == turned.conflict_n &&
           (m.conflict_n > 0 || str_eq(merge_text(&m, &map), merge_text(&turned, &map)));
}

/* A line of a side that the result does not have is one of the base, unchanged,
 * that the other side took out. */
static bool was_taken_out(const struct merge *m, const struct noted_line *l, unsigned other) {
    const struct noted *base = m->side[MERGE_BASE];
    size_t *mate = noted_align(base->lines, base->n, m->side[other]->lines, m->side[other]->n,
                               false, arena);

    for (size_t i = 0; i < base->n; i++)
        if (!mate[i] && (noted_equal(&base->lines[i], l) || str_eq(base->lines[i].raw, l->raw)))
            return true;
    return false;
}

/* Every line of either side stands in the result, and in one place. */
static bool nothing_lost(struct look *l) {
    struct merge m;
    struct str of[2];

    draw_both(l, &m, of);
    for (unsigned side = MERGE_OURS; side < MERGE_SIDES; side++) {
        unsigned *times = arena_alloc(arena, m.side[side]->n + 1, sizeof *times);
        for (size_t i = 0; i < m.item_n; i++)
            for (size_t k = 0; k < m.items[i].of[side].n; k++)
                times[m.items[i].of[side].from + k]++;
        for (size_t k = 0; k < m.side[side]->n; k++)
            if (times[k] > 1 || (!times[k] && !was_taken_out(&m, &m.side[side]->lines[k],
                                                             MERGE_OURS + MERGE_THEIRS - side)))
                return false;
    }
    return true;
}

/* Sides in canonical spelling give a result that is. */
static bool canonical(struct look *l) {
    struct merge m;
    struct merge_map map;
    struct str of[2];
    const struct noted *result;

    draw_both(l, &m, of);
    if (m.conflict_n)
        return true;
    result = noted(merge_text(&m, &map));
    for (size_t i = 0; i < result->n; i++) {
        const struct noted_line *line = &result->lines[i];
        struct str says = line->same ? str_part(line->raw, 1, line->raw.n) : line->says;
        struct str end = line->comment.n ? line->comment : line->same ? line->raw : line->says;
        if (line->kind == STMT_UNREAD || !str_ends(line->raw, end) ||
            (!line->same && !str_starts(line->raw, says)))
            return false;
    }
    return true;
}

/* Edits that leave every line where it is, spelt by another hand: each that says
 * something new is one change, and nothing else is. */
static bool changes_told(struct look *l) {
    struct edits e;
    struct changed changed;
    size_t n = 0;

    draw(&e, &l->notes, 1, &l->dice);
    for (size_t i = 0; i < l->notes.n; i++) {
        struct buf b;

        if (e.of[i] == EDIT_TAKE_OUT || e.of[i] == EDIT_ADD)
            e.of[i] = EDIT_COMMENT;
        buf_init(&b, arena);
        put_edited(&b, l->notes.lines[i], e.of[i], 0);
        n += e.of[i] != EDIT_COMMENT && !str_eq(str_trim(str_part(buf_str(&b), 0, b.n - 1)),
                                                l->notes.lines[i]);
    }
    changed_of(&changed, noted(l->base),
               noted(roughen(edited(&l->notes, &e, 0), dice_below(&l->dice, ROUGH_ALL + 1), 'H',
                             &l->dice, arena)), arena);
    return changed.n == n;
}

static const struct {
    const char *what;
    bool (*holds)(struct look *l);
} rules[] = {
    {"what one side did is the result, byte by byte", one_side},
    {"edits in different rallies are all made", other_rallies},
    {"it does not matter whose edits are whose", symmetric},
    {"no line is lost and none doubled", nothing_lost},
    {"what was canonical stays so", canonical},
    {"a difference tells each change of facts and no spelling", changes_told},
};

enum { RULES = sizeof rules / sizeof *rules };

int main(void) {
    uint64_t broken[RULES] = {0};
    unsigned failed = 0;

    arena = arena_new(no_memory);
    for (uint64_t seed = 1; seed <= SEEDS; seed++)
        for (unsigned i = 0; i < RULES; i++) {
            struct look l = {.dice = {seed * RULES + i}};
            arena_reset(arena);
            l.base = written(seed);
            cut(&l.notes, l.base);
            if (!broken[i] && !rules[i].holds(&l))
                broken[i] = seed;
        }
    for (unsigned i = 0; i < RULES; i++) {
        if (broken[i])
            printf("# broken with seed %" PRIu64 "\n", broken[i]);
        printf("%sok %u - %s\n", broken[i] ? "not " : "", i + 1, rules[i].what);
        failed += broken[i] != 0;
    }
    printf("1..%d\n", RULES);
    arena_free(arena);
    return failed != 0;
}
