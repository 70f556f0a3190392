/* Names that differ by a letter or less, and shirts that change hands. */
#include <stdlib.h>
#include <string.h>

#include "study/across_parts.h"

/* ---- slips ---------------------------------------------------------------------- */

static bool is_letter_at(struct str s, size_t at) {
    return at < s.n && !strchr(" -'.,0123456789", s.at[at]);
}

/* From the first letter of the word that holds the byte to its last. */
static struct str word_around(struct str s, size_t at, size_t *from) {
    size_t to = at;
    *from = at;
    while (*from > 0 && is_letter_at(s, *from - 1))
        --*from;
    while (is_letter_at(s, to))
        to++;
    return str_part(s, *from, to - *from);
}

/* A letter that may be a slip: in a word of this many letters or more, and no
 * digit. With `inside` not the first letter either, which parts Anna from Hanna. */
static bool may_be_slip(struct str a, struct str b, size_t letters_least, bool inside) {
    size_t at, from, other;
    if (!str_one_slip(a, b, &at))
        return false;
    bool digit = (at < a.n && a.at[at] >= '0' && a.at[at] <= '9') ||
                 (at < b.n && b.at[at] >= '0' && b.at[at] <= '9');
    return !digit && str_chars(word_around(a, at, &from)) >= letters_least &&
           str_chars(word_around(b, at, &other)) >= letters_least && !(inside && from == at);
}

/* ---- namings --------------------------------------------------------------------- */

/* A player with one shirt in one season, where she is named first. */
struct naming {
    struct str name, folded;
    uint8_t shirt;
    const struct across_roster *roster;
    struct place place;
};

/* The rosters of one team, by season and day, and what they name. */
struct squad {
    const struct across_roster **rosters;
    size_t roster_n;
    struct naming *namings;      /* by season, the earliest first */
    size_t naming_n, naming_room;
    struct pair {
        struct str one, other;
    } *told;                     /* names that had their warning */
    size_t told_n, told_room;
    struct diags *diags;
};

static bool is_named(const struct across_roster *r, struct str name) {
    for (size_t i = 0; i < r->player_n; i++)
        if (str_eq(r->players[i].name, name))
            return true;
    return false;
}

/* Whoever stand beside each other in one squad are two people. */
static bool are_together(const struct squad *s, struct str one, struct str other) {
    for (size_t i = 0; i < s->roster_n; i++)
        if (is_named(s->rosters[i], one) && is_named(s->rosters[i], other))
            return true;
    return false;
}

static bool is_known(const struct squad *s, size_t from, const struct across_player *p) {
    for (size_t i = from; i < s->naming_n; i++)
        if (s->namings[i].shirt == p->shirt && str_eq(s->namings[i].name, p->name))
            return true;
    return false;
}

/* `from` is the first naming of this season. */
static void add_namings(struct squad *s, const struct across_roster *r, size_t from) {
    struct arena *a = s->diags->arena;
    for (size_t i = 0; i < r->player_n; i++) {
        const struct across_player *p = &r->players[i];
        if (is_known(s, from, p))
            continue;
        s->namings = arena_grow(a, s->namings, s->naming_n, &s->naming_room, sizeof *s->namings);
        s->namings[s->naming_n++] =
            (struct naming){p->name, str_folded(a, p->name), p->shirt, r, p->place};
    }
}

static struct str day_words(struct arena *a, struct date day) {
    return str_printf(a, "%04d-%02d-%02d", day.year, day.month, day.day);
}

static struct str about(struct arena *a, const struct naming *n) {
    return str_printf(a, "%.*s, %u, on %.*s", STR_ARG(n->name), n->shirt,
                      STR_ARG(day_words(a, n->roster->since)));
}

/* ---- one player, two spellings ------------------------------------------------------ */

static bool was_told(const struct squad *s, struct str one, struct str other) {
    for (size_t i = 0; i < s->told_n; i++)
        if ((str_eq(s->told[i].one, one) && str_eq(s->told[i].other, other)) ||
            (str_eq(s->told[i].one, other) && str_eq(s->told[i].other, one)))
            return true;
    return false;
}

static void tell_spelling(struct squad *s, const struct naming *first, const struct naming *later) {
    struct arena *a = s->diags->arena;
    struct diag *diag;
    if (was_told(s, first->name, later->name) || are_together(s, first->name, later->name))
        return;
    s->told = arena_grow(a, s->told, s->told_n, &s->told_room, sizeof *s->told);
    s->told[s->told_n++] = (struct pair){first->name, later->name};
    diag = diags_add(s->diags, W_SPELLING, later->place, STR_ARG(later->name),
                     STR_ARG(first->name), STR_ARG(later->roster->team));
    diag_see(diag, first->place, about(a, first));
    if (diag)
        diag->done = STR("two players are counted");
}

static bool share_shirt(const struct squad *s, const struct naming *a, const struct naming *b,
                        size_t from, size_t to) {
    for (size_t i = from; i < to; i++)
        for (size_t j = from; j < to; j++)
            if (s->namings[i].shirt == s->namings[j].shirt &&
                str_eq(s->namings[i].name, a->name) && str_eq(s->namings[j].name, b->name))
                return true;
    return false;
}

/* With one shirt a single letter is a slip; with two it may be a sister, unless it
 * lies within a longer word (our choice). */
static bool may_be_one(const struct squad *s, const struct naming *a, const struct naming *b,
                       size_t from, size_t to) {
    if (str_eq(a->name, b->name) || !str_one_slip(a->folded, b->folded, NULL))
        return false;
    return may_be_slip(a->folded, b->folded, 5, true) ||
           (may_be_slip(a->folded, b->folded, 3, false) && share_shirt(s, a, b, from, to));
}

static void judge_spellings(struct squad *s, size_t from, size_t to) {
    for (size_t i = from; i < to; i++)
        for (size_t j = from; j < i; j++)
            if (may_be_one(s, &s->namings[j], &s->namings[i], from, to))
                tell_spelling(s, &s->namings[j], &s->namings[i]);
}

static int by_folded(const void *left, const void *right) {
    const struct naming *a = left, *b = right;
    int name = str_order(a->folded, b->folded);
    return name ? name : date_order(a->roster->since, b->roster->since);
}

/* Names that are the same but for accents and case, in whatever season. */
static void judge_marks(struct squad *s) {
    struct naming *by = arena_alloc(s->diags->arena, s->naming_n + 1, sizeof *by);
    if (s->naming_n == 0)
        return;
    memcpy(by, s->namings, s->naming_n * sizeof *by);
    qsort(by, s->naming_n, sizeof *by, by_folded);
    for (size_t i = 1; i < s->naming_n; i++)
        if (str_eq(by[i].folded, by[i - 1].folded) && !str_eq(by[i].name, by[i - 1].name))
            tell_spelling(s, &by[i - 1], &by[i]);
}

/* ---- one shirt, two players ---------------------------------------------------------- */

enum { HANDED_MOST = 3 }; /* in a season; with more of them it is two teams */

struct handed {
    const struct naming *before, *now;
};

/* Who had the shirt before, in this season; NULL if nobody had, or she herself
 * under another spelling. */
static const struct naming *had_before(const struct squad *s, size_t at, size_t from) {
    const struct naming *now = &s->namings[at];
    for (size_t i = at; i > from; i--)
        if (s->namings[i - 1].shirt == now->shirt)
            return was_told(s, s->namings[i - 1].name, now->name) ? NULL : &s->namings[i - 1];
    return NULL;
}

/* Each shirt once. */
static size_t find_handed(const struct squad *s, size_t from, size_t to,
                          struct handed handed[SHIRT_MAX + 1]) {
    bool told[SHIRT_MAX + 1] = {false};
    size_t n = 0;
    for (size_t i = from; i < to; i++) {
        const struct naming *before = had_before(s, i, from);
        if (!before || told[before->shirt])
            continue;
        told[before->shirt] = true;
        handed[n++] = (struct handed){before, &s->namings[i]};
    }
    return n;
}

static void tell_shirt(struct squad *s, struct handed h) {
    struct arena *a = s->diags->arena;
    struct diag *diag = diags_add(s->diags, W_SHIRT_HANDED, h.now->place, h.now->shirt,
                                  STR_ARG(h.now->roster->team), STR_ARG(h.now->name),
                                  STR_ARG(day_words(a, h.now->roster->since)));
    diag_see(diag, h.before->place, about(a, h.before));
}

static void tell_two_teams(struct squad *s, struct handed h, size_t shirts_n) {
    struct diag *diag = diags_add(s->diags, W_TWO_SQUADS, h.now->place, shirts_n,
                                  STR_ARG(h.now->roster->team));
    diag_see(diag, h.before->place, about(s->diags->arena, h.before));
    if (diag)
        diag->likely = STR("two teams have one name here; they are counted as one");
}

static void judge_shirts(struct squad *s, size_t from, size_t to) {
    struct handed handed[SHIRT_MAX + 1];
    size_t n = find_handed(s, from, to, handed);
    if (n > HANDED_MOST)
        tell_two_teams(s, handed[0], n);
    for (size_t i = 0; i < n && n <= HANDED_MOST; i++)
        tell_shirt(s, handed[i]);
}

/* ---- by team ------------------------------------------------------------------------- */

static int by_team(const void *left, const void *right) {
    const struct across_roster *a = *(const struct across_roster *const *)left;
    const struct across_roster *b = *(const struct across_roster *const *)right;
    int team = str_order(a->team, b->team), day = date_order(a->since, b->since);
    if (team)
        return team;
    if (a->season != b->season)
        return a->season < b->season ? -1 : 1;
    return day ? day : str_order(a->file, b->file);
}

static void judge_team(const struct across_roster **rosters, size_t n, struct diags *d) {
    struct squad s = {.rosters = rosters, .roster_n = n, .diags = d};
    for (size_t i = 0; i < n;) {
        size_t from = s.naming_n;
        int season = rosters[i]->season;
        for (; i < n && rosters[i]->season == season; i++)
            add_namings(&s, rosters[i], from);
        judge_spellings(&s, from, s.naming_n);
    }
    judge_marks(&s);
    for (size_t from = 0, to = 0; from < s.naming_n; from = to) {
        while (to < s.naming_n &&
               s.namings[to].roster->season == s.namings[from].roster->season)
            to++;
        judge_shirts(&s, from, to);
    }
}

void across_judge_people(const struct across *x, struct diags *d) {
    const struct across_roster **by = arena_alloc(d->arena, x->roster_n + 1, sizeof *by);
    size_t n = 0;
    for (size_t i = 0; i < x->roster_n; i++)
        if (x->rosters[i]->player_n > 0)
            by[n++] = x->rosters[i];
    if (n > 0)
        qsort(by, n, sizeof *by, by_team);
    for (size_t from = 0, to = 0; from < n; from = to) {
        while (to < n && str_eq(by[from]->team, by[to]->team))
            to++;
        judge_team(by + from, to - from, d);
    }
}

/* ---- names of teams -------------------------------------------------------------------- */

struct team_name {
    const struct across_roster *team;
    struct str folded;
};

static int by_file(const void *left, const void *right) {
    const struct across_roster *a = ((const struct team_name *)left)->team;
    const struct across_roster *b = ((const struct team_name *)right)->team;
    int day = date_order(a->since, b->since);
    return day ? day : str_order(a->team, b->team);
}

static size_t find_teams(const struct across *x, struct team_name *names, struct arena *a) {
    size_t n = 0;
    for (size_t i = 0; i < x->roster_n; i++)
        if (x->rosters[i]->player_n == 0)
            names[n++] = (struct team_name){x->rosters[i], str_folded(a, x->rosters[i]->team)};
    if (n > 0)
        qsort(names, n, sizeof *names, by_file);
    return n;
}

/* A single letter counts only where one of the two stands in a single file: a league
 * may well have two clubs of nearly one name (our choice). */
static bool may_be_one_team(const struct team_name *a, const struct team_name *b) {
    if (str_eq(a->folded, b->folded))
        return true;
    return (a->team->file_n == 1 || b->team->file_n == 1) &&
           may_be_slip(a->folded, b->folded, 5, true);
}

/* The warning stands at the rarer of the two. */
static void tell_team(const struct across_roster *first, const struct across_roster *later,
                      struct diags *d) {
    const struct across_roster *rare = first->file_n < later->file_n ? first : later;
    const struct across_roster *other = rare == first ? later : first;
    struct diag *diag = diags_add(d, W_TEAM_SPELLING, rare->place, STR_ARG(rare->team),
                                  STR_ARG(other->team));
    diag_see(diag, other->place, STR_NONE);
    if (diag)
        diag->done = STR("two teams are counted");
}

void across_judge_teams(const struct across *x, struct diags *d) {
    struct team_name *names = arena_alloc(d->arena, x->roster_n + 1, sizeof *names);
    size_t n = find_teams(x, names, d->arena);
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j < i; j++)
            if (may_be_one_team(&names[j], &names[i]))
                tell_team(names[j].team, names[i].team, d);
}
