/* Finds things of an array by what they are, however many there are: a hash with
 * open addressing, which holds their indices. The array is the caller's. */
#ifndef NINEMETRE_SLOTS_H
#define NINEMETRE_SLOTS_H

#include <stdbool.h>
#include <stdint.h>

#include "arena.h"
#include "str.h"

#define SLOTS_NONE UINT32_MAX

struct slot {
    uint32_t hash, ix;           /* SLOTS_NONE: empty */
};

/* All zero: nothing yet. */
struct slots {
    struct slot *at;
    size_t n, room;
};

/* A hash of words and texts, one added to the other; begin with any number. */
uint64_t slots_hash(uint64_t hash, uint64_t word);
uint64_t slots_hash_str(uint64_t hash, struct str s);

/* True if the thing with this index is the one that is looked for. */
typedef bool slots_same(const void *of, uint32_t ix, const void *key);

/* The index of what is looked for, or SLOTS_NONE. */
uint32_t slots_find(const struct slots *s, uint64_t hash, slots_same *same, const void *of,
                    const void *key);

/* Adds an index that is not there yet. */
void slots_add(struct slots *s, uint64_t hash, uint32_t ix, struct arena *a);

#endif
