#include "cmd/spool.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { HELD_BYTES = 1 << 20 };

void spool_init(struct spool *s, struct arena *a) {
    *s = (struct spool){.held = arena_alloc(a, HELD_BYTES, 1), .fd = -1};
}

/* Once: what comes after that has no file to go to. */
static void failed(struct spool *s, const char *folder) {
    cmd_say("%s: no room for what is made, until it is known to be right: %s; TMPDIR names "
            "another folder", folder, strerror(errno));
    s->failed = true;
}

static const char *folder_of(void) {
    const char *folder = getenv("TMPDIR");

    return folder && *folder ? folder : "/tmp";
}

const char *spool_named(struct spool *s, struct arena *a) {
    struct str name = str_printf(a, "%s/9m-XXXXXX", folder_of());
    char *at = arena_alloc(a, name.n + 1, 1);

    memcpy(at, name.at, name.n);
    s->fd = mkstemp(at);
    if (s->fd < 0)
        failed(s, folder_of());
    return s->failed ? NULL : at;
}

static void put(struct spool *s, struct str bytes) {
    if (!s->failed && !cmd_put(s->fd, bytes))
        failed(s, folder_of());
}

/* From memory to a file. */
static void spill(struct spool *s) {
    struct arena *a = arena_new(cmd_no_memory);
    const char *name = spool_named(s, a);

    if (name) {
        unlink(name);
        put(s, (struct str){s->held, s->held_n});
    }
    arena_free(a);
}

void spool_add(struct spool *s, struct str bytes) {
    if (s->fd < 0 && bytes.n <= HELD_BYTES - s->held_n) {
        memcpy(s->held + s->held_n, bytes.n ? bytes.at : "", bytes.n);
        s->held_n += bytes.n;
        return;
    }
    if (s->fd < 0 && !s->failed)
        spill(s);
    put(s, bytes);
}

bool spool_write(const struct spool *s, const char *path) {
    if (s->failed)
        return false;
    return s->fd < 0 ? cmd_write(path, (struct str){s->held, s->held_n})
                     : cmd_write_from(path, s->fd);
}

void spool_free(struct spool *s) {
    if (s->fd >= 0)
        close(s->fd);
}
