#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "cmd/crew.h"
#include "cmd/tally.h"

enum { BY, TEAM, KIND, AS, WIDE, PARTIAL, MERGE, PARTIAL_DATA, THREADS, OUTPUT };

enum { WIDTH_USUAL = 80, WIDTH_LEAST = 20, WIDTH_MOST = 10000 };

static const char *const form_words[] = {"text", "csv", "json", NULL};
static const char *const kind_words[] = {"match", "practice", "both", NULL};

static const struct cmd_option options[] = {
    {"by", "WHAT",
     "server (the default), error, start, aim, zone,\n"
     "receiver, set, rotation, situation, type or all",
     tally_cut_words, 0},
    {"team", "NAME",
     "a team by a word of its name, ours or all; text\n"
     "shows ours if not said, data all",
     NULL, 0},
    {"kind", "KIND", "match, practice or both; matches, where there is one", kind_words, 0},
    {"as", "FORM", "text (the default), csv or json", form_words, 0},
    {"wide", NULL, "all columns, whatever the terminal's width", NULL, 0},
    {"partial", NULL, "write the counts as JSON, to be added up later", NULL, 0},
    {"merge", NULL, "the files are such counts: add them up", NULL, 0},
    {"partial-data", NULL, "go on in spite of errors: lines that could not be read are\n"
     "left out, one with a single likely mend counts as mended", NULL, 0},
    CREW_OPTION,
    {"output", "FILE", "where the result goes, standard output if not said", NULL, 'o'},
    CMD_FROM_OPTION,
    CMD_TO_OPTION,
    CMD_LAST_OPTION,
    {NULL, NULL, NULL, NULL, 0},
};

static bool usage_is_right(const struct cmd_run *run, unsigned *threads, struct cmd_span *span) {
    static const unsigned shown[] = {BY, TEAM, KIND, AS, WIDE};

    if (!crew_threads(run, run->given[THREADS], threads) || !cmd_span_take(span, run))
        return false;
    for (size_t i = 0; run->given[PARTIAL] && i < sizeof shown / sizeof *shown; i++)
        if (run->given[shown[i]]) {
            cmd_misuse(run->cmd, "--partial writes all counts; --%s belongs to a table",
                       options[shown[i]].name);
            return false;
        }
    if (run->given[MERGE] && (run->given[PARTIAL_DATA] || cmd_span_is_bounded(span))) {
        cmd_misuse(run->cmd, "--%s to reading notes, not to --merge",
                   run->given[PARTIAL_DATA] ? "partial-data belongs" : "from, --to and --last belong");
        return false;
    }
    for (size_t i = 0; i < run->operand_n && !run->given[MERGE]; i++)
        if (str_ends(str_of(run->operands[i]), STR(".json"))) {
            cmd_misuse(run->cmd, "%s: counts are added up by --merge", run->operands[i]);
            return false;
        }
    if (run->given[TEAM] && strcmp(run->given[TEAM], "all") != 0 &&
        strcmp(run->given[TEAM], "ours") != 0)
        span->team = run->given[TEAM];
    return true;
}

/* ---- what is shown ------------------------------------------------------------ */

/* COLUMNS, then what the terminal says, then 80. */
static unsigned terminal_width(void) {
    const char *columns = getenv("COLUMNS");
    unsigned long n = columns ? strtoul(columns, NULL, 10) : 0;
    struct winsize size;

    if (n < 1 && isatty(STDOUT_FILENO) && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0)
        n = size.ws_col;
    if (n < 1)
        return WIDTH_USUAL;
    return n < WIDTH_LEAST ? WIDTH_LEAST : n > WIDTH_MOST ? WIDTH_MOST : (unsigned)n;
}

static unsigned cuts_of(const char *word) {
    unsigned cut = word ? cmd_choice(word, tally_cut_words) : CUT_SERVER;

    return cut == CUT_N ? (1u << CUT_N) - 1 : 1u << cut;
}

static enum pool_kind kind_of(const struct cmd_run *run, const struct pool *p) {
    if (run->given[KIND])
        return (enum pool_kind)cmd_choice(run->given[KIND], kind_words);
    return p->matches || p->serves > p->practice_serves ? POOL_MATCH : POOL_PRACTICE;
}

/* False after a message. */
static bool name_team(const struct tally_view *v, const char *word, bool *teams) {
    struct str *names = arena_alloc(v->arena, v->pool->team_n + 1, sizeof *names);

    for (size_t i = 0; i < v->pool->team_n; i++)
        names[i] = v->pool->teams[i].name;
    return cmd_one_team(names, v->pool->team_n, word, teams, v->arena);
}

/* False after a message. Teams without a serve are not shown unless named. */
static bool find_teams(const struct cmd_run *run, const struct tally_view *v, bool all_usual,
                       bool *teams) {
    const char *word = run->given[TEAM] ? run->given[TEAM] : all_usual ? "all" : "ours";
    bool all = strcmp(word, "all") == 0;

    if (!all && strcmp(word, "ours") != 0)
        return name_team(v, word, teams);
    for (size_t i = 0; i < v->pool->team_n; i++) {
        const struct pool_team *team = &v->pool->teams[i];

        teams[i] = (all || team->ours) && pool_counts(v->pool, team, v->kind).serves;
    }
    return true;
}

static enum cmd_status show(const struct cmd_run *run, const struct pool *p, struct arena *a) {
    const char *form = run->given[AS] ? run->given[AS] : "text";
    bool text = strcmp(form, "text") == 0;
    bool *teams = arena_alloc(a, p->team_n + 1, sizeof *teams);
    struct tally_view v = {.pool = p,
                           .cuts = cuts_of(run->given[BY]),
                           .kind = kind_of(run, p),
                           .teams = teams,
                           .width = run->given[WIDE] ? 0 : terminal_width(),
                           .arena = a};
    const char *out = run->given[OUTPUT] ? run->given[OUTPUT] : "-";
    struct str document;

    if (!find_teams(run, &v, !text, teams))
        return CMD_USAGE;
    v.scratch = arena_new(cmd_no_memory);
    document = text                       ? tally_text(&v)
               : strcmp(form, "csv") == 0 ? tally_csv(&v)
                                          : tally_json(&v);
    arena_free(v.scratch);
    return cmd_write(out, document) ? CMD_CLEAN : CMD_FAILED;
}

/* ---- the run -------------------------------------------------------------------- */

static enum cmd_status merge(const struct cmd_run *run, struct pool *p, bool *stop) {
    *stop = false;
    for (size_t i = 0; i < run->operand_n && !*stop; i++)
        *stop = !tally_parts_read(p, run->operands[i], (unsigned)i);
    return *stop ? CMD_FAILED : CMD_CLEAN;
}

/* False after a message. Counts once added can't be told apart again: so nothing is
 * shown. */
static bool each_file_once(const struct cmd_run *run, const struct pool *p) {
    const struct pool_file *twice = pool_twice(p);

    if (!twice)
        return true;
    cmd_say("%s and %s both count %.*s (SHA-256 %.12s...): leave one of them out",
            run->operands[twice[0].part], run->operands[twice[1].part], STR_ARG(twice->name),
            twice->sum.at);
    return false;
}

static enum cmd_status write_parts(const struct cmd_run *run, struct pool *p, struct arena *a) {
    const char *out = run->given[OUTPUT] ? run->given[OUTPUT] : "-";

    pool_sort(p);
    pool_join(p);
    return cmd_write(out, tally_parts(p, a)) ? CMD_CLEAN : CMD_FAILED;
}

/* False after a message. */
static bool has_serves(const struct pool *p, enum pool_kind kind) {
    static const char *const names[] = {"a match", "a practice", "a match or a practice"};
    bool in_matches = p->serves > p->practice_serves, at_practice = p->practice_serves > 0;

    if ((in_matches && kind != POOL_PRACTICE) || (at_practice && kind != POOL_MATCH))
        return true;
    cmd_say("no serve of %s in what was read", p->serves ? names[kind] : names[POOL_BOTH]);
    return false;
}

static enum pool_keeps keeps_of(const struct cmd_run *run) {
    if (run->given[PARTIAL])
        return POOL_WAYS;
    return cuts_of(run->given[BY]) == 1u << CUT_SERVER ? POOL_SERVERS : POOL_TABLES;
}

static enum cmd_status count(const struct cmd_run *run, unsigned threads,
                             const struct cmd_span *span, struct arena *a) {
    struct reading_wish wish = {.run = run,
                                .partial_data = run->given[PARTIAL_DATA] != NULL,
                                .files = run->given[PARTIAL] != NULL,
                                .threads = threads,
                                .span = span};
    struct pool *p = pool_new(keeps_of(run), a);
    bool stop;
    enum cmd_status status = run->given[MERGE] ? merge(run, p, &stop) : tally_read(&wish, p, &stop);

    if (stop)
        return status;
    pool_settle(p);
    if (!each_file_once(run, p))
        return CMD_FAILED;
    if (run->given[PARTIAL])
        return cmd_worse(status, write_parts(run, p, a));
    return cmd_worse(status, has_serves(p, kind_of(run, p)) ? show(run, p, a) : CMD_FINDINGS);
}

static enum cmd_status tally(const struct cmd_run *run) {
    unsigned threads;
    struct cmd_span span;
    struct arena *a;
    enum cmd_status status;

    if (!usage_is_right(run, &threads, &span))
        return CMD_USAGE;
    a = arena_new(cmd_no_memory);
    status = count(run, threads, &span, a);
    arena_free(a);
    return status;
}

const struct cmd cmd_tally = {
    .name = "tally",
    .usage = "[OPTION]... PATH...",
    .summary = "what the serves of matches and practices did, in tables",
    .about =
        "Counts files of notes, and every .9m file below a directory. The first number\n"
        "is the share of serves that broke their pass (ace, over, in1), then come misses\n"
        "and rallies won; each stands beside its counts and, from 10 on, its 95 %\n"
        "interval. A table that is too wide leaves its least useful columns out and says\n"
        "so. Practices are not added to matches unless --kind says so. People are told\n"
        "apart by team and name, by shirt where there is none. Notes with errors give\n"
        "no figures.\n"
        "Exit code: 0 all well, 1 errors in the notes, 2 wrong usage, 3 a file or the\n"
        "system.",
    .examples = "  9m tally season/                         our servers over a season\n"
                "  9m tally --by all harbour.9m             every table of a match\n"
                "  9m tally --team foxes --by zone season/  how the foxes serve\n"
                "  9m tally --as csv --by all season/ > serves.csv\n"
                "  9m tally --partial -o 2026.json season/  counts, to be added up later:\n"
                "  9m tally --merge 2025.json 2026.json",
    .options = options,
    .operand = "a file, a directory or - for standard input",
    .operand_min = 1,
    .operand_max = SIZE_MAX,
    .run = tally,
};
