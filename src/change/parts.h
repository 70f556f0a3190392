/* What the files of merging share. */
#ifndef NINEMETRE_CHANGE_PARTS_H
#define NINEMETRE_CHANGE_PARTS_H

#include "merge.h"

/* Writes a server out where its `.` would mean another than in its own file. */
void merge_lean(struct merge *m);

#endif
