/* A serve, and what belongs to it, in words. */
#include <stdlib.h>

#include "cmd/aloud.h"

void aloud_meaning(struct buf *b, enum word_class class, unsigned value) {
    for (unsigned id = 0; id < W_N; id++) {
        const struct word_info *w = word_info((enum word_id)id);

        if (w->class == class && w->value == value) {
            buf_add(b, str_of(w->meaning));
            return;
        }
    }
}

void aloud_decimal(struct buf *b, int hundredths) {
    int whole = abs(hundredths) / 100, part = abs(hundredths) % 100;

    buf_printf(b, "%s%d.", hundredths < 0 ? "-" : "", whole);
    if (part % 10)
        buf_printf(b, "%02d", part);
    else
        buf_printf(b, "%d", part / 10);
}

void aloud_spot(struct buf *b, struct spot s) {
    switch (s.kind) {
    case PLACE_ZONE:
        buf_printf(b, "zone %u", s.zone);
        break;
    case PLACE_SEAM:
        buf_printf(b, "the seam of zones %u and %u", s.zone, s.seam);
        break;
    case PLACE_DEEP:
        buf_printf(b, "the last metre of zone %u", s.zone);
        break;
    case PLACE_DEEP_SEAM:
        buf_printf(b, "the last metre of the seam of zones %u and %u", s.zone, s.seam);
        break;
    case PLACE_XD:
        aloud_decimal(b, s.x_cm);
        buf_add(b, STR(" m from the server's right and "));
        aloud_decimal(b, s.d_cm);
        buf_add(b, STR(" m from the net"));
        break;
    }
}

void aloud_person(struct aloud *a, char letter, unsigned shirt) {
    /* Whose a shirt without a letter is may stand in a squad file that was not read. */
    bool known = !a->match->header_unread;
    enum side side = letter || known ? match_side(a->match, letter) : SIDE_NONE;
    const struct player *p = NULL;

    if (side < (enum side)a->match->team_n)
        p = team_find(&a->match->teams[side], shirt);
    if (letter && !(known && side == OURS))
        buf_char(a->out, letter);
    buf_printf(a->out, "%u", shirt);
    if (p && p->name.n)
        buf_printf(a->out, " %.*s", STR_ARG(p->name));
}

/* Parts that consist of items; what comes first has nothing before it. */
struct list {
    struct buf *out;
    size_t from;
};

static struct buf *behind(struct list *l, struct str between) {
    if (l->out->n > l->from)
        buf_add(l->out, between);
    return l->out;
}

static struct buf *item(struct list *l) {
    return behind(l, STR(", "));
}

static struct buf *part(struct list *l) {
    return behind(l, STR("; "));
}

static void start(struct list *l, const struct serve *v) {
    static const char *const thirds[] = {NULL, "right", "middle", "left"};

    if (v->has & HAS_START_P) {
        buf_add(item(l), STR("from "));
        aloud_decimal(l->out, v->start_p_cm);
        buf_add(l->out, STR(" m inside her right side line"));
    } else if (v->third != THIRD_NONE) {
        buf_printf(item(l), "from the %s", thirds[v->third]);
    }
    if (v->has & HAS_PACES)
        buf_printf(item(l), "%u pace%s back", v->paces, v->paces == 1 ? "" : "s");
    if (v->has & HAS_STEPS)
        buf_printf(item(l), "%u step%s", v->steps, v->steps == 1 ? "" : "s");
}

/* Past the end line, or behind it. */
static void at_end_line(struct buf *b, int hundredths) {
    aloud_decimal(b, abs(hundredths));
    buf_printf(b, " m %s the end line", hundredths < 0 ? "behind" : "past");
}

static void measure(struct list *l, enum measure m, int hundredths) {
    static const struct {
        const char *before, *behind;
    } words[MEASURE_N] = {
        [MEASURE_TOSS_M] = {"toss ", " m high"},
        [MEASURE_TAKEOFF_M] = {"take-off ", NULL},
        [MEASURE_CONTACT_M] = {"contact ", NULL},
        [MEASURE_HEIGHT_M] = {"contact ", " m high"},
        [MEASURE_SPEED_KMH] = {"", " km/h"},
        [MEASURE_FLIGHT_S] = {"", " s of flight"},
        [MEASURE_WHISTLE_S] = {"", " s from whistle to hit"},
    };

    if (m == MEASURE_PACES) /* said with the start */
        return;
    buf_add(item(l), str_of(words[m].before));
    if (words[m].behind) {
        aloud_decimal(l->out, hundredths);
        buf_add(l->out, str_of(words[m].behind));
    } else {
        at_end_line(l->out, hundredths);
    }
}

static void routine(struct list *l, const struct serve *v) {
    if (v->type != TYPE_NONE)
        aloud_meaning(item(l), WORD_TYPE, v->type);
    start(l, v);
}

static void measures(struct list *l, const struct serve *v) {
    for (unsigned m = 0; m < MEASURE_N; m++)
        if (v->has & ((uint32_t)HAS_MEASURE << m))
            measure(l, (enum measure)m, v->measure[m]);
}

void aloud_routine(struct buf *b, const struct serve *v) {
    struct list l = {b, 0}; /* behind the name */

    routine(&l, v);
    measures(&l, v);
}

static void before_outcome(struct list *l, const struct serve *v) {
    routine(l, v);
    if (v->aim.kind) {
        buf_add(part(l), STR("aimed at "));
        aloud_spot(l->out, v->aim);
    }
    if (v->intent != INTENT_NONE)
        aloud_meaning(part(l), WORD_INTENT, v->intent);
    measures(l, v);
    for (unsigned m = 0; m < MARK_N; m++)
        if (v->marks & (1u << m))
            aloud_meaning(part(l), WORD_MARK, m);
}

static void outcome(struct list *l, const struct serve *v) {
    /* Where the meaning is meant for somebody who does not know the word. */
    static const char *const shorter[OUTCOME_N] = {
        [OUTCOME_ACE] = "ace", [OUTCOME_IN] = "landed in", [OUTCOME_NET] = "into the net"};

    if (shorter[v->outcome])
        buf_add(part(l), str_of(shorter[v->outcome]));
    else if (v->outcome != OUTCOME_OVERLAP)
        aloud_meaning(part(l), WORD_OUTCOME, v->outcome);
    if (v->has & HAS_MARGIN) {
        buf_add(l->out, STR(" by "));
        aloud_decimal(l->out, abs(v->margin_cm));
        buf_add(l->out, STR(" m"));
    }
    if (v->going)
        buf_add(part(l), str_of(word_info(W_going)->meaning));
    if (v->outcome == OUTCOME_OVERLAP || v->overlap)
        buf_add(part(l), str_of(word_info(W_overlap)->meaning));
}

static void landing(struct list *l, const struct serve *v) {
    if (v->landing.kind) {
        buf_add(part(l), STR("at "));
        aloud_spot(l->out, v->landing);
    }
    if (v->by != SHIRT_NONE)
        buf_printf(part(l), "received by %u", v->by);
    if (v->rally != RALLY_NONE)
        buf_printf(part(l), "rally %s", v->rally == RALLY_WON ? "won" : "lost");
}

static void remarks(struct list *l, const struct serve *v) {
    if (v->has & HAS_TIME)
        buf_add(part(l), STR("video "));
    if (v->has & HAS_TIME && v->time_s >= 3600)
        buf_printf(l->out, "%u:%02u:%02u", v->time_s / 3600, v->time_s / 60 % 60, v->time_s % 60);
    else if (v->has & HAS_TIME)
        buf_printf(l->out, "%u:%02u", v->time_s / 60, v->time_s % 60);
    if (v->has & HAS_REPEAT && v->repeat > 1)
        buf_printf(part(l), "%u times", v->repeat);
    if (v->review)
        buf_add(part(l), STR("not sure"));
}

void aloud_served(struct aloud *a, const struct serve *v) {
    if (v->form != SERVER_SAME)
        a->server = *v;
}

static void server(struct aloud *a, const struct serve *v) {
    aloud_served(a, v);
    if (a->server.form == SERVER_SHIRT)
        aloud_person(a, a->server.letter, a->server.shirt);
    else if (a->server.letter)
        buf_printf(a->out, "%c, shirt not seen", a->server.letter);
    else
        buf_add(a->out, STR("the same server"));
}

void aloud_serve(struct aloud *a, const struct serve *v) {
    struct list l;

    server(a, v);
    buf_add(a->out, STR(": "));
    l = (struct list){a->out, a->out->n};
    before_outcome(&l, v);
    outcome(&l, v);
    landing(&l, v);
    remarks(&l, v);
}
