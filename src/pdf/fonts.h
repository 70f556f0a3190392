/* Fonts of a document; private to this room. */
#ifndef NINEMETRE_PDF_FONTS_H
#define NINEMETRE_PDF_FONTS_H

#include <hpdf.h>
#include <hpdf_font.h>
#include <hpdf_fontdef.h>

#include "pdf.h"

struct face {
    HPDF_Font fonts[PDF_FONTS_MAX];
    unsigned n;
};

/* libharu takes a file once; a second face may use the same one. */
struct font_file {
    struct str path;
    unsigned index;
    HPDF_Font font;
};

struct pdf {
    HPDF_Doc doc;
    struct arena *arena;
    struct face faces[FACE_N];
    struct font_file files[FACE_N * PDF_FONTS_MAX];
    unsigned file_n;
    HPDF_STATUS error; /* the first that libharu reported */
    bool not_finite;   /* a page held a number that is none */
};

/* Letters in a row that come from one font. */
struct run {
    struct str words;
    HPDF_Font font; /* NULL: no font of the face has the first letter */
};

/* The first run of the words. */
struct run pdf_font_run(const struct face *face, struct str words);

/* How wide the words are, in thousandths of the type's size. */
double pdf_font_width(const struct face *face, struct str words);

/* libharu's table from codes to letters is one that readers complain about;
 * this puts a clean one in its place. */
void pdf_font_to_unicode(struct pdf *p, HPDF_Font font);

/* libharu embeds only the first level of the parts of a composite glyph; this
 * marks all levels, so that no letter loses its base or its accent. */
void pdf_font_mark_parts(HPDF_Font font);

#endif
