/* Notes to start from, with the squad's header. */
#include "cmd/new.h"

#include <string.h>
#include <sys/stat.h>
#include <time.h>

#include "cmd/span.h"

enum { OUTPUT, SQUAD, AGAINST, DATE };

static const struct cmd_option options[] = {
    {"output", "FILE", "where they go; DATE-match.9m or DATE-practice.9m if not said", NULL, 'o'},
    {"squad", "FILE", "the squad's file, which the notes will name", NULL, 0},
    {"against", "NAME", "the other team", NULL, 0},
    {"date", "DATE", "such as 2026-10-03; today if not said", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

static bool is_match(const struct cmd_run *run) {
    return strcmp(run->operands[0], "match") == 0;
}

/* ---- the day ----------------------------------------------------------------- */

static struct date today(void) {
    time_t now = time(NULL);
    struct tm tm;

    if (!localtime_r(&now, &tm))
        return (struct date){0};
    return (struct date){tm.tm_year + 1900, tm.tm_mon + 1, tm.tm_mday};
}

static bool find_day(struct new_file *n) {
    const char *given = n->run->given[DATE];

    n->date = today();
    if (!given || cmd_day(given, &n->date))
        return true;
    cmd_misuse(n->run->cmd, "\"%s\" is no date; write it as 2026-10-03", given);
    return false;
}

/* ---- the squad ----------------------------------------------------------------- */

/* The squad's file must lie beside the new one or below it. */
static bool name_squad(struct new_file *n, const char *out) {
    struct str here = str_folder(str_of(out)), path = str_of(n->squad);

    if (strcmp(out, "-") == 0)
        here = str_folder(str_of(n->squad));
    n->squad_name = str_part(path, here.n, path.n);
    if (str_starts(path, here) && n->squad_name.n > 0 && n->squad_name.at[0] != '/' &&
        !str_starts(n->squad_name, STR("..")))
        return true;
    cmd_misuse(n->run->cmd, "the squad's file %s must lie in the folder of %s, or below it",
               n->squad, out);
    return false;
}

static bool read_squad(struct new_file *n) {
    struct text *t = arena_alloc(n->arena, 1, sizeof *t);
    struct cmd_show show;
    struct diags d;

    diags_init(&d, n->arena);
    if (!cmd_read(t, n->squad, n->arena, &d))
        return false;
    n->ours = check_text(t, 0, n->arena, &d);
    if (d.errors > 0) {
        cmd_show_init(&show, stderr, n->run->color_err);
        cmd_show(&show, &d);
    } else if (n->ours->match->occasion) {
        cmd_say("%s holds a match or a practice; a squad's file has teams and players only",
                n->squad);
    } else if (n->ours->match->team_n == 0) {
        cmd_say("%s names no team", n->squad);
    } else {
        return true;
    }
    return false;
}

/* ---- the file ------------------------------------------------------------------ */

/* A letter for the other team: of its name if ours has not got it. */
static char other_letter(const struct new_file *n, const char *name) {
    char ours = n->ours ? n->ours->match->teams[OURS].letter : 'A';

    for (const char *c = name; *c; c++)
        if (*c >= 'A' && *c <= 'Z' && *c != ours)
            return *c;
    return ours == 'B' ? 'C' : 'B';
}

/* A name as the notation quotes it. */
static bool quotable(const char *name) {
    return name[0] && !strpbrk(name, "\"\n\r\t");
}

static void add_teams(const struct new_file *n, struct buf *b) {
    const char *name = n->run->given[AGAINST] ? n->run->given[AGAINST] : "Their team";
    char net = n->ours ? n->ours->match->teams[OURS].net : 0;
    const char *side = net == 'w' ? " women" : net == 'm' ? " men" : "";

    if (n->ours)
        buf_printf(b, "squad \"%.*s\"\n", STR_ARG(n->squad_name));
    else
        buf_add(b, STR("team A \"Our team\"\n"));
    if (is_match(n->run))
        buf_printf(b, "team %c \"%s\"%s\n", other_letter(n, name), name, side);
}

static void add_match(const struct new_file *n, struct buf *b) {
    char ours = n->ours ? n->ours->match->teams[OURS].letter : 'A';

    buf_printf(b, "\n# observe toss approach jump hit: the phases that you look at\n"
                  "# lineup %c and the six shirts in zones 1 to 6, if you like\n"
                  "set 1\n",
               ours);
}

static enum cmd_status fill(const struct new_file *n, struct buf *b) {
    buf_printf(b, "notation 1\n%s %04d-%02d-%02d\n", n->run->operands[0], n->date.year,
               n->date.month, n->date.day);
    add_teams(n, b);
    if (!is_match(n->run))
        return new_practice(n, b);
    add_match(n, b);
    return CMD_CLEAN;
}

static const char *default_out(const struct new_file *n) {
    struct str here = n->squad ? str_folder(str_of(n->squad)) : STR_NONE;

    return str_c(n->arena, str_printf(n->arena, "%.*s%04d-%02d-%02d-%s.9m", STR_ARG(here),
                                      n->date.year, n->date.month, n->date.day,
                                      n->run->operands[0]));
}

static enum cmd_status make(struct new_file *n) {
    const char *out;
    struct stat st;
    struct buf b;
    enum cmd_status status;

    if (!find_day(n))
        return CMD_USAGE;
    out = n->run->given[OUTPUT] ? n->run->given[OUTPUT] : default_out(n);
    if (n->squad && !name_squad(n, out))
        return CMD_USAGE;
    if (n->squad && !read_squad(n))
        return CMD_FAILED;
    if (strcmp(out, "-") != 0 && stat(out, &st) == 0) {
        cmd_say("%s is there already, and stays as it is; name another file with -o", out);
        return CMD_FAILED;
    }
    buf_init(&b, n->arena);
    status = fill(n, &b);
    return status == CMD_FAILED || cmd_write(out, buf_str(&b)) ? status : CMD_FAILED;
}

static enum cmd_status new_notes(const struct cmd_run *run) {
    struct new_file n = {.run = run, .squad = run->given[SQUAD]};
    enum cmd_status status;

    if (strcmp(run->operands[0], "match") != 0 && strcmp(run->operands[0], "practice") != 0)
        return cmd_misuse(run->cmd, "\"%s\" is neither match nor practice", run->operands[0]);
    if (run->given[AGAINST] && !quotable(run->given[AGAINST]))
        return cmd_misuse(run->cmd, "a team's name has letters and no quotation mark");
    n.arena = arena_new(cmd_no_memory);
    status = make(&n);
    arena_free(n.arena);
    return status;
}

const struct cmd cmd_new = {
    .name = "new",
    .usage = "[OPTION]... match|practice",
    .summary = "notes to start from, for a match or a practice",
    .about = "Writes a file with the head of the notes: date, squad, teams. A practice has the\n"
             "drills that the players' focus lines name, each player under hers with what she\n"
             "has so far, as remarks: take away the # and fill in the blanks (_). The file\n"
             "lies beside the squad's. A file that is there already is left alone.",
    .examples = "  9m new match --squad herons.9m --against \"Granite Foxes\"\n"
                "  9m new practice --squad season/herons.9m --date 2026-10-20",
    .options = options,
    .operand = "match or practice",
    .operand_min = 1,
    .operand_max = 1,
    .run = new_notes,
};
