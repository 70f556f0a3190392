/* Who may come in for whom (FIVB 15.6, 15.7; elsewhere any number of times, but
 * to the same place). */
#include "check/play.h"

void bench_note(struct bench *b, const struct stmt *st) {
    uint8_t in = st->as.sub.in, out = st->as.sub.out;
    b->line[in] = b->line[out] = st->line;
    shirts_add(b->in, in);
    shirts_drop(b->out, in);
    shirts_add(b->out, out);
    shirts_drop(b->in, out);
}

bool bench_see(struct play *p, struct diag *d, enum side side, uint8_t shirt) {
    uint32_t line = p->set.benches[side].line[shirt];
    if (line)
        diag_see(d, syn_line_place(p->syn, line), STR("her last substitution"));
    return line > 0;
}

/* `sub H 14 for 3`: word 2 comes in, word 4 goes out. One of two substitutions
 * that do not fit together is wrong: both are shown. */
static void tell(struct play *p, const struct stmt *st, unsigned word, enum diag_id id,
                 uint8_t shirt, unsigned partner) {
    enum side side = match_side(p->match, st->as.sub.letter);
    if (p->set.doubt || p->set.orders[side].sub_told)
        return;
    struct diag *d = diags_add(p->diags, id, syn_word(p->syn, st, word), shirt, partner);
    (void)bench_see(p, d, side, shirt);
}

static uint8_t group_of(struct bench *b, uint8_t out) {
    if (!b->group[out]) {
        b->group[out] = ++b->groups;
        b->starter[b->groups] = out;
    }
    return b->group[out];
}

/* Once out and once back, for the same player; a substitute comes in once. */
static bool once_only(struct play *p, const struct stmt *st, struct bench *b, uint8_t in,
                      uint8_t out) {
    uint8_t group = b->group[out];
    bool out_is_starter = !group || b->starter[group] == out;
    if (!out_is_starter) {
        if (b->starter[group] != in)
            tell(p, st, 2, E_SUB_PAIR, out, b->starter[group]);
        else if (shirts_hold(b->back, in))
            tell(p, st, 2, E_SUB_AGAIN, in, 0);
        return b->starter[group] == in;
    }
    if (shirts_hold(b->back, out)) {
        tell(p, st, 4, E_SUB_LEAVES, out, 0);
        return false;
    }
    if (b->group[in] && b->starter[b->group[in]] == in) {
        tell(p, st, 2, E_SUB_RETURNS, in, 0);
        return false;
    }
    if (shirts_hold(b->played, in)) {
        tell(p, st, 2, E_SUB_AGAIN, in, 0);
        return false;
    }
    return true;
}

static bool same_place(struct play *p, const struct stmt *st, struct bench *b, uint8_t in,
                       uint8_t out) {
    if (!b->group[in] || b->group[in] == group_of(b, out))
        return true;
    tell(p, st, 2, E_SUB_PLACE, in, 0);
    return false;
}

static bool is_libero(const struct play *p, enum side side, uint8_t shirt) {
    const struct player *who = team_find(&p->match->teams[side], shirt);
    return who && who->libero;
}

void bench_sub(struct play *p, const struct stmt *st, enum side side) {
    struct bench *b = &p->set.benches[side];
    uint8_t in = st->as.sub.in, out = st->as.sub.out;
    if (is_libero(p, side, in) || is_libero(p, side, out)) {
        bool first = is_libero(p, side, in);
        tell(p, st, first ? 2 : 4, E_SUB_LIBERO, first ? in : out, 0);
        return;
    }
    if (shirts_hold(p->gone[side], in)) {
        tell(p, st, 2, E_SUB_GONE, in, 0);
        return;
    }
    if (st->as.sub.extra) {
        shirts_add(p->gone[side], out);
        return;
    }
    bool fine = p->match->profile.reentry ? same_place(p, st, b, in, out)
                                          : once_only(p, st, b, in, out);
    if (!fine)
        return;
    uint8_t group = group_of(b, out);
    if (b->starter[group] == in)
        shirts_add(b->back, in);
    if (b->starter[group] != out)
        shirts_add(b->played, out);
    b->group[in] = group;
}
