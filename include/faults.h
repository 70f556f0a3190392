/* Which marks of technique go with which misses, over the matches of one team.
 * Counts are kept by server, and one test compares a server with herself: her
 * serves with the mark against her others, all of one phase that was observed.
 * Servers are never added up; the team's test weighs them one by one. Serves
 * of practices add nothing, and neither do serves that show no technique. A scorer sees the
 * miss before writing the mark, which no count repairs: a mark goes with a
 * miss, and nothing here says that it causes it. */
#ifndef NINEMETRE_FAULTS_H
#define NINEMETRE_FAULTS_H

#include "pool.h"
#include "twoway.h"

/* Left and right depend on the hand. The arm side is that of the hitting arm,
 * right for most; in `enum mark` values kept here a left-hander's tl and tr have
 * changed places, so that MARK_tr is the arm side's and MARK_tl the other's. */
enum faults_miss {
    FAULTS_NET, FAULTS_LONG, FAULTS_ARM_SIDE, FAULTS_ACROSS, FAULTS_FOOT, FAULTS_MISSES,
    FAULTS_ANY = FAULTS_MISSES   /* these and every other kind together */
};

/* The mark as a scorer writes it of this hand, and back. */
enum mark faults_mark_of(enum mark m, bool lefthanded);

/* Serves of which it is known whether they had the mark. */
struct faults_seen {
    unsigned with_n, without_n;
    unsigned with[FAULTS_ANY + 1], without[FAULTS_ANY + 1];
};

struct faults_server {
    const struct person *person; /* from faults_settle */
    struct str name;             /* empty if the team does not name her */
    uint8_t shirt;               /* her latest */
    bool lefthanded;             /* in the last file that has her */
    struct counts counts;        /* all her serves in matches */
    unsigned missed[FAULTS_MISSES]; /* of all; other kinds are in counts.by alone */
    unsigned type_n[TYPE_UNDERHAND + 1];
    struct counts of_type[TYPE_UNDERHAND + 1]; /* without `safe`: a kind by itself */
    struct rate won[OUTCOME_N];  /* rallies, of those decided, by tally_outcome */
    struct faults_seen seen[MARK_N];
};

struct faults {
    struct arena *arena;
    struct pool *people;         /* by index as the servers are before faults_settle */
    struct faults_server *servers; /* most serves first, from faults_settle */
    size_t server_n, server_room;
    unsigned matches, sets;
    bool incomplete;             /* a file with a gap, or with lines not read */
    struct counts side[SIDE_N];
    struct counts situation[SITUATION_N]; /* ours */
    struct profile rules;        /* of the last match */
};

/* Nothing yet; it lives as long as the arena. */
struct faults *faults_new(struct arena *a);

/* Adds a file, which may be forgotten afterwards. All are of one team. Whoever
 * has a focus gets her row, with or without a serve. */
void faults_add(struct faults *f, const struct checked *c);

/* Sorts the servers. Nothing can be added afterwards. */
void faults_settle(struct faults *f);

/* The table of a mark and a kind of miss, or FAULTS_ANY. */
struct twoway faults_table(const struct faults_server *s, enum mark m, enum faults_miss k);

/* The type that most of her serves have; TYPE_NONE if none was said. */
enum serve_type faults_type(const struct faults_server *s);

/* ---- marks of few serves ---------------------------------------------------- */

/* A mark with the misses of any kind, over all servers: counts and how large the
 * difference is, for a page of one match, which tests nothing. */
struct faults_row {
    enum mark mark;
    struct twoway table;         /* of all servers, for its counts alone */
    /* Each server compared with herself, then weighed together (Mantel and
     * Haenszel). Where only one can be, or no serve of one side missed: the
     * ratio of the serves of those who can. */
    bool has_risk;
    struct twoway_risk risk;
};

/* The marks that were seen, most often seen first, equal ones in their order;
 * how many. A ratio stands where the counts allow it (twoway_may_test). */
unsigned faults_rows(const struct faults *f, struct faults_row out[MARK_N], struct arena *a);

/* ---- tests ----------------------------------------------------------------- */

#define FAULTS_TEAM SIZE_MAX

struct faults_test {
    size_t server;               /* index, or FAULTS_TEAM */
    enum mark mark;
    enum faults_miss miss;
    /* The team's is a sum over the servers who can be compared with themselves,
     * for its counts alone. */
    struct twoway table;
    struct twoway_risk risk;     /* the team's: Mantel and Haenszel's */
    double p, adjusted;          /* mid-p; the team's: chi-square without correction */
};

struct faults_tests {
    struct faults_test *at;      /* by server, the team last */
    size_t n;
};

/* Every test that the counts allow (rate_may_say, twoway_may_test), adjusted for
 * all of them together. */
struct faults_tests faults_tests(const struct faults *f, struct arena *a);

/* True for more misses with the mark, and an adjusted p up to TWOWAY_FINDING_P. */
bool faults_found(const struct faults_test *t);

#endif
