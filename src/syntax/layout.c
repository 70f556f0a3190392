/* Words typed with another keyboard layout switched on, or with letters that
 * only look Latin: what the same keys give on a Latin layout, and what the
 * letters look like. */
#include "syntax/fault.h"

/* Pairs of a letter and what is meant: `keys` by the place of the key (Russian
 * and Greek layouts over US), `looks` by the shape of the letter. Where both
 * tell, the line decides: only one of them parses. */
static const struct pair {
    unsigned letter;
    char keys, looks;
} pairs[] = {
    {0x0430, 'f', 'a'}, {0x0431, ',', 0},   {0x0432, 'd', 0},   {0x0433, 'u', 'r'},
    {0x0434, 'l', 0},   {0x0435, 't', 'e'}, {0x0437, 'p', 0},   {0x0438, 'b', 0},
    {0x0439, 'q', 0},   {0x043A, 'r', 'k'}, {0x043B, 'k', 0},   {0x043C, 'v', 'm'},
    {0x043D, 'y', 'h'}, {0x043E, 'j', 'o'}, {0x043F, 'g', 'n'}, {0x0440, 'h', 'p'},
    {0x0441, 'c', 'c'}, {0x0442, 'n', 't'}, {0x0443, 'e', 'y'}, {0x0444, 'a', 0},
    {0x0445, '[', 'x'}, {0x0446, 'w', 0},   {0x0447, 'x', 0},   {0x0448, 'i', 0},
    {0x0449, 'o', 0},   {0x044B, 's', 0},   {0x044C, 'm', 0},   {0x044F, 'z', 0},
    {0x0456, 's', 'i'}, {0x0455, 0, 's'},   {0x0458, 0, 'j'},   {0x03B1, 'a', 'a'},
    {0x03B2, 'b', 0},   {0x03B3, 'g', 'y'}, {0x03B4, 'd', 0},   {0x03B5, 'e', 'e'},
    {0x03B6, 'z', 0},   {0x03B7, 'h', 'n'}, {0x03B8, 'u', 0},   {0x03B9, 'i', 'i'},
    {0x03BA, 'k', 'k'}, {0x03BB, 'l', 0},   {0x03BC, 'm', 0},   {0x03BD, 'n', 'v'},
    {0x03BE, 'j', 0},   {0x03BF, 'o', 'o'}, {0x03C0, 'p', 0},   {0x03C1, 'r', 'p'},
    {0x03C2, 'w', 0},   {0x03C3, 's', 'o'}, {0x03C4, 't', 't'}, {0x03C5, 'y', 'u'},
    {0x03C6, 'f', 0},   {0x03C7, 'x', 'x'}, {0x03C8, 'c', 0},   {0x03C9, 'v', 'w'},
};

/* Lower case of the Greek and Cyrillic capitals. */
static unsigned small(unsigned c) {
    if ((c >= 0x0391 && c <= 0x03A9) || (c >= 0x0410 && c <= 0x042F))
        return c + 0x20;
    return c >= 0x0400 && c <= 0x040F ? c + 0x50 : c;
}

static char meant(unsigned letter, bool by_look) {
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++)
        if (pairs[i].letter == small(letter)) {
            char c = by_look ? pairs[i].looks : pairs[i].keys;
            return (char)(letter != small(letter) && c >= 'a' ? c - ('a' - 'A') : c);
        }
    return 0;
}

/* The line in Latin letters outside of texts and its comment; false if a
 * letter is none of those above. */
static bool latin(struct str line, bool by_look, struct buf *b, unsigned *first) {
    bool quoted = false;
    *first = 0;
    for (size_t i = 0; i < line.n;) {
        unsigned c = 0;
        size_t n = str_code_point(line, i, &c);
        n = n ? n : 1;
        if (c == '#' && !quoted && (i == 0 || line.at[i - 1] == ' ' || line.at[i - 1] == '\t')) {
            buf_add(b, str_part(line, i, line.n));
            break;
        }
        quoted ^= c == '"';
        char instead = c > 0x7F && !quoted ? meant(c, by_look) : 0;
        if (c > 0x7F && !quoted && !instead)
            return false;
        if (instead && !*first)
            *first = c;
        if (instead)
            buf_char(b, instead);
        else
            buf_add(b, str_part(line, i, n));
        i += n;
    }
    return *first != 0;
}

bool fault_layout(struct syn *s, struct token t) {
    struct str line = text_line_at(s->text, s->stmt.at);
    for (int by_look = 1; by_look >= 0; by_look--) {
        struct buf b;
        unsigned letter;
        buf_init(&b, s->arena);
        if (!latin(line, by_look, &b, &letter) || !syn_accepts(s, buf_str(&b)))
            continue;
        struct str w = str_part(s->text->bytes, t.at, t.n);
        struct diag *d = FAULT(s, E_LAYOUT, t, STR_ARG(w), letter);
        (void)fault_try(s, d, s->stmt.at, line.n, buf_str(&b), false);
        if (d)
            d->hint = by_look ? STR("the letter looks like a Latin one, but is another")
                              : STR("another keyboard layout may be switched on");
        return true;
    }
    return false;
}
