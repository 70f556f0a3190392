/* CSV as RFC 4180 has it, and the form that a spreadsheet opens. */
#include <string.h>

#include "export/table.h"

/* What a spreadsheet may run: = + - @, a TAB or a line break at the start of a
 * text, and the wide forms of the four signs (after OWASP, CSV Injection; from
 * memory). Apostrophes before it are passed over, so that taking one away
 * always gives the text back. */
static bool needs_guard(struct str s) {
    size_t i = 0;
    while (i < s.n && s.at[i] == '\'')
        i++;
    struct str rest = str_part(s, i, s.n);
    return rest.n && (strchr("=+-@\t\r\n", rest.at[0]) || str_starts(rest, STR("\xEF\xBC\x9D")) ||
                      str_starts(rest, STR("\xEF\xBC\x8B")) ||
                      str_starts(rest, STR("\xEF\xBC\x8D")) ||
                      str_starts(rest, STR("\xEF\xBC\xA0")));
}

/* Either separator: who opens a file with the other one meets no new cell. */
static bool needs_quotes(struct str s) {
    for (size_t i = 0; i < s.n; i++) {
        char c = s.at[i];
        if (c == '"' || c == ',' || c == ';' || c == '\n' || c == '\r' || c == '\t')
            return true;
    }
    return false;
}

static char *put_text(char *at, struct str s) {
    bool quotes = needs_quotes(s);
    if (quotes)
        *at++ = '"';
    if (needs_guard(s))
        *at++ = '\'';
    if (!quotes) {
        memcpy(at, s.at, s.n);
        return at + s.n;
    }
    for (size_t i = 0; i < s.n; i++) {
        if (s.at[i] == '"')
            *at++ = '"';
        *at++ = s.at[i];
    }
    *at++ = '"';
    return at;
}

static char *put_cell(char *at, const struct cell *c, char decimal) {
    switch (c->kind) {
    case CELL_EMPTY: return at;
    case CELL_TEXT: return put_text(at, c->text);
    case CELL_WHOLE: return put_whole(at, c->number);
    case CELL_HUNDREDTHS: return put_hundredths(at, c->number, decimal);
    }
    return at;
}

void csv_begin(struct export_batch *b) {
    const struct export *e = b->export;
    if (e->style.bom)
        buf_add(&b->out, STR("\xEF\xBB\xBF"));
    for (size_t i = 0; i < e->column_n; i++) {
        buf_add(&b->out, e->columns[i].name);
        buf_add(&b->out,
                   i + 1 < e->column_n ? (struct str){&e->style.separator, 1} : STR("\r\n"));
    }
}

void csv_row(struct export_batch *b, const struct cell *cells) {
    const struct export *e = b->export;
    size_t bytes = 2;
    for (size_t i = 0; i < e->column_n; i++)
        bytes += NUMBER_MAX_BYTES + (cells[i].kind == CELL_TEXT ? 2 * cells[i].text.n : 0);
    char *at = buf_room(&b->out, bytes);
    for (size_t i = 0; i < e->column_n; i++) {
        at = put_cell(at, &cells[i], e->style.decimal);
        *at++ = e->style.separator;
    }
    at[-1] = '\r';
    *at++ = '\n';
    b->out.n = (size_t)(at - b->out.at);
}
