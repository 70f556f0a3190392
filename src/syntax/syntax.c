/* Line by line from text to statements. */
#include "syntax/build.h"

#include <string.h>

#include "syntax/fault.h"

unsigned mark_phase(enum mark m) {
    static const unsigned char phases[MARK_N] = {
#define MARK(id, phase, ...) PHASE_##phase,
#include "marks.def"
#undef MARK
    };
    return phases[m];
}

struct syn *syn_new(const struct text *t, struct arena *a, struct diags *d) {
    struct syn *s = arena_alloc(a, 1, sizeof *s);
    s->text = t;
    s->arena = a;
    s->diags = d;
    s->parser = arena_alloc(a, 1, notation_parser_size());
    tok_init(&s->lexer, t);
    notation_begin(s);
    return s;
}

void syn_take_shorts(struct syn *s, const struct short_word *shorts) {
    s->shorts = shorts;
    s->lexer.shorts = shorts;
}

void syn_take_words(struct syn *s, struct syn_words *words) {
    s->words = words;
}

const struct short_word *syn_shorts(const struct syn *s) {
    return s->shorts;
}

static void begin_line(struct syn *s) {
    s->stmt.kind = STMT_NONE;
    s->stmt.line = s->lexer.line;
    s->stmt.at = (size_t)(s->lexer.line_start - s->text->bytes.at);
    s->stmt.has_server = false;
    s->stmt.opens = 0;
    s->stmt.mended = false;
    s->bad = false;
    s->given = 0;
    s->token_n = 0;
    s->lexer.comment = NULL;
}

/* A line with a fault still tells who served, if it begins with that. */
static void keep_server(struct syn *s) {
    s->stmt.kind = STMT_UNREAD;
    s->unread++;
    s->stmt.opens = s->token_n ? s->codes[0] : 0;
    if (s->token_n && s->codes[0] == T_SERVER) {
        build_server(s, s->tokens[0]);
        s->stmt.kind = STMT_UNREAD;
        s->stmt.has_server = true;
    }
}

/* Reads `line` (or the two lines of a split) aside, without a message: how many
 * statements it has, 0 if one of them has a fault. The last goes to `out`. */
static unsigned try_line(struct syn *s, struct str line, struct stmt *out) {
    struct diags silent;
    unsigned n = 0;
    struct text *t = arena_alloc(s->arena, 1, sizeof *t);
    diags_init(&silent, s->arena);
    text_take(t, STR_NONE, line, s->arena, &silent);
    if (!s->scratch)
        s->scratch = syn_new(t, s->arena, &silent);
    struct syn *scratch = s->scratch;
    scratch->text = t;
    scratch->diags = &silent;
    scratch->trying = true;
    scratch->spoilt_n = 0;
    tok_init(&scratch->lexer, t);
    syn_take_shorts(scratch, s->shorts);
    scratch->words = s->words;
    notation_begin(scratch);
    for (const struct stmt *st; (st = syn_next(scratch)) && !scratch->bad; n++)
        *out = *st;
    scratch->diags = NULL;
    return scratch->bad ? 0 : n;
}

/* The statement that the line was meant to be, if that is one good line. */
static bool read_as(struct syn *s, struct str meant) {
    struct stmt read;
    if (try_line(s, meant, &read) != 1)
        return false;
    read.line = s->stmt.line;
    read.at = s->stmt.at;
    read.mended = true;
    s->stmt = read;
    if (read.kind == STMT_SHORT) {
        struct short_word *w = s->scratch->short_open;
        w->place = text_place(s->text, read.line, read.at, 0);
        syn_take_shorts(s, w);
    }
    return true;
}

/* A line whose bytes had their message: read it as it was meant, or not at all. */
static bool spoilt(struct syn *s) {
    if (s->spoilt_n == s->text->spoilt_n || s->text->spoilt[s->spoilt_n].line != s->stmt.line)
        return false;
    const struct spoilt *about = &s->text->spoilt[s->spoilt_n++];
    size_t at = s->stmt.at;
    struct token t;
    tok_skip_line(&s->lexer);
    (void)tok_next(&s->lexer, &t);
    struct str meant = about->mended.n ? about->mended : text_line_at(s->text, at);
    bool read = !about->skip && !s->trying && read_as(s, meant);
    if (about->mended.n && !read && about->diag_ix < s->diags->n)
        s->diags->at[about->diag_ix].attempt = STR_NONE;
    if (!read) {
        s->bad = true;
        keep_server(s);
    }
    return true;
}

static void check_length(struct syn *s) {
    struct str line = text_line_at(s->text, s->stmt.at);
    if (line.n > TEXT_LINE_MAX_BYTES)
        FAULT(s, E_LINE_LONG, ((struct token){.at = (uint32_t)s->stmt.at}), line.n);
}

/* A line with one likely mend is read as if it were mended, so that one slip
 * does not spoil what the lines after it say. */
static void mend_line(struct syn *s, size_t told) {
    keep_server(s);
    if (!s->trying && s->diags->n == told + 1 && s->diags->at[told].attempt.n)
        (void)read_as(s, s->diags->at[told].attempt);
}

/* Of a file of another notation nothing else is said, of its bytes neither: they
 * may be right there. */
static void begin(struct syn *s) {
    struct place version;
    s->begun = true;
    s->foreign = !s->trying && version_is_foreign(s->text, &version);
    if (!s->foreign)
        return;
    diags_restore(s->diags, &(struct diags){0});
    struct diag *d = diags_add(s->diags, E_NEWER, version,
                               STR_ARG(str_part(version.text, version.at, version.n)));
    if (d)
        d->expected = STR("notation 1; a newer notation is read by a newer 9m");
}

const struct stmt *syn_next_line(struct syn *s) {
    if (!s->begun)
        begin(s);
    if (s->foreign)
        return NULL;
    size_t told = s->diags->n;
    begin_line(s);
    if (spoilt(s)) {
        s->lines++;
        return &s->stmt;
    }
    if (!notation_line(s))
        return NULL;
    if (s->lexer.line_start - s->text->bytes.at - (long)s->stmt.at > TEXT_LINE_MAX_BYTES)
        check_length(s);
    if (s->bad)
        mend_line(s, told);
    else if (s->stmt.kind == STMT_SHORT) {
        s->short_open->next = (struct short_word *)s->shorts;
        syn_take_shorts(s, s->short_open);
    }
    s->lines += s->stmt.kind != STMT_NONE;
    return &s->stmt;
}

const struct stmt *syn_next(struct syn *s) {
    const struct stmt *st;
    do
        st = syn_next_line(s);
    while (st && st->kind == STMT_NONE);
    return st;
}

struct str syn_comment(const struct syn *s) {
    if (!s->lexer.comment)
        return STR_NONE;
    struct str line = text_line_at(s->text, s->stmt.at);
    return str_trim((struct str){s->lexer.comment, (size_t)(line.at + line.n - s->lexer.comment)});
}

bool syn_is_foreign(const struct syn *s) {
    return s->foreign;
}

unsigned syn_lines(const struct syn *s) {
    return s->lines;
}

unsigned syn_unread(const struct syn *s) {
    return s->unread;
}

/* Cuts one line again and gives the place of the k-th token, or of the first
 * with the terminal; the whole line if there is none. */
static struct place find(const struct syn *s, unsigned line, struct str bytes, int code, unsigned k) {
    struct lexer lx = s->lexer;
    lx.cursor = lx.line_start = bytes.at;
    lx.line = line;
    tok_restart(&lx);
    struct token t;
    int found;
    for (unsigned i = 0; (found = tok_next(&lx, &t)) != T_NL && found != 0; i++)
        if (code ? found == code : i == k)
            return text_place(s->text, line, t.at, t.n);
    struct str trimmed = str_trim(bytes);
    return text_place(s->text, line, (size_t)(trimmed.at - s->text->bytes.at), trimmed.n);
}

/* Whether the tokens of the line are still at hand. */
static bool at_hand(const struct syn *s, const struct stmt *st) {
    return st == &s->stmt && !st->mended && s->token_n < LINE_TOKENS_MAX;
}

struct place syn_place(const struct syn *s, const struct stmt *st, int code) {
    for (unsigned i = 0; at_hand(s, st) && i < s->token_n; i++)
        if (s->codes[i] == code)
            return build_place(s, s->tokens[i]);
    return find(s, st->line, text_line_at(s->text, st->at), code, 0);
}

struct place syn_word(const struct syn *s, const struct stmt *st, unsigned k) {
    if (at_hand(s, st) && k + 1 < s->token_n)
        return build_place(s, s->tokens[k]);
    return find(s, st->line, text_line_at(s->text, st->at), 0, k);
}

/* The bytes of an earlier line, found from the one looked at last: a file full
 * of slips must not be counted through from its start for each of them. */
static struct str line_bytes(struct syn *s, unsigned line) {
    const char *first = s->text->bytes.at, *at = first + s->near_at;
    if (!s->near_line || line < s->near_line / 2) {
        s->near_line = 1;
        at = first;
    }
    for (; s->near_line > line; s->near_line--)
        for (at--; at > first && at[-1] != '\n';)
            at--;
    for (const char *end = first + s->text->bytes.n; s->near_line < line; s->near_line++) {
        const char *newline = memchr(at, '\n', (size_t)(end - at));
        at = newline ? newline + 1 : end;
    }
    s->near_at = (size_t)(at - first);
    return text_line_at(s->text, s->near_at);
}

struct place syn_line_word(struct syn *s, unsigned line, int code) {
    return find(s, line, line_bytes(s, line), code, 0);
}

struct place syn_line_place(struct syn *s, unsigned line) {
    struct str bytes = line_bytes(s, line), trimmed = str_trim(bytes);
    return text_place(s->text, line, (size_t)(trimmed.at - s->text->bytes.at), trimmed.n);
}

bool syn_accepts(struct syn *s, struct str line) {
    struct stmt read;
    return try_line(s, line, &read) > 0;
}
