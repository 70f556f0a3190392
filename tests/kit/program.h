/* The program under test run by a test, in a folder of its own. */
#ifndef NINEMETRE_TESTS_PROGRAM_H
#define NINEMETRE_TESTS_PROGRAM_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

/* Bytes of a file; at NULL: there is none. Freed by whoever asked for them. */
struct bytes {
    char *at;
    size_t n;
};

/* Makes a folder, goes there and gives its path; the program and the top of the
 * checkout are found first. Ends the test when it can't. */
const char *program_begin(void);

/* Leaves the folder and removes it. */
void program_end(void);

/* A file below the top of the checkout, by its whole path. */
const char *program_source(const char *path);

/* Starts the program with these arguments, NULL behind the last, and these names
 * and values in its environment; its two outputs go to `out` and `said`. `extra`
 * is a descriptor that it shares, -1: none. */
pid_t program_start(const char *const *arguments, const char *const *environment, int extra);

/* Its exit status; -1 when it was killed. */
int program_wait(pid_t pid);

struct bytes bytes_read(const char *path);
void bytes_write(const char *path, struct bytes b);
bool bytes_same(struct bytes a, struct bytes b);

/* Names that begin with a point in the folder of a file: what a run left behind. */
unsigned hidden_beside(const char *path);

#endif
