/* Notes in words, a line for each of theirs. */
#ifndef NINEMETRE_CMD_ALOUD_H
#define NINEMETRE_CMD_ALOUD_H

#include "cmd/cmd.h"

struct aloud {
    const struct match *match; /* names of people and teams */
    struct buf *out;
    struct serve server;       /* who served last: letter, form, shirt */
};

/* The words of one statement that was read. */
void aloud_statement(struct aloud *a, const struct stmt *st);

/* Whom the next `.` means, where her line itself was not said. */
void aloud_served(struct aloud *a, const struct serve *v);

/* Of a serve, and of a routine. */
void aloud_serve(struct aloud *a, const struct serve *v);
void aloud_routine(struct buf *b, const struct serve *v);

/* "7 Mira Havelin", "G3". */
void aloud_person(struct aloud *a, char letter, unsigned shirt);

/* "zone 5", "2.1 m from the right and 8.4 m from the net". */
void aloud_spot(struct buf *b, struct spot s);

/* Hundredths with one decimal at least. */
void aloud_decimal(struct buf *b, int hundredths);

/* What a word of the notation means, by its class and value. */
void aloud_meaning(struct buf *b, enum word_class class, unsigned value);

#endif
