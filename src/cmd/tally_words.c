/* Names of rows and what several forms of `9m tally` count alike. */
#include "cmd/tally.h"

const char *const tally_cut_words[] = {"server",   "error", "start",    "aim",       "zone", "receiver",
                                       "set",      "rotation", "situation", "type", "all",  NULL};

static struct str word_of(enum word_class class, unsigned value) {
    for (unsigned id = 0; id < W_N; id++) {
        const struct word_info *w = word_info((enum word_id)id);

        if (w->class == class && w->value == value)
            return w->word;
    }
    return STR_NONE;
}

struct str tally_outcome_word(unsigned outcome) {
    return word_of(WORD_OUTCOME, outcome);
}

struct str tally_type_word(unsigned type) {
    return type == TYPE_NONE ? STR_NONE : word_of(WORD_TYPE, type);
}

struct str tally_third_word(unsigned third) {
    switch ((enum third)third) {
    case THIRD_RIGHT:
        return STR("r");
    case THIRD_MIDDLE:
        return STR("m");
    case THIRD_LEFT:
        return STR("l");
    case THIRD_NONE:
        break;
    }
    return STR_NONE;
}

struct str tally_situation_word(unsigned situation) {
    switch ((enum situation)situation) {
    case SITUATION_COLD:
        return STR("cold");
    case SITUATION_TIMEOUT:
        return STR("after_timeout");
    case SITUATION_FIRST:
        return STR("first_of_turn");
    case SITUATION_LATE:
        return STR("late");
    case SITUATION_SET_POINT:
        return STR("set_point");
    case SITUATION_N:
        break;
    }
    return STR_NONE;
}

static struct str number(int32_t value, struct arena *a) {
    return value ? str_printf(a, "%d", value) : STR_NONE;
}

struct str tally_row_word(const struct pool *p, enum cut cut, int32_t key, struct arena *a) {
    switch (cut) {
    case CUT_SERVER:
    case CUT_RECEIVER:
        if (key == PERSON_NONE || p->people[key].shirt == SHIRT_NONE)
            return STR_NONE;
        return str_printf(a, "%u", p->people[key].shirt);
    case CUT_ERROR:
        return tally_outcome_word((unsigned)key);
    case CUT_START:
        return tally_third_word((unsigned)key);
    case CUT_AIM:
    case CUT_ZONE:
        return key == ZONE_SEAM ? STR("seam") : number(key, a);
    case CUT_SET:
    case CUT_ROTATION:
        return number(key, a);
    case CUT_SITUATION:
        return tally_situation_word((unsigned)key);
    case CUT_TYPE:
        return tally_type_word((unsigned)key);
    case CUT_N:
        break;
    }
    return STR_NONE;
}

unsigned tally_pass_n(const struct counts *c) {
    return c->by[OUTCOME_ACE] + c->by[OUTCOME_IN1] + c->by[OUTCOME_IN2] + c->by[OUTCOME_IN3];
}

unsigned tally_pass_sum(const struct counts *c) {
    return c->by[OUTCOME_IN1] + 2 * c->by[OUTCOME_IN2] + 3 * c->by[OUTCOME_IN3];
}

void tally_quoted(struct buf *b, struct str s) {
    unsigned code_point;

    buf_char(b, '"');
    for (size_t at = 0; at < s.n;) {
        size_t n = str_code_point(s, at, &code_point);

        if (!n)
            buf_add(b, STR("\xEF\xBF\xBD")); /* U+FFFD */
        else if (code_point == '"' || code_point == '\\')
            buf_printf(b, "\\%c", (char)code_point);
        else if (code_point < ' ')
            buf_printf(b, "\\u%04x", code_point);
        else
            buf_add(b, str_part(s, at, n));
        at += n ? n : 1;
    }
    buf_char(b, '"');
}
