/* Threads that share the reading of files and begin while these are still being
 * found. Files are read in any order, but spoken about in theirs: so the number of
 * threads changes no byte of what is said. */
#ifndef NINEMETRE_CMD_CREW_H
#define NINEMETRE_CMD_CREW_H

#include "cmd/span.h"

enum {
    CREW_THREADS_MOST = 64,
    CREW_FILES_AT_ONCE = 8 /* in hand of one member: files of one folder often share a squad file */
};

/* The row of the option, the same for every command that reads with a crew. */
#define CREW_OPTION                                                                               \
    {"threads", "N", "read with N threads, one a processor if not said; the\noutput is the same", \
     NULL, 'j'}

struct crew;

struct crew_member {
    struct crew *crew;
    void *own;    /* what it works with; nobody else touches it */
    size_t at;    /* the first of the files that it has in hand; SIZE_MAX: none */
    pthread_t thread;
    bool started;
};

typedef void crew_read(struct crew_member *m, const char *path);
typedef void crew_done(struct crew_member *m);

struct crew {
    const struct cmd_run *run;
    crew_read *read;             /* of one file */
    crew_done *done;             /* with those in hand, at most CREW_FILES_AT_ONCE; or NULL */
    const struct cmd_paths *found; /* NULL: those of the operands, found while others work */
    struct crew_member members[CREW_THREADS_MOST];
    unsigned n;
    struct cmd_sharing sharing;  /* its lock guards what follows */
    pthread_cond_t behind;       /* told when a member has its files behind it, */
    struct cmd_paths paths;      /* its `drills` may be set before the work */
    bool all_found;              /* and when all are found */
    bool telling;                /* somebody speaks about a file: no bar is drawn */
    size_t next;                 /* first file that nobody has taken */
    const struct cmd_span *span; /* set before the work; NULL: files of all days */
    struct cmd_progress progress;
};

/* How many threads are to read: the argument of the option, or, where it was not
 * given (NULL), one for each processor that this process may use; a single file is
 * read by one. False after a message. */
bool crew_threads(const struct cmd_run *run, const char *given, unsigned *threads);

/* Each member is to be given its `own` before the work. */
void crew_init(struct crew *c, const struct cmd_run *run, unsigned threads, crew_read *read);

/* Reads all files; gives what cmd_find gave, if it had to find them. `done` may be
 * set before, and `found`. */
enum cmd_status crew_work(struct crew *c);

/* Within `read` or `done`: waits until all files before those in hand are done with.
 * From then until its own are no other member speaks, and all files are found. */
void crew_turn(struct crew_member *m);

/* Reads a file, with a list of messages begun; false, and said in its turn, if it can't. */
bool crew_text(struct crew_member *m, struct text *t, const char *path, struct arena *a,
               struct diags *d);

#endif
