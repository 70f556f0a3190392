/* A season's matches share their squad file: it is read and cut into statements
 * once, and each match takes the statements from there. */
#include "match/squad.h"

struct squads *squads_new(arena_failed *failed) {
    struct arena *a = arena_new(failed);
    struct squads *s = arena_alloc(a, 1, sizeof *s);
    s->arena = a;
    s->words = syn_words_new(a);
    return s;
}

void squads_free(struct squads *s) {
    if (s)
        arena_free(s->arena);
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

/* FNV-1a (G. Fowler, L. C. Noll, K.-P. Vo), from memory; any hash would do. */
static struct squad **bucket_of(struct squads *s, struct str path) {
    uint32_t hash = 2166136261u;
    for (size_t i = 0; i < path.n; i++)
        hash = (hash ^ (unsigned char)path.at[i]) * 16777619u;
    return &s->by_path[hash % SQUAD_BUCKETS];
}

const struct squad *squad_load(struct squads *s, struct str path, enum text_status *status) {
    struct squad **bucket = bucket_of(s, path);
    *status = TEXT_READ;
    for (struct squad *q = *bucket; q; q = q->next)
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
    q->next = *bucket;
    *bucket = q;
    return q;
}
