/* The same notes as another hand, editor or system would have left them: for
 * tests that spelling and layout change nothing. It works on bytes and knows
 * of the notation only where blanks and case do not matter. */
#ifndef NINEMETRE_TESTS_ROUGHEN_H
#define NINEMETRE_TESTS_ROUGHEN_H

#include "kit/dice.h"
#include "str.h"

enum rough {
    ROUGH_CRLF = 1,           /* line ends of another system */
    ROUGH_BOM = 2,
    ROUGH_OPEN_END = 4,       /* the last line does not end */
    ROUGH_TRAILING = 8,       /* blanks behind lines */
    ROUGH_BLANKS = 16,        /* several blanks or a TAB between fields, indents */
    ROUGH_LINES = 32,         /* blank lines doubled */
    ROUGH_CAPITALS = 64,      /* caps lock in serve lines */
    ROUGH_ORDER = 128,        /* fields of one side of the outcome the other way round */
    ROUGH_NFD = 256,          /* letters and accents apart */
    ROUGH_WORDY = 512,        /* "score 3-4", our letter before our servers */
    ROUGH_KINDS = 10,
    ROUGH_ALL = 1023
};

/* `kinds` is a set of the above; what is drawn inside a kind comes from `d`. */
struct str roughen(struct str notes, unsigned kinds, char ours, struct dice *d, struct arena *a);

#endif
