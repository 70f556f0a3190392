#include <errno.h>
#include <stdint.h>
#include <string.h>

#include "across.h"
#include "cmd/crew.h"
#include "cmd/staged.h"
#include "cmd/told.h"

enum { AS, REVIEW, STRICT, MAX_ERRORS, FIX, DIFF, THREADS, STAGED };

enum { ROUNDS_MAX = 100, TRIALS_MAX = 250, MESSAGES_MOST = 1000000 };

static const char *const form_words[] = {"text", "short", "json", "jsonl", "sarif", NULL};

static const struct cmd_option options[] = {
    {"as", "FORM",
     "text (the default), short (one line a message),\n"
     "json, jsonl (one object a line) or sarif (2.1.0)",
     form_words, 0},
    {"review", NULL, "show the lines marked ? too", NULL, 0},
    {"strict", NULL, "warnings count as errors in the exit code", NULL, 0},
    {"max-errors", "N", "show no more than N messages; all are counted", NULL, 0},
    {"fix", NULL, "make the mends that keep the meaning, then check", NULL, 0},
    {"diff", NULL, "with --fix: show what it would change, write nothing", NULL, 0},
    CREW_OPTION,
    {"staged", NULL, "what the next git commit changes, as it is staged", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

/* What the threads share. But for the first two it is of the one whose turn it is. */
struct checking {
    const struct cmd_run *run;
    enum cmd_form form;
    struct crew crew;
    struct cmd_show show;
    struct cmd_data *data;
    struct staged *staged; /* NULL: files are read */
    struct arena *kept;    /* of the run */
    struct told told;
};

/* What one thread has. */
struct checker {
    struct checking *all;
    struct crew_member *member;
    struct arena *arena;   /* of one file */
    struct arena *scratch; /* of one trial of mends */
    struct squads *squads; /* of the run; NULL with --fix, which may change them */
    struct arena *seen;    /* of the run, for */
    struct across *across;
    struct cmd_total total;
    enum cmd_status status;
};

/* One state of a file and what was found in it. */
struct look {
    struct text text;
    struct diags diags;
    const struct checked *checked;
};

static enum cmd_form form_of(const char *word) {
    enum cmd_form form = CMD_TEXT;

    while (word && strcmp(word, form_words[form]) != 0)
        form++;
    return form;
}

static bool for_people(enum cmd_form form) {
    return form == CMD_TEXT || form == CMD_SHORT;
}

/* A club's drills are no notes: of them there are only lines and messages. */
static const struct checked *check_club(const struct text *t, struct arena *a,
                                        struct diags *d) {
    struct match *m = arena_alloc(a, 1, sizeof *m);
    struct checked *checked = arena_alloc(a, 1, sizeof *checked);
    struct drill_book book;

    m->occasion = true; /* not a squad file */
    drill_book_init(&book, a);
    *checked = (struct checked){.match = m, .lines = drill_read(&book, t, d)};
    check_drills(&book, a, d);
    return checked;
}

static const struct checked *check_either(struct checker *c, const struct text *t,
                                          struct arena *a, struct diags *d) {
    return cmd_is_drills(t->name) ? check_club(t, a, d) : check_text_of(t, 0, c->squads, a, d);
}

static void tell_unread(struct checker *c, const char *path, const char *why) {
    crew_turn(c->member);
    cmd_say("%s: %s", path, why);
    if (!for_people(c->all->form))
        cmd_data_failed(c->all->data, path, why);
    c->status = CMD_FAILED;
}

static enum text_status read_either(struct checker *c, struct look *look, const char *path) {
    struct staged *staged = c->all->staged;

    return staged ? staged_read(staged, &look->text, path, c->arena, &look->diags)
                  : text_read(&look->text, path, c->arena, &look->diags);
}

static bool look_at(struct checker *c, struct look *look, const char *path) {
    const char *why;

    diags_init(&look->diags, c->arena);
    errno = 0;
    why = cmd_unread(read_either(c, look, path));
    if (why) {
        tell_unread(c, path, why);
        return false;
    }
    look->checked = check_either(c, &look->text, c->arena, &look->diags);
    return true;
}

static void look_again(struct checker *c, struct look *look, const struct look *before,
                       struct str bytes, struct arena *a) {
    diags_init(&look->diags, a);
    text_take(&look->text, before->text.name, bytes, a, &look->diags);
    look->text.bom = before->text.bom;
    look->checked = check_either(c, &look->text, a, &look->diags);
}

/* Which of a text's mends can be made without another error. Each trial reads
 * the whole text, in an arena of its own, so there is a bound to them. */
struct trials {
    struct checker *c;
    const struct look *look;
    struct diags good; /* those that can be made together */
    size_t errors;     /* with these made */
    unsigned *left;
};

static bool try_with(struct trials *t, const struct diag *mends, size_t n) {
    struct arena *a = t->c->scratch;
    struct diags all = t->good;
    struct look next;
    size_t mended_n;
    bool good;

    memcpy(all.at + all.n, mends, n * sizeof *mends);
    all.n += n;
    look_again(t->c, &next, t->look, cmd_mend(&t->look->text, &all, a, &mended_n), a);
    good = next.diags.errors <= t->errors;
    if (good)
        t->errors = next.diags.errors;
    arena_reset(a);
    return good;
}

/* Mends that bring an error together are tried in halves. */
static void sort_out(struct trials *t, const struct diag *mends, size_t n) {
    if (n == 0 || *t->left == 0)
        return;
    --*t->left;
    if (try_with(t, mends, n)) {
        t->good.n += n;
    } else if (n > 1) {
        sort_out(t, mends, n / 2);
        sort_out(t, mends + n / 2, n - n / 2);
    }
}

static struct diags safe_mends(struct checker *c, const struct look *look) {
    struct diags safe = look->diags;

    safe.at = arena_alloc(c->arena, look->diags.n, sizeof *safe.at);
    safe.n = 0;
    for (size_t i = 0; i < look->diags.n; i++)
        if (look->diags.at[i].safe && look->diags.at[i].edit_n)
            safe.at[safe.n++] = look->diags.at[i];
    return safe;
}

/* Mends until nothing is left to mend: a mended line may show a second slip.
 * Gives how many mends were made; *left_n is how many would bring an error. */
static size_t mend(struct checker *c, struct look *look, size_t *left_n) {
    unsigned trials = TRIALS_MAX;
    size_t all = 0, mended_n;

    for (int round = 0; round < ROUNDS_MAX; round++) {
        struct trials t = {c, look, look->diags, look->diags.errors, &trials};
        struct diags mends = safe_mends(c, look);
        struct look next;
        struct str bytes;

        (void)cmd_mend(&look->text, &mends, c->scratch, left_n);
        arena_reset(c->scratch);
        if (!*left_n)
            break;
        t.good.at = arena_alloc(c->arena, mends.n, sizeof *t.good.at);
        t.good.n = 0;
        sort_out(&t, mends.at, mends.n);
        bytes = cmd_mend(&look->text, &t.good, c->arena, &mended_n);
        if (!mended_n)
            break;
        look_again(c, &next, look, bytes, c->arena);
        *look = next;
        all += mended_n;
    }
    return all;
}

/* False when the file could not be written. */
static bool fix(struct checker *c, struct look *look, const char *path) {
    struct str old = cmd_with_bom(&look->text, look->text.bytes, c->arena);
    size_t left_n, mended_n = mend(c, look, &left_n);
    struct str new = cmd_with_bom(&look->text, look->text.bytes, c->arena), said;
    bool good;

    if (left_n)
        cmd_say("%s: %zu mend%s left out: another error would come of %s", path, left_n,
                left_n == 1 ? "" : "s", left_n == 1 ? "it" : "them");
    if (!mended_n)
        return true;
    if (c->all->run->given[DIFF]) {
        cmd_compare(stdout, c->all->run->color_out, path, old, new, c->arena);
        return true;
    }
    good = cmd_rewrite(path, old, new, c->arena, &said);
    if (said.n)
        cmd_say("%.*s", STR_ARG(said));
    if (!good)
        return false;
    cmd_say("%s: %zu mend%s made", path, mended_n, mended_n == 1 ? "" : "s");
    return true;
}

static void add_total(struct checker *c, const struct look *look) {
    const struct diags *d = &look->diags;

    c->total.files++;
    c->total.with_messages += d->errors + d->warnings > 0;
    c->total.errors += d->errors;
    c->total.warnings += d->warnings;
    c->total.reviews += d->reviews;
    c->total.lines += look->checked->lines;
    c->total.unread += look->checked->unread;
    if (d->errors || (d->warnings && c->all->run->given[STRICT]))
        c->status = cmd_worse(c->status, CMD_FINDINGS);
}

static bool alone(const struct checking *all) {
    return all->crew.paths.n == 1;
}

static void tell(struct checking *all, struct look *look) {
    if (for_people(all->form)) {
        cmd_show(&all->show, &look->diags);
        if (alone(all))
            cmd_show_rest(&all->show);
        cmd_show_summary(&all->show, look->text.name, &look->diags, look->checked, NULL);
    } else {
        cmd_data_add(all->data, &look->text, &look->diags);
    }
}

/* Most files give nothing to talk about, and wait for nobody. */
static bool is_quiet(const struct checking *all, const struct diags *d) {
    return !d->errors && !d->warnings && !(d->reviews && all->show.reviews);
}

static void check_one(struct crew_member *m, const char *path) {
    struct checker *c = m->own;
    struct look look;

    if (look_at(c, &look, path)) {
        if (c->all->run->given[FIX] && !fix(c, &look, path))
            c->status = CMD_FAILED;
        if (!is_quiet(c->all, &look.diags)) {
            crew_turn(m);
            told_drop(&c->all->told, look.checked, &look.diags);
            tell(c->all, &look);
        }
        add_total(c, &look);
        across_add(c->across, &look.text, look.checked, &look.diags);
    }
    arena_reset(c->arena);
    squads_tidy(c->squads);
}

/* When several files were looked at: what it comes to. */
static void tell_total(const struct checking *all, const struct cmd_total *t) {
    if (!alone(all))
        cmd_show_rest(&all->show);
    if (all->form == CMD_SHORT || t->files < 2 || !t->with_messages)
        return;
    printf("\n%zu of %zu files: ", t->with_messages, t->files);
    cmd_show_counts(stdout, t->errors, t->warnings, t->reviews, t->lines, t->unread);
    putchar('\n');
}

static bool usage_is_right(const struct cmd_run *run, unsigned *messages_most,
                           unsigned *threads) {
    bool standard_input = false;

    for (size_t i = 0; i < run->operand_n; i++)
        standard_input = standard_input || strcmp(run->operands[i], "-") == 0;
    if (run->given[MAX_ERRORS] &&
        !cmd_number("max-errors", run->given[MAX_ERRORS], MESSAGES_MOST, messages_most))
        return false;
    if (!crew_threads(run, run->given[FIX] && !run->given[THREADS] ? "1" : run->given[THREADS],
                      threads))
        return false;
    if (run->given[STAGED] && (run->operand_n || run->given[FIX]))
        cmd_misuse(run->cmd, "--staged checks what is staged: without a path, and without --fix");
    else if (!run->given[STAGED] && !run->operand_n)
        cmd_misuse(run->cmd, "check needs %s", run->cmd->operand);
    else if (run->given[FIX] && run->given[THREADS])
        cmd_misuse(run->cmd, "--fix changes files one after the other, without --threads");
    else if (run->given[DIFF] && !run->given[FIX])
        cmd_misuse(run->cmd, "--diff goes with --fix");
    else if (run->given[DIFF] && !for_people(form_of(run->given[AS])))
        cmd_misuse(run->cmd,
                   "--diff goes with --as text or short: both would write to standard output");
    else if (run->given[FIX] && !run->given[DIFF] && standard_input)
        cmd_misuse(run->cmd, "--fix changes files; for standard input there is --fix --diff");
    else
        return true;
    return false;
}

static struct checker *checkers_new(struct checking *all) {
    struct checker *checkers = arena_alloc(all->kept, all->crew.n, sizeof *checkers);

    for (unsigned i = 0; i < all->crew.n; i++) {
        checkers[i] = (struct checker){.all = all, .member = &all->crew.members[i]};
        checkers[i].arena = arena_new(cmd_no_memory);
        checkers[i].scratch = arena_new(cmd_no_memory);
        checkers[i].seen = arena_new(cmd_no_memory);
        checkers[i].across = across_new(checkers[i].seen);
        checkers[i].squads = all->run->given[FIX] ? NULL : squads_new(cmd_no_memory);
        if (all->staged)
            squads_read_from(checkers[i].squads, (struct squad_source){staged_read, all->staged});
        all->crew.members[i].own = &checkers[i];
    }
    return checkers;
}

static void add_up(struct cmd_total *to, const struct cmd_total *more) {
    to->files += more->files;
    to->with_messages += more->with_messages;
    to->errors += more->errors;
    to->warnings += more->warnings;
    to->reviews += more->reviews;
    to->lines += more->lines;
    to->unread += more->unread;
}

/* What shows only when all files are known. Squads and names of two files are not
 * those of one, so nothing here can be mended. */
static enum cmd_status judge_across(struct checking *all, struct checker *checkers,
                                    struct cmd_total *total) {
    static const struct text none = {.name = {NULL, 0}};
    struct diags d;

    diags_init(&d, all->kept);
    for (unsigned i = 1; i < all->crew.n; i++)
        across_merge(checkers[0].across, checkers[i].across);
    total->with_messages += across_judge(checkers[0].across, &d);
    total->warnings += d.warnings;
    if (for_people(all->form))
        cmd_show(&all->show, &d);
    else
        cmd_data_add(all->data, &none, &d);
    return d.warnings && all->run->given[STRICT] ? CMD_FINDINGS : CMD_CLEAN;
}

static enum cmd_status check_all(struct checking *all, struct cmd_total *total) {
    struct checker *checkers = checkers_new(all);
    enum cmd_status status = crew_work(&all->crew);

    status = cmd_worse(status, judge_across(all, checkers, total));
    for (unsigned i = 0; i < all->crew.n; i++) {
        add_up(total, &checkers[i].total);
        status = cmd_worse(status, checkers[i].status);
        squads_free(checkers[i].squads);
        arena_free(checkers[i].scratch);
        arena_free(checkers[i].seen);
        arena_free(checkers[i].arena);
    }
    return status;
}

/* False after a message; *status is what finding them gave. */
static bool open_staged(struct checking *all, enum cmd_status *status) {
    all->staged = staged_open(all->kept);
    if (!all->staged)
        return false;
    all->crew.paths.arena = all->kept;
    *status = staged_find(all->staged, &all->crew.paths);
    return true;
}

static enum cmd_status check(const struct cmd_run *run) {
    struct checking all = {.run = run, .form = form_of(run->given[AS])};
    struct cmd_total total = {0};
    enum cmd_status status = CMD_CLEAN;
    unsigned most = 0, threads;

    if (!usage_is_right(run, &most, &threads))
        return CMD_USAGE;
    crew_init(&all.crew, run, threads, check_one);
    cmd_show_init(&all.show, stdout, run->color_out);
    all.show.brief = all.form == CMD_SHORT;
    all.show.reviews = run->given[REVIEW] != NULL;
    all.show.left = most ? most : SIZE_MAX;
    all.crew.paths.drills = true;
    all.kept = all.told.arena = arena_new(cmd_no_memory);
    if (run->given[STAGED] && !open_staged(&all, &status)) {
        arena_free(all.kept);
        return CMD_FAILED;
    }
    all.data = for_people(all.form) ? NULL : cmd_data_new(all.kept, all.form, &all.show);
    status = cmd_worse(status, check_all(&all, &total));
    if (all.staged)
        staged_close(all.staged);
    if (all.data)
        cmd_data_end(all.data, &total);
    else
        tell_total(&all, &total);
    arena_free(all.kept);
    return status;
}

const struct cmd cmd_check = {
    .name = "check",
    .usage = "[OPTION...] PATH... | --staged",
    .summary = "finds slips in notes; says nothing when all is well",
    .about = "Checks files of notes, a club's .drills files, and every file of both kinds\n"
             "below a directory (but hidden ones, and links out of it). - is standard input.\n"
             "What is found is the result and goes to standard output in every form; what\n"
             "concerns the run itself (a file that can't be read, mends made) goes to standard\n"
             "error.\n"
             "An error means that numbers could be wrong, a warning that something is\n"
             "unlikely. '# ok W450 reason' at the end of a line silences a warning there.\n"
             "--staged checks what git would commit, whatever the files say by now: what was\n"
             "changed, and the notes that take a squad file which was. A squad file that git\n"
             "is told to ignore is read where it lies.\n"
             "Exit code: 0 no errors, 1 errors, 2 wrong usage, 3 a file or the system.",
    .examples = "  9m check harbour.9m\n"
                "  9m check season/                        every .9m file of a season\n"
                "  9m check --review harbour.9m            what was marked ? while scoring\n"
                "  9m check --fix --diff harbour.9m        what --fix would change\n"
                "  9m check --as sarif season/ > 9m.sarif  for a code review service\n"
                "  9m check --staged                       before a commit\n"
                "  9m check - < harbour.9m",
    .options = options,
    .operand = "a file, a directory, - for standard input, or --staged",
    .operand_min = 0,
    .operand_max = SIZE_MAX,
    .run = check,
};
