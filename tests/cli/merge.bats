#!/usr/bin/env bats
# Two scorers edit one match: by hand, and as merge driver of git.
load kit

# A repository with the driver, and a match that both begin with.
season() {
    export HOME=$PWD GIT_CONFIG_NOSYSTEM=1 GIT_EDITOR=true
    unset XDG_CONFIG_HOME GIT_DIR GIT_WORK_TREE GIT_INDEX_FILE
    git init -q -b main season
    cd season || return 1
    git config user.name scorer
    git config user.email scorer@example.org
    git config merge.9m.driver "9m merge --name %P %O %A %B"
    echo '*.9m merge=9m' >.gitattributes
    notes '7 in2 won' '. in1 won' '. net' 'G3 net' '9 ace' '. long' >match.9m
    git add . && git commit -q -m base
    git branch theirs
}

edit() { # SED-COMMAND...
    for command; do sed -i "$command" match.9m; done
    git commit -q -a -m "$*"
}

# Lines 6 to 11 of the match are its serves.
serves() {
    tail -n +6 match.9m
}

@test "edits of two branches are one match" {
    season
    edit '6s/in2/in2 5/' '9s/net/long/'
    git checkout -q theirs
    edit '6s/in2/td in2/' '11a timeout H'
    git checkout -q main
    run git merge -q theirs
    [ "$status" = 0 ]
    same "$output" 'Auto-merging match.9m'
    same "$(serves)" '7 td in2 5 won
. in1 won
. net
G3 long
9 ace
. long
timeout H'
    [ -z "$(git status --porcelain)" ]
    9m check match.9m
}

@test "a contradiction is a conflict of its rally alone, told in words of the notation" {
    season
    edit '8s/net/td long/' '10s/$/ d1/'
    git checkout -q theirs
    edit '8s/net/left/' '6s/in2/in3/'
    git checkout -q main
    run git merge -q theirs
    [ "$status" = 1 ]
    holds "$output" '9m: match.9m: conflict in set 1, rally 3
    before  . net
    ours    . td long
    theirs  . left'
    same "$(git status --porcelain)" 'UU match.9m'
    same "$(serves)" '7 in3 won
. in1 won
<<<<<<< ours
. td long
=======
. left
>>>>>>> theirs
G3 net
9 ace d1
. long'
    run 9m check match.9m
    [ "$status" = 1 ]
    holds "$output" 'an unresolved merge, lines 8 to 12 [E020]'
    sed -i -e '/^[<=>]/d' -e '/left/d' match.9m
    9m check match.9m
    git add match.9m
    git commit -q -m merged
}

@test "both write on at the end: a conflict, never one behind the other" {
    season
    echo 'G4 ace' >>match.9m && git commit -q -a -m ours
    git checkout -q theirs
    echo 'G4 net' >>match.9m && git commit -q -a -m theirs
    git checkout -q main
    run git merge -q theirs
    [ "$status" = 1 ]
    same "$(serves | tail -n 6)" '. long
<<<<<<< ours
G4 ace
=======
G4 net
>>>>>>> theirs'
}

@test "a serve that both added stands there once" {
    season
    printf '%s\n' 'G4 ace' 'G4 net' >>match.9m && git commit -q -a -m ours
    git checkout -q theirs
    echo 'G4 ace 5' >>match.9m && git commit -q -a -m theirs
    git checkout -q main
    git merge -q theirs
    same "$(serves | tail -n 3)" '. long
G4 ace 5
G4 net'
}

@test "edits that only together give an error are told, and stay in" {
    season
    edit '8i 2-0'
    git checkout -q theirs
    edit '6a . ace'
    git checkout -q main
    run git merge -q theirs
    [ "$status" = 1 ]
    holds "$output" 'match.9m: all edits of both are in, and together they give what neither had'
    holds "$output" 'score says 2-0, the lines add up to 3-0'
    same "$(git status --porcelain)" 'UU match.9m'
    lacks "$(cat match.9m)" '<<<'
    holds "$(cat match.9m)" '. ace'
}

@test "the squad is looked for beside the file, not beside git's copies" {
    season
    mkdir club
    printf '%s\n' 'notation 1' 'team H "Herons" women' 'player H7 "Mira Havelin"' \
        'player H9 "Ana Lindbro"' 'short rot = net' >club/herons.9m
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'squad "herons.9m"' \
        'team G "Foxes" women' 'set 1 H' '7 rot' 'G3 net' '9 ace' >club/match.9m
    git add . && git commit -q -m club
    git checkout -q -b video
    sed -i 's/7 rot/7 td rot/' club/match.9m && git commit -q -a -m video
    git checkout -q main
    sed -i 's/7 rot/7 rot 3/' club/match.9m && git commit -q -a -m bench
    git -C club merge -q video
    same "$(sed -n 6p club/match.9m)" '7 td net 3'
    9m check club
}

@test "rebase, cherry-pick and stash pop merge by rally, too" {
    season
    edit '6s/in2/in2 5/'
    git checkout -q -b picked theirs
    edit '6s/in2/td in2/'
    git checkout -q -b rebased picked
    git rebase -q main
    same "$(serves | head -n 1)" '7 td in2 5 won'
    git checkout -q main
    sed -i '6s/won/won 1:02/' match.9m
    git stash -q
    git cherry-pick picked >/dev/null
    same "$(serves | head -n 1)" '7 td in2 5 won'
    git stash pop -q
    same "$(serves | head -n 1)" '7 td in2 5 won 1:02'
}

@test "a conflict stops a rebase and a stash pop" {
    season
    edit '8s/net/long/'
    git checkout -q theirs
    edit '8s/net/left/'
    run git rebase -q main
    [ "$status" = 1 ]
    holds "$output" 'conflict in set 1, rally 3'
    git rebase --abort
    git checkout -q main
    sed -i '8s/long/ace/' match.9m
    git stash -q
    edit '8s/long/right/'
    run git stash pop -q
    [ "$status" = 1 ]
    same "$(serves | sed -n 4p)" '. right'
}

@test "a file that both added, and one that one of them took out" {
    season
    notes '7 ace' >new.9m && git add . && git commit -q -m ours
    git checkout -q theirs
    notes '7 ace 5' '7 net' >new.9m && git add . && git commit -q -m theirs
    git checkout -q main
    git merge -q theirs
    same "$(tail -n +6 new.9m)" '7 ace 5
7 net'
    git checkout -q -b gone
    git rm -q new.9m && git commit -q -m gone
    git checkout -q main
    sed -i 's/7 net/7 long/' new.9m && git commit -q -a -m changed
    run git merge -q gone
    [ "$status" = 1 ]
    same "$(git status --porcelain)" 'UD new.9m'
}

@test "merges that cross have conflicts within conflicts, and end" {
    season
    edit '8s/net/long/'
    git checkout -q theirs
    edit '8s/net/left/'
    git branch old-theirs
    git merge -q main >/dev/null 2>&1 || true
    sed -i -e '/^[<=>]/d' -e '/long$/{8,12d}' match.9m
    notes '7 in2 won' '. in1 won' '. left' 'G3 net' '9 ace' '. long' >match.9m
    git add . && git commit -q -m one
    git checkout -q main
    git merge -q old-theirs >/dev/null 2>&1 || true
    notes '7 in2 won' '. in1 won' '. long' 'G3 net' '9 ace' '. long' >match.9m
    git add . && git commit -q -m other
    run git merge -q theirs
    [ "$status" = 1 ]
    holds "$(cat match.9m)" '<<<<<<< ours
. long
=======
. left
>>>>>>> theirs'
}

# Git before 2.42 takes a failure for a conflict, later ones stop (from memory).
@test "a failure of the machine is never a merge" {
    season
    edit '8s/net/long/'
    git checkout -q theirs
    edit '6s/in2/in3/'
    git checkout -q main
    git config merge.9m.driver "9m merge --name %P %O %A missing-%B"
    run git merge theirs
    [ "$status" -gt 0 ]
    holds "$output" 'No such file or directory'
    [ "$(git rev-parse main)" = "$(git rev-parse HEAD)" ]
}

@test "by hand: the result goes to OURS, what fails has its own codes" {
    notes '7 net' >base.9m
    notes '7 td net' >ours.9m
    notes '7 net 3' >theirs.9m
    run 9m merge base.9m ours.9m theirs.9m
    [ "$status" = 0 ]
    same "$output" ""
    same "$(tail -n 1 ours.9m)" '7 td net 3'
    same "$(tail -n 1 theirs.9m)" '7 net 3'
    run 9m merge base.9m ours.9m
    [ "$status" = 2 ]
    run 9m merge base.9m ours.9m missing.9m
    [ "$status" = 129 ]
    same "$(tail -n 1 ours.9m)" '7 td net 3'
    run 9m merge base.9m missing/ours.9m theirs.9m
    [ "$status" = 129 ]
}

@test "notes in UTF-16 are left alone" {
    notes '7 net' >base.9m
    notes '7 long' >ours.9m
    cp ours.9m before.9m
    notes '7 net 3' | iconv -t UTF-16 >theirs.9m
    run 9m merge base.9m ours.9m theirs.9m
    [ "$status" = 1 ]
    holds "$output" 'UTF-16'
    cmp ours.9m before.9m
}

@test "one rally in two places is asked about" {
    notes '7 in1 won' '7 in2 won' >base.9m
    notes '7 in1 won' '7 ace' '7 in2 won' >ours.9m
    notes '7 in1 won' '7 in2 won' '. ace' >theirs.9m
    run 9m merge base.9m ours.9m theirs.9m
    [ "$status" = 1 ]
    holds "$output" 'both added the same serve in two places; if it was one, take one out
    ours    7 ace
    theirs  . ace'
}

@test "a club's drills are merged line by line" {
    printf 'Drill: Rail\nTreats: td\n' >base.drills
    printf 'Drill: Rail\nTreats: td tu\n' >ours.drills
    printf 'Drill: Rail\nTreats: td\n# new\n' >theirs.drills
    9m merge base.drills ours.drills theirs.drills
    same "$(cat ours.drills)" 'Drill: Rail
Treats: td tu
# new'
}
