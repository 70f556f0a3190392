/* The words of a line, what each tells, and the words of two made one line. */
#include "change/parts.h"

#include "check.h"
#include "notation.h"

/* What a word of a serve or of a routine tells, in canonical order. The words of
 * other statements tell what their place says. */
enum tells {
    TELLS_SERVER, TELLS_TYPE = 4, TELLS_START, TELLS_AIM, TELLS_INTENT,
    TELLS_MEASURE, TELLS_MARK = TELLS_MEASURE + MEASURE_N,
    TELLS_OUTCOME = TELLS_MARK + MARK_N,
    TELLS_GOING, TELLS_OVERLAP, TELLS_LANDING, TELLS_BY, TELLS_RALLY, TELLS_TIME,
    TELLS_REPEAT, TELLS_REVIEW, TELLS_HAND,
    TELLS_TITLE                  /* a text at the end of `match`, which a time may precede */
};

/* A field of a serve. The word for the overlap is the outcome if no other was seen. */
static unsigned field_tells(struct str word, bool outcome_seen, struct arena *a) {
    struct token t;
    switch (tok_field(a, word, &t)) {
    case T_TYPE: return TELLS_TYPE;
    case T_START: return TELLS_START;
    case T_AIM: return TELLS_AIM;
    case T_INTENT: return TELLS_INTENT;
    case T_MEASURE: return TELLS_MEASURE + t.value;
    case T_MARK: return TELLS_MARK + word_info((enum word_id)t.value)->value;
    case T_OVERLAP: return outcome_seen ? TELLS_OVERLAP : TELLS_OUTCOME;
    case T_GOING: return TELLS_GOING;
    case T_NUMBER:
    case T_PAIR:
    case T_DEEP:
    case T_COORD: return TELLS_LANDING;
    case T_BY: return TELLS_BY;
    case T_RALLY: return TELLS_RALLY;
    case T_CLOCKTIME: return TELLS_TIME;
    case T_REPEAT: return TELLS_REPEAT;
    case T_REVIEW: return TELLS_REVIEW;
    case T_LEFTHANDED: return TELLS_HAND;
    }
    return TELLS_OUTCOME;
}

/* From which word on a statement has fields of a serve; 0 for none. */
static unsigned fields_from(enum stmt_kind kind) {
    return kind == STMT_SERVE ? 1 : kind == STMT_PLAYER ? 3 : 0;
}

/* Statements whose words can change one by one. */
static bool has_parts(enum stmt_kind kind) {
    return fields_from(kind) || kind == STMT_MATCH || kind == STMT_PRACTICE ||
           kind == STMT_TEAM || kind == STMT_SET || kind == STMT_END || kind == STMT_DRILL;
}

struct str noted_word_at(struct str says, size_t at) {
    size_t i = at;
    for (bool quoted = false; i < says.n && (quoted || says.at[i] != ' '); i++) {
        if (quoted && says.at[i] == '\\')
            i++;
        else
            quoted ^= says.at[i] == '"';
    }
    return str_part(says, at, i - at);
}

static unsigned place_tells(const struct noted_line *l, struct str word, unsigned place) {
    bool occasion = l->kind == STMT_MATCH || l->kind == STMT_PRACTICE;
    return occasion && str_starts(word, STR("\"")) ? TELLS_TITLE : place;
}

size_t noted_words(const struct noted_line *l, struct noted_word out[NOTED_WORDS_MAX],
                   struct arena *a) {
    unsigned fields = fields_from(l->kind), n = 0;
    bool outcome_seen = false;
    if (!has_parts(l->kind)) {
        out[0] = (struct noted_word){0, l->says};
        return l->says.n > 0;
    }
    for (size_t at = 0; at < l->says.n && n < NOTED_WORDS_MAX; n++) {
        struct str word = noted_word_at(l->says, at);
        bool field = fields && n >= fields;
        out[n].word = word;
        out[n].tells = field ? field_tells(word, outcome_seen, a) : place_tells(l, word, n);
        outcome_seen |= out[n].tells == TELLS_OUTCOME;
        at += word.n + 1;
    }
    return n;
}

/* ---- joining ------------------------------------------------------------- */

/* The words of a line by what they tell. */
struct told {
    struct str word[TELLS_TITLE + 1];
};

static void tell(struct told *t, const struct noted_line *l, struct arena *a) {
    struct noted_word words[NOTED_WORDS_MAX];
    *t = (struct told){{STR_NONE}};
    size_t n = l ? noted_words(l, words, a) : 0;
    for (size_t i = 0; i < n; i++)
        t->word[words[i].tells] = words[i].word;
}

/* What became of a word that each of two may have changed, added or left out. */
static bool join_word(struct str base, struct str a, struct str b, struct str *out) {
    *out = str_eq(a, base) ? b : a;
    return str_eq(a, b) || str_eq(a, base) || str_eq(b, base);
}

/* A line on its own; NULL if it has a fault. */
static const struct stmt *read_line(struct str line, struct arena *a) {
    struct text *t = arena_alloc(a, 1, sizeof *t);
    struct diags *d = arena_alloc(a, 1, sizeof *d);
    diags_init(d, a);
    text_take(t, STR_NONE, line, a, d);
    const struct stmt *st = syn_next(syn_new(t, a, d));
    return d->errors ? NULL : st;
}

/* A line reads as itself, or the words do not go together. */
static bool reads(struct str line, enum stmt_kind kind, char ours, struct arena *a) {
    struct buf again;
    const struct stmt *st = read_line(line, a);
    if (!st || st->kind != kind)
        return false;
    buf_init(&again, a);
    syn_print(&again, st, ours);
    return str_eq(buf_str(&again), line);
}

static enum place_kind place_kind(struct str line, struct arena *a) {
    const struct stmt *st = read_line(line, a);
    struct played p = {.set = 0};
    if (!st || st->kind != STMT_SERVE)
        return PLACE_NONE;
    p.said = st->as.serve;
    return played_place(&p);
}

/* Where a ball was played, where it fell and where it met the net are written
 * alike: a place that one added must not become another by the other's outcome. */
static bool place_turns(const struct noted_line *base, const struct noted_line *l,
                        struct str joined, struct arena *a) {
    struct told before, with, after;
    struct noted_line line = {.kind = l->kind, .says = joined};
    tell(&before, base, a);
    tell(&with, l, a);
    tell(&after, &line, a);
    struct str place = with.word[TELLS_LANDING];
    bool added = place.n && !str_eq(place, before.word[TELLS_LANDING]) &&
                 str_eq(place, after.word[TELLS_LANDING]);
    return added && place_kind(l->says, a) != place_kind(joined, a);
}

static bool join_said(const struct noted_line *base, const struct noted_line *a,
                      const struct noted_line *b, struct buf *out, struct arena *arena) {
    struct told of_base, of_a, of_b;
    bool agreed = a->kind == b->kind && (!base || base->kind == a->kind);
    tell(&of_base, base, arena);
    tell(&of_a, a, arena);
    tell(&of_b, b, arena);
    for (unsigned i = 0; i <= TELLS_TITLE && agreed; i++) {
        struct str word;
        agreed = join_word(of_base.word[i], of_a.word[i], of_b.word[i], &word);
        if (word.n && out->n)
            buf_char(out, ' ');
        buf_add(out, word);
    }
    return agreed;
}

/* Both comments stay if both are new, in an order that does not depend on whose
 * they are. */
static struct str join_comments(struct str base, struct str a, struct str b,
                                struct arena *arena) {
    struct str one;
    if (join_word(base, a, b, &one))
        return one;
    bool turned = str_order(a, b) > 0;
    return str_printf(arena, "%.*s %.*s", STR_ARG(turned ? b : a), STR_ARG(turned ? a : b));
}

bool noted_join(const struct noted_line *base, const struct noted_line *a,
                const struct noted_line *b, const struct noted *of, struct str *out,
                struct arena *arena) {
    struct buf line;
    buf_init(&line, arena);
    if (!join_said(base, a, b, &line, arena))
        return false;
    bool alike = noted_says(a, b) || a->kind == STMT_NONE;
    struct str said = buf_str(&line);
    if (!alike && (!reads(said, a->kind, of->ours, arena) || place_turns(base, a, said, arena) ||
                   place_turns(base, b, said, arena)))
        return false;
    struct str comment = join_comments(base ? base->comment : STR_NONE, a->comment, b->comment,
                                       arena);
    if (comment.n && line.n)
        buf_add(&line, STR("  "));
    buf_add(&line, comment);
    *out = buf_str(&line);
    return true;
}
