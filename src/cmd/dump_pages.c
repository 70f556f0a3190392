/* The pages of a report as lists, before they are a PDF: what stands where, one
 * item a line, in the order of drawing. */
#include "cmd/dump.h"

#include "cmd/advise.h"
#include "cmd/press.h"
#include "cmd/source.h"

static const char *ink_name(enum page_ink ink) {
    static const char *const names[INK_N] = {
        [INK_NONE] = "-",           [INK_BLACK] = "black", [INK_NOTE] = "note",
        [INK_OURS] = "ours",        [INK_MISSED] = "missed", [INK_FAINT] = "faint",
        [INK_GRID] = "grid",        [INK_WHITE] = "white",
    };

    return names[ink];
}

static const char *mark_name(enum page_mark m) {
    static const char *const names[PAGE_MARK_N] = {
        [MARK_ACE_FLOOR] = "ace",     [MARK_ACE_PLAYED] = "ace-touched",
        [MARK_PLAY] = "play",         [MARK_BROKE] = "broke",
        [MARK_LONG] = "long",         [MARK_RIGHT] = "right",
        [MARK_LEFT] = "left",         [MARK_NET] = "net",
        [MARK_FAULT] = "fault",       [MARK_OBJECT] = "object",
        [MARK_FLOOR] = "floor",       [MARK_BESIDE] = "beside",
        [MARK_START] = "start",       [MARK_START_MISSED] = "start-missed",
    };

    return names[m];
}

/* Hundredths of a millimetre, and never "-0.00". */
static void put_mm(double mm) {
    printf("\t%.2f", mm > -0.005 && mm < 0 ? 0.0 : mm);
}

static void put_item(const struct page_item *i) {
    static const char *const kinds[] = {"words", "line", "box", "circle", "mark"};

    printf("%s", kinds[i->kind]);
    put_mm(i->x_mm);
    put_mm(i->y_mm);
    switch (i->kind) {
    case PAGE_WORDS:
        printf("\t%.1f%s\t%s\t%.*s", i->type_pt, i->face == FACE_BOLD ? "b" : "",
               ink_name(i->ink), STR_ARG(i->words));
        break;
    case PAGE_LINE:
    case PAGE_BOX:
        put_mm(i->x2_mm);
        put_mm(i->y2_mm);
        printf("\t%.1f\t%s\t%s", i->line_pt, ink_name(i->ink),
               i->kind == PAGE_BOX ? ink_name(i->fill) : i->on_mm > 0 ? "dashed" : "whole");
        break;
    case PAGE_CIRCLE:
        put_mm(i->size_mm);
        printf("\t%.1f\t%s\t%s", i->line_pt, ink_name(i->ink), ink_name(i->fill));
        break;
    case PAGE_MARK:
        put_mm(i->size_mm);
        printf("\t%s\t%s", mark_name(i->mark), ink_name(i->ink));
        if (i->serve) /* none in a key */
            printf("\tline %u", i->serve->line);
        break;
    }
    putchar('\n');
}

static void put_pages(const struct pages *pages) {
    for (size_t i = 0; i < pages->n; i++) {
        printf("page %zu\t%.*s\n", i + 1, STR_ARG(pages->at[i].name));
        for (size_t k = 0; k < pages->at[i].n; k++)
            put_item(&pages->at[i].items[k]);
    }
}

enum cmd_status dump_pages(const struct cmd_run *run, const struct checked *c, const char *season,
                           struct arena *a) {
    struct page_facts facts = {.file = cmd_base_name(run->operands[1])};
    struct advice advice;
    struct cmd_press press;
    enum cmd_status status = CMD_CLEAN;

    if (season) {
        status = advise_season(run, season, false, c, str_c(a, c->match->file), &advice, a);
        facts.season = &advice;
        facts.drills = advice.drills;
    }
    if (status != CMD_CLEAN)
        return status;
    if (cmd_press_open(&press, NULL, a)) {
        struct page_font font = pdf_font(press.pdf);

        put_pages(page_report(tally_of(c, a), &facts, &font, a));
    } else {
        status = CMD_FAILED;
    }
    cmd_press_close(&press);
    return status;
}
