/* The practice plan: who works on what, on paper, with boxes to tick and the
 * lines to type afterwards. A tick is a hit, a letter says how it missed. */
#include "page/draw.h"

#include <math.h>

static const double first_y_mm = 28, between_mm = 9, text_lead_mm = 3.9, text_mm = 7.5;
static const double no_mm = 4.5, name_mm = 7.5, name_wide_mm = 29, so_far_mm = 48, goal_mm = 58;
static const double boxes_mm = 61, box_wide_mm = 3.3, box_high_mm = 5.4, box_gap_mm = 2;
static const double typed_mm = 132, row_mm = 9.2, line_mm = 4.1, last_mm = 24;
enum { BOXES_MAX = 20, BOXES_USUAL = 10, GAP_AFTER = 10, JUMPERS_IN_ROW = 6 };

struct plan_draw {
    struct draw *d;
    double y_mm;
};

static bool room(struct plan_draw *f, double need_mm) {
    if (f->y_mm + need_mm <= BODY_END_MM)
        return true;
    page_begin(f->d, page_say(f->d, "Practice plan and form"));
    f->y_mm = BODY_TOP_MM + 5;
    return false;
}

/* ---- the head of a block ------------------------------------------------------ */

/* "d toss down · u toss up": what the second letters of the marks stand for. */
static struct str letters(const struct draw *d, const struct drill_recipe *r) {
    struct buf b;
    buf_init(&b, d->arena);
    for (size_t i = 0; r && i < r->treat_n; i++) {
        const struct word_info *w = word_info(r->treats[i]);
        if (w->class != WORD_MARK)
            continue;
        buf_printf(&b, "%s%c %.*s", b.n > 0 ? " · " : "", w->word.at[1],
                   STR_ARG(page_say(d, w->meaning)));
    }
    return buf_str(&b);
}

/* The lines that hold for everybody; gives how many. */
static size_t lines_for_all(struct plan_draw *f, const struct plan_group *g) {
    struct draw *d = f->d;
    struct str line;
    size_t ix = 0;
    for (; (line = plan_line(g, ix, d->arena)).n > 0; ix++)
        page_words(d, typed_mm, f->y_mm + (double)ix * line_mm, TYPE_TABLE_BOLD,
                   page_cut(d, line, TYPE_TABLE_BOLD, PAGE_WIDE_MM - typed_mm));
    return ix;
}

static void about(struct plan_draw *f, const struct plan_group *g) {
    struct draw *d = f->d;
    const struct drill_recipe *r = g->recipe;
    double wide = typed_mm - text_mm - 4, end = 0;
    if (!r)
        return;
    struct str goal = page_drill_said(d, r, r->goal);
    f->y_mm = page_wrapped(d, text_mm, 0, f->y_mm + 4.8, wide, text_lead_mm, TYPE_TABLE,
                           page_drill_said(d, r, r->setup), NULL);
    f->y_mm = page_wrapped(d, text_mm, 0, f->y_mm + text_lead_mm, wide, text_lead_mm,
                           TYPE_TABLE_BOLD, page_sayf(d, "Goal: %.*s.", STR_ARG(goal)), &end);
    struct str said = letters(d, r);
    if (said.n > 0)
        f->y_mm = page_wrapped(d, text_mm, end + 1.2, f->y_mm, wide, text_lead_mm, TYPE_TABLE,
                               page_sayf(d, "Letters: %.*s.", STR_ARG(said)), NULL);
}

static unsigned boxes_of(const struct plan_group *g) {
    unsigned n = plan_tries(g);
    return n == 0 ? BOXES_USUAL : n > BOXES_MAX ? BOXES_MAX : n;
}

static double box_x(unsigned i) {
    return boxes_mm + i * box_wide_mm + (i >= GAP_AFTER ? box_gap_mm : 0);
}

static void heads(struct plan_draw *f, const struct plan_group *g) {
    struct draw *d = f->d;
    double y = f->y_mm + 6.3;
    page_rule(d, 0, PAGE_WIDE_MM, f->y_mm + 2.4, RULE_TABLE_PT);
    page_words(d, 0, y, TYPE_NOTE, page_say(d, "no."));
    if (!d->facts->no_names)
        page_words(d, name_mm, y, TYPE_NOTE, page_say(d, "name"));
    page_column(d, so_far_mm, 11, y, page_say(d, "so far"));
    page_column(d, goal_mm, 9, y, page_say(d, "goal"));
    for (unsigned i = 0; i < boxes_of(g); i += i == 0 ? 4 : 5)
        page_centred(d, box_x(i) + box_wide_mm / 2, y, TYPE_NOTE, page_number(d, i + 1));
    page_words(d, typed_mm, y, TYPE_NOTE, page_say(d, "to type"));
    page_rule(d, 0, PAGE_WIDE_MM, y + 1.6, RULE_HEAD_PT);
    f->y_mm = y + 1.6;
}

/* ---- a player ------------------------------------------------------------------ */

/* A line with its blanks long enough to write on. */
static struct str blanks(const struct draw *d, struct str line) {
    struct buf b;
    buf_init(&b, d->arena);
    for (size_t i = 0; i < line.n; i++)
        if (line.at[i] == '_')
            buf_add(&b, STR("____"));
        else
            buf_char(&b, line.at[i]);
    return str_trim(buf_str(&b));
}

static size_t line_count(const struct draw *d, const struct plan_group *g) {
    size_t n = 0;
    while (plan_player_line(g, n, 1, d->arena).n > 0)
        n++;
    return n;
}

static double row_high(const struct draw *d, const struct plan_group *g) {
    return fmax(row_mm, (double)line_count(d, g) * line_mm + 1.4);
}

static void boxes(struct draw *d, double y_mm, unsigned n) {
    for (unsigned i = 0; i < n; i++)
        page_add(d, (struct page_item){.kind = PAGE_BOX,
                                       .x_mm = box_x(i),
                                       .y_mm = y_mm,
                                       .x2_mm = box_x(i) + box_wide_mm,
                                       .y2_mm = y_mm + box_high_mm,
                                       .line_pt = RULE_HEAD_PT,
                                       .ink = INK_BLACK});
}

static void player_row(struct plan_draw *f, const struct plan_group *g,
                       const struct plan_player *w) {
    struct draw *d = f->d;
    double high = row_high(d, g), y = f->y_mm + high / 2 + 1.1;
    struct str line;
    page_right(d, no_mm, y, TYPE_TABLE_BOLD, page_number(d, w->who->shirt));
    if (!d->facts->no_names)
        page_words(d, name_mm, y, TYPE_TABLE,
                   page_cut(d, w->who->name, TYPE_TABLE, name_wide_mm));
    page_right(d, so_far_mm, y, TYPE_TABLE, page_fraction(d, w->focus.drilled.after));
    page_right(d, goal_mm, y, TYPE_TABLE, page_fraction(d, w->focus.goal));
    boxes(d, f->y_mm + (high - box_high_mm) / 2, boxes_of(g));
    for (size_t ix = 0; (line = plan_player_line(g, ix, w->who->shirt, d->arena)).n > 0; ix++) {
        struct str shown = blanks(d, line);
        page_words(d, typed_mm, f->y_mm + 3.4 + (double)ix * line_mm, TYPE_TABLE,
                   page_cut(d, shown, TYPE_TABLE, PAGE_WIDE_MM - typed_mm));
    }
    f->y_mm += high;
    page_line(d, 0, f->y_mm, PAGE_WIDE_MM, f->y_mm, RULE_GRID_PT, INK_GRID);
}

static struct str title(const struct draw *d, const struct plan_group *g) {
    return g->recipe ? page_drill_title(d, g->recipe) : g->drill;
}

static void group(struct plan_draw *f, const struct plan_group *g, unsigned number) {
    struct draw *d = f->d;
    struct type large = {TYPE_ANSWER_PT, FACE_BOLD, INK_BLACK};
    double top, wide;
    room(f, 32 + row_high(d, g) * (g->n < 2 ? 1 : 2));
    top = f->y_mm;
    page_words(d, 0, top, large, page_number(d, number));
    wide = page_words(d, text_mm, top, TYPE_HEAD,
                      page_cut(d, title(d, g), TYPE_HEAD, typed_mm - text_mm - 30));
    page_words(d, text_mm + wide + 3, top, TYPE_NOTE,
               page_sayf(d, "focus %.*s", STR_ARG(word_info(g->players[0].focus.treats)->word)));
    size_t lines = lines_for_all(f, g);
    about(f, g);
    f->y_mm = fmax(f->y_mm, top + (lines > 0 ? (double)(lines - 1) * line_mm : 0));
    heads(f, g);
    for (size_t i = 0; i < g->n; i++) {
        if (!room(f, row_high(d, g)))
            heads(f, g);
        player_row(f, g, &g->players[i]);
    }
    f->y_mm += between_mm;
}

/* ---- below the blocks ------------------------------------------------------------- */

static void jumpers(struct plan_draw *f, const struct plan *p) {
    struct draw *d = f->d;
    size_t n = 0;
    page_words(d, 0, f->y_mm, TYPE_HEAD,
               page_say(d, "Jump serves not written above, warm-up included"));
    for (size_t k = 0; k < p->n; k++)
        for (size_t i = 0; i < p->groups[k].n; i++, n++) {
            if (n % JUMPERS_IN_ROW == 0)
                f->y_mm += 6;
            page_words(d, (double)(n % JUMPERS_IN_ROW) * PAGE_WIDE_MM / JUMPERS_IN_ROW, f->y_mm,
                       TYPE_TABLE,
                       str_printf(d->arena, "jumps %u _____", p->groups[k].players[i].who->shirt));
        }
    f->y_mm += 6;
}

/* Shirts of the team without a focus. */
static struct str others(const struct draw *d, const struct plan *p, const struct team *t) {
    struct buf b;
    buf_init(&b, d->arena);
    for (size_t i = 0; i < t->player_n; i++)
        if (!plan_has(p, t->players[i].shirt))
            buf_printf(&b, "%s%u", b.n > 0 ? ", " : "", t->players[i].shirt);
    return buf_str(&b);
}

static void notes(struct plan_draw *f, const struct plan *p, const struct team *t) {
    struct draw *d = f->d;
    struct str rest = others(d, p, t);
    if (rest.n > 0)
        f->y_mm = page_note(d, 0, f->y_mm, PAGE_WIDE_MM,
                            page_sayf(d, "Without a focus: %.*s.", STR_ARG(rest))) +
                  3.2;
    page_note(d, 0, f->y_mm, PAGE_WIDE_MM,
              page_say(d, "So far: since the focus was written down. Counts are for learning, never "
                          "for punishment. Plan the jumps beforehand, warm-up and match included; "
                          "pain ends serving for the day and goes to a medical professional. The "
                          "coach’s judgement and the local rules for safeguarding and licences "
                          "come first."));
}

static unsigned player_count(const struct plan *p) {
    unsigned n = 0;
    for (size_t i = 0; i < p->n; i++)
        n += (unsigned)p->groups[i].n;
    return n;
}

const struct pages *page_practice_plan(const struct plan *plan, const struct team *team,
                                       const struct page_facts *facts,
                                       const struct page_font *font, struct arena *a) {
    struct pages *pages = arena_alloc(a, 1, sizeof *pages);
    struct draw d = {.pages = pages, .font = font, .facts = facts, .arena = a};
    struct plan_draw f = {&d, first_y_mm};
    unsigned n = player_count(plan);
    pages->arena = a;
    pages->title = page_sayf(&d, "%.*s · practice plan", STR_ARG(team->name));
    page_begin(&d, page_say(&d, "Practice plan and form"));
    page_heading(&d, page_say(&d, "Practice on ______________"),
                 page_say_n(&d, n, "%u player, by the drill of the focus",
                            "%u players, grouped by the drill of their focus", n));
    page_note(&d, 0, 17.5, PAGE_WIDE_MM,
              page_say(&d, "Tick what worked, write the letter for what did not; n is into the net, "
                           "o over the end line, l and r wide. Type the lines on the right "
                           "afterwards, with the numbers filled in."));
    for (size_t i = 0; i < plan->n; i++)
        group(&f, &plan->groups[i], (unsigned)i + 1);
    if (plan->n == 0) {
        page_words(&d, 0, f.y_mm, TYPE_TEXT,
                   page_say(&d, "No focus is written down yet: the coach chooses one a player."));
        f.y_mm += between_mm;
    }
    room(&f, last_mm);
    if (plan->jumps)
        jumpers(&f, plan);
    notes(&f, plan, team);
    page_edges(&d, pages->title);
    return pages;
}
