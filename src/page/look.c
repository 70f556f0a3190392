/* Notes, and the serves to look at again on the video: for the staff alone. */
#include "page/draw.h"

static const double head_mm = 6.5, rule_mm = 8.1, row_mm = 4.3, note_lead_mm = 3.9;
static const double line_end_mm = 7, when_mm = 10;

/* Where a serve stands in a match takes less room than the drill of a practice. */
struct columns {
    double when_wide_mm, video_end_mm, serve_mm;
};

static struct columns columns_of(const struct draw *d) {
    if (d->tally->checked->match->practice)
        return (struct columns){44, 66, 70};
    return (struct columns){20, 43, 47};
}

static bool has_note(const struct checked *c, uint32_t line) {
    for (size_t i = 0; i < c->note_n; i++)
        if (c->notes[i].serve_line == line)
            return true;
    return false;
}

static bool to_look_at(const struct checked *c, const struct played *p) {
    return p->said.review || has_note(c, p->line);
}

/* "2 · 14–11", or the set alone; of a practice the drill. */
static struct str when(const struct draw *d, const struct played *p) {
    const struct checked *c = d->tally->checked;
    if (c->match->practice)
        return page_drill_name(d, p->drill);
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
    double x = columns_of(d).serve_mm;
    for (size_t i = 0; i < c->note_n; i++)
        if (c->notes[i].serve_line == p->line)
            y_mm = page_wrapped(d, x, 0, y_mm + note_lead_mm, PAGE_WIDE_MM - x, note_lead_mm,
                                TYPE_TABLE, c->notes[i].text, NULL);
    return y_mm;
}

static double look_heads(struct draw *d, double y_mm) {
    struct columns at = columns_of(d);
    bool practice = d->tally->checked->match->practice;
    page_section(d, 0, PAGE_WIDE_MM, y_mm, page_say(d, "Notes, and what to look at again"),
                 page_say(d, "marked ? in the notes: the scorer was not sure"));
    page_column(d, line_end_mm, line_end_mm, y_mm + head_mm, page_say(d, "line"));
    page_words(d, when_mm, y_mm + head_mm, TYPE_NOTE,
               page_cut(d, practice ? page_say(d, "drill") : page_say(d, "set, score"), TYPE_NOTE,
                        at.when_wide_mm));
    page_column(d, at.video_end_mm, 12, y_mm + head_mm, page_say(d, "video"));
    page_words(d, at.serve_mm, y_mm + head_mm, TYPE_NOTE, page_say(d, "as written"));
    page_rule(d, 0, PAGE_WIDE_MM, y_mm + rule_mm, RULE_HEAD_PT);
    return y_mm + rule_mm + 0.2;
}

static double look_row(struct draw *d, const struct played *p, double y_mm) {
    struct str line = as_written(d, p);
    struct columns at = columns_of(d);
    page_right(d, line_end_mm, y_mm, TYPE_NOTE, page_number(d, p->line));
    page_words(d, when_mm, y_mm, TYPE_TABLE, page_cut(d, when(d, p), TYPE_TABLE, at.when_wide_mm));
    page_right(d, at.video_end_mm, y_mm, TYPE_TABLE, video_time(d, &p->said));
    page_words(d, at.serve_mm, y_mm, TYPE_TABLE_BOLD,
               page_cut(d, line, TYPE_TABLE_BOLD, PAGE_WIDE_MM - at.serve_mm));
    return put_notes(d, p, y_mm);
}

/* How far down a row and its notes go. */
static double row_high(struct draw *d, const struct played *p) {
    struct draw nowhere = *d;
    struct page blank = {.name = STR_NONE};
    nowhere.page = &blank;
    return row_mm + put_notes(&nowhere, p, 0);
}

double page_look_again(struct draw *d, double y_mm) {
    const struct checked *c = d->tally->checked;
    double y = look_heads(d, y_mm);
    for (size_t i = 0; i < c->played_n; i++) {
        const struct played *p = &c->played[i];
        if (!to_look_at(c, p))
            continue;
        if (y + row_high(d, p) > BODY_END_MM - d->push_mm - 2) {
            page_rule(d, 0, PAGE_WIDE_MM, y + 1.6, RULE_TABLE_PT);
            y = look_heads(d, page_staff_turn(d));
        }
        y = look_row(d, p, y + row_mm);
    }
    page_rule(d, 0, PAGE_WIDE_MM, y + 1.6, RULE_TABLE_PT);
    return y + 1.6;
}

bool page_any_to_look_at(const struct draw *d) {
    const struct checked *c = d->tally->checked;
    for (size_t i = 0; i < c->played_n; i++)
        if (to_look_at(c, &c->played[i]))
            return true;
    return false;
}
