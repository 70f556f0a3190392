#include <errno.h>

#include "cmd/aloud.h"

enum { ALONE };

static const struct cmd_option options[] = {
    {"alone", NULL, "leave squad files aside: the same bytes always read the same", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

/* With --alone there are no squad files. */
static enum text_status no_squad(void *from, struct text *t, const char *path, struct arena *a,
                                 struct diags *d) {
    (void)from, (void)t, (void)path, (void)a, (void)d;
    errno = ENOENT;
    return TEXT_MISSING;
}

/* Who is who; the messages are for 9m check. */
static const struct match *head_of(const struct text *t, struct squads *squads, struct arena *a) {
    struct diags dropped;
    struct reading *reading;

    diags_init(&dropped, a);
    reading = match_open(t, squads, a, &dropped);
    match_next(reading);
    return match_of(reading);
}

/* A line that was not read, or only by a guess, stands as it is. */
static void tell_line(struct aloud *al, const struct stmt *st, struct str raw, struct str comment) {
    size_t before = al->out->n;

    if (!st || st->kind == STMT_UNREAD || st->mended) {
        if (st && (st->has_server || st->kind == STMT_SERVE))
            aloud_served(al, &st->as.serve);
        buf_add(al->out, raw);
        return;
    }
    aloud_statement(al, st);
    if (comment.n)
        buf_printf(al->out, "%s%.*s", al->out->n > before ? "  " : "", STR_ARG(comment));
}

static void print_line(struct buf *line, struct arena *a) {
    struct buf safe;

    buf_init(&safe, a);
    cmd_safe(&safe, buf_str(line), 0);
    printf("%.*s\n", STR_ARG(buf_str(&safe)));
}

/* A line for each line, so that what git says of line 12 is true of the file. Some
 * lines, those of an unresolved merge for one, are skipped by the parser. */
static void tell(const struct text *t, struct squads *squads, struct arena *a) {
    struct arena *of_line = arena_new(cmd_no_memory);
    struct aloud al = {.match = head_of(t, squads, a), .server = {.form = SERVER_SAME}};
    struct diags dropped;
    struct syn *syn;
    const struct stmt *st;
    struct str rest = t->bytes, raw;
    char ours;

    diags_init(&dropped, a);
    syn = match_lines(t, squads, a, &dropped, &ours);
    st = cmd_is_drills(t->name) ? NULL : syn_next_line(syn);
    for (unsigned number = 1; str_take_line(&rest, &raw); number++) {
        struct buf line;
        bool read = st && st->line == number;

        if (str_ends(raw, STR("\r")))
            raw.n--;
        buf_init(&line, of_line);
        al.out = &line;
        tell_line(&al, read ? st : NULL, raw, read ? str_trim(syn_comment(syn)) : STR_NONE);
        print_line(&line, of_line);
        arena_reset(of_line);
        if (read)
            st = syn_next_line(syn);
    }
    arena_free(of_line);
}

static enum cmd_status aloud(const struct cmd_run *run) {
    struct arena *a = arena_new(cmd_no_memory);
    struct squads *squads = squads_new(cmd_no_memory);
    enum cmd_status status = CMD_CLEAN;
    struct diags dropped;
    struct text t;

    if (run->given[ALONE])
        squads_read_from(squads, (struct squad_source){no_squad, NULL});
    diags_init(&dropped, a);
    if (cmd_read(&t, run->operands[0], a, &dropped))
        tell(&t, squads, a);
    else
        status = CMD_FAILED;
    arena_free(a);
    squads_free(squads);
    return status;
}

const struct cmd cmd_aloud = {
    .name = "aloud",
    .usage = "[OPTION...] FILE",
    .summary = "reads notes back in words",
    .about = "Says each line of notes in full words, one line for one, with the names of those\n"
             "who served. Scores stand only where they were written, so that a change to one\n"
             "line changes one line. A line that can't be read stands as it is, and so do\n"
             "remarks; what is wrong with a line is for 9m check.\n"
             "With --alone names come from the file itself only: so git shows notes (9m\n"
             "git-setup).\n"
             "Exit code: 0, whatever the notes say; 2 wrong usage, 3 a file or the system.",
    .examples = "  9m aloud harbour.9m\n"
                "  9m aloud - < harbour.9m",
    .options = options,
    .operand = "a file or - for standard input",
    .operand_min = 1,
    .operand_max = 1,
    .run = aloud,
};
