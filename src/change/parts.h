/* What the files of this room share. */
#ifndef NINEMETRE_CHANGE_PARTS_H
#define NINEMETRE_CHANGE_PARTS_H

#include "merge.h"

/* True if they say the same, comments aside; and with their comments. */
bool noted_says(const struct noted_line *a, const struct noted_line *b);
bool noted_equal(const struct noted_line *a, const struct noted_line *b);

/* Blank lines, comments and notes: they say nothing that another could deny. */
bool noted_free(const struct noted_line *l);

/* A declaration about somebody or something: in any order they say the same. A team
 * or a squad is none of them, since the first is ours. */
bool noted_declares(const struct noted_line *l);

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

/* The word at byte `at`, to the next blank that is not within a text. */
struct str noted_word_at(struct str says, size_t at);

/* The words of a line; a statement that can only be had as a whole is one. */
size_t noted_words(const struct noted_line *l, struct noted_word out[NOTED_WORDS_MAX],
                   struct arena *a);

/* Joins the words that two made of one line; `base` is NULL if both added it.
 * False if they contradict each other, or make no line together. */
bool noted_join(const struct noted_line *base, const struct noted_line *a,
                const struct noted_line *b, const struct noted *of, struct str *out,
                struct arena *arena);

/* ---- both added ----------------------------------------------------------- */

/* Lines that both sides put in one place, and that are not the same lines. First
 * comes what was added to the set or drill above, then new sets or drills; of each
 * of the two, whose stands first. */
struct merge_order {
    bool fits;                   /* false: they can't both stand there */
    size_t here_n[MERGE_SIDES];  /* lines before the first `set` or `drill` */
    bool theirs_first[2];
};

struct merge_order merge_both(const struct noted_line *ours, size_t n,
                              const struct noted_line *theirs, size_t m, bool practice);

/* Writes a server out where its `.` would mean another than in its own file. */
void merge_lean(struct merge *m);

#endif
