/* The last pages of a practice report, for the staff: who reached which goal,
 * what changed since each focus, jump serves, nerves, and what to look at again. */
#include "page/practice.h"
#include "page/season_parts.h"

static const double head_mm = 8.7, rule_mm = 1.4, row_mm = 4.3, note_mm = 3.5, least_mm = 26;
static const double name_wide_mm = 37, note_room_mm = 9;

/* ---- goals ---------------------------------------------------------------------- */

static const double drill_mm = 48, drill_wide_mm = 40, done_mm = 100, goal_mm = 113;
static const double reached_mm = 117, reached_wide_mm = 44, days_mm = 177;

static void goal_heads(struct flow *f) {
    struct draw *d = f->draw;
    double y = f->y_mm + head_mm;
    page_section(d, 0, PAGE_WIDE_MM, f->y_mm, page_say(d, "Goals of the drills"),
                 page_say(d, "tosses and tries; the goal of a focus comes before the drill’s own"));
    page_flow_who_heads(d, y);
    page_words(d, drill_mm, y, TYPE_NOTE, page_say(d, "drill"));
    page_column(d, done_mm, 12, y, page_say(d, "today"));
    page_column(d, goal_mm, 12, y, page_say(d, "goal"));
    page_words(d, reached_mm, y, TYPE_NOTE, page_say(d, "goal today"));
    page_column(d, days_mm, 24, y, page_say(d, "days that reached it"));
    page_rule(d, 0, PAGE_WIDE_MM, y + rule_mm, RULE_HEAD_PT);
    f->y_mm = y + 1;
}

/* Whether serves without a mark are what the goal asks, the coach knows. */
static struct str reached(const struct draw *d, const struct drilled_goal *g) {
    if (g->serves)
        return page_sayf(d, "serves without %.*s", STR_ARG(word_info(g->treats)->word));
    if (progress_meets(g->done, g->goal))
        return page_say(d, "reached");
    return g->done.n < g->goal.n ? page_say(d, "fewer tries than it asks") : page_say(d, "not yet");
}

static void goal_row(struct draw *d, const struct drilled_goal *g, double y_mm) {
    page_flow_who(d, OURS, g->shirt, name_wide_mm, y_mm);
    page_words(d, drill_mm, y_mm, TYPE_TABLE,
               page_cut(d, page_drill_name(d, g->drill), TYPE_TABLE, drill_wide_mm));
    page_right(d, done_mm, y_mm, TYPE_TABLE, page_fraction(d, g->done));
    page_right(d, goal_mm, y_mm, TYPE_TABLE, page_fraction(d, g->goal));
    page_words(d, reached_mm, y_mm, TYPE_TABLE,
               page_cut(d, reached(d, g), TYPE_TABLE, reached_wide_mm));
    page_right(d, days_mm, y_mm, TYPE_TABLE, page_fraction(d, g->days));
}

static void below(struct flow *f, double wide_mm, struct str words) {
    page_rule(f->draw, 0, wide_mm, f->y_mm += 1.7, RULE_TABLE_PT);
    page_flow_room(f, note_room_mm);
    f->y_mm = page_note(f->draw, 0, f->y_mm + note_mm, PAGE_WIDE_MM, words) + PAGE_FLOW_BELOW_MM;
}

static void goals(struct flow *f, const struct drilled_goals *all) {
    struct draw *d = f->draw;
    if (all->n == 0)
        return;
    page_flow_room(f, least_mm);
    goal_heads(f);
    for (size_t i = 0; i < all->n; i++) {
        if (page_flow_row(f, row_mm))
            goal_heads(f);
        goal_row(d, &all->at[i], f->y_mm += row_mm);
    }
    below(f, PAGE_WIDE_MM,
          page_say(d, "A goal is for the gym and proves nothing: add tries up over weeks before "
                      "you say that something is better. Days: of all since the focus was "
                      "written down. In a drill of serves alone, those without the focus’s "
                      "mark are counted; whether that is the goal, the coach says."));
}

/* ---- jump serves ------------------------------------------------------------------ */

static const double served_mm = 70, counted_mm = 91, all_mm = 107;

static void jump_heads(struct flow *f) {
    struct draw *d = f->draw;
    double y = f->y_mm + head_mm;
    page_section(d, 0, all_mm, f->y_mm, page_say(d, "Jump serves today"), STR_NONE);
    page_flow_who_heads(d, y);
    page_column(d, served_mm, 25, y, page_say(d, "written one by one"));
    page_column(d, counted_mm, 19, y, page_say(d, "as a number"));
    page_column(d, all_mm, 13, y, page_say(d, "all"));
    page_rule(d, 0, all_mm, y + rule_mm, RULE_HEAD_PT);
    f->y_mm = y + 1;
}

static void jump_row(struct draw *d, const struct drilled_jumper *j, double y_mm) {
    page_flow_who(d, OURS, j->shirt, name_wide_mm, y_mm);
    page_count(d, served_mm, y_mm, false, j->served);
    page_count(d, counted_mm, y_mm, false, j->counted);
    page_count(d, all_mm, y_mm, true, j->served + j->counted);
}

static void jumps(struct flow *f, const struct drilled_jumps *all) {
    struct draw *d = f->draw;
    if (all->n == 0)
        return;
    page_flow_room(f, least_mm);
    jump_heads(f);
    for (size_t i = 0; i < all->n; i++) {
        if (page_flow_row(f, row_mm))
            jump_heads(f);
        jump_row(d, &all->at[i], f->y_mm += row_mm);
    }
    below(f, all_mm,
          page_say(d, "What was written down, a part of all jumps; the season report has the "
                      "weeks. A jump serve loads shoulder and knee. Nobody knows a safe number; "
                      "pain, or a week with far more jumps than usual, is for a medical "
                      "professional."));
}

/* ---- the pages -------------------------------------------------------------------- */

static void since_the_focus(struct flow *f) {
    struct page_season of = {.advice = f->draw->facts->season};
    struct season_draw s = {
        .d = f->draw, .of = &of, .turn = f->turn, .y_mm = f->y_mm - PAGE_FLOW_BELOW_MM};
    if (!of.advice)
        return;
    page_season_focuses(&s);
    f->y_mm = s.y_mm + PAGE_FLOW_BELOW_MM;
}

static void look_again(struct flow *f) {
    if (!page_any_to_look_at(f->draw))
        return;
    page_flow_room(f, least_mm);
    f->y_mm = page_look_again(f->draw, f->y_mm);
}

/* Begun once, by the first part that has something. */
static bool is_blank(const struct draw *d, const struct drilled_goals *g,
                     const struct drilled_jumps *j) {
    return g->n == 0 && j->n == 0 && !d->facts->season && !page_any_to_look_at(d) &&
           !page_any_nerves(d);
}

void page_staff_practice(struct draw *d) {
    const struct checked *c = d->tally->checked;
    const struct progress *season = page_practice_season(d);
    struct drilled_goals g = drilled_goals(c, season, d->facts->drills, d->arena);
    struct drilled_jumps j = drilled_jumps(c, d->arena);
    if (d->facts->no_names || is_blank(d, &g, &j))
        return;
    struct flow f = {d, season, page_staff_turn(d), page_staff_turn, 0};
    goals(&f, &g);
    since_the_focus(&f);
    jumps(&f, &j);
    page_practice_nerves(&f);
    look_again(&f);
}
