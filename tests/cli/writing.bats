#!/usr/bin/env bats
# Nothing lost: what stands in the way of a write, and standard output. What is
# tried at every call, and at random, is in tests/property/lost.c and killed.c.
load kit

sloppy() {
    head_of_match
    printf '%s\n' '7   ACE' 'G3  net'
}

# Notes that are longer than the limits below.
long_notes() {
    head_of_match
    for i in $(seq 1500); do echo "7   ace  # $i"; done
}

# Takes the lock of a file until it is killed; says "held" when it has it.
hold() { # FILE
    exec python3 - "$1" <<'END'
import fcntl, sys, time
f = open(sys.argv[1], "w")
fcntl.flock(f, fcntl.LOCK_EX)
print("held", flush=True)
time.sleep(60)
END
}

# What a table holds until all is known lies in a file that has no name (spool.c).
@test "files are made in one place of the source, so that none is written otherwise" {
    cd "$ROOT"
    same "$(grep -lE '\<O_(CREAT|TRUNC)\>|fopen\([^)]*"[wa]|\<creat\(|\<rename\(' src/*/*.c)" src/cmd/beside.c
    same "$(grep -l mkstemp src/*/*.c)" src/cmd/spool.c
}

@test "a limit on the size of files: told, exit 3, the old file stays" {
    long_notes >a.9m
    before=$(sha256sum <a.9m)
    run --separate-stderr bash -c 'ulimit -f 8 && 9m fmt a.9m'
    [ "$status" = 3 ]
    holds "$stderr" 'a.9m: not written: File too large'
    same "$(sha256sum <a.9m)" "$before"
    same "$(ls -A)" a.9m
    run --separate-stderr bash -c 'ulimit -f 8 && 9m fmt - <a.9m >b.9m'
    [ "$status" = 3 ]
    holds "$stderr" 'standard output could not be written: File too large'
}

@test "a folder that can only be read: each command that writes says so" {
    open_ground
    mkdir locked
    cp "$ROOT"/examples/season/{2026-10-03-foxes,herons}.9m locked
    chmod 555 locked
    for command in 'report' 'card' 'season -o locked/x' 'scout foxes -o locked/x' 'tally -o locked/x' \
        'tally --partial -o locked/x' 'export -o locked/x' 'export --as sqlite -o locked/x'; do
        # shellcheck disable=SC2086
        run --separate-stderr nobody_9m $command locked/2026-10-03-foxes.9m
        [ "$status" = 3 ] || { echo "$command: $status"; return 1; }
        holds "$stderr" ': not written: Permission denied'
    done
    for command in sheet 'sheet --form' 'new match --date 2026-10-03'; do
        # shellcheck disable=SC2086
        run --separate-stderr nobody_9m $command -o locked/x
        [ "$status" = 3 ] || { echo "$command: $status"; return 1; }
        holds "$stderr" 'locked/x: not written: Permission denied'
    done
    same "$(ls -A locked)" "$(printf '%s\n' 2026-10-03-foxes.9m herons.9m)"
}

@test "standard output on a full disk: every command says so, exit 3" {
    [ -c /dev/full ] || skip 'no /dev/full'
    cp "$ROOT"/examples/season/{2026-10-03-foxes,herons}.9m .
    sloppy >s.9m
    notes '7 nett' >bad.9m
    m=2026-10-03-foxes.9m
    while read -r command; do
        status=0
        # shellcheck disable=SC2086
        9m $command >/dev/full 2>said || status=$?
        [ $status = 3 ] || { echo "$command: exit $status"; cat said; return 1; }
        holds "$(cat said)" 'standard output could not be written: No space left on device'
    done <<END
--version
help
check --help
check bad.9m
check --as json $m
check --as sarif bad.9m
fmt --diff s.9m
fmt --check s.9m
tally $m
tally --as json $m
tally --partial $m
export $m
export --as jsonl $m
export --as sqlite -o - $m
report -o - $m
card --as text $m 7
season -o - $m
scout foxes -o - $m
sheet -o -
new match --date 2026-10-03 -o -
advise $m
advise --as json $m
aim --server 9 $m
agree $m $m
rate 4/20
worth .45 .40
flight --speed 88 --height 2.9 --contact -0.8 --net women
explain td
explain --list
END
    status=0
    9m fmt - <s.9m >/dev/full 2>said || status=$?
    [ $status = 3 ]
    holds "$(cat said)" 'No space left on device'
}

@test "what a killed run left behind is used up by the next" {
    sloppy >a.9m
    echo 'half a fi' >.a.9m.9m-new
    9m fmt a.9m
    grep -qx '7 ace' a.9m
    same "$(ls -A)" a.9m
}

@test "what is no file of ours in its place is left alone" {
    sloppy >a.9m
    before=$(cat a.9m)
    echo precious >other
    ln -s other .a.9m.9m-new
    run --separate-stderr 9m fmt a.9m
    [ "$status" = 3 ]
    same "$stderr" '9m: a.9m: not written: another 9m writes it, or has left .a.9m.9m-new, which can be removed then'
    [ -L .a.9m.9m-new ]
    same "$(cat other)" precious
    same "$(cat a.9m)" "$before"
    rm .a.9m.9m-new
    mkdir .a.9m.9m-new
    run 9m fmt a.9m
    [ "$status" = 3 ]
    same "$(cat a.9m)" "$before"
}

@test "a run waits for another that writes the same file, and can be interrupted meanwhile" {
    sloppy >a.9m
    before=$(cat a.9m)
    mkfifo ready
    hold .a.9m.9m-new >ready 3>&- &
    holder=$!
    read -r word <ready
    same "$word" held
    "$NINEMETRE" fmt a.9m 3>&- &
    fmt=$!
    # It waits for as long as it is watched here.
    for _ in 1 2 3 4 5; do
        sleep 0.1
        kill -0 $fmt
        same "$(cat a.9m)" "$before"
    done
    kill -TERM $fmt
    status=0
    wait $fmt || status=$?
    [ $status = 143 ]
    same "$(cat a.9m)" "$before"
    "$NINEMETRE" fmt a.9m 3>&- &
    fmt=$!
    kill -KILL $holder
    wait $fmt
    grep -qx '7 ace' a.9m
    same "$(ls -A)" "$(printf '%s\n' a.9m ready)"
}

@test "other names of a file keep the old one, which is told" {
    sloppy >a.9m
    cp a.9m before
    ln a.9m b.9m
    run --separate-stderr 9m fmt a.9m
    [ "$status" = 0 ]
    same "$stderr" '9m: a.9m: its other names (hard links) keep the old file'
    grep -qx '7 ace' a.9m
    cmp b.9m before
}

@test "root keeps the owner and the group of a file" {
    [ "$(id -u)" = 0 ] || skip 'not root'
    sloppy >a.9m
    chown 1234:5678 a.9m
    chmod 640 a.9m
    9m fmt a.9m
    grep -qx '7 ace' a.9m
    same "$(stat -c '%u:%g %a' a.9m)" '1234:5678 640'
}

@test "a long name is written, too" {
    name=$(printf 'é%.0s' $(seq 125)).9m
    sloppy >"$name"
    9m fmt "$name"
    grep -qx '7 ace' "$name"
    same "$(ls -A)" "$name"
}
