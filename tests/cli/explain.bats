#!/usr/bin/env bats
# `9m explain`, from the tables of messages and words.
load kit

codes() {
    9m explain --list | grep -oE '^[EWR][0-9]{3}'
}

words() {
    9m explain --list | grep -vE '^[EWR][0-9]{3} | a drill: '
}

drills() {
    9m explain --list | sed -n 's/ * a drill: .*//p'
}

@test "every code is explained: what, why, notes that raise it, the same mended" {
    [ "$(codes | wc -l)" -ge 50 ]
    for code in $(codes); do
        run --separate-stderr 9m explain "$code"
        [ "$status" = 0 ] && [ -z "$stderr" ] || { echo "$code"; return 1; }
        holds "$output" "$code (" && holds "$output" 'Why it matters:'
        [ "$(printf '%s\n' "$output" | widest)" -le 80 ] || { echo "$code is wider than 80"; return 1; }
    done
}

widest() {
    awk '{ if (length > n) n = length } END { print n + 0 }'
}

@test "every fixed word is explained, with an example" {
    [ "$(words | wc -l)" -ge 100 ]
    words | grep -v 'a form with numbers' | awk '{ print $1 }' | sort -u >list
    while IFS= read -r word; do
        run --separate-stderr 9m explain "$word"
        [ "$status" = 0 ] && [ -z "$stderr" ] || { echo "$word"; return 1; }
        holds "$output" "$word (" && holds "$output" 'Example:'
        [ "$(printf '%s\n' "$output" | widest)" -le 80 ] || { echo "$word is wider than 80"; return 1; }
    done <list
}

@test "a form with numbers is explained by any of its spellings" {
    for pair in 'm4/3:where the server starts' 'r:where the server starts' 'p2.5/3:where the server starts' \
        'ad5:where it was meant to go' 'a2.1,8.0:where it was meant to go' 't5.9:peak of the toss' \
        'v101:speed of the ball' 'by4:shirt of the receiver' '5-6:where the ball landed' \
        '2.5,8.1:where the ball landed' '18:42:video time' '?:the scorer is not sure' 'G3:the server' \
        'x4:practice'; do
        holds "$(9m explain "${pair%:*}")" "${pair##*:}"
    done
    # A number is a shirt and, up to 6, a zone too.
    holds "$(9m explain 5)" 'the server'
    holds "$(9m explain 5)" 'where the ball landed'
    lacks "$(9m explain 14)" 'where the ball landed'
}

@test "a code by its number and in any case" {
    same "$(9m explain e201)" "$(9m explain E201)"
    same "$(9m explain 201)" "$(9m explain E201)"
}

@test "a word in two lists: both" {
    out=$(9m explain toss)
    holds "$out" 'toss (a statement)'
    holds "$out" 'toss (a phase of technique)'
}

@test "several at once, in the order given" {
    same "$(9m explain td E201 | grep -oE '^(td|E201) ')" "$(printf 'td \nE201 ')"
}

@test "near misses, exit 2" {
    run --separate-stderr 9m explain topspn
    [ "$status" = 2 ]
    [ -z "$output" ]
    holds "$stderr" 'did you mean topspin?'
    run --separate-stderr 9m explain E4O1
    [ "$status" = 2 ]
    holds "$stderr" 'did you mean E401?'
    run --separate-stderr 9m explain frobnicate
    [ "$status" = 2 ]
    holds "$stderr" '9m explain --list'
    run --separate-stderr 9m explain td frobnicate
    [ "$status" = 2 ]
    holds "$output" 'td (a mark'
}

@test "the bytes of an example that a terminal must not get are shown as escapes" {
    9m explain --list >/dev/null
    for code in $(codes); do 9m explain "$code"; done >out
    lacks "$(cat out)" $'\033'
    [ -z "$(tr -d '\n' <out | grep -aP '[\x00-\x1f\x7f]')" ]
    iconv -f UTF-8 -t UTF-8 out >/dev/null
}

@test "every drill is explained by its name: what, notes, goal" {
    [ "$(drills | wc -l)" = 30 ]
    drills >list
    while IFS= read -r name; do
        run --separate-stderr 9m explain "$name"
        [ "$status" = 0 ] && [ -z "$stderr" ] || { echo "$name"; return 1; }
        for head in 'Treats:' 'Set-up:' 'How much:' 'Notes of the practice:' 'Goal:' 'Care:'; do
            holds "$output" "$head"
        done
        holds "$output" "$name (a drill): "
        [ "$(printf '%s\n' "$output" | widest)" -le 80 ] || { echo "$name is wider than 80"; return 1; }
    done <list
    holds "$(9m explain 'ring TOSS')" 'toss 7 6/10 tn3 tl1'
}

@test "a drill with jumps says what they load, one without does not" {
    holds "$(9m explain 'Wait for it' | tr -s '\n ' '  ')" 'It contains jumps. Jump serves load'
    holds "$(9m explain 'Last metre')" 'if hers is a jump serve'
    lacks "$(9m explain 'Ring toss')" 'Jumps:'
    holds "$(9m explain drills)" 'medical professional'
    holds "$(9m explain drills)" 'Order call: the right server'
}

@test "a mark and an outcome name the drills for them, the best first" {
    same "$(9m explain td | sed -n '/^Drills:/,$p' | sed -n 2p)" '  Ring toss: the toss comes down in one place'
    holds "$(9m explain antenna)" 'Line with a margin: '
    lacks "$(9m explain ace)" 'Drills:'
}

@test "the nearest drill" {
    run --separate-stderr 9m explain 'Rign toss'
    [ "$status" = 2 ]
    holds "$stderr" 'did you mean Ring toss?'
}

box() {
    printf 'Drill: Box toss\nTreats: td\nJumps: no\nSet-up: A box on the floor.\n'
}

@test "a club's own drills: by file, by folder, by notes in it" {
    mkdir club && box >club/own.drills && echo 'notation 1' >club/a.9m
    for path in club club/ club/own.drills club/a.9m; do
        holds "$(9m explain --drills $path 'Box toss')" 'Box toss (a drill of the club)'
    done
    cd club
    for path in . a.9m own.drills; do
        same "$(9m explain --drills $path td | sed -n '/^Drills:/,$p' | sed -n 2p)" '  Box toss'
    done
    printf 'Drill: ring toss\nTreats: td\nJumps: no\nSet-up: A hoop.\n' >more.drills
    holds "$(9m explain --drills . 'Ring toss')" 'A hoop.'
    [ "$(9m explain --drills . --list | grep -c ' a drill: ')" = 31 ]
}

@test "a club's drills with a slip: told, and nothing explained" {
    box | sed 's/Jumps: no/Jumps: non/' >own.drills
    run --separate-stderr 9m explain --drills own.drills td
    [ "$status" = 1 ]
    [ -z "$output" ]
    holds "$stderr" 'own.drills:3:8: error: "non" is not yes, no or maybe [E606]'
    run --separate-stderr 9m explain --drills nowhere.drills td
    [ "$status" = 3 ]
    holds "$stderr" 'nowhere.drills: No such file'
    mkdir empty
    run --separate-stderr 9m explain --drills empty td
    [ "$status" = 3 ]
    holds "$stderr" 'no drills here'
}

@test "check reads a club's drills too" {
    mkdir club && box >club/own.drills && printf 'notation 1\nteam H "Herons"\n' >club/a.9m
    same "$(9m check club)" ''
    { box; echo; box; } >club/own.drills
    run --separate-stderr 9m check club
    [ "$status" = 1 ]
    holds "$output" 'club/own.drills:6:1: error: "Box toss" is described twice in this file [E605]'
    holds "$output" '1 of 2 files'
    run --separate-stderr 9m check --as json club/own.drills
    [ "$status" = 1 ]
    same "$(jq -r '.messages[].code' <<<"$output")" E605
}
