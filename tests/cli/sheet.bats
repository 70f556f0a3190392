#!/usr/bin/env bats
# The notation on one page.
load kit

@test "one page that readers take, with all fonts in it" {
    run --separate-stderr 9m sheet
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
    qpdf --check notation.pdf
    pdfinfo notation.pdf | grep -Eq '^Pages: +1$'
    [ -z "$(pdffonts notation.pdf | awk 'NR > 2 && $(NF-4) != "yes"')" ]
    pdftotext -layout notation.pdf - | grep -q 'The notation on one page'
}

@test "the same bytes every time, and on the paper that was asked for" {
    9m sheet -o one.pdf
    9m sheet --output=- | cmp one.pdf -
    9m sheet --paper letter -o letter.pdf
    pdfinfo letter.pdf | grep -q 'letter'
    lacks "$(pdfinfo one.pdf)" CreationDate
}

@test "a blank form, with every outcome and mark to remind of" {
    run --separate-stderr 9m sheet --form
    [ "$status" = 0 ]
    pdftotext form.pdf - | tr '\n' ' ' >words
    for word in server outcome score in3 antenna td hp nn; do
        grep -qw "$word" words
    done
    [ ! -e notation.pdf ]
}

@test "the practice plan: each player under the drill of her focus, lines to type" {
    printf '%s\n' 'notation 1' 'practice 2026-10-06' 'team H "Herons" women' \
        'player H7 "Mira Havelin"' 'player H9 "Zofia Brązel"' \
        'focus 7 td "Ring toss" 14/20' 'drill "Ring toss"' 'toss 7 6/10' >first.9m
    run --separate-stderr 9m sheet --practice .
    [ "$status" = 0 ]
    pdftotext -layout practice.pdf words
    grep -Eq '7 +Mira Havelin +6/10 +14/20' words
    grep -q 'toss 7 ____/20' words
    grep -q 'Without a focus: 9' words
    9m sheet --practice . --no-names -o shirts.pdf
    lacks "$(pdftotext shirts.pdf -)" Mira
    cp practice.pdf old.pdf
    run --separate-stderr 9m sheet --practice nowhere
    [ "$status" = 3 ]
    cmp old.pdf practice.pdf
    mkdir squad
    printf '%s\n' 'notation 1' 'team H "Herons"' >squad/herons.9m
    run --separate-stderr 9m sheet --practice squad
    [ "$status" = 1 ]
    holds "$stderr" 'holds no match and no practice'
}

@test "it takes no file, and an old sheet stays when it can't be written" {
    run --separate-stderr 9m sheet notes.9m
    [ "$status" = 2 ]
    echo old >notation.pdf
    run --separate-stderr 9m sheet --font /dev/null
    [ "$status" = 3 ]
    [ "$(cat notation.pdf)" = old ]
    run --separate-stderr 9m sheet -o no/such/folder.pdf
    [ "$status" = 3 ]
}

@test "a bench card from the matches of a folder" {
    run --separate-stderr 9m sheet --bench "$ROOT/examples/season"
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
    qpdf --check bench.pdf
    [ -z "$(pdffonts bench.pdf | awk 'NR > 2 && $(NF-4) != "yes"')" ]
    9m sheet --bench "$ROOT/examples/season" -o - | cmp bench.pdf -
    pdftotext -layout bench.pdf - >words
    grep -Eq '^ *7 +Mira Havelin +jump topspin +[0-9.]+ +[0-9]+/[0-9]+ +3 +6/46 ' words
    9m sheet --bench "$ROOT/examples/season" --no-names --paper letter -o letter.pdf
    pdfinfo letter.pdf | grep -q letter
    lacks "$(pdftotext letter.pdf -)" Havelin
}

@test "a long name stands whole on a bench card, where few rows stand large" {
    mkdir s
    good_notes | sed '/^player H7/d; /^team G/a player H7 "Kateřina Jezírková"' >s/a.9m
    9m sheet --bench s
    pdftotext -layout bench.pdf - | grep -q 'Kateřina Jezírková'
}

@test "a bench card has the latest team; notes with errors give none" {
    mkdir s
    good_notes >s/a.9m
    good_notes | sed 's/10-03/10-04/; s/"Herons"/"Owls"/' >s/b.9m
    run --separate-stderr 9m sheet --bench s
    [ "$status" = 0 ]
    [ "$stderr" = '9m: the card is for Owls, whose match is the latest; Herons has matches there too' ]
    echo '7 nett' >>s/b.9m
    echo old >bench.pdf
    run --separate-stderr 9m sheet --bench s
    [ "$status" = 1 ]
    [ "$(cat bench.pdf)" = old ]
    run --separate-stderr 9m sheet --bench s --partial-data
    [ "$status" = 1 ]
    pdftotext bench.pdf - | grep -q '^INCOMPLETE'
    rm s/a.9m
    printf '%s\n' 'notation 1' 'practice 2026-10-03' 'team H "Herons"' '7 ace' >s/b.9m
    run --separate-stderr 9m sheet --bench s
    [ "$status" = 1 ]
    holds "$stderr" 's holds no serve of ours in a match'
    run --separate-stderr 9m sheet --bench s --form
    [ "$status" = 2 ]
}

@test "the sheet, the form and the plan in every language; what is typed stays" {
    for lang in de fr it es pt cs pl; do
        9m sheet --lang $lang -o sheet.pdf
        pdftotext -layout sheet.pdf words
        lacks "$(cat words)" 'What was off'
        lacks "$(cat words)" 'toss down'
        for word in td ceiling retoss 'sub H 14 for 3' 'focus 7 td "Ring toss" 14/20'; do
            grep -qF "$word" words
        done
        9m sheet --form --lang $lang -o form.pdf
        lacks "$(pdftotext form.pdf -)" 'one line a serve'
        9m sheet --practice "$ROOT/examples/season" --lang $lang -o plan.pdf
        pdftotext -layout plan.pdf words
        lacks "$(cat words)" 'comes down'
        grep -q 'Ring toss · ' words
        grep -q 'drill "Ring toss"' words
    done
}

@test "a club's own drill stays as it is written, one with the name of another too" {
    mkdir s
    printf '%s\n' 'notation 1' 'practice 2026-10-06' 'team H "Herons"' 'player H7 "Mira"' \
        'focus 7 td "Ring toss" 3/5' >s/first.9m
    printf '%s\n' 'Drill: Ring toss' 'Treats: td' 'Jumps: no' 'Set-up: As our coach shows it.' \
        'Goal: 3/5 in the hoop' >s/ours.drills
    9m sheet --practice s --lang de -o plan.pdf
    pdftotext -layout plan.pdf words
    grep -q 'As our coach shows it.' words
    grep -q '3/5 in the hoop' words
    lacks "$(cat words)" 'Ring toss · '
}
