/* The book of drills, and what it is asked for. */
#include "drill.h"

#include <assert.h>

/* The bytes of grammar/serve.drills. */
static const char ours[] = {
#include "serve_drills.h"
};

void drill_book_init(struct drill_book *b, struct arena *a) {
    struct text *t = arena_alloc(a, 1, sizeof *t);
    struct diags d;
    *b = (struct drill_book){.arena = a};
    diags_init(&d, a);
    text_take(t, STR("serve.drills"), (struct str){ours, sizeof ours}, a, &d);
    drill_read(b, t, &d);
    assert(d.n == 0);
    for (size_t i = 0; i < b->n; i++)
        b->at[i].own = false;
}

const struct drill_recipe *drill_find(const struct drill_book *b, struct str name) {
    for (size_t i = 0; i < b->n; i++)
        if (str_same(b->at[i].name, name))
            return &b->at[i];
    return NULL;
}

bool drill_fits(const struct drill_recipe *r, enum serve_type type) {
    return type == TYPE_NONE || !r->types || r->types & 1u << type;
}

/* The drills that name it at this place of their list. */
static size_t treating_at(const struct drill_book *b, enum word_id what, enum serve_type type,
                          size_t place, bool own, const struct drill_recipe **out, size_t most) {
    size_t n = 0;
    for (size_t i = 0; i < b->n; i++) {
        const struct drill_recipe *r = &b->at[i];
        if (place >= r->treat_n || r->treats[place] != what || r->own != own ||
            !drill_fits(r, type))
            continue;
        if (n < most)
            out[n] = r;
        n++;
    }
    return n;
}

size_t drill_treating(const struct drill_book *b, enum word_id what, enum serve_type type,
                      const struct drill_recipe **out, size_t most) {
    size_t n = 0, longest = 0;
    for (size_t i = 0; i < b->n; i++)
        if (b->at[i].treat_n > longest)
            longest = b->at[i].treat_n;
    for (size_t place = 0; place < longest; place++)
        for (int own = 1; own >= 0; own--) {
            size_t left = n < most ? most - n : 0;
            n += treating_at(b, what, type, place, own, left ? out + n : NULL, left);
        }
    return n;
}

static const struct drill_caution cautions[] = {
    {"Choosing",
     "One drill a player and week, one cue at a time. The coach chooses; a count only suggests. "
     "Counts are for learning, never for punishment."},
    {"Goals",
     "They are for the gym and prove nothing: two sets of ten show little. Add up tries over "
     "weeks, 50 and more on each side, before you say \"better\"."},
    {"Scoring",
     "A partner keeps the paper; the player does not count her own misses aloud. Every series "
     "begins with its drill line; an aim behind the name holds for each of its serves. A mark "
     "that is missing means \"fine\" only under its observe line. A drill without a ball has no "
     "marks: five serves after it carry them."},
    {"Left-handers",
     "They mirror every drill. Think of the side of the hitting arm and of across the head, not "
     "of left and right."},
    {"Jump serves",
     "They load shoulder, back and knees. Coach and player plan the number of the day beforehand "
     "and count warm-up, practice and match together. Raise it slowly. Do fewer near a match, "
     "after illness or time off, in a growth spurt, on a hard floor, or when height or speed of "
     "the arm fades. When the number is used up, go on with tosses, walk-throughs or standing "
     "serves. This program knows no safe number that fits every player."},
    {"Pain", "It ends serving for that day and belongs with a medical professional."},
    {"The hall",
     "Warm up first. All serve in the same direction, nobody fetches balls from the path of "
     "flight, and loose balls leave the run-up. Local rules for safeguarding come first."},
    {"Beginners and under-14s",
     "The standing or the underhand form, a lower net, a line nearer to it, and no drill with "
     "jump serves."},
};

const struct drill_caution *drill_caution(size_t ix) {
    return ix < sizeof cautions / sizeof *cautions ? &cautions[ix] : NULL;
}

const char *drill_jump_caution(void) {
    return "Jump serves load shoulder, back and knees: plan their number beforehand, warm-up and "
           "match included. Pain ends serving for the day and belongs with a medical professional.";
}
