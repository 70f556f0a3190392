/* The shapes of the marks, and which serve has which. Solid: the ball fell on
 * the floor there. Open: a receiver played it there. */
#include "page/draw.h"

#define BLACK INK_BLACK
#define RED INK_MISSED
#define WHITE INK_WHITE

static const struct page_stroke ace_floor[] = {
    {4, {{0, .575}, {.475, 0}, {0, -.575}, {-.475, 0}}, 0, true, INK_NONE, BLACK, 0}};
static const struct page_stroke ace_played[] = {
    {4, {{0, .55}, {.45, 0}, {0, -.55}, {-.45, 0}}, 0, true, BLACK, WHITE, .8}};
static const struct page_stroke play[] = {{0, {{0}}, .40, true, BLACK, WHITE, .6}};
static const struct page_stroke broke[] = {
    {0, {{0}}, .40, true, BLACK, WHITE, .6},
    {0, {{0}}, .15, true, INK_NONE, BLACK, 0},
};
static const struct page_stroke past_end[] = {
    {3, {{-.475, -.40}, {.475, -.40}, {0, .475}}, 0, true, INK_NONE, RED, 0}};
static const struct page_stroke wide_right[] = {
    {3, {{-.40, -.475}, {-.40, .475}, {.475, 0}}, 0, true, INK_NONE, RED, 0}};
static const struct page_stroke wide_left[] = {
    {3, {{.40, -.475}, {.40, .475}, {-.475, 0}}, 0, true, INK_NONE, RED, 0}};
static const struct page_stroke net[] = {
    {2, {{-.40, -.40}, {.40, .40}}, 0, false, RED, INK_NONE, 1.2},
    {2, {{-.40, .40}, {.40, -.40}}, 0, false, RED, INK_NONE, 1.2},
};
static const struct page_stroke fault[] = {
    {4, {{-.39, -.39}, {.39, -.39}, {.39, .39}, {-.39, .39}}, 0, true, INK_NONE, RED, 0}};
static const struct page_stroke object[] = {
    {4, {{-.39, -.39}, {.39, -.39}, {.39, .39}, {-.39, .39}}, 0, true, RED, WHITE, 1.0}};
static const struct page_stroke on_floor[] = {{0, {{0}}, .40, true, INK_NONE, BLACK, 0}};
static const struct page_stroke beside[] = {{0, {{0}}, .16, true, INK_NONE, BLACK, 0}};
static const struct page_stroke start[] = {
    {2, {{0, -.40}, {0, .40}}, 0, false, INK_NOTE, INK_NONE, .8}};
static const struct page_stroke start_missed[] = {
    {2, {{0, -.40}, {0, .40}}, 0, false, RED, INK_NONE, 1.6}};

#define GIVE(strokes)                                                                              \
    do {                                                                                           \
        *n = sizeof(strokes) / sizeof *(strokes);                                                  \
        return strokes;                                                                            \
    } while (0)

const struct page_stroke *page_strokes(enum page_mark m, unsigned *n) {
    switch (m) {
    case MARK_ACE_FLOOR:
        GIVE(ace_floor);
    case MARK_ACE_PLAYED:
        GIVE(ace_played);
    case MARK_PLAY:
        GIVE(play);
    case MARK_BROKE:
        GIVE(broke);
    case MARK_LONG:
        GIVE(past_end);
    case MARK_RIGHT:
        GIVE(wide_right);
    case MARK_LEFT:
        GIVE(wide_left);
    case MARK_NET:
        GIVE(net);
    case MARK_FAULT:
        GIVE(fault);
    case MARK_OBJECT:
        GIVE(object);
    case MARK_FLOOR:
        GIVE(on_floor);
    case MARK_BESIDE:
        GIVE(beside);
    case MARK_START:
        GIVE(start);
    case MARK_START_MISSED:
        GIVE(start_missed);
    case PAGE_MARK_N:
        break;
    }
    *n = 0;
    return NULL;
}

const struct mark_row page_mark_rows[MARK_ROWS] = {
    {MARK_ACE_FLOOR, WORDS("ace, untouched"), true},
    {MARK_ACE_PLAYED, WORDS("ace, touched"), true},
    {MARK_BROKE, WORDS("in play, passed 1 or straight back"), true},
    {MARK_PLAY, WORDS("in play, passed 2, 3 or not rated"), true},
    {MARK_FLOOR, WORDS("in the court"), false},
    {MARK_NET, WORDS("into the net"), true},
    {MARK_LONG, WORDS("out, long"), true},
    {MARK_RIGHT, WORDS("out, wide"), true},
    {MARK_OBJECT, WORDS("antenna, ceiling, team-mate"), false},
    {MARK_FAULT, WORDS("foot fault, 8 seconds, other fault"), false},
};

/* An ace that someone touched: its receiver is named, or the overlap made an
 * ace of a ball that was in play. */
static bool touched(const struct played *p) {
    switch ((enum outcome)p->said.outcome) {
    case OUTCOME_IN3:
    case OUTCOME_IN2:
    case OUTCOME_IN1:
    case OUTCOME_PLAY:
    case OUTCOME_OVER:
        return true;
    case OUTCOME_NONE:
    case OUTCOME_ACE:
    case OUTCOME_IN:
    case OUTCOME_NET:
    case OUTCOME_LONG:
    case OUTCOME_LEFT:
    case OUTCOME_RIGHT:
    case OUTCOME_ANTENNA:
    case OUTCOME_CEILING:
    case OUTCOME_MATE:
    case OUTCOME_FOOT:
    case OUTCOME_CLOCK:
    case OUTCOME_ORDER:
    case OUTCOME_DROP:
    case OUTCOME_SCREEN:
    case OUTCOME_RETOSS:
    case OUTCOME_REPLAY:
    case OUTCOME_OVERLAP:
    case OUTCOME_N:
        break;
    }
    return p->said.by != SHIRT_NONE;
}

enum page_mark page_mark_of(const struct played *p) {
    switch (tally_outcome(p)) {
    case OUTCOME_ACE:
        return touched(p) ? MARK_ACE_PLAYED : MARK_ACE_FLOOR;
    case OUTCOME_IN3:
    case OUTCOME_IN2:
    case OUTCOME_PLAY:
        return MARK_PLAY;
    case OUTCOME_IN1:
    case OUTCOME_OVER:
        return MARK_BROKE;
    case OUTCOME_IN:
        return MARK_FLOOR;
    case OUTCOME_NET:
        return MARK_NET;
    case OUTCOME_LONG:
        return MARK_LONG;
    case OUTCOME_LEFT:
        return MARK_LEFT;
    case OUTCOME_RIGHT:
        return MARK_RIGHT;
    case OUTCOME_ANTENNA:
    case OUTCOME_CEILING:
    case OUTCOME_MATE:
        return MARK_OBJECT;
    case OUTCOME_FOOT:
    case OUTCOME_CLOCK:
    case OUTCOME_ORDER:
    case OUTCOME_DROP:
    case OUTCOME_SCREEN:
        return MARK_FAULT;
    case OUTCOME_NONE:
    case OUTCOME_RETOSS:
    case OUTCOME_REPLAY:
    case OUTCOME_OVERLAP:
    case OUTCOME_N:
        break;
    }
    return PAGE_MARK_N;
}
