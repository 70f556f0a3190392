/* The advice as data; every number with its unit in its name. */
#include <jansson.h>

#include "cmd/advise.h"
#include "cmd/tally.h"

enum { SCHEMA = 1 };

/* ---- numbers ------------------------------------------------------------- */

static json_t *text(struct str s) {
    return json_stringn(s.n ? s.at : "", s.n);
}

static json_t *interval(double low, double high) {
    return json_pack("[f, f]", low, high);
}

/* What may be shown of so many. */
static json_t *rate(struct rate r) {
    json_t *out = json_pack("{s:i, s:i}", "x", (int)r.x, "n", (int)r.n);
    struct interval i = rate_wilson(r);

    if (rate_may_say(r.n) >= SAY_INTERVAL) {
        json_object_set_new(out, "frac", json_real(rate_frac(r)));
        json_object_set_new(out, "frac_95", interval(i.low, i.high));
    }
    return out;
}

static void put_cost(json_t *out, struct advice_cost c) {
    if (c.has_points) {
        json_object_set_new(out, "points_a_set", json_real(c.points_n));
        json_object_set_new(out, "sure_points_a_set", json_real(c.sure_n));
    }
    if (c.has_set)
        json_object_set_new(out, "set_frac", json_real(c.set_frac));
}

static void put_risk(json_t *out, struct twoway_risk r) {
    json_object_set_new(out, "times", r.bounded ? json_real(r.ratio) : json_null());
    json_object_set_new(out, "times_95", r.bounded ? interval(r.low, r.high)
                                                   : json_pack("[f, n]", r.low));
}

/* ---- words --------------------------------------------------------------- */

static json_t *word(enum word_id id) {
    return text(word_info(id)->word);
}

static json_t *mark_word(enum mark m) {
    return word((enum word_id)(W_td + m));
}

/* A team's marks go by the hand. */
static json_t *team_mark_word(enum mark m) {
    if (m == MARK_tl || m == MARK_tr)
        return json_string(m == MARK_tr ? "toss_arm_side" : "toss_across");
    return mark_word(m);
}

static const char *miss_word(enum faults_miss k) {
    static const char *const words[FAULTS_MISSES] = {"net", "long", "arm_side", "across", "foot"};

    return words[k];
}

static const char *kind_word(enum miss m) {
    static const char *const words[MISS_N] = {"net", "long", "wide", "fault"};

    return words[m];
}

static json_t *date(struct date d) {
    return json_sprintf("%04d-%02d-%02d", d.year, d.month, d.day);
}

static json_t *drill(const struct drill_recipe *r) {
    json_t *out;

    if (!r)
        return json_null();
    out = json_pack("{s:o, s:o, s:o}", "name", text(r->name), "goal", text(r->goal), "score",
                    text(r->score));
    if (r->goal_tries) {
        json_object_set_new(out, "goal_hits", json_integer(r->goal_hits));
        json_object_set_new(out, "goal_tries", json_integer(r->goal_tries));
    }
    return out;
}

/* ---- the team ------------------------------------------------------------ */

static json_t *finding(const struct finding *f) {
    if (f->kind == FINDING_ERROR)
        return json_pack("{s:s, s:s, s:o}", "kind", "miss_above_all", "miss", kind_word(f->miss),
                         "of_misses", rate(f->here));
    return json_pack("{s:s, s:o, s:o, s:o}", "kind",
                     f->kind == FINDING_MISSED ? "missed" : "broke", "situation",
                     text(tally_situation_word(f->situation)), "here", rate(f->here), "other", rate(f->rest));
}

static json_t *tested(json_t *mark, const struct faults_test *t) {
    json_t *out = json_pack("{s:s, s:o, s:s, s:o, s:o, s:f, s:f}", "kind", "mark", "mark", mark,
                            "miss", miss_word(t->miss), "with", rate(twoway_with(t->table)),
                            "without", rate(twoway_without(t->table)), "p", t->p, "p_adjusted",
                            t->adjusted);

    put_risk(out, t->risk);
    return out;
}

static json_t *sentence(const struct advice_sentence *s) {
    json_t *out = NULL;

    switch (s->kind) {
    case ADVICE_FINDING: out = finding(&s->finding); break;
    case ADVICE_FAULT: out = tested(team_mark_word(s->fault.mark), &s->fault); break;
    case ADVICE_MISS:
        out = json_pack("{s:s, s:s, s:o}", "kind", "miss", "miss", kind_word(s->miss), "missed",
                        rate(s->missed));
        break;
    }
    put_cost(out, s->cost);
    return out;
}

/* ---- a server ------------------------------------------------------------ */

static json_t *split(struct progress_split s) {
    return json_pack("{s:o, s:o}", "before", rate(s.before), "since", rate(s.after));
}

static json_t *focus(const struct advice_server *a) {
    const struct progress_focus *f = &a->focus;
    json_t *out = json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "treats",
                            word(f->treats), "since", date(f->since), "drill", text(f->drill),
                            "met_on", f->met ? date(f->met_on) : json_null(), "drilled",
                            split(f->drilled), "in_matches", split(f->in_matches), "in_practices",
                            split(f->in_practices), "missed", split(f->missed), "broke",
                            split(f->broke), "recipe", drill(a->focus_drill));

    if (f->goal.n) {
        json_object_set_new(out, "goal_hits", json_integer(f->goal.x));
        json_object_set_new(out, "goal_tries", json_integer(f->goal.n));
    }
    return out;
}

static const char *evidence_word(enum advice_evidence e) {
    switch (e) {
    case ADVICE_UNMARKED: return "no_mark";
    case ADVICE_COUNTED: return "counted";
    case ADVICE_TESTED: return "tested";
    case ADVICE_NONE_FOUND: return "none_found";
    }
    return "";
}

static json_t *misses(const struct advice_priority *p) {
    json_t *out = json_pack("{s:s, s:s, s:o, s:s}", "way", "misses", "miss", miss_word(p->miss),
                            "missed", rate(p->missed), "evidence", evidence_word(p->evidence));

    if (p->evidence != ADVICE_TESTED && p->evidence != ADVICE_COUNTED)
        return out;
    json_object_set_new(out, "mark", mark_word(p->mark));
    json_object_set_new(out, "with", rate(twoway_with(p->table)));
    json_object_set_new(out, "without", rate(twoway_without(p->table)));
    if (p->evidence == ADVICE_TESTED) {
        put_risk(out, p->risk);
        json_object_set_new(out, "p_adjusted", json_real(p->adjusted));
    }
    return out;
}

static json_t *aim(const struct advice_aim *a) {
    return json_pack("{s:s, s:o, s:i, s:f, s:f, s:f, s:f, s:f, s:f}", "way", "aim", "type",
                     text(tally_type_word(a->type)), "aimed_n",
                     (int)a->aimed_n, "x_m", a->best.x, "d_m", a->best.d, "bias_x_m",
                     a->scatter.x_m, "bias_d_m", a->scatter.d_m, "gain_frac", a->gain_frac,
                     "sure_gain_frac", a->sure_frac);
}

static json_t *priority(const struct advice_priority *p) {
    json_t *out = p->way == ADVICE_AIM ? aim(&p->aim) : misses(p);

    json_object_set_new(out, "drill", drill(p->drill));
    put_cost(out, p->cost);
    return out;
}

static json_t *type(enum serve_type t, struct rate won, struct rate missed) {
    return json_pack("{s:o, s:o, s:o}", "type", text(tally_type_word(t)), "won", rate(won),
                     "missed", rate(missed));
}

static json_t *types(const struct advice_types *t) {
    return json_pack("{s:o, s:o, s:o, s:o}", "harder",
                     type(t->harder, t->harder_won, t->harder_missed), "other",
                     type(t->other, t->other_won, t->other_missed), "difference_95",
                     interval(t->difference.low, t->difference.high), "pays_up_to_missed_frac",
                     t->has_break_even ? json_real(t->break_even_frac) : json_null());
}

static json_t *server(const struct advice *a, size_t ix) {
    struct advice_server s = advice_server(a, ix);
    const struct counts *c = &s.who->counts;
    json_t *priorities = json_array();

    for (unsigned i = 0; i < s.n; i++)
        json_array_append_new(priorities, priority(&s.at[i]));
    return json_pack("{s:i, s:o, s:o, s:o, s:o, s:o, s:o}", "shirt", (int)s.who->shirt, "name",
                     text(s.who->name), "broke", rate((struct rate){c->broke, c->serves}),
                     "missed", rate((struct rate){c->missed, c->serves}), "focus",
                     s.has_focus ? focus(&s) : json_null(), "priorities", priorities,
                     "types", s.has_types ? types(&s.types) : json_null());
}

/* ---- the whole ----------------------------------------------------------- */

static json_t *team(const struct advise *v, const struct advise_team *t) {
    const struct faults *f = t->of.faults;
    struct advice a;
    struct advice_team says;
    json_t *sentences = json_array(), *servers = json_array();

    advice_init(&a, &t->of, &v->drills, v->arena);
    says = advice_team(&a);
    for (unsigned i = 0; i < says.n; i++)
        json_array_append_new(sentences, sentence(&says.at[i]));
    for (size_t i = 0; i < f->server_n; i++)
        if (advise_shows(v, &f->servers[i]))
            json_array_append_new(servers, server(&a, i));
    return json_pack("{s:o, s:i, s:i, s:i, s:i, s:o, s:o}", "name", text(t->name), "matches",
                     (int)f->matches, "serves", (int)f->side[OURS].serves, "comparisons_n",
                     (int)says.looked_n, "tests_n", (int)a.tests.n, "sentences", sentences,
                     "servers", servers);
}

void advise_json(const struct advise *v) {
    json_t *teams = json_array(), *out;

    for (size_t i = 0; i < v->team_n; i++)
        if (advise_shows_team(v, &v->teams[i]))
            json_array_append_new(teams, team(v, &v->teams[i]));
    out = json_pack("{s:i, s:s, s:s, s:b, s:o}", "schema", SCHEMA, "program", "9m", "version",
                    NINEMETRE_VERSION, "incomplete", v->incomplete, "teams", teams);
    json_dumpf(out, stdout, JSON_INDENT(2) | JSON_REAL_PRECISION(6));
    putchar('\n');
    json_decref(out);
}
