#include <stdint.h>

#include "cmd/cmd.h"
#include "cmd/excerpt.h"

/* No message is wider, and what stands behind a label starts in one column. */
enum { WIDTH_MAX = 100, LABEL_COLUMN = 12, NEAR_LINES = 2, FIRST_LINE_LEAST = 24 };

enum paint { PAINT_NONE, PAINT_PLACE, PAINT_ERROR, PAINT_WARNING, PAINT_REVIEW };

/* Colour only repeats what the words say (ISO 6429, SGR). */
static const char *paint(const struct cmd_show *how, enum paint p) {
    static const char *const codes[] = {"\33[0m", "\33[1m", "\33[1;31m", "\33[1;35m", "\33[1;36m"};

    return how->color ? codes[p] : "";
}

static enum paint severity_paint(enum severity s) {
    switch (s) {
    case SEVERITY_ERROR:
        return PAINT_ERROR;
    case SEVERITY_WARNING:
        return PAINT_WARNING;
    case SEVERITY_REVIEW:
        return PAINT_REVIEW;
    }
    return PAINT_NONE;
}

const char *cmd_severity(enum severity s) {
    switch (s) {
    case SEVERITY_ERROR:
        return "error";
    case SEVERITY_WARNING:
        return "warning";
    case SEVERITY_REVIEW:
        return "review";
    }
    return "";
}

void cmd_show_init(struct cmd_show *how, FILE *to, bool color) {
    *how = (struct cmd_show){.to = to, .color = color, .left = SIZE_MAX};
}

bool cmd_show_takes(struct cmd_show *how, const struct diag *diag) {
    if (diag_info(diag->id)->severity == SEVERITY_REVIEW && !how->reviews)
        return false;
    if (!how->left) {
        how->omitted++;
        return false;
    }
    how->left--;
    how->shown++;
    return true;
}

static struct str safe(struct arena *a, struct str s, unsigned from) {
    struct buf b;

    buf_init(&b, a);
    cmd_safe(&b, s, from);
    return buf_str(&b);
}

/* How much of `s` fits into `room` cells: up to its last blank, else (a word
 * that is wider by itself) up to the last letter. */
static size_t fitting(struct str s, unsigned room) {
    size_t fit = 0, blank = 0;
    unsigned cells = 0, code_point;

    if (str_cells(s, 0) <= room)
        return s.n;
    while (fit < s.n) {
        size_t n = str_code_point(s, fit, &code_point);

        n += n == 0;
        cells += str_cells(str_part(s, fit, n), cells);
        if (cells > room)
            break;
        fit += n;
        if (str_part(s, fit, 1).n && s.at[fit] == ' ')
            blank = fit;
    }
    return blank ? blank : fit ? fit : s.n;
}

static struct str without_blank(struct str s) {
    return s.n && s.at[0] == ' ' ? str_part(s, 1, s.n) : s;
}

/* One paragraph behind its label, or under it. */
static void put_wrapped(FILE *to, struct str s) {
    size_t n = fitting(s, WIDTH_MAX - LABEL_COLUMN);

    fprintf(to, "%.*s\n", (int)n, s.at ? s.at : "");
    for (s = without_blank(str_part(s, n, s.n)); s.n; s = without_blank(str_part(s, n, s.n))) {
        n = fitting(s, WIDTH_MAX - LABEL_COLUMN);
        fprintf(to, "%*s%.*s\n", LABEL_COLUMN, "", (int)n, s.at);
    }
}

static size_t line_length(struct str s) {
    size_t n = 0;

    while (n < s.n && s.at[n] != '\n')
        n++;
    return n;
}

static void put_label(struct cmd_show *how, const char *label, struct str text, struct arena *a) {
    for (bool first = true; text.n; first = false) {
        size_t n = line_length(text);

        fprintf(how->to, "  %-*s", LABEL_COLUMN - 2, first ? label : "");
        put_wrapped(how->to, safe(a, str_part(text, 0, n), 0));
        text = str_part(text, n + 1, text.n);
    }
}

static struct str place_name(struct place p, struct arena *a) {
    struct str file = safe(a, p.file, 0);

    if (!p.line)
        return file;
    return str_printf(a, "%.*s:%u:%u", STR_ARG(file), p.line, place_column(p));
}

/* The line of the GNU form. What has no room in it follows under a label: a
 * reader gets all of it, and a tool finds place and code where it looks. */
static void put_first(struct cmd_show *how, const struct diag *diag, struct arena *a) {
    const struct diag_info *info = diag_info(diag->id);
    const char *word = cmd_severity(info->severity);
    struct str name = place_name(diag->place, a), text = safe(a, diag->text, 0);
    struct str shown = text;
    unsigned taken = str_cells(name, 0) + str_cells(str_of(word), 0) + 4;
    const char *dots = "";
    char code[6];

    diag_code(info, code);
    taken += 8;
    if (!how->brief && taken + FIRST_LINE_LEAST <= WIDTH_MAX &&
        taken + str_cells(text, 0) > WIDTH_MAX + 1) {
        shown = str_part(text, 0, fitting(text, WIDTH_MAX - taken - 3));
        dots = " ...";
    }
    fprintf(how->to, "%s%.*s:%s %s%s:%s ", paint(how, PAINT_PLACE), STR_ARG(name),
            paint(how, PAINT_NONE), paint(how, severity_paint(info->severity)), word,
            paint(how, PAINT_NONE));
    fprintf(how->to, "%.*s%s [%s]\n", STR_ARG(shown), dots, code);
    if (shown.n < text.n)
        put_label(how, "...", str_trim(str_part(text, shown.n, text.n)), a);
}

/* Shown in the excerpt, with a caret of its own. */
static bool near(const struct diag *diag, const struct see *see) {
    unsigned line = diag->place.line;

    return see->place.line && line && str_eq(see->place.file, diag->place.file) &&
           see->place.line + NEAR_LINES >= line && see->place.line <= line + NEAR_LINES;
}

static void put_caret(struct cmd_show *how, const struct diag *diag, const struct see *see,
                      struct excerpt *e, struct arena *a) {
    struct place p = see ? see->place : diag->place;
    enum paint color = see ? PAINT_PLACE : severity_paint(diag_info(diag->id)->severity);
    struct str note = STR_NONE;

    excerpt_under(e, p.at, p.n);
    if (see && see->text.n)
        note = str_printf(a, " see: %.*s", STR_ARG(safe(a, see->text, 0)));
    else if (see)
        note = STR(" see");
    else if (e->caret_dot)
        note = STR(" shown as \"\xC2\xB7\""); /* U+00B7 */
    fprintf(how->to, "%*s | %*s%s", (int)e->margin, "", (int)e->caret_cell, "", paint(how, color));
    for (unsigned i = 0; i < e->caret_n; i++)
        putc('^', how->to);
    if (e->margin + 3 + e->caret_cell + e->caret_n + str_cells(note, 0) <= WIDTH_MAX) {
        fprintf(how->to, "%s%.*s\n", paint(how, PAINT_NONE), STR_ARG(note));
        return;
    }
    fprintf(how->to, "%s\n", paint(how, PAINT_NONE));
    if (see)
        put_label(how, "see", see->text, a);
}

/* One line of the excerpt, with the carets that belong under it. */
static void put_line(struct cmd_show *how, const struct diag *diag, struct place p,
                     struct arena *a) {
    struct excerpt e;

    excerpt_init(&e, p, WIDTH_MAX, a);
    fprintf(how->to, "%*u | %.*s\n", (int)e.margin, p.line, STR_ARG(e.shown));
    if (p.line == diag->place.line)
        put_caret(how, diag, NULL, &e, a);
    for (unsigned i = 0; i < diag->see_n; i++)
        if (near(diag, &diag->sees[i]) && diag->sees[i].place.line == p.line)
            put_caret(how, diag, &diag->sees[i], &e, a);
}

static const struct place *next_place(const struct diag *diag, unsigned above) {
    const struct place *next = diag->place.line > above ? &diag->place : NULL;

    for (unsigned i = 0; i < diag->see_n; i++) {
        const struct place *p = &diag->sees[i].place;

        if (near(diag, &diag->sees[i]) && p->line > above && (!next || p->line < next->line))
            next = p;
    }
    return next;
}

static void put_excerpt(struct cmd_show *how, const struct diag *diag, struct arena *a) {
    const struct place *p;

    if (!diag->place.line)
        return;
    for (unsigned above = 0; (p = next_place(diag, above)); above = p->line)
        put_line(how, diag, *p, a);
}

/* A second place that is not in the excerpt. */
static void put_see(struct cmd_show *how, const struct diag *diag, const struct see *see,
                    struct arena *a) {
    struct str text = see->text.n ? see->text : see->place.text;
    struct str where = STR_NONE;

    if (near(diag, see))
        return;
    if (see->place.line && str_eq(see->place.file, diag->place.file))
        where = str_printf(a, "line %u  ", see->place.line);
    else if (see->place.line)
        where = str_printf(a, "%.*s:%u  ", STR_ARG(see->place.file), see->place.line);
    put_label(how, "see", str_printf(a, "%.*s%.*s", STR_ARG(where), STR_ARG(text)), a);
}

static void put_diag(struct cmd_show *how, const struct diag *diag, struct arena *a) {
    put_first(how, diag, a);
    if (how->brief)
        return;
    put_excerpt(how, diag, a);
    for (unsigned i = 0; i < diag->see_n; i++)
        put_see(how, diag, &diag->sees[i], a);
    put_label(how, "expected", diag->expected, a);
    put_label(how, "try", diag->attempt, a);
    put_label(how, "likely", diag->likely, a);
    put_label(how, "done", diag->done, a);
    put_label(how, "rule", diag->rule, a);
    put_label(how, "hint", diag->hint, a);
}

void cmd_show(struct cmd_show *how, struct diags *d) {
    struct arena *a;

    if (!d->n)
        return;
    a = arena_new(cmd_no_memory);
    diags_sort(d);
    for (size_t i = 0; i < d->n; i++) {
        if (!cmd_show_takes(how, &d->at[i]))
            continue;
        if (!how->brief && how->shown > 1)
            putc('\n', how->to);
        put_diag(how, &d->at[i], a);
        arena_reset(a);
    }
    how->omitted += cmd_uncounted(d);
    arena_free(a);
}

/* A list is full at DIAGS_MAX messages, its counts go on. */
size_t cmd_uncounted(const struct diags *d) {
    return d->errors + d->warnings + d->reviews - d->n;
}

static void add_count(struct buf *b, size_t n, const char *one, const char *more) {
    if (n)
        buf_printf(b, "%s%zu %s", b->n ? ", " : "", n, n == 1 ? one : more);
}

void cmd_show_counts(FILE *to, size_t errors, size_t warnings, size_t reviews, size_t lines,
                     size_t unread) {
    struct arena *a = arena_new(cmd_no_memory);
    struct buf b;

    buf_init(&b, a);
    add_count(&b, errors, "error", "errors");
    add_count(&b, warnings, "warning", "warnings");
    add_count(&b, reviews, "to review", "to review");
    fprintf(to, "%.*s; ", STR_ARG(buf_str(&b)));
    if (unread)
        fprintf(to, "%zu of %zu lines read.", lines - unread, lines);
    else
        fprintf(to, "%s%zu line%s read.", lines > 1 ? "all " : "", lines, lines == 1 ? "" : "s");
    arena_free(a);
}

void cmd_show_summary(struct cmd_show *how, struct str name, const struct diags *d,
                      const struct checked *checked, const char *then) {
    struct arena *a;
    struct str file;

    if (how->brief || !(d->errors + d->warnings + (how->reviews ? d->reviews : 0)))
        return;
    a = arena_new(cmd_no_memory);
    file = safe(a, name, 0);
    fprintf(how->to, "\n%.*s: ", STR_ARG(file));
    cmd_show_counts(how->to, d->errors, d->warnings, d->reviews, checked->lines, checked->unread);
    fprintf(how->to, "%s%s\n", then ? " " : "", then ? then : "");
    arena_free(a);
}

void cmd_show_rest(const struct cmd_show *how) {
    if (how->omitted)
        fprintf(how->to, "%sand %zu more\n", how->brief ? "" : "\n", how->omitted);
}
