#include "slots.h"

enum { ROOM_FIRST = 256 };

/* ---- hashes ------------------------------------------------------------------ */

/* The multiplier is 2^64 over the golden ratio (Knuth, The Art of Computer
 * Programming 3, 6.4). */
uint64_t slots_hash(uint64_t hash, uint64_t word) {
    hash = (hash ^ word) * UINT64_C(0x9E3779B97F4A7C15);
    return hash ^ hash >> 32;
}

uint64_t slots_hash_str(uint64_t hash, struct str s) {
    for (; s.n > sizeof hash; s = str_part(s, sizeof hash, s.n))
        hash = slots_hash(hash, str_eight(s.at));
    uint64_t word = s.n;
    for (size_t i = 0; i < s.n; i++)
        word = word << 8 | (unsigned char)s.at[i];
    return slots_hash(hash, word);
}

/* ---- slots ------------------------------------------------------------------- */

static void put(struct slots *s, struct slot one) {
    size_t at = one.hash & (s->room - 1);
    while (s->at[at].ix != SLOTS_NONE)
        at = (at + 1) & (s->room - 1);
    s->at[at] = one;
}

/* At most half of them are taken. */
static void widen(struct slots *s, struct arena *a) {
    struct slots was = *s;
    s->room = was.room ? 2 * was.room : ROOM_FIRST;
    s->at = arena_alloc(a, s->room, sizeof *s->at);
    for (size_t i = 0; i < s->room; i++)
        s->at[i].ix = SLOTS_NONE;
    for (size_t i = 0; i < was.room; i++)
        if (was.at[i].ix != SLOTS_NONE)
            put(s, was.at[i]);
}

uint32_t slots_find(const struct slots *s, uint64_t hash, slots_same *same, const void *of,
                    const void *key) {
    if (s->room == 0)
        return SLOTS_NONE;
    size_t at = (uint32_t)hash & (s->room - 1);
    for (; s->at[at].ix != SLOTS_NONE; at = (at + 1) & (s->room - 1))
        if (s->at[at].hash == (uint32_t)hash && same(of, s->at[at].ix, key))
            return s->at[at].ix;
    return SLOTS_NONE;
}

void slots_add(struct slots *s, uint64_t hash, uint32_t ix, struct arena *a) {
    if (2 * (s->n + 1) > s->room)
        widen(s, a);
    put(s, (struct slot){(uint32_t)hash, ix});
    s->n++;
}
