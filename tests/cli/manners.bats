#!/usr/bin/env bats
# How the command behaves towards shells, scripts and terminals.
load kit

# ---- help and version ------------------------------------------------------

@test "--help goes to standard output, names every command, exit 0" {
    run --separate-stderr 9m --help
    [ "$status" = 0 ]
    [ -z "$stderr" ]
    for word in check report fmt explain Examples Usage 'Exit codes'; do
        holds "$output" "$word"
    done
    lacks "$output" dump
}

@test "-h, help and --help say the same" {
    same "$(9m -h)" "$(9m --help)"
    same "$(9m help)" "$(9m --help)"
}

@test "each command has --help with usage, options and examples" {
    for command in check report fmt explain; do
        run --separate-stderr 9m "$command" --help
        [ "$status" = 0 ]
        [ -z "$stderr" ]
        holds "$output" "Usage: 9m $command"
        holds "$output" Options:
        holds "$output" --color
        holds "$output" Examples:
        same "$(9m help "$command")" "$output"
        same "$(9m "$command" -h)" "$output"
    done
}

@test "every example of a help that needs no file of its own is right usage" {
    good_notes >harbour.9m
    cp harbour.9m draft.9m
    mkdir season
    cp harbour.9m season
    git init -q .
    printf 'Drill: Box toss\nTreats: td\nJumps: no\nSet-up: A box.\n' >season/club.drills
    for command in check fmt explain; do
        9m "$command" --help | sed -n '/^Examples:/,$s/^  \(9m .*\)/\1/p' >examples
        [ -s examples ]
        while IFS= read -r line; do
            line=$(printf %s "$line" | sed 's/   *[a-z].*//')
            bash -c "$line" </dev/null >out 2>&1 || { echo "$line"; cat out; return 1; }
        done <examples
    done
}

@test "no line of a help is wider than 100 columns" {
    for command in '' check report fmt explain dump; do
        9m $command --help | awk 'length > 100 { print; bad = 1 } END { exit bad }'
    done
}

@test "one blank line parts what a help says, none ends it" {
    for command in $(9m --help | sed -n '/^Commands:/,/^$/s/^  \([a-z-]*\) .*/\1/p'); do
        9m "$command" --help >out
        same "$(cat -s out | diff out -)" ''
        [ -n "$(tail -n 1 out)" ]
    done
}

@test "--version names program, version and notation" {
    run --separate-stderr 9m --version
    [ "$status" = 0 ]
    [[ $output =~ ^9m\ [0-9]+\.[0-9]+,\ for\ notation\ 1$ ]]
}

# ---- wrong usage -----------------------------------------------------------

# usage_error EXPECTED ARGUMENT...: exit 2, nothing on standard output.
usage_error() {
    local expected=$1
    shift
    run --separate-stderr 9m "$@"
    [ "$status" = 2 ] || { echo "exit $status of 9m $*"; return 1; }
    [ -z "$output" ] || { echo "output of 9m $*: $output"; return 1; }
    holds "$stderr" "$expected"
}

@test "without arguments: the help on standard error, exit 2" {
    usage_error 'Usage: 9m COMMAND'
}

@test "an unknown command gets the nearest one" {
    usage_error 'did you mean check?' chekc
    usage_error 'did you mean report?' reprot harbour.9m
    usage_error 'did you mean explain?' explian
    usage_error 'did you mean: 9m check harbour.9m' harbour.9m
    usage_error '"frobnicate" is no command' frobnicate
    lacks "$stderr" 'did you mean'
    usage_error '"frobnicate" is no command' help frobnicate
}

@test "an unknown option gets the nearest one" {
    usage_error 'unknown option --revew; did you mean --review?' check --revew x.9m
    usage_error 'unknown option --colour; did you mean --color?' fmt --colour=never x.9m
    usage_error 'did you mean --diff?' fmt -diff x.9m
    usage_error 'unknown option --frobnicate' check --frobnicate x.9m
    lacks "$stderr" 'did you mean'
    usage_error 'unknown option -x' check -x x.9m
    usage_error 'unknown option --check' --check x.9m
}

@test "an option's argument is checked" {
    usage_error 'did you mean json?' check --as jsno x.9m
    usage_error '--as is text, short, json, jsonl or sarif, not "xml"' check --as xml x.9m
    usage_error '--color is auto, always or never, not "blue"' check --color=blue x.9m
    usage_error '--as needs FORM behind it' check x.9m --as
    usage_error '--review takes nothing behind it' check --review=yes x.9m
    for n in 0 -1 x 2x '' 99999999999999999999; do
        usage_error '--max-errors is a whole number from 1' check --max-errors "$n" x.9m
    done
}

@test "missing and superfluous operands" {
    usage_error 'check needs a file, a directory, - for standard input, or --staged' check
    usage_error 'fmt needs a file, a directory or -' fmt
    usage_error 'explain needs a code, a word or a drill, or --list' explain
    usage_error '"more" is too much' dump syntax x.9m more
    usage_error 'sheet takes options only; "season" is too much' sheet --form season
}

@test "options that do not go together" {
    usage_error '--diff goes with --fix' check --diff x.9m
    usage_error '--fix changes files' check --fix -
    usage_error 'both would write to standard output' check --fix --diff --as json x.9m
}

# ---- operands --------------------------------------------------------------

@test "- is standard input" {
    run --separate-stderr 9m check - < <(good_notes)
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
    run 9m check - < <(notes '7 nett')
    [ "$status" = 1 ]
    holds "$output" 'standard input:6:3: error:'
}

@test "what stands behind -- is no option" {
    good_notes >--review
    run --separate-stderr 9m check -- --review
    [ "$status" = 0 ]
    notes '7 nett' >--fix
    run 9m check -- --fix
    [ "$status" = 1 ]
    holds "$output" '--fix:6:3: error:'
}

@test "options may stand behind operands" {
    notes '7 nett' >a.9m
    same "$(9m check a.9m --as short || true)" "$(9m check --as short a.9m || true)"
}

# ---- exit codes ------------------------------------------------------------

@test "exit 0: nothing is printed when all is well" {
    good_notes >a.9m
    run --separate-stderr 9m check a.9m
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
}

@test "exit 1: findings are the result and go to standard output" {
    notes '7 nett' >a.9m
    for form in text short json jsonl sarif; do
        run --separate-stderr 9m check --as $form a.9m
        [ "$status" = 1 ]
        holds "$output" E201
        [ -z "$stderr" ]
    done
}

@test "exit 3: a file that is missing, the others are checked all the same" {
    notes '7 nett' >a.9m
    run --separate-stderr 9m check missing.9m a.9m
    [ "$status" = 3 ]
    holds "$stderr" '9m: missing.9m: No such file or directory'
    holds "$output" 'a.9m:6:3: error:'
}

@test "exit 3: a directory where a file is due" {
    mkdir folder
    run --separate-stderr 9m dump syntax folder
    [ "$status" = 3 ]
    holds "$stderr" folder
}

@test "exit 3: a file that may not be read" {
    open_ground
    good_notes >a.9m
    run nobody_9m check a.9m
    [ "$status" = 0 ]
    chmod 000 a.9m
    run --separate-stderr nobody_9m check a.9m
    [ "$status" = 3 ]
    holds "$stderr" '9m: a.9m: Permission denied'
}

@test "exit 3: a full disk under standard output" {
    notes '7 nett' '7  net' >a.9m
    for arguments in 'check a.9m' 'check --as json a.9m' 'check --as sarif a.9m' 'fmt --diff a.9m' \
        'explain --list' 'explain td' '--help' '--version'; do
        status=0
        9m $arguments 2>said >/dev/full || status=$?
        [ $status = 3 ] || { echo "exit $status of 9m $arguments"; return 1; }
        grep -q 'standard output could not be written' said
    done
}

@test "exit 3: a closed pipe behind standard output" {
    run python3 - "$NINEMETRE" <<'END'
import os, subprocess, sys
reader, writer = os.pipe()
os.close(reader)
done = subprocess.run([sys.argv[1], "explain", "--list"], stdout=writer, stderr=subprocess.PIPE)
print(done.returncode, done.stderr.decode())
END
    same "$output" '3 '
}

@test "exit 3: standard output was closed by the caller; no file is hit instead" {
    notes '7 nett' >a.9m
    cp a.9m before
    status=0
    9m check --fix a.9m 2>/dev/null >&- || status=$?
    [ $status = 3 ]
    status=0
    9m check a.9m 2>&- >out || status=$?
    [ $status = 1 ]
    head -n 1 a.9m | grep -qx 'notation 1'
}

# ---- colours ---------------------------------------------------------------

# Whether a run is coloured. TERM is that of a common terminal.
coloured() { # WHEN NO_COLOR CLICOLOR_FORCE TTY
    local command="env TERM=xterm NO_COLOR=$2 CLICOLOR_FORCE=$3 $NINEMETRE check --color=$1 a.9m"
    if [ "$4" = tty ]; then
        script -qec "$command" /dev/null </dev/null >out || true
    else
        $command >out || true
    fi
    grep -q E201 out
    if grep -q $'\033\[' out; then echo yes; else echo no; fi
}

@test "colour: the option, then NO_COLOR, then CLICOLOR_FORCE, then the terminal" {
    notes '7 nett' >a.9m
    rows=0
    # An empty variable counts as unset (no-color.org); - stands for empty here.
    while read -r when no_color force where expected; do
        got=$(coloured "$when" "${no_color#-}" "${force#-}" "$where")
        [ "$got" = "$expected" ] || { echo "$when $no_color $force $where: $got"; return 1; }
        rows=$((rows + 1))
    done <<'END'
auto   - - pipe no
auto   - - tty  yes
auto   - 1 pipe yes
auto   - 1 tty  yes
auto   1 - pipe no
auto   1 - tty  no
auto   1 1 pipe no
auto   1 1 tty  no
always - - pipe yes
always - - tty  yes
always - 1 pipe yes
always - 1 tty  yes
always 1 - pipe yes
always 1 - tty  yes
always 1 1 pipe yes
always 1 1 tty  yes
never  - - pipe no
never  - - tty  no
never  - 1 pipe no
never  - 1 tty  no
never  1 - pipe no
never  1 - tty  no
never  1 1 pipe no
never  1 1 tty  no
END
    [ $rows = 24 ]
}

@test "colour: CLICOLOR_FORCE=0 forces nothing, a dumb terminal gets none" {
    notes '7 nett' >a.9m
    [ "$(coloured auto '' 0 pipe)" = no ]
    script -qec "env TERM=dumb $NINEMETRE check a.9m" /dev/null </dev/null >out || true
    lacks "$(cat out)" $'\033'
}

@test "colour says nothing that the words do not" {
    notes '7 nett' '7net' '7' >a.9m
    same "$(9m check --color=always a.9m | sed 's/\x1b\[[0-9;]*m//g')" "$(9m check a.9m || true)"
}

@test "data forms are never coloured" {
    notes '7 nett' >a.9m
    for form in json jsonl sarif; do
        lacks "$(9m check --color=always --as $form a.9m)" $'\033'
    done
}

@test "no bar and no carriage return when standard error is no terminal" {
    mkdir tree
    for i in $(seq 200); do good_notes | sed "2s/2026/$((1800 + i))/" >tree/$i.9m; done
    run --separate-stderr 9m check tree
    [ "$status" = 0 ]
    [ -z "$output$stderr" ]
}

# ---- independence ----------------------------------------------------------

@test "locale, time zone and directory change nothing" {
    notes '7 nett' 'player "x"' >a.9m
    expected=$(9m check a.9m || true)
    same "$(LC_ALL=C TZ=Asia/Tokyo 9m check a.9m || true)" "$expected"
    same "$(LC_ALL=tr_TR.UTF-8 LANG=tr_TR.UTF-8 9m check a.9m || true)" "$expected"
}

@test "no configuration is read and none is written" {
    mkdir home
    good_notes >a.9m
    HOME=$PWD/home XDG_CONFIG_HOME=$PWD/home 9m check a.9m
    env -i "$NINEMETRE" check a.9m
    [ -z "$(ls -A home)" ]
}

@test "a bar on a terminal, after a while, and it is gone before a message and at the end" {
    mkdir tree
    for i in $(seq 10 73); do good_notes | sed "2s/2026/$((1800 + i))/" >tree/$i.9m; done
    notes '7   nett' >tree/20.9m
    mkfifo slow.9m
    good_notes >notes
    for command in check 'fmt --diff' 'tally --partial-data' 'export --partial-data -o out.csv' \
        'season --partial-data -o out.pdf'; do
        # Without a reader the writer would wait for ever.
        timeout 30 sh -c 'sleep 2.1; cat notes >slow.9m' &
        TERM=xterm script -qec "$NINEMETRE $command -j 1 slow.9m tree" /dev/null </dev/null >out || true
        wait
        tr '\r' '\n' <out >lines
        grep -qE '^\[ *#* *\] [0-9]+ of 65 files$' lines
        grep -A1 '\] [0-9]* of 65' lines | grep -qF $'\033[K'
        # Whatever follows the bar on the same line of the terminal clears it first.
        ! grep -qE 'of 65 files.' lines
        grep -F 'nett' lines
        [ "$(grep -E '^\[|^.\[K' lines | tail -n 1 | cut -c 1-3)" = $'\033[K' ]
        9m "${command%% *}" -j 1 notes tree >said 2>&1 || true
        ! grep -q 'of 65' said
    done
}
