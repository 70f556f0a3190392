/* Pages to print that are no report of one file. */
#ifndef NINEMETRE_CMD_SHEET_H
#define NINEMETRE_CMD_SHEET_H

#include "cmd/press.h"

struct sheet {
    const struct cmd_run *run;
    struct arena *arena;
    struct page_facts facts;
    struct cmd_press press;
    enum cmd_status status;      /* worse than CMD_CLEAN: notes with errors, a missing file */
};

/* The pages of a kind; NULL after a message when there are none. `font` measures
 * in the open press. */
typedef const struct pages *sheet_maker(struct sheet *s, const struct page_font *font);

/* The practice plan of the notes in this folder. */
const struct pages *sheet_practice(struct sheet *s, const struct page_font *font,
                                   const char *folder);

#endif
