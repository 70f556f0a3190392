#!/usr/bin/env bats
# The canonical spelling.
load kit

# messy OUT: notes in every untidy way that means the same; tidy: what fmt makes.
messy() {
    cat <<'END'


notation 1
match 2026-10-03   18:30  "Harbour League"
team H "Herons" women   # us
team G "Foxes" women


set 1 H
   # indented comment   
H7 M4/3 TD NET   #   why
	G3	net
H12  ace


score 2-1
2-1   # twice
END
    printf '12 net'
}

tidy() {
    cat <<'END'
notation 1
match 2026-10-03 18:30 "Harbour League"
team H "Herons" women  # us
team G "Foxes" women

set 1 H
# indented comment
7 m4/3 td net  #   why
G3 net
12 ace

2-1
2-1  # twice
12 net
END
}

@test "blanks, case, letters of ours, blank lines, last line" {
    same "$(messy | 9m fmt -)" "$(tidy)"
    messy | 9m fmt - >out
    tidy | cmp - out
}

@test "in place: the same as the filter, and nothing is printed" {
    messy >a.9m
    run --separate-stderr 9m fmt a.9m
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
    tidy | cmp - a.9m
}

@test "canonical notes come out as they went in" {
    tidy >a.9m
    9m fmt - <a.9m | cmp - a.9m
    run --separate-stderr 9m fmt --check a.9m
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
    run --separate-stderr 9m fmt --diff a.9m
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
}

@test "byte order mark, CR LF, a last line without end: the same result" {
    tidy >plain.9m
    { printf '\357\273\277'; sed 's/$/\r/' plain.9m; } >dos.9m
    head -c -1 plain.9m >open.9m
    sed 's/$/ \t/' plain.9m >blanks.9m
    for f in dos open blanks; do
        9m fmt - <$f.9m | cmp - plain.9m || { echo $f; return 1; }
        run 9m fmt --check $f.9m
        [ "$status" = 1 ]
    done
}

@test "nothing gives nothing" {
    [ -z "$(9m fmt - </dev/null)" ]
    [ -z "$(printf '\n\n \n' | 9m fmt -)" ]
}

@test "a line with a fault stays byte for byte and is told, exit 1" {
    notes '7   nett   # what?  ' '7  net' "$(printf '7 net # S\370ren')" '7  ace' >a.9m
    cp a.9m before
    run --separate-stderr 9m fmt a.9m
    [ "$status" = 1 ]
    [ -z "$output" ]
    holds "$stderr" 'a.9m:6:5: error:'
    holds "$stderr" 'a.9m:8:10: error: byte F8 is not UTF-8'
    holds "$stderr" 'a.9m: 2 lines with a fault left as they were'
    cmp <(sed -n '6p;8p' a.9m) <(sed -n '6p;8p' before)
    grep -qx '7 net' a.9m
    grep -qx '7 ace' a.9m
}

@test "with - the text comes out in full even when a line has a fault" {
    run --separate-stderr 9m fmt - < <(notes '7 nett' '7  net')
    [ "$status" = 1 ]
    same "$output" "$(notes '7 nett' '7 net')"
}

@test "--check: lists places, writes nothing, exit 1; the same for a file and for -" {
    messy >a.9m
    cp a.9m before
    run --separate-stderr 9m fmt --check a.9m
    [ "$status" = 1 ]
    [ -z "$stderr" ]
    cmp a.9m before
    holds "$output" 'a.9m:1:1: a blank line too many'
    holds "$output" 'a.9m:4:18: canonical: match 2026-10-03 18:30 "Harbour League"'
    holds "$output" 'a.9m:11:1: canonical: 7 m4/3 td net  #   why'
    holds "$output" 'a.9m:15:1: a blank line too many'
    holds "$output" 'a.9m:16:1: canonical: 2-1'
    holds "$output" 'a.9m:18:7: the last line does not end'
    [ "$(printf '%s\n' "$output" | grep -vcE '^a\.9m:[0-9]+:[0-9]+: ')" = 0 ]
    run 9m fmt --check - <a.9m
    [ "$status" = 1 ]
}

@test "--check: CR LF and a byte order mark are told once" {
    { printf '\357\273\277'; tidy | sed 's/$/\r/'; } >a.9m
    run --separate-stderr 9m fmt --check a.9m
    [ "$status" = 1 ]
    [ "${#lines[@]}" = 2 ]
    holds "$output" 'a.9m:1:1: a byte order mark is not needed'
    holds "$output" 'a.9m:1:1: lines end in CR LF instead of LF'
}

@test "--diff: patch makes of the old file what fmt writes; nothing is written" {
    for make in messy tidy; do
        $make >a.9m
        cp a.9m before
        run --separate-stderr 9m fmt --diff a.9m
        [ "$status" = 0 ]
        cmp a.9m before
        9m fmt --diff a.9m >a.diff
        cp a.9m patched
        if [ -s a.diff ]; then patch -s patched a.diff; fi
        9m fmt - <a.9m | cmp - patched
    done
}

@test "--diff: hunks far apart, at both ends of a long file" {
    { echo 'notation  1'; for i in $(seq 60); do echo "# $i"; done; echo 'match  2026-10-03'
      for i in $(seq 60); do echo "# $i"; done; printf 'team H  "Herons"'; } >a.9m
    9m fmt --diff a.9m >a.diff
    [ "$(grep -c '^@@' a.diff)" = 3 ]
    cp a.9m patched
    patch -s patched a.diff
    9m fmt - <a.9m | cmp - patched
}

@test "a no-break space is mended" {
    same "$(notes "$(printf '7\302\240net')" | 9m fmt -)" "$(notes '7 net')"
}

@test "a mend that does not make the line readable is not made" {
    notes "$(printf 'note \342\200\234hello')" "$(printf '7\302\240nett 99 xx')" \
        "$(printf '7\302\240net')" >a.9m
    run --separate-stderr 9m fmt a.9m
    [ "$status" = 1 ]
    same "$(cat a.9m)" "$(notes "$(printf 'note \342\200\234hello')" \
        "$(printf '7\302\240nett 99 xx')" '7 net')"
    holds "$stderr" 'a.9m:6:6: error: '
    holds "$stderr" 'a.9m:7:2: error: '
    holds "$stderr" '2 lines with a fault left as they were'
}

@test "a comment keeps its text, whatever stands in it" {
    notes '7 ace  # "quoted" # twice  	tab  ünïcödé 測試 \back' >a.9m
    9m fmt - <a.9m | cmp - a.9m
}

@test "a squad file is written too" {
    printf '%s\n' 'notation 1' 'team H  "Herons" women' 'player  H7 "Mira Havelin"   m4/3' >s.9m
    9m fmt s.9m
    same "$(cat s.9m)" "$(printf '%s\n' 'notation 1' 'team H "Herons" women' 'player H7 "Mira Havelin" m4/3')"
}

@test "shorthand of a squad file is known, and is written in full" {
    printf '%s\n' 'notation 1' 'team H "Herons" women' 'short rot = net' >s.9m
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'squad "s.9m"' 'team G "Foxes"' 'set 1 H' '7  rot' >a.9m
    run --separate-stderr 9m fmt - <a.9m
    [ "$status" = 0 ]
    holds "$output" '7 net'
    cp a.9m b.9m
    run --separate-stderr 9m fmt b.9m
    [ "$status" = 0 ]
    grep -qx '7 net' b.9m
}

@test "shorthand of the file itself stays declared" {
    notes_short() {
        printf '%s\n' 'notation 1' 'match 2026-10-03' 'team H "Herons"' 'team G "Foxes"' \
            'short rot = net' 'set 1 H' "$1"
    }
    same "$(notes_short '7  rot' | 9m fmt -)" "$(notes_short '7 net')"
}

@test "a tree: every file, each by itself" {
    mkdir -p s/a
    messy >s/1.9m
    messy >s/a/2.9m
    tidy >s/3.9m
    run --separate-stderr 9m fmt --check s
    [ "$status" = 1 ]
    lacks "$output" s/3.9m
    9m fmt s
    tidy | cmp - s/1.9m
    tidy | cmp - s/a/2.9m
    9m fmt --check s
}

@test "a line that holds a NUL byte is one line and stays as it is" {
    { notes '7 ace'; printf '7 \0 net # \0\n'; echo '7  net'; } >a.9m
    run --separate-stderr 9m fmt a.9m
    [ "$status" = 1 ]
    { notes '7 ace'; printf '7 \0 net # \0\n'; echo '7 net'; } | cmp - a.9m
    holds "$stderr" '1 line with a fault left as it was'
}

@test "a file in UTF-16 is told and left as it is" {
    printf 'notation 1\npractice 2026-10-06\nteam H "Herons"\n7   in\n' | iconv -t UTF-16LE >a.9m
    cp a.9m before
    run --separate-stderr 9m fmt a.9m
    [ "$status" = 1 ]
    holds "$stderr" 'E022'
    cmp a.9m before
    9m fmt - <a.9m >out 2>said || true
    cmp out before
}

@test "any number of threads gives the same files and the same messages, whatever is wrong in between" {
    cp -r "$ROOT/examples/season" season
    for i in 1 2 3 4 5 6 7 8 9; do
        sed 's/^7 /7   /' season/2026-10-03-foxes.9m >"season/c$i.9m"
    done
    notes '7   nett' '7  net' >season/c5.9m
    printf '\xff\xfenothing' >season/c6.9m
    sed -i 's/^player/player /' season/herons.9m
    for args in --check --diff '--check --diff' ''; do
        for n in 1 2 3 7; do
            rm -rf "$n" && mkdir "$n" && cp -r season "$n/season"
            # shellcheck disable=SC2086
            (cd "$n" && 9m fmt $args -j $n season none.9m) >"$n.said" 2>&1 && return 1
            cmp 1.said "$n.said"
            diff -r 1/season "$n/season"
        done
        grep -q 'c5.9m: 1 line with a fault left as it was' 1.said
        grep -q 'none.9m: No such file' 1.said
    done
    cmp 1/season/c5.9m <(notes '7   nett' '7 net')
    cmp 1/season/c6.9m season/c6.9m
    cmp 1/season/c1.9m 1/season/2026-10-03-foxes.9m
    cmp 1/season/herons.9m "$ROOT/examples/season/herons.9m"
}

@test "--diff: a line end in a name does not break its head" {
    notes '7  net' >$'a\n+b.9m'
    same "$(9m fmt --diff $'a\n+b.9m' | sed -n 1,2p)" "$(printf '%s\n' '--- a<0A>+b.9m' '+++ a<0A>+b.9m')"
}
