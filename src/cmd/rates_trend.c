/* Rates of matches in a row: the line through them, and what may be said of it. */
#include "cmd/rates.h"

/* As far as it may be shown. */
struct trended {
    bool has_line, has_p;
    double from_frac, to_frac;   /* the line at the first and at the last match */
    double p;
    unsigned serves;
};

static struct trended trended(const struct rates *r) {
    struct trend_point points[RATES_MOST];
    struct trended out = {0};
    struct trend_line line;
    struct trend_test test;

    for (size_t i = 0; i < r->n; i++) {
        points[i] = (struct trend_point){(double)i, r->at[i]};
        out.serves += r->at[i].n;
    }
    if (!trend_enough(points, r->n) || !trend_line(points, r->n, TREND_FIRTH, &line))
        return out;
    out.has_line = true;
    out.from_frac = trend_line_frac(&line, 0);
    out.to_frac = trend_line_frac(&line, (double)(r->n - 1));
    out.has_p = rate_may_say(out.serves) >= SAY_SEASON && trend_test(points, r->n, &test);
    if (out.has_p)
        out.p = test.p;
    return out;
}

static struct str sentence(const struct trended *t, struct arena *a) {
    if (!t->has_line)
        return str_printf(a, "A line needs %d matches and %d serves.", TREND_MATCHES_MIN,
                          TREND_SERVES_MIN);
    if (rate_may_say(t->serves) < SAY_SEASON)
        return str_printf(a, "Under %u serves in all: too few to call that a trend.",
                          rate_say_from_n(SAY_SEASON));
    if (!t->has_p)
        return STR("All are alike: there is no trend to be tested.");
    if (t->p > .05)
        return STR("Chance alone often makes such a line: these counts show no trend.");
    return str_printf(a,
                      "The share %s: chance alone seldom makes so steady a change. "
                      "The counts don't say why.",
                      t->to_frac > t->from_frac ? "rises" : "falls");
}

void rates_trend_text(const struct rates *r, struct arena *a) {
    struct trended t = trended(r);
    struct str said = sentence(&t, a);

    for (size_t i = 0; i < r->n; i++)
        rates_put(r->at[i]);
    if (t.has_line) {
        printf("%-12s %3.0f%% to %.0f%%", "line", 100 * t.from_frac, 100 * t.to_frac);
        if (t.has_p)
            rates_put_p(t.p);
        putchar('\n');
    }
    printf("\n%.*s\n", STR_ARG(said));
}

void rates_trend_json(const struct rates *r, struct arena *a) {
    struct trended t = trended(r);
    json_t *out = rates_json(r), *line;

    if (t.has_line) {
        line = json_pack("{s:f, s:f}", "from_frac", t.from_frac, "to_frac", t.to_frac);
        if (t.has_p)
            json_object_set_new(line, "p", json_real(t.p));
        json_object_set_new(out, "trend", line);
    }
    rates_json_end(out, sentence(&t, a));
}
