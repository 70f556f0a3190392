#include "kit/roughen.h"

#include <stdlib.h>
#include <string.h>
#include <utf8proc.h>

enum { FIELDS_MAX = 40 };

/* A line as fields and what a comment begins with; texts in quotes stay whole. */
struct fields {
    struct str at[FIELDS_MAX];
    unsigned n;
    struct str comment;
};

static size_t field_length(struct str s) {
    bool quoted = false;
    size_t i = 0;

    while (i < s.n && (quoted || s.at[i] != ' ')) {
        if (quoted && s.at[i] == '\\')
            i++;
        else if (s.at[i] == '"')
            quoted = !quoted;
        i++;
    }
    return i;
}

/* False if the line has too many fields to be taken apart. */
static bool fields_cut(struct fields *f, struct str line) {
    *f = (struct fields){.n = 0};
    for (size_t i = 0; i < line.n;) {
        size_t n = field_length(str_part(line, i, line.n));
        if (line.at[i] == '#') {
            f->comment = str_part(line, i, line.n);
            return true;
        }
        if (n && f->n == FIELDS_MAX)
            return false;
        if (n)
            f->at[f->n++] = str_part(line, i, n);
        i += n ? n : 1;
    }
    return true;
}

static bool digit(char c) {
    return c >= '0' && c <= '9';
}

/* `7`, `G3`, `G` or `.` open a serve; `2-3` does not. */
static bool serve(const struct fields *f) {
    struct str w = f->n > 1 ? f->at[0] : STR_NONE;

    if (w.n == 0 || w.n > 3)
        return false;
    if (str_is(w, "."))
        return true;
    for (size_t i = w.at[0] >= 'A' && w.at[0] <= 'Z'; i < w.n; i++)
        if (!digit(w.at[i]))
            return false;
    return true;
}

static bool outcome(struct str w) {
    static const char *const words[] = {
        "ace", "in3", "in2", "in1", "play", "in", "over", "net", "long", "left", "right",
        "antenna", "ceiling", "mate", "foot", "clock", "order", "drop", "screen", "replay",
        "overlap"
    };
    size_t n = 0;

    while (n < w.n && w.at[n] != '+' && w.at[n] != '-')
        n++;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (str_is(str_part(w, 0, n), words[i]))
            return true;
    return false;
}

static void turn_round(struct str *at, unsigned n) {
    for (unsigned i = 0; i < n / 2; i++) {
        struct str other = at[n - 1 - i];
        at[n - 1 - i] = at[i];
        at[i] = other;
    }
}

/* What stands before the outcome, and behind it, may stand in any order. */
static void reorder(struct fields *f) {
    unsigned k = 1;

    while (k < f->n && !outcome(f->at[k]))
        k++;
    if (k == f->n)
        return;
    turn_round(f->at + 1, k - 1);
    turn_round(f->at + k + 1, f->n - k - 1);
}

static bool checkpoint(const struct fields *f) {
    return f->n == 1 && f->at[0].n >= 3 && digit(f->at[0].at[0]) &&
           memchr(f->at[0].at, '-', f->at[0].n);
}

static void field_put(struct buf *out, struct str w, bool capitals) {
    for (size_t i = 0; i < w.n; i++) {
        bool small = w.at[i] >= 'a' && w.at[i] <= 'z';
        buf_char(out, capitals && small ? (char)(w.at[i] - 'a' + 'A') : w.at[i]);
    }
}

static void gap_put(struct buf *out, unsigned kinds, struct dice *d) {
    static const char *const gaps[] = {" ", " ", "  ", "\t", " \t "};

    buf_add(out, str_of(kinds & ROUGH_BLANKS ? gaps[dice_below(d, 5)] : " "));
}

static void line_put(struct buf *out, struct fields *f, unsigned kinds, char ours,
                     struct dice *d) {
    bool of_serve = serve(f);

    if (kinds & ROUGH_BLANKS && f->n && dice_in(d, 200))
        buf_add(out, STR("  "));
    if (kinds & ROUGH_WORDY && checkpoint(f) && dice_in(d, 500))
        buf_add(out, STR("score "));
    if (kinds & ROUGH_WORDY && of_serve && digit(f->at[0].at[0]) && dice_in(d, 300))
        buf_char(out, ours);
    if (of_serve && kinds & ROUGH_ORDER)
        reorder(f);
    for (unsigned i = 0; i < f->n; i++) {
        if (i)
            gap_put(out, kinds, d);
        field_put(out, f->at[i], of_serve && kinds & ROUGH_CAPITALS && i);
    }
    if (f->comment.n && f->n)
        gap_put(out, kinds, d);
    buf_add(out, f->comment);
    if (kinds & ROUGH_TRAILING && dice_in(d, 400))
        buf_add(out, dice_in(d, 500) ? STR("  ") : STR("\t"));
}

static struct str apart(struct str s, struct arena *a) {
    utf8proc_uint8_t *made = NULL;
    utf8proc_ssize_t n =
        utf8proc_map((const utf8proc_uint8_t *)s.at, (utf8proc_ssize_t)s.n, &made,
                     (utf8proc_option_t)(UTF8PROC_STABLE | UTF8PROC_DECOMPOSE));
    struct str out = n < 0 ? s : str_copy(a, (struct str){(const char *)made, (size_t)n});

    free(made);
    return out;
}

struct str roughen(struct str notes, unsigned kinds, char ours, struct dice *d, struct arena *a) {
    struct str end = kinds & ROUGH_CRLF ? STR("\r\n") : STR("\n");
    struct buf out;

    buf_init(&out, a);
    if (kinds & ROUGH_NFD)
        notes = apart(notes, a);
    if (kinds & ROUGH_BOM)
        buf_add(&out, STR("\xEF\xBB\xBF"));
    for (size_t i = 0; i < notes.n;) {
        const char *newline = memchr(notes.at + i, '\n', notes.n - i);
        size_t n = newline ? (size_t)(newline - notes.at) - i : notes.n - i;
        struct str line = str_part(notes, i, n);
        struct fields f;
        if (fields_cut(&f, line))
            line_put(&out, &f, kinds, ours, d);
        else
            buf_add(&out, line);
        i += n + 1;
        if (i >= notes.n && kinds & ROUGH_OPEN_END)
            break;
        buf_add(&out, end);
        if (kinds & ROUGH_LINES && line.n == 0)
            buf_add(&out, end);
    }
    return buf_str(&out);
}
