#!/usr/bin/env bats
# What shows only when several files are checked together.
load kit

two() {
    mkdir autumn
    good_notes >autumn/a.9m
    good_notes | sed -e 's/2026-10-03/2026-10-10/' -e 's/"Foxes"/"Larks"/' >autumn/b.9m
    sed -i '/^team H/a player H7 "Mira Havelin"\nplayer H12 "Ana Tarn"' autumn/a.9m
    sed -i '/^team H/a player H7 "Mira Haveln"\nplayer H12 "Ana Tarn"' autumn/b.9m
}

@test "a name that differs by a letter: both places, and it is counted" {
    two
    run --separate-stderr 9m check autumn
    [ "$status" = 0 ]
    holds "$output" 'autumn/b.9m:4:8: warning: "Mira Haveln" here and "Mira Havelin" elsewhere'
    holds "$output" 'see       autumn/a.9m:4  Mira Havelin, 7, on 2026-10-03'
    holds "$output" '1 of 2 files: 1 warning; all 20 lines read.'
    run 9m check --strict autumn
    [ "$status" = 1 ]
    run 9m check --as short autumn
    [ "${#lines[@]}" = 1 ]
    9m check autumn/a.9m autumn/a.9m >twice
    grep -q 'autumn/a.9m:2:7: warning: this match seems to be in two files \[W705\]' twice
    sed -i 's/^player H7 .*/& # ok W701 her sister/' autumn/b.9m
    [ -z "$(9m check autumn)" ]
}

@test "as data: the second place" {
    two
    9m check --as json autumn >found.json
    jq -e '.messages | length == 1' found.json
    jq -e '.messages[0] | .code == "W701" and .file == "autumn/b.9m" and .line == 4' found.json
    jq -e '.messages[0].see[0] | .file == "autumn/a.9m" and .line == 4' found.json
    jq -e '.summary.warnings == 1' found.json
    9m check --as jsonl autumn | jq -e '.see[0].line == 4'
    9m check --as sarif autumn >found.sarif
    jq -e '.runs[0].results[0].relatedLocations[0].physicalLocation |
        .artifactLocation.uri == "autumn/a.9m" and .region.startLine == 4' found.sarif
}

@test "the same for any number of threads, and after messages of files" {
    two
    for n in 03 04 05 06 07 08 09; do
        sed "s/2026-10-03/2026-11-$n/; s/\"Mira Havelin\"/\"Mira $n\"/" autumn/a.9m >autumn/$n.9m
    done
    printf '7 nett\n' >>autumn/05.9m
    9m check --threads 1 autumn >one || true
    tail -1 one | grep -q '^3 of 9 files: 1 error, 2 warnings; '
    for threads in 2 3 7; do
        9m check --threads "$threads" autumn | cmp one - || return 1
    done
}

@test "a file alone: its name and its folder" {
    mkdir 2026-27
    good_notes >2026-27/2026-10-04-foxes.9m
    run 9m check 2026-27/2026-10-04-foxes.9m
    [ "$status" = 0 ]
    holds "$output" 'the name of the file says 2026-10-04 [W706]'
    sed 's/2026-10-03/2025-10-03/' 2026-27/2026-10-04-foxes.9m >2026-27/a.9m
    run 9m check 2026-27/a.9m
    holds "$output" 'lies in no month of 2026-27, the season of the folder [W707]'
}

@test "the example season gives no warning" {
    [ -z "$(9m check "$ROOT/examples/season")" ]
}

@test "a match in two files is told by all that counts both" {
    cp "$ROOT"/examples/season/*.9m .
    sed 's/ net$/ long/' 2026-10-03-foxes.9m >again.9m
    for command in 'tally --threads 1' 'tally --threads 3' 'advise' 'scout foxes' 'season' \
        'aim --server 9' 'export' 'export --threads 3'; do
        # shellcheck disable=SC2086
        run --separate-stderr 9m $command .
        [ "$status" = 0 ]
        holds "$stderr" 'this match seems to be in two files [W705]'
    done
    run --separate-stderr 9m sheet --bench .
    holds "$stderr" 'this match seems to be in two files [W705]'
}
