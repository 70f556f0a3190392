#include "cmd/source.h"

#include <sha256.h>
#include <string.h>
#include <sys/stat.h>

enum { HASH_DIGITS = 12 };

struct str cmd_base_name(const char *path) {
    const char *slash = strrchr(path, '/');

    if (strcmp(path, "-") == 0)
        return STR("standard input");
    return str_of(slash ? slash + 1 : path);
}

struct str cmd_without_ending(struct str path) {
    return str_ends(path, STR(".9m")) ? str_part(path, 0, path.n - 3) : path;
}

bool cmd_same_file(const char *a, const char *b) {
    struct stat sa, sb;

    return stat(a, &sa) == 0 && stat(b, &sb) == 0 && sa.st_dev == sb.st_dev &&
           sa.st_ino == sb.st_ino;
}

struct str cmd_sum(const struct text *t, struct arena *a) {
    SHA256_CTX context;
    char digits[SHA256_DIGEST_STRING_LENGTH];

    SHA256_Init(&context);
    if (t->bom)
        SHA256_Update(&context, (const uint8_t *)"\xEF\xBB\xBF", 3);
    SHA256_Update(&context, (const uint8_t *)t->bytes.at, t->bytes.n);
    SHA256_End(&context, digits);
    return str_copy(a, str_of(digits));
}

/* ---- letters ---------------------------------------------------------------- */

/* The line of the notes that begins with one of the words. */
static unsigned line_of(const struct text *t, const char *word, const char *or_word) {
    unsigned number = 0;
    struct str line;

    for (size_t at = 0; at <= t->bytes.n; at += line.n + 1) {
        struct str first;

        number++;
        line = text_line_at(t, at);
        first = str_trim(line);
        if (str_starts(first, str_of(word)) || (or_word && str_starts(first, str_of(or_word))))
            return number;
    }
    return 0;
}

static bool covered(const struct cmd_source *s, struct cmd_press *press, struct str words,
                    struct str file, unsigned line) {
    struct str place = line ? str_printf(s->arena, "%.*s:%u", STR_ARG(file), line) : file;

    return cmd_press_covers(press, words, place);
}

bool cmd_source_covers(const struct cmd_source *s, struct cmd_press *press, struct str words,
                       unsigned line) {
    return covered(s, press, words, s->text.name, line);
}

/* Pages name those who served or practised, and whoever has a focus. */
static bool is_named(const struct checked *c, enum side side, unsigned shirt) {
    for (size_t i = 0; i < c->played_n; i++)
        if (c->played[i].side == side &&
            (c->played[i].server == shirt || c->played[i].charged == shirt))
            return true;
    for (size_t i = 0; i < c->tries_n; i++)
        if (c->tries[i].side == side && c->tries[i].shirt == shirt)
            return true;
    for (size_t i = 0; i < c->match->focus_n; i++)
        if (c->match->focuses[i].side == side && c->match->focuses[i].shirt == shirt)
            return true;
    return false;
}

static bool team_covered(const struct cmd_source *s, struct cmd_press *press, bool no_names,
                         enum side side) {
    const struct team *t = &s->checked->match->teams[side];
    bool good = covered(s, press, t->name, t->place.file, t->place.line);

    for (size_t i = 0; i < t->player_n && !no_names; i++)
        good &= !is_named(s->checked, side, t->players[i].shirt) ||
                covered(s, press, t->players[i].name, t->players[i].place.file,
                        t->players[i].place.line);
    return good;
}

bool cmd_source_covered(const struct cmd_source *s, struct cmd_press *press, bool no_names) {
    const struct match *match = s->checked->match;
    struct str file = s->text.name;
    bool good = covered(s, press, cmd_base_name(s->path), str_of(s->path), 0);

    good &= covered(s, press, match->title, file, line_of(&s->text, "match", "practice"));
    good &= covered(s, press, match->venue, file, line_of(&s->text, "venue", NULL));
    for (unsigned i = 0; i < match->team_n; i++)
        good &= team_covered(s, press, no_names, (enum side)i);
    for (size_t i = 0; i < s->checked->drill_n; i++)
        good &= covered(s, press, s->checked->drills[i].name, file, s->checked->drills[i].line);
    return good;
}

/* ---- reading ----------------------------------------------------------------- */

struct page_facts cmd_source_facts(const struct cmd_source *s) {
    return (struct page_facts){
        .file = cmd_base_name(s->path),
        .hash = str_part(cmd_sum(&s->text, s->arena), 0, HASH_DIGITS),
        .version = str_of(NINEMETRE_VERSION),
        .errors = s->diags.errors,
        .warnings = s->diags.warnings,
        .reviews = s->diags.reviews,
    };
}

static void tell(struct cmd_source *s, const struct cmd_run *run, const char *then) {
    struct cmd_show how;

    cmd_show_init(&how, stderr, run->color_err);
    cmd_show(&how, &s->diags);
    if (s->diags.errors + s->diags.warnings > 0)
        cmd_show_summary(&how, s->text.name, &s->diags, s->checked, then);
}

/* Figures come from notes without errors, or are asked for all the same. */
bool cmd_source_read(struct cmd_source *s, const struct cmd_run *run, bool partial_data,
                     const char *not_made, enum cmd_status *status) {
    bool stop;

    diags_init(&s->diags, s->arena);
    *status = CMD_FAILED;
    if (!cmd_read(&s->text, s->path, s->arena, &s->diags))
        return false;
    s->checked = check_text(&s->text, CHECK_KEEP, s->arena, &s->diags);
    stop = s->diags.errors > 0 && !partial_data;
    tell(s, run, stop ? not_made : NULL);
    *status = s->diags.errors ? CMD_FINDINGS : CMD_CLEAN;
    return !stop;
}
