#include <errno.h>
#include <stdint.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cmd/crew.h"
#include "cmd/spool.h"
#include "cmd/told.h"
#include "export.h"

enum { AS, TABLE, OUTPUT, ANONYMISE, SPREADSHEET, LANG, PARTIAL, THREADS };

enum { KEY_BYTES_MAX = 4096, BATCH_BYTES = 1 << 18 };

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
    CREW_OPTION,
    CMD_FROM_OPTION,
    CMD_TO_OPTION,
    CMD_LAST_OPTION,
    {NULL, NULL, NULL, NULL, 0},
};

/* What the threads share. But for `export` it is of the one whose turn it is. */
struct exporting {
    const struct cmd_run *run;
    struct cmd_span span;
    struct crew crew;
    struct arena *kept; /* of the run */
    struct export *export;
    const char *database; /* of SQLite: rows go there one by one */
    struct spool spool;
    struct cmd_show show;
    struct told told;
    enum cmd_status status;
};

/* What one thread has. */
struct exporter {
    struct exporting *all;
    struct crew_member *member;
    struct arena *arena;  /* of one file */
    struct arena *kept;   /* of the batch */
    struct arena *scratch;
    struct export_batch *batch;
    struct across *across;
    struct squads *squads;
    struct str name;      /* of the file */
    bool left_out;        /* lines or files */
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

/* Rows in the order of their files, whoever made them. */
static void hand_on(struct exporter *x) {
    if (!export_bytes(x->batch))
        return;
    crew_turn(x->member);
    spool_add(&x->all->spool, export_take(x->batch));
}

static void take(void *exporter, const struct checked *c, const struct played *serves, size_t n) {
    struct exporter *x = exporter;

    if (x->all->database)
        crew_turn(x->member);
    export_serves(x->batch, c, serves, n, x->name, x->scratch);
    arena_reset(x->scratch);
    if (export_bytes(x->batch) >= BATCH_BYTES)
        hand_on(x);
}

static void tell_errors(struct exporter *x, struct diags *d, const struct checked *c) {
    struct exporting *all = x->all;
    struct diags fresh = *d;

    crew_turn(x->member);
    told_drop(&all->told, c, &fresh);
    cmd_show(&all->show, &fresh);
    cmd_show_summary(&all->show, x->name, d, c, NULL);
    all->status = cmd_worse(all->status, CMD_FINDINGS);
}

/* Rows are made while their file is checked: after an error nobody sees them, unless
 * the wish was to go on without the lines that have errors. */
static void export_text(struct exporter *x, const struct text *t, struct diags *d) {
    struct check_taker taker = {take, x};
    const struct checked *c;

    x->name = t->name;
    c = check_text_to(&taker, t, x->squads, x->arena, d);
    if (x->all->database)
        crew_turn(x->member);
    export_lines(x->batch, c, x->name, x->scratch);
    arena_reset(x->scratch);
    x->left_out = x->left_out || d->errors || c->incomplete;
    across_add(x->across, t, c, d);
    if (d->errors)
        tell_errors(x, d, c);
}

static void export_file(struct crew_member *m, const char *path) {
    struct exporter *x = m->own;
    struct text text;
    struct diags diags;

    if (crew_text(m, &text, path, x->arena, &diags)) {
        export_text(x, &text, &diags);
    } else {
        x->all->status = CMD_FAILED;
        x->left_out = true;
    }
    arena_reset(x->arena);
}

static void end_files(struct crew_member *m) {
    struct exporter *x = m->own;

    hand_on(x);
    squads_tidy(x->squads);
}

/* ---- the whole ---------------------------------------------------------------- */

static void exporters_init(struct exporter *x, struct exporting *all) {
    for (unsigned i = 0; i < all->crew.n; i++) {
        x[i] = (struct exporter){.all = all, .member = &all->crew.members[i]};
        x[i].arena = arena_new(cmd_no_memory);
        x[i].kept = arena_new(cmd_no_memory);
        x[i].scratch = arena_new(cmd_no_memory);
        x[i].squads = squads_new(cmd_no_memory);
        x[i].across = across_new(x[i].kept);
        x[i].batch = export_batch_new(all->export, x[i].kept);
        all->crew.members[i].own = &x[i];
    }
}

static void exporters_free(struct exporter *x, unsigned n) {
    for (unsigned i = 0; i < n; i++) {
        arena_free(x[i].arena);
        arena_free(x[i].kept);
        arena_free(x[i].scratch);
        squads_free(x[i].squads);
    }
}

static enum cmd_status write_out(struct exporting *all, struct export_batch *last,
                                 bool left_out) {
    const char *out = all->run->given[OUTPUT] ? all->run->given[OUTPUT] : "-";
    bool good;

    if (all->status != CMD_CLEAN && !all->run->given[PARTIAL])
        return cmd_stopped("table", all->status);
    if (left_out)
        cmd_say("INCOMPLETE: serves are missing from this table");
    good = export_end(last, left_out);
    spool_add(&all->spool, export_take(last));
    if (!good)
        cmd_say("the database could not be made; nothing written");
    return good && spool_write(&all->spool, out) ? all->status : CMD_FAILED;
}

/* The database is open from now on and needs its name no more. */
static void begin(struct exporting *all, struct export_batch *first) {
    export_begin(first);
    spool_add(&all->spool, export_take(first));
    if (all->database)
        unlink(all->database);
}

static enum cmd_status read_all(struct exporting *all, unsigned threads,
                                const struct cmd_paths *paths) {
    struct exporter x[CREW_THREADS_MOST];
    bool left_out = all->status != CMD_CLEAN;
    enum cmd_status status;

    crew_init(&all->crew, all->run, threads, export_file);
    all->crew.done = end_files;
    all->crew.found = paths;
    exporters_init(x, all);
    begin(all, x[0].batch);
    crew_work(&all->crew);
    for (unsigned i = 0; i < threads; i++)
        left_out = left_out || x[i].left_out;
    for (unsigned i = 1; i < threads; i++)
        across_merge(x[0].across, x[i].across);
    cmd_tell_across(&all->show, x[0].across, false, x[0].kept);
    status = write_out(all, x[0].batch, left_out);
    exporters_free(x, threads);
    return status;
}

/* ---- usage -------------------------------------------------------------------- */

static bool usage_is_right(const struct cmd_run *run, enum export_form form, unsigned *threads) {
    if (!crew_threads(run, run->given[THREADS], threads))
        return false;
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

static enum cmd_status export_all(struct exporting *all, struct export_style *style,
                                  unsigned threads) {
    struct cmd_paths paths = {.arena = all->kept};
    enum cmd_status status;

    all->status = cmd_find_days(&paths, all->run, &all->span);
    if (overwrites_notes(all->run, &paths))
        return CMD_USAGE;
    if (paths.n == 0 && all->status == CMD_CLEAN)
        cmd_say("no notes of the days that were asked for; the table is empty");
    spool_init(&all->spool, all->kept);
    if (style->form == EXPORT_SQLITE)
        style->database = all->database = spool_named(&all->spool, all->kept);
    status = CMD_FAILED;
    if (style->form != EXPORT_SQLITE || all->database) {
        all->export = export_new(style, all->kept);
        status = read_all(all, threads, &paths);
        export_free(all->export);
    }
    spool_free(&all->spool);
    return status;
}

static enum cmd_status export_run(const struct cmd_run *run) {
    struct exporting all = {.run = run};
    struct export_style style = {.form = EXPORT_CSV};
    enum cmd_status status = CMD_FAILED;
    unsigned threads;

    set_style(&style, run);
    if (!usage_is_right(run, style.form, &threads) || !cmd_span_take(&all.span, run))
        return CMD_USAGE;
    all.kept = all.told.arena = arena_new(cmd_no_memory);
    cmd_show_init(&all.show, stderr, run->color_err);
    if (!run->given[ANONYMISE] || read_key(&all, run->given[ANONYMISE], &style.key))
        status = export_all(&all, &style, threads);
    arena_free(all.kept);
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
