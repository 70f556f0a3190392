#!/usr/bin/env bats
# Tables: what a row says, forms that agree, texts that do no harm.
load kit

# column NAME [FILE]: its cells, one a line.
column() {
    python3 -c '
import csv, sys
for row in csv.DictReader(open(sys.argv[2], encoding="utf-8", newline="")):
    print(row[sys.argv[1]])' "$1" "${2-serves.csv}"
}

column_is() { # NAME CELL...
    local name=$1
    shift
    same "$(column "$name" | tr '\n' '|')" "$(printf '%s|' "$@")"
}

match_of_all() {
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'team H "Herons" women' 'team G "Foxes" women' \
        'player H7 "Mira Havelin" topspin m4/3' 'player H12 "Ana, \"Bo\" Lindbro" lefthanded p2.5' \
        'player H3 "Ida"' 'player H9 "Noor"' 'player H4 "Liv"' 'player H10 "Mae"' \
        'focus 7 td "Ring toss" 14/20' 'observe toss nerve' 'set 1 H' \
        'lineup H 7 12 3 9 4 10' 'plan by11' '7 ad5 go v78 td nr in2 d5-6 by11 won 1:02' \
        '7 r long 4.5,9.5' 'G3 in1 by9 lost' 'timeout G' '12 net-0.25 3' 'G4 ace ?'
}

@test "each column of a match" {
    match_of_all >harbour.9m
    9m export harbour.9m >serves.csv
    column_is line 16 17 18 20 21
    column_is date 2026-10-03 2026-10-03 2026-10-03 2026-10-03 2026-10-03
    column_is kind match match match match match
    column_is set 1 1 1 1 1
    column_is rally 1 2 3 4 5
    column_is team H H G H G
    column_is team_name Herons Herons Foxes Herons Foxes
    column_is server 7 7 3 12 4
    column_is server_name 'Mira Havelin' 'Mira Havelin' '' 'Ana, "Bo" Lindbro' ''
    column_is hand right right '' left ''
    column_is receiver 11 '' 9 '' ''
    column_is type topspin topspin '' '' ''
    # the routine's third, the line's own, the routine's metres (2.5 is below 3.0)
    column_is start m r '' r ''
    column_is start_x_m '' '' '' 2.5 ''
    column_is paces 4 4 '' '' ''
    column_is steps 3 3 '' '' ''
    column_is start_said 0 1 0 0 0
    column_is aim 5 '' '' '' ''
    column_is aim_deep 1 '' '' '' ''
    column_is intent go '' '' '' ''
    column_is speed_kmh 78 '' '' '' ''
    column_is marks 'nr td' '' '' '' ''
    column_is observed 'toss nerve' 'toss nerve' '' 'toss nerve' ''
    column_is outcome in long in net ace
    column_is pass 2 '' 1 '' 0
    column_is plan by11 by11 '' by11 ''
    column_is focus td td '' '' ''
    column_is margin_m '' 0.5 '' -0.25 ''
    column_is zone 5 6 '' 3 ''
    column_is deep 1 0 '' 0 ''
    column_is seam 6 '' '' '' ''
    column_is landing_x_m '' 4.5 '' '' ''
    column_is landing_d_m '' 9.5 '' '' ''
    column_is place played floor '' net ''
    column_is won 1 0 0 0 1
    column_is us_before 0 1 1 2 2
    column_is them_before 0 0 1 1 2
    column_is us 1 1 2 2 2
    column_is them 0 1 1 2 3
    column_is turn_serve 1 2 1 1 1
    column_is after_timeout 0 0 0 1 0
    column_is cold 0 0 0 0 0
    column_is cancelled 0 0 0 0 0
    column_is repeat 1 1 1 1 1
    column_is video_s 62 '' '' '' ''
    column_is review 0 0 0 0 1
}

@test "rotation, cold substitute, wrong server, a point taken back" {
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'team H "Herons" women' \
        'team G "Foxes" women' 'set 1 H' 'lineup H 7 12 3 9 4 10' '7 ace' \
        'sub H 14 for 7' '14 ace' '14 net' 'G5 net' '3 ace' 'cancel H 1' '3 order' 'G6 net' >a.9m
    9m check a.9m
    9m export a.9m >serves.csv
    column_is server 7 14 14 5 3 3 6
    column_is charged '' '' '' '' '' 12 ''
    column_is cold 0 1 0 0 0 0 0
    column_is turn_serve 1 2 3 1 1 2 1
    column_is cancelled 0 0 0 0 1 0 0
    column_is us_before 0 1 2 2 3 3 3
    column_is us 1 2 2 3 4 3 4
    column_is them 0 0 1 1 1 2 2
    same "$(column rotation | sed -n '1,3p;5,6p' | tr '\n' '|')" '1|1|1|2|2|'
}

@test "set points of either team" {
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'team H "Herons" women' \
        'team G "Foxes" women' 'set 1 H' 'gap 23-22 H' '7 ace' '7 net' 'G5 ace' 'G5 net' \
        '9 ace' 'end 26-24' >a.9m
    9m check a.9m
    9m export a.9m >serves.csv 2>said
    column_is us_before 23 24 24 24 25
    column_is set_point '' H H '' H
    # The lines before the gap are missing, and that is told.
    grep -q INCOMPLETE said
}

@test "replays get no row; a cancelled serve keeps its own" {
    notes '7 replay' '7 ace' >a.9m
    9m export a.9m >serves.csv
    column_is line 7
    column_is rally 1
}

@test "one team recorded: the other score is empty" {
    printf '%s\n' 'notation 1' 'match 2026-10-03' 'team H "Herons" women' 'team G "Foxes" women' \
        'record ours' 'set 1 H' '7 ace' '7 net' '12 in2 won' '12 net' >ours.9m
    9m export ours.9m >serves.csv
    column_is us_before 0 1 2 3
    same "$(column them | tail -2 | tr '\n' '|')" '||'
}

@test "a practice: repeats, the drill's aim, no score" {
    printf '%s\n' 'notation 1' 'practice 2026-10-06' 'team H "Herons" women' \
        'focus 7 td "Ring toss" 14/20' 'ring 1.0' 'toss 7 6/10 tn3 tl1' \
        'drill "Last metre" ad5' '7 in d6 x3' '. net' 'tries 7 8/10' 'jumps 9 40' >p.9m
    9m export p.9m >serves.csv
    column_is repeat 3 1
    column_is aim 5 5
    column_is aim_deep 1 1
    column_is drill 'Last metre' 'Last metre'
    column_is won '' ''
    column_is us_before '' ''
    column_is set '' ''
    column_is cold '' ''
    9m export --table practice p.9m >serves.csv
    column_is entry focus toss tries jumps
    column_is player 7 7 7 9
    column_is hits 14 6 8 ''
    column_is tries 20 10 10 40
    column_is ring_m '' 1 '' ''
    column_is drill 'Ring toss' '' 'Last metre' 'Last metre'
    column_is misses '' 'tn3 tl1' '' ''
}

@test "CSV, JSON, JSON lines and SQLite hold the same" {
    cp -r "$ROOT/examples/season" season
    match_of_all >season/all.9m
    for table in serves practice; do
        9m export --table $table season >t.csv
        9m export --table $table --as json -o t.json season
        9m export --table $table --as jsonl season >t.jsonl
        9m export --table $table --as sqlite -o t.db season
        python3 - $table <<'PY'
import csv, json, sqlite3, sys
table = sys.argv[1]
document = json.load(open("t.json", encoding="utf-8"))
rows = document["rows"]
assert document["schema"] == 2 and not document["incomplete"] and len(rows) > 20
assert rows == [json.loads(line) for line in open("t.jsonl", encoding="utf-8")]
db = sqlite3.connect("t.db")
db.row_factory = sqlite3.Row
assert [dict(r) for r in db.execute(f"SELECT * FROM {table} ORDER BY rowid")] == rows
assert db.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
assert db.execute("PRAGMA user_version").fetchone()[0] == 2
plain = list(csv.DictReader(open("t.csv", encoding="utf-8", newline="")))
assert len(plain) == len(rows)
for p, r in zip(plain, rows):
    assert list(p) == list(r)
    for k in r:
        if r[k] is None: assert p[k] == "", (k, p[k])
        elif isinstance(r[k], str): assert p[k] == r[k], (k, p[k], r[k])
        else: assert float(p[k]) == r[k], (k, p[k], r[k])
PY
    done
}

@test "sqlite3 loads the CSV as it is" {
    9m export "$ROOT/examples/season" >t.csv
    9m export --as sqlite "$ROOT/examples/season" >t.db
    from_csv=$(sqlite3 :memory: '.import --csv t.csv s' 'SELECT count(*), sum(repeat), sum(pass + 0), sum(landing_x_m <> "") FROM s')
    from_db=$(sqlite3 t.db 'SELECT count(*), sum(repeat), sum(pass + 0), count(landing_x_m) FROM serves')
    same "$from_csv" "$from_db"
    [ "${from_csv%%|*}" -gt 500 ]
}

@test "RFC 4180: CRLF, quotes doubled, no BOM" {
    match_of_all >harbour.9m
    9m export harbour.9m >serves.csv
    [ "$(head -c 5 serves.csv)" = file, ]
    [ "$(wc -l <serves.csv)" = "$(grep -c $'\r$' serves.csv)" ]
    grep -q '"Ana, ""Bo"" Lindbro"' serves.csv
}

@test "a spreadsheet: byte-order mark, semicolons, the language's comma" {
    match_of_all >harbour.9m
    9m export --spreadsheet --lang de harbour.9m >de.csv
    [ "$(head -c 8 de.csv | od -An -tx1 | tr -d ' \n')" = efbbbf66696c653b ]
    grep -q ';-0,25;3;' de.csv
    ! grep -qi 'sep=' de.csv
    9m export --spreadsheet --lang en harbour.9m >en.csv
    [ "$(head -c 8 en.csv | od -An -tx1 | tr -d ' \n')" = efbbbf66696c652c ]
    grep -q ',-0.25,3,' en.csv
    9m export --spreadsheet harbour.9m | cmp - de.csv
    run -2 --separate-stderr 9m export --lang de harbour.9m
    run -2 --separate-stderr 9m export --spreadsheet --as json harbour.9m
    run -2 --separate-stderr 9m export --spreadsheet --lang deu harbour.9m
    holds "$stderr" 'did you mean'
}

@test "texts that a spreadsheet would run are guarded, numbers never" {
    printf '%s\n' 'notation 1' 'practice 2026-10-06' 'team H "Herons" women' \
        'player H1 "=1+1"' 'player H2 "+41"' 'player H3 "-2"' 'player H4 "@SUM(A1)"' \
        "player H5 \"'=1\"" 'player H6 "＝1"' 'player H7 "a=1"' "player H8 \"'t Hooft\"" \
        'drill "=cmd|x!A0"' '1 in' '2 in' '3 in' '4 in' '5 in' '6 in' '7 in' '8 net-0.2' >bad.9m
    9m export bad.9m >serves.csv
    column_is server_name "'=1+1" "'+41" "'-2" "'@SUM(A1)" "''=1" "'＝1" 'a=1' "'t Hooft"
    same "$(column drill | sort -u)" "'=cmd|x!A0"
    same "$(column margin_m | tail -1)" -0.2
    # JSON is no spreadsheet.
    same "$(9m export --as jsonl bad.9m | jq -r .server_name | head -1)" '=1+1'
}

@test "pseudonyms: the same key the same, another key others, no name left" {
    cp -r "$ROOT/examples/season" season
    echo 'a key of the club, 2026' >one.key
    printf 'a key of the club, 2026' >same.key
    echo 'another key of the club' >two.key
    9m export season >plain.csv
    for key in one same two; do
        for table in serves practice; do
            9m export --table $table --anonymise $key.key season >$key-$table.csv
        done
    done
    cmp one-serves.csv same-serves.csv
    cmp one-practice.csv same-practice.csv
    { column server_name plain.csv; column team_name plain.csv; } | sort -u | sed '/^$/d' >names
    [ "$(wc -l <names)" -gt 12 ]
    ! grep -qFf names one-serves.csv
    ! grep -qFf names one-practice.csv
    ! grep -q season one-serves.csv
    # As many people as before, and each name always gives the same.
    same "$(paste <(column server_name plain.csv) <(column server_name one-serves.csv) | sort -u | wc -l)" \
        "$(column server_name plain.csv | sort -u | wc -l)"
    same "$(column server_name one-serves.csv | sort -u | wc -l)" "$(column server_name plain.csv | sort -u | wc -l)"
    # Nobody keeps her pseudonym under another key.
    [ -z "$(comm -12 <(column server_name one-serves.csv | sed '/^$/d' | sort -u) \
        <(column server_name two-serves.csv | sed '/^$/d' | sort -u))" ]
    # The same as any other implementation of RFC 2104 and FIPS 180-4 makes it.
    name=$(column server_name plain.csv | sed -n 1p)
    expected=$(python3 -c '
import hmac, sys
print("player-" + hmac.new(b"a key of the club, 2026", b"player\0" + sys.argv[1].encode(), "sha256").hexdigest()[:12])' "$name")
    same "$(column server_name one-serves.csv | sed -n 1p)" "$expected"
    same "$(column team_name one-serves.csv | sed -n 1p)" "$(python3 -c '
import hmac, sys
print("team-" + hmac.new(b"a key of the club, 2026", b"team\0" + sys.argv[1].encode(), "sha256").hexdigest()[:12])' "$(column team_name plain.csv | sed -n 1p)")"
    # The rest of the table is what it was.
    cmp <(column outcome plain.csv) <(column outcome one-serves.csv)
    cmp <(column server plain.csv) <(column server one-serves.csv)
}

@test "a key that can be guessed is refused" {
    good_notes >a.9m
    echo short >short.key
    run -3 --separate-stderr 9m export --anonymise short.key a.9m
    holds "$stderr" 'can be guessed'
    [ -z "$output" ]
    run -3 --separate-stderr 9m export --anonymise none.key a.9m
    holds "$stderr" 'none.key: No such file'
}

@test "notes with errors give no table, and the old one stays" {
    mkdir d
    good_notes >d/good.9m
    notes '7 ace' '7 nett' '7 ace' >d/bad.9m
    echo old >t.csv
    run -1 --separate-stderr 9m export -o t.csv d
    same "$(cat t.csv)" old
    holds "$stderr" '[E201]'
    holds "$stderr" 'no table from notes with errors'
    run -1 --separate-stderr 9m export d
    [ -z "$output" ]
    run -1 --separate-stderr 9m export --partial-data --as json -o t.json d
    holds "$stderr" INCOMPLETE
    same "$(jq .incomplete t.json)" true
    [ "$(jq '.rows | length' t.json)" -ge 4 ]
    run -1 --separate-stderr 9m export --partial-data --as sqlite -o t.db d
    same "$(sqlite3 t.db 'SELECT incomplete FROM about')" 1
}

@test "a file that is not there, notes as output" {
    good_notes >a.9m
    run -3 --separate-stderr 9m export a.9m none.9m
    [ -z "$output" ]
    before=$(cat a.9m)
    run -2 --separate-stderr 9m export -o a.9m a.9m
    same "$(cat a.9m)" "$before"
    ln a.9m b.9m
    run -2 --separate-stderr 9m export -o b.9m a.9m
    same "$(cat a.9m)" "$before"
    run -3 --separate-stderr 9m export -o none/t.csv a.9m
    run -2 --separate-stderr 9m export --as xlsx a.9m
    run -2 --separate-stderr 9m export
}

@test "a path with a comma, a line break and bytes that are no UTF-8" {
    good_notes >$'a,\n"b".9m'
    9m export $'a,\n"b".9m' >serves.csv
    same "$(column file | head -3)" $'a,\n"b".9m\na,'
    good_notes >$'\xff.9m'
    9m export $'\xff.9m' | iconv -f UTF-8 -t UTF-8 >/dev/null
    9m export --as json $'\xff.9m' | jq -e '.rows[0].file == "\ufffd.9m"'
}

@test "the same notes give the same bytes" {
    for form in csv json jsonl sqlite; do
        TZ=Asia/Tokyo 9m export --as $form "$ROOT/examples/season" >a
        LC_ALL=C 9m export --as $form "$ROOT/examples/season" | cmp a -
    done
}

@test "any number of threads gives the same bytes, with a bad file in the middle too" {
    cp -r "$ROOT/examples/season" season
    for i in $(seq 30); do cp season/2026-10-03-foxes.9m "season/c$i.9m"; done
    cp -r season bad
    for i in 3 14 25; do sed -i '60i 7 nett' "bad/c$i.9m"; done
    echo 'player H7 "Twice"' >>bad/herons.9m
    for args in '' '--as json' '--as jsonl' '--as sqlite' '--table practice' '--table practice --as json'; do
        # shellcheck disable=SC2086
        9m export $args -j 1 season >one
        # shellcheck disable=SC2086
        9m export $args --partial-data -j 1 bad none.9m >bad-one 2>bad-said && return 1
        for n in 2 3 7; do
            # shellcheck disable=SC2086
            9m export $args -j $n season | cmp - one
            # shellcheck disable=SC2086
            9m export $args -j $n --partial-data bad none.9m >bad-more 2>said && return 1
            cmp bad-one bad-more
            cmp bad-said said
            # shellcheck disable=SC2086
            run --separate-stderr 9m export $args -j $n bad
            [ "$status" = 1 ]
            [ -z "$output" ]
        done
        [ -s one ]
    done
    grep -q 'INCOMPLETE: serves are missing' bad-said
    [ "$(grep -c 'Twice' bad-said)" = 1 ]
}

@test "a table needs no memory for its rows" {
    needs_own_memory
    match_of_all >a.9m
    for i in $(seq 3000); do ln a.9m "$i.9m"; done
    { printf '%s\n' 'notation 1' 'practice 2026-10-06' 'team H "Herons" women'
      for i in $(seq 20000); do printf '7 m4/3 td in2 d5\n9 net\n'; done; } >long.9m
    peak() {
        python3 - "$NINEMETRE" "$@" <<'END'
import resource, subprocess, sys
subprocess.run([sys.argv[1], "export", "-j", "1", *sys.argv[2:], "-o", "out"], check=True)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
END
    }
    for form in csv json sqlite; do
        few=$(peak --as $form a.9m) many=$(peak --as $form .)
        # 55,000 rows of more than 100 bytes; the names of the files are kept.
        [ "$(stat -c %s out)" -gt 5500000 ]
        [ $((many - few)) -lt 5500 ] || { echo "$form: $few KiB for one file, $many for all"; return 1; }
    done
}

@test "a folder for what is made that is not there is told; a small table needs none" {
    good_notes >a.9m
    TMPDIR=$PWD/none 9m export a.9m >small.csv
    run -3 --separate-stderr env TMPDIR="$PWD/none" "$NINEMETRE" export --as sqlite -o t.db a.9m
    holds "$stderr" 'TMPDIR names another folder'
    [ ! -e t.db ]
    for i in $(seq 3000); do ln a.9m "$i.9m"; done
    run -3 --separate-stderr env TMPDIR="$PWD/none" "$NINEMETRE" export --as json -o t.json .
    holds "$stderr" 'none: no room for what is made'
    same "$(printf '%s\n' "$stderr" | grep -c 'no room')" 1
    holds "$stderr" '2980 more such warnings; 9m check shows them'
    [ ! -e t.json ]
    mkdir tmp
    TMPDIR=$PWD/tmp 9m export --as json -o t.json .
    TMPDIR=$PWD/tmp 9m export --as sqlite -o t.db .
    [ -z "$(ls -A tmp)" ]
}

@test "a span without notes makes an empty table, and says so" {
    good_notes >a.9m
    run --separate-stderr 9m export --from 2030-01-01 .
    [ "$status" = 0 ]
    [ "${#lines[@]}" = 1 ]
    same "$stderr" '9m: no notes of the days that were asked for; the table is empty'
}
