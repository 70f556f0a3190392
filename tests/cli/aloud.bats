#!/usr/bin/env bats
# Notes in words.
load kit

# What one line of a match says, and of a practice; both have named players.
said() { # LINE
    { head_of_match | sed '$d'; printf '%s\n' 'player H7 "Mira Havelin"' 'set 1 H' "$1"; } |
        9m aloud - | tail -n 1
}

practised() { # LINE
    printf '%s\n' 'notation 1' 'practice 2026-10-06' 'team H "Herons" women' \
        'player H7 "Mira Havelin"' "$1" | 9m aloud - | tail -n 1
}

@test "a serve: who, from where, how, what came of it, where it landed" {
    same "$(said '7 net')" '7 Mira Havelin: into the net'
    same "$(said '7 topspin m4/3 ad5 safe t5.6 j-0.4 c+0.35 h3.05 v88 f0.95 w6.5 td hs long+0.5 won 1:02:03 ?')" \
        '7 Mira Havelin: jump topspin, from the middle, 4 paces back, 3 steps; aimed at the last metre of zone 5; told, or meant, to keep it in, toss 5.6 m high, take-off 0.4 m behind the end line, contact 0.35 m past the end line, contact 3.05 m high, 88.0 km/h, 0.95 s of flight, 6.5 s from whistle to hit; toss down: too low; arm slowed before the hit; out over the end line by 0.5 m; rally won; video 1:02:03; not sure'
    same "$(said 'g3 p1.5 in1 going 5-6 by11 lost 7:02')" \
        "G3: from 1.5 m inside her right side line; in play, a pass of 1; the ball was going out and was played all the same; at the seam of zones 5 and 6; received by 11; rally lost; video 7:02"
    same "$(said '12 back4 ace overlap 2.1,8.4')" \
        "12: 4 paces back; ace; the receivers were out of position; at 2.1 m from the server's right and 8.4 m from the net"
    same "$(said 'G overlap')" 'G, shirt not seen: the receivers were out of position'
    same "$(practised '7 in d5-6 x3')" \
        '7 Mira Havelin: landed in; at the last metre of the seam of zones 5 and 6; 3 times'
}

@test "a point for the server is said with her name, behind a line with a fault too" {
    notes '7 ace' '. in3' 'G4 nett' '. net' >a.9m
    same "$(9m aloud a.9m | tail -n 4)" "$(printf '%s\n' '7: ace' '7: in play, a pass of 3' 'G4 nett' 'G4: into the net')"
}

@test "every statement of a match" {
    while IFS='|' read -r line words; do
        same "$(said "$line")" "$words" || { echo "$line"; return 1; }
    done <<'END'
notation 1|Notation 1
venue "Quay Street Hall"|Venue: Quay Street Hall
scorer "A. Bench"|Scorer: A. Bench
note "at the bench"|Note: at the bench
squad "none.9m"|People and rules from none.9m
rules fivb|Rules: fivb
rule substitutions 8|Own rule: substitutions 8
netheight 2.35|Net: 2.35 m
record ours|Recorded: only our serves are written
observe toss nerve|Observed: toss, nerve
observe all|Observed: every phase
observe none|Observed: no phase
short red = net|Shorthand: red for net
focus 7 td "Ring toss" 14/20|Focus of 7 Mira Havelin: toss down: too low; drill "Ring toss"; goal 14 of 20
plan by11|Plan: serve at their 11
plan 5-6|Plan: serve at the seam of zones 5 and 6
set 2|Set 2
set 2 G|Set 2: first serve by Foxes
end 25-22|End of the set 25-22
lineup H 7 12 3 9 4 10|Line-up of Herons, zones 1 to 6: 7 Mira Havelin, 12, 3, 9, 4, 10
sub H 14 for 7 extra|In comes 14 for 7 Mira Havelin, an exceptional substitution
timeout G|Time-out of Foxes
2-3|Score 2-3
point G "red card"|A point without a serve for Foxes: red card
cancel H 1|1 point taken back from Herons
cancel H 2|2 points taken back from Herons
gap 12-9 H|Lines are missing here; score 12-9, next serve by Herons
turn G 2|2 points in an unwritten turn of Foxes
forfeit G|Foxes cannot go on
libero G 5 6|Libero: G5, G6
player H9 "Ana Lindbro" jumpfloat r3/3 t5.0 lefthanded|Player H9: Ana Lindbro, jump float, from the right, 3 paces back, 3 steps, toss 5.0 m high, hits with the left hand
team K "Kites" men|Team K: Kites, men
match 2026-10-03 18:30 "Harbour League"|Match of 2026-10-03 18:30: Harbour League
END
}

@test "every statement of a practice" {
    while IFS='|' read -r line words; do
        same "$(practised "$line")" "$words" || { echo "$line"; return 1; }
    done <<'END'
practice 2026-10-06|Practice of 2026-10-06
drill "Last metre" ad6|Drill "Last metre", aimed at the last metre of zone 6
ring 1.0|Ring: 1.0 m wide
toss 7 6/10 tn3 tl1|Tosses of 7 Mira Havelin: 6 of 10 in the ring; 3 with toss near: over the head; 1 with toss to the left
tries 7 8/10|Tries of 7 Mira Havelin: 8 of 10
jumps 7 40|Jump serves of 7 Mira Havelin not written one by one: 40
END
}

@test "no statement of the notation is left out" {
    said=$(sed -n '/^END/d; /^[a-z]* .*|/s/ .*//p' "$BATS_TEST_DIRNAME/aloud.bats" | sort -u)
    for word in $(9m explain --list | sed -n 's/^\([a-z]*\) *a statement: .*/\1/p'); do
        case $word in score) continue ;; esac # its line is the points alone
        holds " $(echo $said) " " $word "
    done
}

@test "a line for each line, whatever stands in it" {
    notes '' '7  net  # why' '# alone' '7 nett' "$(printf '7 net # S\370ren\033[31m')" '' >a.9m
    printf '<<<<<<< ours\n7 net\n=======\n7 ace\n>>>>>>> theirs\nG3 ace' >>a.9m
    run --separate-stderr 9m aloud a.9m
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    same "$(9m aloud a.9m | tail -n +6)" "$(printf '%s\n' '' '7: into the net  # why' '# alone' '7 nett' \
        '7 net # S<F8>ren<1B>[31m' '' '<<<<<<< ours' '7 net' '=======' '7 ace' '>>>>>>> theirs' 'G3: ace')"
    for f in "$ROOT"/examples/season/*.9m "$ROOT"/examples/*.9m; do
        [ "$(9m aloud "$f" | wc -l)" = "$(wc -l <"$f")" ] || { echo "$f"; return 1; }
    done
}

@test "spelling, line ends and a byte order mark change no word" {
    good_notes >a.9m
    { printf '\357\273\277'; sed 's/$/\r/; s/ /   /; s/^7/H7/; s/ace/ACE/' a.9m; } >b.9m
    cmp <(9m aloud a.9m) <(9m aloud b.9m)
}

@test "names of the squad file; with --alone those of the file only, wherever it lies" {
    printf '%s\n' 'notation 1' 'team H "Herons" women' 'player H7 "Mira Havelin"' >s.9m
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'squad "s.9m"' 'team G "Foxes"' 'player G3 "Una Stone"' \
        'set 1 H' '7 ace' '7 net' 'G3 net' >a.9m
    holds "$(9m aloud a.9m)" '7 Mira Havelin: ace'
    holds "$(9m aloud --alone a.9m)" $'\n7: ace'
    holds "$(9m aloud --alone a.9m)" 'G3 Una Stone: into the net'
    echo 'short rot = net' >>s.9m
    echo '7 rot' >>a.9m
    same "$(9m aloud a.9m | tail -n 1)" '7 Mira Havelin: into the net'
    same "$(9m aloud --alone a.9m | tail -n 1)" '7 rot'
    mkdir elsewhere
    cp a.9m elsewhere
    cmp <(9m aloud --alone a.9m) <(9m aloud --alone elsewhere/a.9m)
}

@test "a club's drills, nothing, a folder, a file that is not there" {
    same "$(9m aloud "$ROOT/examples/season/herons.drills")" "$(cat "$ROOT/examples/season/herons.drills")"
    [ -z "$(9m aloud - </dev/null)" ]
    run --separate-stderr 9m aloud .
    [ "$status" = 3 ]
    run --separate-stderr 9m aloud nowhere.9m
    [ "$status" = 3 ]
    holds "$stderr" '9m: nowhere.9m: No such file'
}
