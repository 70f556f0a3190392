/* What the text and the JSON of `9m aim` share. */
#ifndef NINEMETRE_CMD_AIMING_H
#define NINEMETRE_CMD_AIMING_H

#include "aimed.h"
#include "cmd/cmd.h"

struct aiming {
    struct arena *arena;
    struct aimed *aimed;
    size_t person;
    enum serve_type type;
    struct aimed_advice advice;
    bool incomplete;             /* lines or files were left out */
};

/* "topspin"; empty for TYPE_NONE. */
struct str aiming_type(enum serve_type type);

void aiming_text(const struct aiming *g);
void aiming_json(const struct aiming *g);

#endif
