/* Standard input with slips of the keyboard in it: see kit/slip.h. How many
 * there are is told on standard error. */
#include "kit/slip.h"

#include <stdio.h>
#include <stdlib.h>

static void failed(size_t bytes) {
    fprintf(stderr, "slips: no memory for %zu bytes\n", bytes);
    exit(3);
}

int main(int argc, char **argv) {
    struct arena *a = arena_new(failed);
    struct dice d = {argc > 2 ? strtoull(argv[2], NULL, 10) : 1};
    struct buf in;
    struct str out;
    unsigned n;

    if (argc < 2 || argc > 3) {
        fputs("usage: slips LINES_BETWEEN [SEED] < FILE\n", stderr);
        return 2;
    }
    buf_init(&in, a);
    for (int c; (c = getchar()) != EOF;)
        buf_char(&in, (char)c);
    out = slip_notes(buf_str(&in), (unsigned)strtoul(argv[1], NULL, 10), &d, a, &n);
    fwrite(out.at, 1, out.n, stdout);
    fprintf(stderr, "%u slips\n", n);
    arena_free(a);
    return fflush(stdout) == 0 ? 0 : 3;
}
