/* What `9m rate` shows of two rates and of many in a row alike. */
#ifndef NINEMETRE_CMD_RATES_H
#define NINEMETRE_CMD_RATES_H

#include <jansson.h>

#include "cmd/cmd.h"
#include "trend.h"

enum { RATES_MOST = 100 };

struct rates {
    struct rate at[RATES_MOST];
    size_t n; /* 1 or 2, or all of a trend */
    struct trend_change difference; /* of two, the first less the second */
};

/* "8/31   26%  14 to 43", as far as it may be said. */
void rates_put(struct rate r);

/* ", p 0.031" */
void rates_put_p(double p);

/* The document of rates so far; more may be added. */
json_t *rates_json(const struct rates *r);

/* Adds the sentence, prints the document and frees it. */
void rates_json_end(json_t *document, struct str said);

/* ---- a row of them (rates_trend.c) --------------------------------------- */

void rates_trend_text(const struct rates *r, struct arena *a);
void rates_trend_json(const struct rates *r, struct arena *a);

#endif
