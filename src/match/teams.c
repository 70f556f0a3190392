/* Teams and people as the head declares them. */
#include "match/reading.h"

#include <stdio.h>

static struct team *add_team(struct match *m, char letter) {
    if (m->team_n == SIDE_N)
        return NULL;
    struct team *t = &m->teams[m->team_n++];
    t->letter = letter;
    return t;
}

/* The same team may stand in the match and in its squad file, under one name. */
void declare_team(struct reading *r, const struct stmt *st) {
    struct match *m = &r->match;
    enum side side = match_side(m, st->as.team.letter);
    struct team *t = side == SIDE_NONE ? add_team(m, st->as.team.letter) : &m->teams[side];
    struct place p = reading_word(r, st, 1);
    if (!t) {
        diags_add(r->diags, E_THIRD_TEAM, p);
        return;
    }
    bool again = t->place.line && (str_eq(t->place.file, p.file) ||
                                   !str_eq(t->name, st->as.team.name));
    if (again) {
        struct diag *d = diags_add(r->diags, E_TEAM_TWICE, p, st->as.team.letter);
        diag_see(d, t->place, STR("the first"));
        return;
    }
    t->place = p;
    t->name = st->as.team.name;
    if (st->as.team.net)
        t->net = st->as.team.net;
}

static void tell_no_team(struct reading *r, const struct stmt *st, char letter) {
    const struct match *m = &r->match;
    struct diag *d = diags_add(r->diags, E_NO_TEAM, reading_word(r, st, 1), letter);
    if (m->team_n)
        diag_see(d, m->teams[m->team_n - 1].place, STR("the last team above"));
    if (d && m->team_n < SIDE_N)
        d->likely = str_printf(r->arena, "a line is missing above, such as: team %c \"Name\"",
                               letter);
}

/* A squad file by itself may leave its team's name to the match; elsewhere the
 * team must be known. */
static struct team *team_of(struct reading *r, const struct stmt *st, char letter) {
    enum side side = match_side(&r->match, letter);
    if (side != SIDE_NONE)
        return &r->match.teams[side];
    struct team *t = r->match.occasion ? NULL : add_team(&r->match, letter);
    if (t)
        return t;
    if (!r->match.header_unread)
        tell_no_team(r, st, letter);
    r->match.header_unread = r->match.unsure = true;
    return NULL;
}

static struct player *add_player(struct reading *r, struct team *t, unsigned shirt) {
    t->players = arena_grow(r->arena, t->players, t->player_n, &t->player_room, sizeof *t->players);
    struct player *p = &t->players[t->player_n++];
    *p = (struct player){.shirt = (uint8_t)shirt};
    t->by_shirt[shirt] = (uint8_t)t->player_n;
    return p;
}

void declare_player(struct reading *r, const struct stmt *st) {
    struct team *t = team_of(r, st, st->as.player.letter);
    if (!t)
        return;
    struct place where = reading_word(r, st, 1);
    const struct player *known = team_find(t, st->as.player.shirt);
    if (known && known->place.line) {
        struct diag *d = diags_add(r->diags, E_SHIRT_TWICE, where, t->letter, st->as.player.shirt);
        diag_see(d, known->place, known->name);
        return;
    }
    struct player *p = known ? &t->players[known - t->players] /* the libero line stood above */
                             : add_player(r, t, st->as.player.shirt);
    p->name = st->as.player.name;
    p->routine = st->as.player.routine;
    p->lefthanded = st->as.player.lefthanded;
    p->place = where;
    t->declared = true;
}

/* Shirts that only a libero or a focus line names are none of the squad. */
static bool declared(const struct team *t, unsigned shirt) {
    const struct player *p = team_find(t, shirt);
    return p && p->place.line;
}

/* The team's shirts in one line. */
static struct str shirts_of(const struct team *t, struct arena *a) {
    struct buf b;
    buf_init(&b, a);
    buf_printf(&b, "%c has", t->letter);
    for (unsigned shirt = 0; shirt <= SHIRT_MAX; shirt++)
        if (declared(t, shirt))
            buf_printf(&b, " %u", shirt);
    return buf_str(&b);
}

/* Shirts that one slip of the keyboard away: two at most are worth naming. */
static struct str nearest(const struct team *t, unsigned wrong, struct arena *a) {
    char typed[4], other[4];
    unsigned found[2], n = 0;
    snprintf(typed, sizeof typed, "%u", wrong % 100);
    for (unsigned shirt = 0; shirt <= SHIRT_MAX; shirt++) {
        snprintf(other, sizeof other, "%u", shirt);
        if (!declared(t, shirt) || str_slips(str_of(typed), str_of(other), 1) > 1)
            continue;
        if (n < 2)
            found[n] = shirt;
        n++;
    }
    if (n == 1)
        return str_printf(a, "%u", found[0]);
    if (n == 2)
        return str_printf(a, "%u or %u", found[0], found[1]);
    return STR_NONE;
}

struct diag *team_lacks(const struct team *t, unsigned shirt, struct place where,
                        struct arena *a, struct diags *d) {
    struct diag *diag = diags_add(d, E_NO_SHIRT, where, STR_ARG(t->name), shirt);
    if (!diag)
        return NULL;
    diag_see(diag, t->players[0].place, shirts_of(t, a));
    diag->likely = nearest(t, shirt, a);
    return diag;
}

enum { LIBEROS_MAX = 2 };        /* FIVB 19.1.1 */

static unsigned liberos(const struct team *t) {
    unsigned n = 0;
    for (size_t i = 0; i < t->player_n; i++)
        n += t->players[i].libero;
    return n;
}

static void make_libero(struct player *p, struct place where) {
    p->libero = true;
    p->libero_place = where;
}

static void tell_no_libero(struct reading *r, const struct team *t, unsigned shirt,
                           struct place where) {
    struct diag *d = team_lacks(t, shirt, where, r->arena, r->diags);
    if (d)
        d->hint = STR("the libero's player line stands above the libero line");
}

void declare_libero(struct reading *r, const struct stmt *st) {
    struct team *t = team_of(r, st, st->as.libero.letter);
    for (unsigned i = 0; t && i < st->as.libero.n; i++) {
        unsigned shirt = st->as.libero.shirts[i];
        const struct player *known = team_find(t, shirt);
        if ((known && known->libero) || liberos(t) == LIBEROS_MAX) {
            diags_add(r->diags, E_LIBERO_MANY, reading_word(r, st, 2 + i), LIBEROS_MAX);
            return;
        }
        struct place where = reading_word(r, st, 2 + i);
        if (!known && t->declared && !r->match.header_unread)
            tell_no_libero(r, t, shirt, where);
        make_libero(known ? &t->players[known - t->players] : add_player(r, t, shirt), where);
    }
}

void declare_focus(struct reading *r, const struct stmt *st) {
    struct match *m = &r->match;
    struct place where = reading_word(r, st, 1);
    enum side side = match_side(m, st->as.focus.letter);
    if (side == SIDE_NONE) {
        if (!m->header_unread)
            diags_add(r->diags, E_NO_TEAM, where, st->as.focus.letter);
        return;
    }
    for (size_t i = 0; i < m->focus_n; i++)
        if (m->focuses[i].shirt == st->as.focus.shirt && m->focuses[i].side == side) {
            struct diag *d = diags_add(r->diags, E_FOCUS_TWICE, where, st->as.focus.shirt);
            diag_see(d, m->focuses[i].place, STR("the first"));
            return;
        }
    m->focuses = arena_grow(r->arena, m->focuses, m->focus_n, &m->focus_room, sizeof *m->focuses);
    m->focuses[m->focus_n++] = (struct focus){.side = (uint8_t)side,
                                              .shirt = st->as.focus.shirt,
                                              .treats = st->as.focus.treats,
                                              .drill = st->as.focus.drill,
                                              .hits = st->as.focus.hits,
                                              .tries = st->as.focus.tries,
                                              .place = where};
}

void declare_end(struct reading *r) {
    const struct match *m = &r->match;
    for (size_t i = 0; i < m->focus_n && !m->header_unread; i++) {
        const struct focus *f = &m->focuses[i];
        struct team *t = &r->match.teams[f->side];
        if (f->side >= m->team_n || !t->declared || team_find(t, f->shirt))
            continue;
        (void)team_lacks(t, f->shirt, f->place, r->arena, r->diags);
        (void)add_player(r, t, f->shirt); /* told once: the play may name her, too */
    }
}
