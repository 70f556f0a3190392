/* The PDF writer: same bytes, whole letters, errors said and not drawn. The
 * font is the package that the program is built with. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "kit/boxes.h"
#include "kit/in_arena.h"
#include "kit/longer.h"
#include "kit/scene.h"
#include "pdf.h"
#include "pdf/fonts.h"

static const char regular[] = "/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf";
static const char bold[] = "/usr/share/fonts/truetype/liberation/LiberationSans-Bold.ttf";

static struct pdf *document(struct arena *a) {
    struct pdf *p = pdf_new(a);
    assert_non_null(p);
    assert_int_equal(pdf_add_font(p, FACE_REGULAR, regular, 0), PDF_WRITTEN);
    assert_int_equal(pdf_add_font(p, FACE_BOLD, bold, 0), PDF_WRITTEN);
    return p;
}

static struct str report_bytes(struct arena *a, enum pdf_paper paper) {
    struct pdf *p = document(a);
    struct page_facts facts = {
        .file = STR("herons-foxes.9m"), .hash = STR("0123456789ab"), .version = STR("1.0")};
    struct page_font font = pdf_font(p);
    struct str bytes = STR_NONE;
    const struct tally *t = tally_of(scene_play(scene_usual(), a), a);
    assert_int_equal(pdf_write(p, page_report(t, &facts, &font, a), paper, &bytes), PDF_WRITTEN);
    pdf_free(p);
    return bytes;
}

static bool holds(struct str bytes, const char *part) {
    size_t n = strlen(part);
    for (size_t i = 0; i + n <= bytes.n; i++)
        if (memcmp(bytes.at + i, part, n) == 0)
            return true;
    return false;
}

static void same_input_same_bytes(void **state) {
    struct str a = report_bytes(*state, PAPER_A4), b = report_bytes(*state, PAPER_A4);
    assert_true(str_eq(a, b));
    assert_true(str_starts(a, STR("%PDF-")));
    assert_false(holds(a, "CreationDate"));
    assert_false(holds(a, "ModDate"));
    assert_false(holds(a, "/ID"));
    assert_false(holds(a, "libharu"));
    assert_false(str_eq(a, report_bytes(*state, PAPER_LETTER)));
}

/* ISO 216: A4 is 210 mm by 297 mm; a letter sheet has 8.5 by 11 inches. */
static void papers(void **state) {
    assert_true(holds(report_bytes(*state, PAPER_A4), "595.2"));
    assert_true(holds(report_bytes(*state, PAPER_LETTER), "612 792"));
}

static struct pages *one_page(struct arena *a, struct page_item item) {
    struct pages *pages = arena_alloc(a, 1, sizeof *pages);
    pages->arena = a;
    pages->title = STR("test");
    pages->at = arena_alloc(a, 1, sizeof *pages->at);
    pages->n = 1;
    pages->at[0] = (struct page){.name = STR("test"), .n = 1};
    pages->at[0].items = arena_alloc(a, 1, sizeof item);
    pages->at[0].items[0] = item;
    return pages;
}

/* libharu would write NaN as bytes that no reader takes. */
static void numbers_must_be_finite(void **state) {
    const double bad[] = {(double)NAN, (double)INFINITY, -(double)INFINITY};
    for (size_t i = 0; i < 3; i++) {
        struct pdf *p = document(*state);
        struct str bytes = STR_NONE;
        struct page_item item = {
            .kind = PAGE_LINE, .x2_mm = bad[i], .line_pt = 1, .ink = INK_BLACK};
        assert_int_equal(pdf_write(p, one_page(*state, item), PAPER_A4, &bytes), PDF_FAILED);
        assert_int_equal(bytes.n, 0);
        pdf_free(p);
    }
}

/* A letter that no font has ends it: nothing is set as an empty box. */
static void letters_are_there(void **state) {
    struct pdf *p = document(*state);
    unsigned c;
    bool script;
    struct str bytes = STR_NONE;
    assert_true(pdf_covers(p,
                           STR("Br\xC4\x85zel, \xCE\x86\xCE\xBB\xCF\x86\xCE\xB1, "
                               "\xD0\x81\xD0\xB6"),
                           &c, &script));
    assert_false(pdf_covers(p, STR("ab \xE4\xB8\xAD"), &c, &script));
    assert_int_equal(c, 0x4E2D);
    assert_false(script);
    assert_false(pdf_covers(p, STR("\xD7\x90"), &c, &script));
    assert_int_equal(c, 0x05D0);
    assert_true(script);
    assert_false(pdf_covers(p, STR("\xE0\xA4\xA8"), &c, &script));
    assert_true(script && c == 0x0928);
    assert_false(pdf_covers(p, STR("\xF0\x9F\x8F\x90"), &c, &script));
    assert_int_equal(c, 0x1F3D0);
    assert_false(pdf_covers(p, STR("a\xFF"), &c, &script));
    struct page_item item = {
        .kind = PAGE_WORDS, .words = STR("\xE4\xB8\xAD"), .type_pt = 9, .ink = INK_BLACK};
    assert_int_equal(pdf_write(p, one_page(*state, item), PAPER_A4, &bytes), PDF_LETTER);
    assert_int_equal(bytes.n, 0);
    pdf_free(p);
}

static void fonts_that_are_none(void **state) {
    struct pdf *p = pdf_new(*state);
    char path[] = "/tmp/ninemetre-font-XXXXXX";
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    FILE *f = fdopen(fd, "w");
    fputs("this is no font", f);
    fclose(f);
    assert_int_equal(pdf_add_font(p, FACE_REGULAR, path, 0), PDF_FONT);
    remove(path);
    assert_int_equal(pdf_add_font(p, FACE_REGULAR, path, 0), PDF_FONT);
    assert_int_equal(pdf_add_font(p, FACE_REGULAR, "/tmp", 0), PDF_FONT);
    /* The document is as good as before. */
    assert_int_equal(pdf_add_font(p, FACE_REGULAR, regular, 0), PDF_WRITTEN);
    assert_int_equal(pdf_add_font(p, FACE_BOLD, regular, 0), PDF_WRITTEN);
    assert_int_equal(pdf_error(p), 0);
    pdf_free(p);
}

/* Width counts letters, not bytes; Liberation Sans has figures of one width. */
static void widths(void **state) {
    struct pdf *p = document(*state);
    struct page_font font = pdf_font(p);
    double e = font.width_mm(font.context, STR("\xC3\xA9"), FACE_REGULAR, 10);
    assert_true(fabs(e - font.width_mm(font.context, STR("e"), FACE_REGULAR, 10)) < 1e-9);
    for (char c = '0'; c <= '9'; c++)
        assert_true(fabs(font.width_mm(font.context, (struct str){&c, 1}, FACE_REGULAR, 10) -
                         0.556 * 10 * 25.4 / 72) < 0.01);
    pdf_free(p);
}

/* Parts of parts: every glyph that is embedded brings what it is made of. The
 * font is walked with code of the test's own. */
static unsigned u16(const unsigned char *b) {
    return (unsigned)b[0] << 8 | b[1];
}

static unsigned long u32(const unsigned char *b) {
    return (unsigned long)u16(b) << 16 | u16(b + 2);
}

static unsigned char *whole_file(struct arena *a, const char *path) {
    FILE *f = fopen(path, "rb");
    assert_non_null(f);
    fseek(f, 0, SEEK_END);
    long n = ftell(f);
    rewind(f);
    unsigned char *bytes = arena_alloc(a, (size_t)n, 1);
    assert_int_equal(fread(bytes, 1, (size_t)n, f), n);
    fclose(f);
    return bytes;
}

static const unsigned char *table(const unsigned char *font, const char *tag) {
    for (unsigned i = 0; i < u16(font + 4); i++)
        if (memcmp(font + 12 + 16 * i, tag, 4) == 0)
            return font + u32(font + 12 + 16 * i + 8);
    fail_msg("no table %s", tag);
    return NULL;
}

static unsigned long glyph_at(const unsigned char *font, unsigned glyph) {
    const unsigned char *loca = table(font, "loca");
    return u16(table(font, "head") + 50) ? u32(loca + 4 * glyph) : 2ul * u16(loca + 2 * glyph);
}

static void parts_marked(const unsigned char *font, const HPDF_BYTE *used, unsigned glyph) {
    const unsigned char *g = table(font, "glyf") + glyph_at(font, glyph);
    if (glyph_at(font, glyph) == glyph_at(font, glyph + 1) || u16(g) < 0x8000)
        return;
    for (g += 10;;) {
        unsigned flags = u16(g), part = u16(g + 2);
        if (!used[part])
            fail_msg("glyph %u lacks its part %u", glyph, part);
        g += 4 + (flags & 1 ? 4 : 2) + (flags & 8 ? 2 : flags & 0x40 ? 4 : flags & 0x80 ? 8 : 0);
        if (!(flags & 0x20))
            return;
    }
}

static void composites_are_whole(void **state) {
    static const char *const files[] = {
        "/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf",
        "/usr/share/fonts/truetype/liberation/LiberationSans-Bold.ttf",
    };
    static const unsigned letters[] = {0x0400, 0x0401, 0x0407, 0x0451, 0x0390, 0x1EBF,
                                       0x01D7, 0x00C5, 0x0122, 0x1EA8, 0x1F82};
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        unsigned char *font = whole_file(*state, files[i]);
        struct pdf *p = pdf_new(*state);
        assert_int_equal(pdf_add_font(p, FACE_REGULAR, files[i], 0), PDF_WRITTEN);
        const struct font *loaded = p->faces[FACE_REGULAR].fonts[0];
        HPDF_FontDef def = loaded->definition;
        HPDF_TTFontDefAttr attr = def->attr;
        for (size_t k = 0; k < sizeof letters / sizeof *letters; k++)
            HPDF_TTFontDef_GetCharWidth(def, (HPDF_UINT16)letters[k]);
        pdf_font_mark_parts(loaded);
        for (unsigned glyph = 0; glyph < attr->num_glyphs; glyph++)
            if (attr->glyph_tbl.flgs[glyph])
                parts_marked(font, attr->glyph_tbl.flgs, glyph);
        pdf_free(p);
    }
}

/* ---- words on the page, in their real widths ---------------------------------------- */

static void check_pages(struct arena *a, struct pdf *p, const struct checked *c,
                        const struct advice *season, const char *what, const struct lang *lang) {
    struct page_facts facts = {.file = STR("2026-10-03-a-long-name-of-a-file-of-notes.9m"),
                               .hash = STR("0123456789ab"),
                               .version = STR("1.0"),
                               .lang = lang,
                               .season = season,
                               .warnings = 12,
                               .reviews = 16};
    struct page_font font = pdf_font(p);
    const struct pages *pages = page_report(tally_of(c, a), &facts, &font, a);
    for (size_t i = 0; i < pages->n; i++) {
        boxes_apart(&pages->at[i], &font, what);
        boxes_clear_of_marks(&pages->at[i], &font, what);
    }
}

static void check_words(struct arena *a, struct pdf *p, const struct checked *c, const char *what,
                        const struct lang *lang) {
    check_pages(a, p, c, NULL, what, lang);
}

static void words_do_not_overlap(void **state) {
    struct pdf *p = document(*state);
    struct longer longer;
    static const unsigned place_per_mille[] = {0, 400, 800, 40, 80, 120, 200};
    longer_init(&longer, *state);
    for (unsigned k = 0; k < 140; k++) {
        struct scene scene = scene_usual();
        char what[64];
        scene.seed = k + 1;
        scene.servers = 6 + k % 13;
        scene.sets = k % 6;
        scene.set_points = k % 4 == 3 ? 34 : 25;
        scene.place_per_mille = place_per_mille[k % 7];
        scene.zone_per_mille = 900;
        scene.ours_only = k % 7 == 0;
        scene.phases = k % 9 ? PHASE_ALL : k % 2 * PHASE_TOSS;
        scene.mark_per_mille = k % 4 * 40;
        scene.long_name =
            k % 2 ? "Wilhelmina Theodora van den Oudekerk-Montgomery zu Hohenfeld" : NULL;
        snprintf(what, sizeof what, "seed %u", k + 1);
        struct checked c = *scene_play(scene, *state);
        c.incomplete = k % 5 == 0;
        c.unread = k % 5 == 0 ? 3 : 0;
        check_words(*state, p, &c, what, NULL);
        check_words(*state, p, &c, what, &longer.lang);
    }
    for (unsigned each = 1; each < 64; each += 9)
        check_words(*state, p, scene_practice(6 + each % 12, each, *state), "practice", &longer.lang);
    pdf_free(p);
}

/* Many servers with long names, notes of any length, plans and a season. */
static void staff_pages_do_not_overlap(void **state) {
    static const char long_note[] =
        "She said that the ball was wet, that the toss slipped, that the second referee had not "
        "been ready, and that she would rather begin from the right next time, as in the spring.";
    struct pdf *p = document(*state);
    struct longer longer;
    longer_init(&longer, *state);
    for (unsigned k = 0; k < 16; k++) {
        struct scene scene = scene_usual();
        struct advice season;
        struct advice_of of = advice_of(*state);
        struct drill_book drills;
        struct checked today;
        scene.servers = 6 + k % 13;
        scene.long_name =
            k % 2 ? "Wilhelmina Theodora van den Oudekerk-Montgomery zu Hohenfeld" : NULL;
        drill_book_init(&drills, *state);
        for (unsigned i = 0; i < k; i++) {
            scene.seed = 100 * k + i;
            advice_add(&of, scene_play(scene, *state));
        }
        today = *scene_play(scene, *state);
        advice_add(&of, &today);
        advice_add(&of, scene_practice(scene.servers, 12, *state));
        advice_init(&season, &of, &drills, *state);
        today.unread = k % 3;
        today.plans = arena_alloc(*state, k, sizeof *today.plans);
        for (today.plan_n = 0; today.plan_n < k; today.plan_n++)
            today.plans[today.plan_n] = (struct serve_plan){.by = 12, .line = 1};
        today.notes = arena_alloc(*state, 40, sizeof *today.notes);
        for (today.note_n = 0; today.note_n < 4 * (k % 10); today.note_n++)
            today.notes[today.note_n] = (struct serve_note){
                str_of(long_note), 900, today.played[3 * today.note_n].line};
        check_pages(*state, p, &today, &season, "staff", NULL);
        check_pages(*state, p, &today, &season, "staff, longer", &longer.lang);
    }
    pdf_free(p);
}

/* A practice of everything that its report can show, for `n` players. */
static const struct checked *full_practice(unsigned n, unsigned day, struct arena *a) {
    struct diags diags;
    struct text text;
    struct buf b;
    buf_init(&b, a);
    buf_printf(&b, "notation 1\npractice 2026-10-%02u\nteam H \"Herons\"\nteam G \"Foxes\"\n", day);
    for (unsigned i = 0; i < n; i++)
        buf_printf(&b, "player H%u \"Wilhelmina Theodora van den Oudekerk-Montgomery %u\"\n",
                   80 + i, i);
    for (unsigned i = 0; i < n; i++)
        buf_printf(&b, "focus %u tl \"A drill with a name of sixty letters, to be cut at its end\" "
                       "90/99\n", 80 + i);
    buf_add(&b, STR("drill \"A drill with a name of sixty letters, to be cut at its end\"\n"
                    "ring 1.05\nobserve all\n"));
    for (unsigned i = 0; i < n; i++)
        buf_printf(&b, "toss %u %u/99 td1 tu2 tl3 tr4 tn5 tf6 tb7\n%u topspin tl je nn in x11 ?\n"
                       "note \"She would rather begin from the right next time, as she did in the "
                       "spring, when all of it went well from the first to the last week.\"\n",
                   80 + i, 40 + i, 80 + i);
    buf_add(&b, STR("drill \"Gate\"\n"));
    for (unsigned i = 0; i < n; i++)
        buf_printf(&b, "tries %u %u/99\njumps %u 120\n", 80 + i, 50 + i, 80 + i);
    buf_add(&b, STR("drill \"Deep\" ad6\n"));
    for (unsigned i = 0; i < n; i++)
        buf_printf(&b, "%u in d6 x40\n%u in 5 x20\n", 80 + i, 80 + i);
    buf_add(&b, STR("G7 net x40\n"));
    diags_init(&diags, a);
    text_take(&text, STR("test"), buf_str(&b), a, &diags);
    const struct checked *c = check_text(&text, CHECK_KEEP, a, &diags);
    assert_int_equal(diags.errors, 0);
    return c;
}

static void practices_do_not_overlap(void **state) {
    struct pdf *p = document(*state);
    struct longer longer;
    longer_init(&longer, *state);
    for (unsigned n = 1; n < 19; n++) {
        struct progress *so_far = progress_new(*state);
        struct advice season = {.progress = so_far};
        struct checked today = *full_practice(n, 13, *state);
        today.unread = n % 3;
        progress_add(so_far, full_practice((n + 1) / 2, 6, *state));
        progress_add(so_far, full_practice(n / 2, 7, *state));
        progress_add(so_far, &today);
        check_pages(*state, p, &today, n % 2 ? &season : NULL, "practice", NULL);
        check_pages(*state, p, &today, &season, "practice, longer", &longer.lang);
    }
    pdf_free(p);
}

/* Nothing is cut short; one line of the notation has ellipses of its own. */
static void nothing_is_cut(const struct page *page, const char *what) {
    for (size_t i = 0; i < page->n; i++) {
        struct str s = page->items[i].words;
        if (page->items[i].kind == PAGE_WORDS && page->items[i].face != FACE_BOLD &&
            str_ends(s, STR("…")))
            fail_msg("%s: \"%.*s\" is cut", what, STR_ARG(s));
    }
}

static void sheets_do_not_overlap(void **state) {
    struct pdf *p = document(*state);
    struct page_font font = pdf_font(p);
    for (unsigned i = 0; lang_codes[i]; i++) {
        struct page_facts facts = {.version = STR("1.0"), .lang = lang_of(str_of(lang_codes[i]))};
        const struct pages *notation = page_notation(&facts, &font, *state);
        const struct pages *form = page_form(&facts, &font, *state);
        assert_true(notation->n == 1 && form->n == 1);
        boxes_apart(&notation->at[0], &font, lang_codes[i]);
        boxes_apart(&form->at[0], &font, lang_codes[i]);
        nothing_is_cut(&notation->at[0], lang_codes[i]);
        nothing_is_cut(&form->at[0], lang_codes[i]);
    }
    pdf_free(p);
}

/* Players with long names and shirts of two digits in `groups` drills of the
 * program's own. */
static void plan_does_not_overlap(void **state) {
    struct pdf *p = document(*state);
    struct drill_book book;
    struct longer longer;
    struct person people[6];
    struct plan_player players[6];
    struct team team = {.name = STR("Herons")};
    drill_book_init(&book, *state);
    longer_init(&longer, *state);
    for (unsigned i = 0; i < 6; i++) {
        people[i] = (struct person){.name = STR("Wilhelmina Theodora van den Oudekerk-Montgomery"),
                                    .shirt = (uint8_t)(94 + i)};
        players[i] = (struct plan_player){
            &people[i],
            {.treats = W_td, .goal = {14, 20}, .drilled = {.after = {126, 240}}}};
    }
    struct plan_group *groups = arena_alloc(*state, book.n, sizeof *groups);
    for (size_t k = 0; k < book.n; k++)
        groups[k] = (struct plan_group){book.at[k].name, &book.at[k], players, 1 + k % 6};
    struct plan plan = {groups, book.n, true};
    struct page_font font = pdf_font(p);
    for (unsigned k = 0; k == 0 || lang_codes[k - 1]; k++) {
        const struct lang *lang = k ? lang_of(str_of(lang_codes[k - 1])) : &longer.lang;
        struct page_facts facts = {.lang = lang, .no_names = k % 2};
        const struct pages *pages = page_practice_plan(&plan, &team, &facts, &font, *state);
        assert_true(pages->n > 3);
        for (size_t i = 0; i < pages->n; i++)
            boxes_apart(&pages->at[i], &font, k ? lang->code : "plan");
    }
    pdf_free(p);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(same_input_same_bytes),
        TEST(papers),
        TEST(numbers_must_be_finite),
        TEST(letters_are_there),
        TEST(widths),
        TEST(fonts_that_are_none),
        TEST(composites_are_whole),
        TEST(words_do_not_overlap),
        TEST(staff_pages_do_not_overlap),
        TEST(practices_do_not_overlap),
        TEST(sheets_do_not_overlap),
        TEST(plan_does_not_overlap),
    };
    return cmocka_run_group_tests_name("pdf", tests, NULL, NULL);
}
