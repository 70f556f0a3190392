#include <time.h>
#include <unistd.h>

#include "cmd/cmd.h"

enum { BAR_CELLS = 30, PATIENCE_MS = 2000, EVERY_MS = 100 };

void cmd_progress_init(struct cmd_progress *p) {
    p->wanted = isatty(STDERR_FILENO) && clock_gettime(CLOCK_MONOTONIC, &p->start) == 0;
    p->shown = false;
    p->next_ms = PATIENCE_MS;
}

static long long passed_ms(const struct cmd_progress *p) {
    struct timespec now = p->start;

    clock_gettime(CLOCK_MONOTONIC, &now);
    return (now.tv_sec - p->start.tv_sec) * 1000LL + (now.tv_nsec - p->start.tv_nsec) / 1000000;
}

void cmd_progress_tell(struct cmd_progress *p, size_t done, size_t all) {
    size_t full = done * BAR_CELLS / all;

    if (!p->wanted || passed_ms(p) < p->next_ms)
        return;
    p->shown = true;
    p->next_ms = passed_ms(p) + EVERY_MS;
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
