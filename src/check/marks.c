/* Marks that cannot both be true of one serve. */
#include "check/play.h"

enum { WORDS_MOST = 64 };        /* a serve line that is looked through has no more */

static const struct {
    enum mark one, other;
} contraries[] = {
    {MARK_td, MARK_tu}, {MARK_tl, MARK_tr}, {MARK_tn, MARK_tf}, {MARK_as, MARK_al},
    {MARK_je, MARK_jl},
};

static struct str spelling(enum mark m) {
    return word_info((enum word_id)(W_td + m))->word;
}

/* Where the later of the two stands; the server's word if a short word hides it. */
static struct place later_of(struct play *p, const struct stmt *st, enum mark one,
                             enum mark other) {
    struct place found = syn_word(p->syn, st, 0);
    for (unsigned k = 1; k < WORDS_MOST; k++) {
        struct place w = syn_word(p->syn, st, k);
        if (w.n == 0 || w.at == 0)
            break;
        if (str_same(play_spelt(w), spelling(one)) || str_same(play_spelt(w), spelling(other)))
            found = w;
    }
    return found;
}

void marks_check(struct play *p, const struct stmt *st) {
    uint32_t marks = st->as.serve.marks;
    for (size_t i = 0; marks && i < sizeof contraries / sizeof *contraries; i++) {
        enum mark one = contraries[i].one, other = contraries[i].other;
        if (!(marks & 1u << one) || !(marks & 1u << other))
            continue;
        diags_add(p->diags, E_CONTRARY, later_of(p, st, one, other), STR_ARG(spelling(one)),
                  STR_ARG(spelling(other)));
        return;
    }
}
