#include <getopt.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cmd/cmd.h"

enum { ROWS_MAX = CMD_OPTIONS_MAX + 2, FIRST_LONG = 256, HELP_COLUMN = 22 };

static const char *const color_words[] = {"auto", "always", "never", NULL};

/* What every subcommand has behind its own options. */
static const struct cmd_option common[] = {
    {"color", "WHEN",
     "auto, always or never; auto looks at NO_COLOR,\n"
     "CLICOLOR_FORCE and whether this is a terminal",
     color_words, 0},
    {"help", NULL, "this text", NULL, 'h'},
    {NULL, NULL, NULL, NULL, 0},
};

/* The rows of a command and the common ones behind them, as getopt_long wants
 * them; a row's index is its value. */
struct table {
    const struct cmd_option *rows[ROWS_MAX];
    size_t n, own_n;
    struct option longs[ROWS_MAX + 1];
    char letters[2 * ROWS_MAX + 2];
    const char *names[ROWS_MAX + 1];
};

static void add_row(struct table *t, const struct cmd_option *row, size_t *letter_n) {
    size_t ix = t->n++;

    t->rows[ix] = row;
    t->names[ix] = row->name;
    t->longs[ix] = (struct option){row->name, row->argument ? required_argument : no_argument, NULL,
                                   FIRST_LONG + (int)ix};
    if (!row->letter)
        return;
    t->letters[(*letter_n)++] = row->letter;
    if (row->argument)
        t->letters[(*letter_n)++] = ':';
}

static void table_init(struct table *t, const struct cmd_option *own) {
    size_t letter_n = 0;

    *t = (struct table){.n = 0};
    t->letters[letter_n++] = ':'; /* getopt: stay silent, tell a missing argument apart */
    for (const struct cmd_option *row = own; row && row->name && t->n < CMD_OPTIONS_MAX; row++)
        add_row(t, row, &letter_n);
    t->own_n = t->n;
    for (const struct cmd_option *row = common; row->name; row++)
        add_row(t, row, &letter_n);
}

const char *cmd_nearest(const char *word, const char *const *names) {
    const char *nearest = NULL;
    unsigned least = 3; /* at most two slips */

    for (; *names; names++) {
        unsigned slips = str_slips(str_of(word), str_of(*names), 2);

        if (slips < least && slips < strlen(*names)) {
            least = slips;
            nearest = *names;
        }
    }
    return nearest;
}

/* The row that getopt_long's answer means, or the table's size. */
static size_t row_of(const struct table *t, int answer) {
    for (size_t ix = 0; ix < t->n; ix++)
        if (answer == FIRST_LONG + (int)ix || (answer && answer == t->rows[ix]->letter))
            return ix;
    return t->n;
}

/* "-diff" is read as five letters; what was meant is plain. */
static const char *meant_long(const struct table *t, int argc, char **argv) {
    for (int i = 1; i < argc; i++)
        for (size_t ix = 0; argv[i][0] == '-' && ix < t->n; ix++)
            if (strcmp(argv[i] + 1, t->names[ix]) == 0)
                return t->names[ix];
    return NULL;
}

static unsigned names_with(const struct table *t, const char *prefix, size_t n) {
    unsigned count = 0;

    for (size_t ix = 0; ix < t->n; ix++)
        count += strncmp(t->names[ix], prefix, n) == 0;
    return count;
}

static enum cmd_status unknown_letter(const struct table *t, const struct cmd *cmd, int argc,
                                      char **argv) {
    const char *meant = meant_long(t, argc, argv);

    if (meant)
        return cmd_misuse(cmd, "unknown option -%c; did you mean --%s?", optopt, meant);
    return cmd_misuse(cmd, "unknown option -%c", optopt);
}

static enum cmd_status unknown_long(const struct table *t, const struct cmd *cmd,
                                    const char *word) {
    char name[64];
    const char *meant;

    word += strspn(word, "-");
    snprintf(name, sizeof name, "%.*s", (int)strcspn(word, "="), word);
    meant = cmd_nearest(name, t->names);
    if (names_with(t, name, strlen(name)) > 1)
        return cmd_misuse(cmd, "--%s is the start of several options; write one in full", name);
    if (meant)
        return cmd_misuse(cmd, "unknown option --%s; did you mean --%s?", name, meant);
    return cmd_misuse(cmd, "unknown option --%s", name);
}

static enum cmd_status bad_choice(const struct cmd *cmd, const struct cmd_option *row,
                                  const char *word) {
    char list[128] = "";
    const char *nearest = cmd_nearest(word, row->choices);
    size_t n = 0;

    for (const char *const *choice = row->choices; *choice && n < sizeof list; choice++) {
        const char *between = !n ? "" : choice[1] ? ", " : " or ";

        n += (size_t)snprintf(list + n, sizeof list - n, "%s%s", between, *choice);
    }
    if (nearest)
        return cmd_misuse(cmd, "--%s is %s, not \"%s\"; did you mean %s?", row->name, list, word,
                          nearest);
    return cmd_misuse(cmd, "--%s is %s, not \"%s\"", row->name, list, word);
}

static bool among(const char *word, const char *const *choices) {
    for (; *choices; choices++)
        if (strcmp(word, *choices) == 0)
            return true;
    return false;
}

/* One answer of getopt_long; false when it was wrong. */
static bool take(struct table *t, const char **given, const struct cmd *cmd, int answer, int argc,
                 char **argv, enum cmd_status *status) {
    size_t ix = row_of(t, answer == '?' || answer == ':' ? optopt : answer);
    const struct cmd_option *row = ix < t->n ? t->rows[ix] : NULL;

    if (answer == ':' && row)
        *status = cmd_misuse(cmd, "--%s needs %s behind it", row->name, row->argument);
    else if (answer == '?' && row)
        *status = cmd_misuse(cmd, "--%s takes nothing behind it", row->name);
    else if (answer == '?' && optopt)
        *status = unknown_letter(t, cmd, argc, argv);
    else if (answer == '?')
        *status = unknown_long(t, cmd, argv[optind - 1]);
    else if (row->choices && !among(optarg, row->choices))
        *status = bad_choice(cmd, row, optarg);
    else {
        given[ix] = row->argument ? optarg : "";
        return true;
    }
    return false;
}

/* --color, then NO_COLOR (no-color.org: set and not empty), then
 * CLICOLOR_FORCE, then what the stream is. */
static bool may_color(const char *when, int fd) {
    const char *no = getenv("NO_COLOR"), *force = getenv("CLICOLOR_FORCE");
    const char *term = getenv("TERM");

    if (when && strcmp(when, "auto") != 0)
        return strcmp(when, "always") == 0;
    if (no && *no)
        return false;
    if (force && *force && strcmp(force, "0") != 0)
        return true;
    return isatty(fd) && term && strcmp(term, "dumb") != 0;
}

static bool right_number(const struct cmd_run *run, enum cmd_status *status) {
    const struct cmd *cmd = run->cmd;

    if (run->operand_n < cmd->operand_min)
        *status = cmd_misuse(cmd, "%s needs %s", cmd->name, cmd->operand);
    else if (run->operand_n > 0 && cmd->operand_max == 0)
        *status = cmd_misuse(cmd, "%s takes options only; \"%s\" is too much", cmd->name,
                             run->operands[0]);
    else if (run->operand_n > cmd->operand_max)
        *status = cmd_misuse(cmd, "%s takes no more than %s; \"%s\" is too much", cmd->name,
                             cmd->operand, run->operands[cmd->operand_max]);
    else
        return true;
    return false;
}

bool cmd_options(struct cmd_run *run, const struct cmd *cmd, int argc, char **argv,
                 enum cmd_status *status) {
    struct table t;
    const char *given[ROWS_MAX] = {NULL};
    int answer;

    table_init(&t, cmd->options);
    while ((answer = getopt_long(argc, argv, t.letters, t.longs, NULL)) != -1)
        if (!take(&t, given, cmd, answer, argc, argv, status))
            return false;
    if (given[t.own_n + 1]) {
        cmd_help(cmd, stdout);
        *status = CMD_CLEAN;
        return false;
    }
    *run = (struct cmd_run){.cmd = cmd,
                            .operands = argv + optind,
                            .operand_n = (size_t)(argc - optind),
                            .color_out = may_color(given[t.own_n], STDOUT_FILENO),
                            .color_err = may_color(given[t.own_n], STDERR_FILENO)};
    memcpy(run->given, given, t.own_n * sizeof *given);
    return right_number(run, status);
}

static void help_row(const struct cmd_option *row, FILE *to) {
    char left[64];
    const char *help = row->help;
    size_t n;

    snprintf(left, sizeof left, "%s%c%s--%s%s%s", row->letter ? "-" : " ",
             row->letter ? row->letter : ' ', row->letter ? ", " : "  ", row->name,
             row->argument ? " " : "", row->argument ? row->argument : "");
    fprintf(to, "  %-*s", HELP_COLUMN, left);
    while (help[n = strcspn(help, "\n")]) {
        fprintf(to, " %.*s\n  %*s", (int)n, help, HELP_COLUMN, "");
        help += n + 1;
    }
    fprintf(to, " %s\n", help);
}

void cmd_help(const struct cmd *cmd, FILE *to) {
    fprintf(to, "Usage: 9m %s %s\n\n%s\n\nOptions:\n", cmd->name, cmd->usage, cmd->about);
    for (const struct cmd_option *row = cmd->options; row && row->name; row++)
        help_row(row, to);
    for (const struct cmd_option *row = common; row->name; row++)
        help_row(row, to);
    fprintf(to, "\nExamples:\n%s\n", cmd->examples);
}

unsigned cmd_choice(const char *word, const char *const *choices) {
    unsigned ix = 0;

    while (choices[ix] && strcmp(choices[ix], word) != 0)
        ix++;
    return ix;
}

bool cmd_number(const char *option, const char *given, unsigned most, unsigned *out) {
    unsigned value = 0;
    const char *c = given;

    for (; *c >= '0' && *c <= '9' && value <= most; c++)
        value = value * 10 + (unsigned)(*c - '0');
    if (c == given || *c || value < 1 || value > most) {
        cmd_say("--%s is a whole number from 1 to %u, not \"%s\"", option, most, given);
        return false;
    }
    *out = value;
    return true;
}

bool cmd_plain_number(const char *given, const char *unit, double *out) {
    const char *c = given;
    unsigned digits = 0;
    double tens = 0; /* behind the point: what the number is to be divided by */

    for (*out = 0; (*c >= '0' && *c <= '9') || (*c == '.' && tens == 0); c++)
        if (*c == '.') {
            tens = 1;
        } else {
            *out = 10 * *out + (*c - '0');
            tens *= 10;
            digits++;
        }
    if (tens > 0)
        *out /= tens;
    return digits > 0 && digits <= 15 && strcmp(c, unit) == 0;
}

bool cmd_decimal(const struct cmd_option *option, const char *given, double least, double most,
                 double *out) {
    bool minus = *given == '-';

    if (!cmd_plain_number(given + (minus || *given == '+'), "", out)) {
        cmd_say("--%s is a number such as %.4g, not \"%s\"", option->name, (least + most) / 2,
                given);
        return false;
    }
    *out = minus ? -*out : *out;
    if (*out < least || *out > most) {
        cmd_say("--%s %s is from %.4g to %.4g, not %s", option->name, option->argument, least, most,
                given);
        return false;
    }
    return true;
}
