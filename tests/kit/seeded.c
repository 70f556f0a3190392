#include "kit/seeded.h"

#include "check.h"
#include "kit/lifelike.h"

static void read_notes(struct str notes, struct arena *scratch, struct diags *d) {
    struct text t;

    diags_init(d, scratch);
    text_take(&t, STR("seeded"), notes, scratch, d);
    (void)check_text(&t, 0, scratch, d);
}

unsigned seeded_errors(struct str notes, struct arena *scratch, unsigned *messages) {
    struct diags d;

    read_notes(notes, scratch, &d);
    *messages = d.errors + d.warnings;
    return d.errors;
}

static const struct diag *first_error(const struct diags *d) {
    for (size_t i = 0; i < d->n; i++)
        if (diag_info(d->at[i].id)->severity == SEVERITY_ERROR)
            return &d->at[i];
    return NULL;
}

static enum seeded where(const struct seed_notes *s, const struct seed_slip *slip,
                         const struct diag *diag) {
    if (seed_stands(s, slip, diag->place.line))
        return SEEDED_RIGHT;
    for (unsigned i = 0; i < diag->see_n; i++)
        if (seed_stands(s, slip, diag->sees[i].place.line))
            return SEEDED_RIGHT;
    return diag->place.line && diag->place.line == seed_score_below(s, slip) ? SEEDED_SCORE
                                                                              : SEEDED_ELSEWHERE;
}

enum seeded seeded_look(const struct seed_notes *s, const struct seed_slip *slip,
                        struct arena *scratch, unsigned *messages) {
    struct diags d;

    read_notes(seed_spoil(s, slip, scratch), scratch, &d);
    *messages = d.errors + d.warnings;
    if (d.errors != 1)
        return d.errors ? SEEDED_SEVERAL : SEEDED_SILENT;
    return where(s, slip, first_error(&d));
}

bool seeded_silent(const struct seed_notes *s, struct arena *scratch) {
    static const struct seed_slip none = {.from = 0, .to = 0};
    unsigned messages;

    arena_reset(scratch);
    (void)seeded_errors(seed_spoil(s, &none, scratch), scratch, &messages);
    return messages == 0;
}

struct str seeded_match(unsigned number, struct arena *a) {
    struct life_style style = {.detail = (enum life_detail)(number % 3),
                               .ours_only = number % 5 == 4,
                               .rare = number % 4 == 3,
                               .whole = true};
    struct life_team ours;
    struct buf b;

    buf_init(&b, a);
    life_team_draw(&ours, 'H', number);
    life_match(&b, &ours, style, number % 300, number);
    return buf_str(&b);
}

unsigned seeded_measure(struct seeded_count counts[SEED_KINDS_MAX], unsigned match_n,
                        struct arena *of_match, struct arena *scratch) {
    unsigned loud_n = 0;

    for (unsigned k = 0; k < seed_kind_n; k++)
        counts[k] = (struct seeded_count){0};
    for (unsigned number = 1; number <= match_n; number++) {
        struct dice d = {number};
        struct seed_notes s;

        arena_reset(of_match);
        seed_cut(&s, seeded_match(number, of_match), of_match);
        if (!seeded_silent(&s, scratch)) {
            loud_n++;
            continue;
        }
        for (unsigned k = 0; k < seed_kind_n; k++) {
            struct seeded_count *c = &counts[k];
            struct seed_slip slip;
            unsigned messages;

            arena_reset(scratch);
            if (!seed_draw(&s, &seed_kinds[k], &d, scratch, &slip))
                continue;
            c->tries++;
            c->n[seeded_look(&s, &slip, scratch, &messages)]++;
            c->most = messages > c->most ? messages : c->most;
            c->above_three += messages > 3;
        }
    }
    return loud_n;
}

/* ---- as few lines as show it --------------------------------------------- */

/* Without `n` lines from `at`; false if the slip stands there. */
static bool without(const struct seed_notes *s, const struct seed_slip *slip, unsigned at,
                    unsigned n, struct arena *a, struct seed_notes *out,
                    struct seed_slip *out_slip) {
    if (at + n > slip->from && at < slip->to + !slip->by_n)
        return false;
    *out = *s;
    *out_slip = *slip;
    out->n = 0;
    out->lines = arena_alloc(a, s->n, sizeof *out->lines);
    for (unsigned i = 0; i < s->n; i++)
        if (i < at || i >= at + n)
            out->lines[out->n++] = s->lines[i];
    if (at < slip->from) {
        out_slip->from -= n;
        out_slip->to -= n;
    }
    return true;
}

static bool same(const struct seed_notes *s, const struct seed_slip *slip, enum seeded as,
                 struct arena *scratch) {
    unsigned messages;

    if (!seeded_silent(s, scratch))
        return false;
    return seeded_look(s, slip, scratch, &messages) == as;
}

void seeded_shrink(const struct seed_notes *s, const struct seed_slip *slip, enum seeded as,
                   struct arena *a, struct arena *scratch, struct seed_notes *least,
                   struct seed_slip *least_slip) {
    *least = *s;
    *least_slip = *slip;
    for (unsigned n = s->n / 2; n > 0; n -= (n + 3) / 4)
        for (unsigned at = 0; at + n <= least->n;) {
            struct seed_notes fewer;
            struct seed_slip moved;

            if (without(least, least_slip, at, n, a, &fewer, &moved) &&
                same(&fewer, &moved, as, scratch)) {
                *least = fewer;
                *least_slip = moved;
            } else {
                at++;
            }
        }
}

void seeded_add(struct seeded_count *sum, const struct seeded_count *more) {
    sum->tries += more->tries;
    for (unsigned i = 0; i < SEEDED_N; i++)
        sum->n[i] += more->n[i];
    sum->above_three += more->above_three;
    sum->most = more->most > sum->most ? more->most : sum->most;
}
