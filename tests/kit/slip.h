/* Slips of the keyboard, one a line, of kinds that everyone makes. Each spoils
 * its line in one way and leaves the others as they are, so that a file with k
 * of them has k causes for a message. */
#ifndef NINEMETRE_TESTS_SLIP_H
#define NINEMETRE_TESTS_SLIP_H

#include "kit/dice.h"
#include "str.h"

enum slip {
    SLIP_LETTER_DOUBLED,      /* 7 nett */
    SLIP_LETTER_LOST,         /* 7 lng */
    SLIP_NO_OUTCOME,          /* 7 */
    SLIP_NO_BLANK,            /* 7net */
    SLIP_OUTCOME_TWICE,       /* 7 net net */
    SLIP_NO_BREAK_SPACE,      /* 7·net */
    SLIP_UNKNOWN_SHIRT,       /* 67 net */
    SLIP_COMMA,               /* 7, net */
    SLIP_KINDS
};

/* True if the line is a serve that this slip can spoil; the spoilt line is
 * added to `out` then. */
bool slip_line(struct buf *out, struct str line, enum slip kind);

/* The notes with slips of random kinds, at least `apart` lines between two;
 * *n is set to how many there are. */
struct str slip_notes(struct str notes, unsigned apart, struct dice *d, struct arena *a,
                      unsigned *n);

#endif
