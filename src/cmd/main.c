#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

#include "cmd/cmd.h"
#include "cmd/fonts.h"

/* The subcommands, in the order of the help. */
static const struct cmd *const commands[] = {
    &cmd_check, &cmd_report, &cmd_card, &cmd_new, &cmd_scout, &cmd_sheet, &cmd_tally, &cmd_season,
    &cmd_advise, &cmd_aim, &cmd_rate, &cmd_worth,
    &cmd_flight, &cmd_agree, &cmd_export, &cmd_fmt, &cmd_aloud, &cmd_git_setup, &cmd_diff, &cmd_merge,
    &cmd_explain, &cmd_dump,
};

enum { COMMAND_N = sizeof commands / sizeof *commands };

static const struct cmd *command(const char *name) {
    for (size_t i = 0; i < COMMAND_N; i++)
        if (strcmp(name, commands[i]->name) == 0)
            return commands[i];
    return NULL;
}

static void help(FILE *to) {
    fputs("Usage: 9m COMMAND ...\n\n"
          "Reads the notes of a volleyball match or practice, finds slips in them and\n"
          "tells what the serves did.\n\nCommands:\n",
          to);
    for (size_t i = 0; i < COMMAND_N; i++)
        if (!commands[i]->hidden)
            fprintf(to, "  %-9s %s\n", commands[i]->name, commands[i]->summary);
    fputs(
        "\n'9m COMMAND --help' says more about one of them, '9m --version' which 9m this is.\n"
        "In place of a file, - is standard input or output; what stands behind -- is no option.\n"
        "Exit codes: 0 all well, 1 the notes have errors, 2 wrong usage, 3 a file or the system.\n"
        "\nExamples:\n"
        "  9m check harbour.9m           what is wrong in these notes?\n"
        "  9m report harbour.9m          the report as harbour.pdf\n"
        "  9m tally season/              what the serves of a season did\n"
        "  9m explain td E402            what do a mark and a message mean?\n",
        to);
}

static enum cmd_status unknown(const char *word) {
    const char *names[COMMAND_N + 2] = {"help"};
    size_t n = 1;
    const char *meant;

    for (size_t i = 0; i < COMMAND_N; i++)
        if (!commands[i]->hidden)
            names[n++] = commands[i]->name;
    names[n] = NULL;
    meant = cmd_nearest(word, names);
    if (word[0] == '-')
        return cmd_misuse(NULL, "unknown option %s; options stand behind a command", word);
    if (str_ends(str_of(word), STR(".9m")))
        return cmd_misuse(NULL, "\"%s\" is no command; did you mean: 9m check %s", word, word);
    if (meant)
        return cmd_misuse(NULL, "\"%s\" is no command; did you mean %s?", word, meant);
    return cmd_misuse(NULL, "\"%s\" is no command", word);
}

static enum cmd_status help_about(int argc, char **argv) {
    const struct cmd *cmd = argc > 2 ? command(argv[2]) : NULL;

    if (argc > 2 && !cmd)
        return unknown(argv[2]);
    if (cmd)
        cmd_help(cmd, stdout);
    else
        help(stdout);
    return CMD_CLEAN;
}

static enum cmd_status dispatch(int argc, char **argv) {
    const char *word = argc > 1 ? argv[1] : "";
    const struct cmd *cmd = command(word);
    struct cmd_run run;
    enum cmd_status status;

    if (cmd)
        return cmd_options(&run, cmd, argc - 1, argv + 1, &status) ? cmd->run(&run) : status;
    if (argc < 2) {
        help(stderr);
        return CMD_USAGE;
    }
    if (strcmp(word, "--version") == 0 || strcmp(word, "-V") == 0)
        printf("9m %s, for notation 1\n", NINEMETRE_VERSION);
    else if (strcmp(word, "help") == 0 || strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0)
        return help_about(argc, argv);
    else
        return unknown(word);
    return CMD_CLEAN;
}

/* With one of the three streams closed by the caller, the next file opened
 * would take its number and receive what was meant for the stream. The
 * stand-ins are opened the wrong way round, so that using them is an error. */
static void hold_streams(void) {
    static const int wrong_way[] = {O_WRONLY, O_RDONLY, O_RDONLY};

    for (int fd = 0; fd < 3; fd++)
        if (fcntl(fd, F_GETFD) == -1 && errno == EBADF)
            (void)open("/dev/null", wrong_way[fd]);
}

/* Standard output is whole; else errno tells why. A write that failed long ago
 * left no reason behind, but the next one will fail alike. */
static bool printed(void) {
    if (ferror(stdout)) {
        clearerr(stdout);
        putchar('\n');
        errno = 0;
        fflush(stdout);
        return false;
    }
    errno = 0;
    return fflush(stdout) == 0;
}

int main(int argc, char **argv) {
    enum cmd_status status;

    hold_streams();
    signal(SIGPIPE, SIG_IGN); /* a closed pipe is a failed write, see below */
    signal(SIGXFSZ, SIG_IGN); /* so is a file that grows past the limit */
    status = dispatch(argc, argv);
    cmd_fonts_done();
    if (!printed()) {
        if (errno != EPIPE) /* a reader such as head(1) has seen enough */
            cmd_say_unprinted(errno);
        status = CMD_FAILED;
    }
    return (int)status;
}
