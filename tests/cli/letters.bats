#!/usr/bin/env bats
# The letters of the names of Europe, more than one alphabet of a font holds. Two
# readers find them by two ways: poppler by the table of letters, mupdf by the
# names of the glyphs.
load kit

# Latin-1, Latin Extended-A and what Romanian and Vietnamese add, Greek, Cyrillic.
letters() {
    python3 -c '
import unicodedata
blocks = [(0xC0, 0x17F), (0x218, 0x21B), (0x386, 0x3CE), (0x400, 0x45F), (0x1EA0, 0x1EF9)]
all = "".join(c for a, b in blocks for c in map(chr, range(a, b + 1))
              if unicodedata.category(c)[0] == "L" and unicodedata.normalize("NFC", c) == c)
for i in range(0, len(all), 10):
    print(all[i:i + 10])'
}

notes() {
    printf '%s\n' 'notation 1' 'practice 2026-10-03' 'team H "Herons" women'
    letters | awk '{ print "player H" NR " \"" $0 "\"" }'
    printf '%s\n' 'drill "Ten in a row"'
    letters | awk '{ print NR " in" }'
}

setup_file() {
    cd "$BATS_FILE_TMPDIR" || return
    letters >names
    notes >names.9m
    9m report names.9m
}

@test "there are more letters than one alphabet holds" {
    [ "$(tr -d '\n' <"$BATS_FILE_TMPDIR/names" | wc -m)" -gt 400 ]
    [ "$(pdffonts "$BATS_FILE_TMPDIR/names.pdf" | grep -c 'LiberationSans .* yes yes yes')" -ge 2 ]
}

@test "both readers find every name" {
    cd "$BATS_FILE_TMPDIR"
    pdftotext names.pdf poppler
    mutool draw -q -F text -o mupdf names.pdf
    for found in poppler mupdf; do
        while read -r name; do
            grep -qF -- "$name" "$found" || { echo "$found lacks $name"; return 1; }
        done <names
    done
}

# How dark squares of 3 mm are; a wrong letter, or none, is another square.
squares() {
    python3 -c '
import re, sys
data = sys.stdin.buffer.read()
m = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", data)
w, h, px, side = int(m[1]), int(m[2]), data[m.end():], 12
for y in range(0, h - side, side):
    print(*[sum(255 - v for r in range(side) for v in px[(y + r) * w + x:(y + r) * w + x + side])
            // side ** 2 for x in range(0, w - side, side)])'
}

@test "both readers draw every name alike" {
    cd "$BATS_FILE_TMPDIR"
    pages=$(pdfinfo names.pdf | awk '/^Pages/ { print $2 }')
    for page in $(seq "$pages"); do
        pdftoppm -gray -r 100 -f "$page" -l "$page" names.pdf | squares >poppler
        mutool draw -q -c gray -F pnm -r 100 -o - names.pdf "$page" | squares >mupdf
        paste -d ' ' poppler mupdf | awk '{
            for (i = 1; i <= NF / 2; i++) {
                off = $i - $(i + NF / 2)
                if (off * off > 30 * 30) { print "line " NR ", square " i ": " $i " and " $(i + NF / 2); bad = 1 }
            } } END { exit bad }'
    done
}
