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
