/* The parser alone: a line that was not read has its message, and a message of
 * form means a line that was not read. What was read can be printed, and what
 * is printed is a line of the notation. */
#include "fuzz.h"

#include "syntax.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct arena *a = arena_new(fuzz_no_memory);
    struct diags d;
    struct text t;
    struct syn *s;
    const struct stmt *st;
    unsigned before;

    fuzz_text(&t, data, size, a, &d);
    s = syn_new(&t, a, &d);
    for (unsigned line = 0; before = d.errors, (st = syn_next_line(s));) {
        struct buf b;
        PROMISE(st->line > line, "lines come in order");
        line = st->line;
        PROMISE(d.errors - before <= 1, "one line, one message");
        if (st->kind == STMT_UNREAD) {
            PROMISE(d.errors > 0, "a line that was not read has its message");
            continue;
        }
        PROMISE(d.errors == before || st->mended, "a line with a message is read as mended only");
        if (st->mended || st->kind == STMT_NONE || st->kind == STMT_SHORT)
            continue;
        buf_init(&b, a);
        syn_print(&b, st, 'H');
        if (!syn_accepts(s, buf_str(&b)))
            fprintf(stderr, "printed: %.*s\n", STR_ARG(buf_str(&b)));
        PROMISE(syn_accepts(s, buf_str(&b)), "the canonical spelling is notation");
    }
    PROMISE(syn_unread(s) <= syn_lines(s), "not more unread lines than lines");
    arena_free(a);
    return 0;
}
