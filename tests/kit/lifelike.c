/* A match, rally by rally. Court order: place 0 serves (zone 1), place k
 * stands in zone k + 1. Rules as in the FIVB rules 2025-2028: 6.2 and 6.3
 * (sets), 7.6.2 and 12.2 (rotation, service), 12.1 (first service), 15.1 and
 * 15.6 (interruptions, substitutions). */
#include "lifelike_parts.h"

#include <stdio.h>

enum { OURS, THEIRS };
enum { STARTS, SITS, CAME_IN, WENT_OUT, DONE };
enum event { NOTHING, PENALTY, GAP, FORFEIT };

struct side_play {
    const struct life_team *team;
    uint8_t court[LIFE_COURT];
    uint8_t state[LIFE_PLAYERS];
    uint8_t partner[LIFE_PLAYERS];     /* of a substitute: whom she stands in for */
    unsigned points, sets, subs, timeouts;
};

struct play {
    struct dice dice;
    struct buf *out;
    struct life_style style;
    struct side_play sides[2];
    unsigned serving, rallies, run;
    unsigned clock_s;
    unsigned observed;
    struct life_totals totals;
    bool cancelling;
    int last_server;                   /* index of the last line's server, -1: none */
    unsigned last_side;
    bool video, turns_written;
};

static unsigned target(const struct play *p) {
    return p->sides[OURS].sets + p->sides[THEIRS].sets == 4 ? 15 : 25;
}

static bool set_over(const struct play *p) {
    unsigned a = p->sides[OURS].points, b = p->sides[THEIRS].points;
    unsigned most = a > b ? a : b, least = a > b ? b : a;

    return most >= target(p) && most >= least + 2;
}

static unsigned shirt(const struct side_play *s, unsigned player) {
    return s->team->players[player].shirt;
}

static void rotate(struct side_play *s) {
    uint8_t first = s->court[0];

    for (unsigned i = 0; i + 1 < LIFE_COURT; i++)
        s->court[i] = s->court[i + 1];
    s->court[LIFE_COURT - 1] = first;
}

/* Six of twelve, mostly the same ones, turned by some places. */
static void lineup_draw(struct dice *d, struct side_play *s) {
    unsigned turned = dice_below(d, LIFE_COURT);

    for (unsigned i = 0; i < LIFE_PLAYERS; i++)
        s->state[i] = i < LIFE_COURT ? STARTS : SITS;
    for (unsigned i = 0; i < LIFE_COURT; i++)
        s->court[i] = (uint8_t)((i + turned) % LIFE_COURT);
    if (dice_in(d, 250)) {
        unsigned k = dice_below(d, LIFE_COURT);
        unsigned in = LIFE_COURT + dice_below(d, LIFE_PLAYERS - LIFE_COURT);
        s->state[s->court[k]] = SITS;
        s->state[in] = STARTS;
        s->court[k] = (uint8_t)in;
    }
    s->points = s->subs = s->timeouts = 0;
}

static void lineup_put(struct play *p, unsigned side) {
    const struct side_play *s = &p->sides[side];

    buf_printf(p->out, "lineup %c", s->team->letter);
    for (unsigned i = 0; i < LIFE_COURT; i++)
        buf_printf(p->out, " %u", shirt(s, s->court[i]));
    buf_char(p->out, '\n');
}

static unsigned place_of(const struct side_play *s, unsigned player) {
    unsigned i = 0;

    while (s->court[i] != player)
        i++;
    return i;
}

static bool shown(const struct play *p, unsigned side) {
    return side == OURS || !p->style.ours_only;
}

static void sub_put(struct play *p, unsigned side, unsigned in, unsigned out) {
    struct side_play *s = &p->sides[side];

    if (shown(p, side))
        buf_printf(p->out, "sub %c %u for %u\n", s->team->letter, shirt(s, in), shirt(s, out));
    s->court[place_of(s, out)] = (uint8_t)in;
    s->subs++;
}

/* A starter leaves once and comes back once, for the same player (15.6). */
static void sub_come_in(struct play *p, unsigned side, unsigned place) {
    struct side_play *s = &p->sides[side];
    unsigned out = s->court[place];

    if (s->subs >= 5 || s->state[out] != STARTS)
        return;
    for (unsigned in = 0; in < LIFE_PLAYERS; in++) {
        if (s->state[in] != SITS || !dice_in(&p->dice, 400))
            continue;
        sub_put(p, side, in, out);
        s->state[in] = CAME_IN;
        s->state[out] = WENT_OUT;
        s->partner[in] = (uint8_t)out;
        return;
    }
}

static void sub_go_back(struct play *p, unsigned side, unsigned place) {
    struct side_play *s = &p->sides[side];
    unsigned out = s->court[place];

    if (s->subs >= 6 || s->state[out] != CAME_IN)
        return;
    sub_put(p, side, s->partner[out], out);
    s->state[s->partner[out]] = s->state[out] = DONE;
}

static void checkpoint_put(struct play *p) {
    buf_printf(p->out, "%u-%u\n", p->sides[OURS].points, p->sides[THEIRS].points);
}

/* What the benches do before a serve. With `record ours` the score stands
 * only where our serve follows, when it is the same however one counts. */
static void interruptions_put(struct play *p) {
    unsigned receiving = !p->serving;
    struct side_play *r = &p->sides[receiving];
    bool here = shown(p, p->serving);

    if (p->run >= 3 && r->timeouts < 2 && here && dice_in(&p->dice, 220)) {
        buf_printf(p->out, "timeout %c\n", r->team->letter);
        r->timeouts++;
        p->clock_s += 35;
    }
    if (here && p->rallies && dice_in(&p->dice, 40))
        checkpoint_put(p);
    if (p->run == 0 && dice_in(&p->dice, 60))
        sub_come_in(p, p->serving, 0);
    if (p->run == 0)
        sub_go_back(p, p->serving, LIFE_COURT - 1);
    if (dice_in(&p->dice, 4))
        sub_come_in(p, receiving, 1 + dice_below(&p->dice, LIFE_COURT - 1));
    if (p->run && dice_in(&p->dice, 2))
        sub_come_in(p, p->serving, 0);
}

static void server_put(struct play *p, unsigned player) {
    const struct side_play *s = &p->sides[p->serving];
    bool again = p->last_server == (int)player && p->last_side == p->serving;

    if (again && dice_in(&p->dice, 700))
        buf_char(p->out, '.');
    else if (p->serving == THEIRS)
        buf_printf(p->out, "%c%u", s->team->letter, shirt(s, player));
    else
        buf_printf(p->out, "%u", shirt(s, player));
    p->last_server = (int)player;
    p->last_side = p->serving;
}

/* Back-row players and the libero take most passes. */
static unsigned receiver_draw(struct play *p) {
    static const uint16_t weights[LIFE_COURT + 1] = {150, 20, 20, 110, 210, 190, 300};
    const struct side_play *s = &p->sides[!p->serving];
    unsigned at = dice_pick(&p->dice, weights, LIFE_COURT + 1);

    return at < LIFE_COURT ? shirt(s, s->court[at]) : shirt(s, LIFE_PLAYERS);
}

static bool rally_won(struct play *p, enum life_outcome o) {
    static const unsigned won[] = {
        [LO_ACE] = 1000, [LO_IN3] = 300, [LO_IN2] = 380, [LO_IN1] = 520, [LO_PLAY] = 380,
        [LO_OVER] = 640, [LO_OVERLAP] = 1000, [LO_REPLAY] = 0
    };
    return !life_outcome_error(o) && dice_in(&p->dice, won[o]);
}

static void count(struct play *p, enum life_outcome o) {
    struct life_totals *t = &p->totals;
    bool ace = o == LO_ACE || o == LO_OVERLAP;

    t->written++;
    if (o == LO_REPLAY || p->cancelling)
        return;
    t->attempts[p->serving]++;
    t->aces[p->serving] += ace;
    t->errors[p->serving] += life_outcome_error(o);
    t->broke[p->serving] += ace || o == LO_OVER || o == LO_IN1;
}

static void serve_put(struct play *p, enum life_outcome o, unsigned hitter, bool won, bool say) {
    static const unsigned per_mille[] = {100, 450, 850};
    const struct side_play *s = &p->sides[p->serving];
    struct life_line line = {.style = p->style, .outcome = o, .observed = p->observed};
    char receiver[8];

    p->clock_s += 18 + dice_below(&p->dice, 28);
    if (!shown(p, p->serving))
        return;
    line.player = p->serving == OURS ? &s->team->players[hitter] : NULL;
    line.aimed = true;
    if ((life_outcome_in_play(o) || (o == LO_ACE && dice_in(&p->dice, 500))) &&
        dice_in(&p->dice, per_mille[p->style.detail])) {
        snprintf(receiver, sizeof receiver, "by%u", receiver_draw(p));
        line.receiver = receiver;
    }
    if (life_outcome_in_play(o) && (say || dice_in(&p->dice, 80)))
        line.rally = won ? "won" : "lost";
    if (p->video)
        line.time_s = p->clock_s;
    server_put(p, hitter);
    life_line_put(p->out, &p->dice, &line);
    buf_char(p->out, '\n');
    count(p, o);
    if (dice_in(&p->dice, 3))
        buf_printf(p->out, "note \"%s\"\n", life_remark(&p->dice));
}

static void score(struct play *p, unsigned winner) {
    p->sides[winner].points++;
    p->rallies++;
    if (winner == p->serving) {
        p->run++;
        return;
    }
    if (p->turns_written && p->serving == THEIRS && !set_over(p))
        buf_printf(p->out, "turn %c %u\n", p->sides[THEIRS].team->letter, p->run);
    p->serving = winner;
    p->run = 0;
    rotate(&p->sides[winner]);
}

/* The wrong player serves: the point is theirs, the order goes on. */
static void wrong_server(struct play *p) {
    struct side_play *s = &p->sides[p->serving];
    unsigned hitter = s->court[1 + dice_below(&p->dice, LIFE_COURT - 1)];

    p->last_server = -1;
    serve_put(p, LO_ORDER, hitter, false, false);
    score(p, !p->serving);
}

/* Found late: the points of the wrong server are taken back (7.7.2). */
static void wrong_server_late(struct play *p) {
    struct side_play *s = &p->sides[p->serving];
    unsigned hitter = s->court[1 + dice_below(&p->dice, LIFE_COURT - 1)];
    unsigned n = 1 + dice_below(&p->dice, 3);

    p->cancelling = true;
    for (unsigned i = 0; i < n; i++)
        serve_put(p, LO_IN2, hitter, true, true);
    p->cancelling = false;
    if (shown(p, p->serving))
        buf_printf(p->out, "cancel %c %u\n", s->team->letter, n);
    p->last_server = -1;
    serve_put(p, LO_ORDER, hitter, false, false);
    score(p, !p->serving);
}

/* A point without a serve; what the serve above came to has been said. It is
 * no part of a turn that is written as a number. */
static void penalty(struct play *p) {
    unsigned winner = dice_below(&p->dice, 2), run = p->run;
    bool turns = p->turns_written, keeps = winner == p->serving;

    buf_printf(p->out, "point %c \"delay\"\n", p->sides[winner].team->letter);
    p->turns_written = false;
    score(p, winner);
    p->turns_written = turns;
    if (keeps)
        p->run = run;
}

/* Some rallies that nobody wrote down. */
static void gap(struct play *p) {
    unsigned n = 2 + dice_below(&p->dice, 5);
    bool turns = p->turns_written;

    p->turns_written = false;
    for (unsigned i = 0; i < n && p->sides[OURS].points < 22 && p->sides[THEIRS].points < 22; i++)
        score(p, dice_below(&p->dice, 2));
    buf_printf(p->out, "gap %u-%u %c\n", p->sides[OURS].points, p->sides[THEIRS].points,
               p->sides[p->serving].team->letter);
    p->turns_written = turns;
    p->last_server = -1;
    p->run = 0;
}

static void plan_put(struct play *p) {
    static const char *const seams[] = {"5-6", "d5", "1-6", "6"};

    if (dice_in(&p->dice, 500))
        buf_printf(p->out, "plan %s\n", seams[dice_below(&p->dice, 4)]);
    else
        buf_printf(p->out, "plan by%u\n",
                   shirt(&p->sides[THEIRS], p->sides[THEIRS].court[dice_below(&p->dice, 6)]));
}

/* A team that cannot go on: the other gets the missing points (6.4.3). */
static void forfeit(struct play *p) {
    unsigned loser = dice_below(&p->dice, 2);
    unsigned least = p->sides[loser].points + 2;

    buf_printf(p->out, "forfeit %c\n", p->sides[loser].team->letter);
    p->sides[!loser].points = least > target(p) ? least : target(p);
}

/* What comes between this serve and the next. With `record ours` nobody can
 * tell afterwards whose serve the last rally was, so the line has to say. */
static enum event event_draw(struct play *p, enum life_outcome o) {
    if (o == LO_REPLAY || !shown(p, p->serving))
        return NOTHING;
    if (p->style.rare && p->rallies > 10 && dice_in(&p->dice, 3))
        return GAP;
    if (p->style.rare && p->rallies > 20 && dice_in(&p->dice, 1))
        return FORFEIT;
    return dice_in(&p->dice, 2) ? PENALTY : NOTHING;
}

static void event_put(struct play *p, enum event e) {
    switch (e) {
    case NOTHING: break;
    case PENALTY: penalty(p); break;
    case GAP: gap(p); break;
    case FORFEIT: forfeit(p); break;
    }
}

static bool wrong_server_put(struct play *p) {
    const struct side_play *s = &p->sides[p->serving];

    if (!p->style.rare || p->run > 0 || p->rallies < 9 || target(p) < s->points + 7 ||
        !dice_in(&p->dice, 8))
        return false;
    if (dice_in(&p->dice, 600))
        wrong_server(p);
    else
        wrong_server_late(p);
    return true;
}

static void rally(struct play *p) {
    const struct side_play *s = &p->sides[p->serving];
    enum life_outcome o;
    enum event event;
    bool won, say;

    interruptions_put(p);
    if (wrong_server_put(p))
        return;
    o = life_outcome_draw(&p->dice, &s->team->players[s->court[0]]);
    won = rally_won(p, o);
    event = event_draw(p, o);
    say = event != NOTHING || (p->style.ours_only && s->points + 1 >= target(p));
    serve_put(p, o, s->court[0], won, say);
    if (o == LO_REPLAY)
        return;
    score(p, won ? p->serving : !p->serving);
    if (!set_over(p))
        event_put(p, event);
}

static void set_end_put(struct play *p) {
    unsigned a = p->sides[OURS].points, b = p->sides[THEIRS].points;

    if (!p->style.ours_only && dice_in(&p->dice, 40))
        buf_add(p->out, STR("end\n"));
    else
        buf_printf(p->out, "end %u-%u\n", a, b);
    p->sides[a > b ? OURS : THEIRS].sets++;
    p->totals.points[p->totals.set_n][OURS] = a;
    p->totals.points[p->totals.set_n++][THEIRS] = b;
}

static void set_play(struct play *p, unsigned number, unsigned first) {
    bool both = shown(p, THEIRS) && dice_in(&p->dice, 500);

    for (unsigned i = 0; i < 2; i++)
        lineup_draw(&p->dice, &p->sides[i]);
    p->serving = first;
    p->rallies = p->run = 0;
    p->last_server = -1;
    p->clock_s += number > 1 ? 180 : 0;
    buf_printf(p->out, "\nset %u %c\n", number, p->sides[first].team->letter);
    if (dice_in(&p->dice, 900))
        lineup_put(p, OURS);
    if (both)
        lineup_put(p, THEIRS);
    if (p->style.detail != LIFE_BARE && dice_in(&p->dice, 300))
        plan_put(p);
    while (!set_over(p))
        rally(p);
    set_end_put(p);
}

static void observe_put(struct buf *out, unsigned phases) {
    buf_add(out, STR("observe"));
    if (phases == (1u << LIFE_PHASES) - 1)
        buf_add(out, STR(" all"));
    else
        for (unsigned i = 0; i < LIFE_PHASES; i++)
            if (phases & (1u << i))
                buf_printf(out, " %s", life_phases[i]);
    buf_char(out, '\n');
}

static void head_put(struct play *p, unsigned day, const struct life_team *theirs) {
    const struct life_team *ours = p->sides[OURS].team;

    buf_add(p->out, STR("notation 1\nmatch "));
    life_date_put(p->out, day);
    buf_printf(p->out, " %02u:%02u \"Harbour League, round %u\"\n",
               14 + dice_below(&p->dice, 6), 15 * dice_below(&p->dice, 4), day % 365 / 7 + 1);
    if (dice_in(&p->dice, 500))
        buf_add(p->out, STR("venue \"Quay Street Hall\"\n"));
    buf_printf(p->out, "team %c \"%s\" women\n", ours->letter, ours->name);
    buf_printf(p->out, "team %c \"%s\"\n", theirs->letter, theirs->name);
    if (p->style.whole)
        life_players_put(p->out, ours);
    else
        buf_add(p->out, STR("squad \"squad.9m\"\n"));
    buf_printf(p->out, "record %s\n", p->style.ours_only ? "ours" : "both");
    if (p->style.detail == LIFE_BARE)
        return;
    observe_put(p->out, p->observed);
}

/* Other sets are begun by who did not begin the one before; the first and the
 * fifth by the toss (12.1). */
struct life_totals life_match(struct buf *out, const struct life_team *ours,
                              struct life_style style, unsigned day, uint64_t seed) {
    static const char letters[] = "ABCFGLMQST";
    struct life_team theirs;
    struct play p = {.dice = {seed}, .out = out, .style = style};
    unsigned first = dice_below(&p.dice, 2);

    life_team_draw(&theirs, letters[dice_below(&p.dice, sizeof letters - 1)],
                   dice_next(&p.dice));
    p.sides[OURS].team = ours;
    p.sides[THEIRS].team = &theirs;
    p.observed = 1 + dice_below(&p.dice, 31);
    p.video = style.detail == LIFE_RICH && dice_in(&p.dice, 600);
    p.turns_written = style.rare && style.ours_only && dice_in(&p.dice, 400);
    p.clock_s = 60 + dice_below(&p.dice, 240);
    head_put(&p, day, &theirs);
    for (unsigned n = 1; p.sides[OURS].sets < 3 && p.sides[THEIRS].sets < 3; n++) {
        if (n == 5)
            first = dice_below(&p.dice, 2);
        set_play(&p, n, first);
        first = !first;
    }
    p.totals.sets_won[OURS] = p.sides[OURS].sets;
    p.totals.sets_won[THEIRS] = p.sides[THEIRS].sets;
    return p.totals;
}
