#include "kit/seed_parts.h"

#include <string.h>

/* ---- lines and words ----------------------------------------------------- */

void seed_cut(struct seed_notes *s, struct str notes, struct arena *a) {
    unsigned team = 0;
    size_t room = 1;

    for (size_t i = 0; i < notes.n; i++)
        room += notes.at[i] == '\n';
    *s = (struct seed_notes){.lines = arena_alloc(a, room, sizeof *s->lines)};
    for (size_t at = 0; at < notes.n;) {
        const char *newline = memchr(notes.at + at, '\n', notes.n - at);
        size_t n = newline ? (size_t)(newline - notes.at) - at : notes.n - at;
        struct str line = str_part(notes, at, n);
        s->lines[s->n++] = line;
        if (seed_opens(line, "team") && line.n > 5)
            *(team++ ? &s->theirs : &s->ours) = line.at[5];
        at += n + 1;
    }
}

bool seed_words_of(struct seed_words *w, struct str line) {
    w->n = 0;
    if (!line.n || memchr(line.at, '#', line.n) || memchr(line.at, '"', line.n))
        return false;
    for (size_t at = 0; at <= line.n;) {
        size_t end = at;
        while (end < line.n && line.at[end] != ' ')
            end++;
        if (w->n == SEED_WORDS_MAX)
            return false;
        w->at[w->n++] = str_part(line, at, end - at);
        at = end + 1;
    }
    return true;
}

bool seed_opens(struct str line, const char *word) {
    struct str w = str_of(word);
    return str_starts(line, w) && (line.n == w.n || line.at[w.n] == ' ');
}

bool seed_number(struct str s, unsigned *out) {
    *out = 0;
    for (size_t i = 0; i < s.n; i++) {
        if (s.at[i] < '0' || s.at[i] > '9')
            return false;
        *out = *out * 10 + (unsigned)(s.at[i] - '0');
    }
    return s.n > 0 && s.n < 4;
}

bool seed_pair(struct str s, unsigned *a, unsigned *b) {
    const char *dash = s.n ? memchr(s.at, '-', s.n) : NULL;
    size_t n = dash ? (size_t)(dash - s.at) : 0;
    return dash && seed_number(str_part(s, 0, n), a) && seed_number(str_part(s, n + 1, s.n), b);
}

bool seed_is_score(struct str line) {
    unsigned a, b;
    return seed_opens(line, "end") || seed_pair(line, &a, &b);
}

static bool common_outcome(struct str w) {
    static const char *const words[] = {"ace", "in3",  "in2",  "in1",  "play", "over",
                                        "net", "long", "left", "right"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        if (str_starts(w, str_of(words[i])) &&
            (w.n == strlen(words[i]) || strchr("+-", w.at[strlen(words[i])])))
            return true;
    return false;
}

bool seed_serve_of(struct seed_serve *v, const struct seed_notes *s, struct str line) {
    *v = (struct seed_serve){.letter = s->ours, .shirt = SEED_UNSEEN};
    if (!seed_words_of(&v->w, line))
        return false;
    struct str server = v->w.at[0];
    bool lettered = server.n && server.at[0] >= 'A' && server.at[0] <= 'Z';
    if (lettered)
        v->letter = server.at[0];
    if (str_is(server, "."))
        v->letter = 0;
    else if (!(lettered && server.n == 1) &&
             !seed_number(str_part(server, lettered, server.n), &v->shirt))
        return false;
    for (unsigned k = 1; k < v->w.n && !v->outcome; k++)
        if (common_outcome(v->w.at[k]))
            v->outcome = k;
    return v->w.n > 1;
}

struct str seed_with(const struct seed_words *w, unsigned k, struct str word, struct arena *a) {
    struct buf b;
    buf_init(&b, a);
    for (unsigned i = 0; i < w->n; i++) {
        if (i == k && !word.n)
            continue;
        if (b.n)
            buf_char(&b, ' ');
        buf_add(&b, i == k ? word : w->at[i]);
    }
    return buf_str(&b);
}

static bool among(unsigned shirt, const unsigned *list, unsigned n) {
    for (unsigned i = 0; i < n; i++)
        if (list[i] == shirt)
            return true;
    return false;
}

/* A declared player, or who serves. */
static unsigned shirt_in(const struct seed_notes *s, char letter, struct str line) {
    struct seed_serve v;
    unsigned shirt = SEED_UNSEEN;
    if (seed_opens(line, "player") && line.n > 9 && line.at[7] == letter) {
        size_t end = 8;
        while (end < line.n && line.at[end] != ' ')
            end++;
        return seed_number(str_part(line, 8, end - 8), &shirt) ? shirt : SEED_UNSEEN;
    }
    return seed_serve_of(&v, s, line) && v.letter == letter ? v.shirt : SEED_UNSEEN;
}

bool seed_other_shirt(const struct seed_notes *s, char letter, const unsigned *but, unsigned but_n,
                      struct dice *d, unsigned *out) {
    unsigned from = dice_below(d, s->n);
    for (unsigned k = 0; k < s->n; k++) {
        *out = shirt_in(s, letter, s->lines[(from + k) % s->n]);
        if (*out != SEED_UNSEEN && !among(*out, but, but_n))
            return true;
    }
    return false;
}

bool seed_replace(struct seed_slip *out, unsigned i, struct str line, struct arena *a) {
    *out = (struct seed_slip){.from = i, .to = i + 1, .by_n = 1,
                              .by = str_printf(a, "%.*s\n", STR_ARG(line))};
    return true;
}

/* ---- a slip in the notes ------------------------------------------------- */

bool seed_draw(const struct seed_notes *s, const struct seed_kind *kind, struct dice *d,
               struct arena *a, struct seed_slip *out) {
    for (unsigned tries = 0; tries < 4 * s->n; tries++)
        if (kind->make(s, dice_below(d, s->n), d, a, out))
            return true;
    for (unsigned i = 0; i < s->n; i++)
        if (kind->make(s, i, d, a, out))
            return true;
    return false;
}

struct str seed_spoil(const struct seed_notes *s, const struct seed_slip *slip, struct arena *a) {
    struct buf b;
    buf_init(&b, a);
    for (unsigned i = 0; i <= s->n; i++) {
        if (i == slip->from)
            buf_add(&b, slip->by);
        if (i == s->n || (i >= slip->from && i < slip->to))
            continue;
        buf_add(&b, s->lines[i]);
        buf_char(&b, '\n');
    }
    return buf_str(&b);
}

/* From a line of the notes below the slip to its number in the spoilt notes. */
static unsigned spoilt_number(const struct seed_slip *slip, unsigned i) {
    return i + 1 + slip->by_n - (slip->to - slip->from);
}

static bool names_shirt(const struct seed_notes *s, const struct seed_slip *slip, struct str line) {
    struct seed_serve v;
    struct seed_words w;
    if (seed_serve_of(&v, s, line))
        return v.letter == slip->letter && among(v.shirt, slip->shirts, 2);
    if (!seed_words_of(&w, line) || w.n < 3 || w.at[1].at[0] != slip->letter)
        return false;
    for (unsigned k = 2; k < w.n; k++) {
        unsigned shirt;
        if (seed_number(w.at[k], &shirt) && among(shirt, slip->shirts, 2))
            return true;
    }
    return false;
}

static unsigned shirt_below(const struct seed_notes *s, const struct seed_slip *slip) {
    for (unsigned i = slip->to; slip->letter && i < s->n; i++)
        if (names_shirt(s, slip, s->lines[i]))
            return spoilt_number(slip, i);
    return 0;
}

/* What was left out shows in the next serve, or where the head ends: only
 * there is it known that no line like it follows. */
static bool ends_wait(const struct seed_notes *s, const struct seed_slip *slip, unsigned i) {
    struct seed_serve v;
    return slip->in_head ? seed_opens(s->lines[i], "set") : seed_serve_of(&v, s, s->lines[i]);
}

static unsigned next_below(const struct seed_notes *s, const struct seed_slip *slip) {
    for (unsigned i = slip->to; i < s->n; i++)
        if (ends_wait(s, slip, i))
            return spoilt_number(slip, i);
    return 0;
}

bool seed_stands(const struct seed_notes *s, const struct seed_slip *slip, unsigned line) {
    unsigned first = slip->from + 1, last = slip->from + slip->by_n;
    if (!line)
        return false;
    if (!slip->by_n) {
        first--;
        last++;
        if (line == next_below(s, slip))
            return true;
    }
    return (line >= first && line <= last) || line == shirt_below(s, slip);
}

unsigned seed_score_below(const struct seed_notes *s, const struct seed_slip *slip) {
    for (unsigned i = slip->to; i < s->n; i++)
        if (seed_is_score(s->lines[i]))
            return spoilt_number(slip, i);
    return 0;
}
