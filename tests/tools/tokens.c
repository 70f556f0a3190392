/* The words of a file as the lexer cuts them, one a line: the line's number, the
 * number of the terminal, the word. Shorthand stays as it is written. */
#include <stdio.h>
#include <stdlib.h>

#include "notation.h"
#include "token.h"

static void failed(size_t bytes) {
    fprintf(stderr, "tokens: no memory for %zu bytes\n", bytes);
    exit(3);
}

int main(int argc, char **argv) {
    struct arena *a = arena_new(failed);
    struct diags d;
    struct text t;
    struct lexer lx;
    struct token token;
    unsigned line = 1;

    diags_init(&d, a);
    if (argc != 2 || text_read(&t, argv[1], a, &d) != TEXT_READ) {
        fputs("usage: tokens FILE\n", stderr);
        return 2;
    }
    tok_init(&lx, &t);
    for (int code; (code = tok_next(&lx, &token)); line = lx.line)
        if (code != T_NL)
            printf("%u\t%d\t%.*s\n", line, code, STR_ARG(str_part(t.bytes, token.at, token.n)));
    arena_free(a);
    return fflush(stdout) != 0 ? 3 : 0;
}
