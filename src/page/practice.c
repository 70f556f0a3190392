/* The practice report: what was counted, drill by drill, in the order of the
 * notes. Players stand by shirt. */
#include "page/practice.h"

static const double first_y_mm = 20, no_mm = 4.5;
/* The sum below the last row, and up to four lines of a note. */
static const double total_mm = 22;

/* ---- the flow of tables --------------------------------------------------------------- */

static double turn(struct draw *d) {
    page_begin(d, page_say(d, "Practice report"));
    return BODY_TOP_MM + 5;
}

bool page_flow_room(struct flow *f, double need_mm) {
    if (f->y_mm + need_mm + f->draw->push_mm <= BODY_END_MM)
        return false;
    f->y_mm = f->turn(f->draw);
    f->noted = 0;
    return true;
}

bool page_flow_row(struct flow *f, double row_mm) {
    return page_flow_room(f, row_mm + total_mm);
}

void page_flow_who(struct draw *d, enum side side, unsigned shirt, double wide_mm, double y_mm) {
    const struct team *team = &d->tally->checked->match->teams[side];
    struct server who = {.shirt = (uint8_t)shirt,
                         .player = shirt == SHIRT_NONE ? NULL : team_find(team, shirt)};
    page_row_name(d, &who, 0, no_mm, PAGE_FLOW_NAME_MM, wide_mm, y_mm);
}

void page_flow_who_heads(struct draw *d, double y_mm) {
    page_words(d, 0, y_mm, TYPE_NOTE, page_say(d, "no."));
    if (!d->facts->no_names)
        page_words(d, PAGE_FLOW_NAME_MM, y_mm, TYPE_NOTE, page_say(d, "name"));
}

/* ---- the page ------------------------------------------------------------------------ */

static void add_counted(struct buf *b, struct str words) {
    buf_add(b, STR(" · "));
    buf_add(b, words);
}

static struct str summary(struct draw *d) {
    const struct checked *c = d->tally->checked;
    struct drilled_part all = drilled_parts(c, d->arena).all;
    unsigned drills = (unsigned)c->drill_n;
    struct buf b;
    buf_init(&b, d->arena);
    buf_add(&b, page_say_n(d, all.players, "%u player", "%u players", all.players));
    if (drills > 0)
        add_counted(&b, page_say_n(d, drills, "%u drill", "%u drills", drills));
    if (all.tosses.n > 0)
        add_counted(&b, page_say_n(d, all.tosses.n, "%u toss", "%u tosses", all.tosses.n));
    if (all.tries.n > 0)
        add_counted(&b, page_say_n(d, all.tries.n, "%u try", "%u tries", all.tries.n));
    add_counted(&b, page_say_n(d, all.serves.n, "%u serve", "%u serves", all.serves.n));
    return buf_str(&b);
}

/* Their serves belong to no drill's counts, and are said all the same. */
static void theirs(struct flow *f) {
    struct draw *d = f->draw;
    const struct counts *n = &d->tally->side[THEIRS];
    if (n->serves == 0)
        return;
    page_flow_room(f, 8);
    f->y_mm = page_wrapped(
        d, 0, 0, f->y_mm, PAGE_WIDE_MM, 4.3, TYPE_TEXT,
        page_say_n(d, n->serves,
                   "%.*s served %u time as well: %u into the court, %u missed. It is in no table "
                   "above.",
                   "%.*s served %u times as well: %u into the court, %u missed. They are in no "
                   "table above.",
                   STR_ARG(page_team(d, THEIRS)), n->serves, n->serves - n->missed, n->missed),
        NULL);
    f->y_mm += PAGE_FLOW_BELOW_MM;
}

const struct progress *page_practice_season(const struct draw *d) {
    struct progress *alone;
    if (d->facts->season)
        return d->facts->season->progress;
    alone = progress_new(d->arena);
    progress_add(alone, d->tally->checked);
    return alone;
}

void page_practice(struct draw *d) {
    const struct checked *c = d->tally->checked;
    struct flow f = {d, page_practice_season(d), first_y_mm, turn, 0};
    page_begin(d, page_say(d, "Practice report"));
    page_heading(d, page_sayf(d, "Practice %.*s", STR_ARG(page_date(d))), summary(d));
    if (c->played_n == 0 && c->tries_n == 0) {
        page_words(d, 0, f.y_mm, TYPE_TEXT,
                   page_say(d, "Nothing is written down for this practice yet."));
        f.y_mm += PAGE_FLOW_BELOW_MM;
    }
    page_practice_drills(&f);
    page_practice_focus(&f);
    page_practice_tries(&f);
    for (unsigned drill = 0; drill <= c->drill_n; drill++)
        page_practice_series(&f, drill);
    page_practice_marks(&f);
    theirs(&f);
    page_flow_room(&f, 4);
    page_words(d, 0, BODY_END_MM - 0.8 - d->push_mm,
               (struct type){TYPE_NOTE_PT, FACE_REGULAR, INK_BLACK},
               page_sayf(d, "Data: %.*s.", STR_ARG(page_errors_said(d))));
}
