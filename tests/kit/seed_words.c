/* Slips within one line, and the table of all kinds. */
#include "kit/seed_parts.h"

#include <string.h>

#define UNUSED (void)s, (void)i, (void)d, (void)a

static bool swap(const struct seed_notes *s, unsigned i, struct seed_words *w, unsigned k,
                 struct str word, struct arena *a, struct seed_slip *out) {
    struct str line = seed_with(w, k, word, a);
    return !str_eq(line, s->lines[i]) && seed_replace(out, i, line, a);
}

/* ---- the server ---------------------------------------------------------- */

static struct str server(const struct seed_notes *s, char letter, struct str number,
                         struct arena *a) {
    if (letter == s->ours)
        return number;
    return str_printf(a, "%c%.*s", letter, STR_ARG(number));
}

static bool has_shirt(const struct seed_notes *s, unsigned i, struct seed_serve *v) {
    return seed_serve_of(v, s, s->lines[i]) && v->letter && v->shirt != SEED_UNSEEN;
}

static bool shirt_wrong(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                        struct seed_slip *out) {
    struct seed_serve v;
    unsigned shirt;
    if (!has_shirt(s, i, &v) || !seed_other_shirt(s, v.letter, &v.shirt, 1, d, &shirt))
        return false;
    return swap(s, i, &v.w, 0, server(s, v.letter, str_printf(a, "%u", shirt), a), a, out);
}

/* Generated squads end at 24. */
static bool shirt_unknown(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                          struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    return has_shirt(s, i, &v) && v.letter == s->ours &&
           swap(s, i, &v.w, 0, str_printf(a, "%u", 60 + v.shirt % 40), a, out);
}

static bool digits_turned(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                          struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    if (!has_shirt(s, i, &v) || v.shirt < 10)
        return false;
    struct str number = str_printf(a, "%u%u", v.shirt % 10, v.shirt / 10);
    return swap(s, i, &v.w, 0, server(s, v.letter, number, a), a, out);
}

static bool digit_letter(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                         struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    if (!has_shirt(s, i, &v))
        return false;
    struct str number = v.w.at[0];
    struct buf b;
    buf_init(&b, a);
    for (size_t k = 0; k < number.n; k++)
        buf_char(&b, number.at[k] == '1' ? 'l' : number.at[k] == '0' ? 'O' : number.at[k]);
    return swap(s, i, &v.w, 0, buf_str(&b), a, out);
}

/* This server's shirt and that of the same team's next turn, exchanged. */
static bool shirts_swapped(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                           struct seed_slip *out) {
    struct seed_serve v, then;
    struct buf b;
    unsigned k = i;
    UNUSED;
    if (!has_shirt(s, i, &v))
        return false;
    do
        if (++k == s->n || seed_opens(s->lines[k], "set"))
            return false;
    while (!has_shirt(s, k, &then) || then.letter != v.letter || then.shirt == v.shirt);
    buf_init(&b, a);
    for (unsigned at = i; at <= k; at++) {
        struct str line = at == i   ? seed_with(&v.w, 0, then.w.at[0], a)
                          : at == k ? seed_with(&then.w, 0, v.w.at[0], a)
                                    : s->lines[at];
        buf_printf(&b, "%.*s\n", STR_ARG(line));
    }
    *out = (struct seed_slip){.from = i, .to = k + 1, .by = buf_str(&b), .by_n = k + 1 - i};
    return true;
}

/* Ours with their letter, theirs without. */
static bool team_wrong(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                       struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    if (!has_shirt(s, i, &v) || !s->theirs)
        return false;
    char other = v.letter == s->ours ? s->theirs : s->ours;
    return swap(s, i, &v.w, 0, server(s, other, str_printf(a, "%u", v.shirt), a), a, out);
}

static bool team_unknown(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                         struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    return has_shirt(s, i, &v) && v.letter != s->ours &&
           swap(s, i, &v.w, 0, str_printf(a, "Z%u", v.shirt), a, out);
}

/* ---- what came of it ----------------------------------------------------- */

static bool won_lost(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                     struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    if (!seed_serve_of(&v, s, s->lines[i]))
        return false;
    for (unsigned k = 1; k < v.w.n; k++) {
        if (str_is(v.w.at[k], "won"))
            return swap(s, i, &v.w, k, STR("lost"), a, out);
        if (str_is(v.w.at[k], "lost"))
            return swap(s, i, &v.w, k, STR("won"), a, out);
    }
    return false;
}

static bool outcome_is(const struct seed_notes *s, unsigned i, const char *from, struct str to,
                       struct arena *a, struct seed_slip *out) {
    struct seed_serve v;
    return seed_serve_of(&v, s, s->lines[i]) && v.outcome && str_is(v.w.at[v.outcome], from) &&
           swap(s, i, &v.w, v.outcome, to, a, out);
}

static bool ace_for_net(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                        struct seed_slip *out) {
    UNUSED;
    return outcome_is(s, i, "net", STR("ace"), a, out);
}

static bool net_for_ace(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                        struct seed_slip *out) {
    UNUSED;
    return outcome_is(s, i, "ace", STR("net"), a, out);
}

static bool net_for_in2(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                        struct seed_slip *out) {
    UNUSED;
    return outcome_is(s, i, "in2", STR("net"), a, out);
}

static bool in2_for_net(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                        struct seed_slip *out) {
    UNUSED;
    return outcome_is(s, i, "net", STR("in2"), a, out);
}

static bool plain_outcome(const struct seed_notes *s, unsigned i, struct seed_serve *v) {
    if (!seed_serve_of(v, s, s->lines[i]) || !v->outcome)
        return false;
    struct str w = v->w.at[v->outcome];
    for (size_t k = 0; k < w.n; k++)
        if (w.at[k] < 'a' || w.at[k] > 'z')
            return false;
    return true;
}

static bool key_doubled(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                        struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    if (!plain_outcome(s, i, &v))
        return false;
    struct str w = v.w.at[v.outcome];
    size_t at = dice_below(d, (unsigned)w.n);
    return swap(s, i, &v.w, v.outcome,
                str_printf(a, "%.*s%.*s", STR_ARG(str_part(w, 0, at + 1)),
                           STR_ARG(str_part(w, at, w.n))), a, out);
}

/* Not the last: "in" is a word too. */
static bool key_lost(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                     struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    if (!plain_outcome(s, i, &v))
        return false;
    struct str w = v.w.at[v.outcome];
    return swap(s, i, &v.w, v.outcome,
                str_printf(a, "%.*s%.*s", STR_ARG(str_part(w, 0, 1)),
                           STR_ARG(str_part(w, 2, w.n))), a, out);
}

static bool blank_missing(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                          struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    if (!has_shirt(s, i, &v))
        return false;
    struct str line = s->lines[i];
    return seed_replace(out, i,
                        str_printf(a, "%.*s%.*s", STR_ARG(v.w.at[0]),
                                   STR_ARG(str_part(line, v.w.at[0].n + 1, line.n))), a);
}

static bool outcome_twice(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                          struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    if (!seed_serve_of(&v, s, s->lines[i]) || !v.outcome)
        return false;
    struct str w = v.w.at[v.outcome];
    return swap(s, i, &v.w, v.outcome, str_printf(a, "%.*s %.*s", STR_ARG(w), STR_ARG(w)), a, out);
}

static bool outcome_missing(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                            struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    return seed_serve_of(&v, s, s->lines[i]) && v.outcome &&
           swap(s, i, &v.w, v.outcome, STR_NONE, a, out);
}

/* A landing of one zone behind the outcome. */
static bool zone_8(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                   struct seed_slip *out) {
    struct seed_serve v;
    unsigned zone;
    UNUSED;
    return seed_serve_of(&v, s, s->lines[i]) && v.outcome && v.outcome + 1 < v.w.n &&
           seed_number(v.w.at[v.outcome + 1], &zone) && zone <= 6 &&
           swap(s, i, &v.w, v.outcome + 1, STR("8"), a, out);
}

static bool long_inside(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                        struct seed_slip *out) {
    UNUSED;
    return outcome_is(s, i, "long", STR("long 5"), a, out);
}

static bool comma_point(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                        struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    if (!seed_serve_of(&v, s, s->lines[i]))
        return false;
    for (unsigned k = 1; k < v.w.n; k++) {
        struct str w = v.w.at[k];
        const char *point = memchr(w.at, '.', w.n);
        size_t n = point ? (size_t)(point - w.at) : 0;
        if (point)
            return swap(s, i, &v.w, k,
                        str_printf(a, "%.*s,%.*s", STR_ARG(str_part(w, 0, n)),
                                   STR_ARG(str_part(w, n + 1, w.n))), a, out);
    }
    return false;
}

static bool mark_unknown(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                         struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    if (!seed_serve_of(&v, s, s->lines[i]))
        return false;
    for (unsigned k = 1; k < v.outcome; k++)
        if (v.w.at[k].n == 2 && strchr("tjhn", v.w.at[k].at[0]) && v.w.at[k].at[1] >= 'a')
            return swap(s, i, &v.w, k, str_printf(a, "%cz", v.w.at[k].at[0]), a, out);
    return false;
}

static unsigned time_word(const struct seed_serve *v) {
    for (unsigned k = 1; k < v->w.n; k++)
        if (memchr(v->w.at[k].at, ':', v->w.at[k].n))
            return k;
    return 0;
}

/* To the camera's first second; not in the first line with a time. */
static bool time_falls(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                       struct seed_slip *out) {
    struct seed_serve v, before;
    bool earlier = false;
    UNUSED;
    if (!seed_serve_of(&v, s, s->lines[i]) || !time_word(&v))
        return false;
    for (unsigned k = 0; k < i && !earlier; k++)
        earlier = seed_serve_of(&before, s, s->lines[k]) && time_word(&before);
    return earlier && swap(s, i, &v.w, time_word(&v), STR("0:01"), a, out);
}

/* ---- scores -------------------------------------------------------------- */

static bool score_of(const struct seed_notes *s, unsigned i, bool end, unsigned *x, unsigned *y) {
    struct str line = s->lines[i];
    if (end && !seed_opens(line, "end"))
        return false;
    return seed_pair(end ? str_part(line, 4, line.n) : line, x, y);
}

static bool score_off(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                      struct seed_slip *out) {
    unsigned x, y;
    if (!score_of(s, i, false, &x, &y))
        return false;
    unsigned which = dice_below(d, 2);
    return seed_replace(out, i, str_printf(a, "%u-%u", x + which, y + !which), a);
}

static bool score_turned(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                         struct seed_slip *out) {
    unsigned x, y;
    UNUSED;
    return score_of(s, i, false, &x, &y) && x != y &&
           seed_replace(out, i, str_printf(a, "%u-%u", y, x), a);
}

static bool end_off(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                    struct seed_slip *out) {
    unsigned x, y;
    if (!score_of(s, i, true, &x, &y))
        return false;
    unsigned which = dice_below(d, 2);
    return seed_replace(out, i, str_printf(a, "end %u-%u", x + which, y + !which), a);
}

static bool end_turned(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                       struct seed_slip *out) {
    unsigned x, y;
    UNUSED;
    return score_of(s, i, true, &x, &y) && x != y &&
           seed_replace(out, i, str_printf(a, "end %u-%u", y, x), a);
}

/* ---- statements ---------------------------------------------------------- */

static bool statement(const struct seed_notes *s, unsigned i, const char *word, unsigned n,
                      struct seed_words *w) {
    return seed_opens(s->lines[i], word) && seed_words_of(w, s->lines[i]) && w->n >= n;
}

/* Another of the squad in one place of the line-up. */
static bool lineup_wrong(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                         struct seed_slip *out) {
    struct seed_words w;
    unsigned shirts[6], shirt;
    if (!statement(s, i, "lineup", 8, &w))
        return false;
    for (unsigned k = 0; k < 6; k++)
        if (!seed_number(w.at[2 + k], &shirts[k]))
            return false;
    unsigned at = dice_below(d, 6);
    if (!seed_other_shirt(s, w.at[1].at[0], shirts, 6, d, &shirt))
        return false;
    return swap(s, i, &w, 2 + at, str_printf(a, "%u", shirt), a, out);
}

static bool lineup_twice(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                         struct seed_slip *out) {
    struct seed_words w;
    if (!statement(s, i, "lineup", 8, &w))
        return false;
    unsigned at = dice_below(d, 6);
    return swap(s, i, &w, 2 + at, w.at[2 + (at + 1) % 6], a, out);
}

static bool set_number(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                       struct seed_slip *out) {
    struct seed_words w;
    unsigned n;
    UNUSED;
    return statement(s, i, "set", 2, &w) && seed_number(w.at[1], &n) &&
           swap(s, i, &w, 1, str_printf(a, "%u", n + 1), a, out);
}

static bool set_first(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                      struct seed_slip *out) {
    struct seed_words w;
    UNUSED;
    return statement(s, i, "set", 3, &w) &&
           swap(s, i, &w, 2, str_printf(a, "%c", w.at[2].at[0] == s->ours ? s->theirs : s->ours),
                a, out);
}

static bool timeout_unknown(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                            struct seed_slip *out) {
    struct seed_words w;
    UNUSED;
    return statement(s, i, "timeout", 2, &w) && swap(s, i, &w, 1, STR("Z"), a, out);
}

/* The one who goes out is another of the squad. */
static bool sub_out(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                    struct seed_slip *out) {
    struct seed_words w;
    unsigned said[2], shirt;
    if (!statement(s, i, "sub", 5, &w) || !seed_number(w.at[2], &said[0]) ||
        !seed_number(w.at[4], &said[1]) ||
        !seed_other_shirt(s, w.at[1].at[0], said, 2, d, &shirt))
        return false;
    return swap(s, i, &w, 4, str_printf(a, "%u", shirt), a, out);
}

static bool sub_turned(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                       struct seed_slip *out) {
    struct seed_words w;
    UNUSED;
    if (!statement(s, i, "sub", 5, &w))
        return false;
    struct str in = w.at[2];
    w.at[2] = w.at[4];
    return swap(s, i, &w, 4, in, a, out);
}

static bool quote_missing(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                          struct seed_slip *out) {
    struct str line = s->lines[i];
    UNUSED;
    if ((!seed_opens(line, "note") && !seed_opens(line, "match") && !seed_opens(line, "venue")) ||
        !str_ends(line, STR("\"")))
        return false;
    return seed_replace(out, i, str_part(line, 0, line.n - 1), a);
}

static bool date_wrong(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                       struct seed_slip *out) {
    struct str line = s->lines[i];
    UNUSED;
    return seed_opens(line, "match") && line.n >= 16 &&
           seed_replace(out, i,
                        str_printf(a, "%.*s13%.*s", STR_ARG(str_part(line, 0, 11)),
                                   STR_ARG(str_part(line, 13, line.n))), a);
}

/* A serve that two people wrote, merged by a version control system. */
static bool conflict(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                     struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    if (!seed_serve_of(&v, s, s->lines[i]) || !v.outcome)
        return false;
    struct str other = seed_with(&v.w, v.outcome, STR("replay"), a);
    *out = (struct seed_slip){
        .from = i, .to = i + 1, .by_n = 5,
        .by = str_printf(a, "<<<<<<< HEAD\n%.*s\n=======\n%.*s\n>>>>>>> video\n",
                         STR_ARG(s->lines[i]), STR_ARG(other))};
    return true;
}

const struct seed_kind seed_kinds[] = {
    {"shirt-wrong", SEED_LINE, shirt_wrong},
    {"shirt-unknown", SEED_LINE, shirt_unknown},
    {"shirt-digits-turned", SEED_LINE, digits_turned},
    {"shirts-swapped", SEED_LINE, shirts_swapped},
    {"shirt-letter-for-digit", SEED_LINE, digit_letter},
    {"team-wrong", SEED_LINE, team_wrong},
    {"team-unknown", SEED_LINE, team_unknown},
    {"won-lost", SEED_LINE, won_lost},
    {"ace-for-net", SEED_LINE, ace_for_net},
    {"net-for-ace", SEED_LINE, net_for_ace},
    {"net-for-in2", SEED_LINE, net_for_in2},
    {"key-doubled", SEED_LINE, key_doubled},
    {"key-lost", SEED_LINE, key_lost},
    {"blank-missing", SEED_LINE, blank_missing},
    {"outcome-twice", SEED_LINE, outcome_twice},
    {"outcome-missing", SEED_LINE, outcome_missing},
    {"mark-unknown", SEED_LINE, mark_unknown},
    {"zone-8", SEED_LINE, zone_8},
    {"long-inside", SEED_LINE, long_inside},
    {"comma-for-point", SEED_LINE, comma_point},
    {"video-time-falls", SEED_LINE, time_falls},
    {"score-off-by-one", SEED_LINE, score_off},
    {"score-turned", SEED_LINE, score_turned},
    {"end-off-by-one", SEED_LINE, end_off},
    {"end-turned", SEED_LINE, end_turned},
    {"lineup-shirt-wrong", SEED_LINE, lineup_wrong},
    {"lineup-shirt-twice", SEED_LINE, lineup_twice},
    {"set-number-wrong", SEED_LINE, set_number},
    {"set-server-wrong", SEED_LINE, set_first},
    {"timeout-team-unknown", SEED_LINE, timeout_unknown},
    {"sub-out-wrong", SEED_LINE, sub_out},
    {"sub-turned", SEED_LINE, sub_turned},
    {"quote-missing", SEED_LINE, quote_missing},
    {"date-wrong", SEED_LINE, date_wrong},
    {"conflict", SEED_LINE, conflict},
    {"serve-missing", SEED_LINES, seed_serve_missing},
    {"serve-doubled", SEED_LINES, seed_serve_doubled},
    {"serves-turned", SEED_LINES, seed_serves_turned},
    {"sub-missing", SEED_LINES, seed_sub_missing},
    {"sub-doubled", SEED_LINES, seed_sub_doubled},
    {"set-missing", SEED_LINES, seed_set_missing},
    {"set-doubled", SEED_LINES, seed_set_doubled},
    {"end-missing", SEED_LINES, seed_end_missing},
    {"end-doubled", SEED_LINES, seed_end_doubled},
    {"player-missing", SEED_LINES, seed_player_missing},
    {"player-doubled", SEED_LINES, seed_player_doubled},
    {"team-missing", SEED_LINES, seed_team_missing},
    {"score-missing", SEED_LEGAL, seed_score_missing},
    {"timeout-missing", SEED_LEGAL, seed_timeout_missing},
    {"grade-other", SEED_LEGAL, seed_grade_other},
    {"in2-for-net", SEED_LEGAL, in2_for_net},
    {"zone-other", SEED_LEGAL, seed_zone_other},
    {"mark-missing", SEED_LEGAL, seed_mark_missing},
};

const unsigned seed_kind_n = sizeof seed_kinds / sizeof *seed_kinds;
