#include "kit/facts.h"

static void spot_put(struct buf *out, const char *name, struct spot s) {
    if (s.kind == PLACE_XD)
        buf_printf(out, " %s=%d,%d", name, s.x_cm, s.d_cm);
    else if (s.kind)
        buf_printf(out, " %s=%u:%u-%u", name, s.kind, s.zone, s.seam);
}

/* `form` is left out: a shirt and a point for the same shirt say the same. */
static void serve_put(struct buf *out, const struct serve *s) {
    buf_printf(out, " o%u t%u th%u i%u r%u by%u m%x g%d ov%d", s->outcome, s->type, s->third,
               s->intent, s->rally, s->by, s->marks, s->going, s->overlap);
    if (s->has & HAS_PACES)
        buf_printf(out, " paces%u", s->paces);
    if (s->has & HAS_STEPS)
        buf_printf(out, " steps%u", s->steps);
    if (s->has & HAS_START_P)
        buf_printf(out, " p%d", s->start_p_cm);
    if (s->has & HAS_MARGIN)
        buf_printf(out, " margin%d", s->margin_cm);
    if (s->has & HAS_TIME)
        buf_printf(out, " time%u", s->time_s);
    if (s->has & HAS_REPEAT)
        buf_printf(out, " x%u", s->repeat);
    for (unsigned i = 0; i < MEASURE_N; i++)
        if (s->has & ((uint32_t)HAS_MEASURE << i))
            buf_printf(out, " measure%u=%d", i, s->measure[i]);
    spot_put(out, "aim", s->aim);
    spot_put(out, "landing", s->landing);
    buf_add(out, s->review ? STR(" ?\n") : STR("\n"));
}

static void played_put(struct buf *out, const struct played *p) {
    buf_printf(out, "set%u rally%u side%u by%u charged%u won%u", p->set, p->rally, p->side,
               p->server, p->charged, p->won);
    buf_printf(out, " type%u third%u paces%u steps%u has%x observed%x", p->type, p->third,
               p->paces, p->steps, p->has_start, p->observed);
    buf_printf(out, " turn%u rotation%u cold%d timeout%d cancelled%d", p->turn_serve,
               p->rotation, p->cold, p->after_timeout, p->cancelled);
    if (p->score_known)
        buf_printf(out, " score%u-%u", p->before[OURS], p->before[THEIRS]);
    buf_printf(out, " drill%u", p->drill);
    serve_put(out, &p->said);
}

static void player_put(struct buf *out, const struct player *p) {
    buf_printf(out, "player %u \"%.*s\" libero%d left%d", p->shirt, STR_ARG(p->name), p->libero,
               p->lefthanded);
    serve_put(out, &p->routine);
}

static void team_put(struct buf *out, const struct team *t) {
    buf_printf(out, "team %c \"%.*s\" net %d declared%d\n", t->letter, STR_ARG(t->name), t->net,
               t->declared);
    for (unsigned i = 0; i < t->player_n; i++)
        player_put(out, &t->players[i]);
}

static void match_put(struct buf *out, const struct match *m) {
    buf_printf(out, "%s %d-%d-%d timed%d minute%u \"%.*s\" \"%.*s\" \"%.*s\"\n",
               m->practice ? "practice" : "match", m->date.year, m->date.month, m->date.day,
               m->timed, m->minute, STR_ARG(m->title), STR_ARG(m->venue), STR_ARG(m->scorer));
    buf_printf(out, "ours_only%d net%d sets to %u, %u\n", m->ours_only, m->net_cm,
               m->profile.set_points, m->profile.decider_points);
    for (unsigned i = 0; i < m->team_n; i++)
        team_put(out, &m->teams[i]);
    for (unsigned i = 0; i < m->focus_n; i++)
        buf_printf(out, "focus %u %u \"%.*s\" %u/%u\n", m->focuses[i].shirt,
                   m->focuses[i].treats, STR_ARG(m->focuses[i].drill), m->focuses[i].hits,
                   m->focuses[i].tries);
}

static void set_put(struct buf *out, const struct set_result *s) {
    buf_printf(out, "set %u first%d %u%s-%u%s ended%d serves %zu to %zu\n", s->number,
               (int)s->first, s->points[OURS], s->known[OURS] ? "" : "?", s->points[THEIRS],
               s->known[THEIRS] ? "" : "?", s->ended, s->from, s->to);
}

void facts_put(struct buf *out, const struct checked *c) {
    match_put(out, c->match);
    for (unsigned i = 0; i < c->set_n; i++)
        set_put(out, &c->sets[i]);
    for (size_t i = 0; i < c->drill_n; i++) {
        buf_printf(out, "drill \"%.*s\" serves %zu to %zu", STR_ARG(c->drills[i].name),
                   c->drills[i].from, c->drills[i].to);
        spot_put(out, "aim", c->drills[i].aim);
        buf_char(out, '\n');
    }
    for (size_t i = 0; i < c->tries_n; i++)
        buf_printf(out, "tries %d shirt%u %u/%u ring%d drill%u\n", (int)c->tries[i].kind,
                   c->tries[i].shirt, c->tries[i].hits, c->tries[i].n, c->tries[i].ring_cm,
                   c->tries[i].drill);
    for (size_t i = 0; i < c->played_n; i++)
        played_put(out, &c->played[i]);
    buf_printf(out, "sets %u-%u phases%x reviews%u incomplete%d\n", c->sets_won[OURS],
               c->sets_won[THEIRS], c->phases, c->review_n, c->incomplete);
}
