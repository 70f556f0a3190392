/* Nothing is lost: whatever call on a file goes wrong, and wherever the program is
 * killed, the old file is there or the new one is whole. Each command that writes
 * runs once for each of its calls, with a library before it that makes this call
 * fail (tests/preload/faults.c). One TAP line a command and kind of fault. */
#include "kit/program.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { CALLS_MOST = 2000 };

/* A command that writes a file; `old` is what the file holds before. */
struct writer {
    const char *name, *path;
    const char *arguments[10];
    const char *old;
    bool reads; /* the file is the command's input: each call counts */
};

static const char sloppy[] = "notation 1\nmatch 2026-10-03\nteam H \"Herons\"\nteam G \"Foxes\"\n"
                             "set 1 H\n7   ACE\n7  net   # a remark\n";
static const char unversioned[] = "match 2026-10-03\nteam H \"Herons\"\nteam G \"Foxes\"\n"
                                  "set 1 H\n7 ace\n7 net\n";

static const struct writer writers[] = {
    {"fmt", "a.9m", {"fmt", "a.9m"}, sloppy, true},
    {"check --fix", "a.9m", {"check", "--fix", "a.9m"}, unversioned, true},
    {"new", "b.9m", {"new", "match", "--date", "2026-10-03", "-o", "b.9m"}, NULL, false},
    {"report", "x", {"report", "-o", "x", "m.9m"}, "old", false},
    {"card", "cards/m-7.pdf", {"card", "-o", "cards", "m.9m", "7"}, NULL, false},
    {"card --as text", "cards/m-7.txt", {"card", "--as", "text", "-o", "cards", "m.9m", "7"}, "old", false},
    {"season", "x", {"season", "-o", "x", "m.9m"}, "old", false},
    {"scout", "x", {"scout", "foxes", "-o", "x", "m.9m"}, "old", false},
    {"sheet", "x", {"sheet", "-o", "x"}, "old", false},
    {"tally", "x", {"tally", "--as", "csv", "-o", "x", "m.9m"}, "old", false},
    {"tally --partial", "x", {"tally", "--partial", "-o", "x", "m.9m"}, NULL, false},
    {"tally --merge", "x", {"tally", "--merge", "--as", "json", "-o", "x", "parts"}, "old", true},
    {"export", "x", {"export", "-o", "x", "m.9m"}, "old", false},
    {"export --as sqlite", "x", {"export", "--as", "sqlite", "-o", "x", "m.9m"}, "old", false},
};

/* All commands write in one way, so the last of these are for those that also read. */
static const char *const kinds[] = {"EIO", "ENOSPC", "die", "EDQUOT", "EINTR", "short"};
enum { KIND_N = sizeof kinds / sizeof *kinds, KINDS_OF_WRITES = 3 };

static unsigned tests_n, failed_n;
static char library[4096];

static void tap(bool ok, const char *name, const char *kind, unsigned runs) {
    tests_n++;
    failed_n += !ok;
    printf("%sok %u - %s: %s, at each of %u calls\n", ok ? "" : "not ", tests_n, name, kind, runs);
}

static struct bytes text(const char *s) {
    return (struct bytes){(char *)s, s ? strlen(s) : 0};
}

/* ---- one run ------------------------------------------------------------------ */

struct run {
    int status;     /* -1: killed */
    char call[32];  /* that was hit; empty: there were not so many calls */
    struct bytes file;
    unsigned hidden;
    bool said;
};

/* The names of the calls that were hit, as the library tells them. */
static void hear(int from, char call[32]) {
    ssize_t n = read(from, call, 31);

    call[n > 0 ? n : 0] = '\0';
    close(from);
}

static struct run run_with(const struct writer *w, const char *kind, unsigned at) {
    char number[16], descriptor[16];
    int ends[2];
    struct run r;
    struct bytes said;
    pid_t pid;

    if (pipe(ends) != 0)
        exit(3);
    fcntl(ends[0], F_SETFD, FD_CLOEXEC);
    snprintf(number, sizeof number, "%u", at);
    snprintf(descriptor, sizeof descriptor, "%d", ends[1]);
    pid = program_start(w->arguments,
                        (const char *[]){"LD_PRELOAD", library, "FAULT_KIND", kind, "FAULT_AT", number,
                                         "FAULT_SAY", descriptor, "FAULT_FILE", w->path, "FAULT_FROM",
                                         w->reads ? "" : "create", "ASAN_OPTIONS",
                                         "verify_asan_link_order=0", NULL},
                        ends[1]);
    close(ends[1]);
    r.status = program_wait(pid);
    hear(ends[0], r.call);
    r.file = bytes_read(w->path);
    r.hidden = hidden_beside(w->path);
    said = bytes_read("said");
    r.said = said.n > 0;
    free(said.at);
    return r;
}

static struct bytes good_run(const struct writer *w) {
    if (program_wait(program_start(w->arguments, NULL, -1)) != 0) {
        printf("Bail out! %s fails without a fault\n", w->name);
        exit(3);
    }
    return bytes_read(w->path);
}

/* ---- what must hold ------------------------------------------------------------- */

static bool complain(const struct run *r, const char *what, unsigned at) {
    printf("# call %u (%s), exit status %d: %s\n", at, r->call, r->status, what);
    return false;
}

/* Only a failing `unlink` may leave the file that was being made. */
static bool is_kept(const struct run *r, struct bytes old, struct bytes new, unsigned at) {
    bool done = bytes_same(r->file, new);

    if (!done && !bytes_same(r->file, old))
        return complain(r, "the file is neither the old nor the new one", at);
    if (r->status == 0 && !done)
        return complain(r, "nothing was written, and the status says so not", at);
    if (r->status != 0 && r->status != 3)
        return complain(r, "the status is neither 0 nor 3", at);
    if (r->status == 3 && !r->said)
        return complain(r, "it failed without a word", at);
    if (r->hidden && strcmp(r->call, "unlink") != 0)
        return complain(r, "a file was left behind", at);
    return true;
}

/* The next run writes the file and tidies what the killed one left. */
static bool is_mended(const struct writer *w, struct run *r, struct bytes old, struct bytes new,
                      unsigned at) {
    struct bytes after;
    bool good;

    if (r->status != -1)
        return complain(r, "it was not killed", at);
    if (!bytes_same(r->file, old) && !bytes_same(r->file, new))
        return complain(r, "the file is neither the old nor the new one", at);
    bytes_write(w->path, old);
    after = good_run(w);
    r->hidden = hidden_beside(w->path);
    good = bytes_same(after, new);
    free(after.at);
    if (!good)
        return complain(r, "the next run does not write the file", at);
    return !r->hidden || complain(r, "the next run leaves the other's file behind", at);
}

static void each_call(const struct writer *w, const char *kind, struct bytes new) {
    bool kills = strcmp(kind, "die") == 0, good = true;
    struct bytes old = text(w->old);
    unsigned at = 1;

    for (; at < CALLS_MOST; at++) {
        struct run r;
        bool ended;

        bytes_write(w->path, old);
        r = run_with(w, kind, at);
        ended = !r.call[0];
        if (!ended && kills)
            good = is_mended(w, &r, old, new, at) && good;
        else
            good = is_kept(&r, old, new, at) && good;
        free(r.file.at);
        if (ended)
            break;
    }
    tap(good && at > 5, w->name, kind, at - 1);
}

/* An editor saves the notes while they are rewritten: what it saved is not lost.
 * The last moment is when the new text is on the disk. */
static void saved_meanwhile(const struct writer *w) {
    struct bytes old = text(w->old);
    unsigned at = 1, refused = 0;
    bool good = true, before = true;

    for (; before; at++) {
        struct run r;

        bytes_write(w->path, old);
        r = run_with(w, "save", at);
        before = strcmp(r.call, "fsync") != 0 && r.call[0];
        if (r.status != 0 && r.status != 3)
            good = complain(&r, "the status is neither 0 nor 3", at);
        if (!r.file.at || !strstr((r.file.at[r.file.n] = '\0', r.file.at), "# saved by an editor\n"))
            good = complain(&r, "what the editor saved is lost", at);
        refused += r.status == 3;
        free(r.file.at);
    }
    tap(good && refused > 0, w->name, "an editor saves", at - 1);
}

/* ---- all of them ------------------------------------------------------------------ */

static void copy(const char *source, const char *to) {
    struct bytes b = bytes_read(program_source(source));

    bytes_write(to, b);
    free(b.at);
}

int main(void) {
    const char *build = getenv("BUILD");
    char name[1024];

    snprintf(name, sizeof name, "%s/tests/preload/faults.so", build ? build : "build");
    program_begin();
    snprintf(library, sizeof library, "%s", program_source(name));
    copy("examples/season/2026-10-03-foxes.9m", "m.9m");
    copy("examples/season/herons.9m", "herons.9m");
    free(good_run(&(struct writer){.name = "counts", .path = "parts",
                                   .arguments = {"tally", "--partial", "-o", "parts", "m.9m"}}).at);
    for (size_t i = 0; i < sizeof writers / sizeof *writers; i++) {
        struct bytes new;

        bytes_write(writers[i].path, text(writers[i].old));
        new = good_run(&writers[i]);
        for (size_t k = 0; k < (writers[i].reads ? KIND_N : KINDS_OF_WRITES); k++)
            each_call(&writers[i], kinds[k], new);
        free(new.at);
    }
    saved_meanwhile(&writers[0]);
    saved_meanwhile(&writers[1]);
    program_end();
    printf("1..%u\n", tests_n);
    return failed_n > 0;
}
