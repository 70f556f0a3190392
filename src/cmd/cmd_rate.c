/* A rate, or the difference of two, with what may be said of it. */
#include <math.h>
#include <string.h>

#include "cmd/rates.h"
#include "twoway.h"

enum { TREND, AS };

enum { SCHEMA = 1, PAIR = 2, COUNT_MOST = 1000000 };

static const char *const forms[] = {"text", "json", NULL};

static const struct cmd_option options[] = {
    {"trend", NULL, "the rates are those of matches in a row, evenly apart", NULL, 0},
    {"as", "FORM", "text (if not said) or json", forms, 0},
    {NULL, NULL, NULL, NULL, 0},
};

/* ---- reading ------------------------------------------------------------- */

/* Digits from *at on, as far as COUNT_MOST and a little above it. */
static bool take_count(const char **at, unsigned *out) {
    const char *from = *at;

    for (*out = 0; **at >= '0' && **at <= '9' && *out <= COUNT_MOST; ++*at)
        *out = *out * 10 + (unsigned)(**at - '0');
    return *at > from;
}

/* 8/31; says what is wrong. */
static bool read_rate(const struct cmd *cmd, const char *given, struct rate *out) {
    const char *at = given;
    bool form = take_count(&at, &out->x) && *at++ == '/' && take_count(&at, &out->n);

    if (out->x > COUNT_MOST || (form && out->n > COUNT_MOST))
        cmd_say("\"%s\": counts go up to %d", given, COUNT_MOST);
    else if (!form || *at)
        cmd_misuse(cmd, "\"%s\" is no rate; write 8/31 for 8 of 31", given);
    else if (out->x > out->n)
        cmd_say("\"%s\": of %u there can't be %u; a rate is a part of all, such as %u/%u", given,
                out->n, out->x, out->n, out->x);
    else if (out->n == 0)
        cmd_say("\"%s\": of no serve nothing can be said, not even 0%%", given);
    else
        return true;
    return false;
}

/* ---- what may be said ---------------------------------------------------- */

/* By the side with fewer serves. */
static enum say may_say(const struct rates *r) {
    enum say first = rate_may_say(r->at[0].n), last = rate_may_say(r->at[r->n - 1].n);

    return first < last ? first : last;
}

static bool has_difference(const struct rates *r) {
    return r->n == PAIR && may_say(r) >= SAY_INTERVAL;
}

enum told { TOLD_NOT, TOLD_EDGE, TOLD_APART };

/* Interval and test are two methods, and near their limit they may differ. */
static enum told told(const struct rates *r) {
    const struct trend_change *d = &r->difference;

    return (enum told)((d->difference.low > 0 || d->difference.high < 0) +
                       (d->has_mid_p && d->mid_p <= .05));
}

static struct str comparison(const struct rates *r, struct arena *a) {
    bool first = rate_frac(r->at[0]) > rate_frac(r->at[1]);

    switch (told(r)) {
    case TOLD_NOT:
        return STR("The difference may go either way: these counts don't tell the two apart.");
    case TOLD_EDGE:
        return STR("This is at the edge of what chance makes; only more serves can tell.");
    case TOLD_APART:
        break;
    }
    return str_printf(a,
                      "The %s is higher: chance alone seldom makes so large a difference. "
                      "The counts don't say why.",
                      first ? "first" : "second");
}

/* How many serves on a side would tell the two apart; false if these do, or if
 * nobody serves so often. */
static bool serves_to_tell(const struct rates *r, unsigned *n) {
    unsigned least = rate_say_from_n(SAY_COMPARISON);

    if (!has_difference(r) || (may_say(r) >= SAY_COMPARISON && told(r) == TOLD_APART) ||
        !twoway_serves_to_tell(rate_frac(r->at[0]), rate_frac(r->at[1]), n))
        return false;
    if (*n < least)
        *n = least;
    return true;
}

static struct str sentence(const struct rates *r, struct arena *a) {
    const char *side = r->n == PAIR ? " on a side" : "";

    switch (may_say(r)) {
    case SAY_NOTHING:
    case SAY_COUNT:
        return str_printf(a, "Under %u serves%s: more than the counts can't be said.",
                          rate_say_from_n(SAY_INTERVAL), side);
    case SAY_INTERVAL:
        return str_printf(a, "Under %u serves%s: too few to say %s.",
                          rate_say_from_n(SAY_COMPARISON), side,
                          r->n == PAIR ? "which is higher" : "whether that is much or little");
    case SAY_COMPARISON:
    case SAY_SEASON:
    case SAY_N:
        break;
    }
    return r->n == PAIR ? comparison(r, a)
                     : STR("Each rate in this interval goes well with the counts.");
}

/* ---- text ---------------------------------------------------------------- */

/* "26%  14 to 43" */
void rates_put(struct rate r) {
    struct interval i = rate_wilson(r);
    char counts[32];

    snprintf(counts, sizeof counts, "%u/%u", r.x, r.n);
    if (rate_may_say(r.n) < SAY_INTERVAL)
        printf("%s\n", counts);
    else
        printf("%-12s %3.0f%%  %.0f to %.0f\n", counts, rate_percent(r), 100 * i.low,
               100 * i.high);
}

/* Whole hundredths with their sign; a 0 has none. */
static void put_points(double frac, int cells) {
    double hundredths = round(100 * frac) + 0.;
    char s[16];

    snprintf(s, sizeof s, hundredths > 0 ? "+%.0f" : "%.0f", hundredths);
    printf("%*s", cells, s);
}

void rates_put_p(double p) {
    if (p < .001)
        printf(", p below 0.001");
    else
        printf(", p %.3f", p);
}

static void put_difference(const struct rates *r) {
    const struct trend_change *d = &r->difference;

    printf("%-12s", "difference");
    put_points(rate_frac(r->at[0]) - rate_frac(r->at[1]), 4);
    printf("   ");
    put_points(d->difference.low, 0);
    printf(" to ");
    put_points(d->difference.high, 0);
    if (d->has_mid_p)
        rates_put_p(d->mid_p);
    putchar('\n');
}

static void put_text(const struct rates *r, struct str said) {
    unsigned n;

    for (size_t k = 0; k < r->n; k++)
        rates_put(r->at[k]);
    if (has_difference(r))
        put_difference(r);
    printf("\n%.*s\n", STR_ARG(said));
    if (serves_to_tell(r, &n))
        printf("If these were the true rates, 4 of 5 comparisons would show it at %u serves on a "
               "side.\n",
               n);
}

/* ---- JSON ---------------------------------------------------------------- */

static json_t *interval_json(struct interval i) {
    return json_pack("[f, f]", i.low, i.high);
}

static json_t *rate_json(struct rate r) {
    json_t *out = json_pack("{s:i, s:i}", "x", (int)r.x, "n", (int)r.n);

    if (rate_may_say(r.n) >= SAY_INTERVAL) {
        json_object_set_new(out, "frac", json_real(rate_frac(r)));
        json_object_set_new(out, "frac_95", interval_json(rate_wilson(r)));
    }
    return out;
}

static json_t *difference_json(const struct rates *r) {
    const struct trend_change *d = &r->difference;
    unsigned n;
    json_t *out;

    out = json_pack("{s:f, s:o}", "frac", rate_frac(r->at[0]) - rate_frac(r->at[1]), "frac_95",
                    interval_json(d->difference));
    if (d->has_mid_p)
        json_object_set_new(out, "mid_p", json_real(d->mid_p));
    if (serves_to_tell(r, &n))
        json_object_set_new(out, "serves_to_tell_n", json_integer(n));
    return out;
}

json_t *rates_json(const struct rates *r) {
    json_t *rates = json_array();

    for (size_t k = 0; k < r->n; k++)
        json_array_append_new(rates, rate_json(r->at[k]));
    return json_pack("{s:i, s:s, s:s, s:o}", "schema", SCHEMA, "program", "9m", "version",
                     NINEMETRE_VERSION, "rates", rates);
}

void rates_json_end(json_t *document, struct str said) {
    json_object_set_new(document, "says", json_stringn(said.at, said.n));
    json_dumpf(document, stdout, JSON_INDENT(2) | JSON_REAL_PRECISION(6));
    putchar('\n');
    json_decref(document);
}

static void put_json(const struct rates *r, struct str said) {
    json_t *out = rates_json(r);

    if (has_difference(r))
        json_object_set_new(out, "difference", difference_json(r));
    rates_json_end(out, said);
}

/* ---- the command --------------------------------------------------------- */

static void show(const struct rates *r, bool trend, bool json, struct arena *a) {
    if (trend && json)
        rates_trend_json(r, a);
    else if (trend)
        rates_trend_text(r, a);
    else if (json)
        put_json(r, sentence(r, a));
    else
        put_text(r, sentence(r, a));
}

static enum cmd_status rate(const struct cmd_run *run) {
    struct rates r = {.n = run->operand_n};
    bool trend = run->given[TREND];
    struct arena *a;

    if (r.n > PAIR && !trend)
        return cmd_misuse(run->cmd, "\"%s\" is too much: one rate or two, or --trend and a row of them",
                          run->operands[PAIR]);
    for (size_t k = 0; k < r.n; k++)
        if (!read_rate(run->cmd, run->operands[k], &r.at[k]))
            return CMD_USAGE;
    if (r.n == PAIR && !trend)
        trend_change(r.at[1], r.at[0], &r.difference);
    a = arena_new(cmd_no_memory);
    show(&r, trend, run->given[AS] && strcmp(run->given[AS], "json") == 0, a);
    arena_free(a);
    return CMD_CLEAN;
}

const struct cmd cmd_rate = {
    .name = "rate",
    .usage = "[OPTION...] X/N...",
    .summary = "a rate, the difference of two or a trend, and what may be said of it",
    .about = "X of N serves missed, or broke their pass, or did anything else you can count.\n"
             "Each rate comes in percent with its 95 % interval (Wilson's), two of them with\n"
             "their difference, its interval (Newcombe's) and p: how often chance alone makes\n"
             "so large a difference or a larger one (exact test, two-sided, mid-p).\n"
             "Under 10 serves there are counts only, under 30 nothing is called higher.\n"
             "With --trend they are those of matches in a row: a line through them (logistic,\n"
             "with Firth's penalty) from 6 matches and 60 serves on, and from 150 serves on p:\n"
             "how often chance alone makes so steady a change (Cochran-Armitage).\n"
             "\n"
             "The intervals take each serve as a new try. Serves of one match have a day and a\n"
             "receiver in common, so the truth is a little less sure than they say. And p is\n"
             "for two rates chosen before looking: of twenty pairs that don't differ, about\n"
             "one has a p below 0.05.\n"
             "\n"
             "JSON has `rates` with x, n, frac and frac_95, `difference` with frac, frac_95\n"
             "and mid_p, each from 0 to 1, and serves_to_tell_n, how many serves on a side\n"
             "would tell such rates apart, when these don't; or `trend` with the line's first\n"
             "and last share, from_frac and to_frac, and p; `says` is the sentence. What may\n"
             "not be said is not there.",
    .examples = "  9m rate 8/31             misses of a match\n"
                "  9m rate 42/180 20/195    last season's misses, and this season's\n"
                "  9m rate 14/20 9/20       tosses into the ring, today and last time\n"
                "  9m rate --trend 6/26 7/24 4/25 5/27 3/26 2/28   misses, match by match\n"
                "  9m rate --as json 8/31",
    .options = options,
    .operand = "a rate, such as 8/31",
    .operand_min = 1,
    .operand_max = RATES_MOST,
    .run = rate,
};
