/* Shirts: declared, on court. */
#include "check/play.h"
#include "notation.h"

/* `code` is a terminal of the line, or minus the number of a word, 0 for the
 * first word behind the statement's. */
static struct place place_of(struct play *p, const struct stmt *st, int code) {
    return code > 0 ? syn_place(p->syn, st, code) : syn_word(p->syn, st, code ? (unsigned)-code : 1);
}

/* Who stands in two lines is one of the team: it is the squad that lacks her. */
bool people_shirt(struct play *p, const struct stmt *st, enum side side, uint8_t shirt, int code) {
    if ((unsigned)side >= p->match->team_n)
        return true;
    const struct team *t = &p->match->teams[side];
    if (!t->declared || p->match->header_unread || t->by_shirt[shirt])
        return true;
    if (play_told(p, &p->shirts_told[side][shirt], E_NO_SHIRT, st))
        return true;
    (void)team_lacks(t, shirt, place_of(p, st, code), p->arena, p->diags);
    return false;
}

bool people_may_serve(struct play *p, const struct stmt *st, enum side side, uint8_t shirt) {
    if ((unsigned)side >= p->match->team_n || p->match->profile.libero_serves)
        return true;
    const struct player *who = team_find(&p->match->teams[side], shirt);
    if (!who || !who->libero || st->as.serve.outcome == OUTCOME_ORDER)
        return true;
    if (play_told(p, &p->shirts_told[side][shirt], E_LIBERO_SERVES, st))
        return true;
    struct diag *d = diags_add(p->diags, E_LIBERO_SERVES, syn_word(p->syn, st, 0), shirt);
    diag_see(d, who->libero_place, STR("named as libero"));
    return false;
}

static bool was_received(const struct serve *v) {
    switch ((enum outcome)v->outcome) {
    case OUTCOME_ACE:
    case OUTCOME_IN3:
    case OUTCOME_IN2:
    case OUTCOME_IN1:
    case OUTCOME_PLAY:
    case OUTCOME_OVER:
    case OUTCOME_OVERLAP:
    case OUTCOME_REPLAY: return true;
    case OUTCOME_NONE:
    case OUTCOME_IN:
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
    case OUTCOME_N: break;
    }
    return false;
}

void people_receiver(struct play *p, const struct stmt *st, enum side receivers) {
    const struct serve *v = &st->as.serve;
    if (v->by == SHIRT_NONE)
        return;
    if (!was_received(v)) {
        struct place outcome = syn_place(p->syn, st, T_OUTCOME);
        diags_add(p->diags, E_RECEIVER, syn_place(p->syn, st, T_BY), STR_ARG(play_spelt(outcome)));
        return;
    }
    bool turned = p->set.doubt && v->form == SERVER_SAME; /* `.` may be theirs as well */
    if (p->match->practice || (unsigned)receivers >= p->match->team_n || turned ||
        !people_shirt(p, st, receivers, v->by, T_BY))
        return;
    if (!court_holds(p, receivers, v->by)) {
        struct diag *d = diags_add(p->diags, E_NOT_ON, syn_place(p->syn, st, T_BY), v->by);
        diag_see(d, syn_line_place(p->syn, p->set.orders[receivers].lineup_line), STR_NONE);
    }
}
