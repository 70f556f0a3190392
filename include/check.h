/* From a match to checked facts. This room plays the match through: who
 * serves, whose turn it is, what the score must be, whether a landing fits its
 * outcome. Only check_text makes a struct checked, and tallies take nothing
 * else: a file that was not checked cannot reach a report. */
#ifndef NINEMETRE_CHECK_H
#define NINEMETRE_CHECK_H

#include "drill.h"
#include "match.h"

enum { SETS_MAX = 9 };

/* One serve as written, with what the program derived about it. */
struct played {
    struct serve said;
    uint32_t line;
    uint16_t rally;              /* in the set, from 1; 0 in a practice */
    uint8_t set;                 /* which of the sets, from 1; 0 in a practice */
    uint8_t side;                /* enum side of the serving team */
    uint8_t server;              /* shirt, SHIRT_NONE if not seen */
    uint8_t charged;             /* whose serve it counts as: the server but for `order` */
    uint8_t won;                 /* enum rally; RALLY_NONE: not known */
    uint8_t type, third, paces, steps; /* from the line, else the routine */
    uint8_t has_start;           /* HAS_PACES, HAS_STEPS as resolved */
    uint8_t observed;            /* set of phases; 0 for their serves */
    uint8_t turn_serve;          /* which serve of this turn, from 1 */
    uint8_t rotation;            /* 1 to 6: order of the zone-1 player; 0 not known */
    bool cold;                   /* first serve after coming in by substitution */
    bool after_timeout;
    bool cancelled;
    bool score_known;            /* of both sides */
    bool before_known[SIDE_N];
    uint16_t before[SIDE_N];     /* points of each side before the rally */
    uint8_t set_point;           /* which sides could win the set here: 1 << side */
    uint32_t drill;              /* practice: which drill, from 1; 0 none */
    uint32_t plan;               /* which plan was in force, from 1; 0 none */
};

/* Whom or where the team meant to serve, to the end of the set or the next. */
struct serve_plan {
    uint8_t by;                  /* SHIRT_NONE: the place */
    struct spot spot;
    uint32_t line;
};

/* A remark for the coach on the serve above it. */
struct serve_note {
    struct str text;
    uint32_t line, serve_line;
};

enum place_kind { PLACE_NONE, PLACE_FLOOR, PLACE_PLAYED, PLACE_NET };

struct set_result {
    unsigned number;
    enum side first;             /* who served first; SIDE_NONE if not known */
    unsigned points[SIDE_N];
    bool known[SIDE_N];          /* with `record ours` theirs may not be */
    bool ended;
    size_t from, to;             /* its serves in played[] */
};

struct drill {
    struct str name;
    struct spot aim;
    uint32_t line;
    size_t from, to;
};

/* A line of a practice that counts without serves: toss, tries, jumps. */
struct tries {
    enum stmt_kind kind;
    uint8_t side;                /* enum side */
    uint8_t shirt;
    unsigned hits, n;
    int ring_cm;                 /* 0: not said */
    uint32_t drill;
    uint32_t line;
    unsigned miss_n;             /* how the tosses that missed did so */
    struct {
        uint8_t mark, n;
    } misses[TOSS_MISSES_MAX];
};

struct checked {
    const struct match *match;
    struct played *played;       /* if they are kept */
    size_t played_n;
    struct set_result sets[SETS_MAX];
    unsigned set_n;
    unsigned sets_won[SIDE_N];
    struct drill *drills;
    size_t drill_n;
    struct serve_plan *plans;
    size_t plan_n;
    struct serve_note *notes;
    size_t note_n;
    struct tries *tries;
    size_t tries_n;
    unsigned lines, unread;      /* lines of notes, and those with a fault of form */
    unsigned review_n;
    unsigned phases;             /* every phase observed at some time */
    bool incomplete;             /* a gap, or lines that were not read */
};

enum {
    CHECK_KEEP = 1               /* keep the serves; without it only messages come */
};

/* Reads and checks one text; never NULL. What is wrong goes to `d`; the result
 * may be counted only if that list has no errors. */
const struct checked *check_text(const struct text *t, unsigned options, struct arena *a,
                                 struct diags *d);

/* The same with squad files kept from one text to the next; NULL for none. */
const struct checked *check_text_of(const struct text *t, unsigned options,
                                    struct squads *squads, struct arena *a, struct diags *d);

/* Says of a file whose head was read whether its serves are to be kept. */
struct check_chooser {
    bool (*keeps)(void *of, const struct match *m);
    void *of;
};

/* The same, with CHECK_KEEP for the files that are chosen. */
const struct checked *check_text_if(const struct check_chooser *chooser, const struct text *t,
                                    struct squads *squads, struct arena *a, struct diags *d);

/* Takes serves that can no longer change, in the order of the notes: those of a
 * set that has ended, or some of a practice. They are gone after the call. `c`
 * is what is known of the file by then: all that lies above these serves. */
struct check_taker {
    void (*take)(void *to, const struct checked *c, const struct played *serves, size_t n);
    void *to;
};

/* The same, with the serves handed on instead of kept: however long the file, few
 * lie in memory. An error can stand further below: then what was taken may not be
 * counted either. */
const struct checked *check_text_to(const struct check_taker *taker, const struct text *t,
                                    struct squads *squads, struct arena *a, struct diags *d);

/* Reads the score lines of a club's drills as a practice would hold them. */
void check_drills(const struct drill_book *b, struct arena *a, struct diags *d);

/* Definitions that every count shares (statistics S2, S5, S18; rule 12.7).
 * An overlap is an ace unless the serve was itself a fault at the hit. */
bool played_counts(const struct played *p);   /* an attempt: no replay, not cancelled */
bool played_ace(const struct played *p);
bool played_error(const struct played *p);
bool played_broke(const struct played *p);    /* ace, over or in1 */

/* False of a serve that says nothing of her technique: not hit (drop, clock), hit
 * by another (order), told to be put in (safe). */
bool played_shows_technique(const struct played *p);

/* What the written landing is: a place on the floor, where a receiver played
 * it, or along the net. */
enum place_kind played_place(const struct played *p);

/* Where it was meant to go: as the line says, or else its drill; kind 0 if neither. */
struct spot played_aim(const struct checked *c, const struct played *p);

/* The receiving zone (1 to 6) of the landing, also from its metres; 0 unknown. */
unsigned spot_zone(struct spot s);

#endif
