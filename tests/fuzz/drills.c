/* A club's drills: whatever is in them, the book stays whole, and a file without
 * a message gives drills that can be found again. */
#include "fuzz.h"

#include "check.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct arena *a = arena_new(fuzz_no_memory);
    struct drill_book book;
    struct diags d;
    struct text t;

    fuzz_text(&t, data, size, a, &d);
    drill_book_init(&book, a);
    drill_read(&book, &t, &d);
    for (size_t i = 0; i < book.n; i++) {
        const struct drill_recipe *r = &book.at[i];

        PROMISE(r->name.n && r->setup.n && r->treat_n, "what a drill needs is there");
        PROMISE(r->goal_hits <= r->goal_tries, "no more hits than tries");
        PROMISE(drill_find(&book, r->name) == r, "one name, one drill");
        PROMISE(drill_treating(&book, r->treats[0], TYPE_NONE, NULL, 0) > 0, "it treats something");
    }
    check_drills(&book, a, &d);
    arena_free(a);
    return 0;
}
