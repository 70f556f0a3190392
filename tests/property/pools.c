/* Counts of parts add up to those of the whole, whatever the parts and their
 * order; and they are what the writer of the notes counted, and what the tally
 * of each file counts. One TAP line a property. */
#include "cmd/tally.h"
#include "kit/lifelike.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { FILES = 60, ROUNDS = 40, PARTS_MOST = 7 };

static struct arena *kept;
static struct text texts[FILES];
static const struct checked *files[FILES];
static struct life_totals written[FILES];
static unsigned tests_n, failed_n;

static void no_memory(size_t bytes) {
    fprintf(stderr, "pools: no memory for %zu bytes\n", bytes);
    exit(3);
}

static void tap(bool ok, const char *name) {
    tests_n++;
    failed_n += !ok;
    printf("%sok %u - %s\n", ok ? "" : "not ", tests_n, name);
}

/* Two players of the same squad have given each other their shirts. */
static void swap_shirts(struct life_team *t) {
    unsigned shirt = t->players[0].shirt;

    t->players[0].shirt = t->players[1].shirt;
    t->players[1].shirt = shirt;
}

/* Some matches are of one season of one club, some of others; every fifth file
 * is a practice, and in every fourth two shirts have changed hands. */
static void draw_files(void) {
    for (unsigned i = 0; i < FILES; i++) {
        struct life_style style = {.detail = (enum life_detail)(i % 3), .rare = i % 4 == 3,
                                   .ours_only = i % 7 == 6, .whole = true};
        struct life_team ours;
        struct diags d;
        struct buf b;

        buf_init(&b, kept);
        diags_init(&d, kept);
        life_team_draw(&ours, 'H', i % 3);
        if (i % 4 == 1)
            swap_shirts(&ours);
        if (i % 5 == 4)
            life_practice(&b, &ours, 200, style, i, i + 1);
        else
            written[i] = life_match(&b, &ours, style, i, i + 1);
        text_take(&texts[i], STR("random"), buf_str(&b), kept, &d);
        files[i] = check_text(&texts[i], CHECK_KEEP, kept, &d);
        if (d.errors) {
            printf("Bail out! random match %u has errors\n", i);
            exit(3);
        }
    }
}

/* The pool of all files. */
static struct pool *whole_of(enum pool_keeps keeps, struct arena *a) {
    struct pool *p = pool_new(keeps, a);

    for (unsigned i = 0; i < FILES; i++)
        pool_add(p, files[i]);
    return p;
}

/* Takes the serves of one file and holds them against those that were kept. */
struct taking {
    struct pool *pool;
    const struct checked *whole;
    size_t n;
    bool differs;
};

static void take(void *taking, const struct checked *c, const struct played *serves, size_t n) {
    struct taking *t = taking;

    t->differs = t->differs || t->n + n > t->whole->played_n ||
                 memcmp(serves, t->whole->played + t->n, n * sizeof *serves) != 0;
    t->n += n;
    pool_take(t->pool, c, serves, n);
}

static struct str parts_of(struct pool *p, struct arena *a) {
    pool_settle(p);
    pool_sort(p);
    pool_join(p);
    return tally_parts(p, a);
}

static void shuffle(struct dice *d, unsigned *order, unsigned n) {
    for (unsigned i = n; i > 1; i--) {
        unsigned j = dice_below(d, i), kept_ix = order[i - 1];

        order[i - 1] = order[j];
        order[j] = kept_ix;
    }
}

/* The files in any order, dealt into parts, the parts merged in any order. */
static struct pool *dealt(struct dice *d, enum pool_keeps keeps, struct arena *a) {
    struct pool *part[PARTS_MOST], *sum = pool_new(keeps, a);
    unsigned order[FILES], parts[PARTS_MOST], n = 1 + dice_below(d, PARTS_MOST);

    for (unsigned i = 0; i < FILES; i++)
        order[i] = i;
    for (unsigned i = 0; i < n; i++) {
        parts[i] = i;
        part[i] = pool_new(keeps, a);
    }
    shuffle(d, order, FILES);
    shuffle(d, parts, n);
    for (unsigned i = 0; i < FILES; i++)
        pool_add(part[dice_below(d, n)], files[order[i]]);
    for (unsigned i = 0; i < n; i++)
        pool_merge(sum, part[parts[i]]);
    return sum;
}

static void any_order(struct str whole) {
    struct dice d = {7};
    unsigned wrong = 0;

    for (unsigned round = 0; round < ROUNDS; round++) {
        struct arena *a = arena_new(no_memory);

        wrong += !str_eq(parts_of(dealt(&d, POOL_WAYS, a), a), whole);
        arena_free(a);
    }
    tap(wrong == 0, "parts in any order make the pool of the whole");
}

/* Through files, as --partial and --merge go, and joined parts in between. */
static void through_files(struct str whole) {
    struct dice d = {11};
    unsigned wrong = 0;
    char name[] = "/tmp/9m-pools-XXXXXX";
    int fd = mkstemp(name);

    for (unsigned round = 0; round < 5 && fd >= 0; round++) {
        struct arena *a = arena_new(no_memory);
        struct pool *sum = pool_new(POOL_WAYS, a), *half[2] = {pool_new(POOL_WAYS, a), pool_new(POOL_WAYS, a)};

        for (unsigned i = 0; i < FILES; i++)
            pool_add(half[dice_below(&d, 2)], files[i]);
        for (unsigned i = 0; i < 2; i++) {
            struct str text = parts_of(half[i], a);
            FILE *to = fopen(name, "wb");

            if (!to || fwrite(text.at, 1, text.n, to) != text.n || fclose(to) != 0)
                wrong++;
            wrong += !tally_parts_read(sum, name, i);
        }
        wrong += !str_eq(parts_of(sum, a), whole);
        arena_free(a);
    }
    if (fd >= 0) {
        close(fd);
        unlink(name);
    }
    tap(fd >= 0 && wrong == 0, "counts written and read again are the same counts");
}

static void as_written(void) {
    unsigned wrong = 0;

    for (unsigned i = 0; i < FILES; i++) {
        struct arena *a = arena_new(no_memory);
        struct pool *p = pool_new(POOL_SERVERS, a);

        pool_add(p, files[i]);
        pool_settle(p);
        for (size_t t = 0; t < p->team_n && !files[i]->match->practice; t++) {
            struct counts c = pool_counts(p, &p->teams[t], POOL_MATCH);
            unsigned side = p->teams[t].ours ? 0 : 1;

            wrong += c.serves != written[i].attempts[side] ||
                     c.by[OUTCOME_ACE] != written[i].aces[side] ||
                     c.missed != written[i].errors[side] || c.broke != written[i].broke[side];
        }
        arena_free(a);
    }
    tap(wrong == 0, "a match's counts are those of its writer");
}

static struct counts row_of(const struct cut_table *t, int32_t key) {
    for (size_t i = 0; i < t->n; i++)
        if (t->rows[i].key == key)
            return t->rows[i].counts;
    return (struct counts){0};
}

static bool same(struct counts a, struct counts b) {
    return memcmp(&a, &b, sizeof a) == 0;
}

/* Rows that differ from the tally of the file, which was counted otherwise. */
static unsigned unlike(const struct pool *p, const struct tally *t, struct arena *a) {
    const struct pool_team *team = &p->teams[0];
    enum pool_kind kind = t->checked->match->practice ? POOL_PRACTICE : POOL_MATCH;
    struct cut_table zone = pool_table(p, team, CUT_ZONE, kind, a);
    struct cut_table start = pool_table(p, team, CUT_START, kind, a);
    struct cut_table situation = pool_table(p, team, CUT_SITUATION, kind, a);
    struct cut_table server = pool_table(p, team, CUT_SERVER, kind, a);
    struct cut_table set = pool_table(p, team, CUT_SET, kind, a);
    unsigned wrong = !same(pool_counts(p, team, kind), t->side[OURS]);

    for (int32_t i = 0; i < ZONE_N; i++)
        wrong += !same(row_of(&zone, i), t->in_zone[i]);
    for (int32_t i = THIRD_NONE; i <= THIRD_LEFT; i++)
        wrong += !same(row_of(&start, i), t->from_third[i]);
    for (int32_t i = 0; i < SITUATION_N; i++)
        wrong += !same(row_of(&situation, i), t->situation[i]);
    for (int32_t i = 0; i < SETS_MAX && kind == POOL_MATCH; i++)
        wrong += !same(row_of(&set, i + 1), t->set[i][OURS]);
    wrong += server.n != t->server_n[OURS];
    for (size_t i = 0; i < server.n && i < t->server_n[OURS]; i++)
        wrong += p->people[server.rows[i].key].shirt != t->servers[OURS][i].shirt ||
                 !same(server.rows[i].counts, t->servers[OURS][i].counts);
    return wrong;
}

static void as_tallied(void) {
    unsigned wrong = 0;

    for (unsigned i = 0; i < FILES; i++) {
        struct arena *a = arena_new(no_memory);
        struct pool *p = pool_new(POOL_TABLES, a);

        pool_add(p, files[i]);
        pool_settle(p);
        wrong += p->team_n && unlike(p, tally_of(files[i], a), a);
        arena_free(a);
    }
    tap(wrong == 0, "a file's tables are those of its tally");
}

/* Cuts that every serve has one row of add up to all serves; the tables of
 * serves in court to those that were no error. */
static void rows_add_up(void) {
    static const enum cut whole[] = {CUT_SERVER, CUT_START, CUT_AIM, CUT_SET, CUT_ROTATION,
                                     CUT_TYPE};
    struct arena *a = arena_new(no_memory);
    struct pool *p = whole_of(POOL_TABLES, a);
    unsigned wrong = 0;

    pool_settle(p);
    for (size_t t = 0; t < p->team_n; t++) {
        struct counts all = pool_counts(p, &p->teams[t], POOL_BOTH), sum;

        for (size_t c = 0; c < CUT_N; c++) {
            struct cut_table table = pool_table(p, &p->teams[t], (enum cut)c, POOL_BOTH, a);

            memset(&sum, 0, sizeof sum);
            for (size_t i = 0; i < table.n; i++)
                tally_merge(&sum, &table.rows[i].counts);
            for (size_t i = 0; i < sizeof whole / sizeof *whole; i++)
                wrong += whole[i] == c && !same(sum, all);
            wrong += c == CUT_ERROR && sum.serves != all.missed;
            wrong += (c == CUT_ZONE || c == CUT_RECEIVER) && sum.serves != all.serves - all.missed;
            wrong += (c == CUT_ZONE || c == CUT_RECEIVER) && sum.broke != all.broke;
        }
    }
    arena_free(a);
    tap(wrong == 0, "the rows of each table add up");
}

/* Every row of every table of every team, and who it is of. */
static struct str tables_of(struct pool *p, struct arena *a) {
    struct buf b;

    buf_init(&b, a);
    pool_settle(p);
    for (size_t t = 0; t < p->team_n; t++)
        for (unsigned c = 0; c < CUT_N; c++)
            for (unsigned kind = POOL_MATCH; kind <= POOL_BOTH; kind++) {
                struct cut_table table =
                    pool_table(p, &p->teams[t], (enum cut)c, (enum pool_kind)kind, a);
                for (size_t i = 0; i < table.n; i++) {
                    buf_printf(&b, "%zu %u %u %d ", t, c, kind, table.rows[i].key);
                    buf_add(&b, (struct str){(const char *)&table.rows[i].counts,
                                             sizeof table.rows[i].counts});
                }
            }
    return buf_str(&b);
}

/* As counted at once, in parts, and from the ways that parts are written as. */
static void tables_of_parts(void) {
    struct dice d = {13};
    struct arena *a = arena_new(no_memory);
    struct str whole = tables_of(whole_of(POOL_TABLES, a), a);
    struct pool *ways = whole_of(POOL_WAYS, a), *from_ways = pool_new(POOL_TABLES, a);
    unsigned wrong = 0;

    for (unsigned round = 0; round < ROUNDS; round++) {
        struct arena *b = arena_new(no_memory);

        wrong += !str_eq(tables_of(dealt(&d, POOL_TABLES, b), b), whole);
        arena_free(b);
    }
    tap(whole.n > 0 && wrong == 0, "tables of parts in any order are those of the whole");
    pool_settle(ways);
    pool_sort(ways);
    pool_join(ways);
    for (size_t i = 0; i < ways->person_n; i++)
        pool_person(from_ways, ways->people[i]);
    for (size_t i = 0; i < ways->pooled_n; i++)
        pool_put(from_ways, ways->pooled[i]);
    tap(str_eq(tables_of(from_ways, a), whole), "tables of ways are those of their serves");
    arena_free(a);
}

static struct cut_table servers_of(const struct pool *p, struct str team, struct arena *a) {
    for (size_t i = 0; i < p->team_n; i++)
        if (str_eq(p->teams[i].name, team))
            return pool_table(p, &p->teams[i], CUT_SERVER, POOL_BOTH, a);
    return (struct cut_table){0};
}

static void servers_only(void) {
    struct arena *a = arena_new(no_memory);
    struct pool *p = whole_of(POOL_WAYS, a), *small = pool_new(POOL_SERVERS, a), *half = pool_new(POOL_SERVERS, a);
    unsigned wrong = 0;

    for (unsigned i = 0; i < FILES; i++)
        pool_add(i % 2 ? small : half, files[i]);
    pool_merge(small, half);
    pool_settle(p);
    pool_settle(small);
    for (size_t i = 0; i < p->team_n; i++) {
        struct cut_table all = servers_of(p, p->teams[i].name, a);
        struct cut_table few = servers_of(small, p->teams[i].name, a);

        wrong += all.n != few.n;
        for (size_t r = 0; r < all.n && r < few.n; r++)
            wrong += !same(all.rows[r].counts, few.rows[r].counts) ||
                     !str_eq(p->people[all.rows[r].key].name, small->people[few.rows[r].key].name);
    }
    wrong += p->serves != small->serves || small->chunks;
    arena_free(a);
    tap(wrong == 0, "without its ways a pool has the same servers");
}

static void not_too_many(void) {
    struct arena *a = arena_new(no_memory);
    struct pool *p = pool_new(POOL_WAYS, a), *more = pool_new(POOL_WAYS, a);
    int32_t who = pool_person(p, (struct person){.team = STR("T"), .shirt = 1});
    struct pooled way = {.server = who, .receiver = PERSON_NONE, .n = POOL_SERVES_MOST,
                         .outcome = OUTCOME_ACE, .set = 1};
    bool good = pool_put(p, way);

    pool_person(more, p->people[who]);
    way.n = 1;
    good = good && !pool_put(p, way) && pool_put(more, way) && !pool_merge(p, more);
    good = good && p->serves == POOL_SERVES_MOST && p->of_person[who][POOL_MATCH].serves == p->serves;
    arena_free(a);
    tap(good, "more serves than a count can hold are refused");
}

static void handed_on(struct str whole) {
    struct arena *a = arena_new(no_memory);
    struct pool *p = pool_new(POOL_WAYS, a);
    unsigned wrong = 0;

    for (unsigned i = 0; i < FILES; i++) {
        struct taking t = {.pool = p, .whole = files[i]};
        struct check_taker taker = {take, &t};
        const struct checked *c;
        struct diags d;

        diags_init(&d, a);
        c = check_text_to(&taker, &texts[i], NULL, a, &d);
        pool_end(p, c);
        wrong += t.differs || t.n != files[i]->played_n || c->played_n != t.n || c->played;
    }
    tap(wrong == 0, "serves handed on are those that are kept");
    tap(str_eq(parts_of(p, a), whole), "a file counted while it is read counts the same");
    arena_free(a);
}

int main(void) {
    struct arena *a;
    struct str whole;

    kept = arena_new(no_memory);
    draw_files();
    a = arena_new(no_memory);
    whole = parts_of(whole_of(POOL_WAYS, a), a);
    any_order(whole);
    handed_on(whole);
    through_files(whole);
    as_written();
    as_tallied();
    rows_add_up();
    tables_of_parts();
    servers_only();
    not_too_many();
    arena_free(a);
    arena_free(kept);
    printf("1..%u\n", tests_n);
    return failed_n != 0;
}
