#!/usr/bin/env bats
# `9m explain`, from the tables of messages and words.
load kit

codes() {
    9m explain --list | grep -oE '^[EWR][0-9]{3}'
}

words() {
    9m explain --list | grep -vE '^[EWR][0-9]{3} '
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
