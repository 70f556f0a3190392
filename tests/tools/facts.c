/* What the program takes a file to say, one line a fact; for comparing two
 * spellings of it. Exit code 1 if the file has errors. */
#include "kit/facts.h"

#include <stdio.h>
#include <stdlib.h>

static void failed(size_t bytes) {
    fprintf(stderr, "facts: no memory for %zu bytes\n", bytes);
    exit(3);
}

int main(int argc, char **argv) {
    struct arena *a = arena_new(failed);
    struct diags d;
    struct text t;
    struct buf out;

    diags_init(&d, a);
    if (argc != 2 || text_read(&t, argv[1], a, &d) != TEXT_READ) {
        fputs("usage: facts FILE\n", stderr);
        return 2;
    }
    buf_init(&out, a);
    facts_put(&out, check_text(&t, CHECK_KEEP, a, &d));
    fwrite(out.at, 1, out.n, stdout);
    arena_free(a);
    return fflush(stdout) != 0 ? 3 : d.errors > 0;
}
