/* The arena's door with a heap block of its own for every piece, as large as
 * asked for and no larger: what reads or writes past its end is seen by the
 * address sanitizer. Takes the place of src/base/arena.c in the fuzz build. */
#include "arena.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

struct piece {
    struct piece *next;
    void *at;
};

struct arena {
    struct piece *pieces;
    size_t held_bytes;
    arena_failed *failed;
};

struct arena *arena_new(arena_failed *failed) {
    struct arena *a = calloc(1, sizeof *a);

    if (!a)
        abort();
    a->failed = failed;
    return a;
}

void arena_reset(struct arena *a) {
    while (a->pieces) {
        struct piece *p = a->pieces;
        a->pieces = p->next;
        free(p->at);
        free(p);
    }
    a->held_bytes = 0;
}

void arena_free(struct arena *a) {
    if (!a)
        return;
    arena_reset(a);
    free(a);
}

void *arena_alloc(struct arena *a, size_t n, size_t size) {
    struct piece *p = malloc(sizeof *p);

    if (!p || (size && n > SIZE_MAX / size))
        abort();
    p->at = calloc(n ? n : 1, size ? size : 1);
    if (!p->at)
        abort();
    p->next = a->pieces;
    a->pieces = p;
    a->held_bytes += n * size;
    return p->at;
}

void *arena_grow(struct arena *a, void *array, size_t n, size_t *room, size_t size) {
    void *larger;

    if (n < *room)
        return array;
    *room = *room ? *room * 2 : 8;
    larger = arena_alloc(a, *room, size);
    if (n)
        memcpy(larger, array, n * size);
    return larger;
}

size_t arena_bytes(const struct arena *a) {
    return a->held_bytes;
}
