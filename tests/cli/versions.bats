#!/usr/bin/env bats
# Files of another version: one clear message, nothing read, nothing written.
load kit

# Notes in words that this version does not have.
of_version() { # VERSION
    printf '%s\n' "notation $1" '' 'match in spring' 'whirl 7' '  7   ace' 'G3 - net – far'
}

@test "notes of another notation: one message, and no line is read" {
    for version in 2 12 1.1 1.0 0 v2 99999; do
        of_version "$version" >a.9m
        run --separate-stderr 9m check a.9m
        [ "$status" = 1 ]
        holds "$output" "a.9m:1:10: error: notation $version is not known here, this program reads 1 [E131]"
        holds "$output" 'a newer notation is read by a newer 9m'
        holds "$output" 'a.9m: 1 error; 0 lines read.'
        [ "$(9m check --as short a.9m | wc -l)" = 1 ]
    done
}

@test "a number in front of which stand remarks and blank lines" {
    { printf '# a remark\n\n  \n'; of_version 2; } >a.9m
    run 9m check --as short a.9m
    same "$output" 'a.9m:4:10: error: notation 2 is not known here, this program reads 1 [E131]'
}

@test "a slip in the number is told, and the notes are read as version 1" {
    for line in 'notation' 'notation x' 'notation 01' 'notation 1 2' 'notation 1a'; do
        { echo "$line"; good_notes | tail -n +2; } >a.9m
        run 9m check --as short a.9m
        [ "$status" = 1 ]
        [ "${#lines[@]}" = 1 ]
        holds "$output" a.9m:1:
        lacks "$output" E131
    done
    good_notes | tail -n +2 >a.9m
    run 9m check --as short a.9m
    same "$output" 'a.9m:1:1: error: the first statement must be: notation 1 [E130]'
}

@test "no command changes notes of another notation or makes anything of them" {
    of_version 2 >a.9m
    cp a.9m before
    for command in fmt 'check --fix' report card tally export advise season; do
        # shellcheck disable=SC2086
        run 9m $command a.9m
        [ "$status" = 1 ] || { echo "$command: $status"; return 1; }
        holds "$output" E131
        cmp a.9m before
        same "$(ls -A)" "$(printf '%s\n' a.9m before)"
    done
    run 9m fmt a.9m
    holds "$output" '9m: a.9m: left as it was'
    same "$(9m fmt - <before 2>/dev/null || true)" "$(cat before)"
}

@test "a squad file of another notation is told once" {
    of_version 2 >squad.9m
    { good_notes | head -n 2; echo 'squad "squad.9m"'; good_notes | tail -n +3; } >a.9m
    run 9m check --as short a.9m
    [ "$status" = 1 ]
    same "$output" 'squad.9m:1:10: error: notation 2 is not known here, this program reads 1 [E131]'
}

@test "counts of a newer program are not added, and the message says what to do" {
    good_notes >a.9m
    9m tally --partial -o parts.json a.9m
    sed 's/"schema": 2/"schema": 3/; s/"key"/"lock"/' parts.json >newer.json
    run --separate-stderr 9m tally --merge parts.json newer.json
    [ "$status" = 3 ]
    [ -z "$output" ]
    holds "$stderr" '9m: newer.json: counts of form 3, from a newer 9m; this one adds form 2.'
}
