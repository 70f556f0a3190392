#!/usr/bin/env bats
# Tables over files, from outside: numbers, forms, width, refusals, parts.
load kit

season() { cp -r "$ROOT/examples/season" season; }

# Eight serves of ours (4 broke the pass, 2 missed, 5 won) and two of theirs.
small_match() { # FILE [NAME]
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'team H "Herons" women' \
        'team G "Foxes" women' "player H7 \"${2-Mira Havelin}\" topspin r" \
        'player H9 "Zofia Brandt"' 'player H12 "Ana Lind"' 'set 1 H' \
        '7 ace 5' '7 over 6' '7 in1 5 by4 won' '7 ace d6' '7 a5 in2 6 by4 won' '7 net' 'G3 net' \
        '9 long' 'G4 in3 by9 lost' '12 in3 1 by5 lost' >"$1"
}

rows() { # CUT [ARGUMENT...]: team, row, name, serves, broke, errors, won, decided
    cut=$1
    shift
    9m tally --as json --by "$cut" "$@" | jq -r --arg cut "$cut" '.teams[] | .team as $team |
        .[$cut][] | [$team, .row, .name, .serves, .broke, .errors, .won, .decided] | map(tostring) | join(" ")'
}

@test "the numbers of a small match, counted by hand" {
    small_match small.9m
    run --separate-stderr rows server small.9m
    same "$stderr" ''
    same "$output" 'Herons 7 Mira Havelin 6 4 1 5 6
Herons 9 Zofia Brandt 1 0 1 0 1
Herons 12 Ana Lind 1 0 0 0 1
Foxes 3  1 0 1 0 1
Foxes 4  1 0 0 0 1'
    same "$(rows error --team herons small.9m | cut -d' ' -f2,4)" 'net 1
long 1'
    same "$(rows start --team herons small.9m | cut -d' ' -f2,4)" 'r 6
null 2'
    same "$(rows aim --team herons small.9m | cut -d' ' -f2,4)" '5 1
null 7'
    same "$(rows zone --team herons small.9m | cut -d' ' -f2,4,5)" '1 1 0
5 2 2
6 3 2'
    same "$(rows receiver --team herons small.9m | cut -d' ' -f2,4,5)" '4 2 1
5 1 0
null 3 3'
    same "$(rows set --team herons small.9m | cut -d' ' -f2,4)" '1 8'
    same "$(rows type --team herons small.9m | cut -d' ' -f2,4)" 'topspin 6
null 2'
    same "$(rows situation --team herons small.9m | cut -d' ' -f2,4)" 'first_of_turn 3'
}

# Brown, Cai, DasGupta, Interval estimation for a binomial proportion, Stat.
# Sci. 16 (2001), give the form; 4 of 10 worked by hand: centre
# (4 + 1.9208) / 13.8415 = .42776, half width 1.95996 sqrt(2.4 + .9604) /
# 13.8415 = .25957.
@test "the Wilson interval of 4 of 10" {
    { head_of_match; printf '7 ace\n%.0s' 1 2 3 4; printf '7 in2 won\n%.0s' 1 2 3 4 5; echo '7 net'; } >ten.9m
    run 9m tally --as json ten.9m
    same "$(jq -c '.teams[0].all.broke_rate' <<<"$output")" '{"frac":0.4,"low":0.16818,"high":0.687326}'
    run 9m tally ten.9m
    holds "$output" '4/10  40% 17-69'
}

@test "pass average: ace 0, over and play have no grade" {
    { head_of_match; printf '%s\n' '7 ace' '7 over won' '7 in1 won' '7 in2 won' '7 in3 won' '7 play won'; } >p.9m
    same "$(9m tally --as json p.9m | jq -c '.teams[0].all | [.serves, .pass_n, .pass_sum, .over, .play]')" '[6,4,6,1,1]'
}

@test "practices are not added to matches" {
    season
    run 9m tally season
    holds "$output" '3 matches'
    holds "$output" 'Left out: 167 serves of 2 practices (--kind practice).'
    m=$(9m tally --as json season | jq '[.teams[].all.serves] | add')
    p=$(9m tally --as json --kind practice season | jq '[.teams[].all.serves] | add')
    b=$(9m tally --as json --kind both season | jq '[.teams[].all.serves] | add')
    [ "$p" = 167 ]
    [ $((m + p)) = "$b" ]
    run 9m tally season/2026-10-06-practice.9m
    holds "$output" '1 practice'
    lacks "$output" 'Left out'
}

@test "no line is wider than the terminal, and what is left out is said" {
    season
    for width in 30 40 60 80 100 140; do
        COLUMNS=$width 9m tally --by all --team all season >out
        widest=$(python3 -c 'import sys, unicodedata
def cells(s): return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in s)
print(max(cells(l.rstrip("\n")) for l in open("out", encoding="utf-8")))')
        [ "$widest" -le "$width" ] || { echo "$widest cells at $width"; return 1; }
    done
    run 9m tally season
    holds "$output" '(no room for '
    run 9m tally --wide season
    lacks "$output" 'no room'
    holds "$output" ' net  long  left  right  fault'
    same "$(COLUMNS=1000 9m tally --by all season)" "$(9m tally --wide --by all season)"
}

@test "wide letters keep their columns" {
    small_match b.9m '高橋 さくら'
    run 9m tally --wide b.9m
    row=$(grep '^ 7' <<<"$output") all=$(grep '^all' <<<"$output")
    python3 - "$row" "$all" <<'PY'
import sys, unicodedata
def at(s, part):
    s = s[:s.index(part) + len(part)]
    return sum(2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in s)
row, all_ = sys.argv[1:]
assert at(row, "4/6") == at(all_, "4/8"), (row, all_)
PY
}

@test "a name can't drive the terminal" {
    season
    9m tally --partial season | jq '.people[].name = "\u202e\u001b[31mX\nY"' >hostile
    run 9m tally --merge --by receiver hostile
    [ "$status" = 0 ]
    run 9m tally --merge hostile
    [ "$status" = 0 ]
    holds "$output" '<U+202E><1B>[31mX<0A>Y'
    run grep -c "$(printf '\342\200\256')" <<<"$output"
    [ "$output" = 0 ]
}

@test "CSV: one head, equal columns, CRLF, no formula" {
    season
    small_match a.9m '=1+1, "x'
    sed -i 's/"=1+1, "x"/"=1+1, x"/' a.9m
    9m tally --as csv --by all season a.9m >out.csv
    python3 - <<'PY'
import csv
raw = open("out.csv", newline="", encoding="utf-8").read()
assert raw.count("\n") == raw.count("\r\n")
rows = list(csv.DictReader(raw.splitlines(), strict=True))
assert all(None not in r and None not in r.values() for r in rows)
assert any(r["name"] == "'=1+1, x" for r in rows)
for r in rows:
    errors = sum(int(r[k]) for k in "net long left right antenna ceiling mate foot clock order drop screen".split())
    assert errors == int(r["errors"]), r
    assert int(r["broke"]) == int(r["ace"]) + int(r["over"]) + int(r["in1"]), r
    if int(r["serves"]):
        assert float(r["broke_low"]) <= float(r["broke_frac"]) <= float(r["broke_high"]), r
    else:
        assert r["broke_frac"] == "", r
PY
}

@test "JSON and CSV say the same" {
    season
    9m tally --as csv --by zone season | python3 -c 'import csv, sys
for r in csv.DictReader(sys.stdin): print(r["team"], r["row"] or "null", r["serves"], r["broke"], r["won"], r["pass_n"], r["pass_sum"])' >a
    9m tally --as json --by zone season | jq -r '.teams[] | .team as $t | .zone[] |
        [$t, .row, .serves, .broke, .won, .pass_n, .pass_sum] | map(tostring) | join(" ")' >b
    cmp a b
    [ -s a ]
}

@test "parts add up to the whole, in any order, and say so again" {
    season
    for f in season/2*.9m; do 9m tally --partial -o "$(basename "$f" .9m).json" "$f"; done
    9m tally --partial season >whole
    9m tally --merge --partial 2*.json | cmp - whole
    # shellcheck disable=SC2046
    9m tally --merge --partial $(ls -r 2*.json) | cmp - whole
    9m tally --merge --partial 2026-10-03-foxes.json 2026-10-17-swifts.json -o half
    9m tally --merge --partial half 2026-10-06-practice.json 2026-10-13-practice.json \
        2026-10-10-larks.json | cmp - whole
    same "$(9m tally --merge --by all 2*.json)" "$(9m tally --by all season)"
    9m tally --merge --partial - <whole | cmp - whole
    jq -e '.serves | length > 100' whole
}

@test "what two parts count is refused, and both are named" {
    season
    9m tally --partial -o a.json season/2026-10-03-foxes.9m season/herons.9m
    9m tally --partial -o b.json season/2026-10-10-larks.9m season/herons.9m
    cp a.json again.json
    # A copy under another name is the same match.
    cp season/2026-10-03-foxes.9m season/copy.9m
    9m tally --partial -o copy.json season/copy.9m season/2026-10-17-swifts.9m
    for parts in 'a.json b.json again.json' 'b.json a.json copy.json' 'a.json a.json'; do
        # shellcheck disable=SC2086
        run --separate-stderr 9m tally --merge $parts
        [ "$status" = 3 ]
        [ -z "$output" ]
        holds "$stderr" ' both count '
        holds "$stderr" "a.json and ${parts##* }"
    done
    holds "$stderr" "2026-10-03-foxes.9m (SHA-256 $(sha256sum <season/2026-10-03-foxes.9m | cut -c 1-12)...)"
    # Merged once they stay known; a squad is no match and may stand in both.
    9m tally --merge --partial -o half.json a.json b.json
    run -3 9m tally --merge half.json copy.json
    same "$(jq -r '.files[][1]' half.json | sort)" '2026-10-03-foxes.9m
2026-10-10-larks.9m'
}

@test "any number of threads gives the same bytes" {
    season
    for i in 1 2 3 4 5 6 7 8 9 10 11 12; do cp season/2026-10-03-foxes.9m "season/c$i.9m"; done
    for args in '--by all' '--partial' '--as csv'; do
        # shellcheck disable=SC2086
        9m tally $args season >one
        for n in 2 3 8 64; do
            # shellcheck disable=SC2086
            9m tally $args --threads $n season | cmp - one
        done
    done
    for i in 2 5 9; do echo '7 nett' >>"season/c$i.9m"; done
    9m tally season >one 2>&1 && return 1
    for n in 2 3 8; do
        9m tally --threads $n season >two 2>&1 && return 1
        cmp one two
    done
}

@test "notes with errors give no figures" {
    season
    echo '7 nett' >>season/2026-10-10-larks.9m
    run --separate-stderr 9m tally season
    [ "$status" = 1 ]
    [ -z "$output" ]
    holds "$stderr" 'error: "nett" is not an outcome [E201]'
    holds "$stderr" 'no figures from notes with errors'
    run --separate-stderr 9m tally --partial season -o out.json
    [ "$status" = 1 ]
    [ ! -e out.json ]
    run --separate-stderr 9m tally --partial-data season
    [ "$status" = 1 ]
    holds "$output" 'INCOMPLETE: 1 file with gaps or lines not read'
    holds "$output" 'Mira Havelin'
}

@test "a file that can't be read is told, with exit code 3" {
    season
    run --separate-stderr 9m tally season nowhere.9m
    [ "$status" = 3 ]
    [ -z "$output" ]
    holds "$stderr" 'nowhere.9m'
    run --separate-stderr 9m tally --partial-data season nowhere.9m
    [ "$status" = 3 ]
    holds "$output" 'Mira Havelin'
}

@test "a team by a word of its name" {
    season
    run 9m tally --team foxes season
    holds "$output" 'Granite Foxes'
    same "$(9m tally --team FOX season)" "$output"
    run --separate-stderr 9m tally --team bears season
    [ "$status" = 2 ]
    holds "$stderr" 'no team "bears"; there are Harbour Herons, Granite Foxes'
    small_match a.9m
    run --separate-stderr 9m tally --team foxes season a.9m
    [ "$status" = 0 ]
    lacks "$output" 'Granite Foxes
'
}

@test "what is no file of counts is refused" {
    season
    9m tally --partial season >whole
    run --separate-stderr 9m tally --merge season/herons.9m
    [ "$status" = 3 ]
    holds "$stderr" 'no JSON'
    echo '{"schema": 2}' >other
    run --separate-stderr 9m tally --merge other
    [ "$status" = 3 ]
    holds "$stderr" 'no file of counts'
    for broken in '.serves[0][0] = 9999' '.serves[0][0] = -1' '.serves[3][3] = 0' '.serves[0][1] = "x"' \
        '.serves[5][2] = "ace"' '.serves[5][2] |= sub("^[a-z0-9]+"; "replay")' '.serves[5][2] += " x"' \
        '.people[2].shirt = 300' '.people[0].team = 3' '.serves[1] = 5' '.matches = -1' \
        '.serves[0][3] = 1000000001' '.files[1] = 5' '.files[0][0] = "a"' \
        '.files[0][0] |= sub("."; "G")' 'del(.files)' '.serves[0][2] |= sub("^"; " ")'; do
        jq "$broken" whole >broken
        run --separate-stderr 9m tally --merge broken whole
        [ "$status" = 3 ] || { echo "$broken"; return 1; }
        [ -z "$output" ]
    done
}

@test "wrong usage" {
    for args in '--by shirt x' '--threads 0 x' '--threads 65 x' '--partial --by zone x' '--as xml x' \
        '--merge --partial-data x' ''; do
        # shellcheck disable=SC2086
        run --separate-stderr 9m tally $args
        [ "$status" = 2 ] || { echo "$args"; return 1; }
        [ -z "$output" ]
    done
    small_match a.9m
    grep -v '^[0-9G]' a.9m >none.9m
    run --separate-stderr 9m tally none.9m
    [ "$status" = 1 ]
    holds "$stderr" 'no serve'
}

@test "a file that is missing leaves no figures, and that is said" {
    season
    ln -s nowhere.9m season/dead.9m
    run --separate-stderr 9m tally season
    [ "$status" = 3 ]
    [ -z "$output" ]
    holds "$stderr" 'no figures from files that could not be read; --partial-data goes on without them'
    run -3 --separate-stderr 9m tally --partial-data season
    holds "$output" 'broke their pass'
}

@test "counts without --merge are told by one line, not read as notes" {
    season
    9m tally --partial -o counts.json season
    run --separate-stderr 9m tally counts.json
    [ "$status" = 2 ]
    holds "$stderr" '9m: counts.json: counts are added up by --merge'
    [ "${#stderr_lines[@]}" -le 3 ]
    9m tally --merge counts.json
}

@test "standard input, and a result in a file" {
    season
    cp season/herons.9m .
    9m tally -o out - <season/2026-10-03-foxes.9m
    same "$(cat out)" "$(9m tally season/2026-10-03-foxes.9m)"
}

@test "--partial-data counts a line with one likely mend as mended, as its help says" {
    notes '7 nett' >one.9m
    notes '7 xyz' >none.9m
    same "$(9m tally --as json --partial-data one.9m 2>err | jq '.teams[0].all | [.serves, .errors]' -c)" '[1,1]'
    run 9m tally --partial-data none.9m
    holds "$output" 'no serve of a match or a practice in what was read'
    run -1 9m tally --kind practice one.9m --partial-data
    holds "$output" 'no serve of a practice in what was read'
    for command in advise agree aim card export report scout season tally; do
        holds "$(9m "$command" --help | tr -s ' \n' ' ')" 'one with a single likely mend counts as mended'
    done
}
