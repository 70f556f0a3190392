#include <string.h>

#include "cmd/advise.h"
#include "cmd/source.h"

enum { OUTPUT, PAPER, LANGUAGE, FONT, NO_NAMES, SEASON, PARTIAL };

static const struct cmd_option options[] = {
    {"output", "FILE", "where the PDF goes; - is standard output", NULL, 'o'},
    {"paper", "SIZE", "the paper, a4 if not said", cmd_papers, 0},
    CMD_LANG_OPTION,
    {"font", "FILE", "a TrueType file to set the report in", NULL, 0},
    {"no-names", NULL, "shirts only, for a page that is handed round", NULL, 0},
    {"season", "DIR", "the season's notes, to compare with", NULL, 0},
    {"partial-data", NULL, "go on in spite of errors: lines that could not be read are\n"
     "left out, one with a single likely mend counts as mended", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

/* One report while it is made. */
struct making {
    const struct cmd_run *run;
    const char *out;
    struct cmd_source source;
    struct advice season;        /* without faults: none was asked for */
    struct drill_book *drills;   /* of a practice: the program's, and those beside the notes */
    bool season_left_out;
    struct cmd_press press;
};

/* The notes' name with another ending. */
static const char *default_out(struct arena *a, const char *path) {
    if (strcmp(path, "-") == 0)
        return "-";
    return str_c(a, str_printf(a, "%.*s.pdf", STR_ARG(cmd_without_ending(str_of(path)))));
}

/* ---- letters ---------------------------------------------------------------- */

/* What only the staff's pages show. */
static bool staff_covered(struct making *m) {
    const struct faults *f = m->season.faults;
    const struct checked *c = m->source.checked;
    struct str season = STR("season");
    bool good = true;

    for (size_t i = 0; i < c->note_n; i++)
        good &= cmd_source_covers(&m->source, &m->press, c->notes[i].text, c->notes[i].line);
    for (size_t i = 0; f && i < f->server_n; i++)
        good &= cmd_press_covers(&m->press, f->servers[i].name, season);
    for (size_t i = 0; f && i < m->season.drills->n; i++)
        good &= cmd_press_covers(&m->press, m->season.drills->at[i].name, season);
    return good;
}

/* The drill of a focus need not be in any book, nor its player have served. */
static bool focus_covered(struct making *m) {
    bool no_names = m->run->given[NO_NAMES];
    const struct match *match = m->source.checked->match;
    const struct progress *season = m->season.faults ? m->season.progress : NULL;
    struct progress_focus focus;
    bool good = true;

    for (size_t i = 0; i < match->focus_n; i++)
        good &= cmd_source_covers(&m->source, &m->press, match->focuses[i].drill,
                                  match->focuses[i].place.line);
    for (size_t i = 0; season && i < progress_people(season); i++)
        if (progress_focus(season, i, &focus)) {
            good &= cmd_press_covers(&m->press, focus.drill, STR("season"));
            good &= no_names || cmd_press_covers(&m->press, progress_person(season, i)->name,
                                                 STR("season"));
        }
    return good;
}

static bool all_covered(struct making *m) {
    bool no_names = m->run->given[NO_NAMES];
    bool good = cmd_source_covered(&m->source, &m->press, no_names);

    if (m->source.checked->match->practice)
        good &= focus_covered(m);
    return (no_names || staff_covered(m)) && good;
}

/* ---- the report ---------------------------------------------------------------- */

static enum cmd_status set_pages(struct making *m) {
    struct page_facts facts = cmd_source_facts(&m->source);
    struct page_font font = pdf_font(m->press.pdf);
    struct arena *a = m->source.arena;

    facts.no_names = m->run->given[NO_NAMES];
    facts.season = m->season.faults ? &m->season : NULL;
    facts.season_left_out = m->season_left_out;
    facts.left_out = m->season_left_out && m->source.checked->match->practice;
    facts.drills = m->season.faults ? m->season.drills : m->drills;
    facts.lang = cmd_lang(m->run->given[LANGUAGE]);
    return cmd_press_write(&m->press,
                           page_report(tally_of(m->source.checked, a), &facts, &font, a),
                           m->run->given[PAPER], m->out);
}

static enum cmd_status make(struct making *m) {
    bool ready = cmd_press_open(&m->press, m->run->given[FONT], m->source.arena) &&
                 all_covered(m);
    enum cmd_status status = ready ? set_pages(m) : CMD_FAILED;

    cmd_press_close(&m->press);
    return status;
}

/* Pages without one serve, try or jump would say nothing. */
static bool holds_serves(const struct checked *c) {
    for (size_t i = 0; i < c->played_n; i++)
        if (played_counts(&c->played[i]))
            return true;
    return c->match->practice && c->tries_n > 0;
}

static enum cmd_status read_season(struct making *m) {
    const char *directory = m->run->given[SEASON];
    enum cmd_status status;

    if (!directory)
        return CMD_CLEAN;
    if (m->run->given[NO_NAMES] && !m->source.checked->match->practice)
        return cmd_misuse(m->run->cmd, "--season of a match is for the staff's page, which "
                                       "--no-names leaves out");
    status = advise_season(m->run, directory, m->run->given[PARTIAL], m->source.checked,
                           m->source.path, &m->season, m->source.arena);
    m->season_left_out = status != CMD_CLEAN;
    if (status != CMD_CLEAN && !m->run->given[PARTIAL])
        cmd_say("report not written; without --season it rests on its own notes alone");
    return status;
}

/* The season has its own. */
static enum cmd_status read_drills(struct making *m) {
    struct arena *a = m->source.arena;

    if (!m->source.checked->match->practice || m->season.faults)
        return CMD_CLEAN;
    m->drills = arena_alloc(a, 1, sizeof *m->drills);
    drill_book_init(m->drills, a);
    return cmd_drills(m->drills, m->source.path, m->run->color_err);
}

static enum cmd_status read_and_make(struct making *m) {
    const struct cmd_source *s = &m->source;
    enum cmd_status status, season;

    if (!cmd_source_read(&m->source, m->run, m->run->given[PARTIAL], "Report not written.",
                         &status))
        return status;
    if (!holds_serves(s->checked)) {
        cmd_say(s->checked->match->occasion
                    ? "%s holds no serve; report not written"
                    : "%s holds no match and no practice; report not written",
                s->path);
        return CMD_FINDINGS;
    }
    season = read_season(m);
    if (season != CMD_CLEAN && !m->run->given[PARTIAL])
        return season;
    status = cmd_worse(status, read_drills(m));
    return cmd_worse(make(m), cmd_worse(status, season));
}

static enum cmd_status report(const struct cmd_run *run) {
    struct making m = {.run = run, .source = {.path = run->operands[0]}};
    const char *path = m.source.path;
    enum cmd_status status;

    m.source.arena = arena_new(cmd_no_memory);
    m.out = run->given[OUTPUT] ? run->given[OUTPUT] : default_out(m.source.arena, path);
    if (strcmp(path, "-") != 0 && cmd_same_file(path, m.out))
        status = cmd_misuse(run->cmd, "the report would be written over its own notes, %s", m.out);
    else
        status = cmd_press_may_write(run->cmd, m.out) ? read_and_make(&m) : CMD_USAGE;
    arena_free(m.source.arena);
    return status;
}

const struct cmd cmd_report = {
    .name = "report",
    .usage = "[OPTION]... FILE",
    .summary = "the report of a match or a practice as PDF",
    .about = "Checks the notes and sets the report beside them: harbour.9m becomes\n"
             "harbour.pdf. Notes with errors give no report, and an older one stays as it\n"
             "is. The same notes give the same bytes.\n"
             "The last page of a match is for the staff: notes, serves marked ? with their\n"
             "video times and what the plans brought; with --season also what a focus may be\n"
             "chosen from, and practice beside matches, up to the day of the match.\n"
             "Of a practice --season shows tosses, tries and serves beside the last time, and\n"
             "all of each focus since it was written down. Its last page is for the staff too:\n"
             "goals reached, jump serves, nerves, notes and serves marked ?.",
    .examples = "  9m report harbour.9m\n"
                "  9m report --paper letter -o sunday.pdf harbour.9m\n"
                "  9m report --season season/ season/harbour.9m\n"
                "  9m report --no-names harbour.9m",
    .options = options,
    .operand = "a file",
    .operand_min = 1,
    .operand_max = 1,
    .run = report,
};
