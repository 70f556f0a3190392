/* Gathers days, teams and players of many files. */
#include <stdlib.h>
#include <string.h>

#include "study/across_parts.h"

enum { JULY = 7 };

struct across *across_new(struct arena *a) {
    struct across *x = arena_alloc(a, 1, sizeof *x);
    x->arena = a;
    return x;
}

/* ---- rosters ----------------------------------------------------------------- */

static bool is_same_roster(const void *rosters, uint32_t ix, const void *key) {
    const struct across_roster *a = ((struct across_roster *const *)rosters)[ix], *b = key;
    if (a->season != b->season || a->player_n != b->player_n || !str_eq(a->team, b->team))
        return false;
    for (size_t i = 0; i < a->player_n; i++)
        if (a->players[i].shirt != b->players[i].shirt ||
            !str_eq(a->players[i].name, b->players[i].name))
            return false;
    return true;
}

/* NULL if it is new. */
static struct across_roster *find(const struct across *x, const struct across_roster *r) {
    uint32_t at = slots_find(&x->slots, r->hash, is_same_roster, x->rosters, r);
    return at == SLOTS_NONE ? NULL : x->rosters[at];
}

static void keep(struct across *x, struct across_roster *r) {
    slots_add(&x->slots, r->hash, (uint32_t)x->roster_n, x->arena);
    x->rosters = arena_grow(x->arena, x->rosters, x->roster_n, &x->roster_room,
                            sizeof *x->rosters);
    x->rosters[x->roster_n++] = r;
}

static struct place copied(struct arena *a, struct place p) {
    p.file = str_copy(a, p.file);
    p.text = str_copy(a, p.text);
    return p;
}

static struct across_roster *copy_of(struct arena *a, const struct across_roster *r) {
    struct across_roster *own = arena_alloc(a, 1, sizeof *own);
    *own = *r;
    own->team = str_copy(a, r->team);
    own->file = str_copy(a, r->file);
    own->place = copied(a, r->place);
    own->players = arena_alloc(a, r->player_n + 1, sizeof *own->players);
    for (size_t i = 0; i < r->player_n; i++)
        own->players[i] = (struct across_player){str_copy(a, r->players[i].name),
                                                 r->players[i].shirt,
                                                 copied(a, r->players[i].place)};
    return own;
}

static bool is_earlier(const struct across_roster *a, const struct across_roster *b) {
    int day = date_order(a->since, b->since);
    return day < 0 || (day == 0 && str_order(a->file, b->file) < 0);
}

/* The earliest file with these players is the one whose lines are shown. */
static const struct across_roster *add_roster(struct across *x, const struct across_roster *r) {
    struct across_roster *known = find(x, r);
    size_t file_n = r->file_n;
    if (!known) {
        known = copy_of(x->arena, r);
        keep(x, known);
        return known;
    }
    file_n += known->file_n;
    if (is_earlier(r, known))
        *known = *copy_of(x->arena, r);
    known->file_n = file_n;
    return known;
}

static uint64_t hash_of(const struct across_roster *r) {
    uint64_t hash = slots_hash_str((uint64_t)r->season, r->team);
    for (size_t i = 0; i < r->player_n; i++)
        hash = slots_hash_str(hash + r->players[i].shirt, r->players[i].name);
    return hash;
}

/* Players without a name are known by their shirt alone: nothing can be wrong. */
static void add_players(struct across *x, struct across_roster r, int season,
                        const struct team *t) {
    struct across_player players[SHIRT_MAX + 1];
    r.players = players;
    r.season = season;
    for (size_t i = 0; i < t->player_n; i++) {
        const struct player *p = &t->players[i];
        if (p->name.n > 0)
            players[r.player_n++] = (struct across_player){p->name, p->shirt, p->place};
    }
    if (r.player_n == 0)
        return;
    r.hash = hash_of(&r);
    add_roster(x, &r);
}

/* A team without a name may be any. */
static const struct across_roster *add_team(struct across *x, const struct across_file *f,
                                            int season, const struct team *t) {
    struct across_roster r = {.team = t->name, .since = f->date, .file = str_of(f->path),
                              .place = t->place, .file_n = 1};
    if (t->name.n == 0)
        return NULL;
    add_players(x, r, season, t);
    r.hash = hash_of(&r);
    return add_roster(x, &r);
}

/* ---- files -------------------------------------------------------------------- */

static void fill(struct across *x, struct across_file *f, const struct text *t,
                 const struct match *m) {
    int season = m->date.year - (m->date.month < JULY);
    f->dated = true;
    f->practice = m->practice;
    f->timed = m->timed;
    f->minute = (uint16_t)m->minute;
    f->date = m->date;
    f->line_text = str_c(x->arena, m->day.text);
    f->line = m->day.line;
    f->at = (uint16_t)m->day.at;
    f->n = (uint16_t)m->day.n;
    f->digest = m->practice ? slots_hash_str(0, t->bytes) : 0;
    struct across_folder folder = across_folder(f);
    f->in_season = folder.name.n > 0;
    for (unsigned side = 0; side < m->team_n; side++)
        f->teams[side] = add_team(x, f, f->in_season ? folder.year : season, &m->teams[side]);
}

struct place across_day(const struct across_file *f) {
    return (struct place){str_of(f->path), str_of(f->line_text), f->line, f->at, f->n};
}

static struct across_file *next_file(struct across *x) {
    x->files = arena_grow(x->arena, x->files, x->file_n, &x->file_room, sizeof *x->files);
    return &x->files[x->file_n++];
}

void across_add(struct across *x, const struct text *t, const struct checked *c,
                const struct diags *d) {
    const struct match *m = c->match;
    struct across_file *f = next_file(x);
    *f = (struct across_file){.path = str_c(x->arena, t->name),
                              .told = d->errors + d->warnings > 0};
    if (m->day.line && m->date.year && !d->errors)
        fill(x, f, t, m);
}

void across_merge(struct across *x, const struct across *more) {
    for (size_t i = 0; i < more->roster_n; i++)
        add_roster(x, more->rosters[i]);
    for (size_t i = 0; i < more->file_n; i++) {
        struct across_file *f = next_file(x);
        *f = more->files[i];
        for (unsigned side = 0; side < SIDE_N; side++)
            if (f->teams[side])
                f->teams[side] = find(x, f->teams[side]);
    }
}

/* ---- judging ------------------------------------------------------------------ */

static int by_path(const void *left, const void *right) {
    const struct across_file *a = left, *b = right;
    return strcmp(a->path, b->path);
}

static int by_place(const void *left, const void *right) {
    const struct place *a = &((const struct diag *)left)->place;
    const struct place *b = &((const struct diag *)right)->place;
    int file = str_order(a->file, b->file);
    if (file)
        return file;
    if (a->line != b->line)
        return a->line < b->line ? -1 : 1;
    return ((const struct diag *)left)->order < ((const struct diag *)right)->order ? -1 : 1;
}

static bool was_told(const struct across *x, struct str path, struct arena *a) {
    const struct across_file wanted = {.path = str_c(a, path)}, *f;
    f = bsearch(&wanted, x->files, x->file_n, sizeof *f, by_path);
    return f && f->told;
}

/* In one order, and how many files are new among them. */
static size_t settle(const struct across *x, struct diags *d) {
    size_t fresh_n = 0;
    qsort(x->files, x->file_n, sizeof *x->files, by_path);
    for (size_t i = 0; i < d->n; i++)
        d->at[i].order = (unsigned)i;
    qsort(d->at, d->n, sizeof *d->at, by_place);
    for (size_t i = 0; i < d->n; i++) {
        bool again = i > 0 && str_eq(d->at[i].place.file, d->at[i - 1].place.file);
        d->at[i].order = (unsigned)i;
        fresh_n += !again && !was_told(x, d->at[i].place.file, d->arena);
    }
    return fresh_n;
}

size_t across_judge(struct across *x, struct diags *d) {
    across_judge_days(x, d);
    across_judge_twice(x, d);
    across_judge_teams(x, d);
    across_judge_people(x, d);
    return d->n > 0 ? settle(x, d) : 0;
}
