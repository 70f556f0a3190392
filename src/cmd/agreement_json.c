#include <jansson.h>

#include "cmd/agreement.h"

enum { SCHEMA = 1 };

/* A path need not be UTF-8. */
static json_t *path_text(const struct agreement *g, struct str s) {
    struct buf b;
    unsigned code_point;

    buf_init(&b, g->arena);
    for (size_t at = 0; at < s.n;) {
        size_t n = str_code_point(s, at, &code_point);

        buf_add(&b, n ? str_part(s, at, n) : STR("\xEF\xBF\xBD")); /* U+FFFD */
        at += n ? n : 1;
    }
    return json_stringn(b.n ? b.at : "", b.n);
}

static json_t *serve(const struct agreement *g, unsigned i, size_t ix) {
    const struct played *p = &g->checked[i]->played[ix];
    struct str text = agreement_serve(g, i, ix);
    unsigned set = p->set ? g->checked[i]->sets[p->set - 1].number : 0;

    return json_pack("{s:i, s:i, s:i, s:s%}", "line", (int)p->line, "set", (int)set, "rally",
                     (int)p->rally, "serve", text.at, text.n);
}

static json_t *alone(const struct agreement *g) {
    json_t *out = json_array();

    for (unsigned i = 0; i < 2; i++) {
        json_t *of_file = json_array();

        for (size_t k = 0; k < g->agree.alone_n[i]; k++)
            json_array_append_new(of_file, serve(g, i, g->agree.alone[i][k]));
        json_array_append_new(out, of_file);
    }
    return out;
}

static json_t *interval(struct interval i) {
    return json_pack("[f, f]", i.low, i.high);
}

static void put_agreed(json_t *out, struct rate r) {
    json_object_set_new(out, "agreed", json_integer(r.x));
    json_object_set_new(out, "both", json_integer(r.n));
    if (rate_may_say(r.n) >= SAY_INTERVAL) {
        json_object_set_new(out, "share", json_real(rate_frac(r)));
        json_object_set_new(out, "share_95", interval(rate_wilson(r)));
    }
}

static void put_kappa(json_t *out, const struct agree_facts *f, unsigned field) {
    struct kappa k;
    struct interval i;

    if (!agreement_kappa(f, field, &k))
        return;
    json_object_set_new(out, "kappa", json_real(k.kappa));
    if (agree_interval(k, &i))
        json_object_set_new(out, "kappa_95", interval(i));
    json_object_set_new(out, "se", json_real(k.se));
    json_object_set_new(out, "se_chance", json_real(k.se_chance));
}

static void put_mark(json_t *out, const struct agree_facts *f) {
    unsigned first = f->table.n[1][0] + f->table.n[1][1];
    unsigned second = f->table.n[0][1] + f->table.n[1][1];

    json_object_set_new(out, "written", json_pack("[i, i]", (int)first, (int)second));
    if (agree_rate(&f->table).n >= AGREEMENT_KAPPA_N)
        json_object_set_new(out, "ac1", json_real(agree_ac1(&f->table)));
}

static json_t *field(const struct agree_facts *f, unsigned number) {
    json_t *out = json_object();

    json_object_set_new(out, "field", json_string(agreement_field(number)));
    put_agreed(out, agree_rate(&f->table));
    json_object_set_new(out, "one", json_integer(f->one_n));
    put_kappa(out, f, number);
    if (number >= FIELD_MARK)
        put_mark(out, f);
    return out;
}

static json_t *fields(const struct agreement *g) {
    json_t *out = json_array(), *server = json_object();

    json_object_set_new(server, "field", json_string("server"));
    put_agreed(server, (struct rate){g->agree.server_same_n, g->agree.server_n});
    json_array_append_new(out, server);
    for (unsigned f = 0; f < FIELD_N; f++)
        if (agreement_shown(&g->agree.field[f], f))
            json_array_append_new(out, field(&g->agree.field[f], f));
    return out;
}

static json_t *difference(const struct agreement *g, struct agree_pair pair) {
    json_t *names = json_array();

    if (agree_other_server(&g->agree, pair))
        json_array_append_new(names, json_string("server"));
    for (unsigned f = 0; f < FIELD_N; f++)
        if (agree_differs(&g->agree, pair, f))
            json_array_append_new(names, json_string(agreement_field(f)));
    return json_pack("{s:o, s:[o, o]}", "fields", names, "serves", serve(g, 0, pair.a),
                     serve(g, 1, pair.b));
}

static json_t *differences(const struct agreement *g) {
    json_t *out = json_array();

    for (size_t i = 0; i < g->agree.pair_n; i++)
        if (agreement_differs(g, g->agree.pairs[i]))
            json_array_append_new(out, difference(g, g->agree.pairs[i]));
    return out;
}

void agreement_json(const struct agreement *g) {
    json_t *out = json_pack(
        "{s:i, s:s, s:s, s:[o, o], s:b, s:I, s:o, s:o, s:o}", "schema", SCHEMA, "program", "9m",
        "version", NINEMETRE_VERSION, "files", path_text(g, g->text[0].name),
        path_text(g, g->text[1].name), "incomplete", g->incomplete, "in_both",
        (json_int_t)g->agree.pair_n, "in_one", alone(g), "fields", fields(g), "differences",
        differences(g));

    json_dumpf(out, stdout, JSON_INDENT(2) | JSON_REAL_PRECISION(6));
    putchar('\n');
    json_decref(out);
}
