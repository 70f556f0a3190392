/* The season of one team as PDF. */
#include "cmd/crew.h"
#include "cmd/press.h"
#include "cmd/span.h"

enum { OUTPUT, FROM, TO, LAST, SPLIT, TEAM, PAPER, LANGUAGE, FONT, NO_NAMES, PARTIAL, THREADS };

static const struct cmd_option options[] = {
    {"output", "FILE", "where the PDF goes, season.pdf if not said; - is standard output", NULL,
     'o'},
    CMD_FROM_OPTION,
    CMD_TO_OPTION,
    CMD_LAST_OPTION,
    {"split", "DATE",
     "misses before this day and from it on; a day that was\n"
     "chosen before anyone looked at the figures",
     NULL, 0},
    {"team", "NAME", "which team, where the files have several of ours", NULL, 0},
    {"paper", "SIZE", "the paper, a4 if not said", cmd_papers, 0},
    CMD_LANG_OPTION,
    {"font", "FILE", "a TrueType file to set the report in", NULL, 0},
    {"no-names", NULL, "shirts only", NULL, 0},
    {"partial-data", NULL, "go on in spite of errors: lines that could not be read are\n"
     "left out, one with a single likely mend counts as mended", NULL, 0},
    CREW_OPTION,
    {NULL, NULL, NULL, NULL, 0},
};

/* The season while it is read and set. */
struct making {
    const struct cmd_run *run;
    struct arena *arena;
    struct cmd_many many;
    unsigned threads;
    struct cmd_span span;
    struct date split;           /* year 0: not said */
    struct arena *names;         /* of `teams`: they are added to while others are taken */
    struct pool *teams;          /* those of ours that were met, as people without a shirt */
    struct str team;
    struct season *season;
    struct advice_of of;
    struct drill_book drills;
    struct cmd_press press;
};

/* ---- which files ------------------------------------------------------------------- */

static bool is_named(const struct making *m, const struct person *team) {
    const char *given = m->run->given[TEAM];

    return !given || str_same(team->team, str_of(given));
}

/* Those of one team. Where none was named, there may not be a second. */
static bool wants(void *into, const struct match *of) {
    struct making *m = into;
    struct person team = pool_team_key(of, OURS);

    if (!of->occasion)
        return false;
    pool_person(m->teams, team);
    return is_named(m, &team) && (m->run->given[TEAM] || m->teams->person_n == 1);
}

static void take(void *into, const struct checked *c, struct str name, struct arena *a) {
    struct making *m = into;

    (void)a;
    season_add(m->season, c, name, m->many.warnings);
    advice_add(&m->of, c);
}

/* The one team of ours, or the one that was named; false after a message. */
static bool find_team(struct making *m) {
    const char *given = m->run->given[TEAM];
    struct buf others;
    size_t found = 0;

    buf_init(&others, m->arena);
    pool_settle(m->teams);
    for (size_t i = 0; i < m->teams->person_n; i++) {
        const struct person *team = &m->teams->people[i];

        buf_printf(&others, "%s%.*s", others.n ? ", " : "", STR_ARG(team->team));
        if (!is_named(m, team))
            continue;
        m->team = team->team;
        found++;
    }
    if (found == 1 || m->teams->person_n == 0)
        return true;
    if (given)
        cmd_say("no team of ours is \"%s\"; there is: %.*s", given, STR_ARG(buf_str(&others)));
    else
        cmd_say("there are several teams of ours; name one with --team: %.*s",
                STR_ARG(buf_str(&others)));
    return false;
}

/* Two matches of one day whose order is not known. */
static void tell_clashes(const struct making *m) {
    const struct season *s = m->season;

    for (size_t i = 1; i < s->match_n; i++) {
        const struct season_match *a = &s->matches[i - 1], *b = &s->matches[i];

        if (season_clash(a, b) && !str_eq(a->against, b->against))
            cmd_say("warning: %.*s and %.*s are of one day, %04d-%02d-%02d, and their times do "
                    "not say which came first; the report has them in this order",
                    STR_ARG(a->file), STR_ARG(b->file), a->date.year, a->date.month, a->date.day);
    }
}

/* ---- the pages ------------------------------------------------------------------------ */

/* Of a folder, too; the root is its own. */
static struct str base_name(struct str path) {
    size_t from;

    while (str_ends(path, STR("/")) && path.n > 1)
        path.n--;
    from = str_folder(path).n;
    return from < path.n ? str_part(path, from, path.n) : path;
}

/* Every name that the pages may hold has its letters. */
static bool covered(struct making *m) {
    bool good = cmd_press_covers(&m->press, m->team, str_of(m->run->operands[0]));

    for (size_t i = 0; i < m->season->match_n; i++)
        good &=
            cmd_press_covers(&m->press, m->season->matches[i].against, m->season->matches[i].file);
    for (size_t i = 0; i < m->season->server_n && !m->run->given[NO_NAMES]; i++)
        good &= cmd_press_covers(&m->press, m->season->servers[i].who->name,
                                 str_of(m->run->operands[0]));
    for (size_t i = 0; i < progress_people(m->of.progress); i++) {
        struct progress_focus f;

        if (progress_focus(m->of.progress, i, &f))
            good &= cmd_press_covers(&m->press, f.drill, str_of(m->run->operands[0]));
    }
    for (size_t i = 0; i < m->drills.n; i++)
        if (m->drills.at[i].own)
            good &= cmd_press_covers(&m->press, m->drills.at[i].name, m->drills.at[i].place.file) &&
                    cmd_press_covers(&m->press, m->drills.at[i].goal, m->drills.at[i].place.file);
    return good;
}

static enum cmd_status set_pages(struct making *m, const char *out) {
    struct advice advice;
    struct page_facts facts = {
        .file = base_name(str_of(m->run->operands[0])),
        .version = str_of(NINEMETRE_VERSION),
        .left_out = m->many.left_out,
        .no_names = m->run->given[NO_NAMES],
        .lang = cmd_lang(m->run->given[LANGUAGE]),
    };
    struct page_font font = pdf_font(m->press.pdf);
    struct page_season season = {m->team, m->season, &advice, m->split.year != 0, m->split};

    advice_init(&advice, &m->of, &m->drills, m->arena);
    return cmd_press_write(&m->press, page_season(&season, &facts, &font, m->arena),
                           m->run->given[PAPER], out);
}

static enum cmd_status make(struct making *m, const char *out) {
    bool ready = cmd_press_open(&m->press, m->run->given[FONT], m->arena) && covered(m);
    enum cmd_status status = ready ? set_pages(m, out) : CMD_FAILED;

    cmd_press_close(&m->press);
    return status;
}

static enum cmd_status read_all(struct making *m) {
    struct cmd_paths paths = {.arena = m->arena};
    enum cmd_status status = CMD_CLEAN;

    m->many = (struct cmd_many){.run = m->run,
                                .found = cmd_find_days(&paths, m->run, &m->span),
                                .threads = m->threads,
                                .partial_data = m->run->given[PARTIAL] != NULL,
                                .across = true,
                                .into = m,
                                .wants = wants,
                                .take = take};
    m->teams = pool_new(POOL_SERVERS, m->names);
    m->season = season_new(m->arena);
    m->of = advice_of(m->arena);
    drill_book_init(&m->drills, m->arena);
    for (size_t i = 0; i < m->run->operand_n; i++)
        status = cmd_worse(status, cmd_drills(&m->drills, m->run->operands[i], m->run->color_err));
    return cmd_worse(status, cmd_each_file(&m->many, &paths));
}

static enum cmd_status read_and_make(struct making *m, const char *out) {
    enum cmd_status status = read_all(m);

    if (status != CMD_CLEAN && !m->many.partial_data) {
        cmd_say("season report not written; --partial-data goes on without %s",
                status == CMD_FAILED ? "files that could not be read" : "lines that have errors");
        return status;
    }
    if (!find_team(m))
        return cmd_worse(status, m->run->given[TEAM] ? CMD_USAGE : CMD_FINDINGS);
    season_settle(m->season);
    tell_clashes(m);
    if (m->season->match_n > 0 && m->season->all.serves > 0)
        return cmd_worse(status, make(m, out));
    cmd_say("no serve of ours in a match of what was asked for; season report not written");
    return cmd_worse(status, CMD_FINDINGS);
}

static enum cmd_status season(const struct cmd_run *run) {
    struct making m = {.run = run};
    const char *out = run->given[OUTPUT] ? run->given[OUTPUT] : "season.pdf";
    enum cmd_status status;

    if (!cmd_span_take(&m.span, run) || !cmd_day_option(run, "split", &m.split) ||
        !crew_threads(run, run->given[THREADS], &m.threads) ||
        !cmd_press_may_write(run->cmd, out))
        return CMD_USAGE;
    m.arena = arena_new(cmd_no_memory);
    m.names = arena_new(cmd_no_memory);
    status = read_and_make(&m, out);
    arena_free(m.names);
    arena_free(m.arena);
    return status;
}

const struct cmd cmd_season = {
    .name = "season",
    .usage = "[OPTION]... PATH...",
    .summary = "the report of a season as PDF, for the staff",
    .about = "Reads the matches and practices of our team, puts the matches in the order of\n"
             "their dates and writes what changed: shares match by match with exact limits,\n"
             "where to look at the video, the servers in one order, before and after a day or\n"
             "each focus, practice beside matches, jump serves by week, and what to choose the\n"
             "next focus from. It names people beside figures that may be chance: it is for the\n"
             "staff, and nothing of it belongs on a wall. Notes with errors give no report, and\n"
             "an older one stays as it is.",
    .examples = "  9m season season/\n"
                "  9m season --last 6 -o autumn.pdf season/\n"
                "  9m season --split 2026-11-01 season/",
    .options = options,
    .operand = "a file or a directory",
    .operand_min = 1,
    .operand_max = SIZE_MAX,
    .run = season,
};
