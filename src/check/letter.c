/* Slips of the letter in front of a shirt. */
#include "check/play.h"

uint8_t letter_as_digit(const struct serve *v) {
    if (v->letter != 'L' && v->letter != 'I')
        return SHIRT_NONE;
    if (v->form == SERVER_UNSEEN)
        return 1;
    return v->shirt < 10 ? (uint8_t)(10 + v->shirt) : SHIRT_NONE;
}

/* ---- a letter forgotten, or one too many: 15 for G15 --------------------- */

/* A shirt that the squad lacks (`told`) misfits where nobody is known to be due. */
static bool misfits(struct play *p, enum side side, uint8_t shirt, bool told) {
    uint8_t due = order_due(p, side);
    return due != shirt && (told || due != SHIRT_NONE) && shirt != p->set.turn_wrong;
}

static void tell(struct play *p, const struct stmt *st, enum side side, uint8_t shirt) {
    struct set_state *s = &p->set;
    enum side other = play_other(side);
    struct place where = syn_word(p->syn, st, 0);
    struct diag *d =
        s->pending || s->serving == side
            ? diags_add(p->diags, E_OUT_OF_ORDER, where, shirt, order_due(p, side))
            : diags_add(p->diags, E_WRONG_TEAM, where, STR_ARG(play_name(p, side)),
                        STR_ARG(play_name(p, other)));
    if (s->last_serve_line)
        diag_see(d, syn_line_place(p->syn, s->last_serve_line), STR("the serve before"));
    if (d)
        d->likely = str_printf(p->arena, "%.*s: it is the turn of %.*s's %u",
                               STR_ARG(play_with_server(p, where, other, shirt)),
                               STR_ARG(play_name(p, other)), shirt);
}

/* The shirt then fits the other team's order, and not that of the team it was
 * written for. */
bool letter_slipped(struct play *p, const struct stmt *st, enum side side, uint8_t shirt,
                    bool told) {
    struct set_state *s = &p->set;
    enum side other = play_other(side);
    bool sure = st->as.serve.form == SERVER_SHIRT && st->as.serve.outcome != OUTCOME_ORDER &&
                s->any_serve && s->serving != SIDE_NONE && (s->pending || s->serving == other);
    if (!sure || shirt != order_due(p, other) || !misfits(p, side, shirt, told))
        return false;
    if (!told && !s->doubt)
        tell(p, st, side, shirt);
    s->doubt = true;             /* the number may be the slip all the same */
    return true;
}
