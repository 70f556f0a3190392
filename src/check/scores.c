/* Whether what a club's drill tells to write can be written. */
#include "check.h"

/* Above the lines, as in any practice. */
static const char head[] = "notation 1\npractice 2000-01-01\nteam H \"Home\"\n";
enum { HEAD_LINES = 3 };

static void check_score(const struct drill_recipe *r, struct arena *a, struct diags *d) {
    struct diags found;
    struct text t;
    diags_init(&found, a);
    text_take(&t, STR("score"), str_printf(a, "%s%.*s\n", head, STR_ARG(r->score)), a, &found);
    (void)check_text(&t, 0, a, &found);
    if (!found.errors)
        return;
    diags_sort(&found);
    const struct diag *first = &found.at[0];
    diags_add(d, E_DRILL_SCORE, r->score_place, first->place.line - HEAD_LINES,
              STR_ARG(first->text));
}

void check_drills(const struct drill_book *b, struct arena *a, struct diags *d) {
    for (size_t i = 0; i < b->n; i++)
        if (b->at[i].own && b->at[i].score.n)
            check_score(&b->at[i], a, d);
}
