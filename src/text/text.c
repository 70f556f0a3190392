/* Reading files, and views of their lines. */
#include "text.h"

#include <errno.h>
#include <fcntl.h>
#include <stdint.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "text/survey.h"

enum { FILE_MAX_BYTES = TEXT_FILE_MAX_MIB << 20, PIPE_CHUNK = 64 * 1024 };

static struct str without_bom(struct text *t, struct str bytes) {
    t->bom = str_starts(bytes, STR("\xEF\xBB\xBF"));
    return t->bom ? str_part(bytes, 3, bytes.n) : bytes;
}

static enum text_status read_all(int file, char *at, size_t wanted, size_t *got) {
    *got = 0;
    while (*got < wanted) {
        ssize_t n = read(file, at + *got, wanted - *got);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return TEXT_UNREADABLE;
        if (n == 0)
            break;
        *got += (size_t)n;
    }
    return TEXT_READ;
}

/* A copy with the NULs behind it that the lexer asks for. */
static struct str padded(struct arena *a, struct str bytes) {
    char *at = arena_alloc(a, bytes.n + TEXT_PADDING, 1);
    if (bytes.n)
        memcpy(at, bytes.at, bytes.n);
    return (struct str){at, bytes.n};
}

/* A pipe has no size: read until it ends. */
static enum text_status read_pipe(int file, struct arena *a, struct str *bytes) {
    struct buf b;
    char *chunk = arena_alloc(a, PIPE_CHUNK, 1);
    buf_init(&b, a);
    for (;;) {
        size_t got;
        enum text_status status = read_all(file, chunk, PIPE_CHUNK, &got);
        if (status != TEXT_READ)
            return status;
        buf_add(&b, (struct str){chunk, got});
        if (b.n > FILE_MAX_BYTES)
            return TEXT_TOO_LARGE;
        if (got < PIPE_CHUNK)
            break;
    }
    *bytes = padded(a, buf_str(&b));
    return TEXT_READ;
}

static enum text_status read_file(int file, bool ordinary, struct arena *a, struct str *bytes) {
    struct stat info;
    if (fstat(file, &info) != 0)
        return TEXT_UNREADABLE;
    if (S_ISDIR(info.st_mode)) {
        errno = EISDIR;
        return TEXT_UNREADABLE;
    }
    if (!S_ISREG(info.st_mode) && ordinary) {
        errno = EINVAL;
        return TEXT_UNREADABLE;
    }
    if (!S_ISREG(info.st_mode))
        return read_pipe(file, a, bytes);
    if (info.st_size > FILE_MAX_BYTES)
        return TEXT_TOO_LARGE;
    size_t size = (size_t)info.st_size;
    char *at = arena_alloc(a, size + TEXT_PADDING, 1);
    *bytes = (struct str){at, 0};
    return read_all(file, at, size, &bytes->n);
}

static enum text_status read_opened(struct text *t, int file, bool ordinary, struct arena *a,
                                    struct diags *d) {
    struct str bytes = STR_NONE;
    enum text_status status = read_file(file, ordinary, a, &bytes);
    if (status != TEXT_READ)
        return status;
    t->bytes = without_bom(t, bytes);
    text_survey(t, a, d);
    return TEXT_READ;
}

static enum text_status read_path(struct text *t, const char *path, bool ordinary,
                                  struct arena *a, struct diags *d) {
    int flags = O_RDONLY | O_CLOEXEC | O_NOCTTY | (ordinary ? O_NONBLOCK : 0);
    *t = (struct text){.name = str_copy(a, str_of(path))};
    int file = open(path, flags);
    if (file < 0)
        return TEXT_MISSING;
    enum text_status status = read_opened(t, file, ordinary, a, d);
    int why = errno;
    close(file);
    errno = why;
    return status;
}

enum text_status text_read(struct text *t, const char *path, struct arena *a, struct diags *d) {
    if (strcmp(path, "-") != 0)
        return read_path(t, path, false, a, d);
    *t = (struct text){.name = STR("standard input")};
    return read_opened(t, STDIN_FILENO, false, a, d);
}

enum text_status text_read_ordinary(struct text *t, const char *path, struct arena *a,
                                    struct diags *d) {
    return read_path(t, path, true, a, d);
}

void text_take(struct text *t, struct str name, struct str bytes, struct arena *a,
               struct diags *d) {
    *t = (struct text){.name = name};
    t->bytes = without_bom(t, padded(a, bytes));
    text_survey(t, a, d);
}

struct str text_line_at(const struct text *t, size_t at) {
    const char *first = t->bytes.at + at, *end = t->bytes.at + t->bytes.n;
    while (first > t->bytes.at && first[-1] != '\n')
        first--;
    const char *last = memchr(t->bytes.at + at, '\n', (size_t)(end - (t->bytes.at + at)));
    if (!last)
        last = end;
    if (last > first && last[-1] == '\r')
        last--;
    return (struct str){first, (size_t)(last - first)};
}

struct place text_place(const struct text *t, unsigned number, size_t at, size_t n) {
    struct str line = text_line_at(t, at);
    size_t from = (size_t)(t->bytes.at + at - line.at);
    if (from > line.n)
        from = line.n;
    return (struct place){.file = t->name, .text = line, .line = number, .at = (unsigned)from,
                          .n = (unsigned)n};
}

struct str text_line(const struct text *t, unsigned number) {
    const char *at = t->bytes.at, *end = t->bytes.at + t->bytes.n;
    for (unsigned line = 1; line < number; line++) {
        const char *newline = memchr(at, '\n', (size_t)(end - at));
        if (!newline)
            return (struct str){end, 0};
        at = newline + 1;
    }
    return text_line_at(t, (size_t)(at - t->bytes.at));
}
