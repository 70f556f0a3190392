/* The short way for serve lines, nine lines in ten. What a word of such a line
 * says depends on that word alone, so a serve is the sum of its words, and a word
 * that was read before is found by its bytes: what it adds is put to the serve
 * without asking what kind of word it is, which no processor could guess ahead.
 * A line that does not fit goes through the grammar, which finds the words for
 * what is wrong. tests/unit/test_serve_line.c holds the two ways together. */
#include "syntax/build.h"

/* The sides of the outcome, as in the rules `before` and `serve` of
 * grammar/notation.y. OVERLAP is not here: it may stand on either side. */
enum { NOWHERE, BEFORE, TURNING, AFTER };

static const struct field {
    unsigned char side;
    void (*build)(struct syn *s, struct token t);
} fields[T_EXTRA + 1] = {
    [T_TYPE] = {BEFORE, build_type},       [T_START] = {BEFORE, build_start},
    [T_AIM] = {BEFORE, build_aim},         [T_INTENT] = {BEFORE, build_intent},
    [T_MEASURE] = {BEFORE, build_measure}, [T_MARK] = {BEFORE, build_mark},
    [T_OUTCOME] = {TURNING, build_outcome}, [T_MISS] = {TURNING, build_miss},
    [T_GOING] = {AFTER, build_going},      [T_NUMBER] = {AFTER, build_zone},
    [T_PAIR] = {AFTER, build_spot},        [T_DEEP] = {AFTER, build_spot},
    [T_COORD] = {AFTER, build_spot},       [T_BY] = {AFTER, build_by},
    [T_RALLY] = {AFTER, build_rally},      [T_CLOCKTIME] = {AFTER, build_time},
    [T_REPEAT] = {AFTER, build_repeat},    [T_REVIEW] = {AFTER, build_review},
};

/* Beside the bits of `given`: the outcome has been told. */
#define GIVEN_OUTCOME (UINT32_C(1) << 31)

/* A serve as bits that can be added at once, in the notation that gcc and clang
 * share; the first of them are `has` and `marks`. */
typedef uint64_t bits512 __attribute__((vector_size(64), aligned(16)));

union sum {
    struct serve serve;
    bits512 bits;
    uint64_t sets;
};

_Static_assert(sizeof(bits512) == sizeof(struct serve), "all of a serve is added");
_Static_assert(offsetof(struct serve, has) == 0 && offsetof(struct serve, marks) == 4,
               "both sets lie in the first eight bytes");

/* What a word adds: the bits in which a serve of this word alone differs from
 * one that says nothing. */
struct adds {
    uint64_t key;
    uint32_t given;              /* what it tells, and nobody may have told before */
    bool after;                  /* stands behind the outcome */
    union sum bits;
};

enum { KNOWN_N = 2048 };

struct syn_words {
    struct adds known[KNOWN_N];
};

struct syn_words *syn_words_new(struct arena *a) {
    return arena_alloc(a, 1, sizeof(struct syn_words));
}

static const union sum nothing_said = {.serve = {.by = SHIRT_NONE}};

/* No carry: of two words that would touch the same bits, one is turned away. */
static inline void add(union sum *sum, const union sum *bits) {
    sum->bits ^= bits->bits;
}

/* A word of up to seven bytes as one number; the eighth byte tells the server's
 * word from the others. */
struct word {
    uint64_t key;
    unsigned n;
};

#define NO_KEY UINT64_MAX
#define EACH_BYTE(c) (UINT64_MAX / 0xFF * (c))

static inline bool blank(char c) {
    return c == ' ' || c == '\t';
}

/* The first byte up to a blank is found in all eight at once: what the
 * subtraction marks wrongly lies behind it. There is a word at `at`, and text has
 * NULs behind its end. */
static inline struct word word_at(const char *at, bool server) {
    static const uint64_t closing = UINT64_C(1) << ' ' | 1 << '\t' | 1 << '\n' | 1 << '\r';
    uint64_t bytes = str_eight(at);
    uint64_t low = (bytes - EACH_BYTE(' ' + 1)) & ~bytes & EACH_BYTE(0x80);
    if (!low)
        return (struct word){NO_KEY, 0};
    unsigned bits = (unsigned)__builtin_ctzll(low) & ~7u;
    if (!(closing >> (bytes >> bits & 0xFF) & 1))
        return (struct word){NO_KEY, 0};
    uint64_t word = bytes & ((UINT64_C(1) << bits) - 1);
    return (struct word){word | (server ? UINT64_C(1) << 56 : 0), bits / 8};
}

/* Of the words that share a row the last is known. The multiplier is 2^64 over
 * the golden ratio (Knuth, The Art of Computer Programming 3, 6.4). */
static struct adds *row_of(struct syn_words *words, uint64_t key) {
    return &words->known[(key * UINT64_C(0x9E3779B97F4A7C15) >> 32) % KNOWN_N];
}

/* Builds the serve of one word; false if there is a fault in it, which is left
 * for the grammar to tell. */
static bool build_alone(struct syn *s, int code, struct token t, struct adds *out) {
    struct diags before = *s->diags;
    s->stmt.as.serve = nothing_said.serve;
    if (code == T_SERVER)
        build_server(s, t);
    else
        fields[code].build(s, t);
    bool good = !s->bad;
    out->after = fields[code].side == AFTER;
    out->given = s->given | (fields[code].side == TURNING ? GIVEN_OUTCOME : 0);
    out->bits.serve = s->stmt.as.serve;
    add(&out->bits, &nothing_said);
    diags_restore(s->diags, &before);
    s->bad = false;
    s->given = 0;
    return good;
}

/* Cuts and builds the word at `at`, and keeps it if it has a key; else it stands
 * in `once`. NULL for what is not the sum of its words: a short word, a fault. */
static const struct adds *read_word(struct syn *s, const char *at, uint64_t key, bool server,
                                    struct adds *once) {
    struct lexer *lx = &s->lexer;
    struct token t;
    lx->cursor = at;
    if (!server)
        tok_start_fields(lx);
    int code = tok_next(lx, &t);
    bool is_short = lx->expanding || (lx->shorts && lx->expanded_at == t.at);
    bool fits = server ? code == T_SERVER : fields[code].side != NOWHERE;
    if (is_short || !fits || !build_alone(s, code, t, once))
        return NULL;
    if (key == NO_KEY)
        return once;
    once->key = key;
    struct adds *row = row_of(s->words, key);
    *row = *once;
    return row;
}

/* What the word at `*at` adds; moves `*at` behind it. */
static inline const struct adds *next_word(struct syn *s, const char **at, bool server,
                                           struct adds *once) {
    struct word w = word_at(*at, server);
    const struct adds *known = row_of(s->words, w.key);
    if (known->key == w.key) {
        *at += w.n;
        return known;
    }
    known = read_word(s, *at, w.key, server, once);
    *at = s->lexer.cursor;
    return known;
}

/* Leaves the line to the grammar, from its start. */
static bool leave(struct syn *s) {
    s->lexer.cursor = s->lexer.line_start = s->text->bytes.at + s->stmt.at;
    s->lexer.line = s->stmt.line;
    s->stmt.kind = STMT_NONE;
    tok_restart(&s->lexer);
    return false;
}

static bool letter(char c) {
    return (c | 0x20) >= 'a' && (c | 0x20) <= 'z';
}

/* A word of a statement begins with two letters, a server's never does. */
static bool may_be_server(const char *at) {
    return letter(at[0]) ? !letter(at[1]) : at[0] == '.' || (at[0] >= '0' && at[0] <= '9');
}

/* Whether no word follows, if the notes are sound there. */
static inline bool at_end(char c) {
    return c == '\n' || c == '\r' || c == '#' || c == '\0';
}

/* Takes the line's end, and the comment before it. */
static bool take_end(struct syn *s, const char *at) {
    struct token t;
    if (*at == '\n') {
        tok_next_line(&s->lexer, at + 1);
        return true;
    }
    s->lexer.cursor = at;
    return tok_next(&s->lexer, &t) == T_NL;
}

static bool too_long(const struct syn *s) {
    return (size_t)(s->lexer.line_start - s->text->bytes.at) - s->stmt.at > TEXT_LINE_MAX_BYTES;
}

bool serve_line(struct syn *s) {
    const char *at = s->lexer.cursor;
    union sum sum = nothing_said;
    uint32_t given = 0;
    if (!may_be_server(at))
        return false;
    if (!s->words)
        s->words = syn_words_new(s->arena);
    for (bool server = true; server || !at_end(*at); server = false) {
        struct adds once;
        const struct adds *word = next_word(s, &at, server, &once);
        if (!word || given & word->given || sum.sets & word->bits.sets ||
            word->after != (given >= GIVEN_OUTCOME))
            return leave(s);
        given |= word->given;
        add(&sum, &word->bits);
        while (blank(*at))
            at++;
    }
    if (given < GIVEN_OUTCOME || !take_end(s, at) || too_long(s))
        return leave(s);
    s->stmt.kind = STMT_SERVE;
    s->stmt.as.serve = sum.serve;
    return true;
}
