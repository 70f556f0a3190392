/* Views of text and a buffer to build text in. A view does not own its bytes
 * and need not end in NUL; a buffer's bytes lie in an arena. Texts are UTF-8. */
#ifndef NINEMETRE_STR_H
#define NINEMETRE_STR_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "arena.h"

struct str {
    const char *at;
    size_t n;
};

#define STR(literal) ((struct str){(literal), sizeof(literal) - 1})
#define STR_NONE ((struct str){NULL, 0})

/* For printf: ("%.*s", STR_ARG(s)). */
#define STR_ARG(s) ((int)(s).n), ((s).at ? (s).at : "")

/* A view of a C string; NULL gives the empty view. */
struct str str_of(const char *c);

bool str_eq(struct str a, struct str b);
bool str_is(struct str a, const char *c);

/* Eight bytes as one number, the first of them lowest, whatever the machine; where
 * that is its own order, gcc and clang make one load of it. */
static inline uint64_t str_eight(const void *at) {
    const unsigned char *b = at;
    return (uint64_t)b[0] | (uint64_t)b[1] << 8 | (uint64_t)b[2] << 16 | (uint64_t)b[3] << 24 |
           (uint64_t)b[4] << 32 | (uint64_t)b[5] << 40 | (uint64_t)b[6] << 48 |
           (uint64_t)b[7] << 56;
}

/* Below 0, 0 or above, in the order of bytes. */
int str_order(struct str a, struct str b);

/* Equal but for the case of A to Z. */
bool str_same(struct str a, struct str b);

bool str_starts(struct str s, struct str with);
bool str_ends(struct str s, struct str with);

/* The part of `s` from byte `from`, at most `n` bytes. */
struct str str_part(struct str s, size_t from, size_t n);

/* Takes from `*rest` the part before the first `end`, and that too; false, and nothing
 * taken, if there is none. */
bool str_take(struct str *rest, char end, struct str *part);

/* Takes the next line, without its line feed, which the last may do without; false
 * when nothing is left. */
bool str_take_line(struct str *rest, struct str *line);

/* Of a path, the folder that holds the file, with its slash; empty if it names none. */
struct str str_folder(struct str path);

/* Without blanks (space, TAB, CR) at either end, or behind it alone. */
struct str str_trim(struct str s);
struct str str_trim_end(struct str s);

/* A copy in the arena, with a NUL behind it. */
struct str str_copy(struct arena *a, struct str s);
const char *str_c(struct arena *a, struct str s);

/* printf into the arena; a NUL stands behind the view. */
struct str str_printf(struct arena *a, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
struct str str_vprintf(struct arena *a, const char *format, va_list args)
    __attribute__((format(printf, 2, 0)));

/* The text in Unicode normalisation form C; the same view if it is already. */
struct str str_nfc(struct arena *a, struct str s);

/* The text without what keys and editors vary: letters small and without their
 * marks, those with a stroke as plain ones, blanks, hyphens and apostrophes as one
 * kind of each. For comparing, never for showing. */
struct str str_folded(struct arena *a, struct str s);

/* One slip, in code points, parts the texts: one lost, added or wrong, or two
 * neighbours swapped. `*at` is the byte of `a` where it lies, if it is not NULL. */
bool str_one_slip(struct str a, struct str b, size_t *at);

/* Cells that a terminal gives the text; tabs go to the next multiple of 8,
 * counted from cell `from`. */
unsigned str_cells(struct str s, unsigned from);

/* Code points, and UTF-16 units, in the text. */
size_t str_chars(struct str s);
size_t str_utf16(struct str s);

/* Decodes the code point at byte `at` and gives its length in bytes;
 * 0 if the bytes there are not UTF-8. */
size_t str_code_point(struct str s, size_t at, unsigned *code_point);

/* Of a script that runs from right to left, or whose letters change shape by
 * their neighbours: no page of this program can set it. */
bool str_joins(unsigned code_point);

/* How many single-key slips (a letter wrong, lost, added, two swapped) lie
 * between the words, but `limit` + 1 for anything above `limit`. Case is
 * ignored. Words of more than 32 bytes count as far apart. */
unsigned str_slips(struct str a, struct str b, unsigned limit);

/* Text under construction. */
struct buf {
    struct arena *arena;
    char *at;
    size_t n, room;
};

void buf_init(struct buf *b, struct arena *a);
void buf_add(struct buf *b, struct str s);
void buf_char(struct buf *b, char c);
void buf_printf(struct buf *b, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Room for so many bytes at the end; who fills it moves `n`. */
char *buf_room(struct buf *b, size_t more);

/* What has been built so far; valid until the next addition. */
struct str buf_str(const struct buf *b);

#endif
