/* What the files of the seeder share with each other only. */
#ifndef NINEMETRE_TESTS_SEED_PARTS_H
#define NINEMETRE_TESTS_SEED_PARTS_H

#include "seed.h"

enum { SEED_WORDS_MAX = 24, SEED_UNSEEN = 1000 };

/* A line cut at single blanks; canonical notes have no others. */
struct seed_words {
    struct str at[SEED_WORDS_MAX];
    unsigned n;
};

/* A serve line without comment. */
struct seed_serve {
    struct seed_words w;
    char letter;                 /* of the server's team; 0 for `.` */
    unsigned shirt;              /* SEED_UNSEEN if not written */
    unsigned outcome;            /* index of its word, 0 if not one of the common ones */
};

/* False when the line holds a comment, a text or too many words. */
bool seed_words_of(struct seed_words *w, struct str line);
bool seed_serve_of(struct seed_serve *v, const struct seed_notes *s, struct str line);

/* The first word is this one. */
bool seed_opens(struct str line, const char *word);

/* A whole number and nothing else. */
bool seed_number(struct str s, unsigned *out);

/* "12-9". */
bool seed_pair(struct str s, unsigned *a, unsigned *b);

/* The words with another in place of word k. */
struct str seed_with(const struct seed_words *w, unsigned k, struct str word, struct arena *a);

/* A shirt of the team (by letter) that appears in the notes, any but those
 * given; false if there is none. */
bool seed_other_shirt(const struct seed_notes *s, char letter, const unsigned *but, unsigned but_n,
                      struct dice *d, unsigned *out);

/* Line `i` becomes `line`. */
bool seed_replace(struct seed_slip *out, unsigned i, struct str line, struct arena *a);

/* The kinds of kit/seed_lines.c, which spoil more than one line, or leave
 * legal notes. */
typedef bool seed_make(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                       struct seed_slip *out);

seed_make seed_serve_missing, seed_serve_doubled, seed_serves_turned, seed_sub_missing,
    seed_sub_doubled, seed_set_missing, seed_set_doubled, seed_end_missing, seed_end_doubled,
    seed_player_missing, seed_player_doubled, seed_team_missing, seed_score_missing,
    seed_timeout_missing, seed_grade_other, seed_zone_other, seed_mark_missing;

#endif
