/* The notation on one page, to lie beside the laptop. Words and meanings come
 * from the tables that the program reads with, so that the page can't fall
 * behind; a word that no list here names is found by a test. */
#include "page/draw.h"

#include <math.h>

#include "token.h"

static const double right_mm = 112, gap_mm = 2.5;
static const double piece_gap_mm = 5.2, gloss_lead_mm = 3.5;
static const double row_mm = 4.35, mark_row_mm = 4, list_row_mm = 4.05;

#define TYPE_LIVE ((struct type){TYPE_TITLE_PT, FACE_BOLD, INK_BLACK})

/* The meaning of a word, or of it what stands before the first stop if there is
 * no room for more. */
static struct str meaning(const struct draw *d, enum word_id id, double wide_mm) {
    struct str all = page_say(d, word_info(id)->meaning);
    size_t n = 0;
    if (page_width(d, all, TYPE_TABLE) <= wide_mm)
        return all;
    while (n < all.n && all.at[n] != ',' && all.at[n] != ':')
        n++;
    return page_cut(d, str_part(all, 0, n), TYPE_TABLE, wide_mm);
}

/* ---- two lines taken apart -------------------------------------------------- */

/* A word of a line and what it says, '\n' between two lines of that; without a
 * word, what stands between two lines of notes. */
struct piece {
    const char *word, *gloss;
};

static const struct piece first_row[] = {
    {"7", WORDS("our\nseven")},
    {"m4/3", WORDS("middle, 4 paces\nback, 3 steps")},
    {"ace", WORDS("nobody kept\nit in play")},
    {"2.1,7.3", WORDS("x, d in\nmetres")},
    {NULL, WORDS("next line")},
    {".", WORDS("she\nagain")},
    {"td", WORDS("toss\ntoo low")},
    {"net", WORDS("into\nthe net")},
    {"18:42", WORDS("video\ntime")},
    {"?", WORDS("not\nsure")},
};
static const struct piece second_row[] = {
    {"G9", WORDS("their\nnine")},
    {"topspin", WORDS("unless it is her\nusual serve")},
    {"a5", WORDS("aimed at\nzone 5")},
    {"go", WORDS("told to\ngo for it")},
    {"v88", "88 km/h"},
    {"in1", WORDS("in play,\npass of 1")},
    {"d5", WORDS("last metre\nof zone 5")},
    {"by8", WORDS("received\nby our 8")},
    {"won", WORDS("their side\ntook it")},
};

/* Gives how wide it is; drawn, unless it is only measured. */
static double piece(struct draw *d, const struct piece *p, double x_mm, double y_mm, bool draw) {
    struct str gloss = page_say(d, p->gloss);
    double wide = 0;
    if (p->word) {
        wide = page_width(d, str_of(p->word), TYPE_LIVE);
        if (draw)
            page_words(d, x_mm, y_mm, TYPE_LIVE, str_of(p->word));
        y_mm += 4.4;
    }
    while (gloss.n > 0) {
        size_t n = 0;
        while (n < gloss.n && gloss.at[n] != '\n')
            n++;
        struct str line = str_part(gloss, 0, n);
        wide = fmax(wide, page_width(d, line, p->word ? TYPE_TABLE : TYPE_NOTE));
        if (draw)
            page_words(d, x_mm, y_mm, p->word ? TYPE_TABLE : TYPE_NOTE, line);
        y_mm += gloss_lead_mm;
        gloss = str_part(gloss, n + 1, gloss.n);
    }
    return wide;
}

/* They stand closer where their words are long. */
static void pieces(struct draw *d, double y_mm, const struct piece *p, size_t n) {
    double all = 0, x = 0;
    for (size_t i = 0; i < n; i++)
        all += piece(d, &p[i], 0, 0, false);
    double gap = fmin(piece_gap_mm, (PAGE_WIDE_MM - all) / (double)(n - 1));
    for (size_t i = 0; i < n; i++)
        x += piece(d, &p[i], x, y_mm, true) + gap;
}

#define LIST(rows) rows, sizeof(rows) / sizeof *(rows)

static void lines(struct draw *d) {
    page_rule(d, 0, PAGE_WIDE_MM, 15.5, RULE_TABLE_PT);
    pieces(d, 22, LIST(first_row));
    pieces(d, 35.5, LIST(second_row));
    page_rule(d, 0, PAGE_WIDE_MM, 45.4, RULE_TABLE_PT);
    page_words(d, 0, 50, TYPE_TEXT,
               page_cut(d, page_say(d, "Order: server, type, start, aim, go or safe, measures, marks, "
                                       "outcome, landing, by, won or lost, time, xN, ?"),
                        TYPE_TEXT, PAGE_WIDE_MM));
}

/* ---- outcomes --------------------------------------------------------------- */

/* Outcomes that share a row. */
struct outcomes {
    enum word_id id[3];
    const char *also, *words;
};

static const struct outcomes outcome_rows[] = {
    {{W_ace}, NULL, WORDS("nobody kept it in play")},
    {{W_in3, W_in2, W_in1}, NULL, WORDS("in play, their pass 3, 2, 1")},
    {{W_play}, NULL, WORDS("in play, pass not rated")},
    {{W_over}, NULL, WORDS("the pass came straight back over the net")},
    {{W_net}, "net-0.2 net 3", WORDS("into or under it; 0.2 m low; at zone 3")},
    {{W_long, W_left, W_right}, NULL, WORDS("out, as the server sees it; long+0.5: by 0.5 m")},
    {{W_antenna, W_ceiling, W_mate}, NULL, WORDS("touched it, or a team-mate")},
    {{W_foot, W_clock}, NULL, WORDS("foot fault; 8 seconds were over")},
    {{W_order, W_drop, W_screen}, NULL, WORDS("wrong server; tossed, not hit; screen")},
    {{W_retoss, W_replay}, NULL, WORDS("does not count")},
    {{W_going, W_overlap}, NULL, WORDS("behind it: was going out; receivers misplaced")},
    {{W_in}, NULL, WORDS("practice: landed in, nobody received")},
};

static void outcomes(struct draw *d, double y_mm) {
    static const double end_mm = 104, words_mm = 39;
    struct type live = {TYPE_HEAD_PT, FACE_BOLD, INK_BLACK};
    page_section(d, 0, end_mm, y_mm, page_say(d, "What came of it"),
                 page_say(d, "shirt and outcome are enough: 7 net"));
    for (size_t i = 0; i < sizeof outcome_rows / sizeof *outcome_rows; i++) {
        const struct outcomes *row = &outcome_rows[i];
        double y = y_mm + gap_mm + (double)(i + 1) * row_mm, x = 0;
        for (unsigned k = 0; k < 3 && (k == 0 || row->id[k]); k++)
            x += page_words(d, x, y, live, word_info(row->id[k])->word) + 1.2;
        if (row->also)
            page_words(d, x, y, live, str_of(row->also));
        page_words(d, words_mm, y, TYPE_TABLE,
                   page_cut(d, page_say(d, row->words), TYPE_TABLE, end_mm - words_mm));
    }
}

/* ---- the court ----------------------------------------------------------------- */

/* The one court that is drawn as the receivers see it, since the notation
 * counts so: x from left to right, d from the net down. */
static const double court_x_mm = 127, net_y_mm = 70, metre_mm = 4.5;

static double at_x(double x_m) {
    return court_x_mm + x_m * metre_mm;
}

static double at_d(double d_m) {
    return net_y_mm + d_m * metre_mm;
}

static void zone_bound(struct draw *d, double x_m, double from_m, double to_m) {
    page_dashed(d, at_x(x_m), at_d(from_m), at_x(x_m), at_d(to_m), RULE_GRID_PT, INK_NOTE, 0.5, 0.7);
}

static void court_lines(struct draw *d) {
    for (unsigned x = 0; x <= 9; x += 9)
        page_line(d, at_x(x), at_d(0), at_x(x), at_d(9), RULE_HEAD_PT, INK_BLACK);
    for (unsigned deep = 3; deep <= 9; deep += 6)
        page_rule(d, at_x(0), at_x(9), at_d(deep), RULE_HEAD_PT);
    page_rule(d, at_x(-0.6), at_x(9.6), at_d(0), 1.3);
    page_rule(d, at_x(0), at_x(9), at_d(-1.4), RULE_HEAD_PT);
    for (unsigned x = 3; x <= 6; x += 3) {
        zone_bound(d, x, 0, 5.8); /* a gap for the name of the seam */
        zone_bound(d, x, 6.8, 9);
        zone_bound(d, x, -2.2, -1.4);
    }
    page_dashed(d, at_x(0), at_d(8), at_x(9), at_d(8), RULE_GRID_PT, INK_NOTE, 0.5, 0.7);
}

struct label {
    double x_m, d_m;
    double pt;
    const char *words;
};

static const struct label court_labels[] = {
    {1.5, 1.9, TYPE_RESULT_PT, "4"},    {4.5, 1.9, TYPE_RESULT_PT, "3"},
    {7.5, 1.9, TYPE_RESULT_PT, "2"},    {1.5, 5.2, TYPE_RESULT_PT, "5"},
    {4.5, 5.2, TYPE_RESULT_PT, "6"},    {7.5, 5.2, TYPE_RESULT_PT, "1"},
    {1.5, 8.75, TYPE_HEAD_PT, "d5"},    {4.5, 8.75, TYPE_HEAD_PT, "d6"},
    {7.5, 8.75, TYPE_HEAD_PT, "d1"},    {3, 6.6, TYPE_HEAD_PT, "5-6"},
    {6, 6.6, TYPE_HEAD_PT, "1-6"},      {1.5, -1.6, TYPE_HEAD_PT, "r"},
    {4.5, -1.6, TYPE_HEAD_PT, "m"},     {7.5, -1.6, TYPE_HEAD_PT, "l"},
    {4.5, 9.95, TYPE_TABLE_PT, "long"}, {-1.2, 5.0, TYPE_TABLE_PT, "right"},
    {10.1, 5.0, TYPE_TABLE_PT, "left"},
};

static void court(struct draw *d, double y_mm) {
    double wide = page_words(d, right_mm, y_mm, TYPE_HEAD, page_say(d, "Where"));
    page_beside(d, right_mm + wide, PAGE_WIDE_MM, y_mm, page_say(d, "as the receivers see it"));
    court_lines(d);
    for (size_t i = 0; i < sizeof court_labels / sizeof *court_labels; i++) {
        const struct label *l = &court_labels[i];
        page_centred(d, at_x(l->x_m), at_d(l->d_m), (struct type){l->pt, FACE_BOLD, INK_BLACK},
                     str_of(l->words));
    }
    page_right(d, at_x(-0.4), at_d(-1.6), TYPE_NOTE, page_say(d, "start"));
    page_right(d, at_x(-0.8), at_d(0.25), TYPE_NOTE, page_say(d, "net"));
    static const unsigned deep[] = {3, 8, 9}, across[] = {0, 3, 6, 9};
    for (unsigned i = 0; i < 3; i++)
        page_right(d, at_x(-0.3), at_d(deep[i] + 0.2), TYPE_NOTE,
                   str_printf(d->arena, "d %u", deep[i]));
    for (unsigned i = 0; i < 4; i++)
        page_centred(d, at_x(across[i]), at_d(9.9), TYPE_NOTE,
                     str_printf(d->arena, i ? "%u" : "x %u", across[i]));
    page_circle(d, at_x(2.1), at_d(7.3), 0.7, 0, INK_NONE, INK_BLACK);
    page_right(d, at_x(1.9), at_d(7.5), TYPE_NOTE, STR("2.1,7.3"));
}

/* ---- marks ---------------------------------------------------------------------- */

/* The marks of one phase under its name; gives the baseline behind them. */
static double phase(struct draw *d, double x_mm, double y_mm, double wide_mm, enum word_id name) {
    static const double word_mm = 7.5;
    struct type live = {TYPE_HEAD_PT, FACE_BOLD, INK_BLACK};
    page_words(d, x_mm, y_mm, TYPE_NOTE, word_info(name)->word);
    for (unsigned i = 0; i < W_N; i++) {
        const struct word_info *w = word_info((enum word_id)i);
        if (w->class != WORD_MARK || mark_phase((enum mark)w->value) != word_info(name)->value)
            continue;
        y_mm += mark_row_mm;
        page_words(d, x_mm, y_mm, live, w->word);
        page_words(d, x_mm + word_mm, y_mm, TYPE_TABLE, meaning(d, w->id, wide_mm - word_mm));
    }
    return y_mm + mark_row_mm + 0.7;
}

static void marks(struct draw *d, double y_mm) {
    static const double column_mm = 60, wide_mm = 57;
    double y = y_mm + gap_mm + 4;
    page_section(d, 0, PAGE_WIDE_MM, y_mm, page_say(d, "What was off"),
                 page_say(d, "first letter the phase, second the fault; nothing written: seen and "
                             "fine, if observe names the phase"));
    phase(d, 0, phase(d, 0, y, wide_mm, W_phase_toss), wide_mm, W_phase_nerve);
    phase(d, column_mm, phase(d, column_mm, y, wide_mm, W_phase_approach), wide_mm, W_phase_jump);
    phase(d, 2 * column_mm, y, wide_mm, W_phase_hit);
}

/* ---- lists ------------------------------------------------------------------------ */

/* A row of a list: as it is typed, and what it says. */
struct line {
    const char *typed, *words;
};

static const struct line before_rows[] = {
    {"topspin jumpfloat hybrid", NULL},
    {"float overhand underhand", NULL},
    {"r m l, m4, m4/3", WORDS("start, paces, steps")},
    {"p1.5, back4", WORDS("m from right; paces")},
    {"a5 ad5 a2.0,8.5", WORDS("where she aims")},
    {"go safe", WORDS("go for it; keep it in")},
    {"t6.2 h3.05", WORDS("toss, contact: height")},
    {"j-0.5 c+0.4", WORDS("jump, hit: past line")},
    {"v88 f0.95 w6.5", WORDS("km/h; flight, wait")},
};
static const struct line course_rows[] = {
    {"set 1 G", WORDS("G serves first")},
    {"2-3, end 25-22", WORDS("score, ours first")},
    {"sub H 14 for 3", WORDS("14 comes in; extra")},
    {"timeout H, forfeit H", NULL},
    {"point G \"red card\"", WORDS("no serve hit")},
    {"cancel G 2", WORDS("points taken back")},
    {"gap 12-9 H", WORDS("lines are missing")},
    {"plan by11", WORDS("whom we serve")},
    {"turn G 2", WORDS("a turn not written")},
};
static const struct line practice_rows[] = {
    {"drill \"Deep\" ad6", WORDS("opens a series")},
    {"ring 1.0", WORDS("its width in m")},
    {"toss 7 6/10 tn3", WORDS("six of ten in it")},
    {"tries 7 8/10", WORDS("eight of ten hit")},
    {"7 in d6 x3", WORDS("three alike")},
    {"jumps 7 40", WORDS("not written singly")},
    {"focus 7 td \"Ring toss\" 14/20", NULL},
    {"observe toss jump", WORDS("looked at today")},
    {"note \"…\"   # …", WORDS("remark; comment")},
};

/* So wide is what is typed in the rows with words behind it. */
static double typed_wide(const struct draw *d, const struct line *rows, size_t n) {
    double wide = 0;
    for (size_t i = 0; i < n; i++)
        if (rows[i].words)
            wide = fmax(wide, page_width(d, str_of(rows[i].typed), TYPE_TABLE_BOLD));
    return wide;
}

static void list(struct draw *d, double x_mm, double y_mm, const char *title,
                 const struct line *rows, size_t n) {
    static const double wide_mm = 55, beside_mm = 2;
    double y = y_mm + gap_mm, words_mm = typed_wide(d, rows, n) + beside_mm;
    page_section(d, x_mm, x_mm + wide_mm, y_mm, page_say(d, title), STR_NONE);
    for (size_t i = 0; i < n; i++) {
        y += list_row_mm;
        page_words(d, x_mm, y, TYPE_TABLE_BOLD, str_of(rows[i].typed));
        if (rows[i].words)
            page_words(d, x_mm + words_mm, y, TYPE_TABLE,
                       page_cut(d, page_say(d, rows[i].words), TYPE_TABLE, wide_mm - words_mm));
    }
}

static const enum word_id top_words[] = {
    W_notation, W_match,   W_practice, W_venue,     W_scorer, W_team,  W_player, W_libero,
    W_squad,    W_rules,   W_rule,     W_netheight, W_record, W_short, W_lineup,
};

/* The examples of the statements that stand above the first set, one behind the
 * other. */
static void top(struct draw *d, double y_mm) {
    struct type live = {TYPE_TABLE_PT, FACE_BOLD, INK_BLACK};
    double x = 0, y = y_mm + gap_mm + list_row_mm;
    page_section(d, 0, PAGE_WIDE_MM, y_mm, page_say(d, "Top of the file"), STR_NONE);
    for (size_t i = 0; i < sizeof top_words / sizeof *top_words; i++) {
        struct str words = str_of(word_info(top_words[i])->example);
        double wide = page_width(d, words, live);
        if (x + wide > PAGE_WIDE_MM) {
            x = 0;
            y += list_row_mm;
        }
        page_words(d, x, y, live, words);
        x += wide + 4.2;
    }
}

const struct pages *page_notation(const struct page_facts *facts, const struct page_font *font,
                                  struct arena *a) {
    struct pages *pages = arena_alloc(a, 1, sizeof *pages);
    struct draw d = {.pages = pages, .font = font, .facts = facts, .arena = a};
    pages->arena = a;
    pages->title = str_printf(a, "9m · %.*s", STR_ARG(page_say(&d, "notation 1")));
    page_begin(&d, page_say(&d, "Notation on one page"));
    page_heading(&d, page_say(&d, "The notation on one page"),
                 page_say(&d, "9m explain WORD says more; 9m check finds the slips"));
    lines(&d);
    outcomes(&d, 57.5);
    court(&d, 57.5);
    marks(&d, 120.5);
    list(&d, 0, 176.5, WORDS("Before the outcome"), LIST(before_rows));
    list(&d, 61, 176.5, WORDS("Between the serves"), LIST(course_rows));
    list(&d, 122, 176.5, WORDS("Practice"), LIST(practice_rows));
    top(&d, 223);
    page_edges(&d, pages->title);
    return pages;
}
