/* Squad files, read once. Private to the match room. */
#ifndef NINEMETRE_MATCH_SQUAD_H
#define NINEMETRE_MATCH_SQUAD_H

#include "match.h"

/* One statement of a squad file, and the place of its second word: the shirt,
 * the team. */
struct squad_line {
    struct stmt st;
    struct place second;
};

struct squad {
    struct squad *next;
    struct str path;
    struct text text;
    struct syn *syn;
    struct squad_line *lines;
    size_t n, room;
    struct diags diags;          /* of its bytes and its form */
};

struct squads {
    struct arena *arena;         /* of the files */
    struct arena *own;           /* of the rest; NULL: the caller's */
    size_t n;                    /* files */
    struct squad *first;         /* the latest */
    struct syn_words *words;     /* of all files that take a squad from here */
    struct squad_source source;  /* without one: the file system */
};

/* The squad file at `path`, from the store or read now; NULL if it can't be
 * read, with the reason in `status` and errno. */
const struct squad *squad_load(struct squads *s, struct str path, enum text_status *status);

#endif
