#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cmd/cmd.h"

enum { LINKS_MAX = 40, PATH_BYTES_MAX = 4096, NAMES_TRIED_MAX = 100 };

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

/* What is to be written, in order. */
struct parts {
    const struct str *at;
    size_t n;
};

static bool write_part(int fd, struct str bytes) {
    while (bytes.n) {
        ssize_t n = write(fd, bytes.at, bytes.n);

        if (n < 0 && errno != EINTR)
            return false;
        if (n > 0)
            bytes = str_part(bytes, (size_t)n, bytes.n);
    }
    return true;
}

static bool write_all(int fd, struct parts parts) {
    for (size_t i = 0; i < parts.n; i++)
        if (!write_part(fd, parts.at[i]))
            return false;
    return true;
}

static bool print_all(struct parts parts) {
    for (size_t i = 0; i < parts.n; i++) {
        struct str bytes = parts.at[i];

        if (fwrite(bytes.at ? bytes.at : "", 1, bytes.n, stdout) != bytes.n)
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

static bool write_through(const char *path, struct parts parts) {
    int fd = open(path, O_WRONLY);

    return fd >= 0 && closed(fd, write_all(fd, parts));
}

/* A new file beside `path`, hidden, which no other run has: 0666 less the
 * umask, or the mode of the file that it will replace. */
static int open_beside(const char *path, const struct stat *old, char name[PATH_BYTES_MAX]) {
    const char *slash = strrchr(path, '/');
    int dir_n = slash ? (int)(slash - path) + 1 : 0;

    for (int i = 0; i < NAMES_TRIED_MAX; i++) {
        int n = snprintf(name, PATH_BYTES_MAX, "%.*s.%.200s.%ld-%d.new", dir_n, path, path + dir_n,
                         (long)getpid(), i);
        int fd;

        errno = ENAMETOOLONG;
        if (n < 0 || n >= PATH_BYTES_MAX)
            return -1;
        fd = open(name, O_WRONLY | O_CREAT | O_EXCL, 0666);
        if (fd >= 0 && old && fchmod(fd, old->st_mode & 07777) != 0) {
            closed(fd, false);
            unlink(name);
            return -1;
        }
        if (fd >= 0 || errno != EEXIST)
            return fd;
    }
    return -1;
}

/* On the disk before it gets its name: after a power cut the file is the old
 * one or the new one, never half of it. */
static bool replace(const char *path, const struct stat *old, struct parts parts) {
    char name[PATH_BYTES_MAX];
    int fd = open_beside(path, old, name);
    int first;

    if (fd < 0)
        return false;
    if (closed(fd, write_all(fd, parts) && fsync(fd) == 0) && rename(name, path) == 0)
        return true;
    first = errno;
    unlink(name);
    errno = first;
    return false;
}

static bool write_file(const char *path, struct parts parts) {
    char real[PATH_BYTES_MAX];
    struct stat old;
    bool exists;

    if (!follow(path, real))
        return false;
    exists = stat(real, &old) == 0;
    if (exists && S_ISDIR(old.st_mode)) {
        errno = EISDIR;
        return false;
    }
    if (exists && !S_ISREG(old.st_mode))
        return write_through(real, parts);
    /* A rename needs no right to the file itself; whoever protected it meant it. */
    if (exists && access(real, W_OK) != 0)
        return false;
    return replace(real, exists ? &old : NULL, parts);
}

static const char *store(const char *path, struct parts parts) {
    errno = 0;
    return write_file(path, parts) ? NULL : strerror(errno);
}

const char *cmd_store(const char *path, struct str bytes) {
    return store(path, (struct parts){&bytes, 1});
}

bool cmd_write_parts(const char *path, const struct str *parts, size_t n) {
    struct parts all = {parts, n};
    const char *why;

    if (strcmp(path, "-") == 0)
        return print_all(all);
    why = store(path, all);
    if (why)
        cmd_say("%s: not written: %s", path, why);
    return !why;
}

bool cmd_write(const char *path, struct str bytes) {
    return cmd_write_parts(path, &bytes, 1);
}
