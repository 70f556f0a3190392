/* Which serve of one record is which of the other: an alignment of each set
 * (S. B. Needleman, C. D. Wunsch, J. Mol. Biol. 48 (1970) 443-453) that looks
 * at the order of play, the server and the score, and at nothing else: what is
 * compared afterwards must not have helped to pair. */
#include <string.h>

#include "agree.h"

/* How good a pair is; what cannot be a pair is 0. */
enum {
    NO_PAIR = 0,
    OTHER_SHIRT = 1, SHIRT_UNSEEN = 2, SAME_SHIRT = 4,
    SAME_SCORE = 3,
    RALLIES_APART_MAX = 3        /* by the score: a scorer's slip, not another serve */
};

enum step { STEP_PAIR, STEP_A, STEP_B };

/* The two records while they are paired. */
struct pairing {
    const struct checked *a, *b;
    enum side b_side[SIDE_N];    /* the side in b of a side in a */
    struct arena *arena;
    size_t *mate;                /* of each serve of a: that of b plus 1, 0 none */
};

static char letter_of(const struct checked *c, unsigned side) {
    return side < c->match->team_n ? c->match->teams[side].letter : 0;
}

static bool same_team(const struct checked *a, unsigned i, const struct checked *b, unsigned j) {
    if (i >= a->match->team_n || j >= b->match->team_n)
        return false;
    return letter_of(a, i) == letter_of(b, j) ||
           (a->match->teams[i].name.n && str_eq(a->match->teams[i].name, b->match->teams[j].name));
}

/* The teams of one match, whichever of them each scorer calls ours. */
static bool teams_match(struct pairing *p) {
    const struct checked *a = p->a, *b = p->b;
    for (unsigned turned = 0; turned < 2; turned++) {
        p->b_side[OURS] = turned ? THEIRS : OURS;
        p->b_side[THEIRS] = turned ? OURS : THEIRS;
        bool fits = true;
        for (unsigned i = 0; i < a->match->team_n; i++)
            fits &= p->b_side[i] >= b->match->team_n || same_team(a, i, b, p->b_side[i]);
        if (fits && same_team(a, OURS, b, p->b_side[OURS]))
            return true;
    }
    return false;
}

static int pair_worth(const struct pairing *p, const struct played *a, const struct played *b) {
    bool unseen = a->server == SHIRT_NONE || b->server == SHIRT_NONE;
    int shirt = unseen ? SHIRT_UNSEEN : a->server == b->server ? SAME_SHIRT : OTHER_SHIRT;
    if (p->b_side[a->side] != (enum side)b->side)
        return NO_PAIR;
    if (!a->score_known || !b->score_known)
        return shirt == OTHER_SHIRT ? NO_PAIR : shirt;
    unsigned b_ours = b->before[p->b_side[OURS]], b_theirs = b->before[p->b_side[THEIRS]];
    if (a->before[OURS] == b_ours && a->before[THEIRS] == b_theirs)
        return shirt + SAME_SCORE;
    int apart = (int)(a->before[OURS] + a->before[THEIRS]) - (int)(b_ours + b_theirs);
    bool near = apart >= -RALLIES_APART_MAX && apart <= RALLIES_APART_MAX;
    return near && shirt != OTHER_SHIRT ? shirt : NO_PAIR;
}

/* Fills the best worth up to each pair of serves, one row at a time, and
 * remembers the step that led there. */
static unsigned char *steps_of(const struct pairing *p, const struct set_result *sa,
                               const struct set_result *sb) {
    size_t n = sa->to - sa->from, m = sb->to - sb->from, wide = m + 1;
    unsigned char *steps = arena_alloc(p->arena, (n + 1) * wide, 1);
    int *above = arena_alloc(p->arena, wide, sizeof *above);
    int *row = arena_alloc(p->arena, wide, sizeof *row);
    memset(steps, STEP_B, wide);
    for (size_t i = 1; i <= n; i++) {
        row[0] = 0;
        steps[i * wide] = STEP_A;
        for (size_t j = 1; j <= m; j++) {
            int worth = pair_worth(p, &p->a->played[sa->from + i - 1],
                                   &p->b->played[sb->from + j - 1]);
            bool skip_a = above[j] > row[j - 1];
            row[j] = skip_a ? above[j] : row[j - 1];
            steps[i * wide + j] = skip_a ? STEP_A : STEP_B;
            if (worth != NO_PAIR && above[j - 1] + worth >= row[j]) {
                row[j] = above[j - 1] + worth;
                steps[i * wide + j] = STEP_PAIR;
            }
        }
        int *swap = above;
        above = row;
        row = swap;
    }
    return steps;
}

static void pair_set(struct pairing *p, const struct set_result *sa, const struct set_result *sb) {
    size_t i = sa->to - sa->from, j = sb->to - sb->from, wide = j + 1;
    const unsigned char *steps = steps_of(p, sa, sb);
    while (i > 0 || j > 0)
        switch ((enum step)steps[i * wide + j]) {
        case STEP_PAIR:
            i--;
            j--;
            p->mate[sa->from + i] = sb->from + j + 1;
            break;
        case STEP_A: i--; break;
        case STEP_B: j--; break;
        }
}

static const struct set_result *set_numbered(const struct checked *c, unsigned number) {
    for (unsigned i = 0; i < c->set_n; i++)
        if (c->sets[i].number == number)
            return &c->sets[i];
    return NULL;
}

static bool too_long(const struct checked *c) {
    for (unsigned i = 0; i < c->set_n; i++)
        if (c->sets[i].to - c->sets[i].from > AGREE_SET_MAX)
            return true;
    return false;
}

static bool is_match(const struct checked *c) {
    return c->match->occasion && !c->match->practice && c->match->team_n > 0;
}

static enum agree_fit fit_of(struct pairing *p) {
    const struct match *a = p->a->match, *b = p->b->match;
    if (!is_match(p->a) || !is_match(p->b))
        return AGREE_NO_MATCH;
    if (a->date.year != b->date.year || a->date.month != b->date.month ||
        a->date.day != b->date.day)
        return AGREE_OTHER_DAY;
    if (!teams_match(p))
        return AGREE_OTHER_TEAMS;
    return too_long(p->a) || too_long(p->b) ? AGREE_TOO_LONG : AGREE_FITS;
}

/* ---- what is compared ---------------------------------------------------- */

/* The answers of a field; a mark is there or not. */
static unsigned answers_n(unsigned field) {
    switch (field) {
    case FIELD_OUTCOME: return OUTCOME_N;
    case FIELD_PASS: return 4;
    case FIELD_ZONE: return 6;
    }
    return 2;
}

/* What came of it, without the grade of the pass. */
static unsigned outcome_of(const struct played *p) {
    switch ((enum outcome)p->said.outcome) {
    case OUTCOME_IN3:
    case OUTCOME_IN2:
    case OUTCOME_IN1:
    case OUTCOME_PLAY: return OUTCOME_IN;
    case OUTCOME_NONE:
    case OUTCOME_ACE:
    case OUTCOME_IN:
    case OUTCOME_OVER:
    case OUTCOME_NET:
    case OUTCOME_LONG:
    case OUTCOME_LEFT:
    case OUTCOME_RIGHT:
    case OUTCOME_ANTENNA:
    case OUTCOME_CEILING:
    case OUTCOME_MATE:
    case OUTCOME_FOOT:
    case OUTCOME_CLOCK:
    case OUTCOME_ORDER:
    case OUTCOME_DROP:
    case OUTCOME_SCREEN:
    case OUTCOME_RETOSS:
    case OUTCOME_REPLAY:
    case OUTCOME_OVERLAP:
    case OUTCOME_N: break;
    }
    return p->said.outcome;
}

static bool pass_of(const struct played *p, unsigned *grade) {
    *grade = 0;
    if (played_ace(p))
        return true;
    *grade = (unsigned)(OUTCOME_IN1 - p->said.outcome) + 1;
    return p->said.outcome >= OUTCOME_IN3 && p->said.outcome <= OUTCOME_IN1;
}

static bool zone_of(const struct played *p, unsigned *zone) {
    enum place_kind kind = played_place(p);
    unsigned number = spot_zone(p->said.landing);
    bool out = p->said.outcome == OUTCOME_LONG || p->said.outcome == OUTCOME_LEFT ||
               p->said.outcome == OUTCOME_RIGHT;
    *zone = number ? number - 1 : 0;
    return number && !out && (kind == PLACE_FLOOR || kind == PLACE_PLAYED);
}

bool agree_answer(const struct played *p, unsigned field, unsigned *answer) {
    switch (field) {
    case FIELD_OUTCOME: *answer = outcome_of(p); return *answer != OUTCOME_NONE;
    case FIELD_PASS: return pass_of(p, answer);
    case FIELD_ZONE: return zone_of(p, answer);
    }
    enum mark mark = (enum mark)(field - FIELD_MARK);
    *answer = (p->said.marks >> mark) & 1;
    return (p->observed & mark_phase(mark)) != 0;
}

bool agree_differs(const struct agree *g, struct agree_pair pair, unsigned field) {
    unsigned a, b;
    return agree_answer(&g->file[0]->played[pair.a], field, &a) &&
           agree_answer(&g->file[1]->played[pair.b], field, &b) && a != b;
}

static bool shirts_seen(const struct agree *g, struct agree_pair pair) {
    return g->file[0]->played[pair.a].server != SHIRT_NONE &&
           g->file[1]->played[pair.b].server != SHIRT_NONE;
}

bool agree_other_server(const struct agree *g, struct agree_pair pair) {
    return shirts_seen(g, pair) &&
           g->file[0]->played[pair.a].server != g->file[1]->played[pair.b].server;
}

static void count_field(struct agree *g, struct agree_pair pair, unsigned field) {
    struct agree_facts *f = &g->field[field];
    unsigned a, b;
    bool in_a = agree_answer(&g->file[0]->played[pair.a], field, &a);
    bool in_b = agree_answer(&g->file[1]->played[pair.b], field, &b);
    f->one_n += in_a != in_b;
    if (in_a && in_b)
        f->table.n[a][b]++;
}

static void count_pair(struct agree *g, struct agree_pair pair) {
    g->pairs[g->pair_n++] = pair;
    g->server_n += shirts_seen(g, pair);
    g->server_same_n += shirts_seen(g, pair) && !agree_other_server(g, pair);
    for (unsigned f = 0; f < FIELD_N; f++)
        count_field(g, pair, f);
}

/* From the mates of the first file's serves to pairs, counts and the rest. */
static void count_all(const struct pairing *p, struct agree *out) {
    size_t a_n = p->a->played_n, b_n = p->b->played_n;
    bool *taken = arena_alloc(p->arena, b_n, sizeof *taken);
    *out = (struct agree){.file = {p->a, p->b}};
    out->pairs = arena_alloc(p->arena, a_n, sizeof *out->pairs);
    out->alone[0] = arena_alloc(p->arena, a_n, sizeof *out->alone[0]);
    out->alone[1] = arena_alloc(p->arena, b_n, sizeof *out->alone[1]);
    for (unsigned f = 0; f < FIELD_N; f++)
        out->field[f].table.k = answers_n(f);
    for (size_t i = 0; i < a_n; i++) {
        if (!p->mate[i]) {
            out->alone[0][out->alone_n[0]++] = i;
            continue;
        }
        taken[p->mate[i] - 1] = true;
        count_pair(out, (struct agree_pair){i, p->mate[i] - 1});
    }
    for (size_t j = 0; j < b_n; j++)
        if (!taken[j])
            out->alone[1][out->alone_n[1]++] = j;
}

enum agree_fit agree_of(const struct checked *a, const struct checked *b, struct arena *arena,
                        struct agree *out) {
    struct pairing p = {.a = a, .b = b, .arena = arena};
    enum agree_fit fit = fit_of(&p);
    if (fit != AGREE_FITS)
        return fit;
    p.mate = arena_alloc(arena, a->played_n, sizeof *p.mate);
    for (unsigned i = 0; i < a->set_n; i++) {
        const struct set_result *sb = set_numbered(b, a->sets[i].number);
        if (sb && set_numbered(a, a->sets[i].number) == &a->sets[i])
            pair_set(&p, &a->sets[i], sb);
    }
    count_all(&p, out);
    return AGREE_FITS;
}
