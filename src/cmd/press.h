/* A PDF while it is made: fonts of this machine, letters that they have, and
 * the way onto the disk. What every command that writes one shares. */
#ifndef NINEMETRE_CMD_PRESS_H
#define NINEMETRE_CMD_PRESS_H

#include "cmd/cmd.h"
#include "pdf.h"

struct cmd_press {
    struct pdf *pdf;
    struct arena *arena;
};

/* The words of --paper. */
extern const char *const cmd_papers[];

/* Opens a document in the report's type or in the font file `given`; NULL for
 * none. Says what is wrong when it gives false. cmd_press_close takes it in
 * either case. */
bool cmd_press_open(struct cmd_press *p, const char *given, struct arena *a);
void cmd_press_close(struct cmd_press *p);

/* Nothing may be set as an empty box: says which letter of the words no font
 * has, and that they stand at this place. */
bool cmd_press_covers(struct cmd_press *p, struct str words, struct str place);

/* Sets the pages on the paper (a word of cmd_papers; NULL for A4) and writes
 * the file. */
enum cmd_status cmd_press_write(struct cmd_press *p, const struct pages *pages, const char *paper,
                                const char *out);

/* The option for the language of the words on the pages, and its language. */
#define CMD_LANG_OPTION \
    { "lang", "LANG", "the language of the words, en if not said", lang_codes, 0 }
const struct lang *cmd_lang(const char *given);

/* False after a message when a PDF would go to a terminal. */
bool cmd_press_may_write(const struct cmd *cmd, const char *out);

#endif
