/* Tests whose state is an arena of their own. To be included behind cmocka.h. */
#ifndef NINEMETRE_TESTS_IN_ARENA_H
#define NINEMETRE_TESTS_IN_ARENA_H

#include <stdlib.h>

#include "arena.h"

static inline void no_memory(size_t wanted_bytes) {
    fail_msg("no memory for %zu bytes", wanted_bytes);
    abort();
}

static inline int open_arena(void **state) {
    *state = arena_new(no_memory);
    return 0;
}

static inline int close_arena(void **state) {
    arena_free(*state);
    return 0;
}

#define TEST(f) cmocka_unit_test_setup_teardown(f, open_arena, close_arena)

#endif
