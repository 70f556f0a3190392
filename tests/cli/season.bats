#!/usr/bin/env bats
# The report of a season.
load kit

season() { cp "$ROOT"/examples/season/*.9m "$ROOT"/examples/season/*.drills .; }

@test "a season for the staff, that readers take, with all fonts in it" {
    run --separate-stderr 9m season "$ROOT/examples/season"
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
    qpdf --check season.pdf
    [ -z "$(pdffonts season.pdf | awk 'NR > 2 && $(NF-4) != "yes"')" ]
    pdftotext -layout season.pdf words
    grep -q 'for the staff' words
    grep -Eq '^ *team +41/288 +20 +16 +4 +1' words
    grep -Eq '1 +2026-10-03 +Granite Foxes +93 +26 +19 +31/93' words
    grep -q 'goes to a medical professional' words
}

@test "the same bytes every time, on the paper and in the language that were asked for" {
    9m season "$ROOT/examples/season" -o one.pdf
    9m season -o - "$ROOT/examples/season" | cmp one.pdf -
    9m season --paper letter --lang de -o letter.pdf "$ROOT/examples/season"
    pdfinfo letter.pdf | grep -q letter
    pdftotext letter.pdf - | grep -q 'Seite 1 von'
    lacks "$(pdfinfo one.pdf)" CreationDate
}

@test "shirts only" {
    9m season --no-names -o shirts.pdf "$ROOT/examples/season"
    pdftotext shirts.pdf words
    for name in Mira Havelin Zofia Ana Dourado; do
        ! grep -q "$name" words
    done
}

@test "from a day, to a day, the last matches" {
    season
    9m season --from 2026-10-10 -o from.pdf .
    pdftotext from.pdf - | grep -q '2 matches, 2026-10-10 to 2026-10-17'
    9m season --to 2026-10-10 -o to.pdf .
    pdftotext to.pdf - | grep -q '2 matches, 2026-10-03 to 2026-10-10'
    9m season --last 1 -o last.pdf .
    pdftotext last.pdf - | grep -q '1 match, 2026-10-17'
    9m season --last 9 --split 2026-10-10 -o all.pdf .
    pdftotext all.pdf - >words
    grep -q '3 matches' words
    grep -q 'Misses before 2026-10-10 and from then on' words
    run --separate-stderr 9m season --from 2027-01-01 -o none.pdf .
    [ "$status" = 1 ]
    holds "$stderr" 'no serve of ours in a match'
    [ ! -e none.pdf ]
    for wrong in '--from soon' '--from 2026-13-01' '--last 0' '--last x' \
        '--from 2026-10-10 --to 2026-10-01'; do
        # shellcheck disable=SC2086
        run --separate-stderr 9m season $wrong .
        [ "$status" = 2 ]
    done
}

@test "one match twice, and an order that nobody knows: a warning with both files" {
    season
    cp 2026-10-03-foxes.9m again.9m
    run --separate-stderr 9m season .
    [ "$status" = 0 ]
    holds "$stderr" 'again.9m:3:7: warning: this match seems to be in two files [W705]'
    holds "$stderr" '2026-10-03-foxes.9m:3'
    sed 's/Granite Foxes/Pine Martens/' 2026-10-03-foxes.9m >again.9m
    run --separate-stderr 9m season .
    holds "$stderr" 'do not say which came first'
    sed -i 's/^match 2026-10-03 18:30/match 2026-10-03 10:00/' again.9m
    run --separate-stderr 9m season .
    [ -z "$stderr" ]
}

@test "several teams of ours: one must be named" {
    season
    sed 's/Harbour Herons/Harbour Terns/; /^squad/d; /^focus/d' 2026-10-10-larks.9m >terns.9m
    run --separate-stderr 9m season .
    [ "$status" = 1 ]
    holds "$stderr" 'name one with --team'
    holds "$stderr" 'Harbour Terns'
    [ ! -e season.pdf ]
    9m season --team 'harbour terns' .
    pdftotext season.pdf - | grep -q 'Harbour Terns · 1 match'
    run --separate-stderr 9m season --team Gulls .
    [ "$status" = 2 ]
    holds "$stderr" 'no team of ours is "Gulls"'
}

@test "notes with errors give no report, and an old one stays" {
    season
    echo old >season.pdf
    echo '7 nowhere' >>2026-10-17-swifts.9m
    run --separate-stderr 9m season .
    [ "$status" = 1 ]
    holds "$stderr" 'season report not written'
    [ "$(cat season.pdf)" = old ]
    run --separate-stderr 9m season --partial-data .
    [ "$status" = 1 ]
    pdftotext season.pdf - | grep -q 'INCOMPLETE: notes of the season are missing'
    echo old >season.pdf
    run --separate-stderr 9m season nowhere
    [ "$status" = 3 ]
    run --separate-stderr 9m season --font /dev/null "$ROOT/examples/season"
    [ "$status" = 3 ]
    [ "$(cat season.pdf)" = old ]
    run --separate-stderr 9m season
    [ "$status" = 2 ]
    mkdir squad
    cp herons.9m squad
    run --separate-stderr 9m season squad
    [ "$status" = 1 ]
    holds "$stderr" 'season report not written'
    [ "$(cat season.pdf)" = old ]
}

@test "the same report and the same messages, however many threads read" {
    season
    for day in 01 02 03 04 05 06 07 08 09 10 11 12; do
        sed "s/^match 2026-10-03/match 2026-09-$day/" 2026-10-03-foxes.9m >"2026-09-$day-foxes.9m"
        sed "s/^match 2026-10-10/match 2026-09-$day/; s/Harbour Herons/Harbour Terns/; /^squad/d; /^focus/d" \
            2026-10-10-larks.9m >"2026-09-$day-terns.9m"
    done
    9m season -j 1 --team 'harbour herons' -o one.pdf .
    pdftotext one.pdf - | grep -q 'Harbour Herons · 15 matches'
    for n in 2 3 7; do
        9m season -j $n --team 'harbour herons' -o many.pdf .
        cmp one.pdf many.pdf
    done
    run --separate-stderr 9m season -j 3 .
    [ "$status" = 1 ]
    holds "$stderr" 'name one with --team: Harbour Herons, Harbour Terns'
    echo '7 nowhere' >>2026-09-05-foxes.9m
    echo '7 nowhere' >>2026-09-09-terns.9m
    9m season -j 1 --partial-data --team 'harbour herons' -o one.pdf . 2>one || [ $? = 1 ]
    for n in 2 3 7; do
        9m season -j $n --partial-data --team 'harbour herons' -o many.pdf . 2>many || [ $? = 1 ]
        cmp one.pdf many.pdf
        cmp one many
    done
}
