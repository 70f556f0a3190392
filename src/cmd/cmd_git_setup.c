#include <assert.h>

#include "cmd/git.h"
#include "cmd/git_setup.h"

enum { REMOVE };

enum { WORDS_MAX = 16 };

static const struct cmd_option options[] = {
    {"remove", NULL, "take everything away again that git-setup wrote", NULL, 0},
    {NULL, NULL, NULL, NULL, 0},
};

/* What git is told in the repository's own settings, which a clone does not copy.
 * The hunk headers are the lines of sets, drills and teams, as they are written and
 * as 9m aloud words them. No cachetextconv: git would go on showing the words of an
 * older 9m (gitattributes(5), "Performing text diffs of binary files"). */
static const struct {
    const char *key, *value;
} settings[] = {
    {"diff.9m.xfuncname", "^[ \t]*(([Ss][Ee][Tt]|[Dd][Rr][Ii][Ll][Ll]|[Tt][Ee][Aa][Mm])[ \t].*)$"},
    {"diff.9m.textconv", "9m aloud --alone"},
    {"diff.9m-drills.xfuncname", "^(Drill:.*)$"},
    {"merge.9m.name", "notes, rally by rally"},
    {"merge.9m.driver", "9m merge --name %P %O %A %B"},
};
static const char *const sections[] = {"diff.9m", "diff.9m-drills", "merge.9m"};

enum {
    SETTINGS = sizeof settings / sizeof *settings,
    SECTIONS = sizeof sections / sizeof *sections
};

/* ---- git ----------------------------------------------------------------- */

/* Runs "git -C FOLDER WORDS"; `out` is what it prints, without the last line feed. */
static int git_in(struct setup *s, const char *folder, const char *const words[],
                  struct str *out) {
    const char *argv[WORDS_MAX] = {"git", "-C", folder};
    size_t n = 3;
    int exited;

    for (size_t i = 0; words[i]; i++) {
        assert(n + 1 < WORDS_MAX);
        argv[n++] = words[i];
    }
    *out = STR_NONE;
    exited = git_run(argv, s->arena, out);
    if (str_ends(*out, STR("\n")))
        out->n--;
    return exited;
}

#define GIT(setup, out, ...) \
    git_in(setup, (setup)->top, (const char *const[]){__VA_ARGS__, NULL}, out)

/* The path of a file of the repository's own, wherever that lies: in a worktree, a
 * submodule, with core.hooksPath. */
static const char *own_path(struct setup *s, const char *name) {
    struct str out;

    if (GIT(s, &out, "rev-parse", "--path-format=absolute", "--git-path", name) != 0)
        return NULL;
    return str_c(s->arena, out);
}

static bool find_top(struct setup *s, const char *folder) {
    static const char *const is_inside[] = {"rev-parse", "--is-inside-work-tree", NULL};
    static const char *const top[] = {"rev-parse", "--show-toplevel", NULL};
    struct str out;
    int exited = git_in(s, folder, is_inside, &out);

    if (exited == GIT_NOT_RUN)
        return false;
    if (exited == 0 && str_is(out, "true") && git_in(s, folder, top, &out) == 0) {
        s->top = str_c(s->arena, out);
        return true;
    }
    if (exited == 0)
        cmd_say("%s: this repository has no work tree here; git-setup belongs in a clone of it",
                folder);
    else
        cmd_say("%s: git has no repository here that it would use; 'git init' makes one", folder);
    return false;
}

/* Git will look for 9m there; a diff driver that cannot be run stops every diff. */
static bool is_on_path(struct setup *s) {
    static const char *const argv[] = {"9m", "--version", NULL};
    struct str out;

    return git_run(argv, s->arena, &out) == 0;
}

/* ---- settings ------------------------------------------------------------- */

static bool set(struct setup *s, const char *key, const char *value, bool *changed) {
    struct str now;

    if (GIT(s, &now, "config", "--local", "--get-all", key) == 0 && str_is(now, value))
        return true;
    *changed = true;
    return GIT(s, &now, "config", "--local", "--replace-all", key, value) == 0;
}

static void write_settings(struct setup *s) {
    bool changed = false, good = true;

    for (size_t i = 0; i < SETTINGS; i++)
        good = good && set(s, settings[i].key, settings[i].value, &changed);
    if (!good)
        setup_failed(s, "git config");
    else if (changed)
        setup_did(s,
                  "settings: git diff says notes in words, git merge joins edits rally by rally");
}

static bool has_section(struct setup *s, const char *section) {
    struct str out;
    struct str pattern = str_printf(s->arena, "^%s\\.", section);

    return GIT(s, &out, "config", "--local", "--get-regexp", pattern.at) == 0;
}

static void remove_settings(struct setup *s) {
    bool changed = false;
    struct str out;

    for (size_t i = 0; i < SECTIONS; i++) {
        if (!has_section(s, sections[i]))
            continue;
        changed = true;
        if (GIT(s, &out, "config", "--local", "--remove-section", sections[i]) != 0)
            setup_failed(s, "git config");
    }
    if (changed)
        setup_did(s, "settings: taken away");
}

/* ---- attributes ------------------------------------------------------------ */

static const char *const attributes[] = {
    "# Written by 9m git-setup, which also takes it away (--remove).",
    "*.9m text eol=lf diff=9m merge=9m",
    "*.drills text eol=lf diff=9m-drills merge=9m",
    NULL,
};

/* A file of notes that git would merge by keeping the lines of both sides; false if
 * there is none. A folder may have attributes of its own. */
static bool is_union_merged(struct setup *s, struct str *path) {
    struct str out, how;

    if (GIT(s, &out, "ls-files", "-z", "--cached", "--others", "--",
            ":(attr:merge=union)*.9m") == 0 && str_take(&out, '\0', path))
        return true;
    return GIT(s, &out, "check-attr", "-z", "merge", "--", "new.9m") == 0 &&
           str_take(&out, '\0', path) && str_take(&out, '\0', &how) &&
           str_take(&out, '\0', &how) && str_is(how, "union");
}

/* What git ranks highest and keeps in this clone. */
static void overrule(struct setup *s, struct str path) {
    const char *own = own_path(s, "info/attributes");

    cmd_say("%.*s: attributes in its folder ask for merge=union, which doubles rallies; they are "
            "overruled in this clone, so take that line away", STR_ARG(path));
    if (own && setup_add_lines(s, own, attributes))
        setup_did(s, "%s: the same once more", own);
}

/* Is there something new to commit? */
static bool write_attributes(struct setup *s) {
    struct str path;
    bool was_union = is_union_merged(s, &path);
    bool added = setup_add_lines(s, setup_path(s, ".gitattributes"), attributes);

    if (added)
        setup_did(s,
                  ".gitattributes: notes are text with LF, with a diff and a merge of their own");
    if (was_union && is_union_merged(s, &path))
        overrule(s, path);
    else if (was_union)
        cmd_say("merge=union was set for notes, which doubles rallies; what .gitattributes says "
                "now overrules it");
    return added;
}

static void remove_attributes(struct setup *s) {
    const char *own = own_path(s, "info/attributes");

    if (setup_remove_lines(s, setup_path(s, ".gitattributes"), attributes))
        setup_did(s, ".gitattributes: our lines taken away");
    if (own && setup_remove_lines(s, own, attributes))
        setup_did(s, "%s: our lines taken away", own);
}

/* ---- hooks ------------------------------------------------------------------ */

/* The second runs where git merge makes the commit by itself (githooks(5)). */
static const char *const hooks[] = {"hooks/pre-commit", "hooks/pre-merge-commit"};

enum { HOOKS = sizeof hooks / sizeof *hooks };

#define HOOK_LINE "9m check --staged"

static const char hook_text[] =
    "#!/bin/sh\n"
    "# Written by 9m git-setup: a commit whose notes have errors is stopped.\n"
    "# 'git commit --no-verify' makes it all the same.\n"
    "exec " HOOK_LINE "\n";

/* core.hooksPath in a person's own settings serves all of her repositories. */
static bool hooks_are_shared(struct setup *s) {
    struct str out;

    return GIT(s, &out, "config", "--get", "core.hooksPath") == 0 &&
           GIT(s, &out, "config", "--local", "--get", "core.hooksPath") != 0;
}

static void write_hook(struct setup *s, const char *path) {
    struct str old;
    bool shared = hooks_are_shared(s), there = setup_read(s, path, &old);

    if (there && setup_holds(old, HOOK_LINE))
        return;
    if (there || shared) {
        cmd_say("%s: not written, %s; put this line into it: " HOOK_LINE " || exit 1", path,
                there ? "there is another hook" : "it would serve other repositories too");
        s->status = cmd_worse(s->status, CMD_FINDINGS);
    } else if (setup_write_program(s, path, str_of(hook_text))) {
        setup_did(s, "%s: a commit whose notes have errors is stopped", path);
    }
}

static void remove_hook(struct setup *s, const char *path) {
    struct str old;

    if (!setup_read(s, path, &old) || !setup_holds(old, HOOK_LINE))
        return;
    if (!str_eq(old, str_of(hook_text))) {
        cmd_say("%s: not taken away, it is not only ours; take the line with " HOOK_LINE
                " out of it", path);
        s->status = cmd_worse(s->status, CMD_FINDINGS);
    } else if (remove(path) == 0) {
        setup_did(s, "%s: taken away", path);
    } else {
        setup_failed(s, path);
    }
}

/* ---- the command -------------------------------------------------------------- */

static void each_hook(struct setup *s, void (*treat)(struct setup *s, const char *path)) {
    for (size_t i = 0; i < HOOKS; i++) {
        const char *path = own_path(s, hooks[i]);

        if (path)
            treat(s, path);
    }
}

static void remove_all(struct setup *s) {
    remove_attributes(s);
    remove_settings(s);
    each_hook(s, remove_hook);
    if (!s->did && s->status == CMD_CLEAN)
        puts("There is nothing of ours to take away.");
}

static void tell_rest(bool attributes_added) {
    printf("\n%s of this clone alone: whoever else commits runs\n"
           "9m git-setup once. Squad files hold names: one that is to stay out of a repository\n"
           "which others see is named in .gitignore, and the hook reads it where it lies.\n",
           attributes_added ? "Commit .gitattributes. The rest is" : "Settings and hooks are");
}

static void write_all(struct setup *s) {
    bool added;

    if (!is_on_path(s)) {
        s->status = CMD_FAILED;
        return;
    }
    added = write_attributes(s);
    write_settings(s);
    each_hook(s, write_hook);
    if (s->did)
        tell_rest(added);
    else if (s->status == CMD_CLEAN)
        puts("All is set up already.");
}

static enum cmd_status git_setup(const struct cmd_run *run) {
    struct setup s = {.arena = arena_new(cmd_no_memory)};

    if (!find_top(&s, run->operand_n ? run->operands[0] : "."))
        s.status = CMD_FAILED;
    else if (run->given[REMOVE])
        remove_all(&s);
    else
        write_all(&s);
    arena_free(s.arena);
    return s.status;
}

const struct cmd cmd_git_setup = {
    .name = "git-setup",
    .usage = "[OPTION...] [FOLDER]",
    .summary = "makes a git repository treat notes as notes",
    .about = "Writes, for the repository that holds the folder (this one if none is named):\n"
             "- attributes: notes are text with LF line ends, with a diff and a merge of their\n"
             "  own; never a union merge, which would double rallies\n"
             "- settings: git diff shows notes in words (9m aloud) under the name of the set, git\n"
             "  merge joins the edits of two scorers rally by rally (9m merge)\n"
             "- hooks: a commit whose notes have errors is stopped (9m check --staged)\n"
             "What is there already stays, a hook of somebody else too. Running it twice changes\n"
             "nothing. Attributes are committed; settings and hooks are of one clone, so each\n"
             "member of a club runs this once.\n"
             "Exit code: 0 done, 1 something is left for you to do, 2 wrong usage, 3 a file, git\n"
             "or the system.",
    .examples = "  9m git-setup\n"
                "  9m git-setup ~/club/seasons\n"
                "  9m git-setup --remove",
    .options = options,
    .operand = "one folder",
    .operand_min = 0,
    .operand_max = 1,
    .run = git_setup,
};
