/* Counts of many files. A pool keeps how often each way of serving occurred,
 * with everything that a table can be made by, so that pools of parts add up
 * to exactly the pool of the whole, in whatever order. People are told apart
 * by team and name, since letters change from file to file and shirts over a season. */
#ifndef NINEMETRE_POOL_H
#define NINEMETRE_POOL_H

#include "slots.h"
#include "tally.h"

enum { PERSON_NONE = -1 };

/* More serves than this are not counted in one pool, so that no count of a
 * table can run over. */
enum { POOL_SERVES_MOST = 1000000000 };

struct person {
    struct str team, name;       /* NFC; the name may be empty */
    uint8_t shirt;               /* her latest; SHIRT_NONE: shirt not seen */
    struct date shirt_on;        /* the latest day of that shirt; year 0: not known */
    bool by_shirt;               /* her name stands twice in a squad */
    bool ours;                   /* her team stood first in some file */
    uint32_t group;              /* her team's index in the pool, which pool_person sets */
};

/* True if two keys are one person: the name tells, whatever the shirt; where there is
 * none, or it stands twice in a squad, the shirt does. */
bool pool_same_person(const struct person *a, const struct person *b);

/* One way of serving and how often it occurred. Values are those of the facts;
 * zones are rows of ZONE_N, an aim too. Narrow, since a pool holds millions. */
struct pooled {
    int32_t server, receiver;    /* index of people; PERSON_NONE: not recorded */
    uint32_t n;
    unsigned outcome : 5;        /* as tally_outcome has it */
    unsigned rally : 2, third : 2, aim : 3, zone : 3, set : 4, rotation : 3, type : 3;
    unsigned situations : 5;     /* 1 << enum situation */
};

/* A file that was counted: whoever adds up parts is to see what is in two of them. */
struct pool_file {
    struct str sum;              /* SHA-256 of its bytes, in hexadecimal */
    struct str name;             /* without folders */
    unsigned part;               /* which part it came with, 0 where there are none */
};

/* As many as one piece of memory holds; pieces never move. */
enum { POOL_CHUNK = 4096 };

struct pool_chunk {
    struct pool_chunk *next;
    size_t n;
    struct pooled at[POOL_CHUNK];
};

/* Practices are never added to matches unless asked for. */
enum pool_kind { POOL_MATCH, POOL_PRACTICE, POOL_BOTH };

/* What a pool keeps beside the counts of every server. */
enum pool_keeps {
    POOL_SERVERS,                /* nothing */
    POOL_TABLES,                 /* the rows of every table */
    POOL_WAYS                    /* each way of serving, to be written down; no rows */
};

/* A team while it is added up. */
struct pool_group {
    struct str team;
    struct counts *rows[POOL_BOTH]; /* of its tables, one behind the other; NULL: no serve */
};

/* Serves of a team that somebody received, or that nobody is said to have: those
 * that were no error. There are many, so that it is narrow. */
struct pool_received {
    uint32_t group;
    int32_t receiver;            /* PERSON_NONE: not recorded */
    enum pool_kind kind;
    uint32_t by[OUTCOME_NET];    /* outcomes before the first error */
    uint32_t won, decided;
};

/* People of one team. */
struct pool_team {
    struct str name;
    bool ours;
    uint32_t group;
    size_t person_from, person_to;
};

struct pool {
    struct arena *arena;
    struct person *people;
    struct counts (*of_person)[POOL_BOTH]; /* by index: of matches, of practices */
    size_t person_n, person_room, of_person_room;
    enum pool_keeps keeps;
    struct slots slots;          /* of people */
    int32_t in_file[SIDE_N][SHIRT_NONE + 1]; /* people of the file being added, by shirt */
    struct pool_group *groups;
    size_t group_n, group_room;
    struct pool_received **received; /* in pieces of RECEIVED_CHUNK, which never move */
    size_t received_n, received_room;
    struct slots group_slots, received_slots;
    struct pool_chunk *chunks, **last;
    size_t pooled_n;
    uint64_t serves;             /* of matches and of practices */
    uint64_t practice_serves;
    unsigned matches, practices;
    unsigned incomplete;         /* files with a gap, or with lines not read */
    struct pool_file *files;     /* those that pool_file was told of */
    size_t file_n, file_room;

    /* From pool_settle: */
    struct pool_team *teams;     /* ours first, then by name */
    size_t team_n;
    int32_t *now;                /* the index of people that was i before */
    const struct pool_received **by_group; /* by group and receiver */
    struct pooled *pooled;       /* from pool_sort: by server, of the people as sorted */
};

/* An empty pool; it lives as long as the arena. Of servers alone it is quick; ways
 * alone take memory by the serve. */
struct pool *pool_new(enum pool_keeps keeps, struct arena *a);

/* Who a shirt of a file is; the texts are the file's. */
struct person pool_key(const struct checked *c, enum side side, unsigned shirt);

/* A team of a file, as a person without a shirt. */
struct person pool_team_key(const struct match *m, enum side side);

/* The person with this key, a new one if need be. */
int32_t pool_person(struct pool *p, struct person key);

/* The same without a new one: PERSON_NONE if there is none. */
int32_t pool_find(const struct pool *p, const struct person *key);

/* Adds serves of one way; false, and nothing added, when that is too many. */
bool pool_put(struct pool *p, struct pooled way);

/* Adds a whole file. A serve that is no attempt, or was cancelled, adds
 * nothing. False when there are too many serves. */
bool pool_add(struct pool *p, const struct checked *c);

/* The same while the file is being checked: these are a check_taker's serves, and
 * pool_end follows the last of them. If the file turns out to have errors, no
 * figure of the pool may be shown. */
bool pool_take(struct pool *p, const struct checked *c, const struct played *serves, size_t n);
void pool_end(struct pool *p, const struct checked *c);

/* Notes which file was counted; the texts are copied. */
void pool_file(struct pool *p, struct pool_file file);

/* Adds another pool with as much in it, which stays as it is. False as above. */
bool pool_merge(struct pool *p, const struct pool *more);

/* Sorts people by team, shirt and name and files by sum, finds teams and adds up
 * each server. Nothing can be added afterwards. */
void pool_settle(struct pool *p);

/* After it: the first of two files that stand side by side in `files`, are the same
 * and came with different parts; NULL: none was counted in two parts. */
const struct pool_file *pool_twice(const struct pool *p);

/* After it: sorts the ways by server. */
void pool_sort(struct pool *p);

/* After that: equal ways become one, in one order, whatever the order of files. */
void pool_join(struct pool *p);

/* One way's serves, by the definitions of check.h: an overlap that makes an ace
 * stands under OUTCOME_ACE already. */
void pool_count(struct counts *c, const struct pooled *way);

/* ---- tables -------------------------------------------------------------- */

/* What the rows of a table are. */
enum cut {
    CUT_SERVER, CUT_ERROR, CUT_START, CUT_AIM, CUT_ZONE, CUT_RECEIVER, CUT_SET, CUT_ROTATION,
    CUT_SITUATION, CUT_TYPE, CUT_N
};

/* `key` is an index of people for servers and receivers, else the value of the
 * fact (enum outcome, third, situation, serve_type; a zone, set, rotation). */
struct cut_row {
    int32_t key;
    struct counts counts;
};

struct cut_table {
    struct cut_row *rows;        /* without those that are empty */
    size_t n;
};

/* The table of one team of a settled pool, which keeps them unless it is of servers. */
struct cut_table pool_table(const struct pool *p, const struct pool_team *team, enum cut cut,
                            enum pool_kind kind, struct arena *a);

/* All serves of the team. */
struct counts pool_counts(const struct pool *p, const struct pool_team *team,
                          enum pool_kind kind);

#endif
