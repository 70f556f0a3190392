/* What must hold of any notes: of the example season and of random matches.
 * One TAP line a property; what was measured stands behind it as a comment.
 * Run from the top of the checkout. */
#include "kit/facts.h"
#include "kit/lifelike.h"
#include "kit/roughen.h"
#include "kit/slip.h"

#include <glob.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { RANDOM_MATCHES = 300, BROKEN_MATCHES = 6 };

/* How many messages one slip may cause: measured over all the places tried
 * here, not chosen. What stands above the first set or drill holds for every
 * line below it, so more can follow from a slip there. */
enum { CUT_MOST = 2, PLAY_MOST = 9, HEAD_MOST = 32 };

struct look {
    const struct checked *checked;
    struct diags diags;
};

static struct arena *arena;          /* of one look */
static struct arena *kept;           /* of the whole run */
static unsigned tests_n, failed_n;

static void no_memory(size_t bytes) {
    fprintf(stderr, "notes: no memory for %zu bytes\n", bytes);
    exit(3);
}

static void tap(bool ok, const char *name) {
    tests_n++;
    failed_n += !ok;
    printf("%sok %u - %s\n", ok ? "" : "not ", tests_n, name);
}

static void look_at(struct look *l, struct str name, struct str notes) {
    struct text t;

    arena_reset(arena);
    diags_init(&l->diags, arena);
    text_take(&t, name, notes, arena, &l->diags);
    l->checked = check_text(&t, CHECK_KEEP, arena, &l->diags);
}

static unsigned messages(const struct look *l) {
    return l->diags.errors + l->diags.warnings;
}

static void messages_show(const struct look *l, struct str name) {
    for (size_t i = 0; i < l->diags.n && i < 10; i++)
        printf("#   %.*s:%u: %.*s\n", STR_ARG(name), l->diags.at[i].place.line,
               STR_ARG(l->diags.at[i].text));
}

static struct str facts_of(const struct look *l) {
    struct buf b;

    buf_init(&b, arena);
    facts_put(&b, l->checked);
    return buf_str(&b);
}

/* ---- the notes to be tried ----------------------------------------------- */

struct notes {
    struct str name, text;
    size_t head_n;
};

static struct str file_read(const char *path) {
    struct diags d;
    struct text t;

    diags_init(&d, kept);
    if (text_read(&t, path, kept, &d) != TEXT_READ) {
        printf("Bail out! cannot read %s\n", path);
        exit(3);
    }
    return t.bytes;
}

static size_t examples(struct notes *all, size_t most) {
    glob_t g;
    size_t n = 0;

    if (glob("examples/season/2*.9m", 0, NULL, &g) != 0) {
        puts("Bail out! no examples/season: run from the top of the checkout");
        exit(3);
    }
    for (; n < g.gl_pathc && n < most; n++)
        all[n] = (struct notes){.name = str_copy(kept, str_of(g.gl_pathv[n])),
                                .text = file_read(g.gl_pathv[n])};
    globfree(&g);
    return n;
}

static struct life_style style_of(uint64_t seed) {
    return (struct life_style){.detail = (enum life_detail)(seed % 3),
                               .ours_only = seed % 5 == 4,
                               .rare = seed % 4 == 3,
                               .whole = true};
}

static struct str random_match(uint64_t seed, struct life_style style,
                               struct life_totals *totals) {
    struct life_team ours;
    struct life_totals t;
    struct buf b;

    buf_init(&b, kept);
    life_team_draw(&ours, 'H', seed);
    t = life_match(&b, &ours, style, (unsigned)(seed % 300), seed);
    if (totals)
        *totals = t;
    return buf_str(&b);
}

static struct str random_practice(uint64_t seed) {
    struct life_team ours;
    struct buf b;

    buf_init(&b, kept);
    life_team_draw(&ours, 'H', seed);
    life_practice(&b, &ours, 60, style_of(seed), (unsigned)(seed % 300), seed);
    return buf_str(&b);
}

/* ---- random notes are legal ---------------------------------------------- */

static void random_silent(void) {
    unsigned with_messages = 0;

    for (uint64_t seed = 1; seed <= RANDOM_MATCHES; seed++) {
        struct str notes = seed % 6 ? random_match(seed, style_of(seed), NULL)
                                    : random_practice(seed);
        struct look l;
        look_at(&l, STR("random"), notes);
        if (messages(&l) && with_messages++ < 3) {
            printf("# seed %" PRIu64 "\n", seed);
            messages_show(&l, STR("random"));
        }
        arena_reset(kept);
    }
    printf("# %u of %d random files have messages\n", with_messages, RANDOM_MATCHES);
    tap(with_messages == 0, "random matches and practices by the rules raise no message");
}

/* ---- the counts are those of the generator ------------------------------- */

static bool same_counts(const struct checked *c, const struct life_totals *t) {
    unsigned attempts[2] = {0}, aces[2] = {0}, errors[2] = {0}, broke[2] = {0};

    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!played_counts(p))
            continue;
        attempts[p->side]++;
        aces[p->side] += played_ace(p);
        errors[p->side] += played_error(p);
        broke[p->side] += played_broke(p);
    }
    return memcmp(attempts, t->attempts, sizeof attempts) == 0 &&
           memcmp(aces, t->aces, sizeof aces) == 0 &&
           memcmp(errors, t->errors, sizeof errors) == 0 &&
           memcmp(broke, t->broke, sizeof broke) == 0;
}

static bool same_sets(const struct checked *c, const struct life_totals *t) {
    bool same = c->set_n == t->set_n && c->sets_won[OURS] == t->sets_won[OURS] &&
                c->sets_won[THEIRS] == t->sets_won[THEIRS];

    for (unsigned i = 0; same && i < c->set_n; i++)
        same = c->sets[i].points[OURS] == t->points[i][OURS] &&
               c->sets[i].points[THEIRS] == t->points[i][THEIRS];
    return same;
}

static void random_counts(void) {
    unsigned wrong_counts = 0, wrong_sets = 0;

    for (uint64_t seed = 1; seed <= RANDOM_MATCHES; seed++) {
        struct life_totals t;
        struct str notes = random_match(seed, style_of(seed), &t);
        struct look l;
        look_at(&l, STR("random"), notes);
        if (!same_counts(l.checked, &t) && wrong_counts++ < 3)
            printf("# other counts with seed %" PRIu64 "\n", seed);
        if (!same_sets(l.checked, &t) && wrong_sets++ < 3)
            printf("# other sets with seed %" PRIu64 "\n", seed);
        arena_reset(kept);
    }
    tap(wrong_counts == 0, "attempts, aces, errors and broken passes are those of the generator");
    tap(wrong_sets == 0, "sets and their points are those of the generator");
}

/* Every attempt is an ace, an error or in play; each rally with a known winner
 * gives its one point. */
static bool adds_up(const struct checked *c) {
    unsigned attempts = 0, parts = 0;

    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        enum outcome o = (enum outcome)p->said.outcome;
        bool in_play = o >= OUTCOME_IN3 && o <= OUTCOME_OVER && !p->said.overlap;
        if (!played_counts(p))
            continue;
        attempts++;
        parts += (unsigned)played_ace(p) + (unsigned)played_error(p) + (unsigned)in_play;
    }
    return attempts == parts;
}

static void outcomes_add_up(const struct notes *all, size_t n) {
    unsigned wrong = 0;

    for (size_t i = 0; i < n; i++) {
        struct look l;
        look_at(&l, all[i].name, all[i].text);
        wrong += !adds_up(l.checked);
    }
    tap(wrong == 0, "every attempt is an ace, an error or in play, and only one of them");
}

/* ---- layout and spelling change no fact ---------------------------------- */

static bool same_facts(const struct notes *one, unsigned kinds, uint64_t seed) {
    struct dice d = {seed};
    struct str other = roughen(one->text, kinds, 'H', &d, kept), facts;
    struct look l;

    look_at(&l, one->name, one->text);
    facts = str_copy(kept, facts_of(&l));
    look_at(&l, one->name, other);
    if (str_eq(facts, facts_of(&l)) && messages(&l) == 0)
        return true;
    printf("# differs: %.*s with seed %" PRIu64 "\n", STR_ARG(one->name), seed);
    messages_show(&l, one->name);
    return false;
}

static void layout(const struct notes *all, size_t n) {
    static const char *const names[ROUGH_KINDS] = {
        "CR LF line ends change no fact", "a byte order mark changes no fact",
        "a last line that does not end changes no fact", "blanks at line ends change no fact",
        "TABs, indents and doubled blanks change no fact", "blank lines change no fact",
        "capitals in serve lines change no fact",
        "fields in another order change no fact", "accents apart (NFD) change no fact",
        "\"score\" and our own letter change no fact"
    };

    for (unsigned k = 0; k <= ROUGH_KINDS; k++) {
        unsigned wrong = 0;
        for (size_t i = 0; i < n && wrong < 3; i++)
            wrong += !same_facts(&all[i], k < ROUGH_KINDS ? 1u << k : ROUGH_ALL, i + 1);
        tap(wrong == 0, k < ROUGH_KINDS ? names[k] : "all of these at once change no fact");
    }
}

/* ---- broken notes -------------------------------------------------------- */

/* The most messages that one kind of damage caused, and where: in the head of
 * the notes, and in what was played. */
struct worst {
    struct {
        unsigned messages, tries, noticed, above_three;
        struct str name;
        size_t at;
    } part[2];
};

enum { HEAD, PLAY };

/* The byte at which the first set or drill begins. */
static size_t head_length(struct str s) {
    for (size_t i = 0; i < s.n; i++) {
        struct str rest = str_part(s, i, s.n);
        if (s.at[i] == '\n' && (str_starts(rest, STR("\nset ")) || str_starts(rest, STR("\ndrill "))))
            return i + 1;
    }
    return s.n;
}

static void try_broken(struct worst *w, const struct notes *one, struct str broken, size_t at) {
    unsigned part = at < one->head_n ? HEAD : PLAY;
    struct look l;

    look_at(&l, one->name, broken);
    w->part[part].tries++;
    w->part[part].noticed += messages(&l) > 0;
    w->part[part].above_three += messages(&l) > 3;
    if (messages(&l) > w->part[part].messages) {
        w->part[part].messages = messages(&l);
        w->part[part].name = one->name;
        w->part[part].at = at;
    }
}

static void worst_tap(const struct worst *w, const char *damage) {
    static const char *const parts[] = {"in the head", "in play"};
    char name[100];

    for (unsigned i = HEAD; i <= PLAY; i++) {
        printf("# %s %s: %u tried, %u noticed, %u with more than 3 messages; most: %u, %.*s byte %zu\n",
               damage, parts[i], w->part[i].tries, w->part[i].noticed, w->part[i].above_three,
               w->part[i].messages, STR_ARG(w->part[i].name), w->part[i].at);
        snprintf(name, sizeof name, "%s %s raises no flood of messages", damage, parts[i]);
        tap(w->part[i].messages <= (i == HEAD ? HEAD_MOST : PLAY_MOST), name);
    }
}

static void cut_anywhere(const struct notes *all, size_t n) {
    struct worst w = {0};
    unsigned most;

    for (size_t i = 0; i < n; i++)
        for (size_t at = 0; at < all[i].text.n; at++)
            try_broken(&w, &all[i], str_part(all[i].text, 0, at), at);
    most = w.part[HEAD].messages > w.part[PLAY].messages ? w.part[HEAD].messages
                                                         : w.part[PLAY].messages;
    printf("# most: %u messages\n", most);
    tap(most <= CUT_MOST, "notes cut at any byte raise a few messages at most");
}

/* The text with the bytes from `at` to `to` left out and `more` in their place. */
static struct str spliced(struct str s, size_t at, size_t to, struct str more, struct buf *b) {
    b->n = 0;
    buf_add(b, str_part(s, 0, at));
    buf_add(b, more);
    buf_add(b, str_part(s, to, s.n));
    return buf_str(b);
}

static void drop_any_line(const struct notes *all, size_t n, struct buf *b) {
    struct worst w = {0};

    for (size_t i = 0; i < n; i++) {
        struct str s = all[i].text;
        for (size_t at = 0; at < s.n;) {
            const char *newline = memchr(s.at + at, '\n', s.n - at);
            size_t to = newline ? (size_t)(newline - s.at) + 1 : s.n;
            try_broken(&w, &all[i], spliced(s, at, to, STR_NONE, b), at);
            at = to;
        }
    }
    worst_tap(&w, "a line left out");
}

/* A key lost, doubled, or the one beside it hit, at every third byte. */
static void key_slips(const struct notes *all, size_t n, struct buf *b) {
    static const char *const names[] = {"a key lost", "a key doubled", "another key"};
    static const char keys[] = "1234567890 adeilnost+-.#";
    struct dice d = {7};

    for (unsigned kind = 0; kind < 3; kind++) {
        struct worst w = {0};
        for (size_t i = 0; i < n; i++) {
            struct str s = all[i].text;
            for (size_t at = 0; at < s.n; at += 3) {
                struct str more = str_part(s, at, kind == 1 ? 1 : 0);
                if (kind == 2)
                    more = (struct str){&keys[dice_below(&d, sizeof keys - 1)], 1};
                try_broken(&w, &all[i], spliced(s, at, kind == 1 ? at : at + 1, more, b), at);
            }
        }
        worst_tap(&w, names[kind]);
    }
}

/* Rule 7 of the diagnostics: k slips give k messages. */
static void slips_counted(void) {
    unsigned slips = 0, found = 0, wrong = 0;

    for (uint64_t seed = 1; seed <= RANDOM_MATCHES; seed++) {
        struct life_style style = {.detail = (enum life_detail)(seed % 3), .whole = true};
        struct str notes = random_match(seed, style, NULL);
        struct dice d = {seed};
        struct look l;
        unsigned n;
        notes = slip_notes(notes, 12, &d, kept, &n);
        look_at(&l, STR("slips"), notes);
        slips += n;
        found += messages(&l);
        if (messages(&l) != n && wrong++ < 3) {
            printf("# seed %" PRIu64 ": %u slips, %u messages\n", seed, n, messages(&l));
            messages_show(&l, STR("slips"));
        }
        arena_reset(kept);
    }
    printf("# %u slips, %u messages; %u of %d files differ\n", slips, found, wrong,
           RANDOM_MATCHES);
    tap(wrong == 0, "so many slips, so many messages");
}

int main(void) {
    struct notes all[32];
    struct buf scratch;
    struct arena *fixed;
    size_t n;

    arena = arena_new(no_memory);
    kept = arena_new(no_memory);
    fixed = arena_new(no_memory);
    random_silent();
    random_counts();
    slips_counted();
    n = examples(all, 16);
    for (uint64_t seed = 1; seed <= BROKEN_MATCHES; seed++)
        all[n++] = (struct notes){.name = str_printf(kept, "random%u", (unsigned)seed),
                                  .text = seed == 6 ? random_practice(seed)
                                                    : random_match(seed, style_of(seed), NULL)};
    for (size_t i = 0; i < n; i++)
        all[i].head_n = head_length(all[i].text);
    buf_init(&scratch, fixed);
    outcomes_add_up(all, n);
    layout(all, n);
    cut_anywhere(all, n);
    drop_any_line(all, n, &scratch);
    key_slips(all, n, &scratch);
    printf("1..%u\n", tests_n);
    arena_free(fixed);
    arena_free(kept);
    arena_free(arena);
    return failed_n > 0;
}
