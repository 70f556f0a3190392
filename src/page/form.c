/* A form to score by hand when there is no laptop: one line a serve, its columns
 * in the order in which the notation wants them, so that it is typed in later
 * without thinking. */
#include "page/draw.h"

static const double facts_y_mm = 20, sheet_y_mm = 31, row_mm = 6, gap_mm = 5;
enum { ROWS = 32, BLOCKS = 2 };

static const struct column {
    const char *head;
    double wide_mm;
} columns[] = {
    {WORDS("server"), 13}, {WORDS("start, aim"), 17}, {WORDS("marks"), 13},
    {WORDS("outcome"), 15}, {WORDS("where"), 11},     {WORDS("by"), 8},
    {WORDS("score"), 9},
};

enum { COLUMNS = sizeof columns / sizeof *columns };

static double block_wide_mm(void) {
    double wide = 0;
    for (unsigned i = 0; i < COLUMNS; i++)
        wide += columns[i].wide_mm;
    return wide;
}

/* Words, and a line to write on behind them. */
static void blank(struct draw *d, double x_mm, double end_mm, double y_mm, struct str words) {
    double wide = page_words(d, x_mm, y_mm, TYPE_TABLE, words);
    page_rule(d, x_mm + wide + 1.5, end_mm, y_mm + 0.6, RULE_HEAD_PT);
}

static void occasion(struct draw *d) {
    blank(d, 0, 44, facts_y_mm, page_say(d, "date, time"));
    blank(d, 47, 130, facts_y_mm, page_say(d, "match"));
    blank(d, 133, PAGE_WIDE_MM, facts_y_mm, page_say(d, "scorer"));
    blank(d, 0, 64, facts_y_mm + 7, page_say(d, "our letter, team"));
    blank(d, 67, 130, facts_y_mm + 7, page_say(d, "theirs"));
    blank(d, 133, 152, facts_y_mm + 7, page_say(d, "set"));
    blank(d, 155, PAGE_WIDE_MM, facts_y_mm + 7, page_say(d, "first"));
}

static void block(struct draw *d, double x_mm) {
    double end = x_mm + block_wide_mm(), x = x_mm, bottom = sheet_y_mm + 4.6 + ROWS * row_mm;
    page_rule(d, x_mm, end, sheet_y_mm, RULE_TABLE_PT);
    for (unsigned i = 0; i < COLUMNS; i++) {
        page_words(d, x + 0.6, sheet_y_mm + 3.4, TYPE_NOTE, page_say(d, columns[i].head));
        x += columns[i].wide_mm;
        if (i + 1 < COLUMNS)
            page_dashed(d, x, sheet_y_mm + 4.6, x, bottom, RULE_GRID_PT, INK_NOTE, 0.3, 0.7);
    }
    page_rule(d, x_mm, end, sheet_y_mm + 4.6, RULE_HEAD_PT);
    for (unsigned i = 1; i <= ROWS; i++)
        page_line(d, x_mm, sheet_y_mm + 4.6 + i * row_mm, end, sheet_y_mm + 4.6 + i * row_mm,
                  i % 5 ? RULE_GRID_PT : RULE_TABLE_PT, INK_NOTE);
}

/* Every word of a class, one blank between them. */
static struct str words_of(struct draw *d, enum word_class class) {
    struct buf b;
    buf_init(&b, d->arena);
    for (unsigned i = 0; i < W_N; i++) {
        const struct word_info *w = word_info((enum word_id)i);
        if (w->class != class)
            continue;
        if (b.n > 0)
            buf_char(&b, ' ');
        buf_add(&b, w->word);
    }
    return buf_str(&b);
}

static void reminders(struct draw *d, double y_mm) {
    struct type small = {TYPE_NOTE_PT, FACE_REGULAR, INK_BLACK};
    y_mm = page_wrapped(d, 0, 0, y_mm, PAGE_WIDE_MM, 3.3, small,
                        page_sayf(d, "Outcomes: %.*s. Marks: %.*s.",
                                  STR_ARG(words_of(d, WORD_OUTCOME)),
                                  STR_ARG(words_of(d, WORD_MARK))),
                        NULL);
    page_wrapped(d, 0, 0, y_mm + 3.3, PAGE_WIDE_MM, 3.3, small,
                 page_say(d, "Between the serves, on a line of its own: the score 12-9, sub H 14 "
                             "for 3, timeout G, point G. Theirs with their letter: G9. Where: zone "
                             "5, its last metre d5, a seam 5-6."),
                 NULL);
}

const struct pages *page_form(const struct page_facts *facts, const struct page_font *font,
                              struct arena *a) {
    struct pages *pages = arena_alloc(a, 1, sizeof *pages);
    struct draw d = {.pages = pages, .font = font, .facts = facts, .arena = a};
    double second = block_wide_mm() + gap_mm;
    pages->arena = a;
    pages->title = page_say(&d, "Serves by hand");
    page_begin(&d, page_say(&d, "Form"));
    page_heading(&d, page_say(&d, "Serves by hand: one line a serve"),
                 page_say(&d, "server and outcome are enough; the same server again: a point"));
    occasion(&d);
    block(&d, 0);
    block(&d, second);
    reminders(&d, sheet_y_mm + 4.6 + ROWS * row_mm + 4);
    page_edges(&d, pages->title);
    return pages;
}
