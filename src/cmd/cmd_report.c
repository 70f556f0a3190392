#include <sha256.h>
#include <string.h>
#include <sys/stat.h>

#include "cmd/advise.h"
#include "cmd/press.h"

enum { OUTPUT, PAPER, LANGUAGE, FONT, NO_NAMES, SEASON, PARTIAL };

static const struct cmd_option options[] = {
    {"output", "FILE", "where the PDF goes; - is standard output", NULL, 'o'},
    {"paper", "SIZE", "the paper, a4 if not said", cmd_papers, 0},
    CMD_LANG_OPTION,
    {"font", "FILE", "a TrueType file to set the report in", NULL, 0},
    {"no-names", NULL, "shirts only, for a page that is handed round", NULL, 0},
    {"season", "DIR", "the season's notes: the staff's page says what they advise", NULL, 0},
    {"partial-data", NULL, "go on without the lines that have errors", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

enum { HASH_DIGITS = 12 };

/* One report while it is made. */
struct making {
    const struct cmd_run *run;
    const char *path, *out;
    struct arena *arena;
    struct text text;
    struct diags diags;
    const struct checked *checked;
    struct advice season;        /* without faults: none was asked for */
    bool season_left_out;
    struct cmd_press press;
};

static struct str base_name(const char *path) {
    const char *slash = strrchr(path, '/');

    if (strcmp(path, "-") == 0)
        return STR("standard input");
    return str_of(slash ? slash + 1 : path);
}

/* The notes' name with another ending. */
static const char *default_out(struct arena *a, const char *path) {
    struct str name = str_of(path);

    if (str_is(name, "-"))
        return "-";
    if (str_ends(name, STR(".9m")))
        name = str_part(name, 0, name.n - 3);
    return str_c(a, str_printf(a, "%.*s.pdf", STR_ARG(name)));
}

static bool same_file(const char *a, const char *b) {
    struct stat sa, sb;

    return stat(a, &sa) == 0 && stat(b, &sb) == 0 && sa.st_dev == sb.st_dev &&
           sa.st_ino == sb.st_ino;
}

/* As sha256sum prints it for the file, a byte-order mark included. */
static struct str hash_of(const struct text *t, struct arena *a) {
    SHA256_CTX context;
    char digits[SHA256_DIGEST_STRING_LENGTH];

    SHA256_Init(&context);
    if (t->bom)
        SHA256_Update(&context, (const uint8_t *)"\xEF\xBB\xBF", 3);
    SHA256_Update(&context, (const uint8_t *)t->bytes.at, t->bytes.n);
    SHA256_End(&context, digits);
    return str_copy(a, (struct str){digits, HASH_DIGITS});
}

/* ---- letters ---------------------------------------------------------------- */

/* The line of the notes that begins with one of the words. */
static unsigned line_of(const struct text *t, const char *word, const char *or_word) {
    unsigned number = 0;
    struct str line;

    for (size_t at = 0; at <= t->bytes.n; at += line.n + 1) {
        struct str first;

        number++;
        line = text_line_at(t, at);
        first = str_trim(line);
        if (str_starts(first, str_of(word)) || (or_word && str_starts(first, str_of(or_word))))
            return number;
    }
    return 0;
}

static bool covered(struct making *m, struct str words, struct str file, unsigned line) {
    struct str place = line ? str_printf(m->arena, "%.*s:%u", STR_ARG(file), line) : file;

    return cmd_press_covers(&m->press, words, place);
}

static bool team_covered(struct making *m, const struct team *t) {
    bool good = covered(m, t->name, t->place.file, t->place.line);

    for (size_t i = 0; i < t->player_n && !m->run->given[NO_NAMES]; i++)
        good &= covered(m, t->players[i].name, t->players[i].place.file, t->players[i].place.line);
    return good;
}

/* What only the staff's pages show. */
static bool staff_covered(struct making *m) {
    const struct faults *f = m->season.faults;
    struct str season = STR("season");
    bool good = true;

    for (size_t i = 0; i < m->checked->note_n; i++)
        good &= covered(m, m->checked->notes[i].text, m->text.name, m->checked->notes[i].line);
    for (size_t i = 0; f && i < f->server_n; i++)
        good &= cmd_press_covers(&m->press, f->servers[i].name, season);
    for (size_t i = 0; f && i < m->season.drills->n; i++)
        good &= cmd_press_covers(&m->press, m->season.drills->at[i].name, season);
    return good;
}

static bool all_covered(struct making *m) {
    const struct match *match = m->checked->match;
    struct str file = m->text.name;
    bool good = covered(m, base_name(m->path), str_of(m->path), 0);

    good &= covered(m, match->title, file, line_of(&m->text, "match", "practice"));
    good &= covered(m, match->venue, file, line_of(&m->text, "venue", NULL));
    for (unsigned i = 0; i < match->team_n; i++)
        good &= team_covered(m, &match->teams[i]);
    if (!m->run->given[NO_NAMES])
        good &= staff_covered(m);
    for (size_t i = 0; i < m->checked->drill_n; i++)
        good &= covered(m, m->checked->drills[i].name, file, m->checked->drills[i].line);
    return good;
}

/* ---- the report ---------------------------------------------------------------- */

static enum cmd_status set_pages(struct making *m) {
    struct page_facts facts = {
        .file = base_name(m->path),
        .hash = hash_of(&m->text, m->arena),
        .version = str_of(NINEMETRE_VERSION),
        .errors = m->diags.errors,
        .warnings = m->diags.warnings,
        .reviews = m->diags.reviews,
        .no_names = m->run->given[NO_NAMES],
        .season = m->season.faults ? &m->season : NULL,
        .season_left_out = m->season_left_out,
        .lang = cmd_lang(m->run->given[LANGUAGE]),
    };
    struct page_font font = pdf_font(m->press.pdf);
    const struct pages *pages =
        page_report(tally_of(m->checked, m->arena), &facts, &font, m->arena);

    return cmd_press_write(&m->press, pages, m->run->given[PAPER], m->out);
}

static enum cmd_status make(struct making *m) {
    bool ready = cmd_press_open(&m->press, m->run->given[FONT], m->arena) && all_covered(m);
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

    if (!directory || m->checked->match->practice)
        return CMD_CLEAN;
    status = advise_season(m->run, directory, m->run->given[PARTIAL], m->checked, &m->season,
                           m->arena);
    m->season_left_out = status != CMD_CLEAN;
    if (status != CMD_CLEAN && !m->run->given[PARTIAL])
        cmd_say("report not written; without --season it rests on its own notes alone");
    return status;
}

/* Figures come from notes without errors, or are asked for all the same. */
static enum cmd_status check_and_make(struct making *m) {
    struct cmd_show how;
    enum cmd_status status;
    bool stop;

    diags_init(&m->diags, m->arena);
    if (!cmd_read(&m->text, m->path, m->arena, &m->diags))
        return CMD_FAILED;
    m->checked = check_text(&m->text, CHECK_KEEP, m->arena, &m->diags);
    stop = m->diags.errors > 0 && !m->run->given[PARTIAL];
    cmd_show_init(&how, stderr, m->run->color_err);
    cmd_show(&how, &m->diags);
    if (stop || m->diags.errors + m->diags.warnings > 0)
        cmd_show_summary(&how, m->text.name, &m->diags, m->checked,
                         stop ? "Report not written." : NULL);
    if (stop)
        return CMD_FINDINGS;
    if (!holds_serves(m->checked)) {
        cmd_say(m->checked->match->occasion
                    ? "%s holds no serve; report not written"
                    : "%s holds no match and no practice; report not written",
                m->path);
        return CMD_FINDINGS;
    }
    status = read_season(m);
    if (status != CMD_CLEAN && !m->run->given[PARTIAL])
        return status;
    status = cmd_worse(status, m->diags.errors ? CMD_FINDINGS : CMD_CLEAN);
    return cmd_worse(make(m), status);
}

static enum cmd_status report(const struct cmd_run *run) {
    struct making m = {.run = run, .path = run->operands[0]};
    enum cmd_status status;

    m.arena = arena_new(cmd_no_memory);
    m.out = run->given[OUTPUT] ? run->given[OUTPUT] : default_out(m.arena, m.path);
    if (strcmp(m.path, "-") != 0 && same_file(m.path, m.out))
        status = cmd_misuse(run->cmd, "the report would be written over its own notes, %s", m.out);
    else if (run->given[NO_NAMES] && run->given[SEASON])
        status = cmd_misuse(run->cmd, "--season is for the staff's page, which --no-names leaves out");
    else
        status = cmd_press_may_write(run->cmd, m.out) ? check_and_make(&m) : CMD_USAGE;
    arena_free(m.arena);
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
             "chosen from, and practice beside matches, up to the day of the match.\n",
    .examples = "  9m report harbour.9m\n"
                "  9m report --paper letter -o sunday.pdf harbour.9m\n"
                "  9m report --season season/ season/harbour.9m\n"
                "  9m report --no-names harbour.9m\n",
    .options = options,
    .operand = "a file",
    .operand_min = 1,
    .operand_max = 1,
    .run = report,
};
