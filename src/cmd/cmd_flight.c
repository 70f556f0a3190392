/* The flight of a serve, by hand. */
#include <string.h>

#include "cmd/flown.h"

enum {
    SPEED, HEIGHT, CONTACT, SPIN, SIDESPIN, ANGLE, NET, START, AIM, TYPE, TIME, OVER, TOSS, MODEL, AS
};

static const char *const forms[] = {"text", "json", NULL};
/* In the order of enum depth_kind. */
static const char *const types[] = {"topspin",  "jumpfloat", "hybrid", "float",
                                    "overhand", "underhand", NULL};

/* Ranges: speeds in a university press summary of Hong, Asai, Weon 2019 (floats),
 * a Charles University study and a Brazilian sports-physics column of June 2024
 * (jump serves); the others as the texts say. */
static const struct cmd_option options[] = {
    {"speed", "KMH",
     "leaving the hand, as in v88; measured were 50 to 80 for\n"
     "floats, 56 to 118 for jump serves",
     NULL, 0},
    {"height", "M",
     "of the contact, as in h3.05: standing 2.3 to 2.6, jump\n"
     "float 2.6 to 3.0, jump serve 2.8 to 3.1 (women) or 3.2 to\n"
     "3.6 (men); from memory, no measurement was found",
     NULL, 0},
    {"contact", "M",
     "past the end line, as in c-0.5 (minus: behind it); 0 if not\n"
     "said; standing -0.5 to 0, jump float 0 to 0.5, jump serve\n"
     "0.3 to 1.5 (common practice, no source)",
     NULL, 0},
    {"spin", "TURNS",
     "topspin, turns a second; 0 if not said; jump serves 5 to 8\n"
     "(from memory, no measurement was found)",
     NULL, 0},
    {"sidespin", "TURNS", "that curves to the left, with a minus to the right", NULL, 0},
    {"angle", "DEGREES",
     "upward at the hit; if not said, what --aim asks for, or the\n"
     "middle of the angles that are in",
     NULL, 0},
    {"net", "HEIGHT", "women (2.24), men (2.43, if not said) or metres", NULL, 0},
    {"start", "M", "of the hit from the right side line, as in p1.5", NULL, 0},
    {"aim", "X,D",
     "where to land, as in a4.5,8.0: metres from the right side\n"
     "line and from the net; goes with --start",
     NULL, 0},
    {"type", "TYPE",
     "topspin, jumpfloat, hybrid, float, overhand, underhand: the\n"
     "usual for what is not said",
     types, 0},
    {"time", "S", "from the hit to the floor, as in f0.95: tells the speed", NULL, 0},
    {"over", "M", "how far above the tape it passed: tells the spin", NULL, 0},
    {"toss", "M",
     "highest point of the toss, as in t5.0: float 3 to 4, jump\n"
     "serve 5 to 7 (common practice, no source)",
     NULL, 0},
    {"model", "NAME", "default, classic, low, high or heavy; see above", flight_preset_words, 0},
    {"as", "FORM", "text (if not said) or json", forms, 0},
    {NULL, NULL, NULL, NULL, 0},
};

/* ---- reading -------------------------------------------------------------- */

/* A number that may be left out; false after a message. */
static bool number(const struct cmd_run *run, unsigned option, double least, double most,
                   double *out) {
    const char *given = run->given[option];

    return !given || cmd_decimal(&options[option], given, least, most, out);
}

/* Speed, spin, height and contact: given, usual for the type, or none. */
static bool read_measures(const struct cmd_run *run, struct flown_wish *w) {
    static const unsigned from[DEPTH_MEASURE_N] = {SPEED, SPIN, HEIGHT, CONTACT};
    const struct flight_bounds bounds[DEPTH_MEASURE_N] = {
        {3.6 * flight_speed_bounds_ms.least, 3.6 * flight_speed_bounds_ms.most},
        flight_spin_bounds_rev_s, flight_height_bounds_m, flight_contact_bounds_m};
    double measure[DEPTH_MEASURE_N] = {0};

    for (unsigned i = 0; i < DEPTH_MEASURE_N; i++) {
        w->known[i] = run->given[from[i]] != NULL;
        if (!number(run, from[i], bounds[i].least, bounds[i].most, &measure[i]))
            return false;
        if (!w->known[i] && w->typed)
            measure[i] = depth_usual(w->type, i, w->net_m).value;
        else if (i == DEPTH_SPEED_MS)
            measure[i] /= 3.6;
    }
    w->serve.speed_ms = measure[DEPTH_SPEED_MS];
    w->serve.topspin_rev_s = measure[DEPTH_SPIN_REV_S];
    w->serve.height_m = measure[DEPTH_HEIGHT_M];
    w->serve.x_m = measure[DEPTH_CONTACT_M];
    return true;
}

static bool read_net(const struct cmd_run *run, struct flown_wish *w) {
    const char *given = run->given[NET];

    w->net_m = 2.43;
    if (given && strcmp(given, "women") == 0)
        w->net_m = 2.24;
    else if (given && strcmp(given, "men") != 0)
        return number(run, NET, 1.45, 2.93, &w->net_m);
    return true;
}

/* Nearer to the net no serve comes down. */
static bool read_aim(const struct cmd_run *run, struct flown_wish *w) {
    const char *given = run->given[AIM], *comma = given ? strchr(given, ',') : NULL;
    char across[16];

    w->with_aim = given != NULL;
    if (!given)
        return true;
    snprintf(across, sizeof across, "%.*s", comma ? (int)(comma - given) : 0, given);
    if (!comma || !cmd_plain_number(across, "", &w->aim.x_m) ||
        !cmd_plain_number(comma + 1, "", &w->aim.d_m) || w->aim.x_m > 9 || w->aim.d_m < 1 ||
        w->aim.d_m > 12) {
        cmd_say("--aim is a landing such as 4.5,8.0: 0 to 9 m from the right side line, then 1 to "
                "12 m from the net; not \"%s\"", given);
        return false;
    }
    return number(run, START, 0, 9, &w->start.x_m);
}

static void take_direction(struct flown_wish *w) {
    w->start = geo_contact(w->start.x_m, w->serve.x_m);
    flight_from_spot(w->start, &w->serve.x_m, &w->serve.y_m);
    w->serve.azimuth_deg = -geo_angle_deg(w->start, w->aim);
}

static bool read_wish(const struct cmd_run *run, struct flown_wish *w) {
    *w = (struct flown_wish){.typed = run->given[TYPE] != NULL,
                             .with_angle = run->given[ANGLE] != NULL,
                             .with_time = run->given[TIME] != NULL,
                             .with_over = run->given[OVER] != NULL,
                             .with_toss = run->given[TOSS] != NULL};
    if (w->typed)
        w->type = cmd_choice(run->given[TYPE], types);
    if (run->given[MODEL])
        w->model = cmd_choice(run->given[MODEL], flight_preset_words);
    if (!read_net(run, w) || !read_measures(run, w) || !read_aim(run, w) ||
        !number(run, SIDESPIN, -flight_spin_bounds_rev_s.most, flight_spin_bounds_rev_s.most,
                &w->serve.sidespin_rev_s) ||
        !number(run, ANGLE, flight_angle_bounds_deg.least, flight_angle_bounds_deg.most,
                &w->serve.angle_deg) ||
        !number(run, TIME, 0.2, 5, &w->time_s) || !number(run, OVER, 0, 10, &w->over_m) ||
        !number(run, TOSS, 1, 13, &w->toss_m))
        return false;
    if (w->with_aim)
        take_direction(w);
    return true;
}

/* ---- what can't be asked --------------------------------------------------- */

/* What is wrong with the options together, or NULL. */
static const char *misfit(const struct cmd_run *run) {
    const char *const *given = run->given;

    if (!given[START] != !given[AIM])
        return "--start and --aim go together: a direction needs both";
    if ((given[TIME] || given[OVER]) && !given[AIM])
        return "--time and --over need --start and --aim, where the serve came down";
    if ((given[TIME] || given[OVER]) && given[ANGLE])
        return "the angle follows from --time or --over; leave --angle out";
    if (given[SIDESPIN] && given[AIM] && !given[ANGLE])
        return "with --sidespin the way to an aim can't be told; give --angle, too";
    if (given[OVER] && given[SPIN])
        return "--over tells the spin; leave --spin out";
    if (given[OVER] && !given[SPEED])
        return "--over needs --speed";
    if (given[SPEED] && given[TIME] && !given[SPIN])
        return "speed and time do not tell the spin: 5 ms or 0.7 km/h are 4 turns a second. "
               "Leave one out, or give --spin: then they tell the drag";
    if (!given[TYPE] && !given[SPEED] && !given[TIME])
        return "--speed is needed, or --type for a usual one";
    if (!given[TYPE] && !given[HEIGHT])
        return "--height is needed, or --type for a usual one";
    return NULL;
}

/* Why there is no serve that does all that; NULL if there is one. */
static const char *refusal(enum solve_status status) {
    switch (status) {
    case SOLVE_FOUND: return NULL;
    case SOLVE_NO_FLIGHT: return "no serve within 29 to 137 km/h and 0 to 10 turns does that";
    case SOLVE_UNDER_TAPE:
        return "the measures contradict each other: such a serve would have gone into the net";
    case SOLVE_TOO_LITTLE:
    case SOLVE_TOO_MUCH:
    case SOLVE_ILL_POSED:
    case SOLVE_NOT_STUDIED: break;
    }
    return "these measures do not tell a serve";
}

/* False after a message. */
static bool toss_is_right(const struct flown_wish *w) {
    if (!w->with_toss || (w->toss_m > w->serve.height_m && w->toss_m > TOSS_RELEASE_M))
        return true;
    cmd_say("a toss of %.2f m does not rise above the contact at %.2f m (or the hand at %.2f m)",
            w->toss_m, w->serve.height_m, TOSS_RELEASE_M);
    return false;
}

static enum cmd_status flight(const struct cmd_run *run) {
    const char *wrong = misfit(run);
    struct flown_wish w;
    struct flown_all all;

    if (wrong)
        return cmd_misuse(run->cmd, "%s", wrong);
    if (!read_wish(run, &w) || !toss_is_right(&w))
        return CMD_USAGE;
    flown_of(&all, &w);
    wrong = refusal(all.by[w.model].status);
    if (wrong) {
        cmd_say("%s", wrong);
        return CMD_USAGE;
    }
    if (run->given[AS] && strcmp(run->given[AS], "json") == 0)
        flown_json(&w, &all);
    else
        flown_text(&w, &all);
    return CMD_CLEAN;
}

const struct cmd cmd_flight = {
    .name = "flight",
    .usage = "[OPTION...]",
    .summary = "the flight of a serve: room over the net, landing, receiver's time",
    .about =
        "From speed, height, place and spin of the hit: how the ball passes the net, where\n"
        "and when it lands, how long a receiver has, and how much room the angle has\n"
        "between the tape and the end line. With --start and --aim, how to get there and\n"
        "the room to the side lines. Behind a number stands in brackets what other readings\n"
        "of the measurements give: low and high let spin pull less and more, heavy brakes a\n"
        "fast ball more; classic is a constant drag of 0.36 with little pull. The weakest\n"
        "number is the pull of spin; a float wobbles besides. Clear means that the ball does\n"
        "not touch the tape. A jump serve loads shoulder and knee: more height or speed is\n"
        "built up slowly, and pain belongs with a medical professional.",
    .examples = "  9m flight --speed 88 --height 3.0 --contact -0.5 --spin 6\n"
                "  9m flight --type jumpfloat --net women --start 1.5 --aim 2.0,8.0\n"
                "  9m flight --speed 100 --height 3.3 --contact 0.8 --spin 6 --angle 1\n"
                "  9m flight --time 1.12 --height 2.7 --start 4.5 --aim 4.5,6.2   how fast?\n"
                "  9m flight --type topspin --toss 7 --as json",
    .options = options,
    .operand_min = 0,
    .operand_max = 0,
    .run = flight,
};
