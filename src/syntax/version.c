/* The version of the notation, looked at before a word is read: those of another
 * one may mean something else. */
#include <string.h>

#include "syntax/build.h"

static size_t word_end(struct str s, size_t at) {
    while (at < s.n && !memchr(" \t\r\n", s.at[at], 4))
        at++;
    return at;
}

static size_t blanks_end(struct str s, size_t at, const char *blanks) {
    while (at < s.n && strchr(blanks, s.at[at]) && s.at[at])
        at++;
    return at;
}

/* Where the first line stands that is neither blank nor a comment. */
static size_t first_line(struct str s) {
    size_t at = blanks_end(s, 0, " \t\r\n");
    while (at < s.n && s.at[at] == '#') {
        const char *end = memchr(s.at + at, '\n', s.n - at);
        at = end ? blanks_end(s, (size_t)(end - s.at), " \t\r\n") : s.n;
    }
    return at;
}

static unsigned line_number(struct str s, size_t at) {
    unsigned line = 1;
    for (size_t i = 0; i < at; i++)
        line += s.at[i] == '\n';
    return line;
}

/* 2, 1.1, v2: a number and its parts. Another word is a slip of version 1. */
static bool is_version(struct str word) {
    bool digit = false;
    for (size_t i = word.n && (word.at[0] | 32) == 'v'; i < word.n; i++) {
        bool point = word.at[i] == '.' && digit;
        digit = word.at[i] >= '0' && word.at[i] <= '9';
        if (!digit && !point)
            return false;
    }
    return digit;
}

bool version_is_foreign(const struct text *t, struct place *version) {
    struct str s = t->bytes, word;
    size_t at = first_line(s), end = word_end(s, at);
    if (!str_same(str_part(s, at, end - at), STR("notation")))
        return false;
    at = blanks_end(s, end, " \t");
    end = word_end(s, at);
    word = str_part(s, at, end - at);
    *version = text_place(t, line_number(s, at), at, word.n);
    while (word.n > 1 && word.at[0] == '0') /* notation 01 is told as a leading zero */
        word = str_part(word, 1, word.n);
    return is_version(word) && !str_is(word, "1");
}
