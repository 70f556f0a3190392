#!/usr/bin/env bats
# Advice, from outside. What may be said of so many serves stands in
# include/rate.h; costs by hand are in tests/unit/test_advice.c.
load kit

# Matches of 20 serves each, all by our 7, the serves as given: "12x7 td net".
# After each serve somebody looked away, so that she serves again.
season() { # DIRECTORY SERVES...
    local dir=$1 serves n i line file=0 inside=20
    shift
    mkdir -p "$dir"
    for serves in "$@"; do
        n=${serves%%x*} line=${serves#*x}
        for ((i = 0; i < n; i++)); do
            if ((inside == 20)); then
                file=$((file + 1)) inside=0
                printf '%s\n' 'notation 1' "match 2026-10-$(printf %02d $file)" \
                    'team H "Herons" women' 'team G "Foxes" women' 'player H7 "Mira Havelin"' \
                    'observe toss' 'set 1 H' >"$dir/$(printf %02d $file).9m"
            fi
            inside=$((inside + 1))
            printf '%s\n' "$line" "gap 0-$inside H" >>"$dir/$(printf %02d $file).9m"
        done
    done
}

server() { # JQ: of the only server
    jq -c ".teams[0].servers[0] | $1" out
}

@test "below thirty serves there are counts and no claim" {
    season s '9x7 td net' '20x7 in3 lost'
    run --separate-stderr 9m advise s
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    holds "$output" 'Under 30 serves: too few to say what stands out.'
    holds "$(tr '\n' ' ' <<<"$output")" \
        '7 Mira Havelin: 29 serves; broke their pass with 0 (0%, 0-12), missed 9 (31%, 17-49)'
    holds "$output" 'Under 30 serves: too few for a priority by counts.'
    lacks "$output" '1.'
    9m advise --as json s >out
    same "$(server .priorities)" '[]'
    same "$(jq -c '.teams[0] | [.sentences, .tests_n]' out)" '[[],0]'
}

# Every low toss into the net, no other serve: still no more than counts.
@test "below a season a mark is counted and not tested" {
    season s '10x7 td net' '139x7 in3 lost'
    9m advise --as json s >out
    same "$(server '.priorities[] | [.miss, .evidence, .mark, .with.x, .with.n, .without.x, .without.n]')" \
        '["net","counted","td",10,10,0,139]'
    same "$(server '.priorities[0] | has("p_adjusted") or has("times")')" false
    holds "$(9m advise s)" 'Not tested below 150 serves.'
}

# 12 of 30 against 9 of 130: (12/30)/(9/130) = 5.78.
@test "over a season it is tested, and goes with the miss" {
    season s '12x7 td net' '18x7 td in3 lost' '9x7 net' '121x7 in3 lost'
    9m advise --as json s >out
    same "$(server '.priorities[0] | [.evidence, .mark, .times * 100 | if type == "number" then round else . end]')" \
        '["tested","td",578]'
    same "$(server '.priorities[0].p_adjusted < .01')" true
    same "$(jq '.teams[0].tests_n' out)" 1
    holds "$(9m advise s | tr '\n' ' ' | tr -s ' ')" \
        'It goes with toss down: too low (td): 12 of 30 (40%, 25-58) with it, 9 of 130 (7%, 4-13) without, 5.8 times as often'
    holds "$(9m advise s)" 'Drill: '
}

@test "a mark that goes with nothing is said to" {
    season s '3x7 td net' '37x7 td in3 lost' '9x7 net' '111x7 in3 lost'
    9m advise --as json s >out
    same "$(server '.priorities[0] | [.evidence, has("mark")]')" '["none_found",false]'
    holds "$(9m advise s)" 'No mark that was tested goes with it.'
}

# What no count of serves can show is never said, however many there are.
@test "no word of a cause or a verdict" {
    season s '12x7 td net' '18x7 td in3 lost' '9x7 net' '121x7 in3 lost' '5x7 ace'
    for shown in "$(9m advise s)" "$(9m advise "$ROOT/examples/season")"; do
        lacks "${shown,,}" 'because'
        lacks "${shown,,}" ' cause'
        lacks "${shown,,}" 'improve'
        lacks "${shown,,}" 'worse'
        lacks "${shown,,}" 'better'
        lacks "${shown,,}" 'best'
        lacks "${shown,,}" 'weak'
        lacks "${shown,,}" ' form'
        lacks "${shown,,}" 'due to'
        lacks "${shown,,}" 'rating'
    done
}

@test "what misses are worth is said without blame" {
    cp -r "$ROOT/examples/season" .
    9m advise season | tr '\n' ' ' >out
    holds "$(cat out)" 'Missed into the net: 20 of 288 (7%, 5-10). Worth about 0.62 points a set, or 8.3 sets'
    lacks "$(cat out)" ' cost'
}

@test "no blank line comes first, and one between the parts" {
    cp -r "$ROOT/examples/season" .
    9m advise --server 7 season >out
    holds "$(head -n 1 out)" '7 Mira Havelin: 46 serves'
    9m advise season >out
    holds "$(head -n 1 out)" 'Harbour Herons: 3 matches'
    lacks "$(cat -s out | diff - out)" '>'
}

@test "the focus comes first, with its counts before and since" {
    cp -r "$ROOT/examples/season" .
    run --separate-stderr 9m advise --server 7 season
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    holds "$output" '1. Her focus since 2026-10-06: toss down: too low (td), drill "Ring toss"'
    holds "$(tr '\n' ' ' <<<"$output" | tr -s ' ')" 'td in matches: 4 of 13 (31%, 13-58) before'
    lacks "$output" '4 Inês'
    9m advise --server 7 --as json season >out
    same "$(server '.focus | [.treats, .since, .drill, .goal_hits, .goal_tries, .drilled.since.x]')" \
        '["td","2026-10-06","Ring toss",14,20,26]'
}

@test "whoever has a focus and no serve is not lost" {
    printf '%s\n' 'notation 1' 'practice 2026-10-06' 'team H "Herons"' \
        'focus 8 td "Ring toss" 14/20' 'drill "Ring toss"' 'toss 8 6/10' >p.9m
    run 9m advise p.9m
    [ "$status" = 0 ]
    holds "$output" '8: 0 serves'
    holds "$output" 'The drill: none before, 6 of 10 (60%, 31-83) since.'
}

@test "from her own aimed serves follows where to aim" {
    season s '40x7 float a8.5,8.5 long+0.5' '30x7 float a8.5,8.5 left+0.5' \
        '60x7 float a8.5,8.5 ace 7.5,7.9' '20x7 float a8.5,8.5 ace 8.4,8.8'
    9m advise --as json s >out
    same "$(server '[.priorities[] | select(.way == "aim") | .type, .aimed_n, .x_m < 8, .d_m < 8.5, .sure_gain_frac >= .01]')" \
        '["float",150,true,true,true]'
    holds "$(9m advise s)" 'Where she aims (float): at a'
    season t '40x7 float a8.5,8.5 long+0.5' '109x7 float a8.5,8.5 ace 7.5,7.9'
    lacks "$(9m advise t)" 'Where she aims'
}

# 15 of 40 against 12 of 40 won; 1 - .30/(15/30) = .40.
@test "a hard serve beside an easy one" {
    season s '15x7 topspin in1 won' '15x7 topspin in3 lost' '10x7 topspin net' \
        '12x7 float in1 won' '26x7 float in3 lost' '2x7 float long'
    9m advise --as json s >out
    same "$(server '.types | [.harder.type, .other.type, .pays_up_to_missed_frac * 100 | if type == "number" then round else . end]')" \
        '["topspin","float",40]'
    holds "$(9m advise s | tr '\n' ' ')" \
        'Not yet decidable which wins more. As it wins in play, the topspin pays up to 40 misses in 100.'
}

@test "drills of the club are taken" {
    season s '10x7 td net' '40x7 in3 lost'
    printf '%s\n' 'Drill: Lantern toss' 'Purpose: our own' 'Treats: td' 'Jumps: no' \
        'Set-up: A lantern.' 'Dose: Ten.' 'Score:' ' drill "Lantern toss"' ' tries 7 6/10' \
        'Goal: 14/20' 'Next: Two.' 'Care: None.' >s/club.drills
    run --separate-stderr 9m advise s
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    holds "$output" 'Drill: Lantern toss (our own). Goal: 14/20.'
}

@test "several teams of ours are kept apart" {
    season s '40x7 in3 lost'
    season t '30x7 net'
    sed -i 's/Herons/Larks/' t/*.9m
    holds "$(9m advise s t)" 'Larks: 2 matches, 30 serves'
    holds "$(9m advise --team herons s t)" 'Herons: 2 matches, 40 serves'
    lacks "$(9m advise --team herons s t)" 'Larks'
    run 9m advise --team Owls s t
    [ "$status" = 2 ]
    holds "$output" 'no team "Owls"; there are Herons, Larks'
}

@test "notes with errors give no advice" {
    notes '7 nett' >bad.9m
    good_notes >good.9m
    run --separate-stderr 9m advise bad.9m good.9m
    [ "$status" = 1 ]
    [ -z "$output" ]
    holds "$stderr" 'no advice from notes with errors; --partial-data goes on without them'
    run --separate-stderr 9m advise --partial-data bad.9m good.9m
    [ "$status" = 1 ]
    holds "$output" 'INCOMPLETE'
    run 9m advise nowhere.9m
    [ "$status" = 3 ]
    same "$(grep -c 'No such file' <<<"$output")" 1
    run 9m advise --server 100 good.9m
    [ "$status" = 2 ]
    run 9m advise --server 9 good.9m
    [ "$status" = 2 ]
    holds "$output" 'no serve of our 9 in a match of what was read, and no focus'
}

@test "control characters in a name stay out of the terminal" {
    good_notes | sed '4a player H7 "M\xc2\x9bx"' >n.9m
    run 9m advise --partial-data n.9m
    lacks "$output" $'\xc2\x9b'
}
