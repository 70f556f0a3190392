/* What the program took a file to say, as text: one line a fact, without
 * anything that depends on spelling, line numbers or layout. Two files with
 * the same facts give the same text. */
#ifndef NINEMETRE_TESTS_FACTS_H
#define NINEMETRE_TESTS_FACTS_H

#include "check.h"

void facts_put(struct buf *out, const struct checked *c);

#endif
