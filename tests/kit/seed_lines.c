/* Slips that leave out, double or turn round whole lines, and those after
 * which the notes are as legal as before. */
#include "kit/seed_parts.h"

#include <string.h>

static bool left_out(struct seed_slip *out, unsigned i) {
    *out = (struct seed_slip){.from = i, .to = i + 1};
    return true;
}

static bool doubled(const struct seed_notes *s, unsigned i, struct arena *a,
                    struct seed_slip *out) {
    struct str line = s->lines[i];
    *out = (struct seed_slip){
        .from = i, .to = i + 1, .by_n = 2,
        .by = str_printf(a, "%.*s\n%.*s\n", STR_ARG(line), STR_ARG(line))};
    return true;
}

static bool is_serve(const struct seed_notes *s, unsigned i) {
    struct seed_serve v;
    return seed_serve_of(&v, s, s->lines[i]);
}

#define UNUSED (void)s, (void)i, (void)d, (void)a

bool seed_serve_missing(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                        struct seed_slip *out) {
    UNUSED;
    return is_serve(s, i) && left_out(out, i);
}

bool seed_serve_doubled(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                        struct seed_slip *out) {
    UNUSED;
    return is_serve(s, i) && doubled(s, i, a, out);
}

bool seed_serves_turned(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                        struct seed_slip *out) {
    UNUSED;
    if (i + 1 >= s->n || !is_serve(s, i) || !is_serve(s, i + 1) ||
        str_eq(s->lines[i], s->lines[i + 1]))
        return false;
    *out = (struct seed_slip){.from = i, .to = i + 2, .by_n = 2,
                              .by = str_printf(a, "%.*s\n%.*s\n", STR_ARG(s->lines[i + 1]),
                                               STR_ARG(s->lines[i]))};
    return true;
}

/* `sub H 14 for 3`. */
bool seed_sub_missing(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                      struct seed_slip *out) {
    struct seed_words w;
    UNUSED;
    if (!seed_opens(s->lines[i], "sub") || !seed_words_of(&w, s->lines[i]) || w.n < 5)
        return false;
    left_out(out, i);
    out->letter = w.at[1].at[0];
    return seed_number(w.at[2], &out->shirts[0]) && seed_number(w.at[4], &out->shirts[1]);
}

bool seed_sub_doubled(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                      struct seed_slip *out) {
    UNUSED;
    return seed_opens(s->lines[i], "sub") && doubled(s, i, a, out);
}

bool seed_set_missing(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                      struct seed_slip *out) {
    UNUSED;
    return seed_opens(s->lines[i], "set") && left_out(out, i);
}

bool seed_set_doubled(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                      struct seed_slip *out) {
    UNUSED;
    return seed_opens(s->lines[i], "set") && doubled(s, i, a, out);
}

/* The end of the last set may be missing: the match is not over yet. */
bool seed_end_missing(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                      struct seed_slip *out) {
    UNUSED;
    if (!seed_opens(s->lines[i], "end"))
        return false;
    for (unsigned k = i + 1; k < s->n; k++)
        if (seed_opens(s->lines[k], "set")) {
            /* The blank line between goes with it: the next `set` shows it. */
            *out = (struct seed_slip){.from = i, .to = k};
            return true;
        }
    return false;
}

bool seed_end_doubled(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                      struct seed_slip *out) {
    UNUSED;
    return seed_opens(s->lines[i], "end") && doubled(s, i, a, out);
}

/* `player H7 "Name"`: found out where she first plays. */
bool seed_player_missing(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                         struct seed_slip *out) {
    struct str line = s->lines[i];
    UNUSED;
    if (!seed_opens(line, "player") || line.n < 10)
        return false;
    left_out(out, i);
    out->in_head = true;
    size_t end = 8;
    while (end < line.n && line.at[end] != ' ')
        end++;
    out->letter = line.at[7];
    if (!seed_number(str_part(line, 8, end - 8), &out->shirts[0]))
        return false;
    out->shirts[1] = out->shirts[0];
    return true;
}

bool seed_player_doubled(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                         struct seed_slip *out) {
    UNUSED;
    return seed_opens(s->lines[i], "player") && doubled(s, i, a, out);
}

bool seed_team_missing(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                       struct seed_slip *out) {
    UNUSED;
    if (!seed_opens(s->lines[i], "team"))
        return false;
    left_out(out, i);
    out->in_head = true;
    return true;
}

/* ---- legal --------------------------------------------------------------- */

bool seed_score_missing(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                        struct seed_slip *out) {
    unsigned x, y;
    UNUSED;
    return seed_pair(s->lines[i], &x, &y) && left_out(out, i);
}

bool seed_timeout_missing(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                          struct seed_slip *out) {
    UNUSED;
    return seed_opens(s->lines[i], "timeout") && left_out(out, i);
}

bool seed_grade_other(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                      struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    if (!seed_serve_of(&v, s, s->lines[i]) || !v.outcome || !str_is(v.w.at[v.outcome], "in2"))
        return false;
    return seed_replace(out, i, seed_with(&v.w, v.outcome, STR("in3"), a), a);
}

/* A landing of one zone, behind the outcome. */
bool seed_zone_other(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                     struct seed_slip *out) {
    struct seed_serve v;
    unsigned zone;
    UNUSED;
    if (!seed_serve_of(&v, s, s->lines[i]) || !v.outcome || v.outcome + 1 >= v.w.n ||
        !str_starts(v.w.at[v.outcome], STR("in")) || !seed_number(v.w.at[v.outcome + 1], &zone) ||
        zone > 6)
        return false;
    return seed_replace(out, i,
                        seed_with(&v.w, v.outcome + 1, zone == 6 ? STR("5") : STR("6"), a), a);
}

bool seed_mark_missing(const struct seed_notes *s, unsigned i, struct dice *d, struct arena *a,
                       struct seed_slip *out) {
    struct seed_serve v;
    UNUSED;
    if (!seed_serve_of(&v, s, s->lines[i]))
        return false;
    for (unsigned k = 1; k < v.outcome; k++)
        if (str_is(v.w.at[k], "td") || str_is(v.w.at[k], "nr") || str_is(v.w.at[k], "hw"))
            return seed_replace(out, i, seed_with(&v.w, k, STR_NONE, a), a);
    return false;
}
