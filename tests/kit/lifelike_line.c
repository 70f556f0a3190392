/* What a scorer writes behind the server. */
#include "lifelike_parts.h"

const char *const life_phases[LIFE_PHASES] = {"toss", "approach", "jump", "hit", "nerve"};

/* Which error a fault leads to: common practice, no source. */
const struct life_mark life_marks[LIFE_MARKS] = {
    {"td", 0, LO_NET},  {"tu", 0, LO_LONG}, {"tl", 0, LO_LEFT}, {"tr", 0, LO_RIGHT},
    {"tn", 0, LO_LONG}, {"tf", 0, LO_NET},  {"tb", 0, LO_NET},  {"as", 1, LO_NET},
    {"al", 1, LO_LONG}, {"aw", 1, LO_RIGHT}, {"an", 1, LO_NET}, {"je", 2, LO_NET},
    {"jl", 2, LO_NET},  {"js", 2, LO_NET},  {"jb", 2, LO_IN3},  {"hb", 3, LO_NET},
    {"hs", 3, LO_IN3},  {"hw", 3, LO_LONG}, {"hd", 3, LO_NET},  {"hr", 3, LO_NET},
    {"hn", 3, LO_LONG}, {"ho", 3, LO_RIGHT}, {"hp", 3, LO_IN3}, {"nr", 4, LO_NET},
    {"nn", 4, LO_LONG},
};

/* Those that exclude the one before them: tu tr tf al jl. */
static const unsigned contrary = 1u << 1 | 1u << 3 | 1u << 5 | 1u << 8 | 1u << 12;

static const char *const outcome_words[] = {
    "ace", "in3", "in2", "in1", "play", "in", "over", "net", "long", "left", "right",
    "antenna", "ceiling", "mate", "foot", "clock", "drop", "screen", "order", "overlap",
    "replay"
};

bool life_outcome_error(enum life_outcome o) {
    return o >= LO_NET && o <= LO_ORDER;
}

bool life_outcome_in_play(enum life_outcome o) {
    return (o >= LO_IN3 && o <= LO_PLAY) || o == LO_OVER;
}

/* More into the net than long, more long than wide; then what happens once or
 * twice in a season. */
static enum life_outcome error_draw(struct dice *d, const struct life_player *p) {
    static const uint16_t weights[] = {440, 320, 80, 80, 18, 4, 6, 36, 6, 6, 4};

    if (dice_in(d, 300))
        return life_marks[p->habit].leads_to == LO_IN3 ? LO_NET : life_marks[p->habit].leads_to;
    return (enum life_outcome)(LO_NET + dice_pick(d, weights, 11));
}

enum life_outcome life_outcome_draw(struct dice *d, const struct life_player *p) {
    static const uint16_t passes[LIFE_TYPES][5] = {
        /* in3 in2  in1 play over */
        {300, 310, 250, 40, 60}, {370, 330, 200, 40, 40}, {480, 320, 120, 40, 20}
    };
    static const enum life_outcome play[5] = {LO_IN3, LO_IN2, LO_IN1, LO_PLAY, LO_OVER};
    unsigned at = dice_below(d, 1000);

    if (at < p->ace)
        return LO_ACE;
    if (at < p->ace + p->error)
        return error_draw(d, p);
    if (dice_in(d, 3))
        return dice_in(d, 500) ? LO_OVERLAP : LO_REPLAY;
    return play[dice_pick(d, passes[p->type], 5)];
}

void life_hundredths_put(struct buf *out, int hundredths, bool sign) {
    int size = hundredths < 0 ? -hundredths : hundredths;

    if (hundredths < 0)
        buf_char(out, '-');
    else if (sign)
        buf_char(out, '+');
    if (size % 10)
        buf_printf(out, "%d.%02d", size / 100, size % 100);
    else
        buf_printf(out, "%d.%d", size / 100, size % 100 / 10);
}

static int within(int low, int value, int high) {
    return value < low ? low : value > high ? high : value;
}

/* A place in the receiving court, in one of the spellings for it. */
static void court_place_put(struct buf *out, struct dice *d, enum life_detail detail) {
    static const char *const zones[] = {"1", "2", "3", "4", "5", "6"};
    static const char *const seams[] = {"1-6", "5-6", "1-2", "6-3", "5-4", "2-3", "3-4"};
    static const char *const deep[] = {"d1", "d5", "d6", "d1-6", "d5-6"};
    static const uint16_t zone_weights[] = {230, 40, 50, 40, 280, 360};
    static const uint16_t seam_weights[] = {300, 420, 50, 80, 50, 50, 50};
    static const uint16_t kinds[3][4] = {
        {950, 30, 20, 0}, {480, 170, 320, 30}, {380, 160, 260, 200}
    };

    switch (dice_pick(d, kinds[detail], 4)) {
    case 0: buf_add(out, str_of(zones[dice_pick(d, zone_weights, 6)])); break;
    case 1: buf_add(out, str_of(seams[dice_pick(d, seam_weights, 7)])); break;
    case 2: buf_add(out, str_of(deep[dice_below(d, 5)])); break;
    default:
        life_hundredths_put(out, within(5, dice_around(d, 440, 210), 895), false);
        buf_char(out, ',');
        life_hundredths_put(out, within(60, dice_around(d, 730, 120), 895), false);
    }
}

/* How far out or how deep in the net, in steps of 10 cm as people guess. */
static void margin_put(struct buf *out, struct dice *d, enum life_outcome o) {
    int cm = 10 * within(1, dice_around(d, 5, 4), 25);

    life_hundredths_put(out, o == LO_NET ? -within(10, cm, 80) : cm, o != LO_NET);
}

static void net_place_put(struct buf *out, struct dice *d) {
    if (dice_in(d, 800)) {
        buf_printf(out, " %d", dice_between(d, 2, 4));
        return;
    }
    buf_char(out, ' ');
    life_hundredths_put(out, within(30, dice_around(d, 450, 150), 870), false);
    buf_add(out, STR(",0.0"));
}

/* A place outside, which has to agree with the outcome: it stands in for the
 * margin. */
static void out_place_put(struct buf *out, struct dice *d, enum life_outcome o) {
    int over_cm = 10 * within(1, dice_around(d, 5, 4), 25);
    int x_cm = within(30, dice_around(d, 450, 200), 870);
    int d_cm = within(300, dice_around(d, 800, 90), 890);

    if (o == LO_LEFT)
        x_cm = 900 + over_cm;
    else if (o == LO_RIGHT)
        x_cm = -over_cm;
    else
        d_cm = 900 + over_cm;
    buf_char(out, ' ');
    life_hundredths_put(out, x_cm, false);
    buf_char(out, ',');
    life_hundredths_put(out, d_cm, false);
}

static void landing_put(struct buf *out, struct dice *d, const struct life_line *line) {
    static const unsigned per_mille[] = {350, 780, 930};
    enum life_outcome o = line->outcome;

    if (!dice_in(d, per_mille[line->style.detail]))
        return;
    if (o == LO_NET) {
        if (line->style.detail != LIFE_BARE && dice_in(d, 350))
            net_place_put(out, d);
    } else if (o == LO_ACE || o == LO_IN || life_outcome_in_play(o)) {
        if (life_outcome_in_play(o) && dice_in(d, 12))
            buf_add(out, STR(" going"));
        buf_char(out, ' ');
        court_place_put(out, d, line->style.detail);
    }
}

static void outcome_put(struct buf *out, struct dice *d, const struct life_line *line) {
    enum life_outcome o = line->outcome;
    bool out_of_court = o == LO_LONG || o == LO_LEFT || o == LO_RIGHT;

    buf_printf(out, " %s", outcome_words[o]);
    if (line->style.detail == LIFE_BARE)
        return;
    if (out_of_court && dice_in(d, 40))
        out_place_put(out, d, o);
    else if (out_of_court ? dice_in(d, 450) : o == LO_NET && dice_in(d, 120))
        margin_put(out, d, o);
}

static void start_put(struct buf *out, struct dice *d, const struct life_player *p) {
    unsigned paces = p->paces;

    if (dice_in(d, 40)) {
        buf_char(out, ' ');
        buf_char(out, 'p');
        life_hundredths_put(out, 10 * dice_between(d, 5, 85), false);
        return;
    }
    if (paces > 1 && dice_in(d, 120))
        paces--;
    buf_printf(out, " %c", p->third);
    if (dice_in(d, 850))
        buf_printf(out, "%u", paces);
    if (p->steps && dice_in(d, 800))
        buf_printf(out, "/%u", p->steps);
}

static void measures_put(struct buf *out, struct dice *d, const struct life_player *p) {
    struct {
        const char *letter;
        int hundredths;
        bool sign;
    } all[] = {
        {"t", within(280, dice_around(d, p->toss_cm, 40), 690), false},
        {"j", -within(10, dice_around(d, 40, 25), 150), true},
        {"c", within(-100, dice_around(d, 40, 35), 140), true},
        {"h", within(230, dice_around(d, 295, 12), 330), false},
        {"v", within(35, dice_around(d, p->type == LIFE_TOPSPIN ? 84 : 58, 7), 115) * 100, false},
        {"f", within(70, dice_around(d, p->type == LIFE_TOPSPIN ? 95 : 125, 8), 180), false},
        {"w", 10 * within(25, dice_around(d, 52, 10), 79), false},
    };

    for (unsigned i = 0; i < sizeof all / sizeof all[0]; i++) {
        if (!dice_in(d, i == 4 ? 350 : 120))
            continue;
        buf_printf(out, " %s", all[i].letter);
        if (i == 4)
            buf_printf(out, "%d", all[i].hundredths / 100);
        else
            life_hundredths_put(out, all[i].hundredths, all[i].sign && all[i].hundredths >= 0);
    }
}

/* Her habit shows before the error it leads to; else any fault now and then. */
static void marks_put(struct buf *out, struct dice *d, const struct life_line *line) {
    bool error = line->outcome >= LO_NET && line->outcome <= LO_RIGHT;
    bool shown = false;

    for (unsigned i = 0; i < LIFE_MARKS; i++) {
        unsigned per_mille = error ? 15 : 4;
        bool excluded = shown && contrary & 1u << i;
        if (i == line->player->habit)
            per_mille = life_marks[i].leads_to == line->outcome ? 620 : 110;
        shown = line->observed & (1u << life_marks[i].phase) && dice_in(d, per_mille) && !excluded;
        if (shown)
            buf_printf(out, " %s", life_marks[i].word);
    }
}

static void before_outcome_put(struct buf *out, struct dice *d, const struct life_line *line) {
    bool rich = line->style.detail == LIFE_RICH;

    if (dice_in(d, 25))
        buf_add(out, line->player->type == LIFE_TOPSPIN ? STR(" jumpfloat") : STR(" float"));
    if (dice_in(d, rich ? 550 : 150))
        start_put(out, d, line->player);
    if (line->aimed && dice_in(d, rich ? 400 : 60)) {
        buf_add(out, STR(" a"));
        court_place_put(out, d, line->style.detail);
    }
    if (dice_in(d, rich ? 80 : 15))
        buf_add(out, dice_in(d, 600) ? STR(" go") : STR(" safe"));
    if (dice_in(d, rich ? 300 : 40))
        measures_put(out, d, line->player);
    marks_put(out, d, line);
}

/* No ball was hit, or nothing may follow: the line ends with its outcome. */
static bool stops_at_outcome(enum life_outcome o) {
    return o >= LO_ANTENNA;
}

void life_line_put(struct buf *out, struct dice *d, const struct life_line *line) {
    if (line->style.detail != LIFE_BARE && line->player)
        before_outcome_put(out, d, line);
    outcome_put(out, d, line);
    if (!stops_at_outcome(line->outcome)) {
        landing_put(out, d, line);
        if (line->receiver)
            buf_printf(out, " %s", line->receiver);
    }
    if (line->rally)
        buf_printf(out, " %s", line->rally);
    if (line->time_s >= 3600)
        buf_printf(out, " %u:%02u:%02u", line->time_s / 3600, line->time_s / 60 % 60,
                   line->time_s % 60);
    else if (line->time_s)
        buf_printf(out, " %u:%02u", line->time_s / 60, line->time_s % 60);
    if (line->repeat > 1)
        buf_printf(out, " x%u", line->repeat);
    if (dice_in(d, 4))
        buf_add(out, STR(" ?"));
    if (dice_in(d, line->style.detail == LIFE_BARE ? 1 : 6))
        buf_printf(out, "  # %s", life_remark(d));
}
