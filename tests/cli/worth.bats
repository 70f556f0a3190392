#!/usr/bin/env bats
# Worth of points on serve, from outside. The figures of .45 and .40 are those
# of tests/unit/test_worth.c.
load kit

@test "chances of a set and a match" {
    run --separate-stderr 9m worth .45 .40
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    holds "$output" 'set to 25      64%   63% when we serve first, 65% when they do'
    holds "$output" 'match          74%   best of 5'
    holds "$output" 'A set has 45.3 rallies'
    holds "$output" '+2.7 sets and +4.0 matches in 100'
}

@test "a share may be written in each usual way" {
    for ours in 0.45 45% 9/20; do
        same "$(9m worth $ours 40%)" "$(9m worth .45 .40)"
    done
}

# 8 % missed and 35 % won of the rest is .322 of all: 1 - .322 / .45 = .2844.
@test "what a miss costs and how often a harder serve may miss" {
    9m worth --as json --missed 8% --harder .45 .322 .40 >out
    same "$(jq '.harder.pays_up_to_missed_frac * 10000 | round' out)" 2844
    same "$(jq '.one_missed_more_in_100.set_frac < 0' out)" true
    same "$(jq '[.as_good[].missed_frac] | max' out)" 0.3
    holds "$(9m worth --harder .45 .322 .40)" 'pays up to 5.7 misses in 20'
    holds "$(9m worth --harder .3 .322 .40)" 'does not pay even without a miss'
    same "$(9m worth --as json --harder .3 .322 .4 | jq .harder.pays_up_to_missed_frac)" null
}

# Equal sides: C(48, 24) / 2^48 of the sets come to 24-24, and a fair coin
# decides everything else.
@test "data hold the same figures" {
    9m worth --as json .5 1/2 >out
    same "$(jq -c '[.set.won_frac, .match.won_frac, .match.best_of]' out)" '[0.5,0.5,5]'
    same "$(jq '.set.level_frac * 1000000 | round' out)" 114567
    same "$(9m worth --as json --to 15 --best-of 1 .4 .3 | jq '.set.won_frac * 10000 | round')" 7279
}

# 24-24 between equals at .4: 1/(3 - .8) for the server.
@test "from a score on" {
    9m worth --as json --score 24-24 .4 .4 >out
    same "$(jq '.score.won_frac * 1000000 | round' out)" 454545
    same "$(9m worth --as json --score 24:24 --serving them .4 .4 |
        jq '.score.won_frac * 1000000 | round')" 545455
    holds "$(9m worth --score 20-20 .4 .4)" 'At 20-20, when we serve, we win 4'
}

@test "what can't be is told" {
    for wrong in ,45 45 .4.5 1/0 . 101% 3/2 nan 0x1; do
        run 9m worth "$wrong" .4
        [ "$status" = 2 ]
        same "$output" "9m: what we win of our serves is a share such as .45, 45% or 9/20, not \"$wrong\""
    done
    for score in 25-18 31-29; do
        run 9m worth --score $score .4 .4
        [ "$status" = 2 ]
        same "$output" "9m: at $score a set to 25 is over"
    done
    run 9m worth --missed 70% .4 .4
    [ "$status" = 2 ]
    run 9m worth --score 25 .4 .4
    [ "$status" = 2 ]
    run 9m worth --serving us .4 .4
    [ "$status" = 2 ]
    run 9m worth --to 100 .4 .4
    [ "$status" = 2 ]
    run 9m worth .4
    [ "$status" = 2 ]
    run 9m worth 0 0/20
    [ "$status" = 2 ]
    same "$output" '9m: if neither side ever wins a rally on its serve, no set ends'
}

@test "the ends of the range are no trouble" {
    9m worth --missed 100% 0 1 >out
    holds "$(cat out)" 'set to 25       0%'
    9m worth --missed 0 1 0 >out
    holds "$(cat out)" 'set to 25     100%'
}
