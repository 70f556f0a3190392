#!/usr/bin/env bats
# A PostgreSQL of the test's own, on a socket in its own directory and without
# a network, takes the table with the statement that is shipped.
load ../cli/kit

setup_file() {
    PG=$(find /usr/lib/postgresql -maxdepth 2 -name bin -type d | sort -V | tail -n 1)
    PGHOST=$(mktemp -d /tmp/9m-pg-XXXXXX)
    PGDATABASE=postgres
    PGUSER=scorer
    export PG PGHOST PGDATABASE PGUSER
    # PostgreSQL does not run as root.
    [ "$(id -u)" != 0 ] || chown nobody "$PGHOST"
    as_nobody "$PG/initdb" -U scorer -E UTF8 --locale=C -A trust -D "$PGHOST/data" >&2
    as_nobody "$PG/pg_ctl" -D "$PGHOST/data" -w -l "$PGHOST/log" \
        -o "-c listen_addresses= -c fsync=off -k $PGHOST" start >&2
}

teardown_file() {
    as_nobody "$PG/pg_ctl" -D "$PGHOST/data" -m immediate -w stop >&2
    rm -rf "$PGHOST"
}

as_nobody() {
    if [ "$(id -u)" = 0 ]; then
        (cd / && setpriv --reuid nobody --regid nogroup --clear-groups "$@")
    else
        "$@"
    fi
}

load_table() { # NAME
    psql -q -v ON_ERROR_STOP=1 -f "$ROOT/grammar/export.$1.sql" <"$1.csv"
}

@test "the season loads with the shipped statement" {
    9m export -o serves.csv "$ROOT/examples/season"
    9m export --table practice -o practice.csv "$ROOT/examples/season"
    load_table serves
    load_table practice
    9m export --as sqlite -o t.db "$ROOT/examples/season"
    sql='SELECT count(*), sum(repeat), sum(pass), count(landing_x_m), count(*) - count(won),
        count(DISTINCT server_name) FROM serves'
    same "$(psql -At -c "$sql")" "$(sqlite3 t.db "$sql")"
    [ "$(psql -At -c 'SELECT count(*) FROM serves')" -gt 500 ]
    same "$(psql -At -c 'SELECT count(*) FROM practice')" "$(($(wc -l <practice.csv) - 1))"
    # Every cell, not only the sums: out again as it came in. Numbers lose no digit.
    psql -q -c '\copy (SELECT * FROM serves ORDER BY file, line) TO again.csv WITH (FORMAT csv, HEADER true)'
    python3 - <<'PY'
import csv
read = lambda name: sorted(csv.reader(open(name, encoding="utf-8", newline="")))
assert read("again.csv") == read("serves.csv")
PY
}

@test "what is no table of serves is refused" {
    printf 'file,line\r\na,1\r\n' >serves.csv
    run -3 load_table serves
}

# tallied CUT [ROW]: team, name or row, serves, broke, errors, won of 9m tally, sorted.
tallied() {
    9m tally --as csv --by "$1" archive | python3 -c '
import csv, sys
from collections import Counter
sums = {}
for r in csv.DictReader(sys.stdin):
    if sys.argv[1] in ("", r["row"]):
        sums.setdefault((r["team"], r["name"] or r["row"]), Counter()).update(
            {k: int(r[k]) for k in ("serves", "broke", "errors", "won")})
for key, c in sorted(sums.items()):
    print(*key, c["serves"], c["broke"], c["errors"], c["won"], sep="|")' "${2-}"
}

# answer N: what query N of the shipped ones gives, in the same form.
answer() {
    awk -v n="$1" -v RS= 'NR == n + 1' "$ROOT/examples/postgresql/queries.sql" |
        psql -At -F '|' | sed 's/|$/|0/' | LC_ALL=C.UTF-8 sort >"answer$1"
}

@test "a million serves load with the shipped script, and the shipped queries say what the tally says" {
    "${NINEMETRE%/*}/tests/bench/lifelike" --seed 3 tree 1000000 archive 2>/dev/null
    9m export -o serves.csv archive
    psql -q -f "$ROOT/examples/postgresql/load.sql" <serves.csv
    same "$(psql -At -c 'SELECT count(*) FROM serves')" "$(($(wc -l <serves.csv) - 1))"
    [ "$(psql -At -c 'SELECT sum(repeat) FROM serves')" -ge 1000000 ]
    n=0
    for cut in server type set; do
        n=$((n + 1))
        answer $n
        tallied $cut | sort >told
        diff told answer$n
        [ "$(wc -l <told)" -gt 10 ]
    done
    answer 4
    tallied situation cold | sed 's/|cold|/|1|/' | sort | diff - answer4
    # The others run, too, and give something.
    psql -At -v ON_ERROR_STOP=1 -f "$ROOT/examples/postgresql/queries.sql" >all
    [ "$(wc -l <all)" -gt "$(cat answer? | wc -l)" ]
}

@test "what can't be loaded leaves the old table" {
    9m export -o serves.csv "$ROOT/examples/season"
    load() { psql -q -f "$ROOT/examples/postgresql/load.sql"; }
    load <serves.csv
    before=$(psql -At -c 'SELECT count(*), max(date) FROM counted')
    run load </dev/null
    [ "$status" = 3 ]
    holds "$output" 'there was no serve to read; the old table stays'
    sed '20s/,2026-/,2026-99-/' serves.csv >broken.csv
    run load <broken.csv
    [ "$status" = 3 ]
    same "$(psql -At -c 'SELECT count(*), max(date) FROM counted')" "$before"
    load <serves.csv
    same "$(psql -At -c 'SELECT count(*), max(date) FROM counted')" "$before"
}
