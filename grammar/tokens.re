/* The lexer: cuts a line of notes into tokens. Patterns for whatever has a
 * shape (m4/3, 2.1,8.4), one rule and a perfect hash for the fixed words. The
 * bytes were checked before (src/text); NULs behind the text end the last line. */
#include "token.h"

#include <string.h>

#include "notation.h"
#include "token/scan.h"

/*!re2c
re2c:define:YYCTYPE = "unsigned char";
re2c:define:YYCURSOR = cursor;
re2c:define:YYMARKER = marker;
re2c:define:YYGETCONDITION = "lx->mode";
re2c:define:YYGETCONDITION:naked = 1;
re2c:condenumprefix = MODE_;
re2c:condprefix = mode_;
re2c:yyfill:enable = 0;

blank  = [ \t]+;
eol    = "\r"? "\n";
word   = [^ \t\r\n\x00#"] [^ \t\r\n\x00]*;
letter = [A-Za-z];
third  = [RMLrml];
int1   = [0-9];
int2   = "0" | [1-9] [0-9]?;
int3   = "0" | [1-9] [0-9]{0,2};
int4   = "0" | [1-9] [0-9]{0,3};
part   = "." [0-9]{1,2};
sign   = [+\-];
xd     = "-"? int2 part "," int2 part;
seam   = int1 "-" int1;
time   = [0-9]{1,2} ":" [0-9]{2} (":" [0-9]{2})?;
*/

/*!types:re2c*/

static const unsigned char *line_end(const unsigned char *from) {
    const unsigned char *p = from;
    while (*p != '\n' && *p != '\0')
        p++;
    return p > from && p[-1] == '\r' && *p == '\n' ? p - 1 : p;
}

/* From behind the opening quote to behind the closing one, which a blank or
 * the line's end must follow; NULL if the text is not closed so. */
static const unsigned char *text_end(const unsigned char *p) {
    for (; *p != '\n' && *p != '\0'; p++) {
        if (*p == '\\' && (p[1] == '"' || p[1] == '\\'))
            p++;
        else if (*p == '"')
            return strchr(" \t\r\n", p[1]) ? p + 1 : NULL;
    }
    return NULL;
}

/* How the words behind a statement's first word are read. */
static void enter_arguments(struct lexer *lx, enum arguments how) {
    switch (how) {
    case ARGS_PLAIN: lx->mode = lx->then = MODE_plain; break;
    case ARGS_PEOPLE: lx->mode = lx->then = MODE_people; break;
    case ARGS_FIELDS:
    case ARGS_PHASES: lx->mode = lx->then = MODE_fields; break;
    case ARGS_PERSON_FIELDS: lx->mode = MODE_people; lx->then = MODE_fields; break;
    case ARGS_SHORT:
        lx->mode = MODE_plain;
        lx->then = MODE_fields;
        lx->literal = true;      /* a short word is not made of other short words */
        break;
    }
}

void tok_next_line(struct lexer *lx, const char *next) {
    lx->line++;
    lx->mode = lx->then = MODE_line;
    lx->literal = false;
    lx->cursor = lx->line_start = next;
}

void tok_init(struct lexer *lx, const struct text *t) {
    *lx = (struct lexer){.text = t, .cursor = t->bytes.at, .line_start = t->bytes.at, .line = 1,
                         .mode = MODE_line, .then = MODE_line};
}

void tok_start_fields(struct lexer *lx) {
    lx->mode = lx->then = MODE_fields;
}

void tok_restart(struct lexer *lx) {
    lx->mode = lx->then = MODE_line;
    lx->literal = false;
    lx->expanding = NULL;
}

/* Leaves the rest of the line unread, up to its end. */
void tok_skip_line(struct lexer *lx) {
    const unsigned char *end = (const unsigned char *)lx->text->bytes.at + lx->text->bytes.n;
    const unsigned char *p = line_end((const unsigned char *)lx->cursor);
    while (*p == '\0' && p < end) /* a NUL byte within the line */
        p = line_end(p + 1);
    lx->cursor = (const char *)p;
    lx->expanding = NULL;
}

int tok_field(struct arena *a, struct str word, struct token *out) {
    char *padded = arena_alloc(a, word.n + TEXT_PADDING, 1);
    memcpy(padded, word.at, word.n);
    struct text t = {.bytes = {padded, word.n}};
    struct lexer lx;
    tok_init(&lx, &t);
    tok_start_fields(&lx);
    int code = tok_next(&lx, out);
    return lx.cursor == padded + word.n ? code : T_WORD;
}

int tok_next(struct lexer *lx, struct token *out) {
    if (lx->expanding)
        return scan_expansion(lx, out);
    const unsigned char *cursor = (const unsigned char *)lx->cursor, *start, *marker;
    int code;
next:
    start = cursor;
    *out = (struct token){.at = (uint32_t)((const char *)start - lx->text->bytes.at)};
    /*!re2c
    <*> blank { goto next; }
    <*> "#" {
        if (!lx->comment)
            lx->comment = (const char *)start;
        cursor = line_end(cursor);
        goto next;
    }
    <*> eol {
        tok_next_line(lx, (const char *)cursor);
        return T_NL;
    }
    <*> "\x00" {
        if ((const char *)start < lx->text->bytes.at + lx->text->bytes.n) {
            code = T_WORD;
            goto done;
        }
        /* An unfinished last line is closed before the end is told. */
        if (lx->line_start != (const char *)start) {
            tok_next_line(lx, (const char *)start);
            return T_NL;
        }
        return 0;
    }
    <*> "\r" { code = T_WORD; goto done; }
    <people, fields, plain> ["] {
        const unsigned char *end = text_end(cursor);
        code = end ? T_TEXT : T_OPENTEXT;
        cursor = end ? end : line_end(cursor);
        goto done;
    }

    <line> int2          { code = scan_server(start, cursor, out); goto done; }
    <line> letter int2?  { code = scan_server(start, cursor, out); goto done; }
    <line> "."           { out->value = SERVER_SAME; code = T_SERVER; goto done; }
    <line> int3 "-" int3 { lx->then = MODE_people; code = scan_pair(start, T_PAIR, out); goto done; }
    <line> word {
        const struct word_info *w = scan_word(start, cursor, true);
        if (!w) {
            lx->mode = lx->then = MODE_fields;
            code = T_WORD;
            goto done;
        }
        enter_arguments(lx, (enum arguments)w->value);
        out->value = (uint16_t)w->id;
        out->n = (uint16_t)(cursor - start);
        lx->cursor = (const char *)cursor;
        return w->code;
    }

    <people> letter        { out->a = scan_letter(start); code = T_LETTER; goto done; }
    <people> letter int2   { code = scan_person(start, out); goto done; }
    <people> int3 "-" int3 { code = scan_pair(start, T_PAIR, out); goto done; }

    <people, fields> int4          { code = scan_number(start, out); goto done; }
    <people, fields> int4 "/" int4 { code = scan_pair(start, T_RATIO, out); goto done; }

    <fields> third (int2 ("/" int2)? | "/" int2)?   { code = scan_start(start, cursor, out); goto done; }
    <fields> [Pp] int1 part ("/" int2)?             { code = scan_start_p(start, cursor, out); goto done; }
    <fields> [Aa] [Dd]? (int1 | seam) | [Aa] xd     { code = scan_spot(start + 1, cursor, T_AIM, out); goto done; }
    <fields> [Dd] (int1 | seam)                     { code = scan_spot(start, cursor, T_DEEP, out); goto done; }
    <fields> xd                                     { code = scan_spot(start, cursor, T_COORD, out); goto done; }
    <fields> seam                                   { code = scan_spot(start, cursor, T_PAIR, out); goto done; }
    <fields> [Bb] [Aa] [Cc] [Kk] int2               { code = scan_measure(start, cursor, out); goto done; }
    <fields> [TtHhFfWw] int2 part?                  { code = scan_measure(start, cursor, out); goto done; }
    <fields> [JjCc] sign int2 part                  { code = scan_measure(start, cursor, out); goto done; }
    <fields> [Vv] int3 part?                        { code = scan_measure(start, cursor, out); goto done; }
    <fields> [Bb] [Yy] int2                         { code = scan_by(start, out); goto done; }
    <fields> [Xx] [1-9] [0-9]{0,2}                  { code = scan_repeat(start, out); goto done; }
    <fields> "?"                                    { code = T_REVIEW; goto done; }
    <fields> "="                                    { code = T_EQUALS; goto done; }
    <fields> letter letter int2                     { code = scan_mark_count(start, cursor, out); goto done; }
    <fields> letter{3,7} sign int2 part             { code = scan_miss(start, cursor, out); goto done; }

    <plain> int4                                { code = scan_number(start, out); goto done; }
    <plain> int3 part                           { code = scan_decimal(start, out); goto done; }
    <plain> [0-9]{4} "-" [0-9]{2} "-" [0-9]{2}  { code = scan_date(start, out); goto done; }
    <fields, plain> time                        { code = scan_time(start, cursor, out); goto done; }
    <plain> word                                { code = T_NAME; goto done; }

    <people, fields> word {
        const struct word_info *w = scan_word(start, cursor, false);
        code = T_WORD;
        if (w) {
            out->value = (uint16_t)w->id;
            code = w->code;
        } else if (lx->mode == MODE_fields && !lx->literal && scan_short(lx, start, cursor, out)) {
            lx->cursor = (const char *)cursor;
            return scan_expansion(lx, out);
        }
        goto done;
    }
    <*> * { code = T_WORD; goto done; }
    */
done:
    out->n = (uint16_t)(cursor - start > UINT16_MAX ? UINT16_MAX : cursor - start);
    lx->cursor = (const char *)cursor;
    if (lx->mode == MODE_line)
        lx->then = code == T_PAIR ? MODE_people : MODE_fields;
    lx->mode = lx->then;
    return code;
}
