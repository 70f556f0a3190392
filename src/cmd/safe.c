#include <utf8proc.h>

#include "cmd/cmd.h"

/* What a terminal can be trusted with. */
enum look { LOOK_PLAIN, LOOK_DOT, LOOK_ESCAPE };

/* Format characters (Cf) hold the direction controls of Unicode Annex 9, which
 * can make a line read as another; the blanks of class Zs but for SPACE look
 * like it and are none. */
static enum look look_of(unsigned code_point) {
    if (code_point >= ' ' && code_point < 0x7F)
        return LOOK_PLAIN;
    switch ((int)utf8proc_category((utf8proc_int32_t)code_point)) {
    case UTF8PROC_CATEGORY_ZS:
        return LOOK_DOT;
    case UTF8PROC_CATEGORY_CC:
    case UTF8PROC_CATEGORY_CF:
    case UTF8PROC_CATEGORY_CN:
    case UTF8PROC_CATEGORY_CO:
    case UTF8PROC_CATEGORY_CS:
    case UTF8PROC_CATEGORY_ZL:
    case UTF8PROC_CATEGORY_ZP:
        return LOOK_ESCAPE;
    default: /* letters, marks, digits, signs: all other classes */
        return LOOK_PLAIN;
    }
}

static void add_blanks_to_stop(struct buf *b, unsigned cell) {
    do
        buf_char(b, ' ');
    while (++cell % 8 != 0);
}

size_t cmd_safe_char(struct buf *b, struct str s, size_t at, unsigned cell, bool *dot) {
    unsigned code_point;
    size_t n = str_code_point(s, at, &code_point);

    *dot = false;
    if (n == 0) {
        buf_printf(b, "<%02X>", (unsigned)(unsigned char)s.at[at]);
        return 1;
    }
    if (code_point == '\t') {
        add_blanks_to_stop(b, cell);
        return n;
    }
    switch (look_of(code_point)) {
    case LOOK_PLAIN:
        buf_add(b, str_part(s, at, n));
        break;
    case LOOK_DOT:
        buf_add(b, STR("\xC2\xB7")); /* U+00B7 */
        *dot = true;
        break;
    case LOOK_ESCAPE:
        buf_printf(b, code_point < 0x80 ? "<%02X>" : "<U+%04X>", code_point);
        break;
    }
    return n;
}

void cmd_safe(struct buf *b, struct str s, unsigned from) {
    unsigned cell = from;
    bool dot;

    for (size_t at = 0; at < s.n;) {
        size_t was = b->n;

        at += cmd_safe_char(b, s, at, cell, &dot);
        cell += str_cells(str_part(buf_str(b), was, b->n - was), cell);
    }
}
