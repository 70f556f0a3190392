/* A table for the terminal: a label and columns of cells, set to the right.
 * Where it is too wide, the least useful columns go first, and it says so. */
#ifndef NINEMETRE_CMD_GRID_H
#define NINEMETRE_CMD_GRID_H

#include "str.h"

enum { GRID_COLUMNS_MAX = 16 };

struct grid_line {
    struct str label;
    struct str cells[GRID_COLUMNS_MAX];
};

struct grid {
    struct arena *arena;
    const char *title;           /* above the labels */
    const char *titles[GRID_COLUMNS_MAX];
    unsigned ranks[GRID_COLUMNS_MAX];
    unsigned column_n, cell_n;
    struct grid_line *lines;
    size_t line_n, line_room;
};

void grid_init(struct grid *g, const char *title, struct arena *a);

/* A column; the highest rank goes first, rank 0 never. */
void grid_column(struct grid *g, const char *title, unsigned rank);

/* Begins a row; its cells follow, one a column. */
void grid_row(struct grid *g, struct str label);
void grid_cell(struct grid *g, struct str text);

/* Adds the table to `b`, at most `width` cells wide; 0: as wide as need be. */
void grid_put(struct grid *g, struct buf *b, unsigned width);

/* Adds a paragraph, broken at blanks to the same width. */
void grid_note(struct buf *b, struct str text, unsigned width);

#endif
