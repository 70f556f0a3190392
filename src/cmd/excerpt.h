/* A line of a file as it is shown in a message: safe for a terminal, cut
 * around the place that matters when it is long, with the cells of any of its
 * bytes. Cells, not bytes or letters: so carets stand right under wide letters,
 * behind TABs and beside what is shown as an escape. */
#ifndef NINEMETRE_EXCERPT_H
#define NINEMETRE_EXCERPT_H

#include "cmd/cmd.h"

struct excerpt {
    struct str shown;
    unsigned margin; /* cells of the line number */
    unsigned caret_cell, caret_n;
    bool caret_dot; /* the caret's letter is shown as a middle dot */
    /* how it was made */
    struct str line;  /* the bytes that were looked at */
    size_t line_from; /* where they start in the whole line */
    unsigned *cells;  /* of each byte, and of the end */
    bool *dots;
    unsigned from, to; /* cells of the line that are shown */
    unsigned lead;     /* cells of the mark that something was cut before */
};

/* Shows the place's line within `width_max` cells, the margin included. */
void excerpt_init(struct excerpt *e, struct place p, unsigned width_max, struct arena *a);

/* Sets the caret under `n` bytes from byte `at` of the line. */
void excerpt_under(struct excerpt *e, size_t at, size_t n);

#endif
