#include "kit/program.h"

#include <dirent.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static char top[PATH_MAX / 4], folder[64], program[PATH_MAX / 2];

static void give_up(const char *what) {
    perror(what);
    printf("Bail out! %s\n", what);
    exit(3);
}

const char *program_begin(void) {
    const char *named = getenv("NINEMETRE"), *build = getenv("BUILD");

    if (!getcwd(top, sizeof top))
        give_up("getcwd");
    if (named)
        snprintf(program, sizeof program, "%s", named);
    else
        snprintf(program, sizeof program, "%s/%s/9m", top, build ? build : "build");
    /* In memory, where there is such a folder: a disk takes its time to sync. */
    strcpy(folder, "/dev/shm/9m-test-XXXXXX");
    if (!mkdtemp(folder)) {
        strcpy(folder, "/tmp/9m-test-XXXXXX");
        if (!mkdtemp(folder))
            give_up(folder);
    }
    if (chdir(folder) != 0)
        give_up(folder);
    return folder;
}

static void remove_all(const char *path) {
    DIR *d = opendir(path);
    struct dirent *e;

    while (d && (e = readdir(d))) {
        char name[PATH_MAX];
        struct stat info;

        if (strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0)
            continue;
        snprintf(name, sizeof name, "%s/%s", path, e->d_name);
        if (lstat(name, &info) == 0 && S_ISDIR(info.st_mode))
            remove_all(name);
        else
            unlink(name);
    }
    if (d)
        closedir(d);
    rmdir(path);
}

void program_end(void) {
    if (chdir(top) == 0)
        remove_all(folder);
}

const char *program_source(const char *path) {
    static char whole[PATH_MAX];

    snprintf(whole, sizeof whole, "%s%s%s", path[0] == '/' ? "" : top, path[0] == '/' ? "" : "/", path);
    return whole;
}

static void into(const char *path, int fd) {
    int file = open(path, O_WRONLY | O_CREAT | O_TRUNC, 0666);

    if (file < 0 || dup2(file, fd) < 0)
        _exit(126);
    close(file);
}

pid_t program_start(const char *const *arguments, const char *const *environment, int extra) {
    char *argv[16] = {program};
    pid_t pid;

    for (size_t i = 0; arguments[i]; i++)
        argv[i + 1] = (char *)arguments[i];
    fflush(stdout);
    pid = fork();
    if (pid < 0)
        give_up("fork");
    if (pid > 0)
        return pid;
    into("out", STDOUT_FILENO);
    into("said", STDERR_FILENO);
    if (extra >= 0)
        fcntl(extra, F_SETFD, 0);
    for (size_t i = 0; environment && environment[i]; i += 2)
        setenv(environment[i], environment[i + 1], 1);
    execv(program, argv);
    _exit(127);
}

int program_wait(pid_t pid) {
    int status;

    if (waitpid(pid, &status, 0) != pid)
        give_up("waitpid");
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

struct bytes bytes_read(const char *path) {
    struct bytes b = {NULL, 0};
    FILE *f = fopen(path, "rb");
    struct stat info;

    if (!f)
        return b;
    if (fstat(fileno(f), &info) != 0)
        give_up(path);
    b.at = malloc((size_t)info.st_size + 1);
    b.n = fread(b.at, 1, (size_t)info.st_size, f);
    fclose(f);
    return b;
}

void bytes_write(const char *path, struct bytes b) {
    FILE *f = b.at ? fopen(path, "wb") : NULL;

    if (!b.at)
        unlink(path);
    else if (!f || fwrite(b.at, 1, b.n, f) != b.n || fclose(f) != 0)
        give_up(path);
}

bool bytes_same(struct bytes a, struct bytes b) {
    return !a.at == !b.at && a.n == b.n && (!a.n || memcmp(a.at, b.at, a.n) == 0);
}

unsigned hidden_beside(const char *path) {
    const char *slash = strrchr(path, '/');
    char name[PATH_MAX];
    struct dirent *e;
    unsigned n = 0;
    DIR *d;

    snprintf(name, sizeof name, "%.*s", slash ? (int)(slash - path) : 1, slash ? path : ".");
    d = opendir(name);

    while (d && (e = readdir(d)))
        n += e->d_name[0] == '.' && strcmp(e->d_name, ".") != 0 && strcmp(e->d_name, "..") != 0;
    if (d)
        closedir(d);
    return n;
}
