/* Standard input as another hand would have typed it: see kit/roughen.h. */
#include "kit/roughen.h"

#include <stdio.h>
#include <stdlib.h>

static void failed(size_t bytes) {
    fprintf(stderr, "roughen: no memory for %zu bytes\n", bytes);
    exit(3);
}

int main(int argc, char **argv) {
    struct arena *a = arena_new(failed);
    struct dice d = {argc == 3 ? strtoull(argv[2], NULL, 10) : 1};
    struct buf in;
    struct str out;

    if (argc < 2 || argc > 3) {
        fputs("usage: roughen KINDS [SEED] < FILE\n", stderr);
        return 2;
    }
    buf_init(&in, a);
    for (int c; (c = getchar()) != EOF;)
        buf_char(&in, (char)c);
    out = roughen(buf_str(&in), (unsigned)strtoul(argv[1], NULL, 10), 'H', &d, a);
    fwrite(out.at, 1, out.n, stdout);
    arena_free(a);
    return fflush(stdout) == 0 ? 0 : 3;
}
