/* The canonical spelling: spelt once and spelt twice is the same, comments
 * stay, and no line that was read becomes one that is not. */
#include "fuzz.h"

#include "syntax.h"

struct spelt {
    struct str text;
    unsigned comments, unread;
};

static struct spelt spell(const struct text *t, struct arena *a) {
    struct spelt out = {.unread = 0};
    struct diags d;
    struct buf b;
    struct syn *s;
    const struct stmt *st;

    diags_init(&d, a);
    buf_init(&b, a);
    s = syn_new(t, a, &d);
    while ((st = syn_next_line(s))) {
        struct str comment = syn_comment(s);
        if (st->kind == STMT_UNREAD || st->mended) {
            buf_add(&b, text_line_at(t, st->at));
        } else {
            if (st->kind != STMT_NONE)
                syn_print(&b, st, 'H');
            if (st->kind != STMT_NONE && comment.n)
                buf_add(&b, STR("  "));
            buf_add(&b, comment);
            out.comments += comment.n > 0;
        }
        buf_char(&b, '\n');
    }
    out.text = buf_str(&b);
    out.unread = syn_unread(s);
    return out;
}

/* A CR before another one or at the very end is a fault; before the newline
 * that fmt writes it is a part of the line end. So fmt mends this one fault a
 * CR at a time, and twice is not once. */
static bool stray_cr(const uint8_t *data, size_t size) {
    for (size_t i = 0; i < size; i++)
        if (data[i] == '\r' && (i + 1 == size || data[i + 1] == '\r'))
            return true;
    return false;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct arena *a;
    struct diags d;
    struct text t, again;
    struct spelt once, twice;

    if (stray_cr(data, size))
        return 0;
    a = arena_new(fuzz_no_memory);
    fuzz_text(&t, data, size, a, &d);
    if (t.utf16) { /* fmt leaves it as it is */
        arena_free(a);
        return 0;
    }
    once = spell(&t, a);
    text_take(&again, t.name, once.text, a, &d);
    twice = spell(&again, a);
    PROMISE(str_eq(once.text, twice.text), "spelt twice is spelt once");
    PROMISE(once.comments == twice.comments, "comments stay");
    PROMISE(once.unread == twice.unread, "what was read stays readable");
    arena_free(a);
    return 0;
}
