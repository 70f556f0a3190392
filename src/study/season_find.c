/* What is found in a season: alarms, an order of the servers, weeks. */
#include "study/season_parts.h"

/* ---- the alarm -------------------------------------------------------------- */

/* The sum over her serves from the match `later` on, and its latest alarm. */
struct alarm_sum {
    const struct trend_cusum *c;
    unsigned sum;
    struct rate rise;
    size_t began;
    bool found;
};

static void add_serve(struct alarm_sum *sum, size_t match, bool missed,
                      struct season_alarm *out) {
    if (sum->sum == 0) {
        sum->rise = (struct rate){0, 0};
        sum->began = match;
    }
    sum->rise = rate_sum(sum->rise, (struct rate){missed, 1});
    if (trend_serve(sum->c, &sum->sum, missed)) {
        *out = (struct season_alarm){sum->c->way, sum->began, match, out->before, sum->rise};
        sum->found = true;
    }
}

static bool run_sum(const struct season *s, size_t server, size_t later,
                    const struct trend_cusum *c, struct season_alarm *out) {
    size_t from, to;
    struct alarm_sum sum = {.c = c};
    season_runs_of(s, server, &from, &to);
    for (size_t i = from; i < to; i++) {
        const struct season_run *run = &s->runs[i];
        for (unsigned k = 0; run->match >= later && k < run->n; k++)
            add_serve(&sum, run->match, run->missed >> k & 1, out);
    }
    return sum.found;
}

static void find_alarms(const struct season *s, size_t server, size_t later, double share,
                        struct arena *a, struct season_alarms *out) {
    for (unsigned way = TREND_WORSE; way <= TREND_BETTER; way++) {
        struct trend_cusum c;
        double changed = trend_changed((enum trend_way)way, share);
        out->at[out->n].before = season_missed(s, server, 0, later);
        if (trend_cusum((enum trend_way)way, share, changed, a, &c))
            out->n += run_sum(s, server, later, &c, &out->at[out->n]);
    }
}

struct season_alarms *season_alarms(const struct season *s, size_t later, struct arena *a) {
    struct season_alarms *all = arena_alloc(a, s->server_n + 1, sizeof *all);
    struct rate *before = arena_alloc(a, s->server_n + 1, sizeof *before);
    struct shrink team;
    for (size_t i = 0; i < s->server_n; i++)
        before[i] = season_missed(s, i, 0, later);
    if (!shrink_fit(before, s->server_n, &team))
        return all;
    for (size_t i = 0; i < s->server_n; i++) {
        all[i].watched = rate_may_say(s->servers[i].matches.serves) >= SAY_SEASON &&
                         rate_may_say(before[i].n) >= SAY_COMPARISON;
        if (all[i].watched)
            find_alarms(s, i, later, shrink_one(&team, before[i]).frac, a, &all[i]);
    }
    return all;
}

/* ---- in one order ------------------------------------------------------------- */

/* Servers of one type; all where `any`. Gives how many, and their serves. */
static size_t of_type(const struct season *s, bool any, enum serve_type type, size_t *which,
                      struct rate *rates, unsigned *serves_n) {
    size_t n = 0;
    *serves_n = 0;
    for (size_t i = 0; i < s->server_n; i++) {
        const struct counts *c = &s->servers[i].matches;
        if (c->serves == 0 || (!any && s->servers[i].type != type))
            continue;
        *serves_n += c->serves;
        rates[n] = (struct rate){c->missed, c->serves};
        which[n++] = i;
    }
    return n;
}

/* In order of the estimates; of equal ones she with fewer serves comes last. */
static void put(struct season_rank *r, struct shrunk one) {
    size_t k = r->n++;
    while (k > 0 && (r->at[k - 1].frac > one.frac ||
                     (r->at[k - 1].frac == one.frac && r->at[k - 1].rate.n < one.rate.n))) {
        r->at[k] = r->at[k - 1];
        k--;
    }
    r->at[k] = one;
}

struct season_rank season_rank(const struct season *s, struct arena *a) {
    struct season_rank r = {arena_alloc(a, s->server_n + 1, sizeof *r.at), 0, true};
    size_t *which = arena_alloc(a, s->server_n + 1, sizeof *which);
    struct rate *rates = arena_alloc(a, s->server_n + 1, sizeof *rates);
    struct shrink team;
    unsigned serves_n;
    for (unsigned t = TYPE_NONE; t <= TYPE_UNDERHAND; t++)
        if (of_type(s, false, (enum serve_type)t, which, rates, &serves_n) > 0)
            r.by_type = r.by_type && serves_n >= SHRINK_LEAST_SERVES_N;
    for (unsigned t = TYPE_NONE; t <= (r.by_type ? TYPE_UNDERHAND : TYPE_NONE); t++) {
        size_t n = of_type(s, !r.by_type, (enum serve_type)t, which, rates, &serves_n);
        if (n == 0 || !shrink_fit(rates, n, &team))
            continue;
        for (size_t i = 0; i < n; i++) {
            struct shrunk one = shrink_one(&team, rates[i]);
            one.ix = which[i];
            put(&r, one);
        }
    }
    return r;
}

/* ---- weeks ------------------------------------------------------------------- */

enum { DAYS = 7, THURSDAY = 3 };

/* Julian day 0 was a Monday. */
int season_week_of(struct date d) {
    return progress_day_number(d) / DAYS;
}

/* That of the year which its Thursday lies in. */
unsigned season_iso_week(struct date d) {
    int thursday = season_week_of(d) * DAYS + THURSDAY, first = 0;
    for (int year = d.year - 1; year <= d.year + 1; year++) {
        int new_year = progress_day_number((struct date){year, 1, 1});
        if (new_year <= thursday)
            first = new_year;
    }
    return (unsigned)((thursday - first) / DAYS + 1);
}

struct season_weeks season_weeks(const struct season *s) {
    struct season_weeks w = {0};
    int first = s->first_week;
    for (size_t i = 0; i < s->jumps_n; i++) {
        const struct season_jumps *j = &s->jumps[i];
        if (j->week == first)
            w.first = j->iso;
        if ((unsigned)(j->week - first) + 1 >= w.n) {
            w.n = (unsigned)(j->week - first) + 1;
            w.last = j->iso;
        }
    }
    return w;
}
