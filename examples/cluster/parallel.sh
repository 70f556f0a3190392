#!/bin/bash
# Counts a tree of notes on several machines with GNU parallel and ssh: each folder
# of the tree is copied to one of them and counted there, and the counts are added up
# here.
#
#     parallel.sh TREE HOSTS WORK
#
# HOSTS is what `parallel --sshlogin` takes: 4/anna,2/coach@berta for so many folders
# at once on each. They need 9m, rsync and ssh without a password, and keep nothing.
# A folder right below TREE holds all that its notes need, squads and drills too.
# WORK is a folder that does not exist yet; when all is done it has counts.json, of
# which `9m tally --merge --by all WORK/counts.json` makes tables. If a folder could
# not be counted there is no such file; what is wrong is told, and the exit status is
# not 0. PARALLEL and PARALLEL_SSH are parallel's own, for more of its options.
set -euo pipefail
[ $# = 3 ] || { sed -n '2,/^set/s/^# \{0,1\}//p' "$0" >&2; exit 2; }
tree=$(cd "$1" && pwd) hosts=$2

mkdir "$3" # and no further if it is there: its counts would mix with ours
work=$(cd "$3" && pwd)
mkdir "$work/parts"

astray=$(find "$tree" -maxdepth 1 -type f -name '*.9m' -print -quit)
[ -z "$astray" ] || { echo "$0: $astray lies in no folder of $tree" >&2; exit 1; }
find "$tree" -mindepth 1 -maxdepth 1 -type d ! -name '.*' -printf '%f\0' | sort -z >"$work/folders"
[ -s "$work/folders" ] || { echo "$0: no folder in $tree" >&2; exit 1; }

cd "$work/parts"
parallel --null --sshlogin "$hosts" --workdir ... --transferfile "$tree/./{}" --return '{#}.json' \
    --cleanup --tag --joblog "$work/jobs" \
    9m tally --partial -o '{#}.json' -- '{}' <"$work/folders" || {
    status=$?
    echo "nothing is added up; not counted:"
    awk -F '\t' 'NR > 1 && $7 != 0 { print "  folder " $1 " on " $2 ": " $9 }' "$work/jobs"
    exit $status
} >&2
exec 9m tally --merge --partial -o "$work/counts.json" ./*.json
