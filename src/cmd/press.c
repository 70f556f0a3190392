#include "cmd/press.h"

#include <string.h>
#include <unistd.h>

#include "cmd/fonts.h"

const char *const cmd_papers[] = {"a4", "letter", NULL};

bool cmd_press_open(struct cmd_press *p, const char *given, struct arena *a) {
    *p = (struct cmd_press){.pdf = pdf_new(a), .arena = a};
    if (!p->pdf)
        cmd_no_memory(0);
    return cmd_fonts(p->pdf, given);
}

void cmd_press_close(struct cmd_press *p) {
    pdf_free(p->pdf);
}

bool cmd_press_covers(struct cmd_press *p, struct str words, struct str place) {
    unsigned code_point;
    bool script;

    if (cmd_fonts_cover(p->pdf, words, &code_point, &script))
        return true;
    if (script)
        cmd_say("%.*s: \"%.*s\" holds U+%04X, a letter of a script that 9m can't set: it runs "
                "from right to left, or its letters join",
                STR_ARG(place), STR_ARG(words), code_point);
    else if (code_point)
        cmd_say("%.*s: no font has the letter U+%04X in \"%.*s\"", STR_ARG(place), code_point,
                STR_ARG(words));
    else
        cmd_say("%.*s: \"%.*s\" is not UTF-8", STR_ARG(place), STR_ARG(words));
    return false;
}

const struct lang *cmd_lang(const char *given) {
    return given ? lang_of(str_of(given)) : NULL;
}

enum cmd_status cmd_press_write(struct cmd_press *p, const struct pages *pages, const char *paper,
                                const char *out) {
    bool letter = paper && strcmp(paper, "letter") == 0;
    struct str bytes;

    switch (pdf_write(p->pdf, pages, letter ? PAPER_LETTER : PAPER_A4, &bytes)) {
    case PDF_WRITTEN:
        return cmd_write(out, bytes) ? CMD_CLEAN : CMD_FAILED;
    case PDF_LETTER:
        cmd_say("the font lacks a letter that the page itself needs; take another with --font");
        return CMD_FAILED;
    case PDF_FONT:
    case PDF_FAILED:
        break;
    }
    cmd_say("the PDF could not be made (libharu: 0x%04lX); nothing was written", pdf_error(p->pdf));
    return CMD_FAILED;
}

bool cmd_press_may_write(const struct cmd *cmd, const char *out) {
    if (strcmp(out, "-") != 0 || !isatty(STDOUT_FILENO))
        return true;
    cmd_misuse(cmd, "a PDF is nothing for a terminal; name a file with -o");
    return false;
}
