/* What the files behind `9m explain` share. */
#ifndef NINEMETRE_CMD_EXPLAIN_H
#define NINEMETRE_CMD_EXPLAIN_H

#include "cmd/cmd.h"

/* The first lines of an explanation: name, what kind of thing, its meaning. */
void explain_head(struct str name, const char *kind, const char *meaning);

/* Words up to the width of the page, every line indented. */
void explain_paragraph(const char *text, int indent);

/* A part of an explanation under its head, if there is any; notes are shown as
 * they stand. */
void explain_section(const char *head, const char *text, bool notes);

/* Explains a rule profile or a rule of one: 1, or 0 if the word is neither.
 * `done` explanations stand above it already. */
size_t explain_rules(struct str word, size_t done);

/* Explains a drill, or what holds for all of them: 1, or 0 if the word is
 * neither. */
size_t explain_drills(const struct drill_book *book, struct str word, size_t done);

/* The drills for a mark, an outcome or an intent; nothing if there are none. */
void explain_treating(const struct drill_book *book, enum word_id what);

/* Adds the drills of a club; says what is wrong with them, or that there are none. */
enum cmd_status explain_read_drills(struct drill_book *book, const char *path, bool color);

/* Their lines of `--list`. */
void explain_list_rules(void);
void explain_list_drills(const struct drill_book *book);

#endif
