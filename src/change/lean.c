/* `.` is the server of the line above. Where that is neither the line that stood
 * above it nor the same server, the server is written out. */
#include "change/parts.h"

enum { NO_ITEM = -1, CONFLICT_ITEM = -2 };

/* The last serve of the result so far. */
struct above {
    long item;
    struct str server;           /* as it says; "" not known */
};

static const struct noted_line *line_of(const struct merge *m, const struct merge_item *item,
                                        unsigned side) {
    return item->of[side].n ? &m->side[side]->lines[item->of[side].from] : NULL;
}

/* The serve above is the one that the side has above its line, or its server is. */
static bool stands_below(const struct merge *m, const struct noted_line *l, unsigned side,
                         const struct above *above) {
    if (above->item == CONFLICT_ITEM || str_eq(noted_server(l), above->server))
        return true;
    if (above->item == NO_ITEM)
        return !l->below;
    const struct merge_item *item = &m->items[above->item];
    return item->of[side].n && item->of[side].from + 1 == l->below;
}

/* The line that the item is, as it stands or in what it says; of two that are alike
 * the one that says something new. */
static const struct noted_line *line_taken(const struct merge *m, const struct merge_item *item) {
    const struct noted_line *base = line_of(m, item, MERGE_BASE);
    const struct noted_line *ours = line_of(m, item, MERGE_OURS);
    const struct noted_line *theirs = line_of(m, item, MERGE_THEIRS);
    if (!ours || !theirs)
        return ours ? ours : theirs;
    bool is_ours = str_eq(ours->raw, item->text), is_theirs = str_eq(theirs->raw, item->text);
    bool ours_old = base && noted_equal(base, ours);
    return is_ours == is_theirs ? (ours_old ? theirs : ours) : is_ours ? ours : theirs;
}

static bool may_stay(const struct merge *m, const struct merge_item *item,
                     const struct above *above) {
    bool stays = false;
    for (unsigned side = MERGE_OURS; side < MERGE_SIDES; side++) {
        const struct noted_line *l = line_of(m, item, side);
        if (l && l->same)
            stays |= stands_below(m, l, side, above);
        else if (l && item->joined)
            return false;
    }
    return stays;
}

static struct str written_out(const struct noted_line *l, struct arena *a) {
    return l->comment.n ? str_printf(a, "%.*s  %.*s", STR_ARG(l->says), STR_ARG(l->comment))
                        : l->says;
}

/* A joined line comes with its server written out. */
static void lean_item(struct merge *m, struct merge_item *item, struct above *above) {
    const struct noted_line *taken = line_taken(m, item);
    bool stays = may_stay(m, item, above) && (item->joined || taken->same);
    struct str server = noted_word_at(item->joined ? item->text : taken->says, 0);
    if (item->joined && stays)
        item->text = str_printf(m->arena, ".%.*s",
                                STR_ARG(str_part(item->text, server.n, item->text.n)));
    else if (!item->joined && taken->same && !stays)
        item->text = written_out(taken, m->arena);
    if (!stays || above->item < 0)
        above->server = server;
}

void merge_lean(struct merge *m) {
    struct above above = {NO_ITEM, STR_NONE};
    for (size_t i = 0; i < m->item_n; i++) {
        struct merge_item *item = &m->items[i];
        if (item->conflict) {
            above = (struct above){CONFLICT_ITEM, STR_NONE};
        } else if (line_taken(m, item)->serves) {
            lean_item(m, item, &above);
            above.item = (long)i;
        }
    }
}
