/* What the pages are drawn with; private to this room. */
#ifndef NINEMETRE_PAGE_DRAW_H
#define NINEMETRE_PAGE_DRAW_H

#include "page.h"
#include "twoway.h"

/* The layout block and what is the same on each page, in millimetres. */
#define PAGE_WIDE_MM 177.0
#define BODY_TOP_MM 7.0
#define BODY_END_MM 243.0

/* Sizes of type in points. */
#define TYPE_RESULT_PT 18.0
#define TYPE_TITLE_PT 14.0
#define TYPE_ANSWER_PT 12.0
#define TYPE_HEAD_PT 10.5
#define TYPE_TEXT_PT 9.0
#define TYPE_TABLE_PT 8.5
#define TYPE_NOTE_PT 7.5
#define TYPE_EDGE_PT 7.0

/* Lines in points. */
#define RULE_TABLE_PT 0.8
#define RULE_HEAD_PT 0.5
#define RULE_GRID_PT 0.4

/* A report under construction. */
struct draw {
    struct pages *pages;
    struct page *page; /* the one being drawn */
    const struct page_font *font;
    const struct tally *tally; /* NULL: a page without serves */
    const struct page_facts *facts;
    struct arena *arena;
    double push_mm; /* INCOMPLETE moves everything down by so much */
    double contents_mm; /* where page one lists the others; 0: nowhere */
};

/* How words look; `right_mm` etc. are in the call. */
struct type {
    double pt;
    enum page_face face;
    enum page_ink ink;
};

#define TYPE_TABLE ((struct type){TYPE_TABLE_PT, FACE_REGULAR, INK_BLACK})
#define TYPE_TABLE_BOLD ((struct type){TYPE_TABLE_PT, FACE_BOLD, INK_BLACK})
#define TYPE_ZERO ((struct type){TYPE_TABLE_PT, FACE_REGULAR, INK_FAINT})
#define TYPE_NOTE ((struct type){TYPE_NOTE_PT, FACE_REGULAR, INK_NOTE})
#define TYPE_EDGE ((struct type){TYPE_EDGE_PT, FACE_REGULAR, INK_NOTE})
#define TYPE_HEAD ((struct type){TYPE_HEAD_PT, FACE_BOLD, INK_BLACK})
#define TYPE_TEXT ((struct type){TYPE_TEXT_PT, FACE_REGULAR, INK_BLACK})
#define TYPE_TEXT_BOLD ((struct type){TYPE_TEXT_PT, FACE_BOLD, INK_BLACK})

/* ---- draw.c: pages and items -------------------------------------------- */

/* Starts a page; `name` stands at the right of its head. */
void page_begin(struct draw *d, struct str name);

/* Heads and feet of all pages, when their number is known; `left` stands at the
 * left of each head. */
void page_edges(struct draw *d, struct str left);

/* What each page has to say above all if its figures do not rest on everything;
 * empty if they do. */
struct str page_incomplete(const struct draw *d);

/* The item just added, to be filled further. */
struct page_item *page_add(struct draw *d, struct page_item item);

double page_width(const struct draw *d, struct str words, struct type type);

/* Words whose left end, right end or middle stands at x. They give their width. */
double page_words(struct draw *d, double x_mm, double y_mm, struct type type, struct str words);
double page_right(struct draw *d, double x_mm, double y_mm, struct type type, struct str words);
void page_centred(struct draw *d, double x_mm, double y_mm, struct type type, struct str words);

/* The words, or as many letters of them as fit, with an ellipsis behind. */
struct str page_cut(const struct draw *d, struct str words, struct type type, double wide_mm);

/* Words broken into lines at blanks; `first_mm` is where the first line starts
 * behind x. Gives the baseline of the last line, and where it ends in *end_mm. */
double page_wrapped(struct draw *d, double x_mm, double first_mm, double y_mm, double wide_mm,
                    double lead_mm, struct type type, struct str words, double *end_mm);

void page_line(struct draw *d, double x_mm, double y_mm, double x2_mm, double y2_mm, double line_pt,
               enum page_ink ink);
void page_rule(struct draw *d, double x_mm, double x2_mm, double y_mm, double line_pt);
void page_dashed(struct draw *d, double x_mm, double y_mm, double x2_mm, double y2_mm,
                 double line_pt, enum page_ink ink, double on_mm, double off_mm);
void page_circle(struct draw *d, double x_mm, double y_mm, double radius_mm, double line_pt,
                 enum page_ink ink, enum page_ink fill);
void page_put(struct draw *d, double x_mm, double y_mm, double a_mm, enum page_mark mark,
              const struct played *serve);

/* A printed number, and "x/n". */
struct str page_number(const struct draw *d, unsigned n);
struct str page_fraction(const struct draw *d, struct rate r);

/* ---- heads.c: titles, sections, columns ------------------------------------- */

/* The title of a page, and a note at the right end of its line. */
void page_heading(struct draw *d, struct str title, struct str note);

/* The head of a section from x to its end, a note at the right, a rule below. */
void page_section(struct draw *d, double x_mm, double end_mm, double y_mm, struct str head,
                  struct str note);

/* A note that ends there and begins behind `from_mm`; it takes more lines
 * upwards if it has no room. */
void page_beside(struct draw *d, double from_mm, double end_mm, double y_mm, struct str note);

/* The head of a column; too wide, it breaks into lines, the last at y. */
void page_column(struct draw *d, double end_mm, double wide_mm, double y_mm, struct str words);

/* A note in lines downwards; gives the baseline of the last. */
double page_note(struct draw *d, double x_mm, double y_mm, double wide_mm, struct str words);

/* ---- say.c: in the language of the report ----------------------------------- */

/* Marks words that stand in a table, to be said later. */
#define WORDS(english) english

struct str page_say(const struct draw *d, const char *words);
struct str page_sayf(const struct draw *d, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* The form for n of something; both take the same arguments. */
struct str page_say_n(const struct draw *d, unsigned n, const char *one, const char *many, ...)
    __attribute__((format(printf, 3, 5))) __attribute__((format(printf, 4, 5)));

/* Hundredths with one or two digits behind the mark of the language. */
struct str page_decimal(const struct draw *d, int hundredths, unsigned digits);

/* A difference of shares in whole percents, with a sign. */
struct str page_signed(const struct draw *d, double frac);

/* ---- words.c: names and sentences --------------------------------------- */

/* A team's name; never empty. */
struct str page_team(const struct draw *d, enum side s);

/* A server's name; empty without names, or if she has none: her shirt stands
 * beside it. */
struct str page_server(const struct draw *d, const struct server *s);

struct str page_title(const struct draw *d);
struct str page_occasion(const struct draw *d);
struct str page_date(const struct draw *d); /* of the match */

/* A date, and the first and last of several; year 0: "no date". */
struct str page_day(const struct draw *d, struct date on);
struct str page_days(const struct draw *d, struct date first, struct date last);
struct str page_data(const struct draw *d);

/* A type of serve in words; empty if it is not known. */
struct str page_type(const struct draw *d, enum serve_type type);

/* "toss, jump"; empty if none of the phases is among them. */
struct str page_phases(const struct draw *d, unsigned phases);

/* A mark in a few words; NULL for nerves, which no page for the team names. The
 * side of a toss goes by the hitting arm. */
const char *page_mark_seen(enum mark m);

/* A text of a drill: the program's own in the language of the page, a club's as it
 * is written. */
struct str page_drill_said(const struct draw *d, const struct drill_recipe *r, struct str words);

/* Its name as notes have it, and what it means in another language. */
struct str page_drill_title(const struct draw *d, const struct drill_recipe *r);

/* "2 errors, 1 warning; 3 lines marked for review" */
struct str page_errors_said(const struct draw *d);

/* ---- rows.c: the servers of a table --------------------------------------- */

enum { PAGE_ROWS_MAX = 14 };

/* Our servers, most serves first. Up to fourteen stand by themselves; of more,
 * those with few serves share the last row, and *others_n says how many do. */
unsigned page_rows(const struct tally *t, struct server rows[PAGE_ROWS_MAX], unsigned *others_n);

/* Shirt and name at the head of a row; with `others_n` that row of several. */
void page_row_name(struct draw *d, const struct server *s, unsigned others_n, double no_mm,
                   double name_mm, double wide_mm, double y_mm);

/* A count in a column that ends there; 0 is faint. */
void page_count(struct draw *d, double end_mm, double y_mm, bool bold, unsigned n);

/* ---- rates.c: dots and intervals ----------------------------------------- */

/* A scale of shares along x. */
struct scale {
    double x_mm, end_mm;
    double end_frac;
};

enum dot { DOT_OURS, DOT_THEIRS, DOT_LAST };

double page_scale_x(const struct scale *s, double frac);

/* The dot of a rate with its interval; nothing below SAY_INTERVAL. */
void page_rate(struct draw *d, const struct scale *s, double y_mm, struct rate r, enum dot dot);
void page_dot(struct draw *d, double x_mm, double y_mm, enum dot dot);

/* a − b with its interval on a scale with 0 in its middle; nothing where either has
 * fewer than SAY_COMPARISON. */
void page_difference(struct draw *d, const struct scale *s, double y_mm, struct rate a,
                     struct rate b);

/* True if it would draw them. */
bool page_compares(struct rate a, struct rate b);

/* Grid lines at each step, from y to y2, with the percents above. */
void page_grid(struct draw *d, const struct scale *s, double step_frac, double y_mm, double y2_mm,
               double label_mm);

/* A scale of ratios, each of its steps twice the last; `low` is a quarter or a half. */
struct log_scale {
    double x_mm, end_mm;
    double low, high;
};

/* A ratio with its interval; no dot where it would lie beyond the scale. */
void page_ratio(struct draw *d, const struct log_scale *s, double y_mm, struct twoway_risk r);
void page_ratio_grid(struct draw *d, const struct log_scale *s, double y_mm, double y2_mm);
void page_ratio_labels(struct draw *d, const struct log_scale *s, double y_mm);

/* "2.6 (0.6 to 12)", or "at least 2.9" where it has no upper limit. */
struct str page_ratio_words(const struct draw *d, struct twoway_risk r);

/* ---- marks.c -------------------------------------------------------------- */

enum page_mark page_mark_of(const struct played *p);

/* A row of the key: a mark, its words, and whether it stands there at 0 too. */
struct mark_row {
    enum page_mark mark;
    const char *words;
    bool always;
};

enum { MARK_ROWS = 10 };
extern const struct mark_row page_mark_rows[MARK_ROWS];

/* ---- court.c: a court to scale -------------------------------------------- */

/* Seen from behind the server: our side below, her right is right on paper.
 * X = centre + (4.5 - x) scale, Y = net - d scale; x and d as in the notes. */
struct court {
    double centre_mm, net_mm;
    double scale_mm;      /* millimetres on paper per metre */
    double a_mm;          /* size of its marks */
    double far_m, side_m; /* free zone as drawn */
    double near_m;        /* the same behind our end line; 0: our half is not drawn */
};

double page_court_x(const struct court *c, double x_m);
double page_court_y(const struct court *c, double d_m);
void page_court_lines(struct draw *d, const struct court *c);

/* Which serves a court shows. */
typedef bool court_wants(const struct played *p, const void *context);

/* Every serve whose place is known, moved apart where they touch. Gives how
 * many lay beyond the drawn area and stand at its edge. */
unsigned page_court_marks(struct draw *d, const struct court *c, court_wants *wants,
                          const void *context);

/* ---- the pages ------------------------------------------------------------ */

void page_first(struct draw *d);
void page_courts(struct draw *d);
void page_errors(struct draw *d);
void page_reception(struct draw *d);

/* Below y; gives where it ended. */
double page_faults(struct draw *d, double y_mm);

/* Below y, or on a page of its own. */
void page_runs(struct draw *d, double y_mm);
void page_practice(struct draw *d);

/* ---- planned.c: parts of pages for the staff --------------------------------- */

/* A table of plans and what it tells; gives the baseline of its last line. */
double page_plans(struct draw *d, double y_mm, struct str head, const struct scout_plan *plans,
                  size_t n);

/* How high so many plans may become. */
double page_plans_high(size_t n);

/* The plans of the match and what they brought, or that there was none. */
double page_plan(struct draw *d, double y_mm);

/* For the staff: on pages of their own behind the others. */
void page_staff(struct draw *d);
void page_staff_practice(struct draw *d);

/* Starts such a page; gives where its first section stands. */
double page_staff_turn(struct draw *d);

/* ---- look.c: notes, and serves to look at again ------------------------------- */

bool page_any_to_look_at(const struct draw *d);

/* Gives where it ended. */
double page_look_again(struct draw *d, double y_mm);

/* A drill of a practice by its name, or what stands in none; 0 is outside of any. */
struct str page_drill_name(const struct draw *d, unsigned drill);

/* Starts a page for a table that has no more room; gives where it begins there. */
typedef double page_turn(struct draw *d);

/* Of those who serve `today`, or of all if it is NULL; gives where it ended. */
double page_candidates(struct draw *d, const struct advice *advice, const struct tally *today,
                       double y_mm, page_turn *turn);
double page_practised(struct draw *d, const struct advice *season, double y_mm, page_turn *turn);

#endif
