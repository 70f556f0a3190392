/* What the text and the JSON of `9m agree` share. */
#ifndef NINEMETRE_AGREEMENT_H
#define NINEMETRE_AGREEMENT_H

#include "agree.h"
#include "cmd/cmd.h"

/* From so many serves on a kappa is shown; our own choice. */
enum { AGREEMENT_KAPPA_N = 30 };

struct agreement {
    const struct cmd_run *run;
    struct arena *arena;
    struct text text[2];
    const struct checked *checked[2];
    size_t errors;
    bool incomplete;
    struct agree agree;
};

const char *agreement_field(unsigned field);

/* False for a mark that neither of them ever wrote. */
bool agreement_shown(const struct agree_facts *f, unsigned field);

/* A serve of the first (0) or second (1) file in canonical spelling. */
struct str agreement_serve(const struct agreement *g, unsigned i, size_t ix);

/* False when there are too few serves, or no kappa. */
bool agreement_kappa(const struct agree_facts *f, unsigned field, struct kappa *k);

bool agreement_differs(const struct agreement *g, struct agree_pair pair);

void agreement_json(const struct agreement *g);

#endif
