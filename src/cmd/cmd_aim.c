/* Where one server should aim. */
#include <string.h>

#include "cmd/aiming.h"
#include "cmd/span.h"

enum { SERVER, TYPE, AS, PARTIAL_DATA };

static const char *const form_words[] = {"text", "json", NULL};

/* In the order of enum serve_type, from TYPE_TOPSPIN on. */
static const char *const type_words[] = {"topspin",  "jumpfloat", "hybrid", "float",
                                         "overhand", "underhand", NULL};

static const struct cmd_option options[] = {
    {"server", "SHIRT", "whose serves; one of ours", NULL, 0},
    {"type", "TYPE", "which of her serves, if not the one she aims most", type_words, 0},
    {"as", "FORM", "text (the default) or json", form_words, 0},
    {"partial-data", NULL, "go on in spite of errors: lines that could not be read are\n"
     "left out, one with a single likely mend counts as mended", NULL, 0},
    CMD_FROM_OPTION,
    CMD_TO_OPTION,
    CMD_LAST_OPTION,
    {NULL, NULL, NULL, NULL, 0},
};

struct str aiming_type(enum serve_type type) {
    return str_of(type == TYPE_NONE ? NULL : type_words[type - TYPE_TOPSPIN]);
}

/* ---- who ------------------------------------------------------------------- */

static void add_person(struct buf *b, const struct person *p) {
    buf_printf(b, "%s%u ", b->n ? ", " : "", p->shirt);
    cmd_safe(b, p->name.n ? p->name : STR("without a name"), 0);
    buf_add(b, STR(" of "));
    cmd_safe(b, p->team, 0);
}

/* How many of ours served with that shirt, and the last of them. */
static unsigned find(struct aiming *g, unsigned shirt, struct buf *names) {
    unsigned n = 0;

    for (size_t i = 0; i < aimed_people(g->aimed); i++)
        if (aimed_person(g->aimed, i)->shirt == shirt) {
            add_person(names, aimed_person(g->aimed, i));
            g->person = i;
            n++;
        }
    return n;
}

static bool find_server(struct aiming *g, unsigned shirt) {
    struct buf names;
    unsigned n;

    buf_init(&names, g->arena);
    n = find(g, shirt, &names);
    if (n == 0)
        cmd_say("nobody of ours with shirt %u served in these notes", shirt);
    if (n > 1)
        cmd_say("there is %.*s; give the notes of one of them", STR_ARG(buf_str(&names)));
    return n == 1;
}

static bool find_type(struct aiming *g, const char *word) {
    struct aimed_counts by[AIMED_TYPES];
    unsigned type = TYPE_TOPSPIN;

    g->type = aimed_usual_type(g->aimed, g->person);
    if (!word)
        return true;
    while (strcmp(type_words[type - TYPE_TOPSPIN], word) != 0)
        type++;
    aimed_by_type(g->aimed, g->person, by);
    if (!by[type].serves_n) {
        cmd_say("no %s serve of hers stands in these notes", word);
        return false;
    }
    g->type = (enum serve_type)type;
    return true;
}

/* ---- the run --------------------------------------------------------------- */

static void take(void *aiming, const struct checked *c, struct str name, struct arena *a) {
    struct aiming *g = aiming;

    (void)name;
    (void)a;
    aimed_add(g->aimed, c);
}

static enum cmd_status show(struct aiming *g, const struct cmd_run *run, unsigned shirt) {
    const char *form = run->given[AS];

    if (!find_server(g, shirt) || !find_type(g, run->given[TYPE]))
        return CMD_USAGE;
    aimed_advise(g->aimed, g->person, g->type, g->arena, &g->advice);
    if (form && strcmp(form, "json") == 0)
        aiming_json(g);
    else
        aiming_text(g);
    return CMD_CLEAN;
}

static enum cmd_status read_and_show(struct aiming *g, const struct cmd_run *run,
                                     unsigned shirt, const struct cmd_span *span) {
    struct cmd_paths paths = {.arena = g->arena};
    struct cmd_many many = {.run = run, .found = cmd_find_days(&paths, run, span),
                            .partial_data = run->given[PARTIAL_DATA], .into = g, .take = take};
    enum cmd_status status = cmd_each_file(&many, &paths);

    g->incomplete = many.left_out;
    if (status != CMD_CLEAN && !many.partial_data)
        return cmd_stopped("advice", status);
    return cmd_worse(status, show(g, run, shirt));
}

static enum cmd_status aim(const struct cmd_run *run) {
    struct aiming g = {.person = 0};
    struct cmd_span span;
    unsigned shirt;
    enum cmd_status status;

    if (!run->given[SERVER])
        return cmd_misuse(run->cmd, "whose serves? such as: --server 7");
    if (!cmd_number("server", run->given[SERVER], SHIRT_MAX, &shirt) ||
        !cmd_span_take(&span, run))
        return CMD_USAGE;
    g.arena = arena_new(cmd_no_memory);
    g.aimed = aimed_new(g.arena);
    status = read_and_show(&g, run, shirt, &span);
    arena_free(g.arena);
    return status;
}

const struct cmd cmd_aim = {
    .name = "aim",
    .usage = "--server SHIRT [OPTION]... PATH...",
    .summary = "where a server should aim, from her own scatter",
    .about =
        "Write down where she means to serve, on the line (7 ad6 net) or with the drill\n"
        "(drill \"Corner\" a8.0,8.0), in matches or at practice. From where those serves\n"
        "came down, 9m aim works out how far off her aim they are on average and how much\n"
        "they scatter, misses included, and looks for the aim that wins the most rallies:\n"
        "what a landing is worth comes from the rallies of the whole team, by zone; the\n"
        "net, long and wide are worth nothing.\n"
        "The net hides where its serves would have landed. The flight of the ball tells\n"
        "how short is too short (9m flight): measures of speed and contact (v88 h3.0\n"
        "c+0.4, on the lines or in her routine) make that better than usual values do.\n"
        "Since much hangs on it, the advice is shown too as it would be with that limit\n"
        "half a metre nearer and farther.\n"
        "Her own scatter counts from 150 serves on, 30 of them aimed; below 100 aimed\n"
        "ones it is no more than a hint. Before that the advice is general.",
    .examples = "  9m aim --server 7 season/\n"
                "  9m aim --server 7 --type jumpfloat season/\n"
                "  9m aim --server 7 --as json season/ | jq .advice",
    .options = options,
    .operand = "a file, a directory or - for standard input",
    .operand_min = 1,
    .operand_max = SIZE_MAX,
    .run = aim,
};
