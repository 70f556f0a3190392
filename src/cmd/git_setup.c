#include "cmd/git_setup.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>

void setup_did(struct setup *s, const char *format, ...) {
    struct buf b;
    va_list args;

    buf_init(&b, s->arena);
    va_start(args, format);
    cmd_safe(&b, str_vprintf(s->arena, format, args), 0);
    va_end(args);
    printf("%.*s\n", STR_ARG(buf_str(&b)));
    s->did = true;
}

void setup_failed(struct setup *s, const char *what) {
    cmd_say("%s: %s", what, errno ? strerror(errno) : "failed");
    s->status = CMD_FAILED;
}

const char *setup_path(struct setup *s, const char *name) {
    return str_printf(s->arena, "%s/%s", s->top, name).at;
}

bool setup_read(struct setup *s, const char *path, struct str *bytes) {
    struct diags dropped; /* it is no file of notes */
    struct text t;

    diags_init(&dropped, s->arena);
    errno = 0;
    if (text_read_ordinary(&t, path, s->arena, &dropped) == TEXT_READ) {
        *bytes = cmd_with_bom(&t, t.bytes, s->arena);
        return true;
    }
    *bytes = STR_NONE;
    if (errno != ENOENT)
        setup_failed(s, path);
    return false;
}

bool setup_holds(struct str text, const char *words) {
    struct str line;

    while (str_take_line(&text, &line)) {
        line = str_trim(line);
        for (size_t i = 0; i < line.n && line.at[0] != '#'; i++)
            if (str_starts(str_part(line, i, line.n), str_of(words)))
                return true;
    }
    return false;
}

/* The folder that is to hold the file, and those that hold it. */
static bool make_folder(struct setup *s, const char *path) {
    const char *folder = cmd_folder(s->arena, path);

    if (mkdir(folder, 0777) == 0 || errno == EEXIST)
        return true;
    if (errno == ENOENT && make_folder(s, folder))
        return mkdir(folder, 0777) == 0;
    setup_failed(s, folder);
    return false;
}

static bool write_file(struct setup *s, const char *path, struct str bytes) {
    if (make_folder(s, path) && cmd_write(path, bytes))
        return true;
    s->status = CMD_FAILED;
    return false;
}

/* Who may read it may run it. */
bool setup_write_program(struct setup *s, const char *path, struct str bytes) {
    struct stat st;

    if (!write_file(s, path, bytes))
        return false;
    if (stat(path, &st) == 0 && chmod(path, st.st_mode | (st.st_mode & 0444) >> 2) == 0)
        return true;
    setup_failed(s, path);
    return false;
}

static bool is_among(struct str line, const char *const *lines) {
    for (; *lines; lines++)
        if (str_is(line, *lines))
            return true;
    return false;
}

/* The text without those lines; every line of it ends. */
static void add_others(struct buf *b, struct str text, const char *const *lines) {
    struct str line;

    while (str_take_line(&text, &line)) {
        if (is_among(str_trim(line), lines))
            continue;
        buf_add(b, line);
        buf_char(b, '\n');
    }
}

bool setup_add_lines(struct setup *s, const char *path, const char *const *lines) {
    struct str old;
    struct buf b;

    buf_init(&b, s->arena);
    setup_read(s, path, &old);
    if (s->status == CMD_FAILED)
        return false;
    add_others(&b, old, lines);
    for (const char *const *line = lines; *line; line++)
        buf_printf(&b, "%s\n", *line);
    return !str_eq(buf_str(&b), old) && write_file(s, path, buf_str(&b));
}

bool setup_remove_lines(struct setup *s, const char *path, const char *const *lines) {
    struct str old;
    struct buf b;

    buf_init(&b, s->arena);
    if (!setup_read(s, path, &old))
        return false;
    add_others(&b, old, lines);
    if (b.n >= old.n) /* a last line may have got its end */
        return false;
    if (b.n)
        return write_file(s, path, buf_str(&b));
    if (remove(path) == 0)
        return true;
    setup_failed(s, path);
    return false;
}
