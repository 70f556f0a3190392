#include "cmd/told.h"

static bool told_before(struct told *t, const struct diag *diag) {
    const struct place *p = &diag->place;

    for (size_t i = 0; i < t->n; i++) {
        const struct told_one *s = &t->list[i];

        if (s->id == diag->id && s->line == p->line && s->at == p->at && str_eq(s->file, p->file))
            return true;
    }
    t->list = arena_grow(t->arena, t->list, t->n, &t->room, sizeof *t->list);
    t->list[t->n++] =
        (struct told_one){str_copy(t->arena, p->file), p->line, p->at, diag->id};
    return false;
}

static void uncount(struct diags *d, enum severity s) {
    switch (s) {
    case SEVERITY_ERROR:
        d->errors--;
        break;
    case SEVERITY_WARNING:
        d->warnings--;
        break;
    case SEVERITY_REVIEW:
        d->reviews--;
        break;
    }
}

void told_drop(struct told *t, const struct checked *c, struct diags *d) {
    bool is_squad = !c->match->occasion;
    size_t kept_n = 0;

    for (size_t i = 0; i < d->n; i++) {
        if ((is_squad || d->at[i].group) && told_before(t, &d->at[i]))
            uncount(d, diag_info(d->at[i].id)->severity);
        else
            d->at[kept_n++] = d->at[i];
    }
    d->n = kept_n;
}
