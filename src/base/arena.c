/* A chain of blocks. The chain grows by whole blocks, each at least as large
 * as half of all before it, so that a large file costs few of them and little
 * waste; a reset keeps the first. */
#include "arena.h"

#include <stdalign.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { BLOCK_MIN_BYTES = 32 * 1024, ALIGN = alignof(max_align_t) };

struct block {
    struct block *next;
    size_t room, used;
    alignas(max_align_t) unsigned char bytes[];
};

struct arena {
    struct block *blocks;        /* newest first */
    size_t held_bytes;
    arena_failed *failed;
};

struct arena *arena_new(arena_failed *failed) {
    struct arena *a = calloc(1, sizeof *a);
    if (!a) {
        failed(sizeof *a);
        abort();
    }
    a->failed = failed;
    return a;
}

static void free_chain(struct block *b) {
    while (b) {
        struct block *next = b->next;
        free(b);
        b = next;
    }
}

void arena_free(struct arena *a) {
    if (!a)
        return;
    free_chain(a->blocks);
    free(a);
}

/* The oldest block is the last of the chain: the smallest, kept for reuse. */
void arena_reset(struct arena *a) {
    if (!a->blocks)
        return;
    struct block *b = a->blocks;
    while (b->next) {
        struct block *next = b->next;
        a->held_bytes -= b->room;
        free(b);
        b = next;
    }
    b->used = 0;
    a->blocks = b;
}

static struct block *add_block(struct arena *a, size_t bytes) {
    size_t room = a->held_bytes / 2 < BLOCK_MIN_BYTES ? BLOCK_MIN_BYTES : a->held_bytes / 2;
    if (room > 64 * (size_t)BLOCK_MIN_BYTES)
        room = 64 * (size_t)BLOCK_MIN_BYTES;
    if (room < bytes)
        room = bytes;
    struct block *b = malloc(sizeof *b + room);
    if (!b) {
        a->failed(room);
        abort();
    }
    b->room = room;
    b->used = 0;
    b->next = a->blocks;
    a->blocks = b;
    a->held_bytes += room;
    return b;
}

static void *raw(struct arena *a, size_t n, size_t size) {
    if (size && n > (SIZE_MAX - ALIGN) / size) {
        a->failed(SIZE_MAX);
        abort();
    }
    size_t bytes = (n * size + ALIGN - 1) / ALIGN * ALIGN;
    struct block *b = a->blocks;
    if (!b || b->room - b->used < bytes)
        b = add_block(a, bytes);
    void *at = b->bytes + b->used;
    b->used += bytes;
    return at;
}

void *arena_alloc(struct arena *a, size_t n, size_t size) {
    void *at = raw(a, n, size);
    memset(at, 0, n * size);
    return at;
}

void *arena_grow(struct arena *a, void *array, size_t n, size_t *room, size_t size) {
    if (n < *room)
        return array;
    size_t more = *room ? *room * 2 : 16;
    void *larger = raw(a, more, size);
    if (n)
        memcpy(larger, array, n * size);
    memset((unsigned char *)larger + n * size, 0, (more - n) * size);
    *room = more;
    return larger;
}

size_t arena_bytes(const struct arena *a) {
    return a->held_bytes;
}
