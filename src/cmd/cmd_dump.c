/* What the stages of reading make of a file, as text: for tests and for the
 * makers of the program, so not in the list of commands. */
#include <string.h>

#include "cmd/dump.h"

enum { SEASON };

static const struct cmd_option options[] = {
    {"season", "DIR", "the season's notes, for the pages", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

/* The kinds of statement and the words that open them stand in one order. */
static struct str kind_name(enum stmt_kind kind) {
    static const char *const others[] = {"none", "unread", "serve"};
    _Static_assert((int)STMT_JUMPS - (int)STMT_NOTATION == (int)W_jumps - (int)W_notation &&
                       STMT_NOTATION == sizeof others / sizeof *others,
                   "statements are listed alike in enum stmt_kind and words.def");
    if (kind < STMT_NOTATION)
        return str_of(others[kind]);
    return word_info((enum word_id)(W_notation + (kind - STMT_NOTATION)))->word;
}

static void dump_syntax(const struct text *t, struct arena *a, struct diags *d) {
    struct syn *syn = syn_new(t, a, d);
    const struct stmt *st;

    while ((st = syn_next(syn))) {
        struct buf b;

        buf_init(&b, a);
        if (st->kind != STMT_UNREAD && st->kind != STMT_NONE)
            syn_print(&b, st, '\0');
        printf("%u\t%s%.*s\t%.*s\t%.*s\n", st->line, st->mended ? "mended " : "",
               STR_ARG(kind_name(st->kind)), STR_ARG(buf_str(&b)), STR_ARG(syn_comment(syn)));
    }
}

static const char *side_name(unsigned side) {
    return side == OURS ? "ours" : side == THEIRS ? "theirs" : "-";
}

static void put_shirt(const char *name, unsigned shirt) {
    if (shirt == SHIRT_NONE)
        printf(" %s -", name);
    else
        printf(" %s %u", name, shirt);
}

static void dump_serve(const struct checked *c, const struct played *p, struct arena *a) {
    struct stmt st = {.kind = STMT_SERVE, .line = p->line, .as.serve = p->said};
    struct buf b;

    buf_init(&b, a);
    syn_print(&b, &st, '\0');
    printf("%u\t%s\tset %u rally %u turn %u rotation %u", p->line, side_name(p->side),
           p->set ? c->sets[p->set - 1].number : 0,
           p->rally, p->turn_serve, p->rotation);
    put_shirt("server", p->server);
    put_shirt("charged", p->charged);
    printf(" won %u type %u third %u paces %u steps %u observed %u", p->won, p->type, p->third,
           p->paces, p->steps, p->observed);
    if (p->score_known)
        printf(" at %u-%u", p->before[OURS], p->before[THEIRS]);
    printf("%s%s%s\t%.*s\n", p->cold ? " cold" : "", p->after_timeout ? " after-timeout" : "",
           p->cancelled ? " cancelled" : "", STR_ARG(buf_str(&b)));
}

static void dump_set(const struct set_result *set) {
    printf("set %u first %s %u-%u known %d-%d ended %d\n", set->number, side_name(set->first),
           set->points[OURS], set->points[THEIRS], set->known[OURS], set->known[THEIRS],
           set->ended);
}

static void dump_match(const struct text *t, struct arena *a, struct diags *d) {
    const struct checked *c = check_text(t, CHECK_KEEP, a, d);

    for (size_t i = 0; i < c->played_n; i++)
        dump_serve(c, &c->played[i], a);
    for (unsigned i = 0; i < c->set_n; i++)
        dump_set(&c->sets[i]);
    for (size_t i = 0; i < c->drill_n; i++)
        printf("drill %zu line %u serves %zu \"%.*s\"\n", i + 1, c->drills[i].line,
               c->drills[i].to - c->drills[i].from, STR_ARG(c->drills[i].name));
    for (size_t i = 0; i < c->tries_n; i++)
        printf("%.*s line %u shirt %u %u/%u ring %d drill %u\n",
               STR_ARG(kind_name(c->tries[i].kind)), c->tries[i].line, c->tries[i].shirt, c->tries[i].hits, c->tries[i].n,
               c->tries[i].ring_cm, c->tries[i].drill);
    printf("lines %u unread %u to review %u errors %u warnings %u\n", c->lines, c->unread,
           c->review_n, d->errors, d->warnings);
}

static enum cmd_status dump(const struct cmd_run *run) {
    struct arena *a = arena_new(cmd_no_memory);
    enum cmd_status status = CMD_CLEAN;
    struct text t;
    struct diags d;

    diags_init(&d, a);
    if (!cmd_read(&t, run->operands[1], a, &d))
        status = CMD_FAILED;
    else if (strcmp(run->operands[0], "syntax") == 0)
        dump_syntax(&t, a, &d);
    else if (strcmp(run->operands[0], "match") == 0)
        dump_match(&t, a, &d);
    else if (strcmp(run->operands[0], "pages") == 0)
        status = dump_pages(run, check_text(&t, CHECK_KEEP, a, &d),
                            run->given[SEASON], a);
    else
        status = cmd_misuse(run->cmd, "dump shows syntax, match or pages, not \"%s\"", run->operands[0]);
    arena_free(a);
    return status;
}

const struct cmd cmd_dump = {
    .name = "dump",
    .usage = "[OPTION] syntax|match|pages FILE",
    .summary = "what a stage of reading makes of a file",
    .about =
        "Prints what a stage of reading makes of a file, one line each, fields parted by TAB:\n"
        "syntax: line, statement, canonical spelling, comment;\n"
        "match: each serve with all that was derived about it, then sets, drills, totals;\n"
        "pages: the words, lines and marks of its report, in millimetres.",
    .examples = "  9m dump match harbour.9m",
    .operand = "syntax, match or pages, and a file",
    .operand_min = 2,
    .operand_max = 2,
    .options = options,
    .hidden = true,
    .run = dump,
};
