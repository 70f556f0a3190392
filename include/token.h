/* From text to tokens: grammar/tokens.re cuts the lines into words and gives
 * each its kind and value. What a word may be depends on where it stands: `a5`
 * opens a line as shirt 5 of team A and is an aim later in it. The words
 * themselves stand in one table, grammar/words.def. The lexer never prints: a
 * word it does not know is a token too. */
#ifndef NINEMETRE_TOKEN_H
#define NINEMETRE_TOKEN_H

#include <stdint.h>

#include "text.h"

/* What a serve's first word says of the server. */
enum server_form { SERVER_SHIRT, SERVER_UNSEEN, SERVER_SAME };

/* What a word is: which list of the reference it stands in, and in which part
 * of a line the lexer looks it up. */
enum word_class {
    WORD_STATEMENT,
    WORD_TYPE,
    WORD_INTENT,
    WORD_MARK,
    WORD_OUTCOME,
    WORD_AFTER,                  /* going, overlap, won, lost */
    WORD_PHASE,                  /* toss approach jump hit nerve all none */
    WORD_ARGUMENT,               /* women men lefthanded both ours for extra */
    WORD_SHAPE                   /* no fixed spelling: m4/3, by11; for `explain` only */
};

/* What the words say. Zero means "not said". */
enum serve_type {
    TYPE_NONE, TYPE_TOPSPIN, TYPE_JUMPFLOAT, TYPE_HYBRID, TYPE_FLOAT, TYPE_OVERHAND,
    TYPE_UNDERHAND
};
enum third { THIRD_NONE, THIRD_RIGHT, THIRD_MIDDLE, THIRD_LEFT };
enum intent { INTENT_NONE, INTENT_GO, INTENT_SAFE };
enum rally { RALLY_NONE, RALLY_WON, RALLY_LOST };

/* In the order of the reference. */
enum outcome {
    OUTCOME_NONE,
    OUTCOME_ACE, OUTCOME_IN3, OUTCOME_IN2, OUTCOME_IN1, OUTCOME_PLAY, OUTCOME_IN,
    OUTCOME_OVER, OUTCOME_NET, OUTCOME_LONG, OUTCOME_LEFT, OUTCOME_RIGHT,
    OUTCOME_ANTENNA, OUTCOME_CEILING, OUTCOME_MATE, OUTCOME_FOOT, OUTCOME_CLOCK,
    OUTCOME_ORDER, OUTCOME_DROP, OUTCOME_SCREEN, OUTCOME_RETOSS, OUTCOME_REPLAY,
    OUTCOME_OVERLAP,             /* the word alone: the receivers' fault */
    OUTCOME_N
};

/* Bits of a set of phases, in the course of a serve. */
enum {
    PHASE_TOSS = 1, PHASE_APPROACH = 2, PHASE_JUMP = 4, PHASE_HIT = 8, PHASE_NERVE = 16,
    PHASE_ALL = 31
};

/* In the table's order; a mark's bit in a set of marks is 1u << its value. */
enum mark {
#define MARK(id, ...) MARK_##id,
#include "marks.def"
#undef MARK
    MARK_N
};

/* Which phase a mark belongs to: one PHASE_ bit. */
unsigned mark_phase(enum mark m);

enum word_id {
#define WORD(id, ...) W_##id,
#include "words.def"
#undef WORD
    W_N
};

struct word_info {
    enum word_id id;
    struct str word;             /* as written */
    enum word_class class;
    int code;                    /* the terminal of the grammar, 0 for a shape */
    unsigned value;              /* within its class: enum outcome, mark bit, ... */
    const char *meaning;         /* in full, without a full stop */
    const char *help;            /* a sentence or two */
    const char *example;         /* a line that holds it */
};

/* The table's row; the row of a spelling (case ignored) in one of the classes
 * of the bit set, or NULL. */
const struct word_info *word_info(enum word_id id);
const struct word_info *word_find(struct str spelling, unsigned classes);

#define WORD_CLASS(c) (1u << (c))

/* How the words behind a statement's first word are read: the value of its row. */
enum arguments {
    ARGS_PLAIN,                  /* dates, times, numbers, texts, names */
    ARGS_PEOPLE,                 /* team letters, shirts, scores */
    ARGS_FIELDS,                 /* the fields of a serve */
    ARGS_PHASES,                 /* the same, phases only */
    ARGS_PERSON_FIELDS,          /* a person, then fields */
    ARGS_SHORT                   /* a name, then fields */
};

/* One word of a line. `value`, `a` and `b` by kind:
 *   server            value = form, a = team letter (0: none), b = shirt
 *   person            a = team letter, b = shirt        letter   a
 *   number            a = value        pair, ratio      a, b
 *   decimal, measure  a = hundredths (measure: value = which)
 *   landing, aim      value = PLACE_ kind, a, b = zone and seam, or x_cm, d_cm
 *   start             value = START_ flags, a = paces or p_cm, b = steps
 *   fixed words       value = word_id, a = margin_cm or count behind it
 *   date              value = year, a = month, b = day
 *   time              a = hours * 60 + minutes, b = seconds, value = 1 with seconds */
struct token {
    uint32_t at;                 /* byte in the text */
    uint16_t n;                  /* bytes */
    uint16_t value;
    int16_t a, b;
};

/* Flags in `value` of a start and an aim. */
enum {
    START_THIRD = 3,             /* mask: enum third */
    START_PACES = 4,
    START_STEPS = 8,
    START_P = 16
};
enum { PLACE_ZONE = 1, PLACE_SEAM, PLACE_DEEP, PLACE_DEEP_SEAM, PLACE_XD };

enum measure {
    MEASURE_PACES,               /* back4: paces * 100 */
    MEASURE_TOSS_M,
    MEASURE_TAKEOFF_M,
    MEASURE_CONTACT_M,
    MEASURE_HEIGHT_M,
    MEASURE_SPEED_KMH,
    MEASURE_FLIGHT_S,
    MEASURE_WHISTLE_S,
    MEASURE_N
};

/* A scorer's own word and the tokens it stands for. */
struct short_word {
    struct str word;
    struct place place;          /* its declaration */
    struct str fields;           /* as written, a blank before each */
    struct token *tokens;
    unsigned char *codes;
    size_t n;
    struct short_word *next;
};

/* A lexer over one text. Plain, so that a parser can hold it by value. */
struct lexer {
    const struct text *text;
    const char *cursor;
    const char *line_start;
    unsigned line;               /* of the next token, from 1 */
    int mode, then;              /* how the next and the following words are read */
    const struct short_word *shorts;
    const struct short_word *expanding;
    size_t expanded_n;
    uint32_t expanded_at;
    bool literal;                /* short words are not expanded on this line */
    const char *comment;         /* of the present line, or NULL */
};

void tok_init(struct lexer *lx, const struct text *t);

/* The next token and its terminal (build/gen/notation.h); every line, the last
 * one too, ends in one NL, and END follows for ever. */
int tok_next(struct lexer *lx, struct token *out);

/* Cuts one word as if it stood in a serve line behind the server: its terminal. */
int tok_field(struct arena *a, struct str word, struct token *out);

/* Reads what follows as fields of a serve, as behind a server. */
void tok_start_fields(struct lexer *lx);

/* Reads what follows as the beginning of a line. */
void tok_restart(struct lexer *lx);

/* The line has been read to its end; the next begins at `next`. */
void tok_next_line(struct lexer *lx, const char *next);

/* Leaves the rest of the line unread, up to its end. */
void tok_skip_line(struct lexer *lx);

#endif
