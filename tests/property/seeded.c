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
    {"shirt-wrong", 90, 2},
    {"shirt-unknown", 95, 2},
    {"shirt-digits-turned", 90, 3},
    {"shirts-swapped", 25, 5},
    {"shirt-letter-for-digit", 90, 3},
    {"team-wrong", 40, 4},
    {"team-unknown", 90, 2},
    {"won-lost", 80, 2},
    {"ace-for-net", 80, 2},
    {"net-for-ace", 25, 3},
    {"net-for-in2", 60, 2},
    {"key-doubled", 100, 1},
    {"key-lost", 100, 1},
    {"blank-missing", 100, 1},
    {"outcome-twice", 100, 1},
    {"outcome-missing", 100, 1},
    {"mark-unknown", 100, 1},
    {"zone-8", 100, 1},
    {"long-inside", 100, 1},
    {"comma-for-point", 100, 1},
    {"video-time-falls", 100, 1},
    {"score-off-by-one", 0, 3},
    {"score-turned", 5, 3},
    {"end-off-by-one", 90, 1},
    {"end-turned", 65, 3},
    {"lineup-shirt-wrong", 90, 5},
    {"lineup-shirt-twice", 100, 1},
    {"set-number-wrong", 85, 3},
    {"set-server-wrong", 0, 4},
    {"timeout-team-unknown", 100, 1},
    {"sub-out-wrong", 5, 7},
    {"sub-turned", 10, 4},
    {"quote-missing", 100, 1},
    {"date-wrong", 100, 1},
    {"conflict", 90, 4},
    {"serve-missing", 85, 3},
    {"serve-doubled", 55, 2},
    {"serves-turned", 50, 3},
    {"sub-missing", 35, 3},
    {"sub-doubled", 80, 2},
    {"set-missing", 90, 2},
    {"set-doubled", 25, 5},
    {"end-missing", 100, 1},
    {"end-doubled", 20, 5},
    {"player-missing", 0, 5},
    {"player-doubled", 100, 1},
    {"team-missing", 55, 15},
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
