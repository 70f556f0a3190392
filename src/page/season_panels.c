/* Shares match by match in small panels, all on one scale, and where to look at
 * the video. */
#include "page/season_parts.h"

#include <math.h>

static const double pitch_x_mm = 61, pitch_y_mm = 29.4, wide_mm = 55, plot_x_mm = 6.2;
static const double plot_y_mm = 3, high_mm = 14.4, hits_mm = 3.6, serves_mm = 6.5;
static const double limit_half_mm = 1.4, dot_mm = 0.95, dot_pt = 0.9, head_mm = 1.1;
static const double first_mm = 7.5, video_mm = 1.1, text_lead_mm = 4.3;
static const double end_frac = 0.8;
enum { ACROSS = 3, ALL_NUMBERS = 10 }; /* so many dots have room for three digits each */

struct panel {
    double x_mm, y_mm; /* left end and baseline of its title */
    struct str shirt, name;
    struct rate all;
    struct rate *at; /* of each dot */
    unsigned n;
    const struct season_alarms *alarms; /* NULL: of the team */
};

/* ---- one panel ------------------------------------------------------------------ */

static double dot_x(const struct panel *p, double ix) {
    return p->x_mm + plot_x_mm + (ix + 0.5) * (wide_mm - plot_x_mm) / p->n;
}

static double frac_y(const struct panel *p, double frac) {
    return p->y_mm + plot_y_mm + high_mm * (1 - frac / end_frac);
}

static void title(struct draw *d, const struct panel *p) {
    struct str total = page_fraction(d, p->all);
    if (rate_may_say(p->all.n) >= SAY_INTERVAL)
        total = str_printf(d->arena, "%.*s = %.0f %%", STR_ARG(total), rate_percent(p->all));
    double right = page_right(d, p->x_mm + wide_mm, p->y_mm, TYPE_TABLE, total);
    double left = p->shirt.n > 0 ? plot_x_mm : 0;
    page_words(d, p->x_mm, p->y_mm, TYPE_TABLE_BOLD, p->shirt);
    page_words(d, p->x_mm + left, p->y_mm, TYPE_TABLE,
               page_cut(d, p->name, TYPE_TABLE, wide_mm - left - right - 2));
}

static void axes(struct draw *d, const struct panel *p) {
    double left = p->x_mm + plot_x_mm, right = p->x_mm + wide_mm;
    for (unsigned percent = 0; percent <= 80; percent += 40) {
        double y = frac_y(p, percent / 100.0);
        page_line(d, left, y, right, y, percent ? RULE_GRID_PT : RULE_HEAD_PT,
                  percent ? INK_GRID : INK_BLACK);
        page_right(d, left - 0.8, y + 0.9, TYPE_NOTE, page_number(d, percent));
    }
    if (p->all.n > 0 && rate_frac(p->all) <= end_frac) {
        double y = frac_y(p, rate_frac(p->all));
        page_dashed(d, left, y, right, y, RULE_TABLE_PT, INK_BLACK, 1.0, 0.7);
    }
}

static void limit(struct draw *d, const struct panel *p, unsigned ix, unsigned count) {
    double frac = (double)count / p->at[ix].n, x = dot_x(p, ix), y = frac_y(p, frac);
    if (frac <= end_frac)
        page_line(d, x - limit_half_mm, y, x + limit_half_mm, y, RULE_TABLE_PT, INK_FAINT);
}

/* None of a share that comes of the one match, and none at 0 or 1. */
static void limits(struct draw *d, const struct panel *p, unsigned ix) {
    if (p->n == 1 || p->all.x == 0 || p->all.x == p->all.n)
        return;
    struct trend_limits l = trend_limits(p->at[ix].n, rate_frac(p->all));
    if (l.has_high)
        limit(d, p, ix, l.high);
    if (l.has_low)
        limit(d, p, ix, l.low);
}

/* A share above the scale is an open head at its upper end. */
static void dot(struct draw *d, const struct panel *p, unsigned ix) {
    struct rate r = p->at[ix];
    double x = dot_x(p, ix), top = frac_y(p, end_frac);
    if (rate_frac(r) > end_frac) {
        page_line(d, x - head_mm, top + head_mm, x, top, dot_pt, INK_OURS);
        page_line(d, x + head_mm, top + head_mm, x, top, dot_pt, INK_OURS);
        return;
    }
    page_circle(d, x, frac_y(p, rate_frac(r)), dot_mm, dot_pt, INK_OURS,
                rate_may_say(r.n) >= SAY_INTERVAL ? INK_OURS : INK_WHITE);
}

/* Numbers too wide for their columns stand under every second one. */
static unsigned number_every(const struct draw *d, const struct panel *p) {
    double widest = 0;
    for (unsigned i = 0; i < p->n; i++)
        widest = fmax(widest, page_width(d, page_number(d, p->at[i].n), TYPE_NOTE));
    return widest + 0.4 > dot_x(p, 1) - dot_x(p, 0) ? 2 : 1;
}

static void columns(struct draw *d, const struct panel *p) {
    struct type faint = TYPE_NOTE, black = TYPE_NOTE;
    double axis = frac_y(p, 0);
    unsigned every = number_every(d, p);
    faint.ink = INK_FAINT;
    black.ink = INK_BLACK;
    for (unsigned i = 0; i < p->n; i++) {
        if (p->at[i].n == 0) {
            page_centred(d, dot_x(p, i), axis + serves_mm, faint, STR("–"));
            continue;
        }
        limits(d, p, i);
        dot(d, p, i);
        if (i % every != 0)
            continue;
        page_centred(d, dot_x(p, i), axis + hits_mm, black, page_number(d, p->at[i].x));
        page_centred(d, dot_x(p, i), axis + serves_mm, TYPE_NOTE, page_number(d, p->at[i].n));
    }
}

static void draw_panel(struct season_draw *f, const struct panel *p) {
    struct draw *d = f->d;
    title(d, p);
    axes(d, p);
    columns(d, p);
    for (unsigned i = 0; p->alarms && i < p->alarms->n; i++) {
        const struct season_alarm *a = &p->alarms->at[i];
        double y = frac_y(p, end_frac) - video_mm + 0.7 * i;
        page_line(d, dot_x(p, (double)(a->from / f->per)) - limit_half_mm, y,
                  dot_x(p, (double)(a->to / f->per)) + limit_half_mm, y, dot_pt, INK_BLACK);
    }
}

static unsigned dots_of(const struct season_draw *f) {
    return (unsigned)((f->of->season->match_n + f->per - 1) / f->per);
}

/* ---- the team --------------------------------------------------------------------- */

enum team_rate { TEAM_BROKE, TEAM_MISSED, TEAM_WON, TEAM_RATES };

static struct rate team_rate(const struct counts *c, enum team_rate which) {
    switch (which) {
    case TEAM_BROKE:
        return (struct rate){c->broke, c->serves};
    case TEAM_MISSED:
        return (struct rate){c->missed, c->serves};
    case TEAM_WON:
        return (struct rate){c->won, c->decided};
    case TEAM_RATES:
        break;
    }
    return (struct rate){0, 0};
}

void page_season_team(struct season_draw *f) {
    static const char *const names[TEAM_RATES] = {WORDS("broke their pass"), WORDS("missed"),
                                                  WORDS("points won on serve")};
    struct draw *d = f->d;
    const struct season *s = f->of->season;
    page_season_section(f, first_mm + pitch_y_mm, page_say(d, "The team in each match"),
                        page_say(d,
                                 "dot: share, % · dashed: all matches · short line: exact limit · "
                                 "below: count, of how many"));
    for (unsigned k = 0; k < TEAM_RATES; k++) {
        struct panel p = {.x_mm = k * pitch_x_mm,
                          .y_mm = f->y_mm + first_mm,
                          .name = page_say(d, names[k]),
                          .all = team_rate(&s->all, (enum team_rate)k),
                          .at = arena_alloc(d->arena, dots_of(f), sizeof *p.at),
                          .n = dots_of(f)};
        for (size_t m = 0; m < s->match_n; m++)
            p.at[m / f->per] =
                rate_sum(p.at[m / f->per], team_rate(&s->matches[m].counts, (enum team_rate)k));
        draw_panel(f, &p);
    }
    f->y_mm += first_mm + pitch_y_mm - 6;
}

/* ---- each server ---------------------------------------------------------------------- */

static struct panel panel_of(struct season_draw *f, size_t server) {
    struct draw *d = f->d;
    const struct season *s = f->of->season;
    const struct person *who = s->servers[server].who;
    struct panel p = {.shirt = page_number(d, who->shirt),
                      .name = d->facts->no_names ? STR_NONE : who->name,
                      .all = season_missed(s, server, 0, s->match_n),
                      .at = arena_alloc(d->arena, dots_of(f), sizeof *p.at),
                      .n = dots_of(f),
                      .alarms = &f->alarms[server]};
    for (unsigned i = 0; i < p.n; i++) {
        size_t to = (size_t)(i + 1) * f->per;
        p.at[i] = season_missed(s, server, (size_t)i * f->per, to < s->match_n ? to : s->match_n);
    }
    return p;
}

/* "Not drawn: Marsan (2) 1/4, Torv (18) 0/2." */
static struct str not_drawn(struct season_draw *f) {
    struct draw *d = f->d;
    const struct season *s = f->of->season;
    struct buf b;
    buf_init(&b, d->arena);
    for (size_t i = 0; i < s->server_n; i++) {
        const struct counts *c = &s->servers[i].matches;
        if (rate_may_say(c->serves) != SAY_COUNT)
            continue;
        buf_printf(&b, "%s%.*s: %u/%u", b.n > 0 ? ", " : "",
                   STR_ARG(page_season_called(d, s->servers[i].who)), c->missed, c->serves);
    }
    if (b.n == 0)
        return STR_NONE;
    return page_sayf(d, " Under ten serves in all, not drawn: %.*s.", STR_ARG(buf_str(&b)));
}

static struct str panels_note(struct season_draw *f) {
    struct draw *d = f->d;
    struct str of = f->per == 1
                        ? page_say(d, "Matches from left to right, as in the list of matches.")
                        : page_sayf(d,
                                    "Each dot adds up %u matches, from left to right as in the "
                                    "list of matches.",
                                    f->per);
    struct str rest =
        page_say(d, " Open dot: under ten serves. Limits: at the server’s own share, a count so "
                    "far off comes by chance once in 740 at most; where none is drawn, no count is "
                    "so rare or it lies above 80 %. Thick stroke above: look at the video.");
    struct str numbers = dots_of(f) > ALL_NUMBERS
                             ? page_say(d, " Where numbers are too wide, every second one stands "
                                           "under its dot.")
                             : STR_NONE;
    return str_printf(d->arena, "%.*s%.*s%.*s%.*s", STR_ARG(of), STR_ARG(rest), STR_ARG(numbers),
                      STR_ARG(not_drawn(f)));
}

void page_season_misses(struct season_draw *f) {
    struct draw *d = f->d;
    const struct season *s = f->of->season;
    struct str head = page_say(d, "Misses in each match"), note = page_say(d, "most serves first");
    unsigned n = 0;
    for (size_t i = 0; i < s->server_n; i++) {
        if (rate_may_say(s->servers[i].matches.serves) < SAY_INTERVAL)
            continue;
        struct panel p = panel_of(f, i);
        if (n == 0)
            page_season_section(f, first_mm + pitch_y_mm, head, note);
        if (n % ACROSS == 0) {
            f->y_mm += n == 0 ? first_mm : pitch_y_mm;
            if (!page_season_room(f, pitch_y_mm - 6)) {
                page_section(d, 0, PAGE_WIDE_MM, f->y_mm, head, note);
                f->y_mm += first_mm;
            }
        }
        p.x_mm = n++ % ACROSS * pitch_x_mm;
        p.y_mm = f->y_mm;
        draw_panel(f, &p);
    }
    if (n > 0)
        f->y_mm += pitch_y_mm - 5;
    page_season_note(f, panels_note(f));
}

/* ---- where to look -------------------------------------------------------------------- */

static struct str alarm_words(struct season_draw *f, const struct person *who,
                              const struct season_alarm *a) {
    struct draw *d = f->d;
    const struct season_match *m = f->of->season->matches;
    struct str called = page_season_called(d, who),
               when = page_days(d, m[a->from].date, m[a->to].date);
    if (a->way == TREND_WORSE)
        return page_sayf(d,
                         "%.*s, more misses: %u of %u serves (%.*s); in the earlier matches it "
                         "was %u of %u.",
                         STR_ARG(called), a->rise.x, a->rise.n, STR_ARG(when), a->before.x,
                         a->before.n);
    return page_sayf(d,
                     "%.*s, fewer misses: %u of %u serves (%.*s); in the earlier matches it was "
                     "%u of %u.",
                     STR_ARG(called), a->rise.x, a->rise.n, STR_ARG(when), a->before.x,
                     a->before.n);
}

static struct str video_note(struct season_draw *f, unsigned watched, unsigned alarms) {
    struct draw *d = f->d;
    if (watched == 0)
        return page_sayf(d,
                         "A change is looked for from %u serves of a server on, %u of them in "
                         "the earlier matches: nobody has so many yet.",
                         rate_say_from_n(SAY_SEASON), rate_say_from_n(SAY_COMPARISON));
    struct str none = alarms == 0 ? page_say(d, "No change stands out. ") : STR_NONE;
    struct str earlier =
        f->of->split ? page_sayf(d, " Earlier: before %.*s.", STR_ARG(page_day(d, f->of->split_on)))
                     : page_say(d, " Earlier: the first half of the matches.");
    struct str how =
        page_say_n(d, watched,
                   "A sum over the serves of %u server with enough of them, against her own share "
                   "in the earlier matches (a CUSUM). Where nothing changed it still rings about "
                   "once in %u serves, each way: a place to look, not a fact.",
                   "A sum over the serves of %u servers with enough of them, each against her own "
                   "share in the earlier matches (a CUSUM). Where nothing changed it still rings "
                   "about once in %u serves, each way: a place to look, not a fact.",
                   watched, (unsigned)TREND_CALM_SERVES);
    return str_printf(d->arena, "%.*s%.*s%.*s", STR_ARG(none), STR_ARG(how), STR_ARG(earlier));
}

void page_season_video(struct season_draw *f) {
    struct draw *d = f->d;
    const struct season *s = f->of->season;
    unsigned all = 0, watched = 0;
    page_season_section(f, 16, page_say(d, "Where to look at the video"), STR_NONE);
    f->y_mm += 2.6;
    for (size_t i = 0; i < s->server_n; i++) {
        const struct season_alarms *of = &f->alarms[i];
        watched += of->watched;
        all += of->n;
        for (unsigned k = 0; k < of->n; k++) {
            page_season_room(f, 2 * text_lead_mm);
            f->y_mm = page_wrapped(d, 0, 0, f->y_mm + text_lead_mm, PAGE_WIDE_MM, text_lead_mm,
                                   TYPE_TEXT, alarm_words(f, s->servers[i].who, &of->at[k]), NULL);
        }
    }
    f->y_mm += all > 0 ? 1 : 0;
    page_season_note(f, video_note(f, watched, all));
}
