#!/usr/bin/env bats
# Rates by hand, from outside. The figures themselves are those of
# tests/unit/test_rate.c and test_twoway.c.
load kit

@test "a rate and its interval" {
    run --separate-stderr 9m rate 81/263
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    same "$output" "81/263        31%  26 to 37

Each rate in this interval goes well with the counts."
}

@test "half a percent goes up, here as in a tally" {
    printf '%s\n' 'notation 1' 'practice 2026-10-06' 'team H "Herons"' '7 in x39' '7 net' >p.9m
    holds "$(9m rate 1/40)" '1/40           3%  0 to 13'
    holds "$(9m tally p.9m)" '1/40   3% 0-13'
}

# R. G. Newcombe, Stat. Med. 17 (1998) 873-890, table II: .0524 to .3339.
@test "two rates, their difference and p" {
    run --separate-stderr 9m rate 56/70 48/80
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    same "$output" "56/70         80%  69 to 88
48/80         60%  49 to 70
difference   +20   +5 to +33, p 0.010

The first is higher: chance alone seldom makes so large a difference. The counts don't say why."
    holds "$(9m rate 48/80 56/70)" 'The second is higher'
    holds "$(9m rate 30/100 25/100)" "The difference may go either way: these counts don't tell the two apart."
    holds "$(9m rate 60/100 46/100)" 'at the edge of what chance makes'
    holds "$(9m rate 90/100 10/100)" 'p below 0.001'
}

# Under 10 counts, under 30 no word of comparison, whatever the counts are.
# 15 against 25 % takes 250 serves on a side (tests/unit/test_twoway.c).
@test "how many serves would tell" {
    holds "$(9m rate 15/60 9/60)" 'If these were the true rates, 4 of 5 comparisons would show it at 250 serves on a side.'
    same "$(9m rate --as json 9/60 15/60 | jq .difference.serves_to_tell_n)" 250
    holds "$(9m rate 20/20 0/20)" 'show it at 30 serves on a side'
    for two in '56/70 48/80' '20/80 10/40' '9/9 0/20' '300/1000 301/1000'; do
        # shellcheck disable=SC2086
        lacks "$(9m rate $two)" 'If these'
    done
}

@test "small counts say less" {
    same "$(9m rate 3/9)" "3/9

Under 10 serves: more than the counts can't be said."
    same "$(9m rate 0/9 31/31)" "0/9
31/31        100%  89 to 100

Under 10 serves on a side: more than the counts can't be said."
    holds "$(9m rate 3/10)" 'Under 30 serves: too few'
    for two in '29/29 0/500' '0/500 29/29'; do
        # shellcheck disable=SC2086
        holds "$(9m rate $two)" 'Under 30 serves on a side: too few to say which is higher.'
        # shellcheck disable=SC2086
        lacks "$(9m rate $two)" 'The first'
    done
    holds "$(9m rate 30/30 0/500)" 'The first is higher'
    lacks "$(9m rate --as json 9/9)" frac
    lacks "$(9m rate --as json 9/9 30/30)" difference
}

@test "nobody and everybody" {
    holds "$(9m rate 0/20)" '0/20           0%  0 to 16'
    holds "$(9m rate 5/5 40/40)" '40/40        100%  91 to 100'
    run --separate-stderr 9m rate 0/40 0/50
    holds "$output" 'difference     0   -7 to +9'
    lacks "$output" ', p '
    same "$(9m rate --as json 0/40 0/50 | jq '.difference | has("mid_p")')" false
}

@test "the same as data" {
    9m rate --as json 7/34 1/34 >out
    same "$(jq -c '[.rates[] | [.x, .n]]' out)" '[[7,34],[1,34]]'
    same "$(jq -c '.difference.frac_95 | map(. * 1000000 | round)' out)" '[18921,340369]'
    same "$(jq -c '.rates[0].frac_95[0] < .rates[0].frac' out)" true
    same "$(jq -r .says out)" "$(9m rate 7/34 1/34 | sed -n 5p)"
}

@test "what is no rate is told" {
    says() { # MESSAGE RATE...
        run --separate-stderr 9m rate "${@:2}"
        [ "$status" = 2 ]
        [ -z "$output" ]
        holds "$stderr" "$1"
    }
    for given in 8 8/ /31 8.5/31 8of31 8/31x '' ' 8/31' 8//31 +8/31; do
        says "\"$given\" is no rate; write 8/31 for 8 of 31" "$given"
        says "\"$given\" is no rate; write 8/31 for 8 of 31" 3/29 "$given"
    done
    says 'a rate is a part of all, such as 8/31' 31/8
    says 'of no serve nothing can be said' 0/0
    says 'counts go up to 1000000' 3/99999999999999999999
    says 'counts go up to 1000000' 99999999999999999999/3
    says '"31" is too much' 8 of 31
    says 'rate needs a rate, such as 8/31'
    9m rate 999999/1000000
}

# Our own computation, two programs (tests/unit/test_trend.c has the published ones): of
# these twelve 26/142, chi-square 5.4186, one degree of freedom.
@test "the trend of a row of rates" {
    season='3/9 4/14 3/11 1/6 4/17 2/12 2/8 2/15 1/10 2/13 1/16 1/11'
    # shellcheck disable=SC2086
    same "$(9m rate --trend $season | tail -n 3)" "line          33% to 9%

Under 150 serves in all: too few to call that a trend."
    # shellcheck disable=SC2086
    [ "$(9m rate --trend --as json $season 2/20 | jq '.trend.p < 0.02')" = true ]
    holds "$(9m rate --trend 6/26 7/24 4/25 5/27 3/26 2/28)" 'p 0.036

The share falls'
    holds "$(9m rate --trend 2/28 3/26 5/27 4/25 7/24 6/26)" 'The share rises'
    holds "$(9m rate --trend 5/30 5/30 5/30 5/30 5/30 5/30)" 'no trend'
    holds "$(9m rate --trend 0/30 0/30 0/30 0/30 0/30 0/30)" 'All are alike'
    same "$(9m rate --trend 3/20 2/20 | tail -n 1)" 'A line needs 6 matches and 60 serves.'
    same "$(9m rate --trend --as json 3/20 2/20 | jq .trend)" null
}
