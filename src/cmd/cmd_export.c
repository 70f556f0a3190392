#include <errno.h>
#include <stdint.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cmd/cmd.h"
#include "export.h"

enum { AS, TABLE, OUTPUT, ANONYMISE, SPREADSHEET, LANG, PARTIAL };

enum { KEY_BYTES_MAX = 4096 };

static const char *const form_words[] = {"csv", "json", "jsonl", "sqlite", NULL};
static const char *const table_words[] = {"serves", "practice", NULL};

/* Languages whose numbers have a decimal comma, but for English (Unicode CLDR;
 * checked against the locales of glibc 2.36). */
static const char *const languages[] = {"cs", "da", "de", "el", "en", "es", "fi", "fr", "hr",
                                        "hu", "it", "nb", "nl", "pl", "pt", "ro", "ru", "sk",
                                        "sl", "sr", "sv", "tr", "uk", NULL};

static const struct cmd_option options[] = {
    {"as", "FORM", "csv (the default), json, jsonl (one row a line) or sqlite", form_words, 0},
    {"table", "NAME",
     "serves (the default), or practice: toss, tries,\n"
     "jumps and focus lines",
     table_words, 0},
    {"output", "FILE", "where the table goes, standard output if not said", NULL, 'o'},
    {"anonymise", "KEYFILE",
     "pseudonyms in the place of the names of players\n"
     "and teams, and of paths: the same key gives the\n"
     "same ones",
     NULL, 0},
    {"spreadsheet", NULL, "CSV that a spreadsheet opens with a double click", NULL, 0},
    {"lang", "LANG", "the spreadsheet's language, such as de, en or fr", languages, 0},
    {"partial-data", NULL, "go on in spite of errors: lines that could not be read are\n"
     "left out, one with a single likely mend counts as mended", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

struct exporting {
    const struct cmd_run *run;
    struct arena *kept; /* of the run */
    struct export *export;
    enum cmd_status status;
    bool left_out; /* lines or files */
};

/* ---- the key ------------------------------------------------------------------ */

/* The file's bytes without a line end behind them, which editors add. */
static bool read_key(struct exporting *x, const char *path, struct str *key) {
    char *bytes = arena_alloc(x->kept, KEY_BYTES_MAX + 1, 1);
    FILE *f = fopen(path, "rb");
    size_t n;
    bool good;

    if (!f) {
        cmd_say("%s: %s", path, strerror(errno));
        return false;
    }
    errno = 0;
    n = fread(bytes, 1, KEY_BYTES_MAX + 1, f);
    good = !ferror(f);
    fclose(f);
    while (n && (bytes[n - 1] == '\n' || bytes[n - 1] == '\r'))
        n--;
    *key = (struct str){bytes, n};
    if (!good)
        cmd_say("%s: %s", path, errno ? strerror(errno) : "cannot be read");
    else if (n > KEY_BYTES_MAX)
        cmd_say("%s: a key has no more than %d bytes", path, KEY_BYTES_MAX);
    else if (n < EXPORT_KEY_MIN_BYTES)
        cmd_say("%s: a key of %zu bytes can be guessed; take %d random ones or more", path, n,
                EXPORT_KEY_MIN_BYTES);
    return good && n <= KEY_BYTES_MAX && n >= EXPORT_KEY_MIN_BYTES;
}

/* ---- files ---------------------------------------------------------------------- */

static void add_file(void *exporting, const struct checked *c, struct str name,
                     struct arena *a) {
    struct exporting *x = exporting;

    export_add(x->export, c, name, a);
}

static enum cmd_status write_out(struct exporting *x) {
    const char *out = x->run->given[OUTPUT] ? x->run->given[OUTPUT] : "-";
    const struct str *parts;
    size_t n;

    if (x->status != CMD_CLEAN && !x->run->given[PARTIAL]) {
        cmd_say("nothing written: %s; --partial-data goes on without them",
                x->status == CMD_FAILED ? "files could not be read" : "there are notes with errors");
        return x->status;
    }
    if (x->left_out)
        cmd_say("INCOMPLETE: serves are missing from this table");
    if (!export_end(x->export, x->left_out, &parts, &n)) {
        cmd_say("the database could not be made; nothing written");
        return CMD_FAILED;
    }
    return cmd_write_parts(out, parts, n) ? x->status : CMD_FAILED;
}

/* ---- usage -------------------------------------------------------------------- */

static bool usage_is_right(const struct cmd_run *run, enum export_form form) {
    if (run->given[SPREADSHEET] && form != EXPORT_CSV)
        cmd_misuse(run->cmd, "--spreadsheet goes with --as csv");
    else if (run->given[LANG] && !run->given[SPREADSHEET])
        cmd_misuse(run->cmd, "--lang goes with --spreadsheet; other tables are the same everywhere");
    else if (form == EXPORT_SQLITE && !run->given[OUTPUT] && isatty(STDOUT_FILENO))
        cmd_misuse(run->cmd, "a database is nothing for a terminal; name a file with -o");
    else
        return true;
    return false;
}

static bool overwrites_notes(const struct cmd_run *run, const struct cmd_paths *paths) {
    struct stat out, in;

    if (!run->given[OUTPUT] || stat(run->given[OUTPUT], &out) != 0 || !S_ISREG(out.st_mode))
        return false;
    for (size_t i = 0; i < paths->n; i++)
        if (stat(paths->at[i], &in) == 0 && in.st_dev == out.st_dev && in.st_ino == out.st_ino) {
            cmd_misuse(run->cmd, "the table would be written over its own notes, %s",
                       paths->at[i]);
            return true;
        }
    return false;
}

static void set_style(struct export_style *style, const struct cmd_run *run) {
    bool sheet = run->given[SPREADSHEET] != NULL;
    bool point = !sheet || (run->given[LANG] && strcmp(run->given[LANG], "en") == 0);

    style->form = (enum export_form)(run->given[AS] ? cmd_choice(run->given[AS], form_words) : 0);
    style->table =
        (enum export_table)(run->given[TABLE] ? cmd_choice(run->given[TABLE], table_words) : 0);
    style->bom = sheet;
    style->separator = point ? ',' : ';';
    style->decimal = point ? '.' : ',';
    style->version = str_of(NINEMETRE_VERSION);
}

static enum cmd_status export_all(struct exporting *x, const struct export_style *style) {
    struct cmd_paths paths = {.arena = x->kept};
    struct cmd_many many = {.run = x->run, .found = cmd_find(&paths, x->run),
                            .partial_data = x->run->given[PARTIAL], .into = x, .take = add_file};
    enum cmd_status status;

    if (overwrites_notes(x->run, &paths))
        return CMD_USAGE;
    x->export = export_new(style, x->kept);
    x->status = cmd_each_file(&many, &paths);
    x->left_out = many.left_out;
    status = write_out(x);
    export_free(x->export);
    return status;
}

static enum cmd_status export_run(const struct cmd_run *run) {
    struct exporting x = {.run = run};
    struct export_style style = {.form = EXPORT_CSV};
    enum cmd_status status = CMD_FAILED;

    set_style(&style, run);
    if (!usage_is_right(run, style.form))
        return CMD_USAGE;
    x.kept = arena_new(cmd_no_memory);
    if (!run->given[ANONYMISE] || read_key(&x, run->given[ANONYMISE], &style.key))
        status = export_all(&x, &style);
    arena_free(x.kept);
    return status;
}

const struct cmd cmd_export = {
    .name = "export",
    .usage = "[OPTION]... PATH...",
    .summary = "tables of serves for R, Python, a database, a spreadsheet",
    .about = "Writes one row a serve with all that 9m derived about it: score, rotation,\n"
             "turn, routine, whether the server came in cold. What was not recorded is\n"
             "empty, never 0. The columns stand in NOTATION.md. Notes with errors give no\n"
             "table, and a file of that name stays as it is.\n"
             "A text that a spreadsheet would run as a formula has an apostrophe before it\n"
             "in CSV. --spreadsheet begins with a byte-order mark and parts by semicolons,\n"
             "numbers with a decimal comma; with --lang en by commas, with a point.\n"
             "--anonymise keeps names and paths out of the table and nothing else: dates,\n"
             "letters, shirts and the names of drills stay, so whoever has the match sheet\n"
             "can still tell who is who. Keep the key; who has it can try names out.",
    .examples = "  9m export season/ > serves.csv\n"
                "  9m export --as sqlite -o season.db season/\n"
                "  9m export --as jsonl harbour.9m | jq .outcome\n"
                "  9m export --spreadsheet --lang de -o serves.csv season/\n"
                "  9m export --table practice season/ > practice.csv\n"
                "  head -c 32 /dev/urandom | base64 > club.key\n"
                "  9m export --anonymise club.key season/ > shared.csv",
    .options = options,
    .operand = "a file, a directory or - for standard input",
    .operand_min = 1,
    .operand_max = SIZE_MAX,
    .run = export_run,
};
