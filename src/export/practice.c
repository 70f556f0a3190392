/* Lines that count without serves, and the focus of each player, as rows. */
#include <string.h>

#include "export/table.h"

static struct str entry_word(enum stmt_kind kind) {
    return kind == STMT_TOSS ? STR("toss") : kind == STMT_TRIES ? STR("tries") : STR("jumps");
}

static void player(struct cell *c, struct sheet *s, unsigned side, unsigned shirt) {
    cell_text(&c[PRACTICE_date], s->date);
    cell_text(&c[PRACTICE_kind], s->kind);
    cell_text(&c[PRACTICE_team], s->letter[side]);
    cell_whole(&c[PRACTICE_player], (int)shirt);
    cell_text(&c[PRACTICE_player_name], sheet_name(s, side, shirt));
}

static struct str misses(const struct tries *t, struct arena *a) {
    struct buf b;
    buf_init(&b, a);
    for (unsigned i = 0; i < t->miss_n; i++) {
        const struct word_info *mark = NULL;
        for (int id = 0; id < W_N && !mark; id++) {
            const struct word_info *w = word_info((enum word_id)id);
            if (w->class == WORD_MARK && w->value == t->misses[i].mark)
                mark = w;
        }
        if (mark)
            buf_printf(&b, "%s%.*s%u", b.n ? " " : "", STR_ARG(mark->word), t->misses[i].n);
    }
    return buf_str(&b);
}

static void tries_row(struct cell *c, struct sheet *s, const struct tries *t) {
    cell_text(&c[PRACTICE_file], s->file);
    cell_whole(&c[PRACTICE_line], (int)t->line);
    cell_text(&c[PRACTICE_entry], entry_word(t->kind));
    player(c, s, t->side, t->shirt);
    if (t->kind != STMT_JUMPS)
        cell_whole(&c[PRACTICE_hits], (int)t->hits);
    cell_whole(&c[PRACTICE_tries], (int)t->n);
    if (t->ring_cm)
        cell_hundredths(&c[PRACTICE_ring_m], t->ring_cm);
    if (t->drill)
        cell_text(&c[PRACTICE_drill], s->checked->drills[t->drill - 1].name);
    cell_text(&c[PRACTICE_misses], misses(t, s->arena));
}

/* A focus is of ours; it may stand in a squad file. */
static void focus_row(struct cell *c, struct sheet *s, const struct focus *f) {
    struct sheet of_squad;
    if (str_eq(f->place.file, s->checked->match->file)) {
        cell_text(&c[PRACTICE_file], s->file);
    } else {
        sheet_init(&of_squad, s->export, s->checked, f->place.file, s->arena);
        cell_text(&c[PRACTICE_file], of_squad.file);
    }
    cell_whole(&c[PRACTICE_line], (int)f->place.line);
    cell_text(&c[PRACTICE_entry], STR("focus"));
    player(c, s, OURS, f->shirt);
    if (f->tries) {
        cell_whole(&c[PRACTICE_hits], (int)f->hits);
        cell_whole(&c[PRACTICE_tries], (int)f->tries);
    }
    cell_text(&c[PRACTICE_drill], f->drill);
    cell_text(&c[PRACTICE_focus], word_info(f->treats)->word);
}

void practice_rows(struct export_batch *b, struct sheet *s) {
    const struct match *m = s->checked->match;
    struct cell cells[PRACTICE_N];
    for (size_t i = 0; i < m->focus_n && m->occasion; i++) {
        memset(cells, 0, sizeof cells);
        focus_row(cells, s, &m->focuses[i]);
        export_row(b, cells);
    }
    for (size_t i = 0; i < s->checked->tries_n; i++) {
        memset(cells, 0, sizeof cells);
        tries_row(cells, s, &s->checked->tries[i]);
        export_row(b, cells);
    }
}
