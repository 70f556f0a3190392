/* Terminals in a scorer's words, and the line "expected ...". */
#include "syntax/fault.h"

#include <string.h>

/* One row a terminal. Rows with the same phrase are named once. `serve` is the
 * phrase inside a serve line, if it differs there. */
static const struct phrase {
    int code;
    const char *text, *serve;
} phrases[] = {
    {T_OUTCOME, "an outcome such as net", "an outcome such as in2"},
    {T_MISS, "an outcome such as net", "an outcome such as in2"},
    {T_OVERLAP, "overlap", NULL},
    {T_MARK, "a mark such as td", NULL},
    {T_TYPE, "a type such as topspin", NULL},
    {T_START, "a start such as m4/3", NULL},
    {T_AIM, "an aim such as ad5", NULL},
    {T_MEASURE, "a measure such as v88", NULL},
    {T_INTENT, "go or safe", NULL},
    {T_NUMBER, "a number", "a landing such as d5"},
    {T_PAIR, "a score such as 2-3", "a landing such as d5"},
    {T_DEEP, "a landing such as d5", NULL},
    {T_COORD, "a landing such as d5", NULL},
    {T_BY, "a receiver such as by11", NULL},
    {T_RALLY, "won or lost", NULL},
    {T_CLOCKTIME, "a time such as 18:42", NULL},
    {T_GOING, "going", NULL},
    {T_REPEAT, "a count such as x3", NULL},
    {T_REVIEW, "?", NULL},
    {T_TEXT, "a text in double quotes", NULL},
    {T_DATE, "a date such as 2026-10-03", NULL},
    {T_DECIMAL, "metres such as 2.35", NULL},
    {T_RATIO, "hits of tries such as 6/10", NULL},
    {T_NAME, "a name", NULL},
    {T_LETTER, "a team letter", NULL},
    {T_PERSON, "team letter and shirt such as H7", NULL},
    {T_MARKCOUNT, "a mark and a count such as tn3", NULL},
    {T_EQUALS, "=", NULL},
    {T_SIDE, "women or men", NULL},
    {T_LEFTHANDED, "lefthanded", NULL},
    {T_PHASE, "a phase such as toss", NULL},
    {T_WHOSE, "both or ours", NULL},
    {T_FOR, "for", NULL},
    {T_EXTRA, "extra", NULL},
    {T_SERVER, "a server such as 7", NULL},
    {T_SET, "a statement such as set", NULL},
    {T_NL, "the end of the line", NULL},
};
enum { PHRASES = sizeof phrases / sizeof *phrases, ALTERNATIVES_MAX = 5 };

static const char *phrase_text(const struct phrase *p, bool serve) {
    return serve && p->serve ? p->serve : p->text;
}

const char *fault_phrase(int code, bool serve) {
    for (size_t i = 0; i < PHRASES; i++)
        if (phrases[i].code == code)
            return phrase_text(&phrases[i], serve);
    return "something else";
}

struct str fault_expected(struct arena *a, const bool expected[T_EXTRA + 1], bool serve) {
    const char *named[ALTERNATIVES_MAX];
    unsigned n = 0;
    for (size_t i = 0; i < PHRASES && n < ALTERNATIVES_MAX; i++) {
        const char *text = phrase_text(&phrases[i], serve);
        bool again = n > 0 && strcmp(named[n - 1], text) == 0;
        if (expected[phrases[i].code] && !again)
            named[n++] = text;
    }
    struct buf b;
    buf_init(&b, a);
    for (unsigned i = 0; i < n; i++)
        buf_printf(&b, "%s%s", i == 0 ? "" : i + 1 == n ? " or " : ", ", named[i]);
    return buf_str(&b);
}
