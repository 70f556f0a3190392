#include "scene.h"

#include "dice.h"

enum { SERVERS_MAX = 18, SERVES_MAX = 2000, ON_COURT = 6 };

static const struct {
    unsigned shirt;
    const char *name;
    enum third third;
    unsigned paces;
} people[SERVERS_MAX] = {
    {7, "Mira Havelin", THIRD_MIDDLE, 4},
    {12, "Ana Lindbro", THIRD_RIGHT, 3},
    {4, "Elif Ayk\xC4\xB1n", THIRD_RIGHT, 2},
    {3, "Zofia Br\xC4\x85zel", THIRD_RIGHT, 3},
    {9, "In\xC3\xAAs Dourado", THIRD_LEFT, 4},
    {10, "Nora Haldane", THIRD_MIDDLE, 2},
    {11, "Rosa Klimov\xC3\xA1", THIRD_MIDDLE, 3},
    {14, "Tess Okoro", THIRD_RIGHT, 4},
    {2,
     "L\xC3\xA9"
     "a Marsan",
     THIRD_RIGHT, 1},
    {8, "Yuna Shirato", THIRD_LEFT, 3},
    {15, "Ida Sorell", THIRD_MIDDLE, 3},
    {16, "Kaya Brandt", THIRD_RIGHT, 3},
    {17, "Oda Fjell", THIRD_LEFT, 2},
    {18, "Pia Torv", THIRD_MIDDLE, 4},
    {20, "Runa Vale", THIRD_RIGHT, 3},
    {21, "Sina Moor", THIRD_MIDDLE, 3},
    {22, "Vera Lund", THIRD_LEFT, 3},
    {23, "Wanda Kerr", THIRD_RIGHT, 2},
};

struct scene scene_usual(void) {
    return (struct scene){.seed = 20261205,
                          .servers = 10,
                          .sets = 4,
                          .set_points = 25,
                          .place_per_mille = 720,
                          .zone_per_mille = 400,
                          .start_per_mille = 1000,
                          .phases = PHASE_TOSS | PHASE_JUMP,
                          .mark_per_mille = 60};
}

struct played scene_serve(enum outcome outcome, unsigned shirt) {
    return (struct played){
        .said = {.outcome = (uint8_t)outcome, .by = SHIRT_NONE, .shirt = (uint8_t)shirt},
        .line = 1,
        .set = 1,
        .rally = 1,
        .side = OURS,
        .server = (uint8_t)shirt,
        .charged = (uint8_t)shirt,
        .turn_serve = 1};
}

static struct match *match_new(struct scene s, struct arena *a) {
    struct match *m = arena_alloc(a, 1, sizeof *m);
    m->file = STR("herons-foxes.9m");
    m->date = (struct date){2026, 12, 5};
    m->occasion = true;
    m->timed = true;
    m->minute = 18 * 60 + 30;
    m->title = STR("Harbour League, round 2");
    m->venue = STR("Quay Street Hall");
    m->ours_only = s.ours_only;
    m->net_cm = 224;
    m->profile = (struct profile){
        .name = "fivb", .set_points = 25, .decider_points = 15, .lead = 2, .sets_to_win = 3};
    m->team_n = 2;
    m->teams[OURS] = (struct team){.letter = 'H', .net = 'w', .name = STR("Harbour Herons")};
    m->teams[THEIRS] = (struct team){.letter = 'G', .name = STR("Granite Foxes")};
    struct team *t = &m->teams[OURS];
    t->declared = true;
    t->players = arena_alloc(a, SERVERS_MAX, sizeof *t->players);
    for (unsigned i = 0; i < s.servers; i++) {
        t->players[i] =
            (struct player){.shirt = (uint8_t)people[i].shirt, .name = str_of(people[i].name)};
        t->by_shirt[people[i].shirt] = (uint8_t)(i + 1);
    }
    t->player_n = s.servers;
    if (s.long_name)
        t->name = t->players[0].name = str_of(s.long_name);
    return m;
}

/* A third of the net; else a zone of the back row, its last metre or a seam. */
static void give_zone(struct spot *at, bool net, int x_cm, struct dice *dice) {
    static const uint8_t net_zones[] = {4, 3, 2}, zones[] = {5, 6, 1};
    int third = x_cm / 300;
    *at = (struct spot){PLACE_ZONE, net ? net_zones[third] : zones[third], 0, 0, 0};
    if (net || dice_in(dice, 500))
        return;
    at->kind = dice_in(dice, 500) ? PLACE_DEEP : dice_in(dice, 500) ? PLACE_SEAM : PLACE_DEEP_SEAM;
    if (at->kind != PLACE_DEEP) {
        at->zone = third == 0 ? 5 : 1;
        at->seam = 6;
    }
}

static void give_place(struct played *p, const struct scene *s, struct dice *dice) {
    struct spot *at = &p->said.landing;
    enum outcome o = (enum outcome)p->said.outcome;
    bool metres = dice_in(dice, s->place_per_mille), zone = dice_in(dice, s->zone_per_mille);
    int x = dice_around(dice, 380, 180), d = dice_around(dice, 650, 120);
    x = x < 20 ? 20 : x > 880 ? 880 : x;
    d = d < 120 ? 120 : d > 885 ? 885 : d;
    if (o == OUTCOME_FOOT)
        return;
    if (o == OUTCOME_LONG)
        d = 900 + dice_between(dice, 10, 140);
    if (o == OUTCOME_RIGHT)
        x = -dice_between(dice, 10, 90);
    if (o == OUTCOME_LEFT)
        x = 900 + dice_between(dice, 10, 90);
    if (o == OUTCOME_NET)
        d = 0;
    if (metres)
        *at = (struct spot){PLACE_XD, 0, 0, (int16_t)x, (int16_t)d};
    else if (zone && o <= OUTCOME_NET)
        give_zone(at, o == OUTCOME_NET, x, dice);
}

/* By dice of their own, so that the serves are the same with and without marks. */
static void give_marks(struct played *p, const struct scene *s, struct dice *dice) {
    p->observed = (uint8_t)s->phases;
    for (unsigned m = 0; m < MARK_N; m++)
        if (mark_phase((enum mark)m) & s->phases && dice_in(dice, s->mark_per_mille))
            p->said.marks |= 1u << m;
}

static enum outcome draw_outcome(struct dice *dice, enum side side) {
    static const uint16_t ours[] = {65, 300, 260, 150, 30, 55, 85, 55, 10, 15, 10};
    static const uint16_t theirs[] = {30, 320, 300, 190, 20, 40, 40, 25, 15, 20, 5};
    static const enum outcome of[] = {OUTCOME_ACE,  OUTCOME_IN3,   OUTCOME_IN2, OUTCOME_IN1,
                                      OUTCOME_PLAY, OUTCOME_OVER,  OUTCOME_NET, OUTCOME_LONG,
                                      OUTCOME_LEFT, OUTCOME_RIGHT, OUTCOME_FOOT};
    return of[dice_pick(dice, side == OURS ? ours : theirs, 11)];
}

static bool wins(struct dice *dice, enum outcome o) {
    if (o == OUTCOME_ACE)
        return true;
    if (o >= OUTCOME_NET)
        return false;
    return dice_in(dice, o == OUTCOME_OVER ? 600 : o == OUTCOME_IN1 ? 480 : 320);
}

struct game {
    struct scene scene;
    struct dice dice, marks;
    struct checked *out;
    unsigned turn[SIDE_N]; /* whose turn it is */
    unsigned line;
};

static void serve(struct game *g, struct set_result *set, enum side side, unsigned turn_serve,
                  enum rally *won) {
    struct checked *c = g->out;
    struct played *p = &c->played[c->played_n++];
    unsigned bench = g->scene.servers - ON_COURT, k = g->turn[side] % ON_COURT;
    /* Now and then someone comes in cold. */
    bool cold = side == OURS && bench > 0 && turn_serve == 1 && dice_in(&g->dice, 220);
    unsigned who = side == THEIRS ? k : cold ? ON_COURT + dice_below(&g->dice, bench) : k;
    *p = scene_serve(draw_outcome(&g->dice, side), side == OURS ? people[who].shirt : who + 2);
    p->line = ++g->line;
    p->set = (uint8_t)set->number;
    p->rally = (uint16_t)(set->points[0] + set->points[1] + 1);
    p->side = (uint8_t)side;
    p->turn_serve = (uint8_t)turn_serve;
    p->cold = cold;
    p->score_known = true;
    p->before[OURS] = (uint16_t)set->points[OURS];
    p->before[THEIRS] = (uint16_t)set->points[THEIRS];
    for (unsigned s = 0; s < SIDE_N; s++)
        if (set->points[s] + 1 >= (set->number == 5 ? 15 : g->scene.set_points) &&
            set->points[s] > set->points[s == OURS ? THEIRS : OURS])
            p->set_point |= (uint8_t)(1u << s);
    p->after_timeout = dice_in(&g->dice, 40);
    if (p->said.outcome == OUTCOME_ACE && dice_in(&g->dice, 600))
        p->said.by = (uint8_t)(dice_below(&g->dice, 6) + 2);
    give_place(p, &g->scene, &g->dice);
    if (side == OURS)
        give_marks(p, &g->scene, &g->marks);
    if (side == OURS && dice_in(&g->dice, g->scene.start_per_mille)) {
        p->third = (uint8_t)people[who].third;
        p->paces = (uint8_t)people[who].paces;
        p->has_start = HAS_PACES;
    }
    *won = wins(&g->dice, (enum outcome)p->said.outcome) ? RALLY_WON : RALLY_LOST;
    p->won = (uint8_t)*won;
}

static bool over(const struct set_result *s, unsigned target) {
    unsigned a = s->points[OURS], b = s->points[THEIRS];
    return (a >= target || b >= target) && (a > b ? a - b : b - a) >= 2;
}

static void play_set(struct game *g, unsigned number, enum side first) {
    struct checked *c = g->out;
    struct set_result *set = &c->sets[c->set_n++];
    enum side side = first;
    unsigned turn_serve = 1, target = number == 5 ? 15 : g->scene.set_points;
    *set = (struct set_result){.number = number,
                               .first = first,
                               .known = {true, !g->scene.ours_only},
                               .from = c->played_n};
    while (!over(set, target) && c->played_n + 1 < SERVES_MAX) {
        enum rally won;
        serve(g, set, side, turn_serve, &won);
        if (won == RALLY_WON) {
            set->points[side]++;
            turn_serve++;
            continue;
        }
        side = side == OURS ? THEIRS : OURS;
        set->points[side]++;
        g->turn[side]++;
        turn_serve = 1;
    }
    set->ended = true;
    set->to = c->played_n;
    c->sets_won[set->points[OURS] > set->points[THEIRS] ? OURS : THEIRS]++;
}

static void keep_ours(struct checked *c) {
    size_t n = 0;
    for (unsigned k = 0; k < c->set_n; k++) {
        struct set_result *set = &c->sets[k];
        size_t from = n;
        for (size_t i = set->from; i < set->to; i++)
            if (c->played[i].side == OURS)
                c->played[n++] = c->played[i];
        set->from = from;
        set->to = n;
    }
    c->played_n = n;
}

const struct checked *scene_play(struct scene scene, struct arena *a) {
    struct checked *c = arena_alloc(a, 1, sizeof *c);
    struct game g = {.scene = scene, .dice = {scene.seed}, .marks = {scene.seed + 1}, .out = c};
    c->match = match_new(scene, a);
    c->played = arena_alloc(a, SERVES_MAX, sizeof *c->played);
    for (unsigned i = 0; i < scene.sets; i++)
        play_set(&g, i + 1, i % 2 ? THEIRS : OURS);
    if (scene.ours_only)
        keep_ours(c);
    c->lines = g.line;
    c->phases = scene.phases;
    return c;
}

const struct checked *scene_of(struct played *serves, size_t n, struct arena *a) {
    struct checked *c = arena_alloc(a, 1, sizeof *c);
    struct scene scene = scene_usual();
    c->match = match_new(scene, a);
    c->played = serves;
    c->played_n = n;
    c->set_n = 1;
    c->sets[0] = (struct set_result){.number = 1, .first = OURS, .known = {true, true}, .to = n};
    c->lines = (unsigned)n;
    return c;
}

static struct played practice_serve(struct dice *dice, unsigned shirt, unsigned drill) {
    static const uint16_t shares[] = {780, 60, 110, 50};
    static const enum outcome of[] = {OUTCOME_IN, OUTCOME_NET, OUTCOME_LONG, OUTCOME_RIGHT};
    enum outcome o = of[dice_pick(dice, shares, 4)];
    struct played p = scene_serve(o, shirt);
    int x = dice_around(dice, 180, 90), d = dice_around(dice, 780, 80);
    x = x < 10 ? 10 : x;
    d = d > 895 ? 895 : d;
    p.set = 0;
    p.rally = 0;
    p.drill = (uint16_t)drill;
    if (o == OUTCOME_LONG)
        d = 900 + dice_between(dice, 5, 120);
    if (o == OUTCOME_RIGHT)
        x = -dice_between(dice, 5, 80);
    if (drill == 1 && o != OUTCOME_NET)
        p.said.landing = (struct spot){PLACE_XD, 0, 0, (int16_t)x, (int16_t)d};
    return p;
}

const struct checked *scene_practice(unsigned servers, unsigned each, struct arena *a) {
    struct checked *c = arena_alloc(a, 1, sizeof *c);
    struct scene scene = scene_usual();
    struct dice dice = {20261208};
    scene.servers = servers;
    struct match *m = match_new(scene, a);
    m->practice = true;
    m->team_n = 1;
    m->title = STR_NONE;
    c->match = m;
    c->drills = arena_alloc(a, 2, sizeof *c->drills);
    c->drills[0] = (struct drill){.name = STR("Serve to the last metre of zone 5"),
                                  .aim = {PLACE_DEEP, 5, 0, 0, 0},
                                  .line = 10};
    c->drills[1] = (struct drill){.name = STR("Cold serve"), .line = 90};
    c->drill_n = 2;
    c->tries = arena_alloc(a, servers, sizeof *c->tries);
    for (unsigned i = 0; i < servers; i++)
        c->tries[c->tries_n++] = (struct tries){.kind = STMT_TOSS,
                                                .shirt = (uint8_t)people[i].shirt,
                                                .hits = dice_below(&dice, 21),
                                                .n = 20,
                                                .ring_cm = 100};
    c->played = arena_alloc(a, 2 * servers * each + 1, sizeof *c->played);
    for (unsigned drill = 1; drill <= 2; drill++)
        for (unsigned i = 0; i < servers * each; i++)
            c->played[c->played_n++] = practice_serve(&dice, people[i % servers].shirt, drill);
    return c;
}
