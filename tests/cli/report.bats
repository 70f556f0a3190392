#!/usr/bin/env bats
# The report from outside: files, bytes, words, letters.
load kit

# A match of three serves of ours and one of theirs; NAME is our server's.
match_with() { # NAME [TITLE]
    printf '%s\n' 'notation 1' "match 2026-10-03 \"${2-Harbour League}\"" \
        'team H "Herons" women' 'team G "Foxes" women' "player H7 \"$1\"" 'set 1 H' \
        '7 ace 5' '7 in2 2.1,8.4 by4 won' '7 net' 'G3 net'
}

words() { pdftotext -layout "$1" -; }

@test "the report lies beside the notes and says what they say" {
    match_with 'Mira Havelin' >harbour.9m
    run --separate-stderr 9m report harbour.9m
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
    words harbour.pdf >all
    grep -q 'Herons v Foxes' all
    grep -q 'Our serve broke their pass' all
    grep -Eq '7 +Mira Havelin +3 +1 +1 +1 +2' all
    grep -q 'page 1 of 4' all
    grep -q 'place not recorded for 1 of our 3 serves' all
}

@test "a PDF that readers take, with title and bookmarks and no date" {
    match_with 'Mira Havelin' 'Coupe « é » Ω' >harbour.9m
    9m report harbour.9m
    qpdf --check harbour.pdf
    run pdfinfo harbour.pdf
    holds "$output" 'Herons v Foxes · 2026-10-03 · Coupe « é » Ω'
    lacks "$output" CreationDate
    [ "$(qpdf --qdf --object-streams=disable harbour.pdf - | grep -ac '/Parent .*0 R$' || true)" -ge 2 ]
    # page one leads to the others
    pages=$(pdfinfo harbour.pdf | awk '/^Pages:/ { print $2 }')
    [ "$(qpdf --qdf --object-streams=disable harbour.pdf - | grep -ac '/Subtype /Link')" = $((pages - 1)) ]
    pdfinfo harbour.pdf | grep -q '^Author: *Ninemetre$'
    run --separate-stderr pdftotext harbour.pdf -
    [ -z "$stderr" ]
    holds "$output" 'Coupe « é » Ω'
}

@test "the same notes give the same bytes, wherever and whenever" {
    match_with 'Mira Havelin' >harbour.9m
    9m report harbour.9m
    mkdir elsewhere
    cp harbour.9m elsewhere
    (cd elsewhere && TZ=Asia/Tokyo LC_ALL=C USER=somebody 9m report harbour.9m)
    cmp harbour.pdf elsewhere/harbour.pdf
    9m report harbour.9m -o - | cmp harbour.pdf -
    9m report --output other.pdf harbour.9m
    cmp harbour.pdf other.pdf
}

@test "the foot names file, hash, version and notation" {
    match_with 'Mira Havelin' >harbour.9m
    9m report harbour.9m
    hash=$(sha256sum harbour.9m | cut -c1-12)
    version=$(9m --version | sed 's/^9m \([^,]*\),.*/\1/')
    words harbour.pdf | grep -q "harbour.9m *$hash · 9m $version · notation 1"
    printf '\357\273\277' | cat - harbour.9m >bom.9m
    9m report bom.9m 2>messages || true
    [ ! -e bom.pdf ] || words bom.pdf | grep -q "$(sha256sum bom.9m | cut -c1-12)"
}

@test "two papers, one block" {
    match_with 'Mira Havelin' >harbour.9m
    9m report harbour.9m
    9m report --paper letter -o letter.pdf harbour.9m
    holds "$(pdfinfo harbour.pdf)" '595.276 x 841.89 pts (A4)'
    holds "$(pdfinfo letter.pdf)" '612 x 792 pts (letter)'
    same "$(pdftotext -raw letter.pdf - | sort)" "$(pdftotext -raw harbour.pdf - | sort)"
}

@test "notes with errors give no report, and an old one stays as it is" {
    match_with 'Mira Havelin' >harbour.9m
    9m report harbour.9m
    cp harbour.pdf old.pdf
    echo '7 nett' >>harbour.9m
    run --separate-stderr 9m report harbour.9m
    [ "$status" = 1 ]
    [ -z "$output" ]
    holds "$stderr" 'harbour.9m:11:3: error: "nett" is not an outcome [E201]'
    holds "$stderr" 'Report not written.'
    cmp harbour.pdf old.pdf
    rm harbour.pdf
    run 9m report harbour.9m
    [ ! -e harbour.pdf ]
}

@test "--partial-data goes on, and each page says so" {
    match_with 'Mira Havelin' >harbour.9m
    echo '7 nett' >>harbour.9m
    run --separate-stderr 9m report --partial-data harbour.9m
    [ "$status" = 1 ]
    [ "$(words harbour.pdf | grep -c 'INCOMPLETE: 1 line unread')" = 4 ]
}

@test "--no-names: shirts only" {
    match_with 'Mira Havelin' >harbour.9m
    9m report --no-names harbour.9m
    lacks "$(words harbour.pdf)" Havelin
    words harbour.pdf | grep -Eq '^ *7 +3 +1 +1 +1 +2'
    lacks "$(words harbour.pdf)" 'shirt 7'
}

@test "notes of nothing give no report" {
    printf '' >empty.9m
    echo 'notation 1' >bare.9m
    for f in empty bare; do
        for how in --no-names --partial-data; do
            run --separate-stderr 9m report "$how" $f.9m
            [ "$status" = 1 ]
            holds "$stderr" $f.9m
            [ ! -e $f.pdf ]
        done
    done
}

@test "a match without a serve gives no report" {
    match_with 'Mira Havelin' | head -n 5 >bare.9m
    match_with 'Mira Havelin' | head -n 6 >set.9m
    for f in bare set; do
        run --separate-stderr 9m report $f.9m
        [ "$status" = 1 ]
        holds "$stderr" "$f.9m holds no serve; report not written"
        [ ! -e $f.pdf ]
    done
}

@test "the report is never written over its notes" {
    match_with 'Mira Havelin' >harbour.9m
    cp harbour.9m before
    ln -s harbour.9m link.pdf
    for out in harbour.9m ./harbour.9m link.pdf; do
        run --separate-stderr 9m report -o "$out" harbour.9m
        [ "$status" = 2 ]
        holds "$stderr" 'over its own notes'
    done
    cmp harbour.9m before
}

@test "a place that can't be written is told" {
    match_with 'Mira Havelin' >harbour.9m
    run --separate-stderr 9m report -o nowhere/x.pdf harbour.9m
    [ "$status" = 3 ]
    holds "$stderr" nowhere/x.pdf
}

@test "notes from standard input go to standard output" {
    match_with 'Mira Havelin' | 9m report - >out.pdf
    words out.pdf | grep -q 'standard input'
}

@test "a practice has its own report" {
    printf '%s\n' 'notation 1' 'practice 2026-10-06 "Serve hour"' 'team H "Herons" women' \
        'player H7 "Mira Havelin"' 'drill "Ring toss"' 'ring 1.0' 'toss 7 6/10' \
        'drill "Last metre" ad5' '7 in d5 x3' '7 in 1' '7 long+0.5' 'jumps 7 40' >p.9m
    9m report p.9m
    words p.pdf >all
    grep -q 'Practice 2026-10-06' all
    grep -Eq '7 +Mira Havelin +6/10' all
    grep -Eq 'Mira Havelin +3/5 +4/5' all
    grep -Eq 'Mira Havelin +40' all
}

# ---- letters ---------------------------------------------------------------

# The place of a word on the first page, as pdftoppm wants it at 300 dpi.
place_of() { # PDF WORD
    pdftotext -l 1 -bbox "$1" - | sed -n "s/.*xMin=\"\([0-9.]*\)\" yMin=\"\([0-9.]*\)\" xMax=\"\([0-9.]*\)\" yMax=\"\([0-9.]*\)\">$2<.*/\1 \2 \3 \4/p" |
        head -n 1 | awk '{ s = 300 / 72; printf "-x %d -y %d -W %d -H %d", ($1 - 1) * s, ($2 - 2) * s, ($3 - $1 + 2) * s, ($4 - $2 + 3) * s }'
}

# The word of one report as a picture, by the place it has in it.
picture_of() { # PDF WORD
    # shellcheck disable=SC2046
    pdftoppm -r 300 -f 1 -l 1 -gray $(place_of "$1" "$2") "$1" | tail -c +16
}

# A composite glyph whose parts are not embedded loses its base or its accent,
# unless they happen to stand elsewhere in the document. So each letter is set
# alone, and beside a title that holds its parts; it must look the same.
@test "a letter alone in a report is as whole as among others" {
    for letter in ё Ї ế Ѐ Ή ΐ ў Å ǘ Ṩ ể ё̂; do
        match_with "$letter" 'title' >alone.9m
        match_with "$letter" 'title е е̂ І I і ê e Η Ι ι у A a u ü S Ş s E Е ¨ ´ ˘ ` ˙ . ˚ ° ^' >among.9m
        9m report alone.9m
        9m report among.9m
        picture_of alone.pdf "$letter" >alone.ppm
        picture_of among.pdf "$letter" >among.ppm
        [ -s alone.ppm ]
        cmp alone.ppm among.ppm || { echo "$letter differs"; return 1; }
        # There is some black in it at all.
        [ "$(tr -d '\200-\377' <alone.ppm | wc -c)" -gt 20 ]
    done
}

@test "names of the world come back as they were typed" {
    for name in 'Zofia Brązel' 'Elif Aykın' 'Ελπίδα Θαλασσινού' 'Оксана Гайворонь' 'Thảo Vũ' \
        'Łucja Ştefănescu' 'Þóra Ðagný' 'Ņina Ķirse'; do
        match_with "$name" >harbour.9m
        9m report harbour.9m
        words harbour.pdf | grep -q "7 *$name"
    done
}

@test "a decomposed name is set composed" {
    match_with "$(printf 'Ine\314\202s')" >harbour.9m
    9m report harbour.9m
    words harbour.pdf | grep -q Inês
}

@test "a letter that no font has is named, and nothing is written" {
    match_with 'Mi𐍈ra' >harbour.9m
    run --separate-stderr 9m report harbour.9m
    [ "$status" = 3 ]
    holds "$stderr" 'harbour.9m:5'
    holds "$stderr" 'no font has the letter U+10348 in "Mi𐍈ra"'
    [ ! -e harbour.pdf ]
    9m report --no-names harbour.9m
    [ -e harbour.pdf ]
}

@test "a script that can't be set is told with the place of the name" {
    match_with 'Mira' 'ליגה' >harbour.9m
    run --separate-stderr 9m report harbour.9m
    [ "$status" = 3 ]
    holds "$stderr" 'harbour.9m:2'
    holds "$stderr" 'U+05DC'
    [ ! -e harbour.pdf ]
    printf '%s\n' 'notation 1' 'team H "Herons" women' 'player H7 "नीला"' >squad.9m
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'squad "squad.9m"' 'team G "Foxes"' \
        'set 1 H' '7 ace' >harbour.9m
    run --separate-stderr 9m report harbour.9m
    [ "$status" = 3 ]
    holds "$stderr" 'squad.9m:3'
    holds "$stderr" 'U+0928'
    [ ! -e harbour.pdf ]
}

@test "a font file of one's own, and one that is none" {
    match_with 'Mira Havelin' >harbour.9m
    run --separate-stderr 9m report --font harbour.9m harbour.9m
    [ "$status" = 3 ]
    holds "$stderr" "can't be used as a font"
    [ ! -e harbour.pdf ]
    9m report --font "$(fc-match -f '%{file}' 'Liberation Sans:bold')" harbour.9m
    holds "$(pdffonts harbour.pdf)" LiberationSans-Bold
    lacks "$(pdffonts harbour.pdf)" 'LiberationSans '
}

# A practice of 7 and 9, with more lines behind it.
practice_of() { # LINE...
    printf '%s\n' 'notation 1' 'practice 2026-10-03' 'team H "Herons"' 'team G "Foxes"' \
        'player H7 "Mira Havelin"' 'player H9 "Ana Lindbro"' "$@"
}

@test "rings of 1.20 and 1.25 m stand under their own sizes" {
    practice_of 'ring 1.25' 'toss 7 1/10' 'ring 1.20' 'toss 7 2/10' >a.9m
    9m report a.9m
    words a.pdf >all
    grep -q 'Toss into the ring, 1.25 m' all
    grep -q 'Toss into the ring, 1.2 m' all
}

@test "tries of the other team share no row with ours" {
    practice_of 'drill "Deep" a5' 'tries G7 8/10' 'tries 7 1/10' >a.9m
    9m report a.9m
    words a.pdf >all
    grep -q 'Foxes: Deep' all
    grep -Eq '7 +Mira Havelin +1/10' all
    grep -Eq '7 +8/10' all
    ! grep -q '9/20' all
}

@test "a series never leaves the page; a very long one stands as counts" {
    practice_of 'drill "Deep" a5' '7 in 5 x999' '7 in 5 x999' '9 in 5 x400' >a.9m
    9m report a.9m
    words a.pdf >all
    grep -Eq '7 +Mira Havelin +counts only, for more than 400 serves' all
    [ "$(grep -c 'counts only' all)" = 1 ]
    grep -Eq '9 +Ana Lindbro' all
    grep -Eq 'together +2398/' all
}

@test "sets with one number twice, or a high one, have columns of their own" {
    match_with 'Mira Havelin' >a.9m
    printf '%s\n' 'set 1 H' '7 ace' '7 ace' 'set 300 H' '7 net' >>a.9m
    9m report --partial-data a.9m 2>said || true
    words a.pdf >all
    grep -Eq 'our serves +3 +2 +1 +6' all || { cat said all; false; }
}
