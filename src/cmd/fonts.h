/* Fonts of this machine for a document. fontconfig knows them; rooms never ask. */
#ifndef NINEMETRE_CMD_FONTS_H
#define NINEMETRE_CMD_FONTS_H

#include "cmd/cmd.h"
#include "pdf.h"

/* The type of the reports, or the file that was asked for, in both faces. Says
 * what is wrong and gives false when there is none. */
bool cmd_fonts(struct pdf *p, const char *given);

/* Looks for fonts that have what the words still lack. False, with the code
 * point, if there is none; *script as pdf_covers gives it. */
bool cmd_fonts_cover(struct pdf *p, struct str words, unsigned *code_point, bool *script);

/* Gives back what fontconfig holds. */
void cmd_fonts_done(void);

#endif
