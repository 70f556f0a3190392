/* What the files of `9m tally` share. */
#ifndef NINEMETRE_CMD_TALLY_H
#define NINEMETRE_CMD_TALLY_H

#include "cmd/cmd.h"
#include "pool.h"
#include "rate.h"

/* ---- reading (tally_read.c) ---------------------------------------------- */

struct reading_wish {
    const struct cmd_run *run;
    bool partial_data;           /* go on without lines or files that have errors */
    bool files;                  /* the pool is to know which files it counts */
    unsigned threads;
    const struct cmd_span *span;
};

/* Counts the files of the operands into `pool`, the same whatever the number of
 * threads. Says what is wrong with them; *stop when nothing may be shown. */
enum cmd_status tally_read(const struct reading_wish *wish, struct pool *pool, bool *stop);

/* ---- counts as a file (tally_parts.c) ------------------------------------ */

/* The pool as JSON; it must be settled, sorted and joined. */
struct str tally_parts(const struct pool *p, struct arena *a);

/* Adds a file of such counts, which is `part` of the pool; false after a message. */
bool tally_parts_read(struct pool *p, const char *path, unsigned part);

/* ---- what is shown ------------------------------------------------------- */

struct tally_view {
    const struct pool *pool;
    unsigned cuts;               /* 1 << enum cut */
    enum pool_kind kind;
    const bool *teams;           /* by index of the pool's teams: is shown */
    unsigned width;              /* cells; 0: as wide as need be */
    struct arena *arena; /* of the document */
    struct arena *scratch; /* of one table, which resets it */
};

struct str tally_text(const struct tally_view *v);
struct str tally_csv(const struct tally_view *v);
struct str tally_json(const struct tally_view *v);

/* The words of `--by`, NULL behind the last: one a cut, then "all". */
extern const char *const tally_cut_words[];

/* What a row is called in data: a word or a number of the notation, empty for
 * what is not recorded and for people whose shirt was not seen. */
struct str tally_row_word(const struct pool *p, enum cut cut, int32_t key, struct arena *a);

/* The word of an outcome, of a serve type; "r" "m" "l"; a situation's. */
struct str tally_outcome_word(unsigned outcome);
struct str tally_type_word(unsigned type);
struct str tally_third_word(unsigned third);
struct str tally_situation_word(unsigned situation);

/* A pass is graded 0 (ace) to 3; `over`, `play` and `in` have no grade. */
unsigned tally_pass_n(const struct counts *c);
unsigned tally_pass_sum(const struct counts *c);

/* JSON text with its quotes; what is not UTF-8 becomes U+FFFD. */
void tally_quoted(struct buf *b, struct str s);

#endif
