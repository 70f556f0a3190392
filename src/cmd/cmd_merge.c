/* What two scorers changed in one file, as one file: for git, or by hand. */
#include <stdlib.h>

#include "cmd/cmd.h"
#include "merge.h"

enum { NAME };

/* gitattributes(5), "Defining a custom merge driver": 1 is a conflict, and what is
 * larger than 128 a failure of the driver, which stops the whole merge. */
enum { MERGE_FAILED = 129 };

enum { LINES_SHOWN = 3 };

static const struct cmd_option options[] = {
    {"name", "PATH", "what the file is called, where that is not OURS: its squad is\n"
     "looked for there, and messages name it", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

static void no_memory(size_t wanted_bytes) {
    cmd_say("this machine has no memory left (%zu bytes were needed)", wanted_bytes);
    exit(MERGE_FAILED);
}

/* ---- telling ------------------------------------------------------------- */

static void put_safe(struct str s, struct arena *a) {
    struct buf b;

    buf_init(&b, a);
    cmd_safe(&b, s, 0);
    fprintf(stderr, "%.*s\n", STR_ARG(buf_str(&b)));
}

static const struct noted_line *first_line(const struct merge *m, const struct merge_item *item) {
    for (unsigned k = 1; k <= MERGE_SIDES; k++) {
        unsigned side = k % MERGE_SIDES; /* the base last */

        if (item->of[side].n)
            return &m->side[side]->lines[item->of[side].from];
    }
    return NULL;
}

static void put_side(const struct merge *m, const struct merge_item *item, unsigned side,
                     const char *label) {
    struct merge_lines of = item->of[side];

    for (size_t i = 0; i < of.n && i < LINES_SHOWN; i++) {
        fprintf(stderr, "    %-8s", i ? "" : label);
        put_safe(str_trim(m->side[side]->lines[of.from + i].raw), m->arena);
    }
    if (of.n > LINES_SHOWN)
        fprintf(stderr, "            and %zu more\n", of.n - LINES_SHOWN);
    if (!of.n)
        fprintf(stderr, "    %-8snothing\n", label);
}

static void put_conflict(const struct merge *m, const struct merge_item *item) {
    struct str where = noted_place(first_line(m, item), m->arena);

    cmd_say("%.*s: conflict in %.*s", STR_ARG(m->side[MERGE_OURS]->text->name), STR_ARG(where));
    if (item->of[MERGE_BASE].n)
        put_side(m, item, MERGE_BASE, "before");
    put_side(m, item, MERGE_OURS, "ours");
    put_side(m, item, MERGE_THEIRS, "theirs");
}

static void put_twice(const struct merge *m, size_t one, size_t other) {
    const struct merge_item *ours = &m->items[one], *theirs = &m->items[other];
    struct str where = noted_place(first_line(m, ours), m->arena);

    if (!ours->of[MERGE_OURS].n) {
        ours = theirs;
        theirs = &m->items[one];
    }
    cmd_say("%.*s: near %.*s both added the same serve in two places; if it was one, take "
            "one out", STR_ARG(m->side[MERGE_OURS]->text->name), STR_ARG(where));
    put_side(m, ours, MERGE_OURS, "ours");
    put_side(m, theirs, MERGE_THEIRS, "theirs");
}

/* Gives whether there was anything to tell. */
static bool tell(const struct cmd_run *run, const struct merge *m, struct diags *d) {
    struct cmd_show how;
    size_t other;
    bool any = m->conflict_n > 0 || d->errors > 0;

    for (size_t i = 0; i < m->item_n; i++)
        if (m->items[i].conflict)
            put_conflict(m, &m->items[i]);
    for (size_t i = 0; (i = merge_twice(m, i, &other)) < m->item_n; i++) {
        put_twice(m, i, other);
        any = true;
    }
    if (!d->errors)
        return any;
    cmd_say("%.*s: all edits of both are in, and together they give what neither had:",
            STR_ARG(m->side[MERGE_OURS]->text->name));
    cmd_show_init(&how, stderr, run->color_err);
    cmd_show(&how, d);
    return any;
}

/* ---- the command --------------------------------------------------------- */

static bool is_readable(const struct text *t) {
    if (t->utf16)
        cmd_say("%.*s: not merged: a side is in UTF-16", STR_ARG(t->name));
    return !t->utf16;
}

static int merge_texts(const struct cmd_run *run, const struct text text[MERGE_SIDES],
                       struct arena *a) {
    const struct noted *side[MERGE_SIDES];
    bool plain = cmd_is_drills(text[MERGE_OURS].name);
    struct merge_map map;
    struct merge m;
    struct diags d;

    for (unsigned i = 0; i < MERGE_SIDES; i++)
        side[i] = noted_read(&text[i], plain, a);
    diags_init(&d, a);
    merge_of(&m, side[MERGE_BASE], side[MERGE_OURS], side[MERGE_THEIRS], a);
    if (!plain)
        merge_check(&m, &d);
    if (!cmd_write(run->operands[MERGE_OURS], merge_text(&m, &map)))
        return MERGE_FAILED;
    return tell(run, &m, &d) ? CMD_FINDINGS : CMD_CLEAN;
}

static enum cmd_status merge(const struct cmd_run *run) {
    struct arena *a = arena_new(no_memory);
    const char *name = run->given[NAME] ? run->given[NAME] : run->operands[MERGE_OURS];
    struct text text[MERGE_SIDES];
    int status = CMD_CLEAN;

    for (unsigned i = 0; i < MERGE_SIDES && status == CMD_CLEAN; i++) {
        struct diags dropped;

        diags_init(&dropped, a);
        if (!cmd_read(&text[i], run->operands[i], a, &dropped))
            status = MERGE_FAILED;
        text[i].name = str_of(name);
        if (status == CMD_CLEAN && !is_readable(&text[i]))
            status = CMD_FINDINGS;
    }
    if (status == CMD_CLEAN)
        status = merge_texts(run, text, a);
    arena_free(a);
    return (enum cmd_status)status;
}

const struct cmd cmd_merge = {
    .name = "merge",
    .usage = "[--name PATH] BASE OURS THEIRS",
    .summary = "what two scorers changed in one file, as one file",
    .about = "Merges the edits that two made since BASE and writes the result to OURS. Lines\n"
             "are compared by what they say, and the words of both in one line are joined:\n"
             "one may correct the outcome while the other adds a mark. What both added stands\n"
             "there once, and nothing is taken twice. Where the two contradict each other,\n"
             "both versions stand between marks, which 9m check tells of as E020, and are\n"
             "told on standard error; so is an error that only both edits together make.\n"
             "As merge driver of git: merge.9m.driver = 9m merge --name %P %O %A %B\n"
             "Exit code: 0 merged, 1 a conflict, 2 wrong usage, 129 a file or the system.",
    .examples = "  9m merge before.9m mine.9m yours.9m",
    .options = options,
    .operand = "three files: the state before, ours and theirs",
    .operand_min = 3,
    .operand_max = 3,
    .run = merge,
};
