#!/usr/bin/env bats
# Notes to start from.
load kit

squad() {
    printf '%s\n' 'notation 1' 'team H "Herons" women' 'player H7 "Mira Havelin" topspin' \
        'player H9 "Zofia Brązel"' 'player H4 "Ana Lindbro"' >herons.9m
}

@test "the head of a match, which checks as it stands" {
    squad
    run --separate-stderr 9m new match --squad herons.9m --against Hawks --date 2026-10-03
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
    grep -qx 'match 2026-10-03' 2026-10-03-match.9m
    grep -qx 'squad "herons.9m"' 2026-10-03-match.9m
    # H is ours already
    grep -qx 'team B "Hawks" women' 2026-10-03-match.9m
    9m check 2026-10-03-match.9m
    9m new match -o other.9m
    9m check other.9m
    grep -qx "match $(date +%F)" other.9m
}

@test "a practice has each focus under its drill, with blanks, and checks as it stands" {
    squad
    printf '%s\n' 'notation 1' 'practice 2026-10-06' 'squad "herons.9m"' \
        'focus 7 td "Ring toss" 14/20' 'focus 9 net "Our own"' \
        'drill "Ring toss"' 'ring 1.0' 'toss 7 6/10' 'toss 7 7/10' >first.9m
    run --separate-stderr 9m new practice --squad herons.9m --date 2026-10-13
    [ "$status" = 0 ]
    9m check 2026-10-13-practice.9m
    grep -qx '# 7 Mira Havelin: td, goal 14/20, so far 13/20 since 2026-10-06' 2026-10-13-practice.9m
    grep -qx '# toss 7 _/20' 2026-10-13-practice.9m
    grep -qx 'drill "Our own"' 2026-10-13-practice.9m
    grep -qx '# tries 9 _/10' 2026-10-13-practice.9m
    grep -qx '# Without a focus: 4 Ana Lindbro' 2026-10-13-practice.9m
    # filled in, it is legal
    sed 's/^# toss 7 _/toss 7 8/; s/^# tries 9 _/tries 9 5/' 2026-10-13-practice.9m >filled.9m
    9m check filled.9m
}

@test "what is there already stays, and bad wishes are told" {
    squad
    echo mine >2026-10-03-match.9m
    run --separate-stderr 9m new match --squad herons.9m --date 2026-10-03
    [ "$status" = 3 ]
    holds "$stderr" 'is there already'
    [ "$(cat 2026-10-03-match.9m)" = mine ]
    run --separate-stderr 9m new match --date 2026-02-30
    [ "$status" = 2 ]
    holds "$stderr" 'is no date'
    run --separate-stderr 9m new season
    [ "$status" = 2 ]
    run --separate-stderr 9m new match --against 'a "b"'
    [ "$status" = 2 ]
    run --separate-stderr 9m new practice --squad 2026-10-03-match.9m
    [ "$status" = 3 ]
    mkdir below
    run --separate-stderr 9m new match --squad herons.9m -o below/new.9m
    [ "$status" = 2 ]
    [ ! -e below/new.9m ]
    9m new match --squad herons.9m -o new.9m
    9m check new.9m
}
