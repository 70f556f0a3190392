/* What to say of a line that does not parse. Private to the syntax room. */
#ifndef NINEMETRE_SYNTAX_FAULT_H
#define NINEMETRE_SYNTAX_FAULT_H

#include "syntax/build.h"

/* The one message for a line that stopped at this token. */
void fault_line(struct syn *s, int code, struct token t);

/* The message for a value that cannot be; marks the line as unread. NULL if
 * the line has had its message already. Arguments follow the code's format. */
#define FAULT(s, id, token, ...) \
    ((s)->bad ? NULL             \
              : ((s)->bad = true, diags_add((s)->diags, id, build_place(s, token), __VA_ARGS__)))

/* The fault of a word that is none: the shapes that scorers slip into, then
 * the nearest right spelling. */
void fault_word(struct syn *s, struct token t, const bool expected[T_EXTRA + 1]);

/* The fault of letters from another keyboard layout; false if they are none, or
 * if the line says nothing with Latin letters in their places. */
bool fault_layout(struct syn *s, struct token t);

/* The fault of a zone that does not exist; or, in `7 net 12 ace`, of a second
 * serve on the line. */
void fault_zone(struct syn *s, struct token t, int zone);

/* Offers to split the line before byte `at` of the text, with `head` before the
 * rest; false if one of the halves does not parse. */
bool fault_split(struct syn *s, struct diag *d, size_t at, const char *head);

/* `try`: the line with bytes replaced, if that line parses. */
bool fault_try(struct syn *s, struct diag *d, size_t at, size_t n, struct str instead, bool safe);

/* What a scorer calls a terminal, and the list of those that may follow: five
 * at most. `serve`: inside a serve line. */
const char *fault_phrase(int code, bool serve);
struct str fault_expected(struct arena *a, const bool expected[T_EXTRA + 1], bool serve);

#endif
