/* Memory of one file's life. Everything read from a file and everything made
 * from it lies in one arena and goes in one call; texts are views into it.
 * Nothing else in the program calls malloc, and nobody frees a single piece. */
#ifndef NINEMETRE_ARENA_H
#define NINEMETRE_ARENA_H

#include <stddef.h>

struct arena;

/* Called when the machine has no memory left; must not return. */
typedef void arena_failed(size_t wanted_bytes);

/* An empty arena. The caller frees it with arena_free. */
struct arena *arena_new(arena_failed *failed);

/* Gives back every piece at once; NULL is allowed. */
void arena_free(struct arena *a);

/* Forgets every piece but keeps the memory for the next file. */
void arena_reset(struct arena *a);

/* `n` zeroed elements of `size` bytes, aligned for any type. Never NULL. */
void *arena_alloc(struct arena *a, size_t n, size_t size);

/* Makes room for one more element in an array of `*room` elements that holds
 * `n`: the same array, or a larger copy with *room raised. */
void *arena_grow(struct arena *a, void *array, size_t n, size_t *room, size_t size);

/* Bytes the arena holds from the system, for the tests of memory bounds. */
size_t arena_bytes(const struct arena *a);

#endif
