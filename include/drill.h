/* Serve drills: what each is for, which marks and outcomes it treats, how it is
 * set up, scored and judged. The program's own (grammar/serve.drills) and a
 * club's are written alike and read by the same parser: "Field: value" lines as
 * in the headers of Internet messages (RFC 5322, 2.2), a blank line between two
 * drills. All drills are common practice, no source. */
#ifndef NINEMETRE_DRILL_H
#define NINEMETRE_DRILL_H

#include "token.h"

/* Does it contain jump serves? MAYBE: if the server's own serve is one. */
enum drill_jumps { DRILL_JUMPS_NO, DRILL_JUMPS_YES, DRILL_JUMPS_MAYBE };

/* A drill as it is described; a field that was left out is empty. */
struct drill_recipe {
    struct str name, purpose;
    enum word_id *treats;        /* marks, outcomes and intents, the best fit first */
    size_t treat_n, treat_room;
    unsigned types;              /* that it is for: bits 1 << enum serve_type; 0 all */
    enum drill_jumps jumps;
    struct str setup, dose;
    struct str score;            /* lines of a practice file, '\n' between them */
    struct str goal;             /* in words, with the count in front if it has one */
    unsigned goal_hits, goal_tries; /* the count; goal_tries is 0 if there is none */
    struct str next, care;
    bool own;                    /* a club's, not the program's */
    struct place place;          /* where it begins */
    struct place score_place;    /* where its score does; line 0 if it has none */
};

struct drill_book {
    struct arena *arena;
    struct drill_recipe *at;     /* in the order of the files */
    size_t n, room;
};

/* A book with the program's own drills. */
void drill_book_init(struct drill_book *b, struct arena *a);

/* Adds a club's drills; one with the name of another takes its place. What is
 * wrong with them goes to `d`; a drill with a fault is not added. Gives the
 * number of lines that are neither blank nor remarks. The text must live as
 * long as the book. */
unsigned drill_read(struct drill_book *b, const struct text *t, struct diags *d);

/* The drill of this name (case of A to Z ignored), NULL if there is none. */
const struct drill_recipe *drill_find(const struct drill_book *b, struct str name);

/* Is the drill for this type of serve? Every drill is for TYPE_NONE. */
bool drill_fits(const struct drill_recipe *r, enum serve_type type);

/* The drills that treat a mark, an outcome or an intent and fit the type, at
 * most `most` of them, the best first: those that name it earliest, of these a
 * club's own, then in the order of the book. Gives how many there are in all. */
size_t drill_treating(const struct drill_book *b, enum word_id what, enum serve_type type,
                      const struct drill_recipe **out, size_t most);

/* What holds for every drill: paragraphs of a title and a text, NULL after the last. */
struct drill_caution {
    const char *title, *text;
};
const struct drill_caution *drill_caution(size_t ix);

/* The same for jump serves in one sentence, to stand beside each drill with them. */
const char *drill_jump_caution(void);

#endif
