/* Pages before they are a PDF: words, lines and marks at millimetres from the
 * top left corner of the layout block, which is 177 wide and 249 high and the
 * same on every paper. The room decides what stands where and in which words;
 * it knows nothing of PDF and measures words only through `struct page_font`.
 *
 *      x 0 -------------- 177      header rule at y 4.2, body from 7 to 243,
 *   y 0 +------------------+       footer rule at y 245.2
 *       |                  |
 *  249  +------------------+
 */
#ifndef NINEMETRE_PAGE_H
#define NINEMETRE_PAGE_H

#include "advice.h"
#include "bench.h"
#include "card.h"
#include "lang.h"
#include "plan.h"
#include "scout.h"
#include "season.h"
#include "study.h"

/* Colours by their use; the hexadecimal values stand in src/pdf. */
enum page_ink {
    INK_NONE,
    INK_BLACK,
    INK_NOTE,                    /* dark grey: notes, heads, axes */
    INK_OURS,                    /* blue */
    INK_MISSED,                  /* vermillion; marks, never text */
    INK_FAINT,                   /* grey: zeros, zone numbers */
    INK_GRID,                    /* light grey, grid lines only */
    INK_WHITE,
    INK_N
};

enum page_face { FACE_REGULAR, FACE_BOLD, FACE_N };

/* What a serve, a start or a dot of a rate looks like. */
enum page_mark {
    MARK_ACE_FLOOR,              /* on the floor: solid */
    MARK_ACE_PLAYED,             /* where a receiver touched it: open */
    MARK_PLAY,                   /* pass of 2 or 3, or not rated */
    MARK_BROKE,                  /* pass of 1, or straight back */
    MARK_LONG,
    MARK_RIGHT,
    MARK_LEFT,
    MARK_NET,
    MARK_FAULT,                  /* foot, clock, order, drop, screen */
    MARK_OBJECT,                 /* antenna, ceiling, team-mate */
    MARK_FLOOR,                  /* practice: in the court, or in the target */
    MARK_BESIDE,                 /* practice: in the court, beside the target */
    MARK_START,
    MARK_START_MISSED,
    PAGE_MARK_N
};

enum page_kind {
    PAGE_WORDS,                  /* at x_mm from the left, y_mm is the baseline */
    PAGE_LINE,                   /* x_mm, y_mm to x2_mm, y2_mm */
    PAGE_BOX,                    /* corners as for a line; a stroke, a fill, or both */
    PAGE_CIRCLE,                 /* centre and size_mm, the radius */
    PAGE_MARK                    /* centre and size_mm, the mark's `a` */
};

struct page_item {
    enum page_kind kind;
    double x_mm, y_mm, x2_mm, y2_mm;
    double size_mm;
    double line_pt;
    double on_mm, off_mm;        /* a dashed line; on 0: a whole one */
    enum page_ink ink, fill;     /* of a mark: ink for all of it, INK_NONE for its own */
    enum page_face face;
    double type_pt;
    struct str words;
    enum page_mark mark;
    size_t link;                 /* words that lead to this page, from 1; 0: they do not */
    /* The serve that the mark stands for; NULL in a key. So that a test can
     * count: every mark drawn is a serve counted. */
    const struct played *serve;
};

struct page {
    struct str name;             /* for the bookmark and the page's head */
    struct page_item *items;
    size_t n, room;
};

struct pages {
    struct arena *arena;
    struct str title;            /* of the document */
    struct page *at;
    size_t n, room;
};

/* One stroke of a mark, in units of its `a`, centre 0,0, y up. */
struct page_stroke {
    unsigned point_n;            /* 0: a circle of radius_a */
    double points[4][2];
    double radius_a;
    bool closed;
    enum page_ink ink, fill;
    double line_pt;
};

/* The strokes of a mark, in the order of drawing. */
const struct page_stroke *page_strokes(enum page_mark m, unsigned *n);

/* How wide words are, asked of whoever draws them. */
struct page_font {
    double (*width_mm)(void *context, struct str words, enum page_face face, double type_pt);
    void *context;
};

/* What a report needs and the notes do not say. */
struct page_facts {
    struct str file;             /* base name */
    struct str hash;             /* first digits of its SHA-256, hexadecimal */
    struct str version;          /* of the program, may be empty */
    unsigned errors, warnings, reviews; /* errors above 0: partial data */
    bool left_out;               /* lines or files of the season are missing */
    bool no_names;               /* shirts only, and no page for the staff */
    const struct advice *season; /* for the staff: of the files so far; NULL: none */
    bool season_left_out;        /* files or lines of it were not read */
    const struct drill_book *drills; /* of a practice, for their goals; NULL: none known */
    const struct lang *lang;     /* of the words; NULL: English */
};

/* The report of a match, or of a practice. The pages live as long as the arena. */
const struct pages *page_report(const struct tally *t, const struct page_facts *facts,
                                const struct page_font *font, struct arena *a);

/* A page for the staff on a team that receives. */
const struct pages *page_scout(const struct scout *s, const struct page_facts *facts,
                               const struct page_font *font, struct arena *a);

/* The card of one of our servers in the match of the tally, one page; and the same
 * as a message without pictures. */
const struct pages *page_card(const struct card *c, const struct tally *t,
                              const struct page_facts *facts, const struct page_font *font,
                              struct arena *a);
struct str page_card_text(const struct card *c, const struct tally *t,
                          const struct page_facts *facts, struct arena *a);

/* A card for the bench: who serves how, by shirt. */
const struct pages *page_bench(const struct bench *b, const struct page_facts *facts,
                               const struct page_font *font, struct arena *a);

/* The notation on one page for the bench, made from the tables of its words. */
const struct pages *page_notation(const struct page_facts *facts, const struct page_font *font,
                                  struct arena *a);

/* The plan of a practice with a blank form: a block for each drill, a row for
 * each player. `team` is ours. */
const struct pages *page_practice_plan(const struct plan *plan, const struct team *team,
                                       const struct page_facts *facts,
                                       const struct page_font *font, struct arena *a);

/* A season of one team, for its staff. */
struct page_season {
    struct str team;
    const struct season *season; /* settled, with at least one match */
    const struct advice *advice; /* of the same files */
    bool split;                  /* before and after this day: */
    struct date split_on;
};

const struct pages *page_season(const struct page_season *season, const struct page_facts *facts,
                                const struct page_font *font, struct arena *a);

/* A blank form to score by hand. */
const struct pages *page_form(const struct page_facts *facts, const struct page_font *font,
                              struct arena *a);

#endif
