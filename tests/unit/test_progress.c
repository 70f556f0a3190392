/* Practice beside matches, over small invented notes. The counts were done by
 * hand. */
#include "progress.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "kit/lifelike.h"

static struct arena *arena;

static void out_of_memory(size_t wanted) {
    (void)wanted;
    abort();
}

static int begin(void **state) {
    (void)state;
    arena = arena_new(out_of_memory);
    return 0;
}

static int finish(void **state) {
    (void)state;
    arena_free(arena);
    return 0;
}

/* Adds notes whose memory is gone afterwards; how many serves of ours they
 * count. */
static unsigned add_notes(struct progress *p, struct str notes) {
    struct arena *of_file = arena_new(out_of_memory);
    struct diags d;
    struct text t;
    diags_init(&d, of_file);
    text_take(&t, STR("test"), notes, of_file, &d);
    const struct checked *c = check_text(&t, CHECK_KEEP, of_file, &d);
    assert_int_equal(d.errors, 0);
    progress_add(p, c);
    unsigned serves = tally_of(c, of_file)->side[OURS].serves;
    arena_free(of_file);
    return serves;
}

static void add(struct progress *p, const char *date, const char *head, const char *rest) {
    add_notes(p, str_printf(arena, "notation 1\n%s %s\nteam H \"Herons\" women\n%s", head, date,
                            rest));
}

static void practice(struct progress *p, const char *date, const char *rest) {
    add(p, date, "practice", rest);
}

static void match(struct progress *p, const char *date, const char *rest) {
    add(p, date, "match", rest);
}

/* The person with this shirt; there is one. */
static size_t shirt(const struct progress *p, unsigned number) {
    size_t i = 0;
    while (i < progress_people(p) && progress_person(p, i)->shirt != number)
        i++;
    assert_true(i < progress_people(p));
    return i;
}

static struct str said(struct rate r) {
    return str_printf(arena, "%u/%u", r.x, r.n);
}

#define rate_is(rate, expected) assert_string_equal(said(rate).at, expected)

#define split_is(split, before_is, after_is) \
    (rate_is((split).before, before_is), rate_is((split).after, after_is))

/* The series as text: a day a line. */
static const char *series(const struct progress *p, unsigned number, enum progress_kind kind) {
    struct progress_series s = progress_series(p, shirt(p, number), kind, arena);
    struct buf b;
    buf_init(&b, arena);
    for (size_t i = 0; i < s.n; i++) {
        const struct progress_day *d = &s.days[i];
        bool goes_on = i > 0 && progress_same_series(d, &s.days[i - 1]);
        buf_printf(&b, "%s%02d-%02d ring %d, %.*s: ", goes_on ? "  " : "", d->date.month,
                   d->date.day, d->ring_cm, STR_ARG(d->drill));
        if (kind == PROGRESS_SERVES || kind == PROGRESS_MATCHES)
            buf_printf(&b, "%u serves, %u missed\n", d->counts.serves, d->counts.missed);
        else
            buf_printf(&b, "%u/%u\n", d->hits.x, d->hits.n);
    }
    buf_char(&b, '\0');
    return buf_str(&b).at;
}

static struct progress_focus focus(const struct progress *p, unsigned number) {
    struct progress_focus f;
    assert_true(progress_focus(p, shirt(p, number), &f));
    return f;
}

/* ---- series ---------------------------------------------------------------- */

static void tosses(void **state) {
    (void)state;
    struct progress *p = progress_new(arena);
    practice(p, "2026-10-13", "ring 1.0\ntoss 7 7/10\nring 0.8\ntoss 7 3/10\n");
    practice(p, "2026-10-06", "drill \"Ring\"\nring 1.0\ntoss 7 5/10 td3\ntoss 4 7/10\ntoss 7 6/10\n");
    practice(p, "2026-10-20", "toss 7 4/8\n");
    assert_string_equal(series(p, 7, PROGRESS_TOSSES), "10-20 ring 0, : 4/8\n"
                                                       "10-13 ring 80, : 3/10\n"
                                                       "10-06 ring 100, : 11/20\n"
                                                       "  10-13 ring 100, : 7/10\n");
    assert_string_equal(series(p, 4, PROGRESS_TOSSES), "10-06 ring 100, : 7/10\n");
    assert_string_equal(series(p, 4, PROGRESS_TRIES), "");
}

static void tries_and_jumps(void **state) {
    (void)state;
    struct progress *p = progress_new(arena);
    practice(p, "2026-10-06", "drill \"Height gate\"\ntries 7 6/10\ntries 7 8/10\n"
                              "jumps 7 20\n");
    practice(p, "2026-10-13", "drill \"Blind\"\ntries 7 3/5\ndrill \"Height gate\"\n"
                              "tries 7 9/10\njumps 7 12\njumps 7 5\n");
    assert_string_equal(series(p, 7, PROGRESS_TRIES), "10-13 ring 0, Blind: 3/5\n"
                                                      "10-06 ring 0, Height gate: 14/20\n"
                                                      "  10-13 ring 0, Height gate: 9/10\n");
    assert_string_equal(series(p, 7, PROGRESS_JUMPS), "10-06 ring 0, : 0/20\n"
                                                      "  10-13 ring 0, : 0/17\n");
}

/* Serves of a practice by drill, and those of matches. */
static void serves(void **state) {
    (void)state;
    struct progress *p = progress_new(arena);
    practice(p, "2026-10-06", "7 in\ndrill \"Last metre\" ad6\n7 in x3\n7 net\n7 replay\n"
                              "drill \"Last metre\" ad5\n7 long x2\n");
    match(p, "2026-10-03", "team G \"Foxes\"\nset 1 H\n7 ace\n7 net\n");
    assert_string_equal(series(p, 7, PROGRESS_SERVES),
                        "10-06 ring 0, : 1 serves, 0 missed\n"
                        "10-06 ring 0, Last metre: 6 serves, 3 missed\n");
    assert_string_equal(series(p, 7, PROGRESS_MATCHES), "10-03 ring 0, : 2 serves, 1 missed\n");
}

/* The same shirt under another name is another person; a squad file alone
 * brings nobody. */
static void people(void **state) {
    (void)state;
    struct progress *p = progress_new(arena);
    practice(p, "2026-10-06", "player H7 \"Mira Havelin\"\nplayer H9 \"Zofia Brązel\"\ntoss 7 6/10\n");
    practice(p, "2026-10-13", "player H7 \"Ada Winter\"\ntoss 7 1/10\n");
    assert_int_equal(progress_people(p), 2);
    assert_string_equal(series(p, 7, PROGRESS_TOSSES), "10-06 ring 0, : 6/10\n");
    assert_true(str_is(progress_person(p, 0)->name, "Mira Havelin"));
    assert_true(str_is(progress_person(p, 0)->team, "Herons"));
    struct progress_focus f;
    assert_false(progress_focus(p, 0, &f));
}

enum { DAYS = 8 };

/* A match or a practice of each day, lifelike. */
static void some_season(struct str notes[DAYS], const struct life_team *team, uint64_t seed) {
    for (unsigned day = 0; day < DAYS; day++) {
        struct life_style style = {.detail = LIFE_RICH, .whole = true};
        struct buf b;
        buf_init(&b, arena);
        if (day % 2)
            life_match(&b, team, style, day, seed * DAYS + day);
        else
            life_practice(&b, team, 150, style, day, seed * DAYS + day);
        notes[day] = buf_str(&b);
    }
}

static void same_focus(const struct progress *a, size_t in_a, const struct progress *b,
                       size_t in_b) {
    struct progress_focus f, g;
    bool has = progress_focus(a, in_a, &f);
    assert_int_equal(has, progress_focus(b, in_b, &g));
    if (!has)
        return;
    split_is(f.drilled, said(g.drilled.before).at, said(g.drilled.after).at);
    split_is(f.in_matches, said(g.in_matches.before).at, said(g.in_matches.after).at);
    assert_int_equal(f.days, g.days);
}

/* How many serves are in all series of one person. */
static unsigned serves_of(const struct progress *p, size_t person) {
    unsigned n = 0;
    for (int kind = PROGRESS_TOSSES; kind <= PROGRESS_JUMPS; kind++) {
        struct progress_series s = progress_series(p, person, (enum progress_kind)kind, arena);
        for (size_t i = 0; i < s.n; i++)
            n += s.days[i].counts.serves;
    }
    return n;
}

/* Files forwards and backwards give the same; each serve is in one series. */
static void any_order(void **state) {
    (void)state;
    for (uint64_t seed = 1; seed <= 5; seed++) {
        struct str notes[DAYS];
        struct life_team team;
        struct progress *forth = progress_new(arena), *back = progress_new(arena);
        unsigned serves = 0, found = 0;
        life_team_draw(&team, 'H', seed);
        some_season(notes, &team, seed);
        for (unsigned i = 0; i < DAYS; i++) {
            serves += add_notes(forth, notes[i]);
            add_notes(back, notes[DAYS - 1 - i]);
        }
        assert_int_equal(progress_people(forth), progress_people(back));
        for (size_t i = 0; i < progress_people(forth); i++) {
            unsigned number = progress_person(forth, i)->shirt;
            for (int k = PROGRESS_TOSSES; k <= PROGRESS_JUMPS; k++) {
                enum progress_kind kind = (enum progress_kind)k;
                assert_string_equal(series(forth, number, kind), series(back, number, kind));
            }
            same_focus(forth, i, back, shirt(back, number));
            found += serves_of(forth, i);
        }
        assert_int_equal(found, serves);
        assert_true(serves > 300);
    }
}

/* ---- the focus ------------------------------------------------------------- */

/* Before: a match on 3 October. The focus is written on the 6th. */
static struct progress *mira(void) {
    struct progress *p = progress_new(arena);
    match(p, "2026-10-10", "team G \"Foxes\"\nset 1 H\nobserve toss\n7 in1 won\n7 td net\n");
    practice(p, "2026-10-13", "focus 7 td \"Ring toss\" 14/20\ndrill \"ring toss\"\n"
                              "ring 1.0\ntoss 7 8/10\ntoss 7 7/10\nobserve toss\n7 in x4\n");
    practice(p, "2026-10-06", "focus 7 td \"Ring toss\" 14/20\ndrill \"Ring toss\"\n"
                              "ring 1.0\ntoss 7 5/10\ntoss 7 6/10\ndrill \"Gate\"\ntries 7 9/9\n"
                              "observe toss\n7 td net\n7 in\n");
    match(p, "2026-10-03", "team G \"Foxes\"\nset 1 H\nobserve toss\n7 td ace\n7 td in2 won\n"
                           "7 ace\nobserve none\n7 ace\nobserve toss\n7 safe td in2 won\n7 td net\n");
    practice(p, "2026-09-29", "drill \"Ring toss\"\nring 1.2\ntoss 7 4/10\n7 in\n");
    return p;
}

static void mark(void **state) {
    (void)state;
    struct progress_focus f = focus(mira(), 7);
    assert_int_equal(f.treats, W_td);
    assert_true(str_is(f.drill, "Ring toss"));
    assert_int_equal(f.since.month * 100 + f.since.day, 1006);
    assert_int_equal(f.days, 7);
    rate_is(f.goal, "14/20");
    split_is(f.drilled, "4/10", "26/40");
    assert_true(f.mixed);
    assert_true(f.met);
    assert_int_equal(f.met_on.day, 13);
    /* The safe serve and the one that nobody looked at stay out. */
    split_is(f.in_matches, "3/4", "1/2");
    split_is(f.in_practices, "0/0", "1/6");
    split_is(f.missed, "1/6", "1/2");
    split_is(f.broke, "3/6", "1/2");
}

/* An error kind is counted of all serves. */
static void error_kind(void **state) {
    (void)state;
    struct progress *p = progress_new(arena);
    match(p, "2026-10-03", "team G \"Foxes\"\nset 1 H\n9 ace\n9 ace\n9 net\n");
    practice(p, "2026-10-06", "focus 9 net \"High ball\"\n9 safe in x9\n9 net\n");
    struct progress_focus f = focus(p, 9);
    assert_int_equal(f.treats, W_net);
    split_is(f.in_matches, "1/3", "0/0");
    split_is(f.in_practices, "0/0", "1/10");
    split_is(f.drilled, "0/0", "0/0");
    rate_is(f.goal, "0/0");
    assert_false(f.met);
}

/* A focus ends with the next one, and begins anew if it comes back. */
static void changed(void **state) {
    (void)state;
    struct progress *p = progress_new(arena);
    practice(p, "2026-10-20", "focus 7 td \"Ring\" 8/10\ndrill \"Ring\"\ntoss 7 8/10\n");
    practice(p, "2026-10-06", "focus 7 td \"Ring\" 6/10\ndrill \"Ring\"\ntoss 7 9/10\n");
    practice(p, "2026-10-27", "focus 7 td \"Ring\" 9/10\ndrill \"Ring\"\ntoss 7 8/10\n");
    practice(p, "2026-10-13", "focus 7 hw \"Snap\" 8/10\n");
    struct progress_focus f = focus(p, 7);
    assert_int_equal(f.since.day, 20);
    rate_is(f.goal, "9/10");
    split_is(f.drilled, "9/10", "16/20");
    assert_false(f.mixed);
    assert_false(f.met);
}

/* Of one day the later hour. */
static void two_of_a_day(void **state) {
    (void)state;
    struct progress *p = progress_new(arena);
    practice(p, "2026-10-06 19:00", "focus 7 hw \"Snap\"\n");
    practice(p, "2026-10-06 09:30", "focus 7 td \"Ring\"\n");
    assert_int_equal(focus(p, 7).treats, W_hw);
}

/* Enough on both sides, and a month (our choice): here across a new year. */
static void compares(void **state) {
    (void)state;
    struct progress *p = progress_new(arena);
    practice(p, "2026-12-05", "drill \"Ring\"\ntoss 7 20/40\n");
    practice(p, "2026-12-12", "focus 7 td \"Ring\"\ndrill \"Ring\"\ntoss 7 30/40\n7 in\n");
    practice(p, "2027-01-10", "drill \"Ring\"\ntoss 7 8/10\n");
    struct progress_focus f = focus(p, 7);
    assert_int_equal(f.days, 29);
    assert_false(progress_compares(&f, f.drilled));
    practice(p, "2027-01-11", "jumps 7 10\n");
    f = focus(p, 7);
    assert_int_equal(f.days, 30);
    assert_true(progress_compares(&f, f.drilled));
    assert_false(progress_compares(&f, (struct progress_split){{20, 40}, {10, 29}}));
    assert_false(progress_compares(&f, (struct progress_split){{20, 29}, {10, 30}}));
    assert_true(progress_compares(&f, (struct progress_split){{20, 30}, {10, 30}}));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tosses),     cmocka_unit_test(tries_and_jumps), cmocka_unit_test(serves),
        cmocka_unit_test(people),     cmocka_unit_test(any_order),       cmocka_unit_test(mark),
        cmocka_unit_test(error_kind), cmocka_unit_test(changed),         cmocka_unit_test(two_of_a_day),
        cmocka_unit_test(compares),
    };
    return cmocka_run_group_tests(tests, begin, finish);
}
