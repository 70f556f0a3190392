/* Two scorers, one match, as text. */
#include <string.h>

#include "cmd/agreement.h"

enum { AS, PARTIAL };

static const char *const forms[] = {"text", "json", NULL};

static const struct cmd_option options[] = {
    {"as", "FORM", "text (if not said) or json", forms, 0},
    {"partial-data", NULL, "go on in spite of errors: lines that could not be read are\n"
     "left out, one with a single likely mend counts as mended", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

/* ---- reading ------------------------------------------------------------- */

/* The messages of a file; false when no figures may be made from it. */
static bool show_messages(const struct agreement *g, unsigned i, struct diags *d) {
    struct cmd_show how;
    bool stop = d->errors > 0 && !g->run->given[PARTIAL];

    cmd_show_init(&how, stderr, g->run->color_err);
    cmd_show(&how, d);
    cmd_show_summary(&how, g->text[i].name, d, g->checked[i], stop ? "Not compared." : NULL);
    return !stop;
}

static enum cmd_status read_file(struct agreement *g, unsigned i) {
    struct diags d;

    diags_init(&d, g->arena);
    if (!cmd_read(&g->text[i], g->run->operands[i], g->arena, &d))
        return CMD_FAILED;
    g->checked[i] = check_text(&g->text[i], CHECK_KEEP, g->arena, &d);
    g->errors += d.errors;
    g->incomplete |= d.errors > 0 || g->checked[i]->incomplete;
    if (!show_messages(g, i, &d))
        return CMD_FINDINGS;
    return d.errors ? CMD_FINDINGS : CMD_CLEAN;
}

static const char *why_not(enum agree_fit fit) {
    switch (fit) {
    case AGREE_NO_MATCH: return "one of them is no match";
    case AGREE_OTHER_DAY: return "they are of two days";
    case AGREE_OTHER_TEAMS: return "they are of other teams";
    case AGREE_TOO_LONG: return "a set of more than 1000 serves can't be compared";
    case AGREE_FITS: break;
    }
    return NULL;
}

/* ---- names --------------------------------------------------------------- */

const char *agreement_field(unsigned field) {
    switch (field) {
    case FIELD_OUTCOME: return "outcome";
    case FIELD_PASS: return "pass";
    case FIELD_ZONE: return "zone";
    }
    return word_info((enum word_id)(W_td + (field - FIELD_MARK)))->word.at;
}

bool agreement_shown(const struct agree_facts *f, unsigned field) {
    unsigned n = agree_rate(&f->table).n;

    return field < FIELD_MARK || n > f->table.n[0][0];
}

/* The letter that the file's own players do without. */
struct str agreement_serve(const struct agreement *g, unsigned i, size_t ix) {
    struct stmt st = {.kind = STMT_SERVE};
    const struct played *p = &g->checked[i]->played[ix];
    const struct match *m = g->checked[i]->match;
    struct buf b;

    st.as.serve = p->said;
    st.as.serve.form = p->server == SHIRT_NONE ? SERVER_UNSEEN : SERVER_SHIRT;
    st.as.serve.shirt = p->server;
    st.as.serve.letter = m->teams[p->side].letter;
    buf_init(&b, g->arena);
    syn_print(&b, &st, m->teams[OURS].letter);
    return buf_str(&b);
}

bool agreement_kappa(const struct agree_facts *f, unsigned field, struct kappa *k) {
    struct agree_weights w =
        field == FIELD_PASS ? agree_quadratic(f->table.k) : agree_nominal();

    if (agree_rate(&f->table).n < AGREEMENT_KAPPA_N)
        return false;
    *k = agree_kappa(&f->table, &w);
    return k->defined;
}

/* ---- text ---------------------------------------------------------------- */

static void put_safe(const struct agreement *g, struct str s) {
    struct buf b;

    buf_init(&b, g->arena);
    cmd_safe(&b, s, 0);
    printf("%.*s", STR_ARG(buf_str(&b)));
}

static void put_serve(const struct agreement *g, unsigned i, size_t ix) {
    printf("  ");
    put_safe(g, g->text[i].name);
    printf(":%u: %.*s\n", (unsigned)g->checked[i]->played[ix].line,
           STR_ARG(agreement_serve(g, i, ix)));
}

static void put_alone(const struct agreement *g, unsigned i) {
    const struct agree *a = &g->agree;

    if (!a->alone_n[i])
        return;
    printf("\nOnly in ");
    put_safe(g, g->text[i].name);
    printf(" (%zu):\n", a->alone_n[i]);
    for (size_t k = 0; k < a->alone_n[i]; k++)
        put_serve(g, i, a->alone[i][k]);
}

static void add_share(struct buf *row, struct rate r) {
    struct interval i = rate_wilson(r);
    char share[32];

    if (r.n)
        snprintf(share, sizeof share, "%u/%u", r.x, r.n);
    else
        snprintf(share, sizeof share, "-");
    buf_printf(row, "  %9s", share);
    if (rate_may_say(r.n) >= SAY_INTERVAL)
        buf_printf(row, "  %.2f (%.2f to %.2f)", rate_frac(r), i.low, i.high);
    else
        buf_printf(row, "  %19s", "");
}

static void add_kappa(struct buf *row, const struct agree_facts *f, unsigned field) {
    struct kappa k;
    struct interval i;

    if (!agreement_kappa(f, field, &k))
        buf_printf(row, "  %22s", "");
    else if (agree_interval(k, &i))
        buf_printf(row, "  %5.2f (%5.2f to %.2f)", k.kappa, i.low, i.high);
    else
        buf_printf(row, "  %5.2f%17s", k.kappa, "");
}

/* How often each of them wrote a mark, or how often one had nothing to say. */
static void add_rest(struct buf *row, const struct agree_facts *f, unsigned field) {
    const unsigned(*n)[AGREE_MAX] = f->table.n;

    if (field >= FIELD_MARK) {
        buf_printf(row, "  %u, %u", n[1][0] + n[1][1], n[0][1] + n[1][1]);
        if (agree_rate(&f->table).n >= AGREEMENT_KAPPA_N)
            buf_printf(row, "  AC1 %.2f", agree_ac1(&f->table));
    } else if (f->one_n) {
        buf_printf(row, "  %u in one only", f->one_n);
    }
}

static void put_row(struct buf *row) {
    struct str line = str_trim(buf_str(row));

    printf("%.*s\n", STR_ARG(line));
    row->n = 0;
}

static void put_fields(const struct agreement *g) {
    const struct agree *a = &g->agree;
    struct buf row;

    buf_init(&row, g->arena);
    puts("\nfield        agreed  share                kappa");
    buf_printf(&row, "%-8s", "server");
    add_share(&row, (struct rate){a->server_same_n, a->server_n});
    put_row(&row);
    for (unsigned f = 0; f < FIELD_N; f++) {
        if (!agreement_shown(&a->field[f], f))
            continue;
        buf_printf(&row, "%-8s", agreement_field(f));
        add_share(&row, agree_rate(&a->field[f].table));
        add_kappa(&row, &a->field[f], f);
        add_rest(&row, &a->field[f], f);
        put_row(&row);
    }
    puts("Intervals are 95 %. Kappa is 0 where two would agree as often by chance; it stands\n"
         "from 30 serves on. Behind a mark: how often the one and the other wrote it.");
}

bool agreement_differs(const struct agreement *g, struct agree_pair pair) {
    for (unsigned f = 0; f < FIELD_N; f++)
        if (agree_differs(&g->agree, pair, f))
            return true;
    return agree_other_server(&g->agree, pair);
}

static void put_difference(const struct agreement *g, struct agree_pair pair) {
    const struct played *p = &g->checked[0]->played[pair.a];
    const char *between = ": ";

    printf("\nset %u, serve %u", p->set ? g->checked[0]->sets[p->set - 1].number : 0, p->rally);
    if (agree_other_server(&g->agree, pair)) {
        printf("%sserver", between);
        between = ", ";
    }
    for (unsigned f = 0; f < FIELD_N; f++)
        if (agree_differs(&g->agree, pair, f)) {
            printf("%s%s", between, agreement_field(f));
            between = ", ";
        }
    putchar('\n');
    put_serve(g, 0, pair.a);
    put_serve(g, 1, pair.b);
}

static void put_text(const struct agreement *g) {
    const struct agree *a = &g->agree;

    if (g->incomplete)
        puts("INCOMPLETE: lines are missing or were not read.");
    printf("%zu serves in both, %zu in one only.\n", a->pair_n, a->alone_n[0] + a->alone_n[1]);
    put_alone(g, 0);
    put_alone(g, 1);
    if (!a->pair_n)
        return;
    put_fields(g);
    for (size_t i = 0; i < a->pair_n; i++)
        if (agreement_differs(g, a->pairs[i]))
            put_difference(g, a->pairs[i]);
}

/* ---- the command --------------------------------------------------------- */

static enum cmd_status compare(struct agreement *g) {
    enum agree_fit fit = agree_of(g->checked[0], g->checked[1], g->arena, &g->agree);

    if (fit != AGREE_FITS) {
        cmd_say("%s and %s: %s; not compared", g->run->operands[0], g->run->operands[1],
                why_not(fit));
        return CMD_FINDINGS;
    }
    if (g->run->given[AS] && strcmp(g->run->given[AS], "json") == 0)
        agreement_json(g);
    else
        put_text(g);
    return g->errors ? CMD_FINDINGS : CMD_CLEAN;
}

static enum cmd_status agree(const struct cmd_run *run) {
    struct agreement g = {.run = run};
    enum cmd_status status;

    if (strcmp(run->operands[0], "-") == 0 && strcmp(run->operands[1], "-") == 0)
        return cmd_misuse(run->cmd, "only one of the two can be standard input");
    g.arena = arena_new(cmd_no_memory);
    status = cmd_worse(read_file(&g, 0), read_file(&g, 1));
    if (status == CMD_CLEAN || (status == CMD_FINDINGS && run->given[PARTIAL]))
        status = cmd_worse(status, compare(&g));
    arena_free(g.arena);
    return status;
}

const struct cmd cmd_agree = {
    .name = "agree",
    .usage = "[OPTION...] FILE FILE",
    .summary = "two scorers, one match: where they differ, how far they agree",
    .about = "Pairs the serves of two records of one match by set, order of play, server and\n"
             "score, never by what is compared. First come the serves that only one of them\n"
             "wrote, then each field: how many were agreed, with the 95 % interval, and Cohen's\n"
             "kappa with its own (for the pass of 0 to 3, an ace is 0, with quadratic weights).\n"
             "A mark counts where both observed its phase. Last come the serves that differ.\n"
             "Notes with errors are not compared.",
    .examples = "  9m agree bench.9m video.9m\n"
                "  9m agree --as json bench.9m video.9m",
    .options = options,
    .operand = "two files",
    .operand_min = 2,
    .operand_max = 2,
    .run = agree,
};
