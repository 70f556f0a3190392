/* Killed at random moments, and written by several programs at once: a file is
 * whole, an old one or a new one. One TAP line a property; how often the program
 * was hit while it ran stands behind it as a comment. */
#include "kit/dice.h"
#include "kit/program.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { KILLS = 1000, LINES = 10000, RUNS_MEASURED = 10, PROGRAMS = 8, ROUNDS = 20 };

static unsigned tests_n, failed_n;

static void tap(bool ok, const char *name) {
    tests_n++;
    failed_n += !ok;
    printf("%sok %u - %s\n", ok ? "" : "not ", tests_n, name);
}

static int run(const char *const *arguments) {
    return program_wait(program_start(arguments, NULL, -1));
}

/* A practice of some size in a spelling that fmt changes. */
static struct bytes sloppy(const char *outcome, int lines) {
    struct bytes b = {malloc((size_t)lines * 32 + 128), 0};

    b.n = (size_t)sprintf(b.at, "notation 1\npractice 2026-10-03\nteam H \"Herons\"\n");
    for (int i = 0; i < lines; i++)
        b.n += (size_t)sprintf(b.at + b.n, "7   %s  # %d\n", outcome, i);
    return b;
}

/* ---- killed ------------------------------------------------------------------ */

static long long now_ns(void) {
    struct timespec t;

    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec * 1000000000LL + t.tv_nsec;
}

static const char *const fmt[] = {"fmt", "a.9m", NULL};

/* How long the shortest of some runs takes, so that the moments of the kills fall into
 * one; nothing is asserted of it. */
static long long length_ns(struct bytes old) {
    long long least = 0;

    for (int i = 0; i < RUNS_MEASURED; i++) {
        long long begin, took;

        bytes_write("a.9m", old);
        begin = now_ns();
        run(fmt);
        took = now_ns() - begin;
        if (!i || took < least)
            least = took;
    }
    return least;
}

/* Whether the file is whole; *hit counts the runs that were cut off. */
static bool kill_once(struct bytes old, struct bytes new, long long after_ns, unsigned *hit) {
    struct timespec moment = {after_ns / 1000000000, (long)(after_ns % 1000000000)};
    struct bytes left;
    bool whole;
    pid_t pid;

    bytes_write("a.9m", old);
    pid = program_start(fmt, NULL, -1);
    nanosleep(&moment, NULL);
    kill(pid, SIGKILL);
    *hit += program_wait(pid) == -1;
    left = bytes_read("a.9m");
    whole = bytes_same(left, old) || bytes_same(left, new);
    free(left.at);
    return whole;
}

static void killed_at_random(void) {
    struct bytes old = sloppy("IN", LINES), new;
    struct dice dice = {23};
    unsigned hit = 0, torn = 0;
    long long most;

    most = length_ns(old);
    new = bytes_read("a.9m");
    for (int i = 0; i < KILLS; i++)
        torn += !kill_once(old, new, most * (int)dice_below(&dice, 1100) / 1000, &hit);
    tap(!torn && hit, "killed 1,000 times while it rewrites a file: the old or the new one");
    printf("# %u of %d runs were cut off\n", hit, KILLS);
    bytes_write("a.9m", old);
    tap(run(fmt) == 0 && !hidden_beside("a.9m"), "the next run leaves nothing of the killed ones behind");
    free(old.at);
    free(new.at);
}

/* ---- several at once ------------------------------------------------------------ */

static struct bytes versions[PROGRAMS];
static char names[PROGRAMS][16];

static bool is_version(struct bytes b) {
    for (int i = 0; i < PROGRAMS; i++)
        if (bytes_same(b, versions[i]))
            return true;
    return false;
}

static const char *const *export_of(int i, const char *arguments[5]) {
    arguments[0] = "export";
    arguments[1] = "-o";
    arguments[2] = "table.csv";
    arguments[3] = names[i];
    arguments[4] = NULL;
    return arguments;
}

static void make_versions(void) {
    static const char *const outcomes[PROGRAMS] = {"ace", "in", "net", "long", "left", "right", "foot", "drop"};
    const char *arguments[5];

    for (int i = 0; i < PROGRAMS; i++) {
        struct bytes notes = sloppy(outcomes[i], LINES / 10);

        sprintf(names[i], "%d.9m", i);
        bytes_write(names[i], notes);
        run(export_of(i, arguments));
        versions[i] = bytes_read("table.csv");
        free(notes.at);
    }
}

/* Looks at the file as often as it can while they write; false if it once is none
 * of theirs, or one of them fails. */
static bool write_at_once(void) {
    const char *arguments[5];
    int left = PROGRAMS, status;
    bool good = true;

    for (int i = 0; i < PROGRAMS; i++)
        program_start(export_of(i, arguments), NULL, -1);
    while (left) {
        struct bytes seen = bytes_read("table.csv");

        good = is_version(seen) && good;
        free(seen.at);
        while (left && waitpid(-1, &status, WNOHANG) > 0) {
            good = WIFEXITED(status) && WEXITSTATUS(status) == 0 && good;
            left--;
        }
    }
    return good;
}

static void several_at_once(void) {
    bool good = true;

    make_versions();
    for (int i = 0; i < ROUNDS; i++)
        good = write_at_once() && good;
    tap(good && versions[0].n > 0 && !bytes_same(versions[0], versions[1]),
        "eight programs write one file: it is always one of theirs, whole");
    tap(!hidden_beside("table.csv"), "and nothing is left behind");
    for (int i = 0; i < PROGRAMS; i++)
        free(versions[i].at);
}

int main(void) {
    program_begin();
    killed_at_random();
    several_at_once();
    program_end();
    printf("1..%u\n", tests_n);
    return failed_n > 0;
}
