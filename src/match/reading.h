/* A file of notes while its head is read. Private to the match room. */
#ifndef NINEMETRE_MATCH_READING_H
#define NINEMETRE_MATCH_READING_H

#include "match.h"
#include "match/squad.h"

struct reading {
    struct arena *arena;
    struct diags *diags;
    const struct text *text;
    struct syn *syn;             /* of the file being read: a squad's while it is taken in */
    struct match match;
    unsigned said;               /* SAID_ bits of the file being read */
    bool versioned, started, ended;
    unsigned squad_n;
    const struct squad *squads_taken[SQUAD_FILES_MAX];
    struct squads *squads;
    const struct squad_line *squad_line; /* being declared, NULL in the file itself */
    struct syn *outer;           /* of the file itself, while a squad is taken in */
};

/* The k-th word of the statement; of a squad's line the second is kept with it. */
struct place reading_word(const struct reading *r, const struct stmt *st, unsigned k);

struct str reading_spelt(struct place p);

/* Teams and people: what `team`, `player`, `libero` and `focus` declare. */
void declare_team(struct reading *r, const struct stmt *st);
void declare_player(struct reading *r, const struct stmt *st);
void declare_libero(struct reading *r, const struct stmt *st);
void declare_focus(struct reading *r, const struct stmt *st);

/* The head ends: a focus may stand above its player, so its shirt is looked at now. */
void declare_end(struct reading *r);

#endif
