/* From tokens to statements: one line of notes, one struct stmt. The grammar
 * (grammar/notation.y) decides what may follow what; this room also says what
 * was expected where a line breaks off, offers the nearest right spelling, and
 * prints a statement in its one canonical spelling. It knows each line by
 * itself and nothing of the match: who is on court is not its business. */
#ifndef NINEMETRE_SYNTAX_H
#define NINEMETRE_SYNTAX_H

#include "token.h"

enum { SHIRT_MAX = 99, SHIRT_NONE = 255 };

enum stmt_kind {
    STMT_NONE,                   /* a blank line, or a comment alone */
    STMT_UNREAD,                 /* a line with a fault that was reported */
    STMT_SERVE,
    STMT_NOTATION, STMT_MATCH, STMT_PRACTICE, STMT_VENUE, STMT_SCORER, STMT_NOTE,
    STMT_TEAM, STMT_PLAYER, STMT_LIBERO, STMT_SQUAD, STMT_RULES, STMT_RULE,
    STMT_NETHEIGHT, STMT_RECORD, STMT_OBSERVE, STMT_SHORT, STMT_FOCUS, STMT_PLAN,
    STMT_SET, STMT_END, STMT_LINEUP, STMT_SUB, STMT_TIMEOUT, STMT_SCORE, STMT_POINT,
    STMT_CANCEL, STMT_GAP, STMT_TURN, STMT_FORFEIT,
    STMT_DRILL, STMT_RING, STMT_TOSS, STMT_TRIES, STMT_JUMPS
};

/* Where a ball came down, was played, or was meant to go. One frame for all:
 *
 *        x 9 ------------------- 0     x: from the server's right side line
 *   d 9  +---- 1 ----6---- 5 ----+     d: from the net, 9 at the far end line
 *        |   2       3       4   |     (drawn as the server sees it: her right
 *   d 0  +========= net =========+      hand is x 0)
 *        |       server's side   |
 *
 * kind is PLACE_ZONE ... PLACE_XD, 0 for none; x_cm and d_cm only with
 * PLACE_XD, zone and seam (the second zone) otherwise. */
struct spot {
    uint8_t kind, zone, seam;
    int16_t x_cm, d_cm;
};

/* What a serve line says, and nothing that it leaves out. Zero means "not
 * said" in each enum; numbers are valid only with their HAS_ bit. */
enum {
    HAS_PACES = 1 << 0, HAS_STEPS = 1 << 1, HAS_START_P = 1 << 2, HAS_MARGIN = 1 << 3,
    HAS_TIME = 1 << 4, HAS_REPEAT = 1 << 5,
    HAS_MEASURE = 1 << 8         /* << enum measure */
};

struct serve {
    uint32_t has;
    uint32_t marks;              /* set of mark bits */
    uint32_t time_s;             /* video time */
    struct spot aim, landing;
    int16_t measure[MEASURE_N];  /* hundredths of the measure's unit */
    int16_t margin_cm;           /* signed as written: net is negative */
    int16_t start_p_cm;          /* from the server's right side line */
    uint16_t repeat;
    char letter;                 /* team as written, 0 if left out */
    uint8_t form;                /* enum server_form */
    uint8_t shirt;
    uint8_t type, third, paces, steps, intent, outcome, rally;
    uint8_t by;                  /* receiver's shirt, SHIRT_NONE if not said */
    bool going, overlap, review;
};

struct date {
    int year, month, day;
};

enum { TOSS_MISSES_MAX = 8 };

struct stmt {
    enum stmt_kind kind;
    unsigned line;
    size_t at;                   /* byte of the line's start in the text */
    bool has_server;             /* of an unread line: as.serve names the server */
    int opens;                   /* of an unread line: terminal of its first word; 0 not told */
    bool mended;                 /* had a fault, and is read as the message proposes */
    union {
        struct serve serve;
        unsigned version;                                       /* notation */
        struct { struct date date; bool timed; unsigned minute; struct str title; } occasion;
        struct str text;                                        /* venue scorer note squad */
        struct { char letter; struct str name; char net; } team; /* net: 'w' 'm' 0 */
        struct { struct serve routine; char letter; uint8_t shirt; bool lefthanded;
                 struct str name; } player;
        struct { char letter; uint8_t shirts[2]; unsigned n; } libero;
        struct { struct str name, word; int value; bool number; } rule; /* rules: name */
        int net_cm;
        bool ours_only;                                         /* record */
        unsigned phases;                                        /* observe */
        const struct short_word *short_word;
        struct { char letter; uint8_t shirt; enum word_id treats; struct str drill;
                 unsigned hits, tries; } focus;
        struct { uint8_t by; struct spot spot; } plan;
        struct { unsigned number; char letter; } set;
        struct { unsigned points[2]; bool said; char letter; } score; /* score end gap */
        struct { char letter; uint8_t shirts[6]; } lineup;
        struct { char letter; uint8_t in, out; bool extra; } sub;
        char letter;                                            /* timeout forfeit */
        struct { char letter; struct str why; } point;
        struct { char letter; unsigned n; } points;             /* cancel turn */
        struct { struct str name; struct spot aim; } drill;
        int ring_cm;
        struct { char letter; uint8_t shirt; unsigned hits, n; unsigned miss_n;
                 struct { uint8_t mark; uint8_t n; } misses[TOSS_MISSES_MAX]; } toss;
        struct { char letter; uint8_t shirt; unsigned hits, n; } tries; /* jumps: n */
    } as;
};

/* A parser over one text. */
struct syn;

struct syn *syn_new(const struct text *t, struct arena *a, struct diags *d);

/* Gives the words of a squad file's `short` lines to the parser. */
void syn_take_shorts(struct syn *s, const struct short_word *shorts);
const struct short_word *syn_shorts(const struct syn *s);

/* Words of serve lines that were read before. One store may serve the parsers of
 * many texts, one after the other; a parser without one makes its own. */
struct syn_words;
struct syn_words *syn_words_new(struct arena *a);
void syn_take_words(struct syn *s, struct syn_words *words);

/* Reads the next line that is not blank; NULL after the last. The statement
 * lives until the next call, its texts as long as the arena. A line with a
 * fault comes as STMT_UNREAD after its one message; where the fault stands
 * behind a readable server, as.serve holds the server. */
const struct stmt *syn_next(struct syn *s);

/* Blank lines too; for fmt, which keeps them. */
const struct stmt *syn_next_line(struct syn *s);

/* The comment of the line just read, from its '#'; empty if there is none. */
struct str syn_comment(const struct syn *s);

/* True if the file is in another version of the notation: that was told, and no
 * line of it is read. Known once a line was asked for. */
bool syn_is_foreign(const struct syn *s);

/* Lines read so far that are not blank, and those of them that had a fault. */
unsigned syn_lines(const struct syn *s);
unsigned syn_unread(const struct syn *s);

/* Where a statement's word stands: its first word of the terminal `code`
 * (whole line if there is none), or its k-th word from 0. The line is cut
 * again, so this is for messages only. */
struct place syn_place(const struct syn *s, const struct stmt *st, int code);
struct place syn_word(const struct syn *s, const struct stmt *st, unsigned k);

/* The same for an earlier line of the file, by its number. */
struct place syn_line_place(struct syn *s, unsigned line);
struct place syn_line_word(struct syn *s, unsigned line, int code);

/* The statement in its canonical spelling, without its comment. `ours` is the
 * letter that our players do without, 0 if not known. */
void syn_print(struct buf *b, const struct stmt *st, char ours);

/* A place as a landing is written: `5`, `d5-6`, `2.1,8.4`. */
void syn_print_spot(struct buf *b, struct spot s);

/* True if the line, read by itself, is a statement. */
bool syn_accepts(struct syn *s, struct str line);

#endif
