#!/usr/bin/env bats
# The staff's pages of a match report, from outside.
load kit

words() { pdftotext -layout "$1" -; }

season() { cp -r "$ROOT/examples/season" .; }

@test "notes and serves marked ? stand on the staff's page, with video times" {
    season
    9m report -o foxes.pdf season/2026-10-03-foxes.9m
    words foxes.pdf >all
    grep -q 'ours found their 12 twice, keep at her' all
    grep -Eq '53 +1 · 12–17 +18:20 +G12 in3 by7 \?' all
    [ "$(grep -c 'For the staff' all)" -ge 2 ]
}

@test "--no-names: no notes, no page for the staff" {
    season
    9m report --no-names -o foxes.pdf season/2026-10-03-foxes.9m
    lacks "$(words foxes.pdf)" 'For the staff'
    lacks "$(words foxes.pdf)" 'keep at her'
    run --separate-stderr 9m report --no-names --season season season/2026-10-03-foxes.9m
    [ "$status" = 2 ]
    holds "$stderr" '--season'
}

@test "--season: the counts of 9m advise, and practice" {
    season
    9m report --season season -o swifts.pdf season/2026-10-17-swifts.9m
    words swifts.pdf >all
    grep -q 'from 3 matches' all
    9m advise --as json season >advice.json
    for shirt in 7 9 12; do
        counts=$(jq -r ".teams[0].servers[] | select(.shirt == $shirt) | .missed |
            \"\(.n) serves, missed \(.x)\"" advice.json)
        grep -q "$counts" all
    done
    grep -q 'focus since 2026-10-06: toss too low; in matches 4/13 before, 5/32 since' all
    [ "$(9m tally --kind practice --as json season |
        jq -r '.teams[0].server[] | select(.row == 7) | "\(.errors)/\(.serves)"')" = 5/23 ]
    grep -Eq 'Mira Havelin +6/46 +5/23' all
}

@test "--season: only what was played up to the match" {
    season
    9m report --season season -o foxes.pdf season/2026-10-03-foxes.9m
    words foxes.pdf | grep -q 'from 1 match$'
    lacks "$(words foxes.pdf)" 'focus since'
}

@test "--season with errors: nothing is written, or with --partial-data it goes on" {
    season
    9m report -o swifts.pdf season/2026-10-17-swifts.9m
    cp swifts.pdf before.pdf
    echo 'notation 1' >season/bad.9m
    echo 'nonsense' >>season/bad.9m
    run --separate-stderr 9m report --season season -o swifts.pdf season/2026-10-17-swifts.9m
    [ "$status" = 1 ]
    holds "$stderr" 'bad.9m'
    holds "$stderr" 'not written'
    cmp swifts.pdf before.pdf
    run --separate-stderr 9m report --partial-data --season season -o swifts.pdf \
        season/2026-10-17-swifts.9m
    [ "$status" = 1 ]
    words swifts.pdf | grep -q 'from 3 matches'
    words swifts.pdf | grep -q INCOMPLETE
    run --separate-stderr 9m report --season nowhere -o swifts.pdf season/2026-10-17-swifts.9m
    [ "$status" = 3 ]
}

@test "--season without the team is told" {
    season
    mkdir other
    good_notes | sed 's/Herons/Owls/' >other/owls.9m
    run --separate-stderr 9m report --season other -o foxes.pdf season/2026-10-03-foxes.9m
    [ "$status" = 1 ]
    holds "$stderr" 'Harbour Herons'
    [ ! -e foxes.pdf ]
}

@test "a note that no font can set is told with its line" {
    notes '7 net' 'note "🏐"' >harbour.9m
    run --separate-stderr 9m report harbour.9m
    [ "$status" = 3 ]
    holds "$stderr" 'harbour.9m:7'
    [ ! -e harbour.pdf ]
    9m report --no-names harbour.9m
}
