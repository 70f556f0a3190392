/* Notes as lines, each with what it says whatever its spelling, and which line
 * of one state of a file is which of another: what merging and comparing share.
 * A line says the same as another if its canonical spelling is the same, with
 * the server in the place of `.`; a line that can't be read says its bytes. */
#ifndef NINEMETRE_NOTED_H
#define NINEMETRE_NOTED_H

#include "match.h"

struct noted_line {
    struct str raw;              /* as it stands, without its line feed */
    struct str says;             /* canonical, without the comment; "" of none */
    struct str comment;          /* from its '#'; "" of none */
    struct str about;            /* `player H7`, `set 2`; of a serve at practice the server */
    enum stmt_kind kind;
    bool serves;                 /* it tells who served, though it may not be read */
    bool same;                   /* a serve whose server is written `.` */
    bool open;                   /* the last line, without a line feed */
    unsigned number;             /* from 1 */
    unsigned set;                /* its number; 0 outside of sets */
    unsigned rally;              /* serves of the set so far, this one included */
    unsigned below;              /* number of the serve line above; 0 none */
    struct str drill;            /* the `drill` line it stands under, as it says */
};

struct noted {
    const struct text *text;
    struct noted_line *lines;
    size_t n;
    char ours;                   /* the letter that our players do without, 0 unknown */
    bool practice;
};

/* `plain` notes are no lines of the notation (a club's drills): each says its
 * bytes. Lives as long as the arena and the text. */
struct noted *noted_read(const struct text *t, bool plain, struct arena *a);

/* True if they say the same, comments aside; and with their comments. */
bool noted_says(const struct noted_line *a, const struct noted_line *b);
bool noted_equal(const struct noted_line *a, const struct noted_line *b);

/* Blank lines, comments and notes: they say nothing that another could deny. */
bool noted_free(const struct noted_line *l);

/* A declaration about somebody or something: in any order they say the same. A team
 * or a squad is none of them, since the first is ours. */
bool noted_declares(const struct noted_line *l);

/* The server of a serve, as it says. */
struct str noted_server(const struct noted_line *l);

/* Where a line stands, as a scorer would say it: "set 2, rally 14". */
struct str noted_place(const struct noted_line *l, struct arena *a);

/* Which line of `b` each line of `a` is: its index plus 1, 0 for none; rising.
 * `in_place`: one of the same set or drill. Whole runs are left without if they are
 * too long to be looked at pairwise. */
size_t *noted_align(const struct noted_line *a, size_t n, const struct noted_line *b, size_t m,
                    bool in_place, struct arena *arena);

/* ---- words --------------------------------------------------------------- */

/* A word of what a line says, and what it tells (the outcome, the landing, one
 * of the marks): a line has each of these once. In canonical order. */
struct noted_word {
    unsigned tells;
    struct str word;
};

enum { NOTED_WORDS_MAX = 64 };

/* The words of a line; a statement that can only be had as a whole is one. */
size_t noted_words(const struct noted_line *l, struct noted_word out[NOTED_WORDS_MAX],
                   struct arena *a);

/* Joins the words that two made of one line; `base` is NULL if both added it.
 * False if they contradict each other, or make no line together. */
bool noted_join(const struct noted_line *base, const struct noted_line *a,
                const struct noted_line *b, const struct noted *of, struct str *out,
                struct arena *arena);

#endif
