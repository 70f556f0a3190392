/* What must hold in every match, whatever was played: the invariants that
 * follow from the rule book (F25: FIVB Official Volleyball Rules 2025-2028),
 * over random matches that a generator with rules of its own has written. TAP. */
#include "check.h"
#include "kit/lifelike.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>

enum { MATCHES = 500 };

struct look {
    struct str notes;
    const struct checked *checked;
    uint64_t seed;
};

static struct arena *arena;
static unsigned tests, failed;

static void no_memory(size_t wanted_bytes) {
    (void)wanted_bytes;
    abort();
}

static struct look look_at(uint64_t seed) {
    struct life_team ours;
    struct life_style style = {.detail = (enum life_detail)(seed % 3), .whole = true};
    struct buf b;
    struct text t;
    struct diags d;

    buf_init(&b, arena);
    life_team_draw(&ours, 'H', seed);
    life_match(&b, &ours, style, (unsigned)(seed % 300), seed);
    diags_init(&d, arena);
    text_take(&t, STR("random"), buf_str(&b), arena, &d);
    return (struct look){buf_str(&b), check_text(&t, CHECK_KEEP, arena, &d), seed};
}

/* Lines of the notes that begin with the word. */
static unsigned lines_of(struct str notes, const char *word) {
    struct str w = str_of(word);
    unsigned n = 0;

    for (size_t i = 0; i < notes.n; i++)
        if ((i == 0 || notes.at[i - 1] == '\n') && str_starts(str_part(notes, i, notes.n), w))
            n++;
    return n;
}

static bool same_set(const struct played *a, const struct played *b) {
    return a->set == b->set;
}

/* The next serve of the same set that is an attempt; NULL at the set's end. */
static const struct played *after(const struct checked *c, size_t i) {
    for (size_t j = i + 1; j < c->played_n && same_set(&c->played[i], &c->played[j]); j++)
        if (played_counts(&c->played[j]))
            return &c->played[j];
    return NULL;
}

/* F25 6.2, 6.3.2: the winner has 25 (15) at least and leads by two; by exactly
 * two if the set went on beyond that. */
static bool final_scores(const struct look *l) {
    for (unsigned i = 0; i < l->checked->set_n; i++) {
        const struct set_result *s = &l->checked->sets[i];
        unsigned goal = i == 4 ? 15 : 25, a = s->points[OURS], b = s->points[THEIRS];
        unsigned most = a > b ? a : b, lead = a > b ? a - b : b - a;
        if (!s->ended || most < goal || lead < 2 || (most > goal && lead != 2))
            return false;
    }
    return true;
}

/* F25 6.1.3: each point has one cause, a serve or a penalty. */
static bool points_have_causes(const struct look *l) {
    unsigned points = 0, attempts = 0;

    for (unsigned i = 0; i < l->checked->set_n; i++)
        points += l->checked->sets[i].points[OURS] + l->checked->sets[i].points[THEIRS];
    for (size_t i = 0; i < l->checked->played_n; i++)
        attempts += played_counts(&l->checked->played[i]);
    return points == attempts + lines_of(l->notes, "point ");
}

/* F25 6.1.3: who won the last point serves next, unless a penalty came between. */
static bool winner_serves(const struct look *l) {
    const struct checked *c = l->checked;

    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i], *next = after(c, i);
        unsigned gained = 0;
        if (!played_counts(p) || !next)
            continue;
        for (unsigned s = 0; s < SIDE_N; s++)
            gained += (unsigned)(next->before[s] - p->before[s]);
        bool stays = p->won == RALLY_WON;
        if (gained == 1 && (next->side == p->side) != stays)
            return false;
    }
    return true;
}

/* F25 12.2.2, 7.6.2: the turns of a team follow its order, 1 to 6 and round;
 * it moves on with each side-out and never by a point on serve. */
static bool turns_follow_the_order(const struct look *l) {
    const struct checked *c = l->checked;
    unsigned last[SIDE_N] = {0, 0};

    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        bool new_set = i == 0 || !same_set(p, &c->played[i - 1]);
        if (new_set)
            last[OURS] = last[THEIRS] = 0;
        if (!played_counts(p))
            continue;            /* a replay is none of the turn's attempts */
        if (last[p->side] && p->turn_serve > 1 && p->rotation != last[p->side])
            return false;
        if (last[p->side] && p->turn_serve == 1 && lines_of(l->notes, "point ") == 0 &&
            p->rotation != last[p->side] % 6 + 1)
            return false;
        last[p->side] = p->rotation;
    }
    return true;
}

/* F25 12.2.1: a place in the order is one player's, or her substitute's. */
static bool first_servers(const struct look *l) {
    const struct checked *c = l->checked;

    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        const struct set_result *s = &c->sets[p->set - 1];
        if (i != s->from || lines_of(l->notes, "point "))
            continue;
        if (p->side != s->first || p->rotation != 1)
            return false;
    }
    return true;
}

/* Statistics S1 to S5: an attempt is an ace, an error or neither, never both. */
static bool outcomes_exclude(const struct look *l) {
    for (size_t i = 0; i < l->checked->played_n; i++) {
        const struct played *p = &l->checked->played[i];
        if (played_ace(p) && played_error(p))
            return false;
        if (played_counts(p) && played_ace(p) && p->won != RALLY_WON)
            return false;
        if (played_counts(p) && played_error(p) && p->won != RALLY_LOST)
            return false;
    }
    return true;
}

/* F25 6.3.1: three sets win, and the match ends with the third. */
static bool match_ends(const struct look *l) {
    const struct checked *c = l->checked;
    unsigned most = c->sets_won[OURS] > c->sets_won[THEIRS] ? c->sets_won[OURS]
                                                           : c->sets_won[THEIRS];
    return most == 3 && c->sets_won[OURS] + c->sets_won[THEIRS] == c->set_n;
}

/* F25 8.3, 1.3.2: what fell into the court lies within its outer edges. */
static bool in_is_inside(const struct look *l) {
    for (size_t i = 0; i < l->checked->played_n; i++) {
        const struct played *p = &l->checked->played[i];
        struct spot s = p->said.landing;
        bool inside = s.x_cm >= 0 && s.x_cm <= 900 && s.d_cm >= 0 && s.d_cm <= 900;
        if (s.kind == PLACE_XD && played_place(p) == PLACE_FLOOR && inside == played_error(p))
            return false;
    }
    return true;
}

/* The score before each serve grows by one point a rally, from 0-0. */
static bool scores_grow(const struct look *l) {
    const struct checked *c = l->checked;

    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i], *next = after(c, i);
        bool won = p->won == RALLY_WON;
        enum side winner = (p->side == OURS) == won ? OURS : THEIRS;
        if (!played_counts(p) || !next || lines_of(l->notes, "point ") ||
            lines_of(l->notes, "cancel "))
            continue;
        if (next->before[winner] != p->before[winner] + 1)
            return false;
    }
    return true;
}

static void hold(bool (*holds)(const struct look *l), const char *what) {
    uint64_t broken = 0;

    for (uint64_t seed = 1; seed <= MATCHES && !broken; seed++) {
        arena_reset(arena);
        struct look l = look_at(seed);
        if (!holds(&l))
            broken = seed;
    }
    tests++;
    failed += broken != 0;
    if (broken)
        printf("# broken with seed %" PRIu64 "\n", broken);
    printf("%sok %u - %s\n", broken ? "not " : "", tests, what);
}

int main(void) {
    arena = arena_new(no_memory);
    hold(final_scores, "sets end at 25 or 15 with two ahead, and not later");
    hold(points_have_causes, "each point is a rally or a penalty");
    hold(winner_serves, "who won the point serves next");
    hold(turns_follow_the_order, "turns follow the service order");
    hold(first_servers, "a set begins with the first server of its first team");
    hold(outcomes_exclude, "aces are won, errors are lost, none is both");
    hold(match_ends, "three sets win the match, and it ends");
    hold(in_is_inside, "in lies inside, out lies outside");
    hold(scores_grow, "each rally adds one point to its winner");
    printf("1..%u\n", tests);
    arena_free(arena);
    return failed != 0;
}
