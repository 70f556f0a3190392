/* Reads and checks files with a crew, and hands them on in their order. Each is
 * forgotten with the few that its thread had in hand, so that a tree of any size
 * takes no more memory than what is made of it. */
#include "cmd/crew.h"

enum { ACROSS_SHOWN_MAX = 20 }; /* where something else was asked for */

/* A file that waits for its turn. */
struct held {
    const struct checked *checked;
    const struct text *text;
    const struct diags *diags;
};

/* What the threads share. It is of the one whose turn it is. */
struct round {
    struct crew crew;
    struct cmd_many *many;
    struct cmd_show show;
    struct across *across;
    enum cmd_status status;
};

struct reader {
    struct round *round;
    struct arena *arena; /* of the files in hand */
    struct squads *squads;
    bool wanted; /* the file that is being read */
    struct held held[CREW_FILES_AT_ONCE];
    size_t held_n;
};

/* ---- one file ------------------------------------------------------------------ */

static void tell_errors(struct crew_member *m, const struct text *t, struct diags *d,
                        const struct checked *c) {
    struct round *all = ((struct reader *)m->own)->round;

    crew_turn(m);
    cmd_show(&all->show, d);
    cmd_show_summary(&all->show, t->name, d, c, NULL);
    all->status = cmd_worse(all->status, CMD_FINDINGS);
    all->many->left_out = true;
}

static bool wants(void *reader, const struct match *head) {
    struct reader *r = reader;
    struct cmd_many *many = r->round->many;
    pthread_mutex_t *lock = &r->round->crew.sharing.lock;

    pthread_mutex_lock(lock);
    r->wanted = !many->wants || many->wants(many->into, head);
    pthread_mutex_unlock(lock);
    return r->wanted;
}

static void check_one(struct crew_member *m, const struct text *t, struct diags *d) {
    struct reader *r = m->own;
    struct check_chooser chooser = {wants, r};
    const struct checked *c = check_text_if(&chooser, t, r->squads, r->arena, d);

    if (d->errors)
        tell_errors(m, t, d, c);
    if (r->wanted)
        r->held[r->held_n++] = (struct held){c, t, d};
}

static void read_one(struct crew_member *m, const char *path) {
    struct reader *r = m->own;
    struct text *t = arena_alloc(r->arena, 1, sizeof *t);
    struct diags *d = arena_alloc(r->arena, 1, sizeof *d);

    if (crew_text(m, t, path, r->arena, d)) {
        check_one(m, t, d);
    } else {
        r->round->status = CMD_FAILED;
        r->round->many->left_out = true;
    }
}

/* ---- those in hand --------------------------------------------------------------- */

/* Where nothing will be made of them, the rest is only checked. */
static void take(struct round *all, const struct held *h, struct arena *a) {
    struct cmd_many *many = all->many;

    many->left_out = many->left_out || h->checked->incomplete;
    many->warnings = h->diags->warnings;
    across_add(all->across, h->text, h->checked, h->diags);
    if (all->status == CMD_CLEAN || many->partial_data)
        many->take(many->into, h->checked, h->text->name, a);
}

static void take_held(struct crew_member *m) {
    struct reader *r = m->own;

    if (r->held_n)
        crew_turn(m);
    for (size_t i = 0; i < r->held_n; i++)
        take(r->round, &r->held[i], r->arena);
    r->held_n = 0;
    arena_reset(r->arena);
    squads_tidy(r->squads);
}

/* ---- the whole ------------------------------------------------------------------- */

static struct reader *readers_new(struct round *all, struct arena *a) {
    struct reader *r = arena_alloc(a, all->crew.n, sizeof *r);

    for (unsigned i = 0; i < all->crew.n; i++) {
        r[i].round = all;
        r[i].arena = arena_new(cmd_no_memory);
        r[i].squads = squads_new(cmd_no_memory);
        all->crew.members[i].own = &r[i];
    }
    return r;
}

static void readers_free(struct reader *r, unsigned n) {
    for (unsigned i = 0; i < n; i++) {
        arena_free(r[i].arena);
        squads_free(r[i].squads);
    }
}

void cmd_tell_across(struct cmd_show *how, struct across *x, bool all, struct arena *a) {
    struct cmd_show few = *how;
    struct diags d;
    size_t n = 0;

    diags_init(&d, a);
    across_judge(x, &d);
    for (size_t i = 0; i < d.n; i++)
        if (all || d.at[i].id == W_TWICE)
            d.at[n++] = d.at[i];
    d.warnings = (unsigned)n;
    d.n = n;
    few.left = ACROSS_SHOWN_MAX;
    cmd_show(&few, &d);
    if (few.omitted > how->omitted)
        cmd_say("and %zu more such warnings; 9m check shows them", few.omitted - how->omitted);
}

enum cmd_status cmd_each_file(struct cmd_many *m, const struct cmd_paths *paths) {
    struct round all = {.many = m, .status = m->found};
    struct arena *a = arena_new(cmd_no_memory);
    struct reader *readers;

    m->left_out = m->found != CMD_CLEAN;
    cmd_show_init(&all.show, stderr, m->run->color_err);
    crew_init(&all.crew, m->run, m->threads ? m->threads : 1, read_one);
    all.crew.done = take_held;
    all.crew.found = paths;
    all.across = across_new(a);
    readers = readers_new(&all, a);
    crew_work(&all.crew);
    cmd_tell_across(&all.show, all.across, m->across, a);
    readers_free(readers, all.crew.n);
    arena_free(a);
    return all.status;
}
