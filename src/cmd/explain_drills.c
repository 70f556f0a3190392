/* `9m explain "Ring toss"`, `9m explain drills`, and the drills for a mark. */
#include "cmd/explain.h"

/* What `9m explain` calls the drills as a whole; no word of the notation. */
static const char all_drills[] = "drills";

static void put_treats(const struct drill_recipe *r) {
    struct arena *a = arena_new(cmd_no_memory);
    struct buf b;

    buf_init(&b, a);
    for (size_t i = 0; i < r->treat_n; i++) {
        const struct word_info *w = word_info(r->treats[i]);

        buf_printf(&b, "%s%.*s (%s)", i ? ", " : "", STR_ARG(w->word), w->meaning);
    }
    buf_char(&b, '\0');
    explain_section("Treats:", b.at, false);
    arena_free(a);
}

static void put_text(const char *head, struct str text, bool notes) {
    struct arena *a = arena_new(cmd_no_memory);

    explain_section(head, str_c(a, text), notes);
    arena_free(a);
}

static const char *jumps(enum drill_jumps j) {
    switch (j) {
    case DRILL_JUMPS_NO: return "";
    case DRILL_JUMPS_YES: return "It contains jumps.";
    case DRILL_JUMPS_MAYBE: return "It contains jumps if hers is a jump serve.";
    }
    return "";
}

static void put_jumps(const struct drill_recipe *r) {
    struct arena *a = arena_new(cmd_no_memory);

    if (r->jumps != DRILL_JUMPS_NO)
        explain_section("Jumps:",
                        str_printf(a, "%s %s", jumps(r->jumps), drill_jump_caution()).at, false);
    arena_free(a);
}

static void put_drill(const struct drill_recipe *r) {
    struct arena *a = arena_new(cmd_no_memory);
    const char *kind = r->own ? "a drill of the club" : "a drill";

    if (r->purpose.n)
        explain_head(r->name, kind, str_c(a, r->purpose));
    else
        explain_paragraph(str_printf(a, "%.*s (%s)", STR_ARG(r->name), kind).at, 0);
    put_treats(r);
    put_text("Set-up:", r->setup, false);
    put_text("How much:", r->dose, false);
    put_text("Notes of the practice:", r->score, true);
    put_text("Goal:", r->goal, false);
    put_text("Next:", r->next, false);
    put_text("Care:", r->care, false);
    put_jumps(r);
    arena_free(a);
    explain_paragraph("\nWhat holds for every drill: 9m explain drills", 0);
}

static void put_line(const struct drill_recipe *r) {
    struct arena *a = arena_new(cmd_no_memory);

    explain_paragraph(str_printf(a, "%.*s%s%.*s", STR_ARG(r->name), r->purpose.n ? ": " : "",
                                 STR_ARG(r->purpose)).at, 2);
    arena_free(a);
}

static void put_all(const struct drill_book *book) {
    explain_paragraph("Drills are common practice, no source. The coach's judgement comes first, "
                      "and these hold for all of them:", 0);
    for (size_t i = 0; drill_caution(i); i++)
        explain_section(drill_caution(i)->title, drill_caution(i)->text, false);
    printf("\nThe drills:\n");
    for (size_t i = 0; i < book->n; i++)
        put_line(&book->at[i]);
}

size_t explain_drills(const struct drill_book *book, struct str word, size_t done) {
    const struct drill_recipe *r = drill_find(book, word);

    if (!r && !str_same(word, str_of(all_drills)))
        return 0;
    if (done)
        putchar('\n');
    if (r)
        put_drill(r);
    else
        put_all(book);
    return 1;
}

void explain_treating(const struct drill_book *book, enum word_id what) {
    struct arena *a = arena_new(cmd_no_memory);
    const struct drill_recipe **all = arena_alloc(a, book->n, sizeof *all);
    size_t n = drill_treating(book, what, TYPE_NONE, all, book->n);

    if (n)
        printf("\nDrills:\n");
    for (size_t i = 0; i < n; i++)
        put_line(all[i]);
    arena_free(a);
}

void explain_list_drills(const struct drill_book *book) {
    for (size_t i = 0; i < book->n; i++)
        printf("%-18.*s a drill: %.*s\n", STR_ARG(book->at[i].name),
               STR_ARG(book->at[i].purpose));
}

enum cmd_status explain_read_drills(struct drill_book *book, const char *path, bool color) {
    enum cmd_status status = cmd_drills(book, path, color);
    bool any = false;

    for (size_t i = 0; i < book->n; i++)
        any = any || book->at[i].own;
    if (status != CMD_CLEAN || any)
        return status;
    cmd_say("%s: no drills here; they stand in files that end in " DRILLS_ENDING, path);
    return CMD_FAILED;
}
