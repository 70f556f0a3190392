/* Run at build time: finds a perfect hash for the words of the notation and
 * prints it as C. A key is the first eight letters of a word in lower case;
 * a multiplication and a shift give its slot. */
#include <inttypes.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SLOT_BITS = 8, SLOTS = 1 << SLOT_BITS, EMPTY = 255 };

struct entry {
    const char *word;
    int statement, shape;
};

static const struct entry entries[] = {
#define WORD(id, word, class, ...) {word, IS_##class == 1, IS_##class == 2},
#define IS_STATEMENT 1
#define IS_TYPE 0
#define IS_INTENT 0
#define IS_MARK 0
#define IS_OUTCOME 0
#define IS_AFTER 0
#define IS_PHASE 0
#define IS_ARGUMENT 0
#define IS_SHAPE 2
#include "words.def"
#undef WORD
};
enum { ENTRIES = sizeof entries / sizeof *entries };

_Static_assert((int)ENTRIES < (int)EMPTY, "a slot holds a word's number in one byte");

static uint64_t key_of(const char *word) {
    uint64_t key = 0;
    size_t n = strlen(word);
    for (size_t i = 0; i < n && i < 8; i++)
        key |= (uint64_t)(unsigned char)word[i] << (8 * i);
    return key;
}

/* Weyl sequence with the finaliser of SplitMix64 (Steele, Lea, Flood 2014). */
static uint64_t next_multiplier(uint64_t *state) {
    uint64_t z = (*state += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return (z ^ (z >> 31)) | 1;
}

static int fits(uint64_t multiplier, int statement, unsigned char slots[SLOTS]) {
    memset(slots, EMPTY, SLOTS);
    for (int i = 0; i < ENTRIES; i++) {
        if (entries[i].shape || entries[i].statement != statement)
            continue;
        unsigned char *slot = &slots[key_of(entries[i].word) * multiplier >> (64 - SLOT_BITS)];
        if (*slot != EMPTY)
            return 0;
        *slot = (unsigned char)i;
    }
    return 1;
}

static int print_hash(const char *name, int statement) {
    uint64_t state = 9, multiplier;
    unsigned char slots[SLOTS];
    for (long tries = 0; tries < 50000000; tries++) {
        multiplier = next_multiplier(&state);
        if (!fits(multiplier, statement, slots))
            continue;
        printf("#define %s_MULTIPLIER UINT64_C(0x%016" PRIX64 ")\n", name, multiplier);
        printf("static const unsigned char %s_slots[%d] = {", statement ? "statement" : "field",
               SLOTS);
        for (int i = 0; i < SLOTS; i++)
            printf("%s%d,", i % 24 ? "" : "\n    ", slots[i]);
        printf("\n};\n");
        return 1;
    }
    fprintf(stderr, "mkhash: no multiplier found for %s\n", name);
    return 0;
}

int main(void) {
    printf("/* Made by src/token/mkhash.c from grammar/words.def. */\n");
    printf("enum { WORD_SLOT_BITS = %d, WORD_SLOT_EMPTY = %d };\n", SLOT_BITS, EMPTY);
    printf("static const uint64_t word_keys[%d] = {\n", ENTRIES);
    for (int i = 0; i < ENTRIES; i++)
        printf("    UINT64_C(0x%016" PRIX64 "),\n", entries[i].shape ? 0 : key_of(entries[i].word));
    printf("};\n");
    return print_hash("STATEMENT", 1) && print_hash("FIELD", 0) ? 0 : EXIT_FAILURE;
}
