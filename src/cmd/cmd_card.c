/* Player cards: one page and one file each. */
#include <errno.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cmd/beside.h"
#include "cmd/source.h"

enum { OUTPUT, SEASON, AS, PAPER, LANGUAGE, FONT, NO_NAMES, PARTIAL };

static const char *const forms[] = {"pdf", "text", NULL};

static const struct cmd_option options[] = {
    {"output", "FOLDER", "where the cards go; beside the notes if not said", NULL, 'o'},
    {"season", "DIR", "her season: the matches and practices up to this one", NULL, 0},
    {"as", "FORM", "pdf (if not said), or text for a message", forms, 0},
    {"paper", "SIZE", "the paper, a4 if not said", cmd_papers, 0},
    CMD_LANG_OPTION,
    {"font", "FILE", "a TrueType file to set the cards in", NULL, 0},
    {"no-names", NULL, "shirts only", NULL, 0},
    {"partial-data", NULL, "go on in spite of errors: lines that could not be read are\n"
     "left out, one with a single likely mend counts as mended", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

struct making {
    const struct cmd_run *run;
    struct cmd_source source;
    bool text;
    uint8_t shirts[SHIRT_MAX + 1]; /* who was asked for; none: everybody who served */
    size_t shirt_n;
    struct drill_book drills;
    struct cards *cards;
    const struct tally *tally;
    struct page_facts facts;
};

/* ---- who --------------------------------------------------------------------- */

static bool take_shirt(struct making *m, const char *word) {
    unsigned value = 0;
    size_t n = strspn(word, "0123456789");

    for (size_t i = 0; i < n && value <= SHIRT_MAX; i++)
        value = value * 10 + (unsigned)(word[i] - '0');
    if (n == 0 || word[n] || value > SHIRT_MAX) {
        cmd_misuse(m->run->cmd, "\"%s\" is no shirt; such as: 9m card %s 7", word,
                   m->source.path);
        return false;
    }
    if (m->shirt_n == 0 || !memchr(m->shirts, (int)value, m->shirt_n))
        m->shirts[m->shirt_n++] = (uint8_t)value;
    return true;
}

static bool take_shirts(struct making *m) {
    for (size_t i = 1; i < m->run->operand_n; i++)
        if (!take_shirt(m, m->run->operands[i]))
            return false;
    return true;
}

static const struct server *find_server(const struct making *m, unsigned shirt) {
    for (size_t i = 0; i < m->tally->server_n[OURS]; i++)
        if (m->tally->servers[OURS][i].shirt == shirt)
            return &m->tally->servers[OURS][i];
    return NULL;
}

/* Everybody who served, unless some were named. False if one of these did not. */
static bool find_servers(struct making *m) {
    bool all = m->shirt_n == 0, good = true;

    for (size_t i = 0; i < m->tally->server_n[OURS] && all; i++)
        if (m->tally->servers[OURS][i].shirt != SHIRT_NONE)
            m->shirts[m->shirt_n++] = m->tally->servers[OURS][i].shirt;
    for (size_t i = 0; i < m->shirt_n; i++)
        if (!find_server(m, m->shirts[i])) {
            cmd_say("%s: no serve of our %u", m->source.path, m->shirts[i]);
            good = false;
        }
    if (m->shirt_n == 0)
        cmd_say("%s holds no serve of ours whose shirt was seen", m->source.path);
    return good && m->shirt_n > 0;
}

/* ---- her season ---------------------------------------------------------------- */

static void take(void *into, const struct checked *c, struct str name, struct arena *a) {
    (void)name;
    (void)a;
    cards_add(into, c);
}

/* The match itself is read already. */
static void leave_out(struct cmd_paths *paths, const char *path) {
    size_t n = 0;

    for (size_t i = 0; i < paths->n; i++)
        if (!cmd_same_file(paths->at[i], path))
            paths->at[n++] = paths->at[i];
    paths->n = n;
}

static enum cmd_status read_season(struct making *m) {
    const char *directory = m->run->given[SEASON];
    struct cmd_paths paths = {.arena = m->source.arena};
    struct cmd_many many = {.run = m->run,
                            .partial_data = m->run->given[PARTIAL],
                            .into = m->cards,
                            .take = take};
    enum cmd_status status;

    if (!directory)
        return CMD_CLEAN;
    many.found = cmd_find_in(&paths, directory);
    leave_out(&paths, m->source.path);
    status = cmd_each_file(&many, &paths);
    m->facts.left_out = many.left_out;
    return status;
}

/* ---- one card ------------------------------------------------------------------- */

/* Only what stands on it: a font for a team-mate's letters takes its time. */
static bool covered(const struct making *m, struct cmd_press *p, const struct card *c) {
    const struct card_focus *f = &c->focus;
    const struct player *who = c->who.player;
    struct str place = STR("focus");

    if (!cmd_source_covered(&m->source, p, true) ||
        (who && !m->facts.no_names && !cmd_press_covers(p, who->name, who->place.file)))
        return false;
    return !f->chosen ||
           (cmd_press_covers(p, f->progress.drill, place) &&
            (!f->drill || (cmd_press_covers(p, f->drill->setup, place) &&
                           cmd_press_covers(p, f->drill->goal, place))));
}

static enum cmd_status set_page(const struct making *m, const struct card *c, const char *out) {
    struct cmd_press press;
    enum cmd_status status = CMD_FAILED;

    if (cmd_press_open(&press, m->run->given[FONT], m->source.arena) &&
        covered(m, &press, c)) {
        struct page_font font = pdf_font(press.pdf);

        status = cmd_press_write(&press,
                                 page_card(c, m->tally, &m->facts, &font, m->source.arena),
                                 m->run->given[PAPER], out);
    }
    cmd_press_close(&press);
    return status;
}

/* French has no-break spaces before its colons and units; cmd_safe would show each
 * as a dot. */
static struct str with_plain_blanks(struct str s, struct arena *a) {
    struct buf b;

    buf_init(&b, a);
    for (size_t at = 0, n; at < s.n; at += n) {
        unsigned code_point = 0;

        n = str_code_point(s, at, &code_point);
        n = n ? n : 1;
        buf_add(&b, code_point == 0xA0 || code_point == 0x202F ? STR(" ") : str_part(s, at, n));
    }
    return buf_str(&b);
}

/* Line by line, as it may be sent to a terminal. */
static void print_text(struct str text, struct arena *a) {
    struct str line;

    while (str_take_line(&text, &line)) {
        struct buf b;

        buf_init(&b, a);
        cmd_safe(&b, line, 0);
        printf("%.*s\n", STR_ARG(buf_str(&b)));
    }
}

/* 2026-10-03-foxes-7.pdf */
static const char *card_path(const struct making *m, unsigned shirt) {
    const char *folder = m->run->given[OUTPUT], *ending = m->text ? "txt" : "pdf";
    struct str notes = strcmp(m->source.path, "-") == 0 ? STR("card") : str_of(m->source.path);
    struct arena *a = m->source.arena;

    if (!folder)
        return str_printf(a, "%.*s-%u.%s", STR_ARG(cmd_without_ending(notes)), shirt, ending).at;
    notes = cmd_without_ending(cmd_base_name(str_c(a, notes)));
    return str_printf(a, "%s/%.*s-%u.%s", folder, STR_ARG(notes), shirt, ending).at;
}

static enum cmd_status make_card(const struct making *m, unsigned shirt) {
    const char *out = card_path(m, shirt);
    struct arena *a = m->source.arena;
    struct card *c = arena_alloc(a, 1, sizeof *c);
    struct str text;

    card_of(m->cards, find_server(m, shirt), &m->drills, a, c);
    if (!m->text)
        return set_page(m, c, out);
    text = page_card_text(c, m->tally, &m->facts, a);
    if (m->run->given[OUTPUT])
        return cmd_write(out, text) ? CMD_CLEAN : CMD_FAILED;
    print_text(with_plain_blanks(text, a), a);
    return CMD_CLEAN;
}

/* ---- all of them ------------------------------------------------------------------ */

/* A new folder is lasting once that which holds it is on the disk. False after a message. */
static bool make_folder(const char *folder) {
    if (!folder || (mkdir(folder, 0777) == 0 ? beside_sync_folder(folder) : errno == EEXIST))
        return true;
    cmd_say("%s: %s", folder, strerror(errno));
    return false;
}

static enum cmd_status make_cards(struct making *m) {
    enum cmd_status status = CMD_CLEAN;
    bool asked = m->shirt_n > 0;

    if (!find_servers(m))
        return asked ? CMD_USAGE : CMD_FINDINGS;
    if (m->text && !m->run->given[OUTPUT] && m->shirt_n > 1)
        return cmd_misuse(m->run->cmd, "as text one card at a time, such as 9m card --as text "
                                       "%s %u; or name a folder with -o", m->source.path,
                          m->shirts[0]);
    if (!make_folder(m->run->given[OUTPUT]))
        return CMD_FAILED;
    for (size_t i = 0; i < m->shirt_n && status == CMD_CLEAN; i++)
        status = make_card(m, m->shirts[i]);
    return status;
}

static enum cmd_status gather(struct making *m) {
    struct arena *a = m->source.arena;
    enum cmd_status status;

    m->facts = cmd_source_facts(&m->source);
    m->facts.no_names = m->run->given[NO_NAMES];
    m->facts.lang = cmd_lang(m->run->given[LANGUAGE]);
    m->tally = tally_of(m->source.checked, a);
    m->cards = cards_new(m->source.checked, a);
    drill_book_init(&m->drills, a);
    status = cmd_drills(&m->drills, m->source.path, m->run->color_err);
    return cmd_worse(status, read_season(m));
}

static enum cmd_status read_and_make(struct making *m) {
    enum cmd_status status;

    if (!cmd_source_read(&m->source, m->run, m->run->given[PARTIAL], "No card written.", &status))
        return status;
    if (!m->source.checked->match->occasion || m->source.checked->match->practice) {
        cmd_say("%s is no match; cards are of matches, 9m report of practices too",
                m->source.path);
        return CMD_FINDINGS;
    }
    status = cmd_worse(status, gather(m));
    if (status == CMD_CLEAN || m->run->given[PARTIAL])
        return cmd_worse(status, make_cards(m));
    return cmd_stopped("card", status);
}

static enum cmd_status card(const struct cmd_run *run) {
    struct making *m;
    struct arena *a = arena_new(cmd_no_memory);
    enum cmd_status status = CMD_USAGE;

    m = arena_alloc(a, 1, sizeof *m);
    m->run = run;
    m->source = (struct cmd_source){.path = run->operands[0], .arena = a};
    m->text = run->given[AS] && strcmp(run->given[AS], "text") == 0;
    if (take_shirts(m))
        status = read_and_make(m);
    arena_free(a);
    return status;
}

const struct cmd cmd_card = {
    .name = "card",
    .usage = "[OPTION]... FILE [SHIRT]...",
    .summary = "a card for each player: her serves, her one thing, her focus",
    .about =
        "Sets a page for each player who served in the match, to be handed to her: what\n"
        "went well, one cue, her serves in order and on the court, her routine as said and\n"
        "as done, what her misses looked like, her focus with its drill and goal, and one\n"
        "question for the video. One file a player, so that nobody gets another's:\n"
        "harbour.9m becomes harbour-7.pdf, harbour-12.pdf and so on.\n"
        "With --season the card has her season before this match beside it, what came of\n"
        "her focus (a line focus 7 td \"Ring toss\" 14/20), how far from the line she hits\n"
        "(five measured contacts, c-0.4) and, with 150 serves and 30 of them aimed, where\n"
        "to aim. Later matches are left out. No interval, no rank and nobody else's\n"
        "numbers stand on it, and neither do notes, nerves and intents.\n"
        "Drills of the club's own are read beside the notes. Notes with errors give no\n"
        "card, and older ones stay as they are.",
    .examples = "  9m card harbour.9m\n"
                "  9m card --season season/ -o cards/ season/2026-10-17-swifts.9m\n"
                "  9m card --as text --season season/ season/2026-10-17-swifts.9m 7",
    .options = options,
    .operand = "a file",
    .operand_min = 1,
    .operand_max = SIZE_MAX,
    .run = card,
};
