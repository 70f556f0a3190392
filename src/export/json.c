/* JSON (RFC 8259): one document, or one object a line. */
#include <string.h>

#include "export/table.h"

enum { ESCAPED_BYTES = 6 };

static char *put_text(char *at, struct str s) {
    static const char hex[] = "0123456789abcdef";
    *at++ = '"';
    for (size_t i = 0; i < s.n; i++) {
        unsigned char c = (unsigned char)s.at[i];
        if (c < 0x20 || c == 0x7F) {
            memcpy(at, "\\u00", 4);
            at[4] = hex[c >> 4];
            at[5] = hex[c & 15];
            at += ESCAPED_BYTES;
            continue;
        }
        if (c == '"' || c == '\\')
            *at++ = '\\';
        *at++ = (char)c;
    }
    *at++ = '"';
    return at;
}

static char *put_cell(char *at, const struct cell *c) {
    switch (c->kind) {
    case CELL_EMPTY: memcpy(at, "null", 4); return at + 4;
    case CELL_TEXT: return put_text(at, c->text);
    case CELL_WHOLE: return put_whole(at, c->number);
    case CELL_HUNDREDTHS: return put_hundredths(at, c->number, '.');
    }
    return at;
}

void json_begin(struct export_batch *b) {
    const struct export *e = b->export;
    if (e->style.form == EXPORT_JSON)
        buf_printf(&b->out,
                   "{\"schema\":%d,\"program\":\"9m\",\"version\":\"%.*s\",\"table\":\"%.*s\",\"rows\":[",
                   EXPORT_SCHEMA, STR_ARG(e->style.version), STR_ARG(e->table));
}

/* The comma before the first of all is taken away with the batch. */
void json_row(struct export_batch *b, const struct cell *cells) {
    const struct export *e = b->export;
    size_t bytes = 8;
    for (size_t i = 0; i < e->column_n; i++)
        bytes += e->columns[i].name.n + 4 + NUMBER_MAX_BYTES + 2 +
                 (cells[i].kind == CELL_TEXT ? ESCAPED_BYTES * cells[i].text.n : 0);
    char *at = buf_room(&b->out, bytes);
    if (e->style.form == EXPORT_JSON) {
        *at++ = ',';
        *at++ = '\n';
    }
    *at++ = '{';
    for (size_t i = 0; i < e->column_n; i++) {
        if (i)
            *at++ = ',';
        at = put_text(at, e->columns[i].name);
        *at++ = ':';
        at = put_cell(at, &cells[i]);
    }
    *at++ = '}';
    if (e->style.form == EXPORT_JSONL)
        *at++ = '\n';
    b->out.n = (size_t)(at - b->out.at);
}

void json_end(struct export_batch *b, bool incomplete) {
    if (b->export->style.form == EXPORT_JSON)
        buf_add(&b->out, incomplete ? STR("\n],\"incomplete\":true}\n")
                                          : STR("\n],\"incomplete\":false}\n"));
}
