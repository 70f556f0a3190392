#!/usr/bin/env bats
# Notes as they are staged, in real repositories.
load kit
load git

setup() {
    mkdir "$BATS_TEST_TMPDIR/work"
    cd "$BATS_TEST_TMPDIR/work" || return 1
    own_git
    git init -q .
}

bad_notes() { notes '7 ace' '7 nett'; }

squad() { # SHIRT...
    printf 'notation 1\nteam H "Herons" women\n'
    for shirt; do printf 'player H%s "Player %s"\n' "$shirt" "$shirt"; done
}

# A match whose people stand in a squad file.
match_with() { # SQUAD LINE...
    printf '%s\n' 'notation 1' 'match 2026-10-03' "squad \"$1\"" 'team G "Foxes" women' 'set 1 H'
    shift
    printf '%s\n' "$@"
}

# What is staged is clean, or has errors: `staged STATUS`.
staged() {
    run --separate-stderr 9m check --staged
    [ "$status" = "$1" ] || {
        printf 'exit %s, not %s\n%s\n%s\n' "$status" "$1" "$output" "$stderr"
        return 1
    }
}

@test "the index counts, not the work tree: wrong there and right here, and the reverse" {
    bad_notes >a.9m
    git add a.9m
    good_notes >a.9m
    staged 1
    holds "$output" 'a.9m:7:3: error: "nett" is not an outcome'
    git add a.9m
    bad_notes >a.9m
    staged 0
    [ -z "$output$stderr" ]
    run 9m check a.9m
    [ "$status" = 1 ]
}

@test "only what the commit changes: the last commit's slips are not its business" {
    bad_notes >old.9m
    git add . && git commit -q -m old
    staged 0
    good_notes >new.9m
    git add .
    staged 0
    [ -z "$output$stderr" ]
    good_notes | sed 's/net$/nett/' >new.9m
    git add .
    staged 1
    holds "$output" 'new.9m:7:3: error'
    lacks "$output" 'old.9m'
}

@test "added, changed, deleted, renamed, in a first commit and later" {
    good_notes >a.9m
    bad_notes >b.9m
    git add .
    staged 1
    git rm -q --cached b.9m
    staged 0
    git commit -q -m first
    git add b.9m
    git commit -q -m slips
    git mv b.9m c.9m
    staged 1
    holds "$output" c.9m:7:3
    git rm -qf c.9m
    staged 0
    git reset -q --hard
    chmod +x b.9m
    git add b.9m
    staged 1
}

@test "names with blanks, quotes, line feeds and letters of the world" {
    mkdir -p $'se ason\n2' "Ελπίδα"
    bad_notes >$'se ason\n2/a "b".9m'
    bad_notes >"Ελπίδα/ŝé.9m"
    bad_notes >":(top) -x.9m"
    git add .
    run --separate-stderr 9m check --staged --as short
    [ "$status" = 1 ]
    [ "${#lines[@]}" = 3 ]
    holds "$output" 'se ason<0A>2/a "b".9m:7:3'
    holds "$output" 'Ελπίδα/ŝé.9m:7:3'
    holds "$output" ':(top) -x.9m:7:3'
}

@test "from a folder below the top everything is checked, named from there" {
    mkdir -p season/sub
    bad_notes >season/a.9m
    match_with sub/s.9m '9 net' >b.9m
    squad 7 >season/sub/s.9m
    match_with sub/s.9m '9 net' >season/b.9m
    git add .
    cd season/sub
    run --separate-stderr 9m check --staged --as short
    [ "$status" = 1 ]
    holds "$output" '../../season/a.9m:7:3: '
    holds "$output" '../../b.9m:3:7: error: the squad file "sub/s.9m"'
    holds "$output" '../../season/b.9m:6:1: '
    test -e ../../season/a.9m
}

@test "the squad file is read as it is staged" {
    squad 7 >s.9m
    match_with ./s.9m '7 ace' >a.9m
    git add . && git commit -q -m first
    match_with ./s.9m '9 ace' >a.9m
    squad 7 9 >s.9m
    git add a.9m
    staged 1
    holds "$output" 'a.9m:6:1: error'
    git add s.9m
    staged 0
    squad 7 >s.9m
    staged 0
}

@test "a squad file that changes or goes brings the notes that take it" {
    mkdir below
    squad 7 9 >below/s.9m
    squad 7 >t.9m
    match_with .//below/./s.9m '9 ace' >a.9m
    match_with t.9m '9 ace' >other.9m
    git add . && git commit -q -m first
    squad 7 >below/s.9m
    git add .
    staged 1
    holds "$output" 'a.9m:6:1: error'
    lacks "$output" other.9m
    git rm -qf below/s.9m
    staged 1
    holds "$output" 'a.9m:3:7: error: the squad file ".//below/./s.9m" can'"'"'t be read: there is no such file'
    lacks "$output" other.9m
}

@test "a squad file that nobody staged is missed, one that git ignores is read" {
    squad 7 >s.9m
    match_with s.9m '7 ace' >a.9m
    git add a.9m
    staged 1
    holds "$output" 'the squad file "s.9m" can'"'"'t be read'
    echo s.9m >.gitignore
    staged 0
    squad 9 >s.9m
    staged 1
    holds "$output" 'a.9m:6:1: error'
}

@test "a club's drills are checked as they are staged" {
    printf 'Drill: Line\nPurpose: aim\nTreats: nonsense\n' >a.drills
    git add .
    echo '# nothing' >a.drills
    staged 1
    holds "$output" 'a.drills:3'
}

@test "submodules, links, hidden files and other files are no notes" {
    git init -q ../sub
    git -C ../sub commit -q --allow-empty -m one
    git -c protocol.file.allow=always submodule --quiet add ../sub sub.9m
    ln -s nowhere link.9m
    mkdir .hidden folder.9m
    echo 'no notes' >folder.9m/read.me
    bad_notes | tee .hidden/a.9m .b.9m >notes.txt
    git add -A
    staged 0
    [ -z "$output$stderr" ]
}

@test "settings of diff change nothing" {
    mkdir d
    bad_notes >d/a.9m
    git add .
    git config diff.relative true
    git config diff.renames copies
    git config diff.external false
    git config core.quotePath true
    cd d
    staged 1
    holds "$output" '../d/a.9m:7:3'
}

@test "a merge that is not settled is told, and what was settled is checked" {
    good_notes >a.9m
    git add . && git commit -q -m first
    git checkout -q -b other
    sed 's/7 net/7 long/' a.9m >b && mv b a.9m
    bad_notes >c.9m
    git add . && git commit -q -m other
    git checkout -q -
    sed 's/7 net/7 left/' a.9m >b && mv b a.9m
    git commit -q -a -m ours
    run git merge -q other
    [ "$status" = 1 ]
    staged 1
    holds "$stderr" '9m: a.9m: a merge is not settled here'
    holds "$output" c.9m:7:3
    git add a.9m
    staged 1
    holds "$output" 'error: an unresolved merge'
}

@test "commit -a and commit PATH show a hook what they will commit" {
    printf '#!/bin/sh\nexec 9m check --staged\n' >.git/hooks/pre-commit
    chmod +x .git/hooks/pre-commit
    good_notes | tee a.9m >b.9m
    git add . && git commit -q -m first
    bad_notes | tee a.9m >b.9m
    git add b.9m
    run git commit -q -a -m both
    [ "$status" = 1 ]
    holds "$output" a.9m:7:3
    sed 's/G3 net/G3 long/' <(good_notes) >a.9m
    git commit -q -m one a.9m
    run git commit -q -m other
    [ "$status" = 1 ]
}

@test "a worktree has an index of its own" {
    good_notes >a.9m
    git add . && git commit -q -m first
    git worktree add -q ../tree
    bad_notes >../tree/a.9m
    git -C ../tree add .
    staged 0
    cd ../tree
    staged 1
}

@test "the forms and the number of threads are as for files" {
    for i in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20; do bad_notes >$i.9m; done
    git add .
    9m check --as json *.9m >files.json || [ $? = 1 ]
    9m check --as json --staged >staged.json || [ $? = 1 ]
    cmp files.json staged.json
    9m check --as json --staged --threads 4 >threads.json || [ $? = 1 ]
    cmp files.json threads.json
}

@test "wrong usage, no repository, a bare one, no git" {
    run --separate-stderr 9m check --staged a.9m
    [ "$status" = 2 ]
    run --separate-stderr 9m check --staged --fix
    [ "$status" = 2 ]
    mkdir ../bare && cd ../bare && git init -q --bare .
    staged 3
    holds "$stderr" '9m: --staged needs the work tree of a git repository'
    mkdir ../plain && cd ../plain
    GIT_CEILING_DIRECTORIES=$(dirname "$PWD") staged 3
    holds "$stderr" '9m: --staged needs the work tree of a git repository'
    run --separate-stderr env PATH=/nowhere "$NINEMETRE" check --staged
    [ "$status" = 3 ]
    holds "$stderr" '9m: git is not installed, or not on the PATH'
}
