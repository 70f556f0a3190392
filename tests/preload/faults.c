/* Preloaded before the program under test: makes one of its calls on files go
 * wrong. Only files with a relative name count, which are those of the test.
 *
 *   FAULT_AT    the how-maniest call, from 1
 *   FAULT_KIND  ENOSPC, EDQUOT, EIO, EINTR: the call fails so, of the first two
 *               every later write as well; short: half is written or read;
 *               die: the program is killed; save: an editor saves FAULT_FILE
 *   FAULT_FROM  "create": count from the first call that makes a file
 *   FAULT_SAY   a descriptor that gets the name of the call that was hit */
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

enum { FILES_MAX = 1024 };

static atomic_int calls;
static atomic_bool counting, full;
static atomic_bool ours[FILES_MAX];

/* The call as the C library has it. POSIX lets a pointer of dlsym be a function. */
#define REAL(name) (*(__typeof__(name) **)&(void *[]){dlsym(RTLD_NEXT, #name)}[0])

static const char *given(const char *name) {
    const char *value = getenv(name);

    return value ? value : "";
}

static bool kind_is(const char *kind) {
    return strcmp(given("FAULT_KIND"), kind) == 0;
}

static int error_of_kind(void) {
    return kind_is("ENOSPC") ? ENOSPC : kind_is("EDQUOT") ? EDQUOT : kind_is("EINTR") ? EINTR : EIO;
}

static void say(const char *call) {
    const char *to = given("FAULT_SAY");

    if (*to && REAL(write)(atoi(to), call, strlen(call)) < 0)
        abort();
}

/* An editor that writes the file in place. */
static void save(void) {
    static const char saved[] = "# saved by an editor\n";
    int fd = REAL(open)(given("FAULT_FILE"), O_WRONLY | O_APPEND);

    if (fd < 0 || REAL(write)(fd, saved, sizeof saved - 1) < 0)
        abort();
    REAL(close)(fd);
}

/* Whether this call is the one; does what can be done before it. */
static bool hit(const char *call) {
    if (!counting && strcmp(given("FAULT_FROM"), "create") == 0)
        return false;
    if (++calls != atoi(given("FAULT_AT")))
        return false;
    say(call);
    if (kind_is("die"))
        raise(SIGKILL);
    if (kind_is("save"))
        save();
    full = kind_is("ENOSPC") || kind_is("EDQUOT");
    return true;
}

static bool fails(const char *call) {
    bool is_write = strcmp(call, "write") == 0;

    if (!hit(call) && !(full && is_write))
        return false;
    if (kind_is("save") || kind_is("short"))
        return false;
    errno = error_of_kind();
    return true;
}

static bool is_ours(const char *path) {
    return path[0] != '/';
}

static bool fd_is_ours(int fd) {
    return fd >= 0 && fd < FILES_MAX && ours[fd];
}

int open(const char *path, int flags, ...) {
    mode_t mode = 0;
    int fd;

    if (flags & O_CREAT) {
        va_list rest;

        va_start(rest, flags);
        mode = va_arg(rest, mode_t);
        va_end(rest);
        counting = counting || is_ours(path);
    }
    if (is_ours(path) && fails("open"))
        return -1;
    fd = REAL(open)(path, flags, mode);
    if (fd >= 0 && fd < FILES_MAX)
        ours[fd] = is_ours(path);
    return fd;
}

FILE *fopen(const char *path, const char *mode) {
    return is_ours(path) && fails("fopen") ? NULL : REAL(fopen)(path, mode);
}

DIR *opendir(const char *path) {
    return is_ours(path) && fails("opendir") ? NULL : REAL(opendir)(path);
}

/* The descriptor is gone whatever close says. */
int close(int fd) {
    bool bad = fd_is_ours(fd) && fails("close");
    int first = errno;

    if (fd >= 0 && fd < FILES_MAX)
        ours[fd] = false;
    if (!bad)
        return REAL(close)(fd);
    REAL(close)(fd);
    errno = first;
    return -1;
}

/* How much of n bytes goes through; -1 for none. */
static ssize_t part_of(const char *call, int fd, size_t n) {
    if (!fd_is_ours(fd))
        return (ssize_t)n;
    if (kind_is("short"))
        return (ssize_t)(hit(call) && n > 1 ? n / 2 : n);
    return fails(call) ? -1 : (ssize_t)n;
}

ssize_t write(int fd, const void *bytes, size_t n) {
    ssize_t part = part_of("write", fd, n);

    return part < 0 ? -1 : REAL(write)(fd, bytes, (size_t)part);
}

ssize_t read(int fd, void *bytes, size_t n) {
    ssize_t part = part_of("read", fd, n);

    return part < 0 ? -1 : REAL(read)(fd, bytes, (size_t)part);
}

int fsync(int fd) {
    return fd_is_ours(fd) && fails("fsync") ? -1 : REAL(fsync)(fd);
}

int fchmod(int fd, mode_t mode) {
    return fd_is_ours(fd) && fails("fchmod") ? -1 : REAL(fchmod)(fd, mode);
}

int fstat(int fd, struct stat *out) {
    return fd_is_ours(fd) && fails("fstat") ? -1 : REAL(fstat)(fd, out);
}

int stat(const char *path, struct stat *out) {
    return is_ours(path) && fails("stat") ? -1 : REAL(stat)(path, out);
}

int lstat(const char *path, struct stat *out) {
    return is_ours(path) && fails("lstat") ? -1 : REAL(lstat)(path, out);
}

int access(const char *path, int mode) {
    return is_ours(path) && fails("access") ? -1 : REAL(access)(path, mode);
}

int mkdir(const char *path, mode_t mode) {
    return is_ours(path) && fails("mkdir") ? -1 : REAL(mkdir)(path, mode);
}

int rename(const char *from, const char *to) {
    return is_ours(from) && fails("rename") ? -1 : REAL(rename)(from, to);
}

int unlink(const char *path) {
    return is_ours(path) && fails("unlink") ? -1 : REAL(unlink)(path);
}

int flock(int fd, int operation) {
    return fd_is_ours(fd) && fails("flock") ? -1 : REAL(flock)(fd, operation);
}
