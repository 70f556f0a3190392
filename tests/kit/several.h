/* Several files of notes in one text, each below a remark with its name: # a.9m */
#ifndef NINEMETRE_TESTS_SEVERAL_H
#define NINEMETRE_TESTS_SEVERAL_H

#include "across.h"

/* Whether the text is one of several files. */
bool several_are(const char *notes);

/* Checks each file, and all of them together; gives all messages. With `turned` the
 * last file comes first; with `parted` every other file goes through another
 * collection. Neither may change anything. */
void several_check(const char *notes, bool turned, bool parted, struct arena *a,
                   struct diags *d);

#endif
