#!/usr/bin/env bats
# Names in Chinese, Japanese and Korean, with a font of the system that has them.
load ../cli/kit

notes() {
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'team H "港の鷺" women' 'team G "Foxes" women' \
        'player H7 "山田 花子"' 'player H9 "김 하늘"' 'player H4 "王小明"' 'set 1 H' \
        '7 ace 5' '7 net' 'G3 net' '9 ace' '9 long' 'G5 long' '4 ace'
}

@test "a font of the machine fills the gap, and the names can be read back" {
    notes >names.9m
    run --separate-stderr 9m report names.9m
    [ "$status" = 0 ]
    pdftotext names.pdf words
    for name in 港の鷺 '山田 花子' '김 하늘' 王小明; do
        grep -q "$name" words
    done
    qpdf --check names.pdf
    [ -z "$(pdffonts names.pdf | awk 'NR > 2 && $(NF-4) != "yes"')" ]
    [ "$(wc -c <names.pdf)" -lt 1500000 ]
}

@test "--font takes the file that was named" {
    notes >names.9m
    font=$(fc-match -f '%{file}' 'WenQuanYi Micro Hei')
    run --separate-stderr 9m report --font "$font" names.9m
    [ "$status" = 0 ]
    pdffonts names.pdf | grep -q MicroHei
    lacks "$(pdffonts names.pdf)" Liberation
}
