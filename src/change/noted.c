/* Lines and what they say. */
#include "change/parts.h"

#include <string.h>

/* What a serve without a server of its own goes back to, and where a line stands. */
struct standing {
    struct serve server;         /* of the last serve */
    bool served;
    unsigned set, rally, serve_line;
    struct str drill;
};

static void without_line_feed(struct noted_line *l, struct str rest) {
    const char *feed = memchr(rest.n ? rest.at : "", '\n', rest.n);
    l->open = !feed;
    l->raw = str_part(rest, 0, feed ? (size_t)(feed - rest.at) : rest.n);
}

/* The server that `.` stands for. */
static void name_server(struct serve *v, const struct standing *at) {
    if (v->form != SERVER_SAME || !at->served)
        return;
    v->form = at->server.form;
    v->letter = at->server.letter;
    v->shirt = at->server.shirt;
}

static struct str spelt(const struct stmt *st, char ours, struct arena *a) {
    struct buf b;
    buf_init(&b, a);
    syn_print(&b, st, ours);
    return buf_str(&b);
}

/* The first `n` words. */
static struct str opening(struct str says, unsigned n) {
    size_t end = 0;
    for (; n && end < says.n; n--)
        end += noted_word_at(says, end).n + (n > 1);
    return str_part(says, 0, end);
}

/* How many words of a statement say what it is about. A serve of a match is about
 * a rally, whoever is said to have served. */
static unsigned subject_words(enum stmt_kind kind, bool practice) {
    switch (kind) {
    case STMT_SERVE: return practice;
    case STMT_TEAM:
    case STMT_PLAYER:
    case STMT_LIBERO:
    case STMT_SQUAD:
    case STMT_RULE:
    case STMT_SHORT:
    case STMT_FOCUS:
    case STMT_SET:
    case STMT_LINEUP:
    case STMT_TIMEOUT:
    case STMT_DRILL:
    case STMT_TOSS:
    case STMT_TRIES:
    case STMT_JUMPS: return 2;
    case STMT_NONE:
    case STMT_UNREAD:
    case STMT_NOTATION:
    case STMT_MATCH:
    case STMT_PRACTICE:
    case STMT_VENUE:
    case STMT_SCORER:
    case STMT_NOTE:
    case STMT_RULES:
    case STMT_NETHEIGHT:
    case STMT_RECORD:
    case STMT_OBSERVE:
    case STMT_PLAN:
    case STMT_END:
    case STMT_SUB:
    case STMT_SCORE:
    case STMT_POINT:
    case STMT_CANCEL:
    case STMT_GAP:
    case STMT_TURN:
    case STMT_FORFEIT:
    case STMT_RING: break;
    }
    return 1;
}

static bool names_server(const struct stmt *st) {
    return st->kind == STMT_SERVE || (st->kind == STMT_UNREAD && st->has_server);
}

/* A line with a fault says something that was not understood, or only guessed;
 * but who served it is known. */
static void take_statement(struct noted_line *l, const struct stmt *st, const struct noted *of,
                           struct standing *at, struct arena *a) {
    struct stmt resolved = *st;
    if (names_server(st)) {
        name_server(&resolved.as.serve, at);
        at->server = resolved.as.serve;
        at->served = at->server.form != SERVER_SAME;
    }
    l->kind = st->mended ? STMT_UNREAD : st->kind;
    if (l->kind == STMT_UNREAD)
        return;
    l->same = l->kind == STMT_SERVE && st->as.serve.form == SERVER_SAME;
    l->says = spelt(&resolved, of->ours, a);
    l->about = opening(l->says, subject_words(l->kind, of->practice));
}

static void place_line(struct noted_line *l, const struct stmt *st, struct standing *at) {
    if (st->kind == STMT_SET) {
        at->set = st->as.set.number;
        at->rally = 0;
    }
    if (l->kind == STMT_DRILL)
        at->drill = l->says;
    l->below = at->serve_line;
    l->serves = names_server(st);
    if (l->serves) {
        at->rally++;
        at->serve_line = l->number;
    }
    l->set = at->set;
    l->rally = at->rally;
    l->drill = at->drill;
    if (st->kind == STMT_END)
        at->set = at->rally = 0;
}

static void read_statements(struct noted *of, struct arena *a) {
    struct diags dropped;
    struct standing at = {.served = false};
    diags_init(&dropped, a);
    struct syn *syn = match_lines(of->text, NULL, a, &dropped, &of->ours);
    const struct stmt *st;
    for (size_t i = 0; i < of->n && (st = syn_next_line(syn)); i++) {
        struct noted_line *l = &of->lines[i];
        take_statement(l, st, of, &at, a);
        if (l->kind != STMT_UNREAD)
            l->comment = str_trim_end(syn_comment(syn));
        place_line(l, st, &at);
        of->practice |= l->kind == STMT_PRACTICE;
    }
}

struct noted *noted_read(const struct text *t, bool plain, struct arena *a) {
    struct noted *of = arena_alloc(a, 1, sizeof *of);
    size_t room = 1;
    of->text = t;
    of->lines = arena_alloc(a, room, sizeof *of->lines);
    for (size_t at = 0; at < t->bytes.n; at += of->lines[of->n++].raw.n + 1) {
        of->lines = arena_grow(a, of->lines, of->n, &room, sizeof *of->lines);
        struct noted_line *l = &of->lines[of->n];
        *l = (struct noted_line){.kind = STMT_UNREAD, .number = (unsigned)of->n + 1};
        without_line_feed(l, str_part(t->bytes, at, t->bytes.n));
    }
    if (!plain)
        read_statements(of, a);
    for (size_t i = 0; i < of->n; i++) {
        struct noted_line *l = &of->lines[i];
        if (l->kind == STMT_UNREAD)
            l->says = str_trim_end(l->raw);
        if (!l->says.n && !l->comment.n)
            l->kind = STMT_NONE;
    }
    return of;
}

bool noted_says(const struct noted_line *a, const struct noted_line *b) {
    return a->kind == b->kind && str_eq(a->says, b->says);
}

bool noted_equal(const struct noted_line *a, const struct noted_line *b) {
    return noted_says(a, b) && str_eq(a->comment, b->comment);
}

bool noted_free(const struct noted_line *l) {
    return l->kind == STMT_NONE || l->kind == STMT_NOTE;
}

bool noted_declares(const struct noted_line *l) {
    switch (l->kind) {
    case STMT_VENUE:
    case STMT_SCORER:
    case STMT_PLAYER:
    case STMT_LIBERO:
    case STMT_RULES:
    case STMT_RULE:
    case STMT_NETHEIGHT:
    case STMT_RECORD:
    case STMT_SHORT:
    case STMT_FOCUS: return true;
    case STMT_NONE:
    case STMT_UNREAD:
    case STMT_SERVE:
    case STMT_NOTATION:
    case STMT_MATCH:
    case STMT_PRACTICE:
    case STMT_NOTE:
    case STMT_TEAM:
    case STMT_SQUAD:
    case STMT_OBSERVE:
    case STMT_PLAN:
    case STMT_SET:
    case STMT_END:
    case STMT_LINEUP:
    case STMT_SUB:
    case STMT_TIMEOUT:
    case STMT_SCORE:
    case STMT_POINT:
    case STMT_CANCEL:
    case STMT_GAP:
    case STMT_TURN:
    case STMT_FORFEIT:
    case STMT_DRILL:
    case STMT_RING:
    case STMT_TOSS:
    case STMT_TRIES:
    case STMT_JUMPS: break;
    }
    return false;
}

struct str noted_server(const struct noted_line *l) {
    return noted_word_at(l->says, 0);
}

struct str noted_place(const struct noted_line *l, struct arena *a) {
    if (l->set && l->serves)
        return str_printf(a, "set %u, rally %u", l->set, l->rally);
    if (l->set && l->rally)
        return str_printf(a, "set %u, after rally %u", l->set, l->rally);
    if (l->set)
        return str_printf(a, "set %u", l->set);
    if (l->drill.n)
        return l->drill;
    return l->about.n ? l->about : str_printf(a, "line %u", l->number);
}
