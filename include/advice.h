/* What a coach may take from the serves of one team: at most three sentences
 * for the team and three priorities for a server, as data. The words are the
 * command's. Each is ranked by what it costs at the cautious end of its
 * interval, so that a large cost that may be chance comes behind a smaller one
 * that is sure. What may be said of so many serves stands in rate.h: under a
 * season's no mark is tested, under SAY_COMPARISON a server has no priority
 * but the one that her coach wrote down. Nothing here names a cause. */
#ifndef NINEMETRE_ADVICE_H
#define NINEMETRE_ADVICE_H

#include "aimed.h"
#include "drill.h"
#include "faults.h"
#include "progress.h"
#include "study.h"

enum { ADVICE_MAX = 3 };

/* ---- what it costs --------------------------------------------------------- */

/* Points a set and, where both sides' shares of rallies won rest on a season's
 * serves, sets: by how much more of them the team would win. Below 0: what is better than the
 * rest. `sure_n` are the points at the end of the interval nearest to none: what
 * the order goes by. */
struct advice_cost {
    bool has_points, has_set;
    double points_n, sure_n;
    double set_frac;
};

/* ---- the team --------------------------------------------------------------- */

enum advice_kind {
    ADVICE_FINDING,              /* a situation, or one kind of miss above all */
    ADVICE_FAULT,                /* a mark that goes with a miss, over the servers */
    ADVICE_MISS                  /* what a kind of miss costs, where places are left */
};

struct advice_sentence {
    enum advice_kind kind;
    struct advice_cost cost;
    struct finding finding;      /* ADVICE_FINDING */
    struct faults_test fault;    /* ADVICE_FAULT */
    enum miss miss;              /* ADVICE_MISS; MISS_NET to MISS_WIDE */
    struct rate missed;          /* ADVICE_MISS: of all serves */
};

struct advice_team {
    enum say say;
    struct advice_sentence at[ADVICE_MAX];
    unsigned n;
    unsigned looked_n;           /* comparisons of situations and kinds of misses */
};

/* ---- a server --------------------------------------------------------------- */

/* What is known of a mark with a kind of miss. */
enum advice_evidence {
    ADVICE_UNMARKED,             /* no phase was observed, or none of its marks seen */
    ADVICE_COUNTED,              /* seen with it more often; too few serves to test */
    ADVICE_TESTED,               /* goes with it, adjusted for all tests */
    ADVICE_NONE_FOUND            /* marks were tested, and none goes with it */
};

/* Where to aim, from her own scatter (aimed.h). */
struct advice_aim {
    enum serve_type type;
    enum say_aim say;            /* SAY_AIM_OWN_CAUTION or SAY_AIM_OWN */
    unsigned aimed_n;
    struct aim_best best;        /* a place of the frame of the notation */
    struct scatter scatter;      /* about the aim: its middle is her bias */
    double gain_frac, sure_frac; /* more rallies won of her serves of the type; sure:
                                    the least over the places that the tape may have */
};

enum advice_way { ADVICE_MISSES, ADVICE_AIM };

struct advice_priority {
    enum advice_way way;
    struct advice_cost cost;     /* has_set only from a season's serves on */
    const struct drill_recipe *drill; /* NULL: none treats it */
    struct advice_aim aim;       /* ADVICE_AIM */
    /* ADVICE_MISSES: */
    enum faults_miss miss;
    struct rate missed;          /* in this way, of all her serves */
    enum advice_evidence evidence;
    enum mark mark;              /* counted, tested: as written of her hand */
    struct twoway table;         /* the same */
    struct twoway_risk risk;     /* tested */
    double adjusted;             /* tested */
};

/* Her two usual types of serve, told to be put in left out: is the one that
 * misses more worth its misses? It is while more of its rallies are won. */
struct advice_types {
    enum serve_type harder, other; /* harder: misses a larger share */
    struct rate harder_won, other_won; /* rallies, of those decided */
    struct rate harder_missed, other_missed;
    struct interval difference;  /* of the shares won; told apart if it leaves out 0 */
    bool has_break_even;
    double break_even_frac;      /* so many may miss, if it wins in play as it does */
};

struct advice_server {
    const struct faults_server *who;
    enum say say;
    enum serve_type type;
    bool has_focus;              /* comes before the others */
    struct progress_focus focus;
    const struct drill_recipe *focus_drill; /* NULL: not in the book */
    bool has_types;              /* each with enough serves to be compared */
    struct advice_types types;
    bool has_aim;                /* one of the priorities, if its cost allows */
    struct advice_priority at[ADVICE_MAX];
    unsigned n;                  /* with a focus at most ADVICE_MAX - 1 */
};

/* Everything that advice rests on. */
struct advice {
    const struct faults *faults;
    const struct progress *progress;
    const struct aimed *aimed;
    const struct drill_book *drills;
    struct arena *arena;
    struct faults_tests tests;
    bool won_known[OUTCOME_N];
    double won_frac[OUTCOME_N];  /* of rallies after such a serve; see advice_in_play */
};

/* The files of one team, in each of them. */
struct advice_of {
    struct faults *faults;
    struct progress *progress;
    struct aimed *aimed;
};

struct advice_of advice_of(struct arena *a);
void advice_add(struct advice_of *of, const struct checked *c);

/* Settles the faults. What is made lies in the arena. */
void advice_init(struct advice *a, const struct advice_of *of, const struct drill_book *drills,
                 struct arena *arena);

/* A rally of ours after a serve into the court, an ace included, is won with
 * this chance. By what became of the pass: the mean of the servers' rates, drawn
 * together (shrink.h); then by how often she got which. `who` NULL: the team.
 * False when no such serve was seen, or no rally's winner is known. */
bool advice_in_play(const struct advice *a, const struct faults_server *who, double *won_frac);

struct advice_team advice_team(const struct advice *a);

/* `server` is an index of the faults. */
struct advice_server advice_server(const struct advice *a, size_t server);

#endif
