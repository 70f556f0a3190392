/* Bytes that must not stand in notes: they would change what a line says
 * without being seen, or reach terminals and PDFs. Most lines are plain ASCII
 * and pass at the speed of memory; the others are walked letter by letter. */
#include "text/survey.h"

#include <stdint.h>
#include <string.h>

struct walk {
    struct text *text;
    struct arena *arena;
    struct diags *diags;
    size_t spoilt_room;
    struct place bad_bytes;      /* the first byte that is no UTF-8 */
    unsigned bad_byte, bad_lines;
};

/* Sixteen bytes at once, in the notation that gcc and clang share. */
typedef unsigned char bytes16 __attribute__((vector_size(16)));
enum { BLOCK = 64 };

static bool odd(unsigned char c) {
    return c >= 0x7F || c == '<' || (c < 0x20 && c != '\n' && c != '\t');
}

static bool odd_block(const char *at) {
    bytes16 seen = {0};
    for (size_t i = 0; i < BLOCK; i += sizeof seen) {
        bytes16 c;
        memcpy(&c, at + i, sizeof c);
        seen |= (bytes16)((c >= 0x7F) | (c == '<') | ((c < 0x20) & (c != '\n') & (c != '\t')));
    }
    uint64_t halves[2];
    memcpy(halves, &seen, sizeof halves);
    return halves[0] | halves[1];
}

/* The first byte from `from` on that asks for a closer look: no plain ASCII, or
 * a '<' that may begin a merge conflict. The length if there is none. */
static size_t next_odd(struct str s, size_t from) {
    size_t i = from;
    while (i + BLOCK <= s.n && !odd_block(s.at + i))
        i += BLOCK;
    while (i < s.n && !odd((unsigned char)s.at[i]))
        i++;
    return i;
}

static struct spoilt *spoil(struct walk *w, unsigned line) {
    struct text *t = w->text;
    t->spoilt = arena_grow(w->arena, t->spoilt, t->spoilt_n, &w->spoilt_room, sizeof *t->spoilt);
    struct spoilt *s = &t->spoilt[t->spoilt_n++];
    *s = (struct spoilt){.line = line};
    return s;
}

/* What a code point is that must not stand there. */
enum fault_kind { FINE, BLANK, INVISIBLE, TURNING, CONTROL, DASH, QUOTE };

static enum fault_kind kind_of(unsigned c) {
    if (c < 0x20)
        return c == '\t' ? FINE : CONTROL;
    if (c < 0x7F)
        return FINE;
    if (c <= 0x9F || c == 0x2028 || c == 0x2029)
        return CONTROL;
    if (c == 0xA0 || c == 0x1680 || (c >= 0x2000 && c <= 0x200A) || c == 0x202F || c == 0x205F ||
        c == 0x3000)
        return BLANK;
    if (c == 0xAD || (c >= 0x200B && c <= 0x200D) || c == 0x2060 || c == 0xFEFF)
        return INVISIBLE;
    if (c == 0x061C || c == 0x200E || c == 0x200F || (c >= 0x202A && c <= 0x202E) ||
        (c >= 0x2066 && c <= 0x2069))
        return TURNING;
    if ((c >= 0x2010 && c <= 0x2015) || c == 0x2212)
        return DASH;
    if (c == 0x201C || c == 0x201D || c == 0x201E || c == 0x201F || c == 0xAB || c == 0xBB)
        return QUOTE;
    return FINE;
}

/* In a quoted text dashes, curly quotes and odd blanks are the writer's own;
 * in a comment invisible letters do no harm either. */
enum region { FIELDS, QUOTED, COMMENT };

static bool matters(enum fault_kind kind, enum region where) {
    switch (kind) {
    case FINE: return false;
    case TURNING:
    case CONTROL: return true;
    case INVISIBLE: return where != COMMENT;
    case BLANK:
    case DASH:
    case QUOTE: return where == FIELDS;
    }
    return true;
}

static const char *plain_form(enum fault_kind kind) {
    switch (kind) {
    case BLANK: return " ";
    case DASH: return "-";
    case QUOTE: return "\"";
    case INVISIBLE: return "";
    case FINE:
    case TURNING:
    case CONTROL: break;
    }
    return NULL;
}

static enum region next_region(enum region now, struct str line, size_t i) {
    char c = line.at[i];
    if (now == COMMENT)
        return COMMENT;
    if (now == QUOTED) {
        size_t slashes = 0;      /* a quote behind an odd number of them is part of the text */
        while (slashes < i && line.at[i - 1 - slashes] == '\\')
            slashes++;
        return c == '"' && slashes % 2 == 0 ? FIELDS : QUOTED;
    }
    if (c == '"')
        return QUOTED;
    bool apart = i == 0 || line.at[i - 1] == ' ' || line.at[i - 1] == '\t';
    return c == '#' && apart ? COMMENT : FIELDS;
}

/* The line with every look-alike of a plain sign made plain. */
static struct str mended(struct walk *w, struct str line) {
    struct buf b;
    enum region where = FIELDS;
    bool curly = false;          /* inside a text that a curly quote has opened */
    buf_init(&b, w->arena);
    for (size_t i = 0; i < line.n;) {
        unsigned c = 0;
        size_t n = str_code_point(line, i, &c);
        n = n ? n : 1;
        enum fault_kind kind = kind_of(c);
        bool closes = curly && kind == QUOTE;
        const char *plain = closes || matters(kind, where) ? plain_form(kind) : NULL;
        buf_add(&b, plain ? str_of(plain) : str_part(line, i, n));
        if (kind == QUOTE && plain) {
            curly = !closes;
            where = curly ? QUOTED : FIELDS;
        } else
            where = next_region(where, line, i);
        i += n;
    }
    return buf_str(&b);
}

static struct place at(const struct walk *w, unsigned number, struct str line, size_t i, size_t n) {
    return (struct place){w->text->name, line, number, (unsigned)i, (unsigned)n};
}

static const char *blank_name(unsigned c) {
    switch (c) {
    case 0xA0: return "no-break space";
    case 0x202F: return "narrow no-break space";
    case 0x3000: return "ideographic space";
    }
    return "unusual space";
}

static void report(struct walk *w, enum fault_kind kind, unsigned c, struct place p) {
    struct diag *d = NULL;
    switch (kind) {
    case BLANK:
        d = diags_add(w->diags, E_ODD_BLANK, p, blank_name(c), c);
        if (d && c == 0xA0)
            d->hint = STR("some keyboards type it with Option and space; 9m check --fix mends it");
        break;
    case INVISIBLE: d = diags_add(w->diags, E_INVISIBLE, p, c); break;
    case TURNING: d = diags_add(w->diags, E_TURNING, p, c); break;
    case DASH: d = diags_add(w->diags, E_LOOKALIKE, p, "dash", c, "minus"); break;
    case QUOTE: d = diags_add(w->diags, E_LOOKALIKE, p, "quotation mark", c, "double quote"); break;
    case CONTROL:
        d = c ? diags_add(w->diags, E_CONTROL, p, c) : diags_add(w->diags, E_NUL, p);
        break;
    case FINE: break;
    }
    struct spoilt *s = spoil(w, p.line);
    if (!d || !plain_form(kind))
        return;
    s->mended = mended(w, p.text);
    s->diag_ix = w->diags->n - 1;
    d->attempt = str_trim(s->mended);
    d->safe = true;
    diag_edit(d, p.line, 0, (unsigned)p.text.n, s->mended);
}

static void bad_byte(struct walk *w, struct place p) {
    if (!w->bad_lines) {
        w->bad_bytes = p;
        w->bad_byte = (unsigned char)p.text.at[p.at];
    }
    w->bad_lines++;
}

/* One message a line; a CR that ends no line counts as a control character. */
static void walk_line(struct walk *w, unsigned number, struct str line) {
    enum region where = FIELDS;
    for (size_t i = 0; i < line.n;) {
        unsigned c = (unsigned char)line.at[i];
        size_t n = c < 0x80 ? 1 : str_code_point(line, i, &c);
        if (!n) {
            bad_byte(w, at(w, number, line, i, 1));
            (void)spoil(w, number);
            return;
        }
        enum fault_kind kind = kind_of(c);
        if (matters(kind, where)) {
            report(w, kind, c, at(w, number, line, i, n));
            return;
        }
        where = next_region(where, line, i);
        i += n;
    }
}

/* What Windows-1252 has at a byte, for the guess; ISO 8859-1 from A0 on. */
static struct str western(struct walk *w, unsigned byte) {
    if (byte < 0xA0)
        return STR("a letter or sign of it");
    return str_printf(w->arena, "\"%c%c\"", (char)(0xC0 | byte >> 6), (char)(0x80 | (byte & 0x3F)));
}

static void report_bad_bytes(struct walk *w) {
    if (!w->bad_lines)
        return;
    struct diag *d = diags_add(w->diags, E_NOT_UTF8, w->bad_bytes, w->bad_byte, w->bad_lines,
                               w->bad_lines == 1 ? "line is" : "lines are");
    if (!d)
        return;
    d->likely = str_printf(w->arena, "the file is in Windows-1252 or ISO 8859-1 (%.*s)",
                           STR_ARG(western(w, w->bad_byte)));
    d->hint = str_printf(w->arena, "iconv -f WINDOWS-1252 -t UTF-8 %.*s > new.9m",
                         STR_ARG(w->text->name));
}

static bool conflict_mark(struct str line, char sign) {
    for (size_t i = 0; i < 7; i++)
        if (i >= line.n || line.at[i] != sign)
            return false;
    return line.n == 7 || line.at[7] == ' ';
}

/* Lines from "<<<<<<<" to ">>>>>>>" (or the end) are one fault. */
static unsigned conflict_end(const struct walk *w, unsigned number, size_t offset) {
    struct str rest = str_part(w->text->bytes, offset, w->text->bytes.n);
    for (unsigned n = number; rest.n; n++) {
        const char *newline = memchr(rest.at, '\n', rest.n);
        size_t length = newline ? (size_t)(newline - rest.at) : rest.n;
        if (conflict_mark(str_part(rest, 0, length), '>'))
            return n;
        rest = str_part(rest, newline ? length + 1 : length, rest.n);
        if (!rest.n)
            return n;
    }
    return number;
}

static unsigned newlines(struct str s) {
    unsigned n = 0;
    for (size_t i = 0; i < s.n; i++)
        n += s.at[i] == '\n';
    return n;
}

/* Looks at the line from byte `i` and gives the first byte of the next. */
static size_t survey_line(struct walk *w, unsigned number, size_t i, unsigned *conflict_to) {
    struct str bytes = w->text->bytes;
    const char *newline = memchr(bytes.at + i, '\n', bytes.n - i);
    size_t next = newline ? (size_t)(newline - bytes.at) + 1 : bytes.n;
    struct str line = str_part(bytes, i, next - i - (newline ? 1 : 0));
    if (newline && str_ends(line, STR("\r")))
        line.n--;
    if (number > *conflict_to && conflict_mark(line, '<')) {
        *conflict_to = conflict_end(w, number, i);
        diags_add(w->diags, E_MERGE, at(w, number, line, 0, line.n), number, *conflict_to);
    }
    if (number <= *conflict_to)
        spoil(w, number)->skip = true;
    else
        walk_line(w, number, line);
    return next;
}

/* What iconv calls the encoding if it is UTF-16, by its mark or by the NUL in
 * each of the first two letters, which are ASCII in any notes; else NULL. */
static const char *utf16_name(struct str s) {
    if (str_starts(s, STR("\xFF\xFE")) || str_starts(s, STR("\xFE\xFF")))
        return "UTF-16";
    if (s.n < 4 || (!s.at[0] && !s.at[1]) || (!s.at[2] && !s.at[3]))
        return NULL;
    if (!s.at[1] && !s.at[3])
        return "UTF-16LE";
    return !s.at[0] && !s.at[2] ? "UTF-16BE" : NULL;
}

/* One message, and not a line of it is read. */
static void report_utf16(struct walk *w, const char *encoding) {
    struct diag *d = diags_add(w->diags, E_UTF16, at(w, 1, STR_NONE, 0, 0));
    unsigned lines = newlines(w->text->bytes) + 1;
    w->text->utf16 = true;
    for (unsigned number = 1; number <= lines; number++)
        spoil(w, number)->skip = true;
    if (d)
        d->hint = str_printf(w->arena, "iconv -f %s -t UTF-8 %.*s > new.9m", encoding,
                             STR_ARG(w->text->name));
}

void text_survey(struct text *t, struct arena *a, struct diags *d) {
    struct walk w = {.text = t, .arena = a, .diags = d};
    const char *utf16 = utf16_name(t->bytes);
    unsigned number = 1, conflict_to = 0;
    size_t i = 0;
    if (utf16) {
        report_utf16(&w, utf16);
        return;
    }
    while (i < t->bytes.n) {
        if (number > conflict_to) {
            size_t odd_at = next_odd(t->bytes, i);
            if (odd_at == t->bytes.n)
                break;
            while (odd_at > i && t->bytes.at[odd_at - 1] != '\n')
                odd_at--;
            number += newlines(str_part(t->bytes, i, odd_at - i));
            i = odd_at;
        }
        i = survey_line(&w, number++, i, &conflict_to);
    }
    report_bad_bytes(&w);
}
