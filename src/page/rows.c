/* Rows of servers, the same in every table of a report. */
#include "page/draw.h"

enum { FEW_SERVES = 3 };

static void add_to(struct server *to, const struct server *more) {
    tally_merge(&to->counts, &more->counts);
    for (unsigned k = 0; k < KNOWN_N; k++)
        to->known[k] += more->known[k];
}

/* How many rows stand by themselves: all of them up to fourteen; else those
 * with three serves and more, at most thirteen. */
static size_t own_rows(const struct tally *t) {
    size_t n = t->server_n[OURS];
    if (n <= PAGE_ROWS_MAX)
        return n;
    while (n > 0 && t->servers[OURS][n - 1].counts.serves < FEW_SERVES)
        n--;
    return n < PAGE_ROWS_MAX ? n : PAGE_ROWS_MAX - 1;
}

unsigned page_rows(const struct tally *t, struct server rows[PAGE_ROWS_MAX], unsigned *others_n) {
    size_t own = own_rows(t);
    unsigned n = 0;
    while (n < own) {
        rows[n] = t->servers[OURS][n];
        n++;
    }
    *others_n = (unsigned)(t->server_n[OURS] - own);
    if (*others_n == 0)
        return n;
    rows[n] = (struct server){.shirt = SHIRT_NONE};
    for (size_t i = own; i < t->server_n[OURS]; i++)
        add_to(&rows[n], &t->servers[OURS][i]);
    return n + 1;
}

void page_row_name(struct draw *d, const struct server *s, unsigned others_n, double no_mm,
                   double name_mm, double wide_mm, double y_mm) {
    struct str name =
        others_n > 0 ? page_say_n(d, others_n, "%u other", "%u others", others_n) : page_server(d, s);
    if (others_n == 0 && s->shirt != SHIRT_NONE)
        page_right(d, no_mm, y_mm, TYPE_TABLE, page_number(d, s->shirt));
    page_words(d, name_mm, y_mm, TYPE_TABLE, page_cut(d, name, TYPE_TABLE, wide_mm));
}

void page_count(struct draw *d, double end_mm, double y_mm, bool bold, unsigned n) {
    page_right(d, end_mm, y_mm,
               bold    ? TYPE_TABLE_BOLD
               : n > 0 ? TYPE_TABLE
                       : TYPE_ZERO,
               page_number(d, n));
}
