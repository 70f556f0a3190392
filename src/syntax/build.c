/* The actions of the grammar for a serve line, and what all actions share. */
#include "syntax/build.h"

#include <string.h>

#include "geometry.h"
#include "syntax/fault.h"

enum {
    GIVEN_TYPE = 1 << 0, GIVEN_START = 1 << 1, GIVEN_AIM = 1 << 2, GIVEN_INTENT = 1 << 3,
    GIVEN_LANDING = 1 << 4, GIVEN_BY = 1 << 5, GIVEN_RALLY = 1 << 6, GIVEN_TIME = 1 << 7,
    GIVEN_REPEAT = 1 << 8, GIVEN_REVIEW = 1 << 9, GIVEN_GOING = 1 << 10,
    GIVEN_OVERLAP = 1 << 11, GIVEN_MEASURE = 1 << 12
};

struct place build_place(const struct syn *s, struct token t) {
    return text_place(s->text, s->stmt.line, t.at, t.n);
}

struct str build_unquote(struct syn *s, struct token t) {
    struct str raw = str_part(s->text->bytes, t.at + 1, t.n - 2u);
    size_t chars = str_chars(raw);
    if (chars > TEXT_MAX_CHARS)
        FAULT(s, E_TEXT_LONG, t, chars);
    if (!raw.n || !memchr(raw.at, '\\', raw.n))
        return str_nfc(s->arena, raw);
    struct buf b;
    buf_init(&b, s->arena);
    for (size_t i = 0; i < raw.n; i++) {
        if (raw.at[i] == '\\' && i + 1 < raw.n && (raw.at[i + 1] == '"' || raw.at[i + 1] == '\\'))
            i++;
        buf_char(&b, raw.at[i]);
    }
    return str_nfc(s->arena, buf_str(&b));
}

struct str build_name(struct syn *s, struct token t) {
    struct str name = build_unquote(s, t);
    unsigned c = 0;
    for (size_t i = 0, n; (n = str_code_point(name, i, &c)) > 0; i += n) {
        if (!str_joins(c))
            continue;
        struct diag *d = diags_add(s->diags, W_SCRIPT, build_place(s, t),
                                   STR_ARG(build_spelt(s, t)), c);
        if (d)
            d->hint = STR("Latin, Greek and Cyrillic can be set; 9m report --no-names leaves "
                          "players' names out");
        break;
    }
    return name;
}

/* Notes that a field was given; a second time is the line's fault. */
static bool first(struct syn *s, uint32_t bit, struct token t, const char *what) {
    if (s->given & bit) {
        FAULT(s, E_TWICE, t, what);
        return false;
    }
    s->given |= bit;
    return true;
}

static struct serve *serve_of(struct syn *s) {
    return &s->stmt.as.serve;    /* a player's routine lies at the same place */
}

void build_server(struct syn *s, struct token t) {
    s->stmt.kind = STMT_SERVE;
    s->stmt.as.serve = (struct serve){.form = (uint8_t)t.value, .letter = (char)t.a,
                                      .shirt = t.value == SERVER_SHIRT ? (uint8_t)t.b : SHIRT_NONE,
                                      .by = SHIRT_NONE};
}

void build_type(struct syn *s, struct token t) {
    if (first(s, GIVEN_TYPE, t, "the type of serve"))
        serve_of(s)->type = (uint8_t)word_info(t.value)->value;
}

void build_start(struct syn *s, struct token t) {
    if (!first(s, GIVEN_START, t, "the start"))
        return;
    struct serve *v = serve_of(s);
    v->third = (uint8_t)(t.value & START_THIRD);
    if (t.value & START_P) {
        v->has |= HAS_START_P;
        v->start_p_cm = t.a;
        if (t.a > GEO_WIDTH_CM)
            FAULT(s, E_START_OUTSIDE, t, 0);
        v->third = (uint8_t)(t.a < GEO_THIRD_CM ? THIRD_RIGHT : t.a <= 2 * GEO_THIRD_CM ? THIRD_MIDDLE : THIRD_LEFT);
    }
    if (t.value & START_PACES) {
        if (v->has & HAS_PACES)
            FAULT(s, E_TWICE, t, "the number of paces");
        v->has |= HAS_PACES;
        v->paces = (uint8_t)t.a;
    }
    if (t.value & START_STEPS) {
        v->has |= HAS_STEPS;
        v->steps = (uint8_t)t.b;
    }
}

static bool neighbours(int a, int b) {
    /* The seams: 1-6 5-6 1-2 6-3 5-4 2-3 3-4, in either order. */
    static const unsigned char seams[7] = {16, 56, 12, 36, 45, 23, 34};
    int low = a < b ? a : b, high = a < b ? b : a;
    return memchr(seams, low * 10 + high, sizeof seams) != NULL;
}

static bool has_last_metre(int zone) {
    return zone == 1 || zone == 5 || zone == 6;
}

static struct spot spot_of(struct syn *s, struct token t) {
    struct spot p = {.kind = (uint8_t)t.value};
    if (p.kind == PLACE_XD) {
        p.x_cm = t.a;
        p.d_cm = t.b;
        if (p.x_cm < -GEO_HALL_SIDE_CM || p.x_cm > GEO_WIDTH_CM + GEO_HALL_SIDE_CM ||
            p.d_cm > GEO_HALF_CM + GEO_HALL_BEHIND_CM)
            FAULT(s, E_PLACE_FAR, t, 0);
        return p;
    }
    p.zone = (uint8_t)t.a;
    p.seam = (uint8_t)t.b;
    bool seam = p.kind == PLACE_SEAM || p.kind == PLACE_DEEP_SEAM;
    bool deep = p.kind == PLACE_DEEP || p.kind == PLACE_DEEP_SEAM;
    if (t.a < 1 || t.a > 6 || (seam && (t.b < 1 || t.b > 6)))
        fault_zone(s, t, t.a < 1 || t.a > 6 ? t.a : t.b);
    else if (seam && !neighbours(t.a, t.b))
        FAULT(s, E_SEAM, t, t.a, t.b);
    else if (deep && (!has_last_metre(t.a) || (seam && !has_last_metre(t.b))))
        FAULT(s, E_DEEP, t, has_last_metre(t.a) ? t.b : t.a);
    return p;
}

void build_aim(struct syn *s, struct token t) {
    if (first(s, GIVEN_AIM, t, "the aim"))
        serve_of(s)->aim = spot_of(s, t);
}

void build_intent(struct syn *s, struct token t) {
    if (first(s, GIVEN_INTENT, t, "the intent"))
        serve_of(s)->intent = (uint8_t)word_info(t.value)->value;
}

void build_measure(struct syn *s, struct token t) {
    struct serve *v = serve_of(s);
    if (!first(s, (uint32_t)GIVEN_MEASURE << t.value, t, "this measure"))
        return;
    if (t.value == MEASURE_PACES) {
        if (v->has & HAS_PACES)
            FAULT(s, E_TWICE, t, "the number of paces");
        v->has |= HAS_PACES;
        v->paces = (uint8_t)(t.a / 100);
    }
    v->has |= (uint32_t)HAS_MEASURE << t.value;
    v->measure[t.value] = t.a;
}

void build_mark(struct syn *s, struct token t) {
    uint32_t bit = 1u << word_info(t.value)->value;
    if (serve_of(s)->marks & bit)
        FAULT(s, E_TWICE, t, "this mark");
    serve_of(s)->marks |= bit;
}

void build_outcome(struct syn *s, struct token t) {
    serve_of(s)->outcome = (uint8_t)word_info(t.value)->value;
}

void build_miss(struct syn *s, struct token t) {
    build_outcome(s, t);
    serve_of(s)->has |= HAS_MARGIN;
    serve_of(s)->margin_cm = t.a;
}

void build_overlap_alone(struct syn *s, struct token t) {
    (void)first(s, GIVEN_OVERLAP, t, "overlap");
    serve_of(s)->outcome = OUTCOME_OVERLAP;
    serve_of(s)->overlap = true;
}

void build_going(struct syn *s, struct token t) {
    if (first(s, GIVEN_GOING, t, "going"))
        serve_of(s)->going = true;
}

void build_overlap(struct syn *s, struct token t) {
    if (first(s, GIVEN_OVERLAP, t, "overlap"))
        serve_of(s)->overlap = true;
}

void build_zone(struct syn *s, struct token t) {
    t.value = PLACE_ZONE;
    t.b = 0;
    build_spot(s, t);
}

void build_spot(struct syn *s, struct token t) {
    if (first(s, GIVEN_LANDING, t, "the landing"))
        serve_of(s)->landing = spot_of(s, t);
}

void build_by(struct syn *s, struct token t) {
    if (first(s, GIVEN_BY, t, "the receiver"))
        serve_of(s)->by = (uint8_t)t.a;
}

void build_rally(struct syn *s, struct token t) {
    if (first(s, GIVEN_RALLY, t, "who took the rally"))
        serve_of(s)->rally = (uint8_t)word_info(t.value)->value;
}

void build_time(struct syn *s, struct token t) {
    if (!first(s, GIVEN_TIME, t, "the video time"))
        return;
    bool over = t.b > 59 || (t.value && t.a % 60 > 59);
    if (over)
        FAULT(s, E_TIME_NONE, t, STR_ARG(str_part(s->text->bytes, t.at, t.n)),
              "minutes and seconds end at 59");
    serve_of(s)->has |= HAS_TIME;
    serve_of(s)->time_s = (uint32_t)(t.a * 60 + t.b);
}

void build_repeat(struct syn *s, struct token t) {
    if (!first(s, GIVEN_REPEAT, t, "how many serves the line stands for"))
        return;
    serve_of(s)->has |= HAS_REPEAT;
    serve_of(s)->repeat = (uint16_t)t.a;
}

void build_review(struct syn *s, struct token t) {
    if (first(s, GIVEN_REVIEW, t, "the mark of doubt"))
        serve_of(s)->review = true;
}

void build_drill_aim(struct syn *s, struct token t) {
    s->stmt.as.drill.aim = spot_of(s, t);
}

void build_plan_zone(struct syn *s, struct token t) {
    t.value = PLACE_ZONE;
    t.b = 0;
    build_plan_spot(s, t);
}

void build_plan_spot(struct syn *s, struct token t) {
    s->stmt.kind = STMT_PLAN;
    s->stmt.as.plan.by = SHIRT_NONE;
    s->stmt.as.plan.spot = spot_of(s, t);
}
