/* From statements to a match or a practice: declarations of the file and of
 * its squad files are gathered, names and shirts resolved, and what is left
 * (sets, serves, scores) is handed on line by line. Declarations stand above
 * the first set, drill or serve, so that each holds for the whole file. */
#ifndef NINEMETRE_MATCH_H
#define NINEMETRE_MATCH_H

#include "syntax.h"

enum side { OURS, THEIRS, SIDE_N, SIDE_NONE = SIDE_N };

enum { SQUAD_FILES_MAX = 4 };

struct player {
    uint8_t shirt;
    bool libero, lefthanded;
    struct str name;             /* NFC; empty for a shirt that only appeared */
    struct serve routine;        /* type, start and measures that hold unless said */
    struct place place;          /* her declaration */
    struct place libero_place;   /* where she is named as libero */
};

struct team {
    char letter;
    char net;                    /* 'w' women, 'm' men, 0 not said */
    struct str name;             /* NFC */
    struct place place;
    bool declared;               /* has players declared: others are unknown */
    struct player *players;
    size_t player_n, player_room;
    uint8_t by_shirt[SHIRT_MAX + 1]; /* index + 1 into players, 0: none */
};

/* A rule profile: numbers of the rule book as data. */
struct profile {
    const char *name;
    unsigned set_points, decider_points, lead, sets_to_win;
    unsigned change_points;      /* of the leader, when the decider changes courts; 0 never */
    unsigned substitutions;      /* in a set */
    unsigned reentry;            /* 0: once, for the same player; 1: any time, to her place */
    unsigned timeouts;           /* in a set */
    unsigned libero_serves;      /* 0 no, 1 in one place of the order */
    unsigned retoss;             /* 0 no, 1 one a service, 2 one a turn */
    unsigned service_s;          /* from the whistle to the hit */
    unsigned net_women_cm, net_men_cm;
};

/* How a value of a profile came into this program. */
enum rule_mark {
    RULE_READ,                   /* in the rule book or an official text */
    RULE_SECOND_HAND,            /* in another text that quotes it */
    RULE_FROM_MEMORY             /* not verified */
};

struct rule_value {
    const char *rule;
    size_t offset;               /* in struct profile */
    unsigned value;
    const char *source;
    enum rule_mark mark;
};

/* A profile for people: what it changes over `fivb`, which it begins with. */
struct profile_info {
    const char *name, *title;
    const char *refused;         /* why it can't be used here, or NULL */
    const struct rule_value *values;
    size_t n;
};

/* What a rule of a profile means, for people. */
struct rule_info {
    const char *name, *meaning;
    size_t offset;               /* in struct profile */
    unsigned least, most;        /* the values that it can have */
};

struct focus {
    uint8_t side;                /* enum side */
    uint8_t shirt;
    enum word_id treats;         /* a mark or an error kind */
    struct str drill;
    unsigned hits, tries;
    struct place place;
};

struct match {
    struct str file;
    bool occasion;               /* has a match or practice line: no mere squad file */
    bool practice;
    struct place day;            /* of its date; line 0 without an occasion */
    struct date date;
    bool timed;
    unsigned minute;             /* of the day */
    struct str title, venue, scorer;
    unsigned team_n;
    struct team teams[SIDE_N];
    bool ours_only;              /* record ours */
    struct profile profile;
    int net_cm;                  /* 0: not known */
    struct focus *focuses;
    size_t focus_n, focus_room;
    bool unsure;                 /* what is played, or who is ours, can't be told:
                                    that was told, and nothing else is judged */
    bool header_unread;          /* a line of the header had a fault: who is missing
                                    may stand there, so nobody is called unknown */
};

/* Below 0, 0 or above 0, as the first day is before, the same as or after the other. */
int date_order(struct date a, struct date b);

/* The reading of one file. */
struct reading;

/* Squad files that are kept from one match to the next. The caller frees them
 * after the last arena that a match of theirs lies in. */
struct squads;

struct squads *squads_new(arena_failed *failed);
void squads_free(struct squads *s);

/* Where squad files are read from in place of the file system; like text_read. */
struct squad_source {
    enum text_status (*read)(void *from, struct text *t, const char *path, struct arena *a,
                             struct diags *d);
    void *from;
};

void squads_read_from(struct squads *s, struct squad_source source);

/* Forgets the files when there are many. No match that took from one of them may be
 * looked at afterwards. NULL has none. */
void squads_tidy(struct squads *s);

/* Opens one file; `squads` may be NULL: its squad files then live in the arena. */
struct reading *match_open(const struct text *t, struct squads *squads, struct arena *a,
                           struct diags *d);

/* The next statement that is no declaration; NULL at the end of the file. The
 * header is complete before the first of them is given. */
const struct stmt *match_next(struct reading *r);

const struct match *match_of(const struct reading *r);
struct syn *match_syntax(const struct reading *r);

/* A parser for the lines of a file one by one, declarations too, which knows the
 * short words of its squad files (`squads` as for match_open); `*ours` is the
 * letter that our players do without, 0 if not known. */
struct syn *match_lines(const struct text *t, struct squads *squads, struct arena *a,
                        struct diags *d, char *ours);

/* The side of a team letter; letter 0 is ours. SIDE_NONE if no team has it. */
enum side match_side(const struct match *m, char letter);

/* The player with this shirt, NULL if there is none. */
const struct player *team_find(const struct team *t, unsigned shirt);

/* The message that the team has no such shirt, with those that it has and those
 * that are nearest; NULL if it is not kept. */
struct diag *team_lacks(const struct team *t, unsigned shirt, struct place where,
                        struct arena *a, struct diags *d);

/* The profiles in the order of the reference, NULL after the last; by name,
 * NULL if there is none. */
const struct profile_info *profile_info(size_t ix);
const struct profile_info *profile_find(struct str name);

/* The rules in the order of the reference, NULL after the last; by name. */
const struct rule_info *rule_info(size_t ix);
const struct rule_info *rule_find(struct str name);

/* The numbers of a profile, and one of them set. */
void profile_fill(struct profile *p, const struct profile_info *info);
void profile_set(struct profile *p, const struct rule_info *rule, unsigned value);
unsigned profile_get(const struct profile *p, const struct rule_info *rule);

#endif
