/* Reads and checks files one after the other, each forgotten before the next
 * unless all are to be kept. */
#include "cmd/cmd.h"

/* What goes over the files. */
struct round {
    struct cmd_many *many;
    struct arena *arena; /* of one file */
    struct squads *squads;
    struct cmd_show show;
    struct cmd_progress progress;
    enum cmd_status status;
};

static void tell(struct round *r, const struct text *t, struct diags *d,
                 const struct checked *c) {
    if (!d->errors)
        return;
    cmd_progress_clear(&r->progress);
    cmd_show(&r->show, d);
    cmd_show_summary(&r->show, t->name, d, c, NULL);
}

static void take_file(struct round *r, const char *path) {
    struct cmd_many *m = r->many;
    struct text text;
    struct diags diags;
    const struct checked *checked;

    diags_init(&diags, r->arena);
    if (!cmd_read(&text, path, r->arena, &diags)) {
        r->status = CMD_FAILED;
        m->left_out = true;
        return;
    }
    checked = check_text_of(&text, CHECK_KEEP, r->squads, r->arena, &diags);
    tell(r, &text, &diags, checked);
    if (diags.errors)
        r->status = cmd_worse(r->status, CMD_FINDINGS);
    m->left_out = m->left_out || diags.errors || checked->incomplete;
    m->warnings = diags.warnings;
    /* Where nothing will be made of them, the rest is only checked. */
    if (r->status == CMD_CLEAN || m->partial_data)
        m->take(m->into, checked, text.name, r->arena);
}

enum cmd_status cmd_each_file(struct cmd_many *m, const struct cmd_paths *paths) {
    struct round r = {.many = m, .status = m->found};

    m->left_out = m->found != CMD_CLEAN;
    r.arena = m->keep ? m->keep : arena_new(cmd_no_memory);
    r.squads = m->keep ? NULL : squads_new(cmd_no_memory);
    cmd_show_init(&r.show, stderr, m->run->color_err);
    cmd_progress_init(&r.progress);
    for (size_t i = 0; i < paths->n; i++) {
        take_file(&r, paths->at[i]);
        if (!m->keep)
            arena_reset(r.arena);
        cmd_progress_tell(&r.progress, i + 1, paths->n);
    }
    cmd_progress_clear(&r.progress);
    if (!m->keep) {
        squads_free(r.squads);
        arena_free(r.arena);
    }
    return r.status;
}
