/* The last pages of a match report: what the staff takes from it and nobody else
 * is shown. Notes, the serves to look at again, what was planned, what practice
 * says, and what a focus may be chosen from. */
#include "page/draw.h"

static const double first_y_mm = 19.5, section_mm = 9;
static const double look_least_mm = 25, practised_least_mm = 30;
enum { PLANS_MOST = 10 };
static const double row_mm = 4.3, note_mm = 3.5;

double page_staff_turn(struct draw *d) {
    page_begin(d, page_say(d, "For the staff"));
    page_heading(d, page_say(d, "For the staff"), page_say(d, "not to be handed round"));
    return first_y_mm;
}

/* So much room below y, or a page of its own. */
static double room(struct draw *d, double y_mm, double need_mm) {
    return y_mm + need_mm <= BODY_END_MM - d->push_mm ? y_mm : page_staff_turn(d);
}

/* At most, with the lines below the table. */
static double plan_high(const struct checked *c) {
    return 30 + row_mm * (double)(c->plan_n < PLANS_MOST ? c->plan_n : PLANS_MOST);
}

/* ---- the pages ------------------------------------------------------------------ */

void page_staff(struct draw *d) {
    const struct checked *c = d->tally->checked;
    const struct advice *season = d->facts->season;
    bool look = page_any_to_look_at(d);
    if (d->facts->no_names || (!look && !season && c->plan_n == 0))
        return;
    double y = page_staff_turn(d);
    if (season) {
        y = page_candidates(d, season, d->tally, y, page_staff_turn) + section_mm;
        y = page_practised(d, season, room(d, y, practised_least_mm), page_staff_turn) + section_mm;
    }
    if (c->plan_n > 0)
        y = page_plan(d, room(d, y, plan_high(c))) + section_mm;
    if (look)
        y = page_look_again(d, room(d, y, look_least_mm)) + section_mm;
    if (!season)
        page_note(d, 0, room(d, y - section_mm + note_mm, note_mm), PAGE_WIDE_MM,
                  page_say(d, "With --season DIR this page also says what each server’s matches so "
                              "far give to choose a focus from, and how practice compares."));
}
