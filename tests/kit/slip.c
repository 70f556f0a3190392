#include "kit/slip.h"

#include <stdio.h>
#include <string.h>

/* A serve line in three: server, what stands up to the outcome, the rest. */
struct parts {
    struct str server, before, outcome, rest;
};

static bool is_outcome(struct str w) {
    static const char *const words[] = {"ace", "in3", "in2", "in1", "play", "over", "net", "long"};

    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (str_is(w, words[i]))
            return true;
    return false;
}

static bool is_server(struct str w) {
    size_t i = w.n > 0 && w.at[0] >= 'A' && w.at[0] <= 'Z';

    if (str_is(w, "."))
        return true;
    for (; i < w.n; i++)
        if (w.at[i] < '0' || w.at[i] > '9')
            return false;
    return w.n > 0;
}

static size_t word_end(struct str s, size_t at) {
    while (at < s.n && s.at[at] != ' ')
        at++;
    return at;
}

static bool parts_of(struct parts *p, struct str line) {
    size_t end = word_end(line, 0);

    p->server = str_part(line, 0, end);
    if (!is_server(p->server) || memchr(line.at, '#', line.n))
        return false;
    for (size_t at = end + 1; at < line.n; at = end + 1) {
        end = word_end(line, at);
        if (is_outcome(str_part(line, at, end - at))) {
            p->before = str_part(line, p->server.n, at - p->server.n);
            p->outcome = str_part(line, at, end - at);
            p->rest = str_part(line, end, line.n);
            return true;
        }
    }
    return false;
}

static void put(struct buf *out, const struct parts *p, struct str outcome) {
    buf_add(out, p->server);
    buf_add(out, p->before);
    buf_add(out, outcome);
    buf_add(out, p->rest);
}

/* The second letter doubled, or left out: no other word of the notation. */
static void letter_put(struct buf *out, const struct parts *p, bool doubled) {
    struct str head = str_part(p->outcome, 0, doubled ? 2 : 1);

    buf_add(out, p->server);
    buf_add(out, p->before);
    buf_add(out, head);
    put(out, &(struct parts){.rest = p->rest}, str_part(p->outcome, doubled ? 1 : 2, 8));
}

static bool has_served(struct str above, unsigned shirt) {
    char head[8];

    snprintf(head, sizeof head, "\n%u ", shirt);
    for (size_t i = 0; i < above.n; i++)
        if (str_starts(str_part(above, i, above.n), str_of(head)))
            return true;
    return false;
}

/* Another unknown shirt for each slip: the same one again would be one slip, in
 * the squad. Generated squads end at 24. */
static void shirt_put(struct buf *out, const struct parts *p) {
    unsigned shirt = 60;

    while (has_served(buf_str(out), shirt))
        shirt++;
    buf_printf(out, "%u", shirt);
    put(out, &(struct parts){STR_NONE, p->before, STR_NONE, p->rest}, p->outcome);
}

static bool slip_put(struct buf *out, const struct parts *p, enum slip kind) {
    bool ours = p->server.at[0] != '.' && p->server.at[0] <= '9';

    switch (kind) {
    case SLIP_LETTER_DOUBLED:
        letter_put(out, p, true);
        return true;
    case SLIP_LETTER_LOST:
        letter_put(out, p, false);
        return true;
    case SLIP_NO_OUTCOME:
        buf_add(out, p->server);
        return true;
    case SLIP_NO_BLANK:
        put(out, &(struct parts){p->server, str_part(p->before, 1, p->before.n), STR_NONE,
                                 p->rest}, p->outcome);
        return true;
    case SLIP_OUTCOME_TWICE:
        put(out, &(struct parts){p->server, p->before, STR_NONE, STR_NONE}, p->outcome);
        put(out, &(struct parts){STR_NONE, STR(" "), STR_NONE, p->rest}, p->outcome);
        return true;
    case SLIP_NO_BREAK_SPACE:
        buf_add(out, p->server);
        buf_add(out, STR("\xC2\xA0"));
        put(out, &(struct parts){STR_NONE, str_part(p->before, 1, p->before.n), STR_NONE,
                                 p->rest}, p->outcome);
        return true;
    case SLIP_UNKNOWN_SHIRT:
        if (ours)
            shirt_put(out, p);
        return ours;
    case SLIP_COMMA:
        buf_add(out, p->server);
        buf_char(out, ',');
        put(out, &(struct parts){STR_NONE, p->before, STR_NONE, p->rest}, p->outcome);
        return true;
    case SLIP_KINDS:
        break;
    }
    return false;
}

bool slip_line(struct buf *out, struct str line, enum slip kind) {
    struct parts p;

    return parts_of(&p, line) && slip_put(out, &p, kind);
}

struct str slip_notes(struct str notes, unsigned apart, struct dice *d, struct arena *a,
                      unsigned *n) {
    unsigned since = 0;
    struct buf out;

    *n = 0;
    buf_init(&out, a);
    for (size_t i = 0; i < notes.n;) {
        const char *newline = memchr(notes.at + i, '\n', notes.n - i);
        size_t length = newline ? (size_t)(newline - notes.at) - i : notes.n - i;
        struct str line = str_part(notes, i, length);
        bool slipped = since >= apart && dice_in(d, 300) &&
                       slip_line(&out, line, (enum slip)dice_below(d, SLIP_KINDS));
        if (!slipped)
            buf_add(&out, line);
        *n += slipped;
        since = slipped ? 0 : since + 1;
        buf_char(&out, '\n');
        i += length + 1;
    }
    return buf_str(&out);
}
