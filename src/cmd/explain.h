/* What the files behind `9m explain` share. */
#ifndef NINEMETRE_CMD_EXPLAIN_H
#define NINEMETRE_CMD_EXPLAIN_H

#include "cmd/cmd.h"

/* The first lines of an explanation: name, what kind of thing, its meaning. */
void explain_head(struct str name, const char *kind, const char *meaning);

/* Explains a rule profile or a rule of one: 1, or 0 if the word is neither.
 * `done` explanations stand above it already. */
size_t explain_rules(struct str word, size_t done);

/* Their lines of `--list`. */
void explain_list_rules(void);

#endif
