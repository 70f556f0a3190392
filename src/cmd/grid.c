#include <assert.h>
#include <stdint.h>

#include "cmd/grid.h"

enum { BETWEEN_CELLS = 2, LABEL_LEAST = 8 };

void grid_init(struct grid *g, const char *title, struct arena *a) {
    *g = (struct grid){.arena = a, .title = title};
}

void grid_column(struct grid *g, const char *title, unsigned rank) {
    assert(g->column_n < GRID_COLUMNS_MAX && !g->line_n);
    g->titles[g->column_n] = title;
    g->ranks[g->column_n++] = rank;
}

void grid_row(struct grid *g, struct str label) {
    g->lines = arena_grow(g->arena, g->lines, g->line_n, &g->line_room, sizeof *g->lines);
    g->lines[g->line_n++].label = label;
    g->cell_n = 0;
}

void grid_cell(struct grid *g, struct str text) {
    assert(g->cell_n < g->column_n);
    g->lines[g->line_n - 1].cells[g->cell_n++] = text;
}

/* How the columns are laid out: cells of each, 0 for one that is left out. */
struct layout {
    unsigned label;
    unsigned cells[GRID_COLUMNS_MAX];
    bool kept[GRID_COLUMNS_MAX];
};

static unsigned wider(unsigned a, struct str text) {
    unsigned cells = str_cells(text, 0);

    return cells > a ? cells : a;
}

static void measure(const struct grid *g, struct layout *l) {
    l->label = str_cells(str_of(g->title), 0);
    for (size_t i = 0; i < g->line_n; i++)
        l->label = wider(l->label, g->lines[i].label);
    for (unsigned c = 0; c < g->column_n; c++) {
        l->kept[c] = true;
        l->cells[c] = str_cells(str_of(g->titles[c]), 0);
        for (size_t i = 0; i < g->line_n; i++)
            l->cells[c] = wider(l->cells[c], g->lines[i].cells[c]);
    }
}

static unsigned total(const struct grid *g, const struct layout *l) {
    unsigned cells = l->label;

    for (unsigned c = 0; c < g->column_n; c++)
        if (l->kept[c])
            cells += BETWEEN_CELLS + l->cells[c];
    return cells;
}

/* False when only columns of rank 0 are left. */
static bool drop_one(const struct grid *g, struct layout *l) {
    unsigned worst = GRID_COLUMNS_MAX;

    for (unsigned c = 0; c < g->column_n; c++)
        if (l->kept[c] && g->ranks[c] &&
            (worst == GRID_COLUMNS_MAX || g->ranks[c] > g->ranks[worst]))
            worst = c;
    if (worst == GRID_COLUMNS_MAX)
        return false;
    l->kept[worst] = false;
    return true;
}

static void fit(const struct grid *g, struct layout *l, unsigned width) {
    unsigned over;

    if (!width)
        return;
    while (total(g, l) > width && drop_one(g, l))
        ;
    if (total(g, l) <= width)
        return;
    over = total(g, l) - width;
    l->label = l->label > over + LABEL_LEAST ? l->label - over : LABEL_LEAST;
}

static void put_blanks(struct buf *b, unsigned n) {
    while (n--)
        buf_char(b, ' ');
}

/* The text, cut with an ellipsis where it is wider than `room`. */
static void put_label(struct buf *b, struct str text, unsigned room) {
    unsigned code_point;
    size_t fits = 0, n;

    if (str_cells(text, 0) <= room) {
        buf_add(b, text);
        put_blanks(b, room - str_cells(text, 0));
        return;
    }
    while ((n = str_code_point(text, fits, &code_point)) &&
           str_cells(str_part(text, 0, fits + n), 0) < room)
        fits += n;
    buf_add(b, str_part(text, 0, fits));
    buf_add(b, STR("\xE2\x80\xA6")); /* U+2026 */
    put_blanks(b, room - 1 - str_cells(str_part(text, 0, fits), 0));
}

static void trim_line(struct buf *b) {
    while (b->n && b->at[b->n - 1] == ' ')
        b->n--;
    buf_char(b, '\n');
}

static void put_line(const struct grid *g, const struct layout *l, const struct grid_line *line,
                     struct buf *b) {
    put_label(b, line->label, l->label);
    for (unsigned c = 0; c < g->column_n; c++) {
        if (!l->kept[c])
            continue;
        put_blanks(b, BETWEEN_CELLS + l->cells[c] - str_cells(line->cells[c], 0));
        buf_add(b, line->cells[c]);
    }
    trim_line(b);
}

void grid_note(struct buf *b, struct str text, unsigned width) {
    unsigned cells = 0;
    size_t n;

    for (size_t at = 0; at < text.n; at += n + 1) {
        struct str word;

        for (n = 0; at + n < text.n && text.at[at + n] != ' ';)
            n++;
        word = str_part(text, at, n);
        if (cells && width && cells + 1 + str_cells(word, 0) > width) {
            buf_char(b, '\n');
            cells = 0;
        } else if (cells) {
            buf_char(b, ' ');
            cells++;
        }
        buf_add(b, word);
        cells += str_cells(word, 0);
    }
    buf_char(b, '\n');
}

static void put_left_out(const struct grid *g, const struct layout *l, struct buf *b,
                         unsigned width) {
    const char *between = "(no room for ";
    struct buf note;

    buf_init(&note, g->arena);
    for (unsigned c = 0; c < g->column_n; c++)
        if (!l->kept[c]) {
            buf_printf(&note, "%s%s", between, g->titles[c]);
            between = ", ";
        }
    if (!note.n)
        return;
    buf_add(&note, STR("; --wide has room)"));
    grid_note(b, buf_str(&note), width);
}

/* Blanks that every cell of the column ends in. */
static size_t common_blanks(const struct grid *g, unsigned column) {
    size_t least = SIZE_MAX;

    for (size_t i = 0; i < g->line_n; i++) {
        struct str s = g->lines[i].cells[column];
        size_t n = 0;

        while (n < s.n && s.at[s.n - 1 - n] == ' ')
            n++;
        least = n < least ? n : least;
    }
    return g->line_n ? least : 0;
}

static void cut_blanks(struct grid *g) {
    for (unsigned c = 0; c < g->column_n; c++) {
        size_t n = common_blanks(g, c);

        for (size_t i = 0; i < g->line_n; i++)
            g->lines[i].cells[c].n -= n;
    }
}

void grid_put(struct grid *g, struct buf *b, unsigned width) {
    struct grid_line head = {.label = str_of(g->title)};
    struct layout l;

    for (unsigned c = 0; c < g->column_n; c++)
        head.cells[c] = str_of(g->titles[c]);
    cut_blanks(g);
    measure(g, &l);
    fit(g, &l, width);
    put_line(g, &l, &head, b);
    for (size_t i = 0; i < g->line_n; i++)
        put_line(g, &l, &g->lines[i], b);
    put_left_out(g, &l, b, width);
}
