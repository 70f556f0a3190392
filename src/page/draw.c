/* Items of a page, and the head and foot that every page has. */
#include "page/draw.h"

#include <assert.h>
#include <math.h>

static const double head_mm = 2.6, head_rule_mm = 4.2, head_wide_mm = 120;
static const double foot_rule_mm = 245.2, foot_mm = 248.4;

#define ELLIPSIS STR("…")

struct str page_incomplete(const struct draw *d) {
    unsigned unread = d->tally ? d->tally->checked->unread : 0, errors = d->facts->errors;
    if (unread > 0)
        return page_say_n(d, unread, "INCOMPLETE: %u line unread", "INCOMPLETE: %u lines unread",
                          unread);
    if (errors > 0)
        return page_say_n(d, errors, "INCOMPLETE: %u error in the notes",
                          "INCOMPLETE: %u errors in the notes", errors);
    if (d->tally && d->tally->checked->incomplete)
        return page_say(d, "INCOMPLETE: the notes have a gap");
    if (d->facts->left_out)
        return page_say(d, "INCOMPLETE: notes of the season are missing");
    return STR_NONE;
}

void page_begin(struct draw *d, struct str name) {
    struct pages *all = d->pages;
    all->at = arena_grow(all->arena, all->at, all->n, &all->room, sizeof *all->at);
    d->page = &all->at[all->n++];
    *d->page = (struct page){.name = name};
    d->push_mm = 0;
    struct str why = page_incomplete(d);
    if (why.n == 0)
        return;
    page_words(d, 0, BODY_TOP_MM + 1.5, TYPE_TEXT_BOLD, why);
    d->push_mm = 5;
}

struct page_item *page_add(struct draw *d, struct page_item item) {
    struct page *p = d->page;
    assert(isfinite(item.x_mm) && isfinite(item.y_mm) && isfinite(item.x2_mm) &&
           isfinite(item.y2_mm));
    p->items = arena_grow(d->arena, p->items, p->n, &p->room, sizeof *p->items);
    p->items[p->n] = item;
    return &p->items[p->n++];
}

double page_width(const struct draw *d, struct str words, struct type type) {
    if (words.n == 0)
        return 0;
    return d->font->width_mm(d->font->context, words, type.face, type.pt);
}

double page_words(struct draw *d, double x_mm, double y_mm, struct type type, struct str words) {
    if (words.n == 0)
        return 0;
    page_add(d, (struct page_item){.kind = PAGE_WORDS,
                                   .x_mm = x_mm,
                                   .y_mm = y_mm + d->push_mm,
                                   .words = words,
                                   .face = type.face,
                                   .type_pt = type.pt,
                                   .ink = type.ink});
    return page_width(d, words, type);
}

double page_right(struct draw *d, double x_mm, double y_mm, struct type type, struct str words) {
    double wide = page_width(d, words, type);
    page_words(d, x_mm - wide, y_mm, type, words);
    return wide;
}

void page_centred(struct draw *d, double x_mm, double y_mm, struct type type, struct str words) {
    page_words(d, x_mm - page_width(d, words, type) / 2, y_mm, type, words);
}

/* The longest part that ends between two letters and, with the ellipsis, fits:
 * width grows with the letters, so the end is searched for by halving. */
struct str page_cut(const struct draw *d, struct str words, struct type type, double wide_mm) {
    if (page_width(d, words, type) <= wide_mm)
        return words;
    struct buf b;
    size_t low = 0, high = words.n;
    while (low < high) {
        size_t middle = low + (high - low + 1) / 2;
        while (middle < high && ((unsigned char)words.at[middle] & 0xC0) == 0x80)
            middle++;
        buf_init(&b, d->arena);
        buf_add(&b, str_trim(str_part(words, 0, middle)));
        buf_add(&b, ELLIPSIS);
        if (page_width(d, buf_str(&b), type) <= wide_mm)
            low = middle;
        else
            high = middle - 1;
        while (high > low && ((unsigned char)words.at[high] & 0xC0) == 0x80)
            high--;
    }
    buf_init(&b, d->arena);
    buf_add(&b, str_trim(str_part(words, 0, low)));
    buf_add(&b, ELLIPSIS);
    return buf_str(&b);
}

/* How many bytes of `words` fit into the width: whole words, at least one. */
static size_t fits(const struct draw *d, struct str words, struct type type, double wide_mm,
                   bool one_at_least) {
    size_t good = 0;
    for (size_t i = 1; i <= words.n; i++) {
        if (i < words.n && words.at[i] != ' ')
            continue;
        if (page_width(d, str_part(words, 0, i), type) > wide_mm && (good || !one_at_least))
            return good;
        if (page_width(d, str_part(words, 0, i), type) > wide_mm)
            return i;
        good = i;
    }
    return good;
}

double page_wrapped(struct draw *d, double x_mm, double first_mm, double y_mm, double wide_mm,
                    double lead_mm, struct type type, struct str words, double *end_mm) {
    double from = first_mm;
    words = str_trim(words);
    while (words.n > 0) {
        size_t n = fits(d, words, type, wide_mm - from, from <= 0);
        struct str line = page_cut(d, str_part(words, 0, n), type, wide_mm - from);
        if (n > 0)
            from += page_words(d, x_mm + from, y_mm, type, line);
        words = str_trim(str_part(words, n, words.n));
        if (words.n > 0) {
            from = 0;
            y_mm += lead_mm;
        }
    }
    if (end_mm)
        *end_mm = from;
    return y_mm;
}

void page_dashed(struct draw *d, double x_mm, double y_mm, double x2_mm, double y2_mm,
                 double line_pt, enum page_ink ink, double on_mm, double off_mm) {
    page_add(d, (struct page_item){.kind = PAGE_LINE,
                                   .x_mm = x_mm,
                                   .y_mm = y_mm + d->push_mm,
                                   .x2_mm = x2_mm,
                                   .y2_mm = y2_mm + d->push_mm,
                                   .line_pt = line_pt,
                                   .ink = ink,
                                   .on_mm = on_mm,
                                   .off_mm = off_mm});
}

void page_line(struct draw *d, double x_mm, double y_mm, double x2_mm, double y2_mm, double line_pt,
               enum page_ink ink) {
    page_dashed(d, x_mm, y_mm, x2_mm, y2_mm, line_pt, ink, 0, 0);
}

void page_rule(struct draw *d, double x_mm, double x2_mm, double y_mm, double line_pt) {
    page_line(d, x_mm, y_mm, x2_mm, y_mm, line_pt, INK_BLACK);
}

void page_circle(struct draw *d, double x_mm, double y_mm, double radius_mm, double line_pt,
                 enum page_ink ink, enum page_ink fill) {
    page_add(d, (struct page_item){.kind = PAGE_CIRCLE,
                                   .x_mm = x_mm,
                                   .y_mm = y_mm + d->push_mm,
                                   .size_mm = radius_mm,
                                   .line_pt = line_pt,
                                   .ink = ink,
                                   .fill = fill});
}

void page_put(struct draw *d, double x_mm, double y_mm, double a_mm, enum page_mark mark,
              const struct played *serve) {
    page_add(d, (struct page_item){.kind = PAGE_MARK,
                                   .x_mm = x_mm,
                                   .y_mm = y_mm + d->push_mm,
                                   .size_mm = a_mm,
                                   .mark = mark,
                                   .serve = serve});
}

struct str page_number(const struct draw *d, unsigned n) {
    return str_printf(d->arena, "%u", n);
}

struct str page_fraction(const struct draw *d, struct rate r) {
    if (r.n == 0)
        return STR("–");
    return str_printf(d->arena, "%u/%u", r.x, r.n);
}

/* "  1f2e3d4c5b6a · 9m 1.0 · notation 1": what stands behind the file's name. */
static struct str foot_end(const struct draw *d) {
    const struct page_facts *f = d->facts;
    struct buf b;
    buf_init(&b, d->arena);
    if (f->file.n > 0)
        buf_printf(&b, "%s%.*s · ", f->hash.n > 0 ? "  " : "", STR_ARG(f->hash));
    buf_printf(&b, "9m%s%.*s · ", f->version.n > 0 ? " " : "", STR_ARG(f->version));
    buf_add(&b, page_say(d, "notation 1"));
    return buf_str(&b);
}

static void draw_edge(struct draw *d, struct str left, size_t number) {
    struct page *p = &d->pages->at[number];
    d->page = p;
    d->push_mm = 0;
    page_words(d, 0, head_mm, TYPE_EDGE, page_cut(d, left, TYPE_EDGE, head_wide_mm));
    page_right(d, PAGE_WIDE_MM, head_mm, TYPE_EDGE, p->name);
    page_line(d, 0, head_rule_mm, PAGE_WIDE_MM, head_rule_mm, RULE_GRID_PT, INK_NOTE);
    page_line(d, 0, foot_rule_mm, PAGE_WIDE_MM, foot_rule_mm, RULE_GRID_PT, INK_NOTE);
    struct str end = foot_end(d);
    struct str file = page_cut(d, d->facts->file, TYPE_EDGE,
                               PAGE_WIDE_MM - 25 - page_width(d, end, TYPE_EDGE));
    double wide = page_words(d, 0, foot_mm, TYPE_EDGE, file);
    page_words(d, wide, foot_mm, TYPE_EDGE, end);
    page_right(d, PAGE_WIDE_MM, foot_mm, TYPE_EDGE,
               page_sayf(d, "page %zu of %zu", number + 1, d->pages->n));
}

void page_edges(struct draw *d, struct str left) {
    for (size_t i = 0; i < d->pages->n; i++)
        draw_edge(d, left, i);
}
