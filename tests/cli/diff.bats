#!/usr/bin/env bats
# What changed in the facts.
load kit

squad() {
    printf '%s\n' 'notation 1' 'team H "Herons" women' 'player H7 "Mira Havelin"' \
        'player H9 "Ana Lindbro"' >herons.9m
}

match() { # LINE...
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'squad "herons.9m"' \
        'team G "Foxes" women' 'set 1 H' "$@"
}

@test "spelling, comments, blank lines and short words are no facts" {
    squad
    match '7 in2 won' '. net' 'G3 net' '2-1' >a.9m
    printf '%s\n' 'notation 1' '# seen on video' 'match 2026-10-03' '' 'squad "herons.9m"' \
        'team G  "Foxes" women' 'short rot = net' 'set 1 h' 'H7  IN2 won' '7 rot' 'g3 NET  # low' \
        'score 2-1' | sed 's/$/\r/' >b.9m
    run 9m diff a.9m b.9m
    same "$output" ""
    [ "$status" = 0 ]
}

@test "words that changed, with place, name and lines, and what it did to the counts" {
    squad
    match '7 in2 won' '. net' 'G3 net' '9 ace' >a.9m
    match '7 in2 won' '. td net 3' 'G3 net' '9 long' >b.9m
    run --separate-stderr 9m diff a.9m b.9m
    [ "$status" = 1 ]
    [ -z "$stderr" ]
    same "$output" 'set 1, 1-0: 7 Mira Havelin: td added, 3 added (a.9m:7, b.9m:7)
set 1, 2-1: 9 Ana Lindbro: ace -> long (a.9m:9, b.9m:9)
H in all: aces 1 -> 0, errors 1 -> 2, won 2 -> 1
9 Ana Lindbro: aces 1 -> 0, errors 0 -> 1, won 1 -> 0'
}

@test "serves that were added or taken out, and another server" {
    squad
    match '7 in2 won' '. in1 won' '. net' 'G3 net' '9 net' >a.9m
    match '7 in2 won' '. net' 'G8 net' '9 ace' '9 net' >b.9m
    run 9m diff a.9m b.9m
    [ "$status" = 1 ]
    same "$output" 'set 1, 1-0: taken out: 7 in1 won (a.9m:7)
set 1, 2-1: G3: server G3 -> G8 (a.9m:9, b.9m:8)
set 1, 2-1: added: 9 ace (b.9m:9)
H in all: aces 0 -> 1
7 Mira Havelin: serves 3 -> 2, won 2 -> 1
9 Ana Lindbro: serves 1 -> 2, aces 0 -> 1, won 0 -> 1
G3: serves 1 -> 0, errors 1 -> 0
G8: serves 0 -> 1, errors 0 -> 1'
}

@test "a server that is corrected is told of each serve of hers" {
    squad
    match '7 in2 won' '. net' >a.9m
    match '9 in2 won' '. net' >b.9m
    run 9m diff a.9m b.9m
    same "$(head -n 2 <<<"$output")" \
        'set 1, 0-0: 7 Mira Havelin: server 7 -> 9 (a.9m:6, b.9m:6)
set 1, 1-0: 7 Mira Havelin: server 7 -> 9 (a.9m:7, b.9m:7)'
}

@test "people, dates and other statements" {
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'team H "Herons"' 'team G "Foxes"' \
        'player H7 "Mira"' 'player H9 "Ana" topspin' 'set 1 H' '7 net' 'timeout H' >a.9m
    printf '%s\n' 'notation 1' 'match 2026-10-04 18:30' 'team H "Herons"' 'team G "Foxes"' \
        'player H9 "Ana"' 'player H7 "Mira Havelin"' 'player H8 "Eva"' 'set 1 H' '7 net' >b.9m
    run 9m diff a.9m b.9m
    [ "$status" = 1 ]
    same "$output" 'match: 2026-10-03 -> 2026-10-04, 18:30 added (a.9m:2, b.9m:2)
player H7: "Mira" -> "Mira Havelin" (a.9m:5, b.9m:6)
player H9: topspin taken out (a.9m:6, b.9m:5)
player H8: added: player H8 "Eva" (b.9m:7)
set 1, after rally 1: taken out: timeout H (a.9m:9)'
}

@test "notes with errors are compared as far as they can be read, and not counted" {
    notes '7 net' 'G3 nett' >a.9m
    notes '7 long' 'G3 net' >b.9m
    run --separate-stderr 9m diff a.9m b.9m
    [ "$status" = 1 ]
    same "$stderr" '9m: a.9m: 1 error: compared as far as it could be read, and not counted'
    same "$output" 'set 1, 0-0: 7: net -> long (a.9m:6, b.9m:6)
set 1, 0-1: G3 nett -> G3 net (a.9m:7, b.9m:7)'
}

@test "a practice" {
    printf '%s\n' 'notation 1' 'practice 2026-10-06' 'team H "Herons"' 'drill "Rail"' \
        'tries 7 7/10' '7 in d6' >a.9m
    sed -e 's,7/10,8/10,' -e 's/in d6/long/' a.9m >b.9m
    run 9m diff a.9m b.9m
    same "$output" 'drill "Rail": tries 7 7/10 -> tries 7 8/10 (a.9m:5, b.9m:5)
drill "Rail": 7: in -> long, d6 taken out (a.9m:6, b.9m:6)
H in all: errors 0 -> 1
7: errors 0 -> 1'
}

@test "two folders: files of one name are compared, the others named" {
    mkdir -p old/cup new/cup
    notes '7 net' >old/a.9m
    notes '7 NET' >new/a.9m
    notes '7 net' >old/cup/b.9m
    notes '7 long' >new/cup/b.9m
    notes '7 net' >old/gone.9m
    notes '7 net' >new/more.9m
    run 9m diff old new/
    [ "$status" = 1 ]
    same "$(grep -v 'in all\|^7:' <<<"$output")" \
        'set 1, 0-0: 7: net -> long (old/cup/b.9m:6, new/cup/b.9m:6)
old/gone.9m: taken out
new/more.9m: added'
    run 9m diff old old
    [ "$status" = 0 ]
    run 9m diff old old/a.9m
    [ "$status" = 2 ]
    holds "$output" 'old is a folder and old/a.9m is none'
}

@test "as data" {
    squad
    match '7 in2 won' '. net' >a.9m
    match '7 in2 won' '. td net' 'G3 net' >b.9m
    run 9m diff --as json a.9m b.9m
    [ "$status" = 1 ]
    same "$(jq -c '.files[0] | .before, .after, .counted, .errors_before' <<<"$output")" '"a.9m"
"b.9m"
true
0'
    same "$(jq -c '.files[0].changes[]' <<<"$output")" \
        '{"kind":"changed","set":1,"rally":2,"score":[1,0],"server":"7","name":"Mira Havelin","before":{"line":7,"says":"7 net"},"after":{"line":7,"says":"7 td net"},"words":[{"before":null,"after":"td"}]}
{"kind":"added","set":1,"rally":3,"score":[1,1],"server":"G3","before":null,"after":{"line":8,"says":"G3 net"},"words":[]}'
    9m diff --as json a.9m a.9m | jq -e '.schema == 1 and .files == []'
}

@test "a file that is missing, and nonsense" {
    good_notes >a.9m
    run 9m diff a.9m missing.9m
    [ "$status" = 3 ]
    run 9m diff a.9m
    [ "$status" = 2 ]
    run 9m diff - -
    [ "$status" = 2 ]
    9m diff a.9m - <a.9m
    head -c 3000 /dev/urandom >noise.9m
    run 9m diff a.9m noise.9m
    [ "$status" = 1 ]
}

@test "git difftool shows commits so" {
    export HOME=$PWD GIT_CONFIG_NOSYSTEM=1
    unset XDG_CONFIG_HOME GIT_DIR GIT_WORK_TREE GIT_INDEX_FILE
    git init -q -b main .
    git config user.name scorer
    git config user.email scorer@example.org
    notes '7 net' >a.9m
    git add a.9m && git commit -q -m one
    notes '7 LONG' '# respelt' >a.9m
    notes 'G3 net' >b.9m
    git add . && git commit -q -m two
    run git difftool -y -x '9m diff' HEAD~1 HEAD
    [ "$status" = 0 ]
    holds "$output" 'set 1, 0-0: 7: net -> long'
    holds "$output" 'added: G3 net'
}

@test "git difftool finds the squad by --name, and counts" {
    export HOME=$PWD GIT_CONFIG_NOSYSTEM=1
    unset XDG_CONFIG_HOME GIT_DIR GIT_WORK_TREE GIT_INDEX_FILE
    git init -q -b main .
    git config user.name scorer
    git config user.email scorer@example.org
    mkdir season
    notes '7 net' >a.9m
    { echo 'notation 1'; grep -e '^team H' -e '^player H' a.9m; } >season/herons.9m
    sed -e '/^player H/d' -e 's/^team H.*/squad "herons.9m"/' a.9m >season/a.9m
    git add season && git commit -q -m one
    sed -i 's/7 net/7 ace/' season/a.9m
    git commit -q -a -m two
    run git difftool -y -x '9m diff --name "$BASE"' HEAD~1 HEAD
    holds "$output" 'net -> ace'
    holds "$output" 'aces 0 -> 1'
    lacks "$output" 'not counted'
    run -2 9m diff --name a.9m season .
}
