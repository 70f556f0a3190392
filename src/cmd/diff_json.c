/* What changed in the facts, as data. */
#include "cmd/data.h"
#include "cmd/diff.h"

enum { SCHEMA = 1 };

struct diff_json {
    struct cmd_data data; /* for texts */
    json_t *files;
};

struct diff_json *diff_json_new(struct arena *a) {
    struct diff_json *j = arena_alloc(a, 1, sizeof *j);

    j->data.arena = a;
    j->files = json_array();
    return j;
}

static json_t *line(struct diff_json *j, const struct noted_line *l) {
    if (!l)
        return json_null();
    return json_pack("{s:i, s:o}", "line", (int)l->number, "says", data_text(&j->data, l->says));
}

/* Null where there is no such word. */
static json_t *word(struct diff_json *j, struct str s) {
    return s.n ? data_text(&j->data, s) : json_null();
}

static json_t *words(struct diff_json *j, const struct changed_line *c) {
    struct changed_word changed[2 * NOTED_WORDS_MAX];
    json_t *out = json_array();
    size_t n = c->before && c->after ? changed_words(c, changed, j->data.arena) : 0;

    for (size_t i = 0; i < n; i++)
        json_array_append_new(out, json_pack("{s:o, s:o}", "before", word(j, changed[i].before),
                                             "after", word(j, changed[i].after)));
    return out;
}

static void put_where(struct diff_json *j, json_t *out, const struct diff *d,
                      const struct changed_line *c) {
    const struct noted_line *l = c->before ? c->before : c->after;
    const struct diff_state *s = &d->state[c->before ? BEFORE : AFTER];
    const struct played *p = diff_played(s, l);
    const struct player *who = p ? diff_player(s, p) : NULL;

    if (l->set) {
        json_object_set_new(out, "set", json_integer(l->set));
        json_object_set_new(out, "rally", json_integer(l->rally));
    }
    if (p && l->set && p->score_known)
        json_object_set_new(out, "score", json_pack("[i, i]", (int)p->before[OURS],
                                                    (int)p->before[THEIRS]));
    if (l->kind == STMT_SERVE)
        data_put(&j->data, out, "server", noted_server(l));
    if (who)
        data_put(&j->data, out, "name", who->name);
}

static json_t *change(struct diff_json *j, const struct diff *d, const struct changed_line *c) {
    const char *kind = !c->before ? "added" : !c->after ? "taken_out" : "changed";
    json_t *out = json_pack("{s:s}", "kind", kind);

    put_where(j, out, d, c);
    json_object_set_new(out, "before", line(j, c->before));
    json_object_set_new(out, "after", line(j, c->after));
    json_object_set_new(out, "words", words(j, c));
    return out;
}

static json_t *tally(struct diff_json *j, const struct diff *d, const struct diff_tally *t) {
    const struct match *m = d->state[AFTER].checked->match;
    char letter = t->side < m->team_n ? m->teams[t->side].letter : '?';
    json_t *out = json_pack("{s:s%}", "team", &letter, 1);

    if (!t->all)
        json_object_set_new(out, "shirt",
                            t->shirt == SHIRT_NONE ? json_null() : json_integer(t->shirt));
    if (t->player)
        data_put(&j->data, out, "name", t->player->name);
    for (unsigned i = 0; i < DIFF_COUNTS; i++)
        json_object_set_new(out, diff_count_name(i),
                            json_pack("[i, i]", (int)diff_count(&t->of[BEFORE], i),
                                      (int)diff_count(&t->of[AFTER], i)));
    return out;
}

static json_t *path(struct diff_json *j, const struct diff_state *s) {
    return s->path ? data_text(&j->data, str_of(s->path)) : json_null();
}

void diff_json_add(struct diff_json *j, const struct diff *d) {
    json_t *changes = json_array(), *tallies = json_array();
    bool counted = d->state[BEFORE].tally && d->state[AFTER].tally;

    for (size_t i = 0; i < d->changed.n; i++)
        json_array_append_new(changes, change(j, d, &d->changed.at[i]));
    for (size_t i = 0; i < d->tally_n; i++)
        json_array_append_new(tallies, tally(j, d, &d->tallies[i]));
    json_array_append_new(j->files,
                          json_pack("{s:o, s:o, s:i, s:i, s:o, s:b, s:o}", "before",
                                    path(j, &d->state[BEFORE]), "after", path(j, &d->state[AFTER]),
                                    "errors_before", (int)d->state[BEFORE].errors, "errors_after",
                                    (int)d->state[AFTER].errors, "changes", changes, "counted",
                                    counted, "tallies", tallies));
}

void diff_json_end(struct diff_json *j) {
    json_t *out = json_pack("{s:i, s:s, s:s, s:o}", "schema", SCHEMA, "program", "9m", "version",
                            NINEMETRE_VERSION, "files", j->files);

    json_dumpf(out, stdout, JSON_INDENT(2));
    putchar('\n');
    json_decref(out);
}
