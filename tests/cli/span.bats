#!/usr/bin/env bats
# Files of some days, or of the last matches.
load kit

season() { cp "$ROOT"/examples/season/*.9m "$ROOT"/examples/season/*.drills .; }

# A short match of ours on a day, perhaps at a time, against somebody.
match_on() { # FILE WHEN AGAINST
    good_notes | sed -e "s/^match .*/match $2/" -e "s/Foxes/$3/" >"$1"
}

practice_on() { # FILE DAY
    printf '%s\n' 'notation 1' "practice $2" 'team H "Herons" women' 'ring 1.0' 'toss 7 3/5' >"$1"
}

@test "the last matches are counted by their days and times, whatever the names of the files" {
    match_on a.9m '2026-11-07 20:00' Foxes
    match_on b.9m '2026-11-07 16:00' Larks
    match_on c.9m '2026-10-31' Swifts
    practice_on d.9m 2026-11-03
    9m season --last 1 -o - . | pdftotext - - | grep -q '1 match, 2026-11-07'
    9m season --last 2 -o - . | pdftotext - - >two
    grep -q '2 matches, 2026-11-07' two
    9m season --last 3 -o - . | pdftotext - - | grep -q '3 matches, 2026-10-31 to 2026-11-07'
}

@test "a file of another day may have errors" {
    season
    sed 's/^match 2026-10-03/match 2025-10-03/; s/ net/ nett/' 2026-10-03-foxes.9m >old.9m
    run --separate-stderr 9m season .
    [ "$status" = 1 ]
    9m season --from 2026-01-01 -o from.pdf .
    9m season -o chosen.pdf 2026-*.9m
    cmp <(pdftotext from.pdf - | grep -v ' · notation 1') \
        <(pdftotext chosen.pdf - | grep -v ' · notation 1')
}

@test "a head that can't be read is of no day, and is told" {
    season
    sed 's/^match 2026-10-03/match 2026-13-03/' 2026-10-03-foxes.9m >broken.9m
    run --separate-stderr 9m season --from 2026-10-10 .
    [ "$status" = 1 ]
    holds "$stderr" 'broken.9m:3:7: error'
}

@test "days that are none, standard input, a pipe" {
    season
    for wrong in '--from 2026-02-30' '--to 2026-1-1' '--last 0' '--from 2026-10-02 --to 2026-10-01'; do
        # shellcheck disable=SC2086
        run --separate-stderr 9m season $wrong .
        [ "$status" = 2 ]
    done
    run --separate-stderr 9m season --last 2 - <2026-10-03-foxes.9m
    [ "$status" = 2 ]
    holds "$stderr" 'standard input is none'
    mkfifo pipe
    run --separate-stderr 9m season --last 2 pipe
    [ "$status" = 3 ]
    holds "$stderr" 'pipe: no ordinary file'
}

# What a command says with days is what it says of the files of those days.
as_by_hand() { # COMMAND...
    "$@" --from 2026-10-05 --to 2026-10-14 . >days
    "$@" ./2026-10-06-practice.9m ./2026-10-10-larks.9m ./2026-10-13-practice.9m >hand
    cmp days hand
    "$@" --last 2 . >last
    "$@" ./2026-10-10-larks.9m ./2026-10-13-practice.9m ./2026-10-17-swifts.9m >hand
    cmp last hand
    ! cmp -s days last
}

@test "the same as the files chosen by hand: tally, export, advise, aim" {
    season
    as_by_hand 9m tally --as json --by all
    as_by_hand 9m tally --as json --by all --threads 2
    as_by_hand 9m tally --partial
    as_by_hand 9m export
    as_by_hand 9m advise --as json
    as_by_hand 9m aim --server 9 --as json
}

@test "the last matches of a team that was named, on whichever side" {
    match_on a.9m 2026-10-03 Foxes
    match_on b.9m 2026-10-10 Foxes
    match_on c.9m 2026-10-17 Larks
    9m tally --as json --team foxes --last 1 . | jq -e '.matches == 1 and .teams[0].team == "Foxes"'
    9m tally --as json --team foxes --last 1 . >last.json
    9m tally --as json --team foxes b.9m | cmp last.json -
    9m tally --as json --last 1 . >last.json
    9m tally --as json c.9m | cmp last.json -
}

@test "pages: a team to scout, the bench card" {
    season
    9m scout foxes --last 1 -o last.pdf .
    9m scout foxes -o hand.pdf 2026-10-03-foxes.9m
    cmp last.pdf hand.pdf
    mkdir one
    cp 2026-10-17-swifts.9m herons.9m one
    9m sheet --bench . --last 1 -o - | pdftotext - last
    9m sheet --bench one -o - | pdftotext - hand
    cmp last hand
    run --separate-stderr 9m sheet --last 1
    [ "$status" = 2 ]
    run --separate-stderr 9m tally --merge --last 1 x.json
    [ "$status" = 2 ]
}
