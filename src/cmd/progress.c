#include <time.h>
#include <unistd.h>

#include "cmd/cmd.h"

enum { EVERY = 16, BAR_CELLS = 30, PATIENCE_S = 2 };

void cmd_progress_init(struct cmd_progress *p) {
    p->wanted = isatty(STDERR_FILENO) && clock_gettime(CLOCK_MONOTONIC, &p->start) == 0;
    p->shown = false;
}

void cmd_progress_tell(struct cmd_progress *p, size_t done, size_t all) {
    struct timespec now;
    size_t full = done * BAR_CELLS / all;

    if (!p->wanted || done % EVERY || clock_gettime(CLOCK_MONOTONIC, &now) != 0)
        return;
    if (!p->shown && now.tv_sec - p->start.tv_sec < PATIENCE_S)
        return;
    p->shown = true;
    fputs("\r[", stderr);
    for (size_t i = 0; i < BAR_CELLS; i++)
        putc(i < full ? '#' : ' ', stderr);
    fprintf(stderr, "] %zu of %zu files", done, all);
    fflush(stderr);
}

void cmd_progress_clear(const struct cmd_progress *p) {
    if (p->shown)
        fputs("\r\33[K", stderr);
}
