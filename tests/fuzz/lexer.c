/* The lexer alone: tokens lie in the text, one behind the other, every line
 * ends in one NL, and the end comes. */
#include "fuzz.h"

#include <string.h>

#include "notation.h"
#include "token.h"

static size_t lines_in(struct str s) {
    size_t n = s.n > 0 && s.at[s.n - 1] != '\n';

    for (size_t i = 0; i < s.n; i++)
        n += s.at[i] == '\n';
    return n;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct arena *a = arena_new(fuzz_no_memory);
    struct diags d;
    struct text t;
    struct lexer lx;
    struct token token;
    size_t end = 0, newlines = 0, tokens = 0;
    int code;

    fuzz_text(&t, data, size, a, &d);
    tok_init(&lx, &t);
    while ((code = tok_next(&lx, &token)) != 0) {
        if (code == T_NL) {
            newlines++;
        } else {
            PROMISE(token.at >= end, "tokens do not overlap");
            PROMISE(token.n > 0, "a token has bytes");
            end = (size_t)token.at + token.n;
        }
        PROMISE(end <= t.bytes.n, "tokens lie in the text");
        PROMISE(++tokens <= 2 * t.bytes.n + 1, "the lexer comes to an end");
    }
    PROMISE(newlines == lines_in(t.bytes), "every line ends in one NL");
    PROMISE(tok_next(&lx, &token) == 0, "the end stays the end");
    arena_free(a);
    return 0;
}
