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

#endif
