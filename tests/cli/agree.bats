#!/usr/bin/env bats
# Two scorers of one match, from outside.
load kit

@test "serves of one only stand first" {
    notes '7 ace' '7 replay' '7 net' 'G3 net' >bench.9m
    notes '7 ace' '7 long' 'G3 net' >video.9m
    run --separate-stderr 9m agree bench.9m video.9m
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    same "$(head -n 4 <<<"$output")" "3 serves in both, 1 in one only.

Only in bench.9m (1):
  bench.9m:7: 7 replay"
    holds "$output" 'set 1, serve 2: outcome
  bench.9m:8: 7 net
  video.9m:7: 7 long'
    holds "$output" 'outcome         2/3'
}

@test "few serves give counts and no kappa" {
    good_notes >bench.9m
    9m agree --as json bench.9m bench.9m >out
    same "$(jq -c '.fields[] | select(.field == "outcome")' out)" \
        '{"field":"outcome","agreed":3,"both":3,"one":0}'
}

# Two scorers mark eight serves td each, six of them the same.
# 32 serves by hand: td in both 6, first only 2, second only 2, neither 22.
# po 28/32 = .875, pe (8*8 + 24*24)/32^2 = .625, kappa .25/.375 = .6667;
# AC1: mean share .25, chance 2 * .25 * .75 = .375, (.875 - .375)/.625 = .8.
@test "kappa and AC1 of a mark, worked by hand" {
    for who in 1 2; do
        head_of_match
        echo 'observe toss'
        for i in $(seq 32); do
            case $who,$i in
            ?,[1-6] | 1,[78] | 2,9 | 2,10) echo '7 td in3 won' ;;
            *) echo '7 in3 won' ;;
            esac
            [ "$i" != 20 ] || echo 'cancel H 20'
        done
    done | split -l 39 - record
    run --separate-stderr 9m agree --as json recordaa recordab
    [ "$status" = 0 ]
    same "$(jq -c '.fields[] | select(.field == "td") |
        [.agreed, .both, (.kappa * 1e4 | round), (.ac1 * 1e4 | round), .written]' <<<"$output")" \
        '[28,32,6667,8000,[8,8]]'
}

@test "a season's match against a changed copy" {
    sed -e '30,90s/ in2 / in1 /' -e '20,60s/ td / /' \
        "$ROOT/examples/season/2026-10-03-foxes.9m" >video.9m
    cp "$ROOT/examples/season/2026-10-03-foxes.9m" bench.9m
    cp "$ROOT/examples/season/herons.9m" .
    9m agree --as json bench.9m video.9m >out
    written=$(grep -c ' in2 ' <(sed -n 30,90p bench.9m))
    [ "$written" -gt 5 ]
    jq -e --argjson n "$written" '.in_one == [[],[]] and .incomplete == false and
        (.fields[] | select(.field == "outcome") | .kappa == 1 and .agreed == .both) and
        (.fields[] | select(.field == "pass") |
            .both - .agreed == $n and .kappa < 1 and .kappa_95[0] < .kappa) and
        (.fields[] | select(.field == "td") | .written[0] > .written[1] and .ac1 > .kappa) and
        ([.differences[] | select(.fields | index("pass"))] | length == $n)' out
    9m agree bench.9m video.9m >text
    grep -Eq '^pass +[0-9]+/[0-9]+  0\.[0-9]{2} \(.*\)  +0\.[0-9]{2} \(' text
    ! grep -q ' $' text
}

@test "notes with errors are not compared, or only when asked for" {
    good_notes >bench.9m
    notes '7 ace' '7 nett' 'G3 net' >video.9m
    run --separate-stderr 9m agree bench.9m video.9m
    [ "$status" = 1 ]
    [ -z "$output" ]
    holds "$stderr" 'video.9m:7:3: error: "nett" is not an outcome [E201]'
    holds "$stderr" 'Not compared.'
    run --separate-stderr 9m agree --partial-data bench.9m video.9m
    [ "$status" = 1 ]
    holds "$output" INCOMPLETE
}

@test "only two records of one match" {
    good_notes >bench.9m
    good_notes | sed 's/2026-10-03/2026-10-04/' >day.9m
    good_notes | sed 's/team G.*/team L "Larks"/; s/^G3/L3/' >teams.9m
    printf '%s\n' 'notation 1' 'practice 2026-10-03' 'team H "Herons"' '7 net' >practice.9m
    for file in day teams practice; do
        run --separate-stderr 9m agree bench.9m $file.9m
        [ "$status" = 1 ]
        [ -z "$output" ]
        holds "$stderr" "9m: bench.9m and $file.9m: "
        holds "$stderr" '; not compared'
    done
}

@test "usage and files that can't be read" {
    good_notes >bench.9m
    run --separate-stderr 9m agree bench.9m
    [ "$status" = 2 ]
    run --separate-stderr 9m agree - -
    [ "$status" = 2 ]
    run --separate-stderr 9m agree bench.9m missing.9m
    [ "$status" = 3 ]
    holds "$stderr" missing.9m
    run --separate-stderr 9m agree bench.9m - <bench.9m
    [ "$status" = 0 ]
    run 9m agree --help
    [ "$status" = 0 ]
    holds "$output" 'Usage: 9m agree'
}
