/* Bytes in pieces, and numbers without the locale. */
#include <assert.h>
#include <string.h>

#include "export/table.h"

enum { PIECE_BYTES = 1 << 20 };

void pieces_end(struct pieces *p) {
    if (p->n)
        p->at[p->n - 1].n = (size_t)(p->cursor - p->at[p->n - 1].at);
}

char *pieces_room(struct pieces *p, size_t n) {
    if (p->cursor && (size_t)(p->end - p->cursor) >= n)
        return p->cursor;
    size_t bytes = n > PIECE_BYTES ? n : PIECE_BYTES;
    pieces_end(p);
    p->at = arena_grow(p->arena, p->at, p->n, &p->room, sizeof *p->at);
    p->cursor = arena_alloc(p->arena, bytes, 1);
    p->end = p->cursor + bytes;
    p->at[p->n++].at = p->cursor;
    return p->cursor;
}

void pieces_add(struct pieces *p, struct str s) {
    if (!s.n)
        return;
    memcpy(pieces_room(p, s.n), s.at, s.n);
    p->cursor += s.n;
}

char *put_whole(char *at, int n) {
    char digits[NUMBER_MAX_BYTES];
    unsigned left = n < 0 ? 0u - (unsigned)n : (unsigned)n, i = sizeof digits;
    do {
        digits[--i] = (char)('0' + left % 10);
    } while (left /= 10);
    if (n < 0)
        digits[--i] = '-';
    memcpy(at, digits + i, sizeof digits - i);
    return at + (sizeof digits - i);
}

char *put_hundredths(char *at, int n, char decimal) {
    unsigned left = n < 0 ? 0u - (unsigned)n : (unsigned)n;
    if (n < 0)
        *at++ = '-';
    at = put_whole(at, (int)(left / 100));
    if (left % 100 == 0)
        return at;
    *at++ = decimal;
    *at++ = (char)('0' + left / 10 % 10);
    if (left % 10)
        *at++ = (char)('0' + left % 10);
    return at;
}
