/* The parser's state and the actions of the grammar. Private to the syntax
 * room. Each action takes the tokens of its rule and fills the statement of
 * the present line; a value that cannot be (zone 7) is reported there and the
 * line counts as unread. */
#ifndef NINEMETRE_SYNTAX_BUILD_H
#define NINEMETRE_SYNTAX_BUILD_H

#include "notation.h"
#include "syntax.h"

/* No good line has as many tokens; of a longer one the first are remembered. */
enum { LINE_TOKENS_MAX = 256, TEXT_MAX_CHARS = 200, SHORT_FIELDS_MAX = 32, SHORTS_MAX = 200 };

struct syn {
    struct lexer lexer;
    const struct text *text;
    struct arena *arena;
    struct diags *diags;
    void *parser;
    struct stmt stmt;
    struct short_word *short_open;   /* being declared on this line */
    size_t short_room;
    unsigned short_n;
    const struct short_word *shorts;
    struct syn_words *words;         /* NULL until the first serve line */
    char who_letter;                 /* of toss, tries, jumps, focus */
    uint8_t who_shirt;
    uint32_t given;                  /* fields of the line so far, GIVEN_ bits */
    bool bad;                        /* the line has had its message */
    bool begun, foreign;             /* the first line was looked at; it names another notation */
    size_t spoilt_n;                 /* of text->spoilt, how many lie behind */
    unsigned lines, unread;
    unsigned near_line;              /* a line looked at for a message, and its start: */
    size_t near_at;                  /* the next is most often not far from it */
    struct syn *scratch;             /* tries out mends */
    bool grammar_only;               /* for tests: no short way */
    bool trying;                     /* this is a scratch: no mends of mends */
    unsigned token_n;
    unsigned char codes[LINE_TOKENS_MAX];
    struct token tokens[LINE_TOKENS_MAX];
};

/* Reads a serve line on the short way: whole and without a message, or false and
 * nothing was done. */
bool serve_line(struct syn *s);

/* True if the first line says `notation 2` or the like; gives the number's place. */
bool version_is_foreign(const struct text *t, struct place *version);

/* Generated from the grammar. */
bool notation_line(struct syn *s);
void notation_expected(const unsigned char *codes, unsigned n, bool expected[T_EXTRA + 1]);
size_t notation_parser_size(void);
void notation_begin(struct syn *s);

/* Remembers the line's tokens, for messages and for the replay. */
static inline void build_note_token(struct syn *s, int code, const struct token *t) {
    if (s->token_n < LINE_TOKENS_MAX) {
        s->codes[s->token_n] = (unsigned char)code;
        s->tokens[s->token_n++] = *t;
    }
}

/* The token as it stands in the text. */
static inline struct str build_spelt(const struct syn *s, struct token t) {
    return str_part(s->text->bytes, t.at, t.n);
}

/* A text token without its quotes and escapes, NFC. */
struct str build_unquote(struct syn *s, struct token t);
struct place build_place(const struct syn *s, struct token t);

/* The same of a text that reports set: says when they can't. */
struct str build_name(struct syn *s, struct token t);

void build_server(struct syn *s, struct token t);
void build_type(struct syn *s, struct token t);
void build_start(struct syn *s, struct token t);
void build_aim(struct syn *s, struct token t);
void build_intent(struct syn *s, struct token t);
void build_measure(struct syn *s, struct token t);
void build_mark(struct syn *s, struct token t);
void build_outcome(struct syn *s, struct token t);
void build_miss(struct syn *s, struct token t);
void build_overlap_alone(struct syn *s, struct token t);
void build_going(struct syn *s, struct token t);
void build_overlap(struct syn *s, struct token t);
void build_zone(struct syn *s, struct token t);
void build_spot(struct syn *s, struct token t);
void build_by(struct syn *s, struct token t);
void build_rally(struct syn *s, struct token t);
void build_time(struct syn *s, struct token t);
void build_repeat(struct syn *s, struct token t);
void build_review(struct syn *s, struct token t);

void build_kind(struct syn *s, enum stmt_kind kind);
void build_notation(struct syn *s, struct token t);
void build_date(struct syn *s, struct token t);
void build_day_time(struct syn *s, struct token t);
void build_title(struct syn *s, struct token t);
void build_text(struct syn *s, enum stmt_kind kind, struct token t);
void build_team(struct syn *s, struct token letter, struct token name);
void build_net(struct syn *s, struct token t);
void build_player(struct syn *s, struct token person, struct token name);
void build_lefthanded(struct syn *s, struct token t);
void build_libero(struct syn *s, struct token letter, struct token shirt);
void build_second(struct syn *s, struct token shirt);
void build_rules(struct syn *s, struct token name);
void build_rule(struct syn *s, struct token name, struct token value);
void build_netheight(struct syn *s, struct token t);
void build_record(struct syn *s, struct token t);
void build_observe(struct syn *s, struct token t);
void build_phase(struct syn *s, struct token t);
void build_short(struct syn *s, struct token name);
void build_short_field(struct syn *s, struct token t);
void build_who(struct syn *s, struct token t);
void build_focus(struct syn *s, struct token treats, struct token drill);
void build_goal(struct syn *s, struct token t);
void build_plan_by(struct syn *s, struct token t);
void build_plan_zone(struct syn *s, struct token t);
void build_plan_spot(struct syn *s, struct token t);
void build_set(struct syn *s, struct token number);
void build_set_first(struct syn *s, struct token letter);
void build_end(struct syn *s);
void build_score(struct syn *s, enum stmt_kind kind, struct token pair);
void build_gap(struct syn *s, struct token pair, struct token letter);
void build_lineup(struct syn *s, struct token letter, const struct token shirts[6]);
void build_sub(struct syn *s, struct token letter, struct token in, struct token out);
void build_extra(struct syn *s);
void build_letter(struct syn *s, enum stmt_kind kind, struct token letter);
void build_point(struct syn *s, struct token letter);
void build_why(struct syn *s, struct token t);
void build_points(struct syn *s, enum stmt_kind kind, struct token letter, struct token n);
void build_drill(struct syn *s, struct token name);
void build_drill_aim(struct syn *s, struct token t);
void build_ring(struct syn *s, struct token t);
void build_toss(struct syn *s, struct token ratio);
void build_toss_miss(struct syn *s, struct token t);
void build_tries(struct syn *s, struct token ratio);
void build_jumps(struct syn *s, struct token n);

#endif
