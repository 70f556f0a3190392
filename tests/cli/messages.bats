#!/usr/bin/env bats
# What a message must be like, rule by rule.
load kit

# widths FILE: cells of the longest line. Python knows wide letters from the
# Unicode tables (East Asian Width), independent of the program.
widest() {
    python3 -c '
import sys, unicodedata
def cells(line):
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1
               for c in line)
print(max((cells(l.rstrip("\n")) for l in sys.stdin), default=0))'
}

# Lines 6 and on of a match, as messages of the command.
told() { # LINE...
    notes "$@" >harbour.9m
    9m check harbour.9m || [ $? = 1 ]
}

# ---- the first line, and what belongs to it --------------------------------

@test "first line: file:line:col: severity: text [CODE]; the rest is indented" {
    told '7 nett' '7' '7net' >out
    [ "$(grep -cE '^harbour\.9m:[0-9]+:[0-9]+: error: .+ \[E[0-9]{3}\]$' out)" = 3 ]
    # Besides: indented lines, blank lines, the summary.
    [ "$(grep -cvE '^(harbour\.9m:[0-9]+:[0-9]+: .*\]| .*|)$|^harbour\.9m: ' out || true)" = 0 ]
}

@test "--as short is the first lines and nothing else" {
    told '7 nett' '7' '7net' >out
    same "$(9m check --as short harbour.9m || true)" "$(grep -E '^harbour\.9m:[0-9]+:' out)"
}

@test "the sample of a misspelt outcome" {
    same "$(told '7 nett')" "$(cat <<'END'
harbour.9m:6:3: error: "nett" is not an outcome [E201]
    6 | 7 nett
      |   ^^^^
  expected  ace, in1 to in3, play, net, long or another outcome
  try       7 net

harbour.9m: 1 error; 5 of 6 lines read.
END
)"
}

# ---- columns and carets ----------------------------------------------------

# Where the caret stands under the line of the excerpt: the cells before it.
under() {
    python3 -c '
import sys, unicodedata
lines = sys.stdin.read().split("\n")
for line, caret in zip(lines, lines[1:]):
    if caret.strip(" |").startswith("^") and "^" in caret:
        start, end = caret.index("^"), caret.rindex("^") + 1
        cell, found = 0, ""
        for c in line:
            if start <= cell < end:
                found += c
            cell += 0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1
        print(found)'
}

@test "the caret stands under the word: TABs, wide letters, combining marks" {
    same "$(told '7 nett' | under)" nett
    same "$(told "$(printf '7\tm4/3\ttd\tnett')" | under)" nett
    same "$(told "$(printf '\t7 nett')" | under)" nett
    same "$(printf '%s\n' 'notation 1' 'match 2026-10-03 "測試 round" 測' >w.9m; 9m check w.9m | under | head -n 1)" '測'
    same "$(printf '%s\n' 'notation 1' "$(printf 'match 2026-10-03 "re\314\201sume\314\201" oops')" >w.9m
        9m check w.9m | under | head -n 1)" oops
}

@test "the column is the display column: TABs to 8, wide letters 2" {
    holds "$(told "$(printf '7\tm4/3\ttd\tnett')")" 'harbour.9m:6:25: '
    printf '%s\n' 'notation 1' 'match 2026-10-03 "測試" oops' >w.9m
    holds "$(9m check w.9m || true)" 'w.9m:2:25: '
    printf '%s\n' 'notation 1' "$(printf 'match 2026-10-03 "e\314\201" oops')" >w.9m
    holds "$(9m check w.9m || true)" 'w.9m:2:22: '
}

@test "something missing: one caret behind what is there" {
    same "$(told '7' | grep -A1 '  6 | ')" "$(printf '    6 | 7\n      |  ^')"
}

@test "a long line is cut around its caret" {
    long=$(printf 'x%.0s' $(seq 60))
    same "$(told "7 nett # $long$long$long" | under)" nett
    printf '%s\n' 'notation 1' "match 2026-10-03 \"$long$long\" oops # $long$long" >w.9m
    same "$(9m check w.9m | under | head -n 1)" oops
    [ "$(9m check w.9m | widest)" -le 100 ]
    holds "$(9m check w.9m || true)" '...xxx'
}

# ---- nothing raw -----------------------------------------------------------

@test "control and direction characters, bytes that are no UTF-8: shown as escapes" {
    out=$(told "$(printf '7 \033[31mnett')" "$(printf '7 \342\200\256net')" "$(printf '7 net # S\370ren')" \
        "$(printf '7 \302\233net')" "$(printf '7 net\342\200\213')" "$(printf '7\302\240net')" "$(printf '7 \001')")
    for escape in '<1B>[31m' '<U+202E>' 'S<F8>ren' '<U+009B>' '<U+200B>' '7·net' '<01>'; do
        holds "$out" "$escape"
    done
    holds "$out" 'shown as "·"'
    # Printable ASCII, line ends and the middle dot; letters of the hint.
    [ -z "$(printf '%s' "$out" | tr -d '\n' | grep -P '[\x00-\x1f\x7f]')" ]
    [ -z "$(printf '%s' "$out" | grep -P '[\x{80}-\x{9f}\x{ad}\x{200b}-\x{200f}\x{2028}-\x{202e}\x{2066}-\x{2069}]')" ]
    printf '%s' "$out" | iconv -f UTF-8 -t UTF-8 >/dev/null
}

@test "escapes keep the caret under the cause" {
    same "$(told "$(printf '7 net # S\370ren')" | under)" '<F8>'
    same "$(told "$(printf '7 \342\200\256net')" | under)" '<U+202E>'
}

# ---- what it says ----------------------------------------------------------

@test "never a token name, never syntax error, never invalid" {
    out=$(told '7 nett' '7' '7net' 'set' '7 net net' 'x y z' '?' '7 m4/9/9 net' 'lineup H 1 2' 'end 25' \
        '7 t99999 net' '"' '7 "' 'sub H 7 8' '=' '7 net 9')
    for word in 'syntax error' invalid Invalid unexpected token STMT_ OUTCOME NL 'parse'; do
        lacks "$out" "$word"
    done
}

@test "at most five alternatives" {
    told '7 nett' '7' '7 xyzzy' 'set x' 'team' 'observe x' 'focus 7 x' '7 net x' |
        grep '^  expected' | while IFS= read -r line; do
            [ "$(printf '%s' "$line" | tr -cd , | wc -c)" -le 5 ] || { echo "$line"; return 1; }
        done
}

@test "the whole corrected line after try is one that parses" {
    told '7 nett' '7net' '7 m4/3td net' 'H7 tpspin ace' 'lnieup H 7 12 3 9 4 10' '7 nte 5' '2:3' 'G3 nett' >out
    grep '^  try' out | sed 's/^  try  *//' >tries
    [ -s tries ]
    while IFS= read -r line; do
        # Alone behind the head: whatever the match makes of it, the line itself is read.
        notes "$line" >one.9m
        9m check --as json one.9m | jq -e '.summary.unread == 0' >/dev/null || { echo "$line"; return 1; }
    done <tries
}

@test "the edits behind try make the line that try shows" {
    notes '7 nett' '7net' 'G3 nett' >a.9m
    9m check --as json a.9m | jq -r '.messages[] | select(.fix and .try and (.fix.edits | length) == 1)
        | .fix.edits[0] as $e | (.source[0:$e.start.character - 1] + $e.text + .source[$e.end.character - 1:])
        , .try' >pairs || true
    [ "$(wc -l <pairs)" -ge 4 ]
    [ "$(sed -n 'p;n' pairs)" = "$(sed -n 'n;p' pairs)" ]
}

# ---- how many, and in which order ------------------------------------------

@test "k slips give k messages, in the order of the file" {
    for k in 1 2 5 20 50; do
        { head_of_match; for i in $(seq $k); do echo "7 ace"; echo "7 ace oops$i"; done; } >k.9m
        9m check --as short k.9m >out || true
        [ "$(grep -c ': error: ' out)" = $k ]
        sort -t: -k2,2n -k3,3n -s out | cmp - out
        9m check k.9m | tail -n 1 >summary || true
        grep -q " $k error" summary
    done
}

@test "one cause, one message: a line with many slips has one" {
    [ "$(told '7 nett nett 99 xx yy zz' | grep -c '^harbour.9m:6:')" = 1 ]
}

@test "--max-errors: the list ends with how many more there are, all are counted" {
    notes '7 nett' '7 nett' '7 nett' '7 nett' '7 nett' >a.9m
    for form in text short; do
        run 9m check --as $form --max-errors 2 a.9m
        [ "$status" = 1 ]
        [ "$(grep -c E201 <<<"$output")" = 2 ]
        grep -qx 'and 3 more' <<<"$output"
    done
    [ "$(tail -n 1 <<<"$(9m check --max-errors 2 a.9m || true)")" = 'a.9m: 5 errors; 5 of 10 lines read.' ]
    9m check --as json --max-errors 2 a.9m | jq -e '(.messages | length) == 2 and .summary.omitted == 3
        and .summary.errors == 5'
    run 9m check --max-errors 9 a.9m
    lacks "$output" more
}

@test "several files: a summary each, and one of all" {
    notes '7 nett' >a.9m
    good_notes >b.9m
    notes '7 nett' '7 nett' >c.9m
    run 9m check a.9m b.9m c.9m
    [ "$status" = 1 ]
    grep -qx 'a.9m: 1 error; 5 of 6 lines read.' <<<"$output"
    grep -qx 'c.9m: 2 errors; 5 of 7 lines read.' <<<"$output"
    [ "${lines[-1]}" = '2 of 3 files: 3 errors; 18 of 21 lines read.' ]
}

# ---- width -----------------------------------------------------------------

@test "at most 100 columns, whatever the notes" {
    long=$(printf 'x%.0s' $(seq 150))
    told '7 nett' "7 $long" "note \"$long" "7 net # $long nett" "player H7 \"$long\" $long" "drill $long" \
        "$(printf '7\t\t\t\t\t\t\t\t\t\t\t\t\tnett')" '測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測測' >out
    [ "$(widest <out)" -le 100 ]
}

@test "a long message goes on below, its code stays on the first line" {
    long=$(printf 'abcdefghi %.0s' $(seq 9))
    deep=$(printf 'd%.0s' $(seq 40))
    mkdir -p "$deep"
    notes "x${long// /}" >"$deep/a.9m"
    9m check "$deep/a.9m" >out || true
    grep -qE "^$deep/a\.9m:6:[0-9]+: error: .* \[E[0-9]{3}\]$" out
    [ "$(widest <out)" -le 100 ]
}

# ---- severities ------------------------------------------------------------

@test "a line marked ? is listed by --review only, and is no error" {
    notes '7 ace ?' >a.9m
    run --separate-stderr 9m check a.9m
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
    run --separate-stderr 9m check --review a.9m
    [ "$status" = 0 ]
    holds "$output" 'a.9m:6:'
    holds "$output" ': review: '
    holds "$output" 'a.9m: 1 to review; all 6 lines read.'
    9m check --as json a.9m | jq -e '.messages == [] and .summary.reviews == 1'
    9m check --as json --review a.9m | jq -e '.messages[0].severity == "review"'
}

@test "a warning: told, exit 0; with --strict exit 1; silenced with a reason only" {
    { head_of_match; for i in $(seq 16); do echo '7 ace'; done; } >a.9m
    run 9m check a.9m
    [ "$status" = 0 ]
    holds "$output" 'a.9m:21:1: warning: '
    holds "$output" '[W450]'
    run 9m check --strict a.9m
    [ "$status" = 1 ]
    sed -i '$s/$/  # ok W450/' a.9m
    holds "$(9m check a.9m)" '[W450]'
    sed -i '$s/$/ long run, seen on video/' a.9m
    run --separate-stderr 9m check --strict a.9m
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
}

# ---- second places ---------------------------------------------------------

@test "a second place close by stands in the excerpt with its own caret" {
    out=$(told '7 ace 5' 'G4 net')
    holds "$out" 'harbour.9m:7:1: error: G serves here, but H won the rally before [E401]'
    grep -qE '^ +6 \| 7 ace 5$' <<<"$out"
    grep -qE '^ +\| +\^+ see: ' <<<"$out"
    grep -qE '^ +7 \| G4 net$' <<<"$out"
}

@test "a second place far away is named by its line" {
    { head_of_match; echo 'lineup H 7 12 3 9 4 10'; for i in 1 2 3 4 5; do echo "# $i"; done; echo '9 in2'; } >a.9m
    out=$(9m check a.9m || true)
    holds "$out" 'a.9m:12:1: error: 9 serves out of order'
    grep -qE '^  see +line 6  ' <<<"$out"
}

# ---- editors and services --------------------------------------------------

@test "the problem matcher for CI services finds each first line and nothing else" {
    notes '7 nett' '7' '7net' '7 ace ?' >a.9m
    9m check --review a.9m >out || true
    python3 - "$ROOT/examples/ci/problem-matcher.json" out <<'END'
import json, re, sys
pattern = json.load(open(sys.argv[1]))["problemMatcher"][0]["pattern"][0]
found = [re.match(pattern["regexp"], l.rstrip("\n")) for l in open(sys.argv[2])]
found = [m for m in found if m]
assert len(found) == 4, found
first = found[0]
assert first[pattern["file"]] == "a.9m" and first[pattern["line"]] == "6"
assert first[pattern["column"]] == "3" and first[pattern["severity"]] == "error"
assert first[pattern["code"]] == "E201" and "nett" in first[pattern["message"]]
END
}

@test "a pass that there is not is called so, and no mend is made of it" {
    for word in in0 in4 in9; do
        told "7 $word" >out
        holds "$(cat out)" "\"$word\" is not an outcome"
        lacks "$(cat out)" 'a blank is missing'
        cp harbour.9m before
        9m check --fix harbour.9m >out || [ $? = 1 ]
        cmp harbour.9m before
    done
}
