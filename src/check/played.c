/* Definitions that every count shares. */
#include "check.h"

/* Statistics S1, S15: a replay or a second toss is no attempt. */
bool played_counts(const struct played *r) {
    return !r->cancelled && r->said.outcome != OUTCOME_REPLAY && r->said.outcome != OUTCOME_RETOSS;
}

/* Faults at the hit come before the receivers' overlap (FIVB 12.6.1, 12.7). */
static bool fault_at_hit(const struct played *r) {
    return r->said.outcome == OUTCOME_FOOT || r->said.outcome == OUTCOME_CLOCK ||
           r->said.outcome == OUTCOME_ORDER || r->said.outcome == OUTCOME_DROP;
}

/* S2, S18. */
bool played_ace(const struct played *r) {
    return r->said.outcome == OUTCOME_ACE || (r->said.overlap && !fault_at_hit(r));
}

/* S5, S6, S8, S17. */
bool played_error(const struct played *r) {
    switch ((enum outcome)r->said.outcome) {
    case OUTCOME_FOOT:
    case OUTCOME_CLOCK:
    case OUTCOME_ORDER:
    case OUTCOME_DROP: return true;
    case OUTCOME_NET:
    case OUTCOME_LONG:
    case OUTCOME_LEFT:
    case OUTCOME_RIGHT:
    case OUTCOME_ANTENNA:
    case OUTCOME_CEILING:
    case OUTCOME_MATE:
    case OUTCOME_SCREEN: return !r->said.overlap;
    case OUTCOME_NONE:
    case OUTCOME_ACE:
    case OUTCOME_IN3:
    case OUTCOME_IN2:
    case OUTCOME_IN1:
    case OUTCOME_PLAY:
    case OUTCOME_IN:
    case OUTCOME_OVER:
    case OUTCOME_RETOSS:
    case OUTCOME_REPLAY:
    case OUTCOME_OVERLAP:
    case OUTCOME_N: break;
    }
    return false;
}

bool played_broke(const struct played *r) {
    return played_ace(r) || r->said.outcome == OUTCOME_OVER || r->said.outcome == OUTCOME_IN1;
}

struct spot played_aim(const struct checked *c, const struct played *r) {
    if (r->said.aim.kind || !r->drill)
        return r->said.aim;
    return c->drills[r->drill - 1].aim;
}

bool played_shows_technique(const struct played *r) {
    enum outcome o = (enum outcome)r->said.outcome;
    return o != OUTCOME_DROP && o != OUTCOME_CLOCK && o != OUTCOME_ORDER &&
           r->said.intent != INTENT_SAFE;
}
