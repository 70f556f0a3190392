#!/usr/bin/env bats
# Player cards from outside: files, bytes, words.
load kit

# Two turns of ours with 7 and 9 serving; a practice and an earlier match beside it.
some_season() {
    mkdir -p season
    team() {
        printf '%s\n' 'team H "Herons" women' 'player H7 "Mira Havelin" topspin m4/3' \
            'player H9 "Zofia Brązel"'
    }
    { printf '%s\n' 'notation 1' 'match 2026-10-03'; team
      printf '%s\n' 'team G "Foxes"' 'set 1 H' '7 ace' '7 net' 'G3 net' '9 long'; } >season/a.9m
    { printf '%s\n' 'notation 1' 'practice 2026-10-06'; team
      printf '%s\n' 'focus 7 td "Ring toss" 14/20' 'drill "Ring toss"' 'toss 7 15/20'; } >season/b.9m
    { printf '%s\n' 'notation 1' 'match 2026-10-10 "Round 2"'; team
      printf '%s\n' 'team G "Foxes"' 'observe toss' 'set 1 H' '7 in1 5 won 12:04' \
          '7 td net 15:28' 'G3 net' '9 ace 1'; } >season/c.9m
    { printf '%s\n' 'notation 1' 'match 2026-10-17'; team
      printf '%s\n' 'team G "Foxes"' 'set 1 H' '7 ace' '7 ace' '7 net'; } >season/d.9m
}

words() { pdftotext -layout "$1" -; }

@test "one file each, beside the notes" {
    some_season
    run --separate-stderr 9m card season/c.9m
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
    same "$(ls season)" "$(printf '%s\n' a.9m b.9m c-7.pdf c-9.pdf c.9m d.9m)"
    words season/c-7.pdf >all
    grep -Eq '^7 +Mira Havelin' all
    grep -q '1 of your 2 serves broke their pass' all
    grep -q 'No focus chosen yet' all
    grep -q 'page 1 of 1' all
    lacks "$(cat all)" 'season before'
    lacks "$(cat all)" Brązel
}

@test "her season: before this match, the focus, nothing later" {
    some_season
    9m card --season season -o cards season/c.9m 7
    same "$(ls cards)" c-7.pdf
    words cards/c-7.pdf >all
    grep -Eq 'Broke their pass +1 of 2 +1 of 2' all
    grep -q 'Season: 1 match' all
    grep -q 'Toss it higher' all
    grep -q 'Your focus: Ring toss' all
    grep -q '15/20' all
    grep -q '14 of 20 first' all
    grep -q '15:28: how high is your hand' all
}

@test "a PDF that readers take, the same bytes twice, fonts embedded, two papers" {
    some_season
    9m card --season season -o one season/c.9m
    9m card --season season -o two season/c.9m
    cmp one/c-7.pdf two/c-7.pdf
    9m card --season season -o alone season/c.9m 7
    cmp one/c-7.pdf alone/c-7.pdf
    qpdf --check one/c-7.pdf
    ! pdffonts one/c-7.pdf | tail -n +3 | grep -qv ' yes yes yes '
    9m card --paper letter -o letter season/c.9m 7
    holds "$(pdfinfo letter/c-7.pdf)" '612 x 792 pts (letter)'
    holds "$(pdfinfo letter/c-7.pdf)" 'Pages:           1'
}

@test "as text, one card at a time" {
    some_season
    run --separate-stderr 9m card --as text --season season season/c.9m 7
    [ "$status" = 0 ]
    holds "$output" '7 Mira Havelin'
    holds "$output" 'Your one thing: Toss it higher.'
    holds "$output" 'Missed: 1 of 2; season before 1 of 2'
    holds "$output" 'Jump serves load shoulder and knee.'
    run --separate-stderr 9m card --as text season/c.9m
    [ "$status" = 2 ]
    holds "$stderr" 'one card at a time'
    french=$(9m card --as text --lang fr --season season season/c.9m 7)
    holds "$french" '1 sur 2 ; '
    lacks "$french" '·:'
    9m card --as text -o texts season/c.9m
    same "$(ls texts)" "$(printf '%s\n' c-7.txt c-9.txt)"
}

@test "--no-names: shirts only" {
    some_season
    9m card --no-names -o cards season/c.9m
    lacks "$(words cards/c-7.pdf)" Havelin
    words cards/c-7.pdf | grep -Eq '^7 +your serve card'
    lacks "$(9m card --no-names --as text season/c.9m 7)" Havelin
}

@test "another language" {
    some_season
    9m card --lang de -o cards season/c.9m 7
    qpdf --check cards/c-7.pdf
}

@test "notes with errors give no card, and old ones stay" {
    some_season
    9m card -o cards season/c.9m
    cp cards/c-7.pdf old.pdf
    echo '9 nett' >>season/c.9m
    run --separate-stderr 9m card -o cards season/c.9m
    [ "$status" = 1 ]
    holds "$stderr" 'No card written.'
    cmp cards/c-7.pdf old.pdf
    run --separate-stderr 9m card --partial-data -o cards season/c.9m
    [ "$status" = 1 ]
    holds "$(words cards/c-7.pdf)" 'INCOMPLETE: 1 line unread'
}

@test "an error elsewhere in the season, and what is left out" {
    some_season
    echo '9 nett' >>season/a.9m
    run --separate-stderr 9m card --season season -o cards season/c.9m
    [ "$status" = 1 ]
    holds "$stderr" 'no card from notes with errors'
    [ ! -e cards/c-7.pdf ]
    run --separate-stderr 9m card --partial-data --season season -o cards season/c.9m
    [ "$status" = 1 ]
    holds "$(words cards/c-7.pdf)" 'INCOMPLETE: notes of the season are missing'
}

@test "who did not serve, what is no shirt, what is no match" {
    some_season
    run --separate-stderr 9m card season/c.9m 12
    [ "$status" = 2 ]
    holds "$stderr" 'season/c.9m: no serve of our 12'
    run --separate-stderr 9m card season/c.9m seven
    [ "$status" = 2 ]
    holds "$stderr" '"seven" is no shirt'
    run --separate-stderr 9m card season/b.9m
    [ "$status" = 1 ]
    holds "$stderr" 'season/b.9m is no match'
    run --separate-stderr 9m card --season nowhere season/c.9m
    [ "$status" = 3 ]
    [ -z "$(ls season/*.pdf 2>/dev/null)" ]
}

@test "a place that can't be written is told" {
    some_season
    echo x >file
    run --separate-stderr 9m card -o file season/c.9m
    [ "$status" = 3 ]
    run --separate-stderr 9m card -o no/where season/c.9m
    [ "$status" = 3 ]
    holds "$stderr" no/where
}

@test "a letter that no font has is named, and nothing is written" {
    some_season
    sed -i 's/Ring toss/Ri𐍈ng/' season/b.9m
    run --separate-stderr 9m card --season season -o cards season/c.9m 7
    [ "$status" = 3 ]
    holds "$stderr" 'no font has the letter U+10348'
    [ ! -e cards/c-7.pdf ]
}

@test "a season that cannot be read is not called notes with errors" {
    mkdir empty
    good_notes >good.9m
    run 9m card --season empty --as text good.9m 7
    [ "$status" = 3 ]
    holds "$output" 'no card from files that could not be read'
    lacks "$output" 'notes with errors'
}
