/* Reads drills: "Field: value", further lines of a value behind a blank. */
#include "drill.h"

#include <string.h>

enum field {
    NAME, PURPOSE, TREATS, TYPES, JUMPS, SETUP, DOSE, SCORE, GOAL, NEXT, CARE, FIELD_N
};

static const struct {
    const char *name;
    bool needed;
} fields[FIELD_N] = {
    [NAME] = {"Drill", true},   [PURPOSE] = {"Purpose", false}, [TREATS] = {"Treats", true},
    [TYPES] = {"Types", false}, [JUMPS] = {"Jumps", true},      [SETUP] = {"Set-up", true},
    [DOSE] = {"Dose", false},   [SCORE] = {"Score", false},     [GOAL] = {"Goal", false},
    [NEXT] = {"Next", false},   [CARE] = {"Care", false},
};

enum { GOAL_DIGITS_MAX = 3 };

/* One drill under construction. */
struct reader {
    struct drill_book *book;
    const struct text *text;
    struct diags *diags;
    struct drill_recipe recipe;
    struct buf values[FIELD_N];
    struct place fields[FIELD_N]; /* line 0: not given */
    enum field open;             /* the one that a further line goes on with; FIELD_N: none */
    unsigned errors_n;           /* in the list when the drill began */
    size_t spoilt_n;             /* of text->spoilt, how many lie behind */
};

static struct str spelt(struct place p) {
    return str_part(p.text, p.at, p.n);
}

/* The part of a place from its byte `from`, without blanks at its ends. */
static struct place part_of(struct place p, size_t from) {
    struct str rest = str_trim(str_part(spelt(p), from, p.n));
    p.at = rest.n ? (unsigned)(rest.at - p.text.at) : p.at + p.n;
    p.n = (unsigned)rest.n;
    return p;
}

/* ---- words -------------------------------------------------------------------- */

enum {
    TREATABLE = WORD_CLASS(WORD_MARK) | WORD_CLASS(WORD_OUTCOME) | WORD_CLASS(WORD_INTENT),
    TYPE_WORDS = WORD_CLASS(WORD_TYPE)
};

static struct str nearest(struct str word, unsigned classes) {
    unsigned least = 2;
    struct str best = STR_NONE;
    for (unsigned id = 0; id < W_N; id++) {
        const struct word_info *w = word_info((enum word_id)id);
        unsigned slips = str_slips(word, w->word, 1);
        if (classes & WORD_CLASS(w->class) && slips < least) {
            least = slips;
            best = w->word;
        }
    }
    return best;
}

static void no_word(struct reader *r, struct place p, const char *what, unsigned classes) {
    struct diag *d = diags_add(r->diags, E_DRILL_WORD, p, STR_ARG(spelt(p)), what);
    if (d)
        d->likely = nearest(spelt(p), classes);
}

static void take_treats(struct reader *r, struct place p) {
    const struct word_info *w = word_find(spelt(p), TREATABLE);
    struct drill_recipe *to = &r->recipe;
    if (!w) {
        no_word(r, p, "a mark, an outcome or an intent", TREATABLE);
        return;
    }
    to->treats = arena_grow(r->book->arena, to->treats, to->treat_n, &to->treat_room,
                            sizeof *to->treats);
    to->treats[to->treat_n++] = w->id;
}

static void take_type(struct reader *r, struct place p) {
    const struct word_info *w = word_find(spelt(p), TYPE_WORDS);
    if (w)
        r->recipe.types |= 1u << w->value;
    else
        no_word(r, p, "a type of serve", TYPE_WORDS);
}

static void take_jumps(struct reader *r, struct place p) {
    if (str_same(spelt(p), STR("no")))
        r->recipe.jumps = DRILL_JUMPS_NO;
    else if (str_same(spelt(p), STR("yes")))
        r->recipe.jumps = DRILL_JUMPS_YES;
    else if (str_same(spelt(p), STR("maybe")))
        r->recipe.jumps = DRILL_JUMPS_MAYBE;
    else
        no_word(r, p, "yes, no or maybe", 0);
}

static void take_words(struct reader *r, struct place p,
                       void take(struct reader *r, struct place word)) {
    while (p.n) {
        struct place word = p;
        for (word.n = 0; word.n < p.n && !memchr(" \t", p.text.at[p.at + word.n], 2); word.n++)
            ;
        take(r, word);
        p = part_of(p, word.n);
    }
}

/* ---- the goal ----------------------------------------------------------------- */

/* Digits from byte *at on; false if there are none, or too many. */
static bool digits(struct str s, size_t *at, unsigned *number) {
    size_t from = *at;
    for (*number = 0; *at < s.n && s.at[*at] >= '0' && s.at[*at] <= '9'; ++*at) {
        if (*at - from == GOAL_DIGITS_MAX)
            return false;
        *number = *number * 10 + (unsigned)(s.at[*at] - '0');
    }
    return *at > from;
}

/* "14/20 on two days": a goal may begin with a count, and with no other number. */
static void take_goal(struct reader *r, struct place p) {
    struct str s = spelt(p);
    unsigned hits, tries;
    size_t n = 0;
    if (!s.n || s.at[0] < '0' || s.at[0] > '9')
        return;
    bool count = digits(s, &n, &hits) && n < s.n && s.at[n++] == '/' && digits(s, &n, &tries) &&
                 (n == s.n || s.at[n] == ' ');
    for (n = 0; n < s.n && s.at[n] != ' '; n++)
        ;
    p.n = (unsigned)n;
    if (!count) {
        no_word(r, p, "a count such as 14/20", 0);
    } else if (hits > tries || tries == 0) {
        diags_add(r->diags, E_HITS_OF, p, (int)hits, (int)tries);
    } else {
        r->recipe.goal_hits = hits;
        r->recipe.goal_tries = tries;
    }
}

/* ---- fields and drills -------------------------------------------------------- */

/* A value, or a further line of it. */
static void take_value(struct reader *r, struct place p) {
    struct buf *b = &r->values[r->open];
    switch (r->open) {
    case TREATS: take_words(r, p, take_treats); break;
    case TYPES: take_words(r, p, take_type); break;
    case JUMPS: take_words(r, p, take_jumps); break;
    case GOAL:
        if (!b->n)
            take_goal(r, p);
        break;
    case NAME: case PURPOSE: case SETUP: case DOSE: case SCORE: case NEXT: case CARE: break;
    case FIELD_N: return;        /* the field was not known, which was told */
    }
    if (b->n && p.n)
        buf_char(b, r->open == SCORE ? '\n' : ' ');
    buf_add(b, spelt(p));
}

static enum field field_of(struct str name) {
    for (unsigned f = 0; f < FIELD_N; f++)
        if (str_same(name, str_of(fields[f].name)))
            return (enum field)f;
    return FIELD_N;
}

static void unknown_field(struct reader *r, struct place p) {
    struct diag *d = diags_add(r->diags, E_DRILL_FIELD, p, STR_ARG(spelt(p)));
    struct buf b;
    if (!d)
        return;
    buf_init(&b, r->book->arena);
    for (unsigned f = 0; f < FIELD_N; f++) {
        buf_printf(&b, "%s%s", f ? ", " : "", fields[f].name);
        if (str_slips(spelt(p), str_of(fields[f].name), 2) <= 2)
            d->likely = str_of(fields[f].name);
    }
    d->expected = buf_str(&b);
}

static void take_field(struct reader *r, struct place line, size_t name_n) {
    struct place name = line;
    name.n = (unsigned)name_n;
    r->open = field_of(str_trim(spelt(name)));
    if (r->open == FIELD_N) {
        unknown_field(r, name);
        return;
    }
    struct place *first = &r->fields[r->open];
    if (first->line) {
        struct diag *d = diags_add(r->diags, E_DRILL_FIELD_TWICE, name, fields[r->open].name);
        diag_see(d, *first, STR_NONE);
        r->open = FIELD_N;
        return;
    }
    *first = name;
    take_value(r, part_of(line, name_n + 1));
}

static void begin(struct reader *r) {
    r->recipe = (struct drill_recipe){.own = true};
    r->open = FIELD_N;
    r->errors_n = r->diags->errors;
    for (unsigned f = 0; f < FIELD_N; f++) {
        buf_init(&r->values[f], r->book->arena);
        r->fields[f] = (struct place){.line = 0};
    }
}

/* True if all is there. */
static bool is_whole(struct reader *r) {
    for (unsigned f = 0; f < FIELD_N; f++)
        if (fields[f].needed && !r->values[f].n) {
            diags_add(r->diags, E_DRILL_LACKS, r->recipe.place, fields[f].name);
            return false;
        }
    return true;
}

static void put(struct reader *r) {
    struct drill_book *b = r->book;
    const struct drill_recipe *old = drill_find(b, r->recipe.name);
    if (old && str_eq(old->place.file, r->text->name)) {
        struct diag *d = diags_add(r->diags, E_DRILL_TWICE, r->fields[NAME],
                                   STR_ARG(r->recipe.name));
        diag_see(d, old->place, STR_NONE);
    } else if (old) {
        b->at[old - b->at] = r->recipe;
    } else {
        b->at = arena_grow(b->arena, b->at, b->n, &b->room, sizeof *b->at);
        b->at[b->n++] = r->recipe;
    }
}

static void finish(struct reader *r) {
    struct drill_recipe *to = &r->recipe;
    struct str *const texts[FIELD_N] = {
        [NAME] = &to->name, [PURPOSE] = &to->purpose, [SETUP] = &to->setup, [DOSE] = &to->dose,
        [SCORE] = &to->score, [GOAL] = &to->goal, [NEXT] = &to->next, [CARE] = &to->care,
    };
    for (unsigned f = 0; f < FIELD_N; f++)
        if (texts[f])
            *texts[f] = buf_str(&r->values[f]);
    to->score_place = r->fields[SCORE];
    if (to->place.line && r->diags->errors == r->errors_n && is_whole(r))
        put(r);
    begin(r);
}

/* ---- lines -------------------------------------------------------------------- */

static void take_line(struct reader *r, struct place line) {
    struct str s = line.text;
    const char *colon = memchr(s.at, ':', s.n);
    bool further = s.at[0] == ' ' || s.at[0] == '\t';
    bool begins = !r->recipe.place.line;
    if (begins)
        r->recipe.place = line;
    if (further && !begins)
        take_value(r, part_of(line, 0));
    else if (!further && colon && colon > s.at)
        take_field(r, line, (size_t)(colon - s.at));
    else
        diags_add(r->diags, E_DRILL_LINE, line);
}

/* The line from byte `at`, without its end. */
static struct place line_at(const struct text *t, size_t at, unsigned number) {
    struct str line = text_line_at(t, at);
    return (struct place){t->name, line, number, 0, (unsigned)line.n};
}

/* A line of a file that is no text, or of an unresolved merge: that was told. */
static bool skipped(struct reader *r, unsigned line) {
    const struct text *t = r->text;
    while (r->spoilt_n < t->spoilt_n && t->spoilt[r->spoilt_n].line < line)
        r->spoilt_n++;
    return r->spoilt_n < t->spoilt_n && t->spoilt[r->spoilt_n].line == line &&
           t->spoilt[r->spoilt_n].skip;
}

unsigned drill_read(struct drill_book *b, const struct text *t, struct diags *d) {
    struct reader r = {.book = b, .text = t, .diags = d};
    unsigned number = 1, taken = 0;
    begin(&r);
    for (size_t at = 0; at < t->bytes.n; number++) {
        struct place line = line_at(t, at, number);
        const char *newline = memchr(t->bytes.at + at, '\n', t->bytes.n - at);
        at = newline ? (size_t)(newline - t->bytes.at) + 1 : t->bytes.n;
        if (skipped(&r, number) || (line.text.n && line.text.at[0] == '#'))
            continue;
        if (!str_trim(line.text).n) {
            finish(&r);
            continue;
        }
        take_line(&r, line);
        taken++;
    }
    finish(&r);
    return taken;
}
