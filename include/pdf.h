/* From pages to the bytes of a PDF. The only room that knows libharu. A
 * document holds its fonts; the page room measures words through it. The same
 * pages and fonts give the same bytes: no clock, no user, no host is asked. */
#ifndef NINEMETRE_PDF_H
#define NINEMETRE_PDF_H

#include "page.h"

enum pdf_paper { PAPER_A4, PAPER_LETTER };

enum pdf_status {
    PDF_WRITTEN,
    PDF_FONT,                    /* the font file can't be used */
    PDF_LETTER,                  /* a letter that no font has */
    PDF_FAILED                   /* libharu gave up, or a number was not finite */
};

enum { PDF_FONTS_MAX = 6 };      /* of each face: the first and those that fill its gaps */

struct pdf;

/* An empty document; NULL if libharu can't make one. pdf_free takes it. */
struct pdf *pdf_new(struct arena *a);
void pdf_free(struct pdf *p);

/* Adds a TrueType font file to a face. The first one sets the type; the later
 * ones give the letters that it lacks. `index` counts in a collection. */
enum pdf_status pdf_add_font(struct pdf *p, enum page_face face, const char *path,
                             unsigned index);

/* True if each letter can be set; else its code point, 0 for bytes that are not
 * UTF-8. *script: the fonts may have it, but it is written from right to left
 * or its letters change shape, which this program can't do. */
bool pdf_covers(struct pdf *p, struct str words, unsigned *code_point, bool *script);

/* How wide words are in the document's fonts. */
struct page_font pdf_font(struct pdf *p);

/* The bytes of the document, in the arena. A document is written once. */
enum pdf_status pdf_write(struct pdf *p, const struct pages *pages, enum pdf_paper paper,
                          struct str *bytes);

/* libharu's number of the first failure, for a message. */
unsigned long pdf_error(const struct pdf *p);

#endif
