#include "cmd/git.h"

#include <errno.h>
#include <fcntl.h>
#include <spawn.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { CHUNK_BYTES = 16 * 1024, HEAD_BYTES = 256 };

extern char **environ;

static bool failed(const char *name, int error) {
    if (error == ENOENT)
        cmd_say("%s is not installed, or not on the PATH", name);
    else
        cmd_say("%s could not be run: %s", name, strerror(error));
    return false;
}

/* Starts it with its standard input and output at these ends; -1: as they are. Every
 * pipe here is closed in the child by itself (see pipe_open). */
static bool start(const char *const argv[], int in, int out, pid_t *pid) {
    posix_spawn_file_actions_t actions;
    int error = posix_spawn_file_actions_init(&actions);

    if (error)
        return failed(argv[0], error);
    if (in >= 0)
        error = posix_spawn_file_actions_adddup2(&actions, in, STDIN_FILENO);
    if (!error && out >= 0)
        error = posix_spawn_file_actions_adddup2(&actions, out, STDOUT_FILENO);
    /* posix_spawn changes no word of argv; its type is older than const. */
    if (!error)
        error = posix_spawnp(pid, argv[0], &actions, NULL, (char *const *)argv, environ);
    posix_spawn_file_actions_destroy(&actions);
    return error ? failed(argv[0], error) : true;
}

static bool pipe_open(int ends[2]) {
    if (pipe(ends) != 0)
        return failed("git", errno);
    fcntl(ends[0], F_SETFD, FD_CLOEXEC);
    fcntl(ends[1], F_SETFD, FD_CLOEXEC);
    return true;
}

static struct str read_all(int from, struct arena *a) {
    char *chunk = arena_alloc(a, CHUNK_BYTES, 1);
    struct buf b;
    ssize_t n;

    buf_init(&b, a);
    while ((n = read(from, chunk, CHUNK_BYTES)) > 0 || (n < 0 && errno == EINTR))
        if (n > 0)
            buf_add(&b, (struct str){chunk, (size_t)n});
    buf_char(&b, '\0');
    return str_part(buf_str(&b), 0, b.n - 1);
}

static int ended(pid_t pid) {
    int status;

    while (waitpid(pid, &status, 0) < 0)
        if (errno != EINTR)
            return GIT_NOT_RUN;
    if (WIFEXITED(status))
        return WEXITSTATUS(status);
    cmd_say("git was ended by signal %d", WTERMSIG(status));
    return GIT_NOT_RUN;
}

int git_run(const char *const argv[], struct arena *a, struct str *out) {
    int ends[2];
    pid_t pid;
    bool started;

    if (!pipe_open(ends))
        return GIT_NOT_RUN;
    started = start(argv, -1, ends[1], &pid);
    close(ends[1]);
    if (started)
        *out = read_all(ends[0], a);
    close(ends[0]);
    return started ? ended(pid) : GIT_NOT_RUN;
}

/* Both pipes, or none of them. */
static bool pipes_open(int to[2], int from[2]) {
    if (!pipe_open(to))
        return false;
    if (pipe_open(from))
        return true;
    close(to[0]);
    close(to[1]);
    return false;
}

bool git_objects_open(struct git_objects *g) {
    static const char *const argv[] = {"git", "cat-file", "--batch", NULL};
    int to[2], from[2];
    bool started;

    if (!pipes_open(to, from))
        return false;
    started = start(argv, to[0], from[1], &g->pid);
    close(to[0]);
    close(from[1]);
    g->asked = fdopen(to[1], "w");
    g->told = fdopen(from[0], "r");
    if (!g->asked || !g->told)
        cmd_no_memory(CHUNK_BYTES); /* nothing else can be wrong with an open pipe */
    if (started)
        return true;
    fclose(g->asked);
    fclose(g->told);
    return false;
}

/* At the end of its input it ends. */
void git_objects_close(struct git_objects *g) {
    fclose(g->asked);
    fclose(g->told);
    (void)ended(g->pid);
}

/* It answers "NAME TYPE SIZE", a line feed, the bytes and a line feed; or "NAME
 * missing" (git-cat-file(1), BATCH OUTPUT). */
bool git_object(struct git_objects *g, struct str name, struct arena *a, struct str *bytes) {
    char head[HEAD_BYTES];
    size_t size;
    char *at;

    fprintf(g->asked, "%.*s\n", STR_ARG(name));
    if (fflush(g->asked) != 0 || !fgets(head, sizeof head, g->told) ||
        sscanf(head, "%*s blob %zu", &size) != 1)
        return false;
    at = arena_alloc(a, size + 1, 1);
    if (fread(at, 1, size + 1, g->told) != size + 1)
        return false;
    *bytes = (struct str){at, size};
    return true;
}
