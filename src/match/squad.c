/* A season's matches share their squad file: it is read and cut into statements
 * once, and each match takes the statements from there. */
#include "match/squad.h"

enum { MANY = 64 };

struct squads *squads_new(arena_failed *failed) {
    struct arena *a = arena_new(failed);
    struct squads *s = arena_alloc(a, 1, sizeof *s);
    s->own = a;
    s->arena = arena_new(failed);
    s->words = syn_words_new(a);
    return s;
}

void squads_free(struct squads *s) {
    if (!s)
        return;
    arena_free(s->arena);
    arena_free(s->own);
}

/* Files come folder by folder: what is needed again is among the latest. */
void squads_tidy(struct squads *s) {
    if (!s || s->n < MANY)
        return;
    s->first = NULL;
    s->n = 0;
    arena_reset(s->arena);
}

void squads_read_from(struct squads *s, struct squad_source source) {
    s->source = source;
}

static enum text_status read_squad(struct squads *s, struct squad *q) {
    if (s->source.read)
        return s->source.read(s->source.from, &q->text, q->path.at, s->arena, &q->diags);
    return text_read_ordinary(&q->text, q->path.at, s->arena, &q->diags);
}

static void read_lines(struct squads *s, struct squad *q) {
    for (const struct stmt *st; (st = syn_next(q->syn));) {
        q->lines = arena_grow(s->arena, q->lines, q->n, &q->room, sizeof *q->lines);
        q->lines[q->n++] = (struct squad_line){*st, syn_word(q->syn, st, 1)};
    }
}

const struct squad *squad_load(struct squads *s, struct str path, enum text_status *status) {
    *status = TEXT_READ;
    for (struct squad *q = s->first; q; q = q->next)
        if (str_eq(q->path, path))
            return q;
    struct squad *q = arena_alloc(s->arena, 1, sizeof *q);
    q->path = str_copy(s->arena, path);
    diags_init(&q->diags, s->arena);
    *status = read_squad(s, q);
    if (*status != TEXT_READ)
        return NULL;
    q->syn = syn_new(&q->text, s->arena, &q->diags);
    read_lines(s, q);
    q->next = s->first;
    s->first = q;
    s->n++;
    return q;
}
