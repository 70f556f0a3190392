#!/usr/bin/env bats
# A player is one person by her team and name, whatever her shirt.
load kit

# Mira has another shirt from the second match on; 7 goes to Tess.
season() {
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'team H "Herons"' 'player H7 "Mira Havelin" topspin' \
        'player H12 "Ana Tarn"' 'focus 7 td "Ring toss" 3/5' 'team G "Foxes"' 'set 1 H' \
        '7 ace' '7 net' 'G3 net' '12 ace' >1.9m
    printf '%s\n' 'notation 1' 'match 2026-10-10' 'team H "Herons"' 'player H17 "Mira Havelin" topspin' \
        'player H7 "Tess Umino"' 'team G "Foxes"' 'set 1 H' '17 ace' '17 ace' '17 net' 'G3 net' \
        '7 ace' >2.9m
    printf '%s\n' 'notation 1' 'practice 2026-10-13' 'team H "Herons"' 'player H17 "Mira Havelin"' \
        'drill "Ring toss"' 'ring 1.0' 'toss 17 4/5' >3.9m
}

@test "a tally has one row of hers, with the latest shirt, in any order of files" {
    season
    9m tally --as json 1.9m 2.9m >whole.json
    jq -e '.teams[0].server | map(select(.name == "Mira Havelin")) |
        length == 1 and .[0].row == 17 and .[0].serves == 5' whole.json
    jq -e '.teams[0].server | map(select(.row == 7)) | .[0].name == "Tess Umino"' whole.json
    9m tally --as json 2.9m 1.9m | cmp whole.json -
    9m tally --as json --threads 2 . >practice.json
    9m tally --as json --threads 1 . | cmp practice.json -
}

@test "parts add up to the whole, byte for byte" {
    season
    9m tally --partial -o whole.json .
    for f in 1 2 3; do 9m tally --partial -o $f.json $f.9m; done
    for order in '1.json 2.json 3.json' '3.json 2.json 1.json' '2.json 1.json 3.json'; do
        # shellcheck disable=SC2086
        9m tally --merge --partial $order | cmp whole.json -
    done
}

@test "her focus, her card and the order of servers follow her" {
    season
    9m advise . >advice
    grep -q '^17 Mira Havelin: 5 serves' advice
    grep -q 'none before, 4 of 5' advice
    [ "$(grep -c 'Mira Havelin:' advice)" = 1 ]
    9m card --as text --season . 2.9m 17 >card
    grep -q 'Ring toss' card
    9m season -o - . | pdftotext -layout - words
    grep -Eq '17 +Mira Havelin' words
    ! grep -Eq '^ *7 +Mira Havelin' words
    9m sheet --bench . -o - | pdftotext -layout - bench
    [ "$(grep -c 'Mira Havelin' bench)" = 1 ]
}

@test "two players of one name in a squad are told apart by their shirts" {
    season
    sed -i 's/Tess Umino/Mira Havelin/' 2.9m
    9m tally --as json 2.9m | jq -e '.teams[0].server | map(.row) | sort == [7, 17]'
}
