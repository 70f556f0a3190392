/* The last pages of a match report: what the staff takes from it and nobody else
 * is shown. Notes, the serves to look at again, what was planned, what practice
 * says, and what a focus may be chosen from. */
#include "page/draw.h"

static const double first_y_mm = 19.5, section_mm = 9, head_mm = 6.5, rule_mm = 8.1;
static const double look_least_mm = 25, practised_least_mm = 30;
enum { PLANS_MOST = 10 };
static const double row_mm = 4.3, note_lead_mm = 3.9, note_mm = 3.5;

static double turn(struct draw *d) {
    page_begin(d, page_say(d, "For the staff"));
    page_heading(d, page_say(d, "For the staff"), page_say(d, "not to be handed round"));
    return first_y_mm;
}

/* So much room below y, or a page of its own. */
static double room(struct draw *d, double y_mm, double need_mm) {
    return y_mm + need_mm <= BODY_END_MM - d->push_mm ? y_mm : turn(d);
}

/* ---- notes and serves to look at again ------------------------------------------ */

static const double line_end_mm = 7, score_mm = 10, video_end_mm = 43, serve_mm = 47;

static bool has_note(const struct checked *c, uint32_t line) {
    for (size_t i = 0; i < c->note_n; i++)
        if (c->notes[i].serve_line == line)
            return true;
    return false;
}

static bool to_look_at(const struct checked *c, const struct played *p) {
    return p->said.review || has_note(c, p->line);
}

/* "2 · 14–11", or the set alone. */
static struct str when(const struct draw *d, const struct played *p) {
    const struct checked *c = d->tally->checked;
    unsigned set = c->sets[p->set - 1].number;
    if (!p->score_known)
        return page_number(d, set);
    return str_printf(d->arena, "%u · %u–%u", set, p->before[OURS], p->before[THEIRS]);
}

static struct str video_time(const struct draw *d, const struct serve *s) {
    unsigned h = s->time_s / 3600, m = s->time_s / 60 % 60, sec = s->time_s % 60;
    if (!(s->has & HAS_TIME))
        return STR("–");
    if (h > 0)
        return str_printf(d->arena, "%u:%02u:%02u", h, m, sec);
    return str_printf(d->arena, "%u:%02u", m, sec);
}

/* The line of the notes, with the shirt where it stood for "the same again". */
static struct str as_written(const struct draw *d, const struct played *p) {
    const struct match *m = d->tally->checked->match;
    struct stmt st = {.kind = STMT_SERVE, .as.serve = p->said};
    struct buf b;
    buf_init(&b, d->arena);
    if (p->server != SHIRT_NONE) {
        st.as.serve.form = SERVER_SHIRT;
        st.as.serve.shirt = p->server;
        st.as.serve.letter = m->teams[p->side].letter;
    }
    st.as.serve.has &= ~(uint32_t)HAS_TIME;
    syn_print(&b, &st, m->teams[OURS].letter);
    return buf_str(&b);
}

static double put_notes(struct draw *d, const struct played *p, double y_mm) {
    const struct checked *c = d->tally->checked;
    for (size_t i = 0; i < c->note_n; i++)
        if (c->notes[i].serve_line == p->line)
            y_mm = page_wrapped(d, serve_mm, 0, y_mm + note_lead_mm, PAGE_WIDE_MM - serve_mm,
                                note_lead_mm, TYPE_TABLE, c->notes[i].text, NULL);
    return y_mm;
}

static double look_heads(struct draw *d, double y_mm) {
    page_section(d, 0, PAGE_WIDE_MM, y_mm, page_say(d, "Notes, and what to look at again"),
                 page_say(d, "marked ? in the notes: the scorer was not sure"));
    page_column(d, line_end_mm, line_end_mm, y_mm + head_mm, page_say(d, "line"));
    page_words(d, score_mm, y_mm + head_mm, TYPE_NOTE,
               page_cut(d, page_say(d, "set, score"), TYPE_NOTE, 20));
    page_column(d, video_end_mm, 12, y_mm + head_mm, page_say(d, "video"));
    page_words(d, serve_mm, y_mm + head_mm, TYPE_NOTE, page_say(d, "as written"));
    page_rule(d, 0, PAGE_WIDE_MM, y_mm + rule_mm, RULE_HEAD_PT);
    return y_mm + rule_mm + 0.2;
}

static double look_row(struct draw *d, const struct played *p, double y_mm) {
    struct str line = as_written(d, p);
    page_right(d, line_end_mm, y_mm, TYPE_NOTE, page_number(d, p->line));
    page_words(d, score_mm, y_mm, TYPE_TABLE, when(d, p));
    page_right(d, video_end_mm, y_mm, TYPE_TABLE, video_time(d, &p->said));
    page_words(d, serve_mm, y_mm, TYPE_TABLE_BOLD,
               page_cut(d, line, TYPE_TABLE_BOLD, PAGE_WIDE_MM - serve_mm));
    return put_notes(d, p, y_mm);
}

/* How far down a row and its notes go. */
static double row_high(struct draw *d, const struct played *p) {
    struct draw nowhere = *d;
    struct page blank = {.name = STR_NONE};
    nowhere.page = &blank;
    return row_mm + put_notes(&nowhere, p, 0);
}

static double look_again(struct draw *d, double y_mm) {
    const struct checked *c = d->tally->checked;
    double y = look_heads(d, y_mm);
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!to_look_at(c, p))
            continue;
        if (y + row_high(d, p) > BODY_END_MM - d->push_mm - 2) {
            page_rule(d, 0, PAGE_WIDE_MM, y + 1.6, RULE_TABLE_PT);
            y = look_heads(d, turn(d));
        }
        y = look_row(d, p, y + row_mm);
    }
    page_rule(d, 0, PAGE_WIDE_MM, y + 1.6, RULE_TABLE_PT);
    return y + 1.6;
}

static bool any_to_look_at(const struct checked *c) {
    for (size_t i = 0; i < c->played_n; i++)
        if (to_look_at(c, &c->played[i]))
            return true;
    return false;
}

/* At most, with the lines below the table. */
static double plan_high(const struct checked *c) {
    return 30 + row_mm * (double)(c->plan_n < PLANS_MOST ? c->plan_n : PLANS_MOST);
}

/* ---- the pages ------------------------------------------------------------------ */

void page_staff(struct draw *d) {
    const struct checked *c = d->tally->checked;
    const struct advice *season = d->facts->season;
    bool look = any_to_look_at(c);
    if (d->facts->no_names || (!look && !season && c->plan_n == 0))
        return;
    double y = turn(d);
    if (season) {
        y = page_candidates(d, season, d->tally, y, turn) + section_mm;
        y = page_practised(d, season, room(d, y, practised_least_mm), turn) + section_mm;
    }
    if (c->plan_n > 0)
        y = page_plan(d, room(d, y, plan_high(c))) + section_mm;
    if (look)
        y = look_again(d, room(d, y, look_least_mm)) + section_mm;
    if (!season)
        page_note(d, 0, room(d, y - section_mm + note_mm, note_mm), PAGE_WIDE_MM,
                  page_say(d, "With --season DIR this page also says what each server’s matches so "
                              "far give to choose a focus from, and how practice compares."));
}
