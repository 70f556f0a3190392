#include <string.h>

#include "cmd/press.h"

enum { OUTPUT, PAPER, FONT };

static const struct cmd_option options[] = {
    {"output", "FILE", "where the PDF goes, notation.pdf if not said; - is standard output", NULL,
     'o'},
    {"paper", "SIZE", "the paper, a4 if not said", cmd_papers, 0},
    {"font", "FILE", "a TrueType file to set the sheet in", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

static enum cmd_status make(const struct cmd_run *run, const char *out, struct arena *a) {
    struct page_facts facts = {.version = str_of(NINEMETRE_VERSION)};
    struct cmd_press press;
    enum cmd_status status = CMD_FAILED;

    if (cmd_press_open(&press, run->given[FONT], a)) {
        struct page_font font = pdf_font(press.pdf);
        status = cmd_press_write(&press, page_notation(&facts, &font, a), run->given[PAPER], out);
    }
    cmd_press_close(&press);
    return status;
}

static enum cmd_status sheet(const struct cmd_run *run) {
    const char *out = run->given[OUTPUT] ? run->given[OUTPUT] : "notation.pdf";
    struct arena *a;
    enum cmd_status status;

    if (!cmd_press_may_write(run->cmd, out))
        return CMD_USAGE;
    a = arena_new(cmd_no_memory);
    status = make(run, out, a);
    arena_free(a);
    return status;
}

const struct cmd cmd_sheet = {
    .name = "sheet",
    .usage = "[OPTION]...",
    .summary = "the notation on one page, to print for the bench",
    .about = "Writes a page with every word of the notation, made from the program's own\n"
             "tables, to lie beside the laptop.\n",
    .examples = "  9m sheet\n"
                "  9m sheet --paper letter -o bench.pdf\n",
    .options = options,
    .operand = NULL,
    .operand_min = 0,
    .operand_max = 0,
    .run = sheet,
};
