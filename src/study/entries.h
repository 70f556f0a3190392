/* What the files of progress share: entries as they were read. */
#ifndef NINEMETRE_STUDY_ENTRIES_H
#define NINEMETRE_STUDY_ENTRIES_H

#include "progress.h"

/* Lines that count without serves, or serves: hers of one day, by kind, drill and
 * ring. */
struct entry {
    int32_t person;
    enum progress_kind kind;
    struct progress_day day;
    struct rate marked[MARK_N];  /* serves with the mark, of those that could show it */
};

/* A focus as one file has it. */
struct focus_note {
    int32_t person;
    struct date date;
    unsigned minute;             /* of the day; 0 if the file has no time */
    enum word_id treats;
    struct str drill;
    struct rate goal;
};

struct progress {
    struct arena *arena;
    struct pool *people;         /* of people alone; no serve is counted there */
    struct entry *entries;
    size_t entry_n, entry_room;
    struct slots slots;          /* of entries */
    struct focus_note *notes;
    size_t note_n, note_room;
};

/* Sorts the days by series and date, and adds up what is of one day. */
void progress_join_days(struct progress_series *s);

/* Which kind of entry such a line makes. */
enum progress_kind progress_kind_of(const struct tries *t);

#endif
