/* Lines that both sides put in one place: whether they can stand there one after
 * the other without a rally being told twice. Wherever that is not sure it is
 * left to the people who saw the match. */
#include "change/parts.h"

/* What was added to the set or drill above, and the sets or drills behind it. */
struct parts {
    const struct noted_line *here, *heads;
    size_t here_n, heads_n;
};

static struct parts parts_of(const struct noted_line *l, size_t n) {
    size_t i = 0;
    while (i < n && l[i].kind != STMT_SET && l[i].kind != STMT_DRILL)
        i++;
    return (struct parts){l, l + i, i, n - i};
}

static bool all_free(const struct noted_line *l, size_t n) {
    for (size_t i = 0; i < n; i++)
        if (!noted_free(&l[i]))
            return false;
    return true;
}

/* Lines whose order says nothing, if they are about different people or things. */
static bool stands_alone(const struct noted_line *l, bool practice) {
    bool counts = l->kind == STMT_TOSS || l->kind == STMT_TRIES || l->kind == STMT_JUMPS;
    bool serve = l->kind == STMT_SERVE || l->kind == STMT_NOTE;
    return l->kind == STMT_NONE || noted_declares(l) || counts || (serve && practice);
}

static bool shares_subject(const struct noted_line *l, const struct noted_line *b, size_t m) {
    for (size_t j = 0; j < m && !noted_free(l); j++)
        if (str_eq(l->about, b[j].about))
            return true;
    return false;
}

static bool independent(const struct noted_line *a, size_t n, const struct noted_line *b,
                        size_t m, bool practice) {
    for (size_t i = 0; i < n; i++)
        if (!stands_alone(&a[i], practice) || shares_subject(&a[i], b, m))
            return false;
    for (size_t j = 0; j < m; j++)
        if (!stands_alone(&b[j], practice))
            return false;
    return true;
}

/* `.` and a note belong to the line above them. */
static bool leans(const struct noted_line *l) {
    return l->same || l->kind == STMT_NOTE;
}

/* Not by whose they are: the result is the same for both. */
static bool later(struct str ours, struct str theirs) {
    return str_order(ours, theirs) > 0;
}

/* False if they can't both stand in the set or drill above. */
static bool order_here(const struct parts *a, const struct parts *b, bool practice,
                       bool *theirs_first) {
    bool a_free = all_free(a->here, a->here_n), b_free = all_free(b->here, b->here_n);
    if (!a->here_n || !b->here_n)
        return true;
    *theirs_first = a_free != b_free ? b_free
                    : leans(a->here) != leans(b->here) ? leans(b->here)
                                                       : later(a->here->raw, b->here->raw);
    if (a_free || b_free)
        return true;
    return !(leans(a->here) && leans(b->here)) &&
           independent(a->here, a->here_n, b->here, b->here_n, practice);
}

static unsigned last_set(const struct parts *p) {
    return p->heads[p->heads_n - 1].set;
}

static bool drills_differ(const struct parts *a, const struct parts *b) {
    for (size_t i = 0; i < a->heads_n; i++)
        if (a->heads[i].kind == STMT_DRILL && shares_subject(&a->heads[i], b->heads, b->heads_n))
            return false;
    return true;
}

/* Sets in the order of their numbers, drills of different names in any. */
static bool order_heads(const struct parts *a, const struct parts *b, bool practice,
                        bool *theirs_first) {
    if (!a->heads_n || !b->heads_n)
        return true;
    *theirs_first = practice ? later(a->heads->says, b->heads->says)
                             : b->heads->set < a->heads->set;
    if (practice)
        return drills_differ(a, b);
    return *theirs_first ? last_set(b) < a->heads->set : last_set(a) < b->heads->set;
}

struct merge_order merge_both(const struct noted_line *ours, size_t n,
                              const struct noted_line *theirs, size_t m, bool practice) {
    struct parts a = parts_of(ours, n), b = parts_of(theirs, m);
    struct merge_order order = {.here_n = {[MERGE_OURS] = a.here_n, [MERGE_THEIRS] = b.here_n}};
    order.fits = order_here(&a, &b, practice, &order.theirs_first[0]) &&
                 order_heads(&a, &b, practice, &order.theirs_first[1]);
    return order;
}
