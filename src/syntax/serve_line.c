/* The short way for serve lines, nine lines in ten: the rules `serve` and
 * `before` of grammar/notation.y are a list of fields, an outcome, a list of
 * fields, so a table of what may stand on which side reads them without the
 * parser's tables. A line that does not fit goes through the grammar, which
 * finds the words for it. tests/unit/test_serve_line.c holds the two together. */
#include "syntax/build.h"

enum { NOWHERE, BEFORE, TURNING, AFTER };

static const struct field {
    unsigned char side;
    void (*build)(struct syn *s, struct token t);
} fields[T_EXTRA + 1] = {
    [T_TYPE] = {BEFORE, build_type},       [T_START] = {BEFORE, build_start},
    [T_AIM] = {BEFORE, build_aim},         [T_INTENT] = {BEFORE, build_intent},
    [T_MEASURE] = {BEFORE, build_measure}, [T_MARK] = {BEFORE, build_mark},
    [T_OUTCOME] = {TURNING, build_outcome}, [T_MISS] = {TURNING, build_miss},
    [T_GOING] = {AFTER, build_going},      [T_OVERLAP] = {AFTER, build_overlap},
    [T_NUMBER] = {AFTER, build_zone},      [T_PAIR] = {AFTER, build_spot},
    [T_DEEP] = {AFTER, build_spot},        [T_COORD] = {AFTER, build_spot},
    [T_BY] = {AFTER, build_by},            [T_RALLY] = {AFTER, build_rally},
    [T_CLOCKTIME] = {AFTER, build_time},   [T_REPEAT] = {AFTER, build_repeat},
    [T_REVIEW] = {AFTER, build_review},
};

enum serve_line serve_line(struct syn *s, struct token server) {
    bool turned = false;
    build_server(s, server);
    for (;;) {
        struct token t;
        int code = tok_next(&s->lexer, &t);
        build_note_token(s, code, &t);
        if (code == T_NL && turned)
            return SERVE_READ;
        const struct field *f = &fields[code];
        if (!turned && code == T_OVERLAP) {
            build_overlap_alone(s, t);
            turned = true;
        } else if (f->side == (turned ? AFTER : BEFORE)) {
            f->build(s, t);
        } else if (f->side == TURNING && !turned) {
            f->build(s, t);
            turned = true;
        } else if (!s->bad) {
            return SERVE_ODD;
        } else {                 /* it has had its message: leave the rest */
            if (code != T_NL) {
                tok_skip_line(&s->lexer);
                (void)tok_next(&s->lexer, &t);
            }
            return SERVE_READ;
        }
    }
}
