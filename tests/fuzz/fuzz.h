/* What the fuzz targets share. libFuzzer calls LLVMFuzzerTestOneInput. */
#ifndef NINEMETRE_TESTS_FUZZ_H
#define NINEMETRE_TESTS_FUZZ_H

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "text.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* A broken promise ends the run, with what was promised. */
#define PROMISE(holds, what)                                            \
    do {                                                                \
        if (!(holds)) {                                                 \
            fprintf(stderr, "%s:%d: broken: %s\n", __FILE__, __LINE__, what); \
            abort();                                                    \
        }                                                               \
    } while (0)

static inline void fuzz_no_memory(size_t bytes) {
    (void)bytes;
    abort();
}

/* The input as a text; no squad file lies in its directory. */
static inline void fuzz_text(struct text *t, const uint8_t *data, size_t size, struct arena *a,
                             struct diags *d) {
    diags_init(d, a);
    text_take(t, STR("/nowhere/fuzz.9m"), (struct str){(const char *)data, size}, a, d);
}

/* The first byte says whether the input stands behind the head of a match, so
 * that the fuzzer need not find one by chance. */
static inline struct str fuzz_with_head(const uint8_t *data, size_t size, struct arena *a) {
    struct buf b;

    buf_init(&b, a);
    if (size && data[0] % 2)
        buf_add(&b, STR("notation 1\n"
                        "match 2026-10-03 18:30\n"
                        "team H \"Harbour Herons\" women\n"
                        "team G \"Granite Foxes\"\n"
                        "observe toss\n"
                        "set 1 G\n"
                        "lineup H 7 12 3 9 4 10\n"));
    if (size)
        buf_add(&b, (struct str){(const char *)data + 1, size - 1});
    return buf_str(&b);
}

#endif
