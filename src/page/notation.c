/* The notation on one page, to lie beside the laptop. Words and meanings come
 * from the tables that the program reads with, so that the page can't fall
 * behind; a word that no list here names is found by a test. */
#include "page/draw.h"

#include "token.h"

static const double right_mm = 112, gap_mm = 2.5;
static const double piece_gap_mm = 5.2, gloss_lead_mm = 3.5;
static const double row_mm = 4.35, mark_row_mm = 4, list_row_mm = 4.05;

#define TYPE_LIVE ((struct type){TYPE_TITLE_PT, FACE_BOLD, INK_BLACK})

static double head(struct draw *d, double x_mm, double end_mm, double y_mm, const char *words,
                   const char *note) {
    page_words(d, x_mm, y_mm, TYPE_HEAD, str_of(words));
    if (note)
        page_right(d, end_mm, y_mm, TYPE_NOTE, str_of(note));
    page_rule(d, x_mm, end_mm, y_mm + gap_mm, RULE_TABLE_PT);
    return y_mm + gap_mm;
}

/* The meaning of a word, or of it what stands before the first stop if there is
 * no room for more. */
static struct str meaning(const struct draw *d, enum word_id id, double wide_mm) {
    struct str all = str_of(word_info(id)->meaning);
    size_t n = 0;
    if (page_width(d, all, TYPE_TABLE) <= wide_mm)
        return all;
    while (n < all.n && all.at[n] != ',' && all.at[n] != ':')
        n++;
    return page_cut(d, str_part(all, 0, n), TYPE_TABLE, wide_mm);
}

/* ---- two lines taken apart -------------------------------------------------- */

/* A word of a line and what it says, in two lines. */
struct piece {
    const char *word, *gloss[2];
};

static const struct piece short_line[] = {
    {"7", {"our", "seven"}},
    {"m4/3", {"middle, 4 paces", "back, 3 steps"}},
    {"ace", {"nobody kept", "it in play"}},
    {"2.1,7.3", {"x, d in", "metres"}},
};
static const struct piece next_line[] = {
    {".", {"she", "again"}},
    {"td", {"toss", "too low"}},
    {"net", {"into", "the net"}},
    {"18:42", {"video", "time"}},
    {"?", {"not", "sure"}},
};
static const struct piece long_line[] = {
    {"G9", {"their", "nine"}},
    {"topspin", {"unless it is her", "usual serve"}},
    {"a5", {"aimed at", "zone 5"}},
    {"go", {"told to", "go for it"}},
    {"v88", {"88 km/h", ""}},
    {"in1", {"in play,", "pass of 1"}},
    {"d5", {"last metre", "of zone 5"}},
    {"by8", {"received", "by our 8"}},
    {"won", {"their side", "took it"}},
};

static double pieces(struct draw *d, double x_mm, double y_mm, const struct piece *p, size_t n) {
    for (size_t i = 0; i < n; i++) {
        double wide = page_words(d, x_mm, y_mm, TYPE_LIVE, str_of(p[i].word));
        for (unsigned line = 0; line < 2; line++) {
            double gloss = page_words(d, x_mm, y_mm + 4.4 + line * gloss_lead_mm, TYPE_TABLE,
                                      str_of(p[i].gloss[line]));
            wide = gloss > wide ? gloss : wide;
        }
        x_mm += wide + piece_gap_mm;
    }
    return x_mm;
}

#define PIECES(list) list, sizeof(list) / sizeof *(list)

static void lines(struct draw *d) {
    page_rule(d, 0, PAGE_WIDE_MM, 15.5, RULE_TABLE_PT);
    double x = pieces(d, 0, 22, PIECES(short_line)) + 2;
    x += page_words(d, x, 22, TYPE_NOTE, STR("next line")) + piece_gap_mm + 2;
    pieces(d, x, 22, PIECES(next_line));
    pieces(d, 0, 35.5, PIECES(long_line));
    page_rule(d, 0, PAGE_WIDE_MM, 45.4, RULE_TABLE_PT);
    x = page_words(d, 0, 50, TYPE_TEXT,
                   STR("Order: server, type, start, aim, go or safe, measures, marks, "));
    x += page_words(d, x, 50, TYPE_TEXT_BOLD, STR("outcome,"));
    page_words(d, x, 50, TYPE_TEXT, STR(" landing, by, won or lost, time, xN, ?"));
}

/* ---- outcomes --------------------------------------------------------------- */

/* Outcomes that share a row; without words of its own, the meaning of the first. */
struct outcomes {
    enum word_id id[3];
    const char *also, *words;
};

static const struct outcomes outcome_rows[] = {
    {{W_ace}, NULL, NULL},
    {{W_in3, W_in2, W_in1}, NULL, "in play, their pass 3, 2, 1"},
    {{W_play}, NULL, NULL},
    {{W_over}, NULL, NULL},
    {{W_net}, "net-0.2 net 3", "into or under it; 0.2 m low; at zone 3"},
    {{W_long, W_left, W_right}, NULL, "out, as the server sees it; long+0.5: by 0.5 m"},
    {{W_antenna, W_ceiling, W_mate}, NULL, "touched it, or a team-mate"},
    {{W_foot, W_clock}, NULL, "foot fault; 8 seconds were over"},
    {{W_order, W_drop, W_screen}, NULL, "wrong server; tossed, not hit; screen"},
    {{W_retoss, W_replay}, NULL, "does not count"},
    {{W_going, W_overlap}, NULL, "behind it: was going out; receivers misplaced"},
    {{W_in}, NULL, NULL},
};

static void outcomes(struct draw *d, double y_mm) {
    static const double end_mm = 104, words_mm = 39;
    struct type live = {TYPE_HEAD_PT, FACE_BOLD, INK_BLACK};
    head(d, 0, end_mm, y_mm, "What came of it", "shirt and outcome are enough: 7 net");
    for (size_t i = 0; i < sizeof outcome_rows / sizeof *outcome_rows; i++) {
        const struct outcomes *row = &outcome_rows[i];
        double y = y_mm + gap_mm + (double)(i + 1) * row_mm, x = 0;
        for (unsigned k = 0; k < 3 && (k == 0 || row->id[k]); k++)
            x += page_words(d, x, y, live, word_info(row->id[k])->word) + 1.2;
        if (row->also)
            page_words(d, x, y, live, str_of(row->also));
        page_words(d, words_mm, y, TYPE_TABLE,
                   row->words ? str_of(row->words) : meaning(d, row->id[0], end_mm - words_mm));
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
    page_words(d, right_mm, y_mm, TYPE_HEAD, STR("Where"));
    page_right(d, PAGE_WIDE_MM, y_mm, TYPE_NOTE, STR("as the receivers see it"));
    court_lines(d);
    for (size_t i = 0; i < sizeof court_labels / sizeof *court_labels; i++) {
        const struct label *l = &court_labels[i];
        page_centred(d, at_x(l->x_m), at_d(l->d_m), (struct type){l->pt, FACE_BOLD, INK_BLACK},
                     str_of(l->words));
    }
    page_right(d, at_x(-0.4), at_d(-1.6), TYPE_NOTE, STR("start"));
    page_right(d, at_x(-0.8), at_d(0.25), TYPE_NOTE, STR("net"));
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
    double y = head(d, 0, PAGE_WIDE_MM, y_mm, "What was off",
                    "first letter the phase, second the fault; nothing written: seen and fine, if "
                    "observe names the phase") +
               4;
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
    {"r m l, m4, m4/3", "start, paces, steps"},
    {"p1.5, back4", "m from right; paces"},
    {"a5 ad5 a2.0,8.5", "where she aims"},
    {"go safe", "go for it; keep it in"},
    {"t6.2 h3.05", "toss, contact: height"},
    {"j-0.5 c+0.4", "jump, hit: past line"},
    {"v88 f0.95 w6.5", "km/h; flight, wait"},
};
static const struct line course_rows[] = {
    {"set 1 G", "G serves first"},
    {"2-3, end 25-22", "score, ours first"},
    {"sub H 14 for 3", "14 comes in; extra"},
    {"timeout H, forfeit H", NULL},
    {"point G \"red card\"", "no serve hit"},
    {"cancel G 2", "points taken back"},
    {"gap 12-9 H", "lines are missing"},
    {"plan by11", "whom we serve"},
    {"turn G 2", "a turn not written"},
};
static const struct line practice_rows[] = {
    {"drill \"Deep\" ad6", "opens a series"},
    {"ring 1.0", "its width in m"},
    {"toss 7 6/10 tn3", "six of ten in it"},
    {"tries 7 8/10", "eight of ten hit"},
    {"7 in d6 x3", "three alike"},
    {"jumps 7 40", "not written singly"},
    {"focus 7 td \"Ring toss\" 14/20", NULL},
    {"observe toss jump", "looked at today"},
    {"note \"\xE2\x80\xA6\"   # \xE2\x80\xA6", "remark; comment"},
};

static void list(struct draw *d, double x_mm, double y_mm, const char *title,
                 const struct line *rows, size_t n) {
    static const double wide_mm = 55, words_mm = 30;
    struct type live = {TYPE_TABLE_PT, FACE_BOLD, INK_BLACK};
    double y = head(d, x_mm, x_mm + wide_mm, y_mm, title, NULL);
    for (size_t i = 0; i < n; i++) {
        y += list_row_mm;
        page_words(d, x_mm, y, live, str_of(rows[i].typed));
        if (rows[i].words)
            page_words(d, x_mm + words_mm, y, TYPE_TABLE, str_of(rows[i].words));
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
    double x = 0, y = head(d, 0, PAGE_WIDE_MM, y_mm, "Top of the file", NULL) + list_row_mm;
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

#define LIST(rows) rows, sizeof(rows) / sizeof *(rows)

const struct pages *page_notation(const struct page_facts *facts, const struct page_font *font,
                                  struct arena *a) {
    struct pages *pages = arena_alloc(a, 1, sizeof *pages);
    struct draw d = {.pages = pages, .font = font, .facts = facts, .arena = a};
    pages->arena = a;
    pages->title = STR("9m \xC2\xB7 notation 1");
    page_begin(&d, STR("Notation on one page"));
    page_words(&d, 0, 12, (struct type){TYPE_TITLE_PT, FACE_BOLD, INK_BLACK},
               STR("The notation on one page"));
    page_right(&d, PAGE_WIDE_MM, 12, TYPE_NOTE,
               STR("9m explain WORD says more; 9m check finds the slips"));
    lines(&d);
    outcomes(&d, 57.5);
    court(&d, 57.5);
    marks(&d, 120.5);
    list(&d, 0, 176.5, "Before the outcome", LIST(before_rows));
    list(&d, 61, 176.5, "Between the serves", LIST(course_rows));
    list(&d, 122, 176.5, "Practice", LIST(practice_rows));
    top(&d, 223);
    page_edges(&d, pages->title);
    return pages;
}
