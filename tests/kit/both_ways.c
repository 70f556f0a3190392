#include "kit/both_ways.h"

#include <string.h>

#include "syntax/build.h"

struct way {
    struct text text;
    struct diags diags;
    struct syn *syn;
    const struct stmt *st;
};

static void open_way(struct way *w, struct str text, struct arena *a) {
    diags_init(&w->diags, a);
    text_take(&w->text, STR("/nowhere/both.9m"), text, a, &w->diags);
    w->syn = syn_new(&w->text, a, &w->diags);
}

static bool same_spot(struct spot a, struct spot b) {
    return a.kind == b.kind && a.zone == b.zone && a.seam == b.seam && a.x_cm == b.x_cm &&
           a.d_cm == b.d_cm;
}

static const char *serve_differs(const struct serve *a, const struct serve *b) {
#define SAME(member) \
    if (a->member != b->member) \
    return #member
    SAME(has);
    SAME(marks);
    SAME(time_s);
    SAME(margin_cm);
    SAME(start_p_cm);
    SAME(repeat);
    SAME(letter);
    SAME(form);
    SAME(shirt);
    SAME(type);
    SAME(third);
    SAME(paces);
    SAME(steps);
    SAME(intent);
    SAME(outcome);
    SAME(rally);
    SAME(by);
    SAME(going);
    SAME(overlap);
    SAME(review);
#undef SAME
    if (!same_spot(a->aim, b->aim))
        return "aim";
    if (!same_spot(a->landing, b->landing))
        return "landing";
    return memcmp(a->measure, b->measure, sizeof a->measure) ? "measure" : NULL;
}

static bool same_place(struct place a, struct place b) {
    return a.line == b.line && a.at == b.at && a.n == b.n && str_eq(a.text, b.text);
}

/* Places are asked for by their kind and by their number. */
static bool same_places(const struct way *a, const struct way *b) {
    for (int code = T_SERVER; code <= T_REVIEW; code++)
        if (!same_place(syn_place(a->syn, a->st, code), syn_place(b->syn, b->st, code)))
            return false;
    for (unsigned k = 0; k < 6; k++)
        if (!same_place(syn_word(a->syn, a->st, k), syn_word(b->syn, b->st, k)))
            return false;
    return true;
}

static const char *messages_differ(const struct diags *a, const struct diags *b) {
    if (a->n != b->n || a->errors != b->errors || a->warnings != b->warnings)
        return "how many messages";
    if (a->n == 0)
        return NULL;
    const struct diag *x = &a->at[a->n - 1], *y = &b->at[b->n - 1];
    bool same = x->id == y->id && same_place(x->place, y->place) && str_eq(x->text, y->text) &&
                str_eq(x->likely, y->likely) && str_eq(x->attempt, y->attempt) &&
                str_eq(x->expected, y->expected) && x->edit_n == y->edit_n;
    return same ? NULL : "the message";
}

static const char *differs(const struct way *a, const struct way *b, struct arena *arena) {
    const struct stmt *x = a->st, *y = b->st;
    if (!x != !y)
        return "the end";
    const char *messages = messages_differ(&a->diags, &b->diags);
    if (!x || messages)
        return messages;
    if (x->kind != y->kind || x->line != y->line || x->at != y->at ||
        x->has_server != y->has_server || x->opens != y->opens || x->mended != y->mended)
        return "the statement";
    if (!str_eq(syn_comment(a->syn), syn_comment(b->syn)))
        return "the comment";
    if (x->kind == STMT_SERVE || x->has_server) {
        const char *member = serve_differs(&x->as.serve, &y->as.serve);
        return member || same_places(a, b) ? member : "places";
    }
    if (x->kind == STMT_NONE || x->kind == STMT_UNREAD)
        return NULL;
    struct buf p, q;
    buf_init(&p, arena);
    buf_init(&q, arena);
    syn_print(&p, x, 'H');
    syn_print(&q, y, 'H');
    return str_eq(buf_str(&p), buf_str(&q)) ? NULL : "the spelling";
}

struct both_ways both_ways(struct str text, struct syn_words *words, struct arena *a) {
    struct both_ways found = {0, NULL, 0};
    struct way grammar, sum;
    open_way(&grammar, text, a);
    open_way(&sum, text, a);
    grammar.syn->grammar_only = true;
    syn_take_words(sum.syn, words);
    do {
        grammar.st = syn_next_line(grammar.syn);
        sum.st = syn_next_line(sum.syn);
        found.differs = differs(&grammar, &sum, a);
        found.line = sum.st ? sum.st->line : 0;
        found.serves += sum.st && sum.st->kind == STMT_SERVE;
    } while (grammar.st && !found.differs);
    return found;
}
