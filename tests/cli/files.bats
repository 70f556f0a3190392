#!/usr/bin/env bats
# Trees of files, and how files are written.
load kit

# ---- trees -----------------------------------------------------------------

@test "a tree is read sorted by name, the same everywhere" {
    mkdir -p s/b s/a
    for f in s/b/2.9m s/b/1.9m s/a/9.9m s/z.9m s/B.9m s/é.9m; do notes '7 nett' >"$f"; done
    same "$(9m check --as short s | cut -d: -f1 || true)" \
        "$(printf '%s\n' s/B.9m s/a/9.9m s/b/1.9m s/b/2.9m s/z.9m s/é.9m)"
}

@test "hidden directories and files, and other names, are left out" {
    mkdir -p s/.git s/sub
    good_notes >s/a.9m
    notes '7 nett' | tee s/.git/x.9m s/.x.9m s/notes.txt s/9m >s/a.9m.bak
    run --separate-stderr 9m check s
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
}

@test "a file named on the command line is read whatever its name" {
    notes '7 nett' >notes.txt
    run 9m check notes.txt
    [ "$status" = 1 ]
}

@test "a directory without notes is told: nothing was checked" {
    mkdir -p empty/sub
    run --separate-stderr 9m check empty
    [ "$status" = 3 ]
    holds "$stderr" 'empty: no .9m file in this directory'
}

@test "loops of links end, each directory is read once" {
    mkdir -p s/a
    notes '7 nett' >s/a/x.9m
    ln -s .. s/a/up
    ln -s a s/b
    ln -s /nowhere s/dangling
    run --separate-stderr timeout 10 "$NINEMETRE" check --as short s
    [ "$status" = 1 ]
    [ -z "$stderr" ]
    [ "${#lines[@]}" = 1 ]
    holds "$output" s/a/x.9m
}

# said ARG...: which files a run of check names, in its order.
named() {
    9m check --as short "$@" 2>/dev/null | cut -d: -f1 | uniq | tr '\n' ' '
}

@test "a link that leads nowhere is told" {
    mkdir s
    notes '7 nett' >s/a.9m
    ln -s nowhere s/bad.9m
    ln -s nowhere s/other
    run --separate-stderr 9m check --as short s
    [ "$status" = 3 ]
    holds "$output" s/a.9m:6:3
    same "$stderr" '9m: s/bad.9m: No such file or directory'
}

@test "no link is followed out of the tree, each is told once; an operand may be a link" {
    mkdir -p s/sub far/deep
    for f in far/deep/x.9m far/y.9m s/a.9m; do notes '7 nett' >$f; done
    echo other >far/other.txt
    ln -s ../far s/folder
    ln -s ../../far/y.9m s/sub/file.9m
    ln -s "$PWD/far/deep" s/sub/absolute
    ln -s ../far/other.txt s/other.txt
    run --separate-stderr 9m check --as short s
    [ "$status" = 1 ]
    same "${#lines[@]}" 1
    same "$stderr" "$(printf '9m: s/%s: a link that leads out of s, not followed\n' folder sub/absolute sub/file.9m)"
    ln -s s operand
    same "$(named operand)" 'operand/a.9m '
    cp far/y.9m before
    9m fmt s 2>/dev/null || true
    cmp far/y.9m before
}

@test "of many links out of the tree ten are told" {
    mkdir s
    good_notes >s/a.9m
    good_notes >out.9m
    for i in $(seq 25); do ln -s ../out.9m s/l$i.9m; done
    run --separate-stderr 9m check s
    [ "$status" = 0 ]
    same "${#stderr_lines[@]}" 11
    same "${stderr_lines[10]}" '9m: s: and 15 more left out'
}

@test "a file that links lead to is read once" {
    mkdir -p s/a s/.kept/deep
    notes '7 nett' | tee s/a/x.9m s/.kept/h.9m s/.kept/deep/d.9m >s/notes.txt
    ln -s a/x.9m s/again.9m
    ln -s a s/also
    ln -s notes.txt s/text.9m
    ln -s text.9m s/text2.9m
    ln -s .kept s/kept
    ln -s .kept/deep s/z
    ln -s .kept/h.9m s/zz.9m
    ln -s .. s/.kept/deep/up
    ln -s ../.. s/.kept/deep/top
    same "$(named s)" 's/a/x.9m s/kept/deep/d.9m s/kept/h.9m s/text.9m '
    same "$(named s/ -j 3)" 's/a/x.9m s/kept/deep/d.9m s/kept/h.9m s/text.9m '
    9m tally --partial --partial-data s 2>/dev/null | jq -e '.matches == 4'
}

@test "pipes and sockets that are named like notes are left out and told" {
    mkdir s
    good_notes >s/a.9m
    mkfifo s/pipe.9m s/pipe
    python3 -c 'import socket; socket.socket(socket.AF_UNIX).bind("s/socket.9m")'
    for command in check tally export fmt; do
        run --separate-stderr timeout 10 "$NINEMETRE" $command s
        [ "$status" = 0 ] || { echo "$command: $status, $stderr"; return 1; }
        same "$stderr" "$(printf '9m: s/%s.9m: no file that lies on the disk, not read\n' pipe socket)"
    done
}

@test "a folder that may not be read is told, and the others are read" {
    open_ground
    mkdir -p s/a s/shut s/z
    notes '7 nett' | tee s/a/1.9m s/shut/2.9m >s/z/3.9m
    chmod 0 s/shut
    run --separate-stderr nobody_9m check --as short s
    chmod 755 s/shut
    [ "$status" = 3 ]
    same "$stderr" '9m: s/shut: Permission denied'
    same "$(printf '%s\n' "$output" | cut -d: -f1 | tr '\n' ' ')" 's/a/1.9m s/z/3.9m '
}

@test "a slash behind a directory is not doubled" {
    mkdir s
    notes '7 nett' >s/a.9m
    holds "$(9m check --as short s/ || true)" 's/a.9m:6:3: '
    lacks "$(9m check --as short s/ || true)" 's//'
}

@test "5,000 files need no more memory than the largest of them" {
    needs_own_memory
    mkdir one many
    { good_notes; for i in $(seq 300); do echo "# a remark of some length, number $i"; done; } >one/a.9m
    awk '{ line[NR] = $0 }
        END {
            for (i = 1; i <= 5000; i++) { # a match a year
                file = "many/" i ".9m"
                line[2] = sprintf("match %04d-10-03", 2000 + i)
                for (k = 1; k <= NR; k++) print line[k] >file
                close(file)
            }
        }' one/a.9m
    peak() {
        python3 - "$NINEMETRE" "$1" <<'END'
import resource, subprocess, sys
subprocess.run([sys.argv[1], "check", sys.argv[2]], check=True)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
END
    }
    one=$(peak one) many=$(peak many)
    # The list of 5,000 names itself takes some 64 bytes a name.
    [ $((many - one)) -lt 2048 ] || { echo "$one KiB for one file, $many for 5,000"; return 1; }
}

# ---- names -----------------------------------------------------------------

@test "names with blanks, colons, letters of all kinds and line ends" {
    for name in 'a b.9m' 'a:7:b.9m' 'Łódź ё.9m' $'line\nend.9m' $'esc\033[31m.9m' '"q".9m'; do
        notes '7 nett' >"./$name"
        run --separate-stderr 9m check "./$name"
        [ "$status" = 1 ]
        [ -z "$stderr" ]
        lacks "$output" $'\033'
        [ "$(printf '%s\n' "$output" | grep -c 'E201')" = 1 ]
        9m check --as json "./$name" | jq -e --arg name "./$name" '.messages[0].file == $name'
    done
}

@test "a name that is not UTF-8 is shown as escapes and stays valid JSON" {
    name=$(printf 'S\370ren.9m')
    notes '7 nett' >"$name"
    holds "$(9m check "$name" || true)" 'S<F8>ren.9m:6:3: error:'
    9m check --as json "$name" | jq -e '.messages[0].file == "S\ufffdren.9m"'
    9m check --as sarif "$name" |
        jq -e '.runs[0].results[0].locations[0].physicalLocation.artifactLocation.uri == "S%F8ren.9m"'
}

# ---- writing ---------------------------------------------------------------

sloppy() {
    head_of_match
    printf '%s\n' '7   ACE' 'G3  net'
}

@test "a file keeps its mode" {
    for mode in 600 644 640 755; do
        sloppy >a.9m
        chmod $mode a.9m
        9m fmt a.9m
        grep -qx '7 ace' a.9m
        [ "$(stat -c %a a.9m)" = $mode ]
    done
}

@test "a link stays a link, its target is changed" {
    mkdir -p far/away
    sloppy >far/away/real.9m
    ln -s away/real.9m far/second.9m
    ln -s far/second.9m first.9m
    9m fmt first.9m
    [ -L first.9m ]
    [ -L far/second.9m ]
    grep -qx '7 ace' far/away/real.9m
}

@test "a canonical file is not touched" {
    good_notes >a.9m
    touch -d 2001-02-03 a.9m
    before=$(stat -c '%i %Y' a.9m)
    9m fmt a.9m
    same "$(stat -c '%i %Y' a.9m)" "$before"
}

@test "a directory that may not be written: told, exit 3, nothing left behind" {
    open_ground
    mkdir locked
    sloppy >locked/a.9m
    chmod 666 locked/a.9m
    chmod 555 locked
    before=$(cat locked/a.9m)
    run --separate-stderr nobody_9m fmt locked/a.9m
    chmod 755 locked
    [ "$status" = 3 ]
    holds "$stderr" 'locked/a.9m: not written: Permission denied'
    same "$(cat locked/a.9m)" "$before"
    same "$(ls -A locked)" a.9m
}

@test "a file that is protected from writing is left alone" {
    open_ground
    sloppy >a.9m
    chmod 444 a.9m
    before=$(cat a.9m)
    run --separate-stderr nobody_9m fmt a.9m
    [ "$status" = 3 ]
    holds "$stderr" 'a.9m: not written: Permission denied'
    same "$(cat a.9m)" "$before"
    same "$(ls -A)" a.9m
}

@test "a full disk: the old file stays whole, nothing is left behind" {
    mkdir small
    if ! mount -t tmpfs -o size=64k none small 2>/dev/null; then skip 'no right to mount'; fi
    { head_of_match; for i in $(seq 2500); do echo "7   ace  # $i"; done; } >small/a.9m || true
    [ "$(stat -c %s small/a.9m)" -gt 33000 ] || { umount small; false; }
    before=$(sha256sum <small/a.9m)
    status=0
    9m fmt small/a.9m 2>said || status=$?
    after=$(sha256sum <small/a.9m) left=$(ls -A small)
    umount small
    [ $status = 3 ] || { echo "exit $status"; return 1; }
    holds "$(cat said)" 'No space left on device'
    same "$after" "$before"
    same "$left" a.9m
}

@test "killed in the middle of many files: each is the old one or the new one" {
    mkdir many
    sloppy >old
    9m fmt - <old >new
    for i in $(seq 300); do cp old many/$i.9m; done
    "$NINEMETRE" fmt many &
    pid=$!
    sleep 0.05
    kill -KILL $pid 2>/dev/null || true
    wait $pid || true
    for f in many/*.9m; do
        cmp -s "$f" old || cmp -s "$f" new || { echo "$f is neither"; return 1; }
    done
}

@test "any number of threads gives the same messages" {
    cp -r "$ROOT/examples/season" season
    mkdir empty
    for i in 1 2 3 4 5 6 7 8 9 10 11 12; do cp season/2026-10-03-foxes.9m "season/c$i.9m"; done
    for i in 2 5 9; do echo '7 nett' >>"season/c$i.9m"; done
    echo 'player H7 "Twice"' >>season/herons.9m
    for args in '' --review '--as json' '--as jsonl' '--as sarif' '--as short --max-errors 4' --strict; do
        # shellcheck disable=SC2086
        9m check $args season empty missing.9m season/c2.9m >one 2>&1 && return 1
        [ -s one ]
        for n in 1 2 7 64; do
            # shellcheck disable=SC2086
            9m check $args --threads $n season empty missing.9m season/c2.9m >two 2>&1 && return 1
            cmp one two
        done
    done
    9m check -j 3 "$ROOT/examples/season"
}

@test "threads are a number, and not for mends" {
    run 9m check --threads 0 x.9m
    [ "$status" = 2 ]
    run 9m check --threads 65 x.9m
    [ "$status" = 2 ]
    run 9m check --threads 2 --fix x.9m
    [ "$status" = 2 ]
    holds "$output" '--fix changes files one after the other'
}
