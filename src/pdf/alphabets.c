/* A document draws far fewer letters than Unicode has. Each font gets alphabets
 * of its own: ASCII as it is, and what else the document draws from code 128
 * on. To libharu an alphabet is a font of single bytes. Its fonts in UTF-8 look
 * for 65,536 glyphs each, and write their widths and numbers: two thirds of
 * the time of a card, and half of its bytes. */
#include "pdf/fonts.h"

#include <stdio.h>

enum { CODE_FIRST = 128, CODES = 128, LIST_END = 0x180, NAME_BYTES = 32, BLOCK_ROWS = 64 };

/* The name by which readers find the glyph: the code point, as the Adobe Glyph
 * List spells it. The list's own names are safe up to Latin Extended-A only:
 * by it "Omega", which libharu gives the Greek letter, is the ohm. */
static void glyph_name(HPDF_UNICODE letter, char name[static NAME_BYTES]) {
    if (letter < LIST_END)
        snprintf(name, NAME_BYTES, "%s", HPDF_UnicodeToGryphName(letter));
    else
        snprintf(name, NAME_BYTES, "uni%04X", letter);
}

static HPDF_STATUS write_encoding(HPDF_Encoder encoder, HPDF_Stream out) {
    const HPDF_UNICODE *letters = ((HPDF_BasicEncoderAttr)encoder->attr)->unicode_map;
    char name[NAME_BYTES], row[2 * NAME_BYTES];
    HPDF_STATUS bad = HPDF_Stream_WriteStr(
        out, "/Encoding <<\n/Type /Encoding\n/BaseEncoding /WinAnsiEncoding\n/Differences [");

    for (unsigned i = CODE_FIRST; i < CODE_FIRST + CODES && letters[i]; i++) {
        glyph_name(letters[i], name);
        snprintf(row, sizeof row, "%u /%s ", i, name);
        bad += HPDF_Stream_WriteStr(out, row);
    }
    return bad + HPDF_Stream_WriteStr(out, "]\n>>\n");
}

/* libharu frees an encoder that it has, or refuses. */
static HPDF_Encoder encoder_new(struct pdf *p) {
    HPDF_Encoder encoder = HPDF_BasicEncoder_New(p->doc->mmgr, "WinAnsiEncoding");

    if (!encoder)
        return NULL;
    snprintf(encoder->name, sizeof encoder->name, "alphabet-%u", p->alphabet_n++);
    encoder->write_fn = write_encoding;
    for (unsigned i = CODE_FIRST; i < CODE_FIRST + CODES; i++)
        ((HPDF_BasicEncoderAttr)encoder->attr)->unicode_map[i] = 0;
    return HPDF_Doc_RegisterEncoder(p->doc, encoder) == HPDF_OK ? encoder : NULL;
}

static struct alphabet *alphabet_new(struct pdf *p, struct font *f) {
    f->alphabets = arena_grow(p->arena, f->alphabets, f->alphabet_n, &f->alphabet_room,
                              sizeof *f->alphabets);
    struct alphabet *new = &f->alphabets[f->alphabet_n++];
    *new = (struct alphabet){.encoder = encoder_new(p)};
    if (new->encoder)
        new->font = HPDF_GetFont(p->doc, f->name, new->encoder->name);
    return new;
}

/* ASCII stands in the first alphabet, as itself. */
static void give_code(struct pdf *p, struct font *f, unsigned c, struct letter *letter) {
    struct alphabet *last = f->alphabet_n ? &f->alphabets[f->alphabet_n - 1] : alphabet_new(p, f);

    if (c < CODE_FIRST) {
        letter->code = (HPDF_BYTE)c;
        return;
    }
    if (last->n == CODES)
        last = alphabet_new(p, f);
    letter->alphabet = (HPDF_UINT16)(f->alphabet_n - 1);
    letter->code = (HPDF_BYTE)(CODE_FIRST + last->n++);
    if (last->encoder)
        ((HPDF_BasicEncoderAttr)last->encoder->attr)->unicode_map[letter->code] = (HPDF_UNICODE)c;
}

static const struct letter *coded(struct pdf *p, struct font *f, unsigned c) {
    struct letter *letter = pdf_font_letter(p, f, c);

    if (!letter->code)
        give_code(p, f, c, letter);
    return letter;
}

struct spelt pdf_spell(struct pdf *p, struct run run) {
    char *codes = arena_alloc(p->arena, run.words.n + 1, 1);
    struct spelt spelt = {.codes = codes};
    const struct alphabet *one = NULL;
    unsigned c = 0;

    for (size_t n = 0, length; spelt.n < run.words.n; spelt.n += length) {
        length = str_code_point(run.words, spelt.n, &c);
        const struct letter *letter = coded(p, run.font, c);
        const struct alphabet *its = &run.font->alphabets[letter->alphabet];
        if (one && its != one)
            break;
        one = its;
        codes[n++] = (char)letter->code;
    }
    spelt.font = one ? one->font : NULL;
    return spelt;
}

/* Readers take at most a hundred rows in a block. */
static void write_letters(HPDF_Stream out, const struct alphabet *a) {
    const HPDF_UNICODE *letters = ((HPDF_BasicEncoderAttr)a->encoder->attr)->unicode_map;
    char row[NAME_BYTES];

    for (unsigned i = 0; i < a->n; i++) {
        if (i % BLOCK_ROWS == 0) {
            unsigned rows = a->n - i < BLOCK_ROWS ? a->n - i : BLOCK_ROWS;
            snprintf(row, sizeof row, "%u beginbfchar\n", rows);
            HPDF_Stream_WriteStr(out, row);
        }
        snprintf(row, sizeof row, "<%02X> <%04X>\n", CODE_FIRST + i, letters[CODE_FIRST + i]);
        HPDF_Stream_WriteStr(out, row);
        if (i % BLOCK_ROWS == BLOCK_ROWS - 1 || i == a->n - 1)
            HPDF_Stream_WriteStr(out, "endbfchar\n");
    }
}

static void to_unicode(const struct pdf *p, const struct alphabet *a) {
    HPDF_Dict map = HPDF_DictStream_New(p->doc->mmgr, p->doc->xref);

    if (!map)
        return;
    HPDF_Stream_WriteStr(map->stream,
                         "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                         "/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n"
                         "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
                         "1 begincodespacerange\n<00> <FF>\nendcodespacerange\n"
                         "1 beginbfrange\n<20> <7E> <0020>\nendbfrange\n");
    write_letters(map->stream, a);
    HPDF_Stream_WriteStr(map->stream, "endcmap\nCMapName currentdict /CMap defineresource pop\n"
                                      "end\nend\n");
    if (HPDF_COMP_TEXT & p->doc->compression_mode)
        map->filter = HPDF_STREAM_FILTER_FLATE_DECODE;
    HPDF_Dict_Add(a->font, "ToUnicode", map);
}

void pdf_alphabets_to_unicode(struct pdf *p, const struct font *font) {
    for (size_t i = 0; i < font->alphabet_n; i++)
        if (font->alphabets[i].font)
            to_unicode(p, &font->alphabets[i]);
}
