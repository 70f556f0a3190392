/* Days against the names of files and folders, and one match in two files. */
#include <stdlib.h>
#include <string.h>

#include "study/across_parts.h"

/* ---- what names tell ----------------------------------------------------------- */

static bool number_at(struct str s, size_t at, size_t digits, int *out) {
    *out = 0;
    if (at + digits > s.n)
        return false;
    for (size_t i = at; i < at + digits; i++) {
        if (s.at[i] < '0' || s.at[i] > '9')
            return false;
        *out = *out * 10 + (s.at[i] - '0');
    }
    return true;
}

static bool is_digit_at(struct str s, size_t at) {
    int digit;
    return number_at(s, at, 1, &digit);
}

/* The years at the end of a folder's name: 2026, 2026-27 or 2026-2027, whatever
 * stands before. 2026-10 is a month and tells no season. */
static bool season_at_end(struct str name, struct across_folder *out) {
    static const size_t lengths[] = {9, 7, 4};
    for (size_t i = 0; i < sizeof lengths / sizeof *lengths; i++) {
        size_t n = lengths[i], at = name.n - n;
        int second, digits = n == 9 ? 4 : 2;
        if (n > name.n || !number_at(name, at, 4, &out->year) ||
            (at > 0 && is_digit_at(name, at - 1)) || out->year < 1900 || out->year > 2199)
            continue;
        out->two_years = n > 4;
        if (n == 4)
            return at < 3 || name.at[at - 1] != '-' || !is_digit_at(name, at - 2);
        if (strchr("-_", name.at[at + 4]) && number_at(name, at + 5, (size_t)digits, &second) &&
            second == (digits == 4 ? out->year + 1 : (out->year + 1) % 100))
            return true;
    }
    return false;
}

struct across_folder across_folder(const struct across_file *f) {
    struct across_folder out;
    struct str path = str_folder(str_of(f->path));
    while (path.n > 0) {
        path.n--; /* without its slash */
        out.parent = str_folder(path);
        out.name = str_part(path, out.parent.n, path.n);
        if (season_at_end(out.name, &out))
            return out;
        path = out.parent;
    }
    return (struct across_folder){.name = STR_NONE};
}

/* 2026-10-03 at the beginning of a file's name. */
static bool day_of_name(struct str path, struct date *out) {
    size_t at = str_folder(path).n;
    return number_at(path, at, 4, &out->year) && number_at(path, at + 5, 2, &out->month) &&
           number_at(path, at + 8, 2, &out->day) && path.at[at + 4] == '-' &&
           path.at[at + 7] == '-' && !is_digit_at(path, at + 10);
}

/* ---- one file ------------------------------------------------------------------- */

static void judge_name(const struct across_file *f, struct diags *d) {
    struct date named;
    if (!day_of_name(str_of(f->path), &named) || date_order(named, f->date) == 0)
        return;
    diags_add(d, W_FILE_DAY, across_day(f), named.year, named.month, named.day);
}

/* A season that goes over the turn of a year begins in May at the earliest and ends
 * in August at the latest; one of a single year may end in the next (our choice). */
static bool lies_in_season(struct date day, const struct across_folder *folder) {
    struct date first = {folder->year, folder->two_years ? 5 : 1, 1};
    struct date last = {folder->year + 1, 8, 31};
    return date_order(day, first) >= 0 && date_order(day, last) <= 0;
}

static void judge_season(const struct across_file *f, struct diags *d) {
    const struct across_folder folder = across_folder(f);
    if (!lies_in_season(f->date, &folder))
        diags_add(d, W_FOLDER_SEASON, across_day(f), STR_ARG(folder.name));
}

/* ---- beside the seasons ----------------------------------------------------------- */

static int by_parent(const void *left, const void *right) {
    const struct across_file *const *a = left, *const *b = right;
    int parent = str_order(across_folder(*a).parent, across_folder(*b).parent);
    return parent ? parent : strcmp((*a)->path, (*b)->path);
}

/* The first file of a season whose folder lies in this one. */
static const struct across_file *season_in(struct str folder,
                                           const struct across_file **in, size_t n) {
    size_t low = 0, high = n;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (str_order(across_folder(in[middle]).parent, folder) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low < n && str_eq(across_folder(in[low]).parent, folder) ? in[low] : NULL;
}

static void judge_beside(const struct across *x, struct diags *d) {
    const struct across_file **in = arena_alloc(d->arena, x->file_n + 1, sizeof *in);
    size_t n = 0;
    for (size_t i = 0; i < x->file_n; i++)
        if (x->files[i].in_season)
            in[n++] = &x->files[i];
    if (n == 0)
        return;
    qsort(in, n, sizeof *in, by_parent);
    for (size_t i = 0; i < x->file_n; i++) {
        const struct across_file *f = &x->files[i], *other;
        if (!f->dated || f->in_season)
            continue;
        other = season_in(str_folder(str_of(f->path)), in, n);
        if (other)
            diag_see(diags_add(d, W_NO_SEASON, across_day(f)), across_day(other),
                     STR("one that lies in a season"));
    }
}

void across_judge_days(const struct across *x, struct diags *d) {
    for (size_t i = 0; i < x->file_n; i++)
        if (x->files[i].dated) {
            judge_name(&x->files[i], d);
            if (x->files[i].in_season)
                judge_season(&x->files[i], d);
        }
    judge_beside(x, d);
}

/* ---- twice ------------------------------------------------------------------------ */

static int by_name(const struct across_roster *a, const struct across_roster *b) {
    return a == b ? 0 : !a ? -1 : !b ? 1 : str_order(a->team, b->team);
}

/* The two teams in one order, whoever stands first. */
static const struct across_roster *team_at(const struct across_file *f, unsigned ix) {
    bool turned = by_name(f->teams[OURS], f->teams[THEIRS]) > 0;
    return f->teams[turned ? 1 - ix : ix];
}

static int by_match(const void *left, const void *right) {
    const struct across_file *a = *(const struct across_file *const *)left;
    const struct across_file *b = *(const struct across_file *const *)right;
    int day = date_order(a->date, b->date), first;
    if (day)
        return day;
    if (a->practice != b->practice)
        return a->practice ? 1 : -1;
    first = by_name(team_at(a, 0), team_at(b, 0));
    return first ? first : by_name(team_at(a, 1), team_at(b, 1));
}

static int by_match_and_path(const void *left, const void *right) {
    int order = by_match(left, right);
    return order ? order : strcmp((*(const struct across_file *const *)left)->path,
                                  (*(const struct across_file *const *)right)->path);
}

/* Two times are two matches; two practices of one day are one if all is the same. */
static bool may_be_one(const struct across_file *a, const struct across_file *b) {
    if (a->practice)
        return a->digest == b->digest;
    return !(a->timed && b->timed && a->minute != b->minute);
}

static void judge_match(const struct across_file **like, size_t n, struct diags *d) {
    for (size_t i = 1; i < n; i++)
        for (size_t j = 0; j < i; j++) {
            struct diag *diag;
            if (!may_be_one(like[i], like[j]))
                continue;
            diag = diags_add(d, W_TWICE, across_day(like[i]), like[i]->practice ? "practice" : "match");
            diag_see(diag, across_day(like[j]), STR_NONE);
            if (diag)
                diag->done = STR("both count");
            break;
        }
}

/* A match whose teams have no names may be anybody's. */
static bool is_comparable(const struct across_file *f) {
    return f->dated && f->teams[OURS] && (f->practice || f->teams[THEIRS]);
}

void across_judge_twice(const struct across *x, struct diags *d) {
    const struct across_file **by = arena_alloc(d->arena, x->file_n + 1, sizeof *by);
    size_t n = 0;
    for (size_t i = 0; i < x->file_n; i++)
        if (is_comparable(&x->files[i]))
            by[n++] = &x->files[i];
    if (n > 0)
        qsort(by, n, sizeof *by, by_match_and_path);
    for (size_t from = 0, to = 0; from < n; from = to) {
        while (to < n && by_match(&by[from], &by[to]) == 0)
            to++;
        judge_match(by + from, to - from, d);
    }
}
