/* Notes as lines, each with what it says whatever its spelling: what merging and
 * comparing share.
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

/* The server of a serve, as it says. */
struct str noted_server(const struct noted_line *l);

/* Where a line stands, as a scorer would say it: "set 2, rally 14". */
struct str noted_place(const struct noted_line *l, struct arena *a);

/* How many words of a line are told apart at most. */
enum { NOTED_WORDS_MAX = 64 };

#endif
