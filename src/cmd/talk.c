#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "cmd/cmd.h"

enum cmd_status cmd_worse(enum cmd_status a, enum cmd_status b) {
    return a > b ? a : b;
}

/* File names and words of the command line come from anywhere, so they are
 * made safe like the text of a file. */
__attribute__((format(printf, 1, 0))) static void say(const char *format, va_list args) {
    struct arena *a = arena_new(cmd_no_memory);
    struct buf b;

    buf_init(&b, a);
    cmd_safe(&b, str_vprintf(a, format, args), 4);
    fprintf(stderr, "9m: %.*s\n", STR_ARG(buf_str(&b)));
    arena_free(a);
}

void cmd_say(const char *format, ...) {
    va_list args;

    va_start(args, format);
    say(format, args);
    va_end(args);
}

enum cmd_status cmd_misuse(const struct cmd *cmd, const char *format, ...) {
    va_list args;

    va_start(args, format);
    say(format, args);
    va_end(args);
    if (cmd)
        fprintf(stderr, "Usage: 9m %s %s\n", cmd->name, cmd->usage);
    fprintf(stderr, "'9m %s%s--help' says more.\n", cmd ? cmd->name : "", cmd ? " " : "");
    return CMD_USAGE;
}

enum cmd_status cmd_stopped(const char *what, enum cmd_status status) {
    cmd_say("no %s from %s; --partial-data goes on without them", what,
            status == CMD_FAILED ? "files that could not be read" : "notes with errors");
    return status;
}

void cmd_say_unprinted(int error) {
    cmd_say("standard output could not be written%s%s", error ? ": " : "",
            error ? strerror(error) : "");
}

void cmd_no_memory(size_t wanted_bytes) {
    fprintf(stderr, "9m: this machine has no memory left (%zu bytes were needed)\n", wanted_bytes);
    exit(CMD_FAILED);
}

const char *cmd_unread(enum text_status status) {
    switch (status) {
    case TEXT_READ:
        return NULL;
    case TEXT_MISSING:
    case TEXT_UNREADABLE:
        if (errno == EISDIR)
            return "is a directory, and one file is wanted; 9m season, tally and advise take a whole tree";
        return errno ? strerror(errno) : "cannot be read";
    case TEXT_TOO_LARGE:
        return "too large for a file of notes";
    }
    return NULL;
}

const char *cmd_why_unread(struct text *t, const char *path, struct arena *a, struct diags *d) {
    errno = 0;
    return cmd_unread(text_read(t, path, a, d));
}

bool cmd_read(struct text *t, const char *path, struct arena *a, struct diags *d) {
    const char *why = cmd_why_unread(t, path, a, d);

    if (why)
        cmd_say("%s: %s", path, why);
    return !why;
}
