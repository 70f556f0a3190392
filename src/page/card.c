/* The card of one player, always one page: what went well, her one thing, her
 * serves of today beside her season, her focus, and where to look. */
#include "page/card_parts.h"

#include <math.h>

static const double name_mm = 13, thanks_mm = 22.5, right_mm = 95, half_wide_mm = 82;
static const double lead_mm = 3.85, caution_lead_mm = 3.2, caution_gap_mm = 4.2, court_most_mm = 4.4;

/* From roomy to tight. */
static const struct card_fit fits[] = {
    {9, 4.2, 4.4, true, true, true, true, true, true},
    {7, 4.2, 2.8, true, true, true, true, true, true},
    {7, 3.9, 2.8, false, true, true, true, true, true},
    {7, 3.9, 2.8, false, true, true, true, false, true},
    {7, 3.7, 2.8, false, false, true, true, false, false},
    {6.5, 3.7, 2.8, false, false, false, false, false, false},
};

enum { FITS = sizeof fits / sizeof *fits };

static void title(const struct leaf *l) {
    struct draw *d = l->draw;
    struct type type = {TYPE_RESULT_PT, FACE_BOLD, INK_BLACK};
    struct type small = {TYPE_TABLE_PT, FACE_REGULAR, INK_NOTE};
    struct str note = page_sayf(d, "your serve card, %.*s", STR_ARG(page_date(d)));
    double note_mm = page_right(d, PAGE_WIDE_MM, name_mm, small, note);
    double x = page_words(d, 0, name_mm, type, page_number(d, l->card->who.shirt)) + 5;
    page_words(d, x, name_mm, type,
               page_cut(d, card_name(d, l->card), type, PAGE_WIDE_MM - note_mm - 4 - x));
}

/* A head, a strong sentence and a small one. */
static double statement(const struct leaf *l, double x_mm, double pt, struct str head,
                        struct str strong, struct str more) {
    struct draw *d = l->draw;
    page_words(d, x_mm, thanks_mm, TYPE_HEAD, page_cut(d, head, TYPE_HEAD, half_wide_mm));
    double y = page_wrapped(d, x_mm, 0, thanks_mm + 6.4, half_wide_mm, pt * 0.43,
                            (struct type){pt, FACE_BOLD, INK_BLACK}, strong, NULL);
    if (more.n == 0)
        return y;
    return page_wrapped(d, x_mm, 0, y + 5, half_wide_mm, 4.3, TYPE_TEXT, more, NULL);
}

static double statements(const struct leaf *l) {
    const struct draw *d = l->draw;
    double left = statement(l, 0, TYPE_ANSWER_PT, page_say(d, "Going well"),
                            card_strength(d, l->card), card_strength_more(d, l->card));
    double right = statement(l, right_mm, TYPE_TITLE_PT, page_say(d, "Your one thing"),
                             card_cue(d, l->card), card_cue_more(d, l->card));
    return fmax(left, right);
}

/* The court is as large as what stands beside it allows. */
static double numbers_and_court(const struct leaf *l, double y_mm) {
    struct page *page = l->draw->page;
    double left = card_routine(l, card_numbers(l, y_mm)), right = 0;
    size_t from = page->n;
    for (double scale = court_most_mm; scale > l->fit->court_least_mm - 0.1; scale -= 0.4) {
        page->n = from;
        right = card_miss_words(l, card_court(l, y_mm, scale) + l->fit->gap_mm);
        if (right <= left)
            break;
    }
    return fmax(left, right);
}

/* Her times of the video, then the question. */
static double video(const struct leaf *l, double y_mm) {
    struct draw *d = l->draw;
    struct str times = card_times(d, l->card);
    double at = page_words(d, 0, y_mm, TYPE_HEAD, page_say(d, "Look at the video")) + 6, end;
    y_mm = page_wrapped(d, 0, at, y_mm, PAGE_WIDE_MM, lead_mm + 0.4, TYPE_TEXT, times, &end);
    if (times.n > 0)
        at = end + 1.2;
    return page_wrapped(d, 0, at, y_mm, PAGE_WIDE_MM, lead_mm + 0.4, TYPE_TEXT_BOLD,
                        card_question(d, l->card), NULL);
}

static double air(const struct leaf *l, double y_mm) {
    if (!l->card->reach.known || !l->fit->reach)
        return card_aim_court(l, 0, y_mm);
    return fmax(card_side_view(l, y_mm), card_aim_court(l, right_mm, y_mm));
}

/* Everything above the caution; gives where it ends. */
static double body(const struct leaf *l) {
    double gap = l->fit->gap_mm;
    title(l);
    double y = card_strip(l, statements(l) + gap);
    y = numbers_and_court(l, y + gap);
    y = card_focus(l, y + gap);
    y = video(l, y + gap);
    return air(l, y + gap);
}

/* The caution ends where the body of the page does. Gives the y of its rule. */
static double caution(struct draw *d) {
    struct draw nowhere = *d;
    struct page blank = {.name = STR_NONE};
    struct str words = card_caution(d);
    nowhere.page = &blank;
    double high = page_wrapped(&nowhere, 0, 0, 0, PAGE_WIDE_MM, caution_lead_mm, TYPE_NOTE, words,
                               NULL);
    double y = BODY_END_MM - 0.8 - d->push_mm - high;
    page_line(d, 0, y - caution_gap_mm, PAGE_WIDE_MM, y - caution_gap_mm, RULE_GRID_PT, INK_NOTE);
    page_wrapped(d, 0, 0, y, PAGE_WIDE_MM, caution_lead_mm, TYPE_NOTE, words, NULL);
    return y - caution_gap_mm;
}

const struct pages *page_card(const struct card *c, const struct tally *t,
                              const struct page_facts *facts, const struct page_font *font,
                              struct arena *a) {
    struct pages *pages = arena_alloc(a, 1, sizeof *pages);
    struct draw d = {.pages = pages, .font = font, .tally = t, .facts = facts, .arena = a};
    pages->arena = a;
    page_begin(&d, page_say(&d, "Player card"));
    double end = caution(&d);
    size_t from = d.page->n;
    for (unsigned i = 0; i < FITS; i++) {
        d.page->n = from;
        if (body(&(struct leaf){&d, c, &fits[i]}) <= end - 2)
            break;
    }
    pages->title = page_title(&d);
    page_edges(&d, pages->title);
    return pages;
}
