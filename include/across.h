/* What shows only when several files of notes are seen together: one player under
 * two spellings, a shirt that changes hands, one match in two files, a day that
 * belongs elsewhere. All of it is unlikely and may be right, so all are warnings.
 * Nothing depends on the order in which files come. */
#ifndef NINEMETRE_ACROSS_H
#define NINEMETRE_ACROSS_H

#include "check.h"

struct across;

/* Nothing yet; it lives as long as the arena. */
struct across *across_new(struct arena *a);

/* Adds what a file says of its day, its teams and their players; the file may be
 * forgotten afterwards. `d` are its own messages. */
void across_add(struct across *x, const struct text *t, const struct checked *c,
                const struct diags *d);

/* Adds what another has, which must live as long. */
void across_merge(struct across *x, const struct across *more);

/* Adds the warnings, sorted by file. Gives how many files have some that had no
 * message of their own. */
size_t across_judge(struct across *x, struct diags *d);

#endif
