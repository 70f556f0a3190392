/* Which font has a letter, and what libharu 2.3.0 needs help with. */
#include "pdf/fonts.h"

enum { BMP_LAST = 0xFFFF, MARK_FIRST = 0x300 };

static HPDF_TTFontDefAttr metrics(const struct font *font) {
    return (HPDF_TTFontDefAttr)font->definition->attr;
}

/* Blocks of the Unicode standard whose letters join the one before them. */
static bool is_mark(unsigned c) {
    static const unsigned blocks[][2] = {
        {MARK_FIRST, 0x036F}, {0x0483, 0x0489}, {0x1AB0, 0x1AFF},
        {0x1DC0, 0x1DFF},     {0x20D0, 0x20FF}, {0xFE20, 0xFE2F},
    };
    for (size_t i = 0; i < sizeof blocks / sizeof *blocks; i++)
        if (c >= blocks[i][0] && c <= blocks[i][1])
            return true;
    return false;
}

static bool is_blank(unsigned c) {
    return c == ' ' || c == 0xA0 || (c >= 0x2000 && c <= 0x200A) || c == 0x202F || c == 0x3000;
}

/* The font has an outline for the letter. Some fonts list letters and leave
 * them empty. A mark that joins the letter before it must have no width of its
 * own, since nothing here moves it into place. */
static struct letter look_up(const struct font *font, unsigned c) {
    HPDF_TTFontDefAttr a = metrics(font);
    HPDF_UINT16 glyph = HPDF_TTFontDef_GetGlyphid(font->definition, (HPDF_UINT16)c);
    struct letter letter = {.known = true};

    if (glyph == 0 || glyph >= a->num_glyphs)
        return letter;
    letter.width = HPDF_TTFontDef_GetGidWidth(font->definition, glyph);
    letter.has =
        (!is_mark(c) || letter.width == 0) &&
        (is_blank(c) || a->glyph_tbl.offsets[glyph + 1] > a->glyph_tbl.offsets[glyph]);
    return letter;
}

struct letter *pdf_font_letter(struct pdf *p, struct font *font, unsigned c) {
    if (c > BMP_LAST)
        return NULL;
    struct letter **row = &font->rows[c / LETTERS_A_ROW];
    if (!*row)
        *row = arena_alloc(p->arena, LETTERS_A_ROW, sizeof **row);
    struct letter *letter = &(*row)[c % LETTERS_A_ROW];
    if (!letter->known)
        *letter = look_up(font, c);
    return letter;
}

static bool has(struct pdf *p, struct font *font, unsigned c) {
    const struct letter *letter = c > 0 ? pdf_font_letter(p, font, c) : NULL;
    return letter && letter->has;
}

/* Bytes of a letter together with the marks that join it. */
static size_t cluster(struct str words, size_t at) {
    unsigned c;
    size_t n = str_code_point(words, at, &c);
    for (size_t more = n; more > 0; n += more) {
        more = str_code_point(words, at + n, &c);
        if (more == 0 || !is_mark(c))
            break;
    }
    return n;
}

static bool has_all(struct pdf *p, struct font *font, struct str letters) {
    unsigned c;
    for (size_t i = 0, n; i < letters.n; i += n) {
        n = str_code_point(letters, i, &c);
        if (n == 0 || !has(p, font, c))
            return false;
    }
    return true;
}

static struct font *font_of(struct pdf *p, const struct face *face, struct str letters) {
    for (unsigned i = 0; i < face->n; i++)
        if (has_all(p, face->fonts[i], letters))
            return face->fonts[i];
    return NULL;
}

struct run pdf_font_run(struct pdf *p, const struct face *face, struct str words) {
    size_t n = cluster(words, 0);
    if (n == 0)
        return (struct run){str_part(words, 0, 1), NULL};
    struct font *font = font_of(p, face, str_part(words, 0, n));
    while (font && n < words.n) {
        size_t more = cluster(words, n);
        if (more == 0 || font_of(p, face, str_part(words, n, more)) != font)
            break;
        n += more;
    }
    return (struct run){str_part(words, 0, n), font};
}

static double run_width(struct pdf *p, struct run run) {
    double sum = 0;
    unsigned c = 0;
    for (size_t i = 0; run.font && i < run.words.n;) {
        i += str_code_point(run.words, i, &c);
        sum += pdf_font_letter(p, run.font, c)->width;
    }
    return sum;
}

double pdf_font_width(struct pdf *p, const struct face *face, struct str words) {
    double sum = 0;
    while (words.n > 0) {
        struct run run = pdf_font_run(p, face, words);
        sum += run_width(p, run);
        words = str_part(words, run.words.n, words.n);
    }
    return sum;
}

/* ---- parts of composite glyphs (OpenType, "glyf") ----------------------------------- */

enum {
    PART_WORDS = 0x0001,
    PART_SCALE = 0x0008,
    PART_MORE = 0x0020,
    PART_XY_SCALE = 0x0040,
    PART_MATRIX = 0x0080,
    GLYPH_HEAD_BYTES = 10,
    PARTS_MAX = 64
};

static bool read_u16(HPDF_Stream s, HPDF_UINT32 at, unsigned *out) {
    HPDF_BYTE b[2];
    HPDF_UINT n = sizeof b;
    if (HPDF_Stream_Seek(s, (HPDF_INT)at, HPDF_SEEK_SET) != HPDF_OK ||
        HPDF_Stream_Read(s, b, &n) != HPDF_OK || n != sizeof b)
        return false;
    *out = (unsigned)b[0] << 8 | b[1];
    return true;
}

/* Bytes of one entry of the list of parts. */
static unsigned part_bytes(unsigned flags) {
    unsigned bytes = 4 + (flags & PART_WORDS ? 4 : 2);
    return bytes + (flags & PART_SCALE      ? 2
                    : flags & PART_XY_SCALE ? 4
                    : flags & PART_MATRIX   ? 8
                                            : 0);
}

/* Marks the parts of one glyph; true if a new one was marked. */
static bool mark_parts(HPDF_TTFontDefAttr a, unsigned glyph) {
    /* libharu keeps the short form of "loca" as it stands, in units of two. */
    HPDF_UINT32 unit = a->header.index_to_loc_format == 0 ? 2 : 1;
    HPDF_UINT32 from = a->glyph_tbl.offsets[glyph], to = a->glyph_tbl.offsets[glyph + 1];
    HPDF_UINT32 at = a->glyph_tbl.base_offset + from * unit;
    unsigned contours, flags = PART_MORE, part;
    bool found = false;
    if (to < from || (to - from) * unit < GLYPH_HEAD_BYTES || !read_u16(a->stream, at, &contours) ||
        contours < 0x8000)
        return false;
    at += GLYPH_HEAD_BYTES;
    for (unsigned i = 0; i < PARTS_MAX && flags & PART_MORE; i++) {
        if (!read_u16(a->stream, at, &flags) || !read_u16(a->stream, at + 2, &part))
            return found;
        if (part < a->num_glyphs && !a->glyph_tbl.flgs[part]) {
            a->glyph_tbl.flgs[part] = 1;
            found = true;
        }
        at += part_bytes(flags);
    }
    return found;
}

void pdf_font_mark_parts(const struct font *font) {
    HPDF_TTFontDefAttr a = metrics(font);
    bool again = true;
    while (again) {
        again = false;
        for (unsigned glyph = 0; glyph < a->num_glyphs; glyph++)
            if (a->glyph_tbl.flgs[glyph])
                again |= mark_parts(a, glyph);
    }
}
