#!/usr/bin/env bats
# `9m check --fix`: only mends that keep the meaning.
load kit

nbsp() {
    printf '7\302\240net'
}

@test "a safe mend is made, told on standard error, and the rest is checked" {
    notes "$(nbsp)" 'G3 ace' >a.9m
    run --separate-stderr 9m check --fix a.9m
    [ "$status" = 0 ]
    [ -z "$output" ]
    holds "$stderr" '9m: a.9m: 1 mend made'
    same "$(cat a.9m)" "$(notes '7 net' 'G3 ace')"
    9m check a.9m
}

@test "what is only a guess stays and is told" {
    notes '7 xyzzy' "$(nbsp)" >a.9m
    run --separate-stderr 9m check --fix a.9m
    [ "$status" = 1 ]
    holds "$output" 'a.9m:6:3: error:'
    lacks "$output" 'a.9m:7:'
    same "$(cat a.9m)" "$(notes '7 xyzzy' '7 net')"
}

@test "several on one line and on many lines are all made" {
    notes "$(printf '7\302\240m4/3\302\240td\302\240net')" "$(nbsp)" "$(nbsp)" >a.9m
    9m check --fix a.9m 2>/dev/null || true
    same "$(cat a.9m)" "$(notes '7 m4/3 td net' '7 net' '7 net')"
}

@test "a second run changes nothing" {
    notes "$(nbsp)" '7 nett' '7net' >a.9m
    9m check --fix a.9m >/dev/null 2>&1 || true
    cp a.9m once
    run --separate-stderr 9m check --fix a.9m
    cmp a.9m once
    [ -z "$stderr" ]
}

@test "a byte order mark and CR LF stay as they are" {
    { printf '\357\273\277'; notes "$(nbsp)" | sed 's/$/\r/'; } >a.9m
    9m check --fix a.9m >/dev/null 2>&1 || true
    { printf '\357\273\277'; notes '7 net' | sed 's/$/\r/'; } | cmp - a.9m
}

@test "--fix --diff writes nothing, and patch makes of it what --fix writes" {
    notes "$(nbsp)" '7 nett' >a.9m
    cp a.9m before
    9m check --fix --diff a.9m >a.diff 2>said || true
    cmp a.9m before
    [ ! -s said ]
    sed -n '/^---/,/^a.9m/p' a.diff | grep -qF '+7 net'
    cp a.9m patched
    sed '/^a\.9m:/,$d' a.diff | patch -s patched
    9m check --fix a.9m >/dev/null 2>&1 || true
    cmp a.9m patched
}

@test "--fix --diff - shows what would change in standard input" {
    run 9m check --fix --diff - < <(notes "$(nbsp)")
    [ "$status" = 0 ]
    holds "$output" '+7 net'
}

@test "no mend brings an error that was not there" {
    notes "$(printf '7\302\240ace')" '7ace' '7 aec' 'H7 ACE' '4:0' '7 ace,' '7  m4/3  td  ace' 'H 7 ace' \
        '7 ace l' '7 topspin ace d 5' '7 ace d5by4' "$(printf '7 ace\342\200\213')" >a.9m
    count() { jq -r '.messages[] | select(.severity == "error") | .code' | sort | uniq -c; }
    9m check --as json a.9m | count >before
    9m check --fix --as json a.9m 2>said | count >after
    grep -q ' mends\? made' said
    while read -r n code; do
        was=$(awk -v code="$code" '$2 == code { print $1 }' before)
        [ "${was:-0}" -ge "$n" ] || { echo "$code: ${was:-0} before, $n after"; return 1; }
    done <after
}

@test "a mended line may show what else was wrong in it" {
    notes '7 ace' "$(printf 'G4\302\240net')" >a.9m
    run --separate-stderr 9m check --fix a.9m
    [ "$status" = 1 ]
    holds "$stderr" '1 mend made'
    holds "$output" 'G serves here, but H won the rally before'
    same "$(cat a.9m)" "$(notes '7 ace' 'G4 net')"
}

@test "mends of a squad file are not made in the match that takes it" {
    printf 'notation 1\nteam H "Herons" women\nplayer\302\240H7 "Mira Havelin"\n' >s.9m
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'squad "s.9m"' 'team G "Foxes" women' 'set 1 H' '7 net' >a.9m
    cp s.9m s.before
    cp a.9m a.before
    9m check --fix a.9m >/dev/null 2>&1 || true
    cmp s.9m s.before
    cmp a.9m a.before
}
