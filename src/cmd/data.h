/* What the JSON form and SARIF share: texts as JSON, and the parts of a
 * document while it grows. JSON itself is jansson's business. */
#ifndef NINEMETRE_DATA_H
#define NINEMETRE_DATA_H

#include <jansson.h>

#include "cmd/cmd.h"

enum { DATA_SCHEMA = 1 };

struct cmd_data {
    struct arena *arena; /* of one message */
    struct cmd_show *how;
    enum cmd_form form;
    json_t *messages;         /* SARIF: results */
    json_t *failures;         /* SARIF: notifications */
    json_t *rules;            /* SARIF only */
    unsigned rule_ix[DIAG_N]; /* its place in `rules` + 1 */
};

/* As JSON: a byte that is not UTF-8 becomes U+FFFD. */
json_t *data_text(struct cmd_data *data, struct str s);

/* The same under a key, unless it is empty. */
void data_put(struct cmd_data *data, json_t *object, const char *key, struct str s);

/* The line that an edit or a place speaks of. */
struct str data_line(const struct text *t, const struct diag *diag, unsigned line);

json_t *sarif_result(struct cmd_data *data, const struct text *t, const struct diag *diag);
json_t *sarif_failure(struct cmd_data *data, const char *path, const char *why);
json_t *sarif_document(struct cmd_data *data, const struct cmd_total *total);

#endif
