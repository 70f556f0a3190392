/* A document is written item by item. Every number goes through one guard,
 * since libharu writes NaN as rubbish; its first error is kept and ends the
 * drawing, since nothing after it can be trusted. */
#include "pdf/fonts.h"

#include <math.h>

static const double pt_per_mm = 72 / 25.4;
static const double left_mm = 18, top_a4_mm = 24, top_letter_mm = 15.2;

static const struct {
    double red, green, blue;
} inks[INK_N] = {
    [INK_BLACK] = {0, 0, 0},
    [INK_NOTE] = {0x33 / 255.0, 0x33 / 255.0, 0x33 / 255.0},
    [INK_OURS] = {0, 0x72 / 255.0, 0xB2 / 255.0},
    [INK_MISSED] = {0xD5 / 255.0, 0x5E / 255.0, 0},
    [INK_FAINT] = {0x76 / 255.0, 0x76 / 255.0, 0x76 / 255.0},
    [INK_GRID] = {0xBD / 255.0, 0xBD / 255.0, 0xBD / 255.0},
    [INK_WHITE] = {1, 1, 1},
};

/* A page being written. */
struct sheet {
    struct pdf *pdf;
    HPDF_Page page;
    double top_mm, high_pt;
};

static void keep_first(HPDF_STATUS error, HPDF_STATUS detail, void *context) {
    (void)detail;
    struct pdf *p = context;
    if (p->error == HPDF_OK)
        p->error = error;
}

struct pdf *pdf_new(struct arena *a) {
    struct pdf *p = arena_alloc(a, 1, sizeof *p);
    p->arena = a;
    p->doc = HPDF_New(keep_first, p);
    if (!p->doc)
        return NULL;
    HPDF_SetCompressionMode(p->doc, HPDF_COMP_ALL);
    HPDF_UseUTFEncodings(p->doc);
    HPDF_SetCurrentEncoder(p->doc, "UTF-8");
    return p;
}

void pdf_free(struct pdf *p) {
    if (p && p->doc)
        HPDF_Free(p->doc);
    if (p)
        p->doc = NULL;
}

unsigned long pdf_error(const struct pdf *p) {
    return p->error;
}

static bool is_collection(const char *path) {
    struct str s = str_of(path);
    return str_same(str_part(s, s.n < 4 ? 0 : s.n - 4, 4), STR(".ttc"));
}

static bool load(struct pdf *p, const char *path, unsigned index, struct font *font) {
    *font = (struct font){.path = str_copy(p->arena, str_of(path)), .index = index};
    font->name = is_collection(path) ? HPDF_LoadTTFontFromFile2(p->doc, path, index, HPDF_TRUE)
                                     : HPDF_LoadTTFontFromFile(p->doc, path, HPDF_TRUE);
    font->definition = font->name ? HPDF_GetFontDef(p->doc, font->name) : NULL;
    return font->definition && p->error == HPDF_OK;
}

/* The file, read only once; NULL if it can't be used. */
static struct font *font_of_file(struct pdf *p, const char *path, unsigned index) {
    for (unsigned i = 0; i < p->file_n; i++)
        if (str_is(p->files[i].path, path) && p->files[i].index == index)
            return &p->files[i];
    if (load(p, path, index, &p->files[p->file_n]))
        return &p->files[p->file_n++];
    HPDF_ResetError(p->doc);
    p->error = HPDF_OK;
    return NULL;
}

/* A file that can't be used leaves the document as it was. */
enum pdf_status pdf_add_font(struct pdf *p, enum page_face face, const char *path, unsigned index) {
    struct face *f = &p->faces[face];
    struct font *font = f->n < PDF_FONTS_MAX ? font_of_file(p, path, index) : NULL;
    if (!font)
        return PDF_FONT;
    f->fonts[f->n++] = font;
    return PDF_WRITTEN;
}

bool pdf_covers(struct pdf *p, struct str words, unsigned *code_point, bool *script) {
    *code_point = 0;
    *script = false;
    for (struct str rest = words; rest.n > 0;) {
        unsigned c;
        size_t n = str_code_point(rest, 0, &c);
        if (n == 0)
            return false;
        *code_point = c;
        if (str_joins(c)) {
            *script = true;
            return false;
        }
        rest = str_part(rest, n, rest.n);
    }
    for (unsigned face = 0; face < FACE_N; face++)
        for (struct str rest = words; rest.n > 0;) {
            struct run run = pdf_font_run(p, &p->faces[face], rest);
            str_code_point(run.words, 0, code_point);
            if (!run.font)
                return false;
            rest = str_part(rest, run.words.n, rest.n);
        }
    return true;
}

static double width_mm(void *context, struct str words, enum page_face face, double type_pt) {
    struct pdf *p = context;
    return pdf_font_width(p, &p->faces[face], words) / 1000 * type_pt / pt_per_mm;
}

struct page_font pdf_font(struct pdf *p) {
    return (struct page_font){width_mm, p};
}

/* ---- drawing --------------------------------------------------------------------------- */

static HPDF_REAL checked_number(const struct sheet *s, double pt) {
    if (!isfinite(pt)) {
        s->pdf->not_finite = true;
        return 0;
    }
    return (HPDF_REAL)pt;
}

static HPDF_REAL x_pt(const struct sheet *s, double x_mm) {
    return checked_number(s, (left_mm + x_mm) * pt_per_mm);
}

static HPDF_REAL y_pt(const struct sheet *s, double y_mm) {
    return checked_number(s, s->high_pt - (s->top_mm + y_mm) * pt_per_mm);
}

static void set_fill(const struct sheet *s, enum page_ink ink) {
    HPDF_Page_SetRGBFill(s->page, (HPDF_REAL)inks[ink].red, (HPDF_REAL)inks[ink].green,
                         (HPDF_REAL)inks[ink].blue);
}

static void set_stroke(const struct sheet *s, enum page_ink ink, double line_pt) {
    HPDF_Page_SetRGBStroke(s->page, (HPDF_REAL)inks[ink].red, (HPDF_REAL)inks[ink].green,
                           (HPDF_REAL)inks[ink].blue);
    HPDF_Page_SetLineWidth(s->page, checked_number(s, line_pt));
}

/* Sets the colours before a path is begun, as libharu wants it. */
static void set_paint(const struct sheet *s, enum page_ink ink, enum page_ink fill,
                      double line_pt) {
    if (fill != INK_NONE)
        set_fill(s, fill);
    if (ink != INK_NONE)
        set_stroke(s, ink, line_pt);
}

static void paint(const struct sheet *s, enum page_ink ink, enum page_ink fill) {
    if (ink != INK_NONE && fill != INK_NONE)
        HPDF_Page_FillStroke(s->page);
    else if (fill != INK_NONE)
        HPDF_Page_Fill(s->page);
    else
        HPDF_Page_Stroke(s->page);
}

static void draw_run(const struct sheet *s, struct run run, double type_pt) {
    while (run.font && run.words.n > 0) {
        struct spelt spelt = pdf_spell(s->pdf, run);
        if (!spelt.font)
            return;
        HPDF_Page_SetFontAndSize(s->page, spelt.font, checked_number(s, type_pt));
        HPDF_Page_ShowText(s->page, spelt.codes);
        run.words = str_part(run.words, spelt.n, run.words.n);
    }
}

static void draw_words(const struct sheet *s, const struct page_item *item) {
    HPDF_REAL x = x_pt(s, item->x_mm), y = y_pt(s, item->y_mm);
    set_fill(s, item->ink);
    HPDF_Page_BeginText(s->page);
    HPDF_Page_MoveTextPos(s->page, x, y);
    for (struct str rest = item->words; rest.n > 0;) {
        struct run run = pdf_font_run(s->pdf, &s->pdf->faces[item->face], rest);
        draw_run(s, run, item->type_pt);
        rest = str_part(rest, run.words.n, rest.n);
    }
    HPDF_Page_EndText(s->page);
}

static void line(const struct sheet *s, double x_mm, double y_mm, double x2_mm, double y2_mm) {
    HPDF_Page_MoveTo(s->page, x_pt(s, x_mm), y_pt(s, y_mm));
    HPDF_Page_LineTo(s->page, x_pt(s, x2_mm), y_pt(s, y2_mm));
    HPDF_Page_Stroke(s->page);
}

/* Dashes are drawn one by one: libharu's are whole points. */
static void draw_line(const struct sheet *s, const struct page_item *item) {
    set_stroke(s, item->ink, item->line_pt);
    double dx = item->x2_mm - item->x_mm, dy = item->y2_mm - item->y_mm, long_mm = hypot(dx, dy);
    if (item->on_mm <= 0 || !(long_mm > 0)) {
        line(s, item->x_mm, item->y_mm, item->x2_mm, item->y2_mm);
        return;
    }
    double step = item->on_mm + item->off_mm;
    for (unsigned i = 0; i * step < long_mm; i++) {
        double from = i * step / long_mm, to = fmin((i * step + item->on_mm) / long_mm, 1);
        line(s, item->x_mm + from * dx, item->y_mm + from * dy, item->x_mm + to * dx,
             item->y_mm + to * dy);
    }
}

static void draw_box(const struct sheet *s, const struct page_item *item) {
    set_paint(s, item->ink, item->fill, item->line_pt);
    HPDF_Page_Rectangle(s->page, x_pt(s, item->x_mm), y_pt(s, item->y2_mm),
                        checked_number(s, (item->x2_mm - item->x_mm) * pt_per_mm),
                        checked_number(s, (item->y2_mm - item->y_mm) * pt_per_mm));
    paint(s, item->ink, item->fill);
}

/* A full dot is a line of no length with round ends: a fifth of the bytes. */
static void circle(const struct sheet *s, double x_mm, double y_mm, double radius_mm,
                   enum page_ink ink, enum page_ink fill, double line_pt) {
    if (ink == INK_NONE) {
        set_stroke(s, fill, 2 * radius_mm * pt_per_mm);
        HPDF_Page_SetLineCap(s->page, HPDF_ROUND_END);
        line(s, x_mm, y_mm, x_mm, y_mm);
        HPDF_Page_SetLineCap(s->page, HPDF_BUTT_END);
        return;
    }
    set_paint(s, ink, fill, line_pt);
    HPDF_Page_Circle(s->page, x_pt(s, x_mm), y_pt(s, y_mm),
                     checked_number(s, radius_mm * pt_per_mm));
    paint(s, ink, fill);
}

/* The mark's own ink, or that of all of the item. */
static enum page_ink ink_of(const struct page_item *item, enum page_ink own) {
    return item->ink != INK_NONE && own != INK_NONE && own != INK_WHITE ? item->ink : own;
}

static void draw_path(const struct sheet *s, const struct page_item *item,
                      const struct page_stroke *stroke) {
    enum page_ink ink = ink_of(item, stroke->ink), fill = ink_of(item, stroke->fill);
    set_paint(s, ink, fill, stroke->line_pt);
    for (unsigned i = 0; i < stroke->point_n; i++) {
        HPDF_REAL x = x_pt(s, item->x_mm + stroke->points[i][0] * item->size_mm);
        HPDF_REAL y = y_pt(s, item->y_mm - stroke->points[i][1] * item->size_mm);
        if (i == 0)
            HPDF_Page_MoveTo(s->page, x, y);
        else
            HPDF_Page_LineTo(s->page, x, y);
    }
    if (stroke->closed)
        HPDF_Page_ClosePath(s->page);
    paint(s, ink, fill);
}

static void draw_mark(const struct sheet *s, const struct page_item *item) {
    unsigned n;
    const struct page_stroke *strokes = page_strokes(item->mark, &n);
    for (unsigned i = 0; i < n; i++)
        if (strokes[i].point_n == 0)
            circle(s, item->x_mm, item->y_mm, strokes[i].radius_a * item->size_mm,
                   ink_of(item, strokes[i].ink), ink_of(item, strokes[i].fill),
                   strokes[i].line_pt);
        else
            draw_path(s, item, &strokes[i]);
}

static void draw_item(const struct sheet *s, const struct page_item *item) {
    switch (item->kind) {
    case PAGE_WORDS:
        draw_words(s, item);
        break;
    case PAGE_LINE:
        draw_line(s, item);
        break;
    case PAGE_BOX:
        draw_box(s, item);
        break;
    case PAGE_CIRCLE:
        circle(s, item->x_mm, item->y_mm, item->size_mm, item->ink, item->fill, item->line_pt);
        break;
    case PAGE_MARK:
        draw_mark(s, item);
        break;
    }
}

static struct sheet sheet_of(struct pdf *p, HPDF_Page page, enum pdf_paper paper) {
    return (struct sheet){.pdf = p,
                          .page = page,
                          .top_mm = paper == PAPER_A4 ? top_a4_mm : top_letter_mm,
                          .high_pt = (double)HPDF_Page_GetHeight(page)};
}

static void draw_page(struct pdf *p, const struct page *page, unsigned number,
                      enum pdf_paper paper) {
    HPDF_Page new = HPDF_AddPage(p->doc);
    if (!new)
        return;
    HPDF_Page_SetSize(new, paper == PAPER_A4 ? HPDF_PAGE_SIZE_A4 : HPDF_PAGE_SIZE_LETTER,
                      HPDF_PAGE_PORTRAIT);
    struct sheet s = sheet_of(p, new, paper);
    struct str name = str_printf(p->arena, "%u  %.*s", number, STR_ARG(page->name));
    HPDF_Outline mark = HPDF_CreateOutline(p->doc, NULL, name.at, HPDF_GetEncoder(p->doc, "UTF-8"));
    if (mark)
        HPDF_Outline_SetDestination(mark, HPDF_Page_CreateDestination(s.page));
    for (size_t i = 0; i < page->n && p->error == HPDF_OK && !p->not_finite; i++)
        draw_item(&s, &page->items[i]);
}

/* When all pages are there: words that lead to one of them. */
static void link_words(struct pdf *p, const struct pages *pages, size_t on, enum pdf_paper paper) {
    struct sheet s = sheet_of(p, HPDF_GetPageByIndex(p->doc, (HPDF_UINT)on), paper);
    for (size_t i = 0; i < pages->at[on].n; i++) {
        const struct page_item *w = &pages->at[on].items[i];
        if (w->link == 0 || w->link > pages->n)
            continue;
        double high_mm = w->type_pt / pt_per_mm, wide_mm = width_mm(p, w->words, w->face, w->type_pt);
        HPDF_Page to = HPDF_GetPageByIndex(p->doc, (HPDF_UINT)(w->link - 1));
        HPDF_Rect rect = {x_pt(&s, w->x_mm), y_pt(&s, w->y_mm + high_mm / 4),
                          x_pt(&s, w->x_mm + wide_mm), y_pt(&s, w->y_mm - high_mm)};
        HPDF_Annotation link =
            HPDF_Page_CreateLinkAnnot(s.page, rect, HPDF_Page_CreateDestination(to));
        if (link)
            HPDF_LinkAnnot_SetBorderStyle(link, 0, 0, 0);
    }
}

static bool read_back(struct pdf *p, struct str *bytes) {
    HPDF_UINT32 n = HPDF_GetStreamSize(p->doc), got = 0;
    HPDF_BYTE *at = arena_alloc(p->arena, n ? n : 1, 1);
    while (got < n) {
        HPDF_UINT32 part = n - got;
        HPDF_STATUS status = HPDF_ReadFromStream(p->doc, at + got, &part);
        if (part == 0 || (status != HPDF_OK && status != HPDF_STREAM_EOF))
            return false;
        got += part;
    }
    *bytes = (struct str){(const char *)at, n};
    return n > 0;
}

/* All that the written bytes rest on; no date, which would be the clock's. */
static void describe(struct pdf *p, const struct pages *pages) {
    HPDF_SetInfoAttr(p->doc, HPDF_INFO_TITLE, str_c(p->arena, pages->title));
    HPDF_SetInfoAttr(p->doc, HPDF_INFO_AUTHOR, "Ninemetre"); /* no user, no host */
    HPDF_SetInfoAttr(p->doc, HPDF_INFO_CREATOR, "9m");
    HPDF_SetInfoAttr(p->doc, HPDF_INFO_PRODUCER, "9m");
    HPDF_SetViewerPreference(p->doc, HPDF_PRINT_SCALING_NONE);
}

static bool covered(struct pdf *p, const struct pages *pages) {
    unsigned code_point;
    bool script;
    for (size_t i = 0; i < pages->n; i++)
        for (size_t k = 0; k < pages->at[i].n; k++)
            if (pages->at[i].items[k].kind == PAGE_WORDS &&
                !pdf_covers(p, pages->at[i].items[k].words, &code_point, &script))
                return false;
    return true;
}

enum pdf_status pdf_write(struct pdf *p, const struct pages *pages, enum pdf_paper paper,
                          struct str *bytes) {
    if (!covered(p, pages))
        return PDF_LETTER;
    for (size_t i = 0; i < pages->n; i++)
        draw_page(p, &pages->at[i], (unsigned)i + 1, paper);
    for (size_t i = 0; i < pages->n && p->error == HPDF_OK; i++)
        link_words(p, pages, i, paper);
    describe(p, pages);
    for (unsigned i = 0; i < p->file_n; i++) {
        pdf_font_mark_parts(&p->files[i]);
        pdf_alphabets_to_unicode(p, &p->files[i]);
    }
    if (p->error != HPDF_OK || p->not_finite)
        return PDF_FAILED;
    HPDF_SaveToStream(p->doc);
    if (p->error != HPDF_OK || !read_back(p, bytes) || p->error != HPDF_OK)
        return PDF_FAILED;
    return PDF_WRITTEN;
}
