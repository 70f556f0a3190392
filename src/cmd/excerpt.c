#include "cmd/excerpt.h"

/* A line of notes has at most TEXT_LINE_MAX_BYTES, but a file that holds none
 * may have lines of any length: this much on either side is looked at. */
enum { LOOK_BYTES = TEXT_LINE_MAX_BYTES, MARGIN_LEAST = 5, CUT_CELLS = 3 };

#define CUT_MARK "..."

static bool inside_letter(struct str s, size_t at) {
    return at < s.n && ((unsigned char)s.at[at] & 0xC0) == 0x80;
}

static void choose_bytes(struct excerpt *e, struct place p) {
    size_t from = p.at > LOOK_BYTES ? p.at - LOOK_BYTES : 0;

    for (int i = 0; i < 3 && from > 0 && inside_letter(p.text, from); i++)
        from--;
    e->line = str_part(p.text, from, 2 * LOOK_BYTES);
    e->line_from = from;
}

static void measure(struct excerpt *e, struct buf *all, size_t *shown_at) {
    unsigned cell = 0;

    for (size_t at = 0; at < e->line.n;) {
        size_t was = all->n, n;
        bool dot;

        n = cmd_safe_char(all, e->line, at, cell, &dot);
        for (size_t i = at; i < at + n; i++) {
            e->cells[i] = cell;
            e->dots[i] = dot;
            shown_at[i] = was;
        }
        cell += str_cells(str_part(buf_str(all), was, all->n - was), cell);
        at += n;
    }
    e->cells[e->line.n] = cell;
    shown_at[e->line.n] = all->n;
}

/* The caret in the middle, but no room given away at the ends. */
static void choose_cells(struct excerpt *e, unsigned caret, unsigned room) {
    unsigned all = e->cells[e->line.n], half = room / 2, end_room = room - CUT_CELLS;

    e->to = all;
    if (all <= room)
        return;
    e->from = caret > half + CUT_CELLS ? caret - half : 0;
    if (e->from + end_room > all)
        e->from = all - end_room;
    e->lead = e->from ? CUT_CELLS : 0;
    e->to = e->from + room - e->lead;
    if (e->to < all)
        e->to -= CUT_CELLS;
}

static size_t first_at(const struct excerpt *e, unsigned cell) {
    size_t i = 0;

    while (i < e->line.n && e->cells[i] < cell)
        i++;
    return i;
}

/* The last letter boundary at or before the cell. */
static size_t last_at(const struct excerpt *e, unsigned cell) {
    size_t i = e->line.n;

    while (i > 0 && (e->cells[i] > cell || (i < e->line.n && e->cells[i] == e->cells[i - 1])))
        i--;
    return i;
}

void excerpt_init(struct excerpt *e, struct place p, unsigned width_max, struct arena *a) {
    struct buf all, cut;
    size_t *shown_at;
    size_t first, last;

    *e = (struct excerpt){.margin = MARGIN_LEAST};
    for (unsigned line = p.line; line >= 100000; line /= 10)
        e->margin++;
    choose_bytes(e, p);
    e->cells = arena_alloc(a, e->line.n + 1, sizeof *e->cells);
    e->dots = arena_alloc(a, e->line.n + 1, sizeof *e->dots);
    shown_at = arena_alloc(a, e->line.n + 1, sizeof *shown_at);
    buf_init(&all, a);
    measure(e, &all, shown_at);
    excerpt_under(e, p.at, p.n);
    choose_cells(e, e->caret_cell, width_max - e->margin - 3);
    first = first_at(e, e->from);
    last = last_at(e, e->to);
    e->from = e->cells[first];
    buf_init(&cut, a);
    buf_add(&cut, e->lead ? STR(CUT_MARK) : STR_NONE);
    buf_add(&cut, str_part(buf_str(&all), shown_at[first], shown_at[last] - shown_at[first]));
    buf_add(&cut, last < e->line.n ? STR(CUT_MARK) : STR_NONE);
    e->to = e->cells[last];
    e->shown = buf_str(&cut);
}

static size_t byte_of(const struct excerpt *e, size_t at) {
    at = at > e->line_from ? at - e->line_from : 0;
    return at < e->line.n ? at : e->line.n;
}

void excerpt_under(struct excerpt *e, size_t at, size_t n) {
    size_t first = byte_of(e, at), last = byte_of(e, at + n);
    unsigned cell = e->cells[first], end = e->cells[last];

    if (e->to && end > e->to)
        end = e->to;
    e->caret_n = end > cell ? end - cell : 1;
    e->caret_cell = cell > e->from ? cell - e->from + e->lead : e->lead;
    e->caret_dot = n > 0 && first < e->line.n && e->dots[first];
}
