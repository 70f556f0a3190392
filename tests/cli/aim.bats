#!/usr/bin/env bats
# Where to aim, from outside. What the figures rest on is tested in tests/unit.
load kit

squad() {
    printf '%s\n' 'notation 1' "$1" 'team H "Herons" women' 'player H7 "Mira" topspin v80' \
        'player H9 "Zofia"'
}

# 34 rallies with zone and winner, in two matches.
matches() {
    for i in 1 2; do
        {
            squad "match 2026-10-0$i"
            printf '%s\n' 'team G "Foxes" women' 'set 1 H'
            for _ in 1 2 3 4; do printf '%s\n' '7 in2 6 won' '7 in1 5 won' '7 ace 1' '7 in3 1 won'; done
            echo '7 in3 6 lost'
        } >"match$i.9m"
    done
}

# Sixty serves at practice with one aim, N times.
practice() { # N AIM
    squad 'practice 2026-10-06'
    echo "drill \"Corner\" $2"
    for _ in $(seq "$1"); do
        printf '%s\n' '7 in 6 x24' '7 in 5 x4' '7 in 1 x4' '7 net x12' '7 long x16'
    done
}

@test "advice from her own scatter" {
    matches
    practice 3 ad6 >practice.9m
    run --separate-stderr 9m aim --server 7 .
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    holds "$output" '7 Mira, topspin: 214 serves, 180 of them at practice; 180 aimed'
    holds "$output" 'she aims at       d6 (180)'
    holds "$output" 'From her own scatter:'
    holds "$output" 'as she aims now   of 100 serves'
    holds "$output" 'at 80 km/h, 6 rev/s of topspin (usual)'
}

# Serves into every corner of zone 6 alike: the advice is short of the last metre,
# and better in each case of the tape.
@test "JSON: the best aim is better than the last metre" {
    matches
    practice 3 ad6 >practice.9m
    9m aim --server 7 --as json . >out
    jq -e '.schema == 1 and .state == "advice" and .scatter_of == "own" and .incomplete == false and
        .serves == 214 and .practice == 180 and .aimed == 180 and .name == "Mira" and
        .type == "topspin" and .flight.usual == ["topspin_rev_s", "height_m", "contact_m"] and
        (.aims == [{"aim": "d6", "x_m": 4.5, "d_m": 8.5, "serves": 180}]) and
        ([.worth[] | .rallies] | add) == 34 and (.worth[5] | .zone == 6 and .won == 8 and .rallies == 10) and
        ([.advice, .nearer, .farther][] | .won_frac > .now_won_frac and .d_m < 8.5 and .in_frac > .now_in_frac) and
        .nearer.clear_m + 1 == .farther.clear_m' out
}

@test "the number of aimed serves decides whose scatter" {
    matches
    practice 1 ad6 >one.9m
    9m aim --server 7 --as json . | jq -e '.scatter_of == "anybody" and .aimed == 60 and
        (.advice | has("now_won_frac") | not)'
    9m aim --server 7 . >out
    holds "$(cat out)" 'General advice'
    lacks "$(cat out)" 'gain'
    practice 2 '' | sed 's/practice 2026-10-06/practice 2026-10-07/' >two.9m
    9m aim --server 7 --as json . | jq -e '.scatter_of == "own_hint" and .aimed == 60'
    9m aim --server 7 . >out
    holds "$(cat out)" 'under 100 aimed serves it is a hint'
}

@test "no aims: a picture of landings and no advice" {
    practice 1 '' >practice.9m
    run --separate-stderr 9m aim --server 7 practice.9m
    [ "$status" = 0 ]
    holds "$output" 'No advice without aims.'
    holds "$output" '60 serves. What she aimed at is in'
    lacks "$output" 'aim at'
    9m aim --server 7 --as json practice.9m | jq -e '.state == "no_aims" and .landing.sd_d_m > 0 and
        (has("advice") | not)'
}

@test "why there is no advice" {
    practice 1 ad6 >practice.9m
    holds "$(9m aim --server 7 practice.9m)" 'takes 30 rallies of matches'
    sed 's/ women//' practice.9m >no-net.9m
    holds "$(9m aim --server 7 no-net.9m)" 'without the height of the net'
    sed -i 's/^7 /9 /' practice.9m
    holds "$(9m aim --server 9 practice.9m)" 'without the type of her serve'
    sed -i 's/"Zofia"/"Zofia" float v40 h1.0 c-7.0/' practice.9m
    holds "$(9m aim --server 9 practice.9m 2>/dev/null)" 'no serve of hers gets over the net'
    sed -i 's/v40 h1.0 c-7.0/v100 h2.4/' practice.9m
    holds "$(9m aim --server 9 practice.9m)" 'all that clears the tape is long'
}

@test "types are not mixed" {
    practice 1 ad6 >practice.9m
    printf '%s\n' '7 float in 6 x30' >>practice.9m
    9m aim --server 7 --as json practice.9m | jq -e '.type == "topspin" and .serves == 60'
    9m aim --server 7 --type float --as json practice.9m | jq -e '.type == "float" and .serves == 30'
    run -2 --separate-stderr 9m aim --server 7 --type hybrid practice.9m
    same "$stderr" '9m: no hybrid serve of hers stands in these notes'
}

@test "who is meant" {
    practice 1 ad6 >practice.9m
    run -2 --separate-stderr 9m aim practice.9m
    holds "$stderr" 'whose serves? such as: --server 7'
    run -2 --separate-stderr 9m aim --server seven practice.9m
    run -2 --separate-stderr 9m aim --server 8 practice.9m
    same "$stderr" '9m: nobody of ours with shirt 8 served in these notes'
    sed 's/Mira/Ana/' practice.9m >other.9m
    run -2 --separate-stderr 9m aim --server 7 practice.9m other.9m
    same "$stderr" '9m: there is 7 Mira of Herons, 7 Ana of Herons; give the notes of one of them'
}

@test "no advice from notes with errors, unless asked for" {
    matches
    practice 3 ad6 >practice.9m
    echo '7 nett' >>practice.9m
    run -1 --separate-stderr 9m aim --server 7 .
    [ -z "$output" ]
    holds "$stderr" '"nett" is not an outcome'
    holds "$stderr" 'no advice from notes with errors'
    run -1 --separate-stderr 9m aim --partial-data --server 7 .
    holds "$output" 'INCOMPLETE'
    holds "$output" 'aim at'
    run -3 --separate-stderr 9m aim --server 7 missing.9m
    holds "$stderr" 'no advice from files that could not be read'
}
