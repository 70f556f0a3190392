/* A practice: series by drill, player after player. */
#include "lifelike_parts.h"

#include <stdio.h>

enum series { SERIES_SERVES, SERIES_RING, SERIES_TRIES, SERIES_RECEIVED };

struct drill {
    const char *name, *aim;
    const char *observe;
    unsigned observed;
    enum series series;
};

static const struct drill drills[] = {
    {"Ring toss", "", "toss", 1, SERIES_RING},
    {"Long-arm toss", "", "toss", 1, SERIES_SERVES},
    {"Height gate", "", "toss", 1, SERIES_TRIES},
    {"Line toss", " a6", "toss", 1, SERIES_SERVES},
    {"Paced start", "", "approach", 2, SERIES_SERVES},
    {"Three-step rhythm", "", "approach jump", 6, SERIES_SERVES},
    {"Dot call", "", "hit", 8, SERIES_SERVES},
    {"Last metre", " ad6", "none", 0, SERIES_SERVES},
    {"Middle start", " a6", "none", 0, SERIES_SERVES},
    {"Line with a margin", " a5", "none", 0, SERIES_SERVES},
    {"Seam and shirt", "", "none", 0, SERIES_RECEIVED},
    {"Same ritual", "", "nerve", 16, SERIES_SERVES},
};

struct session {
    struct dice dice;
    struct buf *out;
    const struct life_team *team;
    struct life_style style;
    unsigned written, number;
};

static const struct life_player *player_draw(struct session *s) {
    return &s->team->players[dice_below(&s->dice, LIFE_PLAYERS)];
}

static void ring_put(struct session *s) {
    buf_printf(s->out, "ring %s\n", dice_in(&s->dice, 700) ? "1.0" : "0.7");
    for (unsigned i = 0; i < 6; i++) {
        const struct life_player *p = player_draw(s);
        unsigned hits = 4 + dice_below(&s->dice, 7), near = dice_below(&s->dice, 11 - hits);
        buf_printf(s->out, "toss %u %u/10", p->shirt, hits);
        if (near)
            buf_printf(s->out, " tn%u", near);
        if (10 - hits - near)
            buf_printf(s->out, " tl%u", 10 - hits - near);
        buf_char(s->out, '\n');
    }
}

static void tries_put(struct session *s) {
    for (unsigned i = 0; i < 6; i++)
        buf_printf(s->out, "tries %u %u/10\n", player_draw(s)->shirt,
                   4 + dice_below(&s->dice, 7));
}

/* Half of what is in play in a match just lands in when nobody receives. */
static enum life_outcome outcome_draw(struct session *s, const struct life_player *p,
                                      const struct drill *k) {
    enum life_outcome o = life_outcome_draw(&s->dice, p);

    if (o == LO_OVERLAP || o == LO_REPLAY || o == LO_SCREEN)
        return LO_IN;
    if (k->series != SERIES_RECEIVED && !life_outcome_error(o))
        return LO_IN;
    return o;
}

static void serve_put(struct session *s, const struct life_player *p, const struct drill *k,
                      bool again) {
    struct life_line line = {.style = s->style, .player = p, .observed = k->observed};
    char receiver[8];

    line.outcome = outcome_draw(s, p, k);
    line.aimed = k->aim[0] == '\0';
    if (life_outcome_in_play(line.outcome) && dice_in(&s->dice, 800)) {
        snprintf(receiver, sizeof receiver, "by%u", player_draw(s)->shirt);
        line.receiver = receiver;
    }
    if (k->series != SERIES_RECEIVED && dice_in(&s->dice, 300))
        line.repeat = 2 + dice_below(&s->dice, 4);
    if (again && dice_in(&s->dice, 600))
        buf_char(s->out, '.');
    else
        buf_printf(s->out, "%u", p->shirt);
    life_line_put(s->out, &s->dice, &line);
    buf_char(s->out, '\n');
    s->written++;
}

static void serves_put(struct session *s, const struct drill *k) {
    unsigned n = 4 + dice_below(&s->dice, 6);

    for (unsigned i = 0; i < n; i++) {
        const struct life_player *p = player_draw(s);
        unsigned each = 3 + dice_below(&s->dice, 8);
        for (unsigned j = 0; j < each; j++)
            serve_put(s, p, k, j > 0);
    }
}

static void series_put(struct session *s) {
    const struct drill *k = &drills[dice_below(&s->dice, sizeof drills / sizeof drills[0])];

    buf_printf(s->out, "\ndrill \"%s\"%s\n", k->name, k->aim);
    if (s->style.detail != LIFE_BARE)
        buf_printf(s->out, "observe %s\n", k->observe);
    if (k->series == SERIES_RING)
        ring_put(s);
    else if (k->series == SERIES_TRIES)
        tries_put(s);
    serves_put(s, k);
    if (dice_in(&s->dice, 150))
        buf_printf(s->out, "jumps %u %u\n", player_draw(s)->shirt,
                   10 + dice_below(&s->dice, 30));
}

static void head_put(struct session *s, unsigned day) {
    buf_add(s->out, STR("notation 1\npractice "));
    life_date_put(s->out, day);
    buf_printf(s->out, " 19:00\nteam %c \"%s\" women\n", s->team->letter, s->team->name);
    if (s->style.whole)
        life_players_put(s->out, s->team);
    else
        buf_add(s->out, STR("squad \"squad.9m\"\n"));
    for (unsigned i = 0; i < 3; i++) {
        const struct life_player *p = &s->team->players[i];
        buf_printf(s->out, "focus %u %s \"Ring toss\" 14/20\n", p->shirt,
                   life_marks[p->habit].word);
    }
}

unsigned life_practice(struct buf *out, const struct life_team *ours, unsigned serve_n,
                       struct life_style style, unsigned day, uint64_t seed) {
    struct session s = {.dice = {seed}, .out = out, .team = ours, .style = style};

    head_put(&s, day);
    while (s.written < serve_n)
        series_put(&s);
    return s.written;
}
