/* What the stages of reading make of a file, as text: for tests and for the
 * makers of the program, so not in the list of commands. */
#include <string.h>

#include "cmd/cmd.h"

static const char *kind_name(enum stmt_kind kind) {
    switch (kind) {
    case STMT_NONE:
        return "none";
    case STMT_UNREAD:
        return "unread";
    case STMT_SERVE:
        return "serve";
    case STMT_NOTATION:
        return "notation";
    case STMT_MATCH:
        return "match";
    case STMT_PRACTICE:
        return "practice";
    case STMT_VENUE:
        return "venue";
    case STMT_SCORER:
        return "scorer";
    case STMT_NOTE:
        return "note";
    case STMT_TEAM:
        return "team";
    case STMT_PLAYER:
        return "player";
    case STMT_LIBERO:
        return "libero";
    case STMT_SQUAD:
        return "squad";
    case STMT_RULES:
        return "rules";
    case STMT_RULE:
        return "rule";
    case STMT_NETHEIGHT:
        return "netheight";
    case STMT_RECORD:
        return "record";
    case STMT_OBSERVE:
        return "observe";
    case STMT_SHORT:
        return "short";
    case STMT_FOCUS:
        return "focus";
    case STMT_PLAN:
        return "plan";
    case STMT_SET:
        return "set";
    case STMT_END:
        return "end";
    case STMT_LINEUP:
        return "lineup";
    case STMT_SUB:
        return "sub";
    case STMT_TIMEOUT:
        return "timeout";
    case STMT_SCORE:
        return "score";
    case STMT_POINT:
        return "point";
    case STMT_CANCEL:
        return "cancel";
    case STMT_GAP:
        return "gap";
    case STMT_TURN:
        return "turn";
    case STMT_FORFEIT:
        return "forfeit";
    case STMT_DRILL:
        return "drill";
    case STMT_RING:
        return "ring";
    case STMT_TOSS:
        return "toss";
    case STMT_TRIES:
        return "tries";
    case STMT_JUMPS:
        return "jumps";
    }
    return "";
}

static void dump_syntax(const struct text *t, struct arena *a, struct diags *d) {
    struct syn *syn = syn_new(t, a, d);
    const struct stmt *st;

    while ((st = syn_next(syn))) {
        struct buf b;

        buf_init(&b, a);
        if (st->kind != STMT_UNREAD && st->kind != STMT_NONE)
            syn_print(&b, st, '\0');
        printf("%u\t%s%s\t%.*s\t%.*s\n", st->line, st->mended ? "mended " : "", kind_name(st->kind),
               STR_ARG(buf_str(&b)), STR_ARG(syn_comment(syn)));
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

static void dump_serve(const struct played *p, struct arena *a) {
    struct stmt st = {.kind = STMT_SERVE, .line = p->line, .as.serve = p->said};
    struct buf b;

    buf_init(&b, a);
    syn_print(&b, &st, '\0');
    printf("%u\t%s\tset %u rally %u turn %u rotation %u", p->line, side_name(p->side), p->set,
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
        dump_serve(&c->played[i], a);
    for (unsigned i = 0; i < c->set_n; i++)
        dump_set(&c->sets[i]);
    for (size_t i = 0; i < c->drill_n; i++)
        printf("drill %zu line %u serves %zu \"%.*s\"\n", i + 1, c->drills[i].line,
               c->drills[i].to - c->drills[i].from, STR_ARG(c->drills[i].name));
    for (size_t i = 0; i < c->tries_n; i++)
        printf("%s line %u shirt %u %u/%u ring %d drill %u\n", kind_name(c->tries[i].kind),
               c->tries[i].line, c->tries[i].shirt, c->tries[i].hits, c->tries[i].n,
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
    else
        status = cmd_misuse(run->cmd, "dump shows syntax or match, not \"%s\"", run->operands[0]);
    arena_free(a);
    return status;
}

const struct cmd cmd_dump = {
    .name = "dump",
    .usage = "syntax|match FILE",
    .summary = "what a stage of reading makes of a file",
    .about =
        "Prints what a stage of reading makes of a file, one line each, fields parted by TAB:\n"
        "syntax: line, statement, canonical spelling, comment;\n"
        "match: each serve with all that was derived about it, then sets, drills, totals.",
    .examples = "  9m dump match harbour.9m",
    .operand = "syntax or match, and a file",
    .operand_min = 2,
    .operand_max = 2,
    .hidden = true,
    .run = dump,
};
