#!/usr/bin/env bats
# Repositories of a club, with git's own commands.
load kit
load git

setup() {
    mkdir "$BATS_TEST_TMPDIR/work"
    cd "$BATS_TEST_TMPDIR/work" || return 1
    own_git
    git init -q .
}

# Two sets; the second begins with many equal lines, so that a hunk does not reach its head.
two_sets() { # LAST-LINE...
    head_of_match
    printf '%s\n' '7 ace' '7 net' 'G3 net' 'end' 'set 2 G' 'G3 in2' 'G3 in2' 'G3 in2' 'G3 in2' 'G3 in2' \
        'G3 in2' 'G3 in2'
    printf '%s\n' "$@"
}

state() { # all that git-setup may change
    cat .gitattributes .git/config
    find .git/hooks .git/info -type f ! -name '*.sample' -exec ls -l --time-style=+ {} + -exec cat {} +
}

@test "what is written, said in a few lines; twice changes nothing" {
    run --separate-stderr 9m git-setup
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    holds "$output" '.gitattributes: notes are text with LF'
    holds "$output" '.git/hooks/pre-commit: a commit whose notes have errors is stopped'
    holds "$output" 'Commit .gitattributes. The rest is of this clone alone: whoever else commits runs'
    holds "$output" 'Squad files hold names'
    [ "${#lines[@]}" -le 9 ]
    state >once
    run --separate-stderr 9m git-setup
    [ "$status" = 0 ]
    same "$output" 'All is set up already.'
    [ -z "$stderr" ]
    state | cmp - once
    git add .gitattributes
    git -c core.hooksPath=/dev/null commit -q -m attributes
    git clone -q . ../second
    run --separate-stderr 9m git-setup ../second
    [ "$status" = 0 ]
    holds "$output" 'Settings and hooks are of this clone alone'
    [[ "$output" != *Commit* ]]
}

@test "--remove takes all of it away, and nothing else" {
    cp .git/config before
    9m git-setup
    run --separate-stderr 9m git-setup --remove
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    [ ! -e .gitattributes ]
    cmp .git/config before
    [ -z "$(find .git/hooks -type f ! -name '*.sample')" ]
    same "$(9m git-setup --remove)" 'There is nothing of ours to take away.'
    printf '*.png binary\n' >.gitattributes
    git config diff.9mm.textconv cat
    cp .git/config before
    9m git-setup
    9m git-setup --remove
    same "$(cat .gitattributes)" '*.png binary'
    cmp .git/config before
}

@test "attributes that are there stay, an open last line too; ours stand last" {
    printf '*.png binary\n# mine\n*.9m -text' >.gitattributes
    9m git-setup
    same "$(head -n 3 .gitattributes)" "$(printf '*.png binary\n# mine\n*.9m -text')"
    same "$(git check-attr text eol diff merge -- x.9m | cut -d: -f2-)" \
        "$(printf ' %s\n' 'text: set' 'eol: lf' 'diff: 9m' 'merge: 9m')"
    same "$(git check-attr text eol diff merge -- x.drills | cut -d: -f2-)" \
        "$(printf ' %s\n' 'text: set' 'eol: lf' 'diff: 9m-drills' 'merge: 9m')"
    echo '*.9m diff' >>.gitattributes
    9m git-setup
    holds "$(git check-attr diff -- x.9m)" ': 9m'
    [ "$(grep -c '^\*\.9m .*merge=9m' .gitattributes)" = 1 ]
}

@test "a union merge never stays in force, and is told" {
    echo '*.9m merge=union' >.gitattributes
    run --separate-stderr 9m git-setup
    [ "$status" = 0 ]
    holds "$stderr" '9m: merge=union was set for notes, which doubles rallies'
    holds "$(git check-attr merge -- new.9m)" 'merge: 9m'
    run --separate-stderr 9m git-setup
    [ -z "$stderr" ]
}

@test "a union merge of one folder is overruled in this clone, and told each time" {
    mkdir season
    echo '*.9m merge=union' >season/.gitattributes
    good_notes >season/a.9m
    git add . && git commit -q -m one
    for i in 1 2; do
        run --separate-stderr 9m git-setup
        [ "$status" = 0 ]
        holds "$(git check-attr merge -- season/a.9m)" 'merge: 9m'
    done
    9m git-setup --remove
    holds "$(git check-attr merge -- season/a.9m)" 'merge: union'
    run --separate-stderr 9m git-setup
    holds "$stderr" '9m: season/a.9m: attributes in its folder ask for merge=union'
}

@test "hunk headers name the set, in words and as written" {
    two_sets 'G3 net' '7 ace' >a.9m
    git add . && git commit -q -m one
    two_sets 'G3 net' '7 net' >a.9m
    lacks "$(git diff)" '@@ set'
    9m git-setup
    holds "$(git diff)" '@@ Set 2: first serve by Foxes'
    holds "$(git diff)" $'\n-7: ace\n+7: into the net'
    holds "$(git diff --no-textconv)" '@@ set 2 G'
    holds "$(git diff --no-textconv)" $'\n-7 ace\n+7 net'
    git commit -q -a --no-verify -m two
    holds "$(git show)" '@@ Set 2: first serve by Foxes'
    holds "$(git log -p -1)" '+7: into the net'
    holds "$(git log -L ':set 2:a.9m' -1)" $'\n-7 ace\n+7 net'
    lacks "$(git log -L ':set 2:a.9m' -1)" 'set 1 H'
}

@test "a drill and a player are found in a practice, a squad file and a club's drills" {
    9m git-setup
    practice() {
        printf '%s\n' 'notation 1' 'practice 2026-10-06' 'team H "Herons" women' 'drill "Ring toss"' 'ring 1.0'
        for i in 1 2 3 4 5; do echo "tries 7 $i/10"; done
        echo "tries 7 $1/10"
    }
    squad() {
        printf '%s\n' 'notation 1' 'team H "Herons" women'
        for i in 1 2 3 4 5; do echo "player H$i \"Player $i\""; done
        echo "player H6 \"$1\""
    }
    drills() {
        printf '%s\n' 'Drill: Box toss' 'Purpose: aim' 'Treats: td' 'Jumps: no' 'Set-up: A box.' "Dose: $1"
    }
    practice 6 >p.9m
    squad A >s.9m
    drills one >c.drills
    git add . && git commit -q -m one
    practice 7 >p.9m
    squad B >s.9m
    drills two >c.drills
    holds "$(git diff p.9m)" '@@ Drill "Ring toss"'
    holds "$(git diff s.9m)" '@@ Team H: Herons, women'
    holds "$(git diff --no-textconv p.9m)" '@@ drill "Ring toss"'
    holds "$(git diff c.drills)" '@@ Drill: Box toss'
}

@test "a respelt line is no change of what is shown, a changed score changes one line" {
    two_sets 'G3 net' '7 ace' >a.9m
    git add . && git commit -q -m one
    9m git-setup
    sed -i 's/^7/H7/; s/ ace/   ACE/' a.9m
    [ -z "$(git diff a.9m | grep '^[-+][^-+]')" ]
    two_sets 'G3 net' '7 ace' >a.9m
    sed -i '6s/ace/in1 won/' a.9m
    [ "$(git diff a.9m | grep -c '^[-+][^-+]')" = 2 ]
}

@test "notes with errors can be shown; git blame names the right lines" {
    9m git-setup
    { good_notes; echo '7 nett'; printf '7 net # S\370ren\n'; } >a.9m
    git add . && git commit -q --no-verify -m one
    sed -i '$s/7/9/; 7s/net/long/' a.9m
    git diff >out
    holds "$(cat out)" $'\n-7: into the net\n+7: out over the end line'
    git commit -q --no-verify -a -m two
    git blame -s a.9m >blamed
    [ "$(wc -l <blamed)" = "$(wc -l <a.9m)" ]
    same "$(git blame -s a.9m | grep -n -v '^^' | cut -d: -f1 | tr '\n' ' ')" '7 10 '
    same "$(git blame -s --no-textconv a.9m | sed 's/^[^)]*) //')" "$(cat a.9m)"
}

@test "CR LF becomes LF when it is committed" {
    9m git-setup
    good_notes | sed 's/$/\r/' >a.9m
    git add a.9m
    git commit -q -m one
    git cat-file blob HEAD:a.9m | cmp - <(good_notes)
    rm a.9m && git checkout -q a.9m
    cmp a.9m <(good_notes)
}

@test "the hook stops a commit with errors and lets a good one pass" {
    9m git-setup
    notes '7 nett' >a.9m
    git add .
    run git commit -q -m bad
    [ "$status" = 1 ]
    holds "$output" 'a.9m:6:3: error: "nett" is not an outcome'
    run git log
    [ "$status" = 128 ]
    git commit -q --no-verify -m 'all the same'
    good_notes >a.9m
    git commit -q -a -m good
    [ "$(git log --oneline | wc -l)" = 2 ]
}

@test "the hook of a merge that git commits by itself" {
    printf '%s\n' 'notation 1' 'team H "Herons" women' 'player H7 "A"' 'player H9 "B"' >s.9m
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'squad "s.9m"' 'team G "Foxes"' 'set 1 H' '7 ace' >a.9m
    git add . && git commit -q -m one
    9m git-setup
    git checkout -q -b other
    sed -i '/H9/d' s.9m
    git commit -q -a -m 'nine left'
    git checkout -q main
    sed '$s/7/9/' a.9m >b.9m
    git add b.9m && git commit -q -m 'nine serves'
    run git merge other
    [ "$status" != 0 ]
    holds "$output" 'b.9m:6:1: error'
    same "$(git log --format=%s -1)" 'nine serves'
    git merge --abort
    git merge -q --no-verify other
}

@test "git merge joins what two scorers wrote of one rally, and stops where they contradict" {
    9m git-setup
    good_notes >a.9m
    git add . && git commit -q -m one
    git checkout -q -b video
    sed -i 's/^7 ace/7 td ace/' a.9m
    git commit -q -a -m video
    git checkout -q main
    sed -i 's/^7 ace/7 ace d5/' a.9m
    git commit -q -a -m bench
    git merge -q --no-edit video
    same "$(sed -n 6p a.9m)" '7 td ace d5'
    sed -i 's/^7 net/7 long/' a.9m
    git commit -q -a -m bench
    git checkout -q video
    sed -i 's/^7 net/7 left/' a.9m
    git commit -q -a -m video
    run git merge video main
    [ "$status" = 1 ]
    grep -qx '7 long' a.9m
    grep -qx '7 left' a.9m
    run git commit -q -a -m 'not settled'
    [ "$status" = 1 ]
    holds "$output" 'error: an unresolved merge'
}

@test "our line in somebody else's hook is seen in its last line, too, which may have no end" {
    printf '#!/bin/sh\n9m check --staged' >.git/hooks/pre-commit
    cp .git/hooks/pre-commit .git/hooks/pre-merge-commit
    run --separate-stderr 9m git-setup
    [ "$status" = 0 ]
    [ -z "$stderr" ]
}

@test "somebody else's hook stays, and the line to add is told; with it all is well" {
    printf '#!/bin/sh\ntrue\n' >.git/hooks/pre-commit
    chmod +x .git/hooks/pre-commit
    cp .git/hooks/pre-commit before
    run --separate-stderr 9m git-setup
    [ "$status" = 1 ]
    holds "$stderr" 'hooks/pre-commit: not written, there is another hook; put this line into it: 9m check --staged || exit 1'
    cmp .git/hooks/pre-commit before
    sed -i '2i 9m check --staged || exit 1' .git/hooks/pre-commit
    run --separate-stderr 9m git-setup
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    notes '7 nett' >a.9m
    git add .
    run git commit -q -m bad
    [ "$status" = 1 ]
    run --separate-stderr 9m git-setup --remove
    [ "$status" = 1 ]
    holds "$stderr" 'not taken away, it is not only ours'
    [ -x .git/hooks/pre-commit ]
    # A remark that names the command runs nothing.
    printf '#!/bin/sh\n# 9m check --staged\n' >.git/hooks/pre-commit
    run 9m git-setup
    [ "$status" = 1 ]
}

@test "core.hooksPath: the repository's own is used, a person's own is left alone" {
    git config core.hooksPath tools/hooks
    9m git-setup
    [ -x tools/hooks/pre-commit ]
    [ -z "$(find .git/hooks -type f ! -name '*.sample')" ]
    9m git-setup --remove
    [ ! -e tools/hooks/pre-commit ]
    git config --unset core.hooksPath
    git config --global core.hooksPath "$HOME/hooks"
    run --separate-stderr 9m git-setup
    [ "$status" = 1 ]
    holds "$stderr" "$HOME/hooks/pre-commit: not written, it would serve other repositories too"
    [ ! -e "$HOME/hooks" ]
}

@test "from a folder below, by name, in a worktree, in a submodule" {
    mkdir -p season/one
    (cd season/one && 9m git-setup)
    [ -e .gitattributes ]
    9m git-setup --remove
    9m git-setup season
    good_notes >a.9m
    git add . && git commit -q -m one
    git worktree add -q ../tree
    same "$(9m git-setup ../tree)" 'All is set up already.'
    notes '7 nett' >../tree/a.9m
    run git -C ../tree commit -q -a -m bad
    [ "$status" = 1 ]
    git init -q ../upstream
    good_notes >../upstream/b.9m
    git -C ../upstream add . && git -C ../upstream commit -q -m one
    git -c protocol.file.allow=always submodule --quiet add ../upstream sub
    9m git-setup sub
    [ -e sub/.gitattributes ]
    [ -x .git/modules/sub/hooks/pre-commit ]
    holds "$(git -C sub config diff.9m.textconv)" '9m aloud --alone'
}

@test "names with blanks and letters of the world" {
    git init -q $'../se ason\n2 é'
    9m git-setup $'../se ason\n2 é'
    [ -e $'../se ason\n2 é/.gitattributes' ]
    [ -x $'../se ason\n2 é/.git/hooks/pre-commit' ]
}

@test "no repository, a bare one, no git, no 9m on the PATH: told, and nothing is written" {
    mkdir ../plain
    GIT_CEILING_DIRECTORIES=$(dirname "$PWD") run --separate-stderr 9m git-setup ../plain
    [ "$status" = 3 ]
    holds "$stderr" '9m: ../plain: git has no repository here'
    [ -z "$(ls -A ../plain)" ]
    git init -q --bare ../bare
    run --separate-stderr 9m git-setup ../bare
    [ "$status" = 3 ]
    holds "$stderr" '9m: ../bare: this repository has no work tree here'
    run --separate-stderr env PATH=/nowhere "$NINEMETRE" git-setup
    [ "$status" = 3 ]
    holds "$stderr" '9m: git is not installed, or not on the PATH'
    mkdir ../bin
    ln -s "$(command -v git)" ../bin/git
    run --separate-stderr env PATH="$PWD/../bin" "$NINEMETRE" git-setup
    [ "$status" = 3 ]
    holds "$stderr" '9m: 9m is not installed, or not on the PATH'
    [ ! -e .gitattributes ]
    run 9m git-setup a b
    [ "$status" = 2 ]
}

@test "two edits of a club's drills are joined" {
    9m git-setup >/dev/null 2>&1
    printf '%s\n' 'Drill: Lantern toss' 'Purpose: the toss is high' 'Treats: td' 'Jumps: no' \
        'Set-up: Toss past the lantern.' 'Goal: 14/20 past it.' '' \
        'Drill: Rope serve' 'Purpose: over the rope' 'Treats: net' 'Jumps: no' \
        'Set-up: A rope above the net.' 'Goal: 9/10 over it.' >club.drills
    cp club.drills before
    git add -A && git commit -qm drills
    git checkout -qb other
    sed -i 's,9/10 over,8/10 over,' club.drills
    git commit -qam rope
    git checkout -q -
    sed -i 's,14/20 past,15/20 past,' club.drills
    git commit -qam ring
    git merge -q -m both other
    sed 's,9/10 over,8/10 over,; s,14/20 past,15/20 past,' before | cmp - club.drills
}
