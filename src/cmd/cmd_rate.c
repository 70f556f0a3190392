/* A rate, or the difference of two, with what may be said of it. */
#include <jansson.h>
#include <math.h>
#include <string.h>

#include "cmd/cmd.h"
#include "rate.h"
#include "twoway.h"

enum { AS };

enum { SCHEMA = 1, RATES_MOST = 2, COUNT_MOST = 1000000 };

static const char *const forms[] = {"text", "json", NULL};

static const struct cmd_option options[] = {
    {"as", "FORM", "text (if not said) or json", forms, 0},
    {NULL, NULL, NULL, NULL, 0},
};

struct rates {
    struct rate at[RATES_MOST];
    size_t n; /* 1 or 2 */
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
    return r->n == 2 && may_say(r) >= SAY_INTERVAL;
}

/* False when both are none, or both all: there is nothing to test. */
static bool mid_p(const struct rates *r, double *out) {
    struct twoway t = twoway_of(r->at[0], r->at[1]);

    if (!twoway_compares(t))
        return false;
    *out = twoway_exact(t).two_sided_mid;
    return true;
}

enum told { TOLD_NOT, TOLD_EDGE, TOLD_APART };

/* Interval and test are two methods, and near their limit they may differ. */
static enum told told(const struct rates *r) {
    struct interval i;
    double p;

    rate_difference(r->at[0], r->at[1], &i);
    return (enum told)((i.low > 0 || i.high < 0) + (mid_p(r, &p) && p <= .05));
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
    const char *side = r->n == 2 ? " on a side" : "";

    switch (may_say(r)) {
    case SAY_NOTHING:
    case SAY_COUNT:
        return str_printf(a, "Under %u serves%s: more than the counts can't be said.",
                          rate_say_from_n(SAY_INTERVAL), side);
    case SAY_INTERVAL:
        return str_printf(a, "Under %u serves%s: too few to say %s.",
                          rate_say_from_n(SAY_COMPARISON), side,
                          r->n == 2 ? "which is higher" : "whether that is much or little");
    case SAY_COMPARISON:
    case SAY_SEASON:
    case SAY_N:
        break;
    }
    return r->n == 2 ? comparison(r, a)
                     : STR("Each rate in this interval goes well with the counts.");
}

/* ---- text ---------------------------------------------------------------- */

/* "26%  14 to 43" */
static void put_rate(struct rate r) {
    struct interval i = rate_wilson(r);
    char counts[32];

    snprintf(counts, sizeof counts, "%u/%u", r.x, r.n);
    if (rate_may_say(r.n) < SAY_INTERVAL)
        printf("%s\n", counts);
    else
        printf("%-12s %3.0f%%  %.0f to %.0f\n", counts, 100 * rate_frac(r), 100 * i.low,
               100 * i.high);
}

/* Whole hundredths with their sign; a 0 has none. */
static void put_points(double frac, int cells) {
    double hundredths = round(100 * frac) + 0.;
    char s[16];

    snprintf(s, sizeof s, hundredths > 0 ? "+%.0f" : "%.0f", hundredths);
    printf("%*s", cells, s);
}

static void put_difference(const struct rates *r) {
    struct interval i;
    double p;

    rate_difference(r->at[0], r->at[1], &i);
    printf("%-12s", "difference");
    put_points(rate_frac(r->at[0]) - rate_frac(r->at[1]), 4);
    printf("   ");
    put_points(i.low, 0);
    printf(" to ");
    put_points(i.high, 0);
    if (!mid_p(r, &p))
        putchar('\n');
    else if (p < .001)
        puts(", p below 0.001");
    else
        printf(", p %.3f\n", p);
}

static void put_text(const struct rates *r, struct str said) {
    unsigned n;

    for (size_t k = 0; k < r->n; k++)
        put_rate(r->at[k]);
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
    struct interval i;
    double p;
    unsigned n;
    json_t *out;

    rate_difference(r->at[0], r->at[1], &i);
    out = json_pack("{s:f, s:o}", "frac", rate_frac(r->at[0]) - rate_frac(r->at[1]), "frac_95",
                    interval_json(i));
    if (mid_p(r, &p))
        json_object_set_new(out, "mid_p", json_real(p));
    if (serves_to_tell(r, &n))
        json_object_set_new(out, "serves_to_tell_n", json_integer(n));
    return out;
}

static void put_json(const struct rates *r, struct str said) {
    json_t *rates = json_array(), *out;

    for (size_t k = 0; k < r->n; k++)
        json_array_append_new(rates, rate_json(r->at[k]));
    out = json_pack("{s:i, s:s, s:s, s:o}", "schema", SCHEMA, "program", "9m", "version",
                    NINEMETRE_VERSION, "rates", rates);
    if (has_difference(r))
        json_object_set_new(out, "difference", difference_json(r));
    json_object_set_new(out, "says", json_stringn(said.at, said.n));
    json_dumpf(out, stdout, JSON_INDENT(2) | JSON_REAL_PRECISION(6));
    putchar('\n');
    json_decref(out);
}

/* ---- the command --------------------------------------------------------- */

static enum cmd_status rate(const struct cmd_run *run) {
    struct rates r = {.n = run->operand_n};
    struct arena *a;
    struct str said;

    for (size_t k = 0; k < r.n; k++)
        if (!read_rate(run->cmd, run->operands[k], &r.at[k]))
            return CMD_USAGE;
    a = arena_new(cmd_no_memory);
    said = sentence(&r, a);
    if (run->given[AS] && strcmp(run->given[AS], "json") == 0)
        put_json(&r, said);
    else
        put_text(&r, said);
    arena_free(a);
    return CMD_CLEAN;
}

const struct cmd cmd_rate = {
    .name = "rate",
    .usage = "[OPTION...] X/N [X/N]",
    .summary = "a rate or the difference of two, and what may be said of it",
    .about = "X of N serves missed, or broke their pass, or did anything else you can count.\n"
             "Each rate comes in percent with its 95 % interval (Wilson's), two of them with\n"
             "their difference, its interval (Newcombe's) and p: how often chance alone makes\n"
             "so large a difference or a larger one (exact test, two-sided, mid-p).\n"
             "Under 10 serves there are counts only, under 30 nothing is called higher.\n"
             "\n"
             "The intervals take each serve as a new try. Serves of one match have a day and a\n"
             "receiver in common, so the truth is a little less sure than they say. And p is\n"
             "for two rates chosen before looking: of twenty pairs that don't differ, about\n"
             "one has a p below 0.05.\n"
             "\n"
             "JSON has `rates` with x, n, frac and frac_95, `difference` with frac, frac_95\n"
             "and mid_p, each from 0 to 1, and serves_to_tell_n, how many serves on a side\n"
             "would tell such rates apart, when these don't; `says` is the sentence. What\n"
             "may not be said is not there.",
    .examples = "  9m rate 8/31             misses of a match\n"
                "  9m rate 42/180 20/195    last season's misses, and this season's\n"
                "  9m rate 14/20 9/20       tosses into the ring, today and last time\n"
                "  9m rate --as json 8/31",
    .options = options,
    .operand = "one rate or two, such as 8/31",
    .operand_min = 1,
    .operand_max = RATES_MOST,
    .run = rate,
};
