#include <stdint.h>
#include <string.h>

#include "cmd/compare.h"
#include "cmd/crew.h"

enum { CHECK, DIFF, THREADS };

enum { ROUNDS_MAX = 16 };

static const struct cmd_option options[] = {
    {"check", NULL, "write nothing, list the places that would change", NULL, 0},
    {"diff", NULL, "write nothing, show what would change", NULL, 0},
    CREW_OPTION,
    {NULL, NULL, NULL, NULL, 0},
};

/* What became of a line. */
struct fate {
    size_t became; /* which line of the canonical text; 0: left out */
    bool unread;
};

/* A file and its canonical spelling. */
struct spelling {
    struct squads *squads;
    struct text text;
    struct diags diags;
    struct str canonical;
    unsigned unread;
    struct fate *fates; /* of each line */
    size_t line_n, line_room;
};

/* The canonical text while it grows. */
struct rewriting {
    const struct text *text;
    struct syn *syn;
    struct buf out;
    char ours;
    bool blank; /* the line before was blank */
    size_t first_blank, written_n;
};

/* A line with a fault says something that was not understood, or only guessed:
 * not a byte of it is touched. */
static bool has_fault(const struct stmt *st) {
    return st->kind == STMT_UNREAD || st->mended;
}

static void add_line(struct rewriting *r, const struct stmt *st, struct str comment) {
    if (has_fault(st)) {
        buf_add(&r->out, text_line_at(r->text, st->at));
    } else {
        if (st->kind != STMT_NONE)
            syn_print(&r->out, st, r->ours);
        if (st->kind != STMT_NONE && comment.n)
            buf_add(&r->out, STR("  "));
        buf_add(&r->out, comment);
    }
    buf_char(&r->out, '\n');
}

static void prepare(struct rewriting *r, struct spelling *s, struct arena *a) {
    *r = (struct rewriting){.text = &s->text};
    r->syn = match_lines(&s->text, s->squads, a, &s->diags, &r->ours);
    buf_init(&r->out, a);
}

static void note_line(struct spelling *s, struct fate fate, struct arena *a) {
    s->fates = arena_grow(a, s->fates, s->line_n, &s->line_room, sizeof *s->fates);
    s->fates[s->line_n++] = fate;
}

/* A run of blank lines becomes one: the first of them, once it is known that
 * something follows. */
static void end_blanks(struct rewriting *r, struct spelling *s) {
    if (!r->blank || !r->out.n)
        return;
    buf_char(&r->out, '\n');
    s->fates[r->first_blank].became = ++r->written_n;
}

static void spell(struct spelling *s, struct arena *a) {
    struct rewriting r;
    const struct stmt *st;

    s->line_n = 0;
    prepare(&r, s, a);
    while ((st = syn_next_line(r.syn))) {
        struct str comment = str_trim_end(syn_comment(r.syn));
        bool blank = st->kind == STMT_NONE && !comment.n;

        if (blank && !r.blank)
            r.first_blank = s->line_n;
        if (!blank) {
            end_blanks(&r, s);
            add_line(&r, st, comment);
        }
        note_line(s, (struct fate){blank ? 0 : ++r.written_n, has_fault(st)}, a);
        r.blank = blank;
    }
    s->canonical = s->text.utf16 || syn_is_foreign(r.syn) ? s->text.bytes : buf_str(&r.out);
    s->unread = syn_unread(r.syn);
}

/* Takes the mends of some lines from the list: those that would split a line,
 * and those of the lines in `left`, if given. */
static void leave_lines(struct diags *d, const bool *left, size_t line_n) {
    for (size_t i = 0; i < d->n; i++)
        for (unsigned k = 0; k < d->at[i].edit_n; k++) {
            const struct edit *e = &d->at[i].edits[k];

            if (memchr(e->text.n ? e->text.at : "", '\n', e->text.n) ||
                (left && e->line <= line_n && left[e->line - 1]))
                d->at[i].safe = false;
        }
}

/* What can be mended without a doubt about the meaning (a no-break space, say)
 * is mended first, so that the line can be read. */
static void mend_and_spell(struct spelling *s, const bool *left, struct arena *a) {
    size_t mended_n = 0;

    spell(s, a);
    for (int round = 0; round < ROUNDS_MAX; round++) {
        struct str name = s->text.name, bytes;

        leave_lines(&s->diags, left, s->line_n);
        bytes = cmd_mend(&s->text, &s->diags, a, &mended_n);
        if (!mended_n)
            return;
        diags_init(&s->diags, a);
        text_take(&s->text, name, bytes, a, &s->diags);
        spell(s, a);
    }
}

/* The lines that were mended and still have a fault; NULL if there are none. */
static bool *mended_in_vain(const struct spelling *s, struct str old, struct arena *a) {
    struct lines before = compare_lines(old, a), after = compare_lines(s->text.bytes, a);
    bool *vain = arena_alloc(a, s->line_n + 1, sizeof *vain), any = false;

    for (size_t i = 0; i < s->line_n && i < before.n && i < after.n; i++) {
        vain[i] = s->fates[i].unread && !str_eq(before.at[i], after.at[i]);
        any = any || vain[i];
    }
    return any ? vain : NULL;
}

/* A line that stays unread whatever was mended in it stays as it was. */
static void settle_lines(struct spelling *s, struct arena *a) {
    struct str name = s->text.name, old = s->text.bytes;
    bool *vain;

    mend_and_spell(s, NULL, a);
    vain = mended_in_vain(s, old, a);
    if (!vain)
        return;
    diags_init(&s->diags, a);
    text_take(&s->text, name, old, a, &s->diags);
    mend_and_spell(s, vain, a);
}

static size_t first_difference(struct str a, struct str b) {
    size_t i = 0;

    while (i < a.n && i < b.n && a.at[i] == b.at[i])
        i++;
    while (i > 0 && i < a.n && ((unsigned char)a.at[i] & 0xC0) == 0x80)
        i--;
    return i;
}

static void put_place(const char *path, unsigned line, struct str old, struct str new,
                      const char *what, struct arena *a) {
    size_t at = first_difference(old, new);
    struct place p = {str_of(path), old, line, (unsigned)at, 0};
    struct buf b;

    buf_init(&b, a);
    cmd_safe(&b, str_of(path), 0);
    buf_printf(&b, ":%u:%u: %s", line, place_column(p), what);
    cmd_safe(&b, new, 0);
    printf("%.*s\n", STR_ARG(buf_str(&b)));
}

struct listing {
    const char *path;
    struct arena *arena;
    bool cr_told;
};

/* A file with CR LF would list every line; once is enough. */
static void list_line(struct listing *l, unsigned number, struct str line, const struct str *now) {
    bool ended = str_ends(line, STR("\n"));
    struct str old = str_part(line, 0, line.n - ended);

    if (str_ends(old, STR("\r"))) {
        if (!l->cr_told)
            put_place(l->path, number, STR_NONE, STR_NONE, "lines end in CR LF instead of LF",
                      l->arena);
        l->cr_told = true;
        old.n--;
    }
    if (!now)
        put_place(l->path, number, STR_NONE, STR_NONE, "a blank line too many", l->arena);
    else if (!str_eq(old, str_part(*now, 0, now->n - 1)))
        put_place(l->path, number, old, str_part(*now, 0, now->n - 1), "canonical: ", l->arena);
    if (now && !ended)
        put_place(l->path, number, old, line, "the last line does not end", l->arena);
}

/* Line by line, since fmt knows what became of each; should a mend have split
 * one, the numbers tell no more than that something would change. */
static void list_places(const char *path, const struct text *old, const struct spelling *s,
                        struct arena *a) {
    struct listing l = {.path = path, .arena = a};
    struct lines before = compare_lines(old->bytes, a), after = compare_lines(s->canonical, a);

    if (old->bom)
        put_place(path, 1, STR_NONE, STR_NONE, "a byte order mark is not needed", a);
    if (before.n != s->line_n)
        put_place(path, 1, STR_NONE, STR_NONE, "some lines would be mended", a);
    for (size_t i = 0; i < before.n && before.n == s->line_n; i++) {
        size_t became = s->fates[i].became;

        list_line(&l, (unsigned)i + 1, before.at[i], became ? &after.at[became - 1] : NULL);
    }
}

/* ---- the files ---------------------------------------------------------------- */

/* What the threads share. A squad file may be written while others read it: canonical
 * or not, it says the same. */
struct formatting {
    const struct cmd_run *run;
    struct crew crew;
};

/* What one thread has. */
struct formatter {
    struct formatting *all;
    struct crew_member *member;
    struct arena *arena; /* of one file */
    struct squads *squads;
    enum cmd_status status;
};

static void worsen(struct formatter *f, enum cmd_status status) {
    f->status = cmd_worse(f->status, status);
}

/* What stands in the file is told whatever else is asked for. */
static void tell_unread(struct formatter *f, struct spelling *s) {
    struct cmd_show show;

    crew_turn(f->member);
    cmd_show_init(&show, stderr, f->all->run->color_err);
    cmd_show(&show, &s->diags);
    fputc('\n', stderr);
    if (s->unread)
        cmd_say("%.*s: %u line%s with a fault left as %s", STR_ARG(s->text.name), s->unread,
                s->unread == 1 ? "" : "s", s->unread == 1 ? "it was" : "they were");
    else
        cmd_say("%.*s: left as it was", STR_ARG(s->text.name));
    worsen(f, CMD_FINDINGS);
}

static void write_now(struct formatter *f, const char *path, struct str raw,
                      struct str canonical) {
    struct str said;

    if (!cmd_rewrite(path, raw, canonical, f->arena, &said))
        worsen(f, CMD_FAILED);
    if (!said.n)
        return;
    crew_turn(f->member);
    cmd_say("%.*s", STR_ARG(said));
}

static void put(struct formatter *f, const char *path, struct str raw, const struct spelling *s) {
    if (strcmp(path, "-") == 0) {
        crew_turn(f->member);
        if (!cmd_write(path, s->canonical))
            worsen(f, CMD_FAILED);
    } else if (!str_eq(raw, s->canonical)) {
        write_now(f, path, raw, s->canonical);
    }
}

static void tell_changes(struct formatter *f, const char *path, const struct text *old,
                         struct str raw, const struct spelling *s) {
    const struct cmd_run *run = f->all->run;

    crew_turn(f->member);
    if (run->given[DIFF])
        cmd_compare(stdout, run->color_out, path, raw, s->canonical, f->arena);
    else
        list_places(path, old, s, f->arena);
    if (run->given[CHECK])
        worsen(f, CMD_FINDINGS);
}

static void settle(struct formatter *f, const char *path, const struct text *old,
                   struct spelling *s) {
    struct str raw = cmd_with_bom(old, old->bytes, f->arena);

    if (s->diags.errors)
        tell_unread(f, s);
    if (!f->all->run->given[DIFF] && !f->all->run->given[CHECK])
        put(f, path, raw, s);
    else if (!str_eq(raw, s->canonical))
        tell_changes(f, path, old, raw, s);
}

static void fmt_one(struct crew_member *m, const char *path) {
    struct formatter *f = m->own;
    struct spelling s = {.squads = f->squads};
    struct text old;

    if (crew_text(m, &s.text, path, f->arena, &s.diags)) {
        old = s.text;
        settle_lines(&s, f->arena);
        settle(f, path, &old, &s);
    } else {
        worsen(f, CMD_FAILED);
    }
    arena_reset(f->arena);
}

static void formatters_init(struct formatter *f, struct formatting *all) {
    for (unsigned i = 0; i < all->crew.n; i++) {
        f[i] = (struct formatter){.all = all, .member = &all->crew.members[i]};
        f[i].arena = arena_new(cmd_no_memory);
        f[i].squads = squads_new(cmd_no_memory);
        all->crew.members[i].own = &f[i];
    }
}

static enum cmd_status fmt(const struct cmd_run *run) {
    struct formatting all = {.run = run};
    struct formatter f[CREW_THREADS_MOST];
    enum cmd_status status;
    unsigned threads;

    if (!crew_threads(run, run->given[THREADS], &threads))
        return CMD_USAGE;
    crew_init(&all.crew, run, threads, fmt_one);
    formatters_init(f, &all);
    status = crew_work(&all.crew);
    for (unsigned i = 0; i < all.crew.n; i++) {
        status = cmd_worse(status, f[i].status);
        squads_free(f[i].squads);
        arena_free(f[i].arena);
    }
    return status;
}

const struct cmd cmd_fmt = {
    .name = "fmt",
    .usage = "[OPTION...] PATH...",
    .summary = "writes notes in their canonical spelling",
    .about = "Rewrites files of notes, and every .9m file below a directory, in the one\n"
             "canonical spelling. What the notes say does not change and comments stay. With -\n"
             "notes are read from standard input and written to standard output.\n"
             "A line with a fault is told and left byte for byte as it is.\n"
             "Exit code: 0 done, 1 a line has a fault or, with --check, something would\n"
             "change, 2 wrong usage, 3 a file or the system.",
    .examples = "  9m fmt harbour.9m\n"
                "  9m fmt --check season/        is every file in its canonical spelling?\n"
                "  9m fmt --diff harbour.9m      what would change?\n"
                "  9m fmt - < draft.9m > harbour.9m",
    .options = options,
    .operand = "a file, a directory or - for standard input",
    .operand_min = 1,
    .operand_max = SIZE_MAX,
    .run = fmt,
};
