#include "cmd/beside.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/select.h>
#include <unistd.h>

enum { TURNS_MAX = 1000, TURN_MS = 10 };

/* Of a name, so much that the file beside it has one that the disk takes. */
enum { NAME_KEPT_MAX = 240 };

/* ---- turns ------------------------------------------------------------------ */

/* How the file of that name may be had. */
enum turn { TURN_MINE, TURN_LATER, TURN_NONE };

static bool name_beside(const char *path, char name[BESIDE_PATH_MAX]) {
    const char *slash = strrchr(path, '/');
    int dir_n = slash ? (int)(slash - path) + 1 : 0;
    int n = snprintf(name, BESIDE_PATH_MAX, "%.*s.%.*s.9m-new", dir_n, path, NAME_KEPT_MAX,
                     path + dir_n);

    errno = ENAMETOOLONG;
    return n > 0 && n < BESIDE_PATH_MAX;
}

/* The lock is of one opening of the file: it parts threads, too, as those of
 * fcntl don't. */
static enum turn lock(int fd) {
    if (flock(fd, LOCK_EX | LOCK_NB) == 0)
        return TURN_MINE;
    return errno == EWOULDBLOCK || errno == EINTR ? TURN_LATER : TURN_NONE;
}

/* Another run may have renamed or removed it before it was locked. */
static bool is_there(int fd, const char *name) {
    struct stat open, there;

    return fstat(fd, &open) == 0 && lstat(name, &there) == 0 && S_ISREG(there.st_mode) &&
           open.st_dev == there.st_dev && open.st_ino == there.st_ino;
}

/* Where files can't be locked, that nobody else had the name is enough. */
static enum turn take_new(int fd, const char *name) {
    enum turn turn = lock(fd);

    if (turn == TURN_NONE || (turn == TURN_MINE && is_there(fd, name)))
        return TURN_MINE;
    close(fd);
    return TURN_LATER;
}

/* Who has the lock of the file that bears the name is the only one that may take
 * the name away. */
static enum turn clear_name(const char *name) {
    int how = O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC, fd = open(name, O_RDWR | how);
    enum turn turn;

    if (fd < 0 && errno == EACCES) /* somebody else's; over a network that can't be locked */
        fd = open(name, O_RDONLY | how);
    if (fd < 0)
        return errno == ENOENT ? TURN_LATER : TURN_NONE;
    turn = lock(fd);
    if (turn == TURN_MINE && is_there(fd, name))
        turn = unlink(name) == 0 ? TURN_LATER : TURN_NONE;
    close(fd);
    return turn == TURN_NONE ? TURN_NONE : TURN_LATER;
}

/* Until it is finished only we may read what replaces a file of ours. */
static enum turn try_once(struct beside *b, const struct stat *old) {
    b->fd = open(b->name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, old ? 0600 : 0666);
    if (b->fd >= 0)
        return take_new(b->fd, b->name);
    if (errno != EEXIST)
        return TURN_NONE;
    if (clear_name(b->name) == TURN_LATER)
        return TURN_LATER;
    errno = EBUSY;
    return TURN_NONE;
}

static void hold_signals(sigset_t *before) {
    sigset_t ending;

    sigemptyset(&ending);
    sigaddset(&ending, SIGHUP);
    sigaddset(&ending, SIGINT);
    sigaddset(&ending, SIGQUIT);
    sigaddset(&ending, SIGTERM);
    pthread_sigmask(SIG_BLOCK, &ending, before);
}

static void let_signals(const sigset_t *before) {
    int first = errno;

    pthread_sigmask(SIG_SETMASK, before, NULL);
    errno = first;
}

bool beside_open(struct beside *b, const char *path, const struct stat *old) {
    static const struct timespec moment = {0, TURN_MS * 1000000L};
    enum turn turn;

    if (!name_beside(path, b->name))
        return false;
    hold_signals(&b->before);
    turn = try_once(b, old);
    for (int i = 0; i < TURNS_MAX && turn == TURN_LATER; i++) {
        pselect(0, NULL, NULL, NULL, &moment, &b->before);
        turn = try_once(b, old);
    }
    if (turn == TURN_MINE)
        return true;
    if (turn == TURN_LATER)
        errno = EBUSY;
    let_signals(&b->before);
    return false;
}

/* ---- on the disk -------------------------------------------------------------- */

/* Some file systems can't be asked to; they do what they can. */
static bool synced(int fd) {
    int status;

    do
        status = fsync(fd);
    while (status != 0 && errno == EINTR);
    return status == 0 || errno == EINVAL || errno == ENOSYS || errno == ENOTSUP;
}

/* Root keeps the owner; whoever may write for a group keeps that. */
static void keep_owner(int fd, const struct stat *old) {
    struct stat now;

    if (fstat(fd, &now) == 0 && (now.st_uid != old->st_uid || now.st_gid != old->st_gid) &&
        fchown(fd, old->st_uid, old->st_gid) != 0)
        (void)!fchown(fd, (uid_t)-1, old->st_gid);
}

bool beside_finish(const struct beside *b, const struct stat *old) {
    if (old) {
        keep_owner(b->fd, old);
        if (fchmod(b->fd, old->st_mode & 0777) != 0)
            return false;
    }
    return synced(b->fd);
}

bool beside_take_place(const struct beside *b, const char *path) {
    return rename(b->name, path) == 0;
}

void beside_close(struct beside *b, bool placed) {
    int first = errno;

    if (!placed)
        unlink(b->name);
    close(b->fd);
    errno = first;
    let_signals(&b->before);
}

bool beside_sync_folder(const char *path) {
    char folder[BESIDE_PATH_MAX];
    const char *slash = strrchr(path, '/');
    int fd;
    bool good;

    snprintf(folder, sizeof folder, "%.*s", slash ? (int)(slash - path) + 1 : 1, slash ? path : ".");
    fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0) /* it may be one that we may write and not read */
        return true;
    good = synced(fd);
    close(fd);
    return good;
}
