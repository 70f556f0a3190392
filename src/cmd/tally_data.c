/* The tables of `9m tally` as CSV (RFC 4180) and JSON. */
#include <string.h>

#include "cmd/tally.h"

enum { DATA_SCHEMA_TALLY = 1 };

/* Three rates, each beside what it is out of. */
enum { RATE_BROKE, RATE_ERRORS, RATE_WON, RATE_N };

static const char *const rate_names[RATE_N] = {"broke", "errors", "won"};

static struct rate rate_of(const struct counts *c, unsigned which) {
    if (which == RATE_BROKE)
        return (struct rate){c->broke, c->serves};
    if (which == RATE_ERRORS)
        return (struct rate){c->missed, c->serves};
    return (struct rate){c->won, c->decided};
}

/* ---- CSV -------------------------------------------------------------------- */

/* A text that a spreadsheet would run as a formula gets an apostrophe in front
 * (common practice, no source). */
static void put_text(struct buf *b, struct str s) {
    bool formula = s.n && memchr("=+-@\t\r", s.at[0], 6);
    bool quoted = false;

    for (size_t i = 0; i < s.n; i++)
        quoted = quoted || (s.at[i] && strchr("\",\r\n", s.at[i]));
    if (quoted)
        buf_char(b, '"');
    if (formula)
        buf_char(b, '\'');
    for (size_t i = 0; i < s.n; i++) {
        if (s.at[i] == '"')
            buf_char(b, '"');
        buf_char(b, s.at[i]);
    }
    if (quoted)
        buf_char(b, '"');
}

static void put_head(struct buf *b) {
    buf_add(b, STR("team,by,row,name,row_team,serves,decided"));
    for (unsigned r = 0; r < RATE_N; r++)
        buf_printf(b, ",%s,%s_frac,%s_low,%s_high", rate_names[r], rate_names[r], rate_names[r],
                   rate_names[r]);
    buf_add(b, STR(",pass_n,pass_sum"));
    for (unsigned o = OUTCOME_ACE; o <= OUTCOME_SCREEN; o++)
        buf_printf(b, ",%.*s", STR_ARG(tally_outcome_word(o)));
    buf_add(b, STR("\r\n"));
}

static void put_rate(struct buf *b, struct rate r) {
    struct interval i = rate_wilson(r);

    buf_printf(b, ",%u", r.x);
    if (r.n)
        buf_printf(b, ",%.6f,%.6f,%.6f", rate_frac(r), i.low, i.high);
    else
        buf_add(b, STR(",,,"));
}

static void put_counts(struct buf *b, const struct counts *c) {
    buf_printf(b, ",%u,%u", c->serves, c->decided);
    for (unsigned r = 0; r < RATE_N; r++)
        put_rate(b, rate_of(c, r));
    buf_printf(b, ",%u,%u", tally_pass_n(c), tally_pass_sum(c));
    for (unsigned o = OUTCOME_ACE; o <= OUTCOME_SCREEN; o++)
        buf_printf(b, ",%u", c->by[o]);
    buf_add(b, STR("\r\n"));
}

static bool is_person(enum cut cut, int32_t key) {
    return (cut == CUT_SERVER || cut == CUT_RECEIVER) && key != PERSON_NONE;
}

static void put_row(struct buf *b, const struct tally_view *v, const struct pool_team *team,
                    enum cut cut, const struct cut_row *row) {
    bool person = is_person(cut, row->key);

    put_text(b, team->name);
    buf_printf(b, ",%s,", tally_cut_words[cut]);
    buf_add(b, tally_row_word(v->pool, cut, row->key, v->scratch));
    buf_char(b, ',');
    if (person)
        put_text(b, v->pool->people[row->key].name);
    buf_char(b, ',');
    if (person)
        put_text(b, v->pool->people[row->key].team);
    put_counts(b, &row->counts);
}

struct str tally_csv(const struct tally_view *v) {
    struct buf b;

    buf_init(&b, v->arena);
    put_head(&b);
    for (size_t i = 0; i < v->pool->team_n; i++)
        for (unsigned cut = 0; v->teams[i] && cut < CUT_N; cut++) {
            struct cut_table t = {0};

            if (v->cuts & 1u << cut)
                t = pool_table(v->pool, &v->pool->teams[i], (enum cut)cut, v->kind, v->scratch);
            for (size_t r = 0; r < t.n; r++)
                put_row(&b, v, &v->pool->teams[i], (enum cut)cut, &t.rows[r]);
            arena_reset(v->scratch);
        }
    return buf_str(&b);
}

/* ---- JSON ------------------------------------------------------------------- */

static void put_json_rate(struct buf *b, const char *name, struct rate r) {
    struct interval i = rate_wilson(r);

    if (r.n)
        buf_printf(b, ", \"%s_rate\": {\"frac\": %.6f, \"low\": %.6f, \"high\": %.6f}", name,
                   rate_frac(r), i.low, i.high);
    else
        buf_printf(b, ", \"%s_rate\": null", name);
}

/* Members of an object, without a comma in front. */
static void put_json_counts(struct buf *b, const struct counts *c) {
    const char *between = "";

    buf_printf(b, "\"serves\": %u, \"aces\": %u, \"errors\": %u, \"errors_by\": {", c->serves,
               c->by[OUTCOME_ACE], c->missed);
    for (unsigned o = OUTCOME_NET; o <= OUTCOME_SCREEN; o++, between = ", ")
        buf_printf(b, "%s\"%.*s\": %u", between, STR_ARG(tally_outcome_word(o)), c->by[o]);
    buf_printf(b, "}, \"broke\": %u, \"over\": %u, \"in1\": %u, \"in2\": %u, \"in3\": %u", c->broke,
               c->by[OUTCOME_OVER], c->by[OUTCOME_IN1], c->by[OUTCOME_IN2], c->by[OUTCOME_IN3]);
    buf_printf(b, ", \"play\": %u, \"in\": %u, \"pass_n\": %u, \"pass_sum\": %u",
               c->by[OUTCOME_PLAY], c->by[OUTCOME_IN], tally_pass_n(c), tally_pass_sum(c));
    buf_printf(b, ", \"won\": %u, \"decided\": %u", c->won, c->decided);
    for (unsigned r = 0; r < RATE_N; r++)
        put_json_rate(b, rate_names[r], rate_of(c, r));
}

/* A number stands as a number, what is not recorded as null. */
static void put_json_word(struct buf *b, struct str word) {
    if (!word.n)
        buf_add(b, STR("null"));
    else if (word.at[0] >= '0' && word.at[0] <= '9')
        buf_add(b, word);
    else
        tally_quoted(b, word);
}

static void put_json_row(struct buf *b, const struct tally_view *v, enum cut cut,
                         const struct cut_row *row) {
    buf_add(b, STR("{\"row\": "));
    put_json_word(b, tally_row_word(v->pool, cut, row->key, v->scratch));
    if (is_person(cut, row->key)) {
        buf_add(b, STR(", \"name\": "));
        tally_quoted(b, v->pool->people[row->key].name);
    }
    if (is_person(cut, row->key) && cut == CUT_RECEIVER) {
        buf_add(b, STR(", \"team\": "));
        tally_quoted(b, v->pool->people[row->key].team);
    }
    buf_add(b, STR(", "));
    put_json_counts(b, &row->counts);
    buf_char(b, '}');
}

static void put_json_table(struct buf *b, const struct tally_view *v,
                           const struct pool_team *team, enum cut cut) {
    struct cut_table t = pool_table(v->pool, team, cut, v->kind, v->scratch);

    buf_printf(b, ",\n   \"%s\": [", tally_cut_words[cut]);
    for (size_t i = 0; i < t.n; i++) {
        buf_add(b, i ? STR(",\n    ") : STR("\n    "));
        put_json_row(b, v, cut, &t.rows[i]);
    }
    buf_char(b, ']');
    arena_reset(v->scratch);
}

static void put_json_team(struct buf *b, const struct tally_view *v,
                          const struct pool_team *team) {
    struct counts all = pool_counts(v->pool, team, v->kind);

    buf_add(b, STR("{\"team\": "));
    tally_quoted(b, team->name);
    buf_printf(b, ", \"ours\": %s,\n   \"all\": {", team->ours ? "true" : "false");
    put_json_counts(b, &all);
    buf_char(b, '}');
    for (unsigned cut = 0; cut < CUT_N; cut++)
        if (v->cuts & 1u << cut)
            put_json_table(b, v, team, (enum cut)cut);
    buf_char(b, '}');
}

struct str tally_json(const struct tally_view *v) {
    static const char *const kinds[] = {"match", "practice", "both"};
    const struct pool *p = v->pool;
    const char *between = "\n  ";
    struct buf b;

    buf_init(&b, v->arena);
    buf_printf(&b, "{\"schema\": %d, \"kind\": \"%s\", \"matches\": %u, \"practices\": %u, ",
               DATA_SCHEMA_TALLY, kinds[v->kind], p->matches, p->practices);
    buf_printf(&b, "\"incomplete\": %u,\n \"teams\": [", p->incomplete);
    for (size_t i = 0; i < p->team_n; i++) {
        if (!v->teams[i])
            continue;
        buf_add(&b, str_of(between));
        put_json_team(&b, v, &p->teams[i]);
        between = ",\n  ";
    }
    buf_add(&b, STR("]}\n"));
    return buf_str(&b);
}
