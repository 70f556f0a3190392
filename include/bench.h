/* Who goes in to serve, and go for it or put it in? Counts of one team over the
 * matches of a season. Serves of practices add nothing. What may be said of so
 * many serves stands in rate.h. */
#ifndef NINEMETRE_BENCH_H
#define NINEMETRE_BENCH_H

#include "pool.h"
#include "rate.h"

enum { BENCH_TYPES = TYPE_UNDERHAND + 1, BENCH_IN = 20 };

struct bench_server {
    struct person who;
    struct counts all;
    unsigned type_n[BENCH_TYPES], go_type_n[BENCH_TYPES];
    struct counts go;            /* told to go for it */
    struct rate cold;            /* missed, of first serves after coming in */
    struct rate turns;           /* points won in turns; turns whose every winner is known */
};

struct bench {
    struct arena *arena;
    struct str team;
    struct pool *people;         /* by index as the servers are before bench_settle */
    struct bench_server *servers; /* by shirt, after bench_settle */
    size_t server_n, server_room;
    unsigned matches;
    struct date first, last;     /* year 0: none is dated */
    struct counts safe;          /* of all: told to put it in */
    struct counts go[BENCH_TYPES];
};

struct bench *bench_new(struct str team, struct arena *a);

/* Adds a file of the team, which may be forgotten afterwards; matches alone count. */
void bench_add(struct bench *b, const struct checked *c);

/* Puts the servers in order; call it once, after the last file. */
void bench_settle(struct bench *b);

/* The type of most of her serves, and of those that she went for, by those whose
 * type is known; TYPE_NONE if none is. */
enum serve_type bench_type(const struct bench_server *s);
enum serve_type bench_go_type(const struct bench_server *s);

enum bench_pays {
    BENCH_UNKNOWN,               /* fewer than 30 rallies of either way of serving */
    BENCH_NEVER,                 /* not even without a miss */
    BENCH_PAYS
};

/* How many of 20 `go` serves of this type may miss until they win no more rallies
 * than the serves that the team was told to put in, at any score: with e and w for
 * the share of those that missed and of the others that were won, and w' for the
 * latter of the go serves, 20 (1 - (1 - e) w / w'), rounded down. */
struct bench_go {
    enum bench_pays pays;
    unsigned may_miss;           /* BENCH_PAYS */
    struct rate won, safe_won;   /* rallies, of those decided */
    bool told_apart;             /* the interval of their difference leaves out 0 */
};

struct bench_go bench_go(const struct bench *b, enum serve_type type);

#endif
