#include "cmd/fonts.h"

#include <fontconfig/fontconfig.h>
#include <string.h>
#include <unistd.h>

#define FAMILY "Liberation Sans"

/* Where the files lie if fontconfig knows nothing of them. */
static const char *const usual_paths[FACE_N][2] = {
    [FACE_REGULAR] = {"/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf",
                      "/usr/share/fonts/liberation-sans/LiberationSans-Regular.ttf"},
    [FACE_BOLD] = {"/usr/share/fonts/truetype/liberation/LiberationSans-Bold.ttf",
                   "/usr/share/fonts/liberation-sans/LiberationSans-Bold.ttf"},
};

enum { CANDIDATES_MAX = 12 };

static FcPattern *wanted(const char *family, enum page_face face) {
    FcPattern *p = FcPatternCreate();

    if (!p)
        return NULL;
    FcPatternAddString(p, FC_FAMILY, (const FcChar8 *)family);
    FcPatternAddInteger(p, FC_WEIGHT, face == FACE_BOLD ? FC_WEIGHT_BOLD : FC_WEIGHT_REGULAR);
    FcPatternAddInteger(p, FC_SLANT, FC_SLANT_ROMAN);
    FcPatternAddString(p, FC_FONTFORMAT, (const FcChar8 *)"TrueType");
    return p;
}

static bool is_of(FcPattern *font, const char *object, const char *value) {
    FcChar8 *found;

    return FcPatternGetString(font, object, 0, &found) == FcResultMatch &&
           strcmp((const char *)found, value) == 0;
}

static bool add(struct pdf *p, enum page_face face, FcPattern *font) {
    FcChar8 *file;
    int index = 0;

    if (FcPatternGetString(font, FC_FILE, 0, &file) != FcResultMatch ||
        !is_of(font, FC_FONTFORMAT, "TrueType"))
        return false;
    FcPatternGetInteger(font, FC_INDEX, 0, &index);
    /* The upper half of the index names an instance of a variable font. */
    return index >= 0 && index < 0x10000 &&
           pdf_add_font(p, face, (const char *)file, (unsigned)index) == PDF_WRITTEN;
}

static bool add_family(struct pdf *p, enum page_face face) {
    FcPattern *pattern = wanted(FAMILY, face), *font = NULL;
    FcResult result;
    bool added = false;

    if (pattern) {
        FcConfigSubstitute(NULL, pattern, FcMatchPattern);
        FcDefaultSubstitute(pattern);
        font = FcFontMatch(NULL, pattern, &result);
    }
    if (font && is_of(font, FC_FAMILY, FAMILY))
        added = add(p, face, font);
    for (size_t i = 0; !added && i < 2; i++)
        added = access(usual_paths[face][i], R_OK) == 0 &&
                pdf_add_font(p, face, usual_paths[face][i], 0) == PDF_WRITTEN;
    if (font)
        FcPatternDestroy(font);
    if (pattern)
        FcPatternDestroy(pattern);
    return added;
}

bool cmd_fonts(struct pdf *p, const char *given) {
    for (unsigned face = 0; face < FACE_N; face++) {
        if (given && pdf_add_font(p, (enum page_face)face, given, 0) != PDF_WRITTEN) {
            cmd_say("%s can't be used as a font: it must be a TrueType file", given);
            return false;
        }
        if (!given && !add_family(p, (enum page_face)face)) {
            cmd_say("no font " FAMILY " was found (Debian: fonts-liberation); "
                    "name a TrueType file with --font");
            return false;
        }
    }
    return true;
}

/* Adds the nearest font that has the letter: DejaVu Sans stands first, since
 * it goes well with the reports' own type. */
static bool fill_gap(struct pdf *p, enum page_face face, unsigned code_point) {
    FcPattern *pattern = wanted("DejaVu Sans", face);
    FcCharSet *letters = FcCharSetCreate();
    FcFontSet *fonts = NULL;
    FcResult result;
    bool added = false;

    if (pattern && letters && FcCharSetAddChar(letters, code_point)) {
        FcPatternAddCharSet(pattern, FC_CHARSET, letters);
        FcConfigSubstitute(NULL, pattern, FcMatchPattern);
        FcDefaultSubstitute(pattern);
        fonts = FcFontSort(NULL, pattern, FcFalse, NULL, &result);
    }
    for (int i = 0, tried = 0; fonts && !added && i < fonts->nfont && tried < CANDIDATES_MAX; i++) {
        FcCharSet *has;

        if (FcPatternGetCharSet(fonts->fonts[i], FC_CHARSET, 0, &has) != FcResultMatch ||
            !FcCharSetHasChar(has, code_point))
            continue;
        tried++;
        added = add(p, face, fonts->fonts[i]);
    }
    if (fonts)
        FcFontSetDestroy(fonts);
    if (letters)
        FcCharSetDestroy(letters);
    if (pattern)
        FcPatternDestroy(pattern);
    return added;
}

bool cmd_fonts_cover(struct pdf *p, struct str words, unsigned *code_point, bool *script) {
    for (unsigned round = 0; round < PDF_FONTS_MAX; round++) {
        if (pdf_covers(p, words, code_point, script))
            return true;
        if (*script || !*code_point)
            return false;
        bool regular = fill_gap(p, FACE_REGULAR, *code_point);
        bool bold = fill_gap(p, FACE_BOLD, *code_point);
        if (!regular && !bold)
            return false;
    }
    return pdf_covers(p, words, code_point, script);
}

void cmd_fonts_done(void) {
    FcFini();
}
