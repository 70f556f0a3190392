/* How well one slip in a whole match is told: a table by kind of slip, over
 * random matches. `right`: exactly one error, where the slip stands or naming
 * that line; `score`: exactly one, at the first stated score below, where no
 * line between contradicts. With a directory, a short example of each way that
 * a kind misses is written there, KIND-WAY.9m and the notes without the slip,
 * KIND-WAY.good.9m. */
#include "kit/seeded.h"

#include <stdio.h>
#include <stdlib.h>

static struct arena *of_match, *scratch, *kept;

static void failed(size_t bytes) {
    fprintf(stderr, "seed_slips: no memory for %zu bytes\n", bytes);
    exit(3);
}

static double percent(unsigned x, unsigned n) {
    return n ? 100.0 * x / n : 0;
}

static void row_put(const char *name, const struct seeded_count *c) {
    unsigned good = c->n[SEEDED_RIGHT] + c->n[SEEDED_SCORE];

    printf("%-22s %6u %6u %6u %6u %6u %6u  %5.1f %5.1f  %4u %4u\n", name, c->tries,
           c->n[SEEDED_RIGHT], c->n[SEEDED_SCORE], c->n[SEEDED_ELSEWHERE], c->n[SEEDED_SEVERAL],
           c->n[SEEDED_SILENT], percent(good, c->tries),
           percent(good, c->tries - c->n[SEEDED_SILENT]), c->most, c->above_three);
}

static void group_put(const char *title, enum seed_group group,
                      const struct seeded_count counts[SEED_KINDS_MAX]) {
    struct seeded_count sum = {0};

    printf("\n%-22s  tries  right  score  other  more silent   of all  seen  most  >3\n", title);
    for (unsigned k = 0; k < seed_kind_n; k++)
        if (seed_kinds[k].group == group) {
            row_put(seed_kinds[k].name, &counts[k]);
            seeded_add(&sum, &counts[k]);
        }
    row_put("together", &sum);
}

/* ---- examples ------------------------------------------------------------ */

static void file_put(const char *dir, const char *kind, const char *ending, struct str bytes) {
    struct str path = str_printf(kept, "%s/%s%s.9m", dir, kind, ending);
    FILE *f = fopen(path.at, "w");

    if (!f || fwrite(bytes.at, 1, bytes.n, f) != bytes.n || fclose(f) != 0) {
        fprintf(stderr, "seed_slips: cannot write %s\n", path.at);
        exit(3);
    }
}

/* The shortest example of one way so far. */
struct example {
    unsigned seen_n, lines_n;
    struct str good, bad;
};

enum { SHRINK_MOST = 12 };       /* examples of one way that are tried */

static void example_try(struct example *e, enum seeded as, const struct seed_notes *s,
                        const struct seed_slip *slip) {
    static const struct seed_slip none = {.from = 0, .to = 0};
    struct seed_notes least;
    struct seed_slip least_slip;

    e->seen_n++;
    seeded_shrink(s, slip, as, of_match, scratch, &least, &least_slip);
    if (e->lines_n && e->lines_n <= least.n)
        return;
    e->lines_n = least.n;
    e->good = seed_spoil(&least, &none, kept);
    e->bad = seed_spoil(&least, &least_slip, kept);
}

static void example_put(const char *dir, const char *kind, enum seeded as,
                        const struct example *e) {
    static const char *const ways[SEEDED_N] = {"silent", "right", "score", "elsewhere", "several"};
    struct str name = str_printf(kept, "%s-%s", kind, ways[as]);

    file_put(dir, name.at, ".good", e->good);
    file_put(dir, name.at, "", e->bad);
}

static bool misses(const struct seed_kind *kind, enum seeded as) {
    if (kind->group == SEED_LEGAL)
        return as != SEEDED_SILENT;
    return as == SEEDED_SILENT || as == SEEDED_ELSEWHERE || as == SEEDED_SEVERAL;
}

/* Slips early in a match come first: they leave little to be read. */
static void examples(const struct seed_kind *kind, const char *dir, unsigned match_n) {
    struct example found[SEEDED_N] = {{0}};

    arena_reset(kept);
    for (unsigned number = 1; number <= 2 * match_n; number++) {
        struct dice d = {number};
        struct seed_notes s;
        struct seed_slip slip;
        unsigned messages;

        arena_reset(of_match);
        arena_reset(scratch);
        seed_cut(&s, seeded_match((number - 1) % match_n + 1, of_match), of_match);
        if (!seed_draw(&s, kind, &d, of_match, &slip) || (number <= match_n && slip.from > 60))
            continue;
        enum seeded as = seeded_look(&s, &slip, scratch, &messages);
        if (misses(kind, as) && found[as].seen_n < SHRINK_MOST && seeded_silent(&s, scratch))
            example_try(&found[as], as, &s, &slip);
    }
    for (unsigned as = 0; as < SEEDED_N; as++)
        if (found[as].lines_n)
            example_put(dir, kind->name, (enum seeded)as, &found[as]);
}

int main(int argc, char **argv) {
    struct seeded_count counts[SEED_KINDS_MAX];
    unsigned match_n = argc > 1 ? (unsigned)strtoul(argv[1], NULL, 10) : 0, loud_n;

    if (argc < 2 || argc > 3 || match_n < 1) {
        fputs("usage: seed_slips MATCHES [DIRECTORY]\n", stderr);
        return 2;
    }
    of_match = arena_new(failed);
    scratch = arena_new(failed);
    kept = arena_new(failed);
    loud_n = seeded_measure(counts, match_n, of_match, scratch);
    if (loud_n)
        printf("%u of %u matches left out: something is said to them without a slip\n", loud_n,
               match_n);
    group_put("one line shows it", SEED_LINE, counts);
    group_put("lines left out, twice", SEED_LINES, counts);
    group_put("legal all the same", SEED_LEGAL, counts);
    for (unsigned k = 0; argc > 2 && k < seed_kind_n; k++)
        examples(&seed_kinds[k], argv[2], match_n);
    arena_free(kept);
    arena_free(scratch);
    arena_free(of_match);
    return fflush(stdout) == 0 ? 0 : 3;
}
