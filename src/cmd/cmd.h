/* What the files of the command share. This is the only room that prints,
 * exits, or looks at the environment, the clock and the terminal. Results go
 * to standard output, talk about the run to standard error. */
#ifndef NINEMETRE_CMD_H
#define NINEMETRE_CMD_H

#include <pthread.h>
#include <stdio.h>
#include <time.h>

#include "across.h"
#include "check.h"
#include "drill.h"

/* Exit codes of every subcommand; where two apply, the larger counts. */
enum cmd_status {
    CMD_CLEAN = 0,
    CMD_FINDINGS = 1, /* the notes have errors, or are not canonical */
    CMD_USAGE = 2,    /* also a team or a shirt that was asked for and is nowhere */
    CMD_FAILED = 3 /* a file or the system */
};

enum cmd_status cmd_worse(enum cmd_status a, enum cmd_status b);

/* One option; parsing and help are made from the same table. */
struct cmd_option {
    const char *name;     /* without dashes; NULL ends the table */
    const char *argument; /* its name in the help; NULL: a switch */
    const char *help;
    const char *const *choices; /* the words it may be, NULL at the end; or NULL */
    char letter;                /* short form, 0: none */
};

enum { CMD_OPTIONS_MAX = 16 };

struct cmd_run {
    const struct cmd *cmd;
    const char *given[CMD_OPTIONS_MAX]; /* by row: NULL, its argument, "" for a switch */
    char *const *operands;
    size_t operand_n;
    bool color_out, color_err; /* may standard output, standard error be coloured? */
};

/* A subcommand: a row of the table in main.c. --help and --color are added to
 * the options of each. */
struct cmd {
    const char *name;
    const char *usage;    /* what stands behind the name */
    const char *summary;  /* one line of the list of commands */
    const char *about;    /* paragraphs, wrapped by hand below 80 columns */
    const char *examples; /* lines, each indented by two */
    const struct cmd_option *options;
    const char *operand; /* "a file", for the message that it is missing */
    size_t operand_min, operand_max;
    bool hidden;
    enum cmd_status (*run)(const struct cmd_run *run);
};

extern const struct cmd cmd_check;
extern const struct cmd cmd_report;
extern const struct cmd cmd_card;
extern const struct cmd cmd_tally;
extern const struct cmd cmd_export;
extern const struct cmd cmd_fmt;
extern const struct cmd cmd_explain;
extern const struct cmd cmd_rate;
extern const struct cmd cmd_worth;
extern const struct cmd cmd_advise;
extern const struct cmd cmd_season;
extern const struct cmd cmd_aim;
extern const struct cmd cmd_agree;
extern const struct cmd cmd_aloud;
extern const struct cmd cmd_merge;
extern const struct cmd cmd_diff;
extern const struct cmd cmd_scout;
extern const struct cmd cmd_sheet;
extern const struct cmd cmd_new;
extern const struct cmd cmd_flight;
extern const struct cmd cmd_git_setup;
extern const struct cmd cmd_dump;

/* ---- options (options.c) ------------------------------------------------ */

/* Reads argv[0] (the subcommand's name) and what follows. False when the run
 * ends here, with *status: help was asked for or the usage is wrong. */
bool cmd_options(struct cmd_run *run, const struct cmd *cmd, int argc, char **argv,
                 enum cmd_status *status);

void cmd_help(const struct cmd *cmd, FILE *to);

/* Which of the choices a word is; how many there are if it is none. */
unsigned cmd_choice(const char *word, const char *const *choices);

/* A whole number from 1 to `most` given to an option; false after a message. */
bool cmd_number(const char *option, const char *given, unsigned most, unsigned *out);

/* Digits with at most one point in them, behind them nothing or `unit`. */
bool cmd_plain_number(const char *given, const char *unit, double *out);

/* A number with or without a sign, from `least` to `most`, given to an option;
 * false after a message. */
bool cmd_decimal(const struct cmd_option *option, const char *given, double least, double most,
                 double *out);

/* The name of the list that is nearest to `word`, at most two slips away; NULL
 * if there is none. The list ends in NULL. */
const char *cmd_nearest(const char *word, const char *const *names);

/* ---- names (named.c) ------------------------------------------------------ */

/* Marks the names that a word means: a whole name, or else those in which it, or
 * its beginning, is a word or several in a row; the case of A to Z aside. Gives
 * how many. */
size_t cmd_named(const struct str *names, size_t n, const char *word, bool *meant);

/* The same where one team is to be meant: false after a message that names those
 * that are near, or those that it may be. */
bool cmd_one_team(const struct str *names, size_t n, const char *word, bool *meant,
                  struct arena *a);

/* ---- talk (talk.c) ------------------------------------------------------ */

/* "9m: text" on standard error, made safe for a terminal. */
void cmd_say(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* The same for wrong usage, with a pointer to the help. Gives CMD_USAGE. */
enum cmd_status cmd_misuse(const struct cmd *cmd, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* That there is no `what` because of files or notes that were not all good. Gives `status`. */
enum cmd_status cmd_stopped(const char *what, enum cmd_status status);

/* That standard output could not be written, and why, if that is known (not 0). */
void cmd_say_unprinted(int error);

/* The handler for arena_new: says so and ends the program with CMD_FAILED. */
void cmd_no_memory(size_t wanted_bytes);

/* Why a file could not be read, from errno; NULL if it was. */
const char *cmd_unread(enum text_status status);

/* Reads a file as text_read does; gives why it can't, NULL if it can. */
const char *cmd_why_unread(struct text *t, const char *path, struct arena *a, struct diags *d);

/* The same; says what is wrong when it can't. */
bool cmd_read(struct text *t, const char *path, struct arena *a, struct diags *d);

/* ---- safe text (safe.c) ------------------------------------------------- */

/* Adds `s` as it may be sent to a terminal: TABs become spaces (to 8, counted
 * from cell `from`), control and direction characters and bytes that are not
 * UTF-8 become <F8> or <U+202E>, strange blanks a middle dot. */
void cmd_safe(struct buf *b, struct str s, unsigned from);

/* How one character is shown: its bytes in `s` are returned, what is shown is
 * added to `b`; *dot is set when it became a middle dot. */
size_t cmd_safe_char(struct buf *b, struct str s, size_t at, unsigned cell, bool *dot);

/* ---- files (write.c, beside.c, tree.c) ---------------------------------- */

/* Writes the whole file, or leaves the old one as it is: a temporary file
 * beside it takes its place, with its mode and, if possible, its owner. A
 * symbolic link stays, its target is replaced; other hard links keep the old
 * file; a device or pipe is written to. "-" is standard output. Says what is
 * wrong and gives false when it fails. */
bool cmd_write(const char *path, struct str bytes);

/* The same with all that stands in an open file. */
bool cmd_write_from(const char *path, int fd);

/* Writes to an open file; false and errno if it fails. */
bool cmd_put(int fd, struct str bytes);

/* As cmd_write does, for notes that were read before: unless they still are `old`
 * they stay as they are, since somebody has saved them in the meantime. What is
 * to be told comes in *said, for whoever has to wait for a turn to say it. */
bool cmd_rewrite(const char *path, struct str old, struct str new, struct arena *a,
                 struct str *said);

/* For paths that others read while they are found. */
struct cmd_sharing {
    pthread_mutex_t lock;        /* held while a path is added */
    pthread_cond_t more;         /* told when one was */
};

/* Paths in the order in which they are to be read. */
struct cmd_paths {
    struct arena *arena;
    const char **at;
    size_t n, room;
    struct cmd_sharing *sharing; /* NULL: nobody looks before all are found */
    bool drills;                 /* files of drills are looked for too */
};

/* The files of the operands: a file as given, a directory's *.9m files sorted
 * by name, without hidden ones, each once however many links lead to it. Links out
 * of the directory, pipes and devices are left out, which is said. Says what is
 * wrong with an operand, gives CMD_FAILED then and goes on. */
enum cmd_status cmd_find(struct cmd_paths *paths, const struct cmd_run *run);

/* The same of one path. */
enum cmd_status cmd_find_in(struct cmd_paths *paths, const char *path);

/* The folder that holds the file. */
const char *cmd_folder(struct arena *a, const char *path);

/* The files of one directory with this ending, by name; false and errno if it
 * can't be read. */
bool cmd_list(struct cmd_paths *paths, const char *directory, const char *ending);

void cmd_add_path(struct cmd_paths *p, const char *path);

/* ---- a club's drills (drills.c) ------------------------------------------ */

#define DRILLS_ENDING ".drills"

bool cmd_is_drills(struct str path);

/* Adds the drills of a file that ends in .drills, or of all such files in a
 * folder; of other files (notes) it is the folder that they lie in. What is
 * wrong with them is told on standard error, and they are not added. */
enum cmd_status cmd_drills(struct drill_book *b, const char *path, bool color);

/* ---- progress (progress.c) ---------------------------------------------- */

/* A bar on standard error: only if that is a terminal, and only once somebody
 * has waited for a moment. */
struct cmd_progress {
    bool wanted, shown;
    struct timespec start;
    long long next_ms; /* from the start: when it may be drawn again */
};

void cmd_progress_init(struct cmd_progress *p);
void cmd_progress_tell(struct cmd_progress *p, size_t done, size_t all);

/* Before anything else is written to the terminal, and at the end. */
void cmd_progress_clear(const struct cmd_progress *p);

/* ---- many files (many.c) ------------------------------------------------ */

/* What is done with many files, each by itself. */
struct cmd_many {
    const struct cmd_run *run;
    enum cmd_status found;       /* what cmd_find gave */
    unsigned threads;            /* 0: one */
    bool partial_data;           /* go on without lines and files that have errors */
    bool left_out;               /* told afterwards: lines or files are missing */
    unsigned warnings;           /* of the file that is being taken */
    bool across;                 /* tell all that shows only across files, and not
                                    merely a match that stands in two of them */
    void *into;
    /* Which files are to be taken; NULL: all. Asked of their heads in any order, once
     * each, also of files with errors; two questions never overlap, but a question and
     * `take` do. */
    bool (*wants)(void *into, const struct match *m);
    void (*take)(void *into, const struct checked *c, struct str name, struct arena *a);
};

struct cmd_show;

/* Tells that a match stands in two files; with `all` everything that shows only
 * across files. */
void cmd_tell_across(struct cmd_show *how, struct across *x, bool all, struct arena *a);

/* Reads and checks the files, says what is wrong with them, and hands on those that
 * are wanted, in their order; each is soon forgotten. Unless all is well nothing may
 * be made of what was taken, but with partial_data. */
enum cmd_status cmd_each_file(struct cmd_many *m, const struct cmd_paths *paths);

/* ---- showing messages (show.c) ------------------------------------------ */

struct cmd_show {
    FILE *to;
    bool color;
    bool brief;     /* first lines only */
    bool reviews;   /* lines marked `?` too */
    size_t left;    /* how many may still be shown */
    size_t omitted; /* those that were not */
    size_t shown;
};

/* Text for people on `to`, without a limit. */
void cmd_show_init(struct cmd_show *how, FILE *to, bool color);

/* True if the message is to be shown now; counts it either way. */
bool cmd_show_takes(struct cmd_show *how, const struct diag *diag);

/* "error", "warning", "review". */
const char *cmd_severity(enum severity s);

/* How many messages were counted and not kept. */
size_t cmd_uncounted(const struct diags *d);

/* "3 errors, 1 warning; 212 of 215 lines read." */
void cmd_show_counts(FILE *to, size_t errors, size_t warnings, size_t reviews, size_t lines,
                     size_t unread);

/* Sorts the messages and shows them. */
void cmd_show(struct cmd_show *how, struct diags *d);

/* "harbour.9m: 3 errors, 1 warning, 2 to review; 212 of 215 lines read." and
 * behind it `then` ("Report not written."), which may be NULL. Nothing when
 * there is nothing to sum up. */
void cmd_show_summary(struct cmd_show *how, struct str name, const struct diags *d,
                      const struct checked *checked, const char *then);

/* "and 12 more", when some were not shown. */
void cmd_show_rest(const struct cmd_show *how);

/* ---- messages as data (data.c, data_sarif.c) ---------------------------- */

/* One end of a place in every count that a reader of ours may want; all from 1. */
struct cmd_column {
    unsigned display, byte, character, utf16;
};

struct cmd_column cmd_column(struct str line, unsigned at);

enum cmd_form { CMD_TEXT, CMD_SHORT, CMD_JSON, CMD_JSONL, CMD_SARIF };

/* What a run adds up to. */
struct cmd_total {
    size_t files, with_messages;
    size_t errors, warnings, reviews, lines, unread;
};

/* A document under construction; NULL parts are not in use. */
struct cmd_data;

struct cmd_data *cmd_data_new(struct arena *a, enum cmd_form form, struct cmd_show *how);

/* Takes the messages of one file; those as JSON lines are printed at once. */
void cmd_data_add(struct cmd_data *data, const struct text *t, struct diags *d);

/* A file that could not be read. */
void cmd_data_failed(struct cmd_data *data, const char *path, const char *why);

/* Prints the document and gives its memory back. */
void cmd_data_end(struct cmd_data *data, const struct cmd_total *total);

/* ---- mending and differences (mend.c, compare.c) ------------------------ */

/* The text with the safe mends of `d`; `*mended_n` of them were made. A mend
 * that overlaps an earlier one waits for the next round. */
struct str cmd_mend(const struct text *t, const struct diags *d, struct arena *a, size_t *mended_n);

/* The bytes with the byte order mark that the file had; as they are if it had none. */
struct str cmd_with_bom(const struct text *t, struct str bytes, struct arena *a);

/* A unified difference of two texts under the name; nothing when they are the
 * same. On a terminal the lines are made safe. */
void cmd_compare(FILE *to, bool color, const char *name, struct str old, struct str new,
                 struct arena *a);

#endif
