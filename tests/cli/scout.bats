#!/usr/bin/env bats
# A page on a team's receivers.
load kit

# Three files: the Foxes stand second, second, and first with another letter.
season() {
    mkdir season
    { head_of_match; printf '%s\n' 'plan by4' '7 in1 5 by4 won' '. in3 6 by9' 'G3 net'; } >season/a.9m
    { head_of_match; printf '%s\n' '7 ace d1 won' '. net'; } | sed 's/10-03/10-10/' >season/b.9m
    printf '%s\n' 'notation 1' 'match 2026-10-17' 'team X "Foxes" women' 'team Y "Owls"' \
        'set 1 Y' 'Y8 in2 5-6 by4 won' >season/c.9m
}

@test "one page, all fonts in it, the same bytes twice, on the paper asked for" {
    season
    run --separate-stderr 9m scout foxes season
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
    qpdf --check scout-foxes.pdf
    pdfinfo scout-foxes.pdf | grep -Eq '^Pages: +1$'
    [ -z "$(pdffonts scout-foxes.pdf | awk 'NR > 2 && $(NF-4) != "yes"')" ]
    9m scout foxes season -o - | cmp scout-foxes.pdf -
    9m scout foxes season --paper letter -o letter.pdf
    pdfinfo letter.pdf | grep -q letter
}

@test "a team is known by its name, whatever its letter and place" {
    season
    9m scout foxes season
    pdftotext -layout scout-foxes.pdf - >words
    grep -q '3 matches · 4 serves that reached them' words
    grep -Eq '^ *4 +2 +0 +0 +1 +1 +0 +1/2 ' words
    grep -q '2 teams on Foxes · 3 matches, 2026-10-03 to 2026-10-17' words
    grep -Eq 'set 1 +plan by4 +2 +2 +1/2 +1/1 +0/1' words
    9m scout owls season 2>err || true
    grep -q 'no serve that reached Owls is written down' err
}

@test "no name of a person stands on the page" {
    9m scout foxes "$ROOT/examples/season" -o s.pdf
    words=$(pdftotext s.pdf -)
    for name in Mira Havelin Zofia Petra; do
        lacks "$words" "$name"
    done
    9m scout foxes "$ROOT/examples/season" --lang de -o de.pdf
    pdftotext de.pdf - | grep -q '03.10.2026'
}

@test "who is meant is asked where it can't be told" {
    season
    run --separate-stderr 9m scout foxs season
    [ "$status" = 2 ]
    [ "$stderr" = '9m: no team "foxs"; did you mean Foxes?' ]
    run --separate-stderr 9m scout lions season
    [ "$stderr" = '9m: no team "lions"; there are Herons, Foxes, Owls' ]
    sed -i 's/"Owls"/"Grey Foxes"/; s/"Foxes"/"Red Foxes"/' season/*.9m
    run --separate-stderr 9m scout foxes season
    [ "$status" = 2 ]
    [ "$stderr" = '9m: "foxes" stands in the names of 2 teams: Red Foxes, Grey Foxes; write more of it' ]
    run --separate-stderr 9m scout foxes
    [ "$status" = 2 ]
    [ ! -e scout-foxes.pdf ]
}

@test "an old page stays on errors; --partial-data says what it lacks" {
    season
    echo '7 nett' >>season/b.9m
    echo old >scout-foxes.pdf
    run --separate-stderr 9m scout foxes season
    [ "$status" = 1 ]
    holds "$stderr" E201
    holds "$stderr" 'no page from notes with errors'
    [ "$(cat scout-foxes.pdf)" = old ]
    run --separate-stderr 9m scout --partial-data foxes season
    [ "$status" = 1 ]
    pdftotext scout-foxes.pdf - | grep -q '^INCOMPLETE'
    echo old >scout-foxes.pdf
    run --separate-stderr 9m scout foxes season no-such-folder
    [ "$status" = 3 ]
    [ "$(cat scout-foxes.pdf)" = old ]
}
