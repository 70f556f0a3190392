/* The list of messages and the table of what each code means. */
#include "diag.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const struct diag_info table[DIAG_N] = {
#define DIAG(number, id, severity, format, title, why, bad, good, alike, rule) \
    {number, #id, SEVERITY_##severity, format, title, why, bad, good, alike, rule},
#include "diag.def"
#undef DIAG
};

const struct diag_info *diag_info(enum diag_id id) {
    return &table[id];
}

static char family(enum severity s) {
    switch (s) {
    case SEVERITY_ERROR: return 'E';
    case SEVERITY_WARNING: return 'W';
    case SEVERITY_REVIEW: return 'R';
    }
    return 'E';
}

void diag_code(const struct diag_info *info, char out[6]) {
    snprintf(out, 6, "%c%03u", family(info->severity), info->number % 1000);
}

const struct diag_info *diag_find(struct str code) {
    for (size_t i = 0; i < DIAG_N; i++) {
        char name[6];
        diag_code(&table[i], name);
        if (str_same(code, str_of(name)))
            return &table[i];
    }
    return NULL;
}

void diags_init(struct diags *d, struct arena *a) {
    *d = (struct diags){.arena = a};
}

/* The line's comment: from the first '#' outside of a text. */
static struct str comment_of(struct str line) {
    bool quoted = false;
    for (size_t i = 0; i < line.n; i++) {
        if (quoted && line.at[i] == '\\')
            i++;
        else if (line.at[i] == '"')
            quoted = !quoted;
        else if (line.at[i] == '#' && !quoted)
            return str_part(line, i, line.n);
    }
    return STR_NONE;
}

/* "# ok W450 some reason" on the line itself. A reason is asked for: whoever
 * reads the file next year should know why. */
static bool silenced(const struct diag_info *info, struct str whole) {
    if (info->severity != SEVERITY_WARNING)
        return false;
    struct str line = comment_of(whole);
    char wanted[16] = "# ok ";
    diag_code(info, wanted + 5);
    size_t n = strlen(wanted);
    for (size_t i = 0; i + n <= line.n; i++)
        if (str_same(str_part(line, i, n), str_of(wanted)))
            return str_trim(str_part(line, i + n, line.n)).n > 0;
    return false;
}

static unsigned *counter(struct diags *d, enum severity s) {
    switch (s) {
    case SEVERITY_ERROR: break;
    case SEVERITY_WARNING: return &d->warnings;
    case SEVERITY_REVIEW: return &d->reviews;
    }
    return &d->errors;
}

struct diag *diags_add(struct diags *d, enum diag_id id, struct place where, ...) {
    const struct diag_info *info = &table[id];
    if (silenced(info, where.text))
        return NULL;
    (*counter(d, info->severity))++;
    if (d->n == DIAGS_MAX)
        return NULL;
    d->at = arena_grow(d->arena, d->at, d->n, &d->room, sizeof *d->at);
    struct diag *diag = &d->at[d->n++];
    va_list args;
    va_start(args, where);
    *diag = (struct diag){.id = id, .place = where, .order = d->order, .group = d->group,
                          .rule = str_of(info->rule)};
    diag->text = str_vprintf(d->arena, info->format, args);
    va_end(args);
    return diag;
}

void diags_join(struct diags *d, const struct diags *from) {
    for (size_t i = 0; i < from->n; i++) {
        (*counter(d, table[from->at[i].id].severity))++;
        if (d->n == DIAGS_MAX)
            continue;
        d->at = arena_grow(d->arena, d->at, d->n, &d->room, sizeof *d->at);
        d->at[d->n] = from->at[i];
        d->at[d->n].order = d->order;
        d->at[d->n++].group = d->group;
    }
}

void diags_restore(struct diags *d, const struct diags *before) {
    if (d->n < before->n)
        return;
    d->n = before->n;
    d->errors = before->errors;
    d->warnings = before->warnings;
    d->reviews = before->reviews;
}

void diags_keep_first(struct diags *d, size_t from) {
    bool error = false;
    size_t kept = from;
    for (size_t i = from; i < d->n; i++) {
        enum severity s = table[d->at[i].id].severity;
        bool keep = s == SEVERITY_REVIEW || !error;
        error |= s == SEVERITY_ERROR;
        if (keep)
            d->at[kept++] = d->at[i];
        else
            (*counter(d, s))--;
    }
    d->n = kept;
}

struct diag *diags_find(struct diags *d, enum diag_id id, unsigned line) {
    for (size_t i = d->n; i > 0; i--)
        if (d->at[i - 1].id == id && d->at[i - 1].place.line == line)
            return &d->at[i - 1];
    return NULL;
}

void diags_withdraw(struct diags *d, enum diag_id id, unsigned line) {
    struct diag *found = diags_find(d, id, line);
    if (!found)
        return;
    (*counter(d, table[id].severity))--;
    d->n--;
    memmove(found, found + 1, (size_t)(d->at + d->n - found) * sizeof *found);
}

void diag_see(struct diag *diag, struct place where, struct str text) {
    if (diag && diag->see_n < DIAG_SEES)
        diag->sees[diag->see_n++] = (struct see){where, text};
}

void diag_edit(struct diag *diag, unsigned line, unsigned at, unsigned n, struct str text) {
    if (diag && diag->edit_n < DIAG_EDITS)
        diag->edits[diag->edit_n++] = (struct edit){line, at, n, text};
}

static int by_place(const void *left, const void *right) {
    const struct diag *a = left, *b = right;
    if (a->order != b->order)
        return a->order < b->order ? -1 : 1;
    if (a->group != b->group)
        return a->group > b->group ? -1 : 1;
    if (a->place.line != b->place.line)
        return a->place.line < b->place.line ? -1 : 1;
    if (a->place.at != b->place.at)
        return a->place.at < b->place.at ? -1 : 1;
    return 0;
}

/* Stable: bottom-up merging, each pass into the other array. */
void diags_sort(struct diags *d) {
    struct diag *from = d->at, *to = arena_alloc(d->arena, d->n, sizeof *to);
    for (size_t width = 1; width < d->n; width *= 2) {
        for (size_t start = 0; start < d->n; start += 2 * width) {
            size_t i = start, middle = start + width < d->n ? start + width : d->n;
            size_t j = middle, end = middle + width < d->n ? middle + width : d->n;
            for (size_t k = start; k < end; k++)
                to[k] = i < middle && (j >= end || by_place(&from[i], &from[j]) <= 0) ? from[i++]
                                                                                     : from[j++];
        }
        struct diag *other = from;
        from = to;
        to = other;
    }
    d->at = from;
    d->room = d->n;
}

unsigned place_column(struct place p) {
    return str_cells(str_part(p.text, 0, p.at), 0) + 1;
}
