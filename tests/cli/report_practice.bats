#!/usr/bin/env bats
# The report of a practice from outside, alone and beside its season.
load kit

words() { pdftotext -layout "$1" -; }

season() { cp -r "$ROOT/examples/season" .; }

today=season/2026-10-13-practice.9m

@test "a practice beside the last time and since the focus" {
    season
    9m report --season season -o p.pdf "$today"
    words p.pdf >all
    grep -q 'Last time: 2026-10-06' all
    grep -Eq '7 +Mira Havelin +15/20 +11/20' all
    # 26/40: what 9m new practice says of her too
    grep -Eq '7 +Mira Havelin +toss too low +Ring toss +14/20 +15/20 +26/40' all
    9m new practice --squad season/herons.9m --date 2026-10-20 -o - | grep -q 'so far 26/40'
}

@test "a practice alone compares nothing" {
    season
    9m report -o p.pdf "$today"
    words p.pdf >all
    lacks "$(cat all)" 'Last time'
    lacks "$(cat all)" '11/20'
    grep -Eq '7 +Mira Havelin +15/20' all
}

@test "its own file is added to a season that lacks it, and is not counted twice" {
    season
    mkdir own
    mv "$today" own
    cp season/herons.* own
    9m report --season season -o apart.pdf own/2026-10-13-practice.9m
    mv own/2026-10-13-practice.9m season
    9m report --season season -o together.pdf "$today"
    cmp apart.pdf together.pdf
}

@test "later files of the season change nothing" {
    season
    9m report --season season -o with.pdf season/2026-10-06-practice.9m
    rm season/2026-10-1*
    9m report --season season -o without.pdf season/2026-10-06-practice.9m
    cmp with.pdf without.pdf
}

@test "a PDF that readers take, the same twice, on either paper, without names" {
    season
    9m report --season season -o p.pdf "$today"
    9m report --season season -o - "$today" | cmp p.pdf -
    qpdf --check p.pdf
    [ "$(pdffonts p.pdf | tail -n +3 | grep -vc ' yes yes ' || true)" = 0 ]
    9m report --season season --paper letter -o letter.pdf "$today"
    holds "$(pdfinfo letter.pdf)" '(letter)'
    9m report --season season --no-names -o shirts.pdf "$today"
    lacks "$(words shirts.pdf)" Mira
    lacks "$(words shirts.pdf)" Zofia
    words shirts.pdf | grep -q '26/40'
}

@test "a season with errors: nothing is written, or with --partial-data it says INCOMPLETE" {
    season
    9m report -o p.pdf "$today"
    cp p.pdf before.pdf
    printf '%s\n' 'notation 1' nonsense >season/bad.9m
    run --separate-stderr 9m report --season season -o p.pdf "$today"
    [ "$status" = 1 ]
    holds "$stderr" 'bad.9m'
    cmp p.pdf before.pdf
    run --separate-stderr 9m report --partial-data --season season -o p.pdf "$today"
    [ "$status" = 1 ]
    words p.pdf | grep -q INCOMPLETE
    words p.pdf | grep -q '26/40'
}

practice() { # LINE...
    printf '%s\n' 'notation 1' 'practice 2026-10-06' 'team H "Herons" women' \
        'team G "Foxes" women' "$@"
}

@test "no nerves, and the other team's serves are said" {
    practice 'focus 9 nn "Calm"' 'observe nerve' '9 nn long' '9 in' 'G3 net' >p.9m
    9m report p.9m
    pdftotext -layout -l 1 p.pdf all
    lacks "$(tr A-Z a-z <all)" nerve
    grep -q 'Foxes served 1 time as well: 0 into the court, 1 missed' all
}

@test "a practice in which nothing was counted gives no report" {
    practice 'focus 9 je "Wait for it"' 'drill "Wait for it"' >p.9m
    run --separate-stderr 9m report p.9m
    [ "$status" = 1 ]
    holds "$stderr" 'holds no serve'
    [ ! -e p.pdf ]
}

@test "a focus's drill that no font can set is told with its line" {
    practice 'focus 9 je "🏐"' '9 in' >p.9m
    run --separate-stderr 9m report p.9m
    [ "$status" = 3 ]
    holds "$stderr" 'p.9m:5'
}

# The last page, for the staff.
staff() { pdftotext -layout -f "$(pdfinfo "$1" | sed -n 's/^Pages: *//p')" "$1" -; }

@test "the staff's page: goals, since the focus, jump serves, what to look at again" {
    season
    9m report --season season -o p.pdf "$today"
    staff p.pdf >all
    grep -q '^For the staff' all
    grep -Eq '7 +Mira Havelin +Ring toss +15/20 +14/20 +reached +1/2' all
    grep -Eq '4 +Inês Dourado +Ring toss +6/10 +14/20 +fewer tries than it asks' all
    grep -Eq '9 +Zofia Brązel +Wait for it +8/10 +9/10 +serves without je' all
    grep -Eq 'hits of the drill, goal 14/20 +– +26/40' all
    grep -Eq '12 +Ana Lindbro +7 +30 +37' all
    grep -q '9 safe in2 6 by11 ?' all
    grep -q 'medical professional' all
    9m report --season season --no-names -o shirts.pdf "$today"
    lacks "$(words shirts.pdf)" 'For the staff'
    9m report --season season --lang pl -o pl.pdf "$today"
    staff pl.pdf | grep -q '^Dla sztabu'
}

@test "serves of a drill beside the last time" {
    season
    9m report --season season -o p.pdf "$today"
    words p.pdf >all
    grep -Eq '9 +Zofia Brązel +9/10 +7/10' all
    9m report -o alone.pdf "$today"
    lacks "$(words alone.pdf)" 'Last time'
}

@test "a club's own drill has its goal without a season too; one with a fault is told" {
    mkdir own
    printf '%s\n' 'notation 1' 'practice 2026-10-06' 'team H "Herons"' 'player H7 "Mira"' \
        'drill "Hoop"' 'toss 7 4/5' >own/p.9m
    printf '%s\n' 'Drill: Hoop' 'Treats: td' 'Jumps: no' 'Set-up: As shown.' 'Goal: 3/5' >own/h.drills
    9m report -o p.pdf own/p.9m
    staff p.pdf | grep -Eq '7 +Mira +Hoop +4/5 +3/5 +reached'
    sed -i 's/td/tz/' own/h.drills
    run --separate-stderr 9m report -o p.pdf own/p.9m
    [ "$status" = 1 ]
    holds "$stderr" 'h.drills:2'
}

@test "notes and nerves are for the staff alone" {
    practice 'drill "Last points"' 'observe nerve' '9 nn long 1:02' 'note "asked to stop"' '9 in' >p.9m
    9m report p.9m
    staff p.pdf >last
    grep -q 'nerves showed' last
    grep -q 'asked to stop' last
    pdftotext -l 1 p.pdf first
    lacks "$(cat first)" 'asked to stop'
    9m report --no-names p.9m
    lacks "$(words p.pdf)" 'asked to stop'
    lacks "$(tr A-Z a-z <first)" nerve
}
