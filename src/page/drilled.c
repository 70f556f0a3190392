/* How a practice was split over its drills, and the marks that were seen in each. */
#include "page/practice.h"

static const double head_mm = 6.3, rule_mm = 1.4, row_mm = 4.3, note_mm = 3.5;

struct str page_drill_name(const struct draw *d, unsigned drill) {
    const struct checked *c = d->tally->checked;
    return drill > 0 && drill <= c->drill_n ? c->drills[drill - 1].name
                                            : page_say(d, "Outside a drill");
}

/* ---- the drills ----------------------------------------------------------------- */

static const double drill_wide_mm = 70, players_mm = 86, tosses_mm = 104, tries_mm = 122;
static const double serves_mm = 140;

static void part_heads(struct flow *f) {
    struct draw *d = f->draw;
    double y = f->y_mm + head_mm;
    page_section(d, 0, serves_mm, f->y_mm, page_say(d, "What was done"),
                 page_say(d, "hits of tosses and tries, serves into the court"));
    page_words(d, 0, y, TYPE_NOTE, page_say(d, "drill"));
    page_column(d, players_mm, 13, y, page_say(d, "players"));
    page_column(d, tosses_mm, 18, y, page_say(d, "tosses"));
    page_column(d, tries_mm, 16, y, page_say(d, "tries"));
    page_column(d, serves_mm, 16, y, page_say(d, "serves"));
    page_rule(d, 0, serves_mm, y + rule_mm, RULE_HEAD_PT);
    f->y_mm = y + 1;
}

static void part_row(struct draw *d, const struct drilled_part *p, struct str name, double y_mm,
                     bool bold) {
    struct type type = bold ? TYPE_TABLE_BOLD : TYPE_TABLE;
    page_words(d, 0, y_mm, type, page_cut(d, name, type, drill_wide_mm));
    page_count(d, players_mm, y_mm, bold, p->players);
    page_right(d, tosses_mm, y_mm, type, page_fraction(d, p->tosses));
    page_right(d, tries_mm, y_mm, type, page_fraction(d, p->tries));
    page_right(d, serves_mm, y_mm, type, page_fraction(d, p->serves));
}

/* One drill is its own sum. */
void page_practice_drills(struct flow *f) {
    struct draw *d = f->draw;
    struct drilled_parts parts = drilled_parts(d->tally->checked, d->arena);
    if (parts.n < 2)
        return;
    part_heads(f);
    for (size_t i = 0; i < parts.n; i++) {
        if (page_flow_row(f, row_mm))
            part_heads(f);
        f->y_mm += row_mm;
        part_row(d, &parts.at[i], page_drill_name(d, parts.at[i].drill), f->y_mm, false);
    }
    page_rule(d, 0, serves_mm, f->y_mm + 1.6, RULE_HEAD_PT);
    f->y_mm += 5.6;
    part_row(d, &parts.all, page_say(d, "together"), f->y_mm, true);
    f->y_mm += 1.9;
    page_rule(d, 0, serves_mm, f->y_mm, RULE_TABLE_PT);
    f->y_mm += PAGE_FLOW_BELOW_MM;
}

/* ---- the marks ------------------------------------------------------------------ */

static const double mark_mm = 66, mark_wide_mm = 42, seen_mm = 121, by_mm = 125, by_lead_mm = 3.85;

static void mark_heads(struct flow *f, struct str head) {
    struct draw *d = f->draw;
    double y = f->y_mm + head_mm;
    page_section(d, 0, PAGE_WIDE_MM, f->y_mm, head, STR_NONE);
    page_words(d, 0, y, TYPE_NOTE, page_say(d, "drill"));
    page_words(d, mark_mm, y, TYPE_NOTE, page_say(d, "seen"));
    page_column(d, seen_mm, 18, y, page_say(d, "serves"));
    page_words(d, by_mm, y, TYPE_NOTE, page_say(d, "of number"));
    page_rule(d, 0, PAGE_WIDE_MM, y + rule_mm, RULE_HEAD_PT);
    f->y_mm = y + 1;
}

#define NO_BREAK "\u00A0"

/* "7 (2), 12 (1)": shirts, and how often each. */
static struct str by_shirt(const struct draw *d, const struct drilled_seen *s) {
    struct buf b;
    buf_init(&b, d->arena);
    for (unsigned shirt = 0; s->by && shirt < SHIRT_NONE; shirt++)
        if (s->by[shirt] > 0)
            buf_printf(&b, "%s%u" NO_BREAK "(%u)", b.n > 0 ? ", " : "", shirt, s->by[shirt]);
    return buf_str(&b);
}

/* Below y; gives the baseline of its last line, since many shirts take several. */
static double mark_row(struct draw *d, const struct drilled_seen *s, bool first, double y_mm) {
    const char *seen = s->mark == MARK_N ? WORDS("no mark") : page_mark_seen(s->mark);
    struct str mark = page_say(d, seen ? seen : WORDS("nerves showed"));
    if (first)
        page_words(d, 0, y_mm, TYPE_TABLE,
                   page_cut(d, page_drill_name(d, s->drill), TYPE_TABLE, mark_mm - 3));
    page_words(d, mark_mm, y_mm, TYPE_TABLE, page_cut(d, mark, TYPE_TABLE, mark_wide_mm));
    page_right(d, seen_mm, y_mm, TYPE_TABLE, page_fraction(d, s->seen));
    if (!s->by)
        return y_mm;
    return page_wrapped(d, by_mm, 0, y_mm, PAGE_WIDE_MM - by_mm, by_lead_mm, TYPE_TABLE,
                        by_shirt(d, s), NULL);
}

/* Nerves stay on the staff's pages. */
static bool is_nerves(const struct drilled_seen *s) {
    return s->mark != MARK_N && !page_mark_seen(s->mark);
}

static struct drilled_marks marks_of(const struct draw *d, bool nerves) {
    struct drilled_marks m = drilled_marks(d->tally->checked, d->arena);
    size_t n = 0;
    for (size_t i = 0; i < m.n; i++)
        if (is_nerves(&m.at[i]) == nerves)
            m.at[n++] = m.at[i];
    m.n = n;
    return m;
}

static void marks_table(struct flow *f, struct str head, bool nerves) {
    struct draw *d = f->draw;
    struct drilled_marks m = marks_of(d, nerves);
    if (m.n == 0)
        return;
    page_flow_room(f, 12 + 4 * row_mm);
    mark_heads(f, head);
    for (size_t i = 0; i < m.n; i++) {
        bool turned = page_flow_row(f, row_mm);
        if (turned)
            mark_heads(f, head);
        f->y_mm = mark_row(d, &m.at[i],
                           turned || i == 0 || m.at[i].drill != m.at[i - 1].drill,
                           f->y_mm + row_mm);
    }
    page_rule(d, 0, PAGE_WIDE_MM, f->y_mm + 1.6, RULE_TABLE_PT);
    f->y_mm = page_note(d, 0, f->y_mm + 1.6 + note_mm, PAGE_WIDE_MM,
                        page_say(d, "Of the serves of the drill in which it was looked for. A mark "
                                    "that was seen with a miss need not be its reason."));
    f->y_mm += PAGE_FLOW_BELOW_MM;
}

void page_practice_marks(struct flow *f) {
    marks_table(f, page_say(f->draw, "What was seen"), false);
}

void page_practice_nerves(struct flow *f) {
    marks_table(f, page_say(f->draw, "Nerves"), true);
}

bool page_any_nerves(const struct draw *d) {
    return marks_of(d, true).n > 0;
}
