/* Fonts of a document; private to this room. */
#ifndef NINEMETRE_PDF_FONTS_H
#define NINEMETRE_PDF_FONTS_H

#include <hpdf.h>
#include <hpdf_font.h>
#include <hpdf_fontdef.h>

#include "pdf.h"

/* Of one letter of a font, once it was asked for. */
struct letter {
    bool known, has;
    HPDF_INT16 width;            /* thousandths of the type's size */
    HPDF_UINT16 alphabet;        /* of those of the font */
    HPDF_BYTE code;              /* in this alphabet; 0: not drawn so far */
};

enum { LETTER_ROWS = 256, LETTERS_A_ROW = 256 };

/* Letters of a font that a document draws, a byte each. As a font of libharu
 * they have no use for its tables of all of Unicode, which take longer to set
 * up than a report takes to draw, and most of its bytes. */
struct alphabet {
    HPDF_Font font;
    HPDF_Encoder encoder;
    unsigned n;                  /* letters beyond ASCII */
};

/* libharu takes a file once; a second face may use the same one. */
struct font {
    struct str path;
    unsigned index;
    const char *name;            /* libharu's, of the document */
    HPDF_FontDef definition;
    struct letter *rows[LETTER_ROWS]; /* by the high byte of the code point */
    struct alphabet *alphabets;
    size_t alphabet_n, alphabet_room;
};

struct face {
    struct font *fonts[PDF_FONTS_MAX];
    unsigned n;
};

struct pdf {
    HPDF_Doc doc;
    struct arena *arena;
    struct face faces[FACE_N];
    struct font files[FACE_N * PDF_FONTS_MAX];
    unsigned file_n;
    unsigned alphabet_n;         /* of all fonts */
    HPDF_STATUS error; /* the first that libharu reported */
    bool not_finite;   /* a page held a number that is none */
};

/* Letters in a row that come from one font. */
struct run {
    struct str words;
    struct font *font; /* NULL: no font of the face has the first letter */
};

/* The first run of the words. */
struct run pdf_font_run(struct pdf *p, const struct face *face, struct str words);

/* How wide the words are, in thousandths of the type's size. */
double pdf_font_width(struct pdf *p, const struct face *face, struct str words);

/* What is known of a letter; NULL beyond the first plane of Unicode. */
struct letter *pdf_font_letter(struct pdf *p, struct font *font, unsigned code_point);

/* libharu embeds only the first level of the parts of a composite glyph; this
 * marks all levels, so that no letter loses its base or its accent. */
void pdf_font_mark_parts(const struct font *font);

/* ---- alphabets (alphabets.c) --------------------------------------------- */

/* Letters in a row that come from one alphabet. */
struct spelt {
    HPDF_Font font;  /* NULL: libharu failed */
    const char *codes;
    size_t n;        /* bytes of the words that they stand for */
};

/* The first letters of a run. New ones get their code, and an alphabet. */
struct spelt pdf_spell(struct pdf *p, struct run run);

/* Says of each code which letter it is, so that words can be searched and
 * copied. When all is drawn. */
void pdf_alphabets_to_unicode(struct pdf *p, const struct font *font);

#endif
