/* Sentences and priorities, the most costly first. */
#include "advice.h"

#include <math.h>

#include "study/cost.h"

/* As for a test: fewer of one kind are no habit (our own choice). */
enum { LEAST_MISSED = 5 };

/* The drill that asks for an aim deeper than the scatter of most allows. */
static const struct str last_metre = {"Last metre", sizeof "Last metre" - 1};

struct advice_of advice_of(struct arena *a) {
    return (struct advice_of){faults_new(a), progress_new(a), aimed_new(a)};
}

void advice_add(struct advice_of *of, const struct checked *c) {
    faults_add(of->faults, c);
    progress_add(of->progress, c);
    aimed_add(of->aimed, c);
}

void advice_init(struct advice *a, const struct advice_of *of, const struct drill_book *drills,
                 struct arena *arena) {
    faults_settle(of->faults);
    *a = (struct advice){.faults = of->faults,
                         .progress = of->progress,
                         .aimed = of->aimed,
                         .drills = drills,
                         .arena = arena};
    a->tests = faults_tests(of->faults, arena);
    cost_init(a, arena);
}

/* With more misses with the mark than without, by the ratio of the two: as if
 * the mark's serves had missed as seldom as the others. */
static double above(struct twoway t, double ratio) {
    return ratio > 1 ? t.a * (1 - 1 / ratio) : 0;
}

/* ---- the team --------------------------------------------------------------- */

/* Of a kind of miss: all of them; for certain those above a half of all misses. */
static struct advice_cost error_cost(const struct advice *a, const struct finding *f) {
    double won_frac;
    if (!advice_in_play(a, NULL, &won_frac))
        return (struct advice_cost){.has_points = false};
    return cost_of(a, f->here.x, f->off * f->here.n, won_frac);
}

/* Of a situation: what lies above, or below, the share of all other serves. */
static struct advice_cost situation_cost(const struct advice *a, const struct finding *f) {
    bool broke = f->kind == FINDING_BROKE;
    double won_frac, rest = f->here.n * rate_frac(f->rest);
    double more = broke ? rest - f->here.x : f->here.x - rest;
    if (!(broke ? cost_of_pass(a, &won_frac) : advice_in_play(a, NULL, &won_frac)))
        return (struct advice_cost){.has_points = false};
    return cost_of(a, more, copysign(f->off * f->here.n, more), won_frac);
}

static struct advice_cost fault_cost(const struct advice *a, const struct faults_test *t) {
    double won_frac;
    if (!advice_in_play(a, NULL, &won_frac))
        return (struct advice_cost){.has_points = false};
    return cost_of(a, above(t->table, t->risk.ratio), above(t->table, t->risk.low), won_frac);
}

/* Puts it among those from `from` on, the largest sure cost or gain first; of
 * equal ones the earlier. */
static void keep(struct advice_team *team, unsigned from, struct advice_sentence s) {
    unsigned at = team->n;
    while (at > from && fabs(team->at[at - 1].cost.sure_n) < fabs(s.cost.sure_n))
        at--;
    if (at == ADVICE_MAX)
        return;
    if (team->n < ADVICE_MAX)
        team->n++;
    for (unsigned i = team->n - 1; i > at; i--)
        team->at[i] = team->at[i - 1];
    team->at[at] = s;
}

/* A kind of miss that stands out says all that its cost alone would. */
static void keep_findings(const struct advice *a, struct advice_team *team, bool *named) {
    const struct faults *f = a->faults;
    struct finding found[FINDINGS_MAX];
    unsigned n = study_findings(&f->side[OURS], f->situation, found, &team->looked_n);
    for (unsigned i = 0; i < n; i++) {
        bool error = found[i].kind == FINDING_ERROR;
        if (error)
            named[found[i].miss] = true;
        keep(team, 0,
             (struct advice_sentence){
                 .kind = ADVICE_FINDING,
                 .cost = error ? error_cost(a, &found[i]) : situation_cost(a, &found[i]),
                 .finding = found[i],
             });
    }
}

static void keep_faults(const struct advice *a, struct advice_team *team) {
    for (size_t i = 0; i < a->tests.n; i++) {
        const struct faults_test *t = &a->tests.at[i];
        if (t->server == FAULTS_TEAM && faults_found(t))
            keep(team, 0,
                 (struct advice_sentence){
                     .kind = ADVICE_FAULT, .cost = fault_cost(a, t), .fault = *t});
    }
}

/* What stands out comes first: every team misses, and the cost of all misses of
 * a kind is larger than that of any difference. */
static void keep_misses(const struct advice *a, struct advice_team *team, const bool *named) {
    unsigned from = team->n;
    const struct counts *all = &a->faults->side[OURS];
    for (unsigned m = MISS_NET; m < MISS_FAULT; m++) {
        struct rate missed = {study_missed(all, (enum miss)m), all->serves};
        if (named[m] || missed.x < LEAST_MISSED)
            continue;
        keep(team, from,
             (struct advice_sentence){.kind = ADVICE_MISS,
                                      .cost = cost_of_missed(a, NULL, missed),
                                      .miss = (enum miss)m,
                                      .missed = missed});
    }
}

struct advice_team advice_team(const struct advice *a) {
    struct advice_team team = {.say = rate_may_say(a->faults->side[OURS].serves)};
    bool named[MISS_N] = {false};
    if (team.say < SAY_COMPARISON)
        return team;
    keep_findings(a, &team, named);
    keep_faults(a, &team);
    keep_misses(a, &team, named);
    return team;
}

/* ---- marks of a server ------------------------------------------------------ */

/* The found test of hers that explains most misses for certain; NULL if none. */
static const struct faults_test *best_test(const struct advice *a, size_t server,
                                           enum faults_miss miss, bool *tested) {
    const struct faults_test *best = NULL;
    for (size_t i = 0; i < a->tests.n; i++) {
        const struct faults_test *t = &a->tests.at[i];
        if (t->server != server || t->miss != miss)
            continue;
        *tested = true;
        if (faults_found(t) &&
            (!best || above(t->table, t->risk.low) > above(best->table, best->risk.low)))
            best = t;
    }
    return best;
}

/* The mark seen most above its share, where there are too few serves for a test
 * and else enough of everything; false if none. */
static bool best_counted(const struct faults_server *who, struct advice_priority *p) {
    double most = 0;
    for (unsigned m = 0; m < MARK_N; m++) {
        struct twoway t = faults_table(who, (enum mark)m, p->miss);
        struct rate with = twoway_with(t), without = twoway_without(t);
        if (rate_may_say(with.n + without.n) >= SAY_SEASON || !twoway_may_test(t))
            continue;
        double more = with.x - with.n * rate_frac(without);
        if (more <= most)
            continue;
        most = more;
        p->mark = (enum mark)m;
        p->table = t;
    }
    return most > 0;
}

static void find_mark(const struct advice *a, size_t server, struct advice_priority *p) {
    const struct faults_server *who = &a->faults->servers[server];
    bool tested = false;
    const struct faults_test *t = best_test(a, server, p->miss, &tested);
    p->evidence = tested ? ADVICE_NONE_FOUND : ADVICE_UNMARKED;
    if (t) {
        p->evidence = ADVICE_TESTED;
        p->mark = t->mark;
        p->table = t->table;
        p->risk = t->risk;
        p->adjusted = t->adjusted;
    } else if (best_counted(who, p)) {
        p->evidence = ADVICE_COUNTED;
    }
    p->mark = faults_mark_of(p->mark, who->lefthanded);
}

/* ---- priorities of a server ------------------------------------------------- */

static enum word_id word_of_mark(enum mark m) {
    return (enum word_id)(W_td + m);
}

/* As a scorer writes it of this hand. */
static enum word_id word_of_miss(enum faults_miss miss, bool lefthanded) {
    switch (miss) {
    case FAULTS_NET:
        return W_net;
    case FAULTS_LONG:
        return W_long;
    case FAULTS_ARM_SIDE:
        return lefthanded ? W_left : W_right;
    case FAULTS_ACROSS:
        return lefthanded ? W_right : W_left;
    case FAULTS_FOOT:
    case FAULTS_MISSES:
        break;
    }
    return W_foot;
}

static bool has_mark(const struct advice_priority *p) {
    return p->evidence == ADVICE_COUNTED || p->evidence == ADVICE_TESTED;
}

static const struct drill_recipe *drill_treats(const struct advice *a,
                                               const struct advice_server *s, enum word_id what) {
    const struct drill_recipe *best = NULL;
    drill_treating(a->drills, what, s->type, &best, 1);
    return best;
}

/* For the mark, or else for the miss itself. */
static const struct drill_recipe *drill_for(const struct advice *a, const struct advice_server *s,
                                            const struct advice_priority *p) {
    const struct drill_recipe *drill = NULL;
    if (has_mark(p))
        drill = drill_treats(a, s, word_of_mark(p->mark));
    return drill ? drill : drill_treats(a, s, word_of_miss(p->miss, s->who->lefthanded));
}

/* What her focus treats already needs no second mention. */
static bool is_focus(const struct advice_server *s, const struct advice_priority *p) {
    return s->has_focus && (s->focus.treats == word_of_miss(p->miss, s->who->lefthanded) ||
                            (has_mark(p) && s->focus.treats == word_of_mark(p->mark)));
}

static struct advice_priority priority_of(const struct advice *a, size_t server,
                                          const struct advice_server *s, enum faults_miss miss) {
    struct advice_priority p = {.miss = miss,
                                .missed = {s->who->missed[miss], s->who->counts.serves}};
    p.cost = cost_of_missed(a, s->who, p.missed);
    p.cost.has_set &= s->say >= SAY_SEASON;
    find_mark(a, server, &p);
    p.drill = drill_for(a, s, &p);
    return p;
}

/* True if the one comes before the other: by sure cost, or where no points are
 * known by misses. */
static bool before(const struct advice_priority *one, const struct advice_priority *other) {
    if (one->cost.sure_n != other->cost.sure_n)
        return one->cost.sure_n > other->cost.sure_n;
    return one->missed.x > other->missed.x;
}

static void put(struct advice_server *s, struct advice_priority p) {
    unsigned at = s->n, most = s->has_focus ? ADVICE_MAX - 1 : ADVICE_MAX;
    while (at > 0 && before(&p, &s->at[at - 1]))
        at--;
    if (at == most)
        return;
    if (s->n < most)
        s->n++;
    for (unsigned i = s->n - 1; i > at; i--)
        s->at[i] = s->at[i - 1];
    s->at[at] = p;
}

static bool is_her(const struct advice_server *s, const struct person *p) {
    return pool_same_person(p, s->who->person);
}

static void find_focus(const struct advice *a, struct advice_server *s) {
    for (size_t i = 0; i < progress_people(a->progress); i++)
        if (is_her(s, progress_person(a->progress, i)))
            s->has_focus = progress_focus(a->progress, i, &s->focus);
    if (s->has_focus)
        s->focus_drill = drill_find(a->drills, s->focus.drill);
}

/* ---- where to aim ----------------------------------------------------------- */

/* False unless her own scatter gives advice that is worth a change. */
static bool aim_of(const struct advice *a, size_t person, struct advice_aim *out) {
    struct aimed_advice v;
    struct aimed_counts counts[AIMED_TYPES];
    enum serve_type type = aimed_usual_type(a->aimed, person);
    aimed_by_type(a->aimed, person, counts);
    if (rate_may_aim(counts[type].serves_n, counts[type].aimed_n) == SAY_AIM_GENERAL)
        return false; /* without the work of it */
    aimed_advise(a->aimed, person, type, a->arena, &v);
    if (v.state != AIMED_ADVICE || v.answer.say == SAY_AIM_GENERAL)
        return false;
    const struct aim_case *is = &v.answer.by[AIM_AS_IT_IS];
    *out = (struct advice_aim){.type = type,
                               .say = v.answer.say,
                               .aimed_n = v.answer.aimed_n,
                               .best = is->best,
                               .scatter = is->scatter,
                               .gain_frac = is->best.value - is->now,
                               .sure_frac = aim_gain(&v.answer).low};
    return aim_pays(&v.answer);
}

/* For the way in which her serves come down beside the aim most. */
static enum word_id word_of_bias(const struct scatter *s) {
    if (fabs(s->d_m) >= fabs(s->x_m))
        return s->d_m > 0 ? W_long : W_net;
    return s->x_m > 0 ? W_left : W_right;
}

/* Never beside a focus on the last metre, which may contradict it. */
static void find_aim(const struct advice *a, struct advice_server *s) {
    struct advice_priority p = {.way = ADVICE_AIM};
    if (s->has_focus && str_same(s->focus.drill, last_metre))
        return;
    for (size_t i = 0; i < aimed_people(a->aimed); i++)
        if (is_her(s, aimed_person(a->aimed, i)))
            s->has_aim = aim_of(a, i, &p.aim);
    if (!s->has_aim)
        return;
    double serves_n = s->who->type_n[p.aim.type];
    p.cost = cost_of(a, p.aim.gain_frac * serves_n, p.aim.sure_frac * serves_n, 1);
    p.cost.has_set &= s->say >= SAY_SEASON;
    p.drill = drill_treats(a, s, word_of_bias(&p.aim.scatter));
    put(s, p);
}

/* ---- all of hers ------------------------------------------------------------ */

static void find_misses(const struct advice *a, size_t server, struct advice_server *s) {
    for (unsigned k = 0; k < FAULTS_MISSES; k++) {
        if (s->who->missed[k] < LEAST_MISSED)
            continue;
        struct advice_priority p = priority_of(a, server, s, (enum faults_miss)k);
        if (!is_focus(s, &p))
            put(s, p);
    }
}

struct advice_server advice_server(const struct advice *a, size_t server) {
    struct advice_server s = {.who = &a->faults->servers[server]};
    s.say = rate_may_say(s.who->counts.serves);
    s.type = faults_type(s.who);
    find_focus(a, &s);
    if (s.say < SAY_COMPARISON)
        return s;
    s.has_types = cost_of_types(s.who, &s.types);
    find_aim(a, &s);
    find_misses(a, server, &s);
    return s;
}
