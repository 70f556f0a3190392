/* Views of text and the buffer. Unicode questions go to utf8proc. */
#include "str.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <utf8proc.h>

struct str str_of(const char *c) {
    return c ? (struct str){c, strlen(c)} : STR_NONE;
}

bool str_eq(struct str a, struct str b) {
    return a.n == b.n && (a.n == 0 || memcmp(a.at, b.at, a.n) == 0);
}

int str_order(struct str a, struct str b) {
    size_t n = a.n < b.n ? a.n : b.n;
    int bytes = n ? memcmp(a.at, b.at, n) : 0;
    return bytes ? bytes : (a.n > b.n) - (a.n < b.n);
}

bool str_is(struct str a, const char *c) {
    return str_eq(a, str_of(c));
}

static char lower(char c) {
    return c >= 'A' && c <= 'Z' ? (char)(c + ('a' - 'A')) : c;
}

bool str_same(struct str a, struct str b) {
    if (a.n != b.n)
        return false;
    for (size_t i = 0; i < a.n; i++)
        if (lower(a.at[i]) != lower(b.at[i]))
            return false;
    return true;
}

bool str_starts(struct str s, struct str with) {
    return s.n >= with.n && str_eq(str_part(s, 0, with.n), with);
}

bool str_ends(struct str s, struct str with) {
    return s.n >= with.n && str_eq(str_part(s, s.n - with.n, with.n), with);
}

struct str str_part(struct str s, size_t from, size_t n) {
    if (from > s.n)
        from = s.n;
    if (n > s.n - from)
        n = s.n - from;
    return (struct str){s.at ? s.at + from : NULL, n};
}

static bool blank(char c) {
    return c == ' ' || c == '\t' || c == '\r';
}

bool str_take(struct str *rest, char end, struct str *part) {
    const char *at = rest->n ? memchr(rest->at, end, rest->n) : NULL;
    if (!at)
        return false;
    *part = str_part(*rest, 0, (size_t)(at - rest->at));
    *rest = str_part(*rest, part->n + 1, rest->n);
    return true;
}

bool str_take_line(struct str *rest, struct str *line) {
    if (!rest->n)
        return false;
    if (!str_take(rest, '\n', line)) {
        *line = *rest;
        *rest = STR_NONE;
    }
    return true;
}

struct str str_folder(struct str path) {
    while (path.n && path.at[path.n - 1] != '/')
        path.n--;
    return path;
}

struct str str_trim_end(struct str s) {
    while (s.n && blank(s.at[s.n - 1]))
        s.n--;
    return s;
}

struct str str_trim(struct str s) {
    while (s.n && blank(s.at[0])) {
        s.at++;
        s.n--;
    }
    return str_trim_end(s);
}

struct str str_copy(struct arena *a, struct str s) {
    char *at = arena_alloc(a, s.n + 1, 1);
    if (s.n)
        memcpy(at, s.at, s.n);
    return (struct str){at, s.n};
}

const char *str_c(struct arena *a, struct str s) {
    return str_copy(a, s).at;
}

enum { SHORT_BYTES = 128 };

struct str str_vprintf(struct arena *a, const char *format, va_list args) {
    char most[SHORT_BYTES];      /* few texts are longer */
    va_list again;
    va_copy(again, args);
    int n = vsnprintf(most, sizeof most, format, args);
    size_t bytes = n < 0 ? 0 : (size_t)n;
    char *at = arena_alloc(a, bytes + 1, 1);
    if (bytes < sizeof most)
        memcpy(at, most, bytes);
    else
        vsnprintf(at, bytes + 1, format, again);
    va_end(again);
    return (struct str){at, bytes};
}

struct str str_printf(struct arena *a, const char *format, ...) {
    va_list args;
    va_start(args, format);
    struct str s = str_vprintf(a, format, args);
    va_end(args);
    return s;
}

/* Letters that are NFC as they stand: ASCII, U+00C0 to U+02FF, Cyrillic U+0400
 * to U+04FF, Latin U+1E00 to U+1EFF (NFC_Quick_Check of the Unicode database).
 * Most names hold no other. */
static bool plainly_nfc(struct str s) {
    for (size_t i = 0; i < s.n; i++) {
        unsigned char c = (unsigned char)s.at[i], next = i + 1 < s.n ? (unsigned char)s.at[i + 1] : 0;
        if (c >= 0x80 && c < 0xC0)
            continue;            /* inside a letter that was looked at */
        if (c >= 0x80 && !(c >= 0xC3 && c <= 0xCB) && !(c >= 0xD0 && c <= 0xD3) &&
            !(c == 0xE1 && next >= 0xB8 && next <= 0xBB))
            return false;
    }
    return true;
}

struct str str_nfc(struct arena *a, struct str s) {
    if (plainly_nfc(s))
        return s;
    utf8proc_uint8_t *made = NULL;
    utf8proc_ssize_t n = utf8proc_map((const utf8proc_uint8_t *)s.at, (utf8proc_ssize_t)s.n, &made,
                                      UTF8PROC_STABLE | UTF8PROC_COMPOSE);
    if (n < 0)
        return s;
    struct str nfc = {(const char *)made, (size_t)n};
    struct str out = str_eq(nfc, s) ? s : str_copy(a, nfc);
    free(made);
    return out;
}

/* Letters that Unicode does not take apart, and signs that look alike. */
static utf8proc_int32_t plain_sign(utf8proc_int32_t c, void *unused) {
    (void)unused;
    switch (c) {
    case 0x00D8: case 0x00F8: return 'o';
    case 0x0110: case 0x0111: case 0x00D0: case 0x00F0: return 'd';
    case 0x0126: case 0x0127: return 'h';
    case 0x0131: return 'i';
    case 0x0141: case 0x0142: return 'l';
    case 0x2018: case 0x2019: case 0x02BC: return '\'';
    case 0x2010: case 0x2011: case 0x2013: return '-';
    case 0x00A0: case 0x202F: return ' ';
    }
    return c;
}

struct str str_folded(struct arena *a, struct str s) {
    const utf8proc_option_t options = UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_STRIPMARK |
                                      UTF8PROC_CASEFOLD;
    utf8proc_uint8_t *made = NULL;
    utf8proc_ssize_t n = utf8proc_map_custom((const utf8proc_uint8_t *)s.at, (utf8proc_ssize_t)s.n,
                                             &made, options, plain_sign, NULL);
    struct str out = n < 0 ? s : str_copy(a, (struct str){(const char *)made, (size_t)n});
    free(made);
    return out;
}

static bool within_code_point(struct str s, size_t at) {
    return at < s.n && ((unsigned char)s.at[at] & 0xC0) == 0x80;
}

enum { CODE_POINT_MOST = 4 }; /* bytes */

/* What is left of both texts between their common beginning and end. */
static void differing(struct str *a, struct str *b) {
    size_t from = 0, end = 0;
    while (from < a->n && from < b->n && a->at[from] == b->at[from])
        from++;
    while (from > 0 && (within_code_point(*a, from) || within_code_point(*b, from)))
        from--;
    while (end < a->n - from && end < b->n - from &&
           a->at[a->n - end - 1] == b->at[b->n - end - 1])
        end++;
    while (end > 0 && (within_code_point(*a, a->n - end) || within_code_point(*b, b->n - end)))
        end--;
    *a = str_part(*a, from, a->n - from - end);
    *b = str_part(*b, from, b->n - from - end);
}

static bool swapped(struct str a, struct str b) {
    unsigned c;
    size_t first = str_code_point(a, 0, &c);
    return a.n == b.n && str_chars(a) == 2 &&
           str_eq(str_part(a, 0, first), str_part(b, b.n - first, first)) &&
           str_eq(str_part(a, first, a.n), str_part(b, 0, b.n - first));
}

bool str_one_slip(struct str a, struct str b, size_t *at) {
    const char *start = a.at;
    differing(&a, &b);
    if (at)
        *at = (size_t)(a.at - start);
    if (a.n > 2 * CODE_POINT_MOST || b.n > 2 * CODE_POINT_MOST)
        return false;
    size_t a_n = str_chars(a), b_n = str_chars(b);
    return (a_n + b_n > 0 && a_n <= 1 && b_n <= 1) || swapped(a, b);
}

size_t str_code_point(struct str s, size_t at, unsigned *code_point) {
    if (at >= s.n)
        return 0;
    utf8proc_int32_t c;
    utf8proc_ssize_t n = utf8proc_iterate((const utf8proc_uint8_t *)s.at + at,
                                          (utf8proc_ssize_t)(s.n - at), &c);
    if (n <= 0)
        return 0;
    *code_point = (unsigned)c;
    return (size_t)n;
}

/* A byte that is no UTF-8 counts as one code point of one cell: messages show
 * it as an escape, but columns must still be counted. */
unsigned str_cells(struct str s, unsigned from) {
    unsigned cell = from;
    for (size_t i = 0; i < s.n;) {
        unsigned c = 0;
        if (s.at[i] >= ' ' && s.at[i] <= '~') {
            cell++;
            i++;
            continue;
        }
        size_t n = str_code_point(s, i, &c);
        int width = n ? utf8proc_charwidth((utf8proc_int32_t)c) : 1;
        if (n && c == '\t')
            cell = (cell / 8 + 1) * 8;
        else
            cell += width > 0 ? (unsigned)width : 0;
        i += n ? n : 1;
    }
    return cell - from;
}

size_t str_chars(struct str s) {
    size_t chars = 0;
    for (size_t i = 0; i < s.n; chars++) {
        unsigned c;
        size_t n = str_code_point(s, i, &c);
        i += n ? n : 1;
    }
    return chars;
}

size_t str_utf16(struct str s) {
    size_t units = 0;
    for (size_t i = 0; i < s.n;) {
        unsigned c = 0;
        size_t n = str_code_point(s, i, &c);
        units += c > 0xFFFF ? 2 : 1;
        i += n ? n : 1;
    }
    return units;
}

enum { SLIP_MAX_BYTES = 32 };

/* Blocks of the Unicode standard: Hebrew to Arabic Extended-A, the scripts of
 * South and South-East Asia, Mongolian, presentation forms, direction marks. */
bool str_joins(unsigned code_point) {
    static const unsigned blocks[][2] = {
        {0x0590, 0x08FF}, {0x0900, 0x109F}, {0x1780, 0x18AF}, {0x1900, 0x1AAF}, {0x1B00, 0x1C4F},
        {0x200E, 0x200F}, {0x202A, 0x202E}, {0x2066, 0x2069}, {0xA800, 0xA82F}, {0xA880, 0xA8DF},
        {0xA8E0, 0xA95F}, {0xA980, 0xABFF}, {0xFB1D, 0xFDFF}, {0xFE70, 0xFEFF},
    };
    for (size_t i = 0; i < sizeof blocks / sizeof *blocks; i++)
        if (code_point >= blocks[i][0] && code_point <= blocks[i][1])
            return true;
    return false;
}

/* Restricted Damerau-Levenshtein distance, row by row. */
unsigned str_slips(struct str a, struct str b, unsigned limit) {
    size_t apart = a.n > b.n ? a.n - b.n : b.n - a.n;
    if (apart > limit || a.n > SLIP_MAX_BYTES || b.n > SLIP_MAX_BYTES)
        return limit + 1;
    unsigned rows[3][SLIP_MAX_BYTES + 1];
    unsigned *before = rows[0], *last = rows[1], *row = rows[2];
    for (size_t j = 0; j <= b.n; j++)
        last[j] = (unsigned)j;
    for (size_t i = 1; i <= a.n; i++) {
        row[0] = (unsigned)i;
        for (size_t j = 1; j <= b.n; j++) {
            unsigned same = lower(a.at[i - 1]) == lower(b.at[j - 1]) ? 0 : 1;
            unsigned best = last[j - 1] + same;
            if (last[j] + 1 < best)
                best = last[j] + 1;
            if (row[j - 1] + 1 < best)
                best = row[j - 1] + 1;
            if (i > 1 && j > 1 && lower(a.at[i - 1]) == lower(b.at[j - 2]) &&
                lower(a.at[i - 2]) == lower(b.at[j - 1]) && before[j - 2] + 1 < best)
                best = before[j - 2] + 1;
            row[j] = best;
        }
        unsigned *oldest = before;
        before = last;
        last = row;
        row = oldest;
    }
    return last[b.n] > limit ? limit + 1 : last[b.n];
}

void buf_init(struct buf *b, struct arena *a) {
    *b = (struct buf){.arena = a};
}

char *buf_room(struct buf *b, size_t more) {
    if (b->room - b->n > more)
        return b->at + b->n;
    size_t room = (b->room + more) * 2 + 64;
    char *at = arena_alloc(b->arena, room, 1);
    if (b->n)
        memcpy(at, b->at, b->n);
    b->at = at;
    b->room = room;
    return b->at + b->n;
}

void buf_add(struct buf *b, struct str s) {
    char *end = buf_room(b, s.n);
    if (s.n)
        memcpy(end, s.at, s.n);
    b->n += s.n;
}

void buf_char(struct buf *b, char c) {
    buf_add(b, (struct str){&c, 1});
}

void buf_printf(struct buf *b, const char *format, ...) {
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    (void)buf_room(b, SHORT_BYTES);
    int n = vsnprintf(b->at + b->n, SHORT_BYTES, format, args);
    va_end(args);
    if (n >= SHORT_BYTES) {
        (void)buf_room(b, (size_t)n + 1);
        vsnprintf(b->at + b->n, (size_t)n + 1, format, again);
    }
    b->n += n > 0 ? (size_t)n : 0;
    va_end(again);
}

struct str buf_str(const struct buf *b) {
    return (struct str){b->at, b->n};
}
