/* Pages to print that are no report of one file. */
#ifndef NINEMETRE_CMD_SHEET_H
#define NINEMETRE_CMD_SHEET_H

#include "cmd/press.h"
#include "cmd/span.h"

struct sheet {
    const struct cmd_run *run;
    struct arena *arena;
    struct page_facts facts;
    bool partial_data;
    struct cmd_span span;
    struct cmd_press press;
    enum cmd_status status;      /* worse than CMD_CLEAN: notes with errors, a missing file */
};

/* The pages of a kind; NULL after a message when there are none. `font` measures
 * in the open press. */
typedef const struct pages *sheet_maker(struct sheet *s, const struct page_font *font);

/* Reads the notes of a folder, each file forgotten after `take`, and says what is
 * wrong with them; s->status tells how it went. True if lines or files are missing. */
bool sheet_read(struct sheet *s, const char *folder, bool partial_data, void *into,
                void (*take)(void *into, const struct checked *c, struct str name,
                             struct arena *a));

/* The practice plan, the bench card, of the notes in this folder. */
const struct pages *sheet_practice(struct sheet *s, const struct page_font *font,
                                   const char *folder);
const struct pages *sheet_bench(struct sheet *s, const struct page_font *font,
                                const char *folder);

#endif
