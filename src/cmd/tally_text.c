/* The tables of `9m tally` for people. */
#include "cmd/grid.h"
#include "cmd/tally.h"

enum { RATE_TAIL_CELLS = 12, OPPONENTS_NAMED_MAX = 1 };

/* ---- numbers ----------------------------------------------------------------- */

static unsigned percent_of(double frac) {
    return (unsigned)(frac * 100 + 0.5);
}

/* "12/31 39% 24-56", its tail always as wide, so that the parts stand one above
 * the other; the fraction alone below the count from which a share says
 * anything. */
static struct str rate_cell(struct rate r, struct arena *a) {
    if (rate_may_say(r.n) < SAY_INTERVAL)
        return str_printf(a, "%u/%u%*s", r.x, r.n, RATE_TAIL_CELLS, "");
    struct interval i = rate_wilson(r);
    struct str between = str_printf(a, "%u-%u", percent_of(i.low), percent_of(i.high));

    return str_printf(a, "%u/%u %3.0f%% %-6.*s", r.x, r.n, rate_percent(r), STR_ARG(between));
}

static struct str count_cell(unsigned n, struct arena *a) {
    return n ? str_printf(a, "%u", n) : STR(".");
}

/* Two decimals, halves up; exact. */
static struct str pass_cell(const struct counts *c, struct arena *a) {
    unsigned n = tally_pass_n(c);
    unsigned long long hundredths;

    if (rate_may_say(n) < SAY_INTERVAL)
        return STR("");
    hundredths = (200ull * tally_pass_sum(c) + n) / (2ull * n);
    return str_printf(a, "%llu.%02llu", hundredths / 100, hundredths % 100);
}

/* ---- columns ----------------------------------------------------------------- */

enum column {
    COLUMN_BROKE, COLUMN_MISSED, COLUMN_WON, COLUMN_ACES, COLUMN_OVER, COLUMN_IN1, COLUMN_IN2,
    COLUMN_IN3, COLUMN_PLAY, COLUMN_PASS, COLUMN_NET, COLUMN_LONG, COLUMN_LEFT, COLUMN_RIGHT,
    COLUMN_FAULT, COLUMN_N
};

/* The title, and how soon the column goes where there is no room: the highest first. */
static const struct {
    const char *title;
    unsigned rank;
} columns[COLUMN_N] = {
    [COLUMN_BROKE] = {"broke their pass", 0}, [COLUMN_MISSED] = {"missed", 1},
    [COLUMN_WON] = {"won the rally", 2},      [COLUMN_ACES] = {"ace", 3},
    [COLUMN_OVER] = {"over", 10},             [COLUMN_IN1] = {"in1", 11},
    [COLUMN_IN2] = {"in2", 12},               [COLUMN_IN3] = {"in3", 13},
    [COLUMN_PLAY] = {"in", 14},               [COLUMN_PASS] = {"pass", 9},
    [COLUMN_NET] = {"net", 4},                [COLUMN_LONG] = {"long", 5},
    [COLUMN_LEFT] = {"left", 6},              [COLUMN_RIGHT] = {"right", 7},
    [COLUMN_FAULT] = {"fault", 8},
};

static unsigned faults(const struct counts *c) {
    return c->missed - c->by[OUTCOME_NET] - c->by[OUTCOME_LONG] - c->by[OUTCOME_LEFT] -
           c->by[OUTCOME_RIGHT];
}

static struct str cell_of(const struct counts *c, enum column column, struct arena *a) {
    switch (column) {
    case COLUMN_BROKE:
        return rate_cell((struct rate){c->broke, c->serves}, a);
    case COLUMN_MISSED:
        return rate_cell((struct rate){c->missed, c->serves}, a);
    case COLUMN_WON:
        return rate_cell((struct rate){c->won, c->decided}, a);
    case COLUMN_ACES:
        return count_cell(c->by[OUTCOME_ACE], a);
    case COLUMN_OVER:
        return count_cell(c->by[OUTCOME_OVER], a);
    case COLUMN_IN1:
        return count_cell(c->by[OUTCOME_IN1], a);
    case COLUMN_IN2:
        return count_cell(c->by[OUTCOME_IN2], a);
    case COLUMN_IN3:
        return count_cell(c->by[OUTCOME_IN3], a);
    case COLUMN_PLAY:
        return count_cell(c->by[OUTCOME_PLAY] + c->by[OUTCOME_IN], a);
    case COLUMN_PASS:
        return pass_cell(c, a);
    case COLUMN_NET:
        return count_cell(c->by[OUTCOME_NET], a);
    case COLUMN_LONG:
        return count_cell(c->by[OUTCOME_LONG], a);
    case COLUMN_LEFT:
        return count_cell(c->by[OUTCOME_LEFT], a);
    case COLUMN_RIGHT:
        return count_cell(c->by[OUTCOME_RIGHT], a);
    case COLUMN_FAULT:
        return count_cell(faults(c), a);
    case COLUMN_N:
        break;
    }
    return STR_NONE;
}

/* Tables of serves in court have no misses. */
static bool in_court(enum cut cut) {
    return cut == CUT_ZONE || cut == CUT_RECEIVER;
}

static bool is_miss(enum column column) {
    return column == COLUMN_MISSED || (column >= COLUMN_NET && column <= COLUMN_FAULT);
}

static void add_columns(struct grid *g, bool without_misses) {
    for (unsigned c = 0; c < COLUMN_N; c++)
        if (!without_misses || !is_miss((enum column)c))
            grid_column(g, columns[c].title, columns[c].rank);
}

static void add_row(struct grid *g, struct str label, const struct counts *counts,
                    bool without_misses, struct arena *a) {
    grid_row(g, label);
    for (unsigned c = 0; c < COLUMN_N; c++)
        if (!without_misses || !is_miss((enum column)c))
            grid_cell(g, cell_of(counts, (enum column)c, a));
}

/* ---- rows -------------------------------------------------------------------- */

/* Names come from anywhere. */
static struct str safe(struct str name, struct arena *a) {
    struct buf b;

    buf_init(&b, a);
    cmd_safe(&b, name, 0);
    return buf_str(&b);
}

static struct str person_label(const struct pool *p, int32_t key, bool with_team,
                               struct arena *a) {
    const struct person *who = &p->people[key];
    struct buf b;

    buf_init(&b, a);
    if (who->shirt == SHIRT_NONE)
        buf_add(&b, STR("shirt not seen"));
    else
        buf_printf(&b, "%2u %.*s", who->shirt, STR_ARG(safe(who->name, a)));
    if (with_team)
        buf_printf(&b, "%s(%.*s)", b.at[b.n - 1] == ' ' ? "" : " ", STR_ARG(safe(who->team, a)));
    return buf_str(&b);
}

static const char *third_label(int32_t key) {
    static const char *const labels[] = {"not recorded", "r, right third", "m, middle third",
                                         "l, left third"};

    return labels[key];
}

static const char *situation_label(int32_t key) {
    static const char *const labels[SITUATION_N] = {
        [SITUATION_COLD] = "cold: just came in",
        [SITUATION_TIMEOUT] = "after a time-out",
        [SITUATION_FIRST] = "first of a turn",
        [SITUATION_LATE] = "late: from 20 on",
        [SITUATION_SET_POINT] = "set point",
    };

    return labels[key];
}

static struct str numbered(const char *what, int32_t key, struct arena *a) {
    return key ? str_printf(a, "%s %d", what, key) : STR("not recorded");
}

static struct str row_label(const struct pool *p, enum cut cut, int32_t key, struct arena *a) {
    switch (cut) {
    case CUT_SERVER:
        return person_label(p, key, false, a);
    case CUT_RECEIVER:
        return key == PERSON_NONE ? STR("not recorded") : person_label(p, key, true, a);
    case CUT_ERROR:
        return tally_outcome_word((unsigned)key);
    case CUT_START:
        return str_of(third_label(key));
    case CUT_AIM:
    case CUT_ZONE:
        return key == ZONE_SEAM ? STR("a seam") : numbered("zone", key, a);
    case CUT_SET:
        return key ? numbered("set", key, a) : STR("practice");
    case CUT_ROTATION:
        return numbered("rotation", key, a);
    case CUT_SITUATION:
        return str_of(situation_label(key));
    case CUT_TYPE:
        return key ? tally_type_word((unsigned)key) : STR("not recorded");
    case CUT_N:
        break;
    }
    return STR_NONE;
}

static const char *const cut_titles[CUT_N] = {
    "server", "error",    "start",     "aim", "received in", "received by",
    "set",    "rotation", "situation", "type",
};

/* ---- tables ------------------------------------------------------------------ */

static void put_errors(struct buf *b, const struct tally_view *v, const struct cut_table *t,
                       const struct counts *all) {
    struct grid g;

    grid_init(&g, cut_titles[CUT_ERROR], v->scratch);
    grid_column(&g, "of the misses", 0);
    grid_column(&g, "of all serves", 1);
    for (size_t i = 0; i < t->n; i++) {
        unsigned n = t->rows[i].counts.serves;

        grid_row(&g, row_label(v->pool, CUT_ERROR, t->rows[i].key, v->scratch));
        grid_cell(&g, rate_cell((struct rate){n, all->missed}, v->scratch));
        grid_cell(&g, rate_cell((struct rate){n, all->serves}, v->scratch));
    }
    grid_put(&g, b, v->width);
}

static void put_rows(struct buf *b, const struct tally_view *v, const struct pool_team *team,
                      enum cut cut) {
    struct cut_table t = pool_table(v->pool, team, cut, v->kind, v->scratch);
    struct counts all = pool_counts(v->pool, team, v->kind), sum = {0};
    struct grid g;

    if (!t.n)
        return;
    buf_char(b, '\n');
    if (cut == CUT_ERROR) {
        put_errors(b, v, &t, &all);
        return;
    }
    grid_init(&g, cut_titles[cut], v->scratch);
    add_columns(&g, in_court(cut));
    for (size_t i = 0; i < t.n; i++) {
        add_row(&g, row_label(v->pool, cut, t.rows[i].key, v->scratch), &t.rows[i].counts,
                in_court(cut), v->scratch);
        tally_merge(&sum, &t.rows[i].counts);
    }
    add_row(&g, STR("all"), in_court(cut) ? &sum : &all, in_court(cut), v->scratch);
    grid_put(&g, b, v->width);
}

static void put_table(struct buf *b, const struct tally_view *v, const struct pool_team *team,
                      enum cut cut) {
    put_rows(b, v, team, cut);
    arena_reset(v->scratch);
}

/* The teams that are shown and, in one row, all the others. */
static void put_teams(struct buf *b, const struct tally_view *v) {
    struct counts others = {0};
    struct str label = STR_NONE;
    unsigned others_n = 0;
    struct grid g;

    grid_init(&g, "team", v->arena);
    add_columns(&g, false);
    for (size_t i = 0; i < v->pool->team_n; i++) {
        const struct pool_team *team = &v->pool->teams[i];
        struct counts c = pool_counts(v->pool, team, v->kind);

        if (v->teams[i]) {
            add_row(&g, safe(team->name, v->arena), &c, false, v->arena);
        } else if (c.serves) {
            tally_merge(&others, &c);
            label = ++others_n > OPPONENTS_NAMED_MAX
                        ? str_printf(v->arena, "%u other teams", others_n)
                        : safe(team->name, v->arena);
        }
    }
    if (others_n)
        add_row(&g, label, &others, false, v->arena);
    grid_put(&g, b, v->width);
}

/* ---- what it is of -------------------------------------------------------------- */

static void put_files(struct buf *b, const struct pool *p, enum pool_kind kind) {
    bool matches = kind != POOL_PRACTICE, practices = kind != POOL_MATCH;

    if (matches)
        buf_printf(b, "%u match%s", p->matches, p->matches == 1 ? "" : "es");
    if (practices)
        buf_printf(b, "%s%u practice%s", matches ? " and " : "", p->practices,
                   p->practices == 1 ? "" : "s");
    if (p->incomplete)
        buf_printf(b, "; INCOMPLETE: %u file%s with gaps or lines not read", p->incomplete,
                   p->incomplete == 1 ? "" : "s");
    buf_char(b, '\n');
}

static void put_notes(struct buf *b, const struct tally_view *v) {
    const struct pool *p = v->pool;

    buf_char(b, '\n');
    grid_note(b,
              STR("Broke their pass: ace, over, in1. Behind a count its share and the 95 % "
                  "interval (Wilson), from 10 on. Pass: mean of ace 0, in1 1, in2 2, in3 3."),
              v->width);
    if (v->cuts & 1u << CUT_SITUATION)
        grid_note(b, STR("A serve can stand in several situations."), v->width);
    if (v->kind == POOL_MATCH && p->practice_serves)
        grid_note(b,
                  str_printf(v->arena, "Left out: %llu serves of %u practice%s (--kind practice).",
                             (unsigned long long)p->practice_serves, p->practices,
                             p->practices == 1 ? "" : "s"),
                  v->width);
}

struct str tally_text(const struct tally_view *v) {
    struct buf b;

    buf_init(&b, v->arena);
    put_files(&b, v->pool, v->kind);
    buf_char(&b, '\n');
    put_teams(&b, v);
    for (size_t i = 0; i < v->pool->team_n; i++) {
        if (!v->teams[i])
            continue;
        buf_printf(&b, "\n%.*s\n", STR_ARG(safe(v->pool->teams[i].name, v->arena)));
        for (unsigned cut = 0; cut < CUT_N; cut++)
            if (v->cuts & 1u << cut)
                put_table(&b, v, &v->pool->teams[i], (enum cut)cut);
    }
    put_notes(&b, v);
    return buf_str(&b);
}
