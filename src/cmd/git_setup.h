/* Files that git-setup changes, and what it says of them. */
#ifndef NINEMETRE_CMD_GIT_SETUP_H
#define NINEMETRE_CMD_GIT_SETUP_H

#include "cmd/cmd.h"

struct setup {
    struct arena *arena;
    const char *top;             /* of the work tree */
    bool did;                    /* something was changed */
    enum cmd_status status;
};

/* One line of what was done. */
void setup_did(struct setup *s, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* That `what` failed, from errno. */
void setup_failed(struct setup *s, const char *what);

/* The path of a file at the top of the work tree. */
const char *setup_path(struct setup *s, const char *name);

/* The bytes of a file; false if there is none, or after a message. */
bool setup_read(struct setup *s, const char *path, struct str *bytes);

/* Does one line of the text hold these words, and is no remark? */
bool setup_holds(struct str text, const char *words);

/* Writes a file that may be run, and the folder that it is to lie in. */
bool setup_write_program(struct setup *s, const char *path, struct str bytes);

/* Puts the lines at the end of the file, once, where they overrule what stands above;
 * takes them out. True if the file changed. An empty file goes. */
bool setup_add_lines(struct setup *s, const char *path, const char *const *lines);
bool setup_remove_lines(struct setup *s, const char *path, const char *const *lines);

#endif
