/* One slip in a whole match, told once and in the right place: by kind of
 * slip, over random matches. The floors were measured with build/tests/tools/
 * seed_slips and rounded down; who mends the checker raises them. */
#include "kit/seeded.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MATCHES = 100 };

/* Of a hundred slips of the kind, how many at least give exactly one error,
 * where the slip stands or at the first score below; and how many messages at
 * most one gives. */
static const struct floor {
    const char *kind;
    unsigned least_percent, most_messages;
} floors[] = {
    {"shirt-wrong", 95, 3},
    {"shirt-unknown", 95, 2},
    {"shirt-digits-turned", 93, 3},
    {"shirts-swapped", 87, 3},
    {"shirt-letter-for-digit", 99, 2},
    {"team-wrong", 92, 3},
    {"team-unknown", 100, 1},
    {"won-lost", 96, 3},
    {"ace-for-net", 95, 2},
    {"net-for-ace", 98, 2},
    {"net-for-in2", 83, 2},
    {"key-doubled", 100, 1},
    {"key-lost", 100, 1},
    {"blank-missing", 100, 1},
    {"outcome-twice", 100, 1},
    {"outcome-missing", 99, 2},
    {"mark-unknown", 100, 1},
    {"zone-8", 100, 1},
    {"long-inside", 100, 1},
    {"comma-for-point", 100, 1},
    {"video-time-falls", 100, 1},
    {"score-off-by-one", 84, 2},
    {"score-turned", 93, 3},
    {"end-off-by-one", 91, 1},
    {"end-turned", 100, 1},
    {"lineup-shirt-wrong", 98, 3},
    {"lineup-shirt-twice", 100, 1},
    {"set-number-wrong", 100, 1},
    {"set-server-wrong", 98, 2},
    {"timeout-team-unknown", 100, 1},
    {"sub-out-wrong", 93, 3},
    {"sub-turned", 96, 2},
    {"quote-missing", 100, 1},
    {"date-wrong", 100, 1},
    {"conflict", 96, 2},
    {"serve-missing", 88, 2},
    {"serve-doubled", 91, 2},
    {"serves-turned", 69, 2},
    {"sub-missing", 66, 2},
    {"sub-doubled", 100, 1},
    {"set-missing", 97, 2},
    {"set-doubled", 100, 1},
    {"end-missing", 100, 1},
    {"end-doubled", 100, 1},
    {"player-missing", 73, 2},
    {"player-doubled", 100, 1},
    {"team-missing", 100, 1},
};

static unsigned tests_n, failed_n;

static void failed(size_t bytes) {
    fprintf(stderr, "seeded: no memory for %zu bytes\n", bytes);
    exit(3);
}

static void tap(bool ok, const char *kind, const char *what) {
    tests_n++;
    failed_n += !ok;
    printf("%sok %u - %s %s\n", ok ? "" : "not ", tests_n, kind, what);
}

static const struct floor *floor_of(const char *kind) {
    for (size_t i = 0; i < sizeof floors / sizeof *floors; i++)
        if (strcmp(floors[i].kind, kind) == 0)
            return &floors[i];
    return NULL;
}

/* Every kind is tried; of one that leaves legal notes nothing
 * may be said. */
static void kind_tap(const struct seed_kind *kind, const struct seeded_count *c) {
    const struct floor *f = floor_of(kind->name);
    unsigned told = c->n[SEEDED_RIGHT] + c->n[SEEDED_SCORE];

    printf("# %s: %u tried, %u told once in place, %u silent, at most %u messages\n", kind->name,
           c->tries, told, c->n[SEEDED_SILENT], c->most);
    if (kind->group == SEED_LEGAL) {
        tap(c->tries > 10 && c->n[SEEDED_SILENT] == c->tries, kind->name, "is legal and not told");
        return;
    }
    tap(f && c->tries > 10 && told * 100 >= f->least_percent * c->tries, kind->name,
        "is told once and in its place as often as measured");
    tap(f && c->most <= f->most_messages, kind->name, "raises no more messages than measured");
}

int main(void) {
    struct arena *of_match = arena_new(failed), *scratch = arena_new(failed);
    struct seeded_count counts[SEED_KINDS_MAX];
    unsigned loud_n = seeded_measure(counts, MATCHES, of_match, scratch);

    tap(loud_n == 0, "a match without a slip", "is silent");
    for (unsigned k = 0; k < seed_kind_n; k++)
        kind_tap(&seed_kinds[k], &counts[k]);
    arena_free(scratch);
    arena_free(of_match);
    printf("1..%u\n", tests_n);
    return failed_n > 0;
}
