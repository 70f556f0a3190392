/* Titles, section heads and column heads, with room for the longer words of
 * other languages: notes and heads take a second line, upwards, so that nothing
 * below them moves. */
#include "page/draw.h"

static const double title_mm = 11.8, rule_mm = 2.5, note_lead_mm = 3.2, beside_mm = 3;
static const double heading_note_mm = 58;
static const double column_lead_mm = 2.65, column_down_mm = 0.7;

/* Right-aligned in as many lines as it takes, the last one at y. */
static void lines_up(struct draw *d, double end_mm, double wide_mm, double y_mm, double lead_mm,
                       struct type type, struct str words) {
    struct draw nowhere = *d;
    struct page blank = {.name = STR_NONE};
    nowhere.page = &blank;
    page_wrapped(&nowhere, 0, 0, 0, wide_mm, lead_mm, type, words, NULL);
    for (size_t i = 0; i < blank.n; i++)
        page_right(d, end_mm, y_mm - (double)(blank.n - 1 - i) * lead_mm, type,
                   blank.items[i].words);
}

void page_beside(struct draw *d, double from_mm, double end_mm, double y_mm, struct str note) {
    if (note.n > 0)
        lines_up(d, end_mm, end_mm - from_mm - beside_mm, y_mm, note_lead_mm, TYPE_NOTE, note);
}

void page_heading(struct draw *d, struct str title, struct str note) {
    struct type type = {TYPE_TITLE_PT, FACE_BOLD, INK_BLACK};
    double room = PAGE_WIDE_MM - (note.n > 0 ? heading_note_mm : 0);
    double wide = page_words(d, 0, title_mm, type, page_cut(d, title, type, room));
    page_beside(d, wide, PAGE_WIDE_MM, title_mm, note);
}

void page_section(struct draw *d, double x_mm, double end_mm, double y_mm, struct str head,
                  struct str note) {
    double wide =
        page_words(d, x_mm, y_mm, TYPE_HEAD, page_cut(d, head, TYPE_HEAD, end_mm - x_mm));
    page_beside(d, x_mm + wide, end_mm, y_mm, note);
    page_rule(d, x_mm, end_mm, y_mm + rule_mm, RULE_TABLE_PT);
}

/* Set a little smaller before it breaks. Two lines stand closer and a little
 * lower, between the rules above and below. */
void page_column(struct draw *d, double end_mm, double wide_mm, double y_mm, struct str words) {
    struct type small = {TYPE_EDGE_PT, FACE_REGULAR, INK_NOTE};
    if (page_width(d, words, TYPE_NOTE) <= wide_mm)
        page_right(d, end_mm, y_mm, TYPE_NOTE, words);
    else if (page_width(d, words, small) <= wide_mm)
        page_right(d, end_mm, y_mm, small, words);
    else
        lines_up(d, end_mm, wide_mm, y_mm + column_down_mm, column_lead_mm, small, words);
}

double page_note(struct draw *d, double x_mm, double y_mm, double wide_mm, struct str words) {
    return page_wrapped(d, x_mm, 0, y_mm, wide_mm, note_lead_mm, TYPE_NOTE, words, NULL);
}
