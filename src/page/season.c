/* The season report: which sections it has, and how they flow over its pages. */
#include "page/season_parts.h"

#include <math.h>

static const double first_y_mm = 12, between_mm = 9, lead_mm = 3.2;
static const double no_mm = 4.5;

double page_season_turn(struct draw *d) {
    page_begin(d, page_say(d, "Season report"));
    return SEASON_TOP_MM;
}

bool page_season_room(struct season_draw *f, double need_mm) {
    if (f->y_mm + f->d->push_mm + need_mm <= BODY_END_MM)
        return true;
    f->y_mm = f->turn(f->d);
    return false;
}

void page_season_section(struct season_draw *f, double need_mm, struct str head, struct str note) {
    if (page_season_room(f, between_mm + need_mm))
        f->y_mm += between_mm;
    page_section(f->d, 0, PAGE_WIDE_MM, f->y_mm, head, note);
}

void page_season_note(struct season_draw *f, struct str words) {
    double lines = ceil(page_width(f->d, words, TYPE_NOTE) / (PAGE_WIDE_MM * 0.94));
    page_season_room(f, SEASON_NOTE_MM + (lines - 1) * lead_mm);
    f->y_mm = page_note(f->d, 0, f->y_mm + SEASON_NOTE_MM, PAGE_WIDE_MM, words);
}

/* ---- people ------------------------------------------------------------------- */

void page_season_who(struct draw *d, const struct person *who, double wide_mm, double y_mm) {
    page_right(d, no_mm, y_mm, TYPE_TABLE_BOLD, page_number(d, who->shirt));
    if (!d->facts->no_names)
        page_words(d, SEASON_NAME_MM, y_mm, TYPE_TABLE,
                   page_cut(d, who->name, TYPE_TABLE, wide_mm));
}

void page_season_who_heads(struct draw *d, double y_mm) {
    page_words(d, 0, y_mm, TYPE_NOTE, page_say(d, "no."));
    if (!d->facts->no_names)
        page_words(d, SEASON_NAME_MM, y_mm, TYPE_NOTE, page_say(d, "name"));
}

struct str page_season_called(struct draw *d, const struct person *who) {
    if (d->facts->no_names || who->name.n == 0)
        return page_number(d, who->shirt);
    return str_printf(d->arena, "%.*s (%u)", STR_ARG(who->name), who->shirt);
}

/* ---- the whole ------------------------------------------------------------------ */

static struct str title(struct draw *d, const struct page_season *of) {
    const struct season *s = of->season;
    struct str matches =
        page_say_n(d, (unsigned)s->match_n, "%u match", "%u matches", (unsigned)s->match_n);
    return str_printf(d->arena, "%.*s · %.*s, %.*s", STR_ARG(of->team), STR_ARG(matches),
                      STR_ARG(page_days(d, s->matches[0].date, s->matches[s->match_n - 1].date)));
}

static void heading(struct draw *d, const struct season *s) {
    struct str serves = page_say_n(d, s->all.serves, "%u serve", "%u serves", s->all.serves);
    struct str practices =
        page_say_n(d, s->practice_n, "%u practice", "%u practices", s->practice_n);
    page_heading(d, page_say(d, "The season so far"),
                 page_sayf(d, "for the staff · %.*s in matches, %u missed · %.*s", STR_ARG(serves),
                           s->all.missed, STR_ARG(practices)));
}

/* What the figures rest on. */
static void data(struct season_draw *f) {
    struct draw *d = f->d;
    const struct season *s = f->of->season;
    unsigned files = (unsigned)s->match_n + s->practice_n;
    struct str read = page_say_n(d, files, "Data: %u file read", "Data: %u files read", files);
    struct str gaps = page_say_n(d, s->incomplete_n, "%u with a gap or lines not read",
                                 "%u with a gap or lines not read", s->incomplete_n);
    struct str warnings = page_say_n(d, s->warnings, "%u warning", "%u warnings", s->warnings);
    struct str reviews = page_say_n(d, s->reviews, "%u line marked for review",
                                    "%u lines marked for review", s->reviews);
    page_season_note(
        f, str_printf(d->arena, "%.*s; %.*s; %.*s; %.*s. %.*s", STR_ARG(read), STR_ARG(gaps),
                      STR_ARG(warnings), STR_ARG(reviews),
                      STR_ARG(page_say(d, "Serves of one match are not independent of one "
                                          "another: every interval and limit here is a "
                                          "little too narrow."))));
}

/* The later matches are those from the day that was given on, else the second half. */
static size_t later_from(const struct page_season *of) {
    return of->split ? season_match_from(of->season, of->split_on) : of->season->match_n / 2;
}

const struct pages *page_season(const struct page_season *season, const struct page_facts *facts,
                                const struct page_font *font, struct arena *a) {
    enum { DOTS_MOST = 14 };
    struct pages *pages = arena_alloc(a, 1, sizeof *pages);
    struct draw d = {.pages = pages, .font = font, .facts = facts, .arena = a};
    struct season_draw f = {
        .d = &d,
        .of = season,
        .turn = page_season_turn,
        .y_mm = first_y_mm,
        .per = (unsigned)((season->season->match_n + DOTS_MOST - 1) / DOTS_MOST),
        .alarms = season_alarms(season->season, later_from(season), a),
        .rank = season_rank(season->season, a),
    };
    pages->arena = a;
    pages->title = title(&d, season);
    page_begin(&d, page_say(&d, "Season report"));
    heading(&d, season->season);
    page_season_team(&f);
    page_season_misses(&f);
    page_season_video(&f);
    page_season_order(&f);
    page_season_kinds(&f);
    page_season_splits(&f);
    page_season_focuses(&f);
    page_season_jump_weeks(&f);
    page_season_choice(&f);
    page_season_matches(&f);
    data(&f);
    page_edges(&d, pages->title);
    return pages;
}
