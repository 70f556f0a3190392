/* Gathers declarations, hands on the rest. */
#include <errno.h>
#include <string.h>

#include "match/reading.h"
#include "notation.h"

/* What may be said once in a file. */
enum {
    SAID_VENUE = 1, SAID_SCORER = 2, SAID_RULES = 4, SAID_NET = 8, SAID_RECORD = 16,
    SAID_OCCASION = 32
};

struct place reading_word(const struct reading *r, const struct stmt *st, unsigned k) {
    if (r->squad_line && k == 1)
        return r->squad_line->second;
    return syn_word(r->syn, st, k);
}

struct str reading_spelt(struct place p) {
    return str_part(p.text, p.at, p.n);
}

static struct squads *own_squads(struct arena *a) {
    struct squads *s = arena_alloc(a, 1, sizeof *s);
    s->arena = a;
    return s;
}

struct reading *match_open(const struct text *t, struct squads *squads, struct arena *a,
                           struct diags *d) {
    struct reading *r = arena_alloc(a, 1, sizeof *r);
    r->squads = squads ? squads : own_squads(a);
    r->arena = a;
    r->diags = d;
    r->text = t;
    r->syn = syn_new(t, a, d);
    if (squads)
        syn_take_words(r->syn, squads->words);
    r->match.file = t->name;
    profile_fill(&r->match.profile, profile_info(0));
    return r;
}

int date_order(struct date a, struct date b) {
    if (a.year != b.year)
        return a.year < b.year ? -1 : 1;
    if (a.month != b.month)
        return a.month < b.month ? -1 : 1;
    return (a.day > b.day) - (a.day < b.day);
}

const struct match *match_of(const struct reading *r) {
    return &r->match;
}

struct syn *match_syntax(const struct reading *r) {
    return r->syn;
}

enum side match_side(const struct match *m, char letter) {
    if (!letter)
        return OURS;
    for (unsigned i = 0; i < m->team_n; i++)
        if (m->teams[i].letter == letter)
            return (enum side)i;
    return SIDE_NONE;
}

const struct player *team_find(const struct team *t, unsigned shirt) {
    if (shirt > SHIRT_MAX || !t->by_shirt[shirt])
        return NULL;
    return &t->players[t->by_shirt[shirt] - 1];
}

static void once(struct reading *r, const struct stmt *st, unsigned bit) {
    struct place p = reading_word(r, st, 0);
    if (r->said & bit)
        diags_add(r->diags, E_DECLARED_TWICE, p, STR_ARG(reading_spelt(p)));
    r->said |= bit;
}

static struct str profile_names(struct reading *r) {
    struct buf names;
    buf_init(&names, r->arena);
    for (size_t i = 0; profile_info(i); i++)
        if (!profile_info(i)->refused)
            buf_printf(&names, "%s%s", i ? ", " : "", profile_info(i)->name);
    return buf_str(&names);
}

static void declare_rules(struct reading *r, const struct stmt *st) {
    once(r, st, SAID_RULES);
    const struct profile_info *info = profile_find(st->as.rule.name);
    struct diag *d;
    if (info && !info->refused) {
        profile_fill(&r->match.profile, info);
        return;
    }
    if (info)
        d = diags_add(r->diags, E_RULES_REFUSED, reading_word(r, st, 1), info->name, info->refused);
    else
        d = diags_add(r->diags, E_RULES_UNKNOWN, reading_word(r, st, 1), STR_ARG(st->as.rule.name));
    if (d)
        d->expected = profile_names(r);
}

/* A number up to the rule's most; yes and no for a rule that is one of both. */
static bool rule_number(const struct stmt *st, const struct rule_info *rule, unsigned *n) {
    struct str value = st->as.rule.word;
    bool truth = rule->most == 1;
    *n = (unsigned)st->as.rule.value;
    if (st->as.rule.number)
        return *n >= rule->least && *n <= rule->most;
    *n = str_same(value, STR("yes"));
    return truth && (*n || str_same(value, STR("no")));
}

static void declare_rule(struct reading *r, const struct stmt *st) {
    const struct rule_info *rule = rule_find(st->as.rule.name);
    struct diag *d;
    unsigned n;
    if (rule && rule_number(st, rule, &n)) {
        profile_set(&r->match.profile, rule, n);
        return;
    }
    if (rule) {
        d = diags_add(r->diags, E_RULE_VALUE, reading_word(r, st, 2), STR_ARG(st->as.rule.word),
                      STR_ARG(st->as.rule.name));
        if (d)
            d->expected = rule->most == 1 ? STR("yes or no")
                                          : str_printf(r->arena, "a number from %u to %u", rule->least,
                                                       rule->most);
        return;
    }
    struct buf names;
    buf_init(&names, r->arena);
    for (size_t i = 0; rule_info(i); i++)
        buf_printf(&names, "%s%s", i ? ", " : "", rule_info(i)->name);
    d = diags_add(r->diags, E_RULE_UNKNOWN, reading_word(r, st, 1), STR_ARG(st->as.rule.name));
    if (d)
        d->expected = buf_str(&names);
}

static void declare_occasion(struct reading *r, const struct stmt *st) {
    struct match *m = &r->match;
    if (r->said & SAID_OCCASION) {
        diags_add(r->diags, E_TWO_OCCASIONS, reading_word(r, st, 0));
        return;
    }
    r->said |= SAID_OCCASION;
    m->occasion = true;
    m->practice = st->kind == STMT_PRACTICE;
    m->day = reading_word(r, st, 1);
    m->date = st->as.occasion.date;
    m->timed = st->as.occasion.timed;
    m->minute = st->as.occasion.minute;
    m->title = st->as.occasion.title;
}

/* The first statement names the version, which the syntax room has looked at. */
static void take_version(struct reading *r, const struct stmt *st) {
    if (r->versioned && st->kind != STMT_NOTATION)
        return;
    struct place p = reading_word(r, st, 0);
    if (r->versioned) {
        diags_add(r->diags, E_DECLARED_TWICE, p, STR_ARG(reading_spelt(p)));
        return;
    }
    r->versioned = true;
    if (st->kind == STMT_NOTATION || st->kind == STMT_UNREAD)
        return;
    struct diag *d = diags_add(r->diags, E_NO_VERSION, p);
    diag_edit(d, st->line, 0, 0, STR("notation 1\n"));
    if (d) {
        d->attempt = STR("notation 1");
        d->safe = true;
    }
}

/* Only downwards: no absolute path, no "..", no other separators. */
static bool path_stays(struct str path) {
    if (!path.n || path.at[0] == '/' || memchr(path.at, '\\', path.n))
        return false;
    for (size_t i = 0; i + 1 < path.n; i++) {
        bool start = i == 0 || path.at[i - 1] == '/';
        bool end = i + 2 == path.n || path.at[i + 2] == '/';
        if (start && end && path.at[i] == '.' && path.at[i + 1] == '.')
            return false;
    }
    return true;
}

static struct str beside(struct reading *r, struct str path) {
    struct str folder = str_folder(r->text->name);
    return str_printf(r->arena, "%.*s%.*s", STR_ARG(folder), STR_ARG(path));
}

static const char *why_unread(enum text_status status) {
    if (status == TEXT_TOO_LARGE)
        return "it is too large";
    switch (errno) {
    case ENOENT: return "there is no such file";
    case EISDIR: return "it is a folder";
    case EACCES: return "it may not be read";
    case EINVAL: return "it is no ordinary file";
    }
    return "reading it failed";
}

static bool declare(struct reading *r, const struct stmt *st);

static void take_squad_lines(struct reading *r, const struct squad *q) {
    for (size_t i = 0; i < q->n; i++) {
        const struct stmt *st = &q->lines[i].st;
        r->squad_line = &q->lines[i];
        take_version(r, st);
        if (st->kind == STMT_UNREAD)
            r->match.header_unread = true;
        else if (!declare(r, st)) {
            struct place p = reading_word(r, st, 0);
            diags_add(r->diags, E_SQUAD_HOLDS, p, STR_ARG(reading_spelt(p)));
        }
    }
}

/* The squad's lines are declared as if they stood in the file, but for their
 * own places and their own `once`. */
static void take_squad(struct reading *r, const struct squad *q) {
    struct syn *outer = r->syn;
    unsigned said = r->said, group = r->diags->group;
    bool versioned = r->versioned;
    r->said = 0;
    r->versioned = false;
    r->outer = outer;
    r->syn = q->syn;
    r->diags->group = ++r->squad_n;
    diags_join(r->diags, &q->diags);
    take_squad_lines(r, q);
    r->match.header_unread |= syn_is_foreign(q->syn);
    r->squad_line = NULL;
    r->outer = NULL;
    r->versioned = versioned;
    r->said = said;
    r->syn = outer;
    r->diags->group = group;
}

/* What the file records if it is no squad's, else NULL. */
static const char *notes_of(const struct squad *q) {
    for (size_t i = 0; i < q->n; i++) {
        if (q->lines[i].st.kind == STMT_MATCH)
            return "match";
        if (q->lines[i].st.kind == STMT_PRACTICE)
            return "practice";
    }
    return NULL;
}

static void read_squad(struct reading *r, const struct stmt *st) {
    struct place where = reading_word(r, st, 1);
    struct str path = st->as.text;
    enum text_status status;
    if (!path_stays(path)) {
        struct diag *d = diags_add(r->diags, E_SQUAD_PATH, where, STR_ARG(path));
        if (d)
            d->expected = STR("a file beside this one or in a folder below it");
        r->match.header_unread = true;
        return;
    }
    if (r->squad_n == SQUAD_FILES_MAX) {
        diags_add(r->diags, E_SQUAD_MANY, where, SQUAD_FILES_MAX);
        return;
    }
    const struct squad *q = squad_load(r->squads, beside(r, path), &status);
    for (unsigned i = 0; q && i < r->squad_n; i++)
        if (r->squads_taken[i] == q) {
            diags_add(r->diags, E_DECLARED_TWICE, where, STR_ARG(reading_spelt(where)));
            return;
        }
    const char *notes = q ? notes_of(q) : NULL;
    if (q && !notes) {
        r->squads_taken[r->squad_n] = q;
        take_squad(r, q);
        return;
    }
    if (notes)
        diags_add(r->diags, E_SQUAD_NOTES, where, STR_ARG(path), notes);
    else
        diags_add(r->diags, E_SQUAD_UNREAD, where, STR_ARG(path), why_unread(status));
    r->match.header_unread = true;
}

/* The syntax room knows the file's own short words; a squad's are given to it. */
static void declare_short(struct reading *r, const struct stmt *st) {
    if (!r->outer)
        return;
    struct short_word *copy = arena_alloc(r->arena, 1, sizeof *copy);
    *copy = *st->as.short_word;
    copy->next = (struct short_word *)syn_shorts(r->outer);
    for (const struct short_word *other = copy->next; other; other = other->next)
        if (str_same(other->word, copy->word)) {
            struct diag *d = diags_add(r->diags, E_SHORT_TWICE, copy->place, STR_ARG(copy->word));
            diag_see(d, other->place, STR("its first meaning"));
            return;
        }
    syn_take_shorts(r->outer, copy);
}

static void declare_venue(struct reading *r, const struct stmt *st) {
    once(r, st, SAID_VENUE);
    r->match.venue = st->as.text;
}

static void declare_scorer(struct reading *r, const struct stmt *st) {
    once(r, st, SAID_SCORER);
    r->match.scorer = st->as.text;
}

/* From the lowest youth net of the profiles' sources (1.95 m) to the men's 2.43 m,
 * and half a metre to each side. */
enum { NET_MIN_CM = 145, NET_MAX_CM = 293 };

static void declare_net(struct reading *r, const struct stmt *st) {
    once(r, st, SAID_NET);
    r->match.net_cm = st->as.net_cm;
    if (st->as.net_cm < NET_MIN_CM || st->as.net_cm > NET_MAX_CM)
        diags_add(r->diags, E_IMPOSSIBLE, reading_word(r, st, 1), "a net of",
                  str_printf(r->arena, "%d.%02d m", st->as.net_cm / 100, st->as.net_cm % 100).at);
}

static void declare_record(struct reading *r, const struct stmt *st) {
    once(r, st, SAID_RECORD);
    r->match.ours_only = st->as.ours_only;
}

/* take_version has looked at it. */
static void declare_nothing(struct reading *r, const struct stmt *st) {
    (void)r;
    (void)st;
}

/* What is declared by which call, and whether a squad file may hold it. */
static const struct declaration {
    void (*declare)(struct reading *r, const struct stmt *st);
    bool in_squad;
} declarations[STMT_JUMPS + 1] = {
    [STMT_NOTATION] = {declare_nothing, true}, [STMT_SHORT] = {declare_short, true},
    [STMT_TEAM] = {declare_team, true},        [STMT_PLAYER] = {declare_player, true},
    [STMT_LIBERO] = {declare_libero, true},    [STMT_RULES] = {declare_rules, true},
    [STMT_RULE] = {declare_rule, true},        [STMT_MATCH] = {declare_occasion, false},
    [STMT_PRACTICE] = {declare_occasion, false}, [STMT_VENUE] = {declare_venue, false},
    [STMT_SCORER] = {declare_scorer, false},   [STMT_SQUAD] = {read_squad, false},
    [STMT_NETHEIGHT] = {declare_net, false},   [STMT_RECORD] = {declare_record, false},
    [STMT_FOCUS] = {declare_focus, false},
};

/* False if the statement is no declaration, or none that may stand here. */
static bool declare(struct reading *r, const struct stmt *st) {
    const struct declaration *d = &declarations[st->kind];
    if (!d->declare || (r->outer && !d->in_squad))
        return false;
    struct diags before = *r->diags;
    d->declare(r, st);
    if (st->mended && st->kind != STMT_SQUAD)
        diags_restore(r->diags, &before);
    return true;
}

static void settle_net(struct match *m) {
    char net = m->teams[OURS].net ? m->teams[OURS].net : m->teams[THEIRS].net;
    if (!m->net_cm && net)
        m->net_cm = (int)(net == 'w' ? m->profile.net_women_cm : m->profile.net_men_cm);
}

/* The first team is ours; if only the other has players, it is more likely that
 * ours is missing above it. */
static void ours_unsure(struct reading *r, struct place where) {
    const struct team *first = &r->match.teams[OURS], *second = &r->match.teams[THEIRS];
    struct diag *d = diags_add(r->diags, E_OURS_UNSURE, where, first->letter, second->letter);
    diag_see(d, first->place, STR("the first team"));
    if (d)
        d->likely = str_printf(r->arena, "the line of team %c belongs above it", second->letter);
    r->match.unsure = true;
}

/* The header is complete: what is missing in it is said once, here. */
static void begin_play(struct reading *r, const struct stmt *st) {
    if (r->started)
        return;
    r->started = true;
    settle_net(&r->match);
    declare_end(r);
    r->match.unsure |= !r->match.occasion || r->match.team_n < (r->match.practice ? 1u : 2u);
    if (r->match.header_unread)
        return;
    struct place p = reading_word(r, st, 0);
    if (!r->match.occasion)
        diags_add(r->diags, E_NO_OCCASION, p);
    else if (r->match.team_n == 0)
        diags_add(r->diags, E_OURS_MISSING, p);
    else if (r->match.team_n == 1 && !r->match.practice)
        diags_add(r->diags, E_THEIRS_MISSING, p);
    else if (r->match.team_n == 2 && !r->match.teams[OURS].declared &&
             r->match.teams[THEIRS].declared)
        ours_unsure(r, p);
    r->match.header_unread |= r->match.unsure;
}

static bool is_play(const struct stmt *st) {
    return st->kind != STMT_OBSERVE && st->kind != STMT_PLAN && st->kind != STMT_NOTE;
}

const struct stmt *match_next(struct reading *r) {
    const struct stmt *st;
    while (!r->ended && (st = syn_next(r->syn))) {
        take_version(r, st);
        if (st->kind == STMT_UNREAD && !r->started) {
            r->match.header_unread = true;
            r->match.unsure |= st->opens == T_TEAM;
            continue;
        }
        if (!declarations[st->kind].declare) {
            if (is_play(st))
                begin_play(r, st);
            return st;
        }
        if (r->started && st->kind != STMT_SHORT && st->kind != STMT_NOTATION) {
            struct place p = reading_word(r, st, 0);
            diags_add(r->diags, E_LATE, p, STR_ARG(reading_spelt(p)));
            continue;
        }
        (void)declare(r, st);
    }
    r->ended = true;
    settle_net(&r->match);
    if (!r->started)
        declare_end(r);
    if (!r->versioned && !syn_is_foreign(r->syn))
        diags_add(r->diags, E_EMPTY, text_place(r->text, 1, 0, 0));
    return NULL;
}
