/* The notes of one match or practice of which pages are made. */
#ifndef NINEMETRE_CMD_SOURCE_H
#define NINEMETRE_CMD_SOURCE_H

#include "cmd/press.h"

struct cmd_source {
    const char *path;
    struct arena *arena;
    struct text text;
    struct diags diags;
    const struct checked *checked;
};

/* Reads and checks the notes and says what is wrong. False when nothing is to be
 * made of them, which `not_made` says ("Report not written."); with partial_data
 * that needs more than errors. */
bool cmd_source_read(struct cmd_source *s, const struct cmd_run *run, bool partial_data,
                     const char *not_made, enum cmd_status *status);

/* What pages say of the notes. */
struct page_facts cmd_source_facts(const struct cmd_source *s);

/* False after messages when a name or a title has a letter that no font has. */
bool cmd_source_covered(const struct cmd_source *s, struct cmd_press *press, bool no_names);

/* The same of words on one line. */
bool cmd_source_covers(const struct cmd_source *s, struct cmd_press *press, struct str words,
                       unsigned line);

/* The name without its folders; "standard input" for -. */
struct str cmd_base_name(const char *path);

/* SHA-256 as sha256sum prints it for the file, a byte-order mark included. */
struct str cmd_sum(const struct text *t, struct arena *a);

/* The path without the ending of notes. */
struct str cmd_without_ending(struct str path);

bool cmd_same_file(const char *a, const char *b);

#endif
