#include <stdint.h>
#include <string.h>

#include "cmd/explain.h"

enum { LIST, DRILLS };

enum { WIDTH_MAX = 80, CODE_BYTES = 6 };

static const struct cmd_option options[] = {
    {"list", NULL, "every code, word and drill, one a line", NULL, 0},
    {"drills", "PATH",
     "a club's drills too: a .drills file, or the folder\n"
     "of its notes",
     NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

static const char *class_name(enum word_class class) {
    switch (class) {
    case WORD_STATEMENT:
        return "a statement";
    case WORD_TYPE:
        return "a type of serve";
    case WORD_INTENT:
        return "an intent";
    case WORD_MARK:
        return "a mark of technique";
    case WORD_OUTCOME:
        return "an outcome";
    case WORD_AFTER:
        return "said after the outcome";
    case WORD_PHASE:
        return "a phase of technique";
    case WORD_ARGUMENT:
        return "said in a statement";
    case WORD_SHAPE:
        return "a form with numbers";
    }
    return "";
}

void explain_paragraph(const char *text, int indent) {
    size_t width = WIDTH_MAX - (size_t)indent;

    while (*text) {
        size_t n = strcspn(text, "\n");

        if (str_cells((struct str){text, n}, 0) > width)
            for (n = width; n > 0 && text[n] != ' '; n--)
                ;
        if (n == 0)
            n = strcspn(text, " \n"); /* a word that is wider by itself */
        printf("%*s%.*s\n", indent, "", (int)n, text);
        text += n;
        text += *text == ' ' || *text == '\n';
    }
}

/* Some of the notes hold the very bytes that a terminal must not get. */
static void put_notes(const char *text, int indent) {
    struct arena *a = arena_new(cmd_no_memory);

    while (*text) {
        size_t n = strcspn(text, "\n");
        struct buf b;

        buf_init(&b, a);
        cmd_safe(&b, (struct str){text, n}, 0);
        printf("%*s%.*s\n", indent, "", STR_ARG(buf_str(&b)));
        text += n + (text[n] == '\n');
    }
    arena_free(a);
}

void explain_section(const char *head, const char *text, bool notes) {
    if (!*text)
        return;
    printf("\n%s\n", head);
    if (notes)
        put_notes(text, 4);
    else
        explain_paragraph(text, 2);
}

void explain_head(struct str name, const char *kind, const char *meaning) {
    struct arena *a = arena_new(cmd_no_memory);

    explain_paragraph(str_printf(a, "%.*s (%s): %s", STR_ARG(name), kind, meaning).at, 0);
    arena_free(a);
}

static void explain_code(const struct diag_info *info) {
    char code[CODE_BYTES];

    diag_code(info, code);
    explain_head(str_of(code), cmd_severity(info->severity), info->title);
    explain_section("Why it matters:", info->why, false);
    explain_section("Notes that raise it:", info->bad, true);
    explain_section("The same, mended:", info->good, true);
    explain_section("Not the same as:", info->alike, false);
    explain_section("Rule:", info->rule, false);
}

static void explain_word(const struct drill_book *book, const struct word_info *w) {
    explain_head(w->word, class_name(w->class), w->meaning);
    explain_section("In full:", w->help, false);
    explain_section("Example:", w->example, true);
    explain_treating(book, w->id);
}

/* "203" will do for E203: a number is never used twice. */
static const struct diag_info *code_of(const char *word) {
    const struct diag_info *info = diag_find(str_of(word));
    char code[CODE_BYTES];

    for (size_t id = 0; !info && id < DIAG_N; id++) {
        diag_code(diag_info((enum diag_id)id), code);
        if (strcmp(code + 1, word) == 0)
            info = diag_info((enum diag_id)id);
    }
    return info;
}

/* Bytes between two samples of a form; 0 if there are none here. */
static size_t gap_n(struct str s) {
    return str_starts(s, STR(", ")) ? 2 : str_starts(s, STR(" or ")) ? 4 : 0;
}

/* A row of the table gives a word with a fixed spelling, or the samples of a
 * form. */
static bool spelt_in(const struct word_info *w, struct str word) {
    struct str rest = w->word;

    if (w->class != WORD_SHAPE)
        return str_same(rest, word);
    for (size_t n, gap = 0; rest.n; rest = str_part(rest, n + gap, rest.n)) {
        for (n = 0; n < rest.n && !(gap = gap_n(str_part(rest, n, rest.n))); n++)
            ;
        if (str_same(str_part(rest, 0, n), word))
            return true;
    }
    return false;
}

static size_t letter_n(struct str s) {
    size_t n = 0;

    while (n < s.n && ((s.at[n] | 0x20) >= 'a' && (s.at[n] | 0x20) <= 'z'))
        n++;
    return n;
}

/* "m3/2" is explained like the sample "m4/3": the same kind of word for the
 * lexer. The measures are all of one kind; their letters tell them apart. */
static bool shaped_like(const struct word_info *w, struct str word, int code) {
    size_t n = letter_n(w->word);

    if (w->class != WORD_SHAPE || !code || w->code != code)
        return false;
    if (str_starts(str_part(w->word, n, 1), STR(","))) /* samples that differ in their letters */
        return true;
    return letter_n(word) >= n && str_same(str_part(w->word, 0, n), str_part(word, 0, n));
}

static size_t explain_words(const struct drill_book *book, struct str word, int code,
                            size_t done) {
    size_t before = done;

    for (size_t id = 0; id < W_N; id++) {
        const struct word_info *w = word_info((enum word_id)id);

        if (code ? !shaped_like(w, word, code) : !spelt_in(w, word))
            continue;
        if (done++)
            putchar('\n');
        explain_word(book, w);
    }
    return done - before;
}

/* A number alone is a shirt, and up to 6 a zone too. */
static bool plain_number(struct str s) {
    size_t n = 0;

    while (n < s.n && s.at[n] >= '0' && s.at[n] <= '9')
        n++;
    return n == s.n && n > 0 && n <= 2;
}

static size_t explain_number(const struct drill_book *book, struct str word, size_t done) {
    size_t found = explain_words(book, STR("7"), 0, done);

    if (word.n == 1 && word.at[0] >= '1' && word.at[0] <= '6')
        found += explain_words(book, STR("d5"), 0, done + found);
    return found;
}

static size_t explain_shape(const struct drill_book *book, struct str word, size_t done) {
    struct arena *a = arena_new(cmd_no_memory);
    struct token token;
    size_t found = explain_words(book, word, tok_field(a, word, &token), done);

    arena_free(a);
    return found;
}

/* A word may stand in several lists: toss is a statement and a phase. */
static size_t explain(const struct drill_book *book, const char *word, size_t done) {
    const struct diag_info *info = code_of(word);
    size_t found;

    if (info) {
        if (done)
            putchar('\n');
        explain_code(info);
        return 1;
    }
    if (plain_number(str_of(word)))
        return explain_number(book, str_of(word), done);
    found = explain_words(book, str_of(word), 0, done);
    found += explain_rules(str_of(word), done + found);
    found += explain_drills(book, str_of(word), done + found);
    return found ? found : explain_shape(book, str_of(word), done);
}

struct near {
    const char *word;
    struct str nearest;
    unsigned least;
};

static bool has_digit(struct str s) {
    for (size_t i = 0; i < s.n; i++)
        if (s.at[i] >= '0' && s.at[i] <= '9')
            return true;
    return false;
}

/* At least half of what was typed must have been right; a word is not near to a
 * code. */
static void consider(struct near *near, struct str candidate) {
    struct str word = str_of(near->word);
    unsigned slips = str_slips(word, candidate, 2);

    if (slips < near->least && 2 * slips <= word.n && has_digit(word) == has_digit(candidate)) {
        near->least = slips;
        near->nearest = candidate;
    }
}

static void unknown(const struct drill_book *book, const char *word) {
    struct arena *a = arena_new(cmd_no_memory);
    struct near near = {word, STR_NONE, 3};
    char code[CODE_BYTES];

    for (size_t id = 0; id < W_N; id++)
        consider(&near, word_info((enum word_id)id)->word);
    for (size_t id = 0; id < DIAG_N; id++) {
        diag_code(diag_info((enum diag_id)id), code);
        consider(&near, str_copy(a, str_of(code)));
    }
    for (size_t i = 0; profile_info(i); i++)
        consider(&near, str_of(profile_info(i)->name));
    for (size_t i = 0; rule_info(i); i++)
        consider(&near, str_of(rule_info(i)->name));
    for (size_t i = 0; i < book->n; i++)
        consider(&near, book->at[i].name);
    if (near.nearest.n)
        cmd_say("\"%s\" is no code, no word of the notation and no drill; did you mean %.*s?", word,
                STR_ARG(near.nearest));
    else
        cmd_say("\"%s\" is no code, no word of the notation and no drill; see 9m explain --list", word);
    arena_free(a);
}

static void list(const struct drill_book *book) {
    char code[CODE_BYTES];

    for (size_t id = 0; id < DIAG_N; id++) {
        const struct diag_info *info = diag_info((enum diag_id)id);

        diag_code(info, code);
        printf("%-10s %s: %s\n", code, cmd_severity(info->severity), info->title);
    }
    for (size_t id = 0; id < W_N; id++) {
        const struct word_info *w = word_info((enum word_id)id);

        printf("%-10.*s %s: %s\n", STR_ARG(w->word), class_name(w->class), w->meaning);
    }
    explain_list_rules();
    explain_list_drills(book);
}

static enum cmd_status explain_all(const struct cmd_run *run, const struct drill_book *book) {
    enum cmd_status status = CMD_CLEAN;
    size_t done = 0;

    if (run->given[LIST])
        list(book);
    for (size_t i = 0; i < run->operand_n; i++) {
        size_t found = explain(book, run->operands[i], done);

        if (!found) {
            unknown(book, run->operands[i]);
            status = CMD_USAGE;
        }
        done += found;
    }
    return status;
}

static enum cmd_status run_explain(const struct cmd_run *run) {
    struct arena *a = arena_new(cmd_no_memory);
    enum cmd_status status = CMD_CLEAN;
    struct drill_book book;

    drill_book_init(&book, a);
    if (run->given[DRILLS])
        status = explain_read_drills(&book, run->given[DRILLS], run->color_err);
    if (status == CMD_CLEAN && !run->given[LIST] && !run->operand_n)
        status = cmd_misuse(run->cmd, "explain needs %s, or --list", run->cmd->operand);
    else if (status == CMD_CLEAN)
        status = explain_all(run, &book);
    arena_free(a);
    return status;
}

const struct cmd cmd_explain = {
    .name = "explain",
    .usage = "[OPTION...] CODE|WORD|DRILL... | --list",
    .summary = "tells what a message, a word of the notation or a drill means",
    .about = "Explains the code of a message, a mark or any other word of the notation: what\n"
             "it means, an example, the rule behind it, the drills against it. Explains a drill\n"
             "by its name. Needs no network and no file.\n"
             "Exit code: 0; 1 errors in a club's drills; 2 for what there is not; 3 a file or\n"
             "the system.",
    .examples = "  9m explain E402\n"
                "  9m explain td in2 going\n"
                "  9m explain 'Ring toss'            a drill by its name\n"
                "  9m explain drills                 all drills, and what holds for each\n"
                "  9m explain --drills season/ 'Box toss'\n"
                "  9m explain --list",
    .options = options,
    .operand = "a code, a word or a drill",
    .operand_min = 0,
    .operand_max = SIZE_MAX,
    .run = run_explain,
};
