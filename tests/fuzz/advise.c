/* Advice from any notes, which with --partial-data may have errors. Slow beside
 * the other targets: fits and tests are sums over many counts. */
#include "fuzz.h"

#include "advice.h"

/* The same match many times over, so that there is something to say. */
enum { MATCHES = 40 };

static void advise(const struct checked *c, struct arena *a) {
    struct advice_of of = advice_of(a);
    struct drill_book drills;
    struct advice advice;

    for (unsigned i = 0; i < MATCHES; i++)
        advice_add(&of, c);
    drill_book_init(&drills, a);
    advice_init(&advice, &of, &drills, a);
    PROMISE(advice_team(&advice).n <= ADVICE_MAX, "a team has few sentences");
    for (size_t i = 0; i < of.faults->server_n; i++)
        PROMISE(advice_server(&advice, i).n <= ADVICE_MAX, "a server has few priorities");
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct arena *a = arena_new(fuzz_no_memory);
    struct str notes = fuzz_with_head(data, size, a);
    const struct checked *c;
    struct diags d;
    struct text t;

    fuzz_text(&t, (const uint8_t *)notes.at, notes.n, a, &d);
    c = check_text(&t, CHECK_KEEP, a, &d);
    if (c->match->occasion)
        advise(c, a);
    arena_free(a);
    return 0;
}
