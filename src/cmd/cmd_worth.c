/* What points on serve are worth in sets and matches. */
#include <jansson.h>
#include <string.h>

#include "cmd/cmd.h"
#include "worth.h"

enum { TO, DECIDER, BEST_OF, MISSED, HARDER, SCORE, SERVING, AS };

enum { SCHEMA = 1, SERVERS_N = 6, MISSES_OF = 20, MISSES_MOST = 6 };

static const char *const lengths[] = {"1", "3", "5", NULL};
static const char *const sides[] = {"us", "them", NULL};
static const char *const forms[] = {"text", "json", NULL};

static const struct cmd_option options[] = {
    {"to", "POINTS", "a set goes to so many (25 if not said), two ahead", NULL, 0},
    {"decider", "POINTS", "the deciding set (15 if not said)", NULL, 0},
    {"best-of", "SETS", "5 (if not said), 3 or 1", lengths, 0},
    {"missed", "SHARE", "how many of our serves miss: what one more costs", NULL, 0},
    {"harder", "SHARE", "what a harder serve wins in play: how often it may miss", NULL, 0},
    {"score", "20-18", "from this score on, ours first", NULL, 0},
    {"serving", "SIDE", "who serves at --score: us (if not said) or them", sides, 0},
    {"as", "FORM", "text (if not said) or json", forms, 0},
    {NULL, NULL, NULL, NULL, 0},
};

/* What was asked. */
struct worth_wish {
    struct worth_serve p;
    struct worth_match match;
    bool with_missed, with_harder, with_score;
    double missed_frac;          /* with_missed */
    double harder_frac;          /* with_harder */
    struct worth_score score;    /* with_score */
};

/* ---- reading ------------------------------------------------------------- */

static bool fraction(const char *given, double *out) {
    const char *slash = strchr(given, '/');
    char x[16];
    double of, part;

    if (!slash || (size_t)(slash - given) >= sizeof x)
        return false;
    snprintf(x, sizeof x, "%.*s", (int)(slash - given), given);
    if (!cmd_plain_number(x, "", &part) || !cmd_plain_number(slash + 1, "", &of) || of <= 0)
        return false;
    *out = part / of;
    return true;
}

/* .45, 45% or 9/20; says what is wrong. */
static bool share(const char *what, const char *given, double *out) {
    bool percent = cmd_plain_number(given, "%", out);

    if (percent)
        *out /= 100;
    if ((percent || cmd_plain_number(given, "", out) || fraction(given, out)) && *out <= 1)
        return true;
    cmd_say("%s is a share such as .45, 45%% or 9/20, not \"%s\"", what, given);
    return false;
}

static bool read_score(const struct cmd_run *run, struct worth_wish *w) {
    const char *given = run->given[SCORE], *side = run->given[SERVING];
    char dash, more;

    if (!given)
        return true;
    w->with_score = sscanf(given, "%2u%c%2u%c", &w->score.us, &dash, &w->score.them, &more) == 3 &&
                    (dash == '-' || dash == ':');
    w->score.serves = side && strcmp(side, "them") == 0 ? WORTH_THEM : WORTH_US;
    if (!w->with_score)
        cmd_say("--score is a score such as 20-18, ours first, not \"%s\"", given);
    else if (worth_set(w->p, w->match.set, w->score).rallies_n == 0)
        cmd_say("at %s a set to %u is over", given, w->match.set.points);
    else
        return true;
    return false;
}

static bool share_of(const struct cmd_run *run, unsigned option, bool *given, double *out) {
    *given = run->given[option] != NULL;
    return !*given || share(option == MISSED ? "--missed" : "--harder", run->given[option], out);
}

static bool points(const struct cmd_run *run, unsigned option, unsigned *out) {
    return !run->given[option] ||
           cmd_number(options[option].name, run->given[option], WORTH_POINTS_MAX, out);
}

static bool read_wish(const struct cmd_run *run, struct worth_wish *w) {
    const char *best_of = run->given[BEST_OF];

    *w = (struct worth_wish){.match = {{25, 0}, {15, 0}, 3}};
    if (best_of)
        w->match.to_win = (unsigned)(best_of[0] - '0' + 1) / 2;
    if (!share("what we win of our serves", run->operands[0], &w->p.us_frac) ||
        !share("what they win of theirs", run->operands[1], &w->p.them_frac) ||
        !share_of(run, MISSED, &w->with_missed, &w->missed_frac) ||
        !share_of(run, HARDER, &w->with_harder, &w->harder_frac) ||
        !points(run, TO, &w->match.set.points) || !points(run, DECIDER, &w->match.decider.points))
        return false;
    if (w->p.us_frac == 0 && w->p.them_frac == 0) {
        cmd_say("if neither side ever wins a rally on its serve, no set ends");
        return false;
    }
    if (w->with_missed && w->p.us_frac + w->missed_frac > 1) {
        cmd_say("of 100 serves that we miss %.4g of, we can't win %.4g", 100 * w->missed_frac,
                100 * w->p.us_frac);
        return false;
    }
    return read_score(run, w);
}

/* ---- what both forms show ------------------------------------------------ */

static struct worth_gain one_won_more(const struct worth_wish *w) {
    return worth_gain(w->p, &w->match, .01);
}

/* A miss loses what the serve would have won in play. `of_all` is the share of
 * the team's serves among which it is one of a hundred. */
static struct worth_gain one_missed_more(const struct worth_wish *w, double of_all) {
    return worth_gain(w->p, &w->match, -.01 * of_all * w->p.us_frac / (1 - w->missed_frac));
}

/* What must be won in play to be as good as now; false when that is no share. */
static bool in_play(const struct worth_wish *w, unsigned misses, double *out) {
    *out = w->p.us_frac / (1 - (double)misses / MISSES_OF);
    return *out <= 1;
}

static bool can_miss_more(const struct worth_wish *w) {
    return w->with_missed && w->missed_frac < 1;
}

/* ---- text ---------------------------------------------------------------- */

static void put_gain(const char *what, struct worth_gain g) {
    printf("%s: %+.1f sets and %+.1f matches in 100.\n", what, 100 * g.set_frac,
           100 * g.match_frac);
}

static void put_chances(const struct worth_wish *w) {
    const struct worth_match *m = &w->match;
    struct worth_set whole = worth_set_mean(w->p, m->set);
    unsigned level = m->set.points - 1;

    printf("We win %.4g%% of the rallies that we serve, they win %.4g%% of theirs.\n\n",
           100 * w->p.us_frac, 100 * w->p.them_frac);
    printf("set to %-6u%4.0f%%   %.0f%% when we serve first, %.0f%% when they do\n", m->set.points,
           100 * whole.won_frac,
           100 * worth_set(w->p, m->set, (struct worth_score){0, 0, WORTH_US}).won_frac,
           100 * worth_set(w->p, m->set, (struct worth_score){0, 0, WORTH_THEM}).won_frac);
    if (m->to_win > 1) {
        printf("decider      %4.0f%%   to %u\n",
               100 * worth_set_mean(w->p, m->decider).won_frac, m->decider.points);
        printf("match        %4.0f%%   best of %u\n", 100 * worth_match(w->p, m),
               2 * m->to_win - 1);
    }
    printf("\nA set has %.1f rallies, %.1f of them on our serve; %.0f%% of sets come to %u-%u.\n",
           whole.rallies_n, whole.served_n, 100 * whole.level_frac, level, level);
}

static void put_gains(const struct worth_wish *w) {
    put_gain("One rally more won in 100 of our serves", one_won_more(w));
    if (!can_miss_more(w))
        return;
    printf("\n%.4g%% of our serves miss, so that we win %.0f%% of those in play.\n",
           100 * w->missed_frac, 100 * w->p.us_frac / (1 - w->missed_frac));
    put_gain("One more missed in 100 of our serves", one_missed_more(w, 1));
    put_gain("The same of one server among six", one_missed_more(w, 1. / SERVERS_N));
}

static void put_break_even(const struct worth_wish *w) {
    double in_frac;

    printf("\nJust as good is a serve that\n  misses of %u     ", MISSES_OF);
    for (unsigned n = 0; n <= MISSES_MOST && in_play(w, n, &in_frac); n++)
        printf(" %4u", n);
    printf("\n  wins in play    ");
    for (unsigned n = 0; n <= MISSES_MOST && in_play(w, n, &in_frac); n++)
        printf(" %3.0f%%", 100 * in_frac);
    puts("");
}

static void put_harder(const struct worth_wish *w) {
    double error_frac;

    if (worth_break_even(w->p.us_frac, w->harder_frac, &error_frac))
        printf("\nA serve that wins %.4g%% of those in play pays up to %.1f misses in %u.\n",
               100 * w->harder_frac, MISSES_OF * error_frac, MISSES_OF);
    else
        printf("\nA serve that wins %.4g%% of those in play does not pay even without a miss.\n",
               100 * w->harder_frac);
}

static void put_score(const struct worth_wish *w) {
    printf("\nAt %u-%u, when %s serve, we win %.0f%% of sets. On this rally hang %.0f sets in 100.\n"
           "Which serve pays is the same at any score.\n",
           w->score.us, w->score.them, w->score.serves == WORTH_US ? "we" : "they",
           100 * worth_set(w->p, w->match.set, w->score).won_frac,
           100 * worth_importance(w->p, w->match.set, w->score));
}

static void put_text(const struct worth_wish *w) {
    put_chances(w);
    put_gains(w);
    put_break_even(w);
    if (w->with_harder)
        put_harder(w);
    if (w->with_score)
        put_score(w);
    puts("\nTake the shares of a season. Those of one match or one player are too unsure for this.");
}

/* ---- JSON ---------------------------------------------------------------- */

static json_t *gain_json(struct worth_gain g) {
    return json_pack("{s:f, s:f}", "set_frac", g.set_frac, "match_frac", g.match_frac);
}

static json_t *set_json(const struct worth_wish *w, struct worth_rules rules) {
    struct worth_set mean = worth_set_mean(w->p, rules);
    struct worth_score first = {0, 0, WORTH_US}, second = {0, 0, WORTH_THEM};

    return json_pack("{s:i, s:f, s:f, s:f, s:f, s:f, s:f}", "points", (int)rules.points,
                     "won_frac", mean.won_frac, "we_first_won_frac",
                     worth_set(w->p, rules, first).won_frac, "they_first_won_frac",
                     worth_set(w->p, rules, second).won_frac, "rallies_n", mean.rallies_n,
                     "served_n", mean.served_n, "level_frac", mean.level_frac);
}

static json_t *break_even_json(const struct worth_wish *w) {
    json_t *out = json_array();
    double in_frac;

    for (unsigned n = 0; n <= MISSES_MOST && in_play(w, n, &in_frac); n++)
        json_array_append_new(out, json_pack("{s:f, s:f}", "missed_frac", (double)n / MISSES_OF,
                                             "won_in_play_frac", in_frac));
    return out;
}

/* null: it does not pay even without a miss. */
static json_t *harder_json(const struct worth_wish *w) {
    double error_frac;
    bool pays = worth_break_even(w->p.us_frac, w->harder_frac, &error_frac);

    return json_pack("{s:f, s:o}", "won_in_play_frac", w->harder_frac, "pays_up_to_missed_frac",
                     pays ? json_real(error_frac) : json_null());
}

static json_t *score_json(const struct worth_wish *w) {
    return json_pack("{s:i, s:i, s:s, s:f, s:f}", "us", (int)w->score.us, "them",
                     (int)w->score.them, "serves", sides[w->score.serves], "won_frac",
                     worth_set(w->p, w->match.set, w->score).won_frac, "importance_frac",
                     worth_importance(w->p, w->match.set, w->score));
}

static void put_json(const struct worth_wish *w) {
    json_t *out = json_pack(
        "{s:i, s:s, s:s, s:f, s:f, s:o, s:o, s:{s:i, s:f}, s:o, s:o}", "schema", SCHEMA, "program",
        "9m", "version", NINEMETRE_VERSION, "us_frac", w->p.us_frac, "them_frac", w->p.them_frac,
        "set", set_json(w, w->match.set), "decider", set_json(w, w->match.decider), "match",
        "best_of", (int)(2 * w->match.to_win - 1), "won_frac", worth_match(w->p, &w->match),
        "one_won_more_in_100", gain_json(one_won_more(w)), "as_good", break_even_json(w));

    if (can_miss_more(w)) {
        json_object_set_new(out, "missed_frac", json_real(w->missed_frac));
        json_object_set_new(out, "one_missed_more_in_100", gain_json(one_missed_more(w, 1)));
        json_object_set_new(out, "one_missed_more_in_100_of_a_sixth",
                            gain_json(one_missed_more(w, 1. / SERVERS_N)));
    }
    if (w->with_harder)
        json_object_set_new(out, "harder", harder_json(w));
    if (w->with_score)
        json_object_set_new(out, "score", score_json(w));
    json_dumpf(out, stdout, JSON_INDENT(2) | JSON_REAL_PRECISION(6));
    putchar('\n');
    json_decref(out);
}

/* ---- the command --------------------------------------------------------- */

static enum cmd_status worth(const struct cmd_run *run) {
    struct worth_wish w;

    if (run->given[SERVING] && !run->given[SCORE])
        return cmd_misuse(run->cmd, "--serving goes with --score");
    if (!read_wish(run, &w))
        return CMD_USAGE;
    if (run->given[AS] && strcmp(run->given[AS], "json") == 0)
        put_json(&w);
    else
        put_text(&w);
    return CMD_CLEAN;
}

const struct cmd cmd_worth = {
    .name = "worth",
    .usage = "[OPTION...] OURS THEIRS",
    .summary = "what points on serve are worth in sets and matches",
    .about =
        "OURS is the share of the rallies on our serve that we win, THEIRS the share that\n"
        "they win on their serve: .45, 45% or 9/20. `9m tally` has both, as \"won the rally\".\n"
        "From them follow the chances of a set and a match, how long a set is, what one\n"
        "point more in a hundred serves is worth, and how often a harder serve may miss:\n"
        "one that misses 4 of 20 is worth it if it wins so much more of the rest.\n"
        "Rallies are taken as independent of each other, and the two shares as known.",
    .examples = "  9m worth .45 .40\n"
                "  9m worth --missed 12% 41% 36%             what a miss costs\n"
                "  9m worth --harder 55% .45 .40             how often may it miss?\n"
                "  9m worth --score 20-18 --serving them .45 .40\n"
                "  9m worth --best-of 3 --to 21 99/288 76/199",
    .options = options,
    .operand = "two shares of rallies won, ours and theirs",
    .operand_min = 2,
    .operand_max = 2,
    .run = worth,
};
