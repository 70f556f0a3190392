#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cmd/beside.h"
#include "cmd/cmd.h"

enum { LINKS_MAX = 40, PATH_BYTES_MAX = BESIDE_PATH_MAX, CHUNK_BYTES = 4096,
       COPIED_BYTES = 1 << 16 };

/* The target of the symbolic links at `path`; a path that is none is its own.
 * realpath() would do, but needs the target to exist. */
static bool follow(const char *path, char out[PATH_BYTES_MAX]) {
    char target[PATH_BYTES_MAX];
    int n = snprintf(out, PATH_BYTES_MAX, "%s", path);

    for (int links = 0; n >= 0 && n < PATH_BYTES_MAX; links++) {
        ssize_t length = readlink(out, target, sizeof target - 1);
        char *slash = strrchr(out, '/');
        size_t dir_n = slash ? (size_t)(slash - out) + 1 : 0;

        if (length < 0)
            return true;
        errno = ELOOP;
        if (links == LINKS_MAX)
            return false;
        target[length] = '\0';
        if (target[0] == '/')
            dir_n = 0;
        n = snprintf(out + dir_n, PATH_BYTES_MAX - dir_n, "%s", target) + (int)dir_n;
    }
    errno = ENAMETOOLONG;
    return false;
}

/* What is to be written, and where. */
struct writing {
    const char *path; /* as given, for messages */
    struct str bytes;
    const int *from;  /* an open file that is written instead; or NULL */
    const struct str *read; /* what the file must still hold; NULL: whatever it does */
    struct arena *arena;
    struct str said; /* what is to be told of it, in `arena`; empty: nothing */
};

static bool fail(struct writing *w, const char *why) {
    w->said = str_printf(w->arena, "%s: not written: %s", w->path, why);
    return false;
}

bool cmd_put(int fd, struct str bytes) {
    while (bytes.n) {
        ssize_t n = write(fd, bytes.at, bytes.n);

        if (n < 0 && errno != EINTR)
            return false;
        if (n > 0)
            bytes = str_part(bytes, (size_t)n, bytes.n);
    }
    return true;
}

static bool copy(int from, int fd) {
    char bytes[COPIED_BYTES];
    ssize_t n;

    if (lseek(from, 0, SEEK_SET) != 0)
        return false;
    while ((n = read(from, bytes, sizeof bytes)) > 0)
        if (!cmd_put(fd, (struct str){bytes, (size_t)n}))
            return false;
    return n == 0;
}

static bool write_all(int fd, const struct writing *w) {
    return w->from ? copy(*w->from, fd) : cmd_put(fd, w->bytes);
}

/* Past the stream's buffer, which would lose the reason why it failed; what it
 * held before comes first, and main tells when that can't be written. */
static bool print_all(const struct writing *w) {
    if (fflush(stdout) != 0)
        return false;
    if (!write_all(STDOUT_FILENO, w)) {
        cmd_say_unprinted(errno);
        return false;
    }
    return true;
}

/* Closes in any case; keeps the first error. */
static bool closed(int fd, bool good) {
    int first = errno;

    if (close(fd) != 0 && good)
        return false;
    errno = first;
    return good;
}

static bool write_through(const char *path, const struct writing *w) {
    int fd = open(path, O_WRONLY);

    return fd >= 0 && closed(fd, write_all(fd, w));
}

/* Takes bytes of the file off the front of `left` as long as they are the same. */
static bool read_same(int fd, struct str *left) {
    char chunk[CHUNK_BYTES];
    ssize_t n;

    while ((n = read(fd, chunk, sizeof chunk)) != 0) {
        if (n < 0 && errno != EINTR)
            return false;
        if (n > 0 && ((size_t)n > left->n || memcmp(chunk, left->at, (size_t)n) != 0))
            break;
        if (n > 0)
            *left = str_part(*left, (size_t)n, left->n);
    }
    if (n != 0 && !left->n)
        *left = STR("longer");
    return true;
}

/* An editor may have saved the file while we worked on what it held before. */
static bool unchanged(const char *path, struct writing *w) {
    struct str left;
    int fd;

    if (!w->read)
        return true;
    left = *w->read;
    fd = open(path, O_RDONLY | O_CLOEXEC);
    if (fd < 0 || !closed(fd, read_same(fd, &left)))
        return false;
    return !left.n || fail(w, "it was changed in the meantime; run 9m again");
}

/* On the disk before it gets its name: after a power cut the file is the old
 * one or the new one, never half of it. */
static bool replace(const char *path, const struct stat *old, struct writing *w) {
    struct beside b;
    bool good;

    if (!beside_open(&b, path, old)) {
        if (errno == EBUSY)
            w->said = str_printf(w->arena, "%s: not written: another 9m writes it, or has left %s, "
                                 "which can be removed then", w->path, b.name);
        return false;
    }
    good = write_all(b.fd, w) && beside_finish(&b, old) && unchanged(path, w) &&
           beside_take_place(&b, path);
    beside_close(&b, good);
    if (!good || beside_sync_folder(path))
        return good;
    w->said = str_printf(w->arena, "%s: written, but a power cut may take it back: %s", w->path,
                         strerror(errno));
    return false;
}

static bool write_path(struct writing *w) {
    char real[PATH_BYTES_MAX];
    struct stat old;
    bool exists;

    if (!follow(w->path, real))
        return false;
    exists = stat(real, &old) == 0;
    if (!exists && errno != ENOENT)
        return false;
    if (exists && S_ISDIR(old.st_mode)) {
        errno = EISDIR;
        return false;
    }
    if (exists && !S_ISREG(old.st_mode))
        return write_through(real, w);
    /* A rename needs no right to the file itself; whoever protected it meant it. */
    if (exists && access(real, W_OK) != 0)
        return false;
    if (!replace(real, exists ? &old : NULL, w))
        return false;
    if (exists && old.st_nlink > 1)
        w->said = str_printf(w->arena, "%s: its other names (hard links) keep the old file",
                             w->path);
    return true;
}

static bool write_file(struct writing *w) {
    errno = 0;
    return write_path(w) || (!w->said.n && fail(w, strerror(errno)));
}

static bool write_or_say(struct writing w) {
    bool good;

    if (strcmp(w.path, "-") == 0)
        return print_all(&w);
    w.arena = arena_new(cmd_no_memory);
    good = write_file(&w);
    if (w.said.n)
        cmd_say("%.*s", STR_ARG(w.said));
    arena_free(w.arena);
    return good;
}

bool cmd_write(const char *path, struct str bytes) {
    return write_or_say((struct writing){.path = path, .bytes = bytes});
}

bool cmd_write_from(const char *path, int fd) {
    return write_or_say((struct writing){.path = path, .from = &fd});
}

bool cmd_rewrite(const char *path, struct str old, struct str new, struct arena *a,
                 struct str *said) {
    struct writing w = {.path = path, .bytes = new, .read = &old, .arena = a};
    bool good = write_file(&w);

    *said = w.said;
    return good;
}
