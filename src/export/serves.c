/* One serve as a row. */
#include <string.h>

#include "export/table.h"
#include "geometry.h"

enum { LAST_METRE_CM = GEO_HALF_CM - 100 };

static void shirt(struct cell *c, unsigned n) {
    if (n != SHIRT_NONE)
        cell_whole(c, (int)n);
}

/* A place as its five columns, which stand in two orders: aims and landings. */
static void spot(struct cell *cells, struct spot s, unsigned zone, unsigned deep, unsigned seam,
                 unsigned x_m, unsigned d_m) {
    bool metres = s.kind == PLACE_XD;
    bool last = metres ? s.d_cm >= LAST_METRE_CM && s.d_cm <= GEO_HALF_CM
                       : s.kind == PLACE_DEEP || s.kind == PLACE_DEEP_SEAM;
    if (!s.kind)
        return;
    cell_whole(&cells[zone], (int)spot_zone(s));
    cell_whole(&cells[deep], last);
    if (s.kind == PLACE_SEAM || s.kind == PLACE_DEEP_SEAM)
        cell_whole(&cells[seam], s.seam);
    if (metres) {
        cell_hundredths(&cells[x_m], s.x_cm);
        cell_hundredths(&cells[d_m], s.d_cm);
    }
}

static void where_and_who(struct cell *c, struct sheet *s, const struct played *p) {
    const struct match *m = s->checked->match;
    const struct player *who =
        p->side < m->team_n ? team_find(&m->teams[p->side], p->server) : NULL;
    cell_text(&c[SERVES_file], s->file);
    cell_whole(&c[SERVES_line], (int)p->line);
    cell_text(&c[SERVES_date], s->date);
    cell_text(&c[SERVES_kind], s->kind);
    if (p->set) {
        cell_whole(&c[SERVES_set], (int)s->checked->sets[p->set - 1].number);
        cell_whole(&c[SERVES_rally], p->rally);
    }
    cell_text(&c[SERVES_team], s->letter[p->side]);
    shirt(&c[SERVES_server], p->server);
    cell_text(&c[SERVES_server_name], sheet_name(s, p->side, p->server));
    if (who && who->place.line)
        cell_text(&c[SERVES_hand], who->lefthanded ? STR("left") : STR("right"));
    if (p->charged != p->server)
        shirt(&c[SERVES_charged], p->charged);
    shirt(&c[SERVES_receiver], p->said.by);
}

static bool has_measure(const struct serve *v, enum measure m) {
    return (v->has & (uint32_t)HAS_MEASURE << m) != 0;
}

static void paces(struct cell *c, const struct played *p, const struct serve *routine) {
    if (has_measure(&p->said, MEASURE_PACES))
        cell_hundredths(c, p->said.measure[MEASURE_PACES]);
    else if (p->has_start & HAS_PACES)
        cell_hundredths(c, p->paces * 100);
    else if (routine && has_measure(routine, MEASURE_PACES))
        cell_hundredths(c, routine->measure[MEASURE_PACES]);
}

/* The line's own start in metres, else the routine's. */
static bool start_x(const struct played *p, const struct serve *routine, int *x_cm) {
    bool routine_holds = routine && !p->said.third && routine->has & HAS_START_P;
    if (!(p->said.has & HAS_START_P) && !routine_holds)
        return false;
    *x_cm = p->said.has & HAS_START_P ? p->said.start_p_cm : routine->start_p_cm;
    return true;
}

static void start(struct cell *c, struct sheet *s, const struct played *p) {
    static const struct str thirds[] = {{"", 0}, {"r", 1}, {"m", 1}, {"l", 1}};
    const struct match *m = s->checked->match;
    const struct player *who =
        p->side < m->team_n ? team_find(&m->teams[p->side], p->server) : NULL;
    const struct serve *routine = who ? &who->routine : NULL;
    int x_cm;
    cell_text(&c[SERVES_type], s->export->types[p->type]);
    if (start_x(p, routine, &x_cm))
        cell_hundredths(&c[SERVES_start_x_m], x_cm);
    cell_text(&c[SERVES_start], thirds[tally_third(p)]);
    paces(&c[SERVES_paces], p, routine);
    if (p->has_start & HAS_STEPS)
        cell_whole(&c[SERVES_steps], p->steps);
    cell_whole(&c[SERVES_start_said], p->said.third || p->said.has & HAS_START_P);
}

static void aim(struct cell *c, struct sheet *s, const struct played *p) {
    spot(c, played_aim(s->checked, p), SERVES_aim, SERVES_aim_deep, SERVES_aim_seam,
         SERVES_aim_x_m, SERVES_aim_d_m);
    if (p->said.intent)
        cell_text(&c[SERVES_intent], p->said.intent == INTENT_GO ? STR("go") : STR("safe"));
}

static void measures(struct cell *c, const struct played *p) {
    static const unsigned column[MEASURE_N] = {
        [MEASURE_TOSS_M] = SERVES_toss_m,       [MEASURE_TAKEOFF_M] = SERVES_takeoff_m,
        [MEASURE_CONTACT_M] = SERVES_contact_m, [MEASURE_HEIGHT_M] = SERVES_height_m,
        [MEASURE_SPEED_KMH] = SERVES_speed_kmh, [MEASURE_FLIGHT_S] = SERVES_flight_s,
        [MEASURE_WHISTLE_S] = SERVES_whistle_s,
    };
    for (unsigned m = MEASURE_TOSS_M; m < MEASURE_N; m++)
        if (has_measure(&p->said, (enum measure)m))
            cell_hundredths(&c[column[m]], p->said.measure[m]);
}

static void marks(struct row *row, struct sheet *s, const struct played *p) {
    const struct export *e = s->export;
    size_t n = 0;
    for (unsigned i = 0; p->said.marks && i < MARK_N; i++) {
        if (!(p->said.marks & e->marks[i].bit))
            continue;
        if (n)
            row->marks[n++] = ' ';
        memcpy(row->marks + n, e->marks[i].word.at, e->marks[i].word.n);
        n += e->marks[i].word.n;
    }
    cell_text(&row->cells[SERVES_marks], (struct str){row->marks, n});
    cell_text(&row->cells[SERVES_observed], e->observed[p->observed & PHASE_ALL]);
}

static void outcome(struct cell *c, struct sheet *s, const struct played *p) {
    enum outcome o = (enum outcome)p->said.outcome;
    bool in = o == OUTCOME_IN3 || o == OUTCOME_IN2 || o == OUTCOME_IN1 || o == OUTCOME_PLAY;
    cell_text(&c[SERVES_outcome], s->export->outcomes[in ? OUTCOME_IN : o]);
    if (o == OUTCOME_ACE)
        cell_whole(&c[SERVES_pass], 0);
    else if (in && o != OUTCOME_PLAY)
        cell_whole(&c[SERVES_pass], o == OUTCOME_IN3 ? 3 : o == OUTCOME_IN2 ? 2 : 1);
    cell_whole(&c[SERVES_going], p->said.going);
    cell_whole(&c[SERVES_overlap], p->said.overlap || o == OUTCOME_OVERLAP);
}

static void in_force(struct cell *c, struct sheet *s, const struct played *p) {
    if (p->plan)
        cell_text(&c[SERVES_plan], s->plans[p->plan - 1]);
    if (p->drill)
        cell_text(&c[SERVES_drill], s->checked->drills[p->drill - 1].name);
    if (p->side == OURS && p->server <= SHIRT_MAX)
        cell_text(&c[SERVES_focus], s->focus[p->server]);
}

/* Metres past the line that the outcome names. */
static void margin(struct cell *c, const struct played *p) {
    struct spot at = p->said.landing;
    if (p->said.has & HAS_MARGIN)
        cell_hundredths(c, p->said.margin_cm);
    else if (at.kind != PLACE_XD)
        return;
    else if (p->said.outcome == OUTCOME_LONG)
        cell_hundredths(c, at.d_cm - GEO_HALF_CM);
    else if (p->said.outcome == OUTCOME_LEFT)
        cell_hundredths(c, at.x_cm - GEO_WIDTH_CM);
    else if (p->said.outcome == OUTCOME_RIGHT)
        cell_hundredths(c, -at.x_cm);
}

static void landing(struct cell *c, const struct played *p) {
    static const struct str places[] = {{"", 0}, {"floor", 5}, {"played", 6}, {"net", 3}};
    margin(&c[SERVES_margin_m], p);
    spot(c, p->said.landing, SERVES_zone, SERVES_deep, SERVES_seam, SERVES_landing_x_m,
         SERVES_landing_d_m);
    cell_text(&c[SERVES_place], places[played_place(p)]);
}

static void score(struct cell *c, const struct played *p) {
    static const unsigned before[SIDE_N] = {SERVES_us_before, SERVES_them_before};
    static const unsigned after[SIDE_N] = {SERVES_us, SERVES_them};
    if (p->won != RALLY_NONE)
        cell_whole(&c[SERVES_won], p->won == RALLY_WON);
    for (unsigned side = OURS; side < SIDE_N && p->set; side++) {
        bool scored = (p->side == side) == (p->won == RALLY_WON);
        if (!p->before_known[side])
            continue;
        cell_whole(&c[before[side]], p->before[side]);
        if (p->won != RALLY_NONE)
            cell_whole(&c[after[side]], p->before[side] + scored);
    }
}

static void context(struct cell *c, struct sheet *s, const struct played *p) {
    static const struct str none = {"", 0};
    struct str both[1 << SIDE_N] = {none, s->letter[OURS], s->letter[THEIRS], none};
    if (!p->set)
        return;
    if (p->turn_serve)
        cell_whole(&c[SERVES_turn_serve], p->turn_serve);
    if (p->rotation)
        cell_whole(&c[SERVES_rotation], p->rotation);
    cell_whole(&c[SERVES_cold], p->cold);
    cell_whole(&c[SERVES_after_timeout], p->after_timeout);
    if (p->set_point == 3)
        both[3] = str_printf(s->arena, "%.*s%.*s", STR_ARG(both[1]), STR_ARG(both[2]));
    cell_text(&c[SERVES_set_point], both[p->set_point & 3]);
}

bool serves_row(struct row *row, struct sheet *s, const struct played *p) {
    struct cell *c = row->cells;
    if (p->said.outcome == OUTCOME_REPLAY || p->said.outcome == OUTCOME_RETOSS ||
        p->said.outcome == OUTCOME_NONE || p->side >= SIDE_N)
        return false;
    memset(c, 0, sizeof row->cells);
    where_and_who(c, s, p);
    start(c, s, p);
    aim(c, s, p);
    measures(c, p);
    marks(row, s, p);
    outcome(c, s, p);
    in_force(c, s, p);
    landing(c, p);
    score(c, p);
    context(c, s, p);
    cell_whole(&c[SERVES_cancelled], p->cancelled);
    cell_whole(&c[SERVES_repeat], (int)tally_times(p));
    if (p->said.has & HAS_TIME)
        cell_whole(&c[SERVES_video_s], (int)p->said.time_s);
    cell_whole(&c[SERVES_review], p->said.review);
    cell_text(&c[SERVES_team_name], s->team[p->side]);
    return true;
}
