/* Which names are meant by a word that somebody typed. */
#include "cmd/cmd.h"

enum { SAID_MOST = 10, SLIPS_MOST = 2 };

static bool in_name(struct str name, struct str word) {
    for (size_t at = 0; at + word.n <= name.n; at++)
        if ((at == 0 || name.at[at - 1] == ' ') && str_same(str_part(name, at, word.n), word))
            return true;
    return false;
}

size_t cmd_named(const struct str *names, size_t n, const char *word, bool *meant) {
    size_t found = 0;

    for (int whole = 1; whole >= 0 && !found; whole--)
        for (size_t i = 0; i < n; i++) {
            meant[i] = whole ? str_same(names[i], str_of(word)) : in_name(names[i], str_of(word));
            found += meant[i];
        }
    return found;
}

/* A slip or two from the name, or from a word of it. */
static bool is_near(struct str name, struct str word) {
    size_t from = 0;

    if (word.n <= SLIPS_MOST)
        return false;
    if (str_slips(name, word, SLIPS_MOST) <= SLIPS_MOST)
        return true;
    for (size_t i = 0; i <= name.n; i++)
        if (i == name.n || name.at[i] == ' ') {
            if (str_slips(str_part(name, from, i - from), word, SLIPS_MOST) <= SLIPS_MOST)
                return true;
            from = i + 1;
        }
    return false;
}

/* Those of the names that are wanted, or all. */
static struct str list(const struct str *names, size_t n, const bool *wanted, struct arena *a) {
    size_t said = 0, left = 0;
    struct buf b;

    buf_init(&b, a);
    for (size_t i = 0; i < n; i++) {
        if (wanted && !wanted[i])
            continue;
        if (said == SAID_MOST)
            left++;
        else
            buf_printf(&b, "%s%.*s", said++ ? ", " : "", STR_ARG(names[i]));
    }
    if (left)
        buf_add(&b, STR(" and others"));
    return buf_str(&b);
}

static void say_near(const struct str *names, size_t n, const char *word, bool *near,
                     struct arena *a) {
    size_t near_n = 0;

    for (size_t i = 0; i < n; i++)
        near_n += near[i] = is_near(names[i], str_of(word));
    if (near_n)
        cmd_say("no team \"%s\"; did you mean %.*s?", word, STR_ARG(list(names, n, near, a)));
    else
        cmd_say("no team \"%s\"; there %s %.*s", word, n == 1 ? "is" : "are",
                STR_ARG(list(names, n, NULL, a)));
}

bool cmd_one_team(const struct str *names, size_t n, const char *word, bool *meant,
                  struct arena *a) {
    size_t found = cmd_named(names, n, word, meant);

    if (found > 1)
        cmd_say("\"%s\" stands in the names of %zu teams: %.*s; write more of it", word, found,
                STR_ARG(list(names, n, meant, a)));
    if (found == 0)
        say_near(names, n, word, meant, a);
    return found == 1;
}
