/* A page on the receivers of one team, from the notes of many matches. */
#include "cmd/press.h"
#include "cmd/span.h"
#include "pool.h"
#include "scout.h"

enum { OUTPUT, PAPER, LANGUAGE, FONT, PARTIAL };

static const struct cmd_option options[] = {
    {"output", "FILE", "where the PDF goes, scout-NAME.pdf if not said; - is standard output", NULL,
     'o'},
    {"paper", "SIZE", "the paper, a4 if not said", cmd_papers, 0},
    CMD_LANG_OPTION,
    {"font", "FILE", "a TrueType file to set the page in", NULL, 0},
    {"partial-data", NULL, "go on in spite of errors: lines that could not be read are\n"
     "left out, one with a single likely mend counts as mended", NULL, 0},
    CMD_FROM_OPTION,
    CMD_TO_OPTION,
    CMD_LAST_OPTION,
    {NULL, NULL, NULL, NULL, 0},
};

/* What is kept of the files: every team that received. */
struct scouting {
    const struct cmd_run *run;
    struct arena *arena;
    struct scout **teams;
    size_t team_n, team_room;
    bool left_out;
    struct cmd_span span;
};

/* ---- reading --------------------------------------------------------------- */

static struct scout *team_of(struct scouting *g, struct str name) {
    for (size_t i = 0; i < g->team_n; i++)
        if (str_eq(g->teams[i]->team, name))
            return g->teams[i];
    g->teams = arena_grow(g->arena, g->teams, g->team_n, &g->team_room, sizeof *g->teams);
    return g->teams[g->team_n++] = scout_new(name, g->arena);
}

/* Only a match has receivers of another team. */
static void take(void *into, const struct checked *c, struct str name, struct arena *a) {
    struct scouting *g = into;

    (void)name;
    (void)a;
    if (!c->match->occasion || c->match->practice)
        return;
    for (unsigned side = 0; side < c->match->team_n; side++)
        scout_add(team_of(g, pool_key(c, (enum side)side, SHIRT_NONE).team), c,
                  (enum side)side);
}

/* NULL after a message; then *status is usage unless the word names a team. */
static const struct scout *chosen(struct scouting *g, enum cmd_status *status) {
    const char *word = g->run->operands[0];
    struct str *names = arena_alloc(g->arena, g->team_n + 1, sizeof *names);
    bool *meant = arena_alloc(g->arena, g->team_n + 1, sizeof *meant);
    const struct scout *s = NULL;

    if (g->team_n == 0) {
        cmd_say("no match in what was read");
        *status = CMD_FINDINGS;
        return NULL;
    }
    for (size_t i = 0; i < g->team_n; i++)
        names[i] = g->teams[i]->team;
    if (!cmd_one_team(names, g->team_n, word, meant, g->arena))
        return NULL;
    for (size_t i = 0; i < g->team_n; i++)
        if (meant[i])
            s = g->teams[i];
    if (s && s->all.serves == 0) {
        cmd_say("no serve that reached %.*s is written down; nothing to tell of its receivers",
                STR_ARG(s->team));
        *status = CMD_FINDINGS;
        return NULL;
    }
    return s;
}

/* ---- the page --------------------------------------------------------------- */

/* "scout-granite-foxes.pdf" */
static const char *default_out(const struct scout *s, struct arena *a) {
    struct buf b;

    buf_init(&b, a);
    buf_add(&b, STR("scout-"));
    for (size_t i = 0; i < s->team.n; i++) {
        char c = s->team.at[i];
        bool kept = (unsigned char)c > ' ' && c != '/' && c != '.' && c != 127;

        buf_char(&b, !kept ? '-' : c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c);
    }
    buf_add(&b, STR(".pdf"));
    return str_c(a, buf_str(&b));
}

static bool covered(struct cmd_press *press, const struct scout *s) {
    struct str place = STR("the notes");
    bool good = cmd_press_covers(press, s->team, place);

    for (size_t i = 0; i < s->server_n; i++)
        good &= cmd_press_covers(press, s->servers[i], place);
    return good;
}

static enum cmd_status make(struct scouting *g, const struct scout *s, const char *out) {
    const char *const *given = g->run->given;
    struct page_facts facts = {.version = str_of(NINEMETRE_VERSION),
                               .left_out = g->left_out,
                               .lang = cmd_lang(given[LANGUAGE])};
    struct cmd_press press;
    enum cmd_status status = CMD_FAILED;

    if (cmd_press_open(&press, given[FONT], g->arena) && covered(&press, s)) {
        struct page_font font = pdf_font(press.pdf);

        status = cmd_press_write(&press, page_scout(s, &facts, &font, g->arena), given[PAPER],
                                 out);
    }
    cmd_press_close(&press);
    return status;
}

static enum cmd_status choose_and_make(struct scouting *g) {
    enum cmd_status status = CMD_USAGE;
    const struct scout *s = chosen(g, &status);
    const char *out = g->run->given[OUTPUT];

    if (!s)
        return status;
    if (!out)
        out = default_out(s, g->arena);
    return cmd_press_may_write(g->run->cmd, out) ? make(g, s, out) : CMD_USAGE;
}

static enum cmd_status scout_all(struct scouting *g) {
    struct cmd_run files = *g->run;
    struct cmd_paths paths = {.arena = g->arena};
    struct cmd_many many = {.run = g->run,
                            .partial_data = g->run->given[PARTIAL] != NULL,
                            .into = g,
                            .take = take};
    enum cmd_status status;

    files.operands++;
    files.operand_n--;
    many.found = cmd_find_days(&paths, &files, &g->span);
    status = cmd_each_file(&many, &paths);
    g->left_out = many.left_out;
    if (status == CMD_CLEAN || many.partial_data)
        return cmd_worse(status, choose_and_make(g));
    return cmd_stopped("page", status);
}

static enum cmd_status scout(const struct cmd_run *run) {
    struct scouting g = {.run = run};
    enum cmd_status status;

    if (!cmd_span_take(&g.span, run))
        return CMD_USAGE;
    g.span.team = run->operands[0];
    g.arena = arena_new(cmd_no_memory);
    status = scout_all(&g);
    arena_free(g.arena);
    return status;
}

const struct cmd cmd_scout = {
    .name = "scout",
    .usage = "[OPTION...] NAME PATH...",
    .summary = "a page on a team's receivers, for the staff",
    .about =
        "Reads matches and writes one page on the team NAME (its name or a word of it): who\n"
        "receives and how, by shirt, by zone and by seam, who stands where, what the last\n"
        "plan brought, and blanks for the next one. The team may stand first or second in a\n"
        "file and have any letter there; matches that others played against it count as\n"
        "well. No name of a person stands on the page. From 10 balls on a share is drawn\n"
        "with its interval, from 30 on it is said; below that there are counts.\n"
        "A plan is a line such as plan by11 or plan 5-6 in the notes of a set.",
    .examples = "  9m scout foxes season/\n"
                "  9m scout \"Granite Foxes\" season/ -o saturday.pdf",
    .options = options,
    .operand = "the name of a team, and a file or directory",
    .operand_min = 2,
    .operand_max = SIZE_MAX,
    .run = scout,
};
