#include <string.h>

#include "cmd/press.h"

enum { OUTPUT, FORM, LANGUAGE, PAPER, FONT };

static const struct cmd_option options[] = {
    {"output", "FILE", "where the PDF goes, notation.pdf or form.pdf if not said; - is standard output",
     NULL, 'o'},
    {"form", NULL, "a blank form to score by hand when there is no laptop", NULL, 0},
    CMD_LANG_OPTION,
    {"paper", "SIZE", "the paper, a4 if not said", cmd_papers, 0},
    {"font", "FILE", "a TrueType file to set the sheet in", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

static enum cmd_status make(const struct cmd_run *run, const char *out, struct arena *a) {
    struct page_facts facts = {.version = str_of(NINEMETRE_VERSION),
                               .lang = cmd_lang(run->given[LANGUAGE])};
    struct cmd_press press;
    enum cmd_status status = CMD_FAILED;

    if (cmd_press_open(&press, run->given[FONT], a)) {
        struct page_font font = pdf_font(press.pdf);
        const struct pages *pages = run->given[FORM] ? page_form(&facts, &font, a)
                                                     : page_notation(&facts, &font, a);
        status = cmd_press_write(&press, pages, run->given[PAPER], out);
    }
    cmd_press_close(&press);
    return status;
}

static enum cmd_status sheet(const struct cmd_run *run) {
    const char *out = run->given[OUTPUT] ? run->given[OUTPUT]
                      : run->given[FORM] ? "form.pdf"
                                         : "notation.pdf";
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
    .summary = "pages to print: the notation, a form to score by hand",
    .about = "Writes a page with every word of the notation, made from the program's own\n"
             "tables, to lie beside the laptop; with --form a blank form to score by hand,\n"
             "one line a serve, for when the laptop dies.\n",
    .examples = "  9m sheet\n"
                "  9m sheet --form\n"
                "  9m sheet --paper letter -o bench.pdf\n",
    .options = options,
    .operand = NULL,
    .operand_min = 0,
    .operand_max = 0,
    .run = sheet,
};
