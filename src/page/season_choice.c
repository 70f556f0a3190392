/* What the staff takes from a season to practice: candidates for a focus, how
 * practice compares, and blank lines to write the choice down. */
#include "page/season_parts.h"

static const double section_mm = 9, least_mm = 24, first_mm = 7.5, line_mm = 8;
static const double second_mm = 91;
enum { LINES = 3 };

static double blank(struct draw *d, double x_mm, double y_mm, double wide_mm) {
    page_rule(d, x_mm, x_mm + wide_mm, y_mm + 0.6, RULE_HEAD_PT);
    return x_mm + wide_mm;
}

/* focus ___ ___ "___________" ___/___, as it is typed. */
static void blank_focus(struct draw *d, double x_mm, double y_mm) {
    double x = x_mm + page_words(d, x_mm, y_mm, TYPE_TABLE, STR("focus")) + 2;
    x = blank(d, x, y_mm, 9) + 2;
    x = blank(d, x, y_mm, 9) + 2;
    x += page_words(d, x, y_mm, TYPE_TABLE, STR("\"")) + 0.5;
    x = blank(d, x, y_mm, 32) + 0.5;
    x += page_words(d, x, y_mm, TYPE_TABLE, STR("\"")) + 2;
    x = blank(d, x, y_mm, 6) + 0.8;
    x += page_words(d, x, y_mm, TYPE_TABLE, STR("/")) + 0.8;
    blank(d, x, y_mm, 6);
}

static void blanks(struct season_draw *f) {
    struct draw *d = f->d;
    page_season_section(f, first_mm + LINES * line_mm, page_say(d, "Choose one a player"),
                        page_say(d, "written into the next practice file, it dates the "
                                    "comparison"));
    for (unsigned i = 0; i < LINES; i++) {
        double y = f->y_mm + first_mm + i * line_mm;
        blank_focus(d, 0, y);
        blank_focus(d, second_mm, y);
    }
    f->y_mm += first_mm + (LINES - 1) * line_mm + 1.5;
}

void page_season_choice(struct season_draw *f) {
    struct draw *d = f->d;
    const struct advice *advice = f->of->advice;
    page_season_room(f, section_mm + least_mm);
    f->y_mm = page_practised(d, advice, f->y_mm + section_mm, f->turn);
    page_season_room(f, section_mm + least_mm);
    f->y_mm = page_candidates(d, advice, NULL, f->y_mm + section_mm, f->turn);
    blanks(f);
}
