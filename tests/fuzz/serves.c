/* Serve lines as the sum of their words, and by the grammar: the same statements,
 * places and messages; with a new store of words, and with the same one again. */
#include "fuzz.h"

#include "kit/both_ways.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size) {
    struct arena *a = arena_new(fuzz_no_memory);
    struct syn_words *words = syn_words_new(a);
    struct str text = {(const char *)data, size};
    const char *first = both_ways(text, words, a).differs;
    const char *again = both_ways(text, words, a).differs;

    if (first || again)
        fprintf(stderr, "%s differs\n", first ? first : again);
    PROMISE(!first, "words that are cut add up to what the grammar reads");
    PROMISE(!again, "so do words that are known");
    arena_free(a);
    return 0;
}
