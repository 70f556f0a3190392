/* The lines of a new practice: a block for each drill of a focus. */
#include <ctype.h>
#include <string.h>

#include "cmd/new.h"
#include "drill.h"
#include "progress.h"

/* One player's focus. */
struct work {
    const struct person *who;
    struct progress_focus focus;
    bool written;
};

struct plan {
    const struct new_file *n;
    struct progress *progress;
    struct drill_book drills;
    struct work *at;
    size_t count;
    bool jumps;
};

static void take(void *into, const struct checked *c, struct str name, struct arena *a) {
    (void)name;
    (void)a;
    progress_add(into, c);
}

/* Reads what lies in the squad's folder. */
static enum cmd_status gather(struct plan *p) {
    struct arena *a = p->n->arena;
    const char *slash = strrchr(p->n->squad, '/');
    size_t n = slash ? (size_t)(slash - p->n->squad) : 0;
    char *folder = (char *)str_c(a, n > 0 ? (struct str){p->n->squad, n} : STR("."));
    struct cmd_run here = *p->n->run;
    struct cmd_paths paths = {.arena = a};
    struct cmd_many many = {.run = &here, .partial_data = true, .into = p->progress, .take = take};
    enum cmd_status status = cmd_drills(&p->drills, folder, here.color_err);

    here.operands = &folder;
    here.operand_n = 1;
    many.found = cmd_find(&paths, &here);
    return cmd_worse(status, cmd_each_file(&many, &paths));
}

/* Whose focus it is: players of the squad, by shirt. */
static void collect(struct plan *p) {
    struct str team = p->n->ours->match->teams[OURS].name;
    size_t n = progress_people(p->progress);

    p->at = arena_alloc(p->n->arena, n + 1, sizeof *p->at);
    for (size_t i = 0; i < n; i++) {
        struct work w = {.who = progress_person(p->progress, i)};
        size_t k = p->count;

        if (!str_eq(w.who->team, team) || !progress_focus(p->progress, i, &w.focus))
            continue;
        for (; k > 0 && p->at[k - 1].who->shirt > w.who->shirt; k--)
            p->at[k] = p->at[k - 1];
        p->at[k] = w;
        p->count++;
    }
}

/* ---- one drill ------------------------------------------------------------------ */

static bool is_word(struct str line, const char *word) {
    size_t n = strlen(word);

    return line.n > n && memcmp(line.at, word, n) == 0 && line.at[n] == ' ';
}

/* Lines that open the drill or say what is looked at hold for everybody. */
static bool for_all(struct str line) {
    return is_word(line, "drill") || is_word(line, "observe") || is_word(line, "ring");
}

/* An example's line for one player: her shirt for 7, blanks for the hits. A
 * remark behind it, and what the misses were, are left out. */
static void add_line(struct buf *b, struct str line, unsigned shirt) {
    buf_add(b, STR("# "));
    for (size_t i = 0, from; i < line.n && line.at[i] != '#'; i++) {
        for (from = i; i < line.n && line.at[i] != ' '; i++)
            ;
        struct str word = str_part(line, from, i - from);
        const char *slash = memchr(word.at, '/', word.n);
        if (word.n == 0)
            continue;
        if (b->at[b->n - 1] != ' ')
            buf_char(b, ' ');
        if (str_is(word, "7")) {
            buf_printf(b, "%u", shirt);
        } else if (slash && isdigit((unsigned char)word.at[0])) {
            buf_char(b, '_');
            buf_add(b, str_part(word, (size_t)(slash - word.at), word.n));
            break;
        } else if (word.at[0] == 'x' && word.n > 1 && isdigit((unsigned char)word.at[1])) {
            buf_add(b, STR("x_"));
        } else {
            buf_add(b, word);
        }
    }
    buf_char(b, '\n');
}

/* Calls `add` for each line of the recipe's notes that is, or is not, for all. */
static void add_lines(struct buf *b, struct str score, bool all, unsigned shirt) {
    for (size_t at = 0; at < score.n;) {
        const char *end = memchr(score.at + at, '\n', score.n - at);
        size_t n = end ? (size_t)(end - score.at) - at : score.n - at;
        struct str line = str_trim(str_part(score, at, n));

        at += n + 1;
        if (line.n == 0 || for_all(line) != all)
            continue;
        if (!all)
            add_line(b, line, shirt);
        else
            buf_printf(b, "%.*s\n", STR_ARG(line));
    }
}

/* "# 7 Mira Havelin: td, goal 14/20, so far 26/40 since 2026-10-06" */
static void add_player(struct buf *b, const struct work *w) {
    const struct progress_focus *f = &w->focus;
    struct str treats = word_info(f->treats)->word;

    buf_printf(b, "# %u", w->who->shirt);
    if (w->who->name.n > 0)
        buf_printf(b, " %.*s", STR_ARG(w->who->name));
    buf_printf(b, ": %.*s", STR_ARG(treats));
    if (f->goal.n > 0)
        buf_printf(b, ", goal %u/%u", f->goal.x, f->goal.n);
    if (f->drilled.after.n > 0)
        buf_printf(b, ", so far %u/%u", f->drilled.after.x, f->drilled.after.n);
    buf_printf(b, " since %04d-%02d-%02d\n", f->since.year, f->since.month, f->since.day);
}

static void add_drill(struct plan *p, struct buf *b, struct str name) {
    const struct drill_recipe *r = drill_find(&p->drills, name);

    buf_printf(b, "\n");
    if (r)
        add_lines(b, r->score, true, 0);
    else
        buf_printf(b, "drill \"%.*s\"\n", STR_ARG(name));
    p->jumps = p->jumps || (r && r->jumps != DRILL_JUMPS_NO);
    for (size_t i = 0; i < p->count; i++) {
        struct work *w = &p->at[i];

        if (w->written || !str_same(w->focus.drill, name))
            continue;
        w->written = true;
        add_player(b, w);
        if (r)
            add_lines(b, r->score, false, w->who->shirt);
        else
            buf_printf(b, "# tries %u _/10\n", w->who->shirt);
    }
}

static bool has_focus(const struct plan *p, unsigned shirt) {
    for (size_t i = 0; i < p->count; i++)
        if (p->at[i].who->shirt == shirt)
            return true;
    return false;
}

static void add_others(const struct plan *p, struct buf *b) {
    const struct team *t = &p->n->ours->match->teams[OURS];
    const char *join = "\n# Without a focus:";

    for (size_t i = 0; i < t->player_n; i++)
        if (!has_focus(p, t->players[i].shirt)) {
            buf_printf(b, "%s %u", join, t->players[i].shirt);
            if (t->players[i].name.n > 0)
                buf_printf(b, " %.*s", STR_ARG(t->players[i].name));
            join = ",";
        }
    if (join[0] == ',')
        buf_char(b, '\n');
}

enum cmd_status new_practice(const struct new_file *n, struct buf *b) {
    struct plan p = {.n = n};
    enum cmd_status status;

    if (!n->ours) {
        buf_add(b, STR("\n# drill \"Ring toss\": opens a series; see 9m explain drills\n"));
        return CMD_CLEAN;
    }
    p.progress = progress_new(n->arena);
    drill_book_init(&p.drills, n->arena);
    status = gather(&p);
    collect(&p);
    for (size_t i = 0; i < p.count; i++)
        if (!p.at[i].written)
            add_drill(&p, b, p.at[i].focus.drill);
    add_others(&p, b);
    if (p.jumps)
        buf_printf(b, "\n# %s\n# Jump serves not written one by one: jumps SHIRT COUNT\n",
                   drill_jump_caution());
    return status;
}
