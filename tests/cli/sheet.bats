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
