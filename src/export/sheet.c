/* What holds for all rows of a file, and the names in it. */
#include <nettle/hmac.h>
#include <string.h>

#include "export/table.h"

enum { PSEUDONYM_BYTES = 6, SHIRTS = SHIRT_MAX + 1 };

/* HMAC (RFC 2104) with SHA-256: whoever lacks the key can't try out names. */
struct str pseudonym(const struct export *e, const char *kind, struct str name, struct arena *a) {
    struct hmac_sha256_ctx context;
    uint8_t digest[PSEUDONYM_BYTES];
    struct buf b;
    hmac_sha256_set_key(&context, e->style.key.n, (const uint8_t *)e->style.key.at);
    hmac_sha256_update(&context, strlen(kind) + 1, (const uint8_t *)kind);
    hmac_sha256_update(&context, name.n, (const uint8_t *)name.at);
    hmac_sha256_digest(&context, sizeof digest, digest);
    buf_init(&b, a);
    buf_printf(&b, "%s-", kind);
    for (size_t i = 0; i < sizeof digest; i++)
        buf_printf(&b, "%02x", digest[i]);
    return buf_str(&b);
}

struct str sheet_name(struct sheet *s, unsigned side, unsigned shirt) {
    const struct match *m = s->checked->match;
    if (shirt > SHIRT_MAX || side >= m->team_n)
        return STR_NONE;
    if (!s->named[side][shirt]) {
        const struct player *who = team_find(&m->teams[side], shirt);
        struct str name = who ? who->name : STR_NONE;
        if (name.n && s->export->style.key.n)
            name = pseudonym(s->export, "player", name, s->arena);
        s->names[side][shirt] = name;
        s->named[side][shirt] = true;
    }
    return s->names[side][shirt];
}

/* A path may hold any bytes, a table only UTF-8. */
static struct str as_utf8(struct str s, struct arena *a) {
    struct buf b;
    unsigned code_point;
    buf_init(&b, a);
    for (size_t at = 0; at < s.n;) {
        size_t n = str_code_point(s, at, &code_point);
        buf_add(&b, n ? str_part(s, at, n) : STR("\xEF\xBF\xBD"));
        at += n ? n : 1;
    }
    return buf_str(&b);
}

/* As it is written behind `plan`. */
static struct str plan_text(const struct serve_plan *plan, struct arena *a) {
    struct stmt st = {.kind = STMT_PLAN, .as.plan = {.by = plan->by, .spot = plan->spot}};
    struct buf b;
    buf_init(&b, a);
    syn_print(&b, &st, 0);
    return str_part(buf_str(&b), STR("plan ").n, b.n);
}

static void fill_teams(struct sheet *s) {
    const struct match *m = s->checked->match;
    for (unsigned side = 0; side < SIDE_N; side++) {
        if (side < m->team_n && m->teams[side].letter)
            s->letter[side] = (struct str){&m->teams[side].letter, 1};
        if (side < m->team_n)
            s->team[side] = m->teams[side].name;
        if (s->team[side].n && s->export->style.key.n)
            s->team[side] = pseudonym(s->export, "team", s->team[side], s->arena);
        s->names[side] = arena_alloc(s->arena, SHIRTS, sizeof *s->names[side]);
        s->named[side] = arena_alloc(s->arena, SHIRTS, sizeof *s->named[side]);
    }
}

static void fill_texts(struct sheet *s) {
    const struct checked *c = s->checked;
    const struct match *m = c->match;
    s->plans = arena_alloc(s->arena, c->plan_n, sizeof *s->plans);
    for (size_t i = 0; i < c->plan_n; i++)
        s->plans[i] = plan_text(&c->plans[i], s->arena);
    for (size_t i = 0; i < m->focus_n; i++)
        if (m->focuses[i].shirt <= SHIRT_MAX)
            s->focus[m->focuses[i].shirt] = word_info(m->focuses[i].treats)->word;
}

void sheet_init(struct sheet *s, const struct export *e, const struct checked *c, struct str file,
                struct arena *a) {
    const struct match *m = c->match;
    *s = (struct sheet){.checked = c, .export = e, .arena = a};
    s->file = e->style.key.n ? pseudonym(e, "file", file, a) : as_utf8(file, a);
    s->kind = m->practice ? STR("practice") : STR("match");
    if (m->date.year)
        s->date = str_printf(a, "%04d-%02d-%02d", m->date.year, m->date.month, m->date.day);
    fill_teams(s);
    fill_texts(s);
}
