/* Names of people, teams and the occasion. */
#include "page/draw.h"

#define DOT_BETWEEN " · "

struct str page_team(const struct draw *d, enum side s) {
    const struct match *m = d->tally->checked->match;
    if (s < m->team_n && m->teams[s].name.n > 0)
        return m->teams[s].name;
    if (s < m->team_n && m->teams[s].letter)
        return page_sayf(d, "team %c", m->teams[s].letter);
    return s == OURS ? page_say(d, "our team") : page_say(d, "the other team");
}

struct str page_server(const struct draw *d, const struct server *s) {
    if (s->shirt == SHIRT_NONE)
        return page_say(d, "shirt not seen");
    if (!d->facts->no_names && s->player && s->player->name.n > 0)
        return s->player->name;
    return STR_NONE;
}

struct str page_day(const struct draw *d, struct date on) {
    if (on.year == 0) /* its line was not read: partial data */
        return page_say(d, "no date");
    /* TRANSLATORS: year, month, day, such as "%3$02d.%2$02d.%1$04d" */
    const char *form = lang_say(d->facts->lang, WORDS("%1$04d-%2$02d-%3$02d"));
    return str_printf(d->arena, form, on.year, on.month, on.day);
}

struct str page_days(const struct draw *d, struct date first, struct date last) {
    struct str from = page_day(d, first), to = page_day(d, last);
    return str_eq(from, to) ? from : page_sayf(d, "%.*s to %.*s", STR_ARG(from), STR_ARG(to));
}

struct str page_date(const struct draw *d) {
    return page_day(d, d->tally->checked->match->date);
}

struct str page_type(const struct draw *d, enum serve_type type) {
    static const char *const names[TYPE_UNDERHAND + 1] = {
        [TYPE_TOPSPIN] = WORDS("jump topspin"),       [TYPE_JUMPFLOAT] = WORDS("jump float"),
        [TYPE_HYBRID] = WORDS("hybrid"),              [TYPE_FLOAT] = WORDS("standing float"),
        [TYPE_OVERHAND] = WORDS("standing topspin"),  [TYPE_UNDERHAND] = WORDS("underhand"),
    };
    return names[type] ? page_say(d, names[type]) : STR_NONE;
}

/* "Harbour Herons v Granite Foxes · 2026-12-05 · Harbour League, round 2" */
struct str page_title(const struct draw *d) {
    const struct match *m = d->tally->checked->match;
    struct buf b;
    buf_init(&b, d->arena);
    if (m->practice)
        buf_printf(&b, "%.*s" DOT_BETWEEN "%.*s ", STR_ARG(page_team(d, OURS)),
                   STR_ARG(page_say(d, "practice")));
    else
        buf_printf(&b, "%.*s" DOT_BETWEEN,
                   STR_ARG(page_sayf(d, "%.*s v %.*s", STR_ARG(page_team(d, OURS)),
                                     STR_ARG(page_team(d, THEIRS)))));
    buf_add(&b, page_date(d));
    if (m->title.n > 0) {
        buf_add(&b, STR(DOT_BETWEEN));
        buf_add(&b, m->title);
    }
    return buf_str(&b);
}

static void add_net(const struct draw *d, struct buf *b, const struct match *m) {
    char net = m->teams[OURS].net;
    if (net || m->net_cm > 0)
        buf_add(b, STR(DOT_BETWEEN));
    if (net)
        buf_add(b, net == 'w' ? page_say(d, "women") : page_say(d, "men"));
    if (net && m->net_cm > 0)
        buf_add(b, STR(", "));
    if (m->net_cm > 0)
        buf_add(b, page_sayf(d, "net %.*s m", STR_ARG(page_decimal(d, m->net_cm, 2))));
}

struct str page_occasion(const struct draw *d) {
    const struct match *m = d->tally->checked->match;
    struct buf b;
    buf_init(&b, d->arena);
    buf_add(&b, page_date(d));
    if (m->timed)
        buf_printf(&b, " %02u:%02u", m->minute / 60, m->minute % 60);
    if (m->title.n > 0) {
        buf_add(&b, STR(DOT_BETWEEN));
        buf_add(&b, m->title);
    }
    if (m->venue.n > 0) {
        buf_add(&b, STR(DOT_BETWEEN));
        buf_add(&b, m->venue);
    }
    add_net(d, &b, m);
    return buf_str(&b);
}

/* Of nerves a page for the team names the routine alone. */
struct str page_phases(const struct draw *d, unsigned phases) {
    static const char *const names[] = {WORDS("toss"), WORDS("approach"), WORDS("jump"),
                                        WORDS("hit"), WORDS("routine")};
    struct buf b;
    buf_init(&b, d->arena);
    for (unsigned i = 0; i < sizeof names / sizeof *names; i++) {
        if (!(phases & (1u << i)))
            continue;
        if (b.n > 0)
            buf_add(&b, STR(", "));
        buf_add(&b, page_say(d, names[i]));
    }
    return buf_str(&b);
}

static struct str observed(const struct draw *d, unsigned phases) {
    struct str names = page_phases(d, phases);
    if (names.n == 0)
        return page_say(d, "technique not observed");
    return page_sayf(d, "technique observed: %.*s", STR_ARG(names));
}

const char *page_mark_seen(enum mark m) {
    static const char *const words[MARK_N] = {
        [MARK_td] = WORDS("toss too low"),
        [MARK_tu] = WORDS("toss too high"),
        [MARK_tl] = WORDS("toss across the head"),
        [MARK_tr] = WORDS("toss to the arm side"),
        [MARK_tn] = WORDS("toss over the head"),
        [MARK_tf] = WORDS("toss too far forward"),
        [MARK_tb] = WORDS("tossed with a bent arm"),
        [MARK_as] = WORDS("approach from the spot"),
        [MARK_al] = WORDS("too many steps"),
        [MARK_aw] = WORDS("arms spread wide"),
        [MARK_an] = WORDS("arms not swung"),
        [MARK_je] = WORDS("jumped early"),
        [MARK_jl] = WORDS("jumped late"),
        [MARK_js] = WORDS("short last step"),
        [MARK_jb] = WORDS("took off far behind"),
        [MARK_hb] = WORDS("bent arm at the hit"),
        [MARK_hs] = WORDS("arm slowed"),
        [MARK_hw] = WORDS("stiff wrist"),
        [MARK_hd] = WORDS("head down"),
        [MARK_hr] = WORDS("rigid trunk"),
        [MARK_hn] = WORDS("ball not in front"),
        [MARK_ho] = WORDS("off-centre hit"),
        [MARK_hp] = WORDS("a float that spun"),
        [MARK_nr] = WORDS("rushed the routine"),
    };
    return words[m];
}

struct str page_drill_said(const struct draw *d, const struct drill_recipe *r, struct str words) {
    return r->own ? words : page_say(d, str_c(d->arena, words));
}

struct str page_drill_title(const struct draw *d, const struct drill_recipe *r) {
    struct str said = page_drill_said(d, r, r->name);
    if (str_eq(said, r->name))
        return r->name;
    return str_printf(d->arena, "%.*s" DOT_BETWEEN "%.*s", STR_ARG(r->name), STR_ARG(said));
}

struct str page_errors_said(const struct draw *d) {
    const struct page_facts *f = d->facts;
    struct str errors = page_say_n(d, f->errors, "%u error", "%u errors", f->errors);
    struct str warnings = page_say_n(d, f->warnings, "%u warning", "%u warnings", f->warnings);
    struct str reviews = page_say_n(d, f->reviews, "%u line marked for review",
                                    "%u lines marked for review", f->reviews);
    return str_printf(d->arena, "%.*s, %.*s; %.*s", STR_ARG(errors), STR_ARG(warnings),
                      STR_ARG(reviews));
}

/* What the figures rest on. */
struct str page_data(const struct draw *d) {
    const struct tally *t = d->tally;
    unsigned all = t->side[OURS].serves + t->side[THEIRS].serves;
    struct str read = page_say_n(d, all, "Data: %u serve read", "Data: %u serves read", all);
    struct str not_known = page_say_n(
        d, t->side[OURS].serves, "place not recorded for %u of our %u serve",
        "place not recorded for %u of our %u serves", t->known[OURS][KNOWN_NOT],
        t->side[OURS].serves);
    return str_printf(d->arena, "%.*s, %.*s; %.*s; %.*s.", STR_ARG(read),
                      STR_ARG(page_errors_said(d)), STR_ARG(not_known),
                      STR_ARG(observed(d, t->checked->phases)));
}
