#include "cmd/sheet.h"

enum { OUTPUT, FORM, PRACTICE, BENCH, NO_NAMES, PARTIAL, LANGUAGE, PAPER, FONT };

static const struct cmd_option options[] = {
    {"output", "FILE", "where the PDF goes; notation.pdf, form.pdf, practice.pdf, bench.pdf if not\n"
     "said", NULL, 'o'},
    {"form", NULL, "a blank form to score by hand when there is no laptop", NULL, 0},
    {"practice", "FOLDER", "who practises what: by the focus lines of a folder's notes", NULL, 0},
    {"bench", "FOLDER", "who goes in to serve: by the matches of a folder", NULL, 0},
    {"no-names", NULL, "shirts only", NULL, 0},
    {"partial-data", NULL, "a bench card without lines or files that have errors", NULL, 0},
    CMD_LANG_OPTION,
    {"paper", "SIZE", "the paper, a4 if not said", cmd_papers, 0},
    {"font", "FILE", "a TrueType file to set the sheet in", NULL, 0},
    CMD_FROM_OPTION,
    CMD_TO_OPTION,
    CMD_LAST_OPTION,
    {NULL, NULL, NULL, NULL, 0},
};

bool sheet_read(struct sheet *s, const char *folder, bool partial_data, void *into,
                void (*take)(void *into, const struct checked *c, struct str name,
                             struct arena *a)) {
    struct cmd_paths paths = {.arena = s->arena};
    struct cmd_many many = {.run = s->run, .partial_data = partial_data, .into = into, .take = take};

    many.found = cmd_find_in(&paths, folder);
    many.found = cmd_worse(many.found, cmd_span_choose(&s->span, &paths));
    s->status = cmd_worse(s->status, cmd_each_file(&many, &paths));
    return many.left_out;
}

static const struct pages *pages_of(struct sheet *s, const struct page_font *font) {
    const char *const *given = s->run->given;

    if (given[PRACTICE])
        return sheet_practice(s, font, given[PRACTICE]);
    if (given[BENCH])
        return sheet_bench(s, font, given[BENCH]);
    return given[FORM] ? page_form(&s->facts, font, s->arena)
                       : page_notation(&s->facts, font, s->arena);
}

static enum cmd_status make(struct sheet *s, const char *out) {
    const struct pages *pages;

    if (!cmd_press_open(&s->press, s->run->given[FONT], s->arena))
        return CMD_FAILED;
    struct page_font font = pdf_font(s->press.pdf);
    pages = pages_of(s, &font);
    if (!pages)
        return s->status;
    return cmd_worse(s->status, cmd_press_write(&s->press, pages, s->run->given[PAPER], out));
}

static enum cmd_status sheet(const struct cmd_run *run) {
    const char *const *given = run->given;
    const char *out = given[OUTPUT] ? given[OUTPUT]
                      : given[PRACTICE] ? "practice.pdf"
                      : given[BENCH]    ? "bench.pdf"
                      : given[FORM]     ? "form.pdf"
                                        : "notation.pdf";
    struct sheet s = {.run = run,
                      .partial_data = given[PARTIAL],
                      .facts = {.version = str_of(NINEMETRE_VERSION),
                                .no_names = given[NO_NAMES],
                                .lang = cmd_lang(given[LANGUAGE])}};
    enum cmd_status status;

    if (!!given[FORM] + !!given[PRACTICE] + !!given[BENCH] > 1)
        return cmd_misuse(run->cmd, "--form, --practice and --bench are different sheets; ask for one");
    if (!cmd_span_take(&s.span, run) || !cmd_press_may_write(run->cmd, out))
        return CMD_USAGE;
    if (cmd_span_is_bounded(&s.span) && !given[PRACTICE] && !given[BENCH])
        return cmd_misuse(run->cmd, "--from, --to and --last go with --practice or --bench");
    s.arena = arena_new(cmd_no_memory);
    status = make(&s, out);
    cmd_press_close(&s.press);
    arena_free(s.arena);
    return status;
}

const struct cmd cmd_sheet = {
    .name = "sheet",
    .usage = "[OPTION]...",
    .summary = "pages to print: the notation, a form, a practice plan, a bench card",
    .about = "Writes a page with every word of the notation, made from the program's own\n"
             "tables, to lie beside the laptop; with --form a blank form to score by hand,\n"
             "one line a serve, for when the laptop dies; with --practice the plan of the next\n"
             "practice: players by the drill of their focus, boxes to tick, lines to type;\n"
             "with --bench, for the staff, what each server did over the matches of a season:\n"
             "points in 10 turns, misses in 20, how many misses a hard serve may have, and\n"
             "first serves after coming in.",
    .examples = "  9m sheet\n"
                "  9m sheet --form\n"
                "  9m sheet --practice season/\n"
                "  9m sheet --bench season/\n"
                "  9m sheet --paper letter -o bench.pdf",
    .options = options,
    .operand_min = 0,
    .operand_max = 0,
    .run = sheet,
};
