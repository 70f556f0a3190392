#!/usr/bin/env bats
# The flight of a serve, from outside. The figures are those of the tables in
# tests/unit/test_window.c, test_toss.c and test_solve.c, where the sources stand.
load kit

# figure NAME [PLACES]: value, low and high of a figure in ./out, rounded.
figure() {
    jq -c --argjson n "${2:-2}" '.figures["'"$1"'"] |
        [.value, .low, .high] | map(. * pow(10; $n) | round / pow(10; $n))' out
}

@test "a serve: window, middle, passage, landing" {
    9m flight --as json --speed 108 --height 3.5 --contact 1 --spin 6 >out
    same "$(jq -r '[.window, .flies, .model, .given.net_m] | join(" ")' out)" \
        'open true default 2.43'
    same "$(figure window_net_deg | jq '.[0]')" -2.28
    same "$(figure window_out_deg | jq '.[0]')" -0.9
    same "$(figure window_width_deg | jq '.[0]')" 1.39
    same "$(figure over_tape_m | jq '.[0]')" 0.1
    same "$(figure landing_m_per_deg | jq '.[0]')" 0.73
    same "$(figure in_1deg_frac | jq '.[0]')" 0.51
    same "$(figure in_2deg_frac | jq '.[0]')" 0.27
}

@test "each figure has its band over the models" {
    9m flight --as json --speed 108 --height 3.5 --contact .5 --spin 8 >out
    same "$(figure window_width_deg 1)" '[2.2,0.9,3]'
    jq -e '[.figures[] | select(.low > .value or .high < .value)] == []' out
    9m flight --as json --model heavy --speed 108 --height 3.5 --contact .5 --spin 8 >out
    same "$(figure window_width_deg 1)" '[3,0.9,3]'
    same "$(jq -r .model out)" heavy
}

@test "in words" {
    run --separate-stderr 9m flight --speed 88 --height 3.0 --contact -0.5 --spin 6
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    [[ $output =~ passes\ 0\.[0-9]{2}\ m\ \(0\.[0-9]{2}\ to\ 0\.[0-9]{2}\)\ above\ the\ tape ]]
    holds "$output" 'hit 3.00 m high, 0.50 m behind the end line; net 2.43 m.'
    holds "$output" ', the middle of its window, it'
    holds "$output" ' before the end line,'
    lacks "$output" wobbles
    lacks "$output" -0.0
    lacks "$(9m flight --speed 88 --height 3.0 --spin 6)" 'behind the end line'
}

@test "a metre behind the line gives time away" {
    9m flight --as json --speed 108 --height 3.5 --contact -1 --spin 8 >out
    same "$(figure receiver_later_s 3 | jq '.[0]')" 0.061
    9m flight --as json --speed 108 --height 3.5 --contact .5 --spin 8 >out
    same "$(jq .figures.receiver_later_s out)" null
}

@test "an angle that is given is flown, and may fail" {
    out=$(9m flight --speed 64.8 --height 3 --contact .5 --angle 2)
    holds "$out" 'meets the net with its lower edge'
    lacks "$out" lands
    out=$(9m flight --speed 64.8 --height 3 --contact .5 --angle 12)
    holds "$out" 'past the end line,'
    holds "$(9m flight --speed 36 --height 1.2 --angle -10)" 'falls short of the net'
}

@test "no window, never long, no reach" {
    holds "$(9m flight --speed 90 --height 3.3 --contact .5)" 'No angle keeps it in'
    holds "$(9m flight --speed 54 --height 2.6)" 'too slow to be long'
    holds "$(9m flight --speed 32 --height 2.2)" 'No angle takes it over the net'
    same "$(9m flight --as json --speed 90 --height 3.3 --contact .5 | jq -c '[.window, .flies]')" \
        '["none",false]'
}

@test "a float wobbles" {
    holds "$(9m flight --speed 64.8 --height 2.6)" 'wobbles: up to 0.23 m'
    same "$(9m flight --as json --speed 64.8 --height 2.6 | jq .wobble_m)" 0.23
    same "$(9m flight --as json --speed 64.8 --height 2.6 --spin 1 | jq .wobble_m)" null
}

@test "an aim is reached, and has room to both side lines" {
    9m flight --as json --speed 72 --height 3 --contact 1 --spin 4 --start 1.5 --aim 1.5,8.0 >out
    same "$(figure landing_x_m)" '[1.5,1.5,1.5]'
    same "$(figure landing_d_m)" '[8,8,8]'
    same "$(jq -c '.sides | [.direction_deg, .room_right_deg, .room_left_deg] | map(. * 10 | round)' out)" \
        '[0,54,251]'
    out=$(9m flight --type jumpfloat --net women --start 7 --aim 2,8)
    holds "$out" 'degrees to the right of straight ahead'
    holds "$out" '2.00 m from the right side line,'
}

@test "a float's speed from its time" {
    9m flight --as json --time 1.12 --height 2.70 --contact -0.2 --start 4.5 --aim 4.5,6.2 >out
    same "$(figure speed_kmh 1 | jq '.[0]')" 60.8
    same "$(figure angle_deg 1 | jq '.[0]')" 10.2
}

@test "spin from the height over the tape, drag from speed, spin and time" {
    9m flight --as json --speed 97.2 --height 3.30 --contact .8 --over 0.02 \
        --start 1.5 --aim 6.5,7.5 >out
    same "$(figure topspin_rev_s 1 | jq '.[0]')" 6
    9m flight --as json --speed 97.2 --spin 6 --height 3.30 --contact .8 --time .68 \
        --start 1.5 --aim 6.5,7.5 >out
    jq -e '.drag_coefficient > 0.1 and .drag_coefficient < 0.25' out
}

@test "a toss" {
    out=$(9m flight --speed 100 --height 3.2 --spin 6 --toss 7)
    holds "$out" 'A toss of 7.0 m is 1.90 s in the air and falls past the hand at 8.1 m/s.'
    holds "$out" 'for 12 ms'
    holds "$out" '59 of 100 hits'
    run 9m flight --speed 100 --height 3.2 --spin 6 --toss 3
    [ "$status" = 2 ]
    holds "$output" 'a toss of 3.00 m does not rise above the contact at 3.20 m'
}

@test "what is usual for a type says where it is from" {
    out=$(9m flight --type topspin --speed 95)
    lacks "$out" 'The speed is'
    holds "$out" 'The height is a usual one: from memory'
    same "$(9m flight --as json --type float --height 2.5 | jq -c '.usual | keys')" \
        '["contact_m","speed_kmh","topspin_rev_s"]'
    for type in topspin jumpfloat hybrid float overhand underhand; do
        9m flight --type $type --net women >/dev/null
    done
}

@test "sidespin takes the ball off its line" {
    9m flight --as json --speed 64.8 --height 3 --sidespin 1 >out
    same "$(figure landing_x_m 1 | jq '.[0]')" 4.9
    9m flight --as json --speed 64.8 --height 3 --sidespin -1 >out
    same "$(figure landing_x_m 1 | jq '.[0]')" 4.1
}

# refused MESSAGE OPTION...: exit 2, nothing on standard output.
refused() {
    local expected=$1
    shift
    run --separate-stderr 9m flight "$@"
    [ "$status" = 2 ] || { echo "exit $status: $*"; return 1; }
    [ -z "$output" ]
    holds "$stderr" "$expected"
}

@test "what can't be told is refused, with the reason" {
    refused '--speed is needed' --height 3
    refused '--height is needed' --speed 80
    refused '--start and --aim go together' --speed 80 --height 3 --start 4
    refused '--start and --aim go together' --speed 80 --height 3 --aim 4,8
    refused 'speed and time do not tell the spin' --speed 90 --height 3 --time .7 --start 4 --aim 4,8
    refused 'need --start and --aim' --height 3 --time .7
    refused '--over tells the spin' --speed 90 --height 3 --spin 4 --over .1 --start 4 --aim 4,8
    refused '--over needs --speed' --type topspin --over .1 --start 4 --aim 4,8
    refused 'leave --angle out' --height 3 --time .7 --angle 3 --start 4 --aim 4,8
    refused 'give --angle' --speed 80 --height 3 --sidespin 2 --start 4 --aim 4,8
    refused 'no serve within 29 to 137 km/h' --height 3 --time .2 --start 4 --aim 4,8
    refused 'contradict each other' --height 2.2 --spin 0 --time .6 --start 4 --aim 4,8
}

@test "numbers outside of what the flight holds for name the range" {
    refused '--speed KMH is from 28.8 to 136.8, not 20' --speed 20 --height 3
    refused '--spin TURNS is from 0 to 10, not 12' --speed 80 --height 3 --spin 12
    refused '--height M is from 0.8 to 4.2, not 6' --speed 80 --height 6
    refused '--contact M is from -7 to 4, not 5' --speed 80 --height 3 --contact 5
    refused '--angle DEGREES is from -30 to 75, not 80' --speed 80 --height 3 --angle 80
    refused '--net HEIGHT is from 1.45 to 2.93, not 9' --speed 80 --height 3 --net 9
    refused '--start M is from 0 to 9, not -1' --speed 80 --height 3 --start -1 --aim 4,8
    refused '--height is a number such as' --speed 80 --height three
    for aim in 4 4,0.5 10,8 4,8,1 a4,8 '' ,8; do
        refused '--aim is a landing such as 4.5,8.0' --speed 80 --height 3 --start 4 --aim "$aim"
    done
    refused '--model is default, classic' --speed 80 --height 3 --model best
    refused 'flight takes options only; "more" is too much' --speed 80 --height 3 more
}

@test "the examples of the help run" {
    9m flight --help | sed -n '/^Examples:/,$s/^  \(9m .*\)/\1/p' | sed 's/   *[a-z].*//' >examples
    [ "$(wc -l <examples)" = 5 ]
    while IFS= read -r line; do
        bash -c "$line" >/dev/null || { echo "$line"; return 1; }
    done <examples
    9m flight --help | awk 'length > 100 { print; bad = 1 } END { exit bad }'
}
