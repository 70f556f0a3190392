/* Lines by themselves, with what the head gives them. */
#include "match.h"

/* The shorthand of the squad files; the file's own is declared again when it
 * is read. */
static const struct short_word *of_squads(const struct short_word *all, struct str file,
                                          struct arena *a) {
    struct short_word *out = NULL;
    for (; all; all = all->next) {
        if (str_eq(all->place.file, file))
            continue;
        struct short_word *copy = arena_alloc(a, 1, sizeof *copy);
        *copy = *all;
        copy->next = out;
        out = copy;
    }
    return out;
}

/* The messages of the first reading, which takes in the head, are dropped. */
struct syn *match_lines(const struct text *t, struct squads *squads, struct arena *a,
                        struct diags *d, char *ours) {
    struct diags dropped;
    diags_init(&dropped, a);
    struct reading *reading = match_open(t, squads, a, &dropped);
    match_next(reading);         /* reads the header and the squad files */
    const struct match *match = match_of(reading);
    *ours = match->team_n ? match->teams[OURS].letter : '\0';
    struct syn *s = syn_new(t, a, d);
    syn_take_shorts(s, of_squads(syn_shorts(match_syntax(reading)), t->name, a));
    return s;
}
