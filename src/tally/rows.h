/* The rows of every table but that of servers, added up while serves come in: a
 * team has as many as its tables are long, however many serves. Private. */
#ifndef NINEMETRE_TALLY_ROWS_H
#define NINEMETRE_TALLY_ROWS_H

#include "pool.h"

/* The index of the team among the groups, a new one if need be. */
uint32_t rows_group(struct pool *p, struct str team);

void rows_add(struct pool *p, const struct pooled *way);

/* Adds those of another pool, whose people are numbered `now` in this one. */
void rows_merge(struct pool *p, const struct pool *more, const int32_t *now);

/* People are numbered `now` from here on, and nothing will be added. */
void rows_settle(struct pool *p, const int32_t *now);

/* The rows of a table of facts by key from 0; `*n` of them, all zero where nothing
 * was added. NULL: none was. */
const struct counts *rows_of(const struct pool *p, uint32_t group, enum cut cut,
                             enum pool_kind kind, size_t *n);

/* Of a settled pool, what was received of the team's serves: by receiver, and of each
 * by kind. */
const struct pool_received **rows_received(const struct pool *p, uint32_t group, size_t *n);

struct counts rows_counts(const struct pool_received *r);

#endif
